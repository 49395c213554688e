"""Are many mistakes of many kinds answered in one run, each once, each at its line?"""
import re
import shutil

import pytest

from generator.intake.job_reader import read_job
from generator.terms.problem import JobInvalid
from tests.conftest import DEMO

JOB = (DEMO / "job.yaml").read_text(encoding="utf-8")
# Twelve mistakes as offices make them: what stood there, what stands there now, and words of the one answer.
TWELVE = [
    ("dated: 2026-09-14", "dated: 14.9.2026", "is not a date. Write year-month-day"),
    ("profile: en-grade-2", "profile: en-grade2", 'there is no profile "en-grade2". Did you mean "en-grade-2"?'),
    ("room: store\n", "room: stor\n", 'there is no room "stor". Did you mean "store"?'),
    ("bedroom: {sleeping: true}", "bedroom: {sleping: true}", 'the key "sleping" is not known here. Did you mean "sleeping"?'),
    ("back-door: {kind: door, wall: [kitchen, outside]}", "back-door: {kind: dor, wall: [kitchen, outside]}", 'Did you mean "door"?'),
    ("wall: [hall, outside], entry", "wall: [hal, outside], entry", 'there is no room "hal". Did you mean "hall"?'),
    ("protects: back-door", "protects: backdoor", 'there is no opening "backdoor". Did you mean "back-door"?'),
    ("sheet: tern-kp", "sheet: tern-pk", 'there is no equipment sheet "tern-pk". Did you mean "tern-kp"?'),
    ("height_m: 2.2\n", "height_m: 2,2\n", '"2,2" is not a number. Write digits with a point'),
    ("text: HALL MOVE\n", "text: HALL MOVE\n    text: HALL MOVEMENT\n", '"text" stands twice; first in line'),
    ("fob: F1", "fob: F2", 'there is no fob "F2".'),
    ('test_at: "03:30"', 'test_at: "3.30"', '"3.30" is not a time of day. Write hours and minutes'),
]


def answers(folder, text: str) -> list:
    shutil.copytree(DEMO.parent, folder / "jobs", dirs_exist_ok=True)
    path = folder / "jobs" / DEMO.name / "job.yaml"
    path.write_text(text, encoding="utf-8")
    try:
        read_job(path)
    except JobInvalid as invalid:
        return list(invalid.problems)
    return []


def line_of(text: str, new: str) -> int:
    """The line of the last line of what now stands there."""
    return text.count("\n", 0, text.index(new) + len(new.rstrip("\n"))) + 1


def test_twelve_mistakes_get_twelve_answers_in_one_run(tmp_path) -> None:
    text = JOB
    for old, new, _ in TWELVE:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    found = answers(tmp_path, text)
    assert len(found) == 12, [one.one_line() for one in found]
    for _, new, says in TWELVE:
        here = [one for one in found if one.line == line_of(text, new) and one.file == "job.yaml"]
        assert len(here) == 1 and says in f"{here[0].says} {here[0].do}", (new, here)


@pytest.mark.parametrize("old, new, says", TWELVE, ids=lambda one: one[:20])
def test_each_of_them_alone_gets_one_answer(tmp_path, old: str, new: str, says: str) -> None:
    assert [says in f"{one.says} {one.do}" for one in answers(tmp_path, JOB.replace(old, new))] == [True]


@pytest.mark.parametrize("old, new, fields", [
    # Where names come from is itself not sound: the names are not answered too.
    ("      rooms:\n", "      roms:\n", {"premises.storeys.ground.roms", "premises.storeys.ground.rooms"}),
    ("      openings:\n", "      opnings:\n", {"premises.storeys.ground.opnings"}),
    ("  storeys:\n", "  storys:\n", {"premises.storys", "premises.storeys"}),
    ("premises:\n", "premise:\n", {"premise", "premises"}),
    ("devices:\n", "device:\n", {"device", "devices"}),
    ("control_unit:\n", "controlunit:\n", {"controlunit", "control_unit"}),
    ("    sheet: tern-fob\n", "", {"devices.F1.sheet"}),
    ("  F1:\n", "  F 1:\n", {"devices.F 1", "users.1.fob"}),
])
def test_one_mistake_above_others_is_not_answered_many_times(tmp_path, old: str, new: str, fields: set[str]) -> None:
    assert JOB.count(old) == 1
    assert {one.field for one in answers(tmp_path, JOB.replace(old, new))} == fields


@pytest.mark.parametrize("value", ["{a: b}", "[x]", "~", '""', "../../company", "a/b", "..", "\"\\0\""])
@pytest.mark.parametrize("old", ["sheet: tern-cu32", "sheet: tern-dc\n", "profile: en-grade-2", "  id: CU", "room: store\n", "fob: F1", "protects: front-door"])
def test_a_name_of_another_kind_is_answered_at_its_line_and_opens_no_file(tmp_path, old: str, value: str) -> None:
    new = re.sub(r": .*", f": {value}", old.rstrip("\n")) + ("\n" if old.endswith("\n") else "")
    text = JOB.replace(old, new, 1)
    found = answers(tmp_path, text)
    assert found == [] or text.count("\n", 0, text.index(new)) + 1 in [one.line for one in found] or value == "~", [one.one_line() for one in found]
    assert all(one.file == "job.yaml" for one in found)


def test_company_people_and_sheets_are_answered_in_the_same_run_as_a_broken_job_file(tmp_path) -> None:
    shutil.copytree(DEMO.parent, tmp_path / "jobs")
    company = tmp_path / "jobs/company.yaml"
    company.write_text(company.read_text(encoding="utf-8").replace("01632 960310", "call us"), encoding="utf-8")
    sheet = tmp_path / "jobs/equipment/tern-kp.yaml"
    sheet.write_text(sheet.read_text(encoding="utf-8").replace("kind: keypad", "kind: keypd"), encoding="utf-8")
    people = tmp_path / "jobs" / DEMO.name / "people.yaml"
    people.write_text("customer: [\n", encoding="utf-8")
    path = people.with_name("job.yaml")
    path.write_text(JOB.replace("kind: new", "kind: old"), encoding="utf-8")
    with pytest.raises(JobInvalid) as caught:
        read_job(path)
    assert [(one.file, one.field) for one in caught.value.problems] == [
        ("company.yaml", "telephone"), ("equipment/tern-kp.yaml", "kind"), ("job.yaml", "kind"), ("people.yaml", "")]
