"""Can the numbers that a job file asks for stand together? What shows without the needs of the other units is a problem here."""
from collections.abc import Iterator

from generator.intake.references import not_there
from generator.intake.yaml_tree import Path_, Tree
from generator.model.equipment import Sheet
from generator.model.job import Job
from generator.model.lists import length_of, list_of, takes
from generator.terms.problem import Problem


def number_checks(tree: Tree, job: Job, sheet_of: dict[str, Sheet]) -> Iterator[Problem]:
    """Every problem of pins, of ranges that stay free and of neighbours."""
    unit = sheet_of.get(job.control_unit.id)
    if unit is None or unit.kind != "control-unit" or unit.control_unit is None:
        return
    kept: dict[tuple[str, int], Path_] = {}
    yield from _ranges(tree, job, unit, kept)
    yield from _pins(tree, job, sheet_of, unit, kept)
    for name, device in job.devices.items():
        if device.partition is not None and device.partition not in job.partitions:
            yield not_there(tree, ("devices", name, "partition"), str(device.partition), "partition", {str(one) for one in job.partitions})
        if device.next_to is not None:
            yield from _neighbour(tree, job, sheet_of, name, device.next_to)


def _ranges(tree: Tree, job: Job, unit: Sheet, kept: dict[tuple[str, int], Path_]) -> Iterator[Problem]:
    """Problems of ranges that stay free; those that can stand are put into `kept`, each number with its place."""
    for index, one in enumerate(job.reserved):
        path: Path_ = ("reserved", index)
        most = length_of(unit, one.list)
        if one.list == "slots" and unit.control_unit.slot_is_zone:
            yield tree.problem((*path, "list"), "slot and zone are one number here.", "Write zones.")
        elif one.end < one.first:
            yield tree.problem((*path, "last"), f"{one.first} to {one.end} runs backwards.", "Write the smaller number first.")
        elif one.end > most:
            yield tree.problem((*path, "first" if one.last is None else "last"), f"number {one.end} lies past the end of the {one.list}.",
                               f"Write a range that ends at {most} or before: the control unit has no more.")
        else:
            yield from _range(tree, path, one.list, range(one.first, one.end + 1), most, kept)


def _range(tree: Tree, path: Path_, kind: str, numbers: range, most: int, kept: dict[tuple[str, int], Path_]) -> Iterator[Problem]:
    twice = next((number for number in numbers if (kind, number) in kept), None)
    if twice is not None:
        line = tree.place(kept[kind, twice])[0]
        yield tree.problem((*path, "first"), f"number {twice} of the {kind} stays free already, by line {line}.",
                           "Write ranges that do not overlap.")
    for number in numbers:
        kept.setdefault((kind, number), path)
    if twice is None and all((kind, number) in kept for number in range(1, most + 1)):
        yield tree.problem((*path, "first"), f"with this range no number of the {kind} is left.", f"Leave some of the {most} to be used.")


def _pins(tree: Tree, job: Job, sheet_of: dict[str, Sheet], unit: Sheet, kept: dict[tuple[str, int], Path_]) -> Iterator[Problem]:
    taken: dict[tuple[str, int], str] = {}
    for name, device in job.devices.items():
        if device.number is None or name not in sheet_of:
            continue
        kind, path = list_of(sheet_of[name]), ("devices", name, "number")
        size = takes(device, sheet_of[name], unit.control_unit).get(kind, 1)
        numbers = range(device.number, device.number + size)
        yield from _given_twice(tree, path, kind, name, numbers, taken)
        yield from _on_kept(tree, path, kind, numbers, kept)
        most = length_of(unit, kind)
        if numbers[-1] > most:
            yield tree.problem(path, f"number {numbers[-1]} lies past the end of the {kind}.",
                               f"Write a number that ends at {most} or before: the control unit has no more.")
    for number in job.users:
        yield from _on_kept(tree, ("users", str(number)), "users", range(number, number + 1), kept, key=True)


def _given_twice(tree: Tree, path: Path_, kind: str, name: str, numbers: range, taken: dict[tuple[str, int], str]) -> Iterator[Problem]:
    others = [(number, taken.setdefault((kind, number), name)) for number in numbers]
    twice = next(((number, other) for number, other in others if other != name), None)
    if twice:
        line = tree.place(("devices", twice[1], "number"))[0]
        yield tree.problem(path, f"number {twice[0]} of the {kind} is given to {twice[1]} too, in line {line}.",
                           "Give one of the two another number.")


def _on_kept(tree: Tree, path: Path_, kind: str, numbers: range, kept: dict[tuple[str, int], Path_], key: bool = False) -> Iterator[Problem]:
    number = next((number for number in numbers if (kind, number) in kept), None)
    if number is not None:
        line = tree.place(kept[kind, number])[0]
        yield tree.problem(path, f"number {number} of the {kind} stays free, by line {line}.",
                           "Give another number, or let the range be shorter.", key=key)


def _neighbour(tree: Tree, job: Job, sheet_of: dict[str, Sheet], name: str, other: str) -> Iterator[Problem]:
    path: Path_ = ("devices", name, "next_to")
    if other == name:
        yield tree.problem(path, "a unit cannot stand next to itself.", "Name another unit, or take next_to: out.")
    elif other not in job.devices:
        yield not_there(tree, path, other, "unit", set(job.devices) - {name})
    elif name in sheet_of and other in sheet_of and list_of(sheet_of[name]) != list_of(sheet_of[other]):
        kinds = list_of(sheet_of[name]), list_of(sheet_of[other])
        yield tree.problem(path, f"{name} has its number among the {kinds[0]}, {other} among the {kinds[1]}.",
                           "Name a unit of the same list, or take next_to: out.")
