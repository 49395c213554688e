"""Along which straight lines can a unit hang? Along walls at a height, round a frame, across a room; clear of openings and of things."""
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from shapely import LineString, Polygon, box
from shapely.geometry.base import BaseGeometry

from generator.geometry.house import House
from generator.geometry.shapes import OFF_WALL_M, Place, Spot, area, kept_inside, kept_outside, middle_of, together
from generator.geometry.walls import Wall
from generator.model.premises import OUTSIDE, Premises

# A unit on a frame hangs so far within the edges of its opening.
IN_FRAME_M = 0.05
# Lines across a room for a unit under the ceiling lie so far apart.
LINES_M = 0.25
# An opening is kept clear on both sides of its wall's line; a unit's middle stays half a unit off its edges: a box over a reveal has no wall.
BESIDE_M, HALF_UNIT_M = 0.1, 0.15


@dataclass(frozen=True)
class Stretch:
    """A straight line of spots in a room, or `outside`; `storey` is its key."""

    storey: str
    room: str
    start: Spot
    end: Spot


@dataclass(frozen=True)
class Blocked:
    """A thing in which, or nearer to which than it may, no unit hangs: its floor area and the heights of its edges."""

    over: BaseGeometry
    bottom_m: float
    top_m: float


def blocked_by(premises: Premises, house: House, clear_m: float) -> tuple[Blocked, ...]:
    """Every large thing of a plan; those of metal with so much room round them."""
    found = []
    for key, storey in premises.storeys.items():
        for one in storey.furniture.values():
            shape, far = area(one), clear_m if one.metal else 0.0
            if shape is not None:
                floor = house.floor_m[key]
                found.append(Blocked(shape.buffer(far) if far else shape, floor + (one.base_m or 0.0) - far, floor + one.height_m + far))
    return tuple(found)


def along_walls(house: House, storey: str, room: str, height_m: float, blocked: Iterable[Blocked] = ()) -> Iterator[Stretch]:
    """Along the walls of a room, as near to them as units hang; `height_m` is over the floor."""
    at = house.spot(room, middle_of(house.rooms[room]), height_m).z
    inner = house.rooms[room].buffer(-OFF_WALL_M, join_style="mitre")
    yield from _clear(house, storey, room, _edges(inner), at, blocked)


def outside_walls(house: House, storeys: Iterable[str], at_m: float) -> Iterator[Stretch]:
    """Along the outside walls of the storeys that are there at a height over the main entrance's floor."""
    whole = together(house.rooms.values())
    for storey in storeys:
        top = house.floor_m[storey] + house.ceiling_m.get(storey, 0.0)
        own = [one for name, one in house.rooms.items() if house.storey_of(name) == storey]
        if own and house.floor_m[storey] <= at_m < top:
            for start, end in _edges(together(own).buffer(OFF_WALL_M, join_style="mitre")):
                # Over or under rooms of another storey there is no open air in the plan.
                for piece in _lines(LineString((start, end)).difference(whole.buffer(OFF_WALL_M / 2, join_style="mitre"))):
                    ends = (Place(*piece.coords[0]), Place(*piece.coords[-1]))
                    yield from _clear(house, storey, OUTSIDE, [ends], at_m, ())


def round_frame(house: House, opening: str, room: str) -> Iterator[Stretch]:
    """Up the two sides of an opening and along its head, on the side of a room."""
    for standing in house.walls:
        for hole in standing.wall.holes:
            if hole.opening == opening:
                floor, (left, right) = standing.bottom_m, (hole.start_m + IN_FRAME_M, hole.end_m - IN_FRAME_M)
                low, high = floor + hole.bottom_m + IN_FRAME_M, floor + hole.top_m - IN_FRAME_M
                corners = [Spot(*_on_side(house, standing.wall, along, room), at) for along, at in ((left, low), (left, high), (right, high), (right, low))]
                for start, end in zip(corners, corners[1:]):
                    yield Stretch(standing.wall.storey, room, start, end)


def across(house: House, storey: str, room: str, spot: Spot, blocked: Iterable[Blocked] = ()) -> Iterator[Stretch]:
    """Lines both ways across a room at the height of a spot, through it and beside it."""
    inner = house.rooms[room].buffer(-OFF_WALL_M, join_style="mitre")
    left, front, right, back = inner.bounds
    lines = [((left, spot.y + off), (right, spot.y + off)) for off in _offsets(front - spot.y, back - spot.y)]
    lines += [((spot.x + off, front), (spot.x + off, back)) for off in _offsets(left - spot.x, right - spot.x)]
    for line in lines:
        for piece in _lines(LineString(line).intersection(inner)):
            yield from _clear(house, storey, room, [(Place(*piece.coords[0]), Place(*piece.coords[-1]))], spot.z, blocked)


def _offsets(low: float, high: float) -> list[float]:
    first, last = -int(-low / LINES_M), int(high / LINES_M)
    return [LINES_M * number for number in range(first, last + 1)]


def _edges(shape: BaseGeometry) -> list[tuple[Place, Place]]:
    """The edges of an area's outlines, each outline from the corner that comes first."""
    found = []
    for one in getattr(shape, "geoms", [shape]):
        for outline in ([one.exterior, *one.interiors] if isinstance(one, Polygon) and not one.is_empty else []):
            corners = [Place(*corner) for corner in outline.coords[:-1]]
            first = corners.index(min(corners))
            corners = [*corners[first:], *corners[:first]]
            found += list(zip(corners, [*corners[1:], corners[0]]))
    return found


def _clear(house: House, storey: str, room: str, edges: Iterable[tuple[Place, Place]], at_m: float, blocked: Iterable[Blocked]) -> Iterator[Stretch]:
    """What of some lines at a height no opening and no thing takes."""
    shut = [one.over for one in blocked if one.bottom_m <= at_m <= one.top_m]
    shut += [_beside(standing.wall, hole.start_m - HALF_UNIT_M, hole.end_m + HALF_UNIT_M) for standing in house.walls if standing.wall.storey == storey and room in standing.wall.places
             for hole in standing.wall.holes if hole.bottom_m - HALF_UNIT_M <= at_m - standing.bottom_m <= hole.top_m + HALF_UNIT_M]
    gone = together(shut) if shut else None
    for start, end in edges:
        line = LineString((start, end))
        for piece in _lines(line.difference(gone) if gone else line):
            yield Stretch(storey, room, Spot(*piece.coords[0], at_m), Spot(*piece.coords[-1], at_m))


def _beside(wall: Wall, start_m: float, end_m: float) -> Polygon:
    return LineString((_at(wall, start_m), _at(wall, end_m))).buffer(BESIDE_M, cap_style="flat")


def _at(wall: Wall, along_m: float) -> Place:
    share = along_m / wall.length_m
    return Place(wall.start.x + (wall.end.x - wall.start.x) * share, wall.start.y + (wall.end.y - wall.start.y) * share)


def _on_side(house: House, wall: Wall, along_m: float, room: str) -> Place:
    at = _at(wall, along_m)
    return kept_outside(together(house.rooms.values()), *at) if room == OUTSIDE else kept_inside(house.rooms[room], *at)


def _lines(found: BaseGeometry) -> list[LineString]:
    """The pieces of what is left of a line, from its start on."""
    return [one for one in getattr(found, "geoms", [found]) if one.geom_type == "LineString" and not one.is_empty]
