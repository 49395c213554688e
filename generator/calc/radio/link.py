"""One radio link: what stands in its way, what is left of the signal, and how far that is above what must be left.

Two answers. *Typical*: dry walls, inside doors open, nobody in the way. *Bad day*: the walls as they were measured at their worst,
doors shut, people in the way, and the shadowing that all but a stated share of links stay within. The margin is judged on the worse.
"""
import math
from dataclasses import dataclass
from typing import Literal

from generator.calc.radio.free_space import free_space, free_space_db
from generator.calc.radio.obstacles import extrapolated
from generator.calc.working import Given, Working, worked_out

Day = Literal["typical", "bad"]
TITLES = {"typical": "on a typical day", "bad": "on a bad day"}
ANTENNA = "The power is that radiated with the unit's own antenna; the antenna of the one that hears is taken to add nothing."
ESTIMATE = "An estimate: the on-site check decides."


@dataclass(frozen=True)
class Term:
    """One thing that takes from the signal besides distance: wall, opening, floor, metal, people or shadowing.

    `name` says which, `construction` its key ("" for what has none), `at_m` how far along the way, `angle_deg` the angle to its normal;
    `beyond` the materials whose figures are extrapolated.
    """

    kind: str
    name: str
    construction: str
    at_m: float
    angle_deg: float
    typical_db: float
    bad_db: float
    notes: tuple[str, ...] = ()
    beyond: tuple[str, ...] = ()

    def loss_db(self, day: Day) -> float:
        """What it takes on that day."""
        return self.typical_db if day == "typical" else self.bad_db


@dataclass(frozen=True)
class Direction:
    """Who sends with which power, and the weakest signal that the other understands."""

    sender: str
    hearer: str
    power: Given
    sensitivity: Given


@dataclass(frozen=True)
class Link:
    """A unit and the one that hears it. `directions` holds one for a unit that only sends, else both.

    `distance` and `frequency` are in m and MHz; `required` is the margin that is wanted, by the profile.
    """

    unit: str
    receiver: str
    distance: Given
    frequency: Given
    terms: tuple[Term, ...]
    directions: tuple[Direction, ...]
    required: Given

    @property
    def free_db(self) -> float:
        """What distance takes."""
        return free_space_db(self.distance.value, self.frequency.value)

    def loss_db(self, day: Day) -> float:
        """What everything takes on that day."""
        return self.free_db + math.fsum(one.loss_db(day) for one in self.terms)

    def received_dbm(self, day: Day, direction: Direction) -> float:
        """The level at which the other hears it."""
        return direction.power.value - self.loss_db(day)

    def margin_db(self, day: Day) -> float:
        """What is left above the weakest signal that is understood, in the weaker direction."""
        return min(self.received_dbm(day, one) - one.sensitivity.value for one in self.directions)

    @property
    def weaker(self) -> Direction:
        """The direction with the smaller margin; of equals, the unit's own."""
        return min(self.directions, key=lambda one: one.power.value - one.sensitivity.value)

    @property
    def worse(self) -> Day:
        """The day with the smaller margin."""
        return "typical" if self.loss_db("typical") > self.loss_db("bad") else "bad"

    @property
    def reserve_db(self) -> float:
        """Margin on the worse day less the margin that is wanted; below zero the link is short."""
        return self.margin_db(self.worse) - self.required.value

    @property
    def hopeless(self) -> bool:
        """Whether it is below what is understood on either day: no link is to be expected."""
        return max(self.margin_db("typical"), self.margin_db("bad")) < 0

    @property
    def killer(self) -> Term | None:
        """What takes most on the worse day of what stands in the way; None where nothing does."""
        return max(self.terms, key=lambda one: one.loss_db(self.worse), default=None)


def margin_working(link: Link, day: Day, direction: Direction | None = None) -> Working:
    """The margin of a link as a working, in its weaker direction unless another is named."""
    direction = direction or link.weaker
    taken = [Given(_called(one), f"L{index}", one.loss_db(day), "dB", _origin(one)) for index, one in enumerate(link.terms, 1)]
    symbols = "M = P − L₀" + "".join(f" − {one.symbol}" for one in taken) + " − S"
    beyond = extrapolated((material for one in link.terms for material in one.beyond), link.frequency.value)
    notes = dict.fromkeys(note for note in (beyond, *(note for one in link.terms for note in one.notes)) if note)
    return Working(f"Margin from {direction.sender} to {direction.hearer} {TITLES[day]}",
                   "power − free space − all that stands in the way − weakest signal that is understood", symbols,
                   (direction.power, worked_out(free_space(link.distance, link.frequency)), *taken, direction.sensitivity), "M",
                   link.received_dbm(day, direction) - direction.sensitivity.value, "dB", link.required, "least", (*notes, ANTENNA, ESTIMATE))


def _called(term: Term) -> str:
    return f"{term.kind}: {term.name}" if term.kind not in (term.name, "people", "shadowing") else term.name


def _origin(term: Term) -> str:
    return f"construction {term.construction}" if term.construction else "the limits of the profile"
