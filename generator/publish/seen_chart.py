"""The picture of what is seen on a storey: rooms, the areas of detectors, and ways in that nothing detects. The front lies below.

Drawn for a phone, 340 wide. Two areas that overlap lie darker; a gap is a thick bar with its number; colour says nothing that shape does not.
"""
from collections.abc import Callable, Iterable

from markupsafe import Markup

from generator.pages.seen_areas import At, GapLine, Ring, SeenArea, SeenOnStorey
from generator.publish.svg import picture, words

WIDTH, EDGE, LETTERS = 340.0, 24.0, 14.0
Put = Callable[[At], tuple[float, float]]


def areas(view: SeenOnStorey) -> Markup:
    """A storey on one scale, as wide as the page."""
    corners = [corner for room in view.rooms for corner in room.corners]
    (left, right), (front, back) = ((min(axis), max(axis)) for axis in zip(*corners))
    scale = (WIDTH - 2 * EDGE) / max(right - left, back - front)
    height = (back - front) * scale + 2 * EDGE

    def put(at: At) -> tuple[float, float]:
        return EDGE + (at[0] - left) * scale, height - EDGE - (at[1] - front) * scale

    parts = [*(_rings("seen", one.pieces, put, one.says) for one in view.areas if one.height == "upper"),
             *(_rings("seen-low", one.pieces, put, one.says) for one in view.areas if one.height == "lower"),
             *(_rings("room", ((room.corners,),), put, room.name) for room in view.rooms),
             *(_unit(one, put) for one in view.areas if one.height == "upper"), *(_gap(one, put) for one in view.gaps)]
    return picture("seen-storey", WIDTH, height, view.says, parts)


def _rings(kind: str, pieces: Iterable[tuple[Ring, ...]], put: Put, says: str) -> Markup:
    way = " ".join(f"M{' L'.join(f'{x:.1f},{y:.1f}' for x, y in map(put, ring))}Z" for piece in pieces for ring in piece)
    return Markup('<path class="{}" fill-rule="evenodd" d="{}"><title>{}</title></path>').format(kind, way, says)


def _unit(one: SeenArea, put: Put) -> Markup:
    x, y = put(one.at)
    # The name stands on the side of its dot that lies within the picture.
    side = ("start", LETTERS / 2) if x < WIDTH / 2 else ("end", -LETTERS / 2)
    down = LETTERS if y < EDGE + LETTERS else -LETTERS / 2
    return Markup('<circle class="spot" cx="{:.1f}" cy="{:.1f}" r="3"/>').format(x, y) + words(x + side[1], y + down, one.unit, side[0])


def _gap(one: GapLine, put: Put) -> Markup:
    (x1, y1), (x2, y2) = put(one.start), put(one.end)
    bar = Markup('<line class="{}" x1="{:.1f}" y1="{:.1f}" x2="{:.1f}" y2="{:.1f}"><title>{}</title></line>').format(
        "gap" if one.reached is not False else "gap high", x1, y1, x2, y2, one.says)
    x, y = (x1 + x2) / 2, (y1 + y2) / 2
    down = LETTERS + 2 if y > EDGE + LETTERS and abs(y1 - y2) < 1 else -LETTERS / 2 if abs(y1 - y2) < 1 else LETTERS / 3
    side = 0.0 if abs(y1 - y2) < 1 else LETTERS if x > WIDTH / 2 else -LETTERS
    return bar + words(x + side, y + down, str(one.number), "middle")
