"""By which walls does somebody find a spot with a tape? The wall it hangs on and a corner, or the two walls that are nearest."""
import math
from collections.abc import Sequence
from dataclasses import dataclass

from generator.geometry.house import House
from generator.geometry.shapes import Place, holds, ring, together
from generator.geometry.walls import on_line
from generator.model.premises import OUTSIDE

# What hangs no farther from the line of a wall hangs on it; walls are thick, and their lines lie in their middle.
ON_WALL_M = 0.15
BEYOND_M = 0.03
SIDES = ("right", "back", "left", "front")


@dataclass(frozen=True)
class Side:
    """A wall of a room: the place behind it, and the side of the house that it looks to, as seen by who faces the front."""

    behind: str
    side: str


@dataclass(frozen=True)
class Found:
    """`on` is the wall that a spot hangs on, None if it hangs on none; `off` are one or two walls with the metres from each.

    On a wall the metres count along it from the corner with the other; else straight from each wall.
    """

    on: Side | None
    off: tuple[tuple[Side, float], ...]


def beside(house: House, storey: str, room: str, at: Place) -> Found:
    """The walls by which a spot is found: of its room, or from outside those of its storey."""
    if room == OUTSIDE:
        shape = together(one for name, one in house.rooms.items() if house.storey_of(name) == storey)
        shape = min(getattr(shape, "geoms", [shape]), key=lambda one: math.dist(at, _near(_edges(one.exterior.coords), at)[1]))
    else:
        shape = house.rooms[room]
    edges = _edges(shape.exterior.coords)
    index, foot = _near(edges, at)
    if math.dist(foot, at) <= ON_WALL_M:
        return _on(house, storey, room, edges, index, at)
    order = sorted(range(len(edges)), key=lambda one: (math.dist(at, _foot(edges[one], at)), one))
    other = next((one for one in order if abs(_turn(edges[one], edges[index])) > 0.5), None)
    return Found(None, tuple((_side(house, storey, room, edges[one], _foot(edges[one], at)), math.dist(at, _foot(edges[one], at)))
                             for one in (index, other) if one is not None))


def _on(house: House, storey: str, room: str, edges: Sequence[tuple[Place, Place]], index: int, at: Place) -> Found:
    start, end = edges[index]
    along, length = on_line(start, end, at)[0], math.dist(start, end)
    nearer = along <= length - along
    other = edges[index - 1] if nearer else edges[(index + 1) % len(edges)]
    corner, metres = (start, along) if nearer else (end, length - along)
    on = _side(house, storey, room, edges[index], _foot(edges[index], at))
    # From outside a corner is told by where it lies along the wall.
    off = Side(OUTSIDE, _facing(corner.x - at.x, corner.y - at.y)) if room == OUTSIDE else _side(house, storey, room, other, corner)
    return Found(on, ((off, max(0.0, metres)),))


def _edges(coords) -> list[tuple[Place, Place]]:
    """The edges of an outline without corners that are none."""
    corners = [Place(*one) for one in coords[:-1]]
    kept = [one for before, one, after in zip([corners[-1], *corners], corners, [*corners[1:], corners[0]]) if abs(_turn((before, one), (one, after))) > 0.02]
    return ring(kept)


def _turn(one: tuple[Place, Place], other: tuple[Place, Place]) -> float:
    """The sine of the angle between two edges."""
    (ax, ay), (bx, by) = ((end.x - start.x, end.y - start.y) for start, end in (one, other))
    size = math.hypot(ax, ay) * math.hypot(bx, by)
    return (ax * by - ay * bx) / size if size else 0.0


def _near(edges: Sequence[tuple[Place, Place]], at: Place) -> tuple[int, Place]:
    index = min(range(len(edges)), key=lambda one: (math.dist(at, _foot(edges[one], at)), one))
    return index, _foot(edges[index], at)


def _foot(edge: tuple[Place, Place], at: Place) -> Place:
    """The point of an edge that is nearest."""
    (start, end), length = edge, math.dist(*edge)
    share = min(1.0, max(0.0, on_line(start, end, at)[0] / length))
    return Place(start.x + (end.x - start.x) * share, start.y + (end.y - start.y) * share)


def _side(house: House, storey: str, room: str, edge: tuple[Place, Place], foot: Place) -> Side:
    """The wall of a room at a point of its outline: of those along this edge the nearest."""
    known = [one.wall for one in house.walls if one.wall.storey == storey and not one.wall.own and (room in one.wall.places if room != OUTSIDE else one.wall.outer)
             and abs(_turn((one.wall.start, one.wall.end), edge)) < 0.02]
    wall = min(known, key=lambda one: math.dist(foot, _foot((one.start, one.end), foot)), default=None)
    behind = next((one for one in wall.places if one != room), OUTSIDE) if wall else OUTSIDE
    (sx, sy), (ex, ey) = edge
    # Outlines run against the clock or with it; what is outside of one is found a little beyond the edge.
    normal = (ey - sy, sx - ex)
    size, inner = math.hypot(*normal), house.rooms.get(room)
    shape = inner if inner is not None else together(one for name, one in house.rooms.items() if house.storey_of(name) == storey)
    if holds(shape, foot.x + normal[0] / size * BEYOND_M, foot.y + normal[1] / size * BEYOND_M):
        normal = (-normal[0], -normal[1])
    return Side(behind, _facing(*normal))


def _facing(x: float, y: float) -> str:
    return SIDES[round(math.atan2(y, x) / (math.pi / 2)) % 4]
