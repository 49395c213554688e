"""Where does each item of an ordered row go, so that most of the spare wanted is left?

Dynamic programming over the next item and the next number. Feasible means: some layout keeps the order. If one exists,
one is found.
"""
from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Item:
    """Something that takes `size` consecutive numbers and belongs to the block with this index."""

    size: int
    block: int


IMPOSSIBLE = -1


def lay_out(items: Sequence[Item], length: int, taken: set[int], starts: Sequence[int | None],
            spare: Sequence[int]) -> list[int] | None:
    """The first number of each item, or None if no layout keeps the order.

    Items keep their order; numbers run from 1 to `length` without those in `taken`. Of all layouts the one is chosen
    that maximises the sum over blocks of min(free numbers behind the block's last item and before the next block's
    first, spare wanted); then the number of blocks whose first item stands at its `starts`; then has the smallest
    numbers in order.

    >>> lay_out([Item(1, 0), Item(2, 1)], 8, {2}, [1, 5], [1, 1])
    [1, 5]
    """
    free = [False] + [number not in taken for number in range(1, length + 1)] + [False]
    blocks = len(starts) + 1
    best: list[list[list[int]]] = [[] for _ in range(len(items) + 1)]
    for index in range(len(items), -1, -1):
        best[index] = _values(items, index, free, best, starts, spare, blocks)
    return _read_back(items, free, best, starts, spare, blocks) if best[0][0][1] != IMPOSSIBLE else None


def _wanted(items: Sequence[Item], index: int, spare: Sequence[int]) -> int:
    """Spare wanted just before an item: that of the block which ends there, 0 inside a block and before the first."""
    if index == 0 or (index < len(items) and items[index].block == items[index - 1].block):
        return 0
    return spare[items[index - 1].block]


def _gain(items: Sequence[Item], index: int, number: int, left: int, starts: Sequence[int | None], blocks: int) -> int:
    """What placing an item here is worth: the spare that was left before it, and a start where the profile says.

    A free number counts more than all starts together, so that both fit into one number to compare.
    """
    begins = index == 0 or items[index].block != items[index - 1].block
    return left * blocks + (begins and starts[items[index].block] == number)


def _fits(free: list[bool], number: int, size: int) -> bool:
    return all(free[number:number + size]) and number + size <= len(free)


def _values(items, index, free, best, starts, spare, blocks) -> list[list[int]]:
    """For each spare already left and each next number: the best worth of everything from this item on."""
    wanted, last = _wanted(items, index, spare), len(free) - 1
    worth = [[IMPOSSIBLE] * (last + 1) for _ in range(wanted + 1)]
    for number in range(last, 0, -1):
        for left in range(wanted, -1, -1):
            if number == last:
                worth[left][number] = left * blocks if index == len(items) else IMPOSSIBLE
                continue
            worth[left][number] = max(_placed(items, index, number, left, free, best, starts, blocks),
                                      worth[min(left + free[number], wanted)][number + 1])
    return worth


def _placed(items, index, number, left, free, best, starts, blocks) -> int:
    if index == len(items) or not _fits(free, number, items[index].size):
        return IMPOSSIBLE
    rest = best[index + 1][0][number + items[index].size]
    return IMPOSSIBLE if rest == IMPOSSIBLE else rest + _gain(items, index, number, left, starts, blocks)


def _read_back(items, free, best, starts, spare, blocks) -> list[int]:
    """The layout behind the best worth; where placing and waiting are worth the same, placing has the smaller number."""
    out: list[int] = []
    number, left = 1, 0
    while len(out) < len(items):
        index = len(out)
        wanted = _wanted(items, index, spare)
        here = best[index][left][number]
        if here == _placed(items, index, number, left, free, best, starts, blocks):
            out.append(number)
            number, left = number + items[index].size, 0
        else:
            number, left = number + 1, min(left + free[number], wanted)
    return out
