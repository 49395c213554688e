"""Is the law of a list kept: numbers if and only if there are any, the best of all, and a reason that holds where there are none?

The brute force below encodes the law again, from its words, and shares no code with `calc`: it tries every number for
every unit and throws away what the law forbids.
"""
import time
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from generator.calc.slots.law import Demand, Kind, Task, Unit, feasible, settle
from generator.calc.slots.reasons import irreducible, no_room
from tests.bench.many_units import many

# --- the law again ------------------------------------------------------------------------------------------


class Brute:
    """Every assignment that keeps a task's demands, found by trying."""

    def __init__(self, task: Task):
        self.task = task
        asked = [one.unit for one in task.demands if one.kind == "unit"]
        second = [one.unit for one in task.demands if one.kind == "second input"]
        self.size = {one.name: one.size + one.extra * (one.name in second) for one in task.units if one.name in asked}
        self.block = {one.name: one.block for one in task.units}
        self.own = [(one.unit, one.first) for one in task.demands if one.kind in ("pin", "frozen") and one.unit in self.size]
        self.free = {number for number in range(1, task.length + 1) if not any(
            one.first <= number <= one.last for one in task.demands if one.kind in ("kept free", "resting"))}
        self.wishes = [(one.unit, one.other) for one in task.demands
                       if one.kind == "neighbours" and one.unit in self.size and one.other in self.size]
        self.groups = self._groups()

    def _groups(self) -> list[set[str]]:
        """Who is tied to whom, directly or through others."""
        groups = [{name} for name in self.size]
        for one, other in self.wishes:
            tied = [group for group in groups if one in group or other in group]
            groups = [group for group in groups if group not in tied] + [set().union(*tied)]
        return groups

    def every(self, names: tuple[str, ...] = (), taken: frozenset[int] = frozenset()):
        """Each assignment as a dict of first numbers."""
        if len(names) == len(self.size):
            found = dict(zip(self.size, names))
            if self._keeps(found):
                yield found
            return
        name = list(self.size)[len(names)]
        for first in range(1, self.task.length + 1):
            mine = set(range(first, first + self.size[name]))
            if mine <= self.free and not mine & taken:
                yield from self.every((*names, first), taken | mine)

    def _keeps(self, found: dict[str, int]) -> bool:
        return (all(found[name] == number for name, number in self.own)
                and all(found[a] + self.size[a] == found[b] or found[b] + self.size[b] == found[a] for a, b in self.wishes)
                and self._in_order(found))

    def exempt(self, group: set[str]) -> bool:
        return any(name in group for name, _ in self.own)

    def in_order(self) -> list[list[str]]:
        """The groups that follow the order, each with its earliest unit first, by that unit."""
        rank = list(self.size).index
        return sorted((sorted(group, key=rank) for group in self.groups if not self.exempt(group)), key=lambda group: rank(group[0]))

    def _in_order(self, found: dict[str, int]) -> bool:
        groups, rank = self.in_order(), list(self.size).index
        for one, other in pairwise(groups):
            if max(found[name] for name in one) > min(found[name] for name in other):
                return False
        rows = [sorted(group, key=found.__getitem__) for group in groups]
        return all(rank(row[0]) <= rank(row[-1]) for row in rows)

    def worth(self, found: dict[str, int]) -> tuple:
        """What an assignment is worth, larger is better."""
        taken = {number for name in found for number in range(found[name], found[name] + self.size[name])}
        rows = [sorted(group, key=found.__getitem__) for group in self.in_order()]
        blocks = sorted({self.block[group[0]] for group in self.in_order()})
        of_block = {block: [name for group, row in zip(self.in_order(), rows) if self.block[group[0]] == block for name in row]
                    for block in blocks}
        spare = starts = 0
        for block, following in zip(blocks, [*blocks[1:], None]):
            last = of_block[block][-1]
            until = self.task.length + 1 if following is None else found[of_block[following][0]]
            behind = [number for number in range(found[last] + self.size[last], until) if number in self.free - taken]
            spare += min(self.task.spare[block], len(behind))
            starts += found[of_block[block][0]] == self.task.starts[block]
        rank = list(self.size).index
        moved = sorted((min(found[name] for name in group), group) for group in self.groups if self.exempt(group) and len(group) > 1)
        turned = [rank(min(group, key=found.__getitem__)) > rank(max(group, key=found.__getitem__)) for _, group in moved]
        return (spare, starts, [-found[name] for row in rows for name in row], [-first for first, _ in moved],
                [-one for one in turned])

    def best(self) -> dict[str, int] | None:
        return max(self.every(), key=self.worth, default=None)

    def any(self) -> bool:
        return next(self.every(), None) is not None


# --- small lists of every kind ------------------------------------------------------------------------------

NAMES = "ABCDE"


@some.composite
def tasks(draw, least: int = 0, most: int = 5, shortest: int = 0, longest: int = 9, asks: int = 3):
    """A list with up to `asks` numbers of their own, `asks` wishes for neighbours and two ranges that stay free."""
    blocks = draw(some.integers(1, 3))
    order = sorted(draw(some.lists(some.integers(0, blocks - 1), min_size=least, max_size=most)))
    units = tuple(Unit(name, draw(some.sampled_from((1, 1, 2))), draw(some.sampled_from((0, 0, 0, 1))), block)
                  for name, block in zip(NAMES, order))
    length = draw(some.integers(shortest, longest))
    names = [unit.name for unit in units]
    demands = [Demand(Kind.UNIT, name) for name in names] + [Demand(Kind.SECOND, unit.name) for unit in units if unit.extra]
    number = some.integers(1, max(length, 1))
    if names:
        own = draw(some.lists(some.tuples(some.sampled_from(names), number), max_size=asks))
        demands += [Demand(draw(some.sampled_from((Kind.PIN, Kind.FROZEN))), name, first=first) for name, first in own]
    for kind in draw(some.lists(some.sampled_from((Kind.KEPT, Kind.RESTING)), max_size=2)):
        first = draw(number)
        demands.append(Demand(kind, first=first, last=first + (draw(some.integers(0, 2)) if kind is Kind.KEPT else 0)))
    if len(names) > 1:
        pairs = [(a, b) for a in names for b in names if a < b]
        demands += [Demand(Kind.NEIGHBOURS, *pair) for pair in draw(some.lists(some.sampled_from(pairs), max_size=asks, unique=True))]
    starts = draw(some.lists(some.none() | some.integers(1, 9), min_size=blocks, max_size=blocks))
    spare = draw(some.lists(some.integers(0, 3), min_size=blocks, max_size=blocks))
    return Task("zones", length, units, tuple(dict.fromkeys(demands)), tuple(starts), tuple(spare))


ROOMY = tasks(least=2, most=4, shortest=7, longest=11, asks=2)
CROWDED = tasks()


@settings(max_examples=800, deadline=None)
@given(ROOMY | CROWDED)
def test_there_are_numbers_if_and_only_if_the_law_allows_any_and_they_are_the_best(task: Task) -> None:
    best = Brute(task).best()
    found = settle(task)
    assert (found.number if found else None) == best
    assert feasible(task) == (best is not None)


@settings(max_examples=300, deadline=None)
@given(CROWDED.filter(lambda task: not feasible(task)))
def test_dropping_any_one_of_a_reason_makes_the_rest_of_it_fit(task: Task) -> None:
    gap = no_room(task)
    assert gap.reasons
    for reason in gap.reasons:
        kept = replace(task, demands=reason.demands)
        assert set(reason.demands) <= set(task.demands)
        assert not Brute(kept).any()
        assert all(Brute(kept.without(one)).any() for one in reason.demands)
    named = [one for reason in gap.reasons for one in reason.demands]
    assert gap.needed > gap.available or len(named) == len(set(named))


@settings(max_examples=200, deadline=None)
@given(tasks(most=4, longest=7).filter(lambda task: not feasible(task)))
def test_a_mend_that_is_named_mends(task: Task) -> None:
    gap = no_room(task)
    for reason in gap.reasons:
        assert len({mend.says for mend in reason.mends}) == len(reason.mends)
        for mend in reason.mends:
            assert Brute(mend.task).any(), mend.says
            # Only what the reason names was let go, or the list is longer, and no longer than it must be.
            others = {one for other in gap.reasons if other is not reason for one in other.demands}
            assert set(task.demands) - set(mend.task.demands) <= {*reason.demands, *others}
            if mend.task.length > task.length:
                assert set(mend.task.demands) | others >= set(task.demands)
                assert not Brute(replace(mend.task, length=mend.task.length - 1)).any(), mend.says


# --- what the words say, one by one -------------------------------------------------------------------------

def task(length: int, units: str, *asked: Demand) -> Task:
    """A list of one block: each letter a unit, a capital one with two numbers."""
    every = tuple(Unit(name, 2 if name.isupper() else 1) for name in units)
    return Task("zones", length, every, (*(Demand(Kind.UNIT, name) for name in units), *asked))


def pin(name: str, number: int) -> Demand:
    return Demand(Kind.PIN, name, first=number)


def beside(one: str, other: str) -> Demand:
    return Demand(Kind.NEIGHBOURS, one, other)


@pytest.mark.parametrize("asked, units, numbers", [
    ((pin("b", 1),), "abc", "bac"),
    ((beside("c", "a"),), "abc", "acb"),
    # A row of three, its middle the earliest: it is read from the end that is the earlier.
    ((beside("a", "c"), beside("a", "b")), "abc", "bac"),
    # The chain hangs on its earliest unit, wherever the links were asked for.
    ((beside("b", "d"), beside("d", "c")), "abcd", "abdc"),
    # Round a pinned unit both sides are open: the smaller numbers win, unless they are taken.
    ((pin("a", 4), beside("a", "c")), "abc", "b-ca"),
    ((pin("a", 4), beside("a", "c"), Demand(Kind.KEPT, first=3, last=3)), "abc", "b--ac"),
    ((pin("a", 2), pin("c", 4), beside("a", "b"), beside("b", "c")), "abc", "-abc"),
])
def test_the_words_of_the_law(asked, units: str, numbers: str) -> None:
    found = settle(task(6, units, *asked))
    assert found is not None
    assert found.number == {name: numbers.index(name) + 1 for name in units}


@pytest.mark.parametrize("length, units, asked, reason", [
    (9, "abcd", (beside("a", "b"), beside("a", "c"), beside("a", "d")), 7),
    (9, "abc", (beside("a", "b"), beside("b", "c"), beside("a", "c")), 6),
    (9, "ab", (pin("a", 3), pin("b", 5), beside("a", "b")), 5),
    (9, "aB", (pin("a", 3), pin("B", 2)), 4),
    # Three of four numbers are free, but no two side by side.
    (4, "B", (Demand(Kind.RESTING, first=3, last=3), pin("B", 3)), 3),
    (3, "B", (Demand(Kind.KEPT, first=2, last=2),), 2),
    (2, "abc", (), 3),
])
def test_a_reason_names_all_that_it_takes_and_no_more(length: int, units: str, asked, reason: int) -> None:
    one = task(length, units, *asked)
    assert not feasible(one)
    assert len(irreducible(one)) == reason == len(one.demands)


def test_a_thing_that_has_nothing_to_do_with_it_is_not_named() -> None:
    one = task(20, "abcdefg", pin("a", 3), pin("b", 3), pin("g", 19), beside("c", "d"), Demand(Kind.KEPT, first=9, last=12))
    assert irreducible(one) == (Demand(Kind.UNIT, "a"), Demand(Kind.UNIT, "b"), pin("a", 3), pin("b", 3))


def test_dropping_goes_round_until_nothing_can_be_dropped() -> None:
    # Without its own number C goes back into the order, and what did not fit before fits: one round is not enough.
    units = (Unit("A"), Unit("B"), Unit("C", 1, 1), Unit("D"), Unit("E"))
    asked = (Demand(Kind.SECOND, "C"), pin("C", 1), Demand(Kind.KEPT, first=3, last=3))
    one = Task("zones", 6, units, (*(Demand(Kind.UNIT, unit.name) for unit in units), *asked))
    found = replace(one, demands=irreducible(one))
    assert not Brute(found).any() and all(Brute(found.without(each)).any() for each in found.demands)


def test_what_is_whole_once_the_other_reason_is_mended_is_no_reason_of_its_own() -> None:
    one = task(4, "Abc", pin("b", 2), pin("c", 1), Demand(Kind.KEPT, first=2, last=2))
    assert len(no_room(one).reasons) == 1


def test_of_two_sides_worth_the_same_the_one_with_the_smaller_numbers_in_order_is_taken() -> None:
    # B could stand before the pinned P, at 3; then the second block would begin at 8 instead of 4, with as much spare.
    units = (Unit("a", 1, 0, 0), Unit("B", 3, 0, 0), Unit("P", 1, 0, 0), Unit("x", 1, 0, 1))
    one = Task("zones", 12, units, (*(Demand(Kind.UNIT, unit.name) for unit in units), pin("P", 6), beside("B", "P")), (1, None), (2, 0))
    found = settle(one)
    assert found is not None and found.number == {"a": 1, "x": 4, "P": 6, "B": 7} == Brute(one).best()


# --- many units ---------------------------------------------------------------------------------------------

def test_five_hundred_units_take_a_second_or_so() -> None:
    before = time.perf_counter()
    found = settle(many(1000))
    assert found is not None and len(found.number) == 500
    assert time.perf_counter() - before < 10, "a loose guard against growth, not a measurement"


def test_what_keeps_five_hundred_units_from_fitting_is_found_in_seconds() -> None:
    before = time.perf_counter()
    full = many(1000)
    gap = no_room(replace(full, length=740).without(*full.of(Kind.PIN)))
    assert (gap.needed, gap.available) == (750, 740 - 26)
    assert [reason.short for reason in gap.reasons] == [True] and gap.reasons[0].mends
    assert time.perf_counter() - before < 60, "a loose guard against growth, not a measurement"
