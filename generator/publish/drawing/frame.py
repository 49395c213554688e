"""From metres of the plan to the measure of the drawing: the front at the foot, to the right as the plan goes.

Drawn for a phone like the other pictures, 340 wide: a letter of 12 is read at 360 pixels.
"""
from collections.abc import Iterable
from dataclasses import dataclass

from generator.pages.drawing.views import At, DrawnSheet

WIDTH, SIDE, EDGE = 340.0, 24.0, 30.0
# A plan that is deep and narrow is not drawn higher than this.
HIGHEST = 620.0
# Lengths that a scale bar may have, in metres, and how long it may be drawn.
BARS, BAR = (1, 2, 5, 10, 20, 50, 100, 200, 500), 110.0


@dataclass(frozen=True)
class Frame:
    """Where the plan lies on the drawing: `scale` is the drawing's measure for a metre; `height` is that of the plan with its edges."""

    scale: float
    left_m: float
    back_m: float
    inset: float
    height: float

    def at(self, place: At) -> At:
        """A place of the plan on the drawing."""
        return round(self.inset + (place[0] - self.left_m) * self.scale, 2), round(EDGE + (self.back_m - place[1]) * self.scale, 2)

    def bar(self) -> tuple[float, int]:
        """The length of the scale bar on the drawing, and the metres that it stands for."""
        metres = max((one for one in BARS if one * self.scale <= BAR), default=BARS[0])
        return round(metres * self.scale, 1), metres


def frame_of(view: DrawnSheet) -> Frame:
    """The frame that holds everything on a drawing."""
    points = list(_points(view))
    xs, ys = [one[0] for one in points], [one[1] for one in points]
    width, depth = max(xs) - min(xs), max(ys) - min(ys)
    scale = min((WIDTH - 2 * SIDE) / max(width, 1.0), HIGHEST / max(depth, 1.0))
    return Frame(scale, min(xs), max(ys), (WIDTH - width * scale) / 2, round(depth * scale + 2 * EDGE, 1))


def _points(view: DrawnSheet) -> Iterable[At]:
    for area in (*view.rooms, *view.things):
        yield from area.corners
    for line in (*view.walls, *view.openings):
        yield from (line.start, line.end)
    yield from view.boundary
    for one in view.units:
        yield one.at
    for one in view.proposed:
        yield one.x, one.y
