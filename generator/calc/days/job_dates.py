"""From which of its papers are the dates of a job counted?

What `calendar.py` wants is gathered here and nowhere else, so that every page, rule and file speaks of one calendar. Whoever asks
with papers from which hidden fields were taken out gets the calendar of that reader.
"""
from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date

from generator.calc.days.calendar import AT_DISTANCE, Calendar, Entry, Given, Permit, Printed, Visit, calendar, sort_key
from generator.calc.days.campaigns import Campaign
from generator.calc.days.counted import counted
from generator.calc.days.dates import Month, month_of
from generator.calc.days.replace_by import life_of
from generator.calc.days.service import interval_of, number_after, window_of
from generator.calc.unknown import Unknown
from generator.model.papers import Papers
from generator.terms.show import count, day, month, sentence_list

# How many services are listed, those that are over left aside.
SERVICES = 4
BUSY = "busy"
CANCEL = "end of the right to cancel"


def job_dates(papers: Papers, as_of: date, campaigns: Sequence[Campaign] = ()) -> Calendar:
    """Every date of a job that can be said, and why the others cannot.

    `campaigns` are cells that are changed together by the calculation of their lives; units that none of them names are
    changed at the ages of the profile.
    """
    planned = frozenset(unit for one in campaigns for unit in one.units)
    found = calendar(papers.profile, given_of(papers, as_of, planned))
    entries = sorted((*found.entries, *(_changed(one, last_change(campaigns)) for one in campaigns)), key=sort_key)
    return Calendar(tuple(entries), (*found.missing, *_unsaid(papers, planned)))


def given_of(papers: Papers, as_of: date, planned: frozenset[str] = frozenset()) -> Given:
    """What the dates of a job are counted from; the cells of `planned` units are left aside."""
    job = papers.job
    order, agreed, unit = job.agreement, job.monitoring, job.control_unit
    in_use = order.in_use_on if order else None
    given = Given(
        monitored=agreed is not None,
        contract=order.signed_on if order else None,
        cancels=_cancels(papers),
        soak_from=in_use, soak_days=agreed.soak_days if agreed else None,
        in_use=in_use,
        permits=(*_permits(papers), *_licences(papers)),
        batteries=((unit.id, month_of(unit.battery_on)),) if unit.battery_on else (),
        busy_cells=tuple(_with_cells(papers, True, planned)), cells=tuple(_with_cells(papers, False, planned)),
        analogue=any(one.kind == "phone-line" for one in agreed.paths.values()) if agreed else False,
        services=SERVICES, agreed_months=job.service.every_months if job.service else None,
        printed=tuple(Printed(name, one.replace_by, f"job.devices.{name}.replace_by") for name, one in job.devices.items() if one.replace_by),
        visits=tuple(Visit(number, one.on, bool(one.remote)) for number, one in enumerate(job.service.visits if job.service else (), 1)))
    every, window = interval_of(papers.profile, given.monitored, given.agreed_months), window_of(papers.profile)
    if in_use is None or isinstance(every, Unknown) or isinstance(window, Unknown):
        return given
    return replace(given, first_service=number_after(in_use, as_of, every.months, window))


def _cancels(papers: Papers) -> bool | Unknown:
    """Whether a contract signed where this one was can be cancelled at all."""
    order = papers.job.agreement
    if order is None or order.signed_on is None:
        # The missing day is the reason then.
        return True
    if order.signed_at is None:
        return Unknown(f"{CANCEL}: the job file does not say where the contract was signed")
    if order.signed_at == "distance":
        yes = counted(papers.profile, AT_DISTANCE)
        return Unknown(f"{CANCEL}: {yes.reason}") if isinstance(yes, Unknown) else bool(yes)
    return order.signed_at == "home"


def _permits(papers: Papers) -> Iterator[Permit]:
    agreed = papers.job.monitoring
    for key, one in (agreed.permits if agreed else {}).items():
        if one.valid_to:
            yield Permit(f"{papers.profile.words.permit} “{key}” of {one.by}", one.valid_to, source=f"job.monitoring.permits.{key}.valid_to")


def _licences(papers: Papers) -> Iterator[Permit]:
    for index, one in enumerate(papers.company.licences):
        yield Permit(f"licence “{one.name}” of the company", one.valid_to, "licence", f"company.licences.{index}.valid_to")


def _with_cells(papers: Papers, busy: bool, planned: frozenset[str]) -> Iterator[str]:
    """Units that live on cells: those in busy places, or all others of which it is known that they are not. What is carried is
    in no place, and changed with the others."""
    for name, traffic in _traffic(papers):
        if name not in planned and traffic is not None and (traffic == BUSY) == busy:
            yield name


def _traffic(papers: Papers) -> Iterator[tuple[str, str | None]]:
    """Each unit with cells and how often it acts; "" for what is carried, None for what is not known."""
    rooms = papers.rooms()
    for name, device in papers.job.devices.items():
        if papers.sheet_of[name].power.kind == "cell":
            place = papers.room_of(device)
            room = rooms[place][1].traffic if place in rooms else None
            yield name, device.traffic or room or (None if place in rooms else "")


def _unsaid(papers: Papers, planned: frozenset[str]) -> Iterator[Unknown]:
    """Dates of units that nobody can count, since what they are counted from is not given."""
    unknown = [name for name, traffic in _traffic(papers) if traffic is None and name not in planned]
    if unknown:
        yield Unknown(f"cells of {sentence_list(unknown)}: no traffic is given for the unit or its room")
    unit = papers.job.control_unit
    if papers.sheet_of[unit.id].power.kind == "mains" and unit.battery_on is None:
        yield Unknown(f"battery, {unit.id}: no date on the battery is given")
    own = list(_own_packs(papers))
    if own:
        yield Unknown(f"batteries of their own, {sentence_list(own)}: the job file holds a date for the battery of the control unit alone; "
                      "it is read on each unit, and each unit's papers say when its battery is changed")
    order = papers.job.agreement
    for name, device in papers.job.devices.items():
        life = None if device.replace_by else life_of(papers, name)
        if life is not None:
            yield Unknown(f"replacement of {name}: no replace_by is given{_at_the_latest(order.in_use_on if order else None, life.months)}")


def _own_packs(papers: Papers) -> Iterator[str]:
    """Units fed from elsewhere that carry a battery of their own."""
    for name in papers.job.devices:
        power = papers.sheet_of[name].power
        if power.kind in ("mains", "wired") and power.cell:
            yield name


def _at_the_latest(in_use: date | None, months: int) -> str:
    """The month in which a unit is replaced at the latest: it was made before it came into use."""
    if in_use is None:
        return ""
    try:
        return f"; {month(month_of(in_use).plus(months).first)} at the latest, {count(months, 'month')} after coming into use"
    except ValueError:
        return ""


def last_change(campaigns: Sequence[Campaign]) -> str:
    """The month until which changes of cells are listed, in words; "" where there are none."""
    found = max(((one.year, one.month) for one in campaigns), default=None)
    return month(Month(*found).first) if found else ""


def _changed(one: Campaign, until: str) -> Entry:
    """Cells of one type that are changed together, on the last visit before any of them is spent."""
    return Entry("cells", f"{one.cell} {one.year}-{one.month:02}", Month(one.year, one.month),
                 f"Change {one.cells} × {one.cell}: {sentence_list(list(one.units))}",
                 f"the last visit before they are spent, by their calculation; the first on {day(one.first_on)}; changes are listed until {until}",
                 "worked out")
