"""Where is whoever walks through the house seen by a detector, or at a door with a contact on it? As parts of the free floor, to be walked to."""
from collections.abc import Iterator

from shapely import LineString, Polygon, unary_union
from shapely.geometry.base import BaseGeometry

from generator.geometry.floors import Floor
from generator.geometry.routes import HAIR_M, Goal, Route
from generator.geometry.sight import SCRAP_M2, Region


def seen_floor(floor: Floor, *regions: Region) -> tuple[Goal, ...]:
    """The pieces of a storey's free floor on which somebody is seen in one of several regions."""
    shapes = [Polygon(outer, inner) for one in regions for outer, *inner in one.parts()]
    return tuple(_pieces(floor, unary_union(shapes))) if shapes else ()


def room_floor(floor: Floor, room: str) -> tuple[Goal, ...]:
    """The pieces of the free floor of a room."""
    return tuple(_pieces(floor, floor.rooms[room])) if room in floor.rooms else ()


def door_floor(floor: Floor, opening: str) -> tuple[Goal, ...]:
    """The free floor in a door; nothing for what nobody walks through."""
    return tuple(_pieces(floor, floor.passages[opening].strip)) if opening in floor.passages else ()


def leads_past(route: Route, goal: Goal) -> bool:
    """Whether a way leads over a piece of floor."""
    return any(one.storey == goal.storey and len(one.places) > 1 and LineString(one.places).distance(goal.region) <= HAIR_M for one in route.stretches)


def _pieces(floor: Floor, shape: BaseGeometry) -> Iterator[Goal]:
    found = floor.free.intersection(shape)
    for one in getattr(found, "geoms", [found]):
        if one.geom_type == "Polygon" and one.area > SCRAP_M2:
            yield Goal(floor.storey, one)
