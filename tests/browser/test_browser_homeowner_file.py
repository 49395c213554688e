"""Can the file that is sent to the homeowner be read on a phone, by ear, magnified, and on paper?

18 points for large print: guidance on clear print (read second-hand). Headings in order: WCAG 2.2, 1.3.1, by habit. Magnified to twice
its size: WCAG 2.2, 1.4.4 Resize Text.
"""
import re
import shutil
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.checker import faults
from tests.browser.look import Look, look, sideways, sideways_in_states
from tests.browser.pages import PHONE, SCHEMES, Contexts, new_context, notice, outside
from tests.browser.test_browser_accessibility import AXE, grave

FILE = "homeowner.html"
JOBS = ("K-2041", "K-2050", "K-2058", "K-2061")
POINT = 96 / 72
SMALLEST = 18 * POINT
PAPERS = ("A4", "Letter")
# Chromium's own margins are about 10 mm.
MARGINS = dict.fromkeys(("top", "right", "bottom", "left"), "10mm")
PDF_PAGE = re.compile(rb"/Type\s*/Page\b(?!s)")
SIZES = """() => {
  const walk = document.createTreeWalker(document.querySelector(".large"), NodeFilter.SHOW_TEXT);
  const sizes = [];
  for (let node = walk.nextNode(); node; node = walk.nextNode()) {
    if (node.data.trim()) sizes.push(parseFloat(getComputedStyle(node.parentElement).fontSize));
  }
  return sizes;
}"""


@pytest.fixture(scope="module")
def sent(every_demo: Path, tmp_path_factory) -> Path:
    """A folder with the large job's file in it and nothing else, as it is when it was sent."""
    folder = tmp_path_factory.mktemp("sent")
    shutil.copy(every_demo / "K-2050" / FILE, folder)
    return folder


@pytest.fixture(scope="module")
def seen(chromium: Browser, sent: Path) -> Look:
    return look(chromium, sent)


def test_it_fits_a_narrow_phone_can_be_hit_and_read_in_light_and_dark(seen: Look) -> None:
    assert seen.targets[FILE] > 60
    assert (seen.sideways, seen.small, seen.weak) == ([], [], [])


def test_it_follows_the_phones_scheme(seen: Look) -> None:
    (light_ground, _), (dark_ground, _) = (seen.colours[FILE, scheme] for scheme in SCHEMES)
    assert min(light_ground) > 240 and max(dark_ground) < 40


def test_it_asks_for_nothing_and_every_link_leads_to_an_anchor_of_its_own(sent: Path, context: Contexts) -> None:
    window = context(offline=True)
    noticed, page = notice(window), window.new_page()
    page.goto((sent / FILE).as_uri())
    links, ids = page.evaluate("seen.links()"), set(page.evaluate("seen.ids()"))
    own = [one for one in links if not one.startswith("tel:")]
    assert len(own) > 60 and outside(own, (sent / FILE).as_uri()) == []
    assert [one for one in own if one.partition("#")[2] not in ids] == []
    assert noticed.requests == [(sent / FILE).as_uri()] and noticed.faults == []


def test_it_shows_the_same_without_scripts_and_holds_none(sent: Path, context: Contexts, seen: Look) -> None:
    page = context(java_script_enabled=False).new_page()
    page.goto((sent / FILE).as_uri())
    assert " ".join(page.locator("main").inner_text().split()) == seen.texts[FILE]
    assert "<script" not in (sent / FILE).read_text(encoding="utf-8")


def test_it_has_no_grave_fault_and_is_valid(sent: Path, phone: Page) -> None:
    phone.goto((sent / FILE).as_uri())
    phone.evaluate(AXE.read_text(encoding="utf-8"))
    for scheme in SCHEMES:
        phone.emulate_media(color_scheme=scheme)
        assert grave(phone) == []
    assert not (out := faults([sent / FILE])), "\n".join(out)


def skipped(levels: list[int]) -> list[tuple[int, int]]:
    """Headings that stand more than one level below the one before."""
    return [(one, other) for one, other in zip(levels, levels[1:]) if other > one + 1]


def test_its_headings_and_those_of_every_page_skip_no_level(every_demo: Path, phone: Page) -> None:
    pack = every_demo / "K-2050"
    for file in (pack / FILE, *(pack / "homeowner" / name for name in ("index.html", "when.html", "setting.html", "sheet.html", "care.html"))):
        phone.goto(file.as_uri())
        levels = phone.eval_on_selector_all("main :is(h1, h2, h3, h4)", "all => all.map(one => Number(one.tagName[1]))")
        assert levels[0] == 1 and levels.count(1) == 1 and skipped(levels) == [], file.name
    assert skipped([1, 2, 4]) == [(2, 4)]


@pytest.mark.parametrize("name", [FILE, "homeowner/setting.html", "homeowner/when.html", "homeowner/sheet.html"])
def test_letters_of_twice_the_size_still_fit_the_phone(every_demo: Path, phone: Page, name: str) -> None:
    phone.goto((every_demo / "K-2050" / name).as_uri())
    phone.add_style_tag(content="html { font-size: 200% !important }" if name == FILE else "html { font-size: 250% !important }")
    phone.set_viewport_size(PHONE)
    assert not (out := sideways(phone)), "\n".join(out)


def test_it_fits_when_every_text_is_a_long_word(long_words: Path, phone: Page) -> None:
    phone.goto((long_words / FILE).as_uri())
    assert "W" * 40 in phone.inner_text("body")
    assert not (out := sideways_in_states(phone)), "\n".join(out)


def shown_on_paper(page: Page) -> str:
    page.emulate_media(media="print")
    return " ".join(page.locator("body").inner_text().split())


@pytest.mark.parametrize("name", [FILE, "homeowner/setting.html", "homeowner/sheet.html"])
def test_the_time_to_turn_the_alarm_off_is_never_printed(every_demo: Path, phone: Page, name: str) -> None:
    phone.goto((every_demo / "K-2050" / name).as_uri())
    on_screen = " ".join(phone.locator("body").inner_text().split())
    assert ("30 seconds" in on_screen) == (name != "homeowner/sheet.html")
    paper = shown_on_paper(phone)
    assert "30 seconds" not in paper and ("45 seconds" in paper) == (name != "homeowner/sheet.html")


def sides(page: Page, paper: str) -> int:
    """How many sides of paper a page takes."""
    return len(PDF_PAGE.findall(page.pdf(format=paper, margin=MARGINS)))


@pytest.mark.parametrize("job", JOBS)
def test_the_sheet_is_two_sides_at_most_in_letters_of_18_points(every_demo: Path, phone: Page, job: str) -> None:
    phone.goto((every_demo / job / "homeowner" / "sheet.html").as_uri())
    assert {paper: count for paper in PAPERS if (count := sides(phone, paper)) > 2} == {}
    phone.emulate_media(media="print")
    sizes = phone.evaluate(SIZES)
    assert len(sizes) > 15 and min(sizes) >= SMALLEST - 0.01
    assert phone.eval_on_selector("main h1", "one => parseFloat(getComputedStyle(one).fontSize)") >= SMALLEST - 0.01


# What is left of a side within the margins, in CSS pixels (96 to 25.4 mm): A4 is 210 by 297 mm, Letter 215.9 by 279.4 mm.
FIRST_SIDE = {"A4": (718, 1047), "Letter": (740, 980)}


@pytest.mark.parametrize("job", JOBS)
@pytest.mark.parametrize("paper", PAPERS)
def test_danger_numbers_and_sounds_stand_on_the_first_side(every_demo: Path, phone: Page, job: str, paper: str) -> None:
    width, height = FIRST_SIDE[paper]
    phone.set_viewport_size({"width": width, "height": height})
    phone.goto((every_demo / job / "homeowner" / "sheet.html").as_uri())
    phone.emulate_media(media="print")
    ends = phone.evaluate("() => [document.querySelector('main .phones'), document.querySelector('#on').previousElementSibling]"
                          ".map(one => one.getBoundingClientRect().bottom + scrollY)")
    assert 0 < ends[0] < ends[1] < height


def test_the_sheet_in_the_file_is_as_large(every_demo: Path, phone: Page) -> None:
    phone.goto((every_demo / "K-2050" / FILE).as_uri())
    phone.emulate_media(media="print")
    sizes = phone.evaluate(SIZES)
    assert len(sizes) > 15 and min(sizes) >= SMALLEST - 0.01


def test_a_third_side_and_small_letters_are_seen(chromium: Browser) -> None:
    page = new_context(chromium).new_page()
    page.set_content("<div class='large' style='font-size:12pt'>" + "<p style='break-after:page'>side</p>" * 2 + "<p>side</p></div>")
    assert sides(page, "A4") == 3 and max(page.evaluate(SIZES)) < SMALLEST
