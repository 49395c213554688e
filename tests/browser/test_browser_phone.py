"""Does a phone keep the whole pack after one opening, say so only when it has it all, and take a newer one only when asked?

Played on loopback, which a browser trusts as it does HTTPS. No phone was held: the same browser on a laptop stands for Android's.
"""
import copy
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from generator.publish.phone import FOR_FILES, WORKER
from tests.browser.jobs import ADDRESS, PATH_NAMES, build
from tests.browser.pages import Contexts, pages_of, served
from tests.conftest import read_files

HAS_ALL = "This phone has it all"
HAS_NOT = "This phone does not have it all"
NEWER = "A newer pack exists"
# What a slow machine takes for a pack, in ms.
PATIENCE = 30_000


@pytest.fixture(scope="session")
def newer(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The installer's pack of the same job with another title."""
    files = copy.deepcopy(read_files())
    files["job"]["publish"] = {"address": ADDRESS, **PATH_NAMES}
    files["job"]["title"] = "Renamed Cottage"
    return build(files, tmp_path_factory.mktemp("newer")) / "installer"


@pytest.fixture
def site(published: Path, tmp_path: Path) -> Path:
    """A copy of the published installer's pack, to be changed."""
    return shutil.copytree(published / "installer", tmp_path / "site")


@pytest.fixture
def window(context: Contexts) -> BrowserContext:
    return context(service_workers="allow")


def state(page: Page):
    """What the page says of this phone."""
    return page.locator("[data-phone]").first


def says(page: Page, text: str) -> None:
    """Waits until the page shows it; what is hidden says nothing."""
    expect(state(page)).to_contain_text(text, timeout=PATIENCE, use_inner_text=True)


def says_not(page: Page, text: str) -> None:
    expect(state(page)).not_to_contain_text(text, use_inner_text=True)


def opened(window: BrowserContext, address: str) -> Page:
    page = window.new_page()
    page.goto(address)
    return page


def test_one_opening_keeps_every_page_with_the_network_cut_and_the_server_gone(site: Path, window: BrowserContext) -> None:
    pages = [file.relative_to(site).as_posix() for file in pages_of(site)]
    with served(site) as root:
        page = opened(window, root + "index.html")
        says(page, HAS_ALL)
        files = {one.relative_to(site).as_posix() for one in site.rglob("*") if one.is_file()} - {WORKER, FOR_FILES}
        expect(state(page).locator("[data-files]")).to_have_text(str(len(files)))
    window.set_offline(True)
    shown = {}
    for name in pages:
        page.goto(root + name, wait_until="commit")
        shown[name] = page.locator("h1").first.inner_text()
    assert len(pages) > 30 and all(shown.values())
    # The way by which a home screen opens it, and the index of the search.
    page.goto(root)
    says(page, HAS_ALL)
    assert page.evaluate("fetch('search/search_index.json').then(one => one.json()).then(one => one.docs.length)") > len(pages)


def test_a_page_that_is_not_the_start_keeps_the_pack_too(site: Path, window: BrowserContext) -> None:
    with served(site) as root:
        page = opened(window, root + next(site.glob("d/*.html")).relative_to(site).as_posix())
        page.evaluate("navigator.serviceWorker.ready.then(() => 0)")
        page.goto(root + "carry.html")
        says(page, HAS_ALL)


def replaced(site: Path, other: Path) -> None:
    shutil.rmtree(site)
    shutil.copytree(other, site)


def test_a_newer_pack_is_noticed_and_taken_only_when_asked(site: Path, newer: Path, window: BrowserContext) -> None:
    with served(site) as root:
        page = opened(window, root + "index.html")
        says(page, HAS_ALL)
        before = page.locator("h1").inner_text()
        step = opened(window, root + "steps/fix.html")
        replaced(site, newer)
        page.reload()
        says(page, NEWER)
        # Not by itself: pages that are opened now are still those of the pack that was kept.
        assert page.locator("h1").inner_text() == before
        page.reload()
        assert page.locator("h1").inner_text() == before
        says(page, NEWER)
        step.evaluate("window.still = 'here'")
        page.click("[data-take]")
        expect(page.locator("h1")).to_have_text("Renamed Cottage")
        says(page, HAS_ALL)
        says_not(page, NEWER)
        # Somebody may stand at the step on the other page.
        assert step.evaluate("window.still") == "here"
    window.set_offline(True)
    page.goto(root + "steps/fix.html")
    assert "Renamed Cottage" in page.content()
    assert page.evaluate("caches.keys().then(one => one.length)") == 1


def missing(file: Path) -> None:
    file.unlink()


def cut_off(file: Path) -> None:
    file.write_bytes(file.read_bytes()[:-100])


def another(file: Path) -> None:
    file.write_text("<!doctype html><title>Sign in</title><h1>Sign in to this network</h1>", encoding="utf-8")


@pytest.mark.parametrize("break_it", [missing, cut_off, another])
def test_a_broken_download_never_says_that_it_is_whole_and_is_mended_by_another_opening(
        site: Path, window: BrowserContext, break_it: Callable[[Path], None]) -> None:
    whole = (site / "labels.html").read_bytes()
    break_it(site / "labels.html")
    with served(site) as root:
        page = window.new_page()
        page.add_init_script(f"""new MutationObserver(() => {{
            if ([...document.querySelectorAll("[data-say=whole]")].some(one => !one.hidden)) window.lied = true;
        }}).observe(document, {{subtree: true, attributes: true}})""")
        page.goto(root + "index.html")
        says(page, HAS_NOT)
        assert page.evaluate("window.lied") is None
        (site / "labels.html").write_bytes(whole)
        page.reload()
        says(page, HAS_ALL)
        assert page.evaluate("window.lied")


def test_a_newer_pack_that_comes_broken_leaves_the_older_whole(site: Path, newer: Path, window: BrowserContext) -> None:
    with served(site) as root:
        page = opened(window, root + "index.html")
        says(page, HAS_ALL)
        before = page.locator("h1").inner_text()
        replaced(site, newer)
        cut_off(site / "labels.html")
        page.reload()
        says(page, "it did not come whole")
        says(page, HAS_ALL)
        expect(state(page).locator("[data-newer]")).to_be_hidden()
    window.set_offline(True)
    page.goto(root + "labels.html")
    assert page.title().endswith(before)


def test_a_store_from_which_a_file_went_is_not_whole(site: Path, window: BrowserContext) -> None:
    with served(site) as root:
        page = opened(window, root + "index.html")
        says(page, HAS_ALL)
        page.evaluate("""caches.keys().then(([name]) => caches.open(name)).then(one => one.delete(new URL("labels.html", location).href))""")
        page.reload()
        says(page, HAS_NOT)


def test_over_plain_http_from_a_file_and_without_an_address_no_worker_is_there_and_the_page_says_which_way_works(
        published: Path, demo: Path, window: BrowserContext) -> None:
    def hand_out(route) -> None:
        route.fulfill(path=published / "installer" / route.request.url.partition(".test/")[2])

    window.route("http://laptop.test/**", hand_out)
    plain = opened(window, "http://laptop.test/index.html")
    says(plain, "does not begin with https")
    file = opened(window, (published / "installer" / "index.html").as_uri())
    says(file, "Opened from a folder")
    assert [plain.evaluate("'serviceWorker' in navigator"), file.evaluate("navigator.serviceWorker.controller")] == [False, None]
    with served(demo / "installer") as root:
        none = opened(window, root + "index.html")
        says(none, "built without an address")
        assert none.evaluate("navigator.serviceWorker.getRegistrations().then(one => one.length)") == 0
    assert not (demo / "installer" / WORKER).exists()


def test_while_it_finds_out_a_page_with_scripts_says_so_and_never_that_it_has_none(site: Path, window: BrowserContext) -> None:
    """A stand-in for a network that does not answer: the worker's registration stays open."""
    window.add_init_script("""navigator.serviceWorker.register = () => new Promise(() => {});
      self.said = [];
      const look = () => { self.said.push(document.querySelector("[data-phone]")?.innerText); requestAnimationFrame(look); };
      look();""")
    with served(site) as root:
        page = opened(window, root + "index.html")
        says(page, "finding out")
        assert "finding out" in page.evaluate("self.said.join()") and "scripts" not in page.evaluate("self.said.join()")


def test_without_scripts_the_page_says_that_it_cannot_tell(published: Path, context: Contexts) -> None:
    page = context(java_script_enabled=False).new_page()
    page.goto((published / "installer" / "carry.html").as_uri())
    says(page, "nobody can tell")
    says_not(page, "finding out")
    says_not(page, HAS_ALL)
