"""In which month is each service due, and was a visit on time?

Due is the month so many months after the month in which the system came into use, and every so many months after that. A
visit in the month before or after still counts as on time; the due month, not the visit, stays the base of the next one.
Source: NSI bulletin 68, read; the interval and the months before and after are limits of the profile.
"""
from dataclasses import dataclass
from datetime import date

from generator.calc.dates import Month, month_of


@dataclass(frozen=True)
class Due:
    """One service: its number from 1, its month, and the first and last day on which a visit counts as on time."""

    number: int
    month: Month
    earliest: date
    latest: date


def services(in_use: date, *, every_months: int, window_months: int, count: int) -> tuple[Due, ...]:
    """The first services of a system that came into use on a day.

    ValueError for an interval below one month, and for a window that reaches the next service's, or is below zero.

    >>> services(date(2026, 9, 14), every_months=12, window_months=1, count=1)[0].month
    Month(year=2027, month=9)
    """
    if every_months < 1:
        raise ValueError(f"every_months {every_months!r}: 1 or more is wanted")
    if not 0 <= 2 * window_months < every_months:
        raise ValueError(f"window_months {window_months!r}: 0 or more, and less than half of {every_months}, is wanted")
    if count < 0:
        raise ValueError(f"count {count!r}: 0 or more is wanted")
    return tuple(_due(number, month_of(in_use).plus(number * every_months), window_months) for number in range(1, count + 1))


def on_time(visit: date, due: Due) -> bool:
    """Whether a visit counts as on time."""
    return due.earliest <= visit <= due.latest


def _due(number: int, month: Month, window_months: int) -> Due:
    return Due(number, month, month.plus(-window_months).first, month.plus(window_months).last)
