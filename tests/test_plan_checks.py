"""Is a plan that cannot be built answered at its place, with what mends it?"""
import pytest

from generator.intake.job_reader import read_job
from generator.terms.problem import JobInvalid
from tests.conftest import JOBS, read_files, write_files


def answers(tmp_path, *changes) -> list[str]:
    """What is said of the large demo after some changes; nothing if it can be read."""
    files = read_files(JOBS / "curlew-house")
    for change in changes:
        change(files)
    try:
        read_job(write_files(files, tmp_path / "job"))
    except JobInvalid as found:
        assert all(one.line > 1 for one in found.problems)
        return [f"{one.field.removeprefix('premises.storeys.')}: {one.says} {one.do}" for one in found.problems]
    return []


def at(*way: str, storey: str = "ground", **keys):
    """A change: keys of something in a storey; None takes one out."""

    def change(files) -> None:
        here = files["job"]["premises"]["storeys"][storey]
        for part in way:
            here = here.setdefault(part, {})
        for key, value in keys.items():
            here.pop(key, None) if value is None else here.update({key: value})

    return change


def unit(name: str, **keys):
    def change(files) -> None:
        here = files["job"]["control_unit"] if name == "CU" else files["job"]["devices"][name]
        for key, value in keys.items():
            here.pop(key, None) if value is None else here.update({key: value})

    return change


def stairs(**keys):
    return lambda files: files["job"]["premises"]["stairs"]["main"].update(keys)


def plot(points):
    return lambda files: files["job"]["premises"].update(boundary_m=points)


def both(*changes):
    return lambda files: [change(files) for change in changes]


BOW = [["0", "0"], ["4", "5"], ["4", "0"], ["0", "5"]]

WRONG = [
    (at("rooms", "hall", size_m=["3.0", "5.0"]), ["ground.rooms.cloakroom: cloakroom lies over hall by 2 m².", "ground.rooms.study: study lies over hall by 3 m².",
                                                   "not on the wall between"]),
    (at("rooms", "sitting-room", corner_m=None, size_m=None, outline_m=BOW), ["ground.rooms.sitting-room.outline_m: its outline crosses or touches itself at [2, 2.5]."]),
    (at("rooms", "sitting-room", corner_m=None, size_m=None, outline_m=[["0", "0"], ["4", "0"], ["4", "0"]]), ["ground.rooms.sitting-room.outline_m:", "Write its corners in turn"]),
    (at("openings", "study-window", at_m=["8.0", "1.0"]), ["ground.openings.study-window.at_m: [8, 1] is not on the wall between study and outside.",
                                                           "That wall runs from [6, 0] to [10, 0]."]),
    (at("openings", "study-window", width_m="5"), ["openings.study-window.at_m: 5 m wide, it would reach past the end of the wall between study and outside, which is 4 m long.",
                                                   "at most 4 m wide here"]),
    (at("openings", "study-door", wall=["sitting-room", "study"]), ["openings.study-door.at_m: sitting-room and study have no wall in common in the plan."]),
    (at("openings", "study-window", sill_m="1.5"), ["openings.study-window.height_m: its upper edge would be at 2.6 m, above the ceiling at 2.4 m."]),
    (at("furniture", "fridge", room="study"), ["furniture.fridge.room: most of it stands outside study."]),
    (at("furniture", "fridge", height_m="2.5"), ["furniture.fridge.height_m: 2.5 m is above the ceiling at 2.4 m."]),
    (at("furniture", "fridge", size_m=["-0.6", "0.65"]), ["furniture.fridge.size_m: -0.6 is no width."]),
    (at("rooms", "store", size_m=["2.0", "-2.0"]), ["ground.rooms.store.size_m: -2 is no width."]),
    (at("walls", "own", screen={"from_m": ["1", "1"], "to_m": ["1", "1"], "construction": "block"}), ["walls.own.screen: this wall begins where it ends."]),
    (at(storey="upper", level_m="2.2"), ["upper.level_m: its floor at 2.2 m lies below the ceiling of ground, which is at 2.4 m."]),
    (at(storey="outbuilding", rooms={}, openings={}, furniture={}), ["outbuilding.rooms: no room stands in this storey."]),
    (stairs(head={"room": "study", "at_m": ["7", "1"]}), ["premises.stairs.main.head.room: hall and study are on one storey: these stairs lead nowhere."]),
    (stairs(head={"room": "hall"}, foot={"room": "landing"}), ["premises.stairs.main.head.room: ground does not lie above upper."]),
    (stairs(head={"room": "attic"}), ['premises.stairs.main.head.room: there is no room "attic"']),
    (stairs(foot={"room": "hall", "at_m": ["9", "1"]}), ["premises.stairs.main.foot.at_m: [9, 1] is not in hall."]),
    (plot([["0", "-1"], ["20", "30"], ["20", "-1"], ["0", "30"]]), ["premises.boundary_m: the boundary crosses or touches itself at [10, 14.5].", "Write its points in turn"]),
    (plot([["-5", "-5"], ["20", "-5"]]), ["premises.boundary_m: 2 entries stand here. Write three points or more"]),
    (plot([["-5", "-5"], ["20", "-5"], ["20", "-5"]]), ["premises.boundary_m:", "Write its points in turn"]),
    (plot([["-5", "-5"], ["20", "-5"], ["20", "24"], ["-5", "24"]]), ["premises.boundary_m: workshop of outbuilding reaches 2 m beyond it, and 1 more room besides.", "goes round every building"]),
    # All of the house is within, its sounder under the eaves is not.
    (both(plot([["-5", "0"], ["20", "0"], ["20", "30"], ["-5", "30"]]), unit("S1", at_m=["0.5", "-2"])), ["devices.S1.at_m: [0.5, -2] is 2 m beyond the boundary.", "Measure it again"]),
    (unit("M1", height_m="2.5"), ["devices.M1.height_m: 2.5 m is above the ceiling of hall, which is at 2.4 m."]),
    (unit("CU", height_m="2.5"), ["control_unit.height_m: 2.5 m is above the ceiling of store"]),
    (unit("M1", at_m=["6.5", "1"]), ["devices.M1.at_m: [6.5, 1] is not in hall."]),
    (unit("D3", at_m=["2.85", "-3"]), ["devices.D3.at_m: [2.85, -3] is not in sitting-room."]),
    (lambda f: f["equipment"]["tern-cu48"]["radio"].update(sensitivity_dbm="107", tx_power_dbm="8"), ["radio.sensitivity_dbm"]),
    (lambda f: f["equipment"]["tern-cu48"]["radio"].update(sensitivity_dbm="-40", tx_power_dbm="-45"),
     ["radio.sensitivity_dbm: -40 dBm is not below the -45 dBm that the unit sends with."]),
    (lambda f: f["job"]["premises"].update(constructions={"mud": {"means": "clay", "layers": [{"material": "clay", "thickness_mm": "300"}]}}),
     ["premises.constructions.mud.layers.0.material"]),
    *((at("rooms", "store", corner_m=[nonsense, "3.0"]), ["ground.rooms.store.corner_m"]) for nonsense in (".nan", "nan", "1e300", "inf")),
    *((unit("M1", height_m=nonsense), ["devices.M1.height_m"]) for nonsense in ("nan", "1e300", "-1")),
]


@pytest.mark.parametrize("change, says", WRONG)
def test_a_plan_that_cannot_be_built_is_answered_at_its_place(tmp_path, change, says) -> None:
    found = answers(tmp_path, change)
    assert [one for one in says if not any(one in line for line in found)] == [], found


@pytest.mark.parametrize("change", [
    # On the line of a wall, or as far off as the wall is thick, is in the room; a contact may hang on either side of its door.
    unit("M1", at_m=["6.15", "4.9"]), unit("M1", height_m="2.4"), unit("D6", at_m=["10.05", "6.55"]),
    at("rooms", "hall", corner_m=["4.005", "0"], size_m=["1.995", "5.0"]),
    at("openings", "hatch", kind="hatch", wall=["hall", "landing"], at_m=["5", "3"]),
    at("openings", "study-window", at_m=["8.0", "0.1"]),
    # In a terrace the boundary runs in the wall between two houses, and before the front of one.
    plot([["0", "0"], ["13.15", "0"], ["13.15", "27"], ["0", "27"]]),
])
def test_what_people_measure_a_little_otherwise_is_no_problem(tmp_path, change) -> None:
    assert answers(tmp_path, change) == []


def test_every_problem_of_a_plan_is_answered_in_one_run(tmp_path) -> None:
    found = answers(tmp_path, unit("M1", at_m=["6.5", "1"]), unit("M3", height_m="3"), at("furniture", "fridge", room="study"))
    assert len(found) == 3
