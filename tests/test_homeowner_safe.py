"""Does the homeowner's pack send nobody into danger, and does it help nobody who only says that he lives there?

What to do: common practice, no source, but for what is named beside a check.
"""
import re
from pathlib import Path

import pytest

from tests.conftest import JOBS, read_files, write_files
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


# --- coming in, and getting up ------------------------------------------------------------------------------

@pytest.mark.parametrize("page", ["setting.html", "sheet.html"])
def test_a_reader_takes_no_code_so_whoever_has_no_tag_is_told_of_another_door(curlew, page: str) -> None:
    assert ("From the back door, go to the tag reader in the utility room and hold your tag to it. "
            "It takes no code, so without a tag come in by the front door.") in curlew[page]
    assert "Type your own code on the keypad" in curlew[page]


def test_a_house_whose_every_door_leads_to_a_reader_is_told_never_to_leave_without_a_tag(tmp_path) -> None:
    files = read_files(CURLEW.parent)
    files["job"]["premises"]["storeys"]["ground"]["openings"]["front-door"].pop("entry")
    text = texts_of(write_files(files, tmp_path / "job"))["setting.html"]
    assert "It takes no code, so never leave the house without your tag." in text and "come in by the front door" not in text


def test_whoever_gets_up_is_told_how_to_turn_it_off_and_that_the_beeps_may_be_their_own_steps(curlew, heron) -> None:
    text = part(curlew["setting.html"], "When you get up, in the morning or at night", "You forgot something")
    assert "press it to unset the alarm before you leave the room" in text
    assert "Without a fob, go to the keypad in the hall by the way that we showed you, and unset the alarm there." in text
    assert "For the toilet at night, walk only where we showed you." in text
    for pack, word in ((curlew, "unset"), (heron, "disarm")):
        own = f"If beeps start as you walk or open a door, it was you, so {word} the alarm at once"
        assert own in pack["setting.html"] and "When you get up, press your fob in bed" in pack["sheet.html"]
        assert pack["when.html"].index(own) < pack["when.html"].index("nobody of yours has just got up or come in")


def test_a_house_that_is_never_on_in_part_hears_nothing_of_getting_up(job_file) -> None:
    assert "When you get up" not in " ".join(texts_of(job_file()).values())
