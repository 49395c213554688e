"""Is a text that was typed but not yet kept lost when its tab is shut, whatever other tabs do?

A page that is shut waits for no store: what is under way is left as a draft, and another opening of the pack keeps it.
"""
import json
import shutil
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from tests.browser.conftest import QUIET
from tests.browser.hand import ADD, ALL, LINK, RESULTS, STATE
from tests.browser.pages import Contexts, served

DRAFTS = "() => Object.keys(localStorage).filter(key => key.startsWith('doorpost K'))"
# As a phone leaves them: the moment is too short to be caught each time.
LEFT = "([opening, all]) => localStorage.setItem(`doorpost ${DOORPOST.reference} ${opening}`, JSON.stringify(all))"
AS_TYPED = dict.fromkeys(("value", "unit", "result", "note"), "")
PATIENCE = 10


@pytest.fixture(scope="module")
def root(demo: Path) -> Iterator[str]:
    with served(demo / "installer") as address:
        yield address


def words(page: Page, unit: str):
    """Where free words are typed at the step in which a unit is enrolled."""
    return page.locator(f"[data-step=enrol-{unit}]:not([data-hold]) fieldset[data-what=note]").get_by_label("Free words")


def typing(window: BrowserContext, root: str, unit: str, text: str) -> Page:
    """A tab in which somebody types and has not paused yet."""
    page = window.new_page()
    page.goto(f"{root}steps/enrol.html#enrol-{unit}")
    words(page, unit).fill(text)
    return page


def keeps(page: Page, *texts: str) -> None:
    """Waits until the phone keeps each of the texts, and each once."""
    until = time.monotonic() + PATIENCE
    while not set(texts) <= set(values(page)) or page.evaluate(DRAFTS):
        assert time.monotonic() < until, (values(page), page.evaluate(DRAFTS))
        page.wait_for_timeout(50)
    assert sorted(values(page)) == sorted(texts)


def values(page: Page) -> list[str]:
    return [one["value"] for one in page.evaluate(ALL)]


def test_two_tabs_shut_one_after_the_other_with_text_in_them_lose_neither(context: Contexts, root: str) -> None:
    window = context()
    for page in [typing(window, root, "d1", "typed in the first"), typing(window, root, "d2", "typed in the second")]:
        page.close(run_before_unload=True)
    page = window.new_page()
    page.goto(root + RESULTS)
    keeps(page, "typed in the first", "typed in the second")


def test_what_another_tab_writes_takes_nothing_away_from_one_that_was_shut(context: Contexts, root: str) -> None:
    window = context()
    other, first = typing(window, root, "d2", ""), typing(window, root, "d1", "typed and shut")
    first.close(run_before_unload=True)
    words(other, "d2").fill("written since")
    words(other, "d2").blur()
    expect(words(other, "d2").locator("xpath=ancestor::fieldset").locator(".kept")).to_have_text("Kept.")
    other.reload()
    keeps(other, "typed and shut", "written since")


def test_drafts_of_two_openings_that_are_gone_are_taken_up_by_a_tab_that_one_turns_to(context: Contexts, root: str) -> None:
    window = context()
    page = window.new_page()
    page.goto(root + RESULTS)
    for opening, unit in (("aaaaaa", "D1"), ("bbbbbb", "D2")):
        page.evaluate(LEFT, [opening, [AS_TYPED | {"device": unit, "step": f"enrol-{unit.lower()}", "what": "note", "value": f"words of {unit}"}]])
    page.evaluate("() => { dispatchEvent(new Event('focus')); }")
    keeps(page, "words of D1", "words of D2")


def test_what_was_kept_after_all_is_not_written_twice_and_a_draft_that_cannot_be_kept_stays(context: Contexts, root: str) -> None:
    window = context()
    page = window.new_page()
    page.goto(root + RESULTS)
    made = page.evaluate(ADD, LINK | {"value": "12"})
    page.evaluate(LEFT, ["aaaaaa", [AS_TYPED | LINK | {"value": "12"}]])
    page.reload()
    page.wait_for_function(f"!({DRAFTS})().length")
    assert page.evaluate(ALL) == [made]
    page.evaluate(LEFT, ["bbbbbb", [AS_TYPED | LINK | {"value": "14"}]])
    page.goto("about:blank")
    full = window.new_page()
    full.add_init_script("IDBObjectStore.prototype.put = () => { throw new DOMException('', 'QuotaExceededError'); }")
    full.goto(root + RESULTS)
    expect(full.locator("[data-part=kept].warn")).to_be_visible()
    full.wait_for_timeout(600)
    assert len(full.evaluate(DRAFTS)) == 1
    full.close()
    page.goto(root + RESULTS)
    keeps(page, "12", "14")


def test_a_name_that_was_drawn_as_the_page_was_shut_is_kept_with_its_lines(context: Contexts, root: str) -> None:
    window = context()
    page = window.new_page()
    page.goto(f"{root}steps/leave.html#sign")
    pad = page.locator("[data-step=sign]:not([data-hold]) fieldset[data-what='signature/customer'] canvas")
    pad.scroll_into_view_if_needed()
    box = pad.bounding_box()
    page.mouse.move(box["x"] + 30, box["y"] + 30)
    page.mouse.down()
    page.mouse.move(box["x"] + 200, box["y"] + 60, steps=4)
    page.mouse.up()
    page.close(run_before_unload=True)
    page = window.new_page()
    page.goto(root + RESULTS)
    page.wait_for_timeout(1000)
    held = page.evaluate("() => Doorpost.keep.held()")
    assert [one["value"] for one in held["entries"]] == list(held["signatures"]) != []


def test_where_storage_is_refused_whoever_types_is_told_so_in_words_of_the_pack(chromium: Browser, root: str, tmp_path: Path) -> None:
    (tmp_path / "Default").mkdir()
    (tmp_path / "Default" / "Preferences").write_text(json.dumps({"profile": {"default_content_setting_values": {"cookies": 2}}}))
    window = chromium.browser_type.launch_persistent_context(tmp_path, executable_path=shutil.which("chromium"), args=list(QUIET))
    try:
        page = typing(window, root, "d1", "typed")
        words(page, "d1").blur()
        expect(page.locator("[data-step=enrol-d1]:not([data-hold]) fieldset[data-what=note] .kept")).to_have_text(f"NOT KEPT. {page.evaluate(STATE)['why']}")
    finally:
        window.close()
