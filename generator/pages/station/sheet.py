"""The monitoring station's one page, with the same facts as tables and as data."""
from dataclasses import dataclass
from typing import ClassVar

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.pages.changes import Compared, station_lines
from generator.pages.page import Link, Page, Stamp
from generator.pages.paper import Section
from generator.pages.parts import Fact
from generator.pages.station.parts import after_zones, before_zones
from generator.pages.station.zones import (EventGroup, EventLine, ZoneRow, confirming_zones, event_groups, event_lines, events_of, events_unsaid,
                                           zone_rows)


@dataclass(frozen=True)
class StationView:
    """Everything the station is told. `gap` says what is missing where the numbers do not fit, `changes` which lines are
    others than in the revision that `against` names. `confirming` says which zones may confirm an alarm, "" where
    none is confirmed by a second zone; `holding_up` whether zones have anything to tell of hold-ups."""

    stamp: Stamp
    contents: tuple[Link, ...]
    before: tuple[Section, ...]
    zones: tuple[ZoneRow, ...]
    confirming: str
    holding_up: bool
    events: tuple[EventLine, ...]
    event_groups: tuple[EventGroup, ...]
    events_from: tuple[str, ...]
    events_unsaid: tuple[str, ...]
    partitions: tuple[Fact, ...]
    users: tuple[Fact, ...]
    after: tuple[Section, ...]
    withheld: tuple[str, ...]
    gap: str
    against: str
    changes: tuple[str, ...]
    # The events stand in the data as one list, and what only lays out the page is no data.
    only_printed: ClassVar[tuple[str, ...]] = ("contents", "event_groups", "confirming", "holding_up")


def station_page(papers: Papers, results: Results, stamp: Stamp, compared: Compared) -> Page:
    """The one page."""
    return Page("index.html", f"Monitoring sheet: {papers.job.title}", "station/sheet.html.j2", _view(papers, results, stamp, compared))


def _view(papers: Papers, results: Results, stamp: Stamp, compared: Compared) -> StationView:
    zones = zone_rows(papers, results)
    events = events_of(papers, results)
    lines = event_lines(events)
    groups = event_groups(lines)
    before, after = before_zones(papers, results), after_zones(papers)
    partitions = tuple(Fact(str(number), name) for number, name in papers.partitions().items())
    users = tuple(Fact(str(row.number), row.text) for row in results.slots.rows if row.list == "users")
    gap = "" if results.slots.zones_fit else "The zone numbers are not settled yet. Wait for a new sheet from the company."
    changes = (station_lines(compared.changes) or ("No zone, no partition and no user.",)) if compared.changes else ()
    contents = [*(("changes", "Changed"),) * bool(changes), *((one.id, one.title) for one in before), ("zones", "Zones"),
                ("partitions", "Partitions"), *(("users", "Users"),) * bool(users), *((one.id, one.title) for one in after),
                *(("events", "Events"),) * bool(lines), *((one.id, one.title) for one in groups), ("withheld", "Not on this sheet")]
    return StationView(
        stamp=stamp, contents=tuple(Link(f"#{id}", title) for id, title in contents), before=before, zones=zones,
        confirming=confirming_zones(papers, zones), holding_up=any(one.signal for one in zones), events=lines, event_groups=groups,
        events_from=_from(papers, events.rows[0].source.cited() if events.rows else "", events.chosen.cited()) if lines else (),
        events_unsaid=tuple(events_unsaid(papers, results, events)),
        partitions=partitions, users=users, after=after, withheld=_withheld(papers), gap=gap, against=compared.against, changes=changes)


def _from(papers: Papers, codes: str, chosen: str) -> tuple[str, ...]:
    """Where codes and messages come from, and what is not settled of their format."""
    told = {"dc-05": "", "dc-09": "They are carried by SIA DC-09: what stands here is the event inside."}
    agreed = papers.job.monitoring.format
    return tuple(filter(None, (
        "Each message: account, type 18, qualifier (1 new or opening, 3 restored or closing) with the event, partition, zone or user, check digit.",
        told.get(agreed, "") if agreed else "The format is not agreed yet: in another one than SIA DC-05 the messages are written otherwise.",
        f"Codes: {codes}.", f"{chosen}: the control unit's own papers decide; the test on the day shows it.")))


def _withheld(papers: Papers) -> tuple[str, ...]:
    return ("Passwords, keywords and codes: held at the station, never in a file.",
            "Openings without a detector, serials, link margins and the plan of the house: not needed to answer an alarm.",
            *(() if papers.people else ("Address, customer and keyholders: the company sends them apart from this sheet.",)))
