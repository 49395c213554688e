"""How loud is each inside sounder in each bedroom with every door shut, and each outside sounder at the boundary?

By inverse square from the distance at which its level is stated, less what each shut door on the way takes. Sound is counted by the
doors alone: a wall takes about twice as many decibels as its door, and what comes through it as well only adds. Rooms throw sound back, so
that it falls off more slowly than in the open. So each level is one that is at least to be expected. The bed's place is not known:
the corner of the bedroom that is farthest from its door counts.

At the boundary it is the other way round. What reaches it straight from an outside sounder is at most its level at the nearest point, at the
sounder's own height and straight in front: off its front and behind walls less arrives, and nobody published by how much for this house. What
ground and walls throw back is left out, and only adds.
"""
import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from generator.calc.givens import lacking, of_profile, of_sheet, sheet_key
from generator.calc.house.indoors import Indoors, doorways, indoors
from generator.calc.house.spots import spot_of
from generator.calc.unknown import Unknown
from generator.calc.working import Given, Working
from generator.geometry.house import House, house_of
from generator.geometry.plot import nearest_on, walls_between
from generator.geometry.shapes import Place, Spot, corners_of
from generator.model.papers import Papers
from generator.model.premises import OUTSIDE
from generator.terms.show import count

WAKE, SHUT, SHUT_MILD = "wake_dba", "door_loss_high_db", "door_loss_measured_db"
PILLOW_M = 0.6
DEFERS = "For fire, the local fire code decides what must be heard in a bedroom, and it is measured there."
AT_LEAST = "Sound that comes through walls and that rooms throw back only adds."
ESTIMATE = "An estimate: what is heard at the bed with every door shut decides."


@dataclass(frozen=True)
class Heard:
    """A sounder in a bedroom: the way of its sound and its level there, with doors at their worst; `mild` with doors as measured at best."""

    sounder: str
    room: str
    way: Indoors
    level: Working
    mild: Working

    @property
    def within_m(self) -> float:
        """How near this sounder wakes with no door in between."""
        stated, at = (one.value for one in self.level.inputs[:2])
        return at * 10 ** ((stated - self.level.limit.value) / 20)


@dataclass(frozen=True)
class AtBoundary:
    """An outside sounder and the point of the boundary that is nearest: how many walls of the plan stand in between, and the level there at most,
    once for each figure of the profile that it is held against; once without any if the profile has none."""

    sounder: str
    stands: Place
    at: Place
    away_m: float
    walls: int
    levels: tuple[Working, ...]


@dataclass(frozen=True)
class Sounds:
    """`bedrooms` gives for each the sounders that can be worked out there, the loudest first; or why nothing can.

    `boundary` tells for each outside sounder what arrives at the boundary, or why it is not known; `outside` its level by distance in the open.
    """

    bedrooms: Mapping[str, tuple[Heard, ...] | Unknown]
    boundary: Mapping[str, AtBoundary | Unknown]
    outside: Mapping[str, tuple[Working, ...] | Unknown]


def spread_db(near_m: float, far_m: float) -> float:
    """What is lost between two distances from a source in the open, in dB: D = 20·log10(d2 / d1). Levels nearer than stated do not rise.

    Source: the inverse square law of a point source, plain arithmetic.

    >>> round(spread_db(1, 2), 2)
    6.02
    """
    return 20 * math.log10(max(far_m, near_m) / near_m)


def level_working(title: str, stated: Given, at: Given, distance: Given, doors: int, loss: Given | None, limit: Given | None,
                  notes: tuple[str, ...], limit_is: Literal["least", "most"] = "least") -> Working:
    """The level of a sounder at a distance, behind so many shut doors: L = L0 − 20·log10(d / d0) − n·D.

    Source: inverse square, plain arithmetic; the loss of a door with its document stands in the profile.
    """
    taken = loss.value * doors if loss else 0.0
    inputs = [stated, at, distance]
    if doors and loss:
        inputs += [Given("shut doors on the way", "n", doors, "", "the plan"), loss]
    behind = " less the loss of each shut door" if doors else ""
    return Working(title, f"the stated level less 20 times the logarithm of how many times as far{behind}",
                   "L = L₀ − 20·log(d / d₀)" + (" − n·D" if doors else ""),
                   tuple(inputs), "L", stated.value - spread_db(at.value, distance.value) - taken, "dB(A)", limit, limit_is if limit else "", notes, 3)


def sounds_of_job(papers: Papers, house: House | None = None) -> Sounds:
    """Every sounder, inside in each bedroom and outside over distance."""
    house = house or house_of(papers.job.premises)
    sounders = [name for name in papers.job.devices if papers.sheet_of[name].kind == "sounder"]
    inner = [name for name in sounders if papers.job.devices[name].room != OUTSIDE]
    return Sounds({room: _bedroom(papers, house, room, inner) for room, (_, one) in papers.rooms().items() if one.sleeping},
                  {name: _at_boundary(papers, house, name) for name in sounders if name not in inner},
                  {name: _outside(papers, name) for name in sounders if name not in inner})


def _bedroom(papers: Papers, house: House, room: str, sounders: list[str]) -> tuple[Heard, ...] | Unknown:
    if not sounders:
        return Unknown("the job has no sounder inside")
    if room not in house.rooms:
        return Unknown(f"{room} has no shape in the plan")
    found = [_heard(papers, house, room, name) for name in sounders]
    known = [one for one in found if isinstance(one, Heard)]
    return tuple(sorted(known, key=lambda one: -one.level.value)) if known else lacking(*found) or Unknown("no way leads there")


def _heard(papers: Papers, house: House, room: str, name: str) -> Heard | Unknown:
    here = spot_of(papers, house, name)
    level, at = _stated(papers, name)
    worst, mild = of_profile(papers, SHUT, "D"), of_profile(papers, SHUT_MILD, "D")
    limit = of_profile(papers, WAKE, "L_least")
    reason = lacking(here, level, at, worst, mild, limit)
    if reason:
        return reason
    start, ways = papers.room_of(papers.job.devices[name]), doorways(papers, house)
    if start not in house.rooms:
        return Unknown(f"{start or 'the room of ' + name} has no shape in the plan")
    found = [way for corner in corners_of(house.rooms[room]) if (way := indoors(ways, (start, here), (room, _pillow(papers, house, room, corner))))]
    if not found:
        return Unknown(f"the plan has no doors or stairs that lead from {start} to {room}")
    way = max(found, key=lambda one: one.length_m)
    distance = Given("way of the sound to the farthest corner", "d", way.length_m, "m", "the plan, from opening to opening")
    made = [level_working(f"{name} in {room}", level, at, distance, len(way.doors), loss, limit, (AT_LEAST, ESTIMATE, DEFERS))
            for loss in (worst, mild)]
    return Heard(name, room, way, *made)


def _pillow(papers: Papers, house: House, room: str, corner: Place) -> Spot:
    return house.spot(room, corner, PILLOW_M)


def _stated(papers: Papers, name: str) -> tuple[Given | Unknown, Given | Unknown]:
    level = of_sheet(papers, name, "sound.level_db", "L₀", "stated level")
    at = of_sheet(papers, name, "sound.at_m", "d₀", "distance at which it is stated")
    if isinstance(level, Given):
        level = Given(level.name, level.symbol, level.value, "dB(A)", f"sheet {sheet_key(papers, name)}: sound.level_db")
    return level, at


# What the level at the boundary is held against, where a profile has it: it must not be louder, or must be heard.
AT_BOUNDARY: tuple[tuple[str, Literal["least", "most"]], ...] = (("boundary_most_dba", "most"), ("boundary_least_dba", "least"))
AT_MOST = "At most: straight in front of it, at its own height, with nothing in between. What ground and walls throw back is not counted and adds."


def _at_boundary(papers: Papers, house: House, name: str) -> AtBoundary | Unknown:
    boundary = [Place(*one) for one in papers.job.premises.boundary_m or ()]
    if not boundary:
        return Unknown("the plan gives no boundary; write boundary_m in job.premises")
    here = spot_of(papers, house, name)
    level, at = _stated(papers, name)
    reason = lacking(here, level, at)
    if reason:
        return reason
    nearest = nearest_on(boundary, Place(here.x, here.y))
    away, walls = math.dist(here[:2], nearest), walls_between(house, here, nearest)
    distance = Given("distance to the nearest point of the boundary", "d", away, "m", "the plan, measured level")
    known = [(one, kind) for key, kind in AT_BOUNDARY if isinstance(one := of_profile(papers, key, f"L_{kind}"), Given)]
    notes = (AT_MOST, *([f"{count(walls, 'wall')} of the plan {'stands' if walls == 1 else 'stand'} in between: less arrives, the profile has no figure by how much."] if walls else []))
    made = tuple(level_working(f"{name} at the boundary", level, at, distance, 0, None, limit, notes, kind) for limit, kind in known or [(None, "most")])
    return AtBoundary(name, Place(here.x, here.y), nearest, away, walls, made)


# How far an outside sounder is looked at besides: across a road, and twice that. Not held against anything.
CARRIES_M = (10.0, 20.0)


def _outside(papers: Papers, name: str) -> tuple[Working, ...] | Unknown:
    level, at = _stated(papers, name)
    return lacking(level, at) or tuple(
        level_working(f"{name} at {metres:g} m in the open", level, at,
                      Given("distance", "d", metres, "m", "chosen"), 0, None, None,
                      ("Straight in front of it, with nothing in between.",)) for metres in CARRIES_M)
