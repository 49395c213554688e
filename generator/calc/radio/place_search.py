"""Where along some lines is it best? Bounds for whole groups of spots first, then for single spots, exact figures last.

rating = (how many are heard well enough, the smallest reserve in dB of those), compared like words. A group whose bound is
no better than the best spot so far is never looked at, so the spot that is found is the best of all: nothing is sampled. Round it, to
the centimetre, the search goes on. Of equals the first spot in the order of the lines.

Plain arithmetic.
"""
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from generator.calc.radio.assignment import SAME_DB
from generator.geometry.nodes import Nodes
from generator.geometry.shapes import Spot

Rating = tuple[int, float]
# Exact figures are worked out for so many spots at most; beyond that the best so far is given, and said to be no more.
MOST_TRIED = 400
# Bounds of single spots are worked out for so many groups in one go.
BATCH = 24


@dataclass(frozen=True)
class Found:
    """The best spot, the line it lies on, its rating, and whether the search came to its end."""

    spot: Spot
    stretch: int
    rating: Rating
    proved: bool


def better(one: Rating, other: Rating) -> bool:
    """Whether a rating is better by more than rounding."""
    return one[0] > other[0] or (one[0] == other[0] and one[1] > other[1] + SAME_DB)


def best_spot(nodes: Nodes, bounds: Callable[[np.ndarray, np.ndarray | None, np.ndarray], np.ndarray],
              rate: Callable[[Spot, int, Rating], Rating | None], least: Rating) -> Found | None:
    """The best spot that is better than `least`; None if there is none.

    `bounds` gives for pieces (first ends, last ends or None for single spots, the lines' numbers) a row of count and reserve that no
    spot of them exceeds; `rate` the exact rating of a spot on a line, or None as soon as it is no better than the one that is given.
    """
    first, last = nodes.at[nodes.groups[:, 0]], nodes.at[nodes.groups[:, 1]]
    rough = bounds(first, last, nodes.stretch[nodes.groups[:, 0]])
    order = np.lexsort((np.arange(len(rough)), -rough[:, 1], -rough[:, 0]))
    search = _Search(nodes, rate, least)
    for begin in range(0, len(order), BATCH):
        batch = [group for group in order[begin:begin + BATCH] if search.worth(rough[group])]
        if not batch or not search.proved:
            break
        spots = nodes.members(np.array(batch))
        fine = bounds(nodes.at[spots], None, nodes.stretch[spots])
        search.go_through(spots, fine)
    return search.refined()


@dataclass
class _Search:
    nodes: Nodes
    rate: Callable[[Spot, int, Rating], Rating | None]
    best: Rating
    at: int | None = None
    tried: int = 0
    proved: bool = True

    def worth(self, bound: np.ndarray) -> bool:
        """Whether something within a bound could be better than the best, or as good and earlier."""
        return not better(self.best, (int(bound[0]), float(bound[1])))

    def go_through(self, spots: np.ndarray, bounds: np.ndarray) -> None:
        """Rates spots, the most promising first, as long as one can be better."""
        for place in np.lexsort((spots, -bounds[:, 1], -bounds[:, 0])):
            if not self.worth(bounds[place]):
                return
            if self.tried >= MOST_TRIED:
                self.proved = False
                return
            self.tried += 1
            index = int(spots[place])
            rating = self.rate(self.nodes.spot(index), int(self.nodes.stretch[index]), self.best)
            if rating and (better(rating, self.best) or (self.at is not None and index < self.at and not better(self.best, rating))):
                self.best, self.at = rating, index

    def refined(self) -> Found | None:
        """The best spot, after a last look at the centimetres round it."""
        if self.at is None:
            return None
        stretch = int(self.nodes.stretch[self.at])
        best = (self.nodes.spot(self.at), self.best)
        for within, every in self.nodes.finer():
            for spot in self.nodes.round_about(stretch, best[0], within, every):
                rating = self.rate(spot, stretch, best[1])
                if rating and better(rating, best[1]):
                    best = (spot, rating)
        return Found(best[0], stretch, best[1], self.proved)
