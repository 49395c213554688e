"""The company's record: what was planned, what it was checked against, and what is still blank."""
from collections.abc import Mapping
from dataclasses import dataclass

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.pages.cells import cells_page
from generator.pages.changes import Compared, record_changes
from generator.pages.codes import codes_view
from generator.pages.findings import findings_view
from generator.pages.page import Link, Page, Stamp
from generator.pages.parts import Fact, place_of, units_of
from generator.pages.power import power_page
from generator.pages.rule_pages import FINDINGS, rule_pages
from generator.pages.sources import sources_page
from generator.rules.finding import Verdict
from generator.terms.audience import Audience
from generator.terms.show import amount, day, sentence_list


@dataclass(frozen=True)
class RecordStart:
    """Which job this is a record of."""

    facts: tuple[Fact, ...]
    licences: tuple[Fact, ...]
    keyholders: tuple[Fact, ...]


@dataclass(frozen=True)
class ScheduleRow:
    """One unit as planned; what only the day can tell is blank and named so."""

    anchor: str
    name: str
    kind: str
    facts: tuple[Fact, ...]
    blanks: tuple[str, ...]


@dataclass(frozen=True)
class ScheduleView:
    """Every unit."""

    rows: tuple[ScheduleRow, ...]


@dataclass(frozen=True)
class Document:
    """A document of the job and the fields that planning cannot fill."""

    title: str
    filled: tuple[str, ...]
    blanks: tuple[str, ...]


@dataclass(frozen=True)
class DocumentsView:
    """Every document."""

    documents: tuple[Document, ...]


@dataclass(frozen=True)
class SearchView:
    """What the search for leaks reads, and what it cannot."""

    readers: tuple["SearchedReader", ...]


@dataclass(frozen=True)
class SearchedReader:
    """One reader's pack: how many hidden values were looked for, and which were not, with the reason."""

    name: str
    searched: str
    skipped: tuple[Fact, ...]


ON_THE_DAY = ("serial read on the plate", "radio reading at fitting", "cell date", "fitted by and date", "reason for any difference")
DOCUMENTS = (
    Document("Survey and risk assessment", ("premises", "hazards"),
             ("contents", "locks and physical security", "occupancy", "radio survey", "surveyor and signature")),
    Document("System design proposal", ("units and positions", "zone texts", "entry and exit times"),
             ("grade and environmental class", "openings not covered", "cost and contract", "acceptance signature")),
    Document("As-fitted schedule", ("planned schedule",), ON_THE_DAY),
    Document("Completion certificate", (), ("test results", "deviations", "training given", "date in use", "signatures")),
    Document("Log book", (), ("every entry, from the first day on",)),
    Document("Preventive maintenance record", (), ("visits",)),
    Document("Corrective maintenance report", (), ("visits",)),
    Document("Keyholder list", ("names and numbers, from people.yaml",), ("trained on", "consent to be listed", "days unavailable")),
    Document("Monitoring agreement data", ("zones, account, test interval",),
             ("permit or police reference", "response plan", "soak end", "passwords: held at the station")),
)


def record_pages(papers: Papers, results: Results, verdicts: tuple[Verdict, ...], stamp: Stamp,
                 searched: SearchView, compared: Compared, others: Mapping[Audience, tuple[Page, ...]]) -> tuple[Page, ...]:
    """Every page of the record. `others` are the pages of the other readers' packs, whose changes the record tells."""
    pages = _pages(papers, results, verdicts, stamp, searched)
    return (*pages, record_changes(papers, results, compared, {**others, Audience.RECORD: pages}))


def _pages(papers: Papers, results: Results, verdicts: tuple[Verdict, ...], stamp: Stamp, searched: SearchView) -> tuple[Page, ...]:
    return (
        Page("index.html", "Record", "record/start.html.j2", _start(papers, stamp)),
        Page("schedule.html", "Schedule", "record/schedule.html.j2", _schedule(papers, results)),
        Page("checked.html", "What was checked", "shared/findings.html.j2", findings_view(verdicts), FINDINGS),
        *rule_pages(papers, verdicts, Link("checked.html", "What was checked")),
        Page("documents.html", "Documents", "record/documents.html.j2", DocumentsView(DOCUMENTS)),
        power_page(papers, results, _in_schedule),
        cells_page(papers, results, _in_schedule),
        Page("search.html", "Search for leaks", "record/leaks.html.j2", searched),
        Page("codes.html", "Find by reference", "shared/codes.html.j2", codes_view(papers, results, _in_schedule)),
        sources_page(papers),
    )


def _start(papers: Papers, stamp: Stamp) -> RecordStart:
    job, people, company = papers.job, papers.people, papers.company
    facts = [Fact("Job", job.reference), Fact("Title", job.title), Fact("Kind", job.kind), Fact("Dated", day(job.dated)),
             Fact("Premises", job.premises.place), Fact("Checked", stamp.checked_against or "not checked"),
             Fact("Fingerprint", stamp.fingerprint), Fact("Revision", stamp.issued), Fact("Company", company.name)]
    if people:
        facts += [Fact("Customer", people.customer.name), Fact("Telephone", people.customer.telephone),
                  Fact("Address", ", ".join(people.customer.address))]
    else:
        facts.append(Fact("Customer", "not in this build: there was no people.yaml"))
    return RecordStart(
        tuple(facts),
        tuple(Fact(one.name, f"{one.number}, valid to {day(one.valid_to)}") for one in company.licences),
        tuple(Fact(one.name, one.telephone) for one in people.keyholders.values()) if people else ())


def _schedule(papers: Papers, results: Results) -> ScheduleView:
    return ScheduleView(tuple(_row(papers, results, name) for name in units_of(papers)))


def _row(papers: Papers, results: Results, name: str) -> ScheduleRow:
    own = name == papers.job.control_unit.id
    place = papers.job.control_unit if own else papers.job.devices[name]
    sheet = papers.sheet_of[name]
    numbers = [" ".join(filter(None, (row.list.removesuffix("s"), str(row.number), row.text))) for row in results.slots.of(name)]
    lines = [("Number", sentence_list(numbers)), ("Kind", sheet.kind), ("Place", place_of(papers, name)), ("Position", place.position),
             ("Height", amount(place.height_m, "m") if place.height_m is not None else ""), ("Serial", place.serial),
             ("Cell", sheet.power.cell)]
    return ScheduleRow(results.references[name].lower(), name, sheet.name,
                       (Fact("Reference", results.references[name]), *(Fact(one, value) for one, value in lines if value)),
                       ON_THE_DAY)


def _in_schedule(short: str) -> str:
    return f"schedule.html#unit-{short.lower()}"
