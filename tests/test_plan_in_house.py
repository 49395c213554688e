"""Does everything that a plan can hold reach the house that radio is worked out in, and does a written path tell the same as a plan?"""
import math
from random import Random

import pytest

from generator.calc.house.spots import spot_of
from generator.calc.radio.link import Link
from generator.calc.radio.links import links_of_job
from generator.geometry.house import house_of
from generator.geometry.shapes import Spot
from generator.geometry.way import way
from generator.intake.job_reader import read_job
from generator.model.premises import Premises
from tests.conftest import JOBS, read_files, write_files
from tests.test_way import house, met, texts

ROOMS = {"left": {"corner_m": [0, 0], "size_m": [4, 3]}, "right": {"corner_m": [4, 0], "size_m": [4, 3]},
         "bend": {"outline_m": [[0, 3], [8, 3], [8, 6], [5, 6], [5, 5], [0, 5]]}}
GROUND = {"ceiling_m": 2.4, "floor": "slab", "rooms": ROOMS, "walls": {"outside": "brick", "inside": "stud"}}
UPPER = {"ceiling_m": 2.4, "level_m": 2.7, "floor": "joists", "rooms": {"loft-room": {"corner_m": [0, 0], "size_m": [8, 3]}}, "walls": {"outside": "frame"}}
SHED = {"outbuilding": True, "ceiling_m": 2.2, "level_m": -0.4, "floor": "soil", "rooms": {"shed": {"corner_m": [20, 0], "size_m": [3, 3]}},
        "walls": {"outside": "boards"}}


# --- each element ---------------------------------------------------------------------------------------------

def test_storeys_and_outbuildings_stand_at_their_heights_with_their_own_walls_and_floors() -> None:
    found = house(ground=GROUND, upper=UPPER, garden=SHED)
    assert found.floor_m == {"ground": 0.0, "upper": 2.7, "garden": -0.4}
    assert {(one.storey, one.at_m, one.construction) for one in found.levels if not one.roof} == {("ground", 0, "slab"), ("upper", 2.7, "joists"), ("garden", -0.4, "soil")}
    outside = {(one.wall.storey, one.wall.construction, one.bottom_m) for one in found.walls if one.wall.outer}
    assert outside == {("ground", "brick", 0), ("upper", "frame", 2.7), ("garden", "boards", -0.4)}
    # From the room in the bend into the shed: out through brick, in through boards, 0.4 m lower.
    line = way(found, found.spot("bend", (7.5, 4), 1), found.spot("shed", (21, 1), 1))
    assert [(one.kind, one.construction) for one in line.crossings] == [("wall", "brick"), ("wall", "boards")]
    assert line.distance_m == pytest.approx(math.sqrt(13.5 ** 2 + 3 ** 2 + 0.4 ** 2))


def test_rooms_of_any_outline_have_a_wall_at_each_edge() -> None:
    found = house(ground=GROUND)
    assert {name: round(one.area, 6) for name, one in found.rooms.items()} == {"left": 12, "right": 12, "bend": 19}
    # The bend goes back at (5, 5): there the way from one arm leaves the house and comes in again.
    assert met(way(found, Spot(7, 5.5, 1), Spot(4, 4.9, 1))) == ["wall bend and outside"] * 2
    assert met(way(found, Spot(6, 5.5, 1), Spot(6, 4, 1))) == []


def test_walls_are_built_by_default_by_pair_and_by_name() -> None:
    walls = {"outside": "brick", "inside": "stud", "between": [{"places": ["right", "left"], "construction": "foil"}],
             "own": {"breast": {"from_m": [1, 1], "to_m": [1, 2], "construction": "stone"}}}
    found = {one.wall.places: one.wall.construction for one in house(ground=GROUND | {"walls": walls}).walls}
    assert found == {("left", "right"): "foil", ("left", "bend"): "stud", ("right", "bend"): "stud", ("breast",): "stone",
                     ("left", "outside"): "brick", ("right", "outside"): "brick", ("bend", "outside"): "brick"}


@pytest.mark.parametrize("kind, wall, at, hit", [("door", ["left", "right"], [4, 1.5], True), ("window", ["right", "outside"], [8, 1.5], True),
                                                 ("garage-door", ["right", "outside"], [8, 1.5], True)])
def test_every_opening_in_a_wall_is_one_in_the_house(kind, wall, at, hit) -> None:
    opening = {"kind": kind, "wall": wall, "at_m": at, "width_m": 1, "height_m": 2, "leaf": "leaf"}
    found = way(house(ground=GROUND | {"openings": {"way-in": opening}}), Spot(at[0] - 1, 1.5, 1), Spot(at[0] + 1, 1.5, 1))
    assert [(one.kind, one.construction, one.inner) for one in found.crossings] == [("opening", "leaf", kind == "door")]


def test_a_hatch_and_a_roof_window_open_no_floor_and_no_roof() -> None:
    flat = {"hatch": {"kind": "hatch", "wall": ["left", "loft-room"], "at_m": [1, 1], "width_m": 0.7, "height_m": 0.7, "leaf": "leaf"}}
    assert met(way(house(ground=GROUND | {"openings": flat}, upper=UPPER), Spot(1, 1, 1), Spot(1, 1, 4))) == ["floor upper"]


def test_stairs_open_no_floor_and_roofs_that_one_can_stand_on_are_in_no_way() -> None:
    plan = {"place": "a house", "storeys": {"ground": GROUND, "upper": UPPER}}
    more = {"stairs": {"main": {"foot": {"room": "left", "at_m": [1, 1]}, "head": {"room": "loft-room", "at_m": [3, 1]}, "width_m": 0.9}},
            "roofs": {"porch": {"corner_m": [8, 0], "size_m": [2, 2], "height_m": 2.5}}}
    bare, full = (house_of(Premises.model_validate(texts(one))) for one in (plan, plan | more))
    # Straight through the well of the stairs, and down over the porch.
    for start, end, names in ((Spot(2, 1, 1), Spot(2, 1, 4), ["floor upper"]), (Spot(9, 1, 4), Spot(9, 1, 1), [])):
        assert met(way(full, start, end)) == met(way(bare, start, end)) == names


@pytest.mark.parametrize("thing, hit", [({"metal": True}, True), ({"metal": True, "heat": True}, True), ({"heat": True}, False), ({"climbed": True}, False)])
def test_of_furniture_what_is_metal_is_in_the_way(thing, hit) -> None:
    piece = {"room": "left", "corner_m": [1, 1], "size_m": [1, 1], "height_m": 1.5} | thing
    found = house(ground=GROUND | {"furniture": {"piece": piece}})
    assert met(way(found, Spot(0.5, 1.5, 1), Spot(2.5, 1.5, 1))) == (["metal piece"] if hit else [])


# --- from any unit to any receiver ----------------------------------------------------------------------------

def test_from_any_unit_to_any_receiver_the_way_tells_distance_and_all_that_it_meets() -> None:
    papers = read_job(JOBS / "curlew-house" / "job.yaml").papers
    links, whole = links_of_job(papers), house_of(papers.job.premises)
    kinds: set[str] = set()
    for name, one in links.units.items():
        for to, link in one.to.items():
            if papers.job.devices[name].path:
                continue
            assert isinstance(link, Link), (name, to)
            ends = [spot_of(papers, whole, end) for end in (name, to)]
            assert link.distance.value == pytest.approx(math.dist(*ends))
            met_here = [term for term in link.terms if term.kind not in ("people", "shadowing")]
            assert [term.at_m for term in met_here] == sorted(term.at_m for term in met_here)
            assert all(0 <= term.at_m <= link.distance.value and 0 <= term.angle_deg <= 90 for term in met_here)
            assert all(term.construction for term in met_here if term.kind in ("wall", "floor"))
            kinds |= {term.kind for term in met_here} | {term.construction for term in met_here}
    assert kinds >= {"wall", "opening", "floor", "metal", "timber-floor", "wooden-door"}


# --- a plan and a path ----------------------------------------------------------------------------------------

BUILT = ["cavity-brick", "solid-brick", "half-brick", "block", "stud-plasterboard", "stud-foil", "timber-frame"]
FLOORS = ["timber-floor", "concrete-floor"]


def row_of_rooms(seed: int) -> tuple[dict, dict[str, dict]]:
    """A job of rooms in a row, two or three storeys high, and the path of each unit: what a hand writes down that goes along the same line from the unit.

    Every wall is met squarely: units along the row hang at one depth and height, those above hang straight above the control unit.
    """
    chance = Random(seed)
    widths = [round(chance.uniform(1.5, 5), 2) for _ in range(chance.randint(2, 6))]
    at = [round(sum(widths[:index]), 2) for index in range(len(widths) + 1)]
    between = [chance.choice(BUILT) for _ in widths[1:]]
    outside, floors = chance.choice(BUILT), [chance.choice(FLOORS) for _ in range(chance.randint(1, 2))]
    rooms = lambda level: {f"s{level}r{index}": {"corner_m": [left, 0], "size_m": [width, 4]}  # noqa: E731
                           for index, (left, width) in enumerate(zip(at, widths))}
    storeys = {"s0": {"ceiling_m": 2.4, "rooms": rooms(0), "walls": {"outside": outside, "inside": "block", "between": [
        {"places": [f"s0r{index}", f"s0r{index + 1}"], "construction": built} for index, built in enumerate(between)]}}}
    storeys |= {f"s{level}": {"ceiling_m": 2.4, "level_m": round(2.7 * level, 1), "floor": floor, "rooms": rooms(level), "walls": {"outside": outside, "inside": "block"}}
                for level, floor in enumerate(floors, 1)}
    unit = {"sheet": "tern-pir12", "role": "immediate", "height_m": 1.5}
    devices, paths = {}, {}
    for index in range(1, len(widths)):
        devices[f"M{index}"] = unit | {"room": f"s0r{index}", "at_m": [round(at[index] + 1, 2), 2], "text": f"ROOM {index}"}
        paths[f"M{index}"] = {"distance_m": round(at[index] + 0.5, 2), "walls": between[:index][::-1]}
    devices["M90"] = unit | {"room": "outside", "at_m": [round(at[-1] + 1, 2), 2], "text": "OUTSIDE"}
    paths["M90"] = {"distance_m": round(at[-1] + 0.5, 2), "walls": [outside, *between[::-1]]}
    for level in range(1, len(floors) + 1):
        devices[f"U{level}"] = unit | {"room": f"s{level}r0", "at_m": [0.5, 2], "text": f"ABOVE {level}"}
        paths[f"U{level}"] = {"distance_m": round(2.7 * level, 1), "walls": [], "floors": floors[:level][::-1]}
    job = {"format": 1, "reference": "K-9041", "title": "A row of rooms", "dated": "2026-10-05", "kind": "new", "profile": "uk-grade-2",
           "control_unit": {"id": "CU", "sheet": "tern-cu48", "room": "s0r0", "at_m": [0.5, 2], "height_m": 1.5},
           "premises": {"place": "An invented house", "storeys": storeys}, "devices": devices, "users": {"1": {"who": "owner"}},
           "times": {"entry_s": 30, "exit_s": 45, "sounder_min": 15}}
    return job, paths


def links_written(job: dict, folder):
    files = read_files(JOBS / "curlew-house")
    files |= {"job": job, "people": None, "equipment": {name: files["equipment"][name] for name in ("tern-cu48", "tern-pir12")}}
    return links_of_job(read_job(write_files(files, folder)).papers).units


@pytest.mark.parametrize("seed", range(12))
def test_a_link_by_a_plan_and_the_same_as_a_path_have_the_same_numbers(tmp_path, seed) -> None:
    job, paths = row_of_rooms(seed)
    planned = links_written(job, tmp_path / "plan")
    for name, path in paths.items():
        job["devices"][name].pop("at_m")
        job["devices"][name]["path"] = path
    written = links_written(job, tmp_path / "paths")
    assert list(planned) == list(written) == list(paths)
    for name, one in planned.items():
        plan, path = one.link, written[name].link
        assert path.distance.value == pytest.approx(plan.distance.value, abs=1e-9)
        assert [(term.kind, term.construction) for term in plan.terms] == [(term.kind, term.construction) for term in path.terms]
        for day in ("typical", "bad"):
            assert [term.loss_db(day) for term in path.terms] == pytest.approx([term.loss_db(day) for term in plan.terms], abs=1e-9)
            assert path.margin_db(day) == pytest.approx(plan.margin_db(day), abs=1e-6)
        assert (path.required.value, path.reserve_db < 0) == (plan.required.value, plan.reserve_db < 0)


def test_a_path_that_leaves_out_a_wall_tells_otherwise(tmp_path) -> None:
    job, paths = row_of_rooms(3)
    planned = links_written(job, tmp_path / "plan")["M90"].link
    job["devices"]["M90"].pop("at_m")
    job["devices"]["M90"]["path"] = paths["M90"] | {"walls": paths["M90"]["walls"][1:]}
    assert links_written(job, tmp_path / "paths")["M90"].link.margin_db("bad") > planned.margin_db("bad") + 0.5
