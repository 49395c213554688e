"""What stands in the straight line between two points of the house, in order, each with the angle at which it is met?"""
import math
from dataclasses import dataclass

from shapely import LineString, Point

from generator.geometry.house import House, Level, StandingWall, Thing
from generator.geometry.shapes import Spot
from generator.geometry.walls import Hole

# Two crossings of one construction that lie nearer are a corner that is met once, not two walls.
ONE_M = 0.001


@dataclass(frozen=True)
class Crossing:
    """One thing in the way.

    `kind` is wall, opening, floor, roof or metal; `at_m` how far along the way it is met; `angle_deg` the angle to its normal.
    `construction` is that of the wall, the floor or the opening's leaf, None where the plan does not say it. Of an opening `around`
    is the construction of its wall, and `inner` says that it is a door between two rooms.
    """

    kind: str
    name: str
    at_m: float
    angle_deg: float
    construction: str | None
    around: str | None = None
    inner: bool = False


@dataclass(frozen=True)
class Way:
    """The straight line between two points."""

    distance_m: float
    crossings: tuple[Crossing, ...]


def way(house: House, start: Spot, end: Spot) -> Way:
    """All that is met from one point to the other, the nearest to the first one first."""
    length = math.dist(start, end)
    if not length:
        return Way(0.0, ())
    line = LineString((start[:2], end[:2]))
    found = [one for wall in house.near(line, min(start.z, end.z), max(start.z, end.z)) if (one := _wall(wall, start, end, length))]
    found = [one for index, (one, heading) in enumerate(found)
             if not any(abs(one.at_m - other.at_m) < ONE_M and abs(math.sin(heading - turned)) < 1e-6 for other, turned in found[:index])]
    found += [one for level in house.levels if (one := _level(level, start, end, length))]
    found += [one for thing in house.metal_near(line) if (one := _metal(thing, line, start, end, length))]
    return Way(length, tuple(sorted(found, key=lambda one: (one.at_m, one.kind, one.name))))


def _wall(standing: StandingWall, start: Spot, end: Spot, length: float) -> tuple[Crossing, float] | None:
    """The crossing of a wall, or of an opening in it, with the heading of the wall; None if the way passes beside or above it."""
    wall = standing.wall
    (wx, wy), (dx, dy) = (wall.end.x - wall.start.x, wall.end.y - wall.start.y), (end.x - start.x, end.y - start.y)
    turn = dx * wy - dy * wx
    if not wall.length_m or abs(turn) <= 1e-12 * wall.length_m * length:
        return None
    px, py = wall.start.x - start.x, wall.start.y - start.y
    share, along = (px * wy - py * wx) / turn, (px * dy - py * dx) / turn * wall.length_m
    height = start.z + (end.z - start.z) * share
    if not 0 <= share <= 1 or not -1e-9 <= along <= wall.length_m + 1e-9:
        return None
    if height < standing.bottom_m or (standing.top_m is not None and height >= standing.top_m):
        return None
    angle = math.degrees(math.acos(min(1.0, abs(turn) / (wall.length_m * length))))
    hole = next((one for one in wall.holes if _through(one, along, height - standing.bottom_m)), None)
    at, heading = share * length, math.atan2(wy, wx)
    if hole:
        return Crossing("opening", hole.opening, at, angle, hole.leaf, wall.construction, hole.inner), heading
    return Crossing("wall", " and ".join(wall.places), at, angle, wall.construction), heading


def _through(hole: Hole, along: float, height: float) -> bool:
    return hole.start_m <= along <= hole.end_m and hole.bottom_m <= height <= hole.top_m


def _level(level: Level, start: Spot, end: Spot, length: float) -> Crossing | None:
    """The crossing of a floor or a roof: the two points lie on different sides of it, and it is there where the way meets it."""
    rise = end.z - start.z
    # What hangs at a ceiling is below it, what lies on a floor is above it.
    below = [at <= level.at_m if level.roof else at < level.at_m for at in (start.z, end.z)]
    if below[0] == below[1]:
        return None
    share = (level.at_m - start.z) / rise
    if not level.over.covers(Point(start.x + (end.x - start.x) * share, start.y + (end.y - start.y) * share)):
        return None
    angle = math.degrees(math.acos(min(1.0, abs(rise) / length)))
    return Crossing("roof" if level.roof else "floor", level.storey, share * length, angle, level.construction)


def _metal(thing: Thing, line: LineString, start: Spot, end: Spot, length: float) -> Crossing | None:
    """A thing of metal that the way goes into, above its lower and below its upper edge."""
    if not line.length:
        low, high = sorted((start.z, end.z))
        inside = thing.over.covers(Point(start.x, start.y)) and low < thing.top_m and high > thing.bottom_m
        return _thing(thing, abs((thing.top_m + thing.bottom_m) / 2 - start.z)) if inside else None
    for part in _parts(line.intersection(thing.over)):
        shares = sorted(math.dist(line.coords[0], corner) / line.length for corner in (part.coords[0], part.coords[-1]))
        low, high = sorted(start.z + (end.z - start.z) * share for share in shares)
        if shares[1] - shares[0] > 1e-9 and low < thing.top_m and high > thing.bottom_m:
            return _thing(thing, sum(shares) / 2 * length)
    return None


def _thing(thing: Thing, at_m: float) -> Crossing:
    return Crossing("metal", thing.name, at_m, 0.0, None)


def _parts(found) -> list[LineString]:
    return [one for one in getattr(found, "geoms", [found]) if one.geom_type == "LineString" and not one.is_empty]
