"""Does each label come out of the printer on its own place of the sheet, with a code that is read through dirt?

ISO/IEC 18004, from memory: a version 8 code has 49 modules a side and a quiet zone of four; finder patterns with their edge and the format stand in
squares of nine and eight modules in three corners, the version in blocks of three by six beside two of them, timing in the seventh row and column.
The reader (zxing-cpp) is not the writer (qrcode).
"""
import copy
import math
import random
from pathlib import Path

import numpy
import pytest
import zxingcpp
from PIL import Image, ImageDraw
from playwright.sync_api import Page

from generator.model.label_sheet import A4_24, LETTER_30, PAPERS, Stock
from tests.browser.jobs import ADDRESS, PATH_NAMES, build
from tests.browser.printed import DOT_MM, Sheet, printed
from tests.conftest import read_files

OWN = {"paper": "Letter", "columns": "2", "rows": "3", "width_mm": "70", "height_mm": "25.2", "left_mm": "20", "top_mm": "30", "across_mm": "5", "down_mm": "1.5"}
OWN_STOCK = Stock("Letter", 2, 3, 70, 25.2, 20, 30, 5, 1.5)
SIDE, QUIET = 49, 4
# Left, top, right, bottom, in modules.
KEPT_CLEAR = ((0, 0, 9, 9), (41, 0, 49, 9), (0, 41, 9, 49), (0, 6, 49, 7), (6, 0, 7, 49), (38, 0, 41, 6), (0, 38, 6, 41))
# A printer's dot on each side, and what lies between two of them.
DOTS = 2 * DOT_MM
LEAST_MODULE, LEAST_EDGE = 0.4, 0.5
PLACES = 12


@pytest.fixture(scope="module")
def own(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo job of a company with labels of its own size, published, so that a code holds a whole link."""
    files = copy.deepcopy(read_files())
    files["company"]["label_sheet"] = OWN
    files["job"]["publish"] = {"address": ADDRESS, **PATH_NAMES}
    return build(files, tmp_path_factory.mktemp("labels")) / "installer"


def cells(stock: Stock) -> list[tuple[float, float]]:
    """Where each label of a sheet begins, in mm, row by row."""
    return [(stock.left + column * (stock.width + stock.across), stock.top + row * (stock.height + stock.down))
            for row in range(stock.rows) for column in range(stock.columns)]


def cut(picture: numpy.ndarray, left: float, top: float, width: float, height: float) -> numpy.ndarray:
    """A part of a picture, given in mm."""
    x, y, right, bottom = (round(one / DOT_MM) for one in (left, top, left + width, top + height))
    return picture[y:bottom, x:right]


def code_on(sheet: Sheet, stock: Stock, index: int) -> Image.Image:
    """The code of one label with its quiet zone."""
    (left, top), edge = cells(stock)[index], (stock.height - stock.code) / 2
    return Image.fromarray(cut(sheet.picture, left + edge, top + edge, stock.code, stock.code)).convert("L")


def read(image: Image.Image) -> tuple[str, str]:
    """What a code holds and its level; nothing where it cannot be read."""
    found = zxingcpp.read_barcodes(image, formats=zxingcpp.BarcodeFormat.QRCode)
    return (found[0].text, found[0].ec_level) if len(found) == 1 else ("", "")


@pytest.mark.parametrize("path, stock", [("labels.html", A4_24), ("labels-letter.html", LETTER_30), ("labels-own.html", OWN_STOCK)], ids=["A4", "Letter", "own"])
def test_each_label_lies_inside_its_place_and_its_code_is_read(own: Path, phone: Page, path: str, stock: Stock) -> None:
    phone.goto((own / path).as_uri())
    shorts = phone.locator(".labels .short").all_inner_texts()
    names = phone.locator(".labels .short + p").all_inner_texts()
    sheets, each = printed(phone), stock.columns * stock.rows
    assert len(sheets) == math.ceil(len(shorts) / each) and all(one.size == pytest.approx(PAPERS[stock.paper], abs=0.5) for one in sheets)
    assert phone.evaluate("() => [...document.querySelectorAll('.labels > li > div')].every(one => one.scrollHeight <= one.clientHeight)")
    for index, (short, name) in enumerate(zip(shorts, names, strict=True)):
        sheet, place = sheets[index // each], index % each
        assert read(code_on(sheet, stock, place)) == (f"{ADDRESS}{PATH_NAMES['installer']}/d/{short.lower()}.html", "H"), name
        ink = numpy.asarray(code_on(sheet, stock, place)) < 128
        dark = numpy.flatnonzero(ink.any(axis=0))
        assert (dark[-1] - dark[0] + 1) * DOT_MM / SIDE >= LEAST_MODULE - DOTS / SIDE
    for number, sheet in enumerate(sheets):
        blank = sheet.ink.copy()
        for left, top in cells(stock)[:len(shorts) - number * each]:
            cell = cut(blank, left + LEAST_EDGE, top + LEAST_EDGE, stock.width - 2 * LEAST_EDGE, stock.height - 2 * LEAST_EDGE)
            assert cell.any()
            cell[:] = False
        assert not blank.any(), "ink outside the labels"


def clear(shape: str, x: float, y: float, reach: float) -> bool:
    """Whether a blot round a module's place lies on the code and off what no level of the code mends."""
    if not (reach <= x <= SIDE - reach and reach <= y <= SIDE - reach):
        return False
    gaps = [(max(left - x, 0, x - right), max(top - y, 0, y - bottom)) for left, top, right, bottom in KEPT_CLEAR]
    return all((math.hypot(*gap) if shape == "disc" else max(gap)) >= reach for gap in gaps)


def blotted(code: Image.Image, shape: str, shade: int, share: float, dice: random.Random) -> Image.Image:
    """The code with one blot over a share of its area, thrown until it lies clear."""
    reach = math.sqrt(share * SIDE ** 2 / (math.pi if shape == "disc" else 4))
    x, y = next((x, y) for x, y in iter(lambda: (dice.uniform(0, SIDE), dice.uniform(0, SIDE)), None) if clear(shape, x, y, reach))
    module, out = code.width / (SIDE + 2 * QUIET), code.copy()
    box = [(x + QUIET - reach) * module, (y + QUIET - reach) * module, (x + QUIET + reach) * module, (y + QUIET + reach) * module]
    draw = ImageDraw.Draw(out)
    (draw.ellipse if shape == "disc" else draw.rectangle)(box, fill=shade)
    return out


def test_a_label_of_24_mm_is_read_with_a_blot_over_15_percent_wherever_it_lies(own: Path, phone: Page) -> None:
    assert OWN_STOCK.code == pytest.approx(24)
    phone.goto((own / "labels-own.html").as_uri())
    sheet, dice = printed(phone)[0], random.Random(18004)
    for index in (0, 5):
        code = code_on(sheet, OWN_STOCK, index)
        held = read(code)
        assert held[0].startswith(ADDRESS) and code.width == pytest.approx(24 / DOT_MM, abs=1)
        for shape in ("disc", "square"):
            for shade in (0, 255):
                missed = [number for number in range(PLACES) if read(blotted(code, shape, shade, 0.15, dice)) != held]
                assert missed == [], (shape, shade)
    # Twice as much is more than any level mends: the blots are real.
    assert any(read(blotted(code, "square", 0, 0.27, dice)) != held for _ in range(PLACES))


def test_a_short_reference_is_read_through_a_blot_too(demo: Path, phone: Page) -> None:
    phone.goto((demo / "installer" / "labels-letter.html").as_uri())
    sheet, dice = printed(phone)[0], random.Random(4)
    code = code_on(sheet, LETTER_30, 0)
    assert read(code) == (phone.locator(".labels .short").first.inner_text(), "H")
    assert all(read(blotted(code, shape, shade, 0.15, dice)) == read(code)
               for shape in ("disc", "square") for shade in (0, 255) for _ in range(PLACES))
