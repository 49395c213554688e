"""Where can a person walk? Each storey's rooms less what stands in them, with the doors between them.

The free floor is where a person's middle can be: half a person's width off walls and things. So a way through it is one that
a person fits through. Rooms reach to the middle of their walls, so ways past a corner are short by half a wall.
"""
import math
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass

from shapely import LineString, Point, Polygon, unary_union
from shapely.geometry.base import BaseGeometry
from shapely.ops import nearest_points

from generator.geometry.house import House
from generator.geometry.shapes import Place, area, holds
from generator.geometry.walls import Hole, Wall, on_line
from generator.model.premises import OUTSIDE, Furniture, Premises, Stairs, Storey
from generator.tables.body import HEAD_M, WIDTH_M

HALF_M = WIDTH_M / 2
WALKED = ("door", "garage-door")
# Strips of floor reach so far into each other that they are one.
LAP_M = 0.001


@dataclass(frozen=True)
class Passage:
    """A door as one walks through it: between which places, from jamb to jamb, and the strip in which a person's middle passes.

    `before` is where somebody stands in the open in front of it; None for a door between two rooms.
    """

    opening: str
    places: tuple[str, ...]
    start: Place
    end: Place
    strip: Polygon
    before: Place | None

    @property
    def middle(self) -> Place:
        """Its middle, on the line of its wall."""
        return Place((self.start.x + self.end.x) / 2, (self.start.y + self.end.y) / 2)


@dataclass(frozen=True)
class Floor:
    """The free floor of a storey. `closed` are doors that nobody can be led through, with the reason; `blocks` is the floor that each
    thing and each wall that stands by itself takes, by its name."""

    storey: str
    free: BaseGeometry
    rooms: Mapping[str, Polygon]
    passages: Mapping[str, Passage]
    closed: Mapping[str, str]
    blocks: Mapping[str, BaseGeometry]

    def nearest(self, room: str, at: Place) -> Place | None:
        """The free place of a room that is nearest to a place; None if nobody can stand in it."""
        inside = self.free.intersection(self.rooms[room]) if room in self.rooms else None
        if inside is None or inside.is_empty:
            return None
        found = nearest_points(inside, Point(at))[0]
        return Place(found.x, found.y)

    def blocked(self, places: Sequence[Place]) -> tuple[str, ...]:
        """The things that stand in a way, by their names."""
        line = LineString(places) if len(places) > 1 else Point(places[0])
        return tuple(name for name, one in self.blocks.items() if one.intersection(line).length > LAP_M)

    def beside(self, at: Place, within_m: float) -> tuple[str, ...]:
        """The things that take floor so near to a place."""
        return tuple(name for name, one in self.blocks.items() if one.distance(Point(at)) < within_m)


def floor_of(house: House, premises: Premises, key: str, shut: Collection[str] = ()) -> Floor:
    """The free floor of a storey; doors that are named in `shut` are taken as wall, things and walls that stand by themselves as
    not there."""
    storey = premises.storeys[key]
    rooms = {name: house.rooms[name] for name in storey.rooms if name in house.rooms}
    walls = [one.wall for one in house.walls if one.wall.storey == key]
    holes = [(wall, hole) for wall in walls for hole in wall.holes if storey.openings[hole.opening].kind in WALKED and hole.opening not in shut]
    passages = {hole.opening: _passage(rooms, wall, hole) for wall, hole in holes if hole.end_m - hole.start_m >= WIDTH_M - 1e-9}
    own = ((one.places[0], LineString((one.start, one.end)).buffer(HALF_M, cap_style="square", join_style="mitre")) for one in walls if one.own)
    blocks: dict[str, BaseGeometry] = {}
    for name, one in (*_blocks(house, premises, key, rooms), *own):
        if name not in shut and not one.is_empty:
            blocks[name] = blocks[name].union(one) if name in blocks else one
    floor = unary_union([*(one.buffer(-HALF_M, join_style="mitre") for one in rooms.values()), *(one.strip for one in passages.values())])
    free = floor.difference(unary_union(list(blocks.values()))) if blocks else floor
    return Floor(key, free, rooms, passages, dict(_closed(storey, holes, shut)), blocks)


def _closed(storey: Storey, holes: list[tuple[Wall, Hole]], shut: Collection[str]) -> Iterator[tuple[str, str]]:
    """Doors that are there and are no way, with the reason."""
    measured = {hole.opening: hole.end_m - hole.start_m for _, hole in holes}
    for name, one in storey.openings.items():
        if one.kind not in WALKED or name in shut:
            continue
        if name not in measured:
            lost = [key for key in ("at_m", "width_m", "height_m") if getattr(one, key) is None]
            yield name, f"{name} gives no {' and no '.join(lost)}" if lost else f"{name} stands in no wall of the plan"
        elif measured[name] < WIDTH_M - 1e-9:
            yield name, f"{name} is {measured[name]:.2f} m wide, too narrow for a person"


def _passage(rooms: Mapping[str, Polygon], wall: Wall, hole: Hole) -> Passage:
    ux, uy = (wall.end.x - wall.start.x) / wall.length_m, (wall.end.y - wall.start.y) / wall.length_m

    def at(along: float, off: float) -> Place:
        return Place(wall.start.x + ux * along - uy * off, wall.start.y + uy * along + ux * off)

    middle, half = (hole.start_m + hole.end_m) / 2, max((hole.end_m - hole.start_m) / 2 - HALF_M, LAP_M)
    deep = HALF_M + LAP_M
    strip = Polygon([at(middle - half, -deep), at(middle + half, -deep), at(middle + half, deep), at(middle - half, deep)])
    before = None
    if wall.outer:
        inner = rooms[next(one for one in wall.places if one != OUTSIDE)]
        side = -1 if inner.distance(Point(at(middle, HALF_M))) < inner.distance(Point(at(middle, -HALF_M))) else 1
        before = at(middle, side * HALF_M)
    return Passage(hole.opening, wall.places, at(hole.start_m, 0), at(hole.end_m, 0), strip, before)


def _blocks(house: House, premises: Premises, key: str, rooms: Mapping[str, Polygon]) -> Iterator[tuple[str, BaseGeometry]]:
    """The floor that is taken from a person's middle by each thing and each flight of stairs, within its room."""
    for name, thing in premises.storeys[key].furniture.items():
        shape = area(thing)
        if shape is not None and thing.room in rooms and _stands(thing):
            yield name, _grown(shape, rooms[thing.room])
    for name, stairs in premises.stairs.items():
        rise = rise_m(house, premises, stairs)
        if stairs.foot.at_m and stairs.head.at_m and stairs.width_m and rise and stairs.foot.at_m != stairs.head.at_m:
            foot, head, share = Place(*stairs.foot.at_m), Place(*stairs.head.at_m), min(1.0, HEAD_M / rise)
            # Below, where there is no headroom under it; above, where the floor must be open for whoever comes up.
            for end, other, room in ((foot, head, stairs.foot.room), (head, foot, stairs.head.room)):
                if room in rooms:
                    part = LineString((end, _between(end, other, share))).buffer(stairs.width_m / 2, cap_style="flat")
                    yield name, _grown(part, rooms[room])


def _stands(thing: Furniture) -> bool:
    return (thing.base_m or 0.0) < HEAD_M


def _grown(shape: Polygon, room: Polygon) -> BaseGeometry:
    return shape.buffer(HALF_M, join_style="mitre").intersection(room)


def _between(start: Place, end: Place, share: float) -> Place:
    return Place(start.x + (end.x - start.x) * share, start.y + (end.y - start.y) * share)


def rise_m(house: House, premises: Premises, stairs: Stairs) -> float | None:
    """How high a flight leads, from its storeys' floors; None if one of its rooms is not there."""
    storey_of = {room: key for key, storey in premises.storeys.items() for room in storey.rooms}
    foot, head = storey_of.get(stairs.foot.room), storey_of.get(stairs.head.room)
    return house.floor_m[head] - house.floor_m[foot] if foot and head else None


def wall_faces(house: House, floor: Floor, every_m: float) -> Iterator[tuple[str, Place]]:
    """Places on the faces of a storey's walls where something could hang, so far apart, none in an opening: the room and the place."""
    for wall in (one.wall for one in house.walls if one.wall.storey == floor.storey and not one.wall.own):
        ux, uy = (wall.end.x - wall.start.x) / wall.length_m, (wall.end.y - wall.start.y) / wall.length_m
        steps = math.floor(wall.length_m / every_m)
        for step in range(1, steps):
            along = step * every_m
            if any(hole.start_m - every_m < along < hole.end_m + every_m for hole in wall.holes):
                continue
            for side in (-1, 1):
                at = Place(wall.start.x + ux * along - uy * side * 0.02, wall.start.y + uy * along + ux * side * 0.02)
                for room in wall.places:
                    if room in floor.rooms and holds(floor.rooms[room], *at):
                        yield room, at
