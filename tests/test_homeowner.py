"""Does the homeowner's pack hold all that people of the house need, and nothing that helps anybody to get round the alarm?

What must stand there and what never: common practice, no source, but for what is named beside a check.
"""
import copy
import re
from pathlib import Path

import pytest
from bs4 import BeautifulSoup, Comment

from generator.intake.job_reader import read_job
from generator.model.papers import Papers
from generator.pipeline import compile_job
from generator.publish.pack import write_pack
from tests.conftest import JOBS, packs_of, read_files, write_files
from tests.homeowner_text import content_of, on_paper, pages_of, plain

LARGE = JOBS / "curlew-house" / "job.yaml"
ENTRY = "30 seconds"


@pytest.fixture(scope="module")
def large(tmp_path_factory) -> Path:
    return write_pack(compile_job(LARGE), tmp_path_factory.mktemp("large"))


@pytest.fixture(scope="module")
def pages(large) -> dict[str, BeautifulSoup]:
    return pages_of(large)


@pytest.fixture(scope="module")
def papers() -> Papers:
    return read_job(LARGE).papers


def texts_of(path: Path) -> dict[str, str]:
    """The text of every page of the homeowner of a job, without building it."""
    from generator.publish.render import environment, render, translations

    pack = next(one for one in packs_of(path) if one.audience == "homeowner")
    return {page.path: plain(BeautifulSoup(render(page, environment(translations())).html, "html5lib").body) for page in pack.pages}


# --- what must be there -------------------------------------------------------------------------------------

MUST = {
    "1 company, both numbers, the customer's reference": (
        "index.html", ("Call Saltmarsh Alarm Fitting.", "By day: 01632 960310", "At night and at weekends: 01632 960311",
                       "Tell us this reference: K-2050. We do not need your address.", "Tell 999 your address.")),
    "2 setting and unsetting, the time to get out": (
        "setting.html", ("When you go out: set the alarm", "When you come home: unset the alarm", "You have 45 seconds to get out.",
                         "The alarm is set soon after the door is closed.", "the alarm is unset")),
    "2 the time to get in, on a screen": ("setting.html", ("You have 30 seconds to turn the alarm off.",)),
    "2 part set by its name, and when": ("setting.html", ("When you stay in: Night", "Use it when everybody is in bed.",
                                                          "Choose Night with your own code, as we showed you. Then the alarm is part-set.")),
    "2 what each sound means, with its light": (
        "sounds.html", ("You hear slow beeps that grow quick at the end. You see this: the set light blinks.",
                        "You hear nothing. You see this: the supply light goes out.", "No light shows.",
                        "The sounder outside stops by itself after 15 minutes.")),
    "3 what to do when": (
        "when.html", ("The alarm sounds and you are at home", "The alarm sounds and you are away", "You set it off by mistake",
                      "the word that you agreed with them", "The alarm beeps at night", "There is a power cut", "for some hours",
                      "You get new internet or a new telephone line", "The alarm says that a battery is weak", "Somebody moved a door")),
    "4 emergency first": ("index.html", ("In danger? Call 999. In a fire, get out first. The alarm is not the emergency service.",)),
    "5 who is called, by role": ("help.html", ("The monitoring station calls you.", "your first keyholder is called, and then the next",
                                               "Tell us at once when a keyholder or a telephone number changes.")),
    "6 tests and service": (
        "care.html", ("Call Lantern Watch first on 01632 960455, and say that you want to test your alarm.",
                      "The first one is due in April 2027, and after that there is one every 6 months.",
                      "Press the test button of each smoke alarm", "If your local firefighters want tests more often, do them in the same way.")),
    "7 false alarms": ("care.html", ("An animal can set off a movement sensor", "moving curtains", "balloons", "A loose door or window",
                                     "a storm", "Whoever gets a key from you needs a code of their own")),
    "8 what it does not cover": (
        "papers.html", ("It does not watch every part of the house. Ask us which parts are left out.",)),
    # Two hours: product-safety guidance on button cells, read second-hand.
    "9 batteries and children": ("care.html", ("A child who swallows a battery can die, because it burns the throat within two hours.",
                                               "we are the ones who change them", "go to hospital at once or call 999")),
    "10 moving, people, building work, pets, decorating": (
        "moving.html", ("building work, decorating or new curtains", "a new pet", "You move out", "You moved in and the alarm was here",
                        "somebody new moves in")),
    "11 insurance": ("papers.html", ("set it whenever you go out, and have it serviced on time", "Tell your insurer when")),
    "12 permit, its state and date": ("papers.html", ("Your police reference number",
                                                      "For break-ins, given by police of the county on 28 September 2026.")),
    "12 from when the police come": ("papers.html", ("Until 27 October 2026, only you and your keyholders are called",
                                                     "From 28 October 2026, the police may be called too.")),
    "13 what is kept, for how long, whom to ask": (
        "papers.html", ("Names and numbers of keyholders: until you change them and 30 days after", "ask for the office manager")),
    "codes: one each, children, carers": ("people.html", ("Each person has a code of their own, and nobody should share one.",
                                                          "Do not choose a birth year", "on the day on which they stop coming",
                                                          "a fire sound means to get out at once")),
    "codes: the danger first, then the change": (
        "people.html", ("talk to a helpline or to the police before you change anything",)),
    "codes: help without being noticed, in person only": ("people.html", ("Ask us about it in person, because we do not write about it.",)),
}


@pytest.mark.parametrize("item", MUST)
def test_what_people_of_the_house_need_stands_on_its_page_and_in_the_file_that_is_sent(pages, item) -> None:
    path, wanted = MUST[item]
    for name in (path, "homeowner.html"):
        text = plain(content_of(pages[name]))
        assert [one for one in wanted if one not in text] == [], name


def test_danger_stands_before_all_else_where_somebody_may_be_in_danger(pages) -> None:
    for path in ("index.html", "when.html", "help.html", "sheet.html"):
        text = plain(content_of(pages[path]))
        first = text.index("999")
        assert first < 200 and first < text.index("Saltmarsh"), path


@pytest.mark.parametrize("words, count", [("When you go out", 5), ("When you come home", 5), ("When you stay in", 4)])
def test_setting_and_unsetting_take_five_steps_and_a_part_set_four(pages, words: str, count: int) -> None:
    heading = pages["setting.html"].find(lambda tag: tag.name == "h2" and tag.get_text().startswith(words))
    assert len(heading.find_next("ol").find_all("li")) == count


@pytest.mark.parametrize("completes, says", [
    ("exit-time", "When the time is over, the alarm is set."), ("final-door", "The alarm is set soon after the door is closed."),
    ("button", "press the button outside"), ("tag", "hold your tag to the reader, and the alarm is set"), ("lock", "lock it with the key"),
    (None, "wait until you know that the alarm is set"),
])
def test_the_last_step_is_what_completes_setting(job_file, completes, says: str) -> None:
    path = job_file(lambda f: f["job"]["times"].update(completes_by=completes) if completes else None)
    text = texts_of(path)["setting.html"]
    assert says in text and text.count("Shut the door") == 1


@pytest.mark.parametrize("kinds, says", [
    (("keypad", "fob"), "Go to the keypad in the hall and set the alarm with your own code. Or press your fob to set it."),
    (("keypad",), "set the alarm with your own code. Leave"), (("fob",), "Press your fob to set it. Leave"),
    ((), "Do it the way that we showed you. Leave"),
])
def test_only_the_ways_that_the_house_has_are_told(job_file, kinds, says: str) -> None:
    def keep(files) -> None:
        for name, kind in (("K1", "keypad"), ("F1", "fob")):
            if kind not in kinds:
                del files["job"]["devices"][name]
        if "fob" not in kinds:
            del files["job"]["users"]["1"]["fob"]
    assert says in texts_of(job_file(keep))["setting.html"]


def test_the_markets_own_words_stand_everywhere_and_no_other_markets(tmp_path) -> None:
    ours, theirs = (" ".join(texts_of(JOBS / name / "job.yaml").values()) for name in ("curlew-house", "heron-bungalow"))
    assert re.findall(r"\b(?:dis)?arm(?:ed)?\b", ours) == [] and re.findall(r"\b(?:unset|part-set)\b", theirs) == []
    assert "How to arm and disarm the alarm" in theirs and "the alarm is armed in stay mode" in theirs and "call 911" in theirs


def test_a_house_hears_only_of_what_it_has(job_file) -> None:
    small = " ".join(texts_of(job_file()).values())
    for words in ("The carbon monoxide alarm sounds", "threat button", "glass sensor", "shock sensor", "Hold your tag", "test buttons", "that there is water"):
        assert words not in small
    assert "It does not notice a fire, so you need smoke alarms too." in small


def test_a_unit_whose_sheet_says_no_sound_leaves_general_words(job_file) -> None:
    def silent(files) -> None:
        for sheet in files["equipment"].values():
            sheet.pop("signals", None)
    text = texts_of(job_file(silent))["sounds.html"]
    assert "Most alarms beep, and the beeps may grow quick near the end." in text and "You hear" not in text


def test_what_is_not_known_is_asked_for_and_never_guessed(job_file) -> None:
    def unknown(files) -> None:
        files["job"].pop("agreement")
        files["company"].pop("keeps", None)
    pages = texts_of(job_file(unknown))
    assert "Ask us from which day the police may be called too." in pages["papers.html"]
    assert "Once a year is usual, so please ask us for the month." in pages["care.html"]
    assert "ask for the office manager" in pages["papers.html"] and "Here is what we keep" not in pages["papers.html"]
    assert "We have none on paper for this house" in pages["papers.html"]


def test_a_permit_says_its_last_day_and_one_without_a_day_says_that_there_is_none(job_file) -> None:
    permits = {"a": {"covers": "all", "by": "city of Marshport", "number": "MP-77", "since": "2026-09-14", "valid_to": "2027-09-30"},
               "b": {"covers": "hold-up", "by": "county of Marsh"}}
    text = texts_of(job_file(lambda f: f["job"]["monitoring"].update(permits=permits)))["papers.html"]
    assert "For every alarm, given by city of Marshport on 14 September 2026. Its last day is 30 September 2027." in text
    assert "For the threat button, by county of Marsh. We do not have its first day yet, so please ask us." in text
    assert "We have no last day for it on paper." in text and "MP-77" not in text


@pytest.mark.parametrize("days, says", [("0", "The police may be called from the first day."),
                                        ("7", "From 22 September 2026, the police may be called too.")])
def test_the_police_are_promised_from_the_day_after_the_settling_in_days(job_file, days: str, says: str) -> None:
    """In use on the 14th, seven days with keyholders only: the 21st is the last of them, as a period in days leaves out its first
    (Regulation (EEC, Euratom) No 1182/71, article 3; from memory)."""
    assert says in texts_of(job_file(lambda f: f["job"]["monitoring"].update(soak_days=days)))["papers.html"]


def test_the_service_is_told_by_its_month_only(pages) -> None:
    text = plain(content_of(pages["care.html"]))
    assert "April 2027" in text and "20 April" not in text and "13 April" not in text


def test_dates_have_their_month_in_full(pages) -> None:
    for path, page in pages.items():
        text = plain(content_of(page)) if path != "homeowner.html" else " ".join(plain(one) for one in page.find_all("section"))
        assert re.findall(r"\d{4}-\d\d-\d\d|\d+/\d+/\d+|\d (?:Jan|Feb|Mar|Apr|Jun|Jul|Aug|Sep|Oct|Nov|Dec) ", text) == [], path


@pytest.mark.parametrize("seconds, there", [("60", True), (None, False)])
def test_the_time_in_which_a_call_can_be_stopped_is_told_on_a_screen_and_never_on_paper(job_file, tmp_path, seconds, there: bool) -> None:
    path = job_file(lambda f: f["job"]["times"].update(abort_s=seconds) if seconds else None)
    for name, page in pages_of(write_pack(compile_job(path), tmp_path / "out")).items():
        text = plain(content_of(page))
        assert ("nobody is called" in text) == (there and name in ("when.html", "homeowner.html"))
        assert "nobody is called" not in on_paper(page)


# --- what must not be there ---------------------------------------------------------------------------------

def uncovered(papers: Papers) -> list[str]:
    """The names of doors and windows to the open air that no unit watches."""
    watched = {device.protects for device in papers.job.devices.values()}
    return [opening.name or key.replace("-", " ") for key, (_, opening) in papers.openings().items()
            if key not in watched and "outside" in opening.wall]


def never(papers: Papers) -> dict[str, list[str]]:
    """What must never be found, by the reason, as patterns that look at whole words."""
    job, agreed, people = papers.job, papers.job.monitoring, papers.people
    exact = lambda values: [rf"(?<!\w){re.escape(str(one))}(?!\w)" for one in values if one]  # noqa: E731
    persons = [people.customer, *people.keyholders.values()]
    return {
        "codes and passwords": [r"\bduress\b", r"\bdefault\b", r"\bpasswords?\b", r"\bmaster\b", r"\binstaller\b", r"\bcode(?: is|:) ?\d"],
        "what lets a caller pose as station or customer": exact(
            [agreed.account, agreed.category_given, *(one.number for one in agreed.permits.values()), agreed.test_at]) + [r"\bSIM\b"],
        "what tells an attacker what to block": [
            r"\bdBm?\b", r"\bMHz\b", r"\bmargin\b", r"\brepeaters?\b", r"\binterference\b", r"\bsignal (?:level|strength)", r"\bweakest\b"],
        "a map for avoiding it": exact([*uncovered(papers), *(one.what for one in job.agreement.left_out)])
        + [r"\d ?(?:m|mm|cm)\b", r"\d ?°", r"\bnot watched\b", r"\bangle\b", r"\bsleep(?:s|ing)? for\b"],
        "what matches to known weaknesses": exact(
            [job.control_unit.serial, *(one.serial for one in job.devices.values()), *(sheet.name for sheet in papers.sheet_of.values())])
        + [r"\bTern\b", r"\bfirmware\b", r"\bserial\b", r"\bbatch\b"],
        "rooms that are left out in a part set": [r"(?i)night[^.]*\b(?:hall|landing)\b[^.]*\boff\b", r"\bleft out in\b"],
        "people": exact([text for one in persons for text in (one.name, one.telephone, *one.name.split())]
                        + [one for one in people.customer.address if one != job.title]) + [r"\bfirst half of August\b", r"\bhard of hearing\b"],
        "the other packs": exact([job.publish.installer, job.publish.station, job.publish.record]) + [r"sourceMappingURL", r"\.map\b"],
        "the trade's numbers": [r"(?i)\bzones?\b", r"(?i)\bslots?\b", r"\b(?:CU|K1|D1?\d|M\d|SM\d|HT1|TG\d)\b"]
        + exact(text for one in job.devices.values() for text in (one.text, one.text_2)),
    }


def found(patterns: list[str], text: str) -> list[str]:
    return [pattern for pattern in patterns if re.search(pattern, text)]


def everything(page: BeautifulSoup) -> str:
    """All that a page says in its content: text, attributes and comments."""
    parts = content_of(page)
    attributes = [" ".join(value) if isinstance(value, list) else str(value) for tag in parts.find_all(True)
                  for name, value in tag.attrs.items() if name not in ("d", "viewbox", "viewBox", "class", "id")]
    comments = page.find_all(string=lambda text: isinstance(text, Comment))
    return " ".join([plain(parts), *attributes, *comments])


REASONS = ("codes and passwords", "what lets a caller pose as station or customer", "what tells an attacker what to block",
           "a map for avoiding it", "what matches to known weaknesses", "rooms that are left out in a part set", "people", "the other packs",
           "the trade's numbers")
PLANTED = ("Your duress code", "Ask for account 4D52", "The margin is 9 dB", "main bedroom window", "Serial 10A3F1",
           "At night the sensors of hall and landing are off", "Call Nkechi", "uctqv2wbgjkaevfie3a7x5osvl", "Zone 4")


@pytest.mark.parametrize("reason", REASONS)
def test_nothing_that_helps_to_get_round_the_alarm_is_in_the_large_jobs_pages(pages, papers, reason: str) -> None:
    patterns = never(papers)[reason]
    assert len(pages) > 40 and patterns
    assert {path: hits for path, page in pages.items() if (hits := found(patterns, everything(page)))} == {}


@pytest.mark.parametrize("reason, planted", list(zip(REASONS, PLANTED)))
def test_what_helps_to_get_round_the_alarm_would_be_found(papers, reason: str, planted: str) -> None:
    page = BeautifulSoup(f"<main><p title='{planted}'>.</p></main>", "html5lib")
    assert found(never(papers)[reason], everything(page)) and not found(never(papers)[reason], "Shut the door.")
    assert set(REASONS) == set(never(papers))


def test_no_page_holds_a_picture_of_the_house_a_script_or_a_comment(pages) -> None:
    for path, page in pages.items():
        assert content_of(page).find_all(["img", "picture", "canvas", "video", "object", "iframe", "script"]) == [], path
        assert page.find_all("script") == [] and page.find_all(string=lambda text: isinstance(text, Comment)) == [], path
        assert all("qr" in svg["class"] for svg in content_of(page).find_all("svg")), path


def test_the_time_to_turn_it_off_is_on_a_screen_and_never_on_paper(pages) -> None:
    shown = [path for path, page in pages.items() if ENTRY in plain(content_of(page))]
    assert shown == ["setting.html", "homeowner.html"]
    assert [path for path, page in pages.items() if ENTRY in on_paper(page)] == []
    assert "45 seconds" in on_paper(pages["setting.html"])


def test_the_sheet_to_print_holds_no_time_to_turn_it_off_at_all(large) -> None:
    assert "30" not in plain(content_of(pages_of(large)["sheet.html"])).replace("K-2050", "").replace("960310", "")


def test_a_time_that_is_printed_is_seen() -> None:
    page = BeautifulSoup("<main><p>You have <span class='unprinted'>30 seconds</span> 30 seconds</p></main>", "html5lib")
    assert ENTRY in on_paper(page)


def test_other_numbers_and_units_change_only_their_own_words(tmp_path) -> None:
    """The pages of the demo are of this job, not of the template: another job says its own."""
    files = copy.deepcopy(read_files())
    files["company"]["telephone"] = "01632 960999"
    files["job"]["times"].update(entry_s="25", exit_s="50", sounder_min="12")
    text = texts_of(write_files(files, tmp_path / "job"))
    assert "25 seconds" in text["setting.html"] and "50 seconds" in text["setting.html"] and "12 minutes" in text["sounds.html"]
    assert "01632 960999" in text["index.html"] and "960310" not in " ".join(text.values())
