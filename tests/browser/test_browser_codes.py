"""Does a phone's camera read every printed code off the page, and does what it holds lead to the right page?

ISO/IEC 18004: a quiet zone of four modules round a QR code, finder patterns seven modules wide; level M mends 15 %.
"""
import io
import math
from collections.abc import Iterator
from pathlib import Path

import pytest
import zxingcpp
from PIL import Image
from playwright.sync_api import BrowserContext, Locator, Page, Route

from generator.calc.slots.references import ALPHABET, LENGTH
from tests.browser.jobs import ADDRESS, PATH_NAMES
from tests.browser.pages import SCHEMES, WITH_CODES, Contexts, notice, outside, pages_of

QUIET, FINDER = 4, 7
LEVELS = ("M", "Q", "H")
DARK = 128
SHEETS = ("labels.html", "labels-letter.html")
# Its one code opens the whole pack.
PAPER = "paper.html"


def picture(code: Locator) -> Image.Image:
    """A code as the screen shows it, without the pixels on its edge that it shares with what lies round it."""
    code.scroll_into_view_if_needed()
    box = code.bounding_box()
    assert box
    left, top = math.ceil(box["x"]), math.ceil(box["y"])
    clip = {"x": left, "y": top, "width": math.floor(box["x"] + box["width"]) - left,
            "height": math.floor(box["y"] + box["height"]) - top}
    return Image.open(io.BytesIO(code.page.screenshot(clip=clip))).convert("L")


def read(image: Image.Image) -> str:
    """What a scanner reads in a picture; the code must mend at least 15 %."""
    found = zxingcpp.read_barcodes(image, formats=zxingcpp.BarcodeFormat.QRCode)
    assert len(found) == 1, f"{len(found)} codes are seen"
    assert found[0].ec_level in LEVELS, f"level {found[0].ec_level}"
    return found[0].text


def margins(image: Image.Image) -> tuple[float, ...]:
    """The white margin on each side of a code, in modules; a module is a seventh of the finder pattern's upper edge."""
    dark = image.point(lambda light: 255 if light < DARK else 0)
    left, top, right, bottom = dark.getbbox()
    edge = next(x for x in range(left, right) if image.getpixel((x, top + 1)) >= DARK) - left
    module = edge / FINDER
    return tuple(side / module for side in (left, top, image.width - right, image.height - bottom))


def codes_of(page: Page, pack: Path) -> Iterator[tuple[str, str, Locator]]:
    """Every code of a pack: the file it stands in, the reference printed beside it, the code."""
    for file in pages_of(pack):
        if not codes_drawn(file):
            continue
        page.goto(file.as_uri())
        for holder in page.locator("figure.code, .labels > li").all():
            short = holder.locator("figcaption, .short").inner_text().strip()
            yield file.relative_to(pack).as_posix(), short, holder.locator("svg.qr")


def every_code(page: Page, pack: Path) -> dict[str, dict[str, str]]:
    """What each code holds, by file and the reference beside it; each is read off the screen in light and in dark."""
    found: dict[str, dict[str, str]] = {}
    for file, short, code in codes_of(page, pack):
        for scheme in SCHEMES:
            page.emulate_media(color_scheme=scheme)
            image = picture(code)
            held = read(image)
            # Pixels are whole and modules are not.
            assert round(min(margins(image))) >= QUIET, (file, scheme, margins(image))
            assert found.setdefault(file, {}).setdefault(short, held) == held
    return found


def codes_drawn(file: Path) -> int:
    """How many codes stand in a page."""
    return file.read_text(encoding="utf-8").count('class="qr"')


def all_drawn(pack: Path) -> int:
    """How many codes stand in all pages of a pack."""
    return sum(map(codes_drawn, pages_of(pack)))


def pop_sheets(codes: dict[str, dict[str, str]]) -> dict[str, str]:
    """Takes out what stands on sheets: the labels, which are those of the units' pages, and the code of the day on paper, which is given back."""
    labels, paper = [codes.pop(name) for name in SHEETS if name in codes], codes.pop(PAPER, {})
    assert labels and all(one == {short: held for page in codes.values() for short, held in page.items()} for one in labels)
    return paper


def stand_at_address(window: BrowserContext, packs: Path) -> None:
    """Answers for the published address out of the packs' folder: each reader's path name leads to their pack."""

    def answer(route: Route) -> None:
        name, _, path = route.request.url.removeprefix(ADDRESS).partition("?")[0].partition("/")
        audience = next((one for one, own in PATH_NAMES.items() if own == name), None)
        file = packs / str(audience) / path
        route.fulfill(path=file) if audience and file.is_file() else route.fulfill(status=404)

    window.route("**/*", lambda route: route.abort())
    window.route(f"{ADDRESS}**", answer)


@pytest.mark.parametrize("audience", WITH_CODES)
def test_every_code_is_read_off_the_screen_and_its_reference_leads_to_the_units_page(demo: Path, phone: Page,
                                                                                    audience: str) -> None:
    pack = demo / audience
    codes = every_code(phone, pack)
    assert sum(map(len, codes.values())) == all_drawn(pack) > 2
    pop_sheets(codes)
    for file, page in codes.items():
        ((short, held),) = page.items()
        assert held == short and len(short) == LENGTH and set(short) <= set(ALPHABET)
        phone.goto((pack / "codes.html").as_uri())
        phone.locator("a", has=phone.get_by_text(held, exact=True)).click()
        assert phone.url == (pack / file).as_uri()
        assert phone.inner_text("figure.code figcaption").strip() == short


@pytest.mark.parametrize("audience", WITH_CODES)
def test_a_published_code_is_a_link_that_opens_the_units_page(published: Path, context: Contexts,
                                                              phone: Page, audience: str) -> None:
    pack, root = published / audience, f"{ADDRESS}{PATH_NAMES[audience]}/"
    codes = every_code(phone, pack)
    assert sum(map(len, codes.values())) == all_drawn(pack) > 2
    paper = pop_sheets(codes)
    assert list(paper.values()) == ([f"{root}index.html"] if audience == "installer" else [])
    window = context()
    seen, page = notice(window), window.new_page()
    stand_at_address(window, published)
    for file, held in codes.items():
        ((short, link),) = held.items()
        assert link == root + file
        answer = page.goto(link)
        assert answer and answer.status == 200
        assert page.inner_text("figure.code figcaption").strip() == short
    assert outside(seen.requests, root) == []
    assert seen.faults == []


@pytest.mark.parametrize("audience", PATH_NAMES)
def test_no_pack_holds_the_path_name_of_another_reader(published: Path, audience: str) -> None:
    files = [path for path in (published / audience).rglob("*") if path.is_file()]
    assert files
    held = b"\n".join(path.read_bytes() + str(path).encode() for path in files)
    assert [other for other, name in PATH_NAMES.items() if other != audience and name.encode() in held] == []


@pytest.mark.parametrize("audience", [one for one in PATH_NAMES if one not in WITH_CODES])
def test_no_code_stands_where_nobody_scans(published: Path, audience: str) -> None:
    assert all_drawn(published / audience) == 0


def test_a_code_without_its_margin_or_of_a_low_level_is_found(phone: Page) -> None:
    code = zxingcpp.create_barcode("3NRW", zxingcpp.BarcodeFormat.QRCode, ec_level="L")
    bare = Image.fromarray(code.to_image(scale=4, add_quiet_zones=False)).convert("L")
    assert max(margins(bare)) == 0
    with pytest.raises(AssertionError, match="level L"):
        read(Image.fromarray(code.to_image(scale=4, add_quiet_zones=True)).convert("L"))
