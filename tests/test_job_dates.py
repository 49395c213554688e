"""Is the one calendar of a job counted from what its papers say, and only from what a reader may see?

Days by hand: periods leave out the day of their event (Regulation 1182/71, article 3; from memory); due months from the month of
coming into use, a month before and after (NSI bulletin 68; read).
"""
from dataclasses import replace
from datetime import date
from itertools import pairwise

import pytest

from generator.calc.days.calendar import Calendar, Entry
from generator.calc.days.campaigns import Campaign
from generator.calc.days.dates import Month
from generator.calc.days.job_dates import given_of, job_dates
from generator.calc.days.service import number_after, number_near
from generator.calc.power.cells_of_job import cells_of_job
from generator.calc.results import compute
from generator.intake.job_reader import read_job
from generator.model.papers import Papers
from generator.model.visibility import visible
from generator.terms.audience import Audience
from tests.conftest import JOBS

AS_OF = date(2026, 10, 5)


def papers_of(name: str = "curlew-house") -> Papers:
    return read_job(JOBS / name / "job.yaml").papers


def having(papers: Papers, part: str, **changes) -> Papers:
    """The papers with other fields in one part of the job; of the job itself for ""."""
    job = papers.job
    if not part:
        return replace(papers, job=job.model_copy(update=changes))
    return replace(papers, job=job.model_copy(update={part: getattr(job, part).model_copy(update=changes)}))


def with_unit(papers: Papers, unit: str, **changes) -> Papers:
    devices = dict(papers.job.devices) | {unit: papers.job.devices[unit].model_copy(update=changes)}
    return having(papers, "", devices=devices)


def said(found: Calendar) -> dict[tuple[str, str], Entry]:
    return {(one.kind, one.about): one for one in found.entries}


def missing(papers: Papers, as_of: date = AS_OF) -> set[str]:
    """What is missing besides the batteries of single units, of which no job file holds a date."""
    return {one.reason for one in job_dates(papers, as_of).missing if not one.reason.startswith("batteries of their own")}


def test_the_large_demo_has_a_whole_calendar() -> None:
    found = job_dates(papers_of(), AS_OF)
    assert [one.reason.partition(":")[0] for one in found.missing] == ["batteries of their own, R1 and S1"]
    entries = said(found)
    assert {key: one.on for key, one in entries.items() if key[0] not in ("cells", "licence")} == {
        # Signed at home on 7 September, 14 days; in use on 13 October, 14 days of soak.
        ("cancellation", ""): date(2026, 9, 21), ("soak", ""): date(2026, 10, 27), ("go-live", ""): date(2026, 10, 28),
        ("service", "1"): Month(2027, 4), ("service", "2"): Month(2027, 10), ("service", "3"): Month(2028, 4), ("service", "4"): Month(2028, 10),
        ("visit", "1"): date(2027, 4, 20), ("visit", "2"): date(2027, 10, 12),
        # The battery of 13 July 2026, after the 48 months of the company.
        ("battery", "CU"): Month(2030, 7),
        ("replace", "CO1"): date(2033, 6, 30), ("replace", "HT1"): date(2036, 4, 30), ("replace", "SM1"): date(2036, 4, 30),
        ("replace", "SM2"): date(2036, 4, 30),
    }
    assert entries["visit", "1"].why == "in the time of service 1, 1 Mar 2027 to 31 May 2027"


def test_a_day_printed_on_a_unit_wins_over_the_life_of_its_sheet() -> None:
    papers = papers_of()
    assert papers.sheet_of["CO1"].life_years == 7 and said(job_dates(papers, AS_OF))["replace", "CO1"].on == date(2033, 6, 30)
    unmarked = with_unit(papers, "CO1", replace_by=None)
    assert ("replace", "CO1") not in said(job_dates(unmarked, AS_OF))
    # Seven years after October 2026.
    assert missing(unmarked) == {"replacement of CO1: no replace_by is given; Oct 2033 at the latest, 84 months after coming into use"}
    assert missing(having(unmarked, "agreement", in_use_on=None)) >= {"replacement of CO1: no replace_by is given"}


@pytest.mark.parametrize("where, there", [("home", True), ("distance", True), ("premises-of-the-company", False)])
def test_a_british_contract_is_cancelled_where_it_was_signed_at_home_or_at_a_distance(where: str, there: bool) -> None:
    papers = having(papers_of(), "agreement", signed_at=where)
    assert (("cancellation", "") in said(job_dates(papers, AS_OF))) == there and missing(papers) == set()


@pytest.mark.parametrize("where, there", [("home", True), ("distance", False), ("premises-of-the-company", False)])
def test_an_american_contract_only_where_it_was_signed_at_home(where: str, there: bool) -> None:
    papers = having(papers_of("heron-bungalow"), "agreement", signed_at=where)
    assert (("cancellation", "") in said(job_dates(papers, AS_OF))) == there
    assert not any("cancel" in one for one in missing(papers))


def test_where_the_contract_was_signed_is_not_guessed() -> None:
    assert missing(having(papers_of(), "agreement", signed_at=None)) == {
        "end of the right to cancel: the job file does not say where the contract was signed"}
    papers = having(papers_of(), "agreement", signed_at="distance")
    limits = {key: one for key, one in papers.profile.limits.items() if key != "cancellation_distance_yes"}
    assert missing(replace(papers, profile=papers.profile.model_copy(update={"limits": limits}))) == {
        "end of the right to cancel: the profile has no limit cancellation_distance_yes"}


@pytest.mark.parametrize("as_of, first", [(date(2026, 10, 5), 1), (date(2027, 5, 31), 1), (date(2027, 6, 1), 2), (date(2030, 1, 1), 7)])
def test_services_that_are_over_are_left_aside(as_of: date, first: int) -> None:
    numbers = [int(one.about) for one in job_dates(papers_of(), as_of).entries if one.kind == "service"]
    assert numbers == list(range(first, first + 4))


def test_the_shorter_of_agreed_and_allowed_interval_counts() -> None:
    papers = papers_of()
    three, twelve = (having(papers, "service", every_months=months, visits=[]) for months in (3, 12))
    assert said(job_dates(three, AS_OF))["service", "1"].on == Month(2027, 1)
    assert said(job_dates(three, AS_OF))["service", "1"].source.startswith("job.service.every_months")
    assert said(job_dates(twelve, AS_OF))["service", "1"].on == Month(2027, 4)


def test_cells_are_changed_by_their_campaigns_and_the_others_at_the_ages_of_the_profile() -> None:
    # M1 stands in the busy hall: 24 months after October 2026; D3 in the sitting room: 36.
    plain = said(job_dates(papers_of(), AS_OF))
    assert plain["cells", "busy"].on == Month(2028, 10) and "M1" in plain["cells", "busy"].what
    assert plain["cells", "other"].on == Month(2029, 10) and "D3" in plain["cells", "other"].what
    planned = said(job_dates(papers_of(), AS_OF, (Campaign(2027, 4, "CR2", 2, ("M1", "D3"), date(2027, 4, 20)),)))
    assert planned["cells", "CR2 2027-04"].what == "Change 2 × CR2: M1 and D3"
    assert not {"M1", "D3"} & {word.strip(",") for key in ("busy", "other") for word in planned["cells", key].what.split()}


def test_cells_are_changed_again_and_again_until_the_longest_lived_are_changed_first() -> None:
    papers = papers_of()
    cells = cells_of_job(papers)
    first = {one.unit: one.visit.on for one in cells.in_place}
    until = max(first.values())
    for one in cells.in_place:
        days = [(each.year, each.month) for each in cells.campaigns if one.unit in each.units]
        assert days[0] == (first[one.unit].year, first[one.unit].month) and days[-1] <= (until.year, until.month)
        # No cells are counted on for longer than they last, to the day of the visit before.
        years = [later[0] - sooner[0] + (later[1] - sooner[1] - 1) / 12 for sooner, later in pairwise(days)]
        assert all(each < one.life.working.value for each in years)
        ends = papers.job.devices[one.unit].replace_by or until
        assert min(ends, until).year - days[-1][0] <= one.life.working.value + 1
    # The detector of the busy hall lasts less than a year: at least one change in each.
    assert {each.year for each in cells.campaigns if "M1" in each.units} == set(range(2027, until.year + 1))
    entries = [one for one in job_dates(papers, AS_OF, cells.campaigns).entries if one.kind == "cells" and one.about != "other"]
    assert len(entries) == len(cells.campaigns) == len({one.about for one in entries}) and all("listed until" in one.why for one in entries)


def test_carried_units_are_changed_at_one_age_on_every_page() -> None:
    papers = papers_of()
    entry = said(job_dates(papers, AS_OF, cells_of_job(papers).campaigns))["cells", "other"]
    fob = cells_of_job(papers).of("F1").presses
    months = next(one.value for one in fob.inputs if one.symbol == "m")
    assert "F1" in entry.what and entry.on == Month(2026, 10).plus(int(months)) and "again" in entry.why


def test_a_unit_whose_traffic_nobody_knows_is_named() -> None:
    found = missing(papers_of("heron-bungalow"))
    assert any(one.startswith("cells of D1, ") and one.endswith("no traffic is given for the unit or its room") for one in found)
    assert "battery, CU: no date on the battery is given" in found


def test_each_reader_gets_a_calendar_of_what_that_reader_may_see() -> None:
    papers = papers_of()
    assert {one.kind for one in job_dates(papers, AS_OF).entries} >= {"licence", "battery", "cancellation"}
    mine = job_dates(visible(papers, Audience.INSTALLER), AS_OF)
    assert "licence" not in {one.kind for one in mine.entries} and ("battery", "CU") in said(mine)
    assert job_dates(visible(papers, Audience.RECORD), AS_OF) == job_dates(papers, AS_OF)
    # Station and homeowner know the soak period and nothing of the contract.
    for audience in (Audience.STATION, Audience.HOMEOWNER):
        kinds = {one.kind for one in job_dates(visible(papers, audience), AS_OF).entries}
        assert "soak" in kinds and not kinds & {"cancellation", "visit", "battery", "licence"}, audience


@pytest.mark.parametrize("name", ["curlew-house", "heron-bungalow", "thrift-cottage", "dunlin-row"])
def test_what_the_installer_reads_of_the_other_results_follows_from_what_the_installer_may_see(name: str) -> None:
    papers = papers_of(name)
    whole, mine = compute(papers), compute(visible(papers, Audience.INSTALLER))
    assert (whole.events, whole.transmission, whole.air) == (mine.events, mine.transmission, mine.air)


def test_the_day_for_which_all_is_worked_out_moves_the_services() -> None:
    papers = papers_of()
    assert compute(papers).as_of == papers.job.dated
    later = compute(papers, date(2028, 1, 1))
    assert later.as_of == date(2028, 1, 1) and later.dates == job_dates(papers, date(2028, 1, 1), later.cells.campaigns)


def test_where_no_calendar_reaches_that_is_said_and_nothing_breaks() -> None:
    late = having(papers_of(), "agreement", in_use_on=date(9999, 12, 31), signed_on=date(9999, 12, 31))
    assert any(one.startswith("soak period: ") for one in missing(late, date(9999, 12, 31)))
    early = having(papers_of(), "agreement", in_use_on=date(1, 1, 1))
    assert given_of(early, date(9999, 12, 31)).first_service == 2 * 9998 + 2
    compute(late), compute(early, date(9999, 12, 31))


@pytest.mark.parametrize("day, after, near", [
    # In use in October 2026, every 6 months, a month before and after: by hand.
    (date(2026, 10, 1), 1, 1), (date(2027, 5, 31), 1, 1), (date(2027, 6, 1), 2, 1), (date(2027, 7, 31), 2, 1), (date(2027, 8, 1), 2, 2),
    (date(2027, 11, 30), 2, 2), (date(2027, 12, 1), 3, 2), (date(2020, 1, 1), 1, 1)])
def test_which_service_a_day_belongs_to(day: date, after: int, near: int) -> None:
    assert number_after(date(2026, 10, 13), day, 6, 1) == after
    assert number_near(date(2026, 10, 13), day, 6) == near
