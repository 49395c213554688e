"""The shortest way that a person can walk from one place of the house to another, round what stands there and by the stairs.

A shortest way among obstacles is a row of straight legs that turns only at corners of what is in the way. So the corners of
the free floor that stick into it are joined wherever one sees the other, stairs join storeys, and Dijkstra's search over these gives the
shortest way itself, not one near it.
"""
import heapq
import math
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass

from shapely import LineString, Point, Polygon, covers, linestrings, prepare
from shapely.geometry.base import BaseGeometry
from shapely.geometry.polygon import orient
from shapely.ops import nearest_points

from generator.geometry.floors import Floor, floor_of, rise_m
from generator.geometry.house import House
from generator.geometry.shapes import Place
from generator.model.premises import Premises
from generator.tables.body import REACH_M, STEEPEST_DEG

HAIR_M = 1e-6
# A way that only brushes a room does not go through it.
BRUSH_M = 0.05


@dataclass(frozen=True)
class Stand:
    """A place on a storey's floor."""

    storey: str
    at: Place


@dataclass(frozen=True)
class Flight:
    """A flight of stairs, by the two nodes that it joins; `slope_m` is its length along the slope."""

    stairs: str
    foot: int
    head: int
    slope_m: float


@dataclass(frozen=True)
class Goal:
    """Any place of a region will do."""

    storey: str
    region: BaseGeometry

    @staticmethod
    def at(storey: str, place: Place) -> "Goal":
        """A single place."""
        return Goal(storey, Point(place))


@dataclass(frozen=True)
class Stretch:
    """A part of a way on one storey, corner by corner."""

    storey: str
    places: tuple[Place, ...]

    @property
    def length_m(self) -> float:
        """How long it is."""
        return sum(math.dist(one, other) for one, other in zip(self.places, self.places[1:]))


@dataclass(frozen=True)
class Route:
    """A way: stretches on the flat, and the flight of stairs behind each but the last, with its length along the slope."""

    stretches: tuple[Stretch, ...]
    stairs: tuple[tuple[str, float], ...] = ()

    @property
    def flat_m(self) -> float:
        """Metres on the flat."""
        return sum(one.length_m for one in self.stretches)

    @property
    def slope_m(self) -> float:
        """Metres on stairs, along the slope."""
        return sum(length for _, length in self.stairs)


@dataclass(frozen=True)
class Passed:
    """A door or a room that a way leads through: after how many metres on the flat and on stairs."""

    kind: str
    name: str
    flat_m: float
    slope_m: float


@dataclass(frozen=True)
class Walk:
    """The house as one walks in it. `stairs_count` says how many metres on the flat one metre of stairs is as long as."""

    floors: Mapping[str, Floor]
    nodes: tuple[Stand, ...]
    sees: tuple[tuple[tuple[int, float], ...], ...]
    flights: tuple[Flight, ...]
    stairs_count: float


def walk_of(house: House, premises: Premises, stairs_count: float = 1.0, shut: Collection[str] = ()) -> Walk:
    """The house as one walks in it, doors open. What is named in `shut` counts as wall if it is a door, as not there if it is a thing."""
    floors = {key: floor_of(house, premises, key, shut) for key, storey in premises.storeys.items()
              if any(room in house.rooms for room in storey.rooms)}
    nodes = [Stand(key, at) for key, floor in floors.items() for at in _corners(floor.free)]
    flights = list(_flights(house, premises, floors, nodes))
    sees: list[tuple[tuple[int, float], ...]] = [()] * len(nodes)
    for key, floor in floors.items():
        own = [index for index, one in enumerate(nodes) if one.storey == key]
        found: dict[int, list[tuple[int, float]]] = {index: [] for index in own}
        pairs = [(one, other) for place, one in enumerate(own) for other in own[place + 1:]]
        for (one, other), seen in zip(pairs, _clear(floor, [(nodes[one].at, nodes[other].at) for one, other in pairs])):
            if seen:
                length = math.dist(nodes[one].at, nodes[other].at)
                found[one].append((other, length))
                found[other].append((one, length))
        for index, seen in found.items():
            sees[index] = tuple(seen)
    return Walk(floors, tuple(nodes), tuple(sees), tuple(flights), stairs_count)


def _corners(free: BaseGeometry) -> Iterator[Place]:
    """The corners that stick into the free floor: at no others does a shortest way turn."""
    for part in getattr(free, "geoms", [free]):
        if part.is_empty:
            continue
        turned = orient(part)
        for line in (turned.exterior, *turned.interiors):
            points = [Place(x, y) for x, y in line.coords[:-1]]
            for before, here, after in zip([points[-1], *points], points, [*points[1:], points[0]]):
                if (here.x - before.x) * (after.y - here.y) - (here.y - before.y) * (after.x - here.x) < -1e-12:
                    yield here


def _flights(house: House, premises: Premises, floors: Mapping[str, Floor], nodes: list[Stand]) -> Iterator[Flight]:
    """Flights of which both ends are known; their ends become nodes where somebody stands who steps on or off."""
    for name, stairs in premises.stairs.items():
        rise, ends = rise_m(house, premises, stairs), []
        for end in (stairs.foot, stairs.head):
            floor = next((one for one in floors.values() if end.room in one.rooms), None)
            at = floor.nearest(end.room, Place(*end.at_m)) if floor and end.at_m is not None else None
            if at is not None:
                ends.append((Stand(floor.storey, at), math.dist(end.at_m, at)))
        if len(ends) == 2 and rise:
            going = max(math.dist(stairs.foot.at_m, stairs.head.at_m), rise / math.tan(math.radians(STEEPEST_DEG)))
            first = len(nodes)
            nodes.extend(stand for stand, _ in ends)
            yield Flight(name, first, first + 1, math.hypot(going, rise) + sum(beside for _, beside in ends))


def _clear(floor: Floor, pairs: Sequence[tuple[Place, Place]]) -> Sequence[bool]:
    """For each pair of places whether one can be walked to from the other in a straight line."""
    if not pairs:
        return ()
    wide = floor.free.buffer(HAIR_M, join_style="mitre")
    prepare(wide)
    return [bool(one) for one in covers(wide, linestrings([[tuple(start), tuple(end)] for start, end in pairs]))]


def in_reach(walk: Walk, room: str, at: Place) -> Goal | None:
    """Where somebody can stand who uses what hangs at a place of a room; None if nobody can.

    A part of the floor counts if its point nearest to the thing sees it within the room, so that nobody reaches through a wall.
    """
    floor = next((one for one in walk.floors.values() if room in one.rooms), None)
    if floor is None:
        return None
    inside = floor.rooms[room]
    near = floor.free.intersection(inside).intersection(Point(at).buffer(REACH_M, quad_segs=16))
    within = inside.buffer(2 * BRUSH_M)
    parts = [one for one in getattr(near, "geoms", [near])
             if isinstance(one, Polygon) and not one.is_empty and within.covers(LineString((nearest_points(one, Point(at))[0], at)))]
    region = max(parts, key=lambda one: -one.distance(Point(at)), default=None)
    return Goal(floor.storey, region) if region is not None else None


def routes(walk: Walk, start: Stand, goals: Mapping[str, Goal]) -> dict[str, Route]:
    """The shortest way from a place to each of several goals, by their names; none for one that no way leads to."""
    costs, before = _search(walk, start)
    found = {name: _last_leg(walk, start, costs, goal) for name, goal in goals.items()}
    return {name: _route(walk, start, before, *one) for name, one in found.items() if one is not None}


def _search(walk: Walk, start: Stand) -> tuple[dict[int, float], dict[int, int]]:
    """How far it is to each node, in metres on the flat, and the node before each; -1 stands for the start."""
    steps: dict[int, list[tuple[int, float]]] = {}
    for one in walk.flights:
        steps.setdefault(one.foot, []).append((one.head, one.slope_m * walk.stairs_count))
        steps.setdefault(one.head, []).append((one.foot, one.slope_m * walk.stairs_count))
    own = [index for index, one in enumerate(walk.nodes) if one.storey == start.storey]
    floor = walk.floors[start.storey]
    seen = _clear(floor, [(start.at, walk.nodes[index].at) for index in own])
    queue = [(math.dist(start.at, walk.nodes[index].at), index, -1) for index, clear in zip(own, seen) if clear]
    heapq.heapify(queue)
    costs: dict[int, float] = {}
    before: dict[int, int] = {}
    while queue:
        cost, index, came = heapq.heappop(queue)
        if index in costs:
            continue
        costs[index], before[index] = cost, came
        for other, length in (*walk.sees[index], *steps.get(index, ())):
            if other not in costs:
                heapq.heappush(queue, (cost + length, other, index))
    return costs, before


def _last_leg(walk: Walk, start: Stand, costs: Mapping[int, float], goal: Goal) -> tuple[int, Place] | None:
    """The node from which a goal is walked to in a straight line, and where in the goal that line ends."""
    floor = walk.floors[goal.storey]
    ends = [Place(x, y) for x, y in goal.region.exterior.coords] if isinstance(goal.region, Polygon) else []
    from_ = [(index, walk.nodes[index].at, cost) for index, cost in costs.items() if walk.nodes[index].storey == goal.storey]
    from_ += [(-1, start.at, 0.0)] if start.storey == goal.storey else []
    legs = []
    for index, at, cost in from_:
        nearest = nearest_points(goal.region, Point(at))[0]
        legs += [(cost + math.dist(at, end), index, at, end) for end in (Place(nearest.x, nearest.y), *ends)]
    wide = floor.free.buffer(HAIR_M, join_style="mitre")
    prepare(wide)
    return next(((index, end) for _, index, at, end in sorted(legs) if wide.covers(LineString((at, end)))), None)


def _route(walk: Walk, start: Stand, before: Mapping[int, int], last: int, end: Place) -> Route:
    nodes = []
    while last != -1:
        nodes.append(last)
        last = before[last]
    nodes.reverse()
    stretches: list[list[Place]] = [[start.at]]
    storeys, stairs = [start.storey], []
    joined = {(one.foot, one.head): one for one in walk.flights} | {(one.head, one.foot): one for one in walk.flights}
    for came, index in zip([-1, *nodes], nodes):
        flight = joined.get((came, index))
        if flight:
            stairs.append((flight.stairs, flight.slope_m))
            stretches.append([])
            storeys.append(walk.nodes[index].storey)
        stretches[-1].append(walk.nodes[index].at)
    stretches[-1].append(end)
    return Route(tuple(Stretch(storey, tuple(_once(places))) for storey, places in zip(storeys, stretches)), tuple(stairs))


def _once(places: Sequence[Place]) -> Iterator[Place]:
    """Places that follow each other, each once."""
    for index, one in enumerate(places):
        if not index or math.dist(places[index - 1], one) > HAIR_M:
            yield one


def passed(walk: Walk, route: Route) -> tuple[Passed, ...]:
    """The doors and rooms that a way leads through, in their order, each where it is first met."""
    found: dict[tuple[str, str], Passed] = {}
    flat, slope = 0.0, 0.0
    for index, stretch in enumerate(route.stretches):
        floor = walk.floors[stretch.storey]
        for start, end in zip(stretch.places, stretch.places[1:]):
            for key, after in sorted(_met(floor, start, end), key=lambda one: one[1]):
                found.setdefault(key, Passed(*key, flat + after, slope))
            flat += math.dist(start, end)
        slope += route.stairs[index][1] if index < len(route.stairs) else 0.0
    return tuple(found.values())


def _met(floor: Floor, start: Place, end: Place) -> Iterator[tuple[tuple[str, str], float]]:
    leg = LineString((start, end))
    for name, one in floor.passages.items():
        across = leg.intersection(LineString((one.start, one.end)))
        if not across.is_empty:
            yield ("door", name), across.distance(Point(start))
    for name, room in floor.rooms.items():
        inside = leg.intersection(room)
        if inside.length > BRUSH_M:
            yield ("room", name), inside.distance(Point(start))


def along(route: Route, every_m: float) -> Iterator[tuple[Stand, float, float]]:
    """Places on a way, so far apart and at its corners, each with the metres walked on the flat and on stairs."""
    flat, slope = 0.0, 0.0
    for index, stretch in enumerate(route.stretches):
        for start, end in zip(stretch.places, stretch.places[1:]):
            length = math.dist(start, end)
            for step in range(math.floor(length / every_m) + 1):
                share = step * every_m / length
                yield Stand(stretch.storey, Place(start.x + (end.x - start.x) * share, start.y + (end.y - start.y) * share)), flat + step * every_m, slope
            flat += length
        yield Stand(stretch.storey, stretch.places[-1]), flat, slope
        slope += route.stairs[index][1] if index < len(route.stairs) else 0.0
