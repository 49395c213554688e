"""Is a file of results read for what it is, and are entries of several phones joined so that nothing is lost and nothing counts twice?"""
import hashlib
import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.calc.found import TwoContents, by_phone, fresh, joined, things
from generator.intake.found_reader import Incoming, read_results, results_of
from generator.model.found import FILLED, MOST_ENTRIES, TAKEN_OUT, FoundEntry, FoundFile
from generator.model.readers_of_found import FOUND
from generator.model.visibility import may_see, patterns
from generator.pages.installer.hand import SERIAL_SAYS
from generator.procedure.asked import NOT_READ, WITHOUT_REASON
from generator.procedure.reason import BY_ITSELF
from generator.terms.audience import Audience
from tests.site_files import ADA, BEN, Phone

HOSTILE = "<script>alert(1)</script> \u202eeman \u2066x {{ 7*7 }} =1+1 \x1b[31m \x00 \U0001f600"


def phone(name: str = ADA) -> Phone:
    return Phone("K-2041", "9f86d081884c", name=name)


def read(data: Any) -> Incoming:
    incoming, problems = results_of(data if isinstance(data, bytes) else json.dumps(data).encode(), "file.txt")
    assert problems == [] and incoming
    return incoming


def refused(data: Any) -> list[str]:
    incoming, problems = results_of(data if isinstance(data, bytes) else json.dumps(data).encode(), "file.txt")
    assert incoming is None and problems
    return [one.one_line() for one in problems]


def entry(name: str, counter: int, what: str = "serial", value: str = "", result: str = "", opening: str = "aaaaaa") -> FoundEntry:
    return FoundEntry(id=f"{name}-{opening}-{counter:06}", device="D1", step="fix-d1", what=what, value=value, unit="", result=result, at="", by="", note="")


# What phones can write, few enough things that they meet: an id says what it says, and nothing else.
ENTRIES = st.builds(lambda name, counter, what: entry(name, counter, what, f"{name} {counter}", ("", "pass", "fail")[counter % 3]),
                    st.sampled_from((ADA, BEN, "cyd44444")), st.integers(1, 9), st.sampled_from(("serial", "step")))
PARTS = st.lists(ENTRIES, max_size=12).map(lambda every: list({one.id: one for one in every}.values()))


@given(st.lists(PARTS, max_size=3))
def test_joined_in_any_order_and_as_often_as_one_likes_it_is_the_same(parts: list[list[FoundEntry]]) -> None:
    # An id has one content in all parts, as phones write it.
    first = {one.id: one for part in parts for one in part}
    parts = [[first[one.id] for one in part] for part in parts]
    whole = joined(*parts)
    assert whole == joined(*reversed(parts)) == joined(*parts, *parts) == joined(joined(*parts[:1]), joined(*parts[1:])) == joined(whole)
    assert {one.id for one in whole} == set(first) and len(whole) == len(first)


@given(PARTS)
def test_no_entry_is_lost_and_the_last_of_each_phone_counts(entries: list[FoundEntry]) -> None:
    kept = [one for thing in things(entries).values() for one in (*thing.last, *thing.earlier)]
    for same, thing in things(entries).items():
        own = [one for one in entries if (one.device, one.step, one.what) == same]
        last = {one.id[:8]: one for one in sorted(own, key=lambda one: one.id)}
        assert {one.id for one in thing.last} == {one.id for one in last.values()} and not set(thing.earlier) & set(last.values())
        claims = {(one.value.casefold(), one.unit, one.result) for one in last.values()}
        assert bool(thing.others) == (len(claims) > 1)
        # Whoever agrees is there with a name, a time and a note of its own.
        assert {(one.value.casefold(), one.unit, one.result) for one in (thing.now, *thing.agreed)} == {(thing.now.value.casefold(), thing.now.unit, thing.now.result)}
    assert len(kept) == len(set(kept)) and set(kept) == set(entries)


@given(PARTS, PARTS)
def test_what_is_fresh_is_what_was_not_held(held: list[FoundEntry], coming: list[FoundEntry]) -> None:
    known = {one.id: one for one in held}
    coming = [known.get(one.id, one) for one in coming]
    new = fresh(held, coming)
    assert {one.id for one in new} == {one.id for one in coming} - set(known) and fresh([*held, *new], coming) == ()
    assert [one.id for own in by_phone(new).values() for one in own] == [one.id for one in new]


def test_a_later_entry_of_the_same_phone_corrects_whatever_the_clock_says() -> None:
    early = entry(ADA, 2, value="8").model_copy(update={"at": "2026-11-24T23:00:00+00:00"})
    late = entry(ADA, 11, value="31").model_copy(update={"at": "2026-11-24T09:00:00+00:00"})
    thing = things([late, early])["D1", "fix-d1", "serial"]
    assert (thing.now, thing.earlier, thing.others) == (late, (early,), ())


def test_two_phones_that_differ_are_both_kept_and_two_that_agree_are_no_conflict() -> None:
    ada, ben = entry(ADA, 1, value="8"), entry(BEN, 1, value="31")
    assert things([ben, ada])["D1", "fix-d1", "serial"].counts == (ada, ben)
    assert things([ada, entry(BEN, 1, value=" 8 ")])["D1", "fix-d1", "serial"].others == ()


def test_one_id_with_two_contents_is_named() -> None:
    with pytest.raises(TwoContents, match=f"{ADA}-aaaaaa-000001"):
        joined([entry(ADA, 1, value="8")], [entry(ADA, 1, value="9")])


def test_a_file_with_every_kind_of_entry_is_read() -> None:
    own = phone()
    for what in ("step", "serial", "note", "signal/1/from-unit/received", "signal/3/to-unit/level", "signal/2/moved", "check/part-set:-night/late",
                 "called/operator", "called/at", "called/until", "photo/in-place", "signature/customer"):
        own.add("D1", "fix-d1", what)
    assert [one.what for one in read(own.data()).file.entries] == [one["what"] for one in own.entries]


def test_hostile_text_stays_text_and_loses_nothing() -> None:
    own = phone()
    own.add("D1", "fix-d1", "note", note=HOSTILE, value=HOSTILE, by=HOSTILE[:40])
    kept = read(own.data()).file.entries[0]
    assert kept.note == kept.value == HOSTILE


def test_half_a_character_is_a_mark_and_no_reason_to_lose_the_day() -> None:
    own = phone()
    own.add("D1", "fix-d1", "note", note="cut \ud83d")
    assert read(own.data()).file.entries[0].note == "cut \ufffd"


def test_the_same_entry_twice_is_one() -> None:
    own = phone()
    own.add("D1", "fix-d1", "step", result="done")
    own.entries.append(dict(own.entries[0]))
    assert len(read(own.data()).file.entries) == 1


def test_a_typed_name_is_taken_out_of_the_entry_always_in_the_same_way() -> None:
    own = phone()
    own.add("", "sign", "signature/customer", value="Pat Example", result="done")
    incoming = read(own.data())
    print_ = hashlib.sha256(b"Pat Example").hexdigest()
    assert (incoming.file.entries[0].value, incoming.names) == (print_, {print_: "Pat Example"})
    again = read({**own.data(), "entries": [one.model_dump() for one in incoming.file.entries]})
    assert again.file.entries == incoming.file.entries and again.names == {}


def test_what_seems_to_be_a_code_is_taken_out_and_told_by_the_id_of_its_entry() -> None:
    own = phone()
    told = own.add("", "train-1", "note", note="their code is 4711")
    incoming = read(own.data())
    assert (incoming.file.entries[0].note, incoming.emptied) == (TAKEN_OUT, (told["id"],))
    assert read({**own.data(), "entries": [one.model_dump() for one in incoming.file.entries]}).emptied == ()


def with_entry(**more: Any) -> dict[str, Any]:
    own = phone()
    own.add("D1", "fix-d1", "step")
    return {**own.data(), "entries": [own.entries[0] | more]}


def without(key: str) -> dict[str, Any]:
    return {name: value for name, value in phone().data().items() if name != key}


DEEP = ("[" * 100_000).encode()


@pytest.mark.parametrize("data, says", [
    (b"\xff\xfe\x00{", "no text in UTF-8"), (b"", "cannot be read on from line 1, character 1"), (b'{"format": 1, "entries": [', "may have been cut short"),
    (DEEP, "groups stand in groups without an end"), (b"[]", "it has no format and no entries"), (b'{"a": NaN}', "NaN stands where a number belongs"),
    (b'{"format": 1, "format": 1, "entries": []}', 'the key "format" stands twice'), ({"job": "x"}, "it has no format and no entries"),
    ({**phone().data(), "format": 2}, "format 2 stands here; Doorpost"), (without("phone"), "phone: this key is missing"),
    ({**phone().data(), "phone": "ADA"}, '"ADA" is no name of a phone'), ({**phone().data(), "revision": -1}, '"-1" is not a whole number'),
    (json.dumps(phone().data()).replace('"revision": 0', f'"revision": {"9" * 100_000}').encode(), "is not a whole number"), ({**phone().data(), "fingerprint": "xyz"}, '"xyz" is no fingerprint'),
    ({**phone().data(), "entries": {}}, "a group of keys stands here"), ({**phone().data(), "entries": [7]}, '"7" stands here'),
    ({**phone().data(), "scale": 1}, 'the key "scale" is not known here'), (with_entry(id="../../etc-aaaaaa-000001"), "is no name of an entry"),
    (with_entry(id=f"{ADA}-aaaaaa-{10**40}"), "is no name of an entry"), (with_entry(step="Fix D1"), '"Fix D1" cannot be a step'),
    (with_entry(what="signal/4/moved"), "is nothing that is written down"), (with_entry(result="passed"), 'Did you mean "pass"? '),
    (with_entry(at="yesterday"), '"yesterday" is not a time'), (with_entry(value="x" * 1001), "1001 characters stand here"), (with_entry(note=None), "nothing stands here"),
    (with_entry(device="<b>"), '"<b>" cannot be a unit'), (with_entry(device=["D1"]), "a list stands here"), (with_entry(value={"x": 1}), "a group of keys stands here"),
    ({**phone().data(), "signatures": {"0" * 64: "M0 0"}}, "the signature 000000000000 was changed since it was drawn"),
    ({**phone().data(), "signatures": {"0" * 64: '"/><script>'}}, "is no drawing"), ({**phone().data(), "signatures": {"x": "M0 0"}}, '"x" is no SHA-256'),
])
def test_a_bad_file_is_answered_in_words_with_what_to_do(data: Any, says: str) -> None:
    lines = refused(data)
    assert any(says in line for line in lines), lines
    assert all(line.startswith("file.txt") and line.rstrip().endswith((".", "?")) for line in lines)


@pytest.mark.parametrize("key", sorted(FoundEntry.model_fields))
def test_every_key_stands_in_every_entry(key: str) -> None:
    own = phone()
    del own.add("D1", "fix-d1", "step", result="done")[key]
    assert any(f".{key}" in line and "this key is missing" in line for line in refused(own.data()))
    assert FoundFile.model_json_schema()["$defs"]["FoundEntry"]["required"] == list(FoundEntry.model_fields)


@pytest.mark.parametrize("data, says", [
    ({**phone().data(), "format": "1"}, 'format: "1" stands here as a text. Digits without quotes belong here.'),
    ({**phone().data(), "revision": "0"}, 'revision: "0" stands here as a text.'),
    ({**phone().data(), "reference": 2041}, 'reference: the number "2041" stands here.'),
    (with_entry(value=31), f'entries.1 ({ADA}-m2c8r4-000001).value: the number "31" stands here. A text in quotes belongs here.'),
    (with_entry(id=f"{ADA}-m0c8r1-000001"), "is no name of an entry"), (with_entry(id=f"{ADA}-m2c8r4-1000000000"), "is no name of an entry"),
    *((with_entry(at=at), "is not a time") for at in ("Tue Nov 24 2026", "2026-13-01T10:05Z", "2026-11-32T10:05Z", "2026-11-24T24:00Z", "2026-11-24T10:60Z",
                                                      "2026-11-24T10:05", "2026-11-24T10:05+24:00")),
])
def test_kinds_of_value_are_those_that_phones_ask_for(data: Any, says: str) -> None:
    lines = refused(data)
    assert any(says in line for line in lines), lines


def test_every_entry_that_stands_twice_and_every_changed_signature_is_told_at_once() -> None:
    own = phone()
    ids = [own.add("D1", "fix-d1", "step", result="done")["id"] for _ in range(3)]
    own.entries += [{**one, "result": "could not"} for one in own.entries[:2]]
    own.signatures = {"0" * 64: "M0 0", "1" * 64: "M1 1"}
    lines = "\n".join(refused(own.data()))
    assert all(f"the entry {id} stands twice" in lines for id in ids[:2]) and ids[2] not in lines
    assert "the signature 000000000000" in lines and "the signature 111111111111" in lines


def test_one_id_with_other_content_in_one_file_is_named() -> None:
    own = phone()
    told = own.add("D1", "fix-d1", "step", result="done")
    own.entries.append(told | {"result": "could not"})
    assert f"the entry {told['id']} stands twice with other content" in refused(own.data())[0]


def test_a_wrong_value_is_named_by_the_id_of_its_entry_and_of_many_the_first_are_told() -> None:
    own = phone()
    for _ in range(30):
        own.add("D1", "fix-d1", "step", result="maybe")
    lines = refused(own.data())
    assert f"entries.1 ({ADA}-m2c8r4-000001).result" in lines[0] and len(lines) == 11 and "20 more values are wrong" in lines[-1]


def test_twenty_thousand_entries_are_read_and_one_more_is_answered() -> None:
    own = phone()
    for _ in range(3):
        own.add("D1", "fix-d1", "note", note="n" * 40)
    one = own.entries[0]
    many = [one | {"id": f"{ADA}-m2c8r4-{number:06}"} for number in range(MOST_ENTRIES)]
    assert len(read({**own.data(), "entries": many}).file.entries) == MOST_ENTRIES
    assert f"Write at most {MOST_ENTRIES} entries" in refused({**own.data(), "entries": [*many, one | {"id": f"{ADA}-m2c8r4-999999"}]})[0]


def test_a_file_that_is_too_large_is_not_read(tmp_path) -> None:
    path = tmp_path / "large.txt"
    path.write_bytes(b" " * 8_000_001)
    assert "larger than 8 MB" in read_results(path, "large.txt")[1][0].one_line()
    assert "there is no such file" in read_results(tmp_path / "none.txt", "none.txt")[1][0].one_line()


def test_every_field_of_a_file_of_results_has_its_row_and_only_the_record_may_see_what_was_read() -> None:
    assert set(FOUND) == set(patterns(FoundFile, "results"))
    told = {name for name in FOUND if may_see(Audience.HOMEOWNER, name) or may_see(Audience.STATION, name)}
    assert told == set() and all(may_see(Audience.RECORD, name) for name in FOUND)
    assert not any(may_see(Audience.INSTALLER, f"results.entries.*.{name}") for name in ("value", "result", "note", "by", "at"))


def test_what_the_phone_notes_by_itself_is_known_to_the_office_word_for_word() -> None:
    assert SERIAL_SAYS.filled == FILLED and {WITHOUT_REASON.strip(), NOT_READ.strip(), FILLED, TAKEN_OUT} == set(BY_ITSELF)
