"""Do periods end where outside counting says, and does a service keep its month?

Months are checked against python-dateutil; weekdays of the federal holidays too. The rules themselves: days are counted without the
day of the event (Regulation (EEC, Euratom) No 1182/71, article 3), business days in the US without Sundays and federal holidays
(16 CFR 429.0), both from memory; services by NSI bulletin 68, read.
"""
from datetime import date, timedelta

import pytest
from dateutil.relativedelta import FR, MO, TH, relativedelta
from hypothesis import given
from hypothesis import strategies as st

from generator.calc.days.dates import Month, federal_holidays, is_business_day, last_business_day, last_day, month_of, months_later
from generator.calc.days.service import on_time, services

days = st.dates(date(1990, 1, 1), date(2150, 12, 31))


@given(days, st.integers(0, 600))
def test_months_later_is_that_of_dateutil(day: date, months: int) -> None:
    assert months_later(day, months) == day + relativedelta(months=months)
    assert month_of(day).plus(months) == month_of(day + relativedelta(months=months))


@given(days, st.integers(-600, 600), st.integers(-600, 600))
def test_months_of_months_add_up(day: date, one: int, other: int) -> None:
    assert month_of(day).plus(one).plus(other) == month_of(day).plus(one + other)


@given(days)
def test_a_month_ends_the_day_before_the_next_begins(day: date) -> None:
    month = month_of(day)
    assert month.first <= day <= month.last
    assert month.last + timedelta(days=1) == month.plus(1).first


@given(days, st.integers(0, 400))
def test_a_period_in_days_leaves_out_the_day_of_its_event(day: date, count: int) -> None:
    assert (last_day(day, count) - day).days == count


def test_fourteen_days_after_a_contract() -> None:
    # By hand: the 2nd is the first day that counts, so the 15th is the fourteenth.
    assert last_day(date(2026, 6, 1), 14) == date(2026, 6, 15)


# The federal holidays of 2026 and 2022 as kept; from memory of the published lists.
@pytest.mark.parametrize("year, kept", [
    (2026, ((1, 1), (1, 19), (2, 16), (5, 25), (6, 19), (7, 3), (9, 7), (10, 12), (11, 11), (11, 26), (12, 25))),
    (2022, ((1, 17), (2, 21), (5, 30), (6, 20), (7, 4), (9, 5), (10, 10), (11, 11), (11, 24), (12, 26)))])
def test_the_federal_holidays_of_two_years(year: int, kept: tuple[tuple[int, int], ...]) -> None:
    weekdays = {one for one in federal_holidays(year) if one.weekday() < 5}
    assert weekdays == {date(year, month, day) for month, day in kept}


@given(st.integers(1990, 2150))
def test_moving_holidays_are_those_of_dateutil(year: int) -> None:
    first = date(year, 1, 1)
    for rule in (relativedelta(day=1, weekday=MO(3)), relativedelta(month=2, day=1, weekday=MO(3)), relativedelta(month=5, day=31, weekday=MO(-1)),
                 relativedelta(month=9, day=1, weekday=MO(1)), relativedelta(month=10, day=1, weekday=MO(2)),
                 relativedelta(month=11, day=1, weekday=TH(4))):
        assert first + rule in federal_holidays(year)


@given(st.integers(1990, 2150))
def test_a_holiday_on_a_weekend_is_kept_on_the_weekday_beside_it(year: int) -> None:
    for month, day in ((1, 1), (7, 4), (11, 11), (12, 25)):
        holiday = date(year, month, day)
        beside = {5: holiday + relativedelta(weekday=FR(-1)), 6: holiday + relativedelta(weekday=MO(1))}.get(holiday.weekday(), holiday)
        assert not is_business_day(holiday) and not is_business_day(beside)


# By hand, with a calendar. Saturdays count.
@pytest.mark.parametrize("signed, ends", [
    (date(2026, 9, 14), date(2026, 9, 17)),     # Monday: Tuesday, Wednesday, Thursday
    (date(2026, 9, 18), date(2026, 9, 22)),     # Friday: Saturday, Monday, Tuesday
    (date(2026, 9, 4), date(2026, 9, 9)),       # Friday before Labor Day: Saturday, Tuesday, Wednesday
    (date(2026, 12, 30), date(2027, 1, 4)),     # Wednesday: Thursday; Saturday; Monday
    (date(2021, 12, 29), date(2022, 1, 4)),     # New Year's Day on a Saturday is kept on the Friday, in the year before
])
def test_three_business_days(signed: date, ends: date) -> None:
    assert last_business_day(signed, 3) == ends


@given(days, st.integers(0, 30))
def test_a_period_of_business_days_holds_so_many_and_ends_with_one(day: date, count: int) -> None:
    ends = last_business_day(day, count)
    between = [day + timedelta(days=one) for one in range(1, (ends - day).days + 1)]
    assert sum(map(is_business_day, between)) == count
    assert not between or is_business_day(ends)


def test_services_fall_due_in_their_months_whenever_the_visit_was() -> None:
    # NSI bulletin 68: the 6th or 12th calendar month after the month of coming into use, the month before or after still on time.
    first, second, third = services(date(2026, 9, 30), every_months=6, window_months=1, count=3)
    assert [one.month for one in (first, second, third)] == [Month(2027, 3), Month(2027, 9), Month(2028, 3)]
    assert (first.earliest, first.latest) == (date(2027, 2, 1), date(2027, 4, 30))
    assert on_time(date(2027, 2, 1), first) and on_time(date(2027, 4, 30), first)
    assert not on_time(date(2027, 1, 31), first) and not on_time(date(2027, 5, 1), first)


@given(days, st.integers(3, 36), st.integers(0, 1), st.integers(1, 12))
def test_services_stand_apart_by_the_interval_and_their_windows_never_meet(day: date, every: int, window: int, count: int) -> None:
    due = services(day, every_months=every, window_months=window, count=count)
    assert [one.month for one in due] == [month_of(day + relativedelta(months=every * one.number)) for one in due]
    for one, other in zip(due, due[1:]):
        assert one.latest < other.earliest


def test_the_day_of_the_month_changes_no_service() -> None:
    first, last = (services(date(2026, 9, day), every_months=12, window_months=1, count=2) for day in (1, 30))
    assert first == last


@pytest.mark.parametrize("call, says", [
    (lambda: Month(2026, 13), "month 13"), (lambda: Month(2026, 0), "month 0"), (lambda: Month(9999, 12).plus(1), "year 10000"),
    (lambda: months_later(date(2026, 1, 1), -1), "months -1"), (lambda: last_day(date(2026, 1, 1), -1), "days -1"),
    (lambda: last_day(date(9999, 12, 31), 1), "no calendar reaches"), (lambda: last_business_day(date(9999, 12, 31), 1), "no calendar reaches"),
    (lambda: last_business_day(date(2026, 1, 1), -3), "business days -3"),
    (lambda: services(date(2026, 1, 1), every_months=0, window_months=0, count=1), "every_months 0"),
    (lambda: services(date(2026, 1, 1), every_months=2, window_months=1, count=1), "window_months 1"),
    (lambda: services(date(2026, 1, 1), every_months=6, window_months=-1, count=1), "window_months -1"),
    (lambda: services(date(2026, 1, 1), every_months=6, window_months=1, count=-1), "count -1")])
def test_an_absurd_number_is_named(call, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        call()
