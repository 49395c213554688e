"""Can a phase be read one step at a time and all at once, from the disk, without a script, and on paper?"""
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.pages import Contexts


@pytest.fixture
def page(context: Contexts) -> Page:
    """A phone that runs no scripts."""
    return context(java_script_enabled=False).new_page()


def shown(page: Page) -> list[str]:
    """The titles of the steps that are shown."""
    return page.locator("section.step:not(.holdpoint):visible > h2").all_inner_texts()


def held(page: Page) -> list[str]:
    """The heads of the hold points that are shown, where no step is."""
    return [] if shown(page) else page.locator("section.holdpoint:visible h2").all_inner_texts()


def opened(page: Page, demo: Path, phase: str, anchor: str = "") -> int:
    """Opens a phase; gives how many steps it has."""
    page.goto("about:blank")
    page.goto((demo / "installer" / "steps" / f"{phase}.html").as_uri() + anchor)
    return page.locator("section.step:not(.holdpoint)").count()


def act(page: Page, name: str) -> None:
    """Taps an action of the one screen that is shown."""
    page.locator(".thumb a:visible").filter(has_text=name).click()


def test_all_steps_are_shown_until_one_is_asked_for(demo: Path, page: Page) -> None:
    count = opened(page, demo, "fix")
    assert len(shown(page)) == count > 4 and page.locator(".thumb:visible").count() == 0
    page.click(".show >> text=One step at a time")
    # What the hold point of this step holds is its own work: it is met first.
    assert held(page) == ["Hold point H8"]
    act(page, "It holds: go on")
    first = shown(page)
    assert len(first) == 1
    act(page, "Done: next step")
    assert held(page) == ["Hold point H8"]
    act(page, "It holds: go on")
    second = shown(page)
    assert len(second) == 1 and second != first
    act(page, "Back")
    assert held(page) == ["Hold point H8"]
    act(page, "Back")
    assert shown(page) == first
    page.locator("label.fold:visible").click()
    page.click("section.step:visible .show >> text=All at once")
    assert len(shown(page)) == count


def test_a_hold_point_on_what_a_step_brings_is_met_after_it(demo: Path, page: Page) -> None:
    opened(page, demo, "enrol", "#enrol-d1")
    act(page, "Done: next step")
    assert held(page) == ["Hold point H10"] and not shown(page)
    act(page, "Back")
    assert shown(page) == ["Enrol D1"]
    page.locator(".thumb .edge:visible").last.click()
    act(page, "It holds: go on")
    assert len(shown(page)) == 1 and shown(page) != ["Enrol D1"]


def test_what_a_step_does_not_need_on_the_spot_is_one_tap_away(demo: Path, page: Page) -> None:
    opened(page, demo, "fix", "#fix-d1")
    assert not page.locator("text=this cannot be signed >> visible=true").count()
    page.locator("label.fold:visible").click()
    assert page.locator("text=this cannot be signed >> visible=true").count() == 1


def test_the_last_step_leads_to_the_next_phase(demo: Path, page: Page) -> None:
    opened(page, demo, "fix")
    last = page.locator("section.step").last
    page.goto(f"{page.url}#{last.locator('h2').get_attribute('id')}")
    page.locator(".thumb .act:visible").last.click()
    assert "steps/enrol.html" in page.url


def test_a_short_caution_leads_to_its_full_text(demo: Path, page: Page) -> None:
    opened(page, demo, "fix")
    line = page.locator(".safety.again > a").last
    target = line.get_attribute("href")
    page.goto(f"{page.url}#{line.locator('xpath=ancestor::section//h2').get_attribute('id')}")
    line.click()
    expect(page.locator(f"{target}")).to_be_in_viewport()
    assert len(shown(page)) == 1


def test_on_paper_every_step_stands_and_no_switch(demo: Path, page: Page) -> None:
    count = opened(page, demo, "fix", "#fix-d1")
    assert len(shown(page)) == 1
    page.emulate_media(media="print")
    assert len(shown(page)) == count and page.locator(":is(.show, .thumb, .fold, .then):visible").count() == 0


def test_a_tick_is_a_native_box_that_works_without_scripts(demo: Path, page: Page) -> None:
    opened(page, demo, "fix")
    label = page.locator("label.tick").first
    label.click()
    assert label.locator("input").is_checked()
    opened(page, demo, "fix")
    assert not page.locator("label.tick input").first.is_checked()
