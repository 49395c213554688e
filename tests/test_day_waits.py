"""Is what takes time started, read and ended where nothing else needs it, typed in the unit of its limit, and safe to do meanwhile?

The waits and their order: common practice, no source. The limits: those of the demo's profile, with their own sources there.
"""
import re

import pytest

from generator.calc.results import compute
from generator.intake.job_reader import read_job
from generator.procedure.checks import checks_of_unit, system_checks
from generator.procedure.messages import LIVE
from generator.procedure.step import Step, Wait
from generator.procedure.steps import procedure
from generator.procedure.waits import with_waits
from tests.conftest import JOBS
from tests.test_day_words import facts, lines, of, steps, text
from tests.test_safety import drop


@pytest.fixture(scope="module")
def large() -> dict[str, Step]:
    return of(read_job(JOBS / "curlew-house" / "job.yaml").papers)


def both(job_file):
    papers = read_job(job_file()).papers
    return papers, compute(papers)


@pytest.mark.parametrize("report, least", [("10", 30), ("30", 35), ("45", 50)])
def test_the_mains_stays_off_for_its_test_and_until_its_failure_is_reported(job_file, report, least) -> None:
    found = steps(job_file, lambda f: f["job"]["times"].update(mains_report_min=report))
    step = found["mains-fail"]
    # It goes on through the step after it, which is no shorter than that; nobody waits for it twice.
    assert found["battery-load"].minutes == least and step.minutes == 5
    # The report needs some time after its own: 5 min in the profile (common practice, no source).
    assert facts(step)["Mains stays off for, at least"] == f"{least} min"
    assert {one.what: one.least for one in checks_of_unit(*both(job_file), "CU")}["Mains fail"] == least
    assert facts(step)["Come back to it"] == f"{least} min after the mains went off, in the step “Load the battery”."
    assert f"was off for {least} min in all" in text(found["battery-load"])
    assert "before the station has read the report" in text(step) and facts(step)["Reported after"] == f"{report} min"


def test_nobody_waits_for_a_report_where_no_station_gets_one(job_file) -> None:
    step = steps(job_file, drop("monitoring"), lambda f: f["job"]["times"].update(mains_report_min="90"))["mains-fail"]
    assert "station" not in text(step) and step.minutes < 90 and facts(step)["Come back to it"].startswith("30 min")
    assert "Reported after" not in facts(step)


def test_when_the_loss_of_mains_is_reported_is_asked_where_the_job_does_not_say(job_file) -> None:
    step = steps(job_file, lambda f: f["job"]["times"].pop("mains_report_min", None))["mains-fail"]
    assert facts(step)["Reported after"].startswith("not known: the job file does not say")


def test_what_takes_longer_than_its_step_is_started_now_and_read_later(large) -> None:
    assert all("Start now, read later" in text(large[name]) for name in ("supervision", "path-first"))
    assert "Start now" not in text(large["path-second"])


def test_what_goes_on_meanwhile_says_in_minutes_when_to_come_back_and_before_which_step(large, job_file) -> None:
    # The demo's profile: a silent unit is shown within 120 min; its router carries on for 12 h.
    names, said = list(large), facts(large["supervision"])["Come back to it"]
    meanwhile = sum(large[name].minutes for name in names[names.index("supervision") + 1:names.index("heard-again")])
    left = re.search(r"^In the step “Read the lost unit, and put it back”, at most 2 h after the time you wrote down\. By usual times (\d+) min are left", said)
    assert int(left[1]) == 120 - meanwhile > 0
    assert facts(large["path-first"])["Come back to it"].startswith("12 h after the time you wrote down. What is left to do takes less")


def test_a_unit_that_is_lost_on_purpose_is_heard_again_before_any_step_that_needs_it_or_sets_the_system(large) -> None:
    names = list(large)
    lost = re.search(r"^(\w+) and (\w+) cannot be heard", facts(large["supervision"])["Left open"]).groups()
    between = names[names.index("supervision") + 1:names.index("heard-again")]
    assert lost == ("D1", "D11") and len(between) > 6
    assert not {large[name].unit for name in between} & {*lost, "R1"} and not any(re.search(r"\b[Ss]et\b", text(large[name])) for name in between)
    # Whatever is set, or carried by the repeater, is tried outside of it.
    assert all(names.index(one) > names.index("heard-again") for one in ("test-F1", "confirmation", "full-set"))
    assert names.index("test-R1") < names.index("supervision") and "Supervision" in large["heard-again"].unsigned
    assert "do not leave the site before" in facts(large["supervision"])["Left open"]


def test_a_supply_that_is_taken_away_inside_the_live_control_unit_has_its_danger_and_its_hold_point(large, job_file) -> None:
    # The outside sounder of the demo is fed by wire from a control unit on mains.
    step = large["test-S1"]
    assert LIVE in step.messages and step.hold.id == "H7" and step.hold.before and "cover of the mains terminals on" in text(step)
    assert LIVE not in large["test-S2"].messages and large["test-S2"].hold is None
    cell = steps(job_file, kind_of_power("tern-sx", "cell"))["test-S1"]
    assert LIVE not in cell.messages and cell.hold is None


def kind_of_power(sheet: str, power: str):
    return lambda files: files["equipment"][sheet]["power"].update(kind=power)


def test_each_duration_is_typed_in_the_unit_of_its_limit_and_held_against_it() -> None:
    papers = read_job(JOBS / "curlew-house" / "job.yaml").papers
    system = {one.what: one for one in system_checks(papers, compute(papers))}
    # The demo: 12 h agreed for the router; category DP2 of EN 50136-1, 30 min for the first path (from memory).
    assert (system["Router of first"].measured, system["Router of first"].least) == ("h", 12)
    lost = system["Loss of first"]
    number, unit = re.search(r"within (\d+) (\w+)", lost.accept).groups()
    assert (lost.measured, lost.most) == (unit, float(number))
    assert "Write how long they did, in hours" in system["Router of first"].accept


def test_what_no_limit_is_known_for_says_so(job_file) -> None:
    papers = read_job(job_file(lambda f: f["job"]["monitoring"].update(category_given=None, category_asked=None))).papers
    lost = [one for one in system_checks(papers, compute(papers)) if one.what.startswith("Loss of ")]
    assert lost and all("no limit stands here" in one.accept and one.most is None for one in lost)


def test_drift_is_what_is_read_now_and_says_how_it_is_subtracted() -> None:
    drift = lines("M1")["Drift"]
    assert drift.measured == "dB now" and "the reading before drilling less this one: 6 dB at most" in drift.accept


def test_the_step_at_which_one_comes_back_is_the_first_that_begins_after_the_wait() -> None:
    def step(name: str, minutes: float, wait: Wait | None = None) -> Step:
        return Step(name, "test", name.upper(), ("do it",), minutes=minutes, wait=wait)
    later = (step("b", 10), step("c", 5), step("d", 20))
    assert facts(with_waits((step("a", 5, Wait(15)), *later))[0])["Come back to it"].endswith("before the step “D”.")
    assert facts(with_waits((step("a", 5, Wait(16)), *later))[0])["Come back to it"].endswith("the time that you did wait.")
    night = with_waits((step("a", 5, Wait(16)), step("b", 10), step("night-1", 10), step("d", 20)))[0]
    assert "the night comes first, about 10 min from here" in facts(night)["Come back to it"]
    assert facts(with_waits((step("a", 5, Wait(None, "nobody says.")), *later))[0])["Come back to it"] == "Not known when: nobody says."


def test_a_market_without_a_time_of_supervision_says_what_lacks_and_how_often_the_unit_sends() -> None:
    found = facts(of(read_job(JOBS / "heron-bungalow" / "job.yaml").papers)["supervision"])
    assert found["Come back to it"].partition("”. ")[2].startswith("Not known when: the profile has no limit (supervision_min).")
    assert "; sends every " in found["Heard by CU"]
