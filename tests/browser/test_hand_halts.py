"""Does the phone speak up before somebody goes on: a pass beyond its limit, a hold point that does not hold, a swapped pair?"""
import re

from playwright.sync_api import Page, expect

from tests.browser.test_hand_forms import at, block, entries, root, serial, step_of

__all__ = ["root"]


def test_a_pass_beyond_its_limit_or_a_garbled_number_halts_done_once_and_going_on_without_is_kept_as_said(phone: Page, root: str) -> None:
    step = step_of(root, phone, "check/charging-voltage")
    form = at(phone, root, step)
    one, done = block(form, "check/charging-voltage"), phone.locator(f"[data-step={step}] [data-act=done]")
    one.get_by_label("Measured, V").fill("12.012.0")
    expect(one.locator(".says")).to_contain_text("NO NUMBER. Limit: 13.4 V or more")
    done.click()
    expect(block(form, "step").get_by_text("Before you go on")).to_contain_text("Charging voltage")
    one.get_by_label("Measured, V").fill("12")
    one.get_by_label("Measured, V").blur()
    one.get_by_role("button", name="pass").click()
    expect(one.locator(".says")).to_contain_text("You wrote pass: say why.")
    done.click()
    expect(block(form, "step").get_by_text("Before you go on")).to_be_in_viewport()
    assert phone.url.endswith(f"#{step}") and not [entry for entry in entries(phone) if entry["what"] == "step"]
    block(form, "step").get_by_role("link", name="Go on without").click()
    expect(phone).not_to_have_url(re.compile(f"#{step}$"))
    last = entries(phone)[-1]
    assert (last["what"], last["result"]) == ("step", "done") and last["note"].startswith("Gone on without a reason: ") and "Charging voltage" in last["note"]
    # With a reason nothing halts.
    form = at(phone, root, step)
    one.get_by_label("Because").fill("meter was cold")
    done.click()
    expect(phone).not_to_have_url(re.compile(f"#{step}$"))
    assert entries(phone)[-1]["note"] == ""


def test_a_hold_point_can_fail_and_says_what_is_not_done(phone: Page, root: str) -> None:
    form = at(phone, root, "enrol-d2")
    form.get_by_label("Your letters").fill("JB")
    form.get_by_label("Your letters").blur()
    # Shown at once, before anything else is tapped.
    expect(form.locator("[data-at=letters]")).to_have_text("JB")
    hold = phone.locator("[data-hold=H10][data-step=enrol-d2]")
    phone.locator("[data-step=enrol-d2] [data-act=done]").click()
    expect(hold).to_be_visible()
    expect(hold.get_by_text("Could not be done or tested")).to_be_hidden()
    assert hold.locator(".act").all_inner_texts() == ["It does not hold", "It holds: go on"]
    hold.get_by_role("button", name="It does not hold").click()
    expect(hold.get_by_text("Could not be done or tested: 1")).to_be_visible()
    expect(hold.locator("[data-sort=not] li")).to_contain_text("H10 does not hold JB")
    last = entries(phone)[-1]
    assert (last["device"], last["step"], last["what"], last["result"], last["note"], last["by"]) == ("D2", "enrol-d2", "step", "could not", "H10 does not hold", "JB")
    assert last["at"] and phone.url.endswith("#hold-enrol-d2")


def test_a_swapped_pair_is_warned_of_at_the_pass_of_its_identity_and_at_the_hold_point(phone: Page, root: str) -> None:
    serial(phone, root, "d1", "00A4F9")
    serial(phone, root, "d3", "00A4F3")
    form = at(phone, root, "enrol-d3")
    identity = block(form, "check/identity")
    identity.get_by_role("button", name="pass").click()
    expect(identity.locator(".says")).to_contain_text("SWAPPED PAIR: D3 bears the serial of D1")
    expect(identity.locator(".says")).to_contain_text("You wrote pass: say why.")
    phone.locator("[data-step=enrol-d3] [data-act=done]").click()
    expect(phone.locator("[data-hold=H10][data-step=enrol-d3] [data-sort=serial]")).to_contain_text("SWAPPED PAIR")
