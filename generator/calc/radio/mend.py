"""What would mend a short link? The form of the answer; `mends.py` finds it.

Places are to the centimetre, so that every figure beside one is that of the place as it is written.
"""
from collections.abc import Mapping
from dataclasses import dataclass

from generator.calc.radio.link import Link, Term
from generator.calc.unknown import Unknown


@dataclass(frozen=True)
class MendPlace:
    """A place for a unit: `x` and `y` in the plan, `height_m` over the floor of its storey, all in metres.

    `storey` is the storey's key, `room` the room's, or `outside`; `says` are the words by which a fitter finds it in the house.
    """

    storey: str
    room: str
    x: float
    y: float
    height_m: float
    says: str


@dataclass(frozen=True)
class Move:
    """The nearest place at which the unit's link is no longer short, how far it is from its own, and the link from there."""

    place: MendPlace
    distance_m: float
    link: Link


@dataclass(frozen=True)
class Mend:
    """What would mend one unit's link.

    `no_link`: not even on a typical day is anything heard. `without_db` is the margin on the worse day if what takes most were not
    there, None if nothing is in the way. `move` is a reason where no place was looked for or none was found; `other` is
    the link to a receiver that is there already and would hear the unit well enough, None if there is none.
    """

    link: Link
    no_link: bool
    killer: Term | None
    without_db: float | None
    move: Move | Unknown
    other: Link | None


@dataclass(frozen=True)
class NewRepeater:
    """A place for a repeater that is not there yet, by a `label` that no unit of the job bears.

    `sheet` is that of the repeater; `own` its link to the one that hears it; `takes` the short units that it would carry, with
    their links to it. Places in so many `rooms` were looked at, so far apart as `step_m` says,
    then round the best to the centimetre; `proved`: none of them is better, else the search ended before all were judged.
    """

    label: str
    place: MendPlace
    sheet: str
    own: Link
    takes: Mapping[str, Link]
    step_m: float
    rooms: int
    proved: bool = True


@dataclass(frozen=True)
class Mends:
    """The mends of every short unit, in the order of the job; places for repeaters, or why there is none."""

    units: Mapping[str, Mend]
    repeaters: tuple[NewRepeater, ...] | Unknown

    @property
    def left(self) -> tuple[str, ...]:
        """The short units that neither a receiver that is there nor a move mends: for them alone a new repeater is the first choice."""
        return tuple(name for name, one in self.units.items() if not one.other and not isinstance(one.move, Move))
