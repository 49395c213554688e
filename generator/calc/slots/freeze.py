"""Which numbers does a job start with, and which rest? What was issued, and the system as it was found, stay as they are."""
import calendar
from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date

from generator.calc.slots.slots import Row, SlotMap
from generator.model.frozen import AS_FOUND, AS_ISSUED, Frozen, Resting
from generator.model.issued import HeldNumber, Issued, RestingNumber, Revision
from generator.model.lists import takes
from generator.model.papers import Papers
from generator.terms.show import day

REST_LIMIT = "number_rest_months"
NOT_OURS = "taken by something that is no part of this job"

Firsts = dict[str, dict[str, int]]


def as_of_day(papers: Papers, issued: Issued | None) -> date:
    """The day for which dates are worked out: that of the last issue, unless the job's `dated` was moved past it since."""
    dated = papers.job.dated
    if issued is None:
        return dated
    return issued.last.date if dated == issued.last.dated else max(dated, issued.last.date)


def frozen(papers: Papers, issued: Issued | None, as_of: date) -> Frozen:
    """The frozen numbers of a job on a day."""
    last = issued.last if issued else None
    numbers = first_numbers(last) if last else {}
    _found(papers, numbers)
    if last is None:
        return Frozen(numbers, tuple(_not_ours(papers)), AS_FOUND)
    for one in last.resting:
        if _rests(one, as_of) and one.device in papers.job.devices:
            numbers.setdefault(one.list, {}).setdefault(one.device, one.number)
    own = {(kind, number): name for kind, of in numbers.items() for name, first in of.items()
           for number in range(first, first + size_of(papers, name, kind))}
    freed = {(one.list, one.number) for one in papers.job.freed}
    rest = [one for one in _resting(last, own, as_of) if (one.list, one.number) not in freed]
    return Frozen(numbers, (*_not_ours(papers), *rest), AS_ISSUED, references_of(last))


def first_numbers(last: Revision) -> Firsts:
    """The first number of each unit, by list and unit, as issued."""
    numbers: Firsts = {}
    for row in sorted(last.map, key=lambda row: row.number):
        if row.device:
            numbers.setdefault(row.list, {}).setdefault(row.device, row.number)
    return numbers


def size_of(papers: Papers, name: str, kind: str) -> int:
    """How many numbers of a list a unit takes; 0 if it is not in the job."""
    device, unit = papers.job.devices.get(name), papers.sheet_of[papers.job.control_unit.id].control_unit
    return takes(device, papers.sheet_of[name], unit).get(kind, 0) if device else 0


def references_of(last: Revision) -> dict[str, str]:
    """The short references of every unit that was ever issued."""
    return {**last.other_references, **{row.device: row.reference for row in last.map if row.device and row.reference}}


def _found(papers: Papers, numbers: Firsts) -> None:
    """The system as it was found; what was issued since counts before it."""
    for one in papers.job.existing:
        if one.device:
            numbers.setdefault(one.list, {}).setdefault(one.device, one.number)


def _not_ours(papers: Papers) -> Iterator[Resting]:
    for one in papers.job.existing:
        if not one.device:
            yield Resting(one.list, one.number, f"{NOT_OURS}: {one.text}" if one.text else NOT_OURS)


def _rests(one: RestingNumber, as_of: date) -> bool:
    return one.until is None or as_of < one.until


def _resting(last: Revision, own: Mapping[tuple[str, int], str], as_of: date) -> Iterator[Resting]:
    """The numbers whose unit went: in an earlier revision, or since the last one."""
    for one in last.resting:
        if _rests(one, as_of) and own.get((one.list, one.number)) != one.device:
            until = f" until {day(one.until)}" if one.until else ""
            yield Resting(one.list, one.number, f"its unit {one.device} was removed in revision {one.since}{until}")
    for row in last.map:
        if row.device and own.get((row.list, row.number)) != row.device:
            yield Resting(row.list, row.number, f"its unit {row.device} had it in revision {last.revision} and has it no more")


def numbers_after(last: Revision | None, held: tuple[HeldNumber, ...], revision: int, on: date,
                  months: float | None) -> list[RestingNumber]:
    """The numbers that rest from an issue on: those that went with it, and those whose time is not over.

    `months` is the profile's time; None if it says none: the number then rests until further notice.
    """
    if last is None:
        return []
    taken = {(row.list, row.number) for row in held}
    kept = [one for one in last.resting if _rests(one, on) and (one.list, one.number) not in taken]
    until = months_later(on, int(months)) if months is not None else None
    gone = [RestingNumber.model_construct(list=row.list, number=row.number, device=row.device, since=revision, until=until)
            for row in last.map if row.device and (row.list, row.number) not in taken]
    return sorted([*kept, *gone], key=lambda one: (one.list, one.number))


def months_later(on: date, months: int) -> date:
    """The same day some months later; the last of the month where it has no such day."""
    year, month = divmod(on.year * 12 + on.month - 1 + months, 12)
    return date(year, month + 1, min(on.day, calendar.monthrange(year, month + 1)[1]))


def with_reasons(slots: SlotMap, issued: Issued | None) -> SlotMap:
    """The slot map in which each number that was issued says why it was given then, and in which revision."""
    given = {(row.list, row.number, row.device or ""): row for row in issued.last.map} if issued else {}

    def told(row: Row) -> Row:
        before = given.get((row.list, row.zone or row.number, row.device))
        return replace(row, why=before.why, since=before.since) if before else row

    return replace(slots, rows=tuple(map(told, slots.rows)))
