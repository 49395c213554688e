"""Is everything that a person can use written in the manual that the program makes, and does the README lead there?"""
import json
import re
import shlex
import sys
import zlib
from pathlib import Path
from types import ModuleType

import pytest
from bs4 import BeautifulSoup, Tag

from generator.cli import CLEAR, INVALID, NO_FILE, STOPPED, USAGE, main, parser
from generator.cli.codes import WORST
from generator.model.visibility import LETTERS, ROOTS, TABLE, may_see, patterns
from generator.pages.keys import FILES, MODELS, key_rows
from generator.pages.manual import formulas as manual_formulas
from generator.pages.manual.commands import commands_of, usage
from generator.pages.manual.words import MARKS, SIGNALS, said_under
from generator.procedure.safety import Word
from generator.publish.places import PACKAGE
from generator.rules.all_rules import FAMILIES, RULES
from generator.rules.finding import Severity
from generator.tables.glossary import GLOSSARY
from generator.terms.source import Known
from tests.conftest import ROOT

README = (ROOT / "README.md").read_text(encoding="utf-8")
COMMANDS = {name: one for name, one, _ in commands_of(parser())}
FAMILY_OF = {rule.id: family.name for family in FAMILIES for rule in family.rules}


@pytest.fixture(scope="module")
def page(manual: Path):
    """A page of the manual by its path, read once."""
    read: dict[str, BeautifulSoup] = {}

    def one(path: str) -> BeautifulSoup:
        if path not in read:
            read[path] = BeautifulSoup((manual / path).read_text(encoding="utf-8"), "html5lib").select_one("article")
        return read[path]

    return one


def below(heading: Tag) -> str:
    """What stands between a heading and the next of its rank, as one line."""
    out = []
    for one in heading.find_next_siblings():
        if one.name == heading.name:
            break
        out.append(one.get_text(" "))
    return " ".join(" ".join(out).split())


def rows(soup: BeautifulSoup) -> dict[str, str]:
    """The lines of all tables of a page: the head of each, and what follows it."""
    return {" ".join(row.th.get_text().split()): " ".join(" ".join(cell.get_text(" ") for cell in row.select("td")).split())
            for row in soup.select("tbody tr")}


def without(soup: BeautifulSoup, text: str) -> BeautifulSoup:
    """A page without every element that says just this."""
    copy = BeautifulSoup(str(soup), "html5lib")
    found = [one for one in copy.find_all(True) if one.get_text().strip() == text]
    assert found
    for one in found:
        one.string = "gone"
    return copy


def lacking_options(soup: BeautifulSoup, name: str) -> list[str]:
    """What may be given to a command and has no line under its name."""
    shown = below(soup.find("h2", id=name)) if soup.find("h2", id=name) else ""
    given = [one.option_strings[-1] if one.option_strings else one.metavar for one in COMMANDS[name]._actions]
    return [one for one in given if one != "--help" and not re.search(rf"{re.escape(one)}\b", shown)]


@pytest.mark.parametrize("name", COMMANDS)
def test_a_command_has_its_part_with_every_option_and_a_line_in_the_readme(page, name: str) -> None:
    soup = page("commands.html")
    assert soup.find("h2", id=name) and lacking_options(soup, name) == []
    assert usage(COMMANDS[name]) in below(soup.find("h2", id=name))
    assert re.search(rf"^\| `doorpost {name}[ `]", README, re.M)


def test_an_option_without_its_line_is_seen(page) -> None:
    assert lacking_options(without(without(page("commands.html"), "--as-of DATE"), usage(COMMANDS["build"])), "build") == ["--as-of"]


@pytest.mark.parametrize("name", COMMANDS)
def test_a_command_says_what_each_of_its_arguments_is(name: str) -> None:
    assert all(action.help for action in COMMANDS[name]._actions)


def test_every_exit_code_has_its_line(page) -> None:
    codes = {CLEAR, STOPPED, USAGE, INVALID, NO_FILE, *WORST}
    assert len(codes) == 5 and [code for code in codes if not rows(page("commands.html")).get(str(code))] == []


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_a_rule_is_in_the_list_and_has_its_part_with_all_that_is_known_of_it(page, rule) -> None:
    assert rows(page("rules/index.html"))[rule.id] == f"{rule.severity.value} {rule.title}"
    soup = page(f"rules/{FAMILY_OF[rule.id]}.html")
    shown = below(soup.find("h2", id=rule.id))
    for part in (rule.title, rule.severity.value, rule.why, rule.mends, "What is compared", "Accepting it"):
        assert " ".join(part.split()) in shown, part
    assert (f"It cannot be accepted: {rule.firm}" in shown) == bool(rule.firm)
    assert all(need.what[1:] in shown for need in rule.needs)


@pytest.mark.parametrize("rule", [one for one in RULES if one.limits], ids=lambda rule: rule.id)
def test_a_rules_limits_are_cited_under_each_profile_that_comes_along(page, profiles, rule) -> None:
    shown = below(page(f"rules/{FAMILY_OF[rule.id]}.html").find("h2", id=rule.id))
    for profile in profiles.values():
        assert f"{profile.name}:" in shown
        for name in (one for one in rule.limits if one in profile.limits):
            assert f"{profile.limits[name].shown()}. {profile.source_of(name).cited()}" in shown


@pytest.fixture(scope="module")
def profiles():
    """The profiles that come along."""
    from generator.intake.profile_reader import profiles_shipped

    found = profiles_shipped()
    assert set(found) == {path.stem for path in (PACKAGE / "profiles").glob("*.yaml")}
    return found


def test_every_limit_of_every_profile_stands_with_value_source_and_mark(page, profiles) -> None:
    for key, profile in profiles.items():
        soup = page(f"limits/{key}.html")
        for name, limit in profile.limits.items():
            line = " ".join(soup.find("tr", id=name).get_text(" ").split())
            assert limit.shown() in line and f"({limit.known}" in line and name in line


def shown_keys(soup: BeautifulSoup) -> dict[str, dict[str, str]]:
    """Each key of a page with its facts."""
    return {one.h3.get_text(): {name.get_text(): name.find_next_sibling("dd").get_text() for name in one.select("dt")}
            for one in soup.select(".key")}


def as_row(way: str) -> str:
    """A key's way as the table of readers writes it."""
    return ".".join("*" if step in ("NAME", "-") else step for step in way.split("."))


def missing_keys(soup: BeautifulSoup, root: str) -> list[str]:
    """The rows of the table of readers, or else of the model, that have no key on a page. The rows are walked by another way than the page's."""
    known = set(map(as_row, shown_keys(soup)))
    wanted = {one.removeprefix(f"{root}.") for one in patterns(MODELS[root], root)}
    return sorted(one for one in wanted if one.rstrip(".*") not in known)


@pytest.mark.parametrize("root", FILES)
def test_every_key_of_a_file_has_its_part(page, root: str) -> None:
    soup = page(f"keys/{root}.html")
    assert missing_keys(soup, root) == []
    for key, facts in shown_keys(soup).items():
        assert set(facts) >= {"Takes", "Needed", "Example"}, key
        assert facts["Needed"].startswith(("yes", "no")) and facts["Example"].startswith(key.rpartition(".")[2]), key


def test_a_key_without_its_part_is_seen(page) -> None:
    assert missing_keys(without(page("keys/job.html"), "times.entry_s"), "job") == ["times.entry_s"]


@pytest.mark.parametrize("root", ROOTS)
def test_every_key_says_who_may_see_it(page, root: str) -> None:
    shown = {as_row(key): facts for key, facts in shown_keys(page(f"keys/{root}.html")).items()}
    names = {reader.value for reader in LETTERS}
    for key, facts in shown.items():
        pattern = next((one for one in (f"{root}.{key}", f"{root}.{key}.*", f"{root}.{key}.*.*") if one in TABLE), None)
        if pattern:
            wanted = {reader.value for reader in LETTERS if may_see(reader, pattern)}
            assert set(re.findall(r"\w+", facts["Seen by"])) & names == wanted, key


@pytest.mark.parametrize("root", FILES)
def test_every_key_says_what_it_means(root: str) -> None:
    assert [row.way for row in key_rows(root) if not row.means] == []


def test_keys_say_unit_bounds_default_and_how_they_are_written(page) -> None:
    """Worked out by hand from the models."""
    keys = shown_keys(page("keys/job.html"))
    assert keys["times.entry_s"] == {"Takes": "whole number in s; from 0 to 600", "Needed": "yes", "Example": "entry_s: 30",
                                     "Seen by": "installer, homeowner and record"}
    assert keys["devices.NAME.use_input_2"]["Needed"] == "no; without it: false"
    assert keys["devices.NAME.at_m"]["Takes"] == "list: number in m; from -500 to 500; 2 entries"
    assert keys["kind"]["Takes"] == "one of: new, takeover, extension"
    assert keys["monitoring.telephone"]["Example"] == 'telephone: "01632 960001"'
    assert keys["reserved"]["Example"] == "reserved: [{list: zones, …}]"


def test_every_file_of_a_pack_and_of_a_job_has_its_line(page, demo: Path) -> None:
    shown = rows(page("files.html"))
    tops = {path.name + ("/" if path.is_dir() else "") for path in demo.iterdir()}
    tops |= {path.name for path in (demo / "station").iterdir()} | set(FILES.values())
    tops |= {path.name for path in (PACKAGE / "schemas").glob("*.json")}
    assert [name for name in tops if not shown.get(name)] == []


@pytest.mark.parametrize("module", manual_formulas.modules(), ids=lambda module: module.__name__.rpartition(".")[2])
def test_a_calculation_says_what_it_gives_by_which_formula_and_from_which_source(page, module: ModuleType) -> None:
    name, soup = module.__name__.rpartition(".")[2], page("formulas.html")
    heading = soup.find(["h2", "h3"], id=name)
    assert heading and heading.get_text() == (module.__doc__ or "").splitlines()[0]
    for function in manual_formulas.figures(module):
        assert soup.find("h3", id=f"{name}.{function.__name__}"), function.__name__
        assert manual_formulas.lacking(function, module) == (), f"{name}.{function.__name__}"


BARE = '''"""How long does it last?"""
from dataclasses import dataclass


@dataclass(frozen=True)
class Life:
    """A life in years."""

    years: float


def life(capacity_mah: float, drawn_ma: float) -> Life:
    """The life of a cell."""
    if drawn_ma <= 0:
        raise ValueError("no current is drawn")
    return Life(capacity_mah / drawn_ma)


def named(text: str) -> str:
    return text


def _inner(value: float) -> float:
    return value
'''
WHOLE = BARE.replace('The life of a cell.', 'The life of a cell: t = C / I. Source: NOTE 1, from memory. ValueError if no current is drawn.')


@pytest.mark.parametrize("source, missing", [
    (BARE, ("formula or example", "source", "errors")), (WHOLE, ()), (WHOLE.replace("t = C / I", "long"), ("formula or example",)),
    (WHOLE.replace("t = C / I", "long").replace("is drawn.\"", "is drawn.\n\n    >>> 1\n    1\n    \""), ()),
    (WHOLE.replace("Source: NOTE 1, from memory. ", ""), ("source",)), (WHOLE.replace(" ValueError if no current is drawn.", ""), ("errors",)),
])
def test_a_calculation_that_leaves_a_part_out_is_seen(tmp_path, monkeypatch, source: str, missing: tuple[str, ...]) -> None:
    """A module laid beside the others is found by itself, and only what computes a figure in it is asked."""
    name = f"lasting_{zlib.crc32(source.encode())}"
    (tmp_path / f"{name}.py").write_text(source, encoding="utf-8")
    monkeypatch.setattr(manual_formulas.calc, "__path__", [*manual_formulas.calc.__path__, str(tmp_path)])
    module = next(one for one in manual_formulas.modules() if one.__name__ == f"generator.calc.{name}")
    assert [one.__name__ for one in manual_formulas.figures(module)] == ["life"]
    assert manual_formulas.lacking(manual_formulas.figures(module)[0], module) == missing
    del sys.modules[module.__name__]


def test_every_word_with_a_meaning_of_its_own_is_explained(page) -> None:
    shown = rows(page("words.html"))
    assert all(shown.get(one.value) for kind in (Severity, Word, Known) for one in kind)
    assert set(said_under(Severity)) == set(Severity) and set(SIGNALS) == set(Word) and set(MARKS) == set(Known)
    assert all(one.means[:-1][1:] in shown[one.word].replace("`", "") or "`" in one.means for one in GLOSSARY)
    assert len({one.word for one in GLOSSARY}) == len(GLOSSARY) >= 45


# Words that are coined by makers or that promise what nobody can; written from the trade's own list of what to avoid.
AVOIDED = re.compile(r"\b(ward|hub|follow-me|ambush|quick-arm|auto-stay|smart-arm|part-guard|learn-in|teach-in|log-on|pairing|pet-immune|pet-proof|"
                     r"dialler|smart|unjammable|fully compliant|AI-verified)\b", re.IGNORECASE)


def test_no_page_of_the_manual_uses_a_word_that_belongs_to_a_product(manual: Path) -> None:
    found = {path.name: hit for path in manual.rglob("*.html")
             if (hit := AVOIDED.findall(BeautifulSoup(path.read_text(encoding="utf-8"), "html5lib").select_one("article").get_text(" ")))}
    assert found == {} and AVOIDED.search("The smart hub")


HOUSE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")


def rooms(text: str) -> dict[str, list[str]]:
    """The house as the table for contributors tells it: folders, and the files that a row names in them."""
    found: dict[str, list[str]] = {}
    for line in text.splitlines():
        if row := re.match(r"\| (`[\w/.`, ]+`) \| (.*)", line):
            for folder in re.findall(r"`([\w/.]+)`", row[1]):
                found.setdefault(folder, []).extend(re.findall(r"`(\w+\.py)`", row[2]))
    return found


def lost(text: str) -> list[str]:
    """What the table names and nobody has, and folders of the program that have no row."""
    told = rooms(text)
    files = [f"{folder}/{name}" for folder, names in told.items() for name in names
             if not any((ROOT / one / name).is_file() for one in told if names == told[one])]
    folders = {path.parent.relative_to(ROOT).as_posix() for path in (ROOT / "generator").rglob("*.py")} - {"generator"}
    paths = re.findall(r"`((?:calc|pages|publish|intake|model|rules|procedure|record|geometry|tables|terms|disk|cli)/[\w/]+\.py)`", text)
    return files + sorted(folders - set(told)) + [path for path in paths if not (ROOT / "generator" / path).is_file()]


def test_every_folder_has_its_row_for_contributors_and_every_file_named_is_there() -> None:
    assert len(rooms(HOUSE)) > 20 and lost(HOUSE) == []


@pytest.mark.parametrize("gone, missing", [
    ("| `generator/disk` |", "generator/disk"), ("`plot.py` the plot", "generator/pages/drawing/plots.py"), ("`calc/slots/law.py`", "calc/slots/laws.py")])
def test_a_room_that_moved_is_seen(gone: str, missing: str) -> None:
    """A row left out; a file and a path by a name that nobody has."""
    changed = HOUSE.replace(gone, gone.replace(".py", "s.py") if ".py" in gone else "| `elsewhere` |")
    assert changed != HOUSE and missing in lost(changed)


def test_every_target_of_make_has_its_line() -> None:
    text = README + (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    phony = re.search(r"^\.PHONY: (.+)$", (ROOT / "Makefile").read_text(encoding="utf-8"), re.M)[1].split()
    assert [target for target in phony if f"make {target}" not in text] == []


def test_the_two_commands_stand_first_after_one_paragraph() -> None:
    parts = README.split("\n\n")
    assert parts[0].startswith("# ") and not parts[1].startswith(("#", "`")) and parts[2].startswith("```\nmake pack")
    assert "make test" in parts[2]


def test_the_readme_is_short_and_every_file_that_it_names_is_there() -> None:
    assert len(README.splitlines()) <= 250
    names = re.findall(r"\]\(([^)#:]+)\)", README)
    assert names and [name for name in names if not (ROOT / name).exists()] == []


def blocks(text: str) -> list[str]:
    """The command lines of a text, without what is said behind them."""
    lines = [line.partition(" #")[0].strip() for block in re.findall(r"^```\n(.*?)^```", text, re.M | re.S) for line in block.splitlines()]
    return [line for line in lines if line.startswith("doorpost ")]


def test_the_readme_alone_leads_to_a_first_pack_an_archive_and_the_manual(tmp_path: Path, monkeypatch, capsys) -> None:
    """Every command that it shows is typed in its order, but the preview, which never ends."""
    monkeypatch.setenv("HOME", str(tmp_path))
    typed = [shlex.split(line)[1:] for line in blocks(README) if "preview" not in line]
    assert [one[0] for one in typed] == ["new", "check", "build", "issue", "manual"]
    for line in typed:
        assert main([str(Path(word).expanduser()) if word.startswith("~") else word for word in line]) == 0, line
    assert (tmp_path / "packs" / "J-0001" / "installer" / "index.html").is_file()
    assert (tmp_path / "archive" / "J-0001-r1.zip").is_file() and (tmp_path / "doorpost-manual" / "index.html").is_file()
    assert "Traceback" not in capsys.readouterr().err


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
