"""The slot map as a page: every number, why it is that one, and where there is room."""
from collections.abc import Mapping
from dataclasses import dataclass

from generator.calc.results import Results
from generator.calc.slots import Row, SlotMap
from generator.model.papers import Papers
from generator.pages.page import Page, device_path
from generator.pages.parts import Fact, FindingView, Stopped, place_of_row, unless_stopped
from generator.terms.show import capital


@dataclass(frozen=True)
class NumberRow:
    """One number taken. `href` opens the unit's page, "" where no unit stands for it."""

    number: str
    unit: str
    href: str
    text: str
    place: str
    why: str


@dataclass(frozen=True)
class ListView:
    """One list of the control unit; `kept` are its numbers that nobody gets, with the reason."""

    id: str
    title: str
    used: str
    rows: tuple[NumberRow, ...]
    kept: tuple[Fact, ...]


@dataclass(frozen=True)
class Cell:
    """One number of the picture: whether a unit has it, and in words what it is."""

    number: int
    taken: bool
    text: str


@dataclass(frozen=True)
class SlotsView:
    """The slot map. `stops` replaces a list that does not fit."""

    stops: tuple[FindingView, ...]
    lists: tuple[ListView, ...]
    blocks: tuple[Fact, ...]
    picture: tuple[Cell, ...]


def slots_page(papers: Papers, results: Results, stopped: Stopped, stops: tuple[FindingView, ...]) -> Page:
    """The page of all numbers; `stops` are the findings that keep the job from being signed."""
    slots = results.slots
    kinds = list(dict.fromkeys([*(row.list for row in slots.rows), *(one.list for one in slots.kept)]))
    lists = tuple(_list(papers, results, kind, stopped) for kind in kinds)
    blocks = tuple(Fact(capital(one.name), f"{_span(one.first, one.last)}, {one.spare} free behind it, {one.spare_wanted} wanted; "
                        f"{one.means}") for one in slots.blocks)
    return Page("slots.html", "Slot map", "installer/slots.html.j2",
                SlotsView(stops, lists, blocks, _picture(slots)))


def _span(first: int, last: int) -> str:
    return f"number {first}" if first == last else f"numbers {first} to {last}"


def _list(papers: Papers, results: Results, kind: str, stopped: Stopped) -> ListView:
    rows = [row for row in results.slots.rows if row.list == kind]
    used = f"{len(rows)} of {results.slots.length[kind]} taken"
    kept = tuple(Fact(capital(_span(one.first, one.last)), one.why) for one in results.slots.kept if one.list == kind)
    return ListView(kind, capital(kind), used, tuple(_row(papers, results.references, row, stopped) for row in rows), kept)


def _row(papers: Papers, short: Mapping[str, str], row: Row, stopped: Stopped) -> NumberRow:
    number = f"{row.number}" if row.zone in (None, row.number) else f"{row.number}, zone {row.zone}"
    href = device_path(short[row.device]) if row.device else ""
    return NumberRow(number, row.device, href, unless_stopped(row.text, row.text_field, stopped), place_of_row(papers, row), capital(row.why))


def _picture(slots: SlotMap) -> tuple[Cell, ...]:
    """The zones in a strip: what is taken, and by what; what stays free, and why."""
    text = {row.zone: f"{row.zone}: {row.text}" for row in slots.rows if row.list == "zones"}
    kept = {number: f"{number}: stays free, {one.why}" for one in slots.kept if one.list == "zones"
            for number in range(one.first, one.last + 1)}
    return tuple(Cell(number, number in text, text.get(number) or kept.get(number, f"{number}: free"))
                 for number in range(1, slots.length["zones"] + 1)) if text else ()
