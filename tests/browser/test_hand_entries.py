"""Do phones and the office join entries alike, and is a file that does not belong refused with a clear word?

SHA-256 is held against hashlib; joining and what counts against `generator/calc/found.py`, which takes the files in.
"""
import hashlib
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from playwright.sync_api import Browser, Page

from generator.calc.found import joined, things
from generator.intake.found_reader import results_of
from generator.model.found import MOST_ENTRIES, FoundEntry
from tests.browser.hand import ADD, ALL, LINK, RESULTS, SIGN, entry, file_of, opened
from tests.browser.pages import Contexts, new_context, served

READ = "text => { try { Doorpost.entries.read(text, DOORPOST); return ''; } catch (error) { return error.message; } }"
TAKE = "text => Doorpost.keep.take(Doorpost.entries.read(text, DOORPOST).file)"
TEXT = "async () => Doorpost.entries.write(await Doorpost.keep.held(), DOORPOST)"
MERGE = """([a, b]) => ({one: Doorpost.entries.merge(a, b), other: Doorpost.entries.merge(b, a),
  current: [...Doorpost.entries.current(Doorpost.entries.merge(b, a)).values()].map(({entry, earlier, conflicts}) =>
    [entry.id, conflicts.map(one => one.id), earlier.map(one => one.id)])})"""
PHONES = ("aaaaaaaa", "bbbbbbbb", "cccccccc")
NO_HARM = settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


@pytest.fixture(scope="module")
def root(demo: Path) -> Iterator[str]:
    with served(demo / "installer") as address:
        yield address


@pytest.fixture(scope="module")
def shared(chromium: Browser, root: str) -> Iterator[Page]:
    """A page whose functions are asked and which keeps nothing."""
    window = new_context(chromium)
    yield opened(window, root + RESULTS)
    window.close()


@NO_HARM
@given(st.text(max_size=300))
def test_the_sum_of_a_text_is_its_sha_256(shared: Page, text: str) -> None:
    assert shared.evaluate("text => Doorpost.entries.hash(text)", text) == hashlib.sha256(text.encode()).hexdigest()


@pytest.mark.parametrize("length", [0, 55, 56, 63, 64, 119, 120, 5000])
def test_the_sum_is_right_at_the_edges_of_a_block(shared: Page, length: int) -> None:
    assert shared.evaluate("text => Doorpost.entries.hash(text)", "x" * length) == hashlib.sha256(b"x" * length).hexdigest()


@st.composite
def histories(draw: st.DrawFn) -> list[dict[str, str]]:
    """What a few phones wrote of a few things, each with its own counter, clocks going as they like."""
    made = []
    for phone in PHONES:
        for number in range(1, draw(st.integers(0, 6)) + 1):
            made.append(entry(phone, number, device=draw(st.sampled_from(("", "D1"))), what=draw(st.sampled_from(("serial", "note"))),
                              value=draw(st.sampled_from(("12", "13", "Ab  c", " ab c"))), result=draw(st.sampled_from(("", "pass", "fail"))),
                              at=f"2026-11-24T{draw(st.integers(0, 23)):02}:05:00+00:00"))
    return draw(st.permutations(made))


@NO_HARM
@given(histories(), st.data())
def test_two_phones_join_without_loss_either_way_round_and_as_the_office_does(shared: Page, every: list[dict[str, str]], data: st.DataObject) -> None:
    side = [data.draw(st.integers(1, 3)) for _ in every]
    one, other = ([made for made, where in zip(every, side) if where & bit] for bit in (1, 2))
    found = shared.evaluate(MERGE, [one, other])
    as_found = [FoundEntry.model_validate(made) for made in every]
    assert [made["id"] for made in found["one"]] == [made.id for made in joined(as_found)]
    assert found["one"] == found["other"]
    office = {(thing.now.id, *sorted(one.id for one in thing.others)): {one.id for one in thing.earlier} for thing in things(as_found).values()}
    phone = {(now, *sorted(others)): set(earlier) for now, others, earlier in found["current"]}
    assert phone.keys() == office.keys()
    assert all(office[key] <= phone[key] for key in office)


def test_what_this_phone_wrote_last_comes_first_and_the_other_phones_word_is_a_conflict(shared: Page) -> None:
    every = [entry("bbbbbbbb", 1, value="1"), entry("bbbbbbbb", 2, value="2"), entry("aaaaaaaa", 9, value="3")]
    found = shared.evaluate("all => { const one = [...Doorpost.entries.current(all, 'bbbbbbbb').values()][0];"
                            " return [one.entry.value, one.earlier.map(e => e.value), one.conflicts.map(e => e.value)]; }", every)
    assert found == ["2", ["1"], ["3"]]


def test_one_id_with_two_contents_is_no_union(shared: Page) -> None:
    with pytest.raises(Exception, match="aaaaaaaa-aaaaaa-000001 and differ"):
        shared.evaluate(MERGE, [[entry("aaaaaaaa", 1, value="1")], [entry("aaaaaaaa", 1, value="2")]])


def test_two_phones_that_exchange_their_files_hold_the_same_and_the_office_takes_it(context: Contexts, root: str) -> None:
    one, other = (opened(context(), root + RESULTS) for _ in range(2))
    for phone, values in ((one, ("10", "12")), (other, ("12", "9", "7"))):
        for value in values:
            phone.evaluate(ADD, LINK | {"value": value, "unit": "dB"})
    drawn = one.evaluate(SIGN, "M1 1 L20 30")
    of_one, of_other = one.evaluate(TEXT), other.evaluate(TEXT)
    assert one.evaluate(TAKE, of_other) == 3 and other.evaluate(TAKE, of_one) == 3
    assert one.evaluate(TAKE, of_other) == 0
    by_id = [sorted(phone.evaluate(ALL), key=lambda made: made["id"]) for phone in (one, other)]
    assert by_id[0] == by_id[1] and len(by_id[0]) == 6
    held = other.evaluate("() => Doorpost.keep.held()")
    assert held["signatures"] == {drawn: "M1 1 L20 30"}
    for phone in (one, other):
        taken, problems = results_of(phone.evaluate(TEXT).encode(), "results.txt")
        assert problems == [] and taken and len(taken.file.entries) == 6 and taken.file.signatures == {drawn: "M1 1 L20 30"}


def changed(file: dict[str, Any], change: str) -> str:
    """The text of a results file after something befell it."""
    first = file["entries"][0] if isinstance(file["entries"], list) and file["entries"] else {}
    befalls: dict[str, Any] = {
        "cut": lambda: json.dumps(file)[:-40], "empty": lambda: "", "words": lambda: "see you tomorrow", "list": lambda: "[]", "null": lambda: "null",
        "other data": lambda: '{"entries": []}', "format": lambda: json.dumps(file | {"format": 2}),
        "reference": lambda: json.dumps(file | {"reference": "K-9999"}), "revision": lambda: json.dumps(file | {"revision": 7}),
        "fingerprint": lambda: json.dumps(file | {"fingerprint": "000000000000"}), "phone": lambda: json.dumps(file | {"phone": "<b>"}),
        "entries": lambda: json.dumps(file | {"entries": 7}), "entry": lambda: json.dumps(file | {"entries": [None]}),
        "id": lambda: json.dumps(file | {"entries": [first | {"id": "x"}]}), "number": lambda: json.dumps(file | {"entries": [first | {"value": 7}]}),
        "key": lambda: json.dumps(file | {"entries": [first | {"more": ""}]}), "time": lambda: json.dumps(file | {"entries": [first | {"at": "noon"}]}),
        "twice": lambda: json.dumps(file | {"entries": [first, first | {"value": "8"}]}),
        "drawing": lambda: json.dumps(file | {"signatures": {"0" * 64: "M1 1"}}),
        "script": lambda: json.dumps(file | {"signatures": {hashlib.sha256(b"<svg>").hexdigest(): "<svg>"}}),
    }
    return befalls[change]()


@pytest.mark.parametrize("change, says", [
    ("cut", "or it was cut off"), ("empty", "no results file"), ("words", "no results file"), ("list", "no results file"),
    ("null", "no results file"), ("other data", "no results file"), ("format", "no results file that this pack reads"), ("reference", "The file is of job K-9999"),
    ("revision", "revision 7"), ("fingerprint", "fingerprint 000000000000"), ("phone", "read: head"), ("entries", "read: head"),
    ("entry", "read: entry 1"), ("id", "read: entry 1"), ("number", "read: entry 1"), ("key", "read: entry 1"),
    ("time", "read: entry 1"), ("twice", "and differ"), ("drawing", "read: signature"), ("script", "read: signature"),
])
def test_a_file_that_does_not_belong_is_refused_in_words_and_takes_nothing_away(shared: Page, change: str, says: str) -> None:
    file = file_of(shared, "aaaaaaaa", [entry("aaaaaaaa", 1, value="12")])
    assert shared.evaluate(READ, json.dumps(file)) == ""
    said = shared.evaluate(READ, changed(file, change))
    assert says in said and "othing was taken in" in said


@pytest.mark.parametrize("field, value", [
    ("value", "\U0001f511" * 1000), ("value", "x" * 1001), ("note", "x" * 4000), ("note", "x" * 4001), ("unit", "x" * 40), ("unit", "x" * 41), ("by", "B" * 41),
    ("what", "foo"), ("what", "signal/4/from-unit/level"), ("what", "check/line two"), ("what", "check/identity"), ("step", "Fix D1"), ("step", ""),
    ("device", ""), ("device", "D 1"), ("result", "weird"), ("result", "could not test"), ("at", "Tue Nov 24 2026"), ("at", ""), ("at", "2026-11-24T10:05Z"),
    ("id", "aaaaaaaa-aaaaaa-1"), ("id", "aaaaaaaa-aaaaaa-0000000001"), ("id", "aaaaaaaa-aaaaaa-000001\n"),
])
def test_a_phone_takes_in_what_the_office_takes_and_names_the_entry_that_it_would_refuse(shared: Page, field: str, value: str) -> None:
    """The office refuses a whole file for one value: what a phone took in carelessly would hold the day back with it."""
    text = json.dumps(file_of(shared, "aaaaaaaa", [entry("aaaaaaaa", 1), entry("aaaaaaaa", 2) | {field: value}]))
    file, problems = results_of(text.encode(), "results.txt")
    said = shared.evaluate(READ, text)
    assert (file is None) is bool(problems) and (said == "") is (problems == [])
    assert said == "" or said.endswith(f"read: entry 2 {field}") and "nothing was taken in" in said


def test_more_entries_than_the_office_takes_are_refused_with_a_word_of_their_own(shared: Page) -> None:
    many = f"most => {{ const file = {{...self.small, entries: Array(most).fill(self.small.entries[0])}}; return ({READ})(JSON.stringify(file)); }}"
    shared.evaluate("file => { self.small = file; }", file_of(shared, "aaaaaaaa", [entry("aaaaaaaa", 1)]))
    assert shared.evaluate(many, MOST_ENTRIES) == "" and "more entries" in shared.evaluate(many, MOST_ENTRIES + 1)


def test_an_entry_under_the_phones_own_name_never_takes_its_last_numbers_away(context: Contexts, root: str) -> None:
    """A phone whose store was wiped takes its own file in again; so its name alone is no ground to refuse an entry."""
    page = opened(context(), root + RESULTS)
    phone = page.evaluate(ADD, LINK)["id"][:8]
    assert page.evaluate(TAKE, json.dumps(file_of(page, phone, [entry(phone, 999_999_998)]))) == 1
    assert page.evaluate(ADD, LINK)["id"].endswith("-999999999")
    name, _, counter = page.evaluate(ADD, LINK | {"value": "12"})["id"].split("-")
    assert name != phone and counter == "000001"
    text = page.evaluate(TEXT)
    assert page.evaluate(READ, text) == "" and results_of(text.encode(), "results.txt")[1] == []
    current = "async () => { const held = await Doorpost.keep.held(); return [...Doorpost.entries.current(held.entries, held.phone).values()].map(one => one.entry.value); }"
    assert page.evaluate(current) == ["12"]


def test_a_file_with_a_mark_of_byte_order_is_read(shared: Page) -> None:
    assert shared.evaluate(READ, "\ufeff" + json.dumps(file_of(shared, "aaaaaaaa", [entry("aaaaaaaa", 1)]))) == ""


def test_an_entry_that_another_file_holds_otherwise_changes_nothing(context: Contexts, root: str) -> None:
    page = opened(context(), root + RESULTS)
    made = page.evaluate(ADD, LINK | {"value": "12"})
    forged = json.dumps(file_of(page, "aaaaaaaa", [made | {"value": "30"}, entry("aaaaaaaa", 1)]))
    assert "differ" in page.evaluate(f"text => ({TAKE})(text).then(String, error => error.message)", forged)
    assert page.evaluate(ALL) == [made]
