"""Can the plan be built? Rooms that overlap, openings in no wall, units outside their room, stairs that lead nowhere."""
from collections.abc import Iterator

from generator.geometry.house import floor_heights
from generator.geometry.shapes import Place, area, fault, holds, overlap_m2, overlapping, together
from generator.geometry.walls import OFF_LINE_M, Wall, by_places, on_line, wall_of, walls_of
from generator.intake.plot_checks import boundary_checks
from generator.intake.yaml_tree import Path_, Tree
from generator.model.job import Job
from generator.model.premises import OUTSIDE, Opening, Shape, Storey
from generator.terms.problem import Problem
from generator.terms.show import number

# A unit's middle is measured from the face of a wall, the room to its middle.
OFF_ROOM_M = 0.2
# Openings that stand in no wall of the plan.
FLAT = ("hatch", "roof-window")


def plan_checks(tree: Tree, job: Job) -> Iterator[Problem]:
    """Every place of the plan that cannot be as it is written; of a job by paths nothing is asked."""
    heights = floor_heights(job.premises)
    for key, storey in job.premises.storeys.items():
        path: Path_ = ("premises", "storeys", key)
        if not storey.rooms:
            yield tree.problem((*path, "rooms"), "no room stands in this storey.", "Write its rooms, or take the storey out.", key=True)
        yield from _shapes(tree, path, storey)
        yield from _openings(tree, path, key, storey)
        yield from _furniture(tree, path, storey)
        for name, one in (storey.walls.own if storey.walls else {}).items():
            if one.from_m == one.to_m:
                yield tree.problem((*path, "walls", "own", name), "this wall begins where it ends.", "Write both ends of it.", key=True)
    for key, roof in job.premises.roofs.items():
        yield from _fault(tree, ("premises", "roofs", key), roof)
    yield from boundary_checks(tree, job)
    yield from _stacked(tree, job, heights)
    yield from _stairs(tree, job, heights)
    yield from _units(tree, job)


def _shapes(tree: Tree, path: Path_, storey: Storey) -> Iterator[Problem]:
    for key, room in storey.rooms.items():
        yield from _fault(tree, (*path, "rooms", key), room)
    drawn = {key: found for key, room in storey.rooms.items() if _measured(room) and (found := area(room))}
    for one, other, shared in overlapping(drawn):
        yield tree.problem((*path, "rooms", other), f"{other} lies over {one} by {number(shared, 2)} m².",
                           "Measure both again: walls stand on the line where two rooms meet.", key=True)


def _measured(shape: Shape) -> bool:
    """Whether a rectangle has a width and a depth; nothing else is said of one that has not."""
    return shape.size_m is None or min(shape.size_m) > 0


def _fault(tree: Tree, path: Path_, shape: Shape) -> Iterator[Problem]:
    if not _measured(shape):
        yield tree.problem((*path, "size_m"), f"{min(shape.size_m):g} is no width.", "Write width and depth, both more than 0.")
    elif wrong := fault(shape):
        yield tree.problem((*path, "outline_m" if shape.outline_m is not None else "size_m"), f"{wrong}.", "Write its corners in turn, each once.")


def _openings(tree: Tree, path: Path_, key: str, storey: Storey) -> Iterator[Problem]:
    walls = walls_of(key, storey) if storey.openings else ()
    between = by_places(walls)
    drawn = {name for name, room in storey.rooms.items() if _measured(room) and area(room)} | {OUTSIDE}
    for name, one in storey.openings.items():
        where: Path_ = (*path, "openings", name)
        top = (one.sill_m or 0) + one.height_m if one.height_m is not None else None
        if top is not None and storey.ceiling_m is not None and top > storey.ceiling_m and one.kind not in FLAT:
            yield tree.problem((*where, "height_m"), f"its upper edge would be at {number(top, 2)} m, above the ceiling at {storey.ceiling_m:g} m.",
                               "Measure sill and height again.")
        if one.at_m is None or one.kind in FLAT or len(set(one.wall)) < 2 or not set(one.wall) <= drawn or wall_of(one, walls, between) is not None:
            continue
        says, do = _no_wall(one, [walls[index] for index in between.get(frozenset(one.wall), ())])
        yield tree.problem((*where, "at_m"), says, do)


def _no_wall(one: Opening, between: list[Wall]) -> tuple[str, str]:
    """Why an opening stands in no wall, and what to write."""
    both = " and ".join(one.wall)
    if not between:
        return f"{both} have no wall in common in the plan.", "Name the two places that it lies between, or measure the rooms again."
    place = Place(*one.at_m)
    spans = [(*on_line(wall.start, wall.end, place), wall) for wall in between]
    near = [(along, wall) for along, off, wall in spans if abs(off) <= OFF_LINE_M and 0 <= along <= wall.length_m]
    if near:
        along, wall = near[0]
        return (f"{number(one.width_m or 0, 2)} m wide, it would reach past the end of the wall between {both}, which is {number(wall.length_m, 2)} m long.",
                f"Its middle can lie at most {number(min(along, wall.length_m - along) * 2, 2)} m wide here; measure width and middle again.")
    wall = min(spans, key=lambda span: abs(span[1]))[2]
    return (f"[{place.x:g}, {place.y:g}] is not on the wall between {both}.",
            f"That wall runs from [{number(wall.start.x, 2)}, {number(wall.start.y, 2)}] to [{number(wall.end.x, 2)}, {number(wall.end.y, 2)}].")


def _furniture(tree: Tree, path: Path_, storey: Storey) -> Iterator[Problem]:
    for key, thing in storey.furniture.items():
        where: Path_ = (*path, "furniture", key)
        yield from _fault(tree, where, thing)
        room, shape = area(storey.rooms[thing.room]) if thing.room in storey.rooms else None, area(thing)
        if room and shape and overlap_m2(shape, room) < shape.area / 2:
            yield tree.problem((*where, "room"), f"most of it stands outside {thing.room}.", "Measure it again, or name the room that it stands in.")
        if storey.ceiling_m is not None and thing.height_m > storey.ceiling_m:
            yield tree.problem((*where, "height_m"), f"{thing.height_m:g} m is above the ceiling at {storey.ceiling_m:g} m.", "Measure it again.")


def _stacked(tree: Tree, job: Job, heights: dict[str, float | None]) -> Iterator[Problem]:
    """Storeys of which one would reach into the next."""
    over = {key: together(filter(None, map(area, storey.rooms.values()))) for key, storey in job.premises.storeys.items()}
    for key, storey in job.premises.storeys.items():
        for other, level in heights.items():
            own = heights[key]
            if other == key or own is None or level is None or storey.ceiling_m is None or not own <= level < own + storey.ceiling_m:
                continue
            if (own, list(heights).index(key)) < (level, list(heights).index(other)) and overlap_m2(over[key], over[other]) > 0.01:
                yield tree.problem(("premises", "storeys", other, "level_m"),
                                   f"its floor at {level:g} m lies below the ceiling of {key}, which is at {number(own + storey.ceiling_m, 2)} m.",
                                   "Write the height of its floor above the floor of the main entrance.")


def _stairs(tree: Tree, job: Job, heights: dict[str, float | None]) -> Iterator[Problem]:
    storey_of = {room: key for key, storey in job.premises.storeys.items() for room in storey.rooms}
    for key, stairs in job.premises.stairs.items():
        path: Path_ = ("premises", "stairs", key)
        foot, head = storey_of.get(stairs.foot.room), storey_of.get(stairs.head.room)
        if foot and head and stairs.foot.room != stairs.head.room:
            if foot == head:
                yield tree.problem((*path, "head", "room"), f"{stairs.foot.room} and {stairs.head.room} are on one storey: these stairs lead nowhere.",
                                   "Name a room of the storey above.")
            elif None not in (heights[foot], heights[head]) and heights[foot] >= heights[head]:
                yield tree.problem((*path, "head", "room"), f"{head} does not lie above {foot}.", "Write the lower end as foot and the upper end as head.")
        for end in ("foot", "head"):
            one = getattr(stairs, end)
            room = area(job.premises.storeys[storey_of[one.room]].rooms[one.room]) if one.room in storey_of else None
            if room and one.at_m is not None and not holds(room, *one.at_m, OFF_ROOM_M):
                yield tree.problem((*path, end, "at_m"), f"[{one.at_m[0]:g}, {one.at_m[1]:g}] is not in {one.room}.", "Measure it again, or name its room.")


def _units(tree: Tree, job: Job) -> Iterator[Problem]:
    """Units that hang where their room is not, and units above its ceiling."""
    storeys = {room: storey for storey in job.premises.storeys.values() for room in storey.rooms}
    inner = {key: next((place for place in one.wall if place != OUTSIDE), None) for storey in job.premises.storeys.values()
             for key, one in storey.openings.items()}
    beside = {key: set(one.wall) for storey in job.premises.storeys.values() for key, one in storey.openings.items()}
    units = [(("control_unit",), job.control_unit.room, job.control_unit, "")]
    units += [(("devices", name), one.room or inner.get(one.protects or ""), one, one.protects or "") for name, one in job.devices.items()]
    for path, room, unit, opening in units:
        if room not in storeys:
            continue
        ceiling = storeys[room].ceiling_m
        if unit.height_m is not None and ceiling is not None and unit.height_m > ceiling:
            yield tree.problem((*path, "height_m"), f"{unit.height_m:g} m is above the ceiling of {room}, which is at {ceiling:g} m.",
                               "Write its height above the floor of its storey.")
        # A contact may hang on either side of the opening that it watches.
        may = {room} if getattr(unit, "room", None) else {room, *beside.get(opening, ())} & set(storeys)
        shapes = {name: area(storeys[name].rooms[name]) for name in may}
        if unit.at_m is not None and all(shapes.values()) and not any(holds(shape, *unit.at_m, OFF_ROOM_M) for shape in shapes.values()):
            yield tree.problem((*path, "at_m"), f"[{unit.at_m[0]:g}, {unit.at_m[1]:g}] is not in {room}.", "Measure it again, or name its room.")
