"""The pictures of batteries, cables and cells. A view says what they show; here is where each line goes.

Drawn for a phone: 340 wide, so that a letter of 13 is read at 360 pixels. Shapes and words carry the meaning, colour none.
"""
from markupsafe import Markup

from generator.pages.pictures import BarsPicture, LifePicture, RunPicture, Spot
from generator.publish.drawing.svg import cut, picture, words

WIDTH, ROW, THICK = 340.0, 40.0, 14.0
LEFT, RIGHT, TOP, PLOT = 44.0, 330.0, 24.0, 150.0
NAMES, LINE, HEAD = 58.0, 20.0, 22.0
# The least distance of two words of a scale, across.
APART = 34.0


def bars(view: BarsPicture) -> Markup:
    """Bars one under the other, each with its words above it; a broken line across each marks what must be reached."""
    most = max(*(one.value for one in view.bars), view.mark)
    height = ROW * len(view.bars) + 8
    across = _scale(0, most, 2, WIDTH - 2)
    rows = [Markup('{}<rect class="{}" x="2" y="{}" width="{}" height="{}"/>').format(
        words(2, index * ROW + 15, cut(one.text, WIDTH - 4)), one.kind, *_points(index * ROW + 20, across(one.value) - 2, THICK))
        for index, one in enumerate(view.bars)]
    marks = [Markup('<line class="mark" x1="{0}" x2="{0}" y1="{1}" y2="{2}"/>').format(
        *_points(across(view.mark), index * ROW + 17, index * ROW + 37)) for index in range(len(view.bars))]
    return picture("bars", WIDTH, height, view.says, (*rows, *marks))


def voltage(view: RunPicture) -> Markup:
    """The voltage from the supply to the last load; a bar under each load marks the least that it needs."""
    far = max(one.at for one in view.spots)
    span = (view.start - view.lowest) or 1
    across, up = _scale(0, far, LEFT, RIGHT - 8), _scale(view.lowest - span / 6, view.start, TOP + PLOT, TOP)
    line = " ".join(f"{_point(x)},{_point(y)}" for x, y in ((LEFT, up(view.start)), *((across(one.at), up(one.voltage)) for one in view.spots)))
    parts = [Markup('<path class="axis" d="M{0} {1}V{2}H{3}"/>').format(*_points(LEFT, TOP, TOP + PLOT, RIGHT)),
             Markup('<polyline class="fall" points="{}"/>').format(line), words(LEFT, TOP - 8, view.start_text),
             words(LEFT, TOP + PLOT + 16, "0 m"), words(RIGHT, TOP + PLOT + 16, f"{far:g} m", "end")]
    foot = TOP + PLOT + 36
    for index, one in enumerate(view.spots):
        parts += _spot(one, index + 1, across(one.at), up(one.voltage), None if one.least is None else up(one.least))
        parts.append(words(2, foot + index * LINE, cut(f"{index + 1}  {one.text}{f', {one.least_text}' if one.least_text else ''}: {one.unit}", WIDTH)))
    return picture("run", WIDTH, foot + LINE * len(view.spots), view.says, parts)


def _spot(one: Spot, number: int, x: float, y: float, least: float | None) -> list[Markup]:
    # The number stands where the way to the least voltage does not go.
    beside = words(x, y + 18 if least is not None and least < y else y - 8, str(number), "middle")
    out = [Markup('<circle class="spot" cx="{}" cy="{}" r="4"/>').format(*_points(x, y)), beside]
    if least is not None:
        out.append(Markup('<path class="least" d="M{0} {1}H{2}M{3} {1}V{4}"/>').format(*_points(x - 9, least, x + 9, x, y)))
    return out


def lives(view: LifePicture) -> Markup:
    """A bar for each unit from fitting until its cells are spent, thin lines for visits, a diamond for the visit that changes it."""
    height = HEAD + LINE * len(view.bars) + 4
    across = _scale(0, view.days, NAMES, WIDTH - 8)
    parts = [Markup('<line class="visit" x1="{0}" x2="{0}" y1="{1}" y2="{2}"/>').format(*_points(across(day), HEAD, height)) for day in view.visits]
    last = -APART
    for year in view.years:
        if across(year.day) - last >= APART:
            last = across(year.day)
            parts.append(Markup('<line class="year" x1="{0}" x2="{0}" y1="{1}" y2="{2}"/>').format(*_points(last, HEAD - 4, height)))
            # The last one has no room for its number on a narrow picture; those before it tell which it is.
            parts += [words(last, HEAD - 8, year.text, "middle")] if last < WIDTH - APART / 2 else []
    for index, one in enumerate(view.bars):
        y = HEAD + index * LINE
        parts += [words(2, y + 15, cut(one.unit, NAMES - 4)), Markup('<rect class="life" x="{}" y="{}" width="{}" height="10"/>').format(
            *_points(NAMES, y + 5, max(1.0, across(one.days) - NAMES)))]
        if one.visit is not None:
            x, middle = across(one.visit), y + 10
            parts.append(Markup('<path class="change" d="M{0} {1}L{2} {3}L{0} {4}L{5} {3}Z"/>').format(
                *_points(x, middle - 8, x + 6, middle, middle + 8, x - 6)))
        else:
            parts.append(words(min(across(one.days) + 4, WIDTH - 60), y + 15, "no visit"))
    return picture("lives", WIDTH, height, view.says, parts)


def _scale(low: float, high: float, start: float, end: float):
    """From a value between low and high to a place between start and end."""
    return lambda value: start + (value - low) / ((high - low) or 1) * (end - start)


def _points(*places: float) -> tuple[str, ...]:
    return tuple(map(_point, places))


def _point(place: float) -> str:
    return f"{place:.1f}".rstrip("0").rstrip(".")
