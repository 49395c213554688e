"""Does the checklist ask exactly what this job's units and functions need, each line with its limit and whose that is?

What is tested for each kind of unit: common practice, no source; limits: as their profile names them.
"""
import copy

import pytest

from generator.calc.results import compute
from generator.intake.job_reader import read_job
from generator.model.equipment import CLASSES
from generator.procedure.check import NO_LIMIT
from generator.procedure.checks import BY_KIND, RESULTS, Check, checks_of_unit, system_checks
from generator.procedure.steps import procedure
from generator.terms.source import Known
from tests.conftest import JOBS
from tests.test_safety import drop, job, kind, nothing


def of(papers) -> dict[str, dict[str, Check]]:
    """The lines of every unit and of the system, by what they test."""
    results = compute(papers)
    return {**{unit: {one.what: one for one in checks_of_unit(papers, results, unit)} for unit in papers.sheet_of},
            "": {one.what: one for one in system_checks(papers, results)}}


def checks(job_file, *changes) -> dict[str, dict[str, Check]]:
    return of(read_job(job_file(*changes)).papers)


@pytest.fixture(scope="module")
def large() -> dict[str, dict[str, Check]]:
    return of(read_job(JOBS / "curlew-house" / "job.yaml").papers)


def test_every_kind_of_unit_has_tests_of_its_own() -> None:
    assert set(BY_KIND) == set(CLASSES) - {"control-unit"}


def test_a_line_has_one_name_and_no_blank_and_says_whose_its_limit_is(large) -> None:
    papers = read_job(JOBS / "curlew-house" / "job.yaml").papers
    every = [one for unit in papers.sheet_of for one in checks_of_unit(papers, compute(papers), unit)]
    every += system_checks(papers, compute(papers))
    assert len({one.id for one in every}) == len(every) > 500
    assert all(one.accept.endswith(".") and "{" not in one.accept and one.source for one in every)


def test_a_blank_is_not_among_the_results() -> None:
    assert RESULTS == ("pass", "fail", "could not test", "not applicable") and "" not in RESULTS


# Numbers of the profile European grade 2 as the demo of the United Kingdom extends it: each is cited in the profile's own file.
@pytest.mark.parametrize("unit, what, says, source", [
    ("D1", "Opening", "before the gap is 100 mm wide", "from memory"),
    ("D3", "Opening", "before the gap is 150 mm wide", "read second-hand"),
    ("D4", "Gap", "no further apart than 50 % of the gap on its plate", "common practice"),
    ("D4", "Second input", "terminal for a wired contact shows zone 12 DINING R LEAF and no other", "common practice"),
    ("D4", "Opening of the second input", "before the gap is 50 mm wide", "common practice"),
    ("D11", "Link margin", "15 dB or more through R1", "common practice"),
    ("M3", "Link margin", "10 dB or more.", "common practice"),
    ("M3", "Walk test", "at 0.6 m/s, a step a second, it answers within 4 steps", "read second-hand"),
    ("M3", "Stillness", "no signal in 2 min", "common practice"),
    ("M3", "Outside the glass", "outside sitting room window: no signal", "common practice"),
    ("M3", "Climate", "its plate allows -10 °C to 40 °C; environmental class II; the plan expects 14 °C to 30 °C", "the unit's own plate"),
    ("G1", "Everyday noise", "at 1 m: no signal", "common practice"),
    ("V1", "Knock", "Glass is never struck", "common practice"),
    ("W1", "At all hours", "as a technical event and not as an intruder", "common practice"),
    ("H1", "Both actions", "it takes 2 at once", "common practice"),
    ("H1", "Silent or audible", "Nothing is heard or shown in the house", "common practice"),
    ("SM1", "By the fire code", "heard in every bedroom with the doors shut. Figure of the profile: 85 dB(A)", "the local fire code decides"),
    ("SM1", "Replace by", "The date on it is 30 Apr 2036", "plate"),
    ("SM1", "Event at the station", "reads fire, not intruder", "common practice"),
    ("CO1", "Event at the station", "reads carbon monoxide, not intruder", "common practice"),
    ("CO1", "Place", "1 m to 3 m along the floor", "the local fire code decides"),
    ("K1", "Entry warning", "heard at D1 FRONT DOOR and D2 BACK DOOR", "common practice"),
    ("F1", "Owner", "the log names user 1, householder", "common practice"),
    ("S1", "Running time", "after 15 min, never later than 20 min", "read second-hand"),
    ("S1", "Height", "3 m or more above the ground; insurers ask for 4 m", "read second-hand"),
    ("R1", "Mains off", "carries on for 30 h by its sheet", "equipment sheet"),
    ("R1", "Carries D11", "D11 brings zone 30 WKSHOP DOOR and zone 31 WKSHOP WINDOW through R1", "common practice"),
    ("CU", "Charging voltage", "13.4 to 13.9 V at the battery's leads, battery not joined", "equipment sheet"),
    ("CU", "Battery", "7 Ah of the plan, dated 13 Jul 2026; not older than 12 months", "common practice"),
    ("CU", "Standby", "for 12 h without mains", "from memory"),
    ("CU", "Recharge", "80 % of the battery is back within 72 h", "from memory"),
    ("CU", "Size of the log", "holds 750 events by its sheet; 250 at least", "from memory"),
    ("", "Entry", "times 1.25, is 30 s at most; 45 s is the longest allowed", "read second-hand"),
    ("", "Part-set: Night", "M1 and M6 keep silent", "common practice"),
    ("", "Path first", "the others off: alarm and restore arrive within 60 s", "common practice"),
    ("", "Loss of first", "the station knows within 30 min (category DP2)", "from memory"),
    ("", "Loss of second", "the station knows within 25 h (category DP2)", "from memory"),
    ("", "Router of first", "carry on for 12 h as agreed", "common practice"),
    ("", "Supervision", "each that listens (CU and R1): a fault is shown within 120 min", "from memory"),
    ("", "Confirmation", "M3, M4, M5 and M7", "common practice"),
    ("", "Automatic test", "every 24 h at 02:40; 24 h at most", "common practice"),
])
def test_a_line_says_what_is_expected_and_how_its_limit_is_known(large, unit, what, says, source) -> None:
    line = large[unit][what]
    assert says in line.accept and source in line.source


def test_a_limit_carries_the_mark_of_its_profile_and_no_better(large) -> None:
    papers = read_job(JOBS / "curlew-house" / "job.yaml").papers
    assert Known(papers.profile.limits["tamper_s"].known) is Known.MEMORY
    assert large["D1"]["Lid tamper"].source == papers.profile.source_of("tamper_s").cited()


# A line that only some jobs have: of which unit, a job with it, a job without.
@pytest.mark.parametrize("unit, what, with_it, without_it", [
    ("D3", "Second input", nothing, lambda f: [f["job"]["devices"]["D3"].pop(key) for key in ("use_input_2", "text_2", "protects_2")]),
    ("D2", "Animal", lambda f: f["equipment"]["tern-pir12"].update(coverage={"range_m": "12", "animal_kg": "18"}), nothing),
    ("D2", "Outside the glass", lambda f: f["job"]["premises"]["storeys"]["ground"]["openings"]["front-door"].update(glazed="true"), nothing),
    ("S1", "Light", nothing, lambda f: f["job"]["devices"]["S1"].update(room="hall", height_m="2.2")),
    ("F1", "Hold-up key", lambda f: (f["equipment"]["tern-fob"].update(inputs=[{"name": "both keys", "optional": "true"}]),
                                     f["job"]["devices"]["F1"].update(use_input_2="true", role="hold-up", text="FOB HOLD UP")), nothing),
    ("CU", "Mains fail", nothing, lambda f: f["equipment"]["tern-cu32"]["power"].update(kind="cell")),
    ("CU", "Cell", lambda f: f["equipment"]["tern-cu32"]["power"].update(kind="cell"), nothing),
    ("D3", "Told first", kind("hold-up", "hold-up"), lambda f: (kind("hold-up", "hold-up")(f), drop("monitoring")(f))),
    ("D3", "Approved", kind("medical", "medical"), nothing),
    ("", "Part-set: Night", job(part_sets={"night": {"name": "Night", "when": "everybody sleeps"}}), nothing),
    ("", "Partition 2", job(partitions={"1": {"name": "house"}, "2": {"name": "annexe"}}), nothing),
    ("", "Omitting", lambda f: f["job"]["devices"]["D3"].update(omit="true"), nothing),
    ("", "Repeated trips", lambda f: f["job"]["times"].update(trips="3"), nothing),
    ("", "Cancelling", lambda f: f["job"]["times"].update(abort_s="30"), nothing),
    ("", "Confirmation", lambda f: f["job"]["monitoring"].update(confirmation="sequential"), nothing),
    ("", "Path second", nothing, lambda f: f["job"]["monitoring"]["paths"].pop("second")),
    ("", "Router of first", nothing, lambda f: f["job"]["monitoring"]["paths"]["first"].pop("router")),
    ("", "Event: mains failure", nothing, lambda f: f["equipment"]["tern-cu32"]["power"].update(kind="cell")),
    ("", "Event: hold-up", kind("hold-up", "hold-up"), nothing),
    ("", "Account off test", nothing, drop("monitoring")),
    ("", "Deleted fob or tag", nothing, lambda f: (f["job"]["devices"].pop("F1"), f["job"]["users"]["1"].pop("fob"))),
])
def test_a_line_stands_where_the_job_has_what_it_tests(job_file, files, unit, what, with_it, without_it) -> None:
    before = copy.deepcopy(files)
    assert what in checks(job_file, with_it)[unit]
    files.clear()
    files.update(before)
    assert what not in checks(job_file, without_it)[unit]


def test_where_the_profile_has_no_limit_the_line_stays_and_says_so(job_file) -> None:
    line = checks(job_file, job(profile="na-practice"))[""]["Supervision"]
    assert line.source == NO_LIMIT and "what its papers say" in line.accept


def test_what_the_plan_does_not_know_is_never_guessed(job_file) -> None:
    lines = checks(job_file, kind("hold-up", "hold-up"))
    assert "it is not in the plan, write it here" in lines["D3"]["Silent or audible"].accept
    assert "its date is not in the plan, write it here" in lines["CU"]["Battery"].accept
    lines = checks(job_file, kind("smoke", "fire"))
    assert "Its date is not in the plan: read it from the unit" in lines["D3"]["Replace by"].accept
    lines = checks(job_file, lambda f: f["job"]["monitoring"]["paths"]["first"].pop("standby_h"))
    assert "how long is not in the plan" in lines[""]["Router of first"].accept
    assert "how soon the station must know is not in the plan" in lines[""]["Loss of first"].accept


def test_a_fob_that_belongs_to_nobody_is_given_to_one_or_taken_out(job_file) -> None:
    assert "belongs to no user" in checks(job_file, lambda f: f["job"]["users"]["1"].pop("fob"))["F1"]["Owner"].accept


def test_the_markets_own_words_stand_in_the_lines(job_file) -> None:
    lines = checks(job_file, job(profile="na-practice"))
    assert lines["D1"]["Lid tamper"].accept == "Opened disarmed, it is shown within 10 s; with one unit of each kind also armed."
    assert "Fully armed" in lines[""] and not [one for unit in lines.values() for one in unit.values() 
                                              if one.what != "Function" and ("unset" in one.accept or "part-set" in one.accept)]


def test_bars_of_the_control_unit_prove_no_margin_and_stand_as_could_not_test(large) -> None:
    for unit, wanted in (("M4", "10 dB or more"), ("D1", "15 dB or more")):
        accept = large[unit]["Link margin"].accept
        assert wanted in accept and "Only bars to be read: “could not test”, with the bars beside it (4 of 9 or better is good by its papers, and no margin)" in accept
    assert large["M4"]["Drift"].accept.endswith("Read in bars only: not one less.")
    papers = read_job(JOBS / "curlew-house" / "job.yaml").papers
    step = next(one for one in procedure(papers, compute(papers)) if one.id == "signal-M4")
    shown = {one.name: one.value for one in step.facts}["On its own scale"]
    assert "good by its papers, and no margin" in shown and "or stands as “could not test”" in step.hold.until


def test_a_control_unit_that_shows_decibels_is_read_in_them(job_file) -> None:
    def decibels(files) -> None:
        files["equipment"]["tern-cu32"]["control_unit"]["link_scale"] = {"unit": "dB", "most": 60, "passes": 10}
    lines = checks(job_file, decibels)["D1"]
    assert "could not test" not in lines["Link margin"].accept and "not one less" not in lines["Drift"].accept
