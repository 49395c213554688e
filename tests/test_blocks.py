"""Does each block of the zones say why it starts where it does, and what a unit that is added to it would get?

Blocks and their spare: common practice, no source.
"""
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from generator.calc.results import compute
from generator.calc.slots.blocks import Blocks
from generator.calc.slots.law import Demand, Kind, Task, Unit, settle
from generator.calc.slots.onward import next_numbers
from generator.calc.slots.slots import SlotMap, slot_map
from generator.calc.slots.starts import with_starts
from generator.intake.job_reader import read_job
from generator.model.profile import Block
from generator.pages.installer.slots import CAN_MOVE, STAYS, SlotsView, slots_page
from generator.pipeline import compile_job, looked_for, pack_of
from generator.publish.places import own_wording
from generator.terms.audience import Audience
from tests.conftest import DEMO, ROOT, read_files, write_files
from tests.issues import changed, held, issue_on_paper, numbered, with_devices
from tests.test_changes import put_issued
from tests.test_given_numbers import reserved, update
from tests.test_slots import add, papers_of

LARGE = ROOT / "jobs" / "curlew-house" / "job.yaml"
START = date(2026, 10, 5)


def block(name: str, spare: int = 0, start: int | None = None) -> Block:
    return Block.model_construct(name=name, means=name, start=start, start_from_end=None, spare=spare)


def whys(slots: SlotMap) -> dict[str, str]:
    return {one.name: one.why for one in slots.blocks}


def starts(entries: list[Block], units: list[Unit], length: int, *demands: Demand) -> list[str]:
    """Why each block of a list of units starts where it does."""
    asked = tuple(Demand(Kind.UNIT, one.name) for one in units)
    task = Task("zones", length, tuple(units), (*asked, *demands), spare=tuple(one.spare for one in entries))
    task = with_starts(task, [one.start for one in entries])
    return [one.why for one in Blocks(task, settle(task), entries).uses()]


# --- why a block starts where it does -----------------------------------------------------------------------

def test_every_block_of_the_large_demo_says_why_it_starts_where_it_does() -> None:
    assert whys(slot_map(read_job(LARGE).papers)) == {
        "entry": "the profile starts it here", "route": "the profile starts it here", "perimeter": "the profile starts it here",
        "interior": "behind block perimeter, which ends at 21, and 2 free numbers",
        "outbuildings": "behind block interior, which ends at 27, and 2 free numbers",
        "all-hours": "behind block outbuildings, which ends at 33, and 2 free numbers",
        "hold-up": "behind block all-hours, which ends at 37, and 1 free number", "fire": "the profile starts it here"}


A, B = Unit("A", block=0), Unit("B", block=1)


@pytest.mark.parametrize("entries, units, length, demands, why", [
    # Three units of the first block reach over the second's start.
    ([block("a", start=1), block("b", start=3)], [Unit("A", 3), B], 9, (), "the profile starts it at 3, but block a goes up to 3"),
    ([block("a", 2, 1), block("b", start=3)], [A, B], 9, (), "the profile starts it at 3, which would leave block a less than 2 free numbers"),
    ([block("a", start=1), block("b", start=3)], [A, B], 9, (Demand(Kind.KEPT, first=3, last=3),), "the profile starts it at 3, which stays free"),
    ([block("a", start=1), block("b", start=3)], [A, B, Unit("P")], 9, (Demand(Kind.PIN, "P", first=3),), "the profile starts it at 3, which is taken"),
    # At its start it would have no room for its own spare.
    ([block("a", start=1), block("b", 2, 8)], [A, B], 9, (), "the profile starts it at 8, which would cost room, spare or another block's start"),
    ([block("a", start=1), block("b")], [A, B], 9, (), "straight behind block a, which ends at 1"),
    ([block("a", 2, 1), block("b")], [A, B], 3, (), "behind block a, which ends at 1, with 1 of the 2 free numbers wanted there: room is short"),
    ([block("a", 2, 1), block("b")], [A, B], 2, (), "behind block a, which ends at 1, with none of the 2 free numbers wanted there: room is short"),
    ([block("a", 2, 1), block("b")], [B], 4, (), "the first numbers with room for it"),
    ([block("a", 1, 1), block("b")], [A, B], 9, (Demand(Kind.FROZEN, "B", first=5, why="as issued"),), "B keeps it, as issued"),
])
def test_a_block_says_what_put_it_there(entries, units, length, demands, why: str) -> None:
    assert starts(entries, units, length, *demands)[-1] == why


def test_a_block_with_frozen_units_says_so_and_its_new_unit_stands_behind_them(job_file) -> None:
    papers = papers_of(job_file)
    first = issue_on_paper(papers, None, START)
    later = papers_of(job_file, add("A9", protects="kitchen-window", text="A FIRST TEXT"))
    slots = numbered(later, first, START)[1].slots
    assert whys(slots)["perimeter"] == "D3 keeps it, as issued"
    assert slots.of("A9")[0].why.startswith("next of block perimeter; behind its numbers from before, up to 10")


# --- what a unit that is added gets -------------------------------------------------------------------------

SHEETS = {"entry": "D1", "route": "M1", "perimeter": "D3", "interior": "M3", "outbuildings": "D12", "all-hours": "W1", "hold-up": "H1",
          "fire": "SM1"}


def more(papers, like: str, *names: str):
    """The papers with units of one input more, each like one that is there."""
    device = papers.job.devices[like]
    new = {name: device.model_copy(update={"serial": None, "text": f"{name} NEW", "number": None}) for name in names}
    return with_devices(papers, {**papers.job.devices, **new}, {name: papers.sheet_of[like] for name in names})


@pytest.mark.parametrize("name", SHEETS)
def test_what_the_page_promises_is_what_a_unit_gets_that_is_added_after_the_issue(name: str) -> None:
    """For every block of the large demo: the job is issued as it stands, then one unit is added, and two."""
    papers = read_job(LARGE).papers
    promised = next(one for one in compute(papers).slots.next if one.name == name)
    first = issue_on_paper(papers, None, START)
    for names, numbers in ((("ZA",), (promised.one,)), (("ZA", "ZB"), promised.two)):
        slots = numbered(more(papers, SHEETS[name], *names), first, START)[1].slots
        assert {row.zone: row.device for row in slots.rows if row.list == "zones"} == held(first) | dict(zip(numbers, names))


def test_the_next_window_of_the_large_demo_takes_the_room_kept_for_it() -> None:
    found = {one.name: (one.one, one.two, one.with_its_own) for one in compute(read_job(LARGE).papers).slots.next}
    assert found["perimeter"] == (22, (22, 23), True)
    # The fire block is full to the end of the list. 40 is the spare of hold-up, 3 and 4 that of the entry doors.
    assert found["fire"] == (41, (41, 42), False)


def test_a_unit_of_a_block_that_is_empty_takes_no_other_blocks_spare() -> None:
    papers = read_job(DEMO / "job.yaml").papers
    found = {one.name: one.one for one in compute(papers).slots.next}
    # Doors and windows end at 10, and 11 and 12 are kept for the next of them.
    assert (found["perimeter"], found["interior"], found["outbuildings"]) == (11, 13, 13)


def test_without_room_there_is_no_next_number(job_file) -> None:
    def lists(**lengths: str):
        return lambda files: files["equipment"]["tern-cu32"]["control_unit"]["lists"].update(lengths)

    full = slot_map(papers_of(job_file, lists(zones="4")))
    assert {(one.one, one.two) for one in full.next} == {(None, ())}
    one_left = slot_map(papers_of(job_file, lists(zones="5")))
    assert all(one.one and not one.two for one in one_left.next)

    def apart(files) -> None:
        files["equipment"]["tern-cu32"]["control_unit"] |= {"slot_is_zone": "false"}

    # Where they differ, a zone without a slot is no room.
    assert {one.one for one in slot_map(papers_of(job_file, apart, lists(slots="3"))).next} == {None}


def test_a_range_that_stays_free_is_given_to_nobody_who_is_added(job_file) -> None:
    slots = slot_map(papers_of(job_file, reserved((11, 14))))
    assert {one.name: one.one for one in slots.next}["perimeter"] == 15


def test_pins_and_neighbours_stay_where_they_are_when_a_unit_is_added(job_file) -> None:
    papers = papers_of(job_file, update("D1", number="9"), update("D3", next_to="D1"))
    slots = slot_map(papers)
    assert {row.zone for row in slots.rows if row.list == "zones"} == {5, 7, 8, 9}
    assert all(one.one not in (5, 7, 8, 9) for one in slots.next)


def test_blocks_without_units_have_no_task_of_their_own() -> None:
    task = Task("zones", 4, (), (), (1,), (1,))
    (one,) = next_numbers(task, settle(task), [block("a", 1, 1)], 4)
    assert (one.one, one.two, one.with_its_own) == (1, (1, 2), True)


def page_of(job) -> SlotsView:
    """The slot map of the installer's pack."""
    pack = pack_of(job, Audience.INSTALLER, str, looked_for(job, own_wording()))
    return next(page.view for page in pack.pages if page.path == "slots.html")


@settings(max_examples=150, deadline=None)
@given(some.data())
def test_who_is_added_takes_the_room_of_its_block_or_else_nobody_elses_spare(data) -> None:
    """Said again by looking at every number: the room behind each block, and what of it the profile wants kept."""
    count = data.draw(some.integers(1, 4))
    entries = [block(f"b{index}", data.draw(some.integers(0, 3)), data.draw(some.none() | some.integers(1, 12))) for index in range(count)]
    units = [Unit(f"U{at}", data.draw(some.integers(1, 2)), block=at) for at in sorted(data.draw(some.lists(some.integers(0, count - 1), min_size=1, max_size=6)))]
    units = [replace(one, name=f"U{index}") for index, one in enumerate(units)]
    length = data.draw(some.integers(sum(one.size for one in units), 24))
    task = with_starts(Task("zones", length, tuple(units), tuple(Demand(Kind.UNIT, one.name) for one in units),
                            spare=tuple(one.spare for one in entries)), [one.start for one in entries])
    number = settle(task).number
    owner = {number[one.name] + more: one.block for one in units for more in range(one.size)}
    room: dict[int, list[int]] = {index: [] for index in range(count)}
    for free in (one for one in range(1, length + 1) if one not in owner):
        behind = [owner[one] for one in range(1, free) if one in owner]
        if behind:
            room[behind[-1]].append(free)
    kept = {index: set(numbers[:entries[index].spare]) for index, numbers in room.items()}
    for index, found in enumerate(next_numbers(task, settle(task), entries, length - len(owner))):
        nobodys = [one for one in range(1, length + 1) if one not in owner and not any(one in numbers for numbers in kept.values())]
        start = entries[index].start
        if index in owner.values():
            wanted = room[index][:1] or nobodys
        else:
            wanted = [start] if start and start <= length and start not in owner else nobodys
        # Spare behind what is added comes first by the law: near the end of the list that can lead elsewhere.
        roomy = [one for one in wanted if sum(more not in owner for more in range(one + 1, length + 1)) >= entries[index].spare]
        wanted = wanted if roomy else []
        assert (found.one is None) == (len(owner) == length)
        assert not wanted or found.one in wanted


# --- the page -----------------------------------------------------------------------------------------------

def view(papers) -> SlotsView:
    return slots_page(papers, compute(papers), {}, ()).view


def test_the_page_says_before_the_issue_that_numbers_can_move_and_afterwards_that_they_stay(tmp_path) -> None:
    """As the pack's reader sees it, who gets papers from which hidden fields were taken out."""
    path = write_files(read_files(), tmp_path / "job")
    before = page_of(compile_job(path))
    put_issued(compile_job(path), path.parent)
    after = page_of(compile_job(path))
    assert (before.adding.state, after.adding.state) == (CAN_MOVE, STAYS)
    assert before.adding.blocks == after.adding.blocks


def test_the_revision_is_said_once_for_the_page_and_of_a_number_only_where_it_is_another(tmp_path) -> None:
    path = write_files(read_files(), tmp_path / "job")
    put_issued(compile_job(path), path.parent)
    put_issued(compile_job(changed(read_files(), path.parent, add("A1", protects="kitchen-window"))), path.parent, date(2026, 12, 1))
    page = page_of(compile_job(changed(read_files(), path.parent, *(add(name, protects="kitchen-window") for name in ("A1", "A2")))))
    assert page.given == "Numbers were given in revision 1 where a row says nothing else."
    told = {row.number: row.why for one in page.lists if one.id == "zones" for row in one.rows}
    assert told["1"] == "The only one of block entry; the profile starts it here"
    assert told["11"] == "Given in revision 2: next of block perimeter; behind its numbers from before, up to 10"
    assert told["12"] == "New, not issued yet: next of block perimeter; behind its numbers from before, up to 11"


def test_the_page_says_in_words_what_each_block_gives() -> None:
    rows = {one.name: one.value for one in view(read_job(LARGE).papers).adding.blocks}
    assert len(rows) == 8
    assert rows["Doors and windows of the house:"] == "one gets 22; two get 22 and 23."
    assert rows["Fire and carbon monoxide:"] == "one gets 41 (none is free behind its block); two get 41 and 42."


def test_the_page_says_where_there_is_no_room(job_file) -> None:
    def lists(length: str):
        return lambda files: files["equipment"]["tern-cu32"]["control_unit"]["lists"].update(zones=length)

    assert {one.value for one in view(papers_of(job_file, lists("4"))).adding.blocks} == {"no number, there is no room."}
    assert all(one.value.endswith("there is no room for two.") for one in view(papers_of(job_file, lists("5"))).adding.blocks)


def test_the_order_is_said_once_for_a_list_and_not_on_its_rows() -> None:
    page = view(read_job(LARGE).papers)
    zones = next(one for one in page.lists if one.id == "zones")
    assert "door before window before movement" in zones.order
    assert not any("movement, then" in row.why for row in zones.rows) and max(len(row.why) for row in zones.rows) < 100


def test_a_fob_and_a_tag_name_who_has_them() -> None:
    lists = {one.id: one for one in view(read_job(LARGE).papers).lists}
    assert [row.place for row in lists["fobs"].rows] == ["Householder (user 1)", "Second adult of the house (user 2)"]
    assert [row.place for row in lists["tags"].rows] == ["Cleaner (user 3)", "Neighbour who holds a key (user 4)"]


def test_a_fob_of_nobody_names_nobody(job_file) -> None:
    job = compile_job(job_file(lambda files: [one.pop("fob", None) for one in files["job"]["users"].values()]))
    lists = {one.id: one for one in view(job.papers).lists}
    assert [row.place for row in lists["fobs"].rows] == [""]


def test_a_second_input_names_the_opening_of_its_circuit_or_else_what_is_said_of_its_place(job_file) -> None:
    def places(papers) -> dict[str, str]:
        return {row.number: row.place for one in view(papers).lists if one.id == "zones" for row in one.rows}

    assert {number: places(read_job(LARGE).papers)[number] for number in ("12", "16", "20", "31")} == {
        "12": "Dining room, french doors", "16": "Garage, garage window", "20": "Guest room, guest side window", "31": "Workshop, workshop window"}
    said = update("D3", position="lock side; wired contact on the window", protects="back-door")
    assert places(papers_of(job_file, said, lambda files: files["job"]["devices"]["D3"].pop("protects_2")))["10"] == "Kitchen, lock side; wired contact on the window"
    assert places(papers_of(job_file, said, update("D3", protects_2="kitchen-window")))["10"] == "Kitchen, kitchen window"
