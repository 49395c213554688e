"""Does the homeowner's pack send nobody into danger, and does it help nobody who only says that he lives there?

What to do: common practice, no source, but for what is named beside a check.
"""
import re
from pathlib import Path

import pytest

from generator.pipeline import compile_job, pack_of
from generator.terms.audience import Audience
from tests.conftest import JOBS, read_files, write_files
from tests.test_homeowner import texts_of
from tests.test_homeowner_true import part

CURLEW, HERON = (JOBS / name / "job.yaml" for name in ("curlew-house", "heron-bungalow"))
FIRE_FIRST = "or it might be a fire, get everybody out at once. Call {} from outside."


@pytest.fixture(scope="module")
def curlew() -> dict[str, str]:
    return texts_of(CURLEW)


@pytest.fixture(scope="module")
def heron() -> dict[str, str]:
    return texts_of(HERON)


@pytest.fixture(scope="module")
def views() -> dict:
    return {page.path: page.view for page in pack_of(compile_job(CURLEW), Audience.HOMEOWNER, str, {}).pages}


# --- fire before a stranger ---------------------------------------------------------------------------------

@pytest.mark.parametrize("page, heading, after, hide", [
    ("when.html", "The alarm sounds and you are at home", "The alarm sounds and you are away", "do the same as for a stranger"),
    ("when.html", "it is a real alarm", "no emergency", "Shut yourself in"),
    ("sounds.html", "Alarm: somebody may be in the house", "Alarm: fire", "shut yourself in"),
])
def test_whoever_is_not_sure_leaves_a_fire_before_hiding_from_a_stranger(curlew, heron, page: str, heading: str, after: str, hide: str) -> None:
    for pack, number in ((curlew, "999"), (heron, "911")):
        text = part(pack[page], heading, after)
        assert text.index(FIRE_FIRST.format(number)) < text.index(hide), text


def test_the_large_print_too_thinks_of_fire_before_a_stranger(curlew, heron) -> None:
    for text in (curlew["sheet.html"], heron["sheet.html"]):
        sure = text.index("or you are not sure: if it might be a fire, get everybody out. If not, do as for a stranger. A stranger, or")
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

def test_a_reader_takes_no_code_so_whoever_has_no_tag_is_told_of_another_door(curlew) -> None:
    assert ("Come in by the front door. Come in by the back door only with a fob or tag, and by no other way.") in curlew["setting.html"]
    assert "From the back door, go to the tag reader in the utility room and hold your tag to it." in curlew["setting.html"]
    # A sheet that lies about says nothing of a door that a tag alone opens up.
    assert "Come in by the front door, or another way that we showed you." in curlew["sheet.html"] and "reader" not in curlew["sheet.html"]
    assert all("Type your own code on the keypad" in curlew[page] for page in ("setting.html", "sheet.html"))


def test_a_house_whose_every_door_leads_to_a_reader_is_told_never_to_leave_without_a_tag(tmp_path) -> None:
    files = read_files(CURLEW.parent)
    files["job"]["premises"]["storeys"]["ground"]["openings"]["front-door"].pop("entry")
    text = texts_of(write_files(files, tmp_path / "job"))["setting.html"]
    assert "The reader takes no code, so never leave the house without your tag." in text and "front door" not in text


def test_whoever_gets_up_is_told_how_to_turn_it_off_and_that_the_beeps_may_be_their_own_steps(curlew, heron) -> None:
    text = part(curlew["setting.html"], "When you get up, in the morning or at night", "You forgot something")
    assert "To go farther, unset the alarm first. With a fob by your bed, press it before you leave the room." in text
    assert "When you go back to bed, turn that part of the alarm on again." in text
    assert "Without a fob, go to the keypad in the hall by the way that we showed you, and unset the alarm there." in text
    assert "For the toilet only: leave the alarm on, and walk only where we showed you." in text
    for pack, word in ((curlew, "unset"), (heron, "disarm")):
        own = f"If beeps start as you walk or open an outside door, it was probably you, so {word} the alarm at once"
        assert own in pack["setting.html"] and "When you get up, press your fob in bed" in pack["sheet.html"]
        assert pack["when.html"].index(own) < pack["when.html"].index("nobody of yours comes in, gets up or goes out")


def test_a_house_that_is_never_on_in_part_hears_nothing_of_getting_up(job_file) -> None:
    assert "When you get up" not in " ".join(texts_of(job_file()).values())


# --- the large print ----------------------------------------------------------------------------------------

def test_danger_the_numbers_and_the_sounds_stand_before_what_is_done_every_day(curlew, heron) -> None:
    for text in (curlew["sheet.html"], heron["sheet.html"]):
        places = [text.index(words) for words in (
            "You are in danger", "By day:", "The alarm sounds or beeps", "A power cut: leave the alarm", "When you go out")]
        assert places == sorted(places)


def test_a_power_cut_is_told_alike_wherever_it_is_told(curlew) -> None:
    assert "A power cut: leave the alarm as it is, and call us after some hours." in curlew["sheet.html"]
    assert "Leave the alarm as it is" in curlew["when.html"] and "If the power is still off after some hours, call us." in curlew["when.html"]


# --- numbers where they are needed, and what may come to pass -----------------------------------------------

@pytest.mark.parametrize("page, id_", [("when.html", one) for one in ("night", "power", "internet", "weak", "moved", "refused", "lost", "forgot")]
                         + [("sounds.html", one) for one in ("refused", "fault", "weak-cell")]
                         + [("care.html", one) for one in ("week", "month", "batteries")])
def test_where_people_are_told_to_call_us_the_numbers_stand_beside_it(views, page: str, id_: str) -> None:
    topic = next(one for one in views[page].topics if one.id == id_)
    assert [one.href for one in topic.us] == ["tel:01632960310", "tel:01632960311"]


def test_the_numbers_are_shown_on_topics_and_on_the_page_of_each_thing(curlew) -> None:
    assert curlew["when.html"].count("At night and at weekends: 01632 960311") > 8
    assert all("By day: 01632 960310" in text for path, text in curlew.items() if path.startswith("d/"))


@pytest.mark.parametrize("page, words", [
    ("when.html", "You smell gas This is the gas of a cooker or a heater, and it can explode. Touch no switch, no plug and no keypad, press no fob"),
    ("when.html", "Call us on the number on this page, never on one that they give you"),
    ("when.html", "Fire, or a carbon monoxide alarm, or a smell of gas: get out, then call 999."),
    ("people.html", "Do as they say, because your life comes before everything in the house."),
    ("people.html", "Cleaners, carers, guests, and people next door"),
    ("moving.html", "Tear up the cards and the large print, and delete the file with these pages"),
    ("care.html", "If an animal lives with you already and we do not know of it, tell us now."),
    ("help.html", "Until 27 October 2026, only you and your keyholders are called when it sounds. From 28 October 2026, the police may be called too."),
    ("care.html", "Call Lantern Watch again, ask what reached them, and say that your test is over. If one of them stays silent"),
    ("when.html", "Your home telephone may be dead, so use a mobile."),
    ("people.html", "A guest for a night or two Give them no code"),
    ("moving.html", "We also stop the fobs and tags that the people before you may still have."),
    ("papers.html", "Its smoke alarms, heat alarms and carbon monoxide alarms watch all the time, also while the alarm is unset."),
    ("setting.html", "Stay outside, and wait until the 45 seconds to get out are over."),
])
def test_what_may_come_to_pass_in_a_house_has_its_words(curlew, page: str, words: str) -> None:
    assert words in curlew[page]


def test_the_danger_of_a_battery_stands_only_where_a_child_can_get_at_one(tmp_path) -> None:
    files = read_files(CURLEW.parent)
    files["job"]["premises"]["children"] = "true"
    told = {text.split(" What it does")[0] for path, text in texts_of(write_files(files, tmp_path / "job")).items()
            if path.startswith("d/") and "A swallowed battery" in text}
    assert told and all(re.search(r"Fob|[Ww]ater sensor|[Cc]all button|kitchen", one) for one in told), told


# --- one text, not two --------------------------------------------------------------------------------------

def test_whoever_opens_the_page_of_a_smoke_alarm_learns_whom_to_call_before_a_test(curlew, job_file) -> None:
    things = {path: text for path, text in curlew.items() if path.startswith("d/") and "get everybody out" in text}
    assert len(things) == 4
    assert all("Call Lantern Watch on 01632 960455 before and after each test." in text and "call 999" in text for text in things.values())
    assert not any("firefighters advise" in text or "leaflet" in text for text in things.values())


@pytest.mark.parametrize("heading, after", [("You smell gas", "A smoke alarm or heat"), ("A smoke alarm or heat alarm sounds", "The carbon"),
                                            ("The carbon monoxide alarm sounds", "Somebody threatens you")])
def test_in_a_fire_or_with_gas_in_the_air_nobody_is_let_stop_to_turn_it_off(curlew, heading: str, after: str) -> None:
    assert re.search("[Ll]et it sound. Do not (?:stop to )?turn it off.", part(curlew["when.html"], heading, after))


def test_the_word_is_said_to_the_station_alone_and_that_is_said_first(curlew) -> None:
    text = part(curlew["when.html"], "You set it off by mistake", "You smell gas")
    sure = "Say your word only when you are sure that it is Lantern Watch. If you are not sure who is calling, hang up and call 01632 960455."
    assert text.index(sure) < text.index("Say your name") and "or answer when they call" not in text and sure in curlew["help.html"]


def test_whoever_forgot_a_code_while_it_beeps_is_helped_by_night_too(curlew) -> None:
    text = part(curlew["when.html"], "You forgot your code", "The alarm says that there is water")
    assert "use your fob or tag. If you have none with you, let it sound. Then call Lantern Watch on 01632 960455" in text
    assert "by day or by night" in text


# --- numbers to touch ---------------------------------------------------------------------------------------

def test_what_a_topic_says_to_call_can_be_touched_beside_it(views) -> None:
    for path in ("when.html", "care.html", "help.html", "sheet.html", "sounds.html"):
        for topic in (*views[path].first, *views[path].topics):
            said, hrefs = " ".join(topic.sentences()), {one.href for one in (*topic.calls, *topic.phones, *topic.us)}
            assert ("tel:999" in hrefs) == ("999" in said) and ("tel:01632960455" in hrefs or "Lantern Watch" not in said), (path, topic.id)
    assert [one.href for one in views["index.html"].calls] == ["tel:999"]


def test_digits_within_a_longer_number_are_no_number_to_touch(views) -> None:
    from generator.intake.job_reader import read_job
    from generator.pages.homeowner.calls import calls_in
    from generator.pages.homeowner.words import Voice

    papers = read_job(CURLEW).papers
    say = Voice(papers, str)
    assert calls_in("Call 01632 960999 or 07700 900 999 or 999 000.", papers, say) == ()
    assert [one.text for one in calls_in("Then call 999.", papers, say)] == ["Call 999"]


def test_each_topic_of_a_long_page_leads_back_to_its_list(curlew) -> None:
    assert curlew["when.html"].count("Back to the list") > 15 and "Back to the list" not in curlew["setting.html"]


# --- what no file says --------------------------------------------------------------------------------------

@pytest.mark.parametrize("page, words", [
    ("when.html", "The emergency number for gas is: ____"), ("when.html", "How many hours its battery lasts, as we told you: ____"),
    ("help.html", "By day means, on working days, from ____"), ("help.html", "After a fire alarm they call, as they told you: ____"),
    ("sounds.html", "How you see whether it is set now: ____"), ("setting.html", "How you see later whether it is set, as we showed you: ____"),
])
def test_what_neither_job_nor_sheet_knows_is_a_named_line_to_write_on(curlew, page: str, words: str) -> None:
    assert words in curlew[page]


def test_the_sheet_has_a_day_and_no_time_to_get_out(curlew) -> None:
    assert "Sheet of 5 October 2026." in curlew["sheet.html"] and "seconds" not in curlew["sheet.html"]


def test_the_foot_speaks_of_a_version_and_of_no_finger() -> None:
    compiled = compile_job(CURLEW)
    feet = {one: pack_of(compiled, one, str, {}).foot[0] for one in (Audience.HOMEOWNER, Audience.INSTALLER)}
    assert " · Version " in feet[Audience.HOMEOWNER] and "Fingerprint" not in feet[Audience.HOMEOWNER] and "Fingerprint" in feet[Audience.INSTALLER]
