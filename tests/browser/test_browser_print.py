"""Does a document come out of the printer whole: every page with something on it, in A4 and Letter?"""
from pathlib import Path

import pypdfium2
import pytest
from playwright.sync_api import Page
from pypdfium2.raw import FPDF_PAGEOBJ_TEXT

from tests.browser.pages import pages_of

# A page with nothing but its own number shows fewer pieces of text than this.
LEAST = 10
UNNUMBERED = "@page { @bottom-right { content: none } } @page paper { @bottom-right { content: none } }"


def pieces_by_page(pdf: bytes) -> list[int]:
    """How many pieces of text each page of a PDF shows."""
    document = pypdfium2.PdfDocument(pdf)
    return [sum(1 for _ in page.get_objects(filter=[FPDF_PAGEOBJ_TEXT])) for page in document]


@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_no_page_of_a_printed_document_is_empty_and_each_is_numbered(demo: Path, phone: Page, size: str) -> None:
    documents = [path for path in pages_of(demo / "record") if 'class="paper"' in path.read_text(encoding="utf-8")]
    # Eleven documents, and what was found on site beside the plan.
    assert len(documents) == 12
    for path in [*documents, demo / "station" / "index.html"]:
        phone.goto(path.as_uri())
        numbered = pieces_by_page(phone.pdf(format=size))
        # The name of the page goes, and its number with it.
        phone.add_style_tag(content=UNNUMBERED)
        bare = pieces_by_page(phone.pdf(format=size))
        assert len(numbered) == len(bare) and all(one > other for one, other in zip(numbered, bare)), path.name
        assert min(numbered) >= LEAST or len(numbered) > 1 and min(numbered[:-1]) >= LEAST, f"{path.name}: {numbered}"


def test_a_table_to_write_on_has_room_on_paper_and_none_on_a_phone(demo: Path, phone: Page) -> None:
    phone.goto((demo / "record" / "log-book.html").as_uri())
    cells = phone.locator("table.write td")
    assert cells.count() > 100 and not cells.first.is_visible()
    phone.set_viewport_size({"width": 720, "height": 1000})
    phone.emulate_media(media="print")
    assert cells.first.bounding_box()["height"] > 20 and cells.first.bounding_box()["width"] > 60
