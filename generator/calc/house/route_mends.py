"""What would make a way short enough? A longer time, a keypad or reader nearer to the door, another door."""
import math
from dataclasses import dataclass

from generator.calc.house.route_times import Pace, metres_left, needed_s, parts_in
from generator.calc.house.ways_in import MEANS, TimedDoor, goals_of, means_of, place_of, quickest, start_of, used_units, ways
from generator.geometry.floors import wall_faces
from generator.geometry.house import House
from generator.geometry.routes import Stand, Walk, in_reach
from generator.geometry.shapes import Place
from generator.model.papers import Papers
from generator.model.premises import OUTSIDE

# Times are set in steps of so many seconds; places on a wall are tried so far apart.
STEP_S, EVERY_M = 5, 0.1


@dataclass(frozen=True)
class NearPlace:
    """A place on a wall where the unit would do: its room, the place, and the metres that are then walked."""

    room: str
    at: Place
    metres: float


@dataclass(frozen=True)
class Mends:
    """What would do. `set_s` and `set_exit_s` are the next times in steps that cover the needs, whether or not they are permitted.

    The rest is for `allowed_s`: how far off along the way a keypad or a reader may be, below 0 if nowhere; the nearest place to the present
    one on a wall of that storey; and other doors to the open air by which the alarm is off in time, with the seconds they need.
    """

    set_s: int
    set_exit_s: int
    allowed_s: float
    metres: dict[str, float]
    place: NearPlace | None
    doors: tuple[tuple[str, float], ...]


def mends_of(papers: Papers, house: House, walk: Walk, pace: Pace, door: TimedDoor, unit: str, needed: tuple[float, float],
             allowed_s: float) -> Mends:
    """What would do for one way, of which the seconds in and out are given, within so many seconds on the way in."""
    in_s, out_s = (math.ceil(round(one / STEP_S, 9)) * STEP_S for one in needed)
    return Mends(in_s, out_s, allowed_s, {kind: metres_left(pace, allowed_s, by) for kind, by in MEANS.items()},
                 _place(papers, house, walk, pace, door, unit, allowed_s), _doors(papers, house, walk, pace, door, allowed_s))


def _place(papers: Papers, house: House, walk: Walk, pace: Pace, door: TimedDoor, unit: str, allowed_s: float) -> NearPlace | None:
    """The place on a wall, of those on the door's storey, nearest to where the unit hangs now and from which it would do."""
    start, floor, means = start_of(walk, door), walk.floors[door.storey], means_of(papers, unit)
    left, now = metres_left(pace, allowed_s, means), place_of(papers, house, unit)
    if start is None or left <= 0 or now is None:
        return None
    faces = [(math.dist(now, at), room, at) for room, at in wall_faces(house, floor, EVERY_M) if math.dist(start.at, at) <= left + 1]
    for _, room, at in sorted(faces):
        goal = in_reach(walk, room, at)
        found = ways(walk, start, {unit: goal}).get(unit) if goal else None
        if found and needed_s(pace, parts_in(pace, found, means)) <= allowed_s:
            return NearPlace(room, at, found.flat_m)
    return None


def _doors(papers: Papers, house: House, walk: Walk, pace: Pace, door: TimedDoor, allowed_s: float) -> tuple[tuple[str, float], ...]:
    """Other doors to the open air by which the alarm would be off in time, the quickest first."""
    goals, found = goals_of(papers, house, walk, list(used_units(papers, door))), []
    for storey, floor in walk.floors.items():
        for name, passage in floor.passages.items():
            if name == door.key or OUTSIDE not in passage.places or passage.before is None or papers.openings()[name][1].kind != "door":
                continue
            ways_in = ways(walk, Stand(storey, passage.before), goals)
            best = quickest(papers, pace, ways_in)
            if best and (needed := needed_s(pace, parts_in(pace, ways_in[best], means_of(papers, best)))) <= allowed_s:
                found.append((name, needed))
    return tuple(sorted(found, key=lambda one: (one[1], one[0])))
