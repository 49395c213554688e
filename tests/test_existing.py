"""Does a takeover or an extension keep the numbers as they were found, and is each contradiction answered at its line?"""
from collections.abc import Callable

import pytest

from generator.pages.changes import PATH
from generator.pipeline import compile_job, looked_for, pack_of
from generator.publish.places import own_wording
from generator.publish.render import environment, render, translations
from generator.terms.audience import Audience
from generator.terms.problem import JobInvalid, Problem
from tests.conftest import Files
from tests.test_changes import FIRST, device, put_issued


def found(*rows: dict, kind: str = "extension") -> Callable[[Files], object]:
    return lambda files: files["job"].update(kind=kind, existing=[{key: str(value) for key, value in row.items()} for row in rows])


def zone(number: int, name: str = "", **more: str) -> dict:
    return {"list": "zones", "number": number, **({"device": name} if name else {}), **more}


def problems(job_file, *changes) -> list[Problem]:
    with pytest.raises(JobInvalid) as invalid:
        compile_job(job_file(*changes))
    return list(invalid.value.problems)


def only(job_file, *changes) -> Problem:
    (one,) = problems(job_file, *changes)
    return one


@pytest.mark.parametrize("kind", ["takeover", "extension"])
def test_what_was_found_stays_and_what_is_new_goes_round_it(job_file, kind) -> None:
    job = compile_job(job_file(found(zone(9, "D1"), zone(1, text="OLD GARAGE"), {"list": "keypads", "number": 3, "device": "K1"}, kind=kind)))
    slots = job.results.slots
    assert {(row.list, row.zone or row.number): row.device for row in slots.rows if row.device in ("D1", "D2", "D3", "K1")} == {
        ("zones", 9): "D1", ("zones", 5): "D2", ("zones", 12): "D3", ("zones", 13): "D3", ("keypads", 3): "K1"}
    assert slots.of("D1")[0].why == "its number from before, as found"
    assert [(one.list, one.first, one.why) for one in slots.kept] == [
        ("zones", 1, "rests: taken by something that is no part of this job: OLD GARAGE")]


def test_blocks_show_their_spare_with_units_as_found_in_them(job_file) -> None:
    job = compile_job(job_file(found(zone(2, "D1"))))
    entry = job.results.slots.blocks[0]
    assert (entry.name, entry.first, entry.last, entry.spare) == ("entry", 2, 2, 2)


def test_the_installer_reads_what_was_found_and_the_station_does_not(job_file) -> None:
    job = compile_job(job_file(found(zone(9, "D1", text="FRONT DOOR OLD", serial="0077A", note="lid cracked"), zone(1, text="OLD GARAGE"))))
    looked = looked_for(job, own_wording())
    packs = {audience: pack_of(job, audience, translations().gettext, looked) for audience in Audience}
    page = next(page for page in packs[Audience.INSTALLER].pages if page.path == PATH)
    html = render(page, environment(translations())).html
    assert "D1 of this job; text FRONT DOOR OLD; serial 0077A; lid cracked" in html and "no part of this job; text OLD GARAGE" in html
    for audience in (Audience.STATION, Audience.HOMEOWNER):
        every = "".join(render(page, environment(translations())).html for page in packs[audience].pages)
        assert not any(word in every for word in ("OLD GARAGE", "FRONT DOOR OLD", "0077A", "lid cracked"))


def test_after_the_issue_the_same_lines_are_no_contradiction(job_file) -> None:
    path = job_file(found(zone(9, "D1"), zone(1), {"list": "keypads", "number": 3, "device": "K1"}))
    done = put_issued(compile_job(path), path.parent, FIRST)
    again = compile_job(path)
    assert again.last == done.last and again.same(None)
    assert {row.device: row.why for row in done.last.map if row.list == "keypads"} == {"K1": "its number from before, as found"}


def test_a_number_as_found_that_is_not_the_issued_one_is_answered_with_both_places(job_file) -> None:
    path = job_file(found(zone(9, "D1")))
    put_issued(compile_job(path), path.parent, FIRST)
    path.write_text(path.read_text().replace('"number": "9"', '"number": "7"'))
    with pytest.raises(JobInvalid) as invalid:
        compile_job(path)
    (one,) = invalid.value.problems
    assert one.field == "existing.0.number" and one.says.startswith("D1 has number 9 of the zones already, by issued.yaml:")


@pytest.mark.parametrize("change, field, says, do", [
    (lambda files: files["job"].update(kind="extension"), "kind", "an extension starts with numbers that are taken, and existing: lists none.",
     "Write under existing: every number that is taken"),
    (lambda files: files["job"].update(kind="takeover"), "kind", "a takeover starts with numbers that are taken, and existing: lists none.",
     "Write under existing: every number that is taken"),
    (found(zone(9, "D1"), kind="new"), "existing", "a new job starts with no numbers taken.", "Write kind: extension or kind: takeover"),
    (found(zone(9, "D7")), "existing.0.device", 'there is no unit "D7".', "If it is no part of this job, take device: out."),
    (found(zone(9, "D1"), zone(9, "D2")), "existing.1.number", "number 9 of the zones is taken already, by line ", "Write each number once."),
    (found(zone(9, "D1"), zone(9)), "existing.1.number", "number 9 of the zones is taken already, by line ", "Write each number once."),
    (found(zone(9), zone(9)), "existing.1.number", "number 9 of the zones is taken already, by line ", "Write each number once."),
    (found(zone(9, "D1"), zone(8, "D1")), "existing.1.number", "D1 has number 9 of the zones already, by line ", "Write one number for each unit and list"),
    (found(zone(9, "D3"), zone(10, "D1")), "existing.1.number", "number 10 of the zones is taken already, by line ", "Write each number once."),
    (found(zone(33, "D1")), "existing.0.number", "number 33 lies past the end of the zones.", "Write a number up to 32"),
    (found({"list": "slots", "number": 3}), "existing.0.list", "slot and zone are one number here.", "Write zones."),
    (found({"list": "fobs", "number": 3, "device": "D1"}), "existing.0.list", "D1 takes no number of the fobs.", "Write zones"),
    (found({"list": "users", "number": 3}), "existing.0.list", '"users" is not known here.', "Write one of: zones"),
    (lambda files: files["job"].update(freed=[zone(40, why="sent")]), "freed.0.number", "number 40 lies past the end of the zones.", "up to 32"),
    (found(zone(0)), "existing.0.number", "0 is out of range.", "Write a number from 1"),
])
def test_what_cannot_have_been_found_is_answered_at_its_line(job_file, change, field, says, do) -> None:
    one = only(job_file, change)
    assert one.field == field and one.says.startswith(says) and do in one.do and one.line


@pytest.mark.parametrize("change, says", [
    (device("D1", number="4"), "D1 has number 9 of the zones already, by line "),
    (device("D2", number="9"), "number 9 of the zones is D1's already, by line "),
    (device("D2", number="1"), "number 1 of the zones is taken already, by line ")])
def test_a_pin_against_what_was_found_is_answered_with_both_places(job_file, change, says) -> None:
    one = only(job_file, found(zone(9, "D1"), zone(1)), change)
    assert one.field.endswith(".number") and one.says.startswith(says) and one.says.endswith("that one is frozen.")
    number = int(one.says.partition(", by line ")[2].partition(":")[0])
    assert one.line and number and number != one.line


def test_a_pin_that_says_what_was_found_is_none(job_file) -> None:
    assert compile_job(job_file(found(zone(9, "D1")), device("D1", number="9"))).results.slots.of("D1")[0].zone == 9
