"""Does the phone speak up before somebody goes on: nothing read, a pass beyond its limit, a hold point that does not hold, a swapped pair?"""
import re

import pytest
from playwright.sync_api import Locator, Page, expect

from generator.procedure.asked import NOT_READ, WITHOUT_REASON
from tests.browser.look import weak
from tests.browser.pages import SCHEMES, Contexts
from tests.browser.test_hand_forms import SIZES, at, block, entries, kept, root, serial, step_of

__all__ = ["root"]

STAYS = "Not read yet, or no result: "


def done_of(phone: Page, step: str) -> Locator:
    """The way on of a step."""
    return phone.locator(f"[data-step={step}] [data-act=done]")


def fill(one: Locator, label: str, text: str) -> None:
    """Types into a field of a block and leaves it."""
    one.get_by_label(label).fill(text)
    one.get_by_label(label).blur()


def test_done_names_once_what_was_not_read_and_a_second_tap_leaves_it_not_tested(phone: Page, root: str) -> None:
    step = step_of(root, phone, "check/charging-voltage")
    form = at(phone, root, step)
    one, says = block(form, "check/charging-voltage"), block(form, "step").get_by_text(STAYS)
    # A pass without the value that it rests on is none.
    one.get_by_role("button", name="pass").click()
    done_of(phone, step).click()
    expect(says).to_be_in_viewport()
    expect(says).to_contain_text("CU: Charging voltage")
    expect(says).to_contain_text("tap Done again: it is kept as not tested.")
    assert phone.url.endswith(f"#{step}") and not [entry for entry in entries(phone) if entry["what"] == "step"]
    # Something else that lacks is named anew.
    fill(one, "Measured, V", "13.6")
    one.get_by_role("button", name="pass").click(click_count=1)
    expect(says).not_to_contain_text("Charging voltage")
    done_of(phone, step).click()
    expect(says).to_be_in_viewport()
    assert phone.url.endswith(f"#{step}")
    done_of(phone, step).click()
    expect(phone).not_to_have_url(re.compile(f"#{step}$"))
    last = entries(phone)[-1]
    assert (last["what"], last["result"]) == ("step", "done") and last["note"].startswith(NOT_READ) and "Charging voltage" not in last["note"]
    # What was not written is nowhere a pass.
    left = {one["what"] for one in entries(phone) if one["step"] == step and one["result"] == "pass"}
    assert left == {"check/charging-voltage"}


def test_a_step_with_everything_read_and_one_at_which_nothing_is_asked_go_on_at_once(phone: Page, root: str) -> None:
    form = at(phone, root, "enrol-d2")
    for what in form.locator("fieldset[data-what^='check/']").evaluate_all("all => all.map(one => one.dataset.what)"):
        one = block(form, what)
        # Without a value where there is none to read; what does not apply has none either, but a reason.
        measured = one.get_by_label("Measured").count()
        one.get_by_role("button", name="not applicable" if measured else "pass").click()
        if measured:
            one.get_by_label("Because").fill("no drift is shown")
    fill(block(form, "serial"), "As on its plate", "B117")
    done_of(phone, "enrol-d2").click()
    expect(phone).not_to_have_url(re.compile("#enrol-d2$"))
    assert entries(phone)[-1]["note"] == ""
    bare = phone.evaluate("DOORPOST.steps.find(step => !DOORPOST.asked.some(one => one.step === step.id && !['step', 'note', 'photo'].includes(one.kind))).id")
    block(at(phone, root, bare), "note")
    done_of(phone, bare).click()
    expect(phone).not_to_have_url(re.compile(f"#{bare}$"))


@pytest.mark.parametrize("result", ("fail", "could not test", "not applicable"))
def test_what_leaves_open_what_the_plan_asks_for_takes_its_reason_each_time(phone: Page, root: str, result: str) -> None:
    form = at(phone, root, "enrol-d2")
    fill(block(form, "serial"), "As on its plate", "B117")
    for what in form.locator("fieldset[data-what^='check/']").evaluate_all("all => all.map(one => one.dataset.what)"):
        block(form, what).get_by_role("button", name=result).click()
        kept(form, what)
    for _ in range(2):
        done_of(phone, "enrol-d2").click()
        expect(block(form, "step").get_by_text("Before you go on, say why")).to_contain_text("D2: Identity, D2: Drift")
    assert phone.url.endswith("#enrol-d2")


def test_a_link_without_its_counts_or_its_level_is_named_by_done(phone: Page, root: str) -> None:
    form = at(phone, root, "signal-k1")
    says = block(form, "step").get_by_text(STAYS)
    first = block(form, "signal").locator("[data-at=attempt-1]")
    done_of(phone, "signal-k1").click()
    for way in ("from-unit", "to-unit"):
        expect(says).to_contain_text("Link of K1")
        first.locator(f"[data-way={way}]").get_by_label("Arrived of 10").fill("10")
        first.locator(f"[data-way={way}]").get_by_label("Level", exact=True).fill("9")
        form.evaluate("() => document.activeElement.blur()")
        kept(form, "signal")
    expect(says).not_to_contain_text("Link of K1")


def test_a_call_is_written_down_with_who_and_when_by_a_tap(phone: Page, root: str) -> None:
    phone.clock.install()
    phone.goto(root)
    if not phone.evaluate("DOORPOST.steps.some(step => step.id === 'on-test')"):
        pytest.fail("the demo job has no call")
    form = at(phone, root, "on-test")
    done_of(phone, "on-test").click()
    expect(block(form, "step").get_by_text(STAYS)).to_contain_text("Operator's name, Time of the call, On test until")
    fill(block(form, "called/operator"), "Operator's name", "Lee")
    block(form, "called/at").get_by_role("button", name="Now").click()
    now = phone.evaluate("new Date().toTimeString().slice(0, 5)")
    expect(block(form, "called/at").get_by_label("Time of the call")).to_have_value(now)
    for other in ("called/operator", "called/until"):
        expect(block(form, other).get_by_role("button", name="Now")).to_be_hidden()
    fill(block(form, "called/until"), "On test until", "17:30")
    done_of(phone, "on-test").click()
    expect(phone).not_to_have_url(re.compile("#on-test$"))
    assert [(one["what"], one["value"], one["unit"]) for one in entries(phone)][:3] == [
        ("called/operator", "Lee", ""), ("called/at", now, ""), ("called/until", "17:30", "")]


def test_a_pass_beyond_its_limit_or_a_garbled_number_halts_done_each_time_and_going_on_without_is_kept_as_said(phone: Page, root: str) -> None:
    step = step_of(root, phone, "check/charging-voltage")
    form = at(phone, root, step)
    one, done = block(form, "check/charging-voltage"), done_of(phone, step)
    one.get_by_label("Measured, V").fill("12.012.0")
    expect(one.locator(".says")).to_contain_text("NO NUMBER. Limit: 13.4 V or more")
    for _ in range(2):
        done.click()
        expect(block(form, "step").get_by_text("Before you go on")).to_contain_text("Charging voltage")
    fill(one, "Measured, V", "12")
    one.get_by_role("button", name="pass").click()
    expect(one.locator(".says")).to_contain_text("You wrote pass: say why.")
    for _ in range(3):
        done.click()
        expect(block(form, "step").get_by_text("Before you go on")).to_be_in_viewport()
    assert phone.url.endswith(f"#{step}") and not [entry for entry in entries(phone) if entry["what"] == "step"]
    block(form, "step").get_by_role("link", name="Go on without").click()
    expect(phone).not_to_have_url(re.compile(f"#{step}$"))
    last = entries(phone)[-1]
    assert (last["what"], last["result"]) == ("step", "done") and last["note"].startswith(WITHOUT_REASON) and "Charging voltage" in last["note"]
    # With a reason nothing halts but what was not read, once.
    form = at(phone, root, step)
    one.get_by_label("Because").fill("meter was cold")
    done.click()
    expect(block(form, "step").get_by_text(STAYS)).to_be_in_viewport()
    done.click()
    expect(phone).not_to_have_url(re.compile(f"#{step}$"))
    assert WITHOUT_REASON not in entries(phone)[-1]["note"]


@pytest.mark.parametrize("press", ["mouse", "touch"])
def test_a_tap_straight_after_typing_hits_what_lies_under_the_finger(context: Contexts, root: str, press: str) -> None:
    phone = context(has_touch=True).new_page()
    form = at(phone, root, "signal-d1")
    # A stand-in for browsers that do not hold the page in its place when something comes up above.
    phone.add_style_tag(content="* { overflow-anchor: none !important }")
    level = block(form, "signal").locator("[data-at=attempt-1]").get_by_label("Level", exact=True)
    level.evaluate("one => scrollTo(0, scrollY + one.getBoundingClientRect().top - 90)")
    level.click()
    phone.keyboard.type("3")
    # To leave this field brings up a verdict, units and a second attempt: all that stands below is pushed away.
    button = block(form, "check/link-margin").get_by_role("button", name="fail")
    box = button.bounding_box()
    where = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    assert where[1] < 640
    if press == "touch":
        phone.touchscreen.tap(*where)
    else:
        phone.mouse.move(*where)
        phone.mouse.down()
        # Nothing moves until the finger lifts, however long it rests.
        phone.wait_for_timeout(300)
        assert button.bounding_box() == box
        phone.mouse.up()
    expect(button).to_have_attribute("aria-pressed", "true")
    expect(block(form, "signal").locator("[data-at=says-1]")).to_contain_text("Attempt 1: FAIL. 3 bars")
    kept(form, "check/link-margin")
    expect(block(form, "signal").locator("[data-at=attempt-2]")).to_be_visible()
    assert button.bounding_box()["y"] > box["y"] + 100
    assert {(one["what"], one["value"], one["result"]) for one in entries(phone)} == {("signal/1/from-unit/level", "3", ""), ("check/link-margin", "", "fail")}


def test_a_hold_point_can_fail_and_says_what_is_not_done(phone: Page, root: str) -> None:
    form = at(phone, root, "enrol-d2")
    form.get_by_label("Your letters").fill("JB")
    form.get_by_label("Your letters").blur()
    # Shown at once, before anything else is tapped.
    expect(form.locator("[data-at=letters]")).to_have_text("JB")
    hold = phone.locator("[data-hold=H10][data-step=enrol-d2]")
    for _ in range(2):
        done_of(phone, "enrol-d2").click()
    expect(hold).to_be_visible()
    expect(hold.get_by_text("Could not be done or tested")).to_be_hidden()
    assert hold.locator(".act").all_inner_texts() == ["It does not hold", "Something is open: go on?"]
    hold.get_by_role("button", name="It does not hold").click()
    expect(hold.get_by_text("Could not be done or tested: 1")).to_be_visible()
    expect(hold.locator("[data-sort=not] li")).to_contain_text("Hold point H10")
    expect(hold.locator("[data-sort=not] li")).to_contain_text("could not · JB")
    fill(hold, "Because", "the keypad names another unit")
    kept(hold, "hold/H10")
    last = entries(phone)[-1]
    assert (last["device"], last["step"], last["what"], last["result"], last["note"], last["by"]) == (
        "D2", "enrol-d2", "hold/H10", "could not", "the keypad names another unit", "JB")
    assert last["at"] and phone.url.endswith("#hold-enrol-d2")


def test_a_hold_point_that_failed_is_read_in_the_sun_and_hit_with_gloves_in_light_and_dark(phone: Page, root: str) -> None:
    """7:1: WCAG 2.2, 1.4.6 Contrast (Enhanced). 56 px, 12 px apart: our own, for gloves; common practice, no source."""
    at(phone, root, "enrol-d2")
    for _ in range(2):
        done_of(phone, "enrol-d2").click()
    hold = phone.locator("[data-hold=H10][data-step=enrol-d2]")
    hold.get_by_role("button", name="It does not hold").click()
    expect(hold.locator("[data-sort=not] li")).to_be_visible()
    expect(hold.locator("[data-sort=blank] li").first).to_be_visible()
    for scheme in SCHEMES:
        phone.emulate_media(color_scheme=scheme)
        assert not weak(phone, "[data-hold=H10][data-step=enrol-d2]"), scheme
        # What lies under the bar at the foot is scrolled clear of it.
        phone.evaluate("scrollTo(0, document.documentElement.scrollHeight)")
        boxes = hold.evaluate(SIZES.replace("button, input, textarea", "a, button, summary"))
        assert len(boxes) >= 8
        for left, top, right, bottom in boxes:
            assert bottom - top >= 56 and right - left >= 56, (scheme, left, top, right, bottom)
            for other in boxes:
                if other != [left, top, right, bottom]:
                    across, down = max(other[0] - right, left - other[2]), max(other[1] - bottom, top - other[3])
                    assert max(across, down) >= 11.9, (scheme, left, top, other)


def test_a_swapped_pair_is_warned_of_at_the_pass_of_its_identity_and_at_the_hold_point(phone: Page, root: str) -> None:
    serial(phone, root, "d1", "00A4F9")
    serial(phone, root, "d3", "00A4F3")
    form = at(phone, root, "enrol-d3")
    identity = block(form, "check/identity")
    identity.get_by_role("button", name="pass").click()
    expect(identity.locator(".says")).to_contain_text("SWAPPED PAIR: D3 bears the serial of D1")
    expect(identity.locator(".says")).to_contain_text("You wrote pass: say why.")
    done_of(phone, "enrol-d3").click()
    lacks = block(form, "step").get_by_text("Before you go on")
    expect(lacks).to_contain_text("Serial of D3, D3: Identity")
    assert phone.url.endswith("#enrol-d3")
    # The reason is written where the pass stands, too.
    fill(block(form, "serial"), "Because", "fitted the other way round")
    fill(identity, "Because", "fitted the other way round")
    # What was not read was named with it.
    done_of(phone, "enrol-d3").click()
    expect(phone.locator("[data-hold=H10][data-step=enrol-d3] [data-sort=serial]")).to_contain_text("SWAPPED PAIR")
