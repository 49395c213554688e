"""Do the numbers that a job file asks for go with those that are frozen: issued, or found on the system?

What shows without the other units' needs is a problem here; all else is for the slot map to find.
"""
from collections.abc import Iterator

from generator.intake.references import not_there
from generator.intake.issued_reader import IssuedFile
from generator.intake.yaml_tree import Path_, Tree
from generator.model.equipment import Sheet
from generator.model.job import ExistingNumber, Freed, Job
from generator.model.lists import length_of, list_of, takes
from generator.terms.problem import Problem

Taken = dict[tuple[str, int], tuple[str, str]]
MOVE = "To move a unit on purpose, give it a new name under devices: its old number then rests."


def frozen_checks(tree: Tree, job: Job, sheet_of: dict[str, Sheet], issued: IssuedFile | None) -> Iterator[Problem]:
    """Every problem of the numbers under existing, of pins on frozen numbers, and of issued numbers past the end of a list."""
    unit = sheet_of.get(job.control_unit.id)
    yield from _kind(tree, job)
    if unit is None or unit.kind != "control-unit" or unit.control_unit is None:
        return
    own, taken = _issued(job, sheet_of, unit, issued)
    if issued:
        yield from _past_the_end(job, unit, issued)
    for index, freed in enumerate(job.freed):
        if problem := _no_list(tree, ("freed", index), freed, unit):
            yield problem
    yield from _existing(tree, job, sheet_of, unit, own, taken)
    yield from _pins(tree, job, sheet_of, unit, own, taken)


def _kind(tree: Tree, job: Job) -> Iterator[Problem]:
    if job.kind == "new" and job.existing:
        yield tree.problem(("existing",), "a new job starts with no numbers taken.",
                           "Write kind: extension or kind: takeover, or take existing: out.", key=True)
    if job.kind != "new" and not job.existing:
        article = "an" if job.kind == "extension" else "a"
        yield tree.problem(("kind",), f"{article} {job.kind} starts with numbers that are taken, and existing: lists none.",
                           "Write under existing: every number that is taken on the system as found, one line each.")


def _issued(job: Job, sheet_of: dict[str, Sheet], unit: Sheet, issued: IssuedFile | None) -> tuple[dict[tuple[str, str], tuple[int, str]], Taken]:
    """The first number of each unit that is still in the job, by list and unit, and every number of theirs; each with its place."""
    own: dict[tuple[str, str], tuple[int, str]] = {}
    taken: Taken = {}
    for row in issued.issued.last.map if issued else ():
        device = job.devices.get(row.device or "")
        if device and row.device in sheet_of and takes(device, sheet_of[row.device], unit.control_unit).get(row.list):
            place = issued.place(row.list, row.number)
            own.setdefault((row.list, row.device), (row.number, place))
            taken[row.list, row.number] = (row.device, place)
    return own, taken


def _past_the_end(job: Job, unit: Sheet, issued: IssuedFile) -> Iterator[Problem]:
    where = len(issued.issued.revisions) - 1
    for index, row in enumerate(issued.issued.last.map):
        most = length_of(unit, row.list)
        if row.device in job.devices and row.number > most:
            yield issued.tree.problem(("revisions", where, "map", index, "number"),
                                      f"number {row.number} lies past the end of the {row.list}, which has {most}.",
                                      f"Name a control unit in job.yaml whose list is long enough: {row.device} was issued with this number.")


def _existing(tree: Tree, job: Job, sheet_of: dict[str, Sheet], unit: Sheet, own: dict, taken: Taken) -> Iterator[Problem]:
    """Problems of the numbers as found; each that can stand is put into `own` and `taken`."""
    for index, one in enumerate(job.existing):
        path: Path_ = ("existing", index)
        place = f"line {tree.place(path)[0]}"
        problem = _no_list(tree, path, one, unit) or _no_unit(tree, path, one, job, sheet_of, unit)
        problem = problem or _not_free(tree, path, one, own, taken)
        if problem:
            yield problem
            continue
        size = takes(job.devices[one.device], sheet_of[one.device], unit.control_unit)[one.list] if one.device in sheet_of else 1
        for number in range(one.number, one.number + size):
            taken.setdefault((one.list, number), (one.device or "", place))
        if one.device:
            own.setdefault((one.list, one.device), (one.number, place))


def _no_list(tree: Tree, path: Path_, one: ExistingNumber | Freed, unit: Sheet) -> Problem | None:
    if one.list == "slots" and unit.control_unit.slot_is_zone:
        return tree.problem((*path, "list"), "slot and zone are one number here.", "Write zones.")
    most = length_of(unit, one.list)
    if not 1 <= one.number <= most:
        return tree.problem((*path, "number"), f"number {one.number} lies past the end of the {one.list}.",
                            f"Write a number up to {most}: the control unit has no more.")
    return None


def _no_unit(tree: Tree, path: Path_, one: ExistingNumber, job: Job, sheet_of: dict[str, Sheet], unit: Sheet) -> Problem | None:
    if one.device is None:
        return None
    if one.device not in job.devices:
        problem = not_there(tree, (*path, "device"), one.device, "unit", set(job.devices))
        return tree.problem((*path, "device"), problem.says, f"{problem.do} If it is no part of this job, take device: out.")
    if one.device in sheet_of and not takes(job.devices[one.device], sheet_of[one.device], unit.control_unit).get(one.list):
        own = list_of(sheet_of[one.device])
        return tree.problem((*path, "list"), f"{one.device} takes no number of the {one.list}.", f"Write {own}, or name another unit.")
    return None


def _not_free(tree: Tree, path: Path_, one: ExistingNumber, own: dict, taken: Taken) -> Problem | None:
    before = own.get((one.list, one.device))
    if before and before[0] != one.number:
        return tree.problem((*path, "number"), f"{one.device} has number {before[0]} of the {one.list} already, by {before[1]}.",
                            "Write one number for each unit and list; of a unit with two, the first.")
    holder = taken.get((one.list, one.number))
    # The same line again once it was issued is no second number.
    if holder and (not one.device or holder[0] != one.device or not before or before[1].startswith("line")):
        return tree.problem((*path, "number"), f"number {one.number} of the {one.list} is taken already, by {holder[1]}.",
                            "Write each number once.")
    return None


def _pins(tree: Tree, job: Job, sheet_of: dict[str, Sheet], unit: Sheet, own: dict, taken: Taken) -> Iterator[Problem]:
    for name, device in job.devices.items():
        if device.number is None or name not in sheet_of:
            continue
        kind, path = list_of(sheet_of[name]), ("devices", name, "number")
        before = own.get((kind, name))
        if before and before[0] != device.number:
            yield tree.problem(path, f"{name} has number {before[0]} of the {kind} already, by {before[1]}: that one is frozen.",
                               f"Write {before[0]}, or take number: out. {MOVE}")
            continue
        size = takes(device, sheet_of[name], unit.control_unit).get(kind, 1)
        held = ((number, taken.get((kind, number))) for number in range(device.number, device.number + size))
        other = next(((number, holder) for number, holder in held if holder and holder[0] != name), None)
        if other:
            whose = f"{other[1][0]}'s" if other[1][0] else "taken"
            yield tree.problem(path, f"number {other[0]} of the {kind} is {whose} already, by {other[1][1]}: that one is frozen.",
                               "Write another number, or take number: out.")
