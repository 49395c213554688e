"""Do numbers stay where they were issued, rest when their unit goes, and come back with it?"""
from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.calc.slots.freeze import as_of_day, months_later, with_reasons
from generator.calc.slots.references import short_references
from generator.intake.job_reader import read_job
from generator.model.job import ExistingNumber, Freed
from tests.conftest import DEMO
from tests.issues import held, issue_on_paper, numbered, with_devices

PAPERS = read_job(DEMO / "job.yaml").papers
D1, D2, D3 = (PAPERS.job.devices[name] for name in ("D1", "D2", "D3"))
START = date(2026, 9, 14)
REST = int(PAPERS.profile.limits["number_rest_months"].value)


def more(papers, **devices):
    """The papers with more units, by name and the unit that each is like."""
    like = {name: PAPERS.sheet_of[one] for name, one in devices.items()}
    new = {name: PAPERS.job.devices[one].model_copy(update={"serial": None, "text": f"{name} NEW" if PAPERS.job.devices[one].text else None}) for name, one in devices.items()}
    return with_devices(papers, {**papers.job.devices, **new}, like)


def less(papers, *names: str):
    return with_devices(papers, {name: one for name, one in papers.job.devices.items() if name not in names})


def numbers(papers, issued, on: date, kind: str = "zones") -> dict[int, str]:
    """The unit of each number of a list as it would be numbered on a day."""
    return {row.zone or row.number: row.device for row in numbered(papers, issued, on)[1].slots.rows if row.list == kind}


# --- one thing at a time ------------------------------------------------------------------------------------

def test_a_unit_that_is_added_moves_nobody_and_stands_with_its_block() -> None:
    first = issue_on_paper(PAPERS, None, START)
    assert held(first) == {1: "D1", 5: "D2", 9: "D3", 10: "D3"}
    # Without the issue the trade's order would put both before those that are there.
    assert numbers(more(PAPERS, A1="D1", A3="D3"), None, START) == {1: "A1", 2: "D1", 5: "D2", 9: "A3", 10: "A3", 11: "D3", 12: "D3"}
    assert numbers(more(PAPERS, A1="D1", A3="D3"), first, START) == held(first) | {2: "A1", 11: "A3", 12: "A3"}


def test_a_unit_that_is_replaced_keeps_number_text_and_reference() -> None:
    first = issue_on_paper(PAPERS, None, START)
    devices = {**PAPERS.job.devices, "D2": D2.model_copy(update={"serial": "00B999"})}
    sheet = PAPERS.sheet_of["D2"].model_copy(update={"name": "Tern movement detector, second make"})
    papers, results = numbered(with_devices(PAPERS, devices, {"D2": sheet}), first, START)
    (row,) = results.slots.of("D2")
    assert (row.zone, row.text) == (5, "HALL MOVE")
    assert results.references == numbered(PAPERS, None, START)[1].references


def test_the_number_of_a_removed_unit_rests_from_the_issue_in_which_it_went() -> None:
    first = issue_on_paper(PAPERS, None, START)
    without = less(PAPERS, "D2")
    assert [(one.number, one.why) for one in numbered(without, first, START)[0].frozen.resting] == [
        (5, "its unit D2 had it in revision 1 and has it no more")]
    second = issue_on_paper(without, first, date(2026, 10, 1))
    (rests,) = second.last.resting
    assert (rests.list, rests.number, rests.device, rests.since, rests.until) == ("zones", 5, "D2", 2, date(2027, 10, 1))
    new = more(without, N2="D2")
    # 5, where the profile starts its block, rests; 2 and 3 are the spare of the entry door.
    assert numbers(new, second, date(2027, 9, 30)) == {1: "D1", 4: "N2", 9: "D3", 10: "D3"}
    assert numbered(new, second, date(2027, 9, 30))[0].frozen.resting[0].why == "its unit D2 was removed in revision 2 until 1 Oct 2027"
    assert numbers(new, second, date(2027, 10, 1)) == {1: "D1", 5: "N2", 9: "D3", 10: "D3"}


def test_a_unit_that_comes_back_in_time_gets_its_number_back_and_later_it_is_a_new_one() -> None:
    first = issue_on_paper(PAPERS, None, START)
    second = issue_on_paper(less(PAPERS, "D2"), first, date(2026, 10, 1))
    assert numbers(PAPERS, second, date(2027, 9, 30)) == held(first)
    third = issue_on_paper(PAPERS, second, date(2027, 9, 30))
    assert third.last.resting == [] and held(third) == held(first)
    # A day later its time is over: it is numbered like any other.
    assert "D2" not in numbered(PAPERS, second, date(2027, 10, 1))[0].frozen.numbers["zones"]
    assert numbered(PAPERS, second, date(2027, 10, 1))[0].frozen.resting == ()


def test_a_second_input_that_is_used_no_more_leaves_its_number_resting() -> None:
    first = issue_on_paper(PAPERS, None, START)
    devices = {**PAPERS.job.devices, "D3": D3.model_copy(update={"use_input_2": False, "text_2": None})}
    single = with_devices(PAPERS, devices)
    second = issue_on_paper(single, first, START)
    assert held(second) == {1: "D1", 5: "D2", 9: "D3"}
    assert [(one.number, one.device) for one in second.last.resting] == [(10, "D3")]
    assert numbers(more(single, N3="D1"), second, START)[2] == "N3"
    assert numbers(PAPERS, second, START) == held(first)


def test_a_number_that_was_freed_rests_no_longer() -> None:
    first = issue_on_paper(PAPERS, None, START)
    second = issue_on_paper(less(PAPERS, "D2"), first, START)
    freed = Freed.model_construct(list="zones", number=5, why="the station has the new table")
    new = more(less(PAPERS, "D2"), N2="D2")
    assert 5 not in numbers(new, second, START)
    assert numbers(replace(new, job=new.job.model_copy(update={"freed": [freed]})), second, START)[5] == "N2"


def test_without_a_time_in_the_profile_a_number_rests_until_further_notice() -> None:
    limits = {name: one for name, one in PAPERS.profile.limits.items() if name != "number_rest_months"}
    bare = replace(PAPERS, profile=PAPERS.profile.model_copy(update={"limits": limits}))
    second = issue_on_paper(less(bare, "D2"), issue_on_paper(bare, None, START), START)
    assert second.last.resting[0].until is None
    assert 5 not in numbers(more(less(bare, "D2"), N2="D2"), second, date(2099, 1, 1))


def test_a_gone_units_short_reference_is_given_to_nobody_else() -> None:
    first = issue_on_paper(PAPERS, None, START)
    gone = {row.device: row.reference for row in first.last.map}["D2"]
    second = issue_on_paper(less(PAPERS, "D2"), first, START)
    assert second.last.other_references["D2"] == gone
    assert gone not in short_references("K-2041", ["A", "B"], {"D2": gone}).values()
    # The name that would draw this reference draws another, and whoever had it keeps it.
    mine = short_references("K-2041", ["D9"])["D9"]
    both = short_references("K-2041", ["D9", "ZZ"], {"ZZ": mine})
    assert both["ZZ"] == mine and both["D9"] != mine


def test_each_number_tells_why_it_was_given_and_in_which_revision() -> None:
    first = issue_on_paper(PAPERS, None, START)
    second = issue_on_paper(more(PAPERS, N1="D1"), first, START)
    assert {row.device: (row.since, row.why.partition(";")[0]) for row in second.last.map if row.list == "zones"} == {
        "D1": (1, "the only one of block entry"), "N1": (2, "next of block entry"), "D2": (1, "the only one of block route"),
        "D3": (1, "second input of D3")}
    slots = with_reasons(numbered(more(PAPERS, N1="D1"), second, START)[1].slots, second)
    assert slots.of("D1")[0].reason.startswith("given in revision 1: the only one of block entry")
    assert slots.of("N1")[0].reason.startswith("given in revision 2: next of block entry")


# --- a system as it was found -------------------------------------------------------------------------------

def found(*rows: tuple) -> list[ExistingNumber]:
    return [ExistingNumber.model_construct(list=row[0], number=row[1], device=row[2] if len(row) > 2 else None) for row in rows]


def test_numbers_as_found_stay_and_what_is_not_ours_is_stepped_over() -> None:
    papers = replace(PAPERS, job=PAPERS.job.model_copy(update={"kind": "extension", "existing": found(
        ("zones", 7, "D1"), ("zones", 1), ("zones", 9), ("keypads", 3, "K1"))}))
    # 8 and 10 are the spare of D1, which was found at 7; doors and windows, whose 9 is taken, begin behind it.
    assert numbers(papers, None, START) == {7: "D1", 5: "D2", 11: "D3", 12: "D3"}
    assert numbers(papers, None, START, "keypads") == {3: "K1"}
    first = issue_on_paper(papers, None, START)
    assert numbers(more(papers, A1="D1"), first, START) == held(first) | {8: "A1"}


# --- dates --------------------------------------------------------------------------------------------------

@pytest.mark.parametrize("on, months, later", [
    (date(2026, 9, 14), 12, date(2027, 9, 14)), (date(2026, 1, 31), 1, date(2026, 2, 28)), (date(2027, 11, 30), 3, date(2028, 2, 29)),
    (date(2026, 12, 1), 1, date(2027, 1, 1)), (date(2026, 9, 14), 0, date(2026, 9, 14))])
def test_months_are_counted_on_the_calendar(on: date, months: int, later: date) -> None:
    assert months_later(on, months) == later


def test_dates_are_worked_out_for_the_day_of_the_issue_unless_the_job_was_dated_anew() -> None:
    first = issue_on_paper(PAPERS, None, date(2026, 9, 20))
    assert as_of_day(PAPERS, None) == PAPERS.job.dated == START
    assert as_of_day(PAPERS, first) == date(2026, 9, 20)
    for dated, day in ((date(2027, 3, 1), date(2027, 3, 1)), (date(2026, 9, 1), date(2026, 9, 20))):
        assert as_of_day(replace(PAPERS, job=PAPERS.job.model_copy(update={"dated": dated})), first) == day


# --- any history --------------------------------------------------------------------------------------------

LIKE = {"N1": "D1", "N2": "D2", "N3": "D3", "N4": "D1", "K2": "K1", "S2": "S1"}
NAMES = ("D1", "D2", "D3", "K1", "S1", *LIKE)
STEP = st.tuples(st.sets(st.sampled_from(NAMES)), st.sets(st.sampled_from(NAMES)), st.integers(0, 500))


def as_chosen(names: set[str], replaced: set[str]):
    """The demo with these units beside those that always stay; the replaced ones have another serial."""
    papers = more(PAPERS, **{name: LIKE[name] for name in sorted(names) if name in LIKE})
    devices = {name: one.model_copy(update={"serial": "00FFFF"}) if name in replaced else one
               for name, one in papers.job.devices.items() if name in names or name == "F1"}
    return with_devices(papers, devices)


@settings(max_examples=60, deadline=None)
@given(st.lists(STEP, min_size=2, max_size=7))
def test_whatever_is_added_removed_replaced_and_issued_no_frozen_number_moves_and_no_resting_one_is_given(steps) -> None:
    issued, on = None, START
    went: dict[tuple[str, int], tuple[str, date]] = {}
    for names, replaced, days in steps:
        on += timedelta(days=days)
        papers = as_chosen(names, replaced)
        before = {(row.list, row.number): row.device for row in issued.last.map} if issued else {}
        issued = issue_on_paper(papers, issued, on)
        now = {(row.list, row.number): row.device for row in issued.last.map}
        for place, device in before.items():
            if device in papers.job.devices:
                assert now[place] == device, "a frozen number moved"
            elif device:
                went[place] = (device, on)
        for place, (device, day) in list(went.items()):
            if on < months_later(day, REST) and device not in papers.job.devices:
                assert place not in now, "a resting number was given"
            elif on < months_later(day, REST):
                assert now[place] == device, "who came back in time did not get the number back"
            if place in now:
                del went[place]
