"""From room to room: through the doors between them and over the stairs. Fewest doors first, then the shortest.

Ways lead from the middle of one opening straight to that of the next: a measure for sound and for who meets whom, no walked route.
"""
import heapq
import math
from collections.abc import Mapping
from dataclasses import dataclass

from generator.geometry.house import House
from generator.geometry.shapes import Place, Spot
from generator.model.papers import Papers
from generator.model.premises import OUTSIDE

# Inside openings by which people and sound go from room to room.
DOORS = ("door", "garage-door")
# Half of the height of a person, and of a door.
MIDDLE_M = 1.0


@dataclass(frozen=True)
class Doorway:
    """A door, or a flight of stairs with no door in it, from one room to another; `at` are the points where it is entered and left."""

    name: str
    rooms: tuple[str, str]
    at: tuple[Spot, Spot]
    door: bool


@dataclass(frozen=True)
class Indoors:
    """A way: the rooms in turn, the doorways between them, and the points from the first to the last one."""

    rooms: tuple[str, ...]
    through: tuple[Doorway, ...]
    points: tuple[Spot, ...]

    @property
    def length_m(self) -> float:
        """Its length, heights counted."""
        return math.fsum(math.dist(one, other) for one, other in zip(self.points, self.points[1:]))

    @property
    def doors(self) -> tuple[str, ...]:
        """The doors that are passed."""
        return tuple(one.name for one in self.through if one.door)


def doorways(papers: Papers, house: House) -> tuple[Doorway, ...]:
    """Every door between two rooms and every flight of stairs of which the plan gives the place."""
    found = []
    for key, (storey, one) in papers.openings().items():
        rooms = tuple(one.wall)
        if one.kind in DOORS and one.at_m and len(rooms) == 2 and OUTSIDE not in rooms and all(room in house.rooms for room in rooms):
            spot = Spot(*Place(*one.at_m), house.floor_m[storey] + MIDDLE_M)
            found.append(Doorway(key, rooms, (spot, spot), door=True))
    for key, stairs in papers.job.premises.stairs.items():
        ends = (stairs.foot, stairs.head)
        if all(end.at_m and end.room in house.rooms for end in ends):
            spots = tuple(house.spot(end.room, Place(*end.at_m), MIDDLE_M) for end in ends)
            found.append(Doorway(key, (stairs.foot.room, stairs.head.room), spots, door=False))
    return tuple(found)


def indoors(ways: tuple[Doorway, ...], start: tuple[str, Spot], end: tuple[str, Spot]) -> Indoors | None:
    """The way from a point of one room to a point of another; None if the plan has none."""
    queue: list[tuple[int, float, int, str, Indoors]] = [(0, 0.0, 0, start[0], Indoors((start[0],), (), (start[1],)))]
    done: set[tuple[str, Spot]] = set()
    count = 0
    while queue:
        doors, metres, _, room, so_far = heapq.heappop(queue)
        if room == "":
            return so_far
        if (room, so_far.points[-1]) in done:
            continue
        done.add((room, so_far.points[-1]))
        if room == end[0]:
            count += 1
            whole = Indoors(so_far.rooms, so_far.through, (*so_far.points, end[1]))
            heapq.heappush(queue, (doors, metres + math.dist(so_far.points[-1], end[1]), count, "", whole))
        for one in ways:
            if room in one.rooms and one not in so_far.through:
                count += 1
                first, last = one.at if one.rooms[0] == room else reversed(one.at)
                other = one.rooms[1] if one.rooms[0] == room else one.rooms[0]
                run = math.dist(so_far.points[-1], first) + math.dist(first, last)
                step = (first,) if first == last else (first, last)
                heapq.heappush(queue, (doors + one.door, metres + run, count, other,
                                       Indoors((*so_far.rooms, other), (*so_far.through, one), (*so_far.points, *step))))
    return None


def parts(papers: Papers) -> Mapping[str, int]:
    """Every room by the part of the premises that it belongs to: rooms from one to another of which doors or stairs lead are one part."""
    rooms = list(papers.rooms())
    part = {room: index for index, room in enumerate(rooms)}
    joined = [tuple(one.wall) for _, one in papers.openings().values() if one.kind in (*DOORS, "hatch") and OUTSIDE not in one.wall]
    joined += [(one.foot.room, one.head.room) for one in papers.job.premises.stairs.values()]
    for one, other in joined:
        if one in part and other in part and part[one] != part[other]:
            low, high = sorted((part[one], part[other]))
            part = {room: low if index == high else index for room, index in part.items()}
    return part
