"""Through which receiver should each unit be heard?

The smallest reserve of all is made as large as can be, then the next smallest, and so on; of equals the receiver that comes first by
the units' ids in order. Each repeater carries no more than it can, what hangs behind it on other repeaters counted, and no
unit is heard over more repeaters than may stand one after the other.

reserve = margin − margin wanted. Common practice, no source; the method is a textbook's cheapest flow.

Exact: a cheapest flow with costs that are compared place by place (`ordered_cost.py`), for each way in which repeaters can hang on
one another. A unit that nothing can hear is left out; that as few as can be are, comes before everything.
"""
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from heapq import heappop, heappush
from itertools import product

from generator.calc.radio.ordered_cost import Cost

# Reserves in dB that differ by less are equal: they were worked out in another order.
SAME_DB = 1e-6
# With more repeaters than that, what they hang on is not searched: they stay with the control unit.
MOST_FREE = 4


@dataclass(frozen=True)
class Heard:
    """A wish: each unit and repeater with the receiver that should hear it, None for one that nothing can hear."""

    through: Mapping[str, str | None]
    reserves: tuple[float, ...]


def assigned(root: str, reserves: Mapping[str, Mapping[str, float]], carries: Mapping[str, int], hops: int) -> Heard:
    """The best way for all units.

    `reserves` gives by unit, repeaters among them, the reserve in dB to each receiver that can hear it; `carries` how many units
    each repeater can carry; `root` is the control unit, which takes any number.
    """
    units = sorted(set(reserves) - set(carries))
    receivers = [root, *sorted(carries)]
    found = []
    for parents in _trees(root, sorted(carries), reserves, hops):
        through = _cheapest(root, units, receivers, reserves, carries, parents, hops)
        if through is not None:
            whole = dict(sorted({**parents, **through}.items()))
            found.append((_cost(whole, receivers, reserves), whole))
    whole = min(found, key=lambda one: one[0])[1]
    return Heard(whole, tuple(sorted(reserves[name][to] for name, to in whole.items() if to is not None)))


def _ranks(reserves: Mapping[str, Mapping[str, float]]) -> dict[float, int]:
    """The rank of each reserve, the smallest 1; rank 0 is not to be heard at all."""
    ranks, rank, before = {}, 0, None
    for value in sorted({value for found in reserves.values() for value in found.values()}):
        if before is None or value - before > SAME_DB:
            rank, before = rank + 1, value
        ranks[value] = rank
    return ranks


def _one(place: int, rank: int, receiver: int) -> Cost:
    """The cost of one unit at one receiver: a unit more of that rank, and the receiver's place in the order of ids."""
    return Cost((((0, rank), 1), *([((1, place), receiver)] if receiver else [])))


def _cost(through: Mapping[str, str | None], receivers: Sequence[str], reserves: Mapping[str, Mapping[str, float]]) -> Cost:
    ranks, total = _ranks(reserves), Cost()
    for place, (name, to) in enumerate(sorted(through.items())):
        total += _one(place, ranks[reserves[name][to]] if to is not None else 0, receivers.index(to) if to is not None else len(receivers))
    return total


def _trees(root: str, repeaters: Sequence[str], reserves: Mapping[str, Mapping[str, float]], hops: int) -> Iterator[dict[str, str | None]]:
    """Every way in which repeaters can hang on the control unit and on one another: on another one only where a unit can still hang on
    it. One that is left out has None; never one that the control unit hears, for there it takes nobody's room and is one fewer left out.
    """
    free = hops > 1 and len(repeaters) <= MOST_FREE
    choices = [[to for to in ([root, *repeaters] if free else [root]) if to != name and to in reserves.get(name, {})] for name in repeaters]
    choices = [one if root in one else [*one, None] for one in choices]
    for chosen in product(*choices):
        parents = dict(zip(repeaters, chosen))
        if all(to in (None, root) or 0 < (_depth(parents, root, name) or 0) <= hops for name, to in parents.items()):
            yield parents


def _depth(parents: Mapping[str, str | None], root: str, name: str) -> int | None:
    """How many repeaters a unit is heard over that hangs on this receiver; None if it does not lead to the control unit."""
    depth, at = 0, name
    while at != root:
        depth, at = depth + 1, parents.get(at)
        if at is None or depth > len(parents):
            return None
    return depth


def _cheapest(root: str, units: Sequence[str], receivers: Sequence[str], reserves: Mapping[str, Mapping[str, float]], carries: Mapping[str, int],
              parents: Mapping[str, str | None], hops: int) -> dict[str, str | None] | None:
    """The best receivers of all units for one way of hanging the repeaters; None if a repeater would carry too many repeaters."""
    left = {name: number for name, number in carries.items()}
    for name in parents:
        for above in _above(parents, root, parents[name]):
            left[above] -= 1
    if min(left.values(), default=0) < 0:
        return None
    places = {name: place for place, name in enumerate(sorted(set(reserves)))}
    ranks = _ranks(reserves)
    usable = [one for one in receivers if one == root or (0 < (_depth(parents, root, one) or 0) <= hops)]
    price = {unit: {one: _one(places[unit], ranks[reserves[unit][one]], receivers.index(one)) for one in usable if one in reserves[unit]} for unit in units}
    for unit in units:
        price[unit][None] = _one(places[unit], 0, len(receivers))
    flow = _Flow(root, parents, price, left, dict.fromkeys(carries, 0), {})
    for unit in units:
        flow.insert(unit)
    return flow.through


def _above(parents: Mapping[str, str | None], root: str, name: str | None) -> list[str]:
    """The repeaters from a receiver up to the control unit, that receiver first."""
    found = []
    while name is not None and name != root:
        found.append(name)
        name = parents.get(name)
    return found


@dataclass
class _Flow:
    """Units that flow through receivers to the control unit, or to nowhere (None).

    `left` is what each repeater can still carry, `carried` the units that it carries, `through` where each unit goes in. `changes` holds
    by two receivers what each unit costs more at the second than at the first, the cheapest first; units that went elsewhere since
    are passed over when they come up.
    """

    root: str
    parents: Mapping[str, str | None]
    price: Mapping[str, Mapping[str | None, Cost]]
    left: dict[str, int]
    carried: dict[str, int]
    through: dict[str, str | None]
    changes: dict[tuple[str | None, str | None], list[tuple[Cost, str]]] = field(default_factory=dict)

    def insert(self, unit: str) -> None:
        """One unit more, by the cheapest chain of moves that makes room for it."""
        best = min(self.price[unit], key=lambda one: self.price[unit][one])
        way = _above(self.parents, self.root, best)
        # Whoever finds room where it is heard best moves nobody: a cheaper chain would have been one before it came.
        steps = [("in", unit, best), *(("up", name, None) for name in way)] if all(self.left[name] > 0 for name in way) else self._chain(unit)
        for kind, name, to in steps:
            if kind == "in":
                self._put(name, to)
            else:
                sign = 1 if kind == "up" else -1
                self.left[name] -= sign
                self.carried[name] += sign

    def _put(self, unit: str, at: str | None) -> None:
        self.through[unit] = at
        for to, price in self.price[unit].items():
            if to != at:
                heappush(self.changes.setdefault((at, to), []), (price - self.price[unit][at], unit))

    def _chain(self, unit: str) -> list[tuple[str, str, str | None]]:
        """The cheapest steps by which one unit more gets to the control unit or to nowhere."""
        cost = dict(self.price[unit])
        came: dict[str | None, tuple[str | None, tuple[str, str, str | None]]] = {one: (None, ("in", unit, one)) for one in cost}
        first = dict.fromkeys(cost, True)
        cheapest: dict[tuple[str | None, str | None], tuple[Cost, tuple[str, str, str | None]]] = {}
        for at, to, step, more in self._moves():
            if (at, to) not in cheapest or more < cheapest[at, to][0]:
                cheapest[at, to] = (more, step)
        changed = True
        while changed:
            changed = False
            for (at, to), (more, step) in cheapest.items():
                if at in cost and (to not in cost or cost[at] + more < cost[to]):
                    cost[to], came[to], first[to], changed = cost[at] + more, (at, step), False, True
        at = min((one for one in (self.root, None) if one in cost), key=lambda one: cost[one])
        steps = []
        while True:
            before, step = came[at]
            steps.append(step)
            if first[at]:
                return steps[::-1]
            at = before

    def _moves(self) -> Iterator[tuple[str | None, str | None, tuple[str, str, str | None], Cost]]:
        """Every step from a receiver that has one unit too many: passing it up, taking one back from below, moving the unit elsewhere
        that goes there at the least cost.
        """
        for name, above in self.parents.items():
            if above is not None and self.left[name] > 0:
                yield name, above, ("up", name, None), Cost()
            if above is not None and self.carried[name] > 0:
                yield above, name, ("down", name, None), Cost()
        for (at, to), waiting in self.changes.items():
            while waiting and self.through[waiting[0][1]] != at:
                heappop(waiting)
            if waiting:
                yield at, to, ("in", waiting[0][1], to), waiting[0][0]
