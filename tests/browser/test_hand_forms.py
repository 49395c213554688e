"""Can what is found be written down at each step with one thumb, and does nothing that was typed get lost without a word?"""
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import BrowserContext, Locator, Page, expect

from tests.browser.pages import Contexts, notice, served

HOSTILE = '<img src=x onerror="alert(1)"> \u202eesrever'
# A gloved tap takes some 1.5 s (common practice, no source); a failed signal check is to be logged in 20 s.
TAPS = 13
NO_STORE = "delete Window.prototype.indexedDB; Object.defineProperty(window, 'indexedDB', {value: undefined})"
FULL = """IDBObjectStore.prototype.put = IDBObjectStore.prototype.add = function () {
  throw new DOMException("stand-in for a full phone", "QuotaExceededError"); }"""
SIZES = """box => [...box.querySelectorAll("button, input, textarea")].map(one => one.getBoundingClientRect()).filter(one => one.height)
  .map(one => [one.left, one.top, one.right, one.bottom])"""


PAGE_OF: dict[str, str] = {}


@pytest.fixture(scope="module")
def root(demo: Path) -> Iterator[str]:
    """The installer's pack, served from this machine."""
    told = (demo / "installer" / "hand-data.js").read_text(encoding="utf-8")
    PAGE_OF.update({step: f"{page}#{step}" for page, step in re.findall(r'"(steps/\w+\.html)#(?:hold-)?([\w-]+)"', told)})
    with served(demo / "installer") as address:
        yield address


def at(page: Page, root: str, step: str) -> Locator:
    """Opens a step; gives what is written down there, once it can be."""
    page.goto(root + PAGE_OF[step])
    nameless(page)
    form = page.locator(f"[data-step='{step}']:not([data-hold]) [data-write]")
    expect(form.locator("fieldset[data-what=step]")).to_be_attached()
    return form


def nameless(page: Page) -> None:
    """Somebody who was asked for letters and went on without."""
    page.evaluate("Doorpost.keep.by('').catch(() => {})")


def entries(page: Page) -> list[dict[str, Any]]:
    """Everything that the phone keeps, in the order of its counter."""
    return sorted(page.evaluate("Doorpost.keep.all()"), key=lambda one: one["id"][-6:])


def kept(form: Locator, what: str) -> None:
    """Waits until a block says that it is kept."""
    expect(block(form, what).locator(".kept")).to_have_text("Kept.")


def block(form: Locator, what: str) -> Locator:
    """The block of one thing that is asked."""
    return form.locator(f"fieldset[data-what='{what}']")


def serial(page: Page, root: str, unit: str, text: str) -> Locator:
    """Types the serial of a unit at its step and leaves the field; gives the block."""
    form = at(page, root, f"enrol-{unit}")
    one = block(form, "serial")
    one.get_by_label("As on its plate").fill(text)
    one.get_by_label("As on its plate").blur()
    kept(form, "serial")
    return one


def test_a_swapped_pair_is_named_as_soon_as_its_second_serial_is_typed(phone: Page, root: str) -> None:
    first = serial(phone, root, "d1", "00a4-f9")
    expect(first.locator(".says")).to_contain_text("ANOTHER UNIT'S: D1 bears the serial of D3 (zone 9 KITCHEN BACK DR). Is the pair swapped? Read D3 too.")
    expect(first.get_by_label("Because")).to_be_visible()
    form = at(phone, root, "enrol-d3")
    typed = block(form, "serial").get_by_label("As on its plate")
    typed.press_sequentially("00A4F")
    expect(block(form, "serial").locator(".says")).to_have_text("As planned so far.")
    typed.press_sequentially("3")
    # Before the field is left.
    expect(block(form, "serial").locator(".says")).to_contain_text("SWAPPED PAIR: D3 bears the serial of D1 (zone 1 HALL FRONT DR), D1 that of D3.")
    # Its last four signs are enough.
    typed.fill("a4-f9")
    typed.blur()
    expect(typed).to_have_value("00A4F9")
    expect(block(form, "serial").locator(".says")).to_contain_text("Same as planned.")
    other = serial(phone, root, "d2", "00A4F9")
    expect(other.locator(".says")).to_contain_text("ANOTHER UNIT'S: D2 bears the serial of D3")
    unknown = serial(phone, root, "k1", "77777")
    expect(unknown.locator(".says")).to_have_text("DIFFERS from the plan: 00C020. Read the plate again; if it is so, say why.")
    twice = serial(phone, root, "s1", "77777")
    expect(twice.locator(".says")).to_contain_text("ALREADY WRITTEN for K1")


def test_the_planned_serial_is_filled_in_only_from_signs_that_were_read_and_fit_one_unit_alone(phone: Page, root: str) -> None:
    def read(text: str) -> str:
        form = at(phone, root, "enrol-d3")
        one = block(form, "serial")
        # Nothing takes the plan's serial over by a tap.
        assert one.get_by_role("button").count() == 0
        one.get_by_label("As on its plate").fill(text)
        one.get_by_label("As on its plate").blur()
        kept(form, "serial")
        return one.locator(".says").inner_text()

    def last() -> tuple[str, str]:
        one = entries(phone)[-1]
        return one["value"], one["note"]

    assert block(at(phone, root, "enrol-d3"), "serial").locator(".says").inner_text() == "Read the plate: its last 4 signs are enough."
    # Three signs are too few to tell a unit by.
    assert read("4F9").startswith("DIFFERS from the plan: 00A4F9.") and last() == ("4F9", "")
    assert read("a4f9") == "Same as planned. Only its last signs were read; the rest is from the plan."
    assert last() == ("00A4F9", "Only its last signs were read; the rest is from the plan.")
    assert read("00A4F9") == "Same as planned." and last() == ("00A4F9", "")
    # Those of another unit: it is named, filled in, and asked why.
    assert read("A4F3").startswith("ANOTHER UNIT'S: D3 bears the serial of D1 (zone 1 HALL FRONT DR).") and last() == ("00A4F3", "")
    expect(block(at(phone, root, "enrol-d3"), "serial").get_by_label("Because")).to_be_visible()
    assert read("00a4-f9") == "Same as planned." and last() == ("00a4-f9", "")
    assert read("Q4F9").startswith("DIFFERS from the plan: 00A4F9.") and last() == ("Q4F9", "")
    phone.evaluate("DOORPOST.units.find(one => one.id === 'D2').serial = '11A4F9'")
    assert read("A4F9") == "END ALIKE: D2 and D3. Type more of it." and last() == ("A4F9", "")
    assert read("0A4F9").startswith("Same as planned.") and last()[0] == "00A4F9"


def test_a_failed_signal_check_of_two_attempts_is_logged_in_few_taps(phone: Page, root: str) -> None:
    form = at(phone, root, "signal-d1")
    one, taps = block(form, "signal"), []

    def tap(target: Locator) -> Locator:
        taps.append(1)
        target.click()
        return target

    def typed(target: Locator, text: str) -> None:
        tap(target)
        for sign in text:
            taps.append(1)
            phone.keyboard.type(sign)

    def attempt(n: int) -> Locator:
        return one.locator(f"[data-at='attempt-{n}']")

    expect(attempt(2)).to_be_hidden()
    typed(attempt(1).get_by_label("Arrived of 10"), "7")
    typed(attempt(1).get_by_label("Level", exact=True), "3")
    tap(attempt(1).locator(".nth"))
    tap(attempt(2).get_by_role("button", name="Unit moved", exact=True))
    typed(attempt(2).get_by_label("Arrived of 10"), "9")
    typed(attempt(2).get_by_label("Level", exact=True), "4")
    tap(attempt(2).locator(".nth"))
    kept(form, "signal")
    expect(attempt(1).locator(".says")).to_have_text("Attempt 1: FAIL. 7 of 10 arrived; 3 bars, 4 is called good, the dB are not known.")
    expect(attempt(2).locator(".says")).to_contain_text("Attempt 2: FAIL. 9 of 10 arrived; 4 bars")
    assert len(taps) <= TAPS
    found = {(one["what"], one["value"], one["unit"]) for one in entries(phone) if one["step"] == "signal-d1" and one["device"] == "D1"}
    assert found == {
        ("signal/1/from-unit/received", "7", ""), ("signal/1/from-unit/sent", "10", ""), ("signal/1/from-unit/level", "3", "bars"),
        ("signal/2/moved", "Unit moved", ""), ("signal/2/from-unit/received", "9", ""), ("signal/2/from-unit/sent", "10", ""),
        ("signal/2/from-unit/level", "4", "bars")}
    # The third try is on the other unit of measure, and passes; what it brought is taken over by the checklist's line.
    attempt(3).get_by_label("Arrived of 10").fill("10")
    attempt(3).get_by_label("Level", exact=True).fill("16")
    attempt(3).get_by_label("Level", exact=True).blur()
    attempt(3).get_by_role("button", name="dB").click()
    expect(attempt(3).locator(".says")).to_have_text("Attempt 3: PASS. 10 of 10 arrived; 16 dB, 15 asked.")
    margin = block(form, "check/link-margin")
    margin.get_by_role("button", name="As tried: 16").click()
    expect(margin.locator(".says")).to_have_text("16 dB: within 15 dB or more.")
    kept(form, "check/link-margin")


def test_a_two_way_unit_is_checked_both_ways_and_a_one_way_unit_is_not(phone: Page, root: str) -> None:
    assert at(phone, root, "signal-d1").locator("[data-way=to-unit]").count() == 0
    assert at(phone, root, "signal-k1").locator("[data-way=to-unit]").count() == 3


def test_a_value_beyond_its_limit_is_no_pass_by_itself_and_a_pass_then_asks_why(phone: Page, root: str) -> None:
    form = at(phone, root, step_of(root, phone, "check/charging-voltage"))
    one = block(form, "check/charging-voltage")
    expect(one.locator(".says")).to_have_text("Limit: 13.4 V or more, 13.9 V or less.")
    one.get_by_role("button", name="one more").click()
    expect(one.get_by_label("Measured, V")).to_have_value("13.4")
    one.get_by_role("button", name="one less").click()
    expect(one.locator(".says")).to_have_text("13.3 V: NOT within 13.4 V or more, 13.9 V or less.")
    assert one.locator("[aria-pressed=true]").count() == 0
    one.get_by_role("button", name="pass").click()
    expect(one.locator(".says")).to_contain_text("You wrote pass: say why.")
    one.get_by_label("Because").fill("meter was cold")
    one.get_by_label("Because").blur()
    kept(form, "check/charging-voltage")
    last = entries(phone)[-1]
    assert (last["value"], last["unit"], last["result"], last["note"]) == ("13.3", "V", "pass", "meter was cold")


def step_of(root: str, page: Page, what: str) -> str:
    """The first step at which a thing is asked."""
    page.goto(root)
    return page.evaluate("what => DOORPOST.asked.find(asked => asked.what === what).step", what)


def test_nothing_is_lost_by_leaving_reloading_or_a_second_tab(context: Contexts, root: str) -> None:
    window = context()
    page, where = window.new_page(), "enrol-d2"
    form = at(page, root, where)
    note = block(form, "note").get_by_label("Free words")
    note.fill("first words")
    # Not yet left: it says so, and is kept by leaving the page.
    expect(block(form, "note").locator(".kept")).to_have_text("Not kept yet.")
    page.goto(f"{root}index.html")
    form = at(page, root, where)
    expect(block(form, "note").get_by_label("Free words")).to_have_value("first words")
    page.reload()
    expect(block(form, "note").get_by_label("Free words")).to_have_value("first words")
    other = window.new_page()
    second = at(other, root, where)
    expect(block(second, "note").get_by_label("Free words")).to_have_value("first words")
    block(second, "note").get_by_label("Free words").fill("words of the second tab")
    # A pause is enough.
    expect(block(second, "note").locator(".kept")).to_have_text("Kept.")
    expect(block(form, "note").get_by_label("Free words")).to_have_value("words of the second tab")
    assert [one["value"] for one in entries(page)] == ["first words", "words of the second tab"]


@pytest.mark.parametrize(("script", "why"), [(NO_STORE, "keeps nothing"), (FULL, "storage is full")], ids=["denied", "full"])
def test_a_browser_that_keeps_nothing_is_told_of_before_anything_is_written(context: Contexts, root: str, script: str, why: str) -> None:
    window = context()
    window.add_init_script(script)
    page = window.new_page()
    form = at(page, root, "enrol-d2")
    expect(form.locator(".keeps")).to_contain_text(why)
    expect(form.locator(".blanks")).to_contain_text("On paper: step, done or could not")
    one = block(form, "serial")
    one.get_by_label("As on its plate").fill("00B117")
    one.get_by_label("As on its plate").blur()
    expect(one.locator(".kept")).to_contain_text("NOT KEPT.")
    done = page.locator("[data-step=enrol-d2] [data-act=done]").first
    done.click()
    expect(block(form, "step").locator(".kept")).to_contain_text("NOT KEPT.")
    assert page.url.endswith("#enrol-d2")
    done.click()
    expect(page).not_to_have_url(re.compile("#enrol-d2$"))


def test_a_step_is_done_by_keyboard_and_one_that_could_not_be_says_why(phone: Page, root: str) -> None:
    form = at(phone, root, "enrol-d2")
    phone.locator("[data-step=enrol-d2] [data-act=done]").first.focus()
    phone.keyboard.press("Enter")
    expect(block(form, "step").get_by_text("Not read yet, or no result:")).to_be_in_viewport()
    phone.keyboard.press("Enter")
    expect(phone).not_to_have_url(re.compile("#enrol-d2$"))
    form = at(phone, root, "enrol-d3")
    expect(block(form, "step").get_by_text("Could not, because:")).to_be_hidden()
    phone.locator("[data-step=enrol-d3] a[data-act=cannot]").focus()
    phone.keyboard.press("Enter")
    expect(block(form, "step").get_by_text("Could not, because:")).to_be_in_viewport()
    expect(block(form, "step").get_by_text("Then this cannot be signed:")).to_be_visible()
    phone.keyboard.press("Tab")
    phone.keyboard.press("Enter")
    kept(form, "step")
    expect(block(form, "step").get_by_role("button", name="Nobody to let me in")).to_have_attribute("aria-pressed", "true")
    block(form, "step").get_by_role("link", name="On to the next step").click()
    expect(phone).not_to_have_url(re.compile("#enrol-d3$"))
    last = {one["step"]: (one["device"], one["result"], one["note"]) for one in entries(phone) if one["what"] == "step"}
    assert last == {"enrol-d2": ("D2", "done", "Gone on, not tested: Serial of D2, D2: Identity, D2: Drift"), "enrol-d3": ("D3", "could not", "Nobody to let me in")}


def test_hostile_text_is_shown_as_text_also_from_another_phone(context: Contexts, root: str) -> None:
    window: BrowserContext = context()
    seen, page = notice(window), window.new_page()
    form = at(page, root, "enrol-d2")
    block(form, "note").get_by_label("Free words").fill(HOSTILE)
    block(form, "note").get_by_label("Free words").blur()
    kept(form, "note")
    page.evaluate("""text => Doorpost.keep.take({entries: [{id: "zzzzzzzz-aaaaaa-000001", device: "D2", step: "enrol-d2", what: "note", value: text, unit: "",
      result: "", at: "2026-11-24T10:05:00+00:00", by: text, note: text}], signatures: {}})""", f"{HOSTILE} too")
    expect(block(form, "note").locator(".conflict")).to_contain_text(f"Another phone wrote: {HOSTILE} too")
    page.reload()
    expect(block(form, "note").get_by_label("Free words")).to_have_value(HOSTILE)
    assert page.locator("img[src=x]").count() == 0 and seen.dialogs == [] and seen.faults == []


def test_a_name_is_drawn_with_a_finger_kept_and_drawn_again(phone: Page, root: str) -> None:
    form = at(phone, root, "sign")
    one = block(form, "signature/customer")
    pad = one.locator("canvas")
    pad.scroll_into_view_if_needed()
    box = pad.bounding_box()
    phone.mouse.move(box["x"] + 30, box["y"] + 30)
    phone.mouse.down()
    phone.mouse.move(box["x"] + 200, box["y"] + 60, steps=4)
    phone.mouse.up()
    kept(form, "signature/customer")
    entry = entries(phone)[-1]
    assert re.fullmatch("[0-9a-f]{64}", entry["value"]) and entry["what"] == "signature/customer" and entry["note"] == ""
    drawn = phone.evaluate("Doorpost.keep.held().then(held => held.signatures)")
    assert re.fullmatch(r"M \d+ \d+( L \d+ \d+)+", drawn[entry["value"]])
    phone.reload()
    ink = "pad => pad.getContext('2d').getImageData(0, 0, pad.width, pad.height).data.some(one => one)"
    expect(one.locator(".kept")).to_have_text("Kept.")
    phone.wait_for_function(f"({ink})(document.querySelector(\"[data-what='signature/customer'] canvas\"))")
    expect(one.get_by_label("Name, typed")).to_have_value("")
    one.get_by_label("Name, typed").fill("A. Customer")
    one.get_by_label("Name, typed").blur()
    kept(form, "signature/customer")
    assert entries(phone)[-1]["value"] == "A. Customer"


def test_targets_are_as_high_as_a_thumb_and_apart(phone: Page, root: str) -> None:
    form = at(phone, root, "signal-k1")
    block(form, "signal").get_by_label("Level", exact=True).first.fill("1")
    form.evaluate("one => document.activeElement.blur()")
    boxes = form.evaluate(SIZES)
    assert len(boxes) > 20
    for left, top, right, bottom in boxes:
        assert bottom - top >= 56 and right - left >= 56
        for other in boxes:
            if other != [left, top, right, bottom]:
                across, down = max(other[0] - right, left - other[2]), max(other[1] - bottom, top - other[3])
                assert max(across, down) >= 11.9, (left, top, other)
