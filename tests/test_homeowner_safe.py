"""Does the homeowner's pack send nobody into danger, and does it help nobody who only says that he lives there?

What to do: common practice, no source, but for what is named beside a check.
"""
import re
from pathlib import Path

import pytest

from tests.conftest import JOBS
from tests.test_homeowner import texts_of
from tests.test_homeowner_true import part

CURLEW, HERON = (JOBS / name / "job.yaml" for name in ("curlew-house", "heron-bungalow"))
FIRE_FIRST = "or it might be a fire, get everybody out at once and call {} from outside."


@pytest.fixture(scope="module")
def curlew() -> dict[str, str]:
    return texts_of(CURLEW)


@pytest.fixture(scope="module")
def heron() -> dict[str, str]:
    return texts_of(HERON)


# --- fire before a stranger ---------------------------------------------------------------------------------

@pytest.mark.parametrize("page, heading, after, hide", [
    ("when.html", "The alarm sounds and you are at home", "The alarm sounds and you are away", "do the same as for a stranger"),
    ("when.html", "Loud and without a pause", "no emergency", "Shut yourself in"),
    ("sounds.html", "Alarm: somebody may be in the house", "Alarm: fire", "shut yourself in"),
])
def test_whoever_is_not_sure_leaves_a_fire_before_hiding_from_a_stranger(curlew, heron, page: str, heading: str, after: str, hide: str) -> None:
    for pack, number in ((curlew, "999"), (heron, "911")):
        text = part(pack[page], heading, after)
        assert text.index(FIRE_FIRST.format(number)) < text.index(hide), text


def test_the_large_print_too_thinks_of_fire_before_a_stranger(curlew, heron) -> None:
    for text in (curlew["sheet.html"], heron["sheet.html"]):
        sure = text.index("You are not sure: think of fire first. If it might be a fire, get everybody out.")
        assert sure < text.index("Shut yourself in") and not re.search("not sure: (?:do not|do the same|shut)", text)


# --- who calls ----------------------------------------------------------------------------------------------

WORD = "Say your name and the word that you agreed with them"


@pytest.mark.parametrize("page, heading, after", [
    ("care.html", "Once a month: test it", "Once a month: press"), ("help.html", "It was a false alarm, or you want to test", "Something is wrong"),
    ("when.html", "You set it off by mistake", "A smoke alarm or heat alarm sounds"),
    ("when.html", "You pressed the threat button by mistake", "The alarm beeps at night"),
])
def test_before_a_test_and_before_help_is_called_off_a_caller_says_name_and_word(curlew, page: str, heading: str, after: str) -> None:
    assert WORD in part(curlew[page], heading, after)


def test_the_large_print_asks_for_name_and_word_too(curlew) -> None:
    assert "call Lantern Watch on 01632 960455, and say your name and your word." in curlew["sheet.html"]


def test_where_no_station_watches_no_word_is_asked(job_file) -> None:
    alone = " ".join(texts_of(job_file(lambda f: f["job"].pop("monitoring"))).values())
    assert "the word that you agreed" not in alone and "your word" not in alone
