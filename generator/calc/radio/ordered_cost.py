"""A cost that is compared place by place, the gravest place first: how a list of reserves is worth more than another.

It is a sparse list of numbers: places, in their order, with the number that stands there. Costs can be added and taken from one
another and are ordered like words in a dictionary, so that a search for the cheapest way works on them as on numbers, and exactly.
"""
from dataclasses import dataclass
from functools import total_ordering

Spot = tuple[int, int]


@total_ordering
@dataclass(frozen=True)
class Cost:
    """Numbers by their place, none of them zero, the gravest place first."""

    at: tuple[tuple[Spot, int], ...] = ()

    def __add__(self, other: "Cost") -> "Cost":
        return _joined(self, other, 1)

    def __sub__(self, other: "Cost") -> "Cost":
        return _joined(self, other, -1)

    def __lt__(self, other: "Cost") -> bool:
        left = _joined(self, other, -1).at
        return bool(left) and left[0][1] < 0


def _joined(one: Cost, other: Cost, sign: int) -> Cost:
    found = dict(one.at)
    for place, value in other.at:
        found[place] = found.get(place, 0) + sign * value
    return Cost(tuple(sorted((place, value) for place, value in found.items() if value)))
