"""Which words stand on a storey's drawing, and where: names of rooms, units with their zone numbers, proposals, roofs, things.

A room whose name has no room within it bears a letter, which is told in a row below the drawing.
"""
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import reduce
from operator import or_
from string import ascii_lowercase

from generator.pages.drawing.views import At, DrawnSheet, UnitMark
from generator.publish.drawing.frame import WIDTH, Frame
from generator.publish.drawing.labels import Box, Ground, Wanted, below, beside, cells_of, inside, leader_to
from generator.publish.drawing.layers import ROUND, holds, ring_of
from generator.publish.drawing.parts import LOOKS, REACH, entry, link_ends

# The size of letters at the first zoom, and how wide one can be as a share of it, in the widest of usual fonts.
SIZE, HIGH = 12.0, 14.0
NARROW, WIDE = "iljtfrI.,:;'|!()[] ", "mwMW@%—…"
NARROW_EM, WIDE_EM, LARGE_EM, SMALL_EM = 0.46, 1.08, 0.84, 0.7
# What is not bold is narrower by that.
LEAN = 0.92
# How many marks near by make a unit one whose label is placed early.
NEAR = 45.0

# How broad walls and openings count where labels should hide none.
WALL_CELLS = 4
CLEAR = 4.0
# How far off the label of a unit still stands beside it, and how much broader than a name the place in its room should be.
BY, APART = 20.0, 12.0
# The box of a label that has no place yet.
NOWHERE = Box(0.0, 0.0, 0.0, 0.0)
Row = tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Label:
    """A label with its place: its rows of pieces, each piece with its kind; the mark that it belongs to; whether a leader is drawn."""

    kind: str
    rows: tuple[Row, ...]
    mark: At
    reach: float
    box: Box
    led: bool = True
    unit: UnitMark | None = None


def text_width(text: str, bold: bool = True) -> float:
    """How wide a text can be at the first zoom."""
    return SIZE * (1 if bold else LEAN) * sum(NARROW_EM if one in NARROW else WIDE_EM if one in WIDE else LARGE_EM if one.isupper() else SMALL_EM
                                              for one in text)


def placed(view: DrawnSheet, frame: Frame) -> tuple[list[Label], float]:
    """Every label with its place, and the height of the drawing with the rows that they needed below it.

    First the rooms, then units, the crowded ones first, then proposals, roofs and things; a thing is named only where there is room.
    """
    ground = _ground(view, frame)
    labels: list[Label] = []
    homeless: list[Label] = []

    def settle(label: Label) -> None:
        box = beside(ground, _wanted(label.rows, label.mark, label.reach))
        (labels if box else homeless).append(replace(label, box=box or NOWHERE))

    told = _rooms(view, frame, ground, labels, settle)
    marks = [frame.at(one.at) for one in view.units]
    crowd = {one.name: sum(math.dist(marks[index], other) < NEAR for other in marks) for index, one in enumerate(view.units)}
    homes = _homes(view, frame, ground)
    for one in sorted(view.units, key=lambda one: -crowd[one.name]):
        label = _of_unit(view, frame, ground, homes, one)
        (homeless if label.box is NOWHERE else labels).append(label)
    for one in view.proposed:
        settle(Label("proposal", ((("name", _cut(one.label)),),), frame.at((one.x, one.y)), REACH["proposed"], NOWHERE))
    for one, at in zip(view.ways, holds(frame, view.ways)):
        if one.label:
            settle(Label("way-name", ((("name", one.label),),), at, 0.0, NOWHERE))
    for one in view.reaches:
        (ax, ay), (bx, by) = frame.at(one.start), frame.at(one.end)
        settle(Label("reach-name", ((("plain", one.label),),), ((ax + bx) / 2, (ay + by) / 2), 0.0, NOWHERE))
    for one in view.gaps:
        (ax, ay), (bx, by) = frame.at(one.start), frame.at(one.end)
        settle(Label("gap-name", ((("name", f"gap {one.number}"),),), ((ax + bx) / 2, (ay + by) / 2), ROUND, NOWHERE))
    for one in view.things:
        label = _within(ground, [frame.at(place) for place in one.corners], "roof-name" if "roof" in one.marks else "thing-name", one.name,
                        frame.at(one.middle))
        if label:
            labels.append(label)
        elif "roof" in one.marks:
            settle(Label("roof-name", _wraps(one.name)[-1], frame.at(one.middle), 0.0, NOWHERE))
    rows = [*homeless, *(Label("told", ((("plain", _cut(f"{letter}: {name}")),),), (0.0, 0.0), 0.0, NOWHERE, led=False) for letter, name in told)]
    boxes, height = below(WIDTH, frame.height, [_wanted(one.rows, one.mark, one.reach) for one in rows])
    return [*labels, *(replace(one, box=box) for one, box in zip(rows, boxes))], height


def _homes(view: DrawnSheet, frame: Frame, ground: Ground) -> dict[str, list[int]]:
    """For each room, and for "" outside, the cells of every other room."""
    own = {room.key: cells_of(ground, [frame.at(place) for place in room.corners]) for room in view.rooms}
    none = [0] * len(ground.full)
    return {key: [reduce(or_, others) for others in zip(none, *(rows for other, rows in own.items() if other != key))] for key in (*own, "")}


def _of_unit(view: DrawnSheet, frame: Frame, ground: Ground, homes: dict[str, list[int]], one: UnitMark) -> Label:
    """A unit's label, never nearer to the mark of another. Beside it in no other room; else anywhere in its own; else farther off in the open;
    else where there is room at all."""
    at, marks = frame.at(one.at), [frame.at(other.at) for other in view.units if other.name != one.name]
    outline = next(([frame.at(place) for place in room.corners] for room in view.rooms if room.key == one.room), [])
    foreign = homes.get(one.room, homes[""])

    def nearer(box: Box, by: float = 0.0) -> bool:
        length = math.dist(at, leader_to(*at, box)) + by
        return all(length <= math.dist(mark, leader_to(*mark, box)) for mark in marks)

    def clearly(box: Box) -> bool:
        return not ground.meets(foreign, box) and nearer(box, CLEAR)

    def home(box: Box) -> bool:
        return not ground.meets(foreign, box) and nearer(box)

    tries = (lambda wanted: beside(ground, wanted, clearly, BY), lambda wanted: beside(ground, wanted, home, BY),
             lambda wanted: inside(ground, outline, wanted, nearer) if outline else None,
             lambda wanted: beside(ground, wanted, home), lambda wanted: beside(ground, wanted, nearer))
    for place in tries:
        for rows in _shapes(one):
            if box := place(_wanted(rows, at, REACH[one.kind])):
                return Label("unit", rows, at, REACH[one.kind], box, unit=one)
    return Label("unit", (_pieces(one),), at, REACH[one.kind], NOWHERE, unit=one)


def _shapes(one: UnitMark) -> list[tuple[Row, ...]]:
    """A unit's label in one row, with its last piece in a second, and with each in a row of its own."""
    row = _pieces(one)
    return [(row,), *([(row[:-1], row[-1:])] if len(row) > 1 else []), *([tuple((piece,) for piece in row)] if len(row) > 2 else [])]


def _rooms(view: DrawnSheet, frame: Frame, ground: Ground, labels: list[Label], settle) -> list[tuple[str, str]]:
    """Names of rooms, those that have room first; the others get letters, which are given back with the names."""
    tight = []
    for room in view.rooms:
        label = _within(ground, [frame.at(place) for place in room.corners], "room", room.name, frame.at(room.middle))
        if label:
            labels.append(label)
        else:
            tight.append(room)
    for room, letter in zip(tight, _letters(len(tight))):
        outline, middle = [frame.at(place) for place in room.corners], frame.at(room.middle)
        rows = ((("plain", letter),),)
        box = inside(ground, outline, _wanted(rows, middle, 0.0))
        if box:
            labels.append(Label("letter", rows, middle, 0.0, box, led=False))
        else:
            settle(Label("letter", rows, middle, 0.0, NOWHERE))
    return list(zip(_letters(len(tight)), (room.name for room in tight)))


def _letters(count: int) -> list[str]:
    """a to z, then aa, ab and so on."""
    return [(ascii_lowercase[at // 26 - 1] if at >= 26 else "") + ascii_lowercase[at % 26] for at in range(count)]


def _within(ground: Ground, outline: Sequence[At], kind: str, name: str, middle: At) -> Label | None:
    """A name within its area, in one line or in two, clear of its walls where there is room; None if neither has room."""
    for clear in (APART, 0.0):
        for rows in _wraps(name):
            wanted = _wanted(rows, middle, 0.0)
            if box := inside(ground, outline, replace(wanted, width=wanted.width + clear)):
                return Label(kind, rows, middle, 0.0, box, led=False)
    return None


def _ground(view: DrawnSheet, frame: Frame) -> Ground:
    """The drawing with what labels must not hide: marks and ways in; and what they had better not: walls and links."""
    ground = Ground(WIDTH, frame.height)
    for one in view.units:
        (x, y), reach = frame.at(one.at), REACH[one.kind]
        ground.take(Box(x - reach, y - reach, 2 * reach, 2 * reach))
        if one.looks:
            ground.draw((x, y), (x + one.looks[0] * LOOKS, y - one.looks[1] * LOOKS))
    for one in view.proposed:
        (x, y), reach = frame.at((one.x, one.y)), REACH["proposed"]
        ground.take(Box(x - reach, y - reach, 2 * reach, 2 * reach))
    for one in view.openings:
        if one.inward:
            xs, ys = zip(*entry(frame, one))
            ground.take(Box(min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys)))
        ground.draw(frame.at(one.start), frame.at(one.end), WALL_CELLS)
    for one in view.walls:
        ground.draw(frame.at(one.start), frame.at(one.end), WALL_CELLS)
    for way in view.ways:
        for start, end in zip(way.points, way.points[1:]):
            ground.draw(frame.at(start), frame.at(end))
    for start, end in [*ring_of(view.boundary), *((one.start, one.end) for one in view.reaches)]:
        ground.draw(frame.at(start), frame.at(end))
    for one in view.links:
        start, end = link_ends(frame, one)
        ground.draw(start, end)
        if not one.whole:
            # A stub is short: a label upon it would hide how the link stands.
            ground.take(Box(end[0] - CLEAR, end[1] - CLEAR, 2 * CLEAR, 2 * CLEAR))
    return ground


def _pieces(one: UnitMark) -> tuple[tuple[str, str], ...]:
    return tuple((kind, text) for kind, text in (("name", _cut(one.label)), ("zone", one.numbers), ("far", one.far)) if text)


def _cut(text: str) -> str:
    """A text that has room in a row of its own."""
    while text_width(text) > WIDTH - 8:
        text = f"{text[:-2]}…"
    return text


def _wraps(name: str) -> list[tuple[tuple[tuple[str, str], ...], ...]]:
    """A name in one line, and in two if it has words enough."""
    name = _cut(name)
    parts = name.split(" ")
    cuts = [(" ".join(parts[:at]), " ".join(parts[at:])) for at in range(1, len(parts))]
    best = min(cuts, key=lambda one: max(map(text_width, one)), default=None)
    return [((("plain", name),),), *([tuple((("plain", text),) for text in best)] if best else [])]


def _wanted(lines: Sequence[Sequence[tuple[str, str]]], at: At, reach: float) -> Wanted:
    widths = [sum(text_width(text, kind == "name") for kind, text in row) + text_width(" ") * (len(row) - 1) for row in lines]
    return Wanted(at[0], at[1], reach, round(max(widths), 1), HIGH * len(lines))


