"""What only shows when the whole job is seen: what does not belong together.

Names that refer to nothing are answered in references.py, numbers in number_checks.py.
"""
from collections.abc import Iterator

from generator.intake.yaml_tree import Path_, Tree
from generator.model.equipment import Sheet
from generator.model.job import Device, Job
from generator.model.lists import used_inputs
from generator.model.premises import OUTSIDE
from generator.terms.problem import Problem


def cross_checks(tree: Tree, job: Job, sheet_of: dict[str, Sheet]) -> Iterator[Problem]:
    """Every problem of a job whose files can each be read on their own."""
    yield from _unique(tree, job)
    yield from _walls(tree, job)
    yield from _control_unit(tree, job, sheet_of)
    for name, device in job.devices.items():
        yield from _device(tree, ("devices", name), device, sheet_of.get(name))


def _unique(tree: Tree, job: Job) -> Iterator[Problem]:
    for group in ("rooms", "openings"):
        seen: dict[str, Path_] = {}
        for storey_key, storey in job.premises.storeys.items():
            for key in getattr(storey, group):
                path = ("premises", "storeys", storey_key, group, key)
                if key in seen:
                    yield tree.problem(path, f'"{key}" stands in two storeys; first in line {tree.place(seen[key], True)[0]}.',
                                       "Give one of the two another name.", key=True)
                seen.setdefault(key, path)
                if key == OUTSIDE:
                    yield tree.problem(path, f'"{OUTSIDE}" means the open air.', "Give this another name.", key=True)
    if job.control_unit.id in job.devices:
        yield tree.problem(("devices", job.control_unit.id), f'"{job.control_unit.id}" is the control unit\'s name too.',
                           "Give one of the two another name.", key=True)


def _walls(tree: Tree, job: Job) -> Iterator[Problem]:
    for storey_key, storey in job.premises.storeys.items():
        for key, opening in storey.openings.items():
            path: Path_ = ("premises", "storeys", storey_key, "openings", key, "wall")
            if len(opening.wall) != 2:
                yield tree.problem(path, f"{len(opening.wall)} places stand here.",
                                   f"Write the two places the opening lies between, for example [hall, {OUTSIDE}].")
            if opening.wall == [OUTSIDE, OUTSIDE]:
                yield tree.problem(path, "both places are the open air.", "Name the room on one side.")


def _control_unit(tree: Tree, job: Job, sheet_of: dict[str, Sheet]) -> Iterator[Problem]:
    sheet = sheet_of.get(job.control_unit.id)
    if sheet and (sheet.kind != "control-unit" or sheet.control_unit is None):
        yield tree.problem(("control_unit", "sheet"), f'"{job.control_unit.sheet}" is the sheet of a {sheet.kind}.',
                           "Name the sheet of a control unit, with its lists under control_unit.")


def _device(tree: Tree, path: Path_, device: Device, sheet: Sheet | None) -> Iterator[Problem]:
    if device.number_why is not None and device.number is None:
        yield tree.problem((*path, "number_why"), "this says why the unit wants a number, and no number stands here.",
                           "Write number: for it, or take number_why: out.", key=True)
    if sheet is None:
        return
    carried = sheet.kind in ("fob", "tag")
    if not carried and not device.room and not device.protects:
        yield tree.problem(path, "nothing says where this unit is fitted.", "Write room: or protects: for it.", key=True)
    if sheet.kind == "control-unit":
        yield tree.problem((*path, "sheet"), f'"{device.sheet}" is the sheet of a control unit.',
                           "A job has one control unit; it stands under control_unit.")
    has_zone = bool(used_inputs(device, sheet))
    for key in ("role", "text"):
        if has_zone and getattr(device, key) is None:
            yield tree.problem(path, f"this unit reports to a zone and has no {key}.", f"Write {key}: for it.", key=True)
        if not has_zone and getattr(device, key) is not None:
            yield tree.problem((*path, key), f"a {sheet.kind} reports to no zone.", f"Take {key}: out.", key=True)
    yield from _second_input(tree, path, device, sheet)


def _second_input(tree: Tree, path: Path_, device: Device, sheet: Sheet) -> Iterator[Problem]:
    used = len(used_inputs(device, sheet))
    if device.use_input_2 and not any(one.optional for one in sheet.inputs):
        yield tree.problem((*path, "use_input_2"), f'the sheet "{device.sheet}" lists no optional input.', "Take this key out.",
                           key=True)
    elif used > 1 and not device.text_2:
        yield tree.problem(path, "this unit takes two zones and has one text.", "Write text_2: for its second zone.", key=True)
    for key in ("text_2", "protects_2"):
        if used < 2 and getattr(device, key):
            yield tree.problem((*path, key), "this unit takes no second zone here.",
                               f"Write use_input_2: true if the second input is used, or take {key} out.", key=True)
