"""The browser and the packs that browser tests open. A browser that is missing is a failure, never a skip."""
import copy
import functools
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

from tests.browser.jobs import ADDRESS, PATH_NAMES, build, fill
from tests.browser.look import Looks, look
from tests.browser.pages import Contexts, new_context
from tests.conftest import read_files

# No call of the browser's own may be mistaken for one of a page. A list of features here would replace Playwright's.
QUIET = ("--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update",
         "--disable-sync", "--disable-default-apps", "--disable-extensions", "--no-first-run",
         "--metrics-recording-only")


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """The browser, started once."""
    program = shutil.which("chromium")
    assert program, "the program chromium is not there; tests/browser/install.sh installs it"
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=program, args=list(QUIET))
        yield browser
        browser.close()


@pytest.fixture
def context(chromium: Browser) -> Iterator[Contexts]:
    """Makes contexts that look like a phone in light, unless told otherwise; closes them after the test."""
    made: list[BrowserContext] = []

    def make(**options: Any) -> BrowserContext:
        made.append(new_context(chromium, **options))
        return made[-1]

    yield make
    for one in made:
        one.close()


@pytest.fixture
def phone(context: Contexts) -> Page:
    """One page in a window of 360 x 740 CSS pixels."""
    return context().new_page()


@pytest.fixture(scope="session")
def looks(chromium: Browser, demo: Path) -> Looks:
    """One look at each reader's pack of the demo job, taken when it is first wanted."""
    return functools.cache(lambda audience: look(chromium, demo / audience))


@pytest.fixture(scope="session")
def published(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo job's packs, made to stand at a web address."""
    files = copy.deepcopy(read_files())
    files["job"]["publish"] = {"address": ADDRESS, **PATH_NAMES}
    return build(files, tmp_path_factory.mktemp("published"))


@pytest.fixture(scope="session")
def long_words(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo job's packs with every text one long word, every name as long as it may be."""
    files = copy.deepcopy(read_files())
    fill(files, lambda _: "W" * 200)
    job = files["job"]
    job["devices"] = {name.ljust(40, "W"): device for name, device in job["devices"].items()}
    job["control_unit"]["id"] = "CU".ljust(40, "W")
    job["users"]["1"]["fob"] = "F1".ljust(40, "W")
    for load in job["cables"]["sounder-run"]["loads"]:
        load["unit"] = load["unit"].ljust(40, "W")
    for device in job["devices"].values():
        device |= {key: "W" * 16 for key in ("text", "text_2") if key in device}
        device["serial"] = device["serial"].ljust(40, "W")
    return build(files, tmp_path_factory.mktemp("long"))
