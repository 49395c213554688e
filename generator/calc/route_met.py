"""Which detectors does somebody meet on the way in that do not wait? They alarm at once, whatever the entry time."""
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from generator.calc.route_times import Pace
from generator.calc.ways_in import TimedDoor
from generator.geometry.house import House
from generator.geometry.routes import Goal, Passed, Route, Stand, Walk, passed, routes, walk_of
from generator.model.job import watched
from generator.model.papers import Papers

SEES = "movement"
AT_ONCE = ("immediate",)
# Before the entry time runs a unit of the entry route does not wait either.
NOT_YET = ("immediate", "entry-route")


@dataclass(frozen=True)
class Met:
    """A unit that acts at once: it stands in a room on the way, or watches a door on it, as `kind` says and `where` names.

    `at_s` counts from the moment the timed door moves; for what is met before that it is None.
    """

    unit: str
    kind: str
    where: str
    at_s: float | None


def met_on(papers: Papers, pace: Pace, walk: Walk, route: Route, door: TimedDoor) -> tuple[Met, ...]:
    """What is met between the timed door and the place where the alarm is turned off."""
    return tuple(Met(unit, one.kind, one.name, pace.door.value + one.flat_m / pace.speed.value + one.slope_m / pace.stairs.value)
                 for one in passed(walk, route) if one.name != door.key for unit in _acting(papers, one, AT_ONCE))


def met_before(papers: Papers, house: House, open_: Walk, door: TimedDoor) -> tuple[Met, ...]:
    """What is met on the way from the open air to a timed door that lies between two rooms; nothing for one to the open air."""
    passage = open_.floors[door.storey].passages.get(door.key)
    if not door.inner or passage is None:
        return ()
    # With the door shut, the way from either side of it to a door to the open air; people come by the shortest.
    walk = walk_of(house, papers.job.premises, shut=(door.key,))
    floor = walk.floors[door.storey]
    sides = [at for room in passage.places if (at := floor.nearest(room, passage.middle)) is not None]
    found = [one for at in sides for one in routes(walk, Stand(door.storey, at), _fronts(walk)).values()]
    best = min(found, key=lambda one: one.flat_m + one.slope_m, default=None)
    met = reversed(passed(walk, best)) if best else ()
    return tuple(Met(unit, one.kind, one.name, None) for one in met for unit in _acting(papers, one, NOT_YET))


def _fronts(walk: Walk) -> Mapping[str, Goal]:
    """The places in front of doors to the open air."""
    return {name: Goal.at(key, one.before) for key, floor in walk.floors.items() for name, one in floor.passages.items() if one.before}


def _acting(papers: Papers, one: Passed, roles: Sequence[str]) -> Iterator[str]:
    for name, device in papers.job.devices.items():
        if device.role not in roles:
            continue
        opened = one.kind == "door" and one.name in watched(device)
        seen = one.kind == "room" and device.room == one.name and papers.sheet_of[name].kind == SEES
        if opened or seen:
            yield name
