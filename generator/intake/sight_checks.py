"""Does each detector look into its room, or at the wall that it hangs on?"""
from collections.abc import Iterator

from generator.geometry.shapes import Place, area
from generator.geometry.sight import ahead_m, heading_deg
from generator.intake.yaml_tree import Tree
from generator.model.job import Job
from generator.terms.problem import Problem
from generator.terms.show import number

# Whoever looks at a wall nearer than this was written the wrong way round: no room is so narrow.
FACES_M = 0.4


def sight_checks(tree: Tree, job: Job) -> Iterator[Problem]:
    """Every detector that faces a wall right before it."""
    rooms = {key: room for storey in job.premises.storeys.values() for key, room in storey.rooms.items()}
    for name, device in job.devices.items():
        shape = area(rooms[device.room]) if device.room in rooms else None
        if shape is None or device.at_m is None or device.faces_deg is None:
            continue
        away = ahead_m(shape, Place(*device.at_m), device.faces_deg)
        if away < FACES_M:
            middle = shape.representative_point()
            at = round(heading_deg(Place(*device.at_m), Place(middle.x, middle.y)) / 5) * 5 % 360
            yield tree.problem(("devices", name, "faces_deg"), f"{device.faces_deg:g} looks at the wall {number(away, 2)} m before {name}.",
                               f"Write where it looks in the plan: 0 away from the front, 90 to the right; into {device.room} it is about {at:g}.")
