"""Does every page fit a narrow phone without sideways scrolling, whatever the words?"""
from pathlib import Path

import pytest
from playwright.sync_api import Page

from tests.browser.look import Looks, sideways, sideways_in_states, small_in_states
from tests.browser.pages import AUDIENCES, PHONE, pages_of

NOWRAP = "overflow:hidden;white-space:nowrap"


@pytest.mark.parametrize("audience", AUDIENCES)
def test_no_page_scrolls_sideways_on_a_phone(looks: Looks, audience: str) -> None:
    assert not looks(audience).sideways, "\n".join(looks(audience).sideways)


@pytest.mark.parametrize("audience", AUDIENCES)
def test_no_page_scrolls_sideways_when_every_text_is_a_long_word(long_words: Path, phone: Page, audience: str) -> None:
    out = []
    for file in pages_of(long_words / audience):
        phone.goto(file.as_uri())
        assert "W" * 40 in phone.inner_text("body"), file.name
        out += [f"{file.name} {line}" for line in sideways_in_states(phone)]
    assert not out, "\n".join(out)


@pytest.mark.parametrize("file", ["slots.html", "steps/enrol.html"])
def test_a_long_page_of_the_large_job_fits_and_its_targets_are_large_enough(every_demo: Path, phone: Page, file: str) -> None:
    """32 zones, 38 units: the slot map, and the longest kind of page that leads from step to step."""
    phone.goto((every_demo / "K-2050" / "installer" / file).as_uri())
    assert phone.inner_text("article").count("GUEST SIDE WIN") >= 1
    assert not (out := sideways_in_states(phone) + small_in_states(phone)), "\n".join(out)


def test_the_slot_map_of_the_large_job_is_at_most_nine_screens_and_begins_with_where_there_is_room(every_demo: Path, phone: Page) -> None:
    phone.goto((every_demo / "K-2050" / "installer" / "slots.html").as_uri())
    # A row with a target of 56 px, 12 px from the next, is 68 px and more.
    assert phone.evaluate("document.scrollingElement.scrollHeight") <= 9 * PHONE["height"]
    ends = phone.evaluate("document.querySelector('.strip').getBoundingClientRect().bottom")
    assert ends < PHONE["height"], "the strip of zones is on the first screen"
    rows = phone.evaluate("[...document.querySelectorAll('.numbers tr')].map(row => row.getBoundingClientRect().height)")
    assert len(rows) > 40 and sorted(rows)[len(rows) // 2] * 2 <= PHONE["height"] / 3, "two rows and more fit a third of a screen"
    heads = phone.evaluate("[...document.querySelectorAll('article h2')].map(one => one.id)")
    assert heads[:3] == ["blocks", "add", "zones"]


@pytest.mark.parametrize(("body", "fault"), [
    ('<p style="white-space:nowrap">' + "word " * 99, "the page is"),
    ('<div style="overflow-x:auto"><div style="width:900px">x</div></div>', "scrolls sideways"),
    ('<div style="overflow:hidden"><div style="width:900px">x</div></div>', "ends at"),
    (f'<main><p style="{NOWRAP}">' + "word " * 99 + "</main>", "leaves the screen"),
    (f'<main><p style="{NOWRAP};width:50px">word word word</main>', "is cut off"),
])
def test_what_does_not_fit_is_found(phone: Page, body: str, fault: str) -> None:
    phone.goto("about:blank")
    phone.set_content(body)
    assert any(fault in line for line in sideways(phone))
