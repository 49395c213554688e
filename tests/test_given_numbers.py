"""Do units keep the numbers that were given, do ranges stay free, do neighbours stand side by side, and does each say why?"""
import copy
from dataclasses import replace

import pytest

from generator.calc.results import compute
from generator.calc.slots.slots import SlotMap, slot_map
from generator.intake.job_reader import read_job
from generator.model.frozen import Frozen, Resting
from generator.pages.installer.slots import slots_page
from generator.pipeline import compile_job
from generator.procedure.handling import filled
from generator.rules.all_rules import judge
from generator.terms.problem import JobInvalid
from tests.conftest import Files
from tests.test_slots import add, papers_of, zones


def update(name: str, **keys):
    return lambda files: files["job"]["devices"][name].update(keys)


def reserved(*ranges: tuple):
    """Ranges of zones; a third part is the list."""
    def change(files: Files) -> None:
        files["job"]["reserved"] = [{"list": one[2] if len(one) > 2 else "zones", "first": str(one[0]), "last": str(one[1]),
                                     "why": "kept for the greenhouse"} for one in ranges]
    return change


def lists(**lengths: str):
    return lambda files: files["equipment"]["tern-cu32"]["control_unit"]["lists"].update(lengths)


def why(slots: SlotMap, device: str) -> str:
    return slots.of(device)[0].why


def stops(papers) -> list:
    verdicts = judge(papers, compute(papers))
    return [one.hit for verdict in verdicts if verdict.rule == "numbers-do-not-fit" for one in verdict.findings]


# --- why ----------------------------------------------------------------------------------------------------

def test_a_pin_says_who_wants_it(job_file) -> None:
    slots = slot_map(papers_of(job_file, update("D2", number="7", number_why="the customer's old list says 7")))
    assert why(slots, "D2") == "pinned in the job file: the customer's old list says 7"


def test_a_number_behind_a_range_says_what_it_was_pushed_past(job_file) -> None:
    slots = slot_map(papers_of(job_file, reserved((9, 11)), update("D1", number="12")))
    assert {row.zone: row.device for row in slots.rows if row.list == "zones"} == {5: "D2", 12: "D1", 13: "D3", 14: "D3"}
    assert why(slots, "D3") == (
        "the only one of block perimeter; the profile starts it at 9, which stays free; past 9 to 11 (kept free) and 12 (D1)")


def test_the_first_of_a_block_says_that_the_profile_starts_it_there(job_file) -> None:
    assert why(slot_map(papers_of(job_file)), "D2") == "the only one of block route; the profile starts it here"


def test_a_unit_says_whom_it_follows_and_not_the_whole_order(job_file) -> None:
    slots = slot_map(papers_of(job_file, add("A1", protects="kitchen-window"), add("A2", protects="kitchen-window")))
    assert (why(slots, "A1"), why(slots, "A2")) == ("follows D3", "follows A1")
    assert slots.of("D3")[1].why == "second input of D3"
    assert why(slots, "K1") == "first"


def test_what_was_stepped_over_is_told_as_a_span_and_not_unit_by_unit(job_file) -> None:
    pins = [add(f"A{index}", protects="kitchen-window") for index in range(3)]
    pins += [update(f"A{index}", number=str(9 + index)) for index in range(3)]
    slots = slot_map(papers_of(job_file, *pins, reserved((1, 3), (6, 8)), lists(zones="13")))
    assert why(slots, "D3").endswith("; past 6 to 8 (kept free) and 9 to 11 (taken)")


def test_a_reason_for_a_number_that_is_not_there_is_answered_at_its_line(job_file) -> None:
    path = job_file(update("D2", number_why="the customer's old list says 7"))
    with pytest.raises(JobInvalid) as invalid:
        compile_job(path)
    (one,) = invalid.value.problems
    assert (one.field, one.says) == ("devices.D2.number_why", "this says why the unit wants a number, and no number stands here.")
    assert one.do == "Write number: for it, or take number_why: out."
    assert "number_why" in path.read_text().splitlines()[one.line - 1][one.column - 1:]


# --- neighbours ---------------------------------------------------------------------------------------------

def test_the_later_of_two_moves_next_to_the_earlier_and_says_so(job_file) -> None:
    slots = slot_map(papers_of(job_file, add("A1", protects="kitchen-window"), update("D2", next_to="A1")))
    assert {row.zone: row.device for row in slots.rows if row.list == "zones"} == {1: "D1", 5: "D2", 6: "A1", 9: "D3", 10: "D3"}
    assert why(slots, "A1").startswith("next to D2, as the job file asks, with D2 in its place: first of block route")


def test_who_must_stand_next_to_a_pinned_unit_moves_to_it(job_file) -> None:
    slots = slot_map(papers_of(job_file, update("D1", number="9"), update("D3", next_to="D1")))
    # 7 and 8 are smaller than 10 and 11, and leave as much spare.
    assert {row.zone: row.device for row in slots.rows if row.list == "zones"} == {5: "D2", 7: "D3", 8: "D3", 9: "D1"}
    assert why(slots, "D3") == "next to D1, as the job file asks; the number of D1 is given"


def test_a_row_of_three_stands_in_the_place_of_its_earliest(job_file) -> None:
    changes = [add("A1", protects="kitchen-window"), add("A2", protects="kitchen-window"),
               update("A1", next_to="D1"), update("A2", next_to="D1")]
    assert list(zones(papers_of(job_file, *changes)).items())[:3] == [(1, "A1"), (2, "D1"), (3, "A2")]


# --- frozen -------------------------------------------------------------------------------------------------

FROZEN = Frozen({"zones": {"D1": 1, "D2": 5, "D3": 9}, "keypads": {"K1": 3}},
                (Resting("zones", 11, "D8 was removed in revision 2, until 14 Sep 2027"),), "frozen since revision 2")


def test_frozen_units_stay_and_an_added_one_moves_nobody(job_file) -> None:
    papers = replace(papers_of(job_file, add("A0", protects="kitchen-window", text="A FIRST TEXT")), frozen=FROZEN)
    slots = slot_map(papers)
    found = {(row.list, row.zone or row.number): row.device for row in slots.rows if row.device}
    assert found == {("zones", 1): "D1", ("zones", 5): "D2", ("zones", 9): "D3", ("zones", 10): "D3", ("zones", 12): "A0",
                     ("keypads", 3): "K1", ("sounders", 1): "S1", ("fobs", 1): "F1"}
    assert why(slots, "D1") == "its number from before, frozen since revision 2"
    assert why(slots, "A0") == ("next of block perimeter; behind its numbers from before, up to 10; past 11 (at rest)")


def test_a_unit_that_the_job_no_longer_holds_is_passed_over(job_file) -> None:
    assert zones(replace(papers_of(job_file), frozen=Frozen({"zones": {"X9": 1}})))[1] == "D1"


def test_a_second_input_that_has_no_room_beside_its_frozen_unit_is_named_with_its_mend(job_file) -> None:
    papers = papers_of(job_file, add("A0", protects="kitchen-window"))
    hit, = stops(replace(papers, frozen=Frozen({"zones": {"D3": 9, "A0": 10}}, since="frozen since revision 1")))
    assert hit.at == "job.devices.D3.use_input_2"
    assert hit.says == ("In the list of zones these cannot be kept together: the second input of D3; number 9, which D3 has had before "
                        "(frozen since revision 1); number 10, which A0 has had before (frozen since revision 1); units D3 and A0. "
                        "Without any one of them the others fit.")
    assert hit.do == "Leave the second input of D3 unused (4 of 32 numbers taken then). Or: Take out D3 or A0."


def test_a_pin_against_a_frozen_number_is_a_contradiction(job_file) -> None:
    hit, = stops(replace(papers_of(job_file, update("D1", number="7")), frozen=FROZEN))
    assert hit.at == "job.devices.D1.number" and hit.do.startswith("Let D1 have another number than 7.")


def test_two_contradictions_are_two_findings(job_file) -> None:
    papers = papers_of(job_file, update("D1", number="7"), update("D2", number="8"))
    assert [one.at for one in stops(replace(papers, frozen=FROZEN))] == ["job.devices.D1.number", "job.devices.D2.number"]


# --- what takes how many ------------------------------------------------------------------------------------

def apart(files: Files) -> None:
    files["equipment"]["tern-cu32"]["control_unit"]["slot_is_zone"] = "false"


def wired(files: Files) -> None:
    files["equipment"]["tern-wired"] = copy.deepcopy(files["equipment"]["tern-dc"]) | {"slots": "0"}
    files["job"]["devices"]["W1"] = {"sheet": "tern-wired", "protects": "kitchen-window", "role": "immediate", "text": "WIRED WINDOW"}


def test_a_wired_unit_takes_a_zone_and_no_slot(job_file) -> None:
    slots = slot_map(papers_of(job_file, apart, wired, lists(slots="3", wired_inputs="1")))
    assert [(row.number, row.zone, row.device) for row in slots.rows if row.list == "zones"] == [
        (1, 1, "D1"), (2, 5, "D2"), (3, 9, "D3"), (3, 10, "D3"), (11, 11, "W1")]


def test_more_wired_units_than_circuits_are_a_finding(job_file) -> None:
    hit, = stops(papers_of(job_file, wired))
    assert hit.says.startswith("1 number of the wired inputs needed, 0 available.")


def test_a_unit_with_two_slots_takes_two_numbers_where_slot_and_zone_are_one(job_file) -> None:
    def double(files: Files) -> None:
        files["equipment"]["tern-pir12"]["slots"] = "2"
    assert zones(papers_of(job_file, double, update("D2", next_to="D3"))) == {1: "D1", 5: "D2", 7: "D3", 8: "D3"}


def test_slots_have_frozen_numbers_of_their_own(job_file) -> None:
    papers = replace(papers_of(job_file, apart), frozen=Frozen({"slots": {"D1": 4}}))
    assert [(row.number, row.zone, row.device) for row in slot_map(papers).rows if row.list == "zones"] == [
        (4, 1, "D1"), (1, 5, "D2"), (2, 9, "D3"), (2, 10, "D3")]


def test_too_few_slots_leave_no_unit_with_half_a_number(job_file) -> None:
    papers = papers_of(job_file, apart, lists(slots="2"))
    assert [row for row in slot_map(papers).rows if row.list == "zones"] == []
    assert stops(papers)[0].says.startswith("3 numbers of the slots needed, 2 available.")


def hold_up_key(files: Files) -> None:
    files["equipment"]["tern-fob"]["inputs"] = [{"name": "hold-up key", "optional": "true"}]


def test_a_fob_takes_a_zone_only_if_its_hold_up_key_is_used(job_file) -> None:
    assert [row.list for row in slot_map(papers_of(job_file, hold_up_key)).of("F1")] == ["fobs"]
    papers = papers_of(job_file, hold_up_key, update("F1", use_input_2="true", role="hold-up", text="FOB 1 HOLD-UP"))
    assert [(row.list, row.number, row.input) for row in slot_map(papers).of("F1")] == [("zones", 13, "hold-up key"), ("fobs", 1, "")]
    assert filled("{number}, {zone}, {text}", papers, compute(papers), "F1") == "1, 13, FOB 1 HOLD-UP"


# --- the order ----------------------------------------------------------------------------------------------

def test_zone_1_is_the_entry_door_whose_room_is_listed_first(job_file) -> None:
    def doors(files: Files) -> None:
        # A timed detector in the first room, and two doors by which people come in.
        files["job"]["premises"]["storeys"]["ground"]["openings"]["back-door"]["entry"] = "true"
        files["job"]["devices"]["D2"]["role"] = "timed-entry"
        files["job"]["devices"]["D3"]["role"] = "timed-entry"
    assert zones(papers_of(job_file, doors)) == {1: "D1", 2: "D3", 3: "D3", 4: "D2"}


# --- row 4: one number too few ------------------------------------------------------------------------------

def twenty_nine(files: Files) -> None:
    """29 units that report to zones, of which four contacts use their second input."""
    devices = files["job"]["devices"]
    del devices["D3"]
    for number in range(3, 30):
        device = {"sheet": "tern-dc", "protects": "kitchen-window", "role": "immediate", "text": f"T {number:02}"}
        if number in (3, 7, 11, 29):
            device |= {"sheet": "tern-dc2", "use_input_2": "true", "text_2": f"U {number:02}"}
        devices[f"D{number}"] = device


def test_29_units_with_four_second_inputs_need_33_of_32_zones(job_file) -> None:
    papers = papers_of(job_file, twenty_nine)
    hit, = stops(papers)
    assert hit.at == "job.control_unit.sheet"
    assert hit.says == ("33 numbers of the zones needed, 32 available. D3, D7, D11 and D29 take more than one. Spare would be -1; "
                        "the profile wants at least 3.2 (10 % of 32).")
    assert hit.do == ("Leave the second input of D3, D7, D11 or D29 unused (32 of 32 numbers taken then). "
                      "Or: Take out one of 29 units, for example D29. Or: Choose a control unit with 33 zones.")
    assert [(one.name, one.value, one.origin) for one in hit.values] == [
        ("needed", "33", "job.devices"),
        ("available", "32", "sheet tern-cu32: control_unit.lists.zones"),
        *[("takes more than one", name, f"job.devices.{name}.use_input_2") for name in ("D3", "D7", "D11", "D29")],
        ("spare", "-1", "slot map"),
        ("spare wanted", "3.2 (10 % of 32)", "Habit of the trade, no document (common practice)")]


@pytest.mark.parametrize("name", ["D3", "D7", "D11", "D29"])
def test_the_mend_that_row_4_names_mends(job_file, name: str) -> None:
    def mend(files: Files) -> None:
        for key in ("use_input_2", "text_2"):
            del files["job"]["devices"][name][key]
    papers = papers_of(job_file, twenty_nine, mend)
    assert stops(papers) == [] and len(zones(papers)) == 32


def test_two_too_many_need_two_second_inputs_less(job_file) -> None:
    hit, = stops(papers_of(job_file, twenty_nine, add("D30", protects="kitchen-window")))
    assert hit.says.startswith("34 numbers of the zones needed, 32 available.")
    assert hit.do == ("Leave the second inputs of D11 and D29 unused (32 of 32 numbers taken then). "
                      "Or: Take out D3, D7, D11 or D29. Or: Choose a control unit with 34 zones.")


def test_numbers_kept_free_are_counted_and_freeing_one_is_a_mend(job_file) -> None:
    hit, = stops(papers_of(job_file, reserved((2, 8), (12, 30)), lists(zones="30"), add("D30", protects="kitchen-window")))
    assert hit.says.startswith("5 numbers of the zones needed, 4 available: 30, of which 26 stay free.")
    assert "Free number 2." in hit.do and "Choose a control unit with 31 zones." in hit.do


# --- bad input ----------------------------------------------------------------------------------------------

def answers(job_file, *changes) -> list[tuple[str, str]]:
    with pytest.raises(JobInvalid) as caught:
        read_job(job_file(*changes))
    return [(one.field, f"{one.says} {one.do}") for one in caught.value.problems]


@pytest.mark.parametrize("change, field, says", [
    (reserved((24, 20)), "reserved.0.last", "24 to 20 runs backwards. Write the smaller number first."),
    (reserved((30, 33)), "reserved.0.last", "number 33 lies past the end of the zones. Write a range that ends at 32 or before: "
     "the control unit has no more."),
    (reserved((20, 24), (24, 25)), "reserved.1.first", "number 24 of the zones stays free already, by line "),
    (reserved((1, 32)), "reserved.0.first", "with this range no number of the zones is left. Leave some of the 32 to be used."),
    (reserved((17, 32), (1, 16)), "reserved.1.first", "with this range no number of the zones is left."),
    (reserved((3, 3, "slots")), "reserved.0.list", "slot and zone are one number here. Write zones."),
    (reserved((2, 2, "users")), "users.2", "number 2 of the users stays free, by line "),
    (update("D2", next_to="D2"), "devices.D2.next_to", "a unit cannot stand next to itself."),
    (update("D2", next_to="D33"), "devices.D2.next_to", 'there is no unit "D33". Did you mean "D3"?'),
    (update("D2", next_to="K1"), "devices.D2.next_to", "D2 has its number among the zones, K1 among the keypads. "
     "Name a unit of the same list, or take next_to: out."),
])
def test_what_cannot_stand_together_is_answered_at_its_line(job_file, change, field: str, says: str) -> None:
    (found, text), = answers(job_file, change)
    assert found == field and text.startswith(says)


@pytest.mark.parametrize("number, kept", [("10", (10, 12)), ("9", (10, 12))])
def test_a_pin_on_a_number_that_stays_free_is_answered_even_by_its_second_number(job_file, number: str, kept) -> None:
    (field, text), = answers(job_file, update("D3", number=number), reserved(kept))
    assert field == "devices.D3.number" and text.startswith("number 10 of the zones stays free, by line ")


def test_each_answer_stands_at_the_line_of_what_it_speaks_of(job_file) -> None:
    path = job_file(update("D2", number="9"), reserved((9, 9)))
    with pytest.raises(JobInvalid) as caught:
        read_job(path)
    problem, = caught.value.problems
    written = path.read_text(encoding="utf-8").splitlines()
    assert '"number": "9"' in written[problem.line - 1]
    kept_line = int(problem.says.rpartition("line ")[2].rstrip("."))
    assert written[kept_line - 1].strip() == "{" and '"list": "zones"' in written[kept_line]


# --- the page -----------------------------------------------------------------------------------------------

def test_the_page_shows_what_stays_free_and_the_spare_of_each_block(job_file) -> None:
    papers = papers_of(job_file, reserved((20, 24)))
    view = slots_page(papers, compute(papers), {}, ()).view
    shown = next(one for one in view.lists if one.id == "zones")
    assert [(one.name, one.value) for one in shown.kept] == [("Numbers 20 to 24", "kept for the greenhouse")]
    assert [(cell.taken, cell.text) for cell in view.picture[18:20]] == [(False, "19: free"), (False, "20: stays free, kept for the greenhouse")]
    assert (view.blocks[-1].name, view.blocks[-1].value) == (
        "9 to 10 Perimeter:", "doors and windows of the house; 17 free behind it, 2 wanted. At 9: the profile starts it here.")


PARTITIONS = {"1": {"name": "house"}, "2": {"name": "annexe"}}


def test_partitions_have_their_names_and_a_unit_without_one_belongs_to_the_first(job_file) -> None:
    compiled = compile_job(job_file(lambda f: f["job"].update(partitions=PARTITIONS),
                                    lambda f: f["job"]["devices"]["D3"].update(partition="2")))
    rows = [(row.number, row.text) for row in compiled.results.slots.rows if row.list == "partitions"]
    assert rows == [(1, "house"), (2, "annexe")]
    papers = compiled.papers
    assert [papers.partition_of(papers.job.devices[name]) for name in ("D1", "D3")] == [1, 2]


def test_a_house_without_partitions_is_one(job_file) -> None:
    rows = [row for row in compile_job(job_file()).results.slots.rows if row.list == "partitions"]
    assert [(row.number, row.text, row.why) for row in rows] == [(1, "Thrift Cottage", "the whole house is one partition")]


def test_more_partitions_than_the_control_unit_has_stop_with_both_numbers(job_file) -> None:
    compiled = compile_job(job_file(lambda f: f["job"].update(partitions=PARTITIONS | {"3": {"name": "shed"}})))
    assert [(one.list, one.needed, one.available) for one in compiled.results.slots.no_room] == [("partitions", 3, 2)]
    assert compiled.stops


def test_a_partition_that_is_not_there_is_answered_at_its_line(job_file) -> None:
    with pytest.raises(JobInvalid) as caught:
        read_job(job_file(lambda f: f["job"].update(partitions=PARTITIONS), lambda f: f["job"]["devices"]["D3"].update(partition="4")))
    assert [(one.field, one.says) for one in caught.value.problems] == [("devices.D3.partition", 'there is no partition "4".')]
