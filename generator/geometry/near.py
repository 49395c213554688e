"""How far is a point of the house from a thing that stands there, or from a wall?

Straight, in three dimensions, to the nearest point of it; what stands between counts for nothing.
"""
import math
from collections.abc import Iterator

from shapely import LineString, Point
from shapely.geometry.base import BaseGeometry

from generator.geometry.house import House, StandingWall
from generator.geometry.shapes import Spot, area
from generator.model.premises import Furniture, Premises


def things_near(premises: Premises, house: House, spot: Spot) -> Iterator[tuple[str, str, Furniture, float]]:
    """Every large thing of which the plan says where it stands: its storey, its name, itself, and how far (m) it is from the point."""
    for key, storey in premises.storeys.items():
        for name, thing in storey.furniture.items():
            over = area(thing)
            if over is not None:
                bottom = house.floor_m[key]
                yield key, name, thing, _apart(over, bottom + (thing.base_m or 0.0), bottom + thing.height_m, spot)


def walls_near(house: House, spot: Spot) -> Iterator[tuple[StandingWall, float]]:
    """Every wall, and how far (m) the point is from its line; one that nothing ends goes up to the sky."""
    for one in house.walls:
        yield one, _apart(LineString((one.wall.start, one.wall.end)), one.bottom_m, math.inf if one.top_m is None else one.top_m, spot)


def _apart(over: BaseGeometry, bottom_m: float, top_m: float, spot: Spot) -> float:
    return math.hypot(over.distance(Point(spot.x, spot.y)), max(bottom_m - spot.z, spot.z - top_m, 0.0))
