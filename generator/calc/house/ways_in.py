"""The places where an alarm is turned off, the doors by which people come in, and the ways between them."""
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from generator.calc.house.route_times import Pace, needed_s, parts_in
from generator.geometry.floors import WALKED
from generator.geometry.house import House
from generator.geometry.routes import Goal, Route, Stand, Walk, in_reach, routes
from generator.geometry.shapes import Place
from generator.model.job import Device, watched
from generator.model.papers import Papers
from generator.model.premises import OUTSIDE

TIMED = "timed-entry"
MEANS = {"keypad": "code", "reader": "tag"}


@dataclass(frozen=True)
class TimedDoor:
    """A door that starts the entry time: its key, where it stands in the job, its storey, the unit that watches it, its two places."""

    key: str
    field: str
    storey: str
    unit: str
    places: tuple[str, ...]

    @property
    def inner(self) -> bool:
        """Whether it lies between two rooms."""
        return OUTSIDE not in self.places


def timed_doors(papers: Papers) -> Iterator[TimedDoor]:
    """The doors by which people come in while the alarm is set, in the order of the job's units."""
    told = set()
    for name, device in papers.job.devices.items():
        for key in watched(device) if device.role == TIMED else ():
            storey, one = papers.openings()[key]
            if one.kind in WALKED and key not in told:
                told.add(key)
                yield TimedDoor(key, f"job.premises.storeys.{storey}.openings.{key}", storey, name, tuple(one.wall))


def used_units(papers: Papers, door: TimedDoor) -> dict[str, Device]:
    """Keypads and readers inside at which the part of the house behind a door is unset."""
    part = papers.partition_of(papers.job.devices[door.unit])
    return {name: one for name, one in papers.job.devices.items()
            if papers.sheet_of[name].kind in MEANS and one.room not in (None, OUTSIDE) and papers.partition_of(one) == part}


def means_of(papers: Papers, unit: str) -> str:
    """What an alarm is turned off with at a unit: a code or a tag."""
    return MEANS[papers.sheet_of[unit].kind]


def place_of(papers: Papers, house: House, unit: str) -> Place | None:
    """Where a unit hangs in the plan; None if that is not known."""
    one = papers.job.devices[unit]
    if one.at_m is None or one.room not in house.rooms:
        return None
    at = house.spot(one.room, Place(*one.at_m), one.height_m or 0.0)
    return Place(at.x, at.y)


def goals_of(papers: Papers, house: House, walk: Walk, units: Sequence[str]) -> dict[str, Goal]:
    """Where somebody stands who uses each of several units; none for one that nobody can reach or that has no place."""
    found = {name: in_reach(walk, papers.job.devices[name].room, at) for name in units if (at := place_of(papers, house, name))}
    return {name: one for name, one in found.items() if one is not None}


def start_of(walk: Walk, door: TimedDoor) -> Stand | None:
    """Where somebody stands who comes in by a door: in front of it, or in it if it lies between two rooms; None if it is no way."""
    floor = walk.floors.get(door.storey)
    passage = floor.passages.get(door.key) if floor else None
    return Stand(door.storey, passage.before or passage.middle) if passage else None


def quickest(papers: Papers, pace: Pace, found: Mapping[str, Route]) -> str | None:
    """Of units that can be reached the one at which the alarm is off first; None if there is none."""
    return min(found, key=lambda name: needed_s(pace, parts_in(pace, found[name], means_of(papers, name))), default=None)


def without_tag(papers: Papers) -> tuple[str, ...]:
    """Who turns the alarm off with a code, having neither fob nor tag: "user 5: sister who holds a key"."""
    return tuple(f"user {number}: {one.who}" for number, one in sorted(papers.job.users.items()) if not one.fob and not one.tag)


def ways(walk: Walk, start: Stand, goals: Mapping[str, Goal]) -> dict[str, Route]:
    """The shortest way to each goal that has one."""
    return routes(walk, start, goals) if goals else {}
