"""The whole house in three dimensions: walls, floors, roofs and things, each where it stands and how high."""
import math
from collections.abc import Mapping
from dataclasses import dataclass, field

from shapely import LineString, Polygon, STRtree, prepare
from shapely.geometry.base import BaseGeometry

from generator.geometry.shapes import OFF_WALL_M, Place, Spot, area, holds, kept_inside, kept_outside, overlap_m2, together
from generator.geometry.walls import Wall, walls_of
from generator.model.premises import OUTSIDE, Premises, Storey

HAIR_M = 1e-6


@dataclass(frozen=True)
class StandingWall:
    """A wall with its heights above the floor of the main entrance; `top_m` is None if nothing ends it."""

    wall: Wall
    bottom_m: float
    top_m: float | None


@dataclass(frozen=True)
class Level:
    """A floor that rooms stand on, or the roof over rooms with nothing above them."""

    storey: str
    at_m: float
    over: BaseGeometry
    construction: str | None
    roof: bool = False


@dataclass(frozen=True)
class Thing:
    """A large thing of metal: what it stands on and the heights of its edges."""

    name: str
    room: str
    over: Polygon
    bottom_m: float
    top_m: float


@dataclass(frozen=True)
class House:
    """The plan of a house; `lacks` says why nothing can be measured in it, "" if it can.

    `rooms` are the areas of rooms, `floor_m` and `ceiling_m` heights by storey: of the floor above that of the main entrance, of
    the ceiling above its own floor.
    """

    walls: tuple[StandingWall, ...]
    levels: tuple[Level, ...]
    metal: tuple[Thing, ...]
    rooms: Mapping[str, Polygon]
    floor_m: Mapping[str, float]
    ceiling_m: Mapping[str, float]
    lacks: str
    _tree: STRtree = field(repr=False, compare=False)
    _things: STRtree = field(repr=False, compare=False)
    _storeys: Mapping[str, str] = field(default_factory=dict, repr=False, compare=False)

    def near(self, line: LineString, lowest_m: float = -math.inf, highest_m: float = math.inf) -> list[StandingWall]:
        """The walls that a line between two heights can cross: those that it comes to within a hair, in the order of the plan."""
        found = (self.walls[index] for index in sorted(self._tree.query(line, predicate="dwithin", distance=HAIR_M).tolist()))
        return [one for one in found if one.bottom_m <= highest_m + HAIR_M and (one.top_m is None or one.top_m > lowest_m - HAIR_M)]

    def metal_near(self, line: LineString) -> list[Thing]:
        """The things of metal that stand about where a line runs, in the order of the plan."""
        return [self.metal[index] for index in sorted(self._things.query(line).tolist())]

    def spot(self, room: str, at_m: Place, height_m: float, storey: str | None = None) -> Spot:
        """A point of a room, kept off its walls and its ceiling on its own side; for the open air, of the ground or of a storey."""
        if room != OUTSIDE:
            at = self.storey_of(room)
            below = min(height_m, self.ceiling_m[at] - OFF_WALL_M) if at in self.ceiling_m else height_m
            return Spot(*kept_inside(self.rooms[room], *at_m), self.floor_m[at] + below)
        level = self.floor_m[storey] if storey else 0.0
        around = together(one for key, one in self.rooms.items() if storey is None or self.storey_of(key) == storey)
        return Spot(*kept_outside(around, *at_m), level + height_m)

    def storey_of(self, room: str) -> str:
        """The key of a room's storey."""
        return self._storeys[room]


def floor_heights(premises: Premises) -> dict[str, float | None]:
    """Height of each storey's floor above that of the main entrance, which is the first's; None where nothing says it."""
    first = next(iter(premises.storeys))
    return {key: 0.0 if storey.level_m is None and key == first else storey.level_m for key, storey in premises.storeys.items()}


def house_of(premises: Premises) -> House:
    """The house of a plan; without any room in the plan, one that lacks it."""
    heights = floor_heights(premises)
    drawn = {key: {name: found for name, room in storey.rooms.items() if (found := area(room))} for key, storey in premises.storeys.items()}
    rooms = {name: one for storey in drawn.values() for name, one in storey.items()}
    lacks = "no room has a shape in the plan" if not rooms else ""
    for key, height in heights.items():
        if height is None and drawn[key]:
            lacks = lacks or f"premises.storeys.{key} gives no level_m"
    known = {key: height or 0.0 for key, height in heights.items()}
    over = {key: together(found.values()) for key, found in drawn.items() if found}
    for shape in over.values():
        prepare(shape)
    walls = [_standing(wall, storey, known, over) for key, storey in premises.storeys.items() for wall in walls_of(key, storey)]
    metal = [Thing(name, one.room, shape, known[key] + (one.base_m or 0.0), known[key] + one.height_m)
             for key, storey in premises.storeys.items() for name, one in storey.furniture.items() if one.metal and (shape := area(one))]
    return House(tuple(walls), _levels(premises, known, over), tuple(metal), rooms, known,
                 {key: storey.ceiling_m for key, storey in premises.storeys.items() if storey.ceiling_m is not None}, lacks,
                 STRtree([LineString((one.wall.start, one.wall.end)) for one in walls]), STRtree([one.over for one in metal]),
                 {name: key for key, storey in premises.storeys.items() for name in storey.rooms})


def _standing(wall: Wall, storey: Storey, known: Mapping[str, float], over: Mapping[str, BaseGeometry]) -> StandingWall:
    """An outside wall goes up to the floor above it, if there is one; others end at the ceiling."""
    bottom = known[wall.storey]
    top = None if wall.height_m is None else bottom + wall.height_m
    if wall.outer:
        middle = ((wall.start.x + wall.end.x) / 2, (wall.start.y + wall.end.y) / 2)
        above = [known[key] for key, shape in over.items() if known[key] > bottom and holds(shape, *middle)]
        top = max(min(above), top or bottom) if above else top
    return StandingWall(wall, bottom, top)


def _levels(premises: Premises, known: Mapping[str, float], over: Mapping[str, BaseGeometry]) -> tuple[Level, ...]:
    found = []
    for key, shape in over.items():
        storey = premises.storeys[key]
        found.append(Level(key, known[key], shape, storey.floor))
        if storey.ceiling_m is not None:
            above = [other for name, other in over.items() if known[name] > known[key] and overlap_m2(shape, other) > 0]
            bare = shape.difference(together(above)) if above else shape
            if not bare.is_empty:
                prepare(bare)
                found.append(Level(key, known[key] + storey.ceiling_m, bare, None, roof=True))
    return tuple(found)
