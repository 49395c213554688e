"""Do pages follow the light or dark of the phone, and can they be read in both?

7:1, and 4.5:1 for large text: WCAG 2.2, 1.4.6 Contrast (Enhanced).
"""
from pathlib import Path

import pytest
from playwright.sync_api import Page

from tests.browser.contrast import parsed, ratio
from tests.browser.look import Looks, weak
from tests.browser.pages import AUDIENCES, SCHEMES, Contexts

WHITE, BLACK = (255.0, 255.0, 255.0), (0.0, 0.0, 0.0)


@pytest.mark.parametrize("audience", AUDIENCES)
def test_ground_and_ink_of_every_page_follow_the_phones_scheme(looks: Looks, audience: str) -> None:
    colours = looks(audience).colours
    assert len(colours) == 2 * len(looks(audience).texts)
    for (page, scheme), (ground, ink) in colours.items():
        light, dark = (ground, ink) if scheme == "light" else (ink, ground)
        assert ratio(light, BLACK) > 15 > 3 > ratio(dark, BLACK), (page, scheme)


@pytest.mark.parametrize("audience", AUDIENCES)
def test_every_text_has_the_contrast_to_be_read_in_the_sun(looks: Looks, audience: str) -> None:
    assert not looks(audience).weak, "\n".join(looks(audience).weak)


@pytest.mark.parametrize("scheme", SCHEMES)
def test_taken_and_free_numbers_are_told_apart_without_colours(every_demo: Path, context: Contexts, scheme: str) -> None:
    """WCAG 2.2: 1.4.1, not by colour alone; 1.4.11, 3:1 for what must be seen to understand a picture; 1.4.6, 7:1 for text."""
    page = context(color_scheme=scheme).new_page()
    page.goto((every_demo / "K-2050" / "installer" / "slots.html").as_uri())
    cells = page.evaluate("""[...document.querySelectorAll('.strip g')].map(one => {
      const [rect, text] = ['rect', 'text'].map(name => getComputedStyle(one.querySelector(name)));
      return [one.className.baseVal, one.querySelector('text').firstChild.data, one.querySelector('tspan')?.textContent || '', rect.fill, rect.stroke, rect.strokeDasharray, text.fill];
    })""")
    ground = parsed(page.evaluate("getComputedStyle(document.body).backgroundColor"))[0]
    rows = {row[0]: row[2] for row in page.evaluate("[...document.querySelector('#zones ~ table').rows].map(one => [...one.cells].map(cell => cell.innerText.trim()))")}
    taken, free = ([one[1:] for one in cells if one[0] == kind] for kind in ("taken", "free"))
    assert len(taken) == 32 and len(free) == 16
    for number, unit, fill, _, dashes, ink in taken:
        assert unit and dashes == "none" and ratio(parsed(fill)[0], ground) >= 3 and ratio(parsed(ink)[0], parsed(fill)[0]) >= 7
        assert rows[number] == unit
    for _, unit, fill, edge, dashes, ink in free:
        assert not unit and fill == "none" and dashes != "none" and ratio(parsed(edge)[0], ground) >= 3 and ratio(parsed(ink)[0], ground) >= 7


@pytest.mark.parametrize(("colour", "expected"), [((0x76,) * 3, 4.54), (BLACK, 21), (WHITE, 1)])
def test_the_contrast_ratio_agrees_with_published_values(colour: tuple[float, float, float], expected: float) -> None:
    """#767676 on white is 4.54:1 and black on white 21:1 in W3C's own texts on 1.4.3."""
    assert ratio(colour, WHITE) == pytest.approx(expected, abs=0.005)
    assert ratio(WHITE, colour) == ratio(colour, WHITE)


@pytest.mark.parametrize("style", ["color:#767676", "color:rgba(0,0,0,.5)", "background:#777"])
def test_a_weak_text_is_found(phone: Page, style: str) -> None:
    phone.goto("about:blank")
    phone.set_content(f'<body style="background:#fff"><p style="{style}">x')
    assert len(weak(phone, "body")) == 1
