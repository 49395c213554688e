"""Can the manual be read on a phone and on a desk, in light and dark, by eye, thumb and search?"""
from pathlib import Path

import pytest
from playwright.sync_api import Page

from generator.cli import parser
from generator.cli.manual import manual_site
from tests.browser.look import sideways_in_states, small_in_states, weak_in_states
from tests.browser.pages import RESULT, SCHEMES, search


def one_of_each_template() -> list[str]:
    """The last page that each template prints: of the ladder's, the longest."""
    return sorted({page.template: page.path for page in manual_site(parser()).pages}.values())


@pytest.mark.parametrize("path", one_of_each_template())
def test_a_page_fits_a_phone_its_targets_are_large_and_its_words_strong(manual: Path, phone: Page, path: str) -> None:
    phone.goto((manual / path).as_uri())
    out = sideways_in_states(phone) + small_in_states(phone)
    for scheme in SCHEMES:
        phone.emulate_media(color_scheme=scheme)
        out += [f"{scheme} {line}" for line in weak_in_states(phone)]
    assert not out, "\n".join(out)


def test_the_search_finds_a_key_from_a_file_without_a_network(manual: Path, phone: Page) -> None:
    phone.goto((manual / "index.html").as_uri())
    search(phone, "sounder_min")
    # The list grows for a moment after the first result stands; a result that never comes ends the test by its time.
    phone.locator(f"{RESULT}[href*='/keys/job.html'][href$='#times.sounder_min']").first.wait_for(state="attached")


def test_copied_lines_of_a_job_file_hold_no_mark(manual: Path, phone: Page) -> None:
    """Who copies the file of a rung gets what can be read: the marks beside its lines are not selected."""
    phone.goto((manual / "ladder" / "02-movement.html").as_uri())
    phone.evaluate("getSelection().selectAllChildren(document.querySelector('pre.lines ins:nth-of-type(2)'))")
    assert phone.evaluate("getSelection().toString()").strip().startswith("M1: {")
