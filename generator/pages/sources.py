"""Every source of this pack: each limit under the document it is from, how it is known, and what no document stands behind."""
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from generator.calc.days import calendar
from generator.calc.house import fire_places, sound
from generator.calc.power import cables_of_job, cells_of_job, power_of_job
from generator.calc.power.standby import STOCK
from generator.calc.radio import bands, link_limit, link_terms, nearest_move, obstacles
from generator.calc.slots.freeze import REST_LIMIT
from generator.calc.station import categories
from generator.model.papers import Papers
from generator.model.profile import ASKED_LIMITS, NEEDED_LIMITS
from generator.pages.page import Page
from generator.pages.parts import Fact
from generator.rules.all_rules import RULES
from generator.tables.events import DC_05, USE
from generator.tables.sources import ORDER, SIGNAL_WORDS
from generator.terms.show import capital, count, sentence_list
from generator.terms.source import Known

# The limits that steps, tests and issues of this program are held against; a profile may hold more.
USED = tuple(dict.fromkeys((*NEEDED_LIMITS, REST_LIMIT)))
STEPS_AND_TESTS = (*NEEDED_LIMITS, *ASKED_LIMITS)
# Those that only some markets or some jobs have: of steps, bands, dates, batteries, cables, cells and rules.
OF_SOME = tuple(dict.fromkeys((*ASKED_LIMITS, *bands.LIMITS, *calendar.LIMITS, *power_of_job.USED, *cables_of_job.LIMITS, *cells_of_job.LIMITS,
                               *link_limit.LIMITS, *link_terms.LIMITS, *obstacles.LIMITS, nearest_move.CLEAR, *fire_places.LIMITS,
                               *(name for one in RULES for name in (*one.limits, *one.also)))))
# Those that documents of the record show; all that begin so, and these.
SHOWN_PREFIX = "keep_"
SHOWN = ("keyholders_least", "keyholder_attend_min", "keyholder_attend_latest_min", "standby_h", "asbestos_before_year")
MARKS = {
    Known.READ: "the document itself was read",
    Known.SECOND_HAND: "seen in another text, which is named, not in the document",
    Known.MEMORY: "known by heart and not looked up: read the document before it decides anything",
    Known.PRACTICE: "habit of the trade; no document is known that says it",
    Known.OWN: "set by the company, which says in place of what, and why",
}
NO_DOCUMENT = "No document: common practice"


@dataclass(frozen=True)
class LimitRow:
    """One limit: what it limits, its value, what is held against it, how it is known, and why it stands in place of another."""

    means: str
    value: str
    used: str
    known: str
    because: str


@dataclass(frozen=True)
class DocumentGroup:
    """The limits from one document, with how many they are."""

    title: str
    counted: str
    rows: tuple[LimitRow, ...]


@dataclass(frozen=True)
class SourcesView:
    """All limits of the profile by their documents, and what is behind the words. `used` are limits that something here is held
    against, `others` the rest, `own` those that the company sets; `without` are rules that need no limit, with where they come from."""

    profile: str
    edition: str
    counted: str
    marks: tuple[Fact, ...]
    own: tuple[LimitRow, ...]
    used: tuple[DocumentGroup, ...]
    others: tuple[DocumentGroup, ...]
    without: tuple[Fact, ...]
    words: tuple[str, ...]


def sources_page(papers: Papers) -> Page:
    """The page of sources."""
    profile, own = papers.profile, papers.company.limits
    ours = [key for key in profile.limits if used_by(key) and key not in own]
    others = [key for key in profile.limits if not used_by(key) and key not in own]
    words = (f"Signal words DANGER, WARNING, CAUTION and NOTICE: {SIGNAL_WORDS.cited()}. Each was chosen afresh for this pack.",
             f"Codes of events: {DC_05.cited()}.", f"{USE.cited()}.", f"{ORDER.cited()}.",
             "Texts on units, their measures, currents and levels: the company's own equipment sheets, written from the units' papers.",
             "What stands in the job file: whoever wrote it; the record has the survey.")
    view = SourcesView(
        profile.name, profile.edition, _counted(papers, [*own, *ours]), tuple(Fact(mark.value, means) for mark, means in MARKS.items()),
        tuple(_row(papers, key) for key in own), _groups(papers, ours), _groups(papers, others),
        tuple(Fact(one.title, one.source) for one in RULES if one.source and not one.limits), words)
    return Page("sources.html", "Sources", "shared/sources.html.j2", view)


def used_by(key: str) -> str:
    """What is held against a limit, in words; "" where nothing is. Limits of bands count, whatever the band is called."""
    rules = [one.id for one in RULES if key in (*one.limits, *one.also)]
    every = (f"{'rule' if len(rules) == 1 else 'rules'} {sentence_list(rules)}" if rules else "",
             "steps and tests" if key in STEPS_AND_TESTS else "", "numbers that rest" if key == REST_LIMIT else "",
             "days and months" if key in calendar.LIMITS else "",
             "batteries" if key in power_of_job.USED or key.startswith(STOCK) else "",
             "cables" if key in cables_of_job.LIMITS else "", "cells" if key in cells_of_job.LIMITS else "",
             "places of smoke, heat and carbon monoxide units, shown and not judged" if key in fire_places.LIMITS else "",
             "sound at the boundary" if key in dict(sound.AT_BOUNDARY) else "",
             "transmission" if categories.is_reporting_limit(key) else "",
             "time on air and power" if key in bands.LIMITS or key.startswith(bands.BAND) else "",
             "documents of the record" if key in SHOWN or key.startswith(SHOWN_PREFIX) else "")
    return "; ".join(filter(None, every))


def _groups(papers: Papers, keys: Iterable[str]) -> tuple[DocumentGroup, ...]:
    """Limits by their documents, in the profile's order of documents; those that no document is known for come last."""
    profile = papers.profile
    found: dict[str, list[str]] = {key: [] for key in (*profile.documents, "")}
    for key in keys:
        limit = profile.limits[key]
        found["" if limit.known == Known.PRACTICE else limit.source].append(key)
    return tuple(DocumentGroup(_title(papers, document), _counted(papers, rows), tuple(_row(papers, key) for key in rows))
                 for document, rows in found.items() if rows)


def _title(papers: Papers, document: str) -> str:
    if not document:
        return NO_DOCUMENT
    one = papers.profile.documents[document]
    return f"{one.title}, {one.edition}" if one.edition else f"{one.title}, edition not named"


def _counted(papers: Papers, keys: Iterable[str]) -> str:
    """How many limits, and how many of them are known in which way: "3 limits: 2 read, 1 from memory"."""
    known = Counter(papers.profile.limits[key].known for key in keys)
    return f"{count(known.total(), 'limit')}: {', '.join(f'{known[mark]} {mark.value}' for mark in MARKS if known[mark])}"


def _row(papers: Papers, key: str) -> LimitRow:
    """A limit as one row. A company's own rule says how it is known already why it is there."""
    limit, source = papers.profile.limits[key], papers.profile.source_of(key)
    own = source.known is Known.OWN
    known = f"{source.known.value}: {source.through}" if own else f"{source.known.value}{f' in: {source.through}' if source.through else ''}"
    return LimitRow(capital(limit.means), limit.shown(), used_by(key) or "nothing here", known, "" if own else limit.because or "")
