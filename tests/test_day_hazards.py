"""Does what can hurt somebody stand where it is met: sounders and ladders, supplies, asbestos, the night, the second person?

All of it: common practice, no source.
"""
import pytest

from generator.calc.results import compute
from generator.intake.job_reader import read_job
from generator.procedure import messages
from generator.procedure.asked import asked_of
from generator.procedure.checks import checks_of_unit
from generator.procedure.step import Step
from generator.procedure.steps import procedure
from generator.tables.minutes import DAY_MIN
from tests.conftest import JOBS
from tests.test_holds import bare
from tests.test_safety import premises
from tests.test_step_pages import html, phases, words


@pytest.fixture(scope="module")
def large() -> dict[str, Step]:
    papers = read_job(JOBS / "curlew-house" / "job.yaml").papers
    return {step.id: step for step in procedure(papers, compute(papers))}


@pytest.fixture(scope="module")
def pages():
    return html(JOBS / "curlew-house" / "job.yaml")


def steps(job_file, *changes) -> dict[str, Step]:
    papers = read_job(job_file(*changes)).papers
    return {step.id: step for step in procedure(papers, compute(papers))}


def text(step: Step) -> str:
    return " ".join(step.do)


def test_the_lid_of_a_sounder_is_opened_with_its_sound_off_by_two_and_before_it_is_sounded(large) -> None:
    said = text(large["test-S2"])
    places = [said.index(one) for one in ("switched off in programming", "opens the lid", "second person reads", "switched on again", "run the sounder")]
    assert places == sorted(places)
    assert "Nobody on the ladder" not in said


def test_the_test_of_a_high_sounder_says_nothing_of_the_lid_that_is_not_opened_again(large, pages) -> None:
    said = text(large["test-S1"])
    assert "opens the lid" not in said and "lid tamper" not in said and "nobody climbs" in said
    assert "From the ground and ears covered, run the sounder" in said
    # The checklist is the same test: there too only S2's words speak of a lid that one opens.
    shown = words(pages["tests.html"])
    assert "the ground and ears covered, run the sounder" in shown and shown.count("one opens the lid") == shown.count("ears covered and the house told")


def test_a_sounder_up_a_ladder_sounds_only_when_the_ladder_is_away(large) -> None:
    assert "from the ground" in text(large["test-S1"]).lower() and "Ladder away; only then" in text(large["lid-S1"])
    assert "make the test of the unit before the ladder" not in text(large["fix-S1"])


def test_the_visit_to_a_high_sounder_takes_its_lid_with_it_and_a_low_one_asks_for_none(large) -> None:
    assert "One visit up" in text(large["fix-S1"]) and "Lid tamper of S1" in large["lid-S1"].unsigned
    assert "not opened again" in text(large["test-S1"]) and "Lid tamper of S1" not in large["tampers"].unsigned
    assert "One visit up" not in text(large["fix-S2"]) and "lid-S2" not in large and "Lid tamper of S2" in large["tampers"].unsigned


def test_the_lids_of_sounders_stand_apart_from_those_of_silent_units(large) -> None:
    assert "S2: sound switched off in programming before anybody goes near it" in text(large["tampers"])


def test_the_hazards_of_the_house_stand_at_the_head_of_each_page_that_drills_or_climbs(pages) -> None:
    for path, page in phases(pages).items():
        shown = "never tested for asbestos" in words(page.select_one("#hazards + ul")) if page.select_one("#hazards") else False
        assert shown == (path == "steps/arrive.html" or any(one in str(page) for one in ("Work from a ladder.", "Cables and pipes in the wall.", "fuse panels can hold asbestos."))), path
    assert all(pages[f"steps/{one}.html"].select_one("#hazards") for one in ("listen", "power", "fix"))


def test_the_hazards_of_the_house_stand_once_on_arrival_also_where_nobody_drills_there(pages, job_file) -> None:
    assert words(pages["steps/arrive.html"]).count("Textured ceilings upstairs, never tested for asbestos") == 1
    new = html(job_file(premises(built_before="false", hazards=["A well under the lawn"])))
    assert words(new["steps/arrive.html"]).count("A well under the lawn") == 1


def test_asbestos_is_asked_for_each_place_with_the_units_that_are_drilled_there(large) -> None:
    step = large["asbestos"]
    facts = {fact.name: fact.value for fact in step.facts}
    assert facts["Drilled: Landing"].startswith("M6, SM2 and S2")
    assert facts["Drilled: Store room"] == "CU" and "F1" not in str(facts)
    assert "not drilled" in text(step) and {"Fixing of CU", "Fixing of SM2"} <= set(step.unsigned)


def test_each_room_that_is_drilled_has_one_result_and_its_fix_steps_name_it(large, job_file) -> None:
    papers = read_job(JOBS / "curlew-house" / "job.yaml").papers
    asked = asked_of(papers, compute(papers), tuple(large.values()))
    lines = {one.title: one for one in asked if one.title.startswith("Asbestos cleared: ")}
    assert {one.step for one in lines.values()} == {"asbestos"} and len(lines) == len(large["asbestos"].facts) > 10
    assert sum(one.title == "Asbestos cleared: Hall" for one in asked) == 1 and "for D1, M1, SM1 and K1" in lines["Asbestos cleared: Hall"].accept
    assert "“Asbestos cleared: Hall”" in large["fix-D1"].hold.until and "“Asbestos cleared: Store room”" in large["fix-CU"].hold.until
    new = read_job(job_file(premises(built_before="false"))).papers
    assert not [one for one in asked_of(new, compute(new), procedure(new, compute(new))) if "sbestos" in one.title]


def test_every_step_that_drills_asks_for_the_cleared_result_only_in_a_house_that_may_be_old(job_file) -> None:
    old, new = steps(job_file), steps(job_file, premises(built_before="false"))
    drills = [name for name, step in old.items() if messages.DRILLING in step.messages and name != "services"]
    assert len(drills) > 5
    assert all("without a cleared result for asbestos is not drilled" in old[name].hold.until and old[name].hold.before for name in drills)
    assert not any("asbestos" in new[name].hold.until for name in drills)


def test_the_trial_runs_on_a_bench_supply_and_never_on_the_standby_battery(job_file) -> None:
    step = steps(job_file)["background"]
    assert "bench supply" in text(step) and "standby battery and the mains are not joined yet" in text(step)
    assert step.tools == ("bench supply or test kit for the control unit",)
    assert "bench supply of the trial is off" in text(steps(job_file)["fix-CU"])


def test_a_control_unit_on_cells_runs_its_trial_on_them(job_file) -> None:
    def cells(files) -> None:
        files["equipment"]["tern-cu32"]["power"].update(kind="cell")
    step = steps(job_file, cells)["background"]
    assert "from its own cells" in text(step) and not step.tools


@pytest.mark.parametrize("step", ["power-mains", "power-R1"])
def test_the_competent_person_joins_the_mains_while_it_is_dead_and_then_the_unit_is_live(large, step) -> None:
    said = text(large[step])
    places = [said.index(one) for one in ("still locked off and proved dead", "terminal cover on", "switch the mains on", "From here the unit is live")]
    assert places == sorted(places) and messages.WIRING in large[step].messages


def test_a_unit_with_mains_of_its_own_is_isolated_powered_and_then_enrolled(large) -> None:
    names = list(large)
    order = ["signal-R1", "isolate", "fix-R1", "power-R1", "enrol-R1"]
    assert [names.index(one) for one in order] == sorted(names.index(one) for one in order)
    assert large["isolate"].title == "Have the supply of CU and R1 isolated and proved dead" and large["isolate"].hold.id == "H7"
    assert {"Supply of CU", "Supply of R1"} <= set(large["isolate"].unsigned)
    assert "R1 runs from its own pack, or from a bench supply" in text(large["signal-R1"]) and "D11, D12 and M7" in text(large["signal-R1"])


def test_the_supply_of_a_repeater_is_a_line_of_its_checklist() -> None:
    papers = read_job(JOBS / "curlew-house" / "job.yaml").papers
    found = {one.what: one for one in checks_of_unit(papers, compute(papers), "R1")}
    assert "competent person" in found["Supply"].accept and found["Supply"].measured == "certificate"


def test_a_job_longer_than_a_day_has_nights_with_a_hold_and_a_day_has_none(large, job_file) -> None:
    nights = [step for name, step in large.items() if name.startswith("night-")]
    assert len(nights) >= 3 and all(step.hold.id == "H15" and "in writing" in step.hold.until for step in nights)
    assert "put the account on test again" in text(nights[0])
    day = 0.0
    for step in large.values():
        day = 0.0 if step.id.startswith("night-") else day + step.minutes
        assert day <= DAY_MIN
    assert not [name for name in steps(job_file, bare) if name.startswith("night-")]


def test_a_job_that_only_sounds_has_no_account_to_put_on_test_after_the_night(job_file) -> None:
    night = steps(job_file, lambda f: f["job"].pop("monitoring"))["night-1"]
    assert "account" not in text(night) and "station" not in night.hold.until


def test_the_start_page_says_more_than_a_day_two_people_and_who_must_attend(pages) -> None:
    start = words(pages["index.html"])
    assert "More than one day's work for one person" in start and "say in writing what works, and the account goes on test again each day" in start
    assert "Two people: there is work outside from a ladder" in start
    assert "Must be there for the handover: householder (user 1)" in start and "cleaner (user 3)" in start


def test_a_second_person_is_on_the_list_where_somebody_climbs_outside_and_nowhere_else(job_file) -> None:
    there, none = steps(job_file), steps(job_file, lambda f: f["job"]["devices"]["S1"].update(room="hall", height_m="2.2"))
    assert any("second person" in tool for tool in there["ladder"].tools) and "takes two people" in text(there["ladder"])
    assert not any("second person" in tool for step in none.values() for tool in step.tools)


def test_what_was_found_otherwise_than_planned_stands_as_a_question(large) -> None:
    facts = {fact.name: fact.value for fact in large["walk-round"].facts}
    assert "Found: new windows in bedroom 2" in facts["Planned on: building work"] and "which units does it touch" in facts["Planned on: building work"]
    assert facts["Planned on: pets"] == "no animals in the house"


def test_a_control_unit_in_a_room_without_a_detector_is_a_question_and_with_one_none(large, job_file) -> None:
    assert "No detector of the plan is in the same space (store room)" in text(large["place"])
    room = read_job(job_file()).papers.job.control_unit.room
    watched = steps(job_file, lambda f: f["job"]["devices"]["D2"].update(room=room) or f["job"]["devices"]["D2"].pop("protects", None))
    assert "No detector of the plan" not in text(watched["place"])


def test_a_hold_up_is_pressed_only_while_the_account_is_on_test(large) -> None:
    for one in ("signal-H1", "enrol-H1"):
        assert "while the account is on test" in text(large[one])
    assert "while the account is on test" not in text(large["signal-D1"])


def test_what_is_enrolled_for_the_trial_is_deleted_again_and_stands_in_the_list_once(large) -> None:
    assert "delete it again" in text(large["signal-D1"]) and "deleted again" in large["signal-D1"].hold.until
    assert "in the list once" in large["enrol-D1"].hold.until


def test_the_trial_enrolment_of_a_repeater_stays_until_what_it_carries_is_checked(large) -> None:
    first, last = large["signal-R1"], large["signal-M7"]
    assert "delete it again" not in text(first) and "It stays enrolled and on until then" in text(first)
    assert "stays until D11, D12 and M7 are checked, and is deleted then" in first.hold.until
    assert "delete R1 from the list again too" in text(last) and "deleted again, R1 with it" in last.hold.until
    assert "R1 with it" not in large["signal-D11"].hold.until


def test_the_installers_authority_is_changed_at_the_first_supply_and_before_anything_is_enrolled_even_for_a_trial(large) -> None:
    names, step = list(large), large["set-authority"]
    assert step.after == ("background",) and names.index("background") + 1 == names.index("set-authority")
    # By declaration: whatever order they are declared in, no enrolment can come before.
    assert all("set-authority" in one.after for name, one in large.items() if name.startswith(("signal-", "enrol-")))
    assert "Before anything is enrolled, for the trial too" in text(step) and "before all else" not in text(step)


def test_a_contact_on_a_cell_is_isolated_where_its_wire_is_joined_and_not_where_it_is_only_set_off(large) -> None:
    assert messages.TERMINALS in large["fix-D4"].messages
    assert messages.TERMINALS not in large["enrol-D4"].messages and messages.TERMINALS not in large["test-D4"].messages
    assert messages.TERMINALS in large["enrol-S1"].messages


def told(step: Step) -> str:
    """What a step says in its facts and its hold point."""
    return " ".join([*(f"{fact.name}: {fact.value}" for fact in step.facts), step.hold.until if step.hold else ""])


def test_the_step_that_drills_an_untested_ceiling_and_its_hold_point_say_so(large) -> None:
    # The demo: textured ceilings upstairs, nobody tested them. SM2 hangs on that of the landing, M6 on the wall below it, SM1 a floor further down.
    assert large["fix-SM2"].do[0].startswith("STOP: this is the textured ceiling never tested for asbestos (landing). Not cleared in writing: no hole")
    assert large["fix-SM2"].hold.until.count("SM2: this is the textured ceiling never tested for asbestos (landing)") == 1
    assert "Beside it: textured ceiling never tested for asbestos: keep off it" in told(large["fix-M6"]) and "never tested" not in large["fix-M6"].hold.until
    assert "ever tested" not in told(large["fix-SM1"]) + text(large["fix-SM1"])
    assert "M6, SM2 and S2. Textured ceiling, never tested for asbestos: SM2" in told(large["asbestos"])


def test_a_unit_whose_height_nobody_says_may_hang_on_what_was_never_tested(job_file) -> None:
    def hidden(files) -> None:
        files["job"]["premises"]["storeys"]["ground"]["rooms"]["kitchen"] |= {"untested_walls": "old coating", "name": "Aunt May's Kitchen"}
        files["job"]["devices"]["K1"].pop("height_m", None)
        files["job"]["devices"]["K1"]["room"] = "kitchen"
    assert "old coating here was never tested for asbestos (Aunt May's Kitchen)" in steps(job_file, hidden)["fix-K1"].do[0]


def test_what_was_never_tested_is_asked_for_in_a_new_house_too_and_the_survey_is_quoted_where_it_names_no_room(job_file) -> None:
    def named(files) -> None:
        files["job"]["premises"]["storeys"]["ground"]["rooms"]["kitchen"]["untested_ceiling"] = "old boards"
    survey = premises(hazards=["Old boards in the loft, never tested for asbestos"], built_before="true")
    assert "The survey says: Old boards in the loft" in steps(job_file, survey)["fix-CU"].hold.until
    assert "The survey says" not in steps(job_file, named)["fix-CU"].hold.until
    assert "asbestos" in steps(job_file, premises(built_before="false"))
