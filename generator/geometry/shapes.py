"""A room, a thing or a roof as an area of the plan."""
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from shapely import LineString, Point, Polygon, STRtree, dwithin, unary_union
from shapely.geometry.base import BaseGeometry
from shapely.ops import nearest_points
from shapely.validation import explain_validity

from generator.model.premises import Shape

# Two lines of a plan that lie nearer are the same line: people measure to the centimetre.
SAME_M = 0.01
# How far from the line of a wall a unit's middle is taken to hang at least.
OFF_WALL_M = 0.02


class Place(NamedTuple):
    """A point of the plan, in metres."""

    x: float
    y: float


class Spot(NamedTuple):
    """A point in the house: in the plan, and its height above the floor of the main entrance, in metres."""

    x: float
    y: float
    z: float


def outline(shape: Shape) -> tuple[Place, ...] | None:
    """The corners in turn; None for what has no shape in the plan, or two."""
    if shape.outline_m is not None:
        return None if shape.corner_m or shape.size_m else tuple(Place(*one) for one in shape.outline_m)
    if shape.corner_m is None or shape.size_m is None:
        return None
    (x, y), (width, depth) = shape.corner_m, shape.size_m
    return Place(x, y), Place(x + width, y), Place(x + width, y + depth), Place(x, y + depth)


def area(shape: Shape) -> Polygon | None:
    """The area of a shape; None if it has none, or if its outline is no outline."""
    corners = outline(shape)
    if corners is None or fault(shape):
        return None
    return Polygon(corners)


def fault(shape: Shape) -> str:
    """What is wrong with a shape, "" if nothing is: its outline crosses itself, or holds no area."""
    corners = outline(shape)
    return "" if corners is None else fault_of(corners)


def fault_of(corners: Sequence[Place]) -> str:
    """What is wrong with an outline by its corners in turn, "" if nothing is."""
    drawn = Polygon(corners)
    if not drawn.is_valid:
        _, _, where = explain_validity(drawn).partition("[")
        spot = ", ".join(f"{float(part):g}" for part in where.rstrip("]").split()) if where else ""
        return f"its outline crosses or touches itself{f' at [{spot}]' if spot else ''}"
    return "" if drawn.area > SAME_M ** 2 else "it has no area"


def corners_of(shape: Polygon) -> tuple[Place, ...]:
    """The corners of an area in turn."""
    return tuple(Place(*one) for one in shape.exterior.coords[:-1])


def can_stand(shape: Polygon, width_m: float) -> bool:
    """Whether a circle so wide fits in an area."""
    return not shape.buffer(SAME_M - width_m / 2).is_empty


def apart_m(one: BaseGeometry, *ends: Place) -> float:
    """How far an area is from a point, or from the straight line between two."""
    return one.distance(Point(ends[0]) if len(ends) == 1 else LineString(ends))


def middle_of(within: Polygon) -> Place:
    """A point about the middle of an area, and surely in it."""
    found = within.representative_point()
    return Place(found.x, found.y)


def together(areas: Iterable[Polygon]) -> BaseGeometry:
    """Several areas as one."""
    return unary_union(list(areas))


def overlap_m2(one: BaseGeometry, other: BaseGeometry) -> float:
    """What two areas share beyond the breadth of a line, in m²."""
    return one.buffer(-SAME_M / 2, join_style="mitre").intersection(other.buffer(-SAME_M / 2, join_style="mitre")).area


def holds(within: BaseGeometry, x: float, y: float, by_m: float = 0.0) -> bool:
    """Whether a point lies in an area, or within so many metres of it."""
    return dwithin(within, Point(x, y), by_m + 1e-9)


def kept_inside(within: Polygon, x: float, y: float) -> Place:
    """The point itself; or, for one on the line of a wall or beyond it, the nearest that lies off the wall on the room's side."""
    room = within.buffer(-OFF_WALL_M, join_style="mitre")
    return _moved(room if not room.is_empty else within, x, y)


def kept_outside(within: BaseGeometry, x: float, y: float) -> Place:
    """The point itself; or, for one on a wall or within the house, the nearest that lies off the wall in the open."""
    house = within.buffer(OFF_WALL_M, join_style="mitre")
    return _moved(house.boundary, x, y) if house.contains(Point(x, y)) else Place(x, y)


def _moved(to: BaseGeometry, x: float, y: float) -> Place:
    found = nearest_points(to, Point(x, y))[0]
    return Place(found.x, found.y)


def ring(corners: Sequence[Place]) -> list[tuple[Place, Place]]:
    """The edges of an outline, in turn."""
    return [pair for pair in zip(corners, [*corners[1:], *corners[:1]]) if pair[0] != pair[1]]


def overlapping(areas: Mapping[str, Polygon]) -> list[tuple[str, str, float]]:
    """Pairs of areas that lie one over the other by more than the breadth of a line, in their order, with the m² they share."""
    names, drawn = list(areas), list(areas.values())
    tree = STRtree(drawn)
    found = [(index, int(other), one.intersection(drawn[other]).area) for index, one in enumerate(drawn) for other in sorted(tree.query(one))
             if other > index and overlap_m2(one, drawn[other]) > SAME_M ** 2]
    return [(names[one], names[other], shared) for one, other, shared in found]
