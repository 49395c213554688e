"""Are the times of the ways in those that a hand gets, from the plan of the large demo and from a drawn case?

Published: 3.5 ft/s, MUTCD 2009, clearance time of pedestrians, 1.067 m/s (read second-hand, a thesis on its change); 12 m at the 15th
percentile of people over 60, 0.92 m/s (TCRP/NCHRP 2005, abstract), take 13.0 s. The other speeds and times are common practice, no source.
"""
import math

import pytest

from generator.calc.house.routes import Blocked, routes_of_job
from generator.calc.unknown import Unknown
from generator.geometry.routes import Route, Stretch
from generator.geometry.shapes import Place
from generator.intake.job_reader import read_job
from generator.terms.problem import JobInvalid
from tests.conftest import JOBS, read_files, write_files
from tests.rule_cases.case import clean
from tests.rule_cases.routes import plan, porch, reader, time, unit


def papers(tmp_path, *changes, job: str = "curlew-house"):
    files = read_files(JOBS / job)
    for change in changes:
        change(files)
    return read_job(write_files(files, tmp_path / "job")).papers


def ways(tmp_path, *changes, job: str = "curlew-house"):
    found = routes_of_job(papers(tmp_path, *changes, job=job))
    return {(way.door.key, way.unit): way for way in found.ways}


def case(tmp_path, *changes):
    return routes_of_job(papers(tmp_path, clean, *changes, job="thrift-cottage"))




# --- the large demo, walked by hand on its plan -----------------------------------------------------------------------

def test_the_front_door_of_the_large_demo_is_walked_as_by_hand(tmp_path) -> None:
    # In front of the door at (5.0, -0.25). K1 hangs at (5.95, 2.6), 5 cm off the right wall at x = 6; nobody's middle comes nearer to it than
    # x = 5.75. From there 0.6 m reach to K1: sqrt(0.36 - 0.04) = 0.5657 before it, y = 2.0343. hypot(0.75, 2.2843) = 2.404 m.
    way = ways(tmp_path)["front-door", "K1"]
    assert way.route.flat_m == pytest.approx(math.hypot(0.75, 2.6 - math.sqrt(0.6 ** 2 - 0.2 ** 2) + 0.25), abs=0.002)
    # 5 + 2.404 / 0.8 + 6 = 14.01 s, times 1.25 = 17.5 s of 30; out 3.005 + 5 = 8.0 s, times 1.25 = 10.0 s of 45.
    assert way.entry.value == pytest.approx(1.25 * (5 + 2.404 / 0.8 + 6), abs=0.01) and way.entry.holds() and way.mends is None
    assert way.exit.value == pytest.approx(1.25 * (2.404 / 0.8 + 5), abs=0.01) and way.exit.holds()
    assert way.reserve_s == pytest.approx(12.49, abs=0.01)


def test_the_back_door_of_the_large_demo_ends_at_the_reader_and_for_codes_at_the_keypad(tmp_path) -> None:
    found = ways(tmp_path)
    assert set(found) == {("front-door", "K1"), ("back-door", "K2"), ("back-door", "K1")}
    assert found["back-door", "K2"].means == "tag" and found["back-door", "K2"].users == ()
    # From (8.6, 8.25) into the utility room; by its door to the kitchen (jambs 5.6 and 6.4, so 5.85 to 6.15, a quarter of a metre on each side of
    # x = 8), by the kitchen's door to the hall (jambs 5.0 and 5.8, so 5.25 to 5.55), then to 0.6 m from K1 at x = 5.75: y = 3.1657.
    corners = [(8.6, 8.25), (8.25, 6.15), (5.55, 5.25), (5.55, 4.75), (5.75, 3.1657)]
    way = found["back-door", "K1"]
    assert way.route.flat_m == pytest.approx(sum(math.dist(one, other) for one, other in zip(corners, corners[1:])), abs=0.005) == pytest.approx(7.07, abs=0.01)
    assert way.users == ("user 5: sister who holds a key", "user 6: guard of the harbour office")
    assert way.entry.value == pytest.approx(1.25 * (5 + 7.073 / 0.8 + 6), abs=0.01) == pytest.approx(24.8, abs=0.01)


def test_nothing_alarms_at_once_on_the_ways_of_the_large_demo_and_its_movement_detectors_would(tmp_path) -> None:
    assert [one.met for one in routes_of_job(papers(tmp_path)).doors] == [(), ()]
    met = routes_of_job(papers(tmp_path, unit("M2", role="immediate"))).doors[1].met
    assert [(one.unit, one.where) for one in met] == [("M2", "utility")]


# --- formula and speeds ----------------------------------------------------------------------------------------------

def own_speed(value: str):
    return lambda files: files["company"].setdefault("limits", {}).update(
        {"walk_slow_mps": {"value": value, "because": "measured at the survey"}, "walk_fit_mps": {"value": "1.3", "because": "the same"},
         "walk_frail_mps": {"value": "0.5", "because": "the same"}})


def test_twelve_metres_at_a_published_speed_take_as_long_as_published(tmp_path) -> None:
    # 12 m / 0.92 m/s = 13.0 s (TCRP/NCHRP 2005, 15th percentile above 60 years); y = 12.28 is 12.0 m off.
    way = case(tmp_path, plan(12.28), own_speed("0.92")).ways[0]
    assert way.route.flat_m == pytest.approx(12, abs=0.01) and way.parts.flat_s == pytest.approx(13.0, abs=0.05)
    assert way.entry.value == pytest.approx(1.25 * (5 + 12 / 0.92 + 6), abs=0.02)


@pytest.mark.parametrize("slowest, speed", [("fit", 1.2), ("slow", 0.8), ("frail", 0.64), (None, 0.8)])
def test_the_slowest_user_gives_the_speed_and_a_job_that_does_not_say_is_told_so(tmp_path, slowest, speed) -> None:
    def said(files) -> None:
        files["job"]["household"] = {"language": "en"} | ({"slowest": slowest} if slowest else {})

    way = case(tmp_path, plan(14.28), said).ways[0]
    assert way.parts.flat_s == pytest.approx(14 / speed, abs=0.01)
    assert any("household.slowest" in note for note in way.entry.notes) == (slowest is None)


def test_a_keypad_upstairs_adds_the_stairs_along_their_slope(tmp_path) -> None:
    def upstairs(files) -> None:
        premises = files["job"]["premises"]
        premises["storeys"]["upper"] = {"level_m": "2.7", "ceiling_m": "2.4", "rooms": {"landing": {"corner_m": ["0", "0"], "size_m": ["2", "8"]}}}
        premises["stairs"] = {"main": {"foot": {"room": "hall", "at_m": ["1", "2"]}, "head": {"room": "landing", "at_m": ["1", "5.6"]}}}
        files["job"]["devices"]["K1"] |= {"room": "landing", "at_m": ["1", "7.98"]}

    way = case(tmp_path, plan(3), upstairs).ways[0]
    # 2.25 m to the foot, 3.6 m of going and 2.7 m of rise are 4.5 m at 0.5 m/s, then 2.38 less 0.6 m.
    assert (way.route.flat_m, way.route.slope_m) == (pytest.approx(2.25 + 1.78, abs=0.005), pytest.approx(4.5))
    assert way.entry.value == pytest.approx(1.25 * (5 + 4.03 / 0.8 + 9 + 6), abs=0.02)
    assert "stairs" in way.entry.words and any(one.symbol == "s_st" for one in way.entry.inputs)


# --- what would do ------------------------------------------------------------------------------------------------------

def test_a_place_that_is_named_does_and_one_step_farther_does_not(tmp_path) -> None:
    near = case(tmp_path, plan(14.28), time("entry_s", 20)).ways[0].mends.place
    assert near.room == "hall"
    there = case(tmp_path, plan(14.28), time("entry_s", 20), unit("K1", at_m=[str(near.at.x), str(near.at.y)])).ways[0]
    assert there.entry.holds() and there.route.flat_m <= 4.0
    beyond = case(tmp_path, plan(14.28), time("entry_s", 20), unit("K1", at_m=[str(near.at.x), str(near.at.y + 0.1)])).ways[0]
    assert not beyond.entry.holds()


def test_the_distance_that_is_named_is_the_one_at_which_the_time_is_just_enough(tmp_path) -> None:
    way = case(tmp_path, plan(14.28), time("entry_s", 20)).ways[0]
    assert way.mends.metres == {"keypad": pytest.approx(4.0), "reader": pytest.approx(6.4)}
    just = Route((Stretch("ground", (Place(0, 0), Place(0, way.mends.metres["keypad"]))),))
    assert 1.25 * (5 + just.flat_m / 0.8 + 6) == pytest.approx(20)


def test_where_the_door_alone_takes_longer_than_is_programmed_no_keypad_is_near_enough(tmp_path) -> None:
    mends = case(tmp_path, plan(14.28), time("entry_s", 10)).ways[0].mends
    assert mends.metres["keypad"] < 0 and mends.place is None


# --- what cannot be -----------------------------------------------------------------------------------------------------

def test_a_speed_of_nothing_is_a_problem_at_its_line(tmp_path) -> None:
    with pytest.raises(JobInvalid) as wrong:
        papers(tmp_path, own_speed("0"))
    assert any("walk_slow_mps" in str(one) and "nobody would arrive" in str(one) for one in wrong.value.problems)


def test_a_door_that_opens_into_a_wall_is_a_problem_at_its_line(tmp_path) -> None:
    with pytest.raises(JobInvalid) as wrong:
        papers(tmp_path, lambda files: files["job"]["premises"]["storeys"]["ground"]["openings"]["front-door"].update(at_m=["5.8", "0"]))
    assert any("front-door" in str(one) and "past the end of the wall" in str(one) for one in wrong.value.problems)


def test_a_job_without_a_plan_has_no_ways_and_says_why(tmp_path) -> None:
    found = routes_of_job(papers(tmp_path, job="thrift-cottage"))
    assert found.doors == () and found.lacks == "no room has a shape in the plan"


def test_a_keypad_without_a_place_is_not_guessed_and_one_more_is_counted(tmp_path) -> None:
    assert isinstance(case(tmp_path, plan(3), unit("K1", at_m=None)).doors[0].found, Unknown)
    both = case(tmp_path, plan(3), reader(["2", "2"]), unit("K1", at_m=None))
    assert [way.unit for way in both.ways] == ["K2"] and any("K1 has no place" in note for note in both.ways[0].entry.notes)


def test_a_keypad_of_another_part_of_the_house_is_no_keypad_for_this_door(tmp_path) -> None:
    def parts(files) -> None:
        files["job"]["partitions"] = {"1": {"name": "house"}, "2": {"name": "annexe"}}
        files["equipment"]["tern-cu32"]["control_unit"]["lists"]["partitions"] = "2"
        files["job"]["devices"]["K1"]["partition"] = "2"

    assert isinstance(case(tmp_path, plan(3), parts).doors[0].found, Blocked)


def test_through_a_porch_the_way_begins_in_the_timed_door(tmp_path) -> None:
    # In the door's line at (1, 0), not a quarter of a metre before it: hypot(0.75, 3 - 0.554).
    assert case(tmp_path, porch).ways[0].route.flat_m == pytest.approx(math.hypot(0.75, 3 - 0.5542), abs=0.002)
