"""What was found on site, line by line beside the plan: what was read, by whom and when, what stood there before, and what nobody tested."""
import unicodedata
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime

from generator.calc.results import Results
from generator.model.found import FoundEntry, FoundFile, counter_of, phone_of
from generator.model.papers import Papers
from generator.pages.page import Page
from generator.pages.parts import Fact, units_of
from generator.pages.record.document import DOCUMENTS
from generator.procedure.asked import CALLED, CHECK, HOLD, NOTE, PHOTO, SERIAL, SIGNAL, SIGNATURE, STEP, Asked
from generator.procedure.beside import IN_CONFLICT, NOT_TESTED, Beside, Difference, beside_plan, came_to, tally, unread
from generator.procedure.steps import procedure
from generator.terms.show import capital, count, day
from generator.terms.terminal import UNSEEN

PATH, TITLE = "site.html", "As found on site"
NOTHING = ("Nothing was taken in yet, so nothing is said of any test. When the phones have sent their files: doorpost results JOB FILE..., then build once "
           "more.")
# What stands where nothing was written; whatever else was not written is no row.
UNWRITTEN = {CHECK: NOT_TESTED, SIGNAL: NOT_TESTED, SERIAL: "not read", STEP: "not written", HOLD: "not written", CALLED: "not written", SIGNATURE: "not signed"}
NO_RESULT = "written, no result"
UNREAD = f"{NOT_TESTED}: a pass was tapped, its value was not read"
SIGNED, NOT_KEPT = "signed; kept beside people.yaml under signatures/{0}…", "signed, but its file signatures/{0}… {1}"


@dataclass(frozen=True)
class Told:
    """What one entry says, and its number: its phone and counter. Everything in it was typed on a phone: templates hold each text by itself."""

    value: str
    result: str
    when: str
    who: str
    note: str
    number: str


@dataclass(frozen=True)
class SiteRow:
    """One thing. `state` is its result in one word for the style; `now` is None where nothing was written, and `unwritten` says so."""

    title: str
    planned: str
    state: str
    now: Told | None
    unwritten: str
    others: tuple[Told, ...]
    agreed: tuple[Told, ...]
    earlier: tuple[Told, ...]
    differs: tuple[str, ...]


@dataclass(frozen=True)
class SiteGroup:
    """One unit, the system, or what the plan does not ask for."""

    id: str
    title: str
    rows: tuple[SiteRow, ...]


@dataclass(frozen=True)
class SiteView:
    """The page. `nothing` is the one sentence of a job of which nothing was taken in, "" else."""

    nothing: str
    tally: tuple[Fact, ...]
    differences: tuple[Fact, ...]
    groups: tuple[SiteGroup, ...]
    taken: tuple[Fact, ...]


def site_page(papers: Papers, results: Results) -> Page:
    """The page."""
    return Page(PATH, TITLE, "record/site.html.j2", _view(papers, results), DOCUMENTS)


def _view(papers: Papers, results: Results) -> SiteView:
    if not papers.site:
        return SiteView(NOTHING, (), (), (), ())
    rows = beside_plan(papers, results, procedure(papers, results))
    told = tuple(Fact(capital(name), str(number)) for name, number in tally(rows).items())
    differences = tuple(Fact(printable(capital(one.says)), _reason(one)) for row in rows for one in row.differences)
    groups = tuple(group for group in _groups(papers, results, rows) if group.rows)
    return SiteView("", told, differences, groups, tuple(map(_taken, papers.site)))


def site_tally(papers: Papers, results: Results) -> str:
    """What the lines of the checklist came to, in a line; "" where nothing was taken in."""
    if not papers.site:
        return ""
    return ", ".join(f"{number} {name}" for name, number in tally(beside_plan(papers, results, procedure(papers, results))).items())


def _reason(one: Difference) -> str:
    planned = f"planned: {one.planned.rstrip('.')}"
    return f"{planned}; reason: {printable(one.reason)}" if one.reason else f"{planned}; no reason is written"


def _groups(papers: Papers, results: Results, rows: tuple[Beside, ...]) -> Iterator[SiteGroup]:
    own = [row for row in rows if row.asked]
    lost = papers.lost
    for name in units_of(papers):
        yield SiteGroup(f"unit-{results.references[name].lower()}", f"{name} · {papers.sheet_of[name].name}", _rows(lost, (row for row in own if row.same[0] == name and not _is_step(row))))
    yield SiteGroup("system", "The whole system", _rows(lost, (row for row in own if not row.same[0] and not _is_step(row))))
    yield SiteGroup("steps", "The steps of the day", _rows(lost, filter(_is_step, own)))
    yield SiteGroup("not-asked", "Written down, and not asked by this plan", _rows(lost, (row for row in rows if not row.asked)))


def _is_step(row: Beside) -> bool:
    return row.asked is not None and row.asked.kind in (STEP, HOLD)


def _rows(lost: Mapping[str, str], rows: Iterable[Beside]) -> tuple[SiteRow, ...]:
    return tuple(_row(lost, row) for row in rows if row.thing or row.asked and row.asked.kind in UNWRITTEN)


def _row(lost: Mapping[str, str], row: Beside) -> SiteRow:
    title = row.title if row.asked else f"{' '.join(filter(None, row.same[:2]))}: {row.same[2]}"
    planned = _planned(row.asked) if row.asked else ""
    unwritten = UNWRITTEN.get(row.asked.kind, "") if row.asked else ""
    if row.thing is None:
        return SiteRow(title, planned, unwritten.replace(" ", "-"), None, unwritten, (), (), (), ())
    signed = lost if row.asked is not None and row.asked.kind == SIGNATURE else None
    # Of a line of the checklist that holds a value alone it is said that this is no result.
    bare = NO_RESULT if row.asked and row.asked.kind == CHECK and came_to(row) == NOT_TESTED else ""
    missed = unread(row, row.thing.now)
    state = IN_CONFLICT if row.thing.others else "differs" if row.differences else NOT_TESTED if missed else row.thing.now.result or bare or "written"
    return SiteRow(title, planned, state.replace(" ", "-").replace(",", ""), _told(row.thing.now, signed, UNREAD if missed else "", bare), "",
                   *(tuple(_told(one, signed) for one in every) for every in (row.thing.others, row.thing.agreed, row.thing.earlier)),
                   tuple(f"{printable(capital(one.says))}. {capital(_reason(one))}." for one in row.differences))


def _planned(one: Asked) -> str:
    if one.kind == SERIAL:
        return one.planned or "not known"
    return one.accept if one.kind in (CHECK, SIGNAL) else ""


def _told(one: FoundEntry, lost: Mapping[str, str] | None, missed: str = "", bare: str = "") -> Told:
    """An entry; `lost` what became of signatures where it is one, None where it is none."""
    value = _signed(one, lost) if lost is not None else printable(" ".join(filter(None, (one.value.strip(), one.unit))))
    return Told(value, missed or one.result or bare, _when(one.at), printable(one.by), printable(one.note), f"{phone_of(one)} {counter_of(one)}")


def _signed(one: FoundEntry, lost: Mapping[str, str]) -> str:
    if not one.value.strip():
        return UNWRITTEN[SIGNATURE]
    return NOT_KEPT.format(one.value[:16], lost[one.value]) if one.value in lost else SIGNED.format(one.value[:16])


def _when(at: str) -> str:
    """The time on the phone's clock; as it was written where it is no time of the calendar."""
    try:
        found = datetime.fromisoformat(at)
    except ValueError:
        return at
    offset = found.strftime("%z")
    return f"{day(found.date())}, {found:%H:%M}" + ("" if offset in ("", "+0000") else f" {offset}")


def printable(text: str) -> str:
    """A text as a page may hold it: of what cannot be seen a mark stands there. What turns the direction of text stays; the page isolates it."""
    return "".join(" " if letter in "\n\t" else UNSEEN if unicodedata.category(letter) in ("Cc", "Cs") else letter for letter in text.strip())


def _taken(one: FoundFile) -> Fact:
    counters = [counter_of(entry) for entry in one.entries]
    pack = f"revision {one.revision}" if one.revision else "a draft"
    return Fact(f"Phone {one.phone}", f"{count(len(one.entries), 'entry', 'entries')}, {min(counters, default=0)} to {max(counters, default=0)}; pack: {pack}, "
                                      f"fingerprint {one.fingerprint}")
