"""Does every unit have the number that the trade's order gives it? Order of zones: common practice, no source."""
import copy

import pytest

from generator.calc.results import compute
from generator.calc.slots.slots import slot_map
from generator.intake.job_reader import read_job
from tests.conftest import Files


def papers_of(job_file, *changes):
    return read_job(job_file(*changes)).papers


def zones(papers) -> dict[int, str]:
    return {row.zone: row.device for row in slot_map(papers).rows if row.list == "zones"}


def add(name: str, **keys):
    def change(files: Files) -> None:
        files["job"]["devices"][name] = {"sheet": "tern-dc", "role": "immediate", "text": f"T {name}", **keys}
    return change


def test_the_demo_has_the_numbers_that_the_order_gives(job_file) -> None:
    # Entry door from 1, the hall on the way to the keypad from 5, doors and windows from 9, a double unit side by side.
    assert zones(papers_of(job_file)) == {1: "D1", 5: "D2", 9: "D3", 10: "D3"}


def test_a_door_comes_before_a_window_and_a_room_before_the_next(job_file) -> None:
    def openings(files: Files) -> None:
        files["job"]["premises"]["storeys"]["ground"]["openings"] |= {
            "lounge-window": {"kind": "window", "wall": ["lounge", "outside"]},
            "lounge-door": {"kind": "door", "wall": ["lounge", "outside"]}}
    found = zones(papers_of(job_file, openings, add("A1", protects="lounge-window"), add("A2", protects="lounge-door"),
                            add("A3", protects="kitchen-window")))
    assert found == {1: "D1", 5: "D2", 9: "D3", 10: "D3", 11: "A3", 12: "A2", 13: "A1"}


def test_a_unit_whose_second_circuit_watches_an_entry_door_stands_with_the_ways_in(job_file) -> None:
    def second(files: Files) -> None:
        files["job"]["devices"]["D3"] |= {"role": "timed-entry", "protects": "kitchen-window", "protects_2": "back-door"}
        files["job"]["premises"]["storeys"]["ground"]["openings"]["back-door"]["entry"] = "true"

    def without(files: Files) -> None:
        files["job"]["devices"]["D3"].pop("protects_2")

    # A unit in the hall, an earlier room than the kitchen, that watches no door.
    hall = add("W1", room="hall", role="timed-entry", text="A")
    assert list(zones(papers_of(job_file, second, hall)).values())[:4] == ["D1", "D3", "D3", "W1"]
    assert list(zones(papers_of(job_file, second, hall, without)).values())[:4] == ["D1", "W1", "D3", "D3"]


def test_fire_stands_at_the_high_end(job_file) -> None:
    def smoke(files: Files) -> None:
        files["equipment"]["smoke"] = copy.deepcopy(files["equipment"]["tern-dc"]) | {"kind": "smoke"}
        files["job"]["devices"]["S9"] = {"sheet": "smoke", "room": "hall", "role": "fire", "text": "HALL SMOKE"}
    assert zones(papers_of(job_file, smoke))[29] == "S9"


def test_a_pinned_unit_keeps_its_number_and_the_others_go_round_it(job_file) -> None:
    found = zones(papers_of(job_file, lambda f: f["job"]["devices"]["D2"].update(number="9")))
    # 9, where doors and windows begin, is taken: they move up as far as the spare behind the entry door allows.
    assert found == {1: "D1", 4: "D3", 5: "D3", 9: "D2"}


def test_an_outbuilding_has_a_block_of_its_own(job_file) -> None:
    def shed(files: Files) -> None:
        files["job"]["premises"]["storeys"]["shed"] = {
            "outbuilding": "true", "rooms": {"shed": {}}, "openings": {"shed-door": {"kind": "door", "wall": ["shed", "outside"]}}}
    papers = papers_of(job_file, shed, add("B1", protects="shed-door"))
    assert [block.name for block in slot_map(papers).blocks] == ["entry", "route", "perimeter", "outbuildings"]


def test_where_slot_and_zone_are_one_the_shorter_limit_counts(job_file) -> None:
    def short(files: Files) -> None:
        files["equipment"]["tern-cu32"]["control_unit"]["lists"]["slots"] = "3"
    gap = slot_map(papers_of(job_file, short)).no_room
    assert [(one.list, one.needed, one.available, one.two_numbers) for one in gap] == [("zones", 4, 3, ("D3",))]


def test_where_they_differ_slots_are_counted_on_their_own(job_file) -> None:
    def apart(files: Files) -> None:
        files["equipment"]["tern-cu32"]["control_unit"]["slot_is_zone"] = "false"
    rows = [row for row in slot_map(papers_of(job_file, apart)).rows if row.list == "zones"]
    assert [(row.number, row.zone, row.device) for row in rows] == [(1, 1, "D1"), (2, 5, "D2"), (3, 9, "D3"), (3, 10, "D3")]


@pytest.mark.parametrize("kind, key", [("keypads", "keypads"), ("sounders", "sounders"), ("fobs", "fobs"), ("users", "users")])
def test_a_list_that_is_too_short_is_named_with_both_numbers(job_file, kind: str, key: str) -> None:
    def short(files: Files) -> None:
        files["equipment"]["tern-cu32"]["control_unit"]["lists"][key] = "0"
    needed = 2 if kind == "users" else 1
    assert [(one.list, one.needed, one.available) for one in slot_map(papers_of(job_file, short)).no_room] == [(kind, needed, 0)]


def test_a_number_is_never_given_twice_in_a_list(job_file) -> None:
    rows = slot_map(papers_of(job_file)).rows
    taken = [(row.list, row.zone or row.number) for row in rows]
    assert len(taken) == len(set(taken)) and all(row.why for row in rows)


def test_short_references_are_all_different_and_stay_when_a_unit_is_added(job_file) -> None:
    before = compute(papers_of(job_file)).references
    after = compute(papers_of(job_file, add("Z9", protects="kitchen-window"))).references
    assert len(set(after.values())) == len(after) and after | before == after


def test_references_stay_apart_in_a_thousand_units() -> None:
    from generator.calc.slots.references import short_references

    found = short_references("K-1", [f"D{number}" for number in range(1000)])
    assert len(set(found.values())) == 1000
