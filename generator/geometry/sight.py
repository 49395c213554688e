"""What does a detector that looks see? The part of a level of its storey that straight lines from it reach, as an area of the plan.

The line from the detector down to what moves passes over low furniture and under lintels: so each wall and each thing throws a shadow
on the level, and what is left of the circle or sector is seen. All of this is exact; only the arc of the range is drawn by chords.

Where it is known how steeply the detector looks down and how far up, the level is seen between two circles round the spot below it: nearer
than depth / tan(lower edge) lies the dead zone under it, beyond depth / tan(upper edge) the level has sunk below its view.

Walls stop every line, and so do windows and all that is shut: heat does not pass glass. Doors between two rooms are taken as shut, for
nothing may hang on a door that was left open; with `doors_open` they are open, for whoever asks what else could come into view.
"""
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from shapely import LineString, Point, Polygon, unary_union
from shapely.geometry.base import BaseGeometry

from generator.geometry.house import House, StandingWall
from generator.geometry.shapes import SAME_M, Place, Spot, area, kept_inside
from generator.model.premises import Premises

# An arc is drawn by chords of so many degrees: with them an area is too small by 1 part in 80 000.
CHORD_DEG = 0.5
# Scraps that are left between shadows that should meet.
SCRAP_M2 = 1e-4
ALL_ROUND, STRAIGHT_DOWN = 360.0, 90.0
# Nearer than this no two heights of a plan are two.
SAME_HEIGHT_M = 1e-9


@dataclass(frozen=True)
class View:
    """From where a detector looks, how far, how wide from edge to edge, and where to: 0 away from the front, 90 to the right.

    `storey` is the one whose walls and things can stand in the way. The eye hangs off every wall, as spots of units do. The edges of the view
    count down from the level; None where they are not known, and then nothing is cut off by them.
    """

    storey: str
    at: Spot
    range_m: float
    angle_deg: float
    faces_deg: float
    down_from_deg: float | None = None
    down_to_deg: float | None = None


@dataclass(frozen=True)
class Region:
    """An area of the plan that is seen, in one piece or several."""

    _shape: BaseGeometry = field(repr=False)

    @property
    def area_m2(self) -> float:
        """Its area."""
        return self._shape.area

    def holds(self, x: float, y: float) -> bool:
        """Whether a point of the plan is seen."""
        return not self._shape.is_empty and self._shape.distance(Point(x, y)) <= SAME_HEIGHT_M

    def shared_m2(self, other: "Region | BaseGeometry") -> float:
        """What it has in common with another region, or with a room of the house."""
        return self._shape.intersection(_shape_of(other)).area

    def shared(self, other: "Region | BaseGeometry") -> "Region":
        """The part of it that lies in another region, or in a room of the house."""
        return Region(_without_scraps(self._shape.intersection(_shape_of(other))))

    def with_(self, other: "Region") -> "Region":
        """Both together."""
        return Region(self._shape.union(other._shape))

    def meets(self, line: tuple[Place, Place]) -> bool:
        """Whether any of a straight line comes to within a centimetre of it."""
        return not self._shape.is_empty and self._shape.distance(LineString(line)) <= SAME_M

    def touches(self, shape: BaseGeometry) -> bool:
        """Whether an area lies in it or against its edge."""
        return not self._shape.is_empty and self._shape.distance(shape) <= SAME_M

    def parts(self) -> tuple[tuple[tuple[Place, ...], ...], ...]:
        """Its pieces for a drawing: of each the outer ring of corners, then the rings of what is not seen within it."""
        whole = getattr(self._shape, "geoms", [self._shape])
        return tuple(tuple(tuple(Place(*corner) for corner in one.coords[:-1]) for one in (piece.exterior, *piece.interiors))
                     for piece in whole if piece.geom_type == "Polygon" and not piece.is_empty)


NOTHING = Region(Polygon())


def seen(house: House, premises: Premises, view: View, height_m: float, doors_open: bool = False) -> Region:
    """What a detector sees of the level at so many metres above the floor of its storey."""
    field_of_view = _sector(view, *reach_m(view, house.floor_m[view.storey] + height_m))
    return _less(field_of_view, _shade(house, premises, view, field_of_view, height_m, doors_open))


class Turning:
    """What is seen from places while a detector is turned there, every door shut: the shadows of a place are thrown once for all headings."""

    def __init__(self, house: House, premises: Premises):
        self._house, self._premises = house, premises
        self._shades: dict[tuple[str, Spot, float, float], BaseGeometry] = {}
        self._sectors: dict[tuple[View, float], Polygon] = {}

    def seen(self, view: View, height_m: float) -> Region:
        """As `seen`, for one heading of many."""
        key = (view.storey, view.at, view.range_m, height_m)
        if key not in self._shades:
            whole = replace(view, angle_deg=ALL_ROUND)
            self._shades[key] = _shade(self._house, self._premises, whole, _sector(whole, 0.0, whole.range_m), height_m, doors_open=False)
        if (view, height_m) not in self._sectors:
            self._sectors[view, height_m] = _sector(view, *reach_m(view, self._house.floor_m[view.storey] + height_m))
        return _less(self._sectors[view, height_m], self._shades[key])


def _shade(house: House, premises: Premises, view: View, within: Polygon, height_m: float, doors_open: bool) -> BaseGeometry:
    """All shadows of what stands within an area, at a height."""
    level = house.floor_m[view.storey] + height_m
    return unary_union([one for low, high, piece in _blocks(house, premises, view.storey, doors_open)
                        if piece.intersects(within) and (one := _shadow(view, level, low, high, piece)) and one.area])


def _less(field_of_view: Polygon, shade: BaseGeometry) -> Region:
    return Region(field_of_view if shade.is_empty else _without_scraps(field_of_view.difference(shade)))


def ahead_m(room: Polygon, at: Place, heading_deg: float) -> float:
    """How far it is straight ahead from a place of a room to its walls."""
    start = kept_inside(room, *at)
    far = math.hypot(room.bounds[2] - room.bounds[0], room.bounds[3] - room.bounds[1]) + 1
    met = LineString((start, _at(start, heading_deg, far))).intersection(room.exterior)
    return Point(start).distance(met)


def heading_deg(start: Place, end: Place) -> float:
    """Where the way from one place to another leads: 0 away from the front, 90 to the right."""
    return math.degrees(math.atan2(end.x - start.x, end.y - start.y)) % 360


def reach_m(view: View, level: float) -> tuple[float, float]:
    """From how far to how far from the spot below it a detector sees a level, by the edges of its view and its range; nothing if the first is
    not less than the second."""
    depth = view.at.z - level
    near, far = 0.0, view.range_m
    if view.down_to_deg is not None and view.down_to_deg < STRAIGHT_DOWN:
        near = max(near, depth / math.tan(math.radians(view.down_to_deg)))
    if view.down_from_deg is not None:
        slope = math.tan(math.radians(view.down_from_deg))
        if slope > 0:
            far = min(far, depth / slope)
        elif depth < 0:
            near = max(near, depth / slope if slope else math.inf)
    return near, far


def _sector(view: View, near_m: float, far_m: float) -> Polygon:
    """The floor between two distances within the angle."""
    if near_m >= far_m:
        return Polygon()
    chords = max(2, math.ceil(view.angle_deg / CHORD_DEG))
    first = view.faces_deg - view.angle_deg / 2
    outer, inner = ([_at(Place(view.at.x, view.at.y), first + view.angle_deg * step / chords, away) for step in range(chords + 1)]
                    for away in (far_m, near_m))
    if view.angle_deg >= ALL_ROUND:
        return Polygon(outer[:-1], [inner[:-1]] if near_m else None)
    return Polygon([*outer, *reversed(inner)] if near_m else [(view.at.x, view.at.y), *outer])


def _at(start: Place, heading_deg: float, metres: float) -> Place:
    heading = math.radians(heading_deg)
    return Place(start.x + math.sin(heading) * metres, start.y + math.cos(heading) * metres)


def _blocks(house: House, premises: Premises, storey: str, doors_open: bool) -> Iterator[tuple[float, float, BaseGeometry]]:
    """All that stands in the way on a storey: its lower and upper edge above the floor of the main entrance, and where it stands."""
    floor = house.floor_m[storey]
    for one in house.walls:
        if one.wall.storey == storey and one.wall.length_m:
            yield from _wall(one, doors_open)
    for thing in premises.storeys[storey].furniture.values():
        shape = area(thing)
        if shape:
            yield floor + (thing.base_m or 0.0), floor + thing.height_m, shape


def _wall(standing: StandingWall, doors_open: bool) -> Iterator[tuple[float, float, BaseGeometry]]:
    """A wall in pieces: whole where nothing is open, above and below an open door besides. Ends that nearly meet another wall do."""
    wall, top = standing.wall, math.inf if standing.top_m is None else standing.top_m
    past = 0.0 if wall.own else SAME_M
    at = -past
    for hole in sorted((one for one in wall.holes if one.inner and doors_open), key=lambda one: one.start_m):
        if hole.start_m > at:
            yield standing.bottom_m, top, _piece(standing, at, hole.start_m)
        gap = _piece(standing, max(hole.start_m, 0.0), min(hole.end_m, wall.length_m))
        if hole.bottom_m > 0:
            yield standing.bottom_m, standing.bottom_m + hole.bottom_m, gap
        if standing.bottom_m + hole.top_m < top:
            yield standing.bottom_m + hole.top_m, top, gap
        at = max(at, hole.end_m)
    if at < wall.length_m + past:
        yield standing.bottom_m, top, _piece(standing, at, wall.length_m + past)


def _piece(standing: StandingWall, start_m: float, end_m: float) -> BaseGeometry:
    wall = standing.wall
    dx, dy = (wall.end.x - wall.start.x) / wall.length_m, (wall.end.y - wall.start.y) / wall.length_m
    return LineString([(wall.start.x + dx * metres, wall.start.y + dy * metres) for metres in (start_m, end_m)])


def _shadow(view: View, level: float, low: float, high: float, piece: BaseGeometry) -> BaseGeometry | None:
    """The part of the level that one thing hides. A line that starts at the detector is as high as the thing from share `near` to
    `far` of its way down to the level: so the thing hides what lies 1 / `far` to 1 / `near` times as far as its own points.
    """
    between = _between(view.at.z, level, low, high)
    if between is None:
        return None
    near, far = between
    eye = (view.at.x, view.at.y)
    least = 1 / far
    # Beyond the range there is nothing to hide.
    most = max(least, min(1 / near if near > 0 else math.inf, 2 * view.range_m / max(piece.distance(Point(eye)), 1e-6)))
    corners = list((piece.exterior if piece.geom_type == "Polygon" else piece).coords)
    if piece.geom_type == "LineString" or piece.convex_hull.area - piece.area < SCRAP_M2:
        return _hull(eye, corners, (least, most))
    # Of a shape with a notch: itself at both ends, and what each of its edges sweeps over in between.
    ends = [Polygon([_away(eye, corner, factor) for corner in corners]) for factor in (least, most)]
    swept = [_hull(eye, edge, (least, most)) for edge in zip(corners, corners[1:])]
    return unary_union([one for one in (*ends, *swept) if one.geom_type == "Polygon"])


def _hull(eye: tuple[float, float], corners: Sequence[tuple[float, float]], factors: tuple[float, float]) -> BaseGeometry:
    """What holds all corners, as far away as they are by either factor."""
    return LineString([_away(eye, corner, factor) for corner in corners for factor in factors]).convex_hull


def _away(eye: tuple[float, float], corner: tuple[float, float], factor: float) -> tuple[float, float]:
    return eye[0] + (corner[0] - eye[0]) * factor, eye[1] + (corner[1] - eye[1]) * factor


def _between(eye: float, level: float, low: float, high: float) -> tuple[float, float] | None:
    """From which to which share of the way from one height to another the line is between two others; None if it never is."""
    if abs(eye - level) < SAME_HEIGHT_M:
        return (0.0, 1.0) if low <= eye <= high else None
    shares = sorted((edge - eye) / (level - eye) for edge in (low, high))
    near, far = max(0.0, shares[0]), min(1.0, shares[1])
    return (near, far) if far > 0 and near <= far else None


def _shape_of(other: "Region | BaseGeometry") -> BaseGeometry:
    return other._shape if isinstance(other, Region) else other


def _without_scraps(shape: BaseGeometry) -> BaseGeometry:
    return unary_union([one for one in getattr(shape, "geoms", [shape]) if one.geom_type == "Polygon" and one.area > SCRAP_M2] or [Polygon()])
