"""Does what a reader may not see have any influence on that reader's pack?

No influence: change such a field, build again, and not a byte of the reader's folder differs.
"""
import ast
import copy
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from generator.model import readers_of_house, readers_of_job, readers_of_shared
from generator.model.visibility import LETTERS, ROOTS, TABLE, leaves, may_see, patterns
from generator.pipeline import Compiled, compile_job, looked_for, pack_of
from generator.publish.one_file import one_file
from generator.publish.places import own_wording
from generator.publish.render import translations
from generator.publish.site import write_site
from generator.terms.audience import Audience
from tests.conftest import DEMO, Files, write_files
from tests.every_field import (RESERVED, SPARE_SHEET, TWINS, Field, change, change_all, every_field_files, fields, hidden_from,
                               kinds, optional, put, rename, row_of, value_at, without)

FOLDERS = dict[str, bytes]
# Rows whose field can hold one value only, or none that keeps the job valid.
ONE_VALUE = {f"{root}.format" for root in ROOTS}


class Whole:
    """The job in which every field is set: its files, what is known about it, and each reader's folder."""

    def __init__(self, folder: Path):
        self.folder = folder
        self.files = every_field_files()
        self.compiled = self.compile(self.files)
        self.built = {audience: self.build(self.compiled, audience) for audience in Audience}

    def compile(self, files: Files) -> Compiled:
        return compile_job(write_files(files, self.folder / "job"))

    def build(self, compiled: Compiled, audience: Audience) -> FOLDERS:
        return built(compiled, audience, self.folder)

    @cache
    def changed(self, field: Field) -> tuple[Compiled, frozenset[str]] | None:
        """The job with another value in one field, and the rows which that touched."""
        one = change(self.files, field)
        return (self.compile(one.files), one.touched) if one else None


def built(compiled: Compiled, audience: Audience, beside: Path) -> FOLDERS:
    """One reader's folder, really built: every file by its name."""
    # Only the record's pages tell of the search.
    looked = looked_for(compiled, own_wording()) if audience is Audience.RECORD else {}
    out = beside / f"{audience.value}-{len(list(beside.iterdir()))}"
    pack = pack_of(compiled, audience, translations().gettext, looked)
    write_site(pack, out)
    files = {path.relative_to(out).as_posix(): path.read_bytes() for path in out.rglob("*") if path.is_file()}
    if audience is Audience.HOMEOWNER:
        files["../homeowner.html"] = one_file(pack, translations()).encode()
    assert files
    return files


def different(one: FOLDERS, other: FOLDERS) -> list[str]:
    """The names of files that differ or stand in one folder only."""
    return sorted(name for name in {*one, *other} if one.get(name) != other.get(name))


@pytest.fixture(scope="module")
def whole(tmp_path_factory) -> Whole:
    return Whole(tmp_path_factory.mktemp("whole"))


def values(compiled: Compiled) -> dict[str, list[Any]]:
    """Every value of a job's papers by its row."""
    papers = compiled.papers
    found: dict[str, list[Any]] = {}
    every = [*leaves(papers.job, "job", "job"), *leaves(papers.company, "company", "company"),
             *leaves(papers.profile, "profile", "profile"), *leaves(papers.people, "people", "people")]
    for name, sheet in papers.sheet_of.items():
        every += leaves(sheet, "sheet", name)
    for pattern, _, value in every:
        found.setdefault(pattern, []).append(value)
    return found


# --- the table ----------------------------------------------------------------------------------------------

def test_the_table_has_exactly_one_row_for_each_field() -> None:
    declared = [pattern for root, model in ROOTS.items() for pattern in patterns(model, root)]
    assert sorted(declared) == sorted(TABLE)
    assert len(declared) == len(set(declared))


def test_no_row_is_written_twice_in_the_source() -> None:
    tables = [node.value for part in (readers_of_job, readers_of_house, readers_of_shared)
              for node in ast.parse(Path(part.__file__).read_text(encoding="utf-8")).body if isinstance(node, ast.AnnAssign)]
    written = [key.value for table in tables for key in table.keys]
    assert len(written) == len(TABLE) and sorted(written) == sorted(TABLE)


def test_every_row_is_four_places_one_for_each_reader() -> None:
    allowed = [{letter, "-"} for letter in (LETTERS[audience] for audience in Audience)]
    wrong = {row: letters for row, letters in TABLE.items()
             if len(letters) != 4 or any(one not in may for one, may in zip(letters, allowed))}
    assert wrong == {}


def test_a_field_without_a_row_is_a_mistake_not_a_visible_field() -> None:
    with pytest.raises(KeyError):
        may_see(Audience.RECORD, "job.colour")


# --- the job that sets everything ---------------------------------------------------------------------------

def test_the_job_that_sets_everything_has_a_value_in_every_row_of_the_table(whole) -> None:
    assert set(TABLE) - set(values(whole.compiled)) == set()


def test_the_places_in_its_files_belong_to_exactly_the_rows_of_the_table(whole) -> None:
    assert {field.pattern for field in fields(whole.files)} == set(TABLE) == set(kinds())


def test_only_fields_that_can_hold_one_value_have_no_other(whole) -> None:
    other = {pattern: False for pattern in TABLE}
    for field in fields(whole.files):
        other[field.pattern] |= change(whole.files, field) is not None
    assert {pattern for pattern, found in other.items() if not found} == ONE_VALUE


# --- no influence -------------------------------------------------------------------------------------------

@pytest.mark.parametrize("audience", Audience)
def test_all_that_a_reader_may_not_see_changed_at_once_changes_no_byte_of_the_readers_folder(whole, audience) -> None:
    changed = whole.compile(change_all(whole.files, hidden_from(audience)))
    assert different(whole.build(changed, audience), whole.built[audience]) == []
    assert changed.fingerprint_of[audience] == whole.compiled.fingerprint_of[audience]
    before, after = values(whole.compiled), values(changed)
    hidden = {pattern for pattern in TABLE if not may_see(audience, pattern)} - ONE_VALUE
    assert {pattern for pattern in hidden if before[pattern] == after.get(pattern)} == set(), "these were not changed"


def one_by_one(whole: Whole, chosen: list[Field]) -> dict[Audience, set[str]]:
    """Changes fields one by one; gives the rows that were tried for each reader who may not see them."""
    tried: dict[Audience, set[str]] = {audience: set() for audience in Audience}
    for field in chosen:
        if not (found := whole.changed(field)):
            continue
        compiled, touched = found
        for audience in Audience:
            if not hidden_from(audience)(touched):
                continue
            tried[audience] |= touched
            assert compiled.fingerprint_of[audience] == whole.compiled.fingerprint_of[audience], f"{audience}: {field}"
            assert different(whole.build(compiled, audience), whole.built[audience]) == [], f"{audience}: {field}"
    return tried


def hidden_rows() -> dict[Audience, set[str]]:
    return {audience: {row for row in TABLE if not may_see(audience, row)} - ONE_VALUE for audience in Audience}


def one_of_each_row(files: Files) -> list[Field]:
    """A field of each row that can hold another value."""
    first: dict[str, Field] = {}
    twin = {"D5", TWINS["D5"]}
    # One of the twins first, if it has the field. A sheet that no unit uses last: what stands in it is hidden from all.
    for field in sorted(fields(files), key=lambda one: (SPARE_SHEET in one.path, twin.isdisjoint(one.path))):
        if row_of(field) not in first and change(files, field):
            first[row_of(field)] = field
    # The names of sheets in the job file that units use are seen where the units are seen.
    return [*first.values(), Field("job.equipment.*", ("job", "equipment", SPARE_SHEET), is_name=True)]


def test_one_field_of_each_row_changed_on_its_own_changes_no_byte_for_those_who_may_not_see_it(whole) -> None:
    assert one_by_one(whole, one_of_each_row(whole.files)) == hidden_rows()


@pytest.mark.long
def test_each_field_changed_on_its_own_changes_no_byte_for_those_who_may_not_see_it(whole) -> None:
    assert one_by_one(whole, fields(whole.files)) == hidden_rows()


# A unit that reports to a zone needs these two, any other may not have them.
NEEDED_BY_ZONES = {"job.devices.*.role", "job.devices.*.text"}
# A unit that lives on a cell needs this one.
NEEDED_BY_CELLS = {"sheet.handling.change_cell"}
# Left out, a second input is always used, and its unit then needs a second text.
ALWAYS_USED = "sheet.inputs.*.optional"


@pytest.mark.parametrize("audience", Audience)
def test_all_optional_fields_that_a_reader_may_not_see_can_be_left_out_without_a_trace(whole, audience) -> None:
    files = without(whole.files, lambda row: not may_see(audience, row) and row not in {*NEEDED_BY_ZONES, ALWAYS_USED})
    assert files != whole.files
    compiled = whole.compile(files)
    assert compiled.fingerprint_of[audience] == whole.compiled.fingerprint_of[audience]
    assert different(whole.build(compiled, audience), whole.built[audience]) == []


@pytest.mark.long
@pytest.mark.parametrize("row", sorted(row for row in optional() - NEEDED_BY_ZONES - NEEDED_BY_CELLS
                                       if not all(may_see(audience, row) for audience in Audience)))
def test_an_optional_field_can_be_left_out_without_a_trace_for_those_who_may_not_see_it(whole, row) -> None:
    others = [audience for audience in Audience if not may_see(audience, row)]
    number, why, second = "job.devices.*.number", "job.devices.*.number_why", "job.devices.*.protects_2"
    with_it = {"job.devices.*.use_input_2": {"job.devices.*.text_2", second}, "job.devices.*.text_2": {second}, number: {why},
               "sheet.control_unit.lists.fobs": {number, why, *RESERVED}, "sheet.control_unit.lists.tags": {number, why}}
    files = without(whole.files, {row, *with_it.get(row, ())}.__contains__)
    if row == "job.devices.*.text_2":
        files["job"]["devices"]["D3"]["use_input_2"] = "false"
    if row == ALWAYS_USED:
        files["job"]["devices"]["D4"]["text_2"] = "SHED HATCH"
    compiled = whole.compile(files)
    assert values(compiled) != values(whole.compiled)
    assert [one for one in others if compiled.fingerprint_of[one] != whole.compiled.fingerprint_of[one]] == []
    assert [one for one in others if different(whole.build(compiled, one), whole.built[one])] == []


def entries(value: Any, pattern: str, path: tuple) -> Iterator[tuple[str, tuple]]:
    """Every list and every group of names below a value: its row without the star, and its place."""
    if isinstance(value, dict):
        group = any(row == f"{pattern}.*" or row.startswith(f"{pattern}.*.") for row in TABLE)
        if group:
            yield pattern, path
        for key, inner in value.items():
            below = "sheet" if pattern == "job.equipment" else f"{pattern}.*" if group else f"{pattern}.{key}"
            yield from entries(inner, below, (*path, key))
    elif isinstance(value, list):
        yield pattern, path
        for index, inner in enumerate(value):
            yield from entries(inner, f"{pattern}.*", (*path, index))


def with_one_more(files: Files, path: tuple) -> Files:
    """The files with the last entry of a list or group a second time, a group's under another name.

    Of the supplies each may stand once and all do: there the list gets shorter, which must show as little.
    """
    files = copy.deepcopy(files)
    group = value_at(files, path)
    if path[-1] == "power_order":
        group.remove("battery")
    elif isinstance(group, list):
        group.append(copy.deepcopy(group[-1]))
    else:
        group[f"{list(group)[-1]}-more"] = copy.deepcopy(list(group.values())[-1])
    return files


def lists_of(files: Files) -> dict[str, tuple]:
    """One list or group of each row that has any."""
    found: dict[str, tuple] = {}
    for root, place in (("job", ("job",)), ("company", ("company",)), ("people", ("people",)),
                        *(("sheet", ("equipment", name)) for name in files["equipment"]),
                        *(("profile", ("profiles", name)) for name in files["profiles"])):
        for pattern, path in entries(value_at(files, place), root, place):
            if value_at(files, path) and SPARE_SHEET not in path:
                found.setdefault(pattern, path)
    return found


PLAN_LISTS = {"job.premises.stairs", "job.premises.roofs", "job.premises.constructions", "company.constructions",
              "profile.constructions", "job.premises.storeys.*.furniture", "job.premises.storeys.*.walls.between",
              "job.premises.storeys.*.walls.own", "job.devices.*.path.walls", "job.devices.*.path.floors"}
HIDDEN_LISTS = {
    Audience.INSTALLER: {"company.licences", "people.keyholders", "job.equipment"},
    Audience.HOMEOWNER: {"company.licences", "people.keyholders", "people.customer.address", "job.equipment",
                         "job.premises.hazards", "sheet.inputs", "sheet.terminals", "sheet.parts",
                         "sheet.control_unit.power_order", "profile.limits", "profile.documents", *PLAN_LISTS},
    Audience.STATION: {"company.licences", "job.equipment", "job.premises.hazards", "sheet.terminals", "sheet.parts",
                       "profile.limits", "profile.documents", "sheet.control_unit.power_order", *PLAN_LISTS},
    Audience.RECORD: {"job.equipment"},
}


@pytest.mark.parametrize("audience", Audience)
def test_one_more_entry_in_a_list_that_a_reader_may_not_see_leaves_no_trace(whole, audience) -> None:
    lists = lists_of(whole.files)
    traces = []
    for row in sorted(HIDDEN_LISTS[audience]):
        assert not any(may_see(audience, one) for one in TABLE if one.startswith(f"{row}.*")), row
        compiled = whole.compile(with_one_more(whole.files, lists[row]))
        assert values(compiled) != values(whole.compiled)
        if (compiled.fingerprint_of[audience] != whole.compiled.fingerprint_of[audience]
                or different(whole.build(compiled, audience), whole.built[audience])):
            traces.append(row)
    assert traces == []


@pytest.mark.parametrize("name", ["rig", "device", "wherry-contact"], ids=["short", "own word", "looked for"])
def test_the_record_shows_no_trace_of_the_name_of_a_sheet_that_no_unit_uses(whole, name) -> None:
    files = copy.deepcopy(whole.files)
    rename(files, Field("job.equipment.*", ("job", "equipment", SPARE_SHEET), is_name=True), name)
    assert different(whole.build(whole.compile(files), Audience.RECORD), whole.built[Audience.RECORD]) == []


# --- the same comparison can fail ---------------------------------------------------------------------------

@pytest.mark.parametrize("audience", Audience)
def test_another_title_is_seen_in_every_readers_folder(whole, audience) -> None:
    files = copy.deepcopy(whole.files)
    put(files, ("job", "title"), "Thrift Cottages")
    assert "index.html" in different(whole.build(whole.compile(files), audience), whole.built[audience])


@pytest.mark.parametrize("audience, path", [
    (Audience.INSTALLER, ("job", "devices", "D2", "position")),
    (Audience.HOMEOWNER, ("job", "devices", "D2", "called")),
    (Audience.STATION, ("job", "monitoring", "account")),
    (Audience.RECORD, ("company", "licences", 0, "number")),
], ids=[*Audience])
def test_a_field_that_a_reader_may_see_changes_that_readers_folder(whole, audience, path) -> None:
    files = copy.deepcopy(whole.files)
    put(files, path, "4D28")
    assert different(whole.build(whole.compile(files), audience), whole.built[audience]) != []


def test_a_field_of_each_row_is_in_the_fingerprint_of_those_who_may_see_it(whole) -> None:
    chosen = [field for field in one_of_each_row(whole.files) if not field.pattern.startswith("people.")]
    without_it, tried = [], set()
    for field in chosen:
        compiled, touched = whole.changed(field)
        tried |= touched
        without_it += [f"{audience}: {field}" for audience in Audience if any(may_see(audience, row) for row in touched)
                       and compiled.fingerprint_of[audience] == whole.compiled.fingerprint_of[audience]]
    assert without_it == []
    assert tried == {row for row in TABLE if not row.startswith("people.")} - ONE_VALUE


# --- people, comments ---------------------------------------------------------------------------------------

def test_without_people_every_pack_builds_with_the_same_fingerprint(whole) -> None:
    compiled = whole.compile({**whole.files, "people": None})
    assert compiled.fingerprint_of == whole.compiled.fingerprint_of
    assert compiled.fingerprint == whole.compiled.fingerprint
    folders = {audience: whole.build(compiled, audience) for audience in Audience}
    assert different(folders[Audience.HOMEOWNER], whole.built[Audience.HOMEOWNER]) == []
    for audience in (Audience.INSTALLER, Audience.STATION, Audience.RECORD):
        assert "index.html" in different(folders[audience], whole.built[audience]), "people stand on this page"


def test_no_fingerprint_depends_on_what_people_yaml_says(whole) -> None:
    files = change_all(whole.files, lambda touched: all(row.startswith("people.") for row in touched))
    compiled = whole.compile(files)
    assert compiled.papers.people != whole.compiled.papers.people
    assert compiled.fingerprint_of == whole.compiled.fingerprint_of


def commented(text: str) -> str:
    """A YAML file of the demo with a comment and a blank line before every line, and none of its own comments."""
    lines = [line for line in text.splitlines() if line.strip() and not line.lstrip().startswith("#")]
    return "\n".join(f"\n      # For nobody: {number}.\n{line}" for number, line in enumerate(lines)) + "\n\n# End\n"


def test_comments_and_blank_lines_change_no_byte_of_any_readers_folder(tmp_path: Path) -> None:
    jobs = tmp_path / "jobs"
    for path in [*DEMO.glob("*.yaml"), *DEMO.parent.glob("*.yaml"), *DEMO.parent.glob("equipment/*.yaml")]:
        copied = jobs / path.relative_to(DEMO.parent)
        copied.parent.mkdir(parents=True, exist_ok=True)
        text = path.read_text(encoding="utf-8")
        copied.write_text(commented(text), encoding="utf-8")
        assert copied.read_text(encoding="utf-8").count("\n") > 2 * text.count("\n")
    plain, noted = compile_job(DEMO / "job.yaml"), compile_job(jobs / DEMO.name / "job.yaml")
    assert noted.papers == plain.papers
    for audience in Audience:
        assert different(built(noted, audience, tmp_path), built(plain, audience, tmp_path)) == [], audience


def test_a_comparison_of_folders_sees_a_changed_a_missing_and_an_added_file() -> None:
    seen: Callable[[FOLDERS], list[str]] = lambda other: different({"a": b"1", "b": b"2"}, other)
    assert seen({"a": b"1", "b": b"2"}) == []
    assert seen({"a": b"1", "b": b"3"}) == ["b"]
    assert seen({"a": b"1"}) == ["b"]
    assert seen({"a": b"1", "b": b"2", "c": b""}) == ["c"]
