"""Does a day end only where nothing is isolated, off, running, silenced or waited for, and does its last step say how the house is left?

All of it: common practice, no source.
"""
from dataclasses import replace
from itertools import pairwise, product

import pytest

from generator.calc.results import compute
from generator.intake.job_reader import read_job
from generator.procedure import night
from generator.procedure.night import with_nights
from generator.procedure.open import unbroken
from generator.procedure.step import Open, Step, Wait
from generator.procedure.steps import procedure
from generator.tables.minutes import DAY_MIN
from tests.conftest import JOBS

LARGE = JOBS / "curlew-house" / "job.yaml"
# What a fitter leaves isolated, off, silenced, running or up a wall between two steps, and what ends it: written down by hand.
OPEN = (("background", "signal-S2"), ("signal-R1", "signal-M7"), ("isolate", "power-mains"), ("isolate", "power-R1"),
        ("power-mains", "power-battery"),
        ("off-S1", "on-S1"), ("quiet-S1", "lid-S1"), ("climb-fix-S1", "fix-S1"), ("climb-listen-S1", "signal-S1"), ("fix-S1", "lid-S1"), ("mains-fail", "battery-load"))


@pytest.fixture(scope="module")
def papers():
    return read_job(LARGE).papers


@pytest.fixture(scope="module")
def day(papers) -> tuple[Step, ...]:
    return procedure(papers, compute(papers))


def step(name: str, minutes: float, *leaves: Open, wait: Wait | None = None) -> Step:
    return Step(name, "fix", name.upper(), ("do it",), minutes=minutes, leaves=leaves, wait=wait)


def ids(steps) -> list[str]:
    return [one.id for one in steps]


def facts(one: Step, name: str) -> list[str]:
    return [fact.value for fact in one.facts if fact.name == name]


@pytest.mark.parametrize("opened, ended", OPEN)
def test_what_a_step_leaves_open_is_declared_with_the_step_that_ends_it(day, opened, ended) -> None:
    found = {one.id: one for one in day}
    assert ended in [one.until for one in found[opened].leaves]
    assert any(found[ended].title in line for line in facts(found[opened], "Left open"))


def test_every_declared_end_is_a_later_step(day) -> None:
    names = ids(day)
    assert all(names.index(one.until) > at for at, found in enumerate(day) for one in found.leaves)


@pytest.mark.parametrize("lead", range(0, DAY_MIN, 45))
def test_no_night_falls_while_anything_is_open_wherever_the_day_ends(papers, day, lead) -> None:
    # The first step is made longer, so that the days end at other places each time.
    plain = tuple(one for one in day if not one.id.startswith("night-"))
    nights = with_nights(papers, (replace(plain[0], minutes=plain[0].minutes + lead), *plain[1:]))
    names = ids(nights)
    for at in [at for at, name in enumerate(names) if name.startswith("night-")]:
        assert not [(opened, ended) for opened, ended in OPEN if names.index(opened) < at < names.index(ended)]


def test_a_rule_that_is_broken_is_seen(papers, day, monkeypatch) -> None:
    # The same days with every step a place to stop: nights then do fall while the supplies are off.
    monkeypatch.setattr(night, "unbroken", lambda steps: tuple((one,) for one in steps))
    plain = tuple(one for one in day if not one.id.startswith("night-"))
    broken = []
    # Longer is the first step, or the one before the mains fails: days that start alike end alike, and would never end there.
    for at, lead in product((0, ids(plain).index("mains-fail") - 1), range(0, DAY_MIN, 15)):
        names = ids(with_nights(papers, (*plain[:at], replace(plain[at], minutes=plain[at].minutes + lead), *plain[at + 1:])))
        broken += [one for at, name in enumerate(names) if name.startswith("night-") for one in OPEN if names.index(one[0]) < at < names.index(one[1])]
    assert ("mains-fail", "battery-load") in broken and ("off-S1", "on-S1") in broken


def test_a_stretch_goes_from_what_opens_to_what_ends_with_all_that_overlaps() -> None:
    steps = (step("a", 5), step("b", 5, Open("b is off", "d")), step("c", 5, Open("c is off", "e")), step("d", 5), step("e", 5), step("f", 5))
    assert [ids(one) for one in unbroken(steps)] == [["a"], ["b", "c", "d", "e"], ["f"]]
    # An end that this job does not have holds nothing up.
    assert [ids(one) for one in unbroken((step("a", 5, Open("a is off", "none")), step("b", 5)))] == [["a"], ["b"]]


def test_what_is_waited_for_within_hours_is_read_the_same_day(papers) -> None:
    waited = (step("a", DAY_MIN - 20), step("b", 10, wait=Wait(15)), step("c", 15), step("d", 5))
    assert ids(with_nights(papers, waited)) == ["a", "night-1", "b", "c", "d"]
    assert ids(with_nights(papers, (waited[0], step("b", 10), *waited[2:]))) == ["a", "b", "night-1", "c", "d"]


def test_what_goes_on_for_longer_than_a_day_is_ended_before_anybody_leaves(papers) -> None:
    long = Wait(DAY_MIN + 1, "", "the router is off", "Router: mains on again.")
    found = with_nights(papers, (step("b", 10, wait=long), step("c", DAY_MIN - 5)))
    assert ids(found) == ["b", "night-1", "c"] and "Router: mains on again." in found[1].do
    assert "Router: mains on again." not in with_nights(papers, (step("b", 10), step("c", DAY_MIN - 5)))[1].do


def test_a_stretch_longer_than_a_day_stays_whole_and_says_so(papers) -> None:
    found = with_nights(papers, (step("a", 5), step("b", DAY_MIN, Open("b is off", "c")), step("c", 30)))
    assert ids(found) == ["a", "night-1", "b", "c"]
    assert facts(found[2], "Longer than a day")[0].startswith("8 h 30 min of work up to the end of “C”") and not facts(found[0], "Longer than a day")


def test_the_night_says_in_which_state_the_system_is_left(papers, day) -> None:
    nights = [one for one in day if one.id.startswith("night-")]
    assert all(len(facts(one, "State tonight")) == 1 and facts(one, "Left open")[0].startswith("nothing, once the lines here are done") for one in nights)
    assert "units enrolled so far: 0; its values are not all set" in facts(nights[0], "State tonight")[0]
    assert "What was not tested yet is not relied on" in facts(nights[-1], "State tonight")[0]
    early = with_nights(papers, (step("a", DAY_MIN), step("b", 30)))[1]
    assert facts(early, "State tonight") == ["CU has no supply of its own yet: nothing of the new system works tonight."]


def test_a_supply_that_was_isolated_is_joined_as_soon_as_its_unit_is_fixed(day) -> None:
    assert ("fix-R1", "power-R1") in list(pairwise(ids(day)))


def test_no_step_joins_low_voltage_loads_where_there_is_none_to_join(day, job_file) -> None:
    found = {one.id: one for one in day}
    assert "power-loads" not in found
    assert facts(found["power-mains"], "Low-voltage loads") == ["none is joined now; S1: in the step “Join the supply of S1, in the same visit”"]

    def low(files) -> None:
        files["job"]["devices"]["S1"].update(room="hall", height_m="2.2")
    papers = read_job(job_file(low)).papers
    assert "power-loads" in ids(procedure(papers, compute(papers)))
