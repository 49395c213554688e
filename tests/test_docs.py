"""Is everything that a person can use written in the manual?"""
import argparse
import json
import re

import pytest

from generator.cli import parser
from generator.model.visibility import ROOTS
from generator.pages.keys import key_rows
from generator.publish.keys import renewed
from generator.publish.places import PACKAGE
from generator.rules.all_rules import RULES
from tests.conftest import ROOT

README = (ROOT / "README.md").read_text(encoding="utf-8")


def commands() -> dict[str, argparse.ArgumentParser]:
    return next(one for one in parser()._actions if isinstance(one, argparse._SubParsersAction)).choices


@pytest.mark.parametrize("name", commands())
def test_a_command_has_its_line_with_every_option(name: str) -> None:
    assert re.search(rf"^\| `doorpost {name}[ `]", README, re.M), name
    for option in (text for action in commands()[name]._actions for text in action.option_strings if text.startswith("--")):
        assert option == "--help" or f"`{option}" in README or f"{option} " in README, f"{name} {option}"


@pytest.mark.parametrize("name", commands())
def test_a_command_says_what_each_of_its_arguments_is(name: str) -> None:
    assert all(action.help for action in commands()[name]._actions)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_a_rule_has_its_line_with_severity_and_title(rule) -> None:
    assert f"| `{rule.id}` | {rule.severity.value} | {rule.title} |" in README


def test_the_tables_of_keys_are_those_of_the_models() -> None:
    assert README == renewed(README), "run: python -m generator.publish.keys README.md"


@pytest.mark.parametrize("root", ROOTS)
def test_a_key_says_what_it_means_and_has_its_line(root: str) -> None:
    rows = key_rows(root)
    assert rows and [row.way for row in rows if not row.means] == []
    assert [row.way for row in rows if f"| `{row.way}` |" not in README] == []


def test_every_file_of_a_pack_has_its_line(demo) -> None:
    tops = {path.name + ("/" if path.is_dir() else "") for path in demo.iterdir()}
    tops |= {path.name for path in (demo / "station").iterdir()}
    assert [name for name in tops if f"`{name}`" not in README] == []


def test_every_exit_code_has_its_line() -> None:
    from generator import cli

    for code in (cli.CLEAR, cli.STOPPED, cli.USAGE, cli.INVALID, cli.NO_FILE):
        assert re.search(rf"^\| {code} \| ", README, re.M)


def test_every_target_of_make_has_its_line() -> None:
    text = README + (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    phony = re.search(r"^\.PHONY: (.+)$", (ROOT / "Makefile").read_text(encoding="utf-8"), re.M)[1].split()
    assert [target for target in phony if f"make {target}" not in text] == []


def test_the_two_commands_stand_first_after_one_paragraph() -> None:
    parts = README.split("\n\n")
    assert parts[0].startswith("# ") and not parts[1].startswith(("#", "`")) and parts[2].startswith("```\nmake pack")
    assert "make test" in parts[2]


@pytest.mark.parametrize("path", sorted((PACKAGE / "schemas").glob("*.json")), ids=lambda path: path.name)
def test_a_schema_describes_every_property(path) -> None:
    def lacking(node, way: str):
        for name, inner in node.get("properties", {}).items():
            if "description" not in inner and "$ref" not in inner:
                yield f"{way}.{name}"
            yield from lacking(inner, f"{way}.{name}")
        for name, inner in node.get("$defs", {}).items():
            yield from lacking(inner, name)
    assert list(lacking(json.loads(path.read_text(encoding="utf-8")), path.name)) == []
    assert path.name in README


def test_a_command_without_its_line_is_seen(monkeypatch) -> None:
    monkeypatch.setitem(globals(), "README", README.replace("| `doorpost plan ", "| `doorpost p1an "))
    with pytest.raises(AssertionError):
        test_a_command_has_its_line_with_every_option("plan")


def test_a_key_without_its_line_is_seen(monkeypatch) -> None:
    monkeypatch.setitem(globals(), "README", README.replace("| `times.entry_s` |", "| `times.x` |"))
    with pytest.raises(AssertionError):
        test_a_key_says_what_it_means_and_has_its_line("job")
