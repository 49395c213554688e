"""What a drawing needs of an area besides the area: its corners in turn, and a place within it for its name."""
from shapely import Polygon, maximum_inscribed_circle

from generator.geometry.shapes import SAME_M, Place


def corners(area: Polygon) -> tuple[Place, ...]:
    """The corners of an area in turn, each once."""
    return tuple(Place(*one) for one in area.exterior.coords[:-1])


def middle(area: Polygon) -> Place:
    """A place well within an area: its centre of gravity, or for one that lies round that, the middle of the largest circle in it."""
    centre = area.centroid
    if not area.contains(centre):
        centre = maximum_inscribed_circle(area, SAME_M).interpolate(0)
    return Place(centre.x, centre.y)
