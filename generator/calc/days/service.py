"""In which month is each service due, and was a visit on time?

Due is the month so many months after the month in which the system came into use, and every so many months after that. A
visit in the month before or after still counts as on time; the due month, not the visit, stays the base of the next one.
Source: NSI bulletin 68, read; the interval and the months before and after are limits of the profile.
"""
from dataclasses import dataclass
from datetime import date

from generator.calc.days.counted import counted
from generator.calc.days.dates import Month, month_of
from generator.calc.unknown import Unknown
from generator.model.profile import Profile

MONITORED, AUDIBLE, WINDOW = "service_months", "service_audible_months", "service_window_months"
AGREED = "job.service.every_months"


@dataclass(frozen=True)
class Interval:
    """Months from one service to the next, and who says so."""

    months: int
    source: str


@dataclass(frozen=True)
class Due:
    """One service: its number from 1, its month, and the first and last day on which a visit counts as on time."""

    number: int
    month: Month
    earliest: date
    latest: date


def services(in_use: date, *, every_months: int, window_months: int, count: int, first: int = 1) -> tuple[Due, ...]:
    """So many services of a system that came into use on a day, from the one with the number `first` on.

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
    if first < 1:
        raise ValueError(f"first {first!r}: 1 or more is wanted")
    return tuple(_due(number, month_of(in_use).plus(number * every_months), window_months) for number in range(first, first + count))


def interval_name(profile: Profile, monitored: bool) -> str:
    """The limit that holds the longest time between two services: a system that only sounds may have one of its own."""
    return AUDIBLE if not monitored and AUDIBLE in profile.limits else MONITORED


def interval_of(profile: Profile, monitored: bool, agreed: int | None = None) -> Interval | Unknown:
    """The months that count: the profile's, or those that were agreed if they are fewer or the profile has none."""
    name = interval_name(profile, monitored)
    longest = counted(profile, name)
    if agreed is not None and (isinstance(longest, Unknown) or agreed < longest):
        return Interval(agreed, AGREED)
    return longest if isinstance(longest, Unknown) else Interval(longest, profile.source_of(name).cited())


def window_of(profile: Profile) -> int | Unknown:
    """The months before and after a due month in which a visit is on time; 0 where the profile has no such limit."""
    return counted(profile, WINDOW) if WINDOW in profile.limits else 0


def number_after(in_use: date, day: date, every_months: int, window_months: int) -> int:
    """The number of the first service that a visit on a day, or after it, can be on time for; at least 1.

    >>> number_after(date(2026, 10, 13), date(2027, 6, 1), 6, 1)
    2
    """
    return max(1, -(-(_months(in_use, day) - window_months) // every_months))


def number_near(in_use: date, day: date, every_months: int) -> int:
    """The number of the service whose month is nearest to that of a day, the earlier of two as near; at least 1.

    >>> number_near(date(2026, 10, 13), date(2027, 4, 20), 6)
    1
    """
    return max(1, -(-(2 * _months(in_use, day) - every_months) // (2 * every_months)))


def _months(first: date, second: date) -> int:
    return (second.year - first.year) * 12 + second.month - first.month


def on_time(visit: date, due: Due) -> bool:
    """Whether a visit counts as on time."""
    return due.earliest <= visit <= due.latest


def _due(number: int, month: Month, window_months: int) -> Due:
    return Due(number, month, month.plus(-window_months).first, month.plus(window_months).last)
