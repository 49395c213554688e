"""Does a hold point show what it rests on before anybody goes on, and is it kept which held, when, and by whom?"""
import re

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.browser.pages import Contexts
from tests.browser.test_hand_forms import at, block, entries, kept, root
from tests.browser.test_hand_halts import done_of, fill

__all__ = ["root"]

GREEN = "getComputedStyle(document.querySelector('.done')).backgroundColor"


def hold_of(phone: Page, root: str, step: str) -> Locator:
    """The hold point of a step, on its screen."""
    page = phone.evaluate("step => DOORPOST.steps.find(one => one.id === step).page", step)
    phone.goto(f"{root}{page.partition('#')[0]}#hold-{step}")
    hold = phone.locator(f"[data-hold][data-step={step}]")
    expect(hold.locator("fieldset")).to_be_visible()
    return hold


def on(hold: Locator) -> Locator:
    return hold.locator("[data-act=holds]")


def held(phone: Page, hold: str, step: str) -> list[tuple[str, str]]:
    """Everything that was written of a hold point: result and note."""
    return [(one["result"], one["note"]) for one in entries(phone) if (one["what"], one["step"]) == (f"hold/{hold}", step)]


def result(form: Locator, what: str, word: str) -> None:
    block(form, what).get_by_role("button", name=word, exact=True).click()
    kept(form, what)


def test_a_room_that_is_not_cleared_is_named_large_before_the_drill_and_going_on_takes_a_reason(phone: Page, root: str) -> None:
    form = at(phone, root, "asbestos")
    room = phone.evaluate("DOORPOST.asked.find(one => one.title.endsWith('cleared: Hall')).what")
    result(form, room, "fail")
    hold = hold_of(phone, root, "fix-d1")
    says = hold.locator("[data-open]")
    expect(says).to_be_in_viewport()
    expect(says).to_contain_text("Do not drill.")
    expect(says.locator("[data-sort=fail]")).to_contain_text("HALL: NOT CLEARED fail")
    expect(says.locator("[data-sort=blank]")).to_contain_text("Link of D1")
    expect(on(hold)).to_have_text("Something is open: go on?")
    assert on(hold).evaluate("one => getComputedStyle(one).backgroundColor") != phone.evaluate(GREEN)
    for _ in range(2):
        on(hold).click()
        expect(hold.get_by_label("Because")).to_be_in_viewport()
    assert phone.url.endswith("#hold-fix-d1") and held(phone, "H8", "fix-d1") == []
    fill(hold, "Because", "surveyor cleared it by telephone")
    on(hold).click()
    expect(phone).to_have_url(re.compile("#fix-d1$"))
    assert held(phone, "H8", "fix-d1")[-1] == ("done", "surveyor cleared it by telephone")
    # Cleared after all, and its link read: the same action is the green one, and asks nothing.
    form = at(phone, root, "asbestos")
    result(form, room, "pass")
    fill(block(form, room), "Measured", "survey of 2019")
    kept(form, room)
    first = block(at(phone, root, "signal-d1"), "signal").locator("[data-at=attempt-1]")
    first.get_by_label("Arrived of 10").fill("10")
    first.get_by_label("Level", exact=True).fill("9")
    first.get_by_label("Level", exact=True).blur()
    kept(phone.locator("[data-step=signal-d1] [data-write]").first, "signal")
    hold = hold_of(phone, root, "fix-d1")
    expect(hold.locator("[data-open]")).to_be_hidden()
    expect(on(hold)).to_have_text("It holds: go on")
    assert on(hold).evaluate("one => getComputedStyle(one).backgroundColor") == phone.evaluate(GREEN)
    on(hold).click()
    expect(phone).to_have_url(re.compile("#fix-d1$"))
    assert held(phone, "H8", "fix-d1")[-1] == ("done", "")


def test_a_charging_voltage_that_failed_and_a_polarity_that_nobody_read_stand_before_the_battery(phone: Page, root: str) -> None:
    phone.goto(root)
    step = phone.evaluate("DOORPOST.asked.find(one => one.what === 'check/charging-voltage').step")
    form = at(phone, root, step)
    fill(block(form, "check/charging-voltage"), "Measured, V", "14.6")
    result(form, "check/charging-voltage", "fail")
    hold = hold_of(phone, root, "power-battery")
    expect(hold.locator("[data-sort=fail]")).to_contain_text("CU: Charging voltage 14.6 V · fail")
    expect(hold.locator("[data-sort=blank]")).to_contain_text("CU: Polarity")
    expect(hold.locator("[data-open]")).to_contain_text("Join no battery.")
    on(hold).click()
    expect(phone).to_have_url(re.compile("#hold-power-battery$"))


def test_a_link_that_failed_is_named_by_its_own_hold_point_and_by_that_before_the_drill(phone: Page, root: str) -> None:
    form = at(phone, root, "signal-d1")
    for n, (arrived, level) in enumerate((("8", "3"), ("7", "3")), 1):
        attempt = block(form, "signal").locator(f"[data-at=attempt-{n}]")
        attempt.get_by_label("Arrived of 10").fill(arrived)
        attempt.get_by_label("Level", exact=True).fill(level)
        attempt.get_by_label("Level", exact=True).blur()
        kept(form, "signal")
    for step in ("signal-d1", "fix-d1"):
        hold = hold_of(phone, root, step)
        expect(hold.locator("[data-sort=fail]")).to_contain_text("Attempt 2: FAIL. 7 of 10 arrived")
        expect(hold.locator("[data-open]")).to_contain_text("Do not drill")


def test_a_hold_point_that_holds_later_corrects_that_it_did_not_and_until_then_its_step_is_open(phone: Page, root: str) -> None:
    phone.goto(root)
    first, second = phone.evaluate("DOORPOST.steps.slice(0, 2).map(one => one.id)")
    at(phone, root, first)
    done_of(phone, first).click()
    hold = hold_of(phone, root, first)
    hold.get_by_role("button", name="It does not hold").click()
    kept(hold, "hold/H1")
    expect(hold.get_by_text("Written down: it does not hold.")).to_be_visible()
    at(phone, root, second)
    done_of(phone, second).click()
    expect(phone).to_have_url(re.compile("hold"))
    phone.goto(root)
    expect(phone.locator("[data-next] span")).to_contain_text("Next step: 1 of")
    on(hold_of(phone, root, first)).click()
    expect(phone).to_have_url(re.compile(f"#{second}$"))
    assert held(phone, "H1", first) == [("could not", ""), ("done", "")]
    phone.goto(root)
    expect(phone.locator("[data-next] span")).to_contain_text("Next step: 3 of")


def test_the_last_hold_point_counts_what_is_open_by_phase(phone: Page, root: str) -> None:
    form = at(phone, root, "asbestos")
    result(form, phone.evaluate("DOORPOST.asked.find(one => one.title.endsWith('cleared: Hall')).what"), "fail")
    phase = phone.evaluate("DOORPOST.steps.find(one => one.id === 'asbestos').phase")
    hold = hold_of(phone, root, "off-test")
    expect(hold.locator("[data-sort=fail] summary")).to_have_text(f"Failed, or beyond its limit: 1; {phase} 1")
    blank = hold.locator("[data-sort=blank] summary").inner_text()
    counts = [int(one) for one in re.findall(r"\d+", blank)]
    assert counts[0] == sum(counts[1:]) > 100 and len(counts) > 5
    assert hold.locator("[data-sort=blank]").get_attribute("open") is None
    on(hold).click()
    expect(phone).to_have_url(re.compile("#hold-off-test$"))


@pytest.mark.parametrize("letters", ["JB", ""])
def test_letters_are_asked_once_before_the_first_entry_goes_on_without_a_name(context: Contexts, root: str, letters: str) -> None:
    phone = context().new_page()
    phone.goto(root)
    first, second = phone.evaluate("DOORPOST.steps.slice(0, 2).map(one => one.id)")
    where = phone.evaluate("DOORPOST.steps[0].page")
    phone.goto(f"{root}{where.partition('#')[0]}#{first}")
    form = phone.locator(f"[data-step={first}]:not([data-hold]) [data-write]")
    expect(form.locator("fieldset[data-what=step]")).to_be_attached()
    done_of(phone, first).click()
    expect(form.get_by_text("So that it is known who wrote.")).to_be_in_viewport()
    assert phone.url.endswith(f"#{first}") and entries(phone) == []
    if letters:
        fill(form, "Your letters", letters)
    done_of(phone, first).click()
    expect(phone).to_have_url(re.compile(f"#hold-{first}$"))
    hold = phone.locator(f"[data-hold][data-step={first}]")
    on(hold).click()
    expect(phone).to_have_url(re.compile(f"#{second}$"))
    phone.reload()
    done_of(phone, second).click()
    expect(phone).not_to_have_url(re.compile(f"#{second}$"))
    assert [(one["what"], one["by"]) for one in entries(phone)] == [("step", letters), ("hold/H1", letters), ("step", letters)]


def test_a_link_read_one_way_is_no_pass_and_more_than_were_sent_is_no_number(phone: Page, root: str) -> None:
    form = at(phone, root, "signal-k1")
    first = block(form, "signal").locator("[data-at=attempt-1]")
    for way, arrived, says in (("from-unit", "10", "Attempt 1: 10 of 10 arrived; 30 dB"), ("to-unit", "11", "11 of 10 arrived, MORE THAN WERE SENT"),
                               ("to-unit", "10", "Attempt 1: PASS. 10 of 10 arrived; 30 dB")):
        one = first.locator(f"[data-way={way}]")
        one.get_by_label("Arrived of 10").fill(arrived)
        one.get_by_label("Level", exact=True).fill("30")
        one.get_by_label("Level", exact=True).blur()
        one.get_by_role("button", name="dB").click()
        expect(first.locator(".says")).to_contain_text(says)
        assert ("PASS" in first.locator(".says").inner_text()) == says.startswith("Attempt 1: PASS")
    messages = block(form, "check/messages")
    fill(messages, "Measured", "11")
    messages.get_by_role("button", name="pass").click()
    expect(messages.locator(".says")).to_contain_text("MORE THAN WERE SENT.")
    done_of(phone, "signal-k1").click()
    expect(block(form, "step").get_by_text("Before you go on")).to_contain_text("Messages")
    # The unit that was chosen last is that of the next link; what was read before keeps its own.
    other = block(at(phone, root, "signal-d2"), "signal").locator("[data-at=attempt-1]")
    other.get_by_label("Level", exact=True).fill("8")
    other.get_by_label("Level", exact=True).blur()
    expect(other.locator(".says")).to_contain_text("8 dB")
    assert {one["unit"] for one in entries(phone) if one["what"].endswith("/level")} >= {"dB"}


def test_without_scripts_each_step_and_hold_point_says_that_nothing_is_kept(context: Contexts, root: str) -> None:
    page = context(java_script_enabled=False).new_page()
    for address, nav in (("steps/fix.html#fix-d1", "[data-step=fix-d1]:not([data-hold]) .thumb"), ("steps/fix.html#hold-fix-d1", "[data-hold][data-step=fix-d1] .thumb")):
        page.goto(root + address)
        shown = page.locator(nav).evaluate("one => getComputedStyle(one, '::before').content")
        assert shown == '"Nothing is kept on this page: write on paper."', address


def test_with_scripts_no_step_says_that_nothing_is_kept(phone: Page, root: str) -> None:
    at(phone, root, "fix-d1")
    hold_of(phone, root, "fix-d1")
    for nav in ("[data-step=fix-d1]:not([data-hold]) .thumb", "[data-hold][data-step=fix-d1] .thumb"):
        assert phone.locator(nav).evaluate("one => getComputedStyle(one, '::before').content") == "none"
