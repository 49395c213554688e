"""The picture of link margins: a bar for each unit from nothing to its margin, and a tick at the margin that is wanted.

Drawn for a phone, 340 wide. A short link is hollow and says so; colour says nothing that shape and words do not.
"""
from markupsafe import Markup

from generator.pages.pictures import MarginBar, MarginPicture
from generator.publish.drawing.svg import picture, words

WIDTH, ROW, THICK = 340.0, 34.0, 10.0


def margins(view: MarginPicture) -> Markup:
    """Every bar on one scale, which reaches from the lowest margin, or nothing, to the largest number on it."""
    least = min(0.0, *(one.margin for one in view.bars))
    most = max(one for bar in view.bars for one in (bar.margin, bar.wanted, 1.0))

    def across(value: float) -> float:
        return 4 + (value - least) / (most - least) * (WIDTH - 8)

    height = ROW * len(view.bars) + 4
    return picture("margins", WIDTH, height, view.says, (_row(one, index * ROW, across) for index, one in enumerate(view.bars)))


def _row(one: MarginBar, top: float, across) -> Markup:
    start, end = sorted((across(0), across(one.margin)))
    bar = Markup('<rect class="{}" x="{}" y="{}" width="{}" height="{}"/>').format(
        "short" if one.short else "life", *(f"{number:.1f}" for number in (start, top + 19, max(end - start, 1.0), THICK)))
    line = Markup('<line class="{0}" x1="{1}" x2="{1}" y1="{2}" y2="{3}"/>')
    zero, tick = (line.format(kind, *(f"{number:.1f}" for number in (across(value), top + 17, top + 31))) for kind, value in (("year", 0.0), ("wanted", one.wanted)))
    return words(2, top + 14, one.text) + zero + bar + tick
