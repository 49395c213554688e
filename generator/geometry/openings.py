"""Where does an opening stand in the house: its ends in the plan, its edges in height, and which way is out?"""
import math
from collections.abc import Iterator
from dataclasses import dataclass

from shapely import LineString, Polygon

from generator.geometry.house import House
from generator.geometry.shapes import Place, holds

# How far off a wall one looks to see on which side of it a room lies.
BESIDE_M = 0.05


@dataclass(frozen=True)
class Stands:
    """An opening in its wall. Heights are above the floor of the main entrance; `out_deg` is the heading from the room through it:
    0 away from the front, 90 to the right."""

    name: str
    storey: str
    room: str
    start: Place
    end: Place
    bottom_m: float
    top_m: float
    out_deg: float

    @property
    def middle(self) -> Place:
        """Its middle in the plan."""
        return Place((self.start.x + self.end.x) / 2, (self.start.y + self.end.y) / 2)

    def inside(self, metres: float) -> Place:
        """The point so far inside of its middle."""
        heading = math.radians(self.out_deg)
        return Place(self.middle.x - math.sin(heading) * metres, self.middle.y - math.cos(heading) * metres)

    def heading_from(self, x: float, y: float) -> float:
        """How many degrees the way from a point to its middle lies off the heading through it: 0 straight on."""
        heading = math.degrees(math.atan2(self.middle.x - x, self.middle.y - y))
        return abs((heading - self.out_deg + 180) % 360 - 180)


def stands(house: House, name: str, room: str) -> Stands | None:
    """An opening of a room; None if the plan does not say where it stands and how large it is."""
    for one in house.walls:
        for hole in one.wall.holes:
            if hole.opening == name and room in house.rooms:
                share = [metres / one.wall.length_m for metres in (hole.start_m, hole.end_m)]
                start, end = (Place(one.wall.start.x + (one.wall.end.x - one.wall.start.x) * part,
                                    one.wall.start.y + (one.wall.end.y - one.wall.start.y) * part) for part in share)
                return Stands(name, one.wall.storey, room, start, end, one.bottom_m + hole.bottom_m, one.bottom_m + hole.top_m,
                              _out(house.rooms[room], start, end))
    return None


def along_walls(room: Polygon, off_m: float, every_m: float) -> Iterator[Place]:
    """Points along the inside of a room's walls, so far off them and so far apart."""
    inner = room.buffer(-off_m, join_style="mitre")
    for part in getattr(inner, "geoms", [inner]):
        if not part.is_empty:
            line = LineString(part.exterior.coords)
            for step in range(math.ceil(line.length / every_m)):
                at = line.interpolate(step * every_m)
                yield Place(at.x, at.y)


def inner_corners(room: Polygon, off_m: float) -> tuple[Place, ...]:
    """The corners of a room, so far off both walls."""
    inner = room.buffer(-off_m, join_style="mitre")
    return tuple(Place(*one) for part in getattr(inner, "geoms", [inner]) if not part.is_empty for one in part.exterior.coords[:-1])


def _out(room: Polygon, start: Place, end: Place) -> float:
    """The heading at right angles to an edge of a room that leads out of it."""
    along = math.degrees(math.atan2(end.x - start.x, end.y - start.y))
    for heading in ((along + 90) % 360, (along - 90) % 360):
        turned = math.radians(heading)
        if holds(room, (start.x + end.x) / 2 - math.sin(turned) * BESIDE_M, (start.y + end.y) / 2 - math.cos(turned) * BESIDE_M):
            return heading
    return (along + 90) % 360
