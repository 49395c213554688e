"""Can a child of nine to twelve read the homeowner's pages, and so everybody?

Plain-language guidance for public bodies asks for a reading age of about nine to twelve and for sentences of fifteen to twenty words
(read second-hand). Six published formulas say for which US school grade a text is written: Flesch-Kincaid, Gunning Fog, ARI,
Coleman-Liau, SMOG, and the new Dale-Chall score, which runs from 4 (grade 4 and below) to 10. Their median is the grade of a text, and
a pupil of a grade is five years older than its number. They count letters, syllables and words: they see long sentences and
rare words, and no nonsense. The library textstat works them out from its own word lists, without a network.
"""
import statistics

import pytest
import textstat
from bs4 import BeautifulSoup

from generator.pipeline import compile_job
from generator.publish.pack import write_pack
from tests.conftest import JOBS
from tests.homeowner_text import blocks, content_of, pages_of, plain, sentences

FORMULAS = ("flesch_kincaid_grade", "gunning_fog", "automated_readability_index", "coleman_liau_index", "smog_index",
            "dale_chall_readability_score_v2")
YOUNGEST, OLDEST = 9, 12
YEARS_BEFORE_SCHOOL = 5
MOST_WORDS, MOST_WORDS_ON_AVERAGE = 24, 15
# Words of the trade and of offices, which people of the house neither know nor need.
JARGON = ("zone", "slot", "tamper", "supervision", "supervise", "partition", "enrol", "omit", "inhibit", "isolate", "bypass", "repeater",
          "transmission", "communicator", "detector", "contact", "peripheral", "control unit", "panel", "soak", "sounder circuit", "duress",
          "hold-up", "hold up", "authority", "authorise", "activation", "activate", "deactivate", "initiate", "terminate", "commence",
          "utilise", "prior to", "in the event", "premises", "occupier", "householder", "mains failure", "standby", "link", "signal",
          "configure", "default", "device", "unit", "fault", "event", "verify", "confirmed", "response", "interval", "GSM", "PIR", "ARC", "RF",
          "dB", "LED", "SIM", "IP", "CO")
SMALL_TEXTS = 40


@pytest.fixture(scope="module", params=["thrift-cottage", "curlew-house", "heron-bungalow", "dunlin-row", "plover-cabin"])
def pages(request, tmp_path_factory) -> dict[str, BeautifulSoup]:
    return pages_of(write_pack(compile_job(JOBS / request.param / "job.yaml"), tmp_path_factory.mktemp(request.param)))


def age(text: str) -> float:
    """The reading age of a text, in years."""
    return statistics.median(getattr(textstat, name)(text) for name in FORMULAS) + YEARS_BEFORE_SCHOOL


def long_ones(page: BeautifulSoup) -> list[str]:
    return [one for one in sentences(page) if len(one.split()) > MOST_WORDS]


def jargon(text: str) -> list[str]:
    """The words of the list that stand in a text; short forms in large letters only as they are."""
    words = text.translate(str.maketrans({mark: " " for mark in ".,:;?!()"}))
    spaced, small = f" {words} ", f" {words.casefold()} "
    return [one for one in JARGON if any(f" {form} " in (spaced if one[:2].isupper() or one == "dB" else small) for form in (one, f"{one}s"))]


def test_the_whole_pack_has_the_reading_age_of_nine_to_twelve(pages) -> None:
    assert YOUNGEST <= age("\n".join(blocks(pages["homeowner.html"]))) <= OLDEST


def test_no_page_asks_for_more_than_twelve_years(pages) -> None:
    asked = {path: age(text) for path, page in pages.items() if len((text := "\n".join(blocks(page))).split()) >= SMALL_TEXTS}
    assert len(asked) >= 10
    assert {path: years for path, years in asked.items() if years > OLDEST} == {}


def test_sentences_are_short(pages) -> None:
    for path, page in pages.items():
        assert long_ones(page) == [], path
        lengths = [len(one.split()) for one in sentences(page)]
        assert not lengths or statistics.mean(lengths) < MOST_WORDS_ON_AVERAGE, path


def test_no_word_of_the_trade_stands_on_a_page(pages) -> None:
    assert {path: words for path, page in pages.items() if (words := jargon(plain(content_of(page))))} == {}


OFFICE = ("In the event of an unanticipated activation of the intruder detection installation, occupiers should immediately contact the "
          "organisation responsible for monitoring. Authorisation is subsequently verified by means of previously established credentials. "
          "Unauthorised interference with components invalidates contractual maintenance obligations and may necessitate supplementary expenditure.")


def test_a_text_of_an_office_is_too_hard() -> None:
    assert age(OFFICE) > OLDEST + 4


def test_a_text_for_beginners_is_too_easy() -> None:
    assert age("The cat sat. It saw me. I had a hat. We ran to it. It was a big red hat. The cat ran.") < YOUNGEST - 2


def test_a_long_sentence_and_a_word_of_the_trade_are_seen() -> None:
    page = BeautifulSoup(f"<main><p>Shut the door. {'and then you go on ' * 5}.</p></main>", "html5lib")
    assert len(long_ones(page)) == 1
    assert jargon("The zones, a tamper; look at the LED.") == ["zone", "tamper", "LED"] and jargon("You are led to the door") == []


def test_the_formulas_agree_with_worked_examples() -> None:
    """By the published formulas on counts made by hand. Flesch-Kincaid (0.39 words a sentence + 11.8 syllables a word - 15.59;
    Kincaid and others 1975, from memory): 12 words, 2 sentences, 13 syllables. ARI (4.71 strokes a word + 0.5 words a sentence - 21.43;
    Senter and Smith 1967, from memory): 12 words, 2 sentences, 51 strokes with the full stops."""
    text = "Shut the window and leave the house. Then lock the front door."
    assert textstat.flesch_kincaid_grade(text) == pytest.approx(0.39 * 12 / 2 + 11.8 * 13 / 12 - 15.59, abs=0.1)
    assert textstat.automated_readability_index(text) == pytest.approx(4.71 * 51 / 12 + 0.5 * 12 / 2 - 21.43, abs=0.1)
