"""The drawing of a storey as SVG: its parts from the lowest to the uppermost, then its words; every unit a way to its page."""
import math

from markupsafe import Markup, escape

from generator.pages.drawing.views import DrawnSheet
from generator.publish.drawing.frame import WIDTH, Frame, frame_of
from generator.publish.drawing.labels import leader_to
from generator.publish.drawing.layers import area, boundary, reach, unseen, way_in
from generator.publish.drawing.names import HIGH, Label, placed
from generator.publish.drawing.parts import FOOT, STEADY, foot, group, line, link, looks, mark, n, opening, stairs, thing, walls

NEXT_LINE = ' dy="1.15em"'
# Rows are words of their own to whoever hears them read, and none is broader by that.
BETWEEN = '<tspan font-size="0"> </tspan>'
# The worst links lie uppermost.
FROM_BELOW = ("unknown", "enough", "little", "short")
# A label nearer to its mark needs no leader.
NEAR = 5.0
# Labels that are shown and hidden with what they belong to.
LAYERED = ("way-name", "gap-name")


def plan(view: DrawnSheet, root: str = "") -> Markup:
    """A whole drawing. `root` is the way from its page to the pack's first folder."""
    frame = frame_of(view)
    labels, height = placed(view, frame)
    over = {kind: [leader(one) + words(one) for one in labels if one.kind == kind] for kind in LAYERED}
    plain = [one for one in labels if one.kind not in LAYERED]
    parts = [group("plot", ([boundary(frame, view.boundary)] if view.boundary else []) + [reach(frame, one) for one in view.reaches]),
             group("views", (area(frame, one) for one in reversed(view.areas))),
             group("roofs", (thing(frame, one) for one in view.things if "roof" in one.marks)),
             group("flights", (stairs(frame, one) for one in view.stairs)), walls(frame, view.walls),
             group("openings", (opening(frame, one) for one in view.openings)),
             group("things", (thing(frame, one) for one in view.things if "roof" not in one.marks)),
             group("links", (link(frame, one) for level in FROM_BELOW for one in view.links if one.level == level)),
             group("ways-in", (*(way_in(frame, one) for one in view.ways), *over["way-name"])),
             group("gaps", (*(unseen(frame, one) for one in view.gaps), *over["gap-name"])),
             group("leaders", map(leader, plain)), group("names", (words(one) for one in plain if one.unit is None)),
             group("units", (unit(frame, one, root) for one in labels if one.unit)),
             group("proposals", (mark("proposed", *frame.at((one.x, one.y))) for one in view.proposed)), foot(frame, view, height)]
    name = escape(view.anchor)
    return Markup(f'<svg viewBox="0 0 {n(WIDTH)} {n(height + FOOT)}" paint-order="stroke" role="group" aria-labelledby="{name}-title {name}-says">'
                  f'<title id="{name}-title">{escape(view.title)}</title><desc id="{name}-says">{escape(view.says)}</desc>{"".join(parts)}</svg>')


def leader(one: Label) -> str:
    """The line from a mark to its label, where they do not stand side by side."""
    end = leader_to(*one.mark, one.box)
    length = math.dist(one.mark, end)
    if not one.led or length <= one.reach + NEAR:
        return ""
    share = one.reach / length
    start = (one.mark[0] + (end[0] - one.mark[0]) * share, one.mark[1] + (end[1] - one.mark[1]) * share)
    return f'<path class="leader {STEADY}" d="{line((start, end))}"/>'


def words(one: Label) -> str:
    """A label's words, held to the side where its mark is, so that they stay by it when letters are drawn smaller."""
    box, end = one.box, leader_to(*one.mark, one.box)
    side = "middle" if one.kind in ("room", "letter") or box.x < end[0] < box.x + box.width else "start" if end[0] <= box.x else "end"
    x = {"start": box.x, "end": box.x + box.width, "middle": box.x + box.width / 2}[side]
    top = box.y + box.height / 2 - HIGH * (len(one.rows) - 1) / 2
    rows = "".join(f'<tspan x="{n(x)}"{NEXT_LINE if index else ""}>' + " ".join(f'<tspan class="{kind}">{escape(text)}</tspan>' for kind, text in row)
                   + (BETWEEN if index + 1 < len(one.rows) else "") + "</tspan>" for index, row in enumerate(one.rows))
    return f'<text class="{one.kind}" x="{n(x)}" y="{n(top)}" text-anchor="{side}">{rows}</text>'


def unit(frame: Frame, one: Label, root: str) -> str:
    """A unit's mark and label: together the way to its page."""
    own, box = one.unit, one.box
    return (f'<a id="{escape(own.anchor)}" href="{escape(root)}{escape(own.href)}" data-unit="{escape(own.name)}"><title>{escape(own.says)}</title>'
            f'<rect class="hit" x="{n(box.x)}" y="{n(box.y)}" width="{n(box.width)}" height="{n(box.height)}"/>'
            f"{looks(frame, own)}{mark(own.kind, *frame.at(own.at))}{words(one)}</a>")
