"""Is what the homeowner's pack says true for the house, and of one mind, where somebody is in danger, wakes up from beeps or comes home?

What to do: common practice, no source, but for what is named beside a check.
"""
import re
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from generator.pipeline import compile_job
from generator.publish.pack import write_pack
from tests.conftest import JOBS, read_files, write_files
from tests.homeowner_text import blocks, content_of, pages_of, plain
from tests.test_homeowner import texts_of

CURLEW, HERON = (JOBS / name / "job.yaml" for name in ("curlew-house", "heron-bungalow"))
# A water sensor is no help to anybody who wants to come in.
SENSORS = r"\b(?<![Ww]ater )[Ss]ensor (?:at|in|on) the\b"


@pytest.fixture(scope="module")
def curlew() -> dict[str, str]:
    return texts_of(CURLEW)


@pytest.fixture(scope="module")
def heron() -> dict[str, str]:
    return texts_of(HERON)


@pytest.fixture(scope="module")
def pages(tmp_path_factory) -> dict[str, BeautifulSoup]:
    return pages_of(write_pack(compile_job(CURLEW), tmp_path_factory.mktemp("curlew")))


def reference_of(path: Path, name: str) -> str:
    """The short reference of a unit, as it stands on labels."""
    return compile_job(path).results.references[name]


def part(text: str, heading: str, after: str) -> str:
    """What stands between a heading and the next one; the last time that it stands there, as pages begin with a list of their headings."""
    return text.rsplit(heading, 1)[1].split(after, 1)[0]


# --- danger -------------------------------------------------------------------------------------------------

def test_out_of_a_fire_one_goes_and_from_a_stranger_one_shuts_oneself_in(curlew) -> None:
    text = part(curlew["when.html"], "The alarm sounds and you are at home", "The alarm sounds and you are away")
    assert "you see or smell fire: everybody out at once. Call 999 from outside." in text
    assert "shut yourself in the room where you are. Call 999 and stay on the line. Leave that room only if your way out is free." in text
    assert "Only if nothing looks or smells like fire, do the same as for a stranger." in text
    assert not re.search("get out if you can|Stay where you are|go to a neighbour", text)


@pytest.mark.parametrize("page", ["index.html", "when.html", "help.html", "sheet.html"])
def test_nobody_is_told_to_get_out_before_it_is_said_from_what(curlew, page: str) -> None:
    assert not re.search(r"(?:You are in danger|In danger\?) Get out", curlew[page])
    assert "In a fire, get out first." in curlew[page] or "A stranger: stay away" in curlew[page]


def test_beeps_at_night_are_told_apart_by_the_sounds_of_this_house(curlew, heron) -> None:
    for pack, number in ((curlew, "999"), (heron, "911")):
        text = pack["when.html"]
        assert (f"You hear quick beeps when nobody of yours comes in, gets up or goes out: somebody may be in the house. "
                f"Shut yourself in the room where you are, and call {number}.") in text
        assert f"three long tones and a pause again and again. Get everybody out, then call {number}." in text
    assert "A carbon monoxide alarm: four short tones and a pause again and again." in curlew["when.html"] and "alarm: four" not in heron["when.html"]
    assert "One short beep every minute" in curlew["when.html"] and "loud and does not stop" not in curlew["when.html"]


def test_the_large_print_tells_the_sounds_apart_too(curlew, heron) -> None:
    for pack, number in ((curlew, "999"), (heron, "911")):
        for words in ("A stranger, or quick beeps when nobody of yours comes in, gets up or goes out: do not go to look. "
                      f"Shut yourself in and call {number}.", "One short beep every minute: call us by day."):
            assert words in pack["sheet.html"]
    for tones, what in (("Three long tones", "fire"), ("Four short tones", "carbon monoxide")):
        assert f"{tones} and a pause again and again: {what}. Get everybody out." in curlew["sheet.html"]
    assert "Three long tones and a pause again and again: fire. Get everybody out." in heron["sheet.html"]


def test_what_no_sheet_says_of_sounds_is_said_in_words_for_any_alarm(job_file) -> None:
    def silent(files) -> None:
        for sheet in files["equipment"].values():
            sheet.pop("signals", None)
    text = texts_of(job_file(silent))["when.html"]
    assert "You hear the beeps of coming in when nobody of yours comes in or goes out" in text and "One short beep now and then" in text
    assert "A smoke alarm sounds. Get everybody out, then call 112." in text


def test_the_threat_button_is_told_where_there_is_one_and_its_sound_only_in_person(curlew, heron) -> None:
    text = part(curlew["when.html"], "Somebody threatens you", "You pressed the threat button by mistake")
    for words in ("Press the threat button as we showed you", "It tells Lantern Watch", "never for illness or fire", "Never try it out yourself",
                  "Ask us in person where it is, how you press it and whether it makes a sound. We never write that down."):
        assert words in text
    # From when others than the people of the house come is told where nobody looks who reads what to do: it tells a burglar when to come.
    assert "Until" not in text and "October" not in curlew["when.html"] and not re.search("silent|silently", text) and "Somebody threatens you" not in heron["when.html"]


def test_a_threat_button_that_calls_nobody_is_not_said_to(tmp_path, job_file) -> None:
    files = read_files(CURLEW.parent)
    files["job"].pop("monitoring")
    text = part(texts_of(write_files(files, tmp_path / "job"))["when.html"], "Somebody threatens you", "You pressed the threat button by mistake")
    assert "It calls nobody" in text and "Call 999 too" in text and "Until" not in text


def test_who_is_called_after_fire_or_threat_is_not_promised(curlew) -> None:
    assert "Who is called after a break-in alarm The alarm tells the monitoring station." in curlew["help.html"]
    assert "After another alarm, they may call others first, and may not call you at all. Ask us." in curlew["help.html"]


def test_a_house_with_break_in_alarms_alone_hears_of_no_other(job_file) -> None:
    assert "After another alarm" not in texts_of(job_file())["help.html"]


# --- true for this house ------------------------------------------------------------------------------------

def test_nothing_is_said_to_be_agreed_that_the_pack_cannot_know(curlew, heron) -> None:
    for pack in (curlew, heron):
        assert "we agreed with you" not in pack["papers.html"].lower() and "Ask us which parts are left out." in pack["papers.html"]


def test_what_paths_the_alarm_has_is_not_guessed_in_a_power_cut(curlew, heron) -> None:
    for pack in (curlew, heron):
        text = " ".join(pack.values())
        assert "may not be able to call for help" not in text and "mobile network all fail" not in text
        assert "Ask us how the alarm calls for help in a power cut, and for how long." in text


def test_a_sounder_is_timed_only_where_the_house_has_it(curlew, heron, job_file) -> None:
    assert "The sounder outside stops by itself after 15 minutes." in curlew["sounds.html"]
    assert "The sounder inside stops by itself after 15 minutes." in curlew["sounds.html"]
    assert "stops by itself" not in heron["sounds.html"]
    assert "sounder outside" not in part(heron["sounds.html"], "somebody may be in the house", "Alarm: fire")
    inside = job_file(lambda f: (f["job"]["devices"]["S1"].update(room="hall", height_m="2.1"), f["job"]["times"].update(inside_sounder_min="7")))
    text = texts_of(inside)["sounds.html"]
    assert "The sounder inside stops by itself after 7 minutes." in text and "The sounder outside" not in text


def test_a_list_that_is_not_there_is_asked_for(curlew, heron) -> None:
    assert "We have not written down here what we keep, so please ask us." in heron["papers.html"]
    assert "We have not written down" not in curlew["papers.html"] and "Here is what we keep" not in heron["papers.html"]


# --- coming home, staying in --------------------------------------------------------------------------------

def test_from_each_door_one_goes_to_what_stands_behind_it(curlew, heron) -> None:
    assert "From the back door, go to the tag reader in the utility room and hold your tag to it." in curlew["setting.html"]
    assert "From the front door, go straight to the keypad in the hall, and do nothing else first." in curlew["setting.html"]
    for pack in (curlew, heron):
        assert "With a fob: press it before you open the door, as we showed you. Come in by" in pack["setting.html"]
    assert "From the" not in heron["setting.html"] + heron["sheet.html"] + curlew["sheet.html"]
    assert "Or use your fob or tag as we showed you." in curlew["sheet.html"] and "Or use your fob as we showed you." in heron["sheet.html"]


def test_staying_in_one_walks_only_where_it_was_shown_and_opens_no_window(curlew) -> None:
    assert "If you are not sure where, unset the alarm first and ask us by day." in curlew["setting.html"]
    assert "Walk only where we showed you. Open no window and no outside door." in curlew["sheet.html"]


def test_the_noise_of_a_test_is_told_before_its_first_step(curlew) -> None:
    text = part(curlew["care.html"], "Once a month: test it", "Once a month: press")
    assert text.index("It will be very loud") < text.index("Call Lantern Watch first")


def test_whoever_gets_a_code_learns_what_to_do_when_it_sounds(curlew, heron, job_file) -> None:
    assert "ask us to make that code or to show you how" in curlew["people.html"]
    assert "they unset it and telephone you immediately. Then you call Lantern Watch." in curlew["people.html"]
    alone = texts_of(job_file(lambda f: f["job"].pop("monitoring")))["people.html"]
    assert "they unset it and telephone you immediately." in alone and "Then you call" not in alone


def test_no_sentence_sends_the_reader_to_another_place_for_what_to_do_now(pages, curlew) -> None:
    """The pages stand in one file too, where "the top of this page" is another place."""
    assert not any(re.search("top of this page|tells you more", text) for text in curlew.values())
    assert "If not, do not go to look. Shut yourself in the room where you are, and call 999." in curlew["when.html"]
    assert "nothing is like fire, shut yourself in the room where you are. Then call 999." in curlew["sounds.html"]


def test_whoever_set_it_off_is_told_of_the_word_wherever_the_call_is_told(curlew) -> None:
    assert curlew["when.html"].count("the word that you agreed with them") > 2
    assert "call Lantern Watch at once, and say your name and your word." in curlew["care.html"]


def test_a_house_without_a_station_reads_of_permits_too(job_file) -> None:
    text = texts_of(job_file(lambda f: f["job"].pop("monitoring")))["papers.html"]
    assert "We have none on paper for this house, so ask us if your police or your town want one." in text


def test_the_reference_of_a_thing_is_not_called_its_code(curlew) -> None:
    """A code is what people type; nobody is asked to tell one (common practice, no source)."""
    things = [text for path, text in curlew.items() if path.startswith("d/")]
    assert len(things) > 30 and all("Its reference" in text and "code" not in text for text in things)


# --- words --------------------------------------------------------------------------------------------------

def test_a_landing_is_a_place_that_one_is_on(curlew) -> None:
    text = " ".join(curlew.values())
    assert "Sounder on the landing" in text and "in the landing" not in text and "Keypad in the hall" in text


def test_only_what_has_a_cell_is_said_to_have_a_battery(curlew) -> None:
    things = {path: text for path, text in curlew.items() if path.startswith("d/")}
    told = {path for path, text in things.items() if "batter" in text}
    assert {path for path, text in things.items() if text.startswith("Tag ") and "Tag reader" not in text} == set(things) - told
    assert len(things) - len(told) == 2 and all("If the alarm says that its battery is weak" in things[path] for path in told)


def test_words_of_one_market_are_not_said_in_another(heron, curlew) -> None:
    for pack in (curlew, heron):
        text = " ".join(text for path, text in pack.items() if not path.startswith("d/"))
        assert re.findall(r"(?i)neighbou?rs?\b|fire service|fire department|practis|mains|button for threats", text) == []


# --- no map by subtraction ----------------------------------------------------------------------------------

def test_no_page_no_card_and_no_title_tells_where_a_sensor_is(pages) -> None:
    """Forty pages and cards, each with a place, are a map: what is not among them is watched by nothing (common practice, no source)."""
    assert len(pages) > 40
    for path, page in pages.items():
        assert re.findall(SENSORS, plain(page.body) + page.title.get_text()) == [], path
        assert not re.search("French doors|guest room|workshop|boat store|sitting room", plain(page.body)), path


def test_the_order_of_pages_and_cards_tells_no_rooms(pages) -> None:
    names = {path: page.find("h1").get_text() for path, page in pages.items() if path.startswith("d/")}
    things = plain(pages[next(path for path, name in names.items() if name == "Keypad in the hall")].body)
    # All sensors stand after what people touch.
    assert len(names) > 30 and things.index("Tag YCGL") < things.index("Sensor 69Q3") < things.index("Movement sensor KW67")
    assert max(things.index(name) for name in names.values() if name in things and name.startswith(("Fob", "Tag", "Sounder", "Smoke"))
               ) < things.index("Sensor 69Q3")
    cards = [plain(one) for one in content_of(pages["labels.html"]).find_all("li")]
    sensors = [one.split()[0] for one in cards if re.search(r"^\w{4} Sensor$", one)]
    assert len(sensors) > 8 and sensors == sorted(sensors)


def test_the_page_behind_a_card_says_what_its_sensor_is_and_what_to_do(pages) -> None:
    page = pages[f"d/{'69Q3'.lower()}.html"]
    assert page.find("h1").get_text() == "Sensor 69Q3" and "Shut the door or window firmly" in plain(content_of(page))
    assert "Keep them in a drawer" in plain(pages["labels.html"].body)


def test_where_the_threat_button_is_and_how_it_is_pressed_stands_on_no_page_and_no_card(pages, curlew) -> None:
    """Whoever forces somebody of the house may read all that lies about (common practice, no source)."""
    short = reference_of(CURLEW, "H1")
    for path, page in pages.items():
        text = plain(page.body) + " ".join(str(tag.attrs) for tag in page.find_all(True))
        assert not re.search(rf"(?i)threat button (?:in|on|at|beside) the|two buttons|beside the bed|{short}", text), path
    assert f"d/{short.lower()}.html" not in pages
    # It is still told that there is one, when to press it and whom to ask.
    assert "Any threat button" in curlew["things.html"] and "Press the threat button as we showed you" in curlew["when.html"]


def test_a_name_that_the_job_gives_the_threat_button_stands_on_no_page(tmp_path) -> None:
    files = read_files(CURLEW.parent)
    files["job"]["devices"]["H1"]["called"] = "the button under the shelf"
    files["equipment"]["tern-hu"]["signals"] = [{"when": "alarm", "sound": "one click under the shelf"}]
    text = " ".join(texts_of(write_files(files, tmp_path / "job")).values())
    assert "shelf" not in text.lower() and "Somebody threatens you" in text


def test_the_list_of_things_tells_how_to_care_for_each_kind_of_sensor(pages) -> None:
    text = plain(content_of(pages["things.html"]))
    for words in ("Any sensor on a door or window Shut the door or window firmly", "Any movement sensor Keep balloons", "Any shock sensor",
                  "Smoke alarm on the landing", "Any threat button We showed you where it is and how you press it.",
                  "No page and no card says where the sensors are"):
        assert words in text
    assert blocks(pages["things.html"])


def test_links_of_the_file_lead_to_what_is_in_it(pages) -> None:
    file = pages["homeowner.html"]
    anchors = {tag["id"] for tag in file.find_all(id=True)}
    links = [link["href"][1:] for link in file.find_all("a", href=re.compile("^#"))]
    assert len(links) > 40 and [link for link in links if link not in anchors] == []
