"""The monitoring station's one page, with the same facts as a table and as data."""
from dataclasses import dataclass

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.pages.changes import Compared, station_lines
from generator.pages.page import Page, Stamp
from generator.pages.parts import Fact, place_of_row
from generator.procedure.handling import test_in_words

LOCATION = {True: "perimeter", False: "interior"}
CARRIED = "carried"
REPORTS = {"contact": "door or window opened", "movement": "movement", "glass-break": "glass broken", "shock": "blows or drilling",
           "smoke": "smoke", "heat": "heat", "carbon-monoxide": "carbon monoxide", "water": "water", "temperature": "temperature",
           "hold-up": "hold-up", "medical": "medical call"}
# What a key or a circuit of another kind of unit reports is said by its zone's role.
REPORTS_BY_ROLE = {"hold-up": "hold-up", "medical": "medical call", "fire": "fire", "carbon-monoxide": "carbon monoxide",
                   "technical": "technical"}


@dataclass(frozen=True)
class ZoneRow:
    """One zone as the operator sees it."""

    zone: int
    partition: int
    text: str
    reports: str
    location: str
    place: str
    reference: str


@dataclass(frozen=True)
class StationView:
    """Everything the station is told. `gap` says what is missing where the numbers do not fit, `changes` which lines are
    others than in the revision that `against` names."""

    stamp: Stamp
    account: tuple[Fact, ...]
    premises: tuple[Fact, ...]
    company: tuple[Fact, ...]
    keyholders: tuple[Fact, ...]
    zones: tuple[ZoneRow, ...]
    partitions: tuple[Fact, ...]
    users: tuple[Fact, ...]
    withheld: tuple[str, ...]
    gap: str
    against: str
    changes: tuple[str, ...]


def station_page(papers: Papers, results: Results, stamp: Stamp, compared: Compared) -> Page:
    """The one page."""
    return Page("index.html", f"Monitoring sheet: {papers.job.title}", "station/sheet.html.j2", _view(papers, results, stamp, compared))


def _view(papers: Papers, results: Results, stamp: Stamp, compared: Compared) -> StationView:
    job, people, company = papers.job, papers.people, papers.company
    zones = tuple(_zone(papers, results, row) for row in results.slots.rows if row.list == "zones")
    gap = "" if results.slots.zones_fit else (
        "The zone numbers are not settled yet. Wait for a new sheet from the company.")
    return StationView(
        stamp=stamp,
        account=_account(papers),
        premises=tuple([Fact("Premises", job.title), *([Fact("Address", ", ".join(people.customer.address)),
                        Fact("Customer", people.customer.name), Fact("Telephone", people.customer.telephone)] if people else [])]),
        company=(Fact("Company", company.name), Fact("Telephone", company.telephone), Fact("Out of hours", company.out_of_hours)),
        keyholders=tuple(Fact(one.name, one.telephone) for one in people.keyholders.values()) if people else (),
        zones=zones,
        partitions=tuple(Fact(str(number), name) for number, name in papers.partitions().items()),
        users=tuple(Fact(str(row.number), row.text) for row in results.slots.rows if row.list == "users"),
        withheld=("Passwords and codes: held at the station, never in a file.",
                  "Permit or police reference: to be added by the company when it is given.",
                  *(() if people else ("Address, customer and keyholders: the company sends them apart from this sheet.",))),
        gap=gap, against=compared.against,
        changes=(station_lines(compared.changes) or ("No zone, no partition and no user.",)) if compared.changes else ())


def _account(papers: Papers) -> tuple[Fact, ...]:
    agreed = papers.job.monitoring
    if agreed is None:
        return (Fact("Account", "none: this system only sounds"),)
    return (Fact("Station", agreed.station), Fact("Account", agreed.account),
            Fact("Automatic test", test_in_words(agreed)))


def _zone(papers: Papers, results: Results, row) -> ZoneRow:
    device = papers.job.devices[row.device]
    kind = papers.sheet_of[row.device].kind
    perimeter = bool(device.protects) or kind in ("contact", "shock", "glass-break")
    reports = REPORTS.get(kind) or REPORTS_BY_ROLE.get(device.role, "intruder")
    return ZoneRow(row.zone, papers.partition_of(device), row.text, reports, LOCATION[perimeter] if papers.room_of(device) else CARRIED, place_of_row(papers, row),
                   results.references[row.device])
