"""Where does each label of a drawing stand, so that no two lie one over the other and none hides a mark?

Pure, and the same for the same input: labels are placed in their order, each at the best place that is still free, round its mark at
growing distances; one that finds none stands in a row below the drawing. What is taken is kept as bits of a fine grid, a whole
number a row, so that a box is tried by a handful of operations. Lengths are in the drawing's own measure.
"""
import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

# The grid. Boxes are rounded outwards to it.
CELL = 2.0
HAIR = 0.01
# Distances from the mark that are tried, and directions: beside it first, then above and below, then aslant.
RINGS = (2.0, 7.0, 13.0, 20.0, 30.0, 42.0, 58.0, 78.0, 104.0)
TURNS = tuple(math.tau * share for share in (0, .5, .75, .25, .0625, .9375, .4375, .5625, .125, .875, .375, .625, .1875, .8125, .3125, .6875))
# What a cell of a line below the label costs against a step away from the mark, and a label that its own leader would cross.
LINE_COST, CROSSED = 0.35, 60.0
ASLANT = 1.6
# Within an area every third cell is tried; where that finds nothing, every one.
STRIDES = (3, 1)


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


# Whether a label may stand in a box.
Fits = Callable[[Box], bool]


def anywhere(box: Box) -> bool:
    """For a label that may stand wherever there is room."""
    return True


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

    def meets(self, rows: Sequence[int], box: Box) -> bool:
        """Whether a box lies on any of these cells, a whole number a row."""
        mask, here = self._cells(box)
        return any(rows[row] & mask for row in here)

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


def beside(ground: Ground, wanted: Wanted, fits: Fits = anywhere, far: float = RINGS[-1]) -> Box | None:
    """The best free place round a mark that fits, no farther off than `far`, which is then taken, its leader with it; None if there is none."""
    best: tuple[float, Box] | None = None
    for ring in RINGS:
        if ring > far or best and best[0] <= ring:
            break
        for turn, order in zip(TURNS, range(len(TURNS))):
            box = _round(wanted, ring + wanted.reach, turn)
            if ground.free(box):
                cost = ring + order * .1 + LINE_COST * ground.hidden(box)
                leader = _leader(wanted, box)
                cost += CROSSED if leader and ground.crosses(*leader) else 0
                if (best is None or cost < best[0]) and fits(box):
                    best = (cost, box)
    if best is None:
        return None
    _settle(ground, wanted, best[1])
    return best[1]


def inside(ground: Ground, outline: Sequence[tuple[float, float]], wanted: Wanted, fits: Fits = anywhere) -> Box | None:
    """The free place within an area that fits, is nearest to a place and hides least, which is then taken; None if there is none."""
    across, down = math.ceil(wanted.width / CELL), math.ceil(wanted.height / CELL)
    rows = [cells & ~full for cells, full in zip(cells_of(ground, outline), ground.full)]
    for stride in STRIDES:
        found: list[tuple[float, int, int]] = []
        here = _every(stride, ground.width)
        for row in range(0, len(rows) - down + 1, stride):
            starts = _runs(_all(rows[row:row + down]), across) & here
            while starts:
                column = (starts & -starts).bit_length() - 1
                starts &= starts - 1
                middle = column * CELL + wanted.width / 2, row * CELL + wanted.height / 2
                found.append((math.dist(middle, (wanted.x, wanted.y)), row, column))
        if box := _least(ground, wanted, sorted(found), fits):
            if wanted.reach:
                _settle(ground, wanted, box)
            ground.take(box)
            return box
    return None


def _least(ground: Ground, wanted: Wanted, found: Sequence[tuple[float, int, int]], fits: Fits) -> Box | None:
    """Of places by their distance the one that is near and hides little."""
    best: tuple[float, Box] | None = None
    for distance, row, column in found:
        if best and best[0] <= distance:
            break
        box = Box(column * CELL, row * CELL, wanted.width, wanted.height)
        cost = distance + 2 * LINE_COST * ground.hidden(box)
        if (best is None or cost < best[0]) and fits(box):
            best = (cost, box)
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


def cells_of(ground: Ground, outline: Sequence[tuple[float, float]]) -> list[int]:
    """The cells that lie within an area, a whole number a row of the drawing."""
    every = (1 << math.floor(ground.width / CELL)) - 1
    ys = [one[1] for one in outline]
    top, end = max(0, math.ceil(min(ys) / CELL)), min(len(ground.full), math.floor(max(ys) / CELL))
    return [every & _span(outline, row * CELL + HAIR) & _span(outline, (row + 1) * CELL - HAIR) if top <= row < end else 0
            for row in range(len(ground.full))]


def _span(outline: Sequence[tuple[float, float]], y: float) -> int:
    """The cells of a line across that lie within an area."""
    met = sorted(ax + (bx - ax) * (y - ay) / (by - ay) for (ax, ay), (bx, by) in zip(outline, [*outline[1:], outline[0]]) if (ay > y) != (by > y))
    cells = 0
    for start, end in zip(met[::2], met[1::2]):
        first, last = max(0, math.ceil(start / CELL)), math.floor(end / CELL)
        cells |= ((1 << max(0, last - first)) - 1) << first
    return cells


def _every(stride: int, width: float) -> int:
    """The cells of a row at every so many."""
    return sum(1 << column for column in range(0, math.ceil(width / CELL), stride))


def _all(rows: Sequence[int]) -> int:
    found = rows[0]
    for one in rows[1:]:
        found &= one
    return found


def _runs(cells: int, length: int) -> int:
    """Where so many cells in a row begin."""
    done = 1
    while done < length:
        step = min(done, length - done)
        cells &= cells >> step
        done += step
    return cells
