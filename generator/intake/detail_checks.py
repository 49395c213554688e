"""Do the details of units, rooms, cables and dates belong to what they stand at?"""
from collections.abc import Iterator
from datetime import date

from generator.intake.references import not_there
from generator.intake.yaml_tree import Path_, Tree
from generator.model.cable import Cable
from generator.model.equipment import Sheet
from generator.model.job import Device, Job
from generator.model.lists import used_inputs
from generator.terms.problem import Problem
from generator.terms.show import day

# What only a unit that reports to a zone can have.
OF_ZONES = ("left_out_in", "omit", "chime", "confirms", "traffic")


def detail_checks(tree: Tree, job: Job, sheet_of: dict[str, Sheet]) -> Iterator[Problem]:
    """Every detail that stands at the wrong thing, names nothing, or contradicts another."""
    for name, device in job.devices.items():
        if name in sheet_of:
            yield from _device(tree, ("devices", name), device, sheet_of[name], job)
    for storey_key, storey in job.premises.storeys.items():
        for key, room in storey.rooms.items():
            if room.coldest_c is not None and room.warmest_c is not None and room.coldest_c > room.warmest_c:
                yield tree.problem(("premises", "storeys", storey_key, "rooms", key, "coldest_c"),
                                   f"{room.coldest_c:g} °C is the coldest here and {room.warmest_c:g} °C the warmest.",
                                   "Write the lower of the two as coldest_c.")
    for key, cable in job.cables.items():
        yield from _cable(tree, ("cables", key), cable, job)
    yield from _days(tree, job)


def _device(tree: Tree, path: Path_, device: Device, sheet: Sheet, job: Job) -> Iterator[Problem]:
    if not used_inputs(device, sheet):
        for key in OF_ZONES:
            if getattr(device, key) not in (None, False, []):
                yield tree.problem((*path, key), f"a {sheet.kind} reports to no zone.", f"Take {key}: out.", key=True)
    if device.from_socket and sheet.power.kind != "mains":
        yield tree.problem((*path, "from_socket"), f"its sheet says power.kind: {sheet.power.kind}; only a unit with mains of its own hangs on a socket.",
                           "Take from_socket: out, or correct power.kind in its sheet.", key=True)
    if device.signal is not None and "hold-up" not in (device.role, sheet.kind):
        yield tree.problem((*path, "signal"), "this unit is no hold-up unit.", "Take signal: out, or write role: hold-up.", key=True)
    for index, name in enumerate(device.left_out_in):
        if name not in job.part_sets:
            yield not_there(tree, (*path, "left_out_in", index), name, "part set", set(job.part_sets))


def _cable(tree: Tree, path: Path_, cable: Cable, job: Job) -> Iterator[Problem]:
    given = [key for key in ("size_mm2", "awg") if getattr(cable, key) is not None]
    if len(given) != 1:
        yield tree.problem(path if not given else (*path, given[1]), "one size of conductor is wanted here.",
                           "Write size_mm2: for a metric cable, or awg: for one sold by gauge.", key=True)
    for index, load in enumerate(cable.loads):
        if load.unit not in job.devices:
            yield not_there(tree, (*path, "loads", index, "unit"), load.unit, "unit", set(job.devices))
        if index and load.at_m < cable.loads[index - 1].at_m:
            yield tree.problem((*path, "loads", index, "at_m"), f"{load.at_m:g} m is nearer than the unit before it, at "
                               f"{cable.loads[index - 1].at_m:g} m.", "Write the nearest unit first.")


def _days(tree: Tree, job: Job) -> Iterator[Problem]:
    """Days that cannot come in this order, each pair once."""
    order = job.agreement
    pairs: list[tuple[Path_, date | None, date | None, str]] = []
    if order:
        pairs += [(("agreement", "early_start_on"), order.signed_on, order.early_start_on, "the order was signed"),
                  (("agreement", "in_use_on"), order.work_on, order.in_use_on, "work begins")]
    for key, permit in (job.monitoring.permits if job.monitoring else {}).items():
        pairs.append((("monitoring", "permits", key, "valid_to"), permit.since, permit.valid_to, "it was given"))
    for path, first, second, what in pairs:
        if first and second and second < first:
            yield tree.problem(path, f"{day(second)} lies before {day(first)}, when {what}.", "Write the days in their order.")
