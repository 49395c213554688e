"""Is a sounder up a ladder made ready on the ground, fixed and joined in one visit, and sounded only when the ladder is away?

The order: common practice, no source.
"""
from dataclasses import replace
from itertools import pairwise

import pytest

from generator.calc.results import compute
from generator.intake.job_reader import read_job
from generator.procedure import messages
from generator.procedure.night import with_nights
from generator.procedure.step import Step, in_order
from generator.procedure.steps import procedure
from generator.tables.minutes import DAY_MIN
from generator.terms.problem import JobInvalid
from tests.conftest import JOBS

VISIT = ["signal-S1", "power-mains", "fix-K1", "enrol-K1", "enrol-S1", "quiet-S1", "climb-fix-S1", "off-S1", "fix-S1", "join-S1", "on-S1", "lid-S1", "test-S1"]


def of(path) -> dict[str, Step]:
    papers = read_job(path).papers
    return {step.id: step for step in procedure(papers, compute(papers))}


@pytest.fixture(scope="module")
def large() -> dict[str, Step]:
    return of(JOBS / "curlew-house" / "job.yaml")


def test_each_step_of_a_high_sounder_waits_by_declaration_for_the_one_before(job_file) -> None:
    found = of(job_file())
    assert [name for name in found if name in VISIT] == VISIT
    def waits(name: str) -> set[str]:
        return {name}.union(*(waits(one) for one in found[name].after if one in found))
    # Not only the order that came out: whatever order they are declared in, none can overtake.
    assert all(before in waits(after) for before, after in pairwise(VISIT))


def test_a_circle_among_its_steps_is_named(job_file) -> None:
    found = of(job_file())
    circle = [step if name != "enrol-S1" else Step(step.id, step.phase, step.title, step.do, after=("lid-S1",)) for name, step in found.items()]
    with pytest.raises(JobInvalid, match="these steps wait for each other") as caught:
        in_order(circle)
    assert all(title in str(caught.value.problems[0].says) for title in ("Enrol S1 on the ground", "Fix S1", "Lid, wall and link of S1"))


def test_its_supply_is_taken_away_with_the_mains_isolated_first_by_who_may_and_comes_back_in_the_sheets_order(large, job_file) -> None:
    off = " ".join(large["off-S1"].do)
    places = [off.index(one) for one in ("licensed electrician", "isolates the mains of CU", "locks it off", "proves it dead", "take away standby battery then low-voltage loads")]
    assert places == sorted(places) and messages.WIRING in large["off-S1"].messages
    assert large["off-S1"].hold.id == "H7" and "every other supply is taken away" in large["off-S1"].hold.until
    assert {fact.name: fact.value for fact in large["on-S1"].facts}["Order"] == "low-voltage loads, mains then standby battery"
    assert "Own supply of S1" in large["test-S1"].unsigned

    def by_cell(files) -> None:
        name = files["job"]["devices"]["S1"]["sheet"]
        files["equipment"][name]["power"]["kind"] = "cell"
    assert not {"off-S1", "join-S1", "on-S1"} & set(of(job_file(by_cell))) and "lid-S1" in of(job_file(by_cell))


def test_nobody_is_on_a_ladder_for_what_is_done_on_the_ground(large) -> None:
    assert not any(messages.LADDER in large[name].messages for name in ("enrol-S1", "quiet-S1"))
    assert all(messages.LADDER in large[name].messages for name in ("fix-S1", "join-S1", "lid-S1"))
    assert large["enrol-S1"].phase == "fix" and large["enrol-S2"].phase == "enrol"
    assert messages.LADDER not in large["tampers"].messages


def test_nobody_at_the_foot_of_a_ladder_is_asked_to_read_anything(large, job_file) -> None:
    for name in ("signal-S1", "lid-S1"):
        said = " ".join(large[name].do)
        assert "at the foot stays there and reads nothing" in said and "third person" in said and "when you are down again" in said
    assert not any("second person reads" in line for name, step in large.items() for line in step.do if messages.LADDER in step.messages)

    def outside(files) -> None:
        files["job"]["devices"]["D2"].update(room="outside", height_m="2.8")
    found = of(job_file(outside))
    assert "climb-enrol-D2" in found["enrol-D2"].after and found["climb-enrol-D2"].hold.id == "H4" and found["climb-enrol-D2"].phase == "enrol"
    assert found["tampers"].hold.id == "H4" and found["tampers"].hold.before and "reads nothing" in " ".join(found["tampers"].do)
    assert large["tampers"].hold is None and "climb-enrol-D2" not in large


def test_the_hole_of_a_unit_outside_is_made_where_it_is_fixed_and_in_no_step_before(large) -> None:
    entry = large["cable-entry"]
    assert messages.LADDER not in entry.messages and "Outside" not in entry.hold.until
    assert any("The hole of S1 is not made here but in the step “Fix S1”" in line for line in entry.do)
    assert any(line.startswith("The hole of S1 is made now") for line in large["fix-S1"].do)
    assert messages.LADDER not in large["refit"].messages and any("S1: photographed from the ground" in line for line in large["refit"].do)


def test_while_the_control_unit_is_off_each_step_says_so_until_it_is_on_again_and_that_holds_all_that_follows(large, job_file) -> None:
    def still(name: str, found=large) -> str:
        return " ".join(fact.value for fact in found[name].facts if fact.name == "Still open")
    assert all("CU is off, its mains locked off" in still(name) and "“Have CU on again after S1”" in still(name) for name in ("fix-S1", "join-S1"))
    assert "CU is off" not in still("on-S1") + still("lid-S1") and "sound" not in still("fix-S1")
    back = large["on-S1"]
    assert back.hold.id == "H9" and not back.hold.before and "In any case" in back.do[0] and messages.LIVE in back.messages
    assert "nobody goes on" in back.hold.otherwise and "Only where S1 goes up now" in large["off-S1"].do[0]
    assert "The supply of CU is isolated" in still("cable-entry") and "supply" not in still("fix-D1")


def test_the_cells_of_what_is_enrolled_first_are_looked_at_then_and_no_step_waits_for_those_of_others(large) -> None:
    assert any(line.startswith("Its cell first: ") for line in large["enrol-K1"].do) and "cells" not in large["enrol-K1"].after
    assert "Cell of K1" in large["enrol-K1"].unsigned and "Cell of K1" not in large["cells"].unsigned
    assert not any("cell first" in line for line in large["enrol-D1"].do)


def test_no_night_falls_while_the_ladder_stands(large) -> None:
    papers = read_job(JOBS / "curlew-house" / "job.yaml").papers
    visit = tuple(replace(large[name], minutes=minutes) for name, minutes in (("fix-S1", 25), ("join-S1", 5), ("on-S1", 5), ("lid-S1", 5)))
    day = (Step("a", "fix", "a", ("do",), minutes=DAY_MIN - 35), *visit)
    assert [one.id for one in with_nights(papers, day)] == ["a", "night-1", "fix-S1", "join-S1", "on-S1", "lid-S1"]
