"""Is the one file that is carried readable on a phone with and without scripts, and does it take down there what the folder takes down?"""
import json
import shutil
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from generator.publish.pocket import NAME
from tests.browser.checker import faults
from tests.browser.look import small, sideways, weak
from tests.browser.pages import SCHEMES, Contexts, new_context, notice
from tests.browser.test_browser_accessibility import AXE, grave

# One place of each kind, by its anchor.
PLACES = ("index-html", "safety-html", "read-pack", "fix-m1", "_hold", "tests-html", "plan-html", "radio-html", "d-g6xc-html", "find-html", "carry-html", "pages")


@pytest.fixture(scope="module")
def sent(every_demo: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The large job's file in a folder of its own, as it is when it was sent."""
    return Path(shutil.copy(every_demo / "K-2050" / NAME, tmp_path_factory.mktemp("sent")))


@pytest.fixture(scope="module")
def open_file(chromium: Browser, sent: Path) -> Page:
    """The file, opened once with the network cut."""
    window = new_context(chromium, offline=True)
    page = window.new_page()
    page.noticed = notice(window)
    page.goto(sent.as_uri())
    yield page
    window.close()


def at(page: Page, place: str) -> None:
    """Goes to a place as a tap on a link does; the hold point is that of the first step."""
    anchor = page.evaluate("document.querySelector('[data-hold] h2').id") if place == "_hold" else place
    page.evaluate("anchor => { location.hash = anchor; }", anchor)
    page.wait_for_function("anchor => document.querySelector(':target')?.id === anchor", arg=anchor)


@pytest.mark.parametrize("place", PLACES)
def test_each_kind_of_place_fits_a_narrow_phone_can_be_hit_and_read_in_light_and_dark(open_file: Page, place: str) -> None:
    at(open_file, place)
    # On the drawing a unit is as large as there is room; each stands below it in a line that a thumb hits.
    found = [sideways(open_file), [one for one in small(open_file) if place != "plan-html"]]
    for scheme in SCHEMES:
        open_file.emulate_media(color_scheme=scheme)
        found.append(weak(open_file, "main"))
    open_file.emulate_media(color_scheme="light")
    assert found == [[], [], [], []]


def test_it_asks_for_nothing_but_itself_and_complains_of_nothing(open_file: Page, sent: Path) -> None:
    assert {one for one in open_file.noticed.requests if not one.startswith(("data:", "about:"))} == {sent.as_uri()}
    assert (open_file.noticed.faults, open_file.noticed.dialogs) == ([], [])


def test_a_tap_shows_one_page_and_of_steps_one_alone(open_file: Page) -> None:
    at(open_file, "fix-m1")
    steps = "[...document.querySelectorAll('[data-step]')].filter(one => one.checkVisibility()).map(one => one.dataset.step)"
    assert open_file.evaluate(steps) == ["fix-m1"]
    assert open_file.evaluate("[...document.querySelector('main').children].filter(one => one.checkVisibility()).map(one => one.id)") == ["steps-fix-html"]
    at(open_file, "whole")
    assert open_file.evaluate("[...document.querySelector('main').children].filter(one => !one.checkVisibility()).length") == 0


def test_of_a_step_alone_count_and_actions_are_fixed_to_the_screen_and_lie_over_no_word(open_file: Page) -> None:
    at(open_file, "fix-m1")
    step = open_file.locator("[data-step=fix-m1]:not([data-hold])")
    count, title, acts = step.locator("p").first, step.locator("h2"), step.locator("nav")
    boxes = [one.bounding_box() for one in (count, title, acts)]
    assert boxes[0]["y"] == 0 and boxes[1]["y"] >= boxes[0]["height"]
    assert boxes[2]["y"] + boxes[2]["height"] == pytest.approx(open_file.viewport_size["height"], abs=1)


def test_the_script_is_told_the_same_as_in_the_folder(open_file: Page, every_demo: Path, context: Contexts) -> None:
    folder = context().new_page()
    folder.goto((every_demo / "K-2050" / "installer" / "changes.html").as_uri())
    own, other = (one.evaluate("JSON.stringify(DOORPOST)") for one in (folder, open_file))
    own, other = json.loads(own), json.loads(other)
    for step in own["steps"]:
        step["page"] = "#" + step["page"].partition("#")[2]
    assert len(own["asked"]) > 1000 and own == other


def test_the_finder_leads_to_the_unit_and_what_is_written_at_a_step_is_kept_in_the_file(sent: Path, context: Contexts) -> None:
    window = context(offline=True)
    page = window.new_page()
    page.goto(sent.as_uri() + "#find-html")
    page.locator("[data-find] input").first.fill("10A3F7")
    page.locator("[data-find]").get_by_text("All about D3").click()
    expect(page.locator("#d-g6xc-html h1")).to_be_visible()
    page.goto(sent.as_uri() + "#read-pack")
    # Somebody who was asked for letters and went on without.
    page.evaluate("Doorpost.keep.by('')")
    page.locator("[data-step=read-pack] [data-act=done]").click()
    kept = "Doorpost.keep.all().then(all => all.filter(one => one.step === 'read-pack' && one.what === 'step').length)"
    # A promise is no answer to wait for: it is asked again until what it brings is right.
    for _ in range(50):
        if page.evaluate(kept):
            break
        page.wait_for_timeout(100)
    page.reload()
    assert page.evaluate(kept) == 1


def test_without_scripts_each_step_and_unit_can_be_read_one_at_a_time(sent: Path, context: Contexts) -> None:
    page = context(java_script_enabled=False, offline=True).new_page()
    page.goto(sent.as_uri())
    expect(page.locator("#index-html h1")).to_be_visible()
    expect(page.locator("#d-g6xc-html")).to_be_visible()
    page.locator("header a").first.click()
    expect(page.locator("#d-g6xc-html")).to_be_hidden()
    page.locator("#pages").get_by_text("Arrive", exact=True).click()
    page.locator("#steps-arrive-html").get_by_text("One step at a time").click()
    first = page.locator("[data-step=read-pack]:not([data-hold])")
    expect(first).to_be_visible()
    first.locator("[data-act=done]").click()
    expect(page.locator("[data-step=read-pack][data-hold]")).to_be_visible()
    expect(first).to_be_hidden()
    page.locator("[data-step=read-pack][data-hold] a").last.click()
    expect(page.locator("[data-step=walk-round]:not([data-hold])")).to_be_visible()


def test_it_is_valid_and_a_step_has_no_grave_fault(open_file: Page, sent: Path) -> None:
    assert not (out := faults([sent])), "\n".join(out)
    open_file.evaluate(AXE.read_text(encoding="utf-8"))
    at(open_file, "fix-m1")
    # All else is hidden: left out of the question, it costs no time either.
    open_file.evaluate("document.querySelectorAll('main > :not(:has(:target))').forEach(one => one.remove())")
    assert grave(open_file) == []
    open_file.reload()


def test_the_bar_of_a_step_and_its_count_are_fixed_to_the_screen_as_on_the_pages(open_file: Page) -> None:
    for place in ("enrol-d1", "_hold"):
        at(open_file, place)
        high = open_file.viewport_size["height"]
        for top in (0, 300):
            open_file.evaluate("top => scrollTo(0, top)", top)
            bar, said = (open_file.evaluate(f"[...document.querySelectorAll('{one}')].find(one => one.checkVisibility()).getBoundingClientRect().toJSON()")
                         for one in (".step:has(:target) [data-act]:last-of-type", ".step:has(:target) > p:first-child"))
            assert high * 2 / 3 < bar["top"] and bar["bottom"] <= high and said["top"] == 0
