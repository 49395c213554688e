"""Does a phone keep what is written, count it once, and say before when it will not?"""
import json
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import QUIET
from tests.browser.hand import ADD, ALL, LINK, RESULTS, SIGN, STATE, file_of, opened
from tests.browser.pages import Contexts, served

TRY = "thing => Doorpost.keep.add(thing).then(one => 'kept ' + one.id, error => error.message)"


@pytest.fixture(scope="module")
def root(demo: Path) -> Iterator[str]:
    with served(demo / "installer") as address:
        yield address


@pytest.fixture
def page(context: Contexts, root: str) -> Page:
    return opened(context(), root + RESULTS)


def test_before_anything_is_written_the_page_says_where_it_is_kept_and_that_a_private_window_forgets(page: Page) -> None:
    says = page.locator("[data-part=kept]").inner_text()
    assert "on this phone" in says and "private window forgets" in says
    assert page.evaluate(STATE) == {"kept": True, "why": says}


def test_an_entry_has_the_phones_name_the_opening_and_a_counter_and_comes_back_after_a_reload(page: Page) -> None:
    made = page.evaluate(ADD, LINK | {"value": 12, "unit": "dB", "note": "moved"})
    phone, opening, counter = made["id"].split("-")
    assert (len(phone), len(opening), counter) == (8, 6, "000001")
    assert set(phone + opening) <= set("abcdefghijklmnopqrstuvwxyz23456789")
    assert made == {"id": made["id"], **LINK, "value": "12", "unit": "dB", "result": "", "at": made["at"], "by": "", "note": "moved"}
    page.reload()
    assert page.evaluate(ALL) == [made]
    later = page.evaluate(ADD, LINK)["id"].split("-")
    assert later[0] == phone and later[1] != opening and later[2] == "000002"


def test_two_tabs_that_write_at_once_never_use_a_counter_twice_and_each_sees_all(page: Page, root: str) -> None:
    other = opened(page.context, root + RESULTS)
    for tab in (page, other):
        tab.evaluate("thing => { self.done = Promise.all([...Array(50)].map(() => Doorpost.keep.add(thing))); }", LINK)
    for tab in (page, other):
        tab.evaluate("() => self.done")
    counters = sorted(int(one["id"].split("-")[2]) for one in page.evaluate(ALL))
    assert counters == list(range(1, 101))
    for tab in (page, other):
        tab.wait_for_function("document.querySelector('[data-part=number]').textContent === '100'")


def test_an_entry_whose_transaction_fails_at_the_last_moment_was_never_called_kept(page: Page) -> None:
    """A stand-in for a disk that fails: every put succeeds, then the transaction is given up."""
    page.evaluate("""() => {
      const put = IDBObjectStore.prototype.add;
      IDBObjectStore.prototype.add = function (...all) {
        const asked = put.apply(this, all);
        asked.addEventListener("success", () => this.transaction.abort());
        return asked;
      };
    }""")
    assert "keeps nothing" in page.evaluate(TRY, LINK)
    assert page.evaluate(ALL) == [] and page.locator("[data-part=list] li").count() == 0


def test_every_write_asks_the_browser_to_flush_to_the_disk(page: Page) -> None:
    page.evaluate("""() => {
      self.asked = [];
      const transaction = IDBDatabase.prototype.transaction;
      IDBDatabase.prototype.transaction = function (...all) {
        const made = transaction.apply(this, all);
        if (made.mode === "readwrite") self.asked.push(made.durability);
        return made;
      };
    }""")
    page.evaluate(ADD, LINK)
    page.evaluate(SIGN, "M1 1 L2 2")
    assert page.evaluate("() => self.asked") == ["strict", "strict"]


def test_where_there_is_no_room_nothing_is_called_kept_and_the_page_says_so_before(context: Contexts, root: str) -> None:
    page = _with_room(context, root, 1)
    page.goto(root + RESULTS)
    page.wait_for_selector("[data-part=kept].warn")
    assert "full" in page.locator("[data-part=kept]").inner_text() and "paper lines" in page.locator("[data-part=kept]").inner_text()
    assert "full" in page.evaluate(TRY, LINK) and page.evaluate(ALL) == []


def test_what_has_no_room_any_more_is_refused_and_what_was_kept_before_is_all_there(context: Contexts, root: str) -> None:
    page = _with_room(context, root, 400_000)
    before = page.evaluate(ADD, LINK)
    refused = page.evaluate(f"drawn => ({SIGN})(drawn).catch(error => error.message)", "M1 1" * 125_000)
    assert "full" in refused and "paper lines" in refused
    held = page.evaluate("() => Doorpost.keep.held()")
    assert (held["entries"], held["signatures"]) == ([before], {})


def _with_room(context: Contexts, root: str, size: int) -> Page:
    """A page of the pack in a browser that gives this machine's site so many bytes and no more."""
    page = context().new_page()
    page.goto("about:blank")
    page.context.new_cdp_session(page).send("Storage.overrideQuotaForOrigin", {"origin": root.rstrip("/"), "quotaSize": size})
    page.goto(f"{root}safety.html")
    return page


def test_a_browser_that_was_told_to_store_nothing_says_so(chromium: Browser, root: str, tmp_path: Path) -> None:
    (tmp_path / "Default").mkdir()
    (tmp_path / "Default" / "Preferences").write_text(json.dumps({"profile": {"default_content_setting_values": {"cookies": 2}}}))
    window = chromium.browser_type.launch_persistent_context(tmp_path, executable_path=shutil.which("chromium"), args=list(QUIET))
    try:
        page = opened(window, root + RESULTS)
        state = page.evaluate(STATE)
        assert not state["kept"] and "keeps nothing" in state["why"] and "paper lines" in state["why"]
        assert page.evaluate(TRY, LINK) == state["why"]
        assert page.locator("[data-part=kept].warn").inner_text() == state["why"]
    finally:
        window.close()


@pytest.mark.parametrize("stand_in, says", [
    ("Object.defineProperty(self, 'indexedDB', {value: undefined})", "keeps nothing"),
    ("IDBFactory.prototype.open = () => { throw new DOMException('', 'SecurityError'); }", "keeps nothing"),
    ("IDBFactory.prototype.open = () => ({})", "does not answer"),
    ("StorageManager.prototype.getDirectory = () => Promise.reject(new DOMException('', 'SecurityError'))", "private window"),
])
def test_stand_ins_for_browsers_that_keep_nothing_are_told_apart(context: Contexts, root: str, stand_in: str, says: str) -> None:
    window = context()
    window.add_init_script(stand_in)
    page = window.new_page()
    page.goto(root + RESULTS)
    state = page.evaluate(STATE)
    assert not state["kept"] and says in state["why"] and "paper lines" in state["why"]


def test_pages_opened_from_files_find_out_at_once_that_they_share_a_store(context: Contexts, demo: Path) -> None:
    window = context()
    page = opened(window, (demo / "installer" / RESULTS).as_uri())
    assert page.evaluate(STATE)["kept"]
    made = page.evaluate(ADD, LINK)
    assert page.locator("iframe[src$='.html']").count() == 0
    page.goto((demo / "installer" / "steps/fix.html").as_uri())
    assert page.evaluate(ALL) == [made]


def test_a_page_opened_from_a_file_whose_neighbours_never_leave_a_mark_keeps_nothing(context: Contexts, demo: Path) -> None:
    """A stand-in for a browser with a store for each file: marks of other paths are left out of the list of keys."""
    window = context()
    window.add_init_script("""
      const all = IDBObjectStore.prototype.getAllKeys;
      IDBObjectStore.prototype.getAllKeys = function (...more) {
        const asked = all.apply(this, more), result = Object.getOwnPropertyDescriptor(IDBRequest.prototype, "result");
        Object.defineProperty(asked, "result", {get: () => result.get.call(asked).filter(key => !key.startsWith("mark ") || key === "mark " + location.pathname)});
        return asked;
      };""")
    page = window.new_page()
    page.goto((demo / "installer" / RESULTS).as_uri())
    state = page.evaluate(STATE)
    assert not state["kept"] and "pocket.html" in state["why"]


def test_a_clock_that_was_wrong_changes_nothing_in_the_order(page: Page) -> None:
    page.evaluate("() => { Date.now = () => 0; const Real = Date; self.Date = class extends Real { constructor(...all) { super(...(all.length ? all : [self.hour])); } }; }")
    for hour, value in (("2026-11-24T12:00:00Z", "5"), ("2026-11-24T11:00:00Z", "14")):
        page.evaluate("hour => { self.hour = Date.parse(hour); }", hour)
        page.evaluate(ADD, LINK | {"value": value})
    current = page.evaluate("async () => [...Doorpost.entries.current(await Doorpost.keep.all()).values()].map(one => [one.entry.value, one.earlier.length])")
    assert current == [["14", 1]]


@pytest.mark.parametrize("name, most", [("value", 1000), ("note", 4000)])
def test_a_text_that_the_office_would_refuse_is_refused_at_once(page: Page, name: str, most: int) -> None:
    assert page.evaluate(TRY, LINK | {name: "x" * most}).startswith("kept")
    assert "Not kept" in page.evaluate(TRY, LINK | {name: "x" * (most + 1)})
    assert len(page.evaluate(ALL)) == 1


def test_a_phone_whose_store_was_set_back_counts_on_from_the_file_that_it_once_wrote(page: Page) -> None:
    phone = page.evaluate(ADD, LINK)["id"].split("-")[0]
    file = file_of(page, phone, [{**LINK, "id": f"{phone}-aaaaaa-000041", "value": "", "unit": "", "result": "", "at": "", "by": "", "note": ""}])
    assert page.evaluate("file => Doorpost.keep.take(Doorpost.entries.read(JSON.stringify(file), DOORPOST).file)", file) == 1
    assert page.evaluate(ADD, LINK)["id"].endswith("-000042")


def test_who_writes_is_remembered_in_letters(page: Page) -> None:
    page.evaluate("() => Doorpost.keep.by('AB')")
    page.reload()
    assert page.evaluate(ADD, LINK)["by"] == "AB"


def test_over_plain_http_no_call_is_missing(chromium: Browser, root: str, tmp_path: Path) -> None:
    """A name that stands for this machine is no secure context: no service worker, no clipboard, none of the browser's own sums."""
    name = root.replace("127.0.0.1", "phone.example")
    window = chromium.browser_type.launch_persistent_context(tmp_path, executable_path=shutil.which("chromium"),
                                                             args=[*QUIET, "--host-resolver-rules=MAP phone.example 127.0.0.1"])
    try:
        page = opened(window, name + RESULTS)
        assert page.evaluate("() => [isSecureContext, !!crypto.subtle]") == [False, False]
        assert page.evaluate(STATE)["kept"]
        drawn = page.evaluate(SIGN, "M1 1 L2 2")
        assert page.evaluate(ADD, LINK | {"value": drawn})["id"].endswith("-000002")
        page.click("[data-part=copy]")
        expect(page.locator("[data-part=said]")).to_contain_text("Copied")
        assert drawn in page.locator("[data-part=text]").input_value()
    finally:
        window.close()
