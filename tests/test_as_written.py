"""Does every value come out as it was written, or is it refused by the field that cannot take it, with nothing guessed?"""
from datetime import date

import pytest
from pydantic import BeforeValidator, TypeAdapter, ValidationError

from generator.intake.yaml_tree import read_tree
from generator.model import fields

NO = "refused"
# What stands in a file, and what each kind of field makes of it; where nothing stands, it comes out as the text written.
WRITTEN = ("00412", "1E5", "22:30", "0x1F", "no", "+441632960001", "#12", "2026-02-30", "2026-09-14", "12", "-3", "2.40", "1_000", "yes", "on", "Null", "~", "0o17",
           ".5", "1e999", "nan", ".inf", "2026-9-14", "03:30", "24:00", "K-2041", "01632 960001", "0", "true", "TRUE", "1.", "１２", "012345678901")
TAKES: dict[str, dict[str, object]] = {
    "Text": {}, "Note": {},
    "Whole": {"12": 12, "0": 0},
    "Decimal": {"12": 12.0, "0": 0.0, "-3": -3.0, "2.40": 2.4},
    "Flag": {"no": False, "yes": True, "true": True, "TRUE": True},
    "Day": {"2026-09-14": date(2026, 9, 14)},
    "Clock": {"22:30": "22:30", "03:30": "03:30"},
    "Name": dict.fromkeys(("00412", "1E5", "0x1F", "no", "2026-02-30", "2026-09-14", "12", "yes", "on", "Null", "0o17", "1e999", "nan", "2026-9-14", "K-2041", "0", "true",
                           "TRUE", "012345678901")),
    "Key": dict.fromkeys(("00412", "1E5", "0x1F", "no", "2026-02-30", "2026-09-14", "12", "1_000", "yes", "on", "Null", "0o17", "1e999", "nan", "2026-9-14", "K-2041", "0",
                          "true", "TRUE", "012345678901")),
    "Serial": dict.fromkeys(("00412", "1E5", "0x1F", "no", "2026-02-30", "2026-09-14", "12", "2.40", "yes", "on", "Null", "0o17", "1e999", "nan", "2026-9-14",
                             "K-2041", "01632 960001", "0", "true", "TRUE", "1.", "012345678901")),
    "Account": dict.fromkeys(("00412", "1E5", "0x1F", "no", "12", "yes", "on", "Null", "0o17", "1e999", "nan", "0", "true", "TRUE", "012345678901")),
    "Phone": dict.fromkeys(("00412", "+441632960001", "2026-02-30", "2026-09-14", "2026-9-14", "01632 960001", "012345678901")),
    "Address": {}, "PathName": {},
    # Of what a phone wrote: words are kept as they came, names are held by what a phone makes.
    "Told": {}, "ToldNote": {}, "ToldShort": {}, "PhoneId": {}, "EntryId": {}, "Thing": {}, "Moment": {}, "LongPrint": {},
    "UnitOrNone": dict.fromkeys(("00412", "1E5", "0x1F", "no", "2026-02-30", "2026-09-14", "12", "yes", "on", "Null", "0o17", "1e999", "nan", "2026-9-14", "K-2041",
                                 "0", "true", "TRUE", "012345678901")),
    "StepName": dict.fromkeys(("00412", "no", "2026-02-30", "2026-09-14", "12", "1_000", "yes", "on", "0o17", "1e999", "nan", "2026-9-14", "0", "true", "012345678901")),
    "ShortPrint": dict.fromkeys(("012345678901",)),
    "Drawing": dict.fromkeys(("00412", "2026-02-30", "2026-09-14", "12", "-3", "2.40", ".5", "2026-9-14", "01632 960001", "0", "1.", "012345678901")),
}
TOLD = ("Told", "ToldNote", "ToldShort")
ALL_TAKEN = ("Text", "Note", *TOLD)


def wanted(kind: str, written: str) -> object:
    if kind in ALL_TAKEN:
        return written
    if written not in TAKES[kind]:
        return NO
    return written if TAKES[kind][written] is None else TAKES[kind][written]


def parsers(kind: object) -> set:
    return {one.func for one in getattr(kind, "__metadata__", ()) if isinstance(one, BeforeValidator)}


def test_every_kind_of_field_is_in_the_table() -> None:
    kinds = set().union(*(parsers(one) for name, one in vars(fields).items() if name[0].isupper()))
    assert kinds == set().union(*(parsers(getattr(fields, name)) for name in TAKES)) and len(kinds) == len(TAKES)


@pytest.mark.parametrize("quoted", [False, True], ids=["plain", "in quotes"])
@pytest.mark.parametrize("written", WRITTEN)
@pytest.mark.parametrize("kind", TAKES)
def test_a_value_comes_out_as_written_or_is_refused(kind: str, written: str, quoted: bool, tmp_path) -> None:
    path = tmp_path / "one.yaml"
    path.write_text(f"a: '{written}'\n" if quoted else f"a: {written}\n", encoding="utf-8")
    text = read_tree(path, "one.yaml").data["a"]
    # Plain, `#` begins a comment, and `~` and `null` are what people write for nothing at all.
    nothing = not quoted and written in ("~", "Null", "#12")
    assert text == (None if nothing else written)
    assert result(kind, text) == (NO if nothing else wanted(kind, written))


def result(kind: str, text: str | None) -> object:
    try:
        return TypeAdapter(getattr(fields, kind)).validate_python(text)
    except ValidationError as error:
        context = error.errors()[0]["ctx"]
        assert context["says"].strip() and context["do"].startswith(("Write ", "Take out ")), context
        return NO


@pytest.mark.parametrize("value, refused", [(["x"], "a list stands here."), ({"x": "y"}, "a group of keys stands here."), (None, "nothing stands here.")])
@pytest.mark.parametrize("kind", TAKES)
def test_a_list_a_group_and_nothing_are_refused_by_every_kind(kind: str, value, refused: str) -> None:
    with pytest.raises(ValidationError) as caught:
        TypeAdapter(getattr(fields, kind)).validate_python(value)
    assert caught.value.errors()[0]["ctx"]["says"] == refused


@pytest.mark.parametrize("word", ["no", "NO", "1", "00", "2026-02-30"])
def test_a_choice_takes_its_own_words_and_no_other(word: str) -> None:
    one = TypeAdapter(fields.choice("no", "1"))
    if word in ("no", "1"):
        assert one.validate_python(word) == word
    else:
        with pytest.raises(ValidationError):
            one.validate_python(word)


@pytest.mark.parametrize("mark", ["\x00", "\x07", "\x1b", "\x7f", "\x85", "\x9b", "\u2028", "\u2029", "\ud800", "\ufeff", "\uffff", "\u202e", "\u2066"])
@pytest.mark.parametrize("kind", [one for one in TAKES if one not in TOLD])
def test_no_kind_takes_a_mark_that_a_terminal_or_a_page_would_obey(kind: str, mark: str) -> None:
    assert result(kind, f"a{mark}b") == NO and result(kind, mark) == NO


def test_five_thousand_digits_are_a_text_too_long_and_no_number() -> None:
    # A drawing of many strokes is longer.
    kinds = [one for one in TAKES if one != "Drawing"]
    assert {kind: result(kind, "9" * 5000) for kind in kinds} == dict.fromkeys(kinds, NO)
