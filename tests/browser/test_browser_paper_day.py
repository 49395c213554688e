"""Does the day come out of the printer so that it can be worked by: whole steps, boxes for a pencil, black alone, A4 and Letter?"""
import re
from pathlib import Path

import numpy
import pytest
import zxingcpp
from PIL import Image
from playwright.sync_api import Page

from tests.browser.printed import DOT_MM, Sheet, printed

STEP = re.compile(r"^Step (\d+) of (\d+)", re.M)
HEAD = ("Done, pass", "Step, and what to look for", "Value", "Else: which result, and why", "Time, initials")
SIZES = {"A4": (210, 297), "Letter": (215.9, 279.4)}
BOX, ROOM = 8, 10.4
# A phone at arm's length, 650 mm, that sees 65 degrees with 1920 dots: a dot for each 0.43 mm.
SEEN_MM = 0.43


@pytest.fixture
def paper(demo: Path, phone: Page) -> Page:
    """The day on paper, opened on a phone."""
    phone.goto((demo / "installer" / "paper.html").as_uri())
    return phone


def boxes(sheet: Sheet) -> list[float]:
    """The widths in mm of what stands alone in the first column: runs of ink that neither a letter nor a line of the table makes."""
    strip = sheet.ink[:, round(10 / DOT_MM):round((10 + ROOM) / DOT_MM)]
    edges = numpy.diff(numpy.pad(strip.astype(numpy.int8), ((0, 0), (1, 1))))
    runs = [right - left for row in edges for left, right in zip(numpy.flatnonzero(row == 1), numpy.flatnonzero(row == -1))]
    return [run * DOT_MM for run in runs if 6 < run * DOT_MM < ROOM - 0.6]


@pytest.mark.parametrize("size", SIZES)
def test_the_day_is_printed_whole_with_boxes_of_8_mm_and_black_alone(paper: Page, size: str) -> None:
    phases = paper.locator(".day .phase th").all_inner_texts()
    count = paper.locator(".day .head").count()
    sheets = printed(paper, format=size)
    starts = []
    for number, sheet in enumerate(sheets, 1):
        assert sheet.size == pytest.approx(SIZES[size], abs=0.5)
        text = " ".join(sheet.text.split())
        assert f"Page {number} of {len(sheets)}" in text and "K-2041 · Fingerprint " in text and all(one in text for one in HEAD)
        # What comes out of a printer with one ink is what is seen: nothing has a colour.
        assert (numpy.ptp(sheet.picture.astype(int), axis=2) == 0).all()
        found = boxes(sheet)
        assert found and all(one == pytest.approx(BOX, abs=0.2) for one in found)
        starts += [int(one[1]) for one in STEP.finditer(sheet.text)]
        # A sheet begins with a step or the head of a phase, not in the middle of a step: here each fits a sheet.
        first = sheet.text.partition(HEAD[-1])[2].strip() if number > 1 else f"Step 1 of {count}"
        # A hold point that stands before its step is the first row of it.
        assert STEP.match(first) or re.match(r"HOLD POINT H\d+, before the step\.", first) or any(first.startswith(one.split()[0]) for one in phases), (number, first[:80])
        last = sheet.text[list(STEP.finditer(sheet.text))[-1].start():]
        assert len(last.splitlines()) > 4, "the head of a step stands alone at a foot"
    assert starts == list(range(1, count + 1))


def test_the_code_at_its_head_is_read_at_arms_length(paper: Page, demo: Path) -> None:
    sheet = printed(paper, format="A4")[0]
    picture = Image.fromarray(sheet.picture).convert("L")
    (code,) = zxingcpp.read_barcodes(picture, formats=zxingcpp.BarcodeFormat.QRCode)
    corners = code.position
    side = (corners.top_right.x - corners.top_left.x) * DOT_MM
    assert side > 40 and code.text in paper.locator(".far figcaption").inner_text()
    seen = picture.resize((round(picture.width * DOT_MM / SEEN_MM), round(picture.height * DOT_MM / SEEN_MM)), Image.Resampling.BOX)
    assert [one.text for one in zxingcpp.read_barcodes(seen, formats=zxingcpp.BarcodeFormat.QRCode)] == [code.text]
