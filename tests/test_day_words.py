"""Does each step ask for what this job's unit has, for as long as its limits take, in words that cannot be taken for others?

All of it: common practice, no source.
"""
import re

import pytest

from generator.calc.results import compute
from generator.intake.job_reader import read_job
from generator.procedure.checks import checks_of_unit
from generator.procedure.messages import LADDER
from generator.procedure.step import Step
from generator.procedure.steps import procedure
from generator.tables import tools
from tests.conftest import JOBS, packs_of
from tests.test_safety import drop, kind
from tests.test_step_pages import html, words


def of(papers) -> dict[str, Step]:
    return {step.id: step for step in procedure(papers, compute(papers))}


@pytest.fixture(scope="module")
def large() -> dict[str, Step]:
    return of(read_job(JOBS / "curlew-house" / "job.yaml").papers)


@pytest.fixture(scope="module")
def pages():
    return html(JOBS / "curlew-house" / "job.yaml")


def steps(job_file, *changes) -> dict[str, Step]:
    return of(read_job(job_file(*changes)).papers)


def lines(unit: str):
    papers = read_job(JOBS / "curlew-house" / "job.yaml").papers
    return {one.what: one for one in checks_of_unit(papers, compute(papers), unit)}


def text(step: Step) -> str:
    return " ".join(step.do)


def facts(step: Step) -> dict[str, str]:
    return {fact.name: fact.value for fact in step.facts}


def test_a_sounder_that_runs_to_its_end_takes_that_long_besides_what_is_done_before(large, job_file) -> None:
    assert large["test-S1"].minutes == large["test-S2"].minutes == 10 + 15
    assert steps(job_file, lambda f: f["job"]["times"].update(sounder_min="4"))["test-S1"].minutes == 10 + 4


def test_currents_are_signed_where_the_mains_is_off_and_not_where_supplies_are_joined(large) -> None:
    assert not any("Current" in line for line in large["power-mains"].unsigned)
    assert "Current at rest of CU" in large["battery-load"].unsigned


def test_a_current_has_its_span_in_amperes_from_the_percent_of_the_profile() -> None:
    # 0.136 A and 15 percent of it: 0.1156 to 0.1564.
    assert "Within 15 % of 0.136 A: 0.116 to 0.156 A; nothing sounding." in lines("CU")["Current at rest"].accept


def test_a_contact_is_held_against_the_gap_of_what_it_watches(large) -> None:
    for door, window in (("D1", "D3"),):
        assert facts(large[f"test-{door}"])["It acts before the gap is"].startswith("100 mm")
        assert facts(large[f"test-{window}"])["It acts before the gap is"].startswith("150 mm")


def test_a_shock_sensor_is_knocked_and_hears_no_keys(large) -> None:
    found = lines("V1")
    assert "Knock" in found and not {"Furthest pane", "Everyday noise"} & set(found)
    assert not any("Keys" in name for name in facts(large["test-V1"])) and any("Keys" in name for name in facts(large["test-G1"]))


def test_a_sounder_on_cells_has_no_supply_to_take_away_and_one_inside_no_limit_of_the_outside(large) -> None:
    assert "Own supply" in lines("S1") and "Own supply" not in lines("S2")
    assert "supply away" in text(large["test-S1"]) and "supply away" not in text(large["test-S2"])
    assert "It stops within" in facts(large["test-S1"]) and "It stops within" not in facts(large["test-S2"])


def test_curtains_are_drawn_inside_only(large) -> None:
    assert "curtains" in text(large["signal-D1"]) and "curtains" not in text(large["signal-S1"])


def test_somebody_walks_outside_the_glass_only_of_a_room_that_has_some(large) -> None:
    assert "walks outside sitting room window" in text(large["test-M3"]) and "outside" not in text(large["test-M1"])


def test_the_wait_before_a_walk_and_the_test_of_stillness_say_what_each_is_for(large) -> None:
    assert "so that it is ready again" in text(large["test-M3"])
    assert facts(large["test-M3"])["Stillness, apart from the walk: nobody moves, no signal for"].startswith("2 min")


def test_householders_get_the_homeowners_pages_and_others_a_sheet_of_their_own(large, pages, job_file) -> None:
    assert "homeowner's pages." in text(large["train-1"]) and "short sheet for this user" not in text(large["train-1"])
    assert "short sheet for this user" in text(large["train-3"])
    sheets = [words(one) for one in pages["users.html"].find_all("h2")]
    assert "User 3: cleaner" in sheets and "User 1: householder" not in sheets
    assert "Does this user answer for the house?" in text(steps(job_file, lambda f: f["job"].pop("agreement", None))["train-1"])


def test_the_sheet_of_another_user_says_what_this_house_has_and_no_number_of_it(pages, job_file) -> None:
    said = words(pages["users.html"])
    assert "hold-up button" in said and "carbon monoxide: everybody out" in said and "your tag and your own code" in said
    assert not any(secret in said for secret in ("4D52", "C0F66D", "07700 900571"))
    small = words(html(job_file())["users.html"])
    assert "hold-up button" not in small and "everybody out" not in small
    assert "everybody out" in words(html(job_file(kind("smoke", "fire")))["users.html"])


def test_a_serial_is_found_on_the_slot_map(pages) -> None:
    rows = [words(one) for one in pages["slots.html"].select("table.numbers tbody tr")]
    assert any("FRONT DOOR" in row and "serial 10A3F1" in row for row in rows)
    assert sum("serial" in row for row in rows) >= 30


def test_a_rule_that_found_nothing_cannot_be_taken_for_an_alarm(pages) -> None:
    page = pages["findings.html"]
    clear = page.select_one("#clear").find_next(class_="facts").select("dd")
    assert words(page.select_one("#clear")) == "Looked for, and not found here"
    assert words(page.select_one("#clear ~ details").summary) == f"{len(clear)} rules" and not page.select_one("#clear ~ details[open]")
    assert len(clear) > 20 and all(words(one).startswith("Not found: ") for one in clear)


def test_the_start_page_of_a_pack_that_is_not_issued_says_so_above_all_else_and_what_that_means(pages) -> None:
    assert words(pages["index.html"].h1.find_next_sibling()) == "Draft: not issued."
    # What follows from that takes room, and what can hurt comes first.
    assert words(pages["index.html"].select_one("[data-next] ~ .state")).startswith("Draft: not issued. Read it, check it, ask the office. Fit nothing from it")
    assert "Look at the foot" not in words(pages["index.html"])


def test_the_foot_names_the_fingerprint() -> None:
    pack = packs_of(JOBS / "curlew-house" / "job.yaml")[0]
    assert f"Fingerprint {pack.stamp.fingerprint}" in pack.foot[0]


def test_hold_points_are_called_so_and_no_unit_is_taken_for_one(pages) -> None:
    found = [words(one) for page in pages.values() for one in page.select(".hold .word")]
    assert len(found) > 30 and all(one.startswith("Hold point H") for one in found)


def test_the_start_page_lists_what_is_open_with_who_answers(pages) -> None:
    rows = {(words(one.dt), words(one.dd)) for one in pages["index.html"].select_one("#open").find_next(class_="facts").select("dl")}
    assert any(who == "The office answers" and "which units does it touch" in what for who, what in rows)
    assert any("authority" in what for _, what in rows)


def test_no_word_stands_that_only_its_writer_knows(pages) -> None:
    every = " ".join(words(page) for page in pages.values()).lower()
    assert not [word for word in ("sign of life", "trial-place", "prover", "come to rest") if word in every]


# What people of one market only say, in words that the program itself brings along.
ONE_MARKETS = ("torch", "fuse box", "fuse board", "storey", "summer time", "loft", "half-way", "earthed", "neighbours", "programme")


def test_the_installers_words_are_those_of_no_single_market() -> None:
    spoken = {path: words(page) for path, page in html(JOBS / "heron-bungalow" / "job.yaml").items() if not path.startswith("rules/")}
    place = read_job(JOBS / "heron-bungalow" / "job.yaml").papers.job.premises.place
    found = {(path, one) for path, text in spoken.items() for one in ONE_MARKETS
             if re.search(rf"\b{one}\b", text.replace(place, ""), re.I) and path not in ("sources.html", "findings.html")}
    assert not found


def test_what_a_step_points_to_stands_where_it_says_and_words_of_the_trade_keep_their_hyphen(large) -> None:
    # The facts of a step stand above what is done.
    assert not [name for name, step in large.items() if re.search(r"(time|gap|order|place) below|below (is|write)", text(step))]
    assert facts(large["enrol-H1"])["Zone acts as"] == "hold-up" and facts(large["enrol-D1"])["Zone acts as"] == "timed entry"


def test_nothing_is_said_twice_of_an_outside_sounder(large) -> None:
    said = text(large["fix-S1"]).lower()
    assert said.count("as high as can safely be reached") == said.count("cable straight through the wall") == 1


def test_the_ladder_is_fetched_where_somebody_climbs_and_nowhere_else_and_the_kit_names_phases_as_they_are_called(large, pages) -> None:
    ladder = {name for name, step in large.items() if "ladder with tie and stabiliser" in step.tools}
    assert {"signal-S1", "fix-S1", "join-S1", "lid-S1"} <= ladder and not {"test-S1", "test-S2", "tampers"} & ladder
    # Wherever its danger stands, it is fetched.
    assert ladder >= {name for name, step in large.items() if LADDER in step.messages} and not {"cable-entry", "refit"} & ladder
    row = next(words(one) for one in pages["kit.html"].select("ul.pick li") if "pen and paper" in words(one))
    assert row.endswith("for “Arrive” and “Hand over and leave”")


def test_what_is_told_to_be_used_is_picked_and_who_must_be_there_for_the_mains_is_told_with_the_steps(large, pages, job_file) -> None:
    picked = [words(one) for one in pages["kit.html"].select("ul.pick li")]
    for what in ("test checklist, printed", "spacer set", "licensed electrician"):
        assert any(what in one for one in picked), what
    who = tools.ELECTRICIAN[0]
    needed = [name for name, step in large.items() if who in step.tools]
    assert needed == ["isolate", "power-mains", "power-R1", "off-S1", "on-S1", "test-R1"]
    at = [list(large).index(name) + 1 for name in needed]
    said = next(words(one) for one in pages["index.html"].select(".needs") if "electrician" in words(one))
    assert [int(one) for one in re.findall(r"step (\d+)", said)] == at and said.startswith("Must be there for the mains:")


def test_the_height_of_the_control_unit_stands_in_the_step_that_fixes_it_only_where_it_is_known(large, job_file) -> None:
    assert facts(large["fix-CU"])["Height of its middle"] == "1.5 m"
    assert "Height of its middle" not in facts(steps(job_file, lambda f: f["job"]["control_unit"].pop("height_m", None))["fix-CU"])


def test_the_words_are_those_of_the_trade(pages) -> None:
    for path, page in pages.items():
        assert not re.search("way to ground|signs? of life|goes on air", words(page)), path
    assert "earth (ground) continuity proved" in words(pages["steps/power.html"])


def test_hours_that_nobody_waits_for_say_who_reads_them_when_and_what_stands_until_then(large, pages) -> None:
    for what in ("Standby", "Recharge"):
        accept = lines("CU")[what].accept
        assert "the company reads it on a later visit" in accept and "Until then its result is “could not test”" in accept
        assert accept.endswith("the certificate says: worked out, not tested.")
    assert "Standby and Recharge: not waited for on the day" in text(large["battery-load"])
    # Their lines are led to from there and no longer from the ten minutes in which the battery is joined.
    assert {"Standby of CU", "Recharge of CU"} <= set(large["battery-load"].unsigned) and "Battery of CU" in large["power-battery"].unsigned


def test_the_office_has_its_telephone_beside_the_fingerprint_that_is_compared_with_it(large) -> None:
    assert "with the office: Saltmarsh Alarm Fitting, 01632 960310" in text(large["read-pack"])


def test_what_is_powered_is_not_switched_on_again_and_a_reader_is_called_by_the_list_it_stands_in(large) -> None:
    assert "is on already" in text(large["enrol-R1"]) and "then switch" not in text(large["enrol-R1"])
    number = next(fact.name for fact in large["enrol-K2"].facts if fact.name.startswith("Keypad "))
    assert f"for {number.lower()} (readers stand in the list of keypads)" in text(large["enrol-K2"])


def test_no_key_of_a_file_stands_where_the_installer_reads_what_to_do(pages) -> None:
    for path in ("index.html", "findings.html", "radio.html", "dates.html"):
        said = words(pages[path])
        assert "write via:" not in said and "authority_changed" not in said and "replace_by" not in said, path
    assert "write “heard through”" not in words(pages["findings.html"]) and "check its link through R1 and tell the office" in words(pages["findings.html"])
    assert "check its link through R1 and tell the office" in words(pages["steps/listen.html"]) and "write via" not in words(pages["steps/listen.html"])
    assert any("write “heard through”: R1" in words(page) for path, page in pages.items() if path.startswith("rules/"))
