"""Can the plan be used on a phone: seen whole, enlarged without a script, its units opened by key, read in light and dark, and printed?"""
import re
from itertools import combinations
from pathlib import Path

import pytest
from playwright.sync_api import Page

from tests.browser.checker import faults
from tests.browser.contrast import parsed, ratio
from tests.browser.look import LEAST_CONTRAST, sideways_in_states, small_in_states, weak_in_states
from tests.browser.pages import PHONE, SCHEMES, Contexts
from tests.browser.test_browser_accessibility import AXE, grave
from tests.browser.test_browser_print import pieces_by_page

# WCAG 2.2, 1.4.11 Non-text Contrast.
LEAST_LINE = 3
BOXES = """() => [...document.querySelectorAll('.plan.scrolled svg')].map(svg => [...svg.querySelectorAll('text')]
    .filter(one => !one.closest('.foot-of-plan')).map(one => { const box = one.getBoundingClientRect();
    return [one.textContent, box.left, box.top + box.height * .15, box.right, box.bottom - box.height * .15]; }))"""


@pytest.fixture(scope="module")
def file(every_demo: Path) -> str:
    """The plan of the large job."""
    return (every_demo / "K-2050" / "installer" / "plan.html").as_uri()


@pytest.fixture
def page(context: Contexts, file: str) -> Page:
    """A phone that runs no scripts of pages, at the plan."""
    page = context(java_script_enabled=False).new_page()
    page.goto(file)
    return page


def test_the_page_is_valid_and_has_no_grave_fault_with_all_that_can_be_opened(phone: Page, every_demo: Path, file: str) -> None:
    assert not (out := faults([every_demo / "K-2050" / "installer" / "plan.html"])), "\n".join(out)
    phone.goto(file)
    phone.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
    phone.evaluate(AXE.read_text(encoding="utf-8"))
    for scheme in SCHEMES:
        phone.emulate_media(color_scheme=scheme)
        assert not (out := grave(phone)), "\n".join(out)


def overlapping(rows: list) -> list[tuple[str, str]]:
    return [(one[0], other[0]) for one, other in combinations(rows, 2)
            if one[1] < other[3] and other[1] < one[3] and one[2] < other[4] and other[2] < one[4]]


def test_nothing_is_wider_than_the_screen_and_each_mark_has_a_large_target_that_leads_to_the_same_page(phone: Page, file: str) -> None:
    phone.goto(file)
    phone.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
    # The outside sounder stands on the plot once more.
    assert phone.locator(".plan a").count() == 34 + 1
    assert not (out := sideways_in_states(phone) + small_in_states(phone)), "\n".join(out)
    # Without its equal in words the small mark is found.
    phone.evaluate("document.querySelectorAll('.on-plan').forEach(one => one.remove())")
    assert len(small_in_states(phone)) >= 34


def test_letters_of_the_whole_drawing_are_read_at_360_px_and_overlap_nowhere_at_any_size(phone: Page, file: str) -> None:
    phone.goto(file)
    for one in phone.locator(".storey .layer").all():
        one.click()
    phone.locator("input.of-links").evaluate_all("all => all.forEach(one => one.checked = true)")
    assert phone.locator(".way-name").count() == phone.locator(".gap-name").count() == 3 and phone.locator(".way-name").first.is_visible()
    for size, zoom in (("once", 1), ("twice", 2), ("four", 4)):
        # What a thumb hits is the label: the input itself is not seen.
        for one in phone.locator(f"input.{size} + label").all():
            one.click()
        assert phone.locator(f"input.{size}:checked").count() == 3
        drawn = phone.evaluate("document.querySelector('.plan.scrolled svg').getBoundingClientRect().width") / 340
        letters = phone.evaluate("[...document.querySelectorAll('.plan.scrolled text')].map(one => parseFloat(getComputedStyle(one).fontSize))")
        assert len(letters) > 50 and min(letters) * drawn >= 11
        assert drawn == pytest.approx(zoom * 326 / 340, rel=0.01)
        sheets = phone.evaluate(BOXES)
        # Of the plot only what stands outside is named.
        assert [len(one) > 15 for one in sheets] == [True, True, False] and sheets[2]
        assert not [pair for rows in sheets for pair in overlapping(rows)]


def test_the_drawing_is_enlarged_by_key_and_scrolls_in_its_box_alone_without_a_script(page: Page) -> None:
    box, svg = page.locator(".plan.scrolled").first, page.locator(".plan.scrolled svg").first
    before = svg.bounding_box()["width"]
    page.locator("input.once").first.focus()
    page.keyboard.press("ArrowRight")
    assert svg.bounding_box()["width"] == pytest.approx(2 * before, rel=0.01) and box.bounding_box()["width"] < PHONE["width"]
    page.keyboard.press("ArrowRight")
    assert svg.bounding_box()["width"] == pytest.approx(4 * before, rel=0.01)
    assert box.bounding_box()["height"] <= PHONE["height"]
    page.get_by_text("Whole", exact=True).first.click()
    assert svg.bounding_box()["width"] == pytest.approx(before)


def test_each_unit_is_reached_and_opened_by_key(page: Page) -> None:
    page.locator(".plan.scrolled").first.focus()
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    page.wait_for_url(re.compile(r"/d/\w+\.html$"))
    page.get_by_role("link", name="On the plan").click()
    page.wait_for_url(re.compile(r"plan\.html#unit-\w+$"))
    assert page.locator(".plan a:target").count() == 1


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_words_and_lines_are_seen_in_light_and_dark(phone: Page, file: str, scheme: str) -> None:
    phone.goto(file)
    phone.emulate_media(color_scheme=scheme)
    assert not (out := weak_in_states(phone)), "\n".join(out)
    ground = parsed(phone.evaluate("getComputedStyle(document.body).backgroundColor"))[0]

    def colours(selector: str, kind: str) -> set[str]:
        ask = "([selector, kind]) => [...document.querySelectorAll(selector)].map(one => getComputedStyle(one)[kind])"
        return set(phone.evaluate(ask, [selector, kind]))

    letters, lines = colours(".plan text", "fill"), colours(".plan :is(.link, .body, .mark, .leaf, .roof path, .thing path, .leader)", "stroke")
    assert len(letters) == 2 and len(lines) >= 4
    assert min(ratio(parsed(one)[0], ground) for one in letters) >= LEAST_CONTRAST
    assert min(ratio(parsed(one)[0], ground) for one in lines) >= LEAST_LINE
    dashes = [colours(f".plan .link.{level}", "strokeDasharray") for level in ("enough", "little", "short")]
    assert [len(one) for one in dashes] == [1, 1, 1] and len(set.union(*dashes)) == 3


def test_on_paper_each_storey_has_a_page_all_lines_are_black_and_the_key_is_there(phone: Page, file: str) -> None:
    phone.goto(file)
    pages = pieces_by_page(phone.pdf(format="A4"))
    # The answer and the key, a page a storey, the plot, what is carried.
    assert len(pages) == 5 and min(pages) > 5
    phone.locator("input.four").first.check(force=True)
    phone.emulate_media(media="print")
    lines = phone.evaluate("[...new Set([...document.querySelectorAll('.plan .link')].map(one => getComputedStyle(one).stroke))]")
    assert lines == ["rgb(0, 0, 0)"] and not phone.locator(".sheet label").first.is_visible()
    assert phone.locator(".plan.scrolled svg").first.bounding_box()["width"] <= PHONE["width"]


def test_ways_in_and_views_are_shown_and_links_hidden_by_key_without_a_script_and_paper_prints_what_is_shown(page: Page) -> None:
    parts = {kind: page.locator(f".plan.scrolled .{kind} path").first for kind in ("links", "ways-in", "views")}
    assert [one.is_visible() for one in parts.values()] == [True, False, False]
    for kind in ("links", "ways", "views"):
        page.locator(f"input.of-{kind}").first.focus()
        page.keyboard.press("Space")
    assert [one.is_visible() for one in parts.values()] == [False, True, True]
    assert page.locator(".gaps .unseen").first.is_hidden(), "the other drawing stays as it was"
    page.emulate_media(media="print")
    assert [one.is_visible() for one in parts.values()] == [False, True, True] and page.locator("ul.key").is_visible()
    assert not page.locator(".layer").first.is_visible()


def test_the_key_opens_on_a_phone_and_stands_open_on_a_wide_screen(page: Page) -> None:
    key = page.locator("ul.key")
    assert not key.is_visible()
    page.get_by_text("Key: what lines and marks mean").click()
    assert key.is_visible()
    page.get_by_text("Key: what lines and marks mean").click()
    page.set_viewport_size({"width": 1200, "height": 900})
    assert key.is_visible()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_areas_ways_and_gaps_are_told_apart_by_dashes_and_seen_on_the_ground(phone: Page, file: str, scheme: str) -> None:
    phone.goto(file)
    phone.emulate_media(color_scheme=scheme)
    ground = parsed(phone.evaluate("getComputedStyle(document.body).backgroundColor"))[0]
    kinds = (".seen", ".seen-low", ".way", ".unseen.high", ".roof path", ".link.little", ".link.short")
    styles = [phone.evaluate("one => { const own = getComputedStyle(document.querySelector('.plan.scrolled ' + one)); "
                             "return [own.stroke, own.strokeDasharray + ' ' + own.fillOpacity]; }", one) for one in kinds]
    assert len({dashes for _, dashes in styles}) == len(kinds)
    assert min(ratio(parsed(stroke)[0], ground) for stroke, _ in styles) >= LEAST_LINE
