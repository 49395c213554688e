"""Can a thumb hit everything that can be tapped? 44 x 44 CSS px: WCAG 2.2, 2.5.5 Target Size (Enhanced).

On the installer's pages a gloved one: 56 px, 12 px apart (common practice, no source). What passes all the same, `seen.passed`: a link in
running text (WCAG 2.2, 2.5.8, "Inline"), a mark on a drawing that stands below it in words (2.5.5, "Equivalent"), and the cover of a page
behind its open drawer or search.
"""
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.look import Looks, small
from tests.browser.pages import AUDIENCES, RESULT, SCHEMES, STARTS, WITH_DRAWER, one_of_each_kind, search

GLOVE = [56, 12]
# Beyond the first page of each folder: a step and its hold point, what asks at a test, a whole phase.
SCREENS = ("steps/fix.html", "steps/fix.html#fix-d1", "steps/fix.html#hold-fix-d1", "steps/test.html#test-d1")
# Pages that lead from one drawer to the next, at each depth.
IN_STATES = ("index.html", "findings.html", "d", "rules", "steps")
OPEN = "document.querySelectorAll('details').forEach(one => one.open = true)"
PARTS = """async ([least, apart]) => {
  const out = [], parts = [...document.querySelectorAll('main > div[id]')].map(one => one.id);
  for (const place of [...parts, 'fix-d1', document.querySelector('[data-hold] h2').id]) {
    location.hash = place;
    await new Promise(requestAnimationFrame);
    out.push(...seen.glove(least, apart).map(one => `${place}: ${one}`));
  }
  return [parts.length, out];
}"""


@pytest.mark.parametrize("audience", AUDIENCES)
def test_every_target_is_large_enough_with_drawer_and_search_shut_and_open(looks: Looks, audience: str) -> None:
    assert not looks(audience).small, "\n".join(looks(audience).small)


@pytest.mark.parametrize("audience", WITH_DRAWER)
def test_every_page_has_targets_that_were_measured(looks: Looks, audience: str) -> None:
    assert min(looks(audience).targets.values()) >= 2


@pytest.mark.parametrize("start", STARTS)
def test_every_target_among_the_results_of_a_search_is_large_enough(demo: Path, phone: Page, start: str) -> None:
    phone.goto((demo / "installer" / start).as_uri())
    search(phone, "hall")
    expect(phone.locator(RESULT).first).to_be_visible()
    phone.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
    assert phone.evaluate("seen.targets().filter(one => one.closest('.md-search-result')).length") > 2
    assert not (out := small(phone)), "\n".join(out)


def test_on_every_kind_of_the_installers_pages_a_gloved_thumb_hits_one_thing_alone(every_demo: Path, phone: Page) -> None:
    pack, out, passed = every_demo / "K-2050" / "installer", [], set()
    kinds = [one.relative_to(pack).as_posix() for one in one_of_each_kind(pack)]
    for name in (*kinds, *SCREENS):
        phone.goto("about:blank")
        phone.goto(f"{pack.as_uri()}/{name}")
        phone.evaluate(OPEN)
        in_states = name in kinds and name.partition("/")[0] in IN_STATES
        out += [f"{name}: {line}" for line in phone.evaluate(f"seen.glove{'InStates' if in_states else ''}(...{GLOVE})")]
        passed |= {(name, reason) for reason in phone.evaluate("seen.passed(56)")}
    assert len(kinds) > 25 and not out, "\n".join(out)
    assert passed == {("plan.html", "a mark on a drawing")}


@pytest.mark.parametrize("scheme", SCHEMES)
def test_what_the_script_brings_is_for_a_gloved_thumb_too(demo: Path, phone: Page, scheme: str) -> None:
    phone.emulate_media(color_scheme=scheme)
    root, out = (demo / "installer").as_uri(), []
    phone.goto(f"{root}/find.html")
    phone.fill("[type=search]", "d")
    expect(phone.locator(".found a").nth(1)).to_be_visible()
    out += phone.evaluate(f"seen.glove(...{GLOVE})")
    phone.evaluate("Doorpost.keep.add({device: 'D1', step: 'enrol-d1', what: 'step', result: 'could not', note: 'later'})")
    phone.goto(f"{root}/results.html")
    expect(phone.locator(".written a").first).to_be_visible()
    phone.evaluate(OPEN)
    out += phone.evaluate(f"seen.glove(...{GLOVE})")
    phone.goto(f"{root}/index.html")
    search(phone, "hall")
    expect(phone.locator(RESULT).first).to_be_visible()
    phone.evaluate(OPEN)
    assert phone.evaluate("seen.targets().filter(one => one.closest('.md-search-result')).length") > 2
    assert not (out := out + phone.evaluate(f"seen.glove(...{GLOVE})")), "\n".join(out)


@pytest.mark.parametrize("scheme", SCHEMES)
def test_in_the_one_file_that_is_carried_a_gloved_thumb_hits_one_thing_alone(demo: Path, phone: Page, scheme: str) -> None:
    phone.emulate_media(color_scheme=scheme)
    phone.goto((demo / "pocket.html").as_uri())
    phone.evaluate(OPEN)
    count, out = phone.evaluate(PARTS, GLOVE)
    assert count > 25 and not out, "\n".join(out)


@pytest.mark.parametrize("body", ['<p><a href="#x">x</a>', '<p><a href="#x">x</a> <a href="#y" style="display:none">y</a> 12',
                                  "<p><button>x</button> a word",
                                  '<p>a word <a href="#x" style="display:inline-flex;width:44px;height:44px">x</a>'])
def test_what_is_no_link_in_running_text_passes_no_glove(phone: Page, body: str) -> None:
    phone.goto("about:blank")
    phone.set_content(body)
    assert len(phone.evaluate(f"seen.glove(...{GLOVE})")) == 1
    phone.set_content('<p>a word <a href="#x">x</a> and <a href="#y">y</a>')
    assert phone.evaluate(f"seen.glove(...{GLOVE})") == [] and phone.evaluate("seen.passed(56)") == 2 * ["a link in running text"]


@pytest.mark.parametrize("target", ['<a href="#x">x</a>', "<button>x</button>", '<input type="checkbox">',
                                    '<label for="x">x</label>', "<details><summary>x</summary></details>",
                                    '<a href="#x" style="display:block;height:44px;width:43px">x</a>'])
def test_a_small_target_is_found(phone: Page, target: str) -> None:
    phone.goto("about:blank")
    phone.set_content(target)
    assert len(small(phone)) == 1
