"""Which number does each unit have, and why that one?

Each list of the control unit is a task of its own (`tasks.py`); what its numbers must keep, and which of all that keep it
are chosen, is the law (`law.py`); what keeps a list from being numbered is a reason (`reasons.py`).
"""
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from generator.calc.slots.blocks import Blocks, BlockUse
from generator.calc.slots.law import Kind, Settled, Task, feasible, kept_free, settle, sizes
from generator.calc.slots.onward import NextNumbers, next_numbers
from generator.calc.slots.reasons import NoRoom, no_room
from generator.calc.slots.tasks import list_task, slot_task, wired_task, zone_task
from generator.calc.slots.whys import Whys, second_input
from generator.model.lists import LISTS, length_of, used_inputs
from generator.model.papers import Papers


@dataclass(frozen=True)
class Row:
    """One number that is taken.

    `zone` is None outside the list of zones; for a zone `number` is the first slot of its unit, or the zone where the unit
    takes no slot. `device` is "" where no unit stands for it; `text_field` is the field of the job that gives the text of a
    zone, "" elsewhere; `since` is the revision in which the number was given, 0 if that is yet to be issued.
    """

    list: str
    number: int
    zone: int | None
    device: str
    input: str
    text: str
    why: str
    text_field: str = ""
    since: int = 0

    @property
    def reason(self) -> str:
        """Why it is this number, and in which revision it was given."""
        return f"given in revision {self.since}: {self.why}" if self.since else self.why


@dataclass(frozen=True)
class KeptFree:
    """Numbers of a list that nobody gets, and why."""

    list: str
    first: int
    last: int
    why: str


@dataclass(frozen=True)
class SlotMap:
    """Every number taken, the blocks of the zones, what units added to them would get, the numbers kept free, the length of
    each list, the lists that are too short, and whether the job was issued."""

    rows: tuple[Row, ...]
    blocks: tuple[BlockUse, ...]
    next: tuple[NextNumbers, ...]
    kept: tuple[KeptFree, ...]
    length: Mapping[str, int]
    no_room: tuple[NoRoom, ...]
    issued: bool = False

    @property
    def zones_fit(self) -> bool:
        """Whether the zones have numbers: with slots for what takes slots, and circuits for what hangs on a wire."""
        return not any(gap.list in ("zones", "slots", "wired inputs") for gap in self.no_room)

    def of(self, device: str) -> tuple[Row, ...]:
        """The numbers of one unit, the first input first."""
        return tuple(row for row in self.rows if row.device == device)


def slot_map(papers: Papers) -> SlotMap:
    """The numbers of every list of the control unit."""
    unit = papers.sheet_of[papers.job.control_unit.id]
    rows, blocks, onward, tasks, missing = _zones(papers)
    for kind in ("keypads", "sounders", "fobs", "tags", "repeaters"):
        task = list_task(papers, kind)
        tasks.append(task)
        settled = settle(task)
        rows += _list_rows(task, settled) if settled else []
        missing += [] if settled else [no_room(task)]
    length = {name: length_of(unit, name) for name in (*LISTS, "slots")}
    for found, gaps in (_users(papers, length["users"]), _partitions(papers, length["partitions"])):
        rows += found
        missing += gaps
    return SlotMap(tuple(rows), blocks, onward, tuple(_kept(tasks)), length, tuple(missing), papers.frozen.issued)


def _zones(papers: Papers) -> tuple[list[Row], tuple[BlockUse, ...], tuple[NextNumbers, ...], list[Task], list[NoRoom]]:
    """Zones and slots. Without either, no unit has a number: it could not be enrolled."""
    unit = papers.sheet_of[papers.job.control_unit.id].control_unit
    zones = zone_task(papers)
    settled = settle(zones)
    tasks, slots = [zones], None
    if not unit.slot_is_zone:
        tasks.append(slot_task(papers, settled.number if settled else {}))
        slots = settle(tasks[-1])
    missing = [no_room(task) for task in (*tasks, wired_task(papers)) if not feasible(task)]
    if missing:
        return [], (), (), tasks, missing
    slot = slots.number if slots else {}
    blocks = Blocks(zones, settled, papers.profile.blocks)
    onward = next_numbers(zones, settled, papers.profile.blocks, min(map(_left, tasks)))
    return list(_zone_rows(papers, Whys(zones, settled, blocks), settled, slot)), tuple(blocks.uses()), tuple(onward), tasks, []


def _left(task: Task) -> int:
    """How many numbers of a list that fits are left."""
    return task.length - sum(sizes(task).values()) - len(kept_free(task))


def _zone_rows(papers: Papers, whys: Whys, settled: Settled, slot: Mapping[str, int]) -> Iterator[Row]:
    for one in sorted(settled.number, key=settled.number.__getitem__):
        device = papers.job.devices[one]
        for index, sensed in enumerate(used_inputs(device, papers.sheet_of[one])):
            zone = settled.number[one] + index
            key = "text_2" if index else "text"
            yield Row("zones", slot.get(one, zone), zone, one, sensed, getattr(device, key),
                      second_input(one) if index else whys.of(one), f"job.devices.{one}.{key}")


def _list_rows(task: Task, settled: Settled) -> list[Row]:
    whys = Whys(task, settled)
    return [Row(task.list, number, None, one, "", "", whys.of(one))
            for one, number in sorted(settled.number.items(), key=lambda pair: pair[1])]


def _kept(tasks: list[Task]) -> Iterator[KeptFree]:
    for task in tasks:
        for one in task.of(Kind.KEPT, Kind.RESTING):
            yield KeptFree(task.list, one.first, one.last, f"rests: {one.why}" if one.kind is Kind.RESTING else one.why)


def _users(papers: Papers, length: int) -> tuple[list[Row], list[NoRoom]]:
    numbers = sorted(papers.job.users)
    if numbers and numbers[-1] > length:
        return [], [NoRoom("users", numbers[-1], length)]
    return [Row("users", one, None, "", "", papers.job.users[one].who, "given in the job file") for one in numbers], []


def _partitions(papers: Papers, length: int) -> tuple[list[Row], list[NoRoom]]:
    names = papers.partitions()
    if max(names) > length:
        return [], [NoRoom("partitions", max(names), length)]
    why = "given in the job file" if papers.job.partitions else "the whole house is one partition"
    return [Row("partitions", number, None, "", "", name, why) for number, name in names.items()], []
