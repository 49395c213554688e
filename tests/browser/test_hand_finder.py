"""Is a unit found by the last signs of its serial, a number, a room or a reference, from a file, and is the next thing to do one tap away?"""
import copy
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from playwright.sync_api import Page, expect

from tests.browser.jobs import build
from tests.browser.pages import Contexts, notice, served
from tests.conftest import HOSTILE, read_files

# A stand-in for the detector that no browser on this system has, and for the camera: it reads one code from whatever it is shown.
SCANNER = """self.BarcodeDetector = class { async detect() { return [{rawValue: CODE}]; } };
HTMLMediaElement.prototype.play = async () => {};
Object.defineProperty(HTMLMediaElement.prototype, "srcObject", {set() {}});
navigator.mediaDevices = navigator.mediaDevices || {};
navigator.mediaDevices.getUserMedia = async () => ({getTracks: () => [{stop() { self.stopped = true; }}]});"""
MANY = """() => {
  const one = DOORPOST.units[1];
  DOORPOST.units.splice(0, 9, ...Array.from({length: 500}, (_, at) => ({...one, id: `X${at}`, number: `${at + 1}`, serial: `9${String(at).padStart(5, "0")}`, short: `Q${at}`})));
}"""


@pytest.fixture(scope="module")
def pack(demo: Path) -> Path:
    """The installer's pack of the demo job."""
    return demo / "installer"


@pytest.fixture(scope="module")
def hostile(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The installer's pack of a job whose room and unit are named in bad faith, served from this machine."""
    files = copy.deepcopy(read_files())
    files["job"]["devices"]["D2"]["position"] = HOSTILE
    files["job"]["premises"]["storeys"]["ground"]["rooms"]["hall"]["name"] = HOSTILE
    with served(build(files, tmp_path_factory.mktemp("hostile")) / "installer") as address:
        yield address


def find(page: Page, text: str) -> list[str]:
    """Types into the finder; gives what each result says."""
    page.get_by_label("Last characters of a serial").fill(text)
    return page.locator(".found li").all_inner_texts()


def test_from_a_file_a_unit_is_found_by_whatever_is_known_of_it_and_its_next_step_is_one_tap_away(context: Contexts, pack: Path) -> None:
    window = context(offline=True)
    seen, page = notice(window), window.new_page()
    page.goto((pack / "index.html").as_uri())
    page.get_by_role("link", name="Find", exact=True).first.click()
    found = find(page, "117")
    assert len(found) == 1
    assert all(part in found[0] for part in ("D2 · zone 5", "HALL MOVE", "Hall", "Reference DPYM. Serial 00B117.", "Next: step"))
    assert [one.split("\n")[0] for one in find(page, "dpym")] == ["D2 · zone 5"]
    assert [one.split("\n")[0] for one in find(page, "9")] == ["D3 · zone 9"]
    assert find(page, "kitchen")[0].startswith("D3 · zone 9") and len(find(page, "kitchen")) == 2
    assert [one.split("\n")[0] for one in find(page, "k-1")] == ["K1 · keypad 1"]
    # Others call it otherwise; a plate is misread.
    assert [one.split("\n")[0] for one in find(page, "siren")] == ["S1 · sounder 1"] == [one.split("\n")[0] for one in find(page, "bell")]
    assert [one.split("\n")[0] for one in find(page, "OOBll7")] == ["D2 · zone 5"]
    assert find(page, "qqxqq") == [] and page.locator(".says").inner_text() == "0 found. No unit of the plan has that, as number, name, room or serial."
    assert find(page, "") == [] and page.locator(".says").inner_text() == ""
    find(page, "00-b1 17")
    page.get_by_role("link", name="Next: step").click()
    expect(page.locator("[data-unit=D2]:has(:target)").first).to_be_visible()
    assert seen.faults == []


def test_a_number_that_is_free_one_that_there_is_not_and_a_serial_that_fits_nothing_are_told_apart(phone: Page, pack: Path) -> None:
    def says(text: str) -> str:
        find(phone, text)
        return phone.locator(".says").inner_text()

    phone.goto((pack / "find.html").as_uri())
    page = BeautifulSoup((pack / "slots.html").read_text(encoding="utf-8"), "html.parser")
    free = [int(number) for number in re.findall(r"\b(\d+): free", page.decode())]
    assert len(free) > 10
    for number in (free[0], free[-1]):
        for typed in (f"{number}", f"zone {number}", f"0{number}"):
            assert f"Zone {number} is free" in says(typed), typed
    taken = next(number for number in range(1, 32) if number not in free)
    assert f"Zone {taken} is free" not in says(f"{taken}")
    assert "Numbers there are: zones 1 to 32, keypads 1 to 4" in says("99") and "is free" not in says("99")
    planned = phone.evaluate("new Set(DOORPOST.units.map(one => one.serial).filter(one => one)).size")
    assert says("9z8y").endswith(f"Compared with the ends of {planned} serials planned and 0 read today.") and planned > 5
    assert "Compared" not in says("00B117")


def test_the_next_step_is_the_first_that_is_not_done_and_a_serial_read_today_finds_its_unit(phone: Page, pack: Path) -> None:
    with served(pack) as root:
        phone.goto(f"{root}find.html")
        first = phone.evaluate("DOORPOST.steps.filter(one => one.unit === 'D2').map(one => one.id)")
        find(phone, "d2")
        assert phone.locator(".found .act").get_attribute("href").endswith(f"#{first[0]}")
        phone.evaluate("""async ids => { for (const id of ids) await Doorpost.keep.add({device: "D2", step: id, what: "step", result: id === ids[1] ? "could not" : "done"});
          await Doorpost.keep.add({device: "D2", step: "enrol-d2", what: "serial", value: "77-1234"}); }""", first[:2])
        phone.reload()
        assert "read today 771234" in find(phone, "234")[0]
        assert phone.locator(".found .act").get_attribute("href").endswith(f"#hold-{first[1]}")


def test_a_code_is_scanned_where_the_browser_can_and_else_the_page_says_so(context: Contexts, pack: Path) -> None:
    with served(pack) as root:
        page = context().new_page()
        page.goto(f"{root}find.html")
        expect(page.get_by_text("This browser cannot read codes with the camera: type instead.")).to_be_visible()
        expect(page.get_by_role("button", name="Scan a code")).to_be_hidden()
        for code in ("https://packs.example/k3v9/d/dpym.html", "DPYM", "(21)00B117"):
            window = context()
            window.add_init_script(SCANNER.replace("CODE", repr(code)))
            page = window.new_page()
            page.goto(f"{root}find.html")
            page.get_by_role("button", name="Scan a code").click()
            expect(page.locator(".found li")).to_have_count(1)
            expect(page.locator(".found li")).to_contain_text("D2 · zone 5")
            assert page.evaluate("self.stopped") is True and page.locator("video").count() == 0


def test_a_camera_that_is_refused_is_told_of(context: Contexts, pack: Path) -> None:
    window = context()
    window.add_init_script(f"{SCANNER.replace('CODE', '0')} navigator.mediaDevices.getUserMedia = async () => {{ throw new DOMException('', 'NotAllowedError'); }};")
    page = window.new_page()
    with served(pack) as root:
        page.goto(f"{root}find.html")
        page.get_by_role("button", name="Scan a code").click()
        expect(page.locator(".says")).to_have_text("The camera cannot be used here (NotAllowedError): type instead.")


def test_five_hundred_units_are_searched_as_fast_as_one_types(context: Contexts, pack: Path) -> None:
    window = context()
    window.route("**/hand.js", lambda route: route.fulfill(body=f"({MANY})();" + (pack / "hand.js").read_text(encoding="utf-8"), content_type="text/javascript"))
    page = window.new_page()
    with served(pack) as root:
        page.goto(f"{root}find.html")
        took = page.evaluate("""() => { const typed = document.querySelector("[data-find] input"), from = performance.now();
          for (const text of ["9", "90", "900", "9004", "0499"]) { typed.value = text; typed.oninput(); }
          return performance.now() - from; }""")
        assert page.locator(".found li").all_inner_texts()[0].startswith("X499 · zone 500")
        # Each of five signs within a tenth of a second: what feels at once (Miller 1968; Nielsen 1993, from memory).
        assert took < 500
        assert len(find(page, "hall")) == 12
        expect(page.locator(".says")).to_contain_text("The first 12 are shown: type one sign more.")


def test_names_given_in_bad_faith_are_shown_as_text(context: Contexts, hostile: str) -> None:
    window = context()
    seen, page = notice(window), window.new_page()
    page.goto(f"{hostile}find.html")
    found = find(page, "d2")
    assert "<script>alert(1)</script>" in found[0]
    assert page.locator(".found script").count() == 0 and seen.dialogs == [] and seen.faults == []
    assert page.locator(".found p:not([dir=auto])").count() == 0


def test_without_scripts_the_page_leads_to_the_lists(context: Contexts, pack: Path) -> None:
    page = context(java_script_enabled=False).new_page()
    page.goto((pack / "find.html").as_uri())
    expect(page.get_by_text("The finder needs scripts")).to_be_visible()
    expect(page.get_by_label("Last characters of a serial")).to_be_hidden()
    page.get_by_role("link", name="Find by reference").last.click()
    expect(page).to_have_url((pack / "codes.html").as_uri())
