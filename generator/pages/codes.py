"""The list from which a page is found by its short reference, without a script."""
from collections.abc import Callable
from dataclasses import dataclass

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.pages.parts import place_of, units_of


@dataclass(frozen=True)
class CodeRow:
    """A short reference and what it opens."""

    short: str
    href: str
    name: str
    place: str


@dataclass(frozen=True)
class CodesView:
    """Every short reference of the pack."""

    rows: tuple[CodeRow, ...]


def codes_view(papers: Papers, results: Results, href: Callable[[str], str]) -> CodesView:
    """The list; `href` gives the place that a short reference opens in this pack."""
    short = results.references
    rows = [CodeRow(short[name], href(short[name]), name, place_of(papers, name) or papers.sheet_of[name].name)
            for name in units_of(papers)]
    return CodesView(tuple(sorted(rows, key=lambda row: row.short)))
