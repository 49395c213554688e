"""Is the layout of numbers the best there is, and is one found whenever one exists?

The brute force below encodes the law again, from its words: order kept, consecutive numbers for double units, taken
numbers left out; then most spare at the ends of the blocks, most starts where they were asked for, smallest numbers.
"""
from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as some

from generator.calc.slots.layout import Item, Line, fits, lay_out


def every_layout(items: list[Item], length: int, taken: set[int]):
    """Each way to put the items down in their order."""
    for first in combinations(range(1, length + 1), len(items)):
        spans = [range(number, number + item.size) for number, item in zip(first, items)]
        used = [number for span in spans for number in span]
        if used == sorted(set(used)) and not set(used) & taken and (not used or used[-1] <= length):
            yield list(first)


def worth(items, first, length, taken, starts, spare) -> tuple:
    """What a layout is worth, larger is better."""
    blocks = sorted({item.block for item in items})
    saved = kept = 0
    for block in blocks:
        mine = [index for index, item in enumerate(items) if item.block == block]
        end = first[mine[-1]] + items[mine[-1]].size
        until = first[mine[-1] + 1] if mine[-1] + 1 < len(items) else length + 1
        saved += min(spare[block], sum(number not in taken for number in range(end, until)))
        kept += first[mine[0]] == starts[block]
    return (saved, kept, [-number for number in first])


@some.composite
def cases(draw):
    blocks = draw(some.integers(1, 3))
    count = draw(some.integers(0, 5))
    order = sorted(draw(some.lists(some.integers(0, blocks - 1), min_size=count, max_size=count)))
    items = [Item(draw(some.integers(1, 2)), block) for block in order]
    length = draw(some.integers(0, 10))
    taken = draw(some.sets(some.integers(1, max(length, 1)), max_size=4)) if length else set()
    starts = draw(some.lists(some.none() | some.integers(1, 10), min_size=blocks, max_size=blocks))
    spare = draw(some.lists(some.integers(0, 3), min_size=blocks, max_size=blocks))
    return items, length, taken, starts, spare


@settings(max_examples=400, deadline=None)
@given(cases())
def test_the_layout_is_the_best_of_all(case) -> None:
    items, length, taken, starts, spare = case
    best = max(every_layout(items, length, taken), key=lambda one: worth(items, one, length, taken, starts, spare), default=None)
    line = Line(length, frozenset(taken))
    found = lay_out(items, line, starts, spare)
    assert (list(found.first) if found else None) == best
    assert fits([item.size for item in items], line) == (best is not None)


def test_a_start_is_kept_where_it_costs_no_spare() -> None:
    assert lay_out([Item(1, 0), Item(1, 1)], Line(9), [1, 5], [2, 2]).first == (1, 5)


def test_a_start_gives_way_to_spare() -> None:
    # At 5 the second block would have nothing behind it; at 3 both blocks have one, at 2 the second has two.
    assert lay_out([Item(1, 0), Item(1, 1)], Line(5), [1, 5], [1, 2]).first == (1, 3)
