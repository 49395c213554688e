"""Which detectors does somebody meet on the way in that do not wait? They alarm at once, whatever the entry time."""
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from generator.calc.house.route_times import Pace
from generator.calc.house.views import Seen
from generator.calc.house.ways_in import TimedDoor
from generator.calc.unknown import Unknown
from generator.geometry.house import House
from generator.geometry.routes import Goal, Route, Stand, Walk, along, passed, routes, walk_of
from generator.model.job import watched
from generator.model.papers import Papers

SEES = "movement"
AT_ONCE = ("immediate",)
# Before the entry time runs a unit of the entry route does not wait either.
NOT_YET = ("immediate", "entry-route")
Eyes = Mapping[str, Seen | Unknown]
# A way is looked along in steps of so many metres.
EVERY_M = 0.1


@dataclass(frozen=True)
class Met:
    """A unit that acts at once. `kind` says how it meets people: it sees them in the room `where`, it stands in a room on the way and its view
    is not known, or it watches a door on it.

    `at_s` counts from the moment the timed door moves; for what is met before that it is None.
    """

    unit: str
    kind: Literal["view", "room", "door"]
    where: str
    at_s: float | None


def eyes_of(papers: Papers, seen: Eyes) -> Eyes:
    """What each detector sees that could alarm at once on a way in."""
    return {name: one for name, one in seen.items() if papers.job.devices[name].role in NOT_YET}


def met_on(papers: Papers, pace: Pace, eyes: Eyes, walk: Walk, route: Route, door: TimedDoor) -> tuple[Met, ...]:
    """What is met between the timed door and the place where the alarm is turned off, in the order in which it is met."""
    found = ((pace.door.value + flat / pace.speed.value + slope / pace.stairs.value, unit, kind, where)
             for unit, kind, where, flat, slope in _acting(papers, eyes, walk, route, door, AT_ONCE))
    return tuple(Met(unit, kind, where, at_s) for at_s, unit, kind, where in sorted(found))


def met_before(papers: Papers, house: House, eyes: Eyes, open_: Walk, door: TimedDoor) -> tuple[Met, ...]:
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
    return tuple(Met(unit, kind, where, None) for unit, kind, where, *_ in _acting(papers, eyes, walk, best, door, NOT_YET)) if best else ()


def _fronts(walk: Walk) -> Mapping[str, Goal]:
    """The places in front of doors to the open air."""
    return {name: Goal.at(key, one.before) for key, floor in walk.floors.items() for name, one in floor.passages.items() if one.before}


def _acting(papers: Papers, eyes: Eyes, walk: Walk, route: Route, door: TimedDoor,
            roles: Sequence[str]) -> Iterator[tuple[str, str, str, float, float]]:
    """Units of some roles that a way meets: the unit, how, where, and the metres walked until then on the flat and on stairs."""
    on_way = {(one.kind, one.name): one for one in passed(walk, route)}
    for name, device in papers.job.devices.items():
        if device.role not in roles:
            continue
        for key in watched(device):
            if key != door.key and (one := on_way.get(("door", key))):
                yield name, "door", key, one.flat_m, one.slope_m
        if name not in eyes:
            continue
        view, room = eyes[name], on_way.get(("room", device.room))
        if isinstance(view, Seen):
            yield from ((name, "view", device.room, flat, slope) for flat, slope in _first_seen(route, view))
        elif room:
            yield name, "room", device.room, room.flat_m, room.slope_m


def _first_seen(route: Route, view: Seen) -> Iterator[tuple[float, float]]:
    """How far along a way a detector sees whoever goes it, at either height; nothing if it does not."""
    for stand, flat, slope in along(route, EVERY_M):
        if stand.storey == view.view.storey and (view.low.holds(*stand.at) or view.high.holds(*stand.at)):
            yield flat, slope
            return
