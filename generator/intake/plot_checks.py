"""Does the boundary of the plot go once round everything that stands on it?"""
from collections.abc import Iterator

from generator.geometry.plot import beyond_m, outside_m
from generator.geometry.shapes import Place, area, fault_of
from generator.intake.yaml_tree import Path_, Tree
from generator.model.job import Job
from generator.model.premises import OUTSIDE
from generator.terms.problem import Problem
from generator.terms.show import count, number

# A room is measured to the middle of its wall, a boundary to where the plot ends: in a terrace that is the face of the wall.
OFF_M = 0.3
PATH: Path_ = ("premises", "boundary_m")


def boundary_checks(tree: Tree, job: Job) -> Iterator[Problem]:
    """A boundary that crosses itself, and rooms and outside units that lie beyond it."""
    if job.premises.boundary_m is None:
        return
    boundary = [Place(*one) for one in job.premises.boundary_m]
    if wrong := fault_of(boundary):
        yield tree.problem(PATH, f"{wrong.replace('its outline', 'the boundary')}.", "Write its points in turn round the plot, each once.")
        return
    rooms = {f"{name} of {key}": shape for key, storey in job.premises.storeys.items() for name, room in storey.rooms.items() if (shape := area(room))}
    out = {name: away for name, shape in rooms.items() if (away := beyond_m(boundary, shape)) > OFF_M}
    if out:
        worst = max(out, key=lambda name: out[name])
        others = f", and {count(len(out) - 1, 'more room')} besides" if len(out) > 1 else ""
        yield tree.problem(PATH, f"{worst} reaches {number(out[worst], 2)} m beyond it{others}.",
                           "Write a boundary that goes round every building, or measure the room again.")
    for name, unit in job.devices.items():
        if unit.room == OUTSIDE and unit.at_m is not None and (away := outside_m(boundary, Place(*unit.at_m))) > OFF_M:
            yield tree.problem(("devices", name, "at_m"), f"[{unit.at_m[0]:g}, {unit.at_m[1]:g}] is {number(away, 2)} m beyond the boundary.",
                               "Measure it again, or write a boundary_m that goes round it.")
