"""One look at every page of a pack on a phone: what does not fit, what is too small to hit, what is too weak to read.

Opening a page costs more than all questions asked about it, so each page is opened once and asked everything.
"""
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, Page

from tests.browser.contrast import Colour, laid_over, ratio, seen_ground
from tests.browser.pages import DESK, PHONE, SCHEMES, new_context, pages_of, shown_text

# 360 px is a usual phone; 320 px is the width of WCAG 2.2, 1.4.10 Reflow.
WIDTHS = (360, 320)
# WCAG 2.2, 2.5.5 Target Size (Enhanced), here without its exceptions.
LEAST_TARGET = 44
# WCAG 2.2, 1.4.6 Contrast (Enhanced): text, and large text (24 px, or 18.66 px in bold).
LEAST_CONTRAST, LEAST_CONTRAST_LARGE = 7, 4.5


@dataclass
class Look:
    """What was seen of a pack, each finding with its page."""

    texts: dict[str, str] = field(default_factory=dict)
    sideways: list[str] = field(default_factory=list)
    small: list[str] = field(default_factory=list)
    targets: dict[str, int] = field(default_factory=dict)
    weak: list[str] = field(default_factory=list)
    colours: dict[tuple[str, str], tuple[Colour, Colour]] = field(default_factory=dict)


Looks = Callable[[str], Look]


def look(browser: Browser, pack: Path) -> Look:
    """Looks at every page of a pack."""
    context = new_context(browser)
    page, seen = context.new_page(), Look()
    for file in pages_of(pack):
        name = file.relative_to(pack).as_posix()
        page.goto(file.as_uri())
        seen.texts[name] = shown_text(page)
        page.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
        seen.targets[name] = page.evaluate("seen.targets().length")
        seen.small += [f"{name} {line}" for line in small_in_states(page)]
        seen.sideways += [f"{name} {line}" for line in sideways_in_states(page)]
        for scheme in SCHEMES:
            page.emulate_media(color_scheme=scheme)
            seen.colours[name, scheme] = colours(page, "main h1")
            seen.weak += [f"{name} in {scheme} {line}" for line in weak_in_states(page)]
        page.emulate_media(color_scheme="light")
    context.close()
    return seen


def sideways(page: Page) -> list[str]:
    """Everything that does not fit the width of the window."""
    return page.evaluate("seen.sideways(innerWidth)")


def sideways_in_states(page: Page) -> list[str]:
    """What does not fit at any width, the drawer shut or open."""
    out = []
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": PHONE["height"]})
        out += [f"at {width}, {state}: {line}" for state, line in page.evaluate("seen.sidewaysInStates(innerWidth)")]
    page.set_viewport_size(PHONE)
    return out


def small(page: Page) -> list[str]:
    """Every visible target that is too small."""
    return page.evaluate("least => seen.small(least)", LEAST_TARGET)


def small_in_states(page: Page) -> list[str]:
    """What is too small: on the page, in the drawer at each of its levels, in the search, and the link that skips."""
    return [f"{state}: {line}" for state, line in page.evaluate("least => seen.smallInStates(least)", LEAST_TARGET)]


def weak(page: Page, selector: str) -> list[str]:
    """Every shown text below `selector` whose contrast is too low."""
    return [line for text in page.evaluate("selector => seen.inks(selector)", selector) for line in _weak(text)]


def weak_in_states(page: Page) -> list[str]:
    """What is too weak, wide and narrow, drawer and search shut and open."""
    out = []
    for size in (DESK, PHONE):
        page.set_viewport_size(size)
        for state, text in page.evaluate("seen.inksInStates()"):
            out += [f"at {size['width']}, {state}: {line}" for line in _weak(text)]
    return out


def _weak(text: dict[str, Any]) -> list[str]:
    ground = seen_ground(text["ground"])
    found = ratio(laid_over(text["ink"], ground), ground)
    large = text["size"] >= 24 or (text["size"] >= 18.66 and text["weight"] >= 700)
    if found >= (LEAST_CONTRAST_LARGE if large else LEAST_CONTRAST):
        return []
    return [f"{text['where']}: {found:.2f}, {text['ink']} on {text['ground'][0]}"]


def colours(page: Page, selector: str) -> tuple[Colour, Colour]:
    """Ground and ink of the one text that `selector` finds."""
    (text,) = page.evaluate("selector => seen.inks(selector)", selector)
    ground = seen_ground(text["ground"])
    return ground, laid_over(text["ink"], ground)
