"""Whom does whoever gets up at night meet: which detectors act in a part set and see the way from a bedroom to the nearest bathroom?

The way leads from the middle of the bedroom by the fewest doors, and straight from door to door; the doors on it are opened, so that a
detector behind one sees through it.
"""
import math
from collections.abc import Mapping
from dataclasses import dataclass

from generator.calc.house.indoors import MIDDLE_M, Indoors, doorways, indoors
from generator.calc.house.views import Seen
from generator.calc.unknown import Unknown
from generator.geometry.house import House
from generator.geometry.shapes import Place, holds
from generator.model.job import watched
from generator.model.papers import Papers

# What stays silent until somebody calls for it or something burns.
ROLES = ("timed-entry", "entry-route", "immediate")
# A way is looked along in steps of so many metres.
EVERY_M = 0.1


@dataclass(frozen=True)
class Met:
    """A unit that acts in a part set on the way of somebody who sleeps, the room in which it is met, and after how many metres."""

    unit: str
    part_set: str
    room: str
    after_m: float


@dataclass(frozen=True)
class Sleeper:
    """The way from one bedroom to the nearest bathroom, and whom one meets on it; `way` says why it is not known."""

    bedroom: str
    bathroom: str
    way: Indoors | Unknown
    met: tuple[Met, ...] = ()


def sleepers(papers: Papers, house: House, views: Mapping[str, Seen | Unknown]) -> tuple[Sleeper, ...]:
    """Every bedroom's way to a bathroom."""
    rooms = papers.rooms()
    baths = [key for key, (_, room) in rooms.items() if room.bathroom]
    return tuple(_sleeper(papers, house, views, key, baths) for key, (_, room) in rooms.items() if room.sleeping)


def _sleeper(papers: Papers, house: House, views: Mapping[str, Seen | Unknown], bedroom: str, baths: list[str]) -> Sleeper:
    if not baths:
        return Sleeper(bedroom, "", Unknown("no room is marked with bathroom: true"))
    if bedroom not in house.rooms:
        return Sleeper(bedroom, "", Unknown(f"{bedroom} has no shape in the plan"))
    ways, found = doorways(papers, house), []
    for bath in (one for one in baths if one in house.rooms):
        ends = [(room, house.spot(room, Place(*_middle(house, room)), MIDDLE_M)) for room in (bedroom, bath)]
        way = indoors(ways, *ends)
        found += [(len(way.doors), way.length_m, bath, way)] if way else []
    if not found:
        return Sleeper(bedroom, "", Unknown(f"the plan has no doors or stairs that lead from {bedroom} to a bathroom"))
    *_, bath, way = min(found, key=lambda one: one[:3])
    return Sleeper(bedroom, bath, way, tuple(_met(papers, house, views, way)))


def _middle(house: House, room: str) -> tuple[float, float]:
    at = house.rooms[room].representative_point()
    return at.x, at.y


def _met(papers: Papers, house: House, views: Mapping[str, Seen | Unknown], way: Indoors) -> list[Met]:
    met = []
    for part in papers.job.part_sets:
        for name, device in papers.job.devices.items():
            if device.role not in ROLES or part in device.left_out_in:
                continue
            view, room = views.get(name), papers.room_of(device) or ""
            found = [one] if isinstance(view, Seen) and (one := _seen_on(papers, house, view, way)) else []
            if isinstance(view, Unknown) and room in way.rooms:
                found.append((_metres(way, way.rooms.index(room)), room))
            found += [(_metres(way, index + 1), room) for index, one in enumerate(way.through) if one.door and one.name in watched(device)]
            if found:
                after_m, where = min(found)
                met.append(Met(name, part, where, after_m))
    return met


def _metres(way: Indoors, rooms: int) -> float:
    """How far it is until so many rooms are left behind: to the doorway after the last of them."""
    points = 1 + sum(1 if one.at[0] == one.at[1] else 2 for one in way.through[:rooms])
    return math.fsum(math.dist(one, other) for one, other in zip(way.points[:points], way.points[1:points]))


def _seen_on(papers: Papers, house: House, view: Seen, way: Indoors) -> tuple[float, str] | None:
    """After how many metres of the way a detector sees it first, and in which room."""
    before_m = 0.0
    for start, end in zip(way.points, way.points[1:]):
        length = math.dist(start, end)
        if abs(start.z - end.z) <= 1e-6 and abs(start.z - house.floor_m[view.view.storey] - MIDDLE_M) <= 1e-6:
            line = (Place(start.x, start.y), Place(end.x, end.y))
            if view.opened.meets(line) or view.low.meets(line):
                middle = ((start.x + end.x) / 2, (start.y + end.y) / 2)
                room = next((room for room in way.rooms if papers.rooms()[room][0] == view.view.storey and holds(house.rooms[room], *middle)), way.rooms[0])
                return before_m + _first(view, line, length), room
        before_m += length
    return None


def _first(view: Seen, line: tuple[Place, Place], length: float) -> float:
    """How far along a straight line it is seen, to a step of EVERY_M."""
    (x, y), (to_x, to_y) = line
    for step in range(math.ceil(length / EVERY_M) + 1):
        share = min(1.0, step * EVERY_M / length) if length else 0.0
        at = x + (to_x - x) * share, y + (to_y - y) * share
        if view.opened.holds(*at) or view.low.holds(*at):
            return share * length
    return 0.0
