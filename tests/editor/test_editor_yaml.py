"""Do an independent YAML 1.2 parser and we read the same in every file that comes along, and do the schemas take what it reads?

Independent of us: the npm package yaml (YAML 1.2.2, its core and failsafe schemas, chapter 10) and the validator of the Python
package jsonschema; for patterns, the regular expressions of node (ECMA-262).
"""
import re
import shutil
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from generator.intake.yaml_tree import read_tree
from generator.model import forms
from generator.record.starter import HOUSES, write_starter
from tests.conftest import ROOT
from tests.editor.node import ask
from tests.schema_fields import FORMATS, SCHEMAS, every_leaf

STARTER = ROOT / "templates" / "starter"
PLACES = {"jobs": ROOT / "jobs", "profiles": ROOT / "generator" / "profiles", **{f"starter-{house}": STARTER for house in HOUSES}}
KINDS = {"job.yaml": "job", "people.yaml": "people", "company.yaml": "company"}
KIND_OF_FOLDER = {"equipment": "sheet", "profiles": "profile"}
# What phones write is JSON, and edited by nobody.
WRITTEN_BY_PHONES = "results"
# What the program writes of an issue is edited by nobody.
WRITTEN = [f"{name}/{path.relative_to(place)}" for name, place in PLACES.items() for path in sorted(place.rglob("*.yaml"))
           if path.name != "issued.yaml"]


def kind_of(path: Path) -> str:
    return KIND_OF_FOLDER.get(path.parent.name) or KINDS[path.name]


@pytest.fixture(scope="module")
def copies(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """Every file by its name; starter files as `doorpost new` writes them, for either way of giving a house."""
    folder = tmp_path_factory.mktemp("files")
    for name, place in PLACES.items():
        if place == STARTER:
            write_starter(folder / name, place, name.partition("-")[2])
        else:
            shutil.copytree(place, folder / name)
    return {name: folder / name for name in WRITTEN}


@pytest.fixture(scope="module")
def read(copies: dict[str, Path]) -> dict[str, dict[str, Any]]:
    """What the parser says of every file, by schema and name."""
    paths = [str(path) for path in copies.values()]
    return {schema: dict(zip(copies, ask({"schema": schema, "files": paths}))) for schema in ("core", "failsafe")}


def with_nothing(texts: Any, core: Any) -> Any:
    """What the failsafe schema read, and nothing where the core schema reads null: to the failsafe schema `~` is a text."""
    if isinstance(texts, dict):
        return {key: with_nothing(value, core[key]) for key, value in texts.items()}
    if isinstance(texts, list):
        return [with_nothing(one, other) for one, other in zip(texts, core, strict=True)]
    return None if core is None else texts


def in_order(value: Any) -> Any:
    """The same with groups as lists of pairs, so that the order of keys counts: rooms as listed are the walking order."""
    if isinstance(value, dict):
        return [[key, in_order(inner)] for key, inner in value.items()]
    return [in_order(one) for one in value] if isinstance(value, list) else value


def faults(kind: str, data: Any) -> list[str]:
    """What the schema says against a file's data."""
    found = Draft202012Validator(SCHEMAS[kind], format_checker=FORMATS).iter_errors(data)
    return [f"{error.json_path}: {error.message[:200]}" for error in found]


def test_there_are_files_of_every_kind() -> None:
    assert {kind_of(Path(name)) for name in WRITTEN} == set(SCHEMAS) - {WRITTEN_BY_PHONES} and len(WRITTEN) >= 19


@pytest.mark.parametrize("name", WRITTEN)
def test_every_text_is_read_as_the_independent_parser_reads_it(copies, read, name: str) -> None:
    theirs, tree = read["failsafe"][name], read_tree(copies[name], name)
    assert (theirs["faults"], tree.problems) == ([], [])
    # Their object puts keys of digits first, as JavaScript does; order is compared where there are none.
    data = with_nothing(theirs["data"], read["core"][name]["data"])
    assert data == tree.data
    if not re.search(r"^\s*\d+\s*:", copies[name].read_text(encoding="utf-8"), re.M):
        assert in_order(data) == in_order(tree.data)


@pytest.mark.parametrize("name", WRITTEN)
def test_what_an_editor_sees_is_taken_by_the_schema(copies, read, name: str) -> None:
    seen = read["core"][name]
    assert seen["faults"] == [] and faults(kind_of(copies[name]), seen["data"]) == []


@pytest.mark.parametrize("old, new, at", [
    ("entry_s: 30,", "entry_s: half,", "$.times.entry_s"),
    ("entry_s: 30,", "entry_s: 601,", "$.times.entry_s"),
    ('serial: "00A4F3"', "serial: 0o17", "$.devices.D1.serial"),
    ("built_before: true", "built_before: no", "$.premises.built_before"),
    ("dated: 2026-09-14", "dated: 2026-02-30", "$.dated"),
    ("role: timed-entry", "role: timed-entri", "$.devices.D1.role"),
    ("cooking: true", "coking: true", "$.premises.storeys.ground.rooms.kitchen"),
])
def test_a_mistake_is_seen_at_its_place(tmp_path, old: str, new: str, at: str) -> None:
    text = (ROOT / "jobs" / "thrift-cottage" / "job.yaml").read_text(encoding="utf-8")
    assert text.count(old) == 1
    (tmp_path / "job.yaml").write_text(text.replace(old, new), encoding="utf-8")
    seen = ask({"schema": "core", "files": [str(tmp_path / "job.yaml")]})[0]["data"]
    assert [fault.partition(": ")[0] for fault in faults("job", seen)] == [at]


def test_a_text_read_otherwise_is_seen(copies, read) -> None:
    """The comparison itself: one changed scalar, one null too many, one key in another place."""
    name = next(name for name in WRITTEN if name.endswith("en-grade-2.yaml"))
    ours, theirs = read_tree(copies[name], name).data, read["failsafe"][name]["data"]
    assert with_nothing(theirs, read["core"][name]["data"]) not in ({**ours, "edition": "2026-12"}, {**ours, "edition": None})
    assert with_nothing(theirs, {**read["core"][name]["data"], "edition": None}) == {**ours, "edition": None}
    assert in_order(dict(reversed(ours.items()))) != in_order(theirs)


@pytest.mark.parametrize("written", ["", "~", "null", "Null", "NULL", "'~'", '""', "nul", "s", "no", "22:30", "0x1F", "1E5", "+441632960001"])
def test_nothing_is_what_the_core_schema_reads_as_null(tmp_path, written: str) -> None:
    path = tmp_path / "one.yaml"
    path.write_text(f"a: {written}\n", encoding="utf-8")
    texts, core = (ask({"schema": schema, "files": [str(path)]})[0]["data"] for schema in ("failsafe", "core"))
    assert read_tree(path, "one.yaml").data == with_nothing(texts, core)


def test_patterns_mean_the_same_in_python_and_in_ecma_262() -> None:
    # A measured value is text in a file; the office asks for its form, and no schema does.
    kinds = [one for one in vars(forms).values() if isinstance(one, forms.Form) and one.type == "string"]
    assert {leaf.schema["pattern"] for leaf in every_leaf() if "pattern" in leaf.schema} - {
        forms.WHOLE.as_name().schema()["pattern"]} == {kind.schema()["pattern"] for kind in kinds if kind is not forms.MEASURED}
    letters = [chr(code) for code in (*range(0x3100), 0xFEFF, 0xFFFD, 0x1F600, 0x10FFFF)]
    around = ("{}", "a{}b", "2026-09-1{}", "03:3{}", "+44 1632 96000{}", "https://packs.company.example/{}/", "k3v9q0x7m2c8r4t6y1w5z0a7b{}",
              "k3v9q2x{}", "k3v9q2x7-m2c8r4-00001{}", "check/{}", "2026-11-24T10:05:00+00:0{}", "9f86d081884{}", "9f86d081" * 7 + "9f86d08{}", "M10 1{}")
    texts = [shape.format(letter) for letter in letters for shape in around]
    theirs = ask({"patterns": [kind.schema()["pattern"] for kind in kinds], "texts": texts})
    for kind, verdicts in zip(kinds, theirs):
        differing = [text for text, verdict in zip(texts, verdicts) if kind.fits(text) != verdict]
        # A phone's words are taken as they came.
        assert any(verdicts) and (not all(verdicts) or kind.pattern == forms.TOLD.pattern) and differing == [], kind.wanted
