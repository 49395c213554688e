"""What whoever came in walks into next: on the plan of the large demo by hand, and on random plans against a search over a fine grid.

A step to one of eight neighbours makes a way on a grid longer than a straight one by at most √(4 − 2√2) = 1.0824 (octile distance, geometry).
Common practice, no source: units that confirm each other are separate, and those on the entry route confirm nothing by themselves.
"""
import heapq
import math

import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as some

from generator.calc.house.confirming import confirmed, pairs
from generator.calc.house.coverage import coverage_of_job
from generator.calc.unknown import Unknown
from generator.geometry.floors import floor_of
from generator.geometry.house import house_of
from generator.geometry.meeting import seen_floor
from generator.geometry.routes import Stand, routes, walk_of
from generator.geometry.shapes import Place, Spot
from generator.geometry.sight import Region, View, seen
from generator.intake.job_reader import read_job
from tests.conftest import JOBS, read_files, write_files
from tests.rule_cases.case import put
from tests.rule_cases.routes import unit
from tests.test_routes import OCTILE, plan

MESH = 0.1


def found(tmp_path, *changes):
    files = read_files(JOBS / "curlew-house")
    for change in changes:
        change(files)
    papers = read_job(write_files(files, tmp_path / "job")).papers
    return {one.opening: one for one in coverage_of_job(papers).confirmed}


def met(one) -> dict[str, float]:
    return {unit.unit: unit.metres for unit in one.ahead}


def test_from_the_window_of_bedroom_2_the_landing_is_met_as_by_hand(tmp_path) -> None:
    # From one step inside at (1.2, 7.5) past the jamb of the bedroom's door, (3.75, 5.55), to the door's line at x = 4, which M6 sees.
    one = found(tmp_path)["bedroom-2-window"]
    assert (one.first, one.confirming.unit) == (("D8",), "M3")
    assert met(one)["M6"] == pytest.approx(math.hypot(2.55, 1.95) + 0.25, abs=0.01)
    # And M3 in the sitting room by the stairs: M6 and the hall's M1 see them on the way.
    assert one.confirming.past == ("M6", "M1") and met(one)["M3"] > met(one)["M1"] > met(one)["M6"]


def test_from_the_garage_the_door_to_the_utility_room_is_met_first_and_the_car_stops_nobody(tmp_path) -> None:
    # From (12.5, 2) past the car as if it were not there to the jamb of the door at (10.25, 6.05).
    one = found(tmp_path)["garage-window"]
    assert met(one)["D6"] == pytest.approx(math.hypot(2.25, 4.05), abs=0.01) and one.ahead[0].unit == "D6"


def test_a_unit_that_acts_first_confirms_nothing_by_another_of_its_circuits(tmp_path) -> None:
    # D7 has the garage's door on one circuit and its window on the other.
    one = found(tmp_path, unit("D7", confirms="true"))["garage-window"]
    assert one.first == ("D7",) and "D7" not in one.by and "D7" not in met(one)


def test_of_another_partition_nothing_confirms(tmp_path) -> None:
    def annexe(files) -> None:
        files["job"]["partitions"] = {"1": {"name": "house"}, "2": {"name": "sitting room"}}
        files["equipment"]["tern-cu48"]["control_unit"]["lists"]["partitions"] = "2"
        files["job"]["devices"]["M3"]["partition"] = "2"

    assert "M3" not in found(tmp_path, annexe)["french-doors"].by and "M3" in found(tmp_path / "whole")["french-doors"].by


def test_a_job_without_a_plan_says_so_and_names_those_of_the_same_building(tmp_path) -> None:
    files = read_files(JOBS / "thrift-cottage")
    put("job", "devices", "D2", "confirms", value="true")(files)
    one = coverage_of_job(read_job(write_files(files, tmp_path / "job")).papers).confirmed[0]
    assert isinstance(one.ahead, Unknown) and "front-door has no place in the plan" in one.ahead.reason and one.by == ("D2",)


def test_where_nothing_is_confirmed_by_a_second_zone_nothing_is_worked_out(tmp_path) -> None:
    papers = read_job(write_files(read_files(JOBS / "thrift-cottage"), tmp_path / "job")).papers
    house = house_of(papers.job.premises)
    assert confirmed(papers, house, {}, (), pairs(papers)) == ()


# --- against a grid ---------------------------------------------------------------------------------------------------

def on_grid(free, start: tuple[float, float], region: Region) -> float:
    """The shortest way over the grid from a place to any point of it that is seen; infinite if there is none."""
    wide = free.buffer(1e-6)
    shapely.prepare(wide)
    first = (round(start[0] / MESH), round(start[1] / MESH))
    queue, done = [(0.0, first)], set()
    while queue:
        cost, at = heapq.heappop(queue)
        if at in done:
            continue
        done.add(at)
        if region.holds(at[0] * MESH, at[1] * MESH):
            return cost
        for dx, dy in ((1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (1, -1), (-1, 1), (-1, -1)):
            to = (at[0] + dx, at[1] + dy)
            if to not in done and wide.covers(shapely.LineString(((at[0] * MESH, at[1] * MESH), (to[0] * MESH, to[1] * MESH)))):
                heapq.heappush(queue, (cost + math.hypot(dx, dy) * MESH, to))
    return math.inf


@settings(max_examples=25, deadline=None)
@given(split=some.integers(35, 60), door=some.integers(10, 30), eye=some.tuples(some.integers(62, 78), some.integers(2, 38)),
       faces=some.integers(0, 359), angle=some.sampled_from([60, 90, 360]), start=some.tuples(some.integers(4, 30), some.integers(4, 36)))
def test_what_is_met_on_a_random_plan_is_as_far_as_a_grid_says(split, door, eye, faces, angle, start) -> None:
    x = split / 10
    premises = plan({"ground": {"ceiling_m": 2.4, "rooms": {"left": {"corner_m": [0, 0], "size_m": [x, 4]}, "right": {"corner_m": [x, 0], "size_m": [round(8 - x, 1), 4]}},
                                "openings": {"door": {"kind": "door", "wall": ["left", "right"], "at_m": [x, door / 10], "width_m": 0.9, "height_m": 2.0}}}})
    house = house_of(premises)
    view = View("ground", Spot(eye[0] / 10, eye[1] / 10, 2.2), 12.0, angle, faces)
    region = seen(house, premises, view, 1.2)
    floor, walked = floor_of(house, premises, "ground"), walk_of(house, premises)
    at = Place(start[0] / 10, start[1] / 10)
    assume(floor.free.covers(shapely.Point(at)))
    goals = {str(index): goal for index, goal in enumerate(seen_floor(floor, region))}
    ways = [one.flat_m for one in routes(walked, Stand("ground", at), goals).values()] if goals else []
    grid = on_grid(floor.free, at, region)
    assert bool(ways) or math.isinf(grid)
    if ways and not math.isinf(grid):
        # A grid's points lie off corners, and off the edge of what is seen, by a mesh and a half at most for each turn.
        assert min(ways) <= grid + 1e-6 and grid <= min(ways) * OCTILE + 6 * MESH
