"""Where can one alarm confirm another? For each way in: the unit that acts first, and those that whoever came in meets next, as they walk on.

One unit never confirms itself, whatever its number of circuits, and none confirms that of another partition. Parts are what doors and stairs join
inside: whoever comes into an outbuilding meets no detector of the house. Within a part ways are walked, from one step inside the opening, every
door taken as opened: to where a movement detector sees somebody with the doors shut, or to a door inside with a contact on it. What stands in a way
stops nobody who breaks in: they climb over it, so that a metre here may be more, and no way is lost to a parked car.
"""
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from generator.calc.givens import of_profile, tried
from generator.calc.house.gaps import STEP, Way
from generator.calc.house.indoors import parts
from generator.calc.house.route_times import pace_of
from generator.calc.house.views import Seen
from generator.calc.unknown import Unknown
from generator.geometry.house import House
from generator.geometry.meeting import door_floor, leads_past, room_floor, seen_floor
from generator.geometry.openings import stands
from generator.geometry.routes import Goal, Route, Stand, Walk, routes, walk_of
from generator.model.job import watched
from generator.model.papers import Papers
from generator.model.premises import OUTSIDE

DETECTS = ("contact", "movement", "glass-break", "shock")
# What is silent until somebody calls for it or something burns confirms no intruder.
OFF_ROUTE = "immediate"
ROLES = ("timed-entry", "entry-route", OFF_ROUTE)
SEQUENTIAL = "sequential"
# Less than so far on is no way.
AT_ONCE_M = 0.05


@dataclass(frozen=True)
class Pairs:
    """A part of the premises, by its rooms: the units that detect somebody in it, and those of them that may confirm."""

    rooms: tuple[str, ...]
    units: tuple[str, ...]
    confirming: tuple[str, ...]

    @property
    def alone(self) -> bool:
        """Whether no alarm there can be confirmed by a second unit."""
        return bool(self.units) and not any(set(self.units) - {one} for one in self.confirming)


@dataclass(frozen=True)
class Ahead:
    """A unit that is met farther on: its room, whether it stands off the entry route, the metres walked until then, stairs along their slope, and
    the units that the way to it leads past."""

    unit: str
    room: str
    confirms: bool
    off_route: bool
    metres: float
    past: tuple[str, ...]

    @property
    def at_once(self) -> bool:
        """Whether it is met within the step inside."""
        return self.metres < AT_ONCE_M


@dataclass(frozen=True)
class Confirmed:
    """A way in, the units that act first on it, and those that may confirm them.

    `ahead` are other units in the order in which they are met, or why that is not known: then `by` are those of the same part. `reached` says
    whether the way in is within reach, or not known to be out of it; `on` are the rooms behind the doors of its room, with the metres to each.
    """

    opening: str
    room: str
    reached: bool
    first: tuple[str, ...]
    by: tuple[str, ...]
    ahead: tuple[Ahead, ...] | Unknown
    on: tuple[tuple[str, float], ...] = ()

    @property
    def confirming(self) -> Ahead | None:
        """The first that is met and may confirm."""
        return next((one for one in self.ahead if one.confirms), None) if not isinstance(self.ahead, Unknown) else None


def asked(papers: Papers) -> bool:
    """Whether a second zone confirms alarms of this job, or any unit is said to."""
    agreed = papers.job.monitoring
    return bool(agreed and agreed.confirmation == SEQUENTIAL) or any(one.confirms for one in papers.job.devices.values())


def pairs(papers: Papers) -> tuple[Pairs, ...]:
    """Every part of the premises that holds a detector."""
    part_of, found = parts(papers), {}
    for room, part in part_of.items():
        found.setdefault(part, []).append(room)
    units = [(name, part_of.get(papers.room_of(one) or "")) for name, one in papers.job.devices.items() if papers.sheet_of[name].kind in DETECTS]
    return tuple(Pairs(tuple(rooms), here, tuple(name for name in here if papers.job.devices[name].confirms))
                 for part, rooms in found.items() if (here := tuple(name for name, place in units if place == part)))


def confirmed(papers: Papers, house: House, views: Mapping[str, Seen | Unknown], ways: Sequence[Way], found: Sequence[Pairs]) -> tuple[Confirmed, ...]:
    """Every way in that something detects, with what may confirm it; nothing where no alarm is confirmed by a second zone."""
    if not asked(papers):
        return ()
    pace = tried(lambda: pace_of(papers))
    things = [name for storey in papers.job.premises.storeys.values() for name in storey.furniture]
    walk = walk_of(house, papers.job.premises, 1.0 if isinstance(pace, Unknown) else pace.stairs_count, things)
    goals = dict(_goals(papers, walk, views))
    out = []
    for way in ways:
        first = way.watched_by or way.seen_by or way.by_room
        part = next((one for one in found if way.room in one.rooms), None)
        if first and part:
            out.append(_one(papers, house, walk, goals, way, first, part))
    return tuple(out)


def _one(papers: Papers, house: House, walk: Walk, goals: Mapping[tuple[str, int], Goal], way: Way, first: tuple[str, ...], part: Pairs) -> Confirmed:
    reached = isinstance(way.reach, Unknown) or way.reach.reached
    own = {papers.partition_of(papers.job.devices[name]) for name in first}
    others = [name for name in part.confirming if name not in first and papers.partition_of(papers.job.devices[name]) in own]
    start = _start(papers, house, walk, way)
    if isinstance(start, Unknown):
        return Confirmed(way.opening, way.room, reached, first, tuple(others), start)
    wanted = {key: goal for key, goal in goals.items() if key[0] not in first and papers.partition_of(papers.job.devices[key[0]]) in own}
    ahead = _ahead(papers, walk, start, wanted)
    by = tuple(one.unit for one in ahead if one.confirms)
    doubt = _doubt(papers, walk) if others and not by else None
    if doubt:
        return Confirmed(way.opening, way.room, reached, first, tuple(others), doubt)
    return Confirmed(way.opening, way.room, reached, first, by, ahead, _on(papers, walk, start, way.room))


def _start(papers: Papers, house: House, walk: Walk, way: Way) -> Stand | Unknown:
    """Where somebody stands who came in."""
    at, step, floor = stands(house, way.opening, way.room), of_profile(papers, STEP, "s"), walk.floors.get(way.storey)
    if isinstance(step, Unknown):
        return step
    if at is None or floor is None:
        return Unknown(f"{way.opening} has no place in the plan; write at_m and its size in job.premises.storeys.{way.storey}.openings.{way.opening}")
    place = floor.nearest(way.room, at.inside(step.value))
    return Stand(way.storey, place) if place else Unknown(f"nobody can stand in {way.room}, by the things that the plan shows there")


def _goals(papers: Papers, walk: Walk, views: Mapping[str, Seen | Unknown]) -> Iterator[tuple[tuple[str, int], Goal]]:
    """Where each unit is met: on the floor that it sees, in its room if its view is not known, in the doors inside that it watches."""
    floor_of = {room: floor for floor in walk.floors.values() for room in floor.rooms}
    for name, device in papers.job.devices.items():
        if papers.sheet_of[name].kind not in DETECTS or device.role not in ROLES:
            continue
        view, here = views.get(name), []
        if isinstance(view, Seen) and view.view.storey in walk.floors:
            here += seen_floor(walk.floors[view.view.storey], view.low, view.high)
        elif view is not None and device.room in floor_of:
            here += room_floor(floor_of[device.room], device.room)
        for key in watched(device):
            storey, one = papers.openings()[key]
            if OUTSIDE not in one.wall and storey in walk.floors:
                here += door_floor(walk.floors[storey], key)
        yield from (((name, index), goal) for index, goal in enumerate(here))


def _ahead(papers: Papers, walk: Walk, start: Stand, wanted: Mapping[tuple[str, int], Goal]) -> tuple[Ahead, ...]:
    nearest: dict[str, tuple[float, Route]] = {}
    for (name, _), route in routes(walk, start, wanted).items():
        metres = route.flat_m + route.slope_m
        if name not in nearest or metres < nearest[name][0]:
            nearest[name] = metres, route
    order = sorted(nearest, key=lambda name: (round(nearest[name][0], 3), name))
    found = []
    for index, name in enumerate(order):
        metres, route = nearest[name]
        past = [one for one in order[:index] if any(leads_past(route, goal) for key, goal in wanted.items() if key[0] == one)]
        device = papers.job.devices[name]
        found.append(Ahead(name, papers.room_of(device) or "", device.confirms, device.role == OFF_ROUTE, metres, tuple(past)))
    return tuple(found)


def _on(papers: Papers, walk: Walk, start: Stand, room: str) -> tuple[tuple[str, float], ...]:
    """The rooms behind the doors of a room, and how far it is to each door."""
    floor = walk.floors[start.storey]
    doors = {key: one for key, one in floor.passages.items() if room in one.places and OUTSIDE not in one.places}
    found = routes(walk, start, {key: Goal.at(floor.storey, one.middle) for key, one in doors.items()})
    on = [(next(place for place in doors[key].places if place != room), route.flat_m + route.slope_m) for key, route in found.items()]
    return tuple(sorted(on, key=lambda one: one[1]))


def _doubt(papers: Papers, walk: Walk) -> Unknown | None:
    """Why a way may be there that was not found: doors without measures, hatches, stairs without their ends."""
    closed = [why for floor in walk.floors.values() for why in floor.closed.values() if "too narrow" not in why]
    hatches = [key for key, (_, one) in papers.openings().items() if one.kind == "hatch" and OUTSIDE not in one.wall]
    loose = [key for key, one in papers.job.premises.stairs.items() if None in (one.foot.at_m, one.head.at_m)]
    reasons = [*closed, *(f"{key} is a hatch, which nobody walks through" for key in hatches), *(f"the ends of {key} have no place" for key in loose)]
    return Unknown(f"no way is found, and {reasons[0]}") if reasons else None
