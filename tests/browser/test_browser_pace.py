"""How fast is the pack in a hand: its first page against a blank one of the theme, a step against the load of its page, on a slow processor?

Ratios of medians, measured by turns in one run; absolute times mean nothing on a shared machine. "Usable": the page is painted, its scripts
have run, and a tap on its first action is answered; for the blank page, a tap on its first link.
"""
from collections.abc import Iterator
from pathlib import Path
from statistics import median

import pytest
from playwright.sync_api import Browser, Page as Tab

from generator.pages.codes import CodesView
from generator.pages.page import Page, Site
from generator.publish.site import write_with_mkdocs
from tests.browser.pages import new_context, served

pytestmark = pytest.mark.alone
# A cheap phone against this machine: what browsers' own tools call a low-tier device, from memory.
SLOWER = 6
ROUNDS = 5
FIRST_PAGE, NEXT_STEP = 1.5, 0.2
TAPPED = """() => addEventListener("DOMContentLoaded", () => setTimeout(() => requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(() => {
  const link = document.querySelector("main [data-next] a, main a, header a");
  link.addEventListener("click", event => { event.preventDefault(); window.answered = performance.now(); }, true);
  link.click();
})))))"""
STEP = """() => new Promise(done => {
  const [one, other] = document.querySelectorAll("[data-step]:not([data-hold])");
  const from = performance.now(), act = one.querySelector("[data-act=done]");
  const shown = () => one.checkVisibility() ? requestAnimationFrame(shown) : requestAnimationFrame(() => setTimeout(() => done(performance.now() - from)));
  act.click();
  shown();
})"""


@pytest.fixture(scope="module")
def blank(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A page of the theme, with its search, that says next to nothing."""
    folder = tmp_path_factory.mktemp("blank")
    write_with_mkdocs(Site("Blank", (), True, (Page("index.html", "Blank", "shared/codes.html.j2", CodesView(())),)), folder)
    return folder


@pytest.fixture
def slow(chromium: Browser) -> Iterator[Tab]:
    """A page on a processor so much slower, which keeps nothing of what it loads."""
    window = new_context(chromium)
    page = window.new_page()
    tools = window.new_cdp_session(page)
    tools.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    tools.send("Network.setCacheDisabled", {"cacheDisabled": True})
    yield page
    window.close()


def usable(page: Tab, address: str) -> float:
    """Milliseconds from the call for a page until it answers a tap."""
    page.goto(address, wait_until="commit")
    page.wait_for_function("window.answered")
    return page.evaluate("window.answered")


def test_the_first_page_is_usable_within_one_and_a_half_times_a_blank_page_of_the_theme(every_demo: Path, blank: Path, slow: Tab) -> None:
    slow.add_init_script(f"({TAPPED})()")
    with served(every_demo / "K-2050" / "installer") as pack, served(blank) as other:
        usable(slow, other), usable(slow, pack)
        pairs = [(usable(slow, f"{other}index.html"), usable(slow, f"{pack}index.html")) for _ in range(ROUNDS)]
    empty, full = (median(times) for times in zip(*pairs))
    print(f"first page {full:.0f} ms, blank page {empty:.0f} ms: {full / empty:.2f}")
    assert full / empty <= FIRST_PAGE, pairs


def test_from_step_to_step_is_a_fifth_of_the_load_of_their_page_at_most(every_demo: Path, slow: Tab) -> None:
    slow.add_init_script(f"({TAPPED})()")
    loads, steps = [], []
    with served(every_demo / "K-2050" / "installer") as pack:
        for _ in range(ROUNDS):
            loads.append(usable(slow, f"{pack}steps/fix.html"))
            first = slow.evaluate("document.querySelector('[data-step]').dataset.step")
            # Asked for letters, and went on without: the tap is to lead on.
            slow.evaluate("Doorpost.keep.by('')")
            slow.evaluate("first => { location.hash = first; }", first)
            slow.wait_for_function("document.querySelector('.step :target')")
            slow.wait_for_timeout(500)
            # The first tap names what was not read; the second leads on, and is measured.
            slow.evaluate("document.querySelector('[data-step]:not([data-hold]) [data-act=done]').click()")
            slow.wait_for_timeout(500)
            steps.append(slow.evaluate(STEP))
    print(f"step {median(steps):.0f} ms, load {median(loads):.0f} ms: {median(steps) / median(loads):.2f}")
    assert median(steps) / median(loads) <= NEXT_STEP, (loads, steps)


def test_what_is_slow_is_seen(blank: Path, slow: Tab) -> None:
    slow.add_init_script(f"({TAPPED})()")
    with served(blank) as root:
        quick = median(usable(slow, root) for _ in range(3))
        slow.add_init_script("addEventListener('DOMContentLoaded', () => { for (const end = performance.now() + 2000; performance.now() < end;); })")
        assert usable(slow, root) > quick + 1500
