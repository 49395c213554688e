"""The lines that the station enters: zones, and every event with its exact message."""
from collections.abc import Iterator
from dataclasses import dataclass

from generator.calc.results import Results
from generator.calc.slots.slots import Row
from generator.calc.station.events import SILENCE, EventRow, Sent, SentEvents, sent_events, silent
from generator.calc.station.zone_events import SHELL
from generator.model.papers import Papers
from generator.model.premises import OUTSIDE
from generator.pages.parts import place_of_row
from generator.tables.events import OMITTED_ROLES, USER, ZONE
from generator.terms.show import capital, sentence_list

PERIMETER, INTERIOR, OUTDOORS, CARRIED = "perimeter", "interior", "outdoors", "carried"
REPORTS = {"contact": "door or window opened", "movement": "movement", "glass-break": "glass broken", "shock": "blows or drilling",
           "smoke": "smoke", "heat": "heat", "carbon-monoxide": "carbon monoxide", "water": "water", "temperature": "temperature",
           "hold-up": "hold-up", "medical": "medical call"}
# What a key or a circuit of another kind of unit reports is said by its zone's role.
REPORTS_BY_ROLE = {"hold-up": "hold-up", "medical": "medical call", "fire": "fire", "carbon-monoxide": "carbon monoxide",
                   "technical": "technical"}
OUTBUILDING = "outbuilding"
NOT_SENT = "not sent"
NOT_WRITTEN = "cannot be written, see below"


@dataclass(frozen=True)
class ZoneRow:
    """One zone as the operator sees it. `storey` is the storey or outbuilding of its place, `confirms` its part in
    confirming an alarm, `signal` whether a hold-up is heard in the house; each is "" where it says nothing of this zone."""

    zone: int
    partition: int
    text: str
    reports: str
    location: str
    storey: str
    place: str
    confirms: str
    signal: str
    reference: str


@dataclass(frozen=True)
class EventLine:
    """One event: whose it is, its code, and its two messages with what they say."""

    about: str
    number: str
    partition: int
    text: str
    code: str
    means: str
    new: str
    new_message: str
    restore: str
    restore_message: str


@dataclass(frozen=True)
class EventGroup:
    """Events of one kind, ready for a table."""

    id: str
    title: str
    who: str
    rows: tuple[EventLine, ...]


def zone_rows(papers: Papers, results: Results) -> tuple[ZoneRow, ...]:
    """Every zone, by its number as the results list it."""
    return tuple(_zone(papers, results, row) for row in results.slots.rows if row.list == "zones")


def _zone(papers: Papers, results: Results, row: Row) -> ZoneRow:
    device, kind = papers.job.devices[row.device], papers.sheet_of[row.device].kind
    # A circuit may bear the name of another kind than its unit: a smoke alarm that also senses "carbon monoxide".
    circuit = row.input.lower().replace(" ", "-")
    reports = REPORTS.get(circuit) or REPORTS.get(kind) or REPORTS_BY_ROLE.get(device.role, "intruder")
    return ZoneRow(row.zone, papers.partition_of(device), row.text, reports, _location(papers, row.device), _storey(papers, row.device),
                   place_of_row(papers, row),
                   _confirms(papers, row.device), _signal(papers, row.device, reports), results.references[row.device])


def _location(papers: Papers, name: str) -> str:
    device = papers.job.devices[name]
    room = papers.room_of(device)
    if not room:
        return CARRIED
    if device.protects or papers.sheet_of[name].kind in SHELL:
        return PERIMETER
    return OUTDOORS if room == OUTSIDE else INTERIOR


def _storey(papers: Papers, name: str) -> str:
    """The storey of a unit's room, and whether that is an outbuilding; "" for what is carried or hangs outside."""
    room = papers.rooms().get(papers.room_of(papers.job.devices[name]) or "")
    if room is None:
        return ""
    storey = papers.job.premises.storeys[room[0]]
    said = storey.name or room[0].replace("-", " ")
    return f"{said} (outbuilding)" if storey.outbuilding and OUTBUILDING not in said.lower() else said


def confirming(papers: Papers) -> bool:
    """Whether alarms are confirmed by a second zone, so that zones stand in groups."""
    return bool(papers.job.monitoring) and papers.job.monitoring.confirmation == "sequential"


def _confirms(papers: Papers, name: str) -> str:
    device = papers.job.devices[name]
    if not confirming(papers):
        return ""
    if device.confirms:
        return "may confirm"
    return "cannot confirm, but can be confirmed" if device.role in (None, *OMITTED_ROLES) else "takes no part"


def confirming_zones(papers: Papers, rows: tuple[ZoneRow, ...]) -> str:
    """Which zones may confirm another one's alarm, in a sentence; "" where alarms are not confirmed by a second zone."""
    if not confirming(papers):
        return ""
    may = [str(one.zone) for one in rows if one.confirms.startswith("may")]
    if not may:
        return "No zone is given that may confirm another one's alarm: ask the company."
    return f"Zones that may confirm the alarm of another zone of their partition: {sentence_list(may)}. No other zone may."


def _signal(papers: Papers, name: str, reports: str) -> str:
    return (papers.job.devices[name].signal or "not given yet: ask the company") if reports == REPORTS["hold-up"] else ""


def events_of(papers: Papers, results: Results) -> SentEvents:
    """Every event that the system sends, as far as the reader of these papers may know it."""
    hold_up = {name: one.signal for name, one in papers.job.devices.items() if one.signal}
    return sent_events(papers, results.slots, hold_up)


def event_lines(events: SentEvents) -> tuple[EventLine, ...]:
    """Every event as a line: zones by their numbers, then users, then the system."""
    return tuple(_line(one) for one in events.rows)


def _line(row: EventRow) -> EventLine:
    return EventLine(row.about, str(row.number) if row.about in (ZONE, USER) else "", row.partition, row.text, row.code, row.means,
                     *_said(row.begins, row.means), *_said(row.ends, row.means))


def _said(sent: Sent | None, means: str) -> tuple[str, str]:
    """What a message says of its event, and the message."""
    if sent is None:
        return NOT_SENT, ""
    return sent.means.removeprefix(f"{means}: "), sent.message or NOT_WRITTEN


def event_groups(lines: tuple[EventLine, ...]) -> tuple[EventGroup, ...]:
    """The lines by whose they are; a kind without any is left out."""
    found = tuple(EventGroup(f"events-{about}", f"Events: {title}", who, tuple(one for one in lines if one.about == about))
                  for about, title, who in (("zone", "zones", "Zone"), ("user", "users", "User"), ("system", "the system", "Event")))
    return tuple(one for one in found if one.rows)


def events_unsaid(papers: Papers, results: Results, events: SentEvents) -> Iterator[str]:
    """What cannot be said of the events, in the station's words."""
    quiet = silent(papers, {row.device for row in results.slots.rows if row.list == "zones"}) if papers.job.monitoring else []
    if quiet:
        yield f"{sentence_list(quiet)}: whether the system reports that it hears them no longer is not known."
    yield from (capital(one) for one in events.unsaid if not one.endswith(SILENCE))
