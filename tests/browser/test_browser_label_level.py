"""What would level Q mend on a label, and what does the level that is printed mend there?

ISO/IEC 18004, from memory: a code of version 6 has 41 modules a side; at level Q it has four blocks of codewords, in each of which 12 can be mended, and
holds 74 bytes. Finder patterns with their edge and the format stand in squares of nine and eight modules in three corners, timing in the seventh row and
column, one alignment pattern of five modules round (34, 34). From version 7 on there are six and more of these: no square or disc of 15 % lies clear of them.
The reader (zxing-cpp) is not the writer (qrcode).
"""
from pathlib import Path

import pytest
import qrcode
from PIL import Image, ImageDraw
from playwright.sync_api import Page
from qrcode.constants import ERROR_CORRECT_Q

from generator.model.label_sheet import A4_24
from generator.publish.qr import _drawn, label_qr
from tests.browser.printed import DOT_MM, printed
from tests.browser.test_browser_label_sheets import LEAST_MODULE, SIDE, code_on, cut, read

Box = tuple[float, float, float, float]

MM, VERSION, MODULES, QUIET = 24, 6, 41, 4
# Left, top, right, bottom, in modules.
PATTERNS: tuple[Box, ...] = ((0, 0, 9, 9), (33, 0, 41, 9), (0, 33, 9, 41), (0, 6, 41, 7), (6, 0, 7, 41), (32, 32, 37, 37))
# One square blot over 15 % of the code, right of its middle, clear of all patterns: there no block has more to mend than it can.
NAMED: Box = (20.95, 9.95, 36.85, 25.85)
# One as large, as clear, that takes more from a block than level Q gives back.
BEYOND: Box = (12.0, 7.1, 27.9, 23.0)


def drawn(page: Page, svg: str) -> Image.Image:
    """A code as it comes out of a printer of 300 dots an inch, 24 mm wide."""
    page.set_content(f"<!doctype html><style>@page {{ margin: 10mm }} body {{ margin: 0 }} svg {{ width: {MM}mm; height: {MM}mm }}</style>{svg}")
    return Image.fromarray(cut(printed(page)[0].picture, 10, 10, MM, MM)).convert("L")


def blotted(code: Image.Image, box: Box, side: int, shade: int) -> Image.Image:
    """The code with a blot, in modules of a code that has `side` of them."""
    module, out = code.width / (side + 2 * QUIET), code.copy()
    ImageDraw.Draw(out).rectangle([(one + QUIET) * module for one in box], fill=shade)
    return out


@pytest.fixture(scope="module")
def link(every_demo: Path, chromium) -> str:
    """What the large demo's first label holds, read off its sheet."""
    page = chromium.new_page()
    page.goto((every_demo / "K-2050" / "installer" / "labels.html").as_uri())
    text, level = read(code_on(printed(page)[0], A4_24, 0))
    page.close()
    assert text.startswith("https://") and text.endswith(".html") and level == "H"
    return text


def test_both_blots_are_over_15_percent_and_clear_of_every_pattern() -> None:
    for left, top, right, bottom in (NAMED, BEYOND):
        assert (right - left) * (bottom - top) > 0.15 * MODULES ** 2
        assert 0 <= left and 0 <= top and right <= MODULES and bottom <= MODULES
        assert not [one for one in PATTERNS if left < one[2] and right > one[0] and top < one[3] and bottom > one[1]]


def test_level_q_is_read_through_the_named_blot_and_not_through_every_one_so_labels_bear_level_h(link: str, phone: Page) -> None:
    code = drawn(phone, _drawn(qrcode.QRCode(version=VERSION, error_correction=ERROR_CORRECT_Q, border=0), link))
    assert code.width == pytest.approx(MM / DOT_MM, abs=1) and read(code) == (link, "Q")
    assert [read(blotted(code, NAMED, MODULES, shade)) for shade in (0, 255)] == [(link, "Q")] * 2
    assert any(read(blotted(code, BEYOND, MODULES, shade)) != (link, "Q") for shade in (0, 255))
    own = drawn(phone, label_qr(link))
    assert read(own) == (link, "H")
    for box in (NAMED, BEYOND):
        same = tuple(one * SIDE / MODULES for one in box)
        assert [read(blotted(own, same, SIDE, shade)) for shade in (0, 255)] == [(link, "H")] * 2


@pytest.mark.parametrize(("length", "level"), [(60, "H"), (84, "H"), (85, "Q"), (108, "Q")])
def test_a_longer_link_keeps_its_modules_and_gives_up_the_level(phone: Page, length: int, level: str) -> None:
    text = "https://packs.example/".ljust(length, "x")
    svg = label_qr(text)
    assert f'viewBox="0 0 {SIDE + 2 * QUIET} ' in svg and MM / (SIDE + 2 * QUIET) >= LEAST_MODULE
    assert read(drawn(phone, svg)) == (text, level)
