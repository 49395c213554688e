"""Will whoever comes in be at the keypad in time, and out again? The ways of every timed-entry door of a job."""
from collections.abc import Iterator
from dataclasses import dataclass

from generator.calc.givens import of_profile, tried
from generator.calc.house.route_mends import Mends, mends_of
from generator.calc.house.route_met import Eyes, Met, eyes_of, met_before, met_on
from generator.calc.house.route_times import Pace, Parts, entry_working, exit_working, metres_left, pace_of, parts_in
from generator.calc.house.views import views
from generator.calc.house.ways_in import TimedDoor, goals_of, means_of, place_of, quickest, start_of, timed_doors, used_units, ways, without_tag
from generator.calc.unknown import Unknown
from generator.calc.working import Given, Working
from generator.geometry.house import House, house_of
from generator.geometry.routes import Passed, Route, Walk, passed, walk_of
from generator.model.papers import Papers
from generator.tables.body import REACH_M, WIDTH_M
from generator.terms.show import figure, sentence_list

LONGEST_ENTRY, LONGEST_EXIT = "entry_max_s", "exit_max_s"


@dataclass(frozen=True)
class WayIn:
    """One way from a timed door to where the alarm is turned off: at which unit and by what, and for whom, if it is not for all.

    `through` are the doors and rooms that it leads through; `parts` the seconds of the way in without reserve; `within_m` how far off along the
    way such a unit may be so that the programmed time is enough, below 0 if nowhere. `longest_entry` and `longest_exit` are the profile's
    limits, None where it has none. `mends` say what would do within the programmed time, or, where no permitted time covers the need,
    within the longest; None if all is well.
    """

    door: TimedDoor
    unit: str
    means: str
    users: tuple[str, ...]
    route: Route
    through: tuple[Passed, ...]
    parts: Parts
    within_m: float
    entry: Working
    exit: Working
    longest_entry: Given | None
    longest_exit: Given | None
    mends: Mends | None

    @property
    def speed(self) -> Given:
        """The speed on the flat that was counted with."""
        return next(one for one in self.entry.inputs if one.symbol == "v")

    @property
    def reserve(self) -> Given:
        """The factor by which the time is raised."""
        return next(one for one in self.entry.inputs if one.symbol == "F")

    @property
    def permitted(self) -> bool:
        """Whether some permitted entry time covers the need."""
        return self.longest_entry is None or self.entry.value <= self.longest_entry.value

    @property
    def reserve_s(self) -> float:
        """What is left of the programmed entry time; below 0 it is short."""
        return self.entry.limit.value - self.entry.value


@dataclass(frozen=True)
class Blocked:
    """No way leads from a door to a keypad or reader: why, and what would open one."""

    says: str
    do: str


@dataclass(frozen=True)
class DoorWays:
    """A timed door with its ways: the quickest, and that of people without a tag where the quickest ends at a reader.

    `met` is what alarms at once.
    """

    door: TimedDoor
    found: tuple[WayIn, ...] | Blocked | Unknown
    met: tuple[Met, ...] = ()


@dataclass(frozen=True)
class RoutesOfJob:
    """The ways of a job, door by door; `lacks` says why none was worked out, "" if they were."""

    doors: tuple[DoorWays, ...]
    lacks: str

    @property
    def ways(self) -> tuple[WayIn, ...]:
        """Every way that was found."""
        return tuple(way for one in self.doors if isinstance(one.found, tuple) for way in one.found)


def routes_of_job(papers: Papers, house: House | None = None, seen: Eyes | None = None) -> RoutesOfJob:
    """The ways of every timed-entry door. `seen` is what the detectors see, where that was worked out before."""
    house = house or house_of(papers.job.premises)
    if house.lacks:
        return RoutesOfJob((), house.lacks)
    pace = tried(lambda: pace_of(papers))
    if isinstance(pace, Unknown):
        return RoutesOfJob((), pace.reason)
    walk = walk_of(house, papers.job.premises, pace.stairs_count)
    eyes = eyes_of(papers, views(papers, house) if seen is None else seen)
    return RoutesOfJob(tuple(_door(papers, house, eyes, walk, pace, one) for one in timed_doors(papers)), "")


def _door(papers: Papers, house: House, eyes: Eyes, walk: Walk, pace: Pace, door: TimedDoor) -> DoorWays:
    units, floor = list(used_units(papers, door)), walk.floors.get(door.storey)
    start = start_of(walk, door)
    if start is None:
        return DoorWays(door, _no_start(floor.closed.get(door.key, "") if floor else "", door))
    nowhere = [name for name in units if place_of(papers, house, name) is None]
    goals = goals_of(papers, house, walk, units)
    found = ways(walk, start, goals)
    if not found:
        return DoorWays(door, _no_way(papers, house, walk, door, units, nowhere))
    notes = tuple(f"{name} has no place in the plan and is not counted." for name in nowhere)
    best = quickest(papers, pace, found)
    own = [_way(papers, house, walk, pace, door, best, found[best], (), notes)]
    codes = {name: one for name, one in found.items() if means_of(papers, name) == "code"}
    if best not in codes and codes and (users := without_tag(papers)):
        other = quickest(papers, pace, codes)
        own.append(_way(papers, house, walk, pace, door, other, codes[other], users, notes))
    met = [*met_before(papers, house, eyes, walk, door), *(one for way in own for one in met_on(papers, pace, eyes, walk, way.route, door))]
    return DoorWays(door, tuple(own), tuple({(one.unit, one.at_s is None): one for one in reversed(met)}.values())[::-1])


def _way(papers: Papers, house: House, walk: Walk, pace: Pace, door: TimedDoor, unit: str, route: Route, users: tuple[str, ...],
         notes: tuple[str, ...]) -> WayIn:
    times, means = papers.job.times, means_of(papers, unit)
    entry = entry_working(pace, door.key, unit, route, means, Given("programmed entry time", "T_p", times.entry_s, "s", "job.times.entry_s"), notes)
    leave = exit_working(pace, door.key, unit, route, Given("programmed exit time", "T_p", times.exit_s, "s", "job.times.exit_s"), notes)
    longest, longest_out = (one if isinstance(one, Given) else None
                            for one in (of_profile(papers, LONGEST_ENTRY, "T_max"), of_profile(papers, LONGEST_EXIT, "T_max")))
    allowed = longest.value if longest and entry.value > longest.value else times.entry_s
    mends = None if entry.holds() and leave.holds() else mends_of(papers, house, walk, pace, door, unit, (entry.value, leave.value), allowed)
    through = tuple(one for one in passed(walk, route) if one.name != door.key)
    within_m = metres_left(pace, times.entry_s, means, route.slope_m)
    return WayIn(door, unit, means, users, route, through, parts_in(pace, route, means), within_m, entry, leave, longest, longest_out, mends)


def _no_start(closed: str, door: TimedDoor) -> Blocked | Unknown:
    """A door that is no way: too narrow, or not measured."""
    if "too narrow" in closed:
        return Blocked(f"Nobody comes in by {door.key}: {closed}.", "Measure the door again, or let people come in by another one.")
    return Unknown(f"{closed or f'{door.key} is not in the plan'}; write it in {door.field}")


def _no_way(papers: Papers, house: House, walk: Walk, door: TimedDoor, units: list[str], nowhere: list[str]) -> Blocked | Unknown:
    """Why no keypad or reader is reached: none is there, none has a place, things stand in the way, doors are missing."""
    if not units:
        return Blocked(f"Whoever comes in by {door.key} finds no keypad and no reader inside.",
                       "Plan one inside, near this door, or let everybody unset with a fob before the door is opened.")
    if nowhere:
        return Unknown(f"{sentence_list(nowhere)} {'has' if len(nowhere) == 1 else 'have'} no place in the plan; "
                       f"write at_m in job.devices.{nowhere[0]}")
    closed = [why for floor in walk.floors.values() for why in floor.closed.values()]
    unmeasured = [one for one in closed if "too narrow" not in one]
    bare = walk_of(house, papers.job.premises, walk.stairs_count, [name for floor in walk.floors.values() for name in floor.blocks])
    found = ways(bare, start_of(bare, door), goals_of(papers, house, bare, units))
    if found:
        things = sorted({thing for route in found.values() for thing in _things(walk, route)}) or sorted(set(_beside(papers, house, walk, units)))
        stand = "stands" if len(things) == 1 else "stand"
        return Blocked(f"No way leads from {door.key} to {sentence_list(units, 'or')}: {sentence_list(things)} {stand} in it; "
                       f"a person needs {figure(WIDTH_M, 'm')} between things, and a place within {figure(REACH_M, 'm')} of the unit.",
                       f"Measure {sentence_list(things)} again; if it is so, move it or the unit, or come in by another door.")
    if unmeasured:
        return Unknown(f"no way is found from {door.key} to {sentence_list(units, 'or')}, and {sentence_list(unmeasured)}")
    narrow = f": {'; '.join(closed)}" if closed else ""
    return Blocked(f"No door or stairs of the plan lead from {door.key} to {sentence_list(units, 'or')}{narrow}.",
                   "Write the doors and stairs between them, or plan a keypad or reader where this door leads.")


def _things(walk: Walk, route: Route) -> Iterator[str]:
    for one in route.stretches:
        yield from walk.floors[one.storey].blocked(one.places)


def _beside(papers: Papers, house: House, walk: Walk, units: list[str]) -> Iterator[str]:
    """The things that stand where somebody would stand to use a unit."""
    for name in units:
        floor = next(one for one in walk.floors.values() if papers.job.devices[name].room in one.rooms)
        yield from floor.beside(place_of(papers, house, name), REACH_M)
