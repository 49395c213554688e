"""Which number does each unit have, and why that one?

The zones follow the trade's order: entry doors, the way to the keypad, doors and windows, movement, buildings of their
own, what is always on, hold-up, fire. Within a block: storey, rooms as listed, door before window before movement, text,
name. Units with a number of their own in the job file keep it and stand outside the order. Of all layouts that keep the
order, the one is chosen that leaves most of the spare wanted at the ends of the blocks, then starts most blocks where
the profile says, then has the smallest numbers (`layout.py`).
"""
from collections.abc import Mapping
from dataclasses import dataclass

from generator.calc.layout import Item, lay_out
from generator.model.job import Device
from generator.model.lists import LISTS, length_of, list_of, used_inputs
from generator.model.papers import Papers
from generator.model.premises import OUTSIDE
from generator.model.profile import Block

KIND_RANK = {"door": 0, "garage-door": 0, "hatch": 1, "window": 1, "roof-window": 1}
MOVEMENT_RANK = 2
BLOCK_OF_ROLE = {"timed-entry": "entry", "entry-route": "route", "all-hours": "all-hours", "technical": "all-hours",
                 "hold-up": "hold-up", "medical": "hold-up", "fire": "fire", "carbon-monoxide": "fire"}


@dataclass(frozen=True)
class Row:
    """One number that is taken.

    `zone` is None outside the list of zones; `device` is "" where no unit stands for it; `text_field` is the field of the
    job that gives the text of a zone, "" elsewhere.
    """

    list: str
    number: int
    zone: int | None
    device: str
    input: str
    text: str
    why: str
    text_field: str = ""


@dataclass(frozen=True)
class BlockUse:
    """One block of zone numbers as it came out; `first` and `last` are the numbers of its units, 0 if it is empty."""

    name: str
    means: str
    first: int
    last: int
    taken: int
    spare: int
    spare_wanted: int


@dataclass(frozen=True)
class NoRoom:
    """A list whose units do not fit: how many numbers they need and how many there are.

    `needed` can be smaller than `available`: then numbers given in the job file stand in the way of the order.
    """

    list: str
    needed: int
    available: int
    two_numbers: tuple[str, ...]


@dataclass(frozen=True)
class SlotMap:
    """Every number taken, the blocks of the zones, the length of each list, and the lists that are too short."""

    rows: tuple[Row, ...]
    blocks: tuple[BlockUse, ...]
    length: Mapping[str, int]
    no_room: tuple[NoRoom, ...]

    def of(self, device: str) -> tuple[Row, ...]:
        """The numbers of one unit, the first input first."""
        return tuple(row for row in self.rows if row.device == device)


def slot_map(papers: Papers) -> SlotMap:
    """The numbers of every list of the control unit."""
    unit = papers.sheet_of[papers.job.control_unit.id]
    length = {name: length_of(unit, name) for name in LISTS}
    zones, blocks, missing = _zones(papers, length["zones"])
    rows, no_room = [*zones], [*missing]
    for name in ("keypads", "sounders", "fobs", "tags", "repeaters"):
        found, missing = _plain_list(papers, name, length[name])
        rows += found
        no_room += missing
    for found, missing in (_users(papers, length["users"]), _partitions(papers, length["partitions"])):
        rows += found
        no_room += missing
    return SlotMap(tuple(rows), blocks, length, tuple(no_room))


def block_of(papers: Papers, device: Device, kind: str) -> str:
    """The block of numbers in which a unit that reports to a zone stands."""
    if device.role in BLOCK_OF_ROLE:
        return BLOCK_OF_ROLE[device.role]
    storey = papers.storey_of(papers.room_of(device) or OUTSIDE)
    if storey is not None and storey.outbuilding:
        return "outbuildings"
    return "perimeter" if device.protects or kind in ("contact", "shock", "glass-break") else "interior"


def walking_order(papers: Papers, name: str, device: Device) -> tuple:
    """What units are sorted by within a block: storey, room, kind of opening, text, name."""
    rooms = list(papers.rooms())
    storeys = list(papers.job.premises.storeys)
    room = papers.room_of(device)
    storey = storeys.index(papers.rooms()[room][0]) if room in rooms else len(storeys)
    opening = papers.openings().get(device.protects)
    kind = KIND_RANK[opening[1].kind] if opening else MOVEMENT_RANK
    return (storey, rooms.index(room) if room in rooms else len(rooms), kind, device.text or "", name)


def _of_list(papers: Papers, name: str) -> list[str]:
    units = [one for one in papers.job.devices if list_of(papers.sheet_of[one]) == name]
    return sorted(units, key=lambda one: walking_order(papers, one, papers.job.devices[one]))


def _inputs(papers: Papers, name: str) -> list[str]:
    return used_inputs(papers.job.devices[name], papers.sheet_of[name])


def _zones(papers: Papers, length: int) -> tuple[list[Row], tuple[BlockUse, ...], list[NoRoom]]:
    devices = papers.job.devices
    blocks = papers.profile.blocks
    rank = {block.name: index for index, block in enumerate(blocks)}
    units = _of_list(papers, "zones")
    block = {one: block_of(papers, devices[one], papers.sheet_of[one].kind) for one in units}
    units.sort(key=lambda one: rank[block[one]])
    pinned = [one for one in units if devices[one].number is not None]
    free = [one for one in units if devices[one].number is None]
    taken = {number for one in pinned for number in range(devices[one].number, devices[one].number + len(_inputs(papers, one)))}
    items = [Item(size=len(_inputs(papers, one)), block=rank[block[one]]) for one in free]
    starts = [_start(one, length) for one in blocks]
    first = lay_out(items, length, taken, starts, [one.spare for one in blocks])
    needed = sum(len(_inputs(papers, one)) for one in units)
    doubles = tuple(one for one in units if len(_inputs(papers, one)) > 1)
    if first is None:
        return [], (), [NoRoom("zones", needed, length, doubles)]
    number = {one: devices[one].number for one in pinned} | dict(zip(free, first))
    rows, missing = _zone_rows(papers, units, number, block)
    return rows, tuple(_uses(papers, free, number, block, taken, length)), missing


def _start(block: Block, length: int) -> int | None:
    if block.start_from_end is not None:
        return length - block.start_from_end + 1
    return block.start


def _zone_rows(papers: Papers, units: list[str], number: dict[str, int], block: dict[str, str]) -> tuple[list[Row], list[NoRoom]]:
    """A row for each zone; where slot and zone are not one number, slots are counted in the order of the zones."""
    unit = papers.sheet_of[papers.job.control_unit.id].control_unit
    in_order = sorted(units, key=number.__getitem__)
    slot = {one: index for index, one in enumerate(in_order, 1)}
    rows = []
    for one in in_order:
        device = papers.job.devices[one]
        for index, sensed in enumerate(_inputs(papers, one)):
            zone = number[one] + index
            rows.append(Row("zones", zone if unit.slot_is_zone else slot[one], zone, one, sensed,
                            (device.text, device.text_2)[min(index, 1)], _why(papers, one, index, units, block),
                            f"job.devices.{one}.{('text', 'text_2')[min(index, 1)]}"))
    if not unit.slot_is_zone and len(units) > unit.lists.slots:
        return rows, [NoRoom("slots", len(units), unit.lists.slots, ())]
    return rows, []


def _why(papers: Papers, name: str, index: int, units: list[str], block: dict[str, str]) -> str:
    if index:
        return f"second input of {name}, next to its first"
    if papers.job.devices[name].number is not None:
        return "number given in the job file"
    mates = [one for one in units if block[one] == block[name] and papers.job.devices[one].number is None]
    means = next(one.means for one in papers.profile.blocks if one.name == block[name])
    if len(mates) == 1:
        return f"block {block[name]} ({means}), the only one there"
    return (f"block {block[name]} ({means}), place {mates.index(name) + 1} of {len(mates)}: storey, rooms as listed, door before "
            "window before movement")


def _uses(papers: Papers, free: list[str], number: dict[str, int], block: dict[str, str], taken: set[int], length: int):
    """How each block came out. Spare: the free numbers from its last unit to the first unit of the next block."""
    size = {one: len(_inputs(papers, one)) for one in free}
    used = [one for one in papers.profile.blocks if any(block[name] == one.name for name in free)]
    for index, entry in enumerate(used):
        mine = [name for name in free if block[name] == entry.name]
        first, last = number[mine[0]], number[mine[-1]] + size[mine[-1]] - 1
        following = [name for name in free if index + 1 < len(used) and block[name] == used[index + 1].name]
        until = number[following[0]] if following else length + 1
        spare = sum(1 for one in range(last + 1, until) if one not in taken)
        yield BlockUse(entry.name, entry.means, first, last, sum(size[name] for name in mine), spare, entry.spare)


def _plain_list(papers: Papers, name: str, length: int) -> tuple[list[Row], list[NoRoom]]:
    """Keypads, sounders, fobs, tags, repeaters: one number each, in walking order; fobs and tags in their users' order."""
    devices = papers.job.devices
    owner = {getattr(user, kind): number for number, user in papers.job.users.items() for kind in ("fob", "tag")}
    units = sorted(_of_list(papers, name), key=lambda one: owner.get(one, length + 1))
    pinned = {one: devices[one].number for one in units if devices[one].number is not None}
    free = [one for one in units if one not in pinned]
    first = lay_out([Item(1, 0)] * len(free), length, set(pinned.values()), [1], [0])
    if first is None:
        return [], [NoRoom(name, len(units), length, ())]
    number = pinned | dict(zip(free, first))
    order = "in the order of their users" if name in ("fobs", "tags") else "in walking order"
    return [Row(name, number[one], None, one, "", "", "number given in the job file" if one in pinned else order)
            for one in sorted(units, key=number.__getitem__)], []


def _users(papers: Papers, length: int) -> tuple[list[Row], list[NoRoom]]:
    numbers = sorted(papers.job.users)
    if numbers and numbers[-1] > length:
        return [], [NoRoom("users", numbers[-1], length, ())]
    return [Row("users", one, None, "", "", papers.job.users[one].who, "number given in the job file") for one in numbers], []


def _partitions(papers: Papers, length: int) -> tuple[list[Row], list[NoRoom]]:
    if length < 1:
        return [], [NoRoom("partitions", 1, length, ())]
    return [Row("partitions", 1, None, "", "", papers.job.title, "the whole house is one partition")], []
