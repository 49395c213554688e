"""Is an entry that was shown as kept still there when the browser was killed a second later? Twenty times, in four profiles at once."""
import time
from contextlib import ExitStack
from pathlib import Path

from playwright.sync_api import Browser, Page

from tests.browser.hand import ADD, ALL, LINK, RESULTS, process
from tests.browser.pages import served

PROFILES, ROUNDS = 4, 5
SHOWN = "note => [...document.querySelectorAll('[data-part=list] bdi')].some(one => one.textContent === note)"


def test_nothing_that_was_shown_as_kept_is_lost_when_the_browser_is_killed_a_second_later(demo: Path, chromium: Browser, tmp_path: Path) -> None:
    written: list[list[str]] = [[] for _ in range(PROFILES)]
    with served(demo / "installer") as root:
        for turn in range(ROUNDS):
            with ExitStack() as stack:
                running = [stack.enter_context(process(chromium, tmp_path / str(one))) for one in range(PROFILES)]
                for one, (page, _) in enumerate(running):
                    assert _kept(page, root) == written[one]
                    _write(page, f"round {turn}")
                    written[one].append(f"round {turn}")
                time.sleep(1)
                for _, kill in running:
                    kill()
        for one in range(PROFILES):
            with process(chromium, tmp_path / str(one)) as (page, _):
                assert _kept(page, root) == written[one] and len(written[one]) == ROUNDS


def _kept(page: Page, root: str) -> list[str]:
    page.goto(f"{root}{RESULTS}")
    return [one["note"] for one in sorted(page.evaluate(ALL), key=lambda one: one["id"][16:])]


def _write(page: Page, note: str) -> None:
    """Writes an entry and waits until the page shows it."""
    page.evaluate(f"thing => {{ ({ADD})(thing); }}", LINK | {"note": note})
    page.wait_for_function(SHOWN, arg=note)
