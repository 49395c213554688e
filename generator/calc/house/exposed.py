"""What can a stranger outside see or reach: keypads through glass or through the letter plate, sounders from the ground or from a roof?"""
import math
from dataclasses import dataclass

from generator.calc.givens import lacking, of_profile
from generator.calc.house.reach import SIDE, STAND, openings_out, roofs_beside
from generator.calc.house.spots import spot_of
from generator.calc.unknown import Unknown
from generator.calc.working import Given
from generator.geometry.house import House
from generator.geometry.openings import Stands, along_walls, stands
from generator.geometry.shapes import Place, Spot
from generator.geometry.sight import ALL_ROUND, View, seen
from generator.model.papers import Papers
from generator.model.premises import OUTSIDE

LETTER, ABOVE, INSURER = "letter_reach_m", "sounder_height_m", "sounder_insurer_height_m"
KEYPADS = ("keypad", "reader")
# From farther away nobody reads a keypad.
READ_M = 20.0
# A face that is looked at from nearer its own wall than this many degrees is not read.
GRAZING_DEG = 15
EVERY_M = 0.25
OFF_M = 0.05


@dataclass(frozen=True)
class Glass:
    """A glazed opening through which a keypad is seen from outside, and how far from it the keypad hangs."""

    opening: str
    away_m: float


@dataclass(frozen=True)
class KeypadPlace:
    """A keypad or reader: the panes through which it is seen with inside doors shut, the distance to letter plates (taken to sit in the middle of
    their doors), and the nearest place of the same room from which no pane is in sight (None if there is none), with how far away that is."""

    unit: str
    through: tuple[Glass, ...]
    plates: tuple[Glass, ...]
    reach: Given | Unknown
    to: Place | None
    to_m: float


@dataclass(frozen=True)
class SounderPlace:
    """An outside sounder above something that one can stand on: `origin` is the ground or a roof."""

    unit: str
    origin: str
    above_m: float
    limit: Given

    @property
    def reached(self) -> bool:
        """Whether it hangs lower above that than the profile wants."""
        return self.above_m < self.limit.value - 1e-9


def keypads(papers: Papers, house: House) -> dict[str, KeypadPlace | Unknown]:
    """Every keypad and reader."""
    return {name: _keypad(papers, house, name) for name in papers.job.devices if papers.sheet_of[name].kind in KEYPADS}


def _keypad(papers: Papers, house: House, name: str) -> KeypadPlace | Unknown:
    room, spot = papers.room_of(papers.job.devices[name]), spot_of(papers, house, name)
    if isinstance(spot, Unknown):
        return spot
    if room not in house.rooms:
        return Unknown(f"{name} hangs outside the rooms of the plan")
    storey = papers.rooms()[room][0]
    here = [(one, at) for key, (_, one, behind) in openings_out(papers).items() if behind == room and (at := stands(house, key, room))]
    through = _through(papers, house, storey, room, spot)
    plates = tuple(Glass(at.name, math.dist(spot, Spot(*at.middle, (at.bottom_m + at.top_m) / 2))) for one, at in here if one.letter_plate)
    to = _unseen(papers, house, storey, room, spot) if through else None
    return KeypadPlace(name, through, plates, of_profile(papers, LETTER, "r"), to, math.dist(to, spot[:2]) if to else 0.0)


def _through(papers: Papers, house: House, storey: str, room: str, spot: Spot) -> tuple[Glass, ...]:
    """The panes of the room from which a point on its wall is seen."""
    found = []
    panes = [at for key, (_, one, behind) in openings_out(papers).items() if one.glazed and behind == room and (at := stands(house, key, room))]
    for at in panes:
        view = View(storey, spot, READ_M, ALL_ROUND, 0.0)
        middle = (at.bottom_m + at.top_m) / 2 - house.floor_m[storey]
        if not _flat(at, spot) and seen(house, papers.job.premises, view, middle).meets((at.start, at.end)):
            found.append(Glass(at.name, math.dist(at.middle, spot[:2])))
    return tuple(found)


def _flat(at: Stands, spot: Spot) -> bool:
    """Whether the keypad hangs on the pane's own wall, so that one would look along that wall."""
    return at.heading_from(spot.x, spot.y) > 90 - GRAZING_DEG


def _unseen(papers: Papers, house: House, storey: str, room: str, spot: Spot) -> Place | None:
    places = sorted(along_walls(house.rooms[room], OFF_M, EVERY_M), key=lambda at: math.dist(at, spot[:2]))
    return next((at for at in places if not _through(papers, house, storey, room, spot._replace(x=at.x, y=at.y))), None)


def sounders(papers: Papers, house: House) -> dict[str, tuple[SounderPlace, ...] | Unknown]:
    """Every outside sounder with all that one can stand on near it, the ground first."""
    return {name: _sounder(papers, house, name) for name, device in papers.job.devices.items()
            if papers.sheet_of[name].kind == "sounder" and device.room == OUTSIDE}


def _sounder(papers: Papers, house: House, name: str) -> tuple[SounderPlace, ...] | Unknown:
    device, limits = papers.job.devices[name], [of_profile(papers, one, "h") for one in (ABOVE, STAND, SIDE)]
    insurer = of_profile(papers, INSURER, "h")
    reason = lacking(*limits)
    if device.height_m is None:
        reason = Unknown(f"the height of {name} is not known; write height_m in job.devices.{name}")
    if reason:
        return reason
    ground, stand, side = limits
    found = [SounderPlace(name, "the ground", device.height_m, insurer if isinstance(insurer, Given) else ground)]
    if device.at_m:
        found += [SounderPlace(name, key, device.height_m - roof.height_m, found[0].limit)
                  for key, roof in roofs_beside(papers, Place(*device.at_m), stand.value, side.value) if roof.height_m < device.height_m]
    return tuple(found)
