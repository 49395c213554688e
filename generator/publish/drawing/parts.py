"""The parts of a storey's drawing, each as a piece of SVG: walls, openings, things, stairs, marks of units, links, scale and front.

Every text passes `escape`; lengths are in the drawing's own measure (`plan_frame.py`). Dashes, shapes and words carry the meaning,
colour none of it alone.
"""
import math
from collections.abc import Iterable, Sequence

from markupsafe import escape

from generator.pages.drawing.views import At, DrawnSheet, LinkLine, OpeningLine, StairsLine, ThingArea, UnitMark, WallLine
from generator.publish.drawing.frame import WIDTH, Frame
from generator.publish.drawing.walls import cells, thick

REACH = {"control": 7.0, "repeater": 7.5, "unit": 5.5, "proposed": 8.0}
LOOKS, STUB, TREAD, JAMB = 11.0, 20.0, 7.0, 2.0
FOOT = 52.0
# How broad a wall is drawn of which nobody says how it is built.
BARE = 1.5
# A line that grows no broader when the drawing is enlarged.
STEADY = "steady"


def n(value: float) -> str:
    """A length as it stands in a path."""
    return f"{value:.1f}".removesuffix(".0")


def line(points: Sequence[At], shut: bool = False) -> str:
    """A path through points."""
    return "M" + "L".join(f"{n(x)} {n(y)}" for x, y in points) + ("Z" if shut else "")


def walls(frame: Frame, rows: Sequence[WallLine]) -> str:
    """Walls: the broad lines first, so that no corner hides a cell."""
    broad, narrow = [], []
    for one in rows:
        way, width = line((frame.at(one.start), frame.at(one.end))), thick(one.thickness_m, frame.scale)
        kind = "body" if one.look is not None else "body bare"
        title = f"<title>{escape(one.says)}</title>"
        broad.append(f'<path class="{kind}" stroke-width="{n(width if one.look is not None else BARE)}" d="{way}">{title}</path>')
        dashes = cells(one.look)
        if dashes is not None:
            narrow.append(f'<path class="cells" stroke-width="{n(width - 2)}"{dashed(dashes)} d="{way}"/>')
    return f'<g class="walls">{"".join(broad)}{"".join(narrow)}</g>'


def dashed(dashes: str) -> str:
    """The attribute of dashes; none for a whole line."""
    return f' stroke-dasharray="{dashes}"' if dashes else ""


def opening(frame: Frame, one: OpeningLine) -> str:
    """A gap in its wall with what stands in it: a line for a leaf, two for a window, a broken one for a garage door; a wedge for a way in."""
    start, end = frame.at(one.start), frame.at(one.end)
    length = math.dist(start, end) or 1.0
    ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    wide = 7.0
    jambs = "".join(line(((x - uy * wide / 2, y + ux * wide / 2), (x + uy * wide / 2, y - ux * wide / 2))) for x, y in (start, end))
    sides = (-JAMB, JAMB) if "window" in one.kind else (0.0,)
    leaf = "".join(line(((start[0] - uy * off, start[1] + ux * off), (end[0] - uy * off, end[1] + ux * off))) for off in sides)
    kind = "window" if "window" in one.kind else one.kind if one.kind == "garage-door" else "door"
    wedge = f'<path class="entry" d="{line(entry(frame, one), True)}"/>' if one.inward else ""
    return (f'<g class="opening {kind}"><title>{escape(one.says)}</title><path class="gap" d="{line((start, end))}"/>'
            f'<path class="jambs" d="{jambs}"/><path class="leaf {STEADY}" d="{leaf}"/>{wedge}</g>')


def entry(frame: Frame, one: OpeningLine) -> tuple[At, At, At]:
    """The wedge before a way in, its point at the door."""
    (ax, ay), (bx, by) = frame.at(one.start), frame.at(one.end)
    dx, dy = one.inward[0], -one.inward[1]
    x, y = (ax + bx) / 2 - dx * 6, (ay + by) / 2 - dy * 6
    return (x, y), (x - dx * 9 - dy * 5, y - dy * 9 + dx * 5), (x - dx * 9 + dy * 5, y - dy * 9 - dx * 5)


def thing(frame: Frame, one: ThingArea) -> str:
    """A thing's outline; metal is crossed out, what gets warm has waves."""
    corners, middle = [frame.at(place) for place in one.corners], frame.at(one.middle)
    cross = "".join(line((corner, middle)) for corner in corners) if "metal" in one.marks else ""
    warm = waves(*middle) if "heat" in one.marks else ""
    kind = "roof" if "roof" in one.marks else "thing"
    signs = "".join(f'<path class="{sign} {STEADY}" d="{way}"/>' for sign, way in (("metal", cross), ("heat", warm)) if way)
    return f'<g class="{kind}"><title>{escape(one.says)}</title><path class="{STEADY}" d="{line(corners, True)}"/>{signs}</g>'


def waves(x: float, y: float) -> str:
    """Three small waves that rise."""
    return "".join(f"M{n(x + off)} {n(y + 4)}q-2.5 -2 0 -4t0 -4" for off in (-4, 0, 4))


def stairs(frame: Frame, one: StairsLine) -> str:
    """A flight with its sides and treads, where its width is known, and an arrow that leads up."""
    (ax, ay), (bx, by) = frame.at(one.foot), frame.at(one.head)
    length = math.dist((ax, ay), (bx, by))
    if not length:
        return ""
    ux, uy = (bx - ax) / length, (by - ay) / length
    tip = [(bx - ux * 6 - uy * 4, by - uy * 6 + ux * 4), (bx, by), (bx - ux * 6 + uy * 4, by - uy * 6 - ux * 4)]
    side = (one.width_m or 0) * frame.scale / 2
    steps = "".join(line(((x - uy * side, y + ux * side), (x + uy * side, y - ux * side))) for x, y in
                    ((ax + ux * TREAD * step, ay + uy * TREAD * step) for step in range(int(length / TREAD) + 1))) if side else ""
    sides = "".join(line(((ax + sign * uy * side, ay - sign * ux * side), (bx + sign * uy * side, by - sign * ux * side)))
                    for sign in (-1, 1)) if side else ""
    return (f'<g class="stairs"><title>{escape(one.says)}</title><path class="treads {STEADY}" d="{steps}{sides}"/>'
            f'<path class="{STEADY}" d="{line(((ax, ay), (bx, by)))}{line(tip)}"/></g>')


def link_ends(frame: Frame, one: LinkLine) -> tuple[At, At]:
    """From a unit to who hears it; where that one stands on another drawing, a stub that points to it."""
    start, end = frame.at(one.start), frame.at(one.end)
    if not one.whole:
        length = math.dist(start, end)
        share = STUB / length if length > 1 else 0
        end = (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share) if share else (start[0], start[1] - STUB)
    return start, end


def link(frame: Frame, one: LinkLine) -> str:
    """A link, by how it stands."""
    kind = one.level if one.whole else f"{one.level} stub"
    return f'<path class="link {kind} {STEADY}" data-unit="{escape(one.unit)}" d="{line(link_ends(frame, one))}"><title>{escape(one.says)}</title></path>'


def mark(kind: str, x: float, y: float) -> str:
    """The mark of a unit: square for the control unit, diamond for a repeater, ring for any other, a broken diamond for a proposal."""
    if kind == "control":
        return f'<rect class="mark control {STEADY}" x="{n(x - 5.5)}" y="{n(y - 5.5)}" width="11" height="11"/>'
    if kind in ("repeater", "proposed"):
        return f'<path class="mark {kind} {STEADY}" d="{line(((x, y - 7), (x + 7, y), (x, y + 7), (x - 7, y)), True)}"/>'
    return f'<circle class="mark unit {STEADY}" cx="{n(x)}" cy="{n(y)}" r="4.5"/>'


def looks(frame: Frame, one: UnitMark) -> str:
    """The tick that shows where a unit looks."""
    if one.looks is None:
        return ""
    (x, y), (dx, dy) = frame.at(one.at), (one.looks[0], -one.looks[1])
    return f'<path class="looks {STEADY}" d="{line(((x + dx * 4.5, y + dy * 4.5), (x + dx * LOOKS, y + dy * LOOKS)))}"/>'


def foot(frame: Frame, view: DrawnSheet, top: float) -> str:
    """Below the plan: where the front is, how long a metre is, and where north lies if it is known."""
    length, metres = frame.bar()
    y = top + FOOT - 12
    middle = WIDTH / 2
    parts = [f'<path class="front" d="{line(((middle, top + 2), (middle - 6, top + 11), (middle + 6, top + 11)), True)}"/>',
             f'<text x="{n(middle)}" y="{n(top + 18)}" text-anchor="middle">{escape(view.front)}</text>',
             f'<path class="scale" d="M4 {n(y - 4)}v8M4 {n(y)}h{n(length)}M{n(4 + length)} {n(y - 4)}v8"/>',
             f'<text x="{n(length + 10)}" y="{n(y)}">{metres} m</text>']
    if view.bearing_deg is not None:
        turn = math.radians(-(view.bearing_deg + 180))
        x, dx, dy = WIDTH - 34, math.sin(turn), -math.cos(turn)
        at, tip = (x - dx * 10, y - dy * 10), (x + dx * 10, y + dy * 10)
        head = [(tip[0] - dx * 6 - dy * 4, tip[1] - dy * 6 + dx * 4), tip, (tip[0] - dx * 6 + dy * 4, tip[1] - dy * 6 - dx * 4)]
        parts.append(f'<path class="north" d="{line((at, tip))}{line(head)}"/><text x="{n(x + 14)}" y="{n(y)}">N</text>')
    return f'<g class="foot-of-plan">{"".join(parts)}</g>'


def group(kind: str, parts: Iterable[str]) -> str:
    """Parts of one kind."""
    return f'<g class="{kind}">{"".join(parts)}</g>'
