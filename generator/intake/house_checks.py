"""Does what is said about the house and about radio paths refer to things that are there?"""
from collections.abc import Iterator

from generator.intake.references import not_there
from generator.intake.yaml_tree import Path_, Tree
from generator.model.equipment import Sheet
from generator.model.job import Device, Job
from generator.model.premises import OUTSIDE, Premises, Shape, Storey
from generator.terms.problem import Problem

STOREYS: Path_ = ("premises", "storeys")


def house_checks(tree: Tree, job: Job, sheet_of: dict[str, Sheet]) -> Iterator[Problem]:
    """Names without a thing, and measures that say nothing or say two things."""
    rooms = {key: room for storey in job.premises.storeys.values() for key, room in storey.rooms.items()}
    for key, storey in job.premises.storeys.items():
        yield from _storey(tree, (*STOREYS, key), storey, rooms)
    yield from _beside_storeys(tree, job.premises, set(rooms))
    yield from _places(tree, job, rooms)
    for name, device in job.devices.items():
        yield from _radio(tree, ("devices", name), name, device, job, sheet_of)
    yield from _circles(tree, job)


def _storey(tree: Tree, path: Path_, storey: Storey, rooms: dict[str, Shape]) -> Iterator[Problem]:
    for key, room in storey.rooms.items():
        yield from _shape(tree, (*path, "rooms", key), room, needed=False)
    for index, one in enumerate(storey.walls.between if storey.walls else ()):
        for side, place in enumerate(one.places):
            if place not in storey.rooms and place != OUTSIDE:
                yield not_there(tree, (*path, "walls", "between", index, "places", side), place, "room on this storey",
                                {*storey.rooms, OUTSIDE})
    for key, thing in storey.furniture.items():
        yield from _shape(tree, (*path, "furniture", key), thing, needed=True)
        if thing.room not in storey.rooms:
            yield not_there(tree, (*path, "furniture", key, "room"), thing.room, "room on this storey", set(storey.rooms))
        if thing.base_m is not None and thing.base_m >= thing.height_m:
            yield tree.problem((*path, "furniture", key, "base_m"), f"{thing.base_m:g} m is not below its upper edge at "
                               f"{thing.height_m:g} m.", "Write the height of its lower edge.")


def _shape(tree: Tree, path: Path_, shape: Shape, needed: bool) -> Iterator[Problem]:
    """A rectangle needs both its keys; an outline stands alone."""
    given = [key for key in ("corner_m", "size_m", "outline_m") if getattr(shape, key) is not None]
    if needed and not given:
        yield tree.problem(path, "nothing says where this is in the plan.", "Write corner_m: and size_m:, or outline_m:.", key=True)
    elif "outline_m" in given and len(given) > 1:
        yield tree.problem((*path, "outline_m"), f"{given[0]} says the shape too.", "Keep corner_m and size_m, or outline_m.", key=True)
    elif given and "outline_m" not in given and len(given) < 2:
        missing = "size_m" if given == ["corner_m"] else "corner_m"
        yield tree.problem((*path, given[0]), f"{given[0]} stands here without {missing}.", f"Write {missing}: too.", key=True)


def _beside_storeys(tree: Tree, premises: Premises, rooms: set[str]) -> Iterator[Problem]:
    for key, stairs in premises.stairs.items():
        for end in ("foot", "head"):
            room = getattr(stairs, end).room
            if room not in rooms:
                yield not_there(tree, ("premises", "stairs", key, end, "room"), room, "room", rooms)
        if stairs.foot.room == stairs.head.room:
            yield tree.problem(("premises", "stairs", key), f"these stairs begin and end in {stairs.foot.room}.",
                               "Name the room at each end.", key=True)
    for key, roof in premises.roofs.items():
        yield from _shape(tree, ("premises", "roofs", key), roof, needed=True)


def _places(tree: Tree, job: Job, rooms: dict[str, Shape]) -> Iterator[Problem]:
    """A place in the plan wants a room that is in the plan."""
    placed = [(("control_unit", "at_m"), job.control_unit.room, job.control_unit.at_m)]
    placed += [(("devices", name, "at_m"), device.room, device.at_m) for name, device in job.devices.items()]
    for path, room, at in placed:
        shape = rooms.get(room or "")
        if at is not None and shape is not None and shape.corner_m is None and shape.outline_m is None:
            yield tree.problem(path, f"{room} has no shape in the plan.", "Write corner_m: and size_m: for that room, or take at_m out.",
                               key=True)


def _radio(tree: Tree, path: Path_, name: str, device: Device, job: Job, sheet_of: dict[str, Sheet]) -> Iterator[Problem]:
    if device.at_m is not None and device.path is not None:
        yield tree.problem((*path, "path"), "this unit has a place in the plan too.",
                           "Keep at_m, from which its path follows, or path.", key=True)
    if device.via is None:
        return
    repeaters = {one for one, sheet in sheet_of.items() if sheet.kind == "repeater"}
    if device.via == name:
        yield tree.problem((*path, "via"), f"{name} is heard through itself.", "Name another repeater, or take via out.")
    elif device.via in job.devices and device.via in sheet_of and device.via not in repeaters:
        yield tree.problem((*path, "via"), f"{device.via} is a {sheet_of[device.via].kind}, no repeater.",
                           f"Known repeaters: {', '.join(sorted(repeaters)) or 'none'}.")
    elif device.via not in job.devices:
        yield not_there(tree, (*path, "via"), device.via, "repeater", repeaters)


def _circles(tree: Tree, job: Job) -> Iterator[Problem]:
    """Repeaters that are heard through each other; each circle is named once, at its first repeater."""
    told: set[str] = set()
    for name in job.devices:
        chain = [name]
        while (via := job.devices[chain[-1]].via) in job.devices and via not in chain:
            chain.append(via)
        if len(chain) > 1 and via == name and name not in told:
            told.update(chain)
            yield tree.problem(("devices", name, "via"), f"{' is heard through '.join([*chain, name])}: a circle.",
                               "Let one of them be heard by the control unit: take its via out.")
