"""What comes out of the printer: the sheets of a page as pictures and as text, by a reader of PDF that is not the browser's own."""
from dataclasses import dataclass

import numpy
import pypdfium2
from playwright.sync_api import Page

DPI = 300
DOT_MM = 25.4 / DPI
DARK = 128


@dataclass(frozen=True)
class Sheet:
    """One printed sheet: its size in mm, its text, its picture in red, green and blue at 300 dots an inch."""

    size: tuple[float, float]
    text: str
    picture: numpy.ndarray

    @property
    def ink(self) -> numpy.ndarray:
        """Where it is dark."""
        return self.picture.min(axis=2) < DARK


def printed(page: Page, **options: object) -> list[Sheet]:
    """The sheets of a page, on the paper that its own style asks for, else on the one that is named."""
    document = pypdfium2.PdfDocument(page.pdf(prefer_css_page_size=True, **options))
    try:
        return [_sheet(one) for one in document]
    finally:
        document.close()


def _sheet(one: pypdfium2.PdfPage) -> Sheet:
    width, height = one.get_size()
    text = one.get_textpage().get_text_range()
    return Sheet((width * 25.4 / 72, height * 25.4 / 72), text, one.render(scale=DPI / 72, rev_byteorder=True).to_numpy()[:, :, :3].copy())
