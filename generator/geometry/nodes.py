"""Spots to the centimetre along straight lines, so many that no place between them matters, and in groups that are judged as one."""
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from generator.geometry.shapes import Spot
from generator.geometry.stretches import Stretch

STEP_M = 0.05
GROUP = 10
FINE_M = 0.01


@dataclass(frozen=True)
class Nodes:
    """Spots in the order of their lines: `at` a row of x, y and z for each, `stretch` the number of its line.

    `groups` are the first and last spot of each piece of a line that is judged as one; `step_m` is how far two neighbours lie apart.
    """

    stretches: tuple[Stretch, ...]
    at: np.ndarray
    stretch: np.ndarray
    groups: np.ndarray
    step_m: float

    def spot(self, index: int) -> Spot:
        """One of the spots."""
        return Spot(*map(float, self.at[index]))

    def members(self, groups: np.ndarray) -> np.ndarray:
        """The spots of some groups, in order."""
        return np.concatenate([np.arange(first, last + 1) for first, last in self.groups[np.sort(groups)]])

    def round_about(self, stretch: int, spot: Spot, within_m: float, every_m: float) -> list[Spot]:
        """The spots of a line on both sides of one, so far apart and within so many metres, none of them twice."""
        line, length = self.stretches[stretch], _length(self.stretches[stretch])
        if not length:
            return []
        here = float(np.dot(np.subtract(spot, line.start), np.subtract(line.end, line.start))) / length
        many = round(within_m / every_m)
        along = [here + every_m * number for number in range(-many, many + 1) if number]
        found = _rounded(line, [one for one in along if 0 <= one <= length])
        return list(dict.fromkeys(Spot(*map(float, one)) for one in found))

    def finer(self) -> list[tuple[float, float]]:
        """How far round a spot of these to look again, and how far apart: a fifth each time, until it is a centimetre."""
        found, within = [], self.step_m
        while not found or found[-1][1] > FINE_M:
            found.append((within, max(FINE_M, within / 5)))
            within = found[-1][1]
        return found


def nodes_of(stretches: Sequence[Stretch], most: int) -> Nodes:
    """Spots at every five centimetres of some lines; farther apart where there would be more of them than `most`."""
    step = max(STEP_M, sum(map(_length, stretches)) / most)
    at, owner, groups, count = [], [], [], 0
    for index, one in enumerate(stretches):
        length = _length(one)
        along = [step * number for number in range(int(length / step + 1e-9) + 1)]
        spots = _rounded(one, along if length - along[-1] < FINE_M else [*along, length])
        at.append(spots)
        owner.append(np.full(len(spots), index))
        groups += [(count + first, count + min(first + GROUP, len(spots)) - 1) for first in range(0, len(spots), GROUP)]
        count += len(spots)
    if not at:
        return Nodes((), np.zeros((0, 3)), np.zeros(0, int), np.zeros((0, 2), int), step)
    return Nodes(tuple(stretches), np.concatenate(at), np.concatenate(owner), np.array(groups), step)


def _length(one: Stretch) -> float:
    return float(np.linalg.norm(np.subtract(one.end, one.start)))


def _rounded(one: Stretch, along: Sequence[float]) -> np.ndarray:
    start, length = np.array(one.start), _length(one)
    heading = (np.array(one.end) - start) / length if length else np.zeros(3)
    return np.round(start + np.array(along)[:, None] * heading, 2)
