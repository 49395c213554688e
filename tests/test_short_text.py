"""Does a proposed text always fit, begin like no other, and say what the trade would say?"""
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.calc.slots.short_text import beginning, proposal, shown_with
from generator.calc.slots.texts import zone_texts
from generator.intake.job_reader import read_job
from generator.tables.zone_words import PLACES, STOREYS, THINGS, ordinary_words
from tests.rule_cases.case import both, text

CAPITALS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789 -/."
WORDS = sorted(ordinary_words() | {"HALL", "GARDEN", "2", "12", "Küche", "O'NEILL", "straße"})
texts = st.one_of(st.lists(st.sampled_from(WORDS), min_size=1, max_size=7).map(" ".join),
                  st.text(min_size=1, max_size=40).filter(str.strip))
alphabets = st.one_of(st.none(), st.just(CAPITALS), st.just("ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"), st.just("abcdefghijklmnopqrstuvwxyz -"))


@given(text=texts, length=st.integers(1, 40), alphabet=alphabets, others=st.lists(texts, max_size=6), unique=st.integers(1, 16))
def test_a_proposal_fits_is_shown_and_begins_like_no_other_or_there_is_none(text, length, alphabet, others, unique) -> None:
    short = proposal(text, length, alphabet, others, unique)
    if short:
        assert len(short) <= length
        assert alphabet is None or set(short) <= set(alphabet)
        assert short == short.strip()
        # Compared as a display shows it: so many first characters, large and small alike.
        assert short[:unique].casefold().strip() not in {one[:unique].casefold().strip() for one in others}
        # Said aloud it is none of the others either.
        assert consonants(short) not in {consonants(one) for one in others}


def consonants(text: str) -> str:
    return re.sub(r"[AEIOU\W_]", "", text.upper())


@given(words=st.lists(st.sampled_from(["BED 2", "WINDOW", "KITCHEN", "17", "ROOM", "4B", "CONSERVATORY"]), min_size=1, max_size=5),
       length=st.integers(1, 30))
def test_digits_are_never_touched(words, length) -> None:
    text = " ".join(words)
    short = proposal(text, length, CAPITALS, [], 8)
    assert short == "" or re.findall("[0-9]", short) == re.findall("[0-9]", text)


@given(text=st.lists(st.sampled_from(sorted(THINGS) + sorted(PLACES)), min_size=1, max_size=4).map(" ".join))
def test_a_text_that_fits_and_is_alone_is_left_as_it_is(text) -> None:
    assert proposal(text, 64, CAPITALS, [], 8) == text


@pytest.mark.parametrize("text, length, short", [
    ("GROUND FLOOR DINING ROOM PATIO DOOR", 16, "GF DINING PATIO"),
    ("FIRST FLOOR LANDING WINDOW", 16, "FF LANDING WDW"),
    ("KITCHEN DOOR TO THE GARDEN", 16, "KIT DR GARDEN"),
    ("BEDROOM 2 WINDOW", 12, "BED 2 WDW"),
    ("Ground floor store room door", 16, "GF STORE DOOR"),
    ("CONSERVATORY FRENCH DOORS", 16, "CONS FRENCH"),
    ("OBSERVATORY HATCH", 14, "OBSRVTRY HATCH"),
])
def test_the_trade_s_way_of_shortening(text: str, length: int, short: str) -> None:
    assert proposal(text, length, CAPITALS, [], 8) == short


def test_a_beginning_that_another_zone_has_is_avoided() -> None:
    assert proposal("GROUND FLOOR DINING WINDOW", 16, CAPITALS, ["GF DINING PATIO"], 8) == "GF DIN WDW"
    # Without the storey, if nothing milder tells them apart.
    assert proposal("GROUND FLOOR HALL WINDOW", 16, CAPITALS, ["GF HALL WARDROBE", "HALL WINDOWSILL"], 8) == "HALL WDW"


def test_where_nothing_fits_nothing_is_proposed() -> None:
    assert proposal("12345678901234567", 16, CAPITALS, [], 8) == ""
    assert proposal("HALL", 16, CAPITALS, ["HALL"], 8) == ""
    # A digit that cannot be shown may be all that tells two rooms apart.
    assert proposal("BED 2", 16, "ABCDEFGHIJKLMNOPQRSTUVWXYZ ", [], 8) == ""


def test_a_letter_that_cannot_be_shown_is_written_as_the_nearest_that_can() -> None:
    assert shown_with("Café Straße, Ødegård’s", CAPITALS) == "CAFE STRASSE  ODEGARDS"
    assert shown_with("Cafe\u0301s", CAPITALS) == "CAFES"
    assert proposal("Küche", 16, "abcdefghijklmnopqrstuvwxyz", [], 8) == "kuche"


def test_large_and_small_letters_begin_alike() -> None:
    assert beginning("Hall Front", 8) == beginning("HALL FROM", 8)


def test_two_proposals_of_one_job_begin_differently(job_file) -> None:
    papers = read_job(job_file(both(text("D1", "GROUND FLOOR DINING ROOM PATIO DOOR"), text("D2", "GROUND FLOOR DINING ROOM WINDOW"),
                                    text("D3", "GROUND FLOOR DINING ROOM DOOR")))).papers
    proposed = [one.proposed for one in zone_texts(papers)]
    assert proposed[:3] == ["GF DINING PATIO", "GF DIN WDW", "GF DIN DR"]
    assert len({beginning(one, 8) for one in proposed if one}) == 3


def test_no_two_storeys_share_a_short_form() -> None:
    assert len({short for _, short in STOREYS}) == len(STOREYS)
    assert len({*THINGS.values(), *PLACES.values()}) == len(THINGS) + len(PLACES)
