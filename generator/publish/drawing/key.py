"""The samples of the key: each mark and each construction as it is drawn on a storey."""
from collections.abc import Callable

from markupsafe import Markup

from generator.pages.drawing.views import LEVELS
from generator.publish.drawing.parts import BARE, dashed, mark, n, waves
from generator.publish.drawing.walls import cells, thick


def wall_sample(look: int | None, thickness_m: float | None) -> Markup:
    """A piece of wall for the key, at a scale at which a brick wall is as thick as it is drawn."""
    width, dashes = thick(thickness_m, 24.0), cells(look)
    kind, width = ("body bare", BARE) if look is None else ("body", width)
    over = "" if dashes is None else f'<path class="cells" stroke-width="{n(width - 2)}"{dashed(dashes)} d="M4 10H60"/>'
    return _sample(f'<g class="walls"><path class="{kind}" stroke-width="{n(width)}" d="M4 10H60"/>{over}</g>')


def mark_sample(name: str) -> Markup:
    """A mark of the key by its name."""
    return _sample(SAMPLES[name]())


def _sample(parts: str) -> Markup:
    return Markup(f'<svg viewBox="0 0 64 20" aria-hidden="true">{parts}</svg>')


def _gap(kind: str, leaf: str, more: str = "") -> Callable[[], str]:
    return lambda: ('<g class="walls"><path class="body" stroke-width="6" d="M4 10H60"/></g>'
                    f'<g class="opening {kind}"><path class="gap" d="M18 10H46"/>'
                    f'<path class="jambs" d="M18 6v8M46 6v8"/><path class="leaf" d="{leaf}"/>{more}</g>')


SAMPLES: dict[str, Callable[[], str]] = {
    **{level: (lambda level=level: f'<path class="link {level}" d="M4 10H60"/>') for level in LEVELS},
    "control": lambda: mark("control", 32, 10), "repeater": lambda: mark("repeater", 32, 10), "proposed": lambda: mark("proposed", 32, 10),
    "unit": lambda: f'<path class="looks" d="M36 8L42 5"/>{mark("unit", 32, 10)}',
    "far": lambda: f'<path class="link enough stub" d="M22 10H42"/>{mark("unit", 20, 10)}',
    "door": _gap("door", "M18 10H46"), "window": _gap("window", "M18 8H46M18 12H46"), "garage-door": _gap("garage-door", "M18 10H46"),
    "entry": lambda: '<g class="opening"><path class="entry" d="M32 4L27 15L37 15Z"/></g>',
    "way": lambda: '<path class="way" d="M4 10H60"/>', "way-slow": lambda: '<path class="way slow" d="M4 10H60"/>',
    "seen": lambda: '<path class="seen" d="M12 2H52V18H12Z"/>', "seen-low": lambda: '<path class="seen-low" d="M12 2H52V18H12Z"/>',
    "boundary": lambda: '<path class="boundary" d="M4 10H60"/>', "reach": lambda: '<path class="reach" d="M4 10H60"/>',
    "gap": _gap("window", "M18 8H46M18 12H46", '<path class="unseen" d="M18 2H46V18H18Z"/>'),
    "gap-high": _gap("window", "M18 8H46M18 12H46", '<path class="unseen high" d="M18 2H46V18H18Z"/>'),
    "stairs": lambda: ('<g class="stairs"><path class="treads" d="M8 4v12M16 4v12M24 4v12M32 4v12M40 4v12M48 4v12M8 4H52M8 16H52"/>'
                       '<path d="M8 10H56M50 6L56 10L50 14"/></g>'),
    "metal": lambda: '<g class="thing"><path d="M18 3H46V17H18Z"/><path class="metal" d="M18 3L46 17M46 3L18 17"/></g>',
    "heat": lambda: f'<g class="thing"><path d="M18 3H46V17H18Z"/><path class="heat" d="{waves(32, 10)}"/></g>',
    "thing": lambda: '<g class="thing"><path d="M18 3H46V17H18Z"/></g>',
    "roof": lambda: '<g class="roof"><path d="M18 3H46V17H18Z"/></g>',
}
