"""Does a step fill one screen with what it needs, its actions under the thumb, in light and dark; does the start page follow what is kept?

Targets of 56 px, 12 px apart, for gloves: common practice, no source. 7:1: WCAG 2.2, 1.4.6 Contrast (Enhanced).
"""
import re
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.look import weak
from tests.browser.pages import PHONE, SCHEMES, Contexts

LEAST, APART = 56, 12
# Measured on the large demo, by us, in a font that is wider than a phone's: of each phase's steps these alone scroll under the bar. They have five and six
# messages, or join supplies, or are the first whose link is checked.
SCROLL = {"listen": {"signal-r1", "signal-s1"}, "power": {"cable-entry", "fix-cu", "power-mains"}, "fix": {"fix-co1", "fix-d7", "fix-r1", "fix-s1", "fix-sm2"}}
FIT = 0.95
# Small enough to be read at arm's length, no smaller: common practice, no source.
LEAST_TEXT = 16
PHASES = ("arrive", "listen", "power", "fix", "enrol", "programme", "test", "leave")
# Where the needed part of each step of a page ends, and where the bar begins: without what is folded away or written down.
ENDS = """() => [...document.querySelectorAll('section.step:not(.holdpoint)')].map(step => {
  location.hash = step.dataset.step;
  scrollTo(0, 0);
  const needed = [...step.children].filter(one => !one.matches('.thumb, .count, .fold, .more, .write') && one.checkVisibility());
  return [step.dataset.step, Math.max(...needed.map(one => one.getBoundingClientRect().bottom)), step.querySelector('.thumb').getBoundingClientRect().top];
})"""
# What is too small to read, or to tap, or too near something else to tap, in each step of a page.
TROUBLES = """([text, least, apart]) => [...document.querySelectorAll('section.step:not(.holdpoint)')].flatMap(step => {
  location.hash = step.dataset.step;
  const words = seen.inks('section.step, section.step *').filter(one => one.size < text).map(one => `${one.where} ${one.size} px`);
  return [...words, ...seen.small(least), ...seen.near(apart)].map(one => `${step.dataset.step}: ${one}`);
})"""
GROUND = "getComputedStyle(document.body).backgroundColor"
PALETTE = """() => [document.documentElement, document.body, document.querySelector('h2')].flatMap(one => {
  const look = getComputedStyle(one);
  return [look.colorScheme, look.color, look.backgroundColor,
          ...'ink ground soft line deep link on-deep hold on-hold alert enough little short'.split(' ')
            .map(name => look.getPropertyValue('--dp-' + name))];
})"""


def at(page: Page, demo: Path, address: str) -> None:
    page.goto("about:blank")
    page.goto(f"{(demo / 'installer').as_uri()}/{address}")


@pytest.mark.parametrize("address", ["steps/fix.html#fix-d1", "steps/fix.html#hold-fix-d1", "steps/listen.html#signal-d1",
                                     "steps/test.html#test-d1", "steps/arrive.html#read-pack"])
def test_every_action_on_a_steps_screen_is_large_and_apart_enough_for_a_glove(demo: Path, phone: Page, address: str) -> None:
    at(phone, demo, address)
    phone.locator("section.step:visible").wait_for()
    if "hold-" not in address:
        expect(phone.locator(".write:visible fieldset").first).to_be_attached()
        phone.evaluate("document.querySelectorAll(':is(.fold, .whole, .over) input').forEach(one => one.checked = true)")
    assert phone.evaluate("seen.targets().length") > 4
    assert not (out := phone.evaluate(f"[...seen.small({LEAST}), ...seen.near({APART})]")), "\n".join(out)


@pytest.mark.parametrize("body", ['<a href="#x" style="display:block;height:56px;width:55px">x</a>',
                                  2 * '<a href="#x" style="display:block;height:56px;margin-top:11px">x</a>'])
def test_what_is_too_small_or_too_near_for_a_glove_is_found(phone: Page, body: str) -> None:
    phone.goto("about:blank")
    phone.set_content(body)
    assert len(phone.evaluate(f"[...seen.small({LEAST}), ...seen.near({APART})]")) == 1


def test_the_actions_lie_in_the_bottom_third_and_reach_both_edges(demo: Path, phone: Page) -> None:
    at(phone, demo, "steps/fix.html#fix-d1")
    boxes = [one.bounding_box() for one in phone.locator(".thumb a:visible").all()]
    assert len(boxes) == 4 and all(box["y"] > PHONE["height"] * 2 / 3 and box["y"] + box["height"] <= PHONE["height"] for box in boxes)
    assert boxes[0]["x"] <= APART and boxes[-1]["x"] + boxes[-1]["width"] >= PHONE["width"] - APART


def test_most_steps_of_the_large_job_fit_the_screen_above_their_actions(every_demo: Path, context: Contexts) -> None:
    page, scroll, count = context(java_script_enabled=False).new_page(), {}, 0
    for phase in PHASES:
        page.goto((every_demo / "K-2050" / "installer" / "steps" / f"{phase}.html").as_uri())
        ends = page.evaluate(ENDS)
        assert all(bar > PHONE["height"] * 0.85 for *_, bar in ends)
        scroll[phase], count = {step for step, needed, bar in ends if needed > bar}, count + len(ends)
    assert count == 200 and sum(map(len, scroll.values())) <= (1 - FIT) * count
    assert {phase: steps for phase, steps in scroll.items() if steps} == SCROLL


def test_in_every_step_of_the_large_job_text_is_large_enough_to_read_and_targets_are_for_a_glove(every_demo: Path, context: Contexts) -> None:
    page, out = context(java_script_enabled=False).new_page(), []
    for phase in PHASES:
        page.goto((every_demo / "K-2050" / "installer" / "steps" / f"{phase}.html").as_uri())
        out += page.evaluate(TROUBLES, [LEAST_TEXT, LEAST, APART])
    assert not out, "\n".join(out)


def test_a_message_folded_for_the_screen_says_hazard_and_what_to_do_and_a_tap_shows_all_of_it_as_paper_does(demo: Path, context: Contexts) -> None:
    page = context(java_script_enabled=False).new_page()
    at(page, demo, "steps/fix.html#fix-d1")
    messages = page.locator("section.step:visible .safety.first")
    assert messages.count() > 2
    for message in messages.all():
        assert not message.locator(".rest:visible").count()
        said = message.inner_text()
        assert message.locator(".line strong").nth(1).inner_text() in said and len(message.locator(".line").inner_text().split(". ")) > 1
        message.locator("label.over").click()
        hazard, avoid = (one.inner_text() for one in message.locator("p.rest").all())
        assert hazard.startswith(message.locator("strong:visible").nth(0).inner_text()) and len(avoid) > 20
        message.locator("label.over").click()
        assert message.inner_text() == said
    page.emulate_media(media="print")
    for message in messages.all():
        assert all(len(one.inner_text()) > 20 for one in message.locator("p.rest").all()) and not message.locator(":is(.line, .over):visible").count()


def test_a_long_list_of_a_step_is_folded_behind_its_first_lines_and_says_how_long_it_is(every_demo: Path, context: Contexts) -> None:
    page = context(java_script_enabled=False).new_page()
    at(page, every_demo / "K-2050", "steps/programme.html#set-attributes")
    lines, fold = page.locator("section.step:visible .facts dl"), page.locator(".whole:visible")
    assert fold.inner_text().strip() == f"All {lines.count()} lines" and sum(one.is_visible() for one in lines.all()) == 4
    fold.click()
    assert all(one.is_visible() for one in lines.all())


def test_a_hold_point_fills_the_screen_says_until_when_and_why_and_has_one_action(demo: Path, context: Contexts) -> None:
    page = context(java_script_enabled=False).new_page()
    at(page, demo, "steps/fix.html#hold-fix-d1")
    box, bar, head = (page.locator(one).bounding_box() for one in (".hold:visible", ".thumb:visible", ".md-header"))
    assert box["height"] >= 0.95 * (bar["y"] - head["y"] - head["height"])
    text = page.locator(".hold:visible").inner_text()
    assert "Do not go on until:" in text and "Why:" in text
    assert page.locator(".act:visible").all_inner_texts() == ["It holds: go on"]
    # White on the ground of a hold point, which is another than that of a step.
    assert page.locator(".hold:visible").evaluate("one => getComputedStyle(one).backgroundColor") != page.evaluate(GROUND)


@pytest.mark.parametrize("scheme", SCHEMES)
def test_the_switch_turns_light_and_dark_over_without_a_script_into_what_another_phone_shows(demo: Path, context: Contexts, scheme: str) -> None:
    page = context(java_script_enabled=False, color_scheme=scheme).new_page()
    at(page, demo, "index.html")
    own = page.evaluate(PALETTE)
    assert page.locator(".switched").inner_text() == {"light": "Dark", "dark": "Light"}[scheme]
    page.click(".switched")
    turned, said = page.evaluate(PALETTE), page.locator(".switched").inner_text()
    page.click(".switched")
    assert page.evaluate(PALETTE) == own != turned
    page.emulate_media(color_scheme=next(one for one in SCHEMES if one != scheme))
    assert page.evaluate(PALETTE) == turned and page.locator(".switched").inner_text() == said


@pytest.mark.parametrize("scheme", SCHEMES)
def test_each_kind_of_screen_can_be_read_in_the_sun_in_both_states_of_the_switch(demo: Path, context: Contexts, scheme: str) -> None:
    page, out = context(color_scheme=scheme).new_page(), []
    for address in ("steps/fix.html#fix-d1", "steps/fix.html#hold-fix-d1", "steps/test.html#test-d1", "steps/arrive.html", "index.html", "find.html",
                    "results.html", "slots.html", "plan.html", f"d/{min((demo / 'installer' / 'd').iterdir()).name}"):
        at(page, demo, address)
        page.evaluate("document.querySelectorAll(':is(.fold, .whole, .over) input').forEach(one => one.checked = true)")
        for _ in SCHEMES:
            page.click(".switched")
            out += [f"{address} on {page.evaluate(GROUND)}: {line}" for line in weak(page, "body")]
    assert not out, "\n".join(out)


def test_the_switch_stays_from_page_to_page_and_on_paper_all_is_dark_on_white(demo: Path, phone: Page) -> None:
    at(phone, demo, "index.html")
    light = phone.evaluate(GROUND)
    phone.click(".switched")
    dark = phone.evaluate(GROUND)
    at(phone, demo, "steps/fix.html#fix-d1")
    assert phone.evaluate(GROUND) == dark != light
    phone.emulate_media(media="print")
    assert phone.evaluate(GROUND) == light


def test_the_start_page_follows_what_is_kept_and_takes_nothing_else_for_done(demo: Path, phone: Page) -> None:
    at(phone, demo, "index.html")
    printed = phone.locator("[data-left]").inner_text()
    at(phone, demo, "steps/arrive.html#read-pack")
    # Neither a check of a step, nor a step of which only a note was written, is a step done.
    for step, what, result in (("read-pack", "check/lid", "done"), ("read-pack", "step", "")):
        phone.evaluate("([step, what, result]) => Doorpost.keep.add({device: '', step, what, result, note: 'later'})", [step, what, result])
    at(phone, demo, "index.html")
    phone.evaluate("Doorpost.keep.all()")
    assert phone.locator("[data-left]").inner_text() == printed
    ids = phone.evaluate("DOORPOST.steps.map(one => one.id)")
    for id, result in ((ids[0], "done"), (ids[1], "could not")):
        phone.evaluate("([step, result]) => Doorpost.keep.add({device: '', step, what: 'step', result})", [id, result])
    left = len(ids) - 2
    expect(phone.locator("[data-left]")).to_contain_text(f"{left} of {len(ids)} steps left")
    assert "1 done, 1 could not be done" in phone.locator("[data-left]").inner_text()
    assert phone.locator("[data-next] a").get_attribute("href").endswith(f"#{ids[2]}")
    assert re.fullmatch(r"Next hold point H\d+, after its step: .+ \(step [3-9]\)", " ".join(phone.locator("[data-next-hold]").inner_text().split()))
    assert "Nothing kept on this phone says" in phone.locator("[data-state]").inner_text()
    phone.evaluate("Doorpost.keep.add({device: '', step: 'on-test', what: 'step', result: 'done'})")
    expect(phone.locator("[data-state]")).to_contain_text(re.compile(r"The account was put on test, as kept here \d"))
    phone.reload()
    expect(phone.locator("[data-left]")).to_contain_text(f"{left - 1} of {len(ids)} steps left")
