"""The page of what was written down: can it be read and hit with a thumb, does everything go out and come in again, is text only text?"""
import json
import re
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.hand import ADD, ALL, LINK, RESULTS, SIGN, entry, file_of, opened
from tests.browser.look import sideways, weak
from tests.browser.pages import SCHEMES, Contexts, notice, outside, served

# More than any day brings.
MANY = 5000
LARGE, APART = 56, 12
SENT = "p:has([data-part=when])"
OUT, KNOWN = "Taken out of this browser: ", "That it came home this phone cannot know."
HOSTILE = '<img src=x onerror="document.title=1"><script>document.title = 2</script>'
TURNED = "\u202egnp.exe \u2067 abc"


@pytest.fixture(scope="module")
def root(demo: Path) -> Iterator[str]:
    with served(demo / "installer") as address:
        yield address


@pytest.fixture
def page(context: Contexts, root: str) -> Page:
    return opened(context(), root + RESULTS)


def take_in(page: Page, file: object) -> str:
    """Hands the page a file as a thumb would; gives what it says."""
    page.evaluate("() => { document.querySelector('[data-part=said]').textContent = ''; }")
    page.set_input_files("[data-part=file]", {"name": "results.txt", "mimeType": "text/plain", "buffer": json.dumps(file).encode()})
    page.wait_for_function("document.querySelector('[data-part=said]').textContent")
    return page.locator("[data-part=said]").inner_text()


def test_without_script_it_says_that_nothing_is_kept_and_leads_to_the_paper_lines(context: Contexts, root: str) -> None:
    page = context(java_script_enabled=False).new_page()
    page.goto(root + RESULTS)
    text = page.locator("[data-results]").inner_text()
    assert "Without script nothing is kept" in text and "Send it home" not in text
    page.click("[data-part=kept] a")
    assert page.url == f"{root}paper.html"


def test_things_stand_newest_first_with_corrections_and_what_another_phone_says(page: Page) -> None:
    page.evaluate(ADD, LINK | {"value": "5", "unit": "dB", "result": "fail"})
    page.evaluate(ADD, {"device": "D1", "step": "signal-d1", "what": "note", "value": "behind the boiler"})
    page.evaluate(ADD, LINK | {"value": "14", "unit": "dB", "result": "pass", "note": "turned"})
    other = file_of(page, "zzzzzzzz", [entry("zzzzzzzz", 3, value="9", unit="dB", result="fail", by="CD")])
    assert take_in(page, other) == "Taken in. New: 1. Here already: 0."
    assert take_in(page, other) == "Taken in. New: 0. Here already: 1."
    expect(page.locator(".state")).to_have_text("Entries: 4, about 2 things. Two phones differ on: 1.")
    first, second = page.locator("[data-part=list] li").all_inner_texts()
    assert "D1 Link of D1, attempt 1 from unit level" in first and first.index("14 dB · pass · turned") < first.index("Conflict: 9 dB · fail · CD")
    assert first.index("Conflict:") < first.index("Before: 5 dB · fail") and "phone zzzzzzzz" in first
    assert "behind the boiler" in second
    assert page.locator("[data-part=conflicts] li").count() == 1


def test_it_is_said_how_much_was_sent_off_and_when(page: Page) -> None:
    page.evaluate(ADD, LINK)
    expect(page.locator(SENT)).to_have_text(f"{OUT}not yet. New since then: 1. {KNOWN}")
    with page.expect_download() as saved:
        page.click("[data-part=save]")
    phone = page.evaluate("() => Doorpost.keep.held()")["phone"]
    assert saved.value.suggested_filename == f"K-2041-{phone}.txt"
    assert json.loads(Path(saved.value.path()).read_text(encoding="utf-8"))["entries"] == page.evaluate(ALL)
    expect(page.locator(SENT)).to_contain_text("New since then: 0.")
    page.evaluate(ADD, LINK)
    expect(page.locator(SENT)).to_contain_text("New since then: 1.")
    assert "not yet" not in page.locator(SENT).inner_text()


def test_saving_is_not_sending_and_only_what_was_taken_out_can_be_wiped_by_a_second_other_tap(page: Page) -> None:
    first = page.evaluate(ADD, LINK | {"value": "5", "unit": "dB"})
    text = page.locator("[data-results]").inner_text()
    assert "To Saltmarsh Alarm Fitting, " in text and "01632 960" in text and "Ask there whether it came." in text
    wipe = page.get_by_role("button", name="It came: wipe it now")
    expect(page.locator("[data-part=wiping]")).to_be_hidden()
    with page.expect_download():
        page.click("[data-part=save]")
    expect(page.locator("[data-part=said]")).to_contain_text("Saved on this phone, not sent")
    expect(page.locator(SENT)).to_contain_text(KNOWN)
    page.locator("summary", has_text="Wipe what was written for this job").click()
    expect(wipe).to_be_visible()
    # Something new that nobody has outside this browser.
    page.evaluate(ADD, LINK | {"value": "7", "unit": "dB"})
    expect(wipe).to_be_hidden()
    with page.expect_download():
        page.click("[data-part=save]")
    expect(page.locator("[data-part=wiping]")).to_be_visible()
    expect(wipe).to_be_hidden()
    assert len(page.evaluate(ALL)) == 2
    page.locator("summary", has_text="Wipe what was written for this job").click()
    wipe.click()
    expect(page.locator("[data-part=said]")).to_contain_text("Wiped")
    expect(page.locator("[data-part=number]")).to_have_text("0")
    assert page.evaluate(ALL) == []
    # The counter goes on: no id is ever given twice.
    assert page.evaluate(ADD, LINK)["id"][-6:] > first["id"][-6:]


def test_what_is_open_stands_on_top_in_numbers_with_a_swapped_pair_and_what_failed(page: Page) -> None:
    def count(sort: str) -> int:
        """How many are open of a sort; by phase, as they stand behind it, they are as many."""
        all_, *phases = (int(one) for one in re.findall(r" (\d+)(?=;|$)", page.locator(f"[data-open] [data-sort={sort}] summary").inner_text()))
        assert phases and sum(phases) == all_
        return all_

    blank = count("blank")
    assert blank > 100
    for device, value in (("D1", "00A4F9"), ("D3", "00A4F3")):
        page.evaluate(ADD, {"device": device, "step": f"enrol-{device.lower()}", "what": "serial", "value": value})
    page.evaluate(ADD, {"device": "D1", "step": "test-d1", "what": "check/rattle", "result": "fail", "note": "loose"})
    page.evaluate(ADD, {"device": "D2", "step": "enrol-d2", "what": "step", "result": "could not", "note": "No time left"})
    expect(page.locator("[data-open] [data-sort=blank] summary")).to_have_text(re.compile(f"^Blank: {blank - 4};"))
    assert [count(one) for one in ("serial", "fail", "not")] == [2, 1, 1]
    serials = page.locator("[data-open] [data-sort=serial] li").all_text_contents()
    assert all("SWAPPED PAIR" in one for one in serials)
    failed = page.locator("[data-open] [data-sort=fail]")
    failed.locator("summary").click()
    assert "loose" in failed.inner_text()
    failed.locator("a").click()
    expect(page).to_have_url(re.compile("test-d1$"))


def test_the_text_is_copied_and_stands_below(context: Contexts, root: str) -> None:
    window = context()
    window.grant_permissions(["clipboard-read", "clipboard-write"])
    page = opened(window, root + RESULTS)
    page.evaluate(ADD, LINK)
    page.click("[data-part=copy]")
    expect(page.locator("[data-part=said]")).to_contain_text("Copied")
    copied = page.evaluate("() => navigator.clipboard.readText()")
    assert json.loads(copied)["entries"] == page.evaluate(ALL)
    assert page.locator("[data-part=text]").input_value() == copied


def test_where_no_way_to_copy_is_given_the_text_stands_there_to_be_taken_by_hand(context: Contexts, root: str) -> None:
    """A stand-in for a page over plain HTTP whose old way of copying is refused too."""
    window = context()
    window.add_init_script("Object.defineProperty(navigator, 'clipboard', {value: undefined}); Document.prototype.execCommand = () => false;")
    page = opened(window, root + RESULTS)
    page.evaluate(ADD, LINK)
    page.click("[data-part=copy]")
    expect(page.locator("[data-part=said]")).to_contain_text("by hand")
    assert json.loads(page.locator("[data-part=text]").input_value())["entries"] == page.evaluate(ALL)
    expect(page.locator(SENT)).to_have_text(f"{OUT}not yet. New since then: 1. {KNOWN}")


SHARES = """self.shared = [];
  navigator.canShare = data => Object.keys(data).join() === "files" && data.files.every(one => one.name.endsWith(".txt") && one.type === "text/plain");
  navigator.share = async data => { self.shared.push([Object.keys(data).join(), data.files[0].name, await data.files[0].text()]); %s };"""


def test_a_stand_in_for_the_share_sheet_gets_one_text_file_and_nothing_beside(context: Contexts, root: str) -> None:
    """Linux has no share sheet: this stand-in takes what the real one takes by its documents, files of text."""
    window = context()
    window.add_init_script(SHARES % "")
    page = opened(window, root + RESULTS)
    page.evaluate(ADD, LINK)
    page.click("[data-part=share]")
    expect(page.locator(SENT)).to_contain_text("New since then: 0.")
    [[keys, name, text]] = page.evaluate("() => self.shared")
    assert keys == "files" and name.endswith(".txt") and json.loads(text)["entries"] == page.evaluate(ALL)


def test_a_share_that_was_called_off_counts_as_nothing_sent(context: Contexts, root: str) -> None:
    """A stand-in too: the person shuts the share sheet."""
    window = context()
    window.add_init_script(SHARES % "throw new DOMException('', 'AbortError');")
    page = opened(window, root + RESULTS)
    page.evaluate(ADD, LINK)
    page.click("[data-part=share]")
    expect(page.locator("[data-part=said]")).to_contain_text("nothing is lost")
    expect(page.locator(SENT)).to_have_text(f"{OUT}not yet. New since then: 1. {KNOWN}")


def test_without_a_share_sheet_there_is_no_button_for_it_and_the_page_says_what_else_to_do(page: Page) -> None:
    page.evaluate(ADD, LINK)
    page.wait_for_selector("[data-part=save]")
    assert not page.locator("[data-part=share]").is_visible() and "With any other, save the file" in page.locator("[data-results]").inner_text()


def test_text_of_people_stays_text_and_turns_nothing_round_it(context: Contexts, root: str) -> None:
    window = context()
    noticed, page = notice(window), opened(window, root + RESULTS)
    page.evaluate(ADD, LINK | {"value": HOSTILE[:200], "note": TURNED, "by": "<b>A"})
    took = take_in(page, file_of(page, "zzzzzzzz", [entry("zzzzzzzz", 1, what="check/<b>x</b>", value=TURNED, note=HOSTILE, unit="<b>x</b>", by="<b>B")]))
    assert "Taken in" in took
    page.wait_for_function("document.querySelectorAll('[data-part=list] li').length === 2")
    assert page.locator("[data-part=list] :is(img, script, b)").count() == 0 and page.title().startswith("What was written down")
    assert HOSTILE in page.locator("[data-part=list]").inner_text()
    held = page.evaluate("text => [...document.querySelectorAll('[data-part=list] *')].filter(one => [...one.childNodes].some(n => n.nodeType === 3 && n.data.includes(text)))"
                         ".map(one => one.tagName)", "\u202e")
    assert held == ["BDI", "BDI"]
    assert noticed.dialogs == [] and outside(noticed.requests, root) == []


def test_five_thousand_entries_are_taken_in_listed_and_sent_off_while_one_waits(page: Page) -> None:
    every = [entry("zzzzzzzz", number, device=f"D{number % 40}", step=f"test-d{number % 40}", what=f"check/line-{number % 125}", value=str(number), note="by hand")
             for number in range(1, MANY + 1)]
    file = file_of(page, "zzzzzzzz", every)
    start = time.monotonic()
    assert f"New: {MANY}." in take_in(page, file)
    expect(page.locator("[data-part=number]")).to_have_text(str(MANY), timeout=20_000)
    with page.expect_download() as saved:
        page.click("[data-part=save]")
    sent = json.loads(Path(saved.value.path()).read_text(encoding="utf-8"))
    assert [one["id"] for one in sent["entries"]] == [one["id"] for one in every]
    assert time.monotonic() - start < 20


def test_it_fits_a_narrow_phone_with_large_targets_apart_and_strong_colours(context: Contexts, root: str) -> None:
    for scheme in SCHEMES:
        window = context(color_scheme=scheme)
        # A stand-in for a share sheet, so that its button is measured too.
        window.add_init_script("navigator.canShare = () => true")
        page = opened(window, root + RESULTS)
        page.evaluate(ADD, LINK | {"value": "W" * 300, "note": "word " * 80})
        take_in(page, file_of(page, "zzzzzzzz", [entry("zzzzzzzz", 1, value="9")]))
        page.wait_for_selector("[data-part=conflicts] a")
        assert sideways(page) == [] and page.locator("[data-part=share]").is_visible()
        boxes = page.evaluate("() => [...document.querySelectorAll('[data-part=scripted] :is(button, a, input)')].filter(one => one.checkVisibility()).map(one => one.getBoundingClientRect().toJSON())")
        assert len(boxes) >= 6 and all(box["height"] >= LARGE and box["width"] >= LARGE for box in boxes)
        buttons = page.evaluate("() => [...document.querySelectorAll('.acts button:not([hidden])')].map(one => one.getBoundingClientRect().toJSON())")
        assert all(below["top"] - above["bottom"] >= APART for above, below in zip(buttons, buttons[1:]))
        assert len(page.evaluate("seen.inks('[data-results]')")) >= 5 and weak(page, "[data-results]") == []


def of_another_pack(page: Page, **traits: object) -> Page:
    """The same page, as that of another pack which shares its store."""
    later = page.context.new_page()
    later.add_init_script("let data; Object.defineProperty(self, 'DOORPOST', {get: () => data, set: one => { data = {...one, ...%s}; }, configurable: true});"
                          % json.dumps(traits))
    later.goto(page.url)
    return later


def test_entries_of_another_pack_in_the_same_store_are_offered_and_not_lost(page: Page) -> None:
    made = page.evaluate(ADD, LINK)
    later = of_another_pack(page, reference="K-1")
    button = later.locator("[data-part=others] button")
    expect(button).to_have_text(re.compile("^Save .* revision 0"))
    with later.expect_download() as saved:
        button.click()
    sent = json.loads(Path(saved.value.path()).read_text(encoding="utf-8"))
    assert sent["revision"] == 0 and sent["entries"] == [made] and later.evaluate(ALL) == []


def test_what_was_written_for_an_older_pack_of_the_job_counts_in_the_newer_after_one_tap(page: Page) -> None:
    page.evaluate(ADD, LINK)
    drawn, made = page.evaluate(SIGN, "M1 1 L20 30"), page.evaluate(ALL)
    newer = of_another_pack(page, revision=99, fingerprint="0123456789ab")
    take, save = (newer.locator("[data-part=others] button").nth(place) for place in (0, 1))
    expect(save).to_have_text(re.compile("^Save .* revision 0"))
    expect(take).to_have_text(re.compile("^Take over.* revision 0"))
    take.click()
    expect(newer.locator("[data-part=said]")).to_have_text("Taken in. New: 2. Here already: 0.")
    expect(newer.locator("[data-part=list] li")).to_have_count(2)
    held = newer.evaluate("() => Doorpost.keep.held()")
    assert held["entries"] == made == page.evaluate(ALL) and held["signatures"] == {drawn: "M1 1 L20 30"}


def test_what_the_browser_says_of_a_file_that_it_cannot_read_is_not_repeated(page: Page) -> None:
    """A stand-in for a file that went away after it was chosen."""
    page.evaluate("() => { File.prototype.text = () => Promise.reject(new DOMException('The requested file could not be read', 'NotReadableError')); }")
    assert take_in(page, {}) == page.locator("[data-results]").get_attribute("data-failed")
