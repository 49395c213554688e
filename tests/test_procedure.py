"""Do the steps come in an order in which they can be done, with their cautions before them?

The order of fitting, the hold points and the tests: common practice, no source.
"""

import pytest

from generator.calc.radio.link_limit import link_limit
from generator.calc.results import compute
from generator.intake.job_reader import read_job
from generator.procedure import safety
from generator.procedure.checks import checks_of_unit
from generator.procedure.step import Fact, Step, in_order
from generator.procedure.steps import PHASES, procedure
from generator.terms.problem import JobInvalid


# What the demo's control unit shows of a link.
SCALE = {"On its own scale": "Write the dB. Only bars to be read: “could not test”, with the bars bes"
                             "ide it (4 of 9 or better is good by its papers, and no margin)"}


def of(job_file, *changes):
    papers = read_job(job_file(*changes)).papers
    return papers, compute(papers)


def steps(job_file, *changes) -> dict[str, Step]:
    return {step.id: step for step in procedure(*of(job_file, *changes))}


def test_each_step_comes_after_those_it_waits_for(job_file) -> None:
    found = steps(job_file)
    place = {name: index for index, name in enumerate(found)}
    waits = [(one, name) for name, step in found.items() for one in step.after if one in found]
    assert len(waits) > 40 and all(place[one] < place[name] for one, name in waits)


def test_phases_come_in_their_order(job_file) -> None:
    ranks = [list(PHASES).index(step.phase) for step in steps(job_file).values()]
    assert ranks == sorted(ranks)


def test_nothing_is_drilled_before_every_link_was_checked(job_file) -> None:
    names = list(steps(job_file))
    first_hole = min(names.index(name) for name in names if name.startswith("fix-"))
    assert all(names.index(name) < first_hole for name in names if name.startswith("signal-"))


def test_what_sees_and_silences_is_enrolled_before_what_alarms(job_file) -> None:
    order = [name for name in steps(job_file) if name.startswith("enrol-")]
    assert order == ["enrol-K1", "enrol-S1", "enrol-D1", "enrol-D2", "enrol-D3", "enrol-F1"]


def test_the_account_is_on_test_before_the_first_trigger_and_off_test_at_the_end(job_file) -> None:
    names = list(steps(job_file))
    assert names.index("on-test") < names.index("test-CU") < names.index("off-test")


def test_a_system_that_only_sounds_has_no_account_to_put_on_test(job_file) -> None:
    assert not {"on-test", "off-test"} & set(steps(job_file, lambda f: f["job"].pop("monitoring")))


def supplies(found: dict[str, Step]) -> list[Step]:
    return [step for name, step in found.items() if name.startswith("power-")]


def low(files) -> None:
    """The wired sounder hangs low, so that it is fed when the control unit is."""
    files["job"]["devices"]["S1"].update(room="hall", height_m="2.2")


def test_the_power_order_is_that_of_the_sheet_with_its_reason(job_file) -> None:
    found = supplies(steps(job_file, low))
    assert [step.id for step in found] == ["power-loads", "power-mains", "power-battery"]
    assert all(Fact("Order", "low-voltage loads, mains then standby battery") in step.facts for step in found)
    assert all(Fact("Why", "A flat new battery joined first can hide a charger that does not work.") in step.facts for step in found)


@pytest.mark.parametrize("order, holder, until", [
    (["loads", "mains", "battery"], "power-battery", "Charging voltage is read and within 13.4 to 13.9 V, and polarity is read and right, before the battery is joined."),
    (["loads", "battery", "mains"], "power-battery", "Polarity is read and right, before the battery is joined."),
    (["battery", "loads", "mains"], "power-battery", "Polarity is read and right, before the battery is joined."),
])
def test_the_hold_stands_before_the_battery_and_asks_for_what_can_be_read_then(job_file, order, holder, until) -> None:
    def change(files) -> None:
        files["equipment"]["tern-cu32"]["control_unit"]["power_order"] = order
        low(files)
    found = [(step.id, step.hold.until) for step in supplies(steps(job_file, change)) if step.hold and step.hold.id == "H9"]
    assert found == [(holder, until)]


def test_a_unit_high_up_has_the_ladder_before_every_step_at_its_place(job_file) -> None:
    found = steps(job_file)
    assert all(safety.LADDER in found[f"{what}-S1"].messages for what in ("signal", "fix", "join", "lid"))
    # On the ground before, and sounded when the ladder is away.
    assert not any(safety.LADDER in found[f"{what}-S1"].messages for what in ("enrol", "test"))
    assert safety.SOUNDER in found["enrol-S1"].messages and safety.SOUNDER in found["test-S1"].messages


@pytest.mark.parametrize("ceiling, high", [("2.4", False), ("3.4", True), (None, True)])
def test_a_unit_on_a_ceiling_is_as_high_as_its_room_and_high_where_that_is_not_known(job_file, ceiling, high) -> None:
    def smoke(files) -> None:
        files["equipment"]["smoke"] = files["equipment"]["tern-dc"] | {"kind": "smoke"}
        files["job"]["devices"]["S9"] = {"sheet": "smoke", "room": "hall", "role": "fire", "text": "HALL SMOKE"}
        ground = files["job"]["premises"]["storeys"]["ground"]
        ground.pop("ceiling_m") if ceiling is None else ground.update(ceiling_m=ceiling)
    assert (safety.LADDER in safety.messages_of_unit(of(job_file, smoke)[0], "S9")) == high


def test_what_a_zone_does_and_whose_a_fob_is_stand_where_they_are_programmed(job_file) -> None:
    found = steps(job_file)
    assert Fact("Zone acts as", "timed entry") in found["enrol-D1"].facts
    assert Fact("Belongs to", "user 1, householder") in found["enrol-F1"].facts
    assert Fact("Automatic test", "every 24 h at 03:30", "job.monitoring.test_interval_h") in found["set-tests"].facts


def test_a_step_holds_the_numbers_it_needs(job_file) -> None:
    step = steps(job_file)["signal-D1"]
    assert {fact.name: fact.value for fact in step.facts} == {
        "Zone 1": "HALL FRONT DR", "Serial": "00A4F3", "Room": "hall", "Margin at least": "15 dB (common practice)", **SCALE}


def test_mains_is_isolated_before_the_cover_comes_off_and_says_who_decides(job_file) -> None:
    step = steps(job_file)["isolate"]
    message = step.messages[0]
    whole = " ".join((message.avoid, message.defers_to)).lower()
    assert message.word is safety.Word.DANGER
    assert all(words in whole for words in ("isolate", "prove it dead", "fixed wiring", "local wiring code", "licensed electrician"))


@pytest.mark.parametrize("unit, expected", [
    ("D1", ["asbestos", "drilling", "dust", "lithium"]),
    ("D3", ["asbestos", "terminals", "drilling", "dust", "lithium", "static"]),
    ("S1", ["asbestos", "ladder", "terminals", "drilling", "dust", "lithium", "sounder", "static"]),
    ("CU", ["wiring", "asbestos", "live", "drilling", "dust", "battery", "static"]),
    ("F1", ["lithium", "implants"]),
])
def test_a_unit_brings_the_cautions_of_its_own_hazards_only(job_file, unit: str, expected: list[str]) -> None:
    papers, _ = of(job_file)
    assert [one.id for one in safety.messages_of_unit(papers, unit)] == expected


def test_a_button_cell_is_a_danger_only_where_children_are(job_file) -> None:
    papers, _ = of(job_file, lambda f: f["job"]["premises"].update(children="true"))
    assert [one.id for one in safety.messages_of_unit(papers, "F1")] == ["button-cell", "lithium", "implants"]


def test_a_house_known_to_be_new_has_no_asbestos_step(job_file) -> None:
    assert "asbestos" not in steps(job_file, lambda f: f["job"]["premises"].update(built_before="false"))


def test_property_and_practice_are_never_shouted_as_danger() -> None:
    assert {one.id for one in safety.EVERY if one.word is safety.Word.DANGER} == {"wiring", "asbestos", "ladder", "button-cell", "live"}


@pytest.mark.parametrize("unit, limit", [("D1", "link_margin_main_db"), ("D2", "link_margin_db"), ("S1", "link_margin_main_db"),
                                         ("K1", "link_margin_db")])
def test_what_matters_most_needs_the_larger_margin(job_file, unit: str, limit: str) -> None:
    assert link_limit(of(job_file)[0], unit) == limit


def test_a_check_names_its_limit_and_how_that_is_known(job_file) -> None:
    check = next(one for one in checks_of_unit(*of(job_file), "D2") if one.what == "Lid tamper")
    assert check.accept == "Opened unset, it is shown within 10 s; with one unit of each kind also set."
    assert check.source == "EN 50131 series, intruder and hold-up systems (from memory)"


def test_only_two_way_units_are_read_in_both_directions(job_file) -> None:
    found = steps(job_file)
    assert "both directions" in " ".join(found["signal-K1"].do) and "both directions" not in " ".join(found["signal-D1"].do)


def test_a_unit_without_a_number_is_not_enrolled(job_file) -> None:
    def short(files) -> None:
        files["equipment"]["tern-cu32"]["control_unit"]["lists"]["zones"] = "3"
    step = steps(job_file, short)["enrol-D1"]
    assert step.title == "D1 has no number" and "Do not enrol it" in step.do[0]


def test_steps_that_wait_for_each_other_are_named() -> None:
    one, two, three = (Step(name, "test", name, (), (after,)) for name, after in (("a", "c"), ("b", "a"), ("c", "b")))
    with pytest.raises(JobInvalid) as caught:
        in_order([one, two, three])
    assert caught.value.problems[0].one_line() == (
        'the steps of the day: these steps wait for each other, so that none can be the first: "a", "c", "b". This is a mistake of the program, '
        'not of the job file: report the steps named here.')


def test_the_order_does_not_change_what_need_not_change() -> None:
    free = [Step(name, "test", name, ()) for name in "dbca"]
    assert [step.id for step in in_order(free)] == list("dbca")


def test_every_unit_is_fixed_enrolled_and_tested_once(job_file) -> None:
    names = list(steps(job_file))
    assert len(names) == len(set(names))
    units = ("CU", "D1", "D2", "D3", "K1", "S1", "F1")
    assert sorted(name for name in names if name.startswith("test-")) == sorted(f"test-{one}" for one in units)
