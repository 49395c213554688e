"""Does a calendar program read our file and find every day, whatever the texts hold?

Outside: PyPI's icalendar 7, which follows RFC 5545; lines of 75 octets, CR LF and escapes by RFC 5545, from memory.
"""
from datetime import date, timedelta

import icalendar
import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.calc.days.calendar import Calendar, Entry, calendar
from generator.calc.days.dates import Month, month_of
from generator.calc.hidden import Hidden, fold
from generator.publish.ical import escaped, folded, ical_text
from generator.publish.leaks import search
from generator.terms.audience import Audience
from tests.conftest import HOSTILE
from tests.test_calendar import UK, WHOLE

AS_OF = date(2026, 9, 14)
# What may stand in a file of ours: no control marks but line ends and tabs, no halves of characters.
HIDDEN = "".join(map(chr, (*range(9), *range(11, 32), 127)))
texts = st.text(st.characters(exclude_categories=("Cs",), exclude_characters=HIDDEN), max_size=200)
whens = st.one_of(st.dates(date(1900, 1, 1), date(9990, 1, 1)), st.dates(date(1900, 1, 1), date(9990, 1, 1)).map(month_of))
entries = st.builds(Entry, st.sampled_from(("service", "permit")), texts, whens, texts, texts, texts)


def text_of(*found: Entry, title: str = "Thrift Cottage", reference: str = "K-2041", as_of: date = AS_OF) -> str:
    return ical_text(Calendar(found, ()), title=title, reference=reference, as_of=as_of)


def events(text: str) -> list[icalendar.Event]:
    return list(icalendar.Calendar.from_ical(text).walk("VEVENT"))


@given(st.lists(entries, max_size=5), texts)
def test_an_outside_reader_finds_every_entry_as_it_was_said(found: list[Entry], title: str) -> None:
    read = events(text_of(*found, title=title))
    assert len(read) == len(found)
    for event, one in zip(read, found):
        # A text's end of line is one mark, however it was written.
        assert event["SUMMARY"] == f"{one.what} ({title})"
        assert event["DESCRIPTION"] == f"{one.why}. Source: {one.source}"
        assert event["DTSTART"].dt == one.first
        assert event["DTEND"].dt == one.last + timedelta(days=1)


@given(st.lists(entries, max_size=3), texts)
def test_no_line_is_longer_than_75_octets_and_every_line_is_ended(found: list[Entry], title: str) -> None:
    raw = text_of(*found, title=title).encode()
    lines = raw.split(b"\r\n")
    assert lines[-1] == b""
    assert all(len(line) <= 75 for line in lines)
    # Every piece is whole characters; nothing else ends a line.
    assert all(b"\r" not in line and b"\n" not in line and line.decode() is not None for line in lines)


@given(st.text(st.characters(exclude_categories=("Cs", "Cc")), max_size=400))
def test_a_folded_line_unfolds_to_itself(line: str) -> None:
    assert folded([line]).replace("\r\n ", "") == f"{line}\r\n"


def test_a_character_is_never_cut() -> None:
    # 74 letters and one of two octets: it goes to the next line whole.
    assert folded(["x" * 74 + "é"]) == "x" * 74 + "\r\n é\r\n"
    assert [len(one) for one in folded(["x" * 160]).split("\r\n")] == [75, 75, 12, 0]
    assert folded(["x" * 73 + "é"]) == "x" * 73 + "é\r\n"


@pytest.mark.parametrize("text, written", [
    ("a;b,c\\d", "a\\;b\\,c\\\\d"), ("one\ntwo", "one\\ntwo"), ("one\r\ntwo\rthree", "one\\ntwo\\nthree"), ("bell\x07", "bell "), ("a\tb", "a\tb")])
def test_what_has_a_meaning_is_escaped(text: str, written: str) -> None:
    assert escaped(text) == written


def test_no_text_can_add_a_line_of_its_own() -> None:
    bad = f"{HOSTILE}\r\nEND:VEVENT\nBEGIN:VALARM\r\n"
    read = events(text_of(Entry("permit", bad, AS_OF, bad, bad, bad), title=bad))
    assert len(read) == 1 and "VALARM" not in {one.name for one in icalendar.Calendar.from_ical(text_of(
        Entry("permit", bad, AS_OF, bad, bad, bad), title=bad)).walk()}
    assert HOSTILE in read[0]["SUMMARY"]


def test_a_whole_job_s_calendar_is_read() -> None:
    found = calendar(UK, WHOLE)
    whole = icalendar.Calendar.from_ical(ical_text(found, title="Curlew House", reference="K-2050", as_of=AS_OF))
    assert (whole["VERSION"], whole["CALSCALE"]) == ("2.0", "GREGORIAN") and whole["PRODID"]
    read = list(whole.walk("VEVENT"))
    assert not any(one.errors for one in (whole, *read))
    service = next(one for one in read if one["SUMMARY"].startswith("Service 1"))
    # A due month runs from its first day to its last; the end is the day after.
    assert (service["DTSTART"].dt, service["DTEND"].dt) == (date(2027, 4, 1), date(2027, 5, 1))
    assert {one["DTSTAMP"].dt.date() for one in read} == {AS_OF}
    assert len({one["UID"] for one in read}) == len(read) == len(found.entries)


def test_an_entry_keeps_its_uid_when_its_day_moves_and_another_job_s_has_another() -> None:
    def uid(one: Entry, **more) -> str:
        return str(events(text_of(one, **more))[0]["UID"])

    entry = Entry("service", "1", Month(2027, 4), "Service 1", "why", "source")
    moved = Entry("service", "1", Month(2027, 5), "Service 1", "other", "source")
    assert uid(entry) == uid(moved) == uid(entry, as_of=date(2027, 1, 1))
    assert len({uid(entry), uid(entry, reference="K-2042"), uid(Entry("service", "2", Month(2027, 4), "Service 2", "why", "source"))}) == 3
    assert "K-2041" not in text_of(entry)


def test_the_same_calendar_gives_the_same_bytes() -> None:
    found = calendar(UK, WHOLE)
    assert ical_text(found, title="x", reference="y", as_of=AS_OF) == ical_text(found, title="x", reference="y", as_of=AS_OF)


def test_the_last_day_of_all_has_no_day_after() -> None:
    read = events(text_of(Entry("permit", "", date.max, "what", "why", "source")))
    assert read[0]["DTSTART"].dt == date.max and "DTEND" not in read[0]


def test_the_search_for_leaks_reads_a_calendar_as_a_person_does(tmp_path) -> None:
    """A value is found where the file cuts its line, and where marks of its own stand in it."""
    secret = "police; of the county, by the old harbour wall, second door on the left, GM-40117"
    pad = "x" * 40
    one = Entry("permit", "", AS_OF, f"{pad} {secret}", "why", "source")
    raw = text_of(one)
    assert secret not in raw.replace("\\", "") and secret in raw.replace("\r\n ", "").replace("\\", "")
    (tmp_path / "calendar.ics").write_text(raw, encoding="utf-8", newline="")
    found = list(search(Audience.RECORD, tmp_path, (), (), (Hidden(fold(secret), "job.monitoring.permits.police.number"),)))
    assert [(one.file, one.field) for one in found] == [("calendar.ics", "job.monitoring.permits.police.number")]


def test_only_the_company_gets_the_calendar_as_a_file_and_it_says_what_the_page_says(demo) -> None:
    assert [path.relative_to(demo).as_posix() for path in demo.rglob("*.ics")] == ["record/calendar.ics"]
    assert "record/calendar.ics" in (demo / "manifest-sha256.txt").read_text(encoding="utf-8")
    read = events((demo / "record" / "calendar.ics").read_text(encoding="utf-8"))
    page = (demo / "record" / "dates.html").read_text(encoding="utf-8")
    assert len(read) > 5 and 'href="calendar.ics"' in page
    assert all(str(one["SUMMARY"]).removesuffix(" (Thrift Cottage)") in page for one in read)
