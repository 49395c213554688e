"""Where do the walls of a storey stand? Between rooms that share an edge, and where a room's edge has no other room behind it."""
import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from shapely import STRtree, linestrings

from generator.geometry.shapes import SAME_M, Place, outline, ring
from generator.model.premises import OUTSIDE, Opening, Storey, Walls

# How far off the line of its wall the middle of an opening may be written: half of a thick wall.
OFF_LINE_M = 0.2


@dataclass(frozen=True)
class Hole:
    """An opening in a wall: from where to where along it, and its heights above the floor of the storey. `leaf` is its construction."""

    opening: str
    start_m: float
    end_m: float
    bottom_m: float
    top_m: float
    leaf: str | None
    inner: bool


@dataclass(frozen=True)
class Wall:
    """One straight piece of wall. `places` are those on its sides; one that stands by itself has its own name and `own`.

    `height_m` is None where nothing says how high it is. Heights count from the floor of the storey.
    """

    storey: str
    places: tuple[str, ...]
    start: Place
    end: Place
    construction: str | None
    height_m: float | None
    holes: tuple[Hole, ...] = ()
    own: bool = False

    @property
    def length_m(self) -> float:
        """Its length."""
        return math.dist(self.start, self.end)

    @property
    def outer(self) -> bool:
        """Whether the open air is behind it."""
        return OUTSIDE in self.places


def walls_of(key: str, storey: Storey) -> tuple[Wall, ...]:
    """Every wall of a storey, with its openings."""
    built = storey.walls or Walls()
    own = {frozenset(one.places): one.construction for one in built.between}
    found = []
    for places, start, end in _pieces(storey):
        construction = own.get(frozenset(places), built.outside if OUTSIDE in places else built.inside)
        found.append(Wall(key, places, start, end, construction, storey.ceiling_m))
    holes = holes_of(storey.openings, found)
    found = [Wall(one.storey, one.places, one.start, one.end, one.construction, one.height_m, tuple(holes.get(index, ())))
             for index, one in enumerate(found)]
    return (*found, *(Wall(key, (name,), Place(*one.from_m), Place(*one.to_m), one.construction, one.height_m or storey.ceiling_m, own=True)
                      for name, one in built.own.items()))


def by_places(walls: Iterable[Wall]) -> dict[frozenset[str], list[int]]:
    """The walls between two places, by their indices."""
    found: dict[frozenset[str], list[int]] = {}
    for index, wall in enumerate(walls):
        found.setdefault(frozenset(wall.places), []).append(index)
    return found


def wall_of(opening: Opening, walls: Sequence[Wall], between: Mapping[frozenset[str], list[int]]) -> int | None:
    """The wall that an opening stands in, by its index: between its two places, and its whole width on it; None if there is none.

    `between` are the walls by their places.
    """
    if opening.at_m is None:
        return None
    best: tuple[float, int] | None = None
    for index in between.get(frozenset(opening.wall), ()):
        wall = walls[index]
        along, off = on_line(wall.start, wall.end, Place(*opening.at_m))
        half = (opening.width_m or 0) / 2
        if abs(off) <= OFF_LINE_M and -SAME_M <= along - half and along + half <= wall.length_m + SAME_M:
            best = min(best or (math.inf, 0), (abs(off), index))
    return best[1] if best else None


def holes_of(openings: Mapping[str, Opening], walls: list[Wall]) -> dict[int, list[Hole]]:
    """The openings of which place and size are known, by the wall they stand in."""
    found: dict[int, list[Hole]] = {}
    between = by_places(walls)
    for key, one in openings.items():
        index = wall_of(one, walls, between)
        if index is None or one.width_m is None or one.height_m is None:
            continue
        along, _ = on_line(walls[index].start, walls[index].end, Place(*one.at_m))
        bottom = one.sill_m or 0.0
        found.setdefault(index, []).append(Hole(key, along - one.width_m / 2, along + one.width_m / 2, bottom, bottom + one.height_m, one.leaf,
                                                inner=OUTSIDE not in one.wall and one.kind == "door"))
    return found


def on_line(start: Place, end: Place, point: Place) -> tuple[float, float]:
    """How far along a line a point lies, and how far off it, in metres."""
    length = math.dist(start, end)
    (dx, dy), (px, py) = ((end.x - start.x) / length, (end.y - start.y) / length), (point.x - start.x, point.y - start.y)
    return px * dx + py * dy, py * dx - px * dy


def _pieces(storey: Storey) -> Iterator[tuple[tuple[str, str], Place, Place]]:
    """Pieces of wall with the places on their sides. One between two rooms comes once, at the room that is written first."""
    edges = [(name, start, end) for name, room in storey.rooms.items() for start, end in ring(outline(room) or ()) if math.dist(start, end) > SAME_M]
    if not edges:
        return
    order = {name: index for index, name in enumerate(storey.rooms)}
    # Which edges lie so near that they can be one is asked once, for all together.
    lines = linestrings([(start, end) for _, start, end in edges])
    near: list[list[int]] = [[] for _ in edges]
    for index, other in STRtree(lines).query(lines, predicate="dwithin", distance=2 * SAME_M).T.tolist():
        near[index].append(other)
    for index, (name, start, end) in enumerate(edges):
        taken = []
        for other in sorted(near[index]):
            neighbour, *ends = edges[other]
            span = _shared(start, end, *ends) if neighbour != name else None
            if span:
                taken.append((*span, neighbour))
        at = 0.0
        for low, high, neighbour in sorted(taken):
            if low - at > SAME_M:
                yield (name, OUTSIDE), _along(start, end, at), _along(start, end, low)
            if order[name] < order[neighbour]:
                yield (name, neighbour), _along(start, end, low), _along(start, end, high)
            at = max(at, high)
        if math.dist(start, end) - at > SAME_M:
            yield (name, OUTSIDE), _along(start, end, at), end


def _shared(start: Place, end: Place, other_start: Place, other_end: Place) -> tuple[float, float] | None:
    """From where to where along an edge another one runs on the same line; None if it does not."""
    (one, off_one), (two, off_two) = on_line(start, end, other_start), on_line(start, end, other_end)
    # Off the line as seen from either: measures are rounded, and a short edge points past the ends of a long one.
    if min(max(abs(off_one), abs(off_two)), max(abs(on_line(other_start, other_end, at)[1]) for at in (start, end))) > SAME_M:
        return None
    low, high = max(0.0, min(one, two)), min(math.dist(start, end), max(one, two))
    return (low, high) if high - low > SAME_M else None


def _along(start: Place, end: Place, metres: float) -> Place:
    share = metres / math.dist(start, end)
    return Place(start.x + (end.x - start.x) * share, start.y + (end.y - start.y) * share)
