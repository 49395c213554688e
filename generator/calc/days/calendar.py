"""Which days and months of a job must nobody miss?

Everything is counted from days that are given; where one is missing, or the profile lacks the limit, the reason stands in
`Calendar.missing`. Periods are counted as `dates.py` says, services as `service.py` does.
"""
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date

from generator.calc.days.counted import counted
from generator.calc.days.dates import Month, last_business_day, last_day, month_of
from generator.calc.days.replace_by import SMOKE, Life
from generator.calc.days.service import AUDIBLE, MONITORED, WINDOW, Due, interval_of, number_near, on_time, services, window_of
from generator.calc.unknown import Unknown
from generator.model.profile import Profile
from generator.terms.show import count, day, sentence_list

BUSINESS = "business days"
CANCELLATION, AT_DISTANCE = "cancellation_days", "cancellation_distance_yes"
BATTERY, BUSY_CELLS, CELLS = "battery_change_months", "cell_busy_months", "cell_change_months"
LINE_YEAR, LINE_MONTH = "analogue_end_year", "analogue_end_month"
LIMITS = (CANCELLATION, AT_DISTANCE, MONITORED, AUDIBLE, WINDOW, BATTERY, BUSY_CELLS, CELLS, LINE_YEAR, LINE_MONTH, SMOKE)
JOB_FILE = "the job file"


@dataclass(frozen=True)
class Made:
    """A unit that is replaced as a whole: when it was made, and how long it lives."""

    unit: str
    made: Month
    life: Life


@dataclass(frozen=True)
class Printed:
    """A unit and the day that is printed on it, by which it is replaced; `source` is the field that holds it."""

    unit: str
    on: date
    source: str


@dataclass(frozen=True)
class Permit:
    """A permit, registration or licence and the last day on which it holds; `kind` is permit or licence."""

    name: str
    last: date
    kind: str = "permit"
    source: str = JOB_FILE


@dataclass(frozen=True)
class Visit:
    """A service visit that has a day, planned or made."""

    number: int
    on: date
    remote: bool


@dataclass(frozen=True)
class Given:
    """What the dates of a job are counted from; None, or nothing, for what is not known.

    `contract` is the day on which it was made, `cancels` whether a contract made like that can be cancelled at all; `soak_from` the day on which the station was joined, `soak_days` the days
    agreed; `in_use` the day on which the system came into use; `batteries` each unit's standby battery with the month of its
    making; `busy_cells` and `cells` the units whose cells are changed together; `analogue` whether a path uses an analogue
    telephone line; `services` how many services are worked out, from `first_service` on; `agreed_months` the months from one to the
    next that were agreed; `visits` those that have a day.
    """

    monitored: bool
    contract: date | None = None
    cancels: bool | Unknown = True
    soak_from: date | None = None
    soak_days: int | None = None
    in_use: date | None = None
    permits: tuple[Permit, ...] = ()
    made: tuple[Made, ...] = ()
    batteries: tuple[tuple[str, Month], ...] = ()
    busy_cells: tuple[str, ...] = ()
    cells: tuple[str, ...] = ()
    analogue: bool | None = None
    services: int = 0
    first_service: int = 1
    agreed_months: int | None = None
    printed: tuple[Printed, ...] = ()
    visits: tuple[Visit, ...] = ()


@dataclass(frozen=True)
class Entry:
    """A day or a month, what is then, why then, and where that comes from.

    `kind` is cancellation, soak, go-live, service, visit, cells, battery, replace, permit, licence or line; `about` names the unit or
    the permit where there are several of a kind, or the number of the service or visit. Kind and `about` together are an entry's own in a job.
    """

    kind: str
    about: str
    on: date | Month
    what: str
    why: str
    source: str

    @property
    def first(self) -> date:
        """Its day, or the first of its month."""
        return self.on.first if isinstance(self.on, Month) else self.on

    @property
    def last(self) -> date:
        """Its day, or the last of its month."""
        return self.on.last if isinstance(self.on, Month) else self.on


@dataclass(frozen=True)
class Calendar:
    """The entries by their first day, and what could not be said."""

    entries: tuple[Entry, ...]
    missing: tuple[Unknown, ...]


def calendar(profile: Profile, given: Given) -> Calendar:
    """All that can be said. ValueError for a number of days or of services below zero."""
    for name, value in (("soak_days", given.soak_days or 0), ("services", given.services)):
        if value < 0:
            raise ValueError(f"{name} {value!r}: 0 or more is wanted")
    said = [one for part in (_cancellation, _soak, _services, _visits, _cells, _batteries, _replaced, _permits, _line)
            for one in part(profile, given)]
    return Calendar(tuple(sorted((one for one in said if isinstance(one, Entry)), key=sort_key)),
                    tuple(one for one in said if isinstance(one, Unknown)))


def sort_key(one: Entry) -> tuple[date, date, str, str]:
    """The order of the calendar: by the first day, then by the last."""
    return one.first, one.last, one.kind, one.about


Said = Iterator[Entry | Unknown]


def _cancellation(profile: Profile, given: Given) -> Said:
    if given.cancels is False:
        return
    days = counted(profile, CANCELLATION)
    if isinstance(given.cancels, Unknown):
        yield given.cancels
    elif given.contract is None:
        yield Unknown("end of the right to cancel: no day of the contract is given")
    elif isinstance(days, Unknown):
        yield Unknown(f"end of the right to cancel: {days.reason}")
    else:
        business = profile.limits[CANCELLATION].unit == BUSINESS
        count_to = last_business_day if business else last_day
        left_out = "; Sundays and federal holidays are not counted" if business else ""
        yield _on("end of the right to cancel", lambda: Entry(
            "cancellation", "", count_to(given.contract, days), "Last day on which the contract can be cancelled",
            f"{_days(days, business)} after the contract of {day(given.contract)}, that day not counted{left_out}", _cited(profile, CANCELLATION)))


def _days(days: int, business: bool) -> str:
    return count(days, "business day" if business else "day")


def _soak(profile: Profile, given: Given) -> Said:
    if not given.monitored:
        return
    if given.soak_from is None or given.soak_days is None:
        yield Unknown(f"soak period: {'no first day' if given.soak_from is None else 'no number of days'} is given")
        return
    why = f"{_days(given.soak_days, False)} after {day(given.soak_from)}, that day not counted"
    yield _on("soak period", lambda: Entry("soak", "", last_day(given.soak_from, given.soak_days), "Last day of the soak period", why, JOB_FILE))
    yield _on("soak period", lambda: Entry("go-live", "", last_day(given.soak_from, given.soak_days + 1),
                                           "Response goes live, if the station and the company agree", f"the day after the soak period: {why}",
                                           JOB_FILE))


def _services(profile: Profile, given: Given) -> Said:
    if not given.services:
        return
    every, window = interval_of(profile, given.monitored, given.agreed_months), window_of(profile)
    lacking = next((one for one in (every, window) if isinstance(one, Unknown)), None)
    if given.in_use is None or lacking:
        yield Unknown(f"services: {lacking.reason if lacking else 'no day on which the system came into use is given'}")
        return
    try:
        due = services(given.in_use, every_months=every.months, window_months=window, count=given.services, first=given.first_service)
    except ValueError as wrong:
        yield Unknown(f"services: {wrong}")
        return
    for one in due:
        on_time = f"; on time from {day(one.earliest)} to {day(one.latest)}" if window else ""
        yield Entry("service", str(one.number), one.month, f"Service {one.number}",
                    f"{count(every.months * one.number, 'month')} after the month of coming into use{on_time}",
                    "; ".join((every.source, *([_cited(profile, WINDOW)] if window else []))))


def _visits(profile: Profile, given: Given) -> Said:
    for one in given.visits:
        how = "Visit from afar" if one.remote else "Visit"
        yield Entry("visit", str(one.number), one.on, f"{how} for a service", _in_its_time(profile, given, one.on), JOB_FILE)


def _in_its_time(profile: Profile, given: Given, on: date) -> str:
    """Which service a visit is for, and whether it is on time for it."""
    due = due_of(profile, given, on)
    if isinstance(due, Unknown):
        return "planned, or made"
    inside = "in" if on_time(on, due) else "outside"
    return f"{inside} the time of service {due.number}, {day(due.earliest)} to {day(due.latest)}"


def due_of(profile: Profile, given: Given, on: date) -> Due | Unknown:
    """The service that a visit on a day belongs to: the one whose month is nearest."""
    every = interval_of(profile, given.monitored, given.agreed_months)
    if isinstance(every, Unknown) or given.in_use is None:
        return every if isinstance(every, Unknown) else Unknown("no day on which the system came into use is given")
    return service_number(profile, given, number_near(given.in_use, on, every.months))


def service_number(profile: Profile, given: Given, number: int) -> Due | Unknown | None:
    """One service by its number; None for a number below 1."""
    every, window = interval_of(profile, given.monitored, given.agreed_months), window_of(profile)
    lacking = next((one for one in (every, window) if isinstance(one, Unknown)), None)
    if given.in_use is None or lacking:
        return lacking or Unknown("no day on which the system came into use is given")
    try:
        due = services(given.in_use, every_months=every.months, window_months=window, count=min(max(number, 0), 1), first=max(number, 1))
    except ValueError as wrong:
        return Unknown(str(wrong))
    return due[0] if due else None


def _cells(profile: Profile, given: Given) -> Said:
    for name, units, which in ((BUSY_CELLS, given.busy_cells, "busy"), (CELLS, given.cells, "other")):
        if units:
            what = f"Change the cells of {sentence_list(list(units))}"
            yield _after(profile, name, given.in_use and month_of(given.in_use), "cells", which, what, "month of coming into use")


def _batteries(profile: Profile, given: Given) -> Said:
    for unit, since in given.batteries:
        yield _after(profile, BATTERY, since, "battery", unit, f"Change the standby battery of {unit}", "month of its making")


def _after(profile: Profile, name: str, since: Month | None, kind: str, about: str, what: str, base: str) -> Entry | Unknown:
    """Something due so many months, as a limit says, after a month."""
    months = counted(profile, name)
    if since is None:
        return Unknown(f"{kind}, {about}: no {base} is given")
    if isinstance(months, Unknown):
        return Unknown(f"{kind}, {about}: {months.reason}")
    again = "; then again after as long" if kind == "cells" else ""
    return _on(f"{kind}, {about}", lambda: Entry(kind, about, since.plus(months), what, f"{count(months, 'month')} after the {base}{again}",
                                                 _cited(profile, name)))


def _replaced(profile: Profile, given: Given) -> Said:
    for one in given.made:
        yield _on(f"replacement of {one.unit}", lambda one=one: Entry(
            "replace", one.unit, one.made.plus(one.life.months), f"Replace {one.unit} as a whole",
            f"{count(one.life.months, 'month')} after the month of its making", one.life.source))
    for one in given.printed:
        yield Entry("replace", one.unit, one.on, f"Last day of {one.unit}: replace it as a whole by then", "as printed on the unit", one.source)


def _permits(profile: Profile, given: Given) -> Said:
    for one in given.permits:
        yield Entry(one.kind, one.name, one.last, f"Last day of {one.name}", "as its papers say", one.source)


def _line(profile: Profile, given: Given) -> Said:
    if not given.analogue or LINE_YEAR not in profile.limits and LINE_MONTH not in profile.limits:
        return
    year, month = counted(profile, LINE_YEAR), counted(profile, LINE_MONTH)
    lacking = next((one for one in (year, month) if isinstance(one, Unknown)), None)
    yield lacking if lacking else _on("analogue lines", lambda: Entry(
        "line", "", Month(year, month).last, "Last day of analogue telephone lines",
        "a path of this system uses one; a digital line carries no power of its own", _cited(profile, LINE_YEAR)))


def _on(what: str, entry: Callable[[], Entry]) -> Entry | Unknown:
    """An entry, or why there is none: no calendar reaches so far."""
    try:
        return entry()
    except ValueError as wrong:
        return Unknown(f"{what}: {wrong}")


def _cited(profile: Profile, *names: str) -> str:
    return "; ".join(dict.fromkeys(profile.source_of(name).cited() for name in names))
