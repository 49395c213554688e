"""A whole day on the large job, played from one file with no network: every step by its own actions, and what was found home beside the plan."""
import json
import re
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, expect

from generator.calc.found import joined, things
from generator.procedure.asked import NOT_READ
from generator.publish.pocket import NAME
from tests.browser import story
from tests.browser.day import TAP_S, Thumb, block, kept, part, walk
from tests.browser.hand import process
from tests.browser.office import COMPLETION, SITE, Home, House, differences, entries_of, home, issued, row, text
from tests.browser.pages import PHONE, Noticed, new_context, notice, outside, served

# What a practitioner allows for each: in flight mode, with gloves. Common practice, no source.
FIND_S, LOG_S = 10, 20


@dataclass
class Day:
    """What two phones held at the end of the day, every screen that the first went through, and what the browser noticed meanwhile."""

    ada: Thumb
    ben: Thumb
    went: list[tuple[str, str]]
    files: tuple[Path, Path]
    noticed: Noticed


@pytest.fixture(scope="module")
def house(tmp_path_factory: pytest.TempPathFactory) -> House:
    return issued(tmp_path_factory.mktemp("day"))


@pytest.fixture(scope="module")
def day(chromium: Browser, house: House) -> Any:
    """The day: from the start page to the last step on one phone, some of it on another whose clock is wrong."""
    windows = [new_context(chromium, offline=True, has_touch=True) for _ in range(2)]
    noticed = notice(windows[0])
    windows[1].add_init_script(story.WRONG_CLOCK)
    ada, ben = (Thumb(window.new_page(), house.address) for window in windows)
    ada.page.locator("[data-next] a").tap()
    went = walk(ada, story.ADA, until=story.STOPPED_AT)
    story.break_off(ada)
    went += walk(ada, story.ADA)
    story.ben(ben)
    yield Day(ada, ben, went, (ada.save(house.folder / "ada"), ben.save(house.folder / "ben")), noticed)
    for window in windows:
        window.close()


@pytest.fixture(scope="module")
def taken(house: House, day: Day) -> Home:
    """The two files, taken in at the office."""
    return home(house, *day.files)


@pytest.fixture(scope="module")
def merged(house: House, day: Day) -> tuple[str, str, Path, Path]:
    """Each phone takes in the other's file: what it says, and the file that it saves then."""
    says = day.ada.take(day.files[1]), day.ben.take(day.files[0])
    return (*says, day.ada.save(house.folder / "ada-merged"), day.ben.save(house.folder / "ben-merged"))


@pytest.fixture(scope="module")
def mended(house: House, day: Day, merged: Any, taken: Home) -> Home:
    """Reasons written at the entries, the swapped pair changed round and read again, the one who was wrong corrects himself; all of it taken in."""
    story.mend(day.ada, day.ben)
    return home(house, day.ada.save(house.folder / "ada-mended"), day.ben.save(house.folder / "ben-mended"))


# --- the day ---------------------------------------------------------------------------------------------------------------

def test_every_step_and_hold_point_was_gone_through_and_each_step_is_written_once(day: Day) -> None:
    steps = day.ada.page.evaluate("DOORPOST.steps.map(one => [one.id, one.hold])")
    screens = [(id, ("", *re.findall(r"^\w+", hold))) for id, hold in steps]
    assert len(steps) > 190 and day.went == [
        (id, one) for (id, both), (_, hold) in zip(screens, steps) for one in (both if " after its step" in hold else reversed(both))]
    written = {entry.step: entry.result for entry in entries_of(day.files[0]) if entry.what == "step"}
    assert written == {id: "could not" if id == story.COULD_NOT else "done" for id, _ in steps}
    # Gone on from, after it was named: nothing of it is a pass, and the step says so.
    gone_on = {one["step"]: one["note"] for one in day.ada.entries() if one["what"] == "step" and one["note"].startswith(NOT_READ)}
    assert len(gone_on) == day.ada.named > 20 and "Operator's name" in gone_on["on-test"]


def test_the_day_asked_for_nothing_but_its_file_and_ran_nothing_that_was_typed(day: Day, house: House) -> None:
    assert outside(day.noticed.requests, house.address) == [] and day.noticed.requests[0] == house.address
    assert (day.noticed.faults, day.noticed.dialogs) == ([], [])
    assert {one.page.title() for one in (day.ada, day.ben)} == {"Curlew House"}


def test_the_start_page_followed_the_day(day: Day) -> None:
    steps, before = day.went.index((story.STOPPED_AT, "")), day.ada.seen["start"]
    done = len({step for step, _ in day.went[:steps]})
    assert before[0].startswith(f"Next step: {done + 1} of 200") and before[1].startswith(f"{200 - done} of 200 steps left")
    assert f"Kept on this phone: {done} done, 0 could not be done." in before[1] and f"(step {done + 1})" in before[2] and "put on test" in before[3]
    start = day.ada.page
    start.evaluate("() => { location.hash = 'index-html'; }")
    expect(start.locator("[data-left]")).to_contain_text("0 of 200 steps left")
    expect(start.locator("[data-left]")).to_contain_text("Kept on this phone: 199 done, 1 could not be done.")
    expect(start.locator("[data-next]")).to_contain_text("No step is left")
    expect(start.locator("[data-next-hold]")).to_contain_text("none is left")
    expect(start.locator("[data-state]")).to_contain_text("taken off test")


def test_serials_are_compared_at_once_and_the_swapped_pair_is_named(day: Day) -> None:
    seen = day.ada.seen
    assert seen["serial D1"].startswith("ANOTHER UNIT'S: D1 bears the serial of D2 (zone 2 BACK DOOR). Is the pair swapped? Read D2 too.")
    assert seen["serial D2"].startswith("SWAPPED PAIR: D2 bears the serial of D1 (zone 1 FRONT DOOR), D1 that of D2.")
    assert seen["serial D3"] == "DIFFERS from the plan: 10A3F7. Read the plate again; if it is so, say why."
    # The first signs of the right serial are no serial once the field was left.
    assert seen["serial M3"] == "DIFFERS from the plan: 20B454. Read the plate again; if it is so, say why."


def test_a_failed_link_is_logged_and_a_unit_found_by_its_serial_in_the_time_that_gloves_allow(day: Day) -> None:
    taps = day.ada.seen["taps of attempt 1"], day.ada.seen["taps of attempt 2"]
    day.ada.page.evaluate("() => { location.hash = 'index-html'; }")
    before = day.ada.taps
    day.ada.tap(day.ada.page.locator("header a", has_text="Find"))
    day.ada.type(day.ada.page.locator("[data-scripted] input[type=search]"), "3F7")
    found = day.ada.page.locator("[data-scripted] li")
    expect(found).to_have_count(1)
    assert all(one in found.inner_text() for one in ("D3 \u00b7 zone", "10A3F7", "read today 55Z999", "Nothing left to do."))
    print(f"failed attempt {taps[0]} taps, with a second {taps[1]}, found {day.ada.taps - before} taps, at {TAP_S} s each")
    assert taps[0] * TAP_S <= LOG_S and taps[1] * TAP_S <= LOG_S and (day.ada.taps - before) * TAP_S <= FIND_S


# --- the results ---------------------------------------------------------------------------------------------------------

def test_each_phone_takes_in_the_other_and_both_hold_what_python_joins(day: Day, merged: Any) -> None:
    ada, ben = map(entries_of, day.files)
    assert len(ada) > 350 and len(ben) > 4
    assert merged[:2] == (f"Taken in. New: {len(ben)}. Here already: 0.", f"Taken in. New: {len(ada)}. Here already: 0.")
    files = [json.loads(file.read_text(encoding="utf-8")) for file in (*day.files, *merged[2:])]
    for own in files[2:]:
        assert own["entries"] == [one.model_dump() for one in joined(ada, ben)]
        assert own["signatures"] == files[0]["signatures"] | files[1]["signatures"] and own["signatures"]
    assert merged[2].read_text(encoding="utf-8") == json.dumps(files[2], ensure_ascii=False, indent=1) + "\n"
    assert [own["phone"] for own in files[2:]] == [own["phone"] for own in files[:2]]


def test_a_clock_that_is_wrong_changes_nothing_in_the_order(day: Day, taken: Home) -> None:
    first, last = (one for one in entries_of(day.files[1]) if (one.step, one.what, one.result) == ("test-d8", "check/gap", ""))
    assert (first.value, last.value) == ("9", "7") and first.at > last.at
    held = things(joined(*map(entries_of, day.files)))["D8", "test-d8", "check/gap"]
    assert (held.counts[-1].value, held.counts[-1].result) == ("7", "pass")
    line = text(row(taken.pages[SITE], "D8", "Gap"))
    assert "7 mm" in line and line.index("9 mm") > line.index("Before:")


def test_the_office_takes_in_both_files_and_names_what_has_no_reason(day: Day, taken: Home) -> None:
    assert taken.code == 1 and len(taken.site) == 2
    assert sum(len(json.loads(one)["entries"]) for one in taken.site.values()) == sum(len(entries_of(file)) for file in day.files)
    for line in ("D1 and D2 are swapped: 10A3F4", "D2 and D1 are swapped: 10a3-f1", "Serial of M3: 20B4 read", "Link of M1: 8 dB read",
                 "Function of D4: fail", "Link margin of M1: 8 dB, and 10 dB or more is asked for", "Function: two phones hold"):
        assert line in taken.told, line
    for line in ("55Z999", "Link of D1", "Function of G1", "step W1"):
        assert line not in taken.told, line


def test_the_record_shows_pass_fail_not_tested_swap_and_conflict_beside_the_plan(taken: Home) -> None:
    page = taken.pages[SITE]
    assert "pass" in text(row(page, "D2", "Function")) and "fail" in text(row(page, "D4", "Function"))
    assert text(row(page, "D6", "Rattle")).endswith("not tested") and "not tested" in text(row(page, "D7", "Function"))
    assert "10A3F1 10A3F4" in text(row(page, "D1", "Serial of D1")) and "D1 and D2 are swapped" in text(row(page, "D1", "Serial of D1"))
    assert f"reason: {story.WHY_REPLACED}" in text(row(page, "D3", "Serial of D3"))
    conflict = text(row(page, "D5", "Function"))
    assert "Another phone:" in conflict and "pass" in conflict and "fail" in conflict and "the leaf jams" in conflict
    assert "Unit moved" in text(row(page, "D1", "Attempt 2: what was moved before it"))
    assert story.WHY_LINK in text(row(page, "D1", "Attempt 3, heard from the unit: level"))
    assert "13.6 V" in text(row(page, "CU", "Charging voltage"))
    step = next(one for one in page.find(id="steps").find_parent("section").select("tr") if "could not" in text(one))
    assert story.COULD_NOT_WHY in text(step)
    assert "signed" in text(row(page, "The whole system", "Name of the installer"))


def test_text_that_was_typed_in_bad_faith_stays_text_in_the_record(taken: Home) -> None:
    page = taken.pages[SITE]
    assert story.HOSTILE in [one.get_text() for one in page.select("bdi")]
    assert not page.select("script, img") and "{{ 7*7 }}" in page.get_text()
    assert [one for one in page.find_all(string=re.compile("\u202e")) if one.find_parent("bdi") is None] == []


def test_the_completion_is_held_back_until_every_reason_is_written(taken: Home, mended: Home) -> None:
    held = text(taken.pages[COMPLETION])
    assert "STOP:" in held and "D1 and D2 are swapped" in held and not taken.pages[COMPLETION].select("table.write")
    assert mended.code == 0, mended.told
    assert mended.pages[COMPLETION].select("table.write") and "STOP:" not in text(mended.pages[COMPLETION])
    # What was taken in before stands as it was written; no entry is there twice.
    assert {name: mended.site[name] for name in taken.site} == taken.site and len(mended.site) == len(taken.site) + 2
    ids = [one["id"] for content in mended.site.values() for one in json.loads(content)["entries"]]
    assert len(ids) == len(set(ids))
    assert "Before: 10A3F4" in text(row(mended.pages[SITE], "D1", "Serial of D1")) and "no reason is written" not in text(mended.pages[SITE])
    assert not any("swapped" in one for one in differences(mended.pages[SITE]))


@pytest.mark.parametrize(("changed", "says"), [
    ({"revision": 2, "fingerprint": "0123456789ab"}, "job K-2050, revision 2, fingerprint 0123456789ab"),
    ({"reference": "K-2041"}, "job K-2041, revision 1"),
])
def test_a_file_of_another_revision_or_job_is_refused_in_words(day: Day, changed: dict[str, Any], says: str) -> None:
    before = len(day.ada.entries())
    other = json.loads(day.files[1].read_text(encoding="utf-8")) | changed
    file = {"name": "K.txt", "mimeType": "text/plain", "buffer": json.dumps(other).encode()}
    assert day.ada.take(file).startswith(f"Nothing was taken in: this pack is another one. The file is of {says}")
    assert len(day.ada.entries()) == before


# --- a phone that dies, and a server instead of a file --------------------------------------------------------------------------------

def test_a_phone_that_dies_in_the_middle_shows_nothing_false_as_done(chromium: Browser, house: House, tmp_path: Path) -> None:
    with process(chromium, tmp_path) as (page, kill):
        page.set_viewport_size(PHONE)
        page.context.set_offline(True)
        phone = Thumb(page, f"{house.address}#read-pack", finger=False)
        assert walk(phone, {}, until="asbestos")[-1] == ("walk-round", "H2")
        form = phone.form("asbestos")
        block(form, "note").get_by_label("Free words").fill("still being typed")
        expect(part(block(form, "note"), "said")).to_have_text("Not kept yet.")
        kill()
    with process(chromium, tmp_path) as (page, _):
        page.set_viewport_size(PHONE)
        page.context.set_offline(True)
        phone = Thumb(page, f"{house.address}#index-html", finger=False)
        expect(page.locator("[data-next]")).to_contain_text("Next step: 3 of 200")
        expect(page.locator("[data-left]")).to_contain_text("Kept on this phone: 2 done, 0 could not be done.")
        assert {(one["step"], one["result"]) for one in phone.entries() if one["what"] == "step"} == {("read-pack", "done"), ("walk-round", "done")}
        form = phone.at("asbestos")
        expect(part(block(form, "step"), "says")).to_have_text("Nothing written yet.")
        expect(part(block(form, "note"), "said")).to_have_text("")


def test_over_loopback_the_same_file_takes_the_day_down_too(chromium: Browser, house: House) -> None:
    window = new_context(chromium, has_touch=True)
    with served(house.sent) as root:
        phone = Thumb(window.new_page(), f"{root}{NAME}#read-pack")
        assert len({step for step, _ in walk(phone, story.ADA, until="place")}) == 5
        story.as_planned(phone, phone.at("enrol-k1"))
        kept(phone.form("enrol-k1"), "serial")
        phone.page.reload()
        assert [(one["what"], one["value"]) for one in phone.entries() if one["what"] in ("serial", "signature/customer")] == [
            ("signature/customer", "P. Ravensworth"), ("serial", "90C118")]
        file = json.loads(phone.save(house.folder / "loopback").read_text(encoding="utf-8"))
        assert (file["reference"], file["revision"]) == ("K-2050", 1)
    window.close()
