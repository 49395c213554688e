"""Can a thumb hit everything that can be tapped? 44 x 44 CSS px: WCAG 2.2, 2.5.5 Target Size (Enhanced)."""
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.look import Looks, small
from tests.browser.pages import AUDIENCES, RESULT, STARTS, WITH_DRAWER, search


@pytest.mark.parametrize("audience", AUDIENCES)
def test_every_target_is_large_enough_with_drawer_and_search_shut_and_open(looks: Looks, audience: str) -> None:
    assert not looks(audience).small, "\n".join(looks(audience).small)


@pytest.mark.parametrize("audience", WITH_DRAWER)
def test_every_page_has_targets_that_were_measured(looks: Looks, audience: str) -> None:
    assert min(looks(audience).targets.values()) >= 2


@pytest.mark.parametrize("start", STARTS)
def test_every_target_among_the_results_of_a_search_is_large_enough(demo: Path, phone: Page, start: str) -> None:
    phone.goto((demo / "installer" / start).as_uri())
    search(phone, "hall")
    expect(phone.locator(RESULT).first).to_be_visible()
    phone.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
    assert phone.evaluate("seen.targets().filter(one => one.closest('.md-search-result')).length") > 2
    assert not (out := small(phone)), "\n".join(out)


@pytest.mark.parametrize("target", ['<a href="#x">x</a>', "<button>x</button>", '<input type="checkbox">',
                                    '<label for="x">x</label>', "<details><summary>x</summary></details>",
                                    '<a href="#x" style="display:block;height:44px;width:43px">x</a>'])
def test_a_small_target_is_found(phone: Page, target: str) -> None:
    phone.goto("about:blank")
    phone.set_content(target)
    assert len(small(phone)) == 1
