"""Do pages say where a value comes from in words that an installer reads, and leave keys to whoever edits the files?"""
import re

import pytest

from generator.model.visibility import TABLE
from generator.pages.origins import keys_in_words, on_site, origin_in_words, place_in_words
from tests.conftest import JOBS
from tests.test_step_pages import html, words

KEY = re.compile(r"\b(?:job|people|company)\.[a-z_]+\b(?!\.(?:yaml|html))")
UNFIT = re.compile(r"[_*.]|(?:^|, )(?:, |$)")


@pytest.mark.parametrize("origin, shown", [
    ("job.devices.G1.at_m", "job file, device G1, place"),
    ("job.times.entry_s", "job file, times, entry"),
    ("job.survey.assumptions.building-work.found", "job file, survey, assumption building-work, found"),
    ("job.premises.storeys.ground.rooms.hall.cooking", "job file, floor ground, room hall, cooking"),
    ("job.accepted.0.at", "job file, acceptance 1, at"),
    ("people.keyholders.-.lives_here", "people's file, keyholders, lives here"),
    ("job.devices.M4.at_m, the written path", "job file, device M4, place, the written path"),
    ("sheet tern-dc: radio.message_ms", "equipment sheet tern-dc, radio, message"),
    ("EN 50131-1, 2006 (read)", "EN 50131-1, 2006 (read)"), ("the plan", "the plan"),
])
def test_an_origin_is_told_in_words_and_what_is_no_field_stays_as_it_is(origin, shown) -> None:
    assert origin_in_words(origin) == shown


def test_the_place_of_a_finding_names_the_file_and_what_is_no_field_stands_alone() -> None:
    assert place_in_words("job.devices.G1.at_m") == "In the job file: device G1, place"
    assert place_in_words("people.contacts.1.has_key") == "In the people's file: contact 2, has key"
    assert (place_in_words(""), place_in_words("slot map")) == ("", "Slot map")


@pytest.mark.parametrize("field", [one for one in TABLE if one.startswith("job.")])
def test_every_field_of_a_job_has_words_without_a_key_in_them(field: str) -> None:
    said = origin_in_words(field.replace(".*", ".0"))
    assert said.startswith("job file, ") and not UNFIT.search(said.removeprefix("job file, ")), said


def test_no_page_of_the_installer_shows_the_key_of_a_file_as_where_a_value_stands() -> None:
    for path, page in html(JOBS / "curlew-house" / "job.yaml").items():
        shown = [words(one) for one in page.select(".at, .facts dd, .origin, .source")]
        assert not [one for one in shown if KEY.search(one)], path


def test_who_stands_on_site_is_told_what_to_do_there_and_no_key_to_write() -> None:
    for text, shown in (
            ("Let it be heard through R1, with 9 dB: write via: R1; or move it by 1.98 m: by the stairs.",
             "Let it be heard through R1, with 9 dB (on site: check its link through R1 and tell the office, which plans it so); or move it by 1.98 m: by the stairs."),
            ("Write confirms: true at D6, or leave it so.", "Ask the office whether D6 is to confirm, or leave it so."),
            ("Change it, and write authority_changed: true with changed_on: and changed_by:; no file", "Change it, and tell the office who did it and when; no file"),
            ("Say so: ask.", "Say so: ask.")):
        assert on_site(text) == shown


@pytest.mark.parametrize("text, shown", [
    ("Let it be heard through R1: write via: R1.", "Let it be heard through R1: write “heard through”: R1."),
    ("write authority_changed: true with changed_on: and changed_by:; no file", "write “authority changed”: yes with “changed on”: and “changed by”:; no file"),
    ("Say so: ask.", "Say so: ask."),
])
def test_keys_to_write_stand_in_words_on_pages(text, shown) -> None:
    assert keys_in_words(text) == shown
