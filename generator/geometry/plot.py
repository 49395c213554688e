"""The plot: the ground inside the boundary, where the boundary is nearest, and what stands in the way there."""
from collections.abc import Sequence

from shapely import LineString, Point, Polygon
from shapely.ops import nearest_points

from generator.geometry.house import House
from generator.geometry.shapes import Place, Spot


def beyond_m(boundary: Sequence[Place], shape: Polygon) -> float:
    """How far the farthest corner of an area lies outside a boundary, in metres; 0 if none does."""
    plot = Polygon(boundary)
    return max(plot.distance(Point(corner)) for corner in shape.exterior.coords)


def outside_m(boundary: Sequence[Place], at: Place) -> float:
    """How far a place lies outside a boundary, in metres; 0 for one within."""
    return Polygon(boundary).distance(Point(at))


def area_m2(boundary: Sequence[Place]) -> float:
    """The area of the plot, in m²."""
    return Polygon(boundary).area


def nearest_on(boundary: Sequence[Place], at: Place) -> Place:
    """The point of a boundary that is nearest to a place; of several as near, one of them."""
    found = nearest_points(Polygon(boundary).exterior, Point(at))[0]
    return Place(found.x, found.y)


def walls_between(house: House, start: Spot, end: Place) -> int:
    """How many walls of the house a level line from a spot to a place meets."""
    return len(house.near(LineString([start[:2], end]), start.z, start.z)) if start[:2] != end else 0
