"""The company's record: what was planned, what it was checked against, and what is still blank."""
from collections.abc import Mapping
from dataclasses import dataclass

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.pages.cells import cells_page
from generator.pages.changes import Compared, record_changes
from generator.pages.codes import codes_view
from generator.pages.dates import dates_page
from generator.pages.findings import findings_view
from generator.pages.page import Link, Page, Stamp
from generator.pages.paper import Filled, filled, filled_in_words
from generator.pages.parts import Fact
from generator.pages.power import power_page
from generator.pages.record.document import DOCUMENTS, DocumentView
from generator.pages.record.forms import completion_page, corrective_page, log_page, maintenance_page, plan_page
from generator.pages.record.people import data_page, keyholders_page, monitoring_page
from generator.pages.record.proposal import proposal_page
from generator.pages.record.schedule import in_schedule, schedule_page
from generator.pages.record.site import site_page
from generator.pages.record.survey import survey_page
from generator.pages.rule_pages import FINDINGS, rule_pages
from generator.pages.sources import sources_page
from generator.pages.transmission import transmission_page
from generator.rules.finding import Verdict
from generator.terms.audience import Audience
from generator.terms.show import day


@dataclass(frozen=True)
class RecordStart:
    """Which job this is a record of."""

    facts: tuple[Fact, ...]
    licences: tuple[Fact, ...]
    keyholders: tuple[Fact, ...]


@dataclass(frozen=True)
class Summary:
    """How far one document is, in words and by its fields."""

    title: str
    link: Link
    far: str
    filled: Filled


@dataclass(frozen=True)
class DocumentsView:
    """Every document, counted from the documents themselves."""

    documents: tuple[Summary, ...]


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


def record_pages(papers: Papers, results: Results, verdicts: tuple[Verdict, ...], stamp: Stamp,
                 searched: SearchView, compared: Compared, others: Mapping[Audience, tuple[Page, ...]]) -> tuple[Page, ...]:
    """Every page of the record. `others` are the pages of the other readers' packs, whose changes the record tells."""
    pages = _pages(papers, results, verdicts, stamp, searched)
    return (*pages, record_changes(papers, results, compared, {**others, Audience.RECORD: pages}))


def _pages(papers: Papers, results: Results, verdicts: tuple[Verdict, ...], stamp: Stamp, searched: SearchView) -> tuple[Page, ...]:
    documents = _documents(papers, results, verdicts, stamp)
    return (
        Page("index.html", "Record", "record/start.html.j2", _start(papers, stamp)),
        Page("documents.html", "What is filled, what is blank", "record/documents.html.j2", _summaries(documents), DOCUMENTS),
        *documents,
        site_page(papers, results),
        Page("checked.html", "What was checked", "shared/findings.html.j2", findings_view(verdicts), FINDINGS),
        *rule_pages(papers, verdicts, Link("checked.html", "What was checked")),
        dates_page(papers, results, file=True),
        *transmission_page(papers, results),
        power_page(papers, results, in_schedule),
        cells_page(papers, results, in_schedule),
        Page("search.html", "Search for leaks", "record/leaks.html.j2", searched),
        Page("codes.html", "Find by reference", "shared/codes.html.j2", codes_view(papers, results, in_schedule)),
        sources_page(papers),
    )


def _documents(papers: Papers, results: Results, verdicts: tuple[Verdict, ...], stamp: Stamp) -> tuple[Page, ...]:
    """The documents of the job, in the order in which they come about."""
    return (survey_page(papers, results, stamp), proposal_page(papers, results, stamp), plan_page(papers, results, stamp),
            schedule_page(papers, results, stamp), completion_page(papers, results, verdicts, stamp), log_page(papers, stamp),
            maintenance_page(papers, results, stamp), corrective_page(papers, stamp), keyholders_page(papers, stamp),
            monitoring_page(papers, results, stamp), data_page(papers, stamp))


def _summaries(documents: tuple[Page, ...]) -> DocumentsView:
    every = [(page, _filled(page.view)) for page in documents]
    return DocumentsView(tuple(Summary(page.title, Link(page.path, page.title), filled_in_words(one), one) for page, one in every))


def _filled(view: DocumentView) -> Filled:
    return filled(view.sections)


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
