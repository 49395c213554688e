"""On which day does a period end, and in which month is something due?

A period in days leaves out the day on which its event falls: it begins with the next day and ends with the last hour of its
last day (Regulation (EEC, Euratom) No 1182/71, article 3; from memory). Periods in months keep the day of the month, or end
with a month that is too short for it.
"""
from calendar import monthrange
from dataclasses import dataclass
from datetime import date, timedelta

from generator.tables.holidays import FIXED, LAST, MOVING

SATURDAY, SUNDAY = 5, 6


@dataclass(frozen=True, order=True)
class Month:
    """A month of a year; `month` is 1 for January. ValueError for a month that no calendar has."""

    year: int
    month: int

    def __post_init__(self) -> None:
        if not 1 <= self.month <= 12:
            raise ValueError(f"month {self.month!r}: 1 to 12 is wanted")
        if not date.min.year <= self.year <= date.max.year:
            raise ValueError(f"year {self.year!r}: {date.min.year} to {date.max.year} is wanted")

    @property
    def first(self) -> date:
        """Its first day."""
        return date(self.year, self.month, 1)

    @property
    def last(self) -> date:
        """Its last day."""
        return date(self.year, self.month, monthrange(self.year, self.month)[1])

    def plus(self, months: int) -> "Month":
        """The month so many months later; before it for a number below zero.

        >>> Month(2026, 11).plus(3)
        Month(year=2027, month=2)
        """
        whole = self.year * 12 + self.month - 1 + months
        return Month(whole // 12, whole % 12 + 1)


def month_of(day: date) -> Month:
    """The month in which a day falls."""
    return Month(day.year, day.month)


def months_later(day: date, months: int) -> date:
    """The same day so many months later, the last of the month where that has no such day; ValueError below zero months.

    >>> months_later(date(2027, 8, 31), 6)
    datetime.date(2028, 2, 29)
    """
    _counted("months", months)
    month = month_of(day).plus(months)
    return date(month.year, month.month, min(day.day, month.last.day))


def last_day(event: date, days: int) -> date:
    """The last day of a period that an event begins; ValueError below zero days, and where no calendar reaches so far.

    >>> last_day(date(2026, 9, 14), 14)
    datetime.date(2026, 9, 28)
    """
    _counted("days", days)
    if days > (date.max - event).days:
        raise ValueError(f"days {days!r} after {event}: no calendar reaches so far")
    return event + timedelta(days=days)


def last_business_day(event: date, days: int) -> date:
    """The last day of a period of business days that an event begins; ValueError below zero days.

    Business days as the US rule for sales in the home counts them: all but Sundays and federal holidays (16 CFR 429.0; from
    memory). Saturdays count.
    """
    _counted("business days", days)
    day = event
    while days:
        day = last_day(day, 1)
        days -= is_business_day(day)
    return day


def is_business_day(day: date) -> bool:
    """Whether a day counts: no Sunday, no federal holiday, and no day on which one is kept that falls on a weekend. The last
    makes a period end rather late than early."""
    return day.weekday() != SUNDAY and day not in federal_holidays(day.year)


def federal_holidays(year: int) -> frozenset[date]:
    """The federal holidays of the United States in a year, with the days on which those of a weekend are kept."""
    # New Year's Day of the next year may be kept on the last day of this one.
    fixed = [date(one, month, day) for one in (year, year + 1) if one <= date.max.year
             for month, day, since in FIXED if one >= since]
    moving = [_weekday(year, month, weekday, which) for month, weekday, which, since in MOVING if year >= since]
    return frozenset(one for one in (*fixed, *map(_kept, fixed), *moving) if one.year == year)


def _kept(day: date) -> date:
    """The weekday on which a holiday is kept: Friday for a Saturday, Monday for a Sunday."""
    return day + timedelta(days={SATURDAY: -1, SUNDAY: 1}.get(day.weekday(), 0))


def _weekday(year: int, month: int, weekday: int, which: int) -> date:
    of_month = [one for one in range(1, Month(year, month).last.day + 1) if date(year, month, one).weekday() == weekday]
    return date(year, month, of_month[which if which == LAST else which - 1])


def _counted(name: str, value: int) -> None:
    if value < 0:
        raise ValueError(f"{name} {value!r}: 0 or more is wanted")
