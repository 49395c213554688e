"""Outlines with fewer corners: of hundreds that a curve was worked out in, those whose absence nobody can see.

Way: Douglas and Peucker, 1973 (from memory).
"""
import math
import re
from collections.abc import Sequence

Point = tuple[float, float]
# How far the outline may lie from what it was, in units of the drawing, of which a phone shows about one a pixel.
OFF = 0.15
# Walls, openings and marks have fewer corners than this and stay as they are.
FEWEST = 24
OUTLINE = re.compile(r'(?<= )d="(M[\d.\-]+ [\d.\-]+(?:[ML][\d.\-]+ [\d.\-]+|Z)+)"')
RING = re.compile(r"M[^MZ]+Z?")
CORNER = re.compile(r"([\d.\-]+) ([\d.\-]+)")


def thin_paths(html: str) -> str:
    """A page whose drawings have fewer corners; each that is left stands where it stood."""
    return OUTLINE.sub(lambda match: f'd="{RING.sub(lambda ring: _thinner(ring[0]), match[1])}"', html)


def _thinner(ring: str) -> str:
    corners = CORNER.findall(ring)
    if len(corners) < FEWEST:
        return ring
    kept = thinned([(float(x), float(y)) for x, y in corners])
    return "M" + "L".join(" ".join(corners[at]) for at in kept) + ("Z" if ring.endswith("Z") else "")


def thinned(points: Sequence[Point], off: float = OFF) -> list[int]:
    """Which points are kept, by their places: the ends, and all without which the line would lie farther off."""
    kept, open_parts = {0, len(points) - 1}, [(0, len(points) - 1)]
    while open_parts:
        first, last = open_parts.pop()
        between = range(first + 1, last)
        far = max(between, key=lambda at: _away(points[at], points[first], points[last]), default=None)
        if far is not None and _away(points[far], points[first], points[last]) > off:
            kept.add(far)
            open_parts += [(first, far), (far, last)]
    return sorted(kept)


def _away(point: Point, one: Point, other: Point) -> float:
    """How far a point lies from the stretch between two others."""
    across, down = other[0] - one[0], other[1] - one[1]
    long = across * across + down * down
    part = 0.0 if not long else max(0.0, min(1.0, ((point[0] - one[0]) * across + (point[1] - one[1]) * down) / long))
    return math.dist(point, (one[0] + part * across, one[1] + part * down))
