"""Which walls are surely met on the straight ways from one point to many? Many ways at once; `way.py` says of one what it meets.

A wall is surely met by every way to a piece of a line if it is met by the ways to both of its ends: what lies between them
in the triangle is cut by the same straight wall. What is met by less than a hair's breadth is left out here, so that nothing counts
that a way could miss.
"""
import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from shapely import LineString, STRtree, contains_xy, convex_hull
from shapely.geometry.base import BaseGeometry
from shapely.geometry.polygon import orient

from generator.geometry.house import House, StandingWall
from generator.geometry.shapes import Spot
from generator.geometry.way import ONE_M

# By so much a way must be within a wall's ends, or may pass beside an opening: spots are rounded to the centimetre.
SURE_M = 0.011
# The same for ways to single spots, which are where they are said to be.
EXACT_M = 1e-6
# Ways times walls that are worked out in one go: it bounds the memory, about 100 MB.
CELLS = 1_000_000


@dataclass(frozen=True)
class Fan:
    """The ways from a point to pieces of lines, by piece: `nearest_m` is a distance that none of its ways falls short of.

    `walls` and `floors` tell by piece and wall or level whether all of its ways meet it, `slant` the largest cosine of the angles
    to its normal at which they can; `things` whether all go into a thing of metal; `holes` by opening the number of its wall, its own, and
    whether some way of a piece may go through it.
    """

    nearest_m: np.ndarray
    walls: np.ndarray
    slant: np.ndarray
    floors: np.ndarray
    floor_slant: np.ndarray
    things: np.ndarray
    holes: tuple[tuple[int, int, np.ndarray], ...]


@dataclass(frozen=True)
class Barriers:
    """The walls and levels of a house as rows of numbers.

    `kept` are the walls' places in the house, `over` the areas of its levels less a hair's breadth, `whole` those without a recess.
    """

    house: House
    kept: tuple[int, ...]
    start: np.ndarray
    run: np.ndarray
    length: np.ndarray
    bottom: np.ndarray
    top: np.ndarray
    over: tuple[BaseGeometry, ...]
    whole: tuple[bool, ...]

    def fans(self, origin: Spot, first: np.ndarray, last: np.ndarray | None = None) -> Iterator[tuple[slice, Fan]]:
        """The ways to the pieces from `first` to `last`, or to single spots, some of them at a time."""
        size = max(1, CELLS // max(1, len(self.length)))
        for begin in range(0, len(first), size):
            part = slice(begin, begin + size)
            yield part, self._fan(np.array(origin), first[part], None if last is None else last[part])

    def _fan(self, origin: np.ndarray, first: np.ndarray, last: np.ndarray | None) -> Fan:
        ends = [self._met(origin, one, EXACT_M if last is None else SURE_M) for one in ((first,) if last is None else (first, last))]
        nearest = _nearest(origin, first, first if last is None else last)
        walls = np.logical_and.reduce([one[0] for one in ends])
        slant = np.minimum(1.0, np.maximum.reduce([one[1] for one in ends]) / nearest[:, None])
        floors, floor_slant = self._floors(origin, first, last, nearest)
        return Fan(nearest, walls, slant, floors, floor_slant, self._things(origin, first, last), tuple(self._holes(ends, walls)))

    def _met(self, origin: np.ndarray, to: np.ndarray, sure: float) -> tuple[np.ndarray, ...]:
        """By way and wall: whether it is met, how far the end lies off the wall's normal plane, and where along and how high it is met."""
        way = to - origin
        turn = way[:, 0, None] * self.run[:, 1] - way[:, 1, None] * self.run[:, 0]
        off = self.start - origin[:2]
        with np.errstate(divide="ignore", invalid="ignore"):
            share = (off[:, 0] * self.run[:, 1] - off[:, 1] * self.run[:, 0]) / turn
            along = (off[:, 0] * way[:, 1, None] - off[:, 1] * way[:, 0, None]) / turn * self.length
            height = origin[2] + way[:, 2, None] * share
            met = ((share > 1e-9) & (share < 1 - 1e-9) & (along > sure) & (along < self.length - sure)
                   & (height > self.bottom + sure) & (height < self.top - sure))
        return met & np.isfinite(share), np.abs(turn) / self.length, along, height

    def _floors(self, origin: np.ndarray, first: np.ndarray, last: np.ndarray | None, nearest: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        ends, many = [first] if last is None else [first, last], len(self.house.levels)
        met = np.zeros((len(first), many), bool)
        for index in range(many):
            # Between two ways that pass an area with a recess one may miss it.
            if last is None or self.whole[index]:
                met[:, index] = np.logical_and.reduce([self._through(index, origin, one) for one in ends])
        rise = np.maximum.reduce([np.abs(one[:, 2] - origin[2]) for one in ends])
        return met, np.minimum(1.0, rise / nearest)[:, None] * np.ones(many)

    def _through(self, index: int, origin: np.ndarray, to: np.ndarray) -> np.ndarray:
        at = self.house.levels[index].at_m
        apart = ((origin[2] - at) * (to[:, 2] - at) < 0) & (np.minimum(np.abs(to[:, 2] - at), abs(origin[2] - at)) > SURE_M)
        met = np.zeros(len(to), bool)
        if apart.any():
            share = ((at - origin[2]) / (to[apart, 2] - origin[2]))[:, None]
            spots = origin[:2] + (to[apart, :2] - origin[:2]) * share
            met[apart] = contains_xy(self.over[index], spots[:, 0], spots[:, 1])
        return met

    def _things(self, origin: np.ndarray, first: np.ndarray, last: np.ndarray | None) -> np.ndarray:
        ends, sure = ([first], EXACT_M) if last is None else ([first, last], SURE_M)
        met = np.zeros((len(first), len(self.house.metal)), bool)
        for index, thing in enumerate(self.house.metal):
            over = thing.over.buffer(-sure, join_style="mitre")
            if over.geom_type == "Polygon" and not over.is_empty and convex_hull(over).area - over.area < 1e-6:
                corners = np.array(orient(over).exterior.coords)
                met[:, index] = np.logical_and.reduce([_into(corners, (thing.bottom_m + sure, thing.top_m - sure), origin, one) for one in ends])
        return met

    def _holes(self, ends: list[tuple[np.ndarray, ...]], walls: np.ndarray) -> Iterator[tuple[int, int, np.ndarray]]:
        for index, place in enumerate(self.kept):
            standing = self.house.walls[place]
            if not standing.wall.holes or not walls[:, index].any():
                continue
            along, height = (np.stack([end[place][:, index] for end in ends]) for place in (2, 3))
            for number, hole in enumerate(standing.wall.holes):
                bottom, top = standing.bottom_m + hole.bottom_m, standing.bottom_m + hole.top_m
                with np.errstate(invalid="ignore"):
                    may = ((along.max(0) >= hole.start_m - SURE_M) & (along.min(0) <= hole.end_m + SURE_M)
                           & (height.max(0) >= bottom - SURE_M) & (height.min(0) <= top + SURE_M))
                if (may & walls[:, index]).any():
                    yield index, number, may & walls[:, index]


def barriers_of(house: House) -> Barriers:
    """The walls and levels of a house as rows of numbers."""
    walls = [(index, one) for index, one in enumerate(house.walls) if one.wall.length_m]
    lines = [LineString((one.wall.start, one.wall.end)) for _, one in walls]
    tree = STRtree(lines)
    # Of walls that lie in one another only one is met: the later ones are never counted.
    doubled = {row for row, (_, one) in enumerate(walls) if any(other < row and _in_one(one, walls[other][1], lines[row], lines[other])
                                                                for other in tree.query(lines[row], predicate="dwithin", distance=ONE_M))}
    kept = [one for row, one in enumerate(walls) if row not in doubled]
    start = np.array([one.wall.start for _, one in kept], float).reshape(-1, 2)
    run = np.array([one.wall.end for _, one in kept], float).reshape(-1, 2) - start
    return Barriers(house, tuple(index for index, _ in kept), start, run, np.hypot(run[:, 0], run[:, 1]),
                    np.array([one.bottom_m for _, one in kept], float), np.array([np.inf if one.top_m is None else one.top_m for _, one in kept], float),
                    tuple(one.over.buffer(-SURE_M) for one in house.levels),
                    tuple(convex_hull(one.over).area - one.over.area < 1e-6 for one in house.levels))


def _in_one(one: StandingWall, other: StandingWall, line: LineString, beside: LineString) -> bool:
    """Whether two walls share more than a corner, in the plan and in height."""
    low, high = max(one.bottom_m, other.bottom_m), min(math.inf if wall.top_m is None else wall.top_m for wall in (one, other))
    return low < high and beside.intersection(line.buffer(ONE_M)).length > 3 * ONE_M


def _into(corners: np.ndarray, heights: tuple[float, float], origin: np.ndarray, to: np.ndarray) -> np.ndarray:
    """Whether ways go into a thing without a recess, its corners in turn against the clock: they are cut off at each of its sides."""
    way = to - origin
    enter, leave = np.zeros(len(to)), np.ones(len(to))
    for start, end in zip(corners, corners[1:]):
        side = np.array((start[1] - end[1], end[0] - start[0]))
        toward, still = way[:, :2] @ side, float(side @ (start - origin[:2]))
        with np.errstate(divide="ignore", invalid="ignore"):
            share = still / toward
        enter = np.where(toward > 0, np.maximum(enter, share), enter)
        leave = np.where(toward < 0, np.minimum(leave, share), np.where((toward == 0) & (still > 0), -1.0, leave))
    ends = np.sort(origin[2] + way[:, 2] * np.stack((enter, leave)), axis=0)
    return (leave - enter > 1e-9) & (ends[0] < heights[1]) & (ends[1] > heights[0])


def _nearest(origin: np.ndarray, first: np.ndarray, last: np.ndarray) -> np.ndarray:
    """The least distance to each piece, less what rounding can take."""
    run = last - first
    length2 = (run * run).sum(1)
    with np.errstate(divide="ignore", invalid="ignore"):
        share = np.where(length2 > 0, ((origin - first) * run).sum(1) / length2, 0.0)
    at = first + np.clip(share, 0, 1)[:, None] * run
    return np.maximum(np.linalg.norm(at - origin, axis=1) - SURE_M, 1e-3)
