"""Does the first screen of a phone show what can hurt, what is next and what is to be written down; does a tap on Done say no more than it may?"""
import re
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.pages import PHONE, Contexts
from tests.browser.test_browser_screens import PHASES, at

LINES = """() => [...document.querySelectorAll('section.step:not(.holdpoint)')].map(step => {
  location.hash = step.dataset.step;
  const count = step.querySelector('.count'), link = count.querySelector('a');
  return link && [step.dataset.step, link.textContent, count.scrollHeight <= count.clientHeight && link.scrollWidth <= link.clientWidth,
                  count.getBoundingClientRect().bottom, link.getBoundingClientRect().height, link.getAttribute('href')];
})"""


@pytest.mark.parametrize("scripts", [True, False], ids=["with scripts", "without"])
def test_the_three_worst_hazards_and_the_next_step_are_on_the_first_screen_and_the_draft_and_the_phone_below_it(demo: Path, context: Contexts, scripts: bool) -> None:
    page = context(java_script_enabled=scripts).new_page()
    at(page, demo, "index.html")
    following = page.locator("[data-next]").bounding_box()
    dangers = [one.bounding_box() for one in page.locator("#hazards ~ .safety.danger").all()]
    assert len(dangers) == 3 and all(box["y"] + box["height"] <= following["y"] for box in dangers)
    assert following["y"] + following["height"] <= PHONE["height"]
    # The next hold point stands whole between them, in words with what it asks, and is the way to its screen.
    hold = page.locator("[data-next-hold]")
    box = hold.bounding_box()
    assert dangers[-1]["y"] + dangers[-1]["height"] <= box["y"] and box["y"] + box["height"] <= following["y"]
    assert re.match(r"Next hold point\sH1, after its step: \w+", hold.inner_text()) and hold.locator("a").bounding_box()["height"] >= 56
    assert all(box["height"] <= PHONE["height"] / 10 for box in dangers)
    order = page.evaluate("""[...document.querySelectorAll('.safety.danger, [data-next], [data-next] ~ .state, .phone')]
        .map(one => one.matches('.safety') ? 'hazard' : one.matches('.phone') ? 'phone' : one.dataset.next === '' ? 'next' : 'draft')""")
    assert order == ["hazard"] * 3 + ["next", "draft", "phone"]


def test_a_line_in_the_head_of_each_step_says_what_is_to_be_written_down_and_fits_there(every_demo: Path, context: Contexts) -> None:
    page, found = context(java_script_enabled=False).new_page(), []
    for phase in PHASES:
        page.goto((every_demo / "K-2050" / "installer" / "steps" / f"{phase}.html").as_uri())
        found += [one for one in page.evaluate(LINES) if one]
    assert len(found) > 100
    assert not [one for one in found if not one[2] or one[3] > PHONE["height"] / 10 or one[4] < 56 or one[5] != f"#write-{one[0]}"]
    said = {one[0]: one[1] for one in found}
    assert said["enrol-d1"] == "To write: serial, 2 checks" and said["signal-m3"].startswith("To write: link, ")


def test_a_tap_on_it_leads_to_where_it_is_written_and_without_a_script_to_what_to_do_instead(demo: Path, context: Contexts) -> None:
    for scripts in (True, False):
        page = context(java_script_enabled=scripts).new_page()
        at(page, demo, "steps/enrol.html#enrol-d1")
        page.locator(".count a:visible").click()
        place = page.locator("#write-enrol-d1")
        if scripts:
            expect(place.locator("h3")).to_be_in_viewport()
            expect(place.locator("[data-what=serial]")).to_be_attached()
        else:
            assert "The day on paper" in place.evaluate("one => getComputedStyle(one, '::before').content")
        assert page.locator("section.step:not(.holdpoint):visible > h2").all_inner_texts() == ["Enrol D1"]


def test_done_with_nothing_written_down_keeps_the_step_alone(demo: Path, phone: Page) -> None:
    at(phone, demo, "steps/enrol.html#enrol-d1")
    expect(phone.locator("#write-enrol-d1 [data-what=serial]")).to_be_attached()
    # Asked for letters, and went on without.
    phone.evaluate("Doorpost.keep.by('')")
    phone.locator(".thumb:visible .done").click()
    # It halts once for what was not read; nothing is kept until the second tap.
    expect(phone.locator(".says:visible", has_text="Not read yet").first).to_be_visible()
    assert phone.evaluate("Doorpost.keep.all()") == []
    phone.locator(".thumb:visible .done").click()
    phone.wait_for_url("**#hold-enrol-d1")
    kept = phone.evaluate("Doorpost.keep.all()")
    assert [(one["step"], one["what"], one["result"], one["value"]) for one in kept] == [("enrol-d1", "step", "done", "")]
