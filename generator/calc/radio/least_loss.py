"""Above which reserve can no place of a whole group come? A bound, for the search for places alone: no margin is judged by it.

reserve ≤ power − weakest signal − margin wanted − free space over the least distance − the bad day − the least that each wall takes that
is surely met, at the flattest angle or any steeper one. Plain arithmetic on the losses of `obstacles.py`, source: ITU-R P.2040 and P.525.
"""
import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from generator.calc.radio.free_space import free_space_db
from generator.calc.radio.link_terms import Rates
from generator.calc.radio.links import Reach
from generator.calc.radio.obstacles import THING, loss_of
from generator.calc.unknown import Unknown
from generator.geometry.shapes import Spot
from generator.geometry.sheaf import Barriers, Fan
from generator.tables.radio_materials import GRAZING_DEG, NEAREST_M

# Losses are looked up at every so many degrees; what they can dip in between, and rounding, is credited to every place.
EVERY_DEG = 4
CREDIT_DB = 0.05


@dataclass(frozen=True)
class LeastLosses:
    """For one frequency: by wall, by opening of a wall and by level the least loss in dB at each of the angles or any steeper one, and
    that of a large thing of metal."""

    barriers: Barriers
    walls: np.ndarray
    leaves: Mapping[tuple[int, int], np.ndarray]
    levels: np.ndarray
    thing: float

    def gain_db(self, origin: Spot, first: np.ndarray, last: np.ndarray | None = None) -> np.ndarray:
        """What at least is lost between a spot and each of those from `first` to `last`, below zero."""
        found = [-20 * np.log10(np.maximum(fan.nearest_m, NEAREST_M)) - self._taken(fan) for _, fan in self.barriers.fans(origin, first, last)]
        return np.concatenate(found) if found else np.zeros(0)

    def _taken(self, fan: Fan) -> np.ndarray:
        rows = _rows(fan.slant)
        taken = np.where(fan.walls, self.walls[np.arange(rows.shape[1]), rows], 0.0)
        for wall, number, may in fan.holes:
            through = self.leaves[wall, number][rows[:, wall]]
            taken[:, wall] = np.where(may, np.minimum(taken[:, wall], through), taken[:, wall])
        floors = np.where(fan.floors, self.levels[np.arange(fan.floors.shape[1]), _rows(fan.floor_slant)], 0.0)
        return taken.sum(1) + floors.sum(1) + np.where(fan.things, self.thing, 0.0).sum(1)


def most_db(reach: Reach, rates: Rates) -> float:
    """The reserve at one metre with nothing in the way on a bad day; with `gain_db` a reserve that no spot exceeds."""
    least = min(one.power.value - one.sensitivity.value for one in reach.directions)
    return least - reach.required.value - free_space_db(1.0, reach.frequency.value) - sum(one.bad_db for one in rates.day) + CREDIT_DB


def least_losses(barriers: Barriers, frequency_mhz: float, rates: Rates) -> LeastLosses:
    """The least losses of a house's walls and levels for a frequency."""
    angles = np.arange(0, GRAZING_DEG + EVERY_DEG, EVERY_DEG)
    known: dict[str | None, np.ndarray] = {}

    def row(key: str | None) -> np.ndarray:
        if key not in known:
            found = [math.inf if key is None or isinstance(loss := loss_of(rates.constructions[key], frequency_mhz, float(angle), rates.metal), Unknown)
                     else loss.bad_db for angle in angles]
            known[key] = np.minimum.accumulate(np.array(found)[::-1])[::-1]
        return known[key]

    walls = [barriers.house.walls[place].wall for place in barriers.kept]
    leaves = {(index, number): row(hole.leaf or wall.construction) for index, wall in enumerate(walls) for number, hole in enumerate(wall.holes)}
    return LeastLosses(barriers, np.array([row(wall.construction) for wall in walls]).reshape(-1, len(angles)), leaves,
                       np.array([row(level.construction) for level in barriers.house.levels]).reshape(-1, len(angles)),
                       math.inf if isinstance(rates.metal[THING], Unknown) else rates.metal[THING].bad_db)


def _rows(slant: np.ndarray) -> np.ndarray:
    """The number of the angle from which on each is steeper, by the cosine of the flattest."""
    return np.minimum(np.degrees(np.arccos(slant)), GRAZING_DEG).astype(int) // EVERY_DEG
