"""Does each step ask for what this job's unit has, for as long as its limits take, in words that cannot be taken for others?

All of it: common practice, no source.
"""
import pytest

from generator.calc.results import compute
from generator.intake.job_reader import read_job
from generator.procedure.checks import checks_of_unit
from generator.procedure.step import Step
from generator.procedure.steps import procedure
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


@pytest.mark.parametrize("report, least", [("10", 30), ("45", 45)])
def test_the_mains_stays_off_for_its_test_and_until_its_failure_is_reported(job_file, report, least) -> None:
    step = steps(job_file, lambda f: f["job"]["times"].update(mains_report_min=report))["mains-fail"]
    assert step.minutes >= least and step.minutes < least + 20
    assert "before the station has read the report" in text(step) and facts(step)["Reported after"] == f"{report} min"


def test_nobody_waits_for_a_report_where_no_station_gets_one(job_file) -> None:
    step = steps(job_file, drop("monitoring"), lambda f: f["job"]["times"].update(mains_report_min="90"))["mains-fail"]
    assert "station" not in text(step) and step.minutes < 90


def test_what_takes_longer_than_its_step_is_started_now_and_read_later(large) -> None:
    assert all("Start now, read later" in text(large[name]) for name in ("supervision", "path-first"))
    assert "Start now" not in text(large["path-second"])


def test_a_sounder_that_runs_to_its_end_takes_at_least_that_long(large, job_file) -> None:
    assert large["test-S1"].minutes == large["test-S2"].minutes == 15
    assert steps(job_file, lambda f: f["job"]["times"].update(sounder_min="4"))["test-S1"].minutes == 10


def test_currents_are_signed_where_the_mains_is_off_and_not_where_loads_are_joined(large) -> None:
    assert not any("Current" in line for line in large["power-loads"].unsigned)
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
    assert len(clear) > 20 and all(words(one).startswith("Not found: ") for one in clear)


def test_the_foot_names_the_fingerprint_and_the_start_page_sends_the_reader_there_first(pages) -> None:
    assert words(pages["index.html"].select_one(".state")).startswith("Look at the foot of this page first.")
    pack = packs_of(JOBS / "curlew-house" / "job.yaml")[0]
    assert f"Fingerprint {pack.stamp.fingerprint}" in pack.foot[0]
    assert "fit nothing from it" in words(pages["index.html"].select_one(".state"))


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
