"""In which order do units take their numbers?

The trade's order: entry doors, the way to the keypad, doors and windows, movement, buildings of their own, what is always
on, hold-up, fire. Within a block: storey, rooms as listed, door before window before movement, text, name. Common
practice, no source.

Zone 1 is the main entry door: the first block is that of timed entries, and in it doors by which people come in stand
before everything else, so it is the one whose room is listed first on the first storey.
"""
from collections.abc import Mapping

from generator.model.job import Device, watched
from generator.model.lists import takes
from generator.model.papers import Papers
from generator.model.premises import OUTSIDE

KIND_RANK = {"door": 0, "garage-door": 0, "hatch": 1, "window": 1, "roof-window": 1}
MOVEMENT_RANK = 2
ENTRY = "entry"
BLOCK_OF_ROLE = {"timed-entry": ENTRY, "entry-route": "route", "all-hours": "all-hours", "technical": "all-hours",
                 "hold-up": "hold-up", "medical": "hold-up", "fire": "fire", "carbon-monoxide": "fire"}


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


def units_of(papers: Papers, kind: str) -> list[str]:
    """The units that take numbers of a list, in walking order."""
    unit = papers.sheet_of[papers.job.control_unit.id].control_unit
    devices = papers.job.devices
    found = [one for one in devices if kind in takes(devices[one], papers.sheet_of[one], unit)]
    return sorted(found, key=lambda one: walking_order(papers, one, devices[one]))


def zone_order(papers: Papers) -> dict[str, str]:
    """The units that take zones in the trade's order, each with its block."""
    devices = papers.job.devices
    block = {one: block_of(papers, devices[one], papers.sheet_of[one].kind) for one in units_of(papers, "zones")}
    rank = {one.name: index for index, one in enumerate(papers.profile.blocks)}
    ways_in = _ways_in(papers)
    order = sorted(block, key=lambda one: (rank[block[one]], block[one] == ENTRY and not ways_in[one]))
    return {one: block[one] for one in order}


def _ways_in(papers: Papers) -> Mapping[str, bool]:
    """Of each unit, whether it watches a door by which people come in, with either of its circuits."""
    openings = papers.openings()
    return {name: any(openings[key][1].entry for key in watched(one)) for name, one in papers.job.devices.items()}


def user_order(papers: Papers, kind: str) -> list[str]:
    """Fobs or tags in the order of their users; those that belong to nobody stand last, in walking order."""
    owner = {getattr(user, kind.removesuffix("s")): number for number, user in papers.job.users.items()}
    return sorted(units_of(papers, kind), key=lambda one: (one not in owner, owner.get(one, 0)))
