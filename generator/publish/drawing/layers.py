"""What can be shown over a storey and hidden again, as SVG: what detectors see, the ways in, and frames round what nothing detects; and what
the drawing of the plot has besides.

Each by a line of its own: an area by its outline, a way by its dashes, a gap by a frame round its opening.
"""
import math
from collections.abc import Iterable, Sequence

from markupsafe import escape

from generator.pages.drawing.views import At, OpeningLine, ReachLine, WayLine
from generator.pages.installer.seen_areas import GapLine, SeenArea
from generator.publish.drawing.frame import Frame
from generator.publish.drawing.parts import STEADY, line

# How far the frame of a gap stands off its opening.
ROUND = 7.0
# At how many places of a way its label may be held to it.
HOLDS = 24


def area(frame: Frame, one: SeenArea) -> str:
    """What one detector sees at one height, with what is hidden within it left out."""
    kind = "seen" if one.height == "upper" else "seen-low"
    way = "".join(line([frame.at(corner) for corner in ring], True) for piece in one.pieces for ring in piece)
    return f'<path class="{kind} {STEADY}" fill-rule="evenodd" data-unit="{escape(one.unit)}" d="{way}"><title>{escape(one.says)}</title></path>'


def way_in(frame: Frame, one: WayLine) -> str:
    """A way in, corner by corner."""
    kind = "way slow" if one.slow else "way"
    return (f'<path class="{kind} {STEADY}" data-unit="{escape(one.unit)}" d="{line([frame.at(place) for place in one.points])}">'
            f"<title>{escape(one.says)}</title></path>")


def boundary(frame: Frame, points: Sequence[At]) -> str:
    """The boundary of the plot, a thin line."""
    return f'<path class="boundary {STEADY}" d="{line([frame.at(place) for place in points], True)}"><title>Boundary of the plot</title></path>'


def ring_of(points: Sequence[At]) -> list[tuple[At, At]]:
    """The edges of a boundary in turn."""
    return list(zip(points, [*points[1:], *points[:1]]))


def reach(frame: Frame, one: ReachLine) -> str:
    """From an outside sounder to the nearest point of the boundary."""
    return (f'<path class="reach {STEADY}" data-unit="{escape(one.unit)}" d="{line((frame.at(one.start), frame.at(one.end)))}">'
            f"<title>{escape(one.says)}</title></path>")


def unseen(frame: Frame, one: GapLine) -> str:
    """A frame round an opening that nothing detects."""
    kind = "unseen" if one.reached else "unseen high"
    return f'<path class="{kind} {STEADY}" d="{line(around(frame, one), True)}"><title>{escape(one.says)}</title></path>'


def around(frame: Frame, one: GapLine | OpeningLine) -> tuple[At, At, At, At]:
    """The corners of a frame round an opening."""
    (ax, ay), (bx, by) = frame.at(one.start), frame.at(one.end)
    length = math.dist((ax, ay), (bx, by)) or 1.0
    dx, dy = (ay - by) / length * ROUND, (bx - ax) / length * ROUND
    return (ax + dx, ay + dy), (bx + dx, by + dy), (bx - dx, by - dy), (ax - dx, ay - dy)


def holds(frame: Frame, ways: Sequence[WayLine]) -> list[At]:
    """Where the label of each way is held to it: the place that lies farthest from every other way, of several the one nearest its middle."""
    drawn = [_along([frame.at(place) for place in one.points]) for one in ways]
    return [_clear(places, [place for other in drawn if other is not places for place in other]) for places in drawn]


def _clear(places: Sequence[At], others: Sequence[At]) -> At:
    def worth(index: int) -> tuple[float, int]:
        return round(min((math.dist(places[index], other) for other in others), default=0.0), 1), -abs(2 * index - len(places) + 1)
    return places[max(range(len(places)), key=worth)]


def _along(points: Sequence[At]) -> list[At]:
    """Places along a line at equal steps, from its beginning to its end."""
    lengths = [math.dist(one, other) for one, other in zip(points, points[1:])]
    return list(_steps(points, lengths, sum(lengths) / HOLDS)) or [points[0]]


def _steps(points: Sequence[At], lengths: Sequence[float], step: float) -> Iterable[At]:
    done = 0.0
    for start, end, length in zip(points, points[1:], lengths):
        while length and done <= length:
            yield start[0] + (end[0] - start[0]) * done / length, start[1] + (end[1] - start[1]) * done / length
            done += step
        done -= length
