"""Every source of a number, and how each number is known."""
from dataclasses import dataclass

from generator.calc import bands, calendar
from generator.calc.freeze import REST_LIMIT
from generator.model.papers import Papers
from generator.model.profile import NEEDED_LIMITS
from generator.pages.page import Page
from generator.rules.all_rules import RULES
from generator.tables.sources import ORDER, SIGNAL_WORDS
from generator.terms.show import capital

# The limits that steps, tests, rules and issues of this program are held against; a profile may hold more.
USED = tuple(dict.fromkeys((*NEEDED_LIMITS, REST_LIMIT, *(name for one in RULES for name in one.limits))))
# Those that only some markets have: of bands and dates.
OF_SOME = (*bands.LIMITS, *calendar.LIMITS)


@dataclass(frozen=True)
class LimitRow:
    """One limit with its source."""

    means: str
    value: str
    source: str
    because: str


@dataclass(frozen=True)
class SourcesView:
    """All limits of the profile, and the documents behind the words."""

    profile: str
    edition: str
    used: tuple[LimitRow, ...]
    others: tuple[LimitRow, ...]
    own: tuple[LimitRow, ...]
    words: tuple[str, ...]


def sources_page(papers: Papers) -> Page:
    """The page of sources."""
    profile = papers.profile
    rows = {key: _row(papers, key) for key in profile.limits}
    own = tuple(rows[key] for key in papers.company.limits)
    used = tuple(row for key, row in rows.items() if _used(key))
    others = tuple(row for key, row in rows.items() if not _used(key) and key not in papers.company.limits)
    words = (f"Signal words DANGER, WARNING, CAUTION and NOTICE: {SIGNAL_WORDS.cited()}. Each was chosen afresh for this pack.",
             f"{ORDER.cited()}.",
             "Texts on units: the company's own equipment sheets.")
    return Page("sources.html", "Sources", "shared/sources.html.j2",
                SourcesView(profile.name, profile.edition, used, others, own, words))


def _used(key: str) -> bool:
    """Whether something is held against a limit; those of bands are, whatever the band is called."""
    return key in USED or key in OF_SOME or key.startswith(bands.BAND)


def _row(papers: Papers, key: str) -> LimitRow:
    """A limit as one row. A company's own rule says in its source already why it is there."""
    limit = papers.profile.limits[key]
    because = "" if key in papers.company.limits else limit.because or ""
    return LimitRow(capital(limit.means), limit.shown(), papers.profile.source_of(key).cited(), because)
