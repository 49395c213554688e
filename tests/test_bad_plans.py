"""Is everything that is wrong with a plan answered at its own line, with a mend, all in one run, and never with a hang?"""
from functools import partial

import pytest

from generator.intake.job_reader import read_job
from generator.terms.problem import JobInvalid, Problem
from tests.conftest import JOBS, read_files, write_files
from tests.own_time import own_seconds
from tests.test_plan_checks import at, unit

POWERS = lambda files: files["equipment"]["tern-cu48"]["radio"].update(sensitivity_dbm="-40", tx_power_dbm="-45")  # noqa: E731
UNKNOWN = lambda files: files["job"]["premises"]["storeys"]["ground"]["walls"].update(inside="jelly")  # noqa: E731
EMPTY = lambda files: files["job"]["premises"]["storeys"].update(attic={"level_m": "5.4", "rooms": {}})  # noqa: E731
CLAY = lambda files: files["job"]["premises"].update(  # noqa: E731
    constructions={"mud": {"means": "clay", "layers": [{"material": "clay", "thickness_mm": "300"}]}})

# What is wrong, where that is answered, what stands there, and what to write instead.
BAD = {
    "a negative length": (at("rooms", "store", size_m=["2.0", "-2.0"]), "premises.storeys.ground.rooms.store.size_m", "-2 is no width.", "both more than 0"),
    "a room of no size": (at("rooms", "study", size_m=["0", "3"]), "premises.storeys.ground.rooms.study.size_m", "0 is no width.", "both more than 0"),
    "a detector above the ceiling": (unit("M1", height_m="2.5"), "devices.M1.height_m", "2.5 m is above the ceiling of hall", "Write its height above the floor"),
    "a sensitivity above the power": (POWERS, "radio.sensitivity_dbm", "-40 dBm is not below the -45 dBm", "with its minus sign"),
    "a wall of a construction that is not there": (UNKNOWN, "premises.storeys.ground.walls.inside", 'no construction "jelly"', "Known here: block"),
    "a wall of an unknown material": (CLAY, "premises.constructions.mud.layers.0.material", '"clay" is not known', "Write one of: air, brick"),
    "a storey without rooms": (EMPTY, "premises.storeys.attic.rooms", "no room stands in this storey.", "Write its rooms"),
    "NaN in a corner": (at("rooms", "garage", corner_m=["nan", "1"]), "premises.storeys.ground.rooms.garage.corner_m.0", '"nan" is not a number.', "Write digits"),
    "1e300 in a corner": (at("rooms", "cloakroom", corner_m=["6", "1e300"]), "premises.storeys.ground.rooms.cloakroom.corner_m.1",
                          '"1e300" is not a number.', "Write digits"),
    "a length of a hundred kilometres": (at("rooms", "bathroom", storey="upper", size_m=["100000", "2"]), "premises.storeys.upper.rooms.bathroom.size_m.0",
                                         "100000", "500"),
    "a place with one number": (unit("M2", at_m=["9"]), "devices.M2.at_m", "one entry stands here.", "two numbers in metres"),
    "a height that is NaN": (unit("M3", height_m=".nan"), "devices.M3.height_m", '".nan" is not a number.', "Write digits"),
    "an outline of two corners": (at("rooms", "dining-room", corner_m=None, size_m=None, outline_m=[["0", "0"], ["1", "0"]]),
                                  "premises.storeys.ground.rooms.dining-room.outline_m", "2 entries stand here.", "three corners or more"),
    "a boundary that crosses itself": (lambda files: files["job"]["premises"].update(boundary_m=[["-4", "-8"], ["20", "30"], ["20", "-8"], ["-4", "30"]]),
                                       "premises.boundary_m", "the boundary crosses or touches itself at [8, 11].", "in turn round the plot"),
    "an outline that crosses itself": (at("rooms", "sitting-room", corner_m=None, size_m=None, outline_m=[["0", "0"], ["4", "5"], ["4", "0"], ["0", "5"]]),
                                       "premises.storeys.ground.rooms.sitting-room.outline_m", "crosses or touches itself", "in turn"),
}


def problems(folder, *changes) -> list[Problem]:
    files = read_files(JOBS / "curlew-house")
    for change in changes:
        change(files)
    try:
        read_job(write_files(files, folder))
    except JobInvalid as found:
        return list(found.problems)
    return []


@pytest.fixture(scope="module")
def all_at_once(tmp_path_factory) -> list[Problem]:
    """The answers to a job in which all of it is wrong."""
    return problems(tmp_path_factory.mktemp("bad") / "job", *(change for change, *_ in BAD.values()))


@pytest.mark.parametrize("what", BAD)
def test_what_is_wrong_is_answered_at_its_line_in_the_one_run(all_at_once, what: str) -> None:
    _, field, says, do = BAD[what]
    found = [one for one in all_at_once if one.field == field]
    assert len(found) == 1 and says in found[0].says and do in found[0].do and found[0].line > 1


def test_nothing_is_said_besides_what_is_wrong(all_at_once) -> None:
    assert sorted(one.field for one in all_at_once) == sorted(field for _, field, *_ in BAD.values())


@pytest.mark.parametrize("what", BAD)
def test_each_is_answered_alone_too(tmp_path, what: str) -> None:
    change, field, *_ = BAD[what]
    assert field in [one.field for one in problems(tmp_path / "job", change)]


def test_what_only_follows_from_a_value_that_cannot_be_read_is_not_said(tmp_path) -> None:
    """Neither that a room without its corner has no shape, nor that a unit without its height hangs outside its room, nor that a door is in no wall."""
    def job_without_one(files) -> None:
        files["job"]["premises"]["storeys"]["ground"]["furniture"]["fridge"]["corner_m"] = ["nan", "1"]
        files["job"]["premises"]["storeys"]["ground"]["rooms"]["hall"]["corner_m"] = ["inf", "0"]
        files["job"]["devices"]["M4"] |= {"at_m": ["90", "90"], "height_m": "nan"}

    assert sorted(one.field for one in problems(tmp_path / "job", job_without_one)) == [
        "devices.M4.height_m", "premises.storeys.ground.furniture.fridge.corner_m.0", "premises.storeys.ground.rooms.hall.corner_m.0"]


def test_a_job_that_lacks_a_storey_or_more_is_answered_without_its_plan(tmp_path) -> None:
    assert [one.field for one in problems(tmp_path / "job", lambda files: files["job"].update(premises="a house"))][0] == "premises"
    found = problems(tmp_path / "other", lambda files: files["job"]["premises"]["storeys"].update(upper="none"))
    assert "premises.storeys.upper" in [one.field for one in found]


def grid(count: int):
    """A storey more, of so many rooms in rows, each a metre square; the last lies over its neighbour."""
    def change(files) -> None:
        rooms = {f"cell-{index}": {"corner_m": [str(20 + index % 50), str(index // 50)], "size_m": ["1", "1"]} for index in range(count)}
        rooms[f"cell-{count - 1}"]["size_m"] = ["1", "1.5"]
        rooms["extra"] = {"corner_m": ["20.5", "0.5"], "size_m": ["0.2", "0.2"]}
        files["job"]["premises"]["boundary_m"] = [["-10", "-10"], ["100", "-10"], ["100", "100"], ["-10", "100"]]
        files["job"]["premises"]["storeys"]["cells"] = {"level_m": "20", "ceiling_m": "2.4", "rooms": rooms}
    return change


@pytest.mark.alone
def test_thousands_of_rooms_are_answered_in_a_time_that_grows_no_faster_than_they_do(tmp_path) -> None:
    took = {}
    for count in (300, 1200):
        took[count], found = own_seconds(partial(problems, tmp_path / str(count), grid(count)))
        assert [(one.field, one.says) for one in found] == [("premises.storeys.cells.rooms.extra", "extra lies over cell-0 by 0.04 m².")]
    # Four times as many; squared it would be sixteen times, and double is left for a busy machine.
    assert took[1200] < 8 * took[300]
