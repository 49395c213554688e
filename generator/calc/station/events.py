"""What does this system send to the monitoring station, and which of it is brought about on the day?

Codes and meanings stand in `tables/events.py`, the code of a zone is chosen in `zone_events.py`, a message is written in
`event_message.py`. Zones and users carry the number of their partition, what concerns the system as a whole carries 00.
"""
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from generator.calc.slots.slots import Row, SlotMap
from generator.calc.station.calls_of_day import calls_of_day, untried
from generator.calc.station.event_message import MOST_NUMBER, MOST_PARTITION, NEW, RESTORE, account_fits, event_message
from generator.calc.station.event_rows import EventRow, PlannedTest, Sent
from generator.calc.station.zone_events import zone_codes
from generator.model.lists import list_of
from generator.model.papers import Papers
from generator.tables.events import (CANCEL, DC_05, EVENTS, EXIT_ERROR, EXIT_ROLES, LOW_CELL, OMITTED, OMITTED_ROLES, OPEN_CLOSE, PART_SET,
                                     SYSTEM_EVENTS, TAMPER, TEMPERATURES, TRIPS, UNHEARD, UNTRIED, USE)
from generator.terms.show import count, sentence_list
from generator.terms.source import Source

__all__ = ["EventRow", "PlannedTest", "Sent", "SentEvents", "sent_events", "silent"]

WHOLE_SYSTEM = 0
NOTHING_SENT = "This system only sounds: nothing is sent."
NOT_SETTLED = "The zone numbers are not settled yet, so no zone has an event."
SILENCE = "the sheet gives no supervision_min, so it is not known whether their silence is told."
# An answer for each of the three that the job file can say of sets and unsets.
ASK_OPEN_CLOSE = ("Whether turning on and off is reported is not given: 401 and 441 stand here and come only if they are. Whoever agrees the "
                  "account answers.")
NO_OPEN_CLOSE = ("Sets and unsets are not reported, so 401 and 441 do not come. 406 tells of an alarm that a user ended and stays here; whether "
                 "it is sent without 401 stands in the control unit's own papers.")
AFTER_PART_SET = "After it was turned on in part, turning off may come as 441, an opening, instead of 401: the control unit's own papers say."


@dataclass(frozen=True)
class SentEvents:
    """Every event, the tests in the order of the day, what could not be said, and what is not tried, each with its reason.

    `chosen` is where the choice of codes comes from; the codes themselves have their source in each row.
    """

    rows: tuple[EventRow, ...]
    tests: tuple[PlannedTest, ...]
    unsaid: tuple[str, ...]
    untried: tuple[str, ...]
    chosen: Source = USE


def sent_events(papers: Papers, slots: SlotMap, hold_up: Mapping[str, str] | None = None) -> SentEvents:
    """What the system of a job sends. `hold_up` says of a unit whether its hold-up is "silent" or "audible", where known."""
    if papers.job.monitoring is None:
        return SentEvents((), (), (NOTHING_SENT,), ())
    zones = sorted((row for row in slots.rows if row.list == "zones"), key=lambda row: row.zone)
    known = hold_up or {}
    signals = {row.zone: tuple(_of_zone(papers, code, row) for code in zone_codes(papers, row.device, row.input, known.get(row.device, "")))
               for row in zones}
    # Each unit's first zone: the last that is written wins.
    first = {row.device: row.zone for row in reversed(zones)}
    rows = [one for row in zones for one in (*signals[row.zone], *_besides(papers, row, first[row.device]))]
    rows += _of_users(papers)
    rows += [_event(papers, code, WHOLE_SYSTEM, 0) for code in SYSTEM_EVENTS]
    tests = calls_of_day(papers, rows, zones, signals)
    return SentEvents(tuple(rows), tests, tuple(_unsaid(papers, slots, zones, signals, rows)), tuple(_untried(rows, tests)))


def _event(papers: Papers, code: str, partition: int, number: int, device: str = "", text: str = "") -> EventRow:
    one, account = EVENTS[code], papers.job.monitoring.account

    def sent(qualifier: int, means: str) -> Sent | None:
        fits = account_fits(account or "") and partition <= MOST_PARTITION and number <= MOST_NUMBER
        message = event_message(account, qualifier=qualifier, event=code, partition=partition, number=number).spaced if fits else ""
        return Sent(f"{one.means}: {means}", message) if means else None

    return EventRow(code, one.means, one.about, partition, number, device, text, sent(NEW, one.begins), sent(RESTORE, one.ends), DC_05)


def _of_zone(papers: Papers, code: str, row: Row) -> EventRow:
    return _event(papers, code, papers.partition_of(papers.job.devices[row.device]), row.zone, row.device, row.text)


def _besides(papers: Papers, row: Row, first: int) -> Iterator[EventRow]:
    """What a zone sends besides its signal. What concerns the unit as a whole is sent under its first zone."""
    sheet, role = papers.sheet_of[row.device], papers.job.devices[row.device].role
    if row.zone == first and list_of(sheet) == "zones":
        yield _of_zone(papers, TAMPER, row)
        if sheet.radio and sheet.radio.supervision_min is not None:
            yield _of_zone(papers, UNHEARD, row)
        if sheet.power.kind == "cell":
            yield _of_zone(papers, LOW_CELL, row)
    for code, roles in ((OMITTED, OMITTED_ROLES), (TRIPS, OMITTED_ROLES), (EXIT_ERROR, EXIT_ROLES)):
        # Only what is known not to be allowed is left out: not every reader may see whether a user may omit it.
        if role in roles and not (code == OMITTED and papers.job.devices[row.device].omit is False):
            yield _of_zone(papers, code, row)


def _of_users(papers: Papers) -> Iterator[EventRow]:
    """Sets and unsets unless they are not reported; a cancel tells of an alarm and not of a set, and is sent all the same."""
    for code in (CANCEL,) if papers.job.monitoring.open_close is False else (OPEN_CLOSE, PART_SET, CANCEL):
        for partition in papers.partitions():
            for number, user in sorted(papers.job.users.items()):
                yield _event(papers, code, partition, number, text=user.who)


def _unsaid(papers: Papers, slots: SlotMap, zones: list[Row], signals: Mapping[int, tuple[EventRow, ...]],
            rows: list[EventRow]) -> Iterator[str]:
    account = papers.job.monitoring.account
    if not account_fits(account or ""):
        yield (f"No message is written out: the account {account} is not four digits or letters A to F, and this format holds "
               "no other." if account else "No message is written out: no account is given.")
    if not slots.zones_fit:
        yield NOT_SETTLED
    for zone in zones:
        if len(signals[zone.zone]) > 1:
            codes = sentence_list([f"{one.code} ({one.means})" for one in signals[zone.zone]], "or")
            yield f"Zone {zone.zone}, {zone.device}: its circuit \"{zone.input}\" does not say whether it sends {codes}."
    for what, most, numbers in (("partition", MOST_PARTITION, {one.partition for one in rows}),
                                ("zone", MOST_NUMBER, {one.number for one in rows if one.about == "zone"}),
                                ("user", MOST_NUMBER, {one.number for one in rows if one.about == "user"})):
        for number in sorted(one for one in numbers if one > most):
            yield f"{what.capitalize()} {number} has no message: the format ends at {most}."
    yield from _of_units(papers, {zone.device for zone in zones})
    if len(papers.partitions()) > 1:
        yield "Who may set which partition is not in the job file: every user is listed for every partition."
    if papers.job.users:
        yield {None: ASK_OPEN_CLOSE, False: NO_OPEN_CLOSE, True: AFTER_PART_SET}[papers.job.monitoring.open_close]
        if papers.job.monitoring.open_close is None:
            yield AFTER_PART_SET


def _untried(rows: list[EventRow], tests: tuple[PlannedTest, ...]) -> Iterator[str]:
    """What no call brings about, and why. Zones of which it is not known what they send have their own reason among the unsaid."""
    for code, numbers in untried(rows, tests).items():
        where = f", {count(len(numbers), 'zone')}" if any(numbers) else ""
        if code in UNTRIED:
            yield f"{code} ({EVENTS[code].means}{where}): not tried on the day, because {UNTRIED[code]}."
        elif code in TEMPERATURES:
            zones = f"{'zone' if len(numbers) == 1 else 'zones'} {sentence_list(list(map(str, numbers)))}"
            yield (f"{code} ({EVENTS[code].means}, {zones}): not tried with a code, because the name of its circuit does not say which is sent; "
                   "the company sets it, and the station reads back what comes.")


def silent(papers: Papers, reporting: set[str]) -> list[str]:
    """Radio units whose silence may not be told: nothing says how often they are heard. `reporting` are the units with a zone."""
    return [name for name in papers.job.devices if name in reporting and list_of(papers.sheet_of[name]) == "zones"
            and papers.sheet_of[name].slots
            and not (papers.sheet_of[name].radio and papers.sheet_of[name].radio.supervision_min is not None)]


def _of_units(papers: Papers, reporting: set[str]) -> Iterator[str]:
    """Units whose silence may not be told, and units of other lists, of which the format has no number of its own."""
    quiet = silent(papers, reporting)
    if quiet:
        yield f"{sentence_list(quiet)}: {SILENCE}"
    others = [name for name in papers.job.devices if list_of(papers.sheet_of[name]) != "zones"]
    if others:
        yield (f"{sentence_list(others)}: which number the control unit sends for their tamper, cell and supervision stands "
               "in its own papers.")
