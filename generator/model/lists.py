"""Which list of the control unit a unit takes its number from, how many numbers it takes, and how many there are."""
from generator.model.equipment import ControlUnit, Sheet
from generator.model.job import Device

LIST_OF_KIND = {"keypad": "keypads", "reader": "keypads", "sounder": "sounders", "fob": "fobs", "tag": "tags",
                "repeater": "repeaters"}
LISTS = ("zones", "keypads", "sounders", "fobs", "tags", "repeaters", "users", "partitions")


def list_of(sheet: Sheet) -> str:
    """The list of the control unit in which a kind of unit takes its number."""
    return LIST_OF_KIND.get(sheet.kind, "zones")


def used_inputs(device: Device, sheet: Sheet) -> list[str]:
    """The names of the inputs that a device uses in this job, in the order of its sheet."""
    return [one.name for one in sheet.inputs if device.use_input_2 or not one.optional]


def takes(device: Device, sheet: Sheet, unit: ControlUnit) -> dict[str, int]:
    """How many numbers of each list a device takes, the list that `number` speaks of first; lists it takes none of are left out.

    Each used input takes a zone. Where slot and zone are one number, a radio unit that takes more slots than zones takes as
    many numbers. What has a list of its own takes one number there, whatever its sheet says of slots.
    """
    own, zones = list_of(sheet), len(used_inputs(device, sheet))
    if own != "zones":
        every = {own: 1, "zones": zones}
    elif unit.slot_is_zone:
        every = {"zones": max(zones, sheet.slots)}
    else:
        every = {"zones": zones, "slots": sheet.slots}
    return {name: count for name, count in every.items() if count}


def length_of(unit: Sheet, kind: str) -> int:
    """How many numbers a list has. Where slot and zone are one number, the shorter of the two limits counts."""
    lists = unit.control_unit.lists
    if kind == "zones" and unit.control_unit.slot_is_zone:
        return min(lists.zones, lists.slots)
    return getattr(lists, kind)
