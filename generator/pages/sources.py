"""Every source of a number, and how each number is known."""
from dataclasses import dataclass

from generator.model.papers import Papers
from generator.pages.page import Page
from generator.terms.show import amount


@dataclass(frozen=True)
class LimitRow:
    """One limit with its source."""

    means: str
    value: str
    source: str


@dataclass(frozen=True)
class SourcesView:
    """All limits of the profile, and the documents behind the words."""

    profile: str
    edition: str
    limits: tuple[LimitRow, ...]
    words: tuple[str, ...]


def sources_page(papers: Papers) -> Page:
    """The page of sources."""
    profile = papers.profile
    rows = tuple(LimitRow(one.means, amount(one.value, one.unit or ""), profile.source_of(key).cited())
                 for key, one in profile.limits.items())
    words = ("Signal words DANGER, WARNING, CAUTION and NOTICE: ANSI Z535.4-2007, 4.14 (read second-hand in: a standards FAQ "
             "that quotes it). Each was chosen afresh for this pack.",
             "The order of zone numbers, hold points and tests without a source of their own: common practice of the trade.",
             "Texts on units: the company's own equipment sheets.")
    return Page("sources.html", "Sources", "shared/sources.html.j2", SourcesView(profile.name, profile.edition, rows, words))
