"""Is a house understood both ways, by a plan and by paths, and is what refers to nothing answered at its line?"""
import pytest

from generator.intake.job_reader import read_job
from generator.terms.problem import JobInvalid
from tests.every_field import every_field_files


def planned(files) -> None:
    """A change: the demo's ground floor with measures."""
    ground = files["job"]["premises"]["storeys"]["ground"]
    for place, room in enumerate(ground["rooms"]):
        ground["rooms"][room] = {**(ground["rooms"][room] or {}), "corner_m": [str(4 * place), "0"], "size_m": ["4", "3"]}
    ground["walls"] = {"outside": "cavity-brick", "inside": "stud-plasterboard",
                       "between": [{"places": ["hall", "kitchen"], "construction": "half-brick"}]}
    ground["furniture"] = {"dresser": {"room": "kitchen", "corner_m": ["5", "0"], "size_m": ["1", "0.5"], "height_m": "1.9"}}
    files["job"]["devices"]["D2"]["at_m"] = ["0.2", "2.8"]


def ground(files) -> dict:
    return files["job"]["premises"]["storeys"]["ground"]


def answers(job_file, *changes) -> list[str]:
    with pytest.raises(JobInvalid) as caught:
        read_job(job_file(planned, *changes))
    assert all(problem.line > 1 for problem in caught.value.problems)
    return [f"{one.field}: {one.says} {one.do}" for one in caught.value.problems]


def test_a_plan_is_read_with_its_measures(job_file) -> None:
    storey = read_job(job_file(planned)).papers.job.premises.storeys["ground"]
    assert storey.rooms["kitchen"].corner_m == [4, 0] and storey.walls.between[0].places == ["hall", "kitchen"]


def test_a_house_by_paths_is_read_and_a_wall_may_be_of_job_company_or_profile(job_file) -> None:
    papers = read_job(job_file(lambda f: f.update(every_field_files()))).papers
    path = papers.job.devices["D1"].path
    assert path.distance_m == 9 and path.walls == ["job-wall", "profile-wall"]
    assert {"job-wall", "company-wall", "profile-wall"} <= set(papers.constructions())


def test_a_wrong_construction_is_answered_in_the_run_that_answers_a_misspelt_key(job_file) -> None:
    found = answers(job_file, lambda f: ground(f)["walls"].update(outside="cavity-brik"),
                    lambda f: f["job"]["devices"]["D1"].update(positon="left"), lambda f: f["job"].update(dated="2026-02-30"))
    assert [one.split(":")[0] for one in found] == ["dated", "premises.storeys.ground.walls.outside", "devices.D1.positon"]


def test_of_constructions_with_one_name_the_jobs_counts_before_the_companys_and_that_before_the_profiles(job_file) -> None:
    def own(means: str) -> dict:
        return {"cavity-brick": {"means": means, "layers": [{"material": "brick", "thickness_mm": "90"}]}}
    assert read_job(job_file(planned, lambda f: f["company"].update(constructions=own("the company's")))
                    ).papers.constructions()["cavity-brick"].means == "the company's"
    assert read_job(job_file(lambda f: f["job"]["premises"].update(constructions=own("the job's")))
                    ).papers.constructions()["cavity-brick"].means == "the job's"


@pytest.mark.parametrize("change, says", [
    (lambda f: ground(f)["walls"].update(outside="cavity-brik"),
     'premises.storeys.ground.walls.outside: there is no construction "cavity-brik". Did you mean "cavity-brick"?'),
    (lambda f: ground(f)["walls"].update(inside="paper"), 'premises.storeys.ground.walls.inside: there is no construction "paper".'),
    (lambda f: ground(f)["walls"]["between"][0].update(construction="half-brik"),
     'premises.storeys.ground.walls.between.0.construction: there is no construction "half-brik". Did you mean "half-brick"?'),
    (lambda f: ground(f)["walls"]["between"][0].update(places=["hall", "kitchn"]),
     'premises.storeys.ground.walls.between.0.places.1: there is no room on this storey "kitchn". Did you mean "kitchen"?'),
    (lambda f: ground(f)["walls"]["between"][0].update(places=["hall"]),
     "premises.storeys.ground.walls.between.0.places: one entry stands here. Write two places"),
    (lambda f: ground(f)["walls"].update(own={"flue": {"from_m": ["0", "0"], "to_m": ["1", "0"], "construction": "brick"}}),
     'premises.storeys.ground.walls.own.flue.construction: there is no construction "brick".'),
    (lambda f: ground(f).update(floor="carpet"), 'premises.storeys.ground.floor: there is no construction "carpet".'),
    (lambda f: ground(f)["openings"]["front-door"].update(leaf="wooden-dor"),
     'premises.storeys.ground.openings.front-door.leaf: there is no construction "wooden-dor". Did you mean "wooden-door"?'),
    (lambda f: f["job"]["devices"]["D1"].update(path={"distance_m": "5", "walls": ["cavity-brick", "blok"]}),
     'devices.D1.path.walls.1: there is no construction "blok". Did you mean "block"?'),
    (lambda f: f["job"]["devices"]["D2"].update(path={"distance_m": "5"}),
     "devices.D2.path: this unit has a place in the plan too. Keep at_m, from which its path follows, or path."),
    (lambda f: ground(f)["rooms"]["hall"].pop("size_m"),
     "premises.storeys.ground.rooms.hall.corner_m: corner_m stands here without size_m. Write size_m: too."),
    (lambda f: ground(f)["rooms"]["hall"].update(size_m=["4", "0"]),
     "premises.storeys.ground.rooms.hall.size_m: 0 is no width. Write width and depth, both more than 0."),
    (lambda f: ground(f)["rooms"]["hall"].update(outline_m=[["0", "0"], ["1", "0"], ["1", "1"]]),
     "premises.storeys.ground.rooms.hall.outline_m: corner_m says the shape too."),
    (lambda f: ground(f)["rooms"]["hall"].update(outline_m=[["0", "0"], ["1", "0"]]),
     "premises.storeys.ground.rooms.hall.outline_m: 2 entries stand here. Write three corners or more, in turn round the shape."),
    (lambda f: ground(f)["rooms"]["hall"].update(corner_m=["0"]),
     "premises.storeys.ground.rooms.hall.corner_m: one entry stands here. Write two numbers in metres"),
    (lambda f: [ground(f)["rooms"]["hall"].pop(key) for key in ("corner_m", "size_m")],
     "devices.D2.at_m: hall has no shape in the plan. Write corner_m: and size_m: for that room, or take at_m out."),
    (lambda f: [ground(f)["furniture"]["dresser"].pop(key) for key in ("corner_m", "size_m")],
     "premises.storeys.ground.furniture.dresser: nothing says where this is in the plan. Write corner_m: and size_m:, or outline_m:."),
    (lambda f: ground(f)["furniture"]["dresser"].update(room="pantry"),
     'premises.storeys.ground.furniture.dresser.room: there is no room on this storey "pantry".'),
    (lambda f: ground(f)["furniture"]["dresser"].update(base_m="2"),
     "premises.storeys.ground.furniture.dresser.base_m: 2 m is not below its upper edge at 1.9 m."),
    (lambda f: f["job"]["premises"].update(stairs={"main": {"foot": {"room": "hall"}, "head": {"room": "landing"}}}),
     'premises.stairs.main.head.room: there is no room "landing".'),
    (lambda f: f["job"]["premises"].update(stairs={"main": {"foot": {"room": "hall"}, "head": {"room": "hall"}}}),
     "premises.stairs.main: these stairs begin and end in hall. Name the room at each end."),
    (lambda f: f["job"]["premises"].update(roofs={"porch": {"height_m": "2.4"}}),
     "premises.roofs.porch: nothing says where this is in the plan."),
    (lambda f: f["job"]["devices"]["D1"].update(via="K1"), "devices.D1.via: K1 is a keypad, no repeater. Known repeaters: none."),
    (lambda f: f["job"]["devices"]["D1"].update(via="D1"), "devices.D1.via: D1 is heard through itself."),
    (lambda f: f["job"]["devices"]["D1"].update(via="R9"), 'devices.D1.via: there is no repeater "R9".'),
    (lambda f: f["job"]["premises"].update(storeys={}), "premises.storeys: nothing stands here. Write one storey or more"),
])
def test_what_does_not_fit_the_house_is_answered_at_its_line(job_file, change, says: str) -> None:
    found = answers(job_file, change)
    assert len(found) == 1 and found[0].startswith(says), found


@pytest.mark.parametrize("change, field, says", [
    ({"serial": {"least": "8", "most": "6"}}, "serial.least", "8 is the least here and 6 the most. Write the smaller"),
    ({"environment": {"least_c": "30", "most_c": "20"}}, "environment.least_c", "30 is the least here and 20 the most."),
    ({"control_unit": {"charger": {"current_ma": "300", "least_v": "14", "most_v": "13"}}}, "control_unit.charger.least_v", "14 is the least"),
    ({"control_unit": {"link_scale": {"unit": "bars", "most": "5", "passes": "6"}}}, "control_unit.link_scale.passes",
     "6 passes, and the scale ends at 5."),
    ({"control_unit": {"battery_box": {"most_ah": "7", "size_mm": ["151", "65"]}}}, "control_unit.battery_box.size_mm", "2 measures stand here."),
    ({"repeats": "8"}, "repeats", "a control-unit carries no other units. Take repeats: out."),
])
def test_a_sheet_that_contradicts_itself_is_answered_in_its_own_file(job_file, change, field: str, says: str) -> None:
    def contradict(files) -> None:
        sheet = files["equipment"]["tern-cu32"]
        inner = change.pop("control_unit", {})
        sheet.update(change)
        sheet["control_unit"].update(inner)
    with pytest.raises(JobInvalid) as caught:
        read_job(job_file(contradict))
    problem = caught.value.problems[0]
    assert problem.file.endswith("equipment/tern-cu32.yaml") and problem.field == field and problem.line > 1
    assert f"{problem.says} {problem.do}".startswith(says)


def test_lists_of_a_control_unit_on_another_units_sheet_are_answered(job_file) -> None:
    with pytest.raises(JobInvalid) as caught:
        read_job(job_file(lambda f: f["equipment"]["tern-dc"].update(control_unit=f["equipment"]["tern-cu32"]["control_unit"])))
    assert caught.value.problems[0].says == "this is the sheet of a contact."
