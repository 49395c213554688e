"""The slot map as a page: where there is room, what a unit would get that is added, and every number with why it is that one."""
from collections.abc import Mapping
from dataclasses import dataclass

from generator.calc.results import Results
from generator.calc.slots.blocks import BlockUse
from generator.calc.slots.onward import NextNumbers
from generator.calc.slots.slots import Row, SlotMap
from generator.calc.slots.whys import order_of, span
from generator.model.papers import Papers
from generator.pages.page import Page, device_path
from generator.pages.parts import Fact, FindingView, Stopped, place_of_row, unless_stopped
from generator.terms.show import capital, sentence_list

CAN_MOVE = ("Not issued yet: numbers can still move. A unit that is added before the issue takes its place in the order, and those "
            "behind it can move. Once the job is issued as it stands, nobody moves, and units that are added get:")
STAYS = "What was issued keeps its numbers. Units that are added get:"
HOW = ("Units are added in the job file, at the office. Enrol one at the number that the new pack gives it; two inputs take two "
       "numbers side by side.")


@dataclass(frozen=True)
class NumberRow:
    """One number taken. `href` opens the unit's page, "" where no unit stands for it; `place` says where it is or who has it."""

    number: str
    unit: str
    href: str
    text: str
    place: str
    why: str
    serial: str


@dataclass(frozen=True)
class ListView:
    """One list of the control unit; `order` is that of all its numbers, `kept` are those that nobody gets, with the reason."""

    id: str
    title: str
    used: str
    order: str
    rows: tuple[NumberRow, ...]
    kept: tuple[Fact, ...]


@dataclass(frozen=True)
class Cell:
    """One number of the picture: whether it is taken, in words what it is, and which unit has it, "" for none."""

    number: int
    taken: bool
    text: str
    unit: str


@dataclass(frozen=True)
class Adding:
    """What units get that are added: whether the numbers hold, what each block gives, and how a unit is added."""

    state: str
    blocks: tuple[Fact, ...]
    how: str


@dataclass(frozen=True)
class SlotsView:
    """The slot map. `stops` replaces a list that does not fit; `used` counts the zones; `given` says in which revision numbers
    were given where a row says nothing else, "" before the issue."""

    stops: tuple[FindingView, ...]
    used: str
    picture: tuple[Cell, ...]
    blocks: tuple[Fact, ...]
    adding: Adding
    given: str
    lists: tuple[ListView, ...]


def slots_page(papers: Papers, results: Results, stopped: Stopped, stops: tuple[FindingView, ...]) -> Page:
    """The page of all numbers; `stops` are the findings that keep the job from being signed."""
    slots = results.slots
    kinds = list(dict.fromkeys([*(row.list for row in slots.rows), *(one.list for one in slots.kept)]))
    lists = tuple(_list(papers, results, kind, stopped) for kind in kinds)
    adding = Adding(STAYS if slots.issued else CAN_MOVE,
                    tuple(map(_next, slots.next)), HOW)
    most = _mostly(slots)
    given = f"Numbers were given in revision {most} where a row says nothing else." if most else ""
    return Page("slots.html", "Slot map", "installer/slots.html.j2",
                SlotsView(stops, _used(slots, "zones"), _picture(slots), tuple(map(_block, slots.blocks)), adding, given, lists))


def _block(one: BlockUse) -> Fact:
    """One block: what stands in it, how much room it has, and why it starts where it does."""
    return Fact(f"{span(one.first, one.last)} {capital(one.name)}:",
                f"{one.means}; {one.spare} free behind it, {one.spare_wanted} wanted. At {one.first}: {one.why}.")


def _next(one: NextNumbers) -> Fact:
    """What a block gives to units that are added to it."""
    return Fact(f"{capital(one.means)}:", _gives(one))


def _gives(one: NextNumbers) -> str:
    if one.one is None:
        return "no number, there is no room."
    two = f"two get {sentence_list([str(number) for number in one.two])}" if one.two else "there is no room for two"
    far = "" if one.with_its_own else " (none is free behind its block)"
    return f"one gets {one.one}{far}; {two}."


def _used(slots: SlotMap, kind: str) -> str:
    return f"{sum(row.list == kind for row in slots.rows)} of {slots.length[kind]} taken."


def _list(papers: Papers, results: Results, kind: str, stopped: Stopped) -> ListView:
    slots = results.slots
    kept = tuple(Fact(capital(f"{'number' if one.first == one.last else 'numbers'} {span(one.first, one.last)}"), one.why)
                 for one in slots.kept if one.list == kind)
    most = _mostly(slots)
    rows = tuple(_row(papers, results.references, row, stopped, _why(row, most)) for row in slots.rows if row.list == kind)
    return ListView(kind, capital(kind), _used(slots, kind), order_of(kind) if len(rows) > 1 else "", rows, kept)


def _mostly(slots: SlotMap) -> int:
    """The revision in which most numbers were given, the earliest of several; 0 if none was issued."""
    revisions = [row.since for row in slots.rows if row.since]
    return max(sorted(set(revisions)), key=revisions.count, default=0)


def _why(row: Row, most: int) -> str:
    """Why a number is this one; the revision only where it is not the one that is said for the whole page."""
    return row.why if row.since == most else row.reason if row.since else f"new, not issued yet: {row.why}"


def _row(papers: Papers, short: Mapping[str, str], row: Row, stopped: Stopped, why: str) -> NumberRow:
    href = device_path(short[row.device]) if row.device else ""
    return NumberRow(number_of(row), row.device, href, unless_stopped(row.text, row.text_field, stopped), place_of_row(papers, row), capital(why),
                     _serial(papers, row.device, stopped))


def number_of(row: Row) -> str:
    """The number of a row, with the zone where that is another one."""
    return f"{row.number}" if row.zone in (None, row.number) else f"{row.number}, zone {row.zone}"


def _serial(papers: Papers, name: str, stopped: Stopped) -> str:
    """The serial of a unit, by which it is found on this page; "" where the plan has none, or no unit stands here."""
    serial = papers.job.devices[name].serial if name in papers.job.devices else None
    return f"serial {unless_stopped(serial, f'job.devices.{name}.serial', stopped)}" if serial else ""


def _picture(slots: SlotMap) -> tuple[Cell, ...]:
    """The zones in a strip: what is taken, and by what; what stays free, and why."""
    text = {row.zone: f"{row.zone}: {row.text}" for row in slots.rows if row.list == "zones"}
    kept = {number: f"{number}: stays free, {one.why}" for one in slots.kept if one.list == "zones"
            for number in range(one.first, one.last + 1)}
    unit = {row.zone: row.device for row in slots.rows if row.list == "zones"}
    return tuple(Cell(number, number in text, text.get(number) or kept.get(number, f"{number}: free"), unit.get(number, ""))
                 for number in range(1, slots.length["zones"] + 1)) if text else ()
