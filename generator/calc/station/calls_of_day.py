"""Which calls with the station are made on the day, in which state of the system, and in which order?

What acts in any state comes first, with the system unset. Then the system is set as few times as the zones ask for: all
zones that act at once share one setting, and the first zone of an entry ends it, for after its alarm somebody unsets. No
zone acts twice in one setting, so that none runs into its repeated-trip limit. Common practice, no source.
"""
from collections.abc import Iterator, Mapping
from itertools import count

from generator.calc.slots.slots import Row
from generator.calc.station.event_rows import EventRow, PlannedTest, Sent
from generator.model.papers import Papers
from generator.tables.events import (ANY, CANCEL, DONE, DONE_SET, DONE_UNSET, ENTRY, IS_SET, OMITTED, OPEN_CLOSE, PART_SET, SET_OFF, SET_ROLES,
                                     SIGNALS_WHEN_SET, SYSTEM_EVENTS, TAMPER, TEMPERATURES, UNSET_FIRST)

Signals = Mapping[int, tuple[EventRow, ...]]


def calls_of_day(papers: Papers, rows: list[EventRow], zones: list[Row], signals: Signals) -> tuple[PlannedTest, ...]:
    """Every call, in the order of the day. A zone of which it is not known what it sends is in none."""
    return (*_in_any_state(papers, rows, zones, signals), *_in_settings(papers, rows, zones, signals),
            *_of_users(rows, _setters(papers, rows, signals)), *_omitted(papers, rows), *_of_system(rows))


def untried(rows: list[EventRow], tests: tuple[PlannedTest, ...]) -> dict[str, list[int]]:
    """The events that no call brings about, by their code, each with its zones or users; 0 for the system. One zone or user tries
    an event for all, but that of a temperature, of which it may not be known which end a zone watches."""
    codes, zones = {one.code for one in tests}, {(one.code, one.number) for one in tests}
    found: dict[str, set[int]] = {}
    for one in rows:
        if (one.code, one.number) not in zones if one.code in TEMPERATURES else one.code not in codes:
            found.setdefault(one.code, set()).add(one.number)
    return {code: sorted(numbers) for code, numbers in found.items()}


def state_of(papers: Papers, row: EventRow) -> str:
    """The state in which a zone's signal is an alarm: by its role; where that says nothing, by what it sends."""
    role = papers.job.devices[row.device].role
    if role in SET_ROLES:
        return SET_ROLES[role]
    return IS_SET if role is None and row.code in SIGNALS_WHEN_SET else ANY


def _in_any_state(papers: Papers, rows: list[EventRow], zones: list[Row], signals: Signals) -> Iterator[PlannedTest]:
    """By the zones' numbers: the signal of what acts at all times, and every unit's case."""
    cases = {one.number: one for one in rows if one.code == TAMPER}
    for zone in zones:
        known = signals[zone.zone]
        if len(known) == 1 and state_of(papers, known[0]) == ANY:
            yield _test(SET_OFF, known[0], ANY)
        if zone.zone in cases:
            yield _test(DONE[TAMPER], cases[zone.zone], ANY)


def _of_partition(papers: Papers, zones: list[Row], signals: Signals, partition: int, state: str) -> list[EventRow]:
    known = [signals[zone.zone][0] for zone in zones if len(signals[zone.zone]) == 1]
    return [one for one in known if one.partition == partition and state_of(papers, one) == state]


def _settings(papers: Papers, zones: list[Row], signals: Signals) -> Iterator[tuple[int, int, list[EventRow], EventRow | None]]:
    """Each setting: partition, its place among those of the partition, what acts at once, and the zone of an entry that ends it."""
    for partition in papers.partitions():
        at_once = _of_partition(papers, zones, signals, partition, IS_SET)
        entries = _of_partition(papers, zones, signals, partition, ENTRY)
        for place in range(max(len(entries), bool(at_once))):
            yield partition, place, [] if place else at_once, entries[place] if place < len(entries) else None


def _in_settings(papers: Papers, rows: list[EventRow], zones: list[Row], signals: Signals) -> Iterator[PlannedTest]:
    numbers = count(1)
    for partition, place, at_once, entry in _settings(papers, zones, signals):
        number, user = next(numbers), _setter(papers, rows, partition, place)
        told, cancel = _row(rows, OPEN_CLOSE, partition, user), _row(rows, CANCEL, partition, user)
        if told:
            yield _test(DONE_SET, told, UNSET_FIRST, (told.ends,), number)
        yield from (_test(SET_OFF, one, IS_SET, setting=number) for one in at_once)
        if entry:
            yield _test(SET_OFF, entry, ENTRY, setting=number)
        if cancel:
            yield _test(DONE_UNSET, cancel, IS_SET, (told.begins if told else None, cancel.begins), number)


def _setter(papers: Papers, rows: list[EventRow], partition: int, place: int) -> int:
    """Who sets for a setting: in the first partition one user after the other, else the first of all."""
    users = sorted({one.number for one in rows if one.code == CANCEL})
    if not users:
        return 0
    return users[place] if partition == min(papers.partitions()) and place < len(users) else users[0]


def _setters(papers: Papers, rows: list[EventRow], signals: Signals) -> set[tuple[int, int]]:
    zones = [one[0] for one in signals.values() if len(one) == 1]
    done = set()
    for partition in papers.partitions():
        states = [state_of(papers, one) for one in zones if one.partition == partition]
        done |= {(partition, _setter(papers, rows, partition, place)) for place in range(max(states.count(ENTRY), IS_SET in states))}
    return done


def _of_users(rows: list[EventRow], done: set[tuple[int, int]]) -> Iterator[PlannedTest]:
    """Every user who has not set for a zone: each in the first partition, the first user in each; there also a part-set."""
    users = [one for one in rows if one.code == OPEN_CLOSE]
    first, where = (users[0].number, users[0].partition) if users else (0, 0)
    for one in users:
        if (one.partition == where or one.number == first) and (one.partition, one.number) not in done:
            yield _test(DONE[OPEN_CLOSE], one, UNSET_FIRST, (one.ends, one.begins))
    for one in users:
        part = _row(rows, PART_SET, one.partition, first)
        if one.number == first and part:
            yield _test(DONE[PART_SET], part, UNSET_FIRST, (part.ends, one.begins))


def _omitted(papers: Papers, rows: list[EventRow]) -> Iterator[PlannedTest]:
    """One zone that a user may omit; none where no user may omit any."""
    allowed = [one for one in rows if one.code == OMITTED and papers.job.devices[one.device].omit]
    yield from (_test(DONE[OMITTED], one, UNSET_FIRST) for one in allowed[:1])


def _of_system(rows: list[EventRow]) -> Iterator[PlannedTest]:
    yield from (_test(DONE[one.code], one, ANY) for one in rows if one.code in SYSTEM_EVENTS and one.code in DONE)


def _row(rows: list[EventRow], code: str, partition: int, number: int) -> EventRow | None:
    return next((one for one in rows if (one.code, one.partition, one.number) == (code, partition, number)), None)


def _test(do: str, row: EventRow, state: str, expects: tuple[Sent | None, ...] | None = None, setting: int = 0) -> PlannedTest:
    seen = (row.begins, row.ends) if expects is None else expects
    return PlannedTest(do, row.code, state, row.device, row.number, row.text, tuple(one for one in seen if one), setting)
