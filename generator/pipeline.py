"""The stages of one job, in order: read, compute, judge, order the steps, plan each reader's pages."""
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from generator.calc.hidden import Hidden, Wording, Skipped, hidden_values
from generator.calc.results import Results, compute
from generator.intake.job_reader import Read, read_job
from generator.model.fingerprint import fingerprint
from generator.model.papers import Papers
from generator.model.visibility import may_see, visible
from generator.pages.homeowner import Say, homeowner_pages
from generator.pages.installer import installer_pages
from generator.pages.page import Pack, Page, Stamp, stamp
from generator.pages.parts import Fact
from generator.pages.record import SearchedReader, SearchView, record_pages
from generator.pages.station import station_page
from generator.procedure.step import Step
from generator.procedure.steps import procedure
from generator.rules.all_rules import acceptable, findings, judge, rules_for
from generator.rules.finding import Finding, Verdict
from generator.terms.audience import Audience
from generator.terms.show import capital, count, day


@dataclass(frozen=True)
class Compiled:
    """Everything that is known about a job once it is read. Seen by `publish`, `cli` and nobody else."""

    read: Read
    as_of: date
    results: Results
    verdicts: tuple[Verdict, ...]
    fingerprint: str
    papers_of: dict[Audience, Papers]
    fingerprint_of: dict[Audience, str]

    @property
    def papers(self) -> Papers:
        """The papers, whole."""
        return self.read.papers

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Every finding, the gravest first."""
        return findings(self.verdicts)

    @property
    def stops(self) -> bool:
        """Whether something was found that stops part of the job."""
        return any(one.stops for one in self.findings)


@dataclass(frozen=True)
class Looked:
    """What is looked for in one reader's pack, and what is not."""

    hidden: tuple[Hidden, ...]
    skipped: tuple[Skipped, ...]


def compile_job(path: Path, as_of: date | None = None) -> Compiled:
    """Everything about a job but its pages. Raises JobInvalid with every problem of its files."""
    read = read_job(path, acceptable())
    papers = read.papers
    results = compute(papers)
    on = as_of or papers.job.dated
    verdicts = judge(papers, results, on)
    papers_of = {audience: visible(papers, audience) for audience in Audience}
    return Compiled(read, on, results, verdicts, fingerprint(papers), papers_of,
                    {audience: fingerprint(own) for audience, own in papers_of.items()})


def looked_for(compiled: Compiled, own: Wording) -> dict[Audience, Looked]:
    """What the search for leaks looks for, by reader."""
    seen = (day(compiled.as_of),)
    return {audience: Looked(*hidden_values(compiled.papers, audience, own, seen)) for audience in Audience}


def verdicts_for(compiled: Compiled, audience: Audience) -> tuple[Verdict, ...]:
    """The verdicts of the rules that may speak to a reader; what the others found has no influence on them."""
    return judge(compiled.papers, compiled.results, compiled.as_of, rules_for(audience))


def steps_of(compiled: Compiled) -> tuple[Step, ...]:
    """The steps of the day, from what the installer may see."""
    return procedure(compiled.papers_of[Audience.INSTALLER], compiled.results)


def pack_of(compiled: Compiled, audience: Audience, say: Say, looked: dict[Audience, Looked]) -> Pack:
    """One reader's pages, planned from what that reader may see and nothing else."""
    papers, results = compiled.papers_of[audience], compiled.results
    mark = stamp(papers, compiled.fingerprint_of[audience], compiled.as_of)
    pages = _pages(compiled, audience, papers, results, mark, say, looked)
    payloads = tuple(dict.fromkeys(_payloads(pages)))
    return Pack(audience, mark, pages, payloads)


def _pages(compiled: Compiled, audience: Audience, papers: Papers, results: Results, mark: Stamp, say: Say,
           looked: dict[Audience, Looked]) -> tuple[Page, ...]:
    if audience is Audience.INSTALLER:
        return installer_pages(papers, results, verdicts_for(compiled, audience), steps_of(compiled))
    if audience is Audience.HOMEOWNER:
        return homeowner_pages(papers, results, say)
    if audience is Audience.STATION:
        return (station_page(papers, results, mark),)
    return record_pages(papers, results, verdicts_for(compiled, audience), mark, search_view(looked))


def _payloads(pages: tuple[Page, ...]):
    for page in pages:
        if hasattr(page.view, "payload"):
            yield page.view.payload
        yield from (label.payload for label in getattr(page.view, "labels", ()))


def search_view(looked: dict[Audience, Looked]) -> SearchView:
    """What the record says about the search for leaks; of fields that the record may not show it does not speak either."""
    return SearchView(tuple(
        SearchedReader(capital(audience.value), count(sum(_recorded(hidden) for hidden in one.hidden), "hidden value"),
                       tuple(Fact(skipped.field, skipped.why) for skipped in one.skipped if _recorded(skipped)))
        for audience, one in looked.items()))


def _recorded(one: Hidden | Skipped) -> bool:
    return may_see(Audience.RECORD, one.pattern)
