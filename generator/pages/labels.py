"""Labels and cards with a code, to print: cards for a drawer, and sheets of labels for inside the lids."""
from collections.abc import Iterator
from dataclasses import dataclass

from generator.calc.results import Results
from generator.model.label_sheet import A4_24, LETTER_30, PAPERS, Stock
from generator.model.papers import Papers
from generator.pages.page import ON_PAPER, Link, Page, payload
from generator.pages.parts import units_of
from generator.terms.audience import Audience
from generator.terms.label_code import FITS
from generator.terms.show import amount, capital, count

TITLE = "Labels for inside the lids"
# White at the end of the words, so that a hand's line stays on the label.
END_MM = 2.0
# A little less than the paper, so that no sheet spills over to a second one.
SPARE_MM = 1.0


@dataclass(frozen=True)
class Label:
    """One printed label: it goes inside the lid, never on the face."""

    short: str
    payload: str
    lines: tuple[str, ...]


@dataclass(frozen=True)
class LabelsView:
    """Cards, one after the other."""

    labels: tuple[Label, ...]
    title: str
    hint: str


@dataclass(frozen=True)
class LabelSheetsView:
    """Labels as they stand on sheets, `labels` all of them. `measures` are the sheet's sizes as custom properties of a style sheet, in mm; `others` the other sheets."""

    labels: tuple[Label, ...]
    title: str
    hint: str
    paper: str
    measures: str
    sheets: tuple[tuple[Label, ...], ...]
    others: tuple[Link, ...]


def label_pages(papers: Papers, results: Results) -> tuple[Page, ...]:
    """A page for each sheet of labels that the job can be printed on: the company's own first, then 24 on A4 and 30 on Letter."""
    own = papers.company.label_sheet
    stocks = [*([("labels-own.html", "Labels: our sheet", own.stock())] if own else []),
              ("labels.html", "Labels: 24 on A4", A4_24), ("labels-letter.html", "Labels: 30 on Letter", LETTER_30)]
    labels = tuple(_labels(papers, results))
    links = {path: Link(path, title) for path, title, _ in stocks}
    return tuple(Page(path, title, "installer/labels.html.j2",
                      _view(labels, stock, tuple(link for other, link in links.items() if other != path)), ON_PAPER) for path, title, stock in stocks)


def _labels(papers: Papers, results: Results) -> Iterator[Label]:
    for name in units_of(papers):
        short, sheet = results.references[name], papers.sheet_of[name]
        numbers = [f"{row.list.removesuffix('s')} {row.number}" for row in results.slots.of(name)]
        cell = f"Cell: {sheet.power.cell}" if sheet.power.cell else ""
        yield Label(short, _held(papers, short), tuple(filter(None, (name, capital(", ".join(numbers)), cell, "Dated: ____________"))))


def _held(papers: Papers, short: str) -> str:
    """What a label's code holds: what every code of the pack holds, unless that needs smaller modules than can be read; then the short reference."""
    link = payload(papers, Audience.INSTALLER, short)
    return link if len(link) <= FITS["Q"] else short


def _view(labels: tuple[Label, ...], stock: Stock, others: tuple[Link, ...]) -> LabelSheetsView:
    each = stock.columns * stock.rows
    sheets = tuple(labels[first:first + each] for first in range(0, len(labels), each))
    hint = (f"{stock.columns} by {stock.rows} on {stock.paper}, {amount(stock.width, 'mm')} by {amount(stock.height, 'mm')} each: {count(len(sheets), 'sheet')}. "
            "Print at full size, 100 %, without margins of the printer's own; try it on plain paper and hold it against the sheet. "
            "Stick each inside the lid or on the back plate, never on the face.")
    return LabelSheetsView(labels, TITLE, hint, stock.paper, _measures(stock), sheets, others)


def _measures(stock: Stock) -> str:
    """The sheet's sizes for its style. The code stands in the middle of the label's height, as far from its left edge as from the upper."""
    edge = (stock.height - stock.code) / 2
    width, height = PAPERS[stock.paper]
    sizes = {"sheet": width, "long": height - SPARE_MM, "left": stock.left, "top": stock.top, "wide": stock.width, "high": stock.height,
             "across": stock.across, "down": stock.down, "code": stock.code, "edge": edge, "end": max(END_MM, edge)}
    return "; ".join([*(f"--{name}: {value:g}mm" for name, value in sizes.items()), f"--columns: {stock.columns}"])
