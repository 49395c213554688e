"""Does the calendar hold what is due, in its order, with its reason and source, and does it say what it cannot know?"""
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.calc.days.calendar import Calendar, Entry, Given, Made, Permit, calendar
from generator.calc.days.dates import Month
from generator.calc.days.replace_by import Life, life_of
from generator.intake.job_reader import read_job
from generator.model.papers import Papers
from generator.model.profile import Profile
from tests.conftest import JOBS


def papers_of(name: str) -> Papers:
    return read_job(JOBS / name / "job.yaml").papers


UK, US, EN = (papers_of(name).profile for name in ("curlew-house", "heron-bungalow", "thrift-cottage"))
LIFE = Life(120, "sheet smoke: life_years")
WHOLE = Given(monitored=True, contract=date(2026, 9, 14), soak_from=date(2026, 10, 5), soak_days=14, in_use=date(2026, 10, 5),
              permits=(Permit("permit of the town", date(2027, 3, 31)),), made=(Made("SM1", Month(2026, 2), LIFE),),
              batteries=(("CU", Month(2026, 8)),), busy_cells=("D1", "M1"), cells=("D2",), analogue=True, services=2)


def said(profile: Profile, given: Given) -> dict[tuple[str, str], Entry]:
    return {(one.kind, one.about): one for one in calendar(profile, given).entries}


def with_limit(profile: Profile, name: str, value: float | None) -> Profile:
    limits = {key: limit for key, limit in profile.limits.items() if key != name}
    if value is not None:
        limits[name] = profile.limits[name].model_copy(update={"value": value})
    return profile.model_copy(update={"limits": limits})


def test_a_whole_british_job_in_the_order_of_its_days() -> None:
    # By hand: 14 days after 14 Sep and after 5 Oct, these days not counted; a service every 6 months from October; cells after 24
    # and 36 months, a battery after the 48 of the company, a smoke alarm after 120; analogue lines end with January 2027 (NFCC; read).
    found = calendar(UK, WHOLE)
    assert [(one.kind, one.about, one.on) for one in found.entries] == [
        ("cancellation", "", date(2026, 9, 28)), ("soak", "", date(2026, 10, 19)), ("go-live", "", date(2026, 10, 20)),
        ("line", "", date(2027, 1, 31)), ("permit", "permit of the town", date(2027, 3, 31)),
        ("service", "1", Month(2027, 4)), ("service", "2", Month(2027, 10)), ("cells", "busy", Month(2028, 10)), ("cells", "other", Month(2029, 10)),
        ("battery", "CU", Month(2030, 8)), ("replace", "SM1", Month(2036, 2)),
    ]
    assert found.missing == ()


def test_an_entry_says_why_and_from_where() -> None:
    found = said(UK, WHOLE)
    assert found["cancellation", ""].why == "14 days after the contract of 14 Sep 2026, that day not counted"
    assert found["cancellation", ""].source == UK.source_of("cancellation_days").cited()
    assert found["service", "1"].why == "6 months after the month of coming into use; on time from 1 Mar 2027 to 31 May 2027"
    assert found["service", "1"].source == f"{UK.source_of('service_months').cited()}; {UK.source_of('service_window_months').cited()}"
    assert found["replace", "SM1"].source == LIFE.source
    assert found["cells", "busy"].what == "Change the cells of D1 and M1"


def test_an_american_contract_is_cancelled_within_business_days() -> None:
    # Friday before Labor Day: Saturday, Tuesday, Wednesday.
    entry = said(US, replace(WHOLE, contract=date(2026, 9, 4)))["cancellation", ""]
    assert entry.on == date(2026, 9, 9)
    assert "3 business days" in entry.why and "Sundays and federal holidays" in entry.why


def test_a_system_that_only_sounds_has_no_soak_period_and_fewer_services() -> None:
    found = said(UK, replace(WHOLE, monitored=False))
    assert ("soak", "") not in found and ("go-live", "") not in found
    assert found["service", "1"].on == Month(2027, 10)
    # A profile with one interval for both.
    assert said(US, replace(WHOLE, monitored=False))["service", "1"].on == Month(2027, 10)


def test_without_a_window_a_service_has_none_to_be_on_time_in() -> None:
    assert said(US, WHOLE)["service", "1"].why == "12 months after the month of coming into use"


@pytest.mark.parametrize("change, says", [
    ({"contract": None}, "end of the right to cancel: no day of the contract is given"),
    ({"soak_from": None}, "soak period: no first day is given"), ({"soak_days": None}, "soak period: no number of days is given"),
    ({"in_use": None}, "services: no day on which the system came into use is given"),
    ({"in_use": None}, "cells, busy: no month of coming into use is given"),
])
def test_what_is_not_given_is_said(change: dict, says: str) -> None:
    assert says in {one.reason for one in calendar(UK, replace(WHOLE, **change)).missing}


@pytest.mark.parametrize("limit, value, says", [
    ("cancellation_days", None, "end of the right to cancel: the profile has no limit cancellation_days"),
    ("service_months", None, "services: the profile has no limit service_months"),
    ("battery_change_months", None, "battery, CU: the profile has no limit battery_change_months"),
    ("cell_busy_months", 1.5, "cells, busy: the limit cell_busy_months is 1.5, and only whole ones can be counted"),
    ("service_months", 2, "services: window_months 1: 0 or more, and less than half of 2, is wanted"),
    ("analogue_end_month", 13, "analogue lines: month 13: 1 to 12 is wanted"),
    ("analogue_end_month", None, "the profile has no limit analogue_end_month"),
])
def test_a_limit_that_cannot_be_used_is_said(limit: str, value: float | None, says: str) -> None:
    assert says in {one.reason for one in calendar(with_limit(UK, limit, value), WHOLE).missing}


def test_where_no_calendar_reaches_that_is_said() -> None:
    last = date(9999, 12, 31)
    late = replace(WHOLE, contract=last, soak_from=last, in_use=last, made=(Made("SM1", Month(9999, 1), LIFE),),
                   batteries=(("CU", Month(9999, 1)),))
    found = calendar(UK, late)
    assert {one.kind for one in found.entries} == {"line", "permit"}
    assert len(found.missing) == 8


@pytest.mark.parametrize("analogue", [None, False])
def test_a_job_without_an_analogue_line_has_no_end_of_it(analogue: bool | None) -> None:
    assert ("line", "") not in said(UK, replace(WHOLE, analogue=analogue))


def test_a_market_without_an_end_of_analogue_lines_has_none() -> None:
    assert ("line", "") not in said(EN, WHOLE)
    assert not any("analogue" in one.reason for one in calendar(EN, WHOLE).missing)


def test_nothing_given_is_nothing_said() -> None:
    found = calendar(UK, Given(monitored=False))
    assert found.entries == () and [one.reason for one in found.missing] == ["end of the right to cancel: no day of the contract is given"]


@given(st.dates(date(2000, 1, 1), date(2100, 1, 1)), st.integers(0, 60), st.integers(0, 8))
def test_entries_stand_in_order_and_each_has_its_reason(day: date, soak_days: int, services: int) -> None:
    found: Calendar = calendar(UK, replace(WHOLE, contract=day, soak_from=day, in_use=day, soak_days=soak_days, services=services))
    assert [one.first for one in found.entries] == sorted(one.first for one in found.entries)
    assert all(one.first <= one.last and one.what and one.why and one.source for one in found.entries)
    assert len({(one.kind, one.about) for one in found.entries}) == len(found.entries)
    live = next(one for one in found.entries if one.kind == "go-live")
    assert (live.on - day).days == soak_days + 1


@pytest.mark.parametrize("change, says", [({"soak_days": -1}, "soak_days -1"), ({"services": -1}, "services -1")])
def test_an_absurd_number_is_named(change: dict, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        calendar(UK, replace(WHOLE, **change))


def test_a_smoke_alarm_lives_as_long_as_the_shorter_of_sheet_and_profile_says() -> None:
    papers = papers_of("curlew-house")
    sheet = papers.sheet_of["SM1"]

    def life(years: int | None, unit: str = "SM1") -> Life | None:
        sheets = dict(papers.sheet_of) | {unit: papers.sheet_of[unit].model_copy(update={"life_years": years})}
        return life_of(replace(papers, sheet_of=sheets), unit)

    assert sheet.kind == "smoke"
    # NFPA 72 by US guidance (read second-hand): ten years from its making.
    assert life(None).months == 120 and life(12).months == 120
    assert life(8) == Life(96, f"sheet {papers.job.devices['SM1'].sheet}: life_years")
    assert life(7, "CO1").months == 84
    assert life(None, "CO1") is None
    assert life(20, "CU").source == f"sheet {papers.job.control_unit.sheet}: life_years"
