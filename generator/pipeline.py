"""The stages of one job, in order: read, compute, judge, order the steps, plan each reader's pages."""
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property
from pathlib import Path

from generator.calc.changes import Changes, changes
from generator.calc.hidden import Hidden, Wording, Skipped, hidden_values, written_values
from generator.calc.results import Results, compute
from generator.calc.slots.freeze import as_of_day, frozen, with_reasons
from generator.intake.job_reader import Read, read_job
from generator.model.fingerprint import fingerprint
from generator.model.issued import Issued, Revision
from generator.model.papers import Papers
from generator.model.visibility import may_see, visible
from generator.pages.changes import Compared, compared_in_words, draft_in_words
from generator.pages.dates import dates_of
from generator.pages.homeowner.pack import homeowner_pages
from generator.pages.homeowner.papers import said_days
from generator.pages.homeowner.words import Say
from generator.pages.installer.hand import hand_data
from generator.pages.installer.hand_told import HandData
from generator.pages.installer.pack import installer_pages
from generator.pages.page import HOME_FOOT, OFFICE_FOOT, CalendarFile, Pack, Page, Stamp, address, foot_of, stamp
from generator.pages.parts import Fact, stopped_fields
from generator.pages.prints import Pages, revision
from generator.pages.record.pack import SearchedReader, SearchView, record_pages
from generator.pages.station.sheet import station_page
from generator.procedure.step import Step
from generator.procedure.steps import procedure
from generator.rules.all_rules import acceptable, findings, judge, rules_for
from generator.rules.finding import Finding, Verdict
from generator.terms.audience import Audience
from generator.terms.show import capital, count, day, long_day


@dataclass(frozen=True)
class Compiled:
    """Everything that is known about a job once it is read. Seen by `publish`, `cli` and nobody else.

    `bare`: people's data were taken out so that pages can be compared without them.
    """

    read: Read
    as_of: date
    results: Results
    verdicts: tuple[Verdict, ...]
    fingerprint: str
    papers_of: dict[Audience, Papers]
    fingerprint_of: dict[Audience, str]
    issued: Issued | None
    bare: bool = False

    @property
    def last(self) -> Revision | None:
        """The last revision that was issued."""
        return self.issued.last if self.issued else None

    @cached_property
    def now(self) -> Revision:
        """This build as it would be kept if it were issued again under the number of the last revision."""
        return _revision(self, self.last.revision if self.last else 1, self.last.date if self.last else self.as_of)

    def same(self, audience: Audience | None) -> bool:
        """Whether the job says to a reader what it said when it was last issued; None for the company, who sees all."""
        if self.last is None:
            return False
        if audience is None:
            return self.fingerprint == self.last.fingerprint
        return self.fingerprint_of[audience] == getattr(self.last.audience_fingerprints, audience.value)

    def before(self, audience: Audience | None) -> Revision | None:
        """The revision that a reader's pack is compared with: the last one, or the one before if this is the last one."""
        if not self.same(audience):
            return self.last
        return self.issued.revisions[-2] if len(self.issued.revisions) > 1 else None

    def changes(self, audience: Audience | None) -> Changes | None:
        """What changed since the revision that a reader's pack is compared with; None if there is none."""
        before = self.before(audience)
        return changes(before, self.now) if before else None

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
    issued = read.issued.issued if read.issued else None
    return compiled(read, issued, as_of or as_of_day(read.papers, issued))


def compiled(read: Read, issued: Issued | None, as_of: date) -> Compiled:
    """Everything about a job that was read, with what was issued."""
    papers = replace(read.papers, frozen=frozen(read.papers, issued, as_of))
    results = compute(papers, as_of)
    results = replace(results, slots=with_reasons(results.slots, issued))
    # A sheet by which nothing is proposed says nothing on any page, and its changes are no changes of the job.
    proposed = [one.sheet for one in results.mends.repeaters] if isinstance(results.mends.repeaters, tuple) else []
    papers = replace(papers, spare={key: one for key, one in papers.spare.items() if key in proposed})
    verdicts = judge(papers, results)
    papers_of = {audience: visible(papers, audience) for audience in Audience}
    return Compiled(replace(read, papers=papers), as_of, results, verdicts, fingerprint(papers), papers_of,
                    {audience: fingerprint(own) for audience, own in papers_of.items()}, issued)


def issued_on(job: Compiled, on: date) -> Compiled:
    """The same job as it is once it is issued on a day: with one revision more, and every number frozen by it."""
    number = job.last.revision + 1 if job.last else 1
    draft = _with(job, _revision(job, number, on))
    # Once more: the hashes are those of pages that say what they will say from now on.
    return _with(job, _revision(draft, number, on))


def _with(job: Compiled, last: Revision) -> Compiled:
    revisions = [*(job.issued.revisions if job.issued else ()), last]
    issued = Issued.model_construct(format="1", reference=job.papers.job.reference, revisions=revisions, check="")
    return compiled(job.read, issued, last.date)


def _revision(job: Compiled, number: int, on: date) -> Revision:
    prints = {"whole": job.fingerprint, **job.fingerprint_of}
    return revision(number, on, job.papers, job.results, _bare_pages(job), job.papers_of, prints, job.last)


def _bare_pages(job: Compiled) -> Pages:
    """Every reader's pages as they are compared: without people's data, path names, revision, dates and fingerprint.

    Rules that look at people's data are not asked: here they could only say that there are none, which no pack with
    people.yaml says, and a page of such a rule would be compared that no such pack holds.
    """
    papers = replace(job.papers, people=None, site=(), lost={}, job=job.papers.job.model_copy(update={"publish": None}))
    bare = replace(job, read=replace(job.read, papers=papers), verdicts=judge(papers, job.results),
                   papers_of={audience: visible(papers, audience) for audience in Audience}, bare=True)
    return {audience: _pages(bare, audience, _blank(stamp(bare.papers_of[audience], "", job.as_of, None, False)), str, {}, NOTHING,
                             verdicts_for(bare, audience) if audience in TOLD_OF_RULES else ())
            for audience in Audience}


NOTHING = Compared("", None)
# Readers whose pages say what the rules answered.
TOLD_OF_RULES = (Audience.INSTALLER, Audience.RECORD)


def _blank(mark: Stamp) -> Stamp:
    return replace(mark, fingerprint="", as_of="", checked_against="", issued="")


def looked_for(compiled: Compiled, own: Wording) -> dict[Audience, Looked]:
    """What the search for leaks looks for, by reader."""
    seen = (day(compiled.as_of), *map(day, _days(compiled.issued)))
    values = written_values(compiled.papers)
    return {audience: Looked(*hidden_values(values, audience, own, (*seen, *_counted(compiled, audience)))) for audience in Audience}


def _counted(compiled: Compiled, audience: Audience) -> Iterator[str]:
    """The days that follow from what a reader may see: a hidden day that is the same by chance proves no leak."""
    if audience is Audience.HOMEOWNER:
        yield from map(long_day, said_days(compiled.papers_of[audience]))
        return
    for one in dates_of(compiled.papers_of[audience], compiled.results).entries:
        yield from (day(one.first), day(one.last), one.why)


def _days(issued: Issued | None) -> Iterator[date]:
    """The days that pages tell of an issue."""
    for one in issued.revisions[-2:] if issued else ():
        yield one.date
        yield from (resting.until for resting in one.resting if resting.until)


def verdicts_for(compiled: Compiled, audience: Audience) -> tuple[Verdict, ...]:
    """The verdicts of the rules that may speak to a reader; what the others found has no influence on them."""
    rules = tuple(one for one in rules_for(audience) if not (compiled.bare and one.of_people))
    return judge(compiled.papers, compiled.results, rules)


def steps_of(compiled: Compiled) -> tuple[Step, ...]:
    """The steps of the day, from what the installer may see."""
    return procedure(compiled.papers_of[Audience.INSTALLER], compiled.results)


def pack_of(compiled: Compiled, audience: Audience, say: Say, looked: dict[Audience, Looked]) -> Pack:
    """One reader's pages, planned from what that reader may see and nothing else."""
    papers = compiled.papers_of[audience]
    own = say if audience is Audience.HOMEOWNER else str
    mark = stamp(papers, compiled.fingerprint_of[audience], compiled.as_of, compiled.last, compiled.same(audience), own)
    compared = Compared(compared_in_words(compiled.last, compiled.before(audience)), compiled.changes(audience),
                        draft_in_words(compiled.last, compiled.same(audience)))
    verdicts = verdicts_for(compiled, audience) if audience in TOLD_OF_RULES else ()
    pages = _pages(compiled, audience, mark, say, looked, compared, verdicts)
    payloads = tuple(dict.fromkeys(_payloads(pages)))
    # Only the company's: what is imported into a calendar is soon shown on other screens, and says when nobody would come yet.
    file = CalendarFile(dates_of(papers, compiled.results), compiled.as_of) if audience is Audience.RECORD else None
    hand = _hand(compiled, mark, verdicts) if audience is Audience.INSTALLER else None
    kept_from = address(papers, audience) if audience is Audience.INSTALLER else ""
    return Pack(audience, mark, foot_of(mark, own, HOME_FOOT if audience is Audience.HOMEOWNER else OFFICE_FOOT), pages, payloads, file, hand, kept_from)


def _hand(compiled: Compiled, mark: Stamp, verdicts: tuple[Verdict, ...]) -> HandData:
    """What the script of the installer's pack is told. A pack that is not the one that was issued is of no revision."""
    revision = compiled.last.revision if compiled.last and compiled.same(Audience.INSTALLER) else 0
    return hand_data(compiled.papers_of[Audience.INSTALLER], compiled.results, steps_of(compiled), stopped_fields(findings(verdicts)), mark, revision)


def _pages(compiled: Compiled, audience: Audience, mark: Stamp, say: Say, looked: dict[Audience, Looked],
           compared: Compared, verdicts: tuple[Verdict, ...]) -> tuple[Page, ...]:
    papers, results = compiled.papers_of[audience], compiled.results
    if compiled.bare:
        # A day that went by since is no change of a page: what is over by then is not compared.
        results = replace(results, as_of=papers.job.dated)
    if audience is Audience.INSTALLER:
        return installer_pages(papers, results, verdicts, steps_of(compiled), compared, mark)
    if audience is Audience.HOMEOWNER:
        return homeowner_pages(papers, results, say)
    if audience is Audience.STATION:
        return (station_page(papers, results, mark, compared),)
    others = _bare_pages(compiled) if compared.changes else {}
    return record_pages(papers, results, verdicts, mark, search_view(looked), compared, others)


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
