"""Where does each label of a drawing stand, so that no two lie one over the other and none hides a mark?

Pure, and the same for the same input: labels are placed in their order, each at the best place that is still free, round its mark at
growing distances; one that finds none stands in a row below the drawing. What is taken is kept as bits of a fine grid, a whole
number a row, so that a box is tried by a handful of operations. Lengths are in the drawing's own measure.
"""
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

# The grid. Boxes are rounded outwards to it.
CELL = 2.0
# Distances from the mark that are tried, and directions: beside it first, then above and below, then aslant.
RINGS = (2.0, 7.0, 13.0, 20.0, 30.0, 42.0, 58.0, 78.0, 104.0)
TURNS = tuple(math.tau * share for share in (0, .5, .75, .25, .0625, .9375, .4375, .5625, .125, .875, .375, .625, .1875, .8125, .3125, .6875))
# What a cell of a line below the label costs against a step away from the mark, and a label that its own leader would cross.
LINE_COST, CROSSED = 0.35, 60.0
ASLANT = 1.6


class Box(NamedTuple):
    """A rectangle by its upper left corner."""

    x: float
    y: float
    width: float
    height: float

    @property
    def middle(self) -> tuple[float, float]:
        """Its middle."""
        return self.x + self.width / 2, self.y + self.height / 2


@dataclass(frozen=True)
class Wanted:
    """A label that wants a place: where its mark is, how far its mark reaches, and how large it is."""

    x: float
    y: float
    reach: float
    width: float
    height: float


@dataclass
class Ground:
    """What is taken of a drawing (`full`), and what is better left to be seen (`lines`)."""

    width: float
    height: float
    full: list[int] = field(default_factory=list)
    lines: list[int] = field(default_factory=list)

    def __post_init__(self) -> None:
        rows = math.ceil(self.height / CELL) + 1
        self.full, self.lines = [0] * rows, [0] * rows

    def take(self, box: Box) -> None:
        """Nothing else stands here."""
        mask, rows = self._cells(box)
        for row in rows:
            self.full[row] |= mask

    def draw(self, start: tuple[float, float], end: tuple[float, float], cells: int = 1) -> None:
        """A line that is better left to be seen, so many cells broad."""
        mask, back = (1 << cells) - 1, cells // 2
        for column, row in self._on(start, end):
            for near in range(max(0, row - back), min(len(self.lines), row - back + cells)):
                self.lines[near] |= mask << max(0, column - back)

    def free(self, box: Box) -> bool:
        """Whether a box lies on the drawing and on nothing that is taken."""
        if box.x < 0 or box.y < 0 or box.x + box.width > self.width or box.y + box.height > self.height:
            return False
        mask, rows = self._cells(box)
        return not any(self.full[row] & mask for row in rows)

    def hidden(self, box: Box) -> int:
        """How many cells of lines a box hides."""
        mask, rows = self._cells(box)
        return sum((self.lines[row] & mask).bit_count() for row in rows)

    def crosses(self, start: tuple[float, float], end: tuple[float, float]) -> bool:
        """Whether a line runs over something that is taken."""
        return any(self.full[row] >> column & 1 for column, row in self._on(start, end))

    def _cells(self, box: Box) -> tuple[int, range]:
        first, last = max(0, math.floor(box.x / CELL)), math.ceil((box.x + box.width) / CELL)
        low, high = max(0, math.floor(box.y / CELL)), min(len(self.full), math.ceil((box.y + box.height) / CELL))
        return ((1 << max(0, last - first)) - 1) << first, range(low, high)

    def _on(self, start: tuple[float, float], end: tuple[float, float]) -> Iterable[tuple[int, int]]:
        steps = max(1, math.ceil(math.dist(start, end) / CELL))
        for step in range(steps + 1):
            column = math.floor((start[0] + (end[0] - start[0]) * step / steps) / CELL)
            row = math.floor((start[1] + (end[1] - start[1]) * step / steps) / CELL)
            if column >= 0 and 0 <= row < len(self.full):
                yield column, row


def beside(ground: Ground, wanted: Wanted) -> Box | None:
    """The best free place round a mark, which is then taken, its leader with it; None if there is none."""
    best: tuple[float, Box] | None = None
    for ring in RINGS:
        if best and best[0] <= ring:
            break
        for turn, order in zip(TURNS, range(len(TURNS))):
            box = _round(wanted, ring + wanted.reach, turn)
            if ground.free(box):
                cost = ring + order * .1 + LINE_COST * ground.hidden(box)
                leader = _leader(wanted, box)
                cost += CROSSED if leader and ground.crosses(*leader) else 0
                if best is None or cost < best[0]:
                    best = (cost, box)
    if best is None:
        return None
    _settle(ground, wanted, best[1])
    return best[1]


def inside(ground: Ground, outline: Sequence[tuple[float, float]], wanted: Wanted) -> Box | None:
    """The free place within an area that is nearest to its middle and hides least, which is then taken; None if there is none."""
    xs, ys = [one[0] for one in outline], [one[1] for one in outline]
    best: tuple[float, Box] | None = None
    for y in _steps(min(ys), max(ys) - wanted.height):
        for x in _steps(min(xs), max(xs) - wanted.width):
            box = Box(x, y, wanted.width, wanted.height)
            if ground.free(box) and _within(outline, box):
                cost = math.dist(box.middle, (wanted.x, wanted.y)) + LINE_COST * 2 * ground.hidden(box)
                if best is None or cost < best[0]:
                    best = (cost, box)
    if best:
        ground.take(best[1])
    return best[1] if best else None


def below(width: float, top: float, wanted: Sequence[Wanted], gap: float = 6.0) -> tuple[list[Box], float]:
    """Rows under the drawing for those that found no place, from left to right as their marks stand; and where the rows end."""
    boxes: dict[int, Box] = {}
    x, y = gap, top
    high = max((one.height for one in wanted), default=0.0)
    for index in sorted(range(len(wanted)), key=lambda one: (wanted[one].x, wanted[one].y, one)):
        one = wanted[index]
        if x > gap and x + one.width > width:
            x, y = gap, y + high + gap
        boxes[index] = Box(x, y, one.width, one.height)
        x += one.width + gap
    return [boxes[index] for index in range(len(wanted))], y + high + gap if wanted else top


def leader_to(x: float, y: float, box: Box) -> tuple[float, float]:
    """The point of a box that is nearest to a mark: there its leader ends."""
    return min(max(x, box.x), box.x + box.width), min(max(y, box.y), box.y + box.height)


def _round(wanted: Wanted, distance: float, turn: float) -> Box:
    dx, dy = math.cos(turn), math.sin(turn)
    # Straight beside it the box stands with its middle, aslant with its corner.
    x = wanted.x + dx * distance + (max(-1.0, min(1.0, ASLANT * dx)) - 1) * wanted.width / 2
    y = wanted.y + dy * distance + (max(-1.0, min(1.0, ASLANT * dy)) - 1) * wanted.height / 2
    return Box(round(x, 1), round(y, 1), wanted.width, wanted.height)


def _leader(wanted: Wanted, box: Box) -> tuple[tuple[float, float], tuple[float, float]] | None:
    end = leader_to(wanted.x, wanted.y, box)
    length = math.dist((wanted.x, wanted.y), end)
    if length <= wanted.reach + 2 * CELL:
        return None
    share = (wanted.reach + CELL) / length
    return (wanted.x + (end[0] - wanted.x) * share, wanted.y + (end[1] - wanted.y) * share), end


def _settle(ground: Ground, wanted: Wanted, box: Box) -> None:
    ground.take(box)
    if leader := _leader(wanted, box):
        ground.draw(*leader)


def _steps(low: float, high: float) -> list[float]:
    """The lines of the grid from low to high."""
    return [step * CELL for step in range(math.ceil(low / CELL), math.floor(high / CELL) + 1)]


def _within(outline: Sequence[tuple[float, float]], box: Box) -> bool:
    """Whether a box lies in an area: its corners do, and no edge of the area runs through it."""
    left, top, right, bottom = box.x, box.y, box.x + box.width, box.y + box.height
    edges = list(zip(outline, [*outline[1:], outline[0]]))
    if not all(_holds(edges, x, y) for x in (left, right) for y in (top, bottom)):
        return False
    return not any(_through(one, other, left, top, right, bottom) for one, other in edges)


def _holds(edges: Sequence[tuple[tuple[float, float], tuple[float, float]]], x: float, y: float) -> bool:
    return sum((ay > y) != (by > y) and x < (bx - ax) * (y - ay) / (by - ay) + ax for (ax, ay), (bx, by) in edges) % 2 == 1


def _through(one: tuple[float, float], other: tuple[float, float], left: float, top: float, right: float, bottom: float) -> bool:
    """Whether an edge enters the inside of a box."""
    low, high = 0.0, 1.0
    for start, step, least, most in ((one[0], other[0] - one[0], left, right), (one[1], other[1] - one[1], top, bottom)):
        if not step:
            if not least < start < most:
                return False
            continue
        first, last = sorted(((least - start) / step, (most - start) / step))
        low, high = max(low, first), min(high, last)
    return low < high
