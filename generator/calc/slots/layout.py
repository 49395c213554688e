"""Where does each item of an ordered row go, so that most of the spare wanted is left?

A line of numbers from 1 to `length`. Items take free numbers in their order. A jump is a stretch that an anchor and what
must stand beside it take together: whoever walks the line from 1 to its end passes each anchor by exactly one of its
jumps, and nothing else may stand in that stretch. Dynamic programming over the next item and the next number. Feasible
means: some layout keeps the order. If one exists, one is found.
"""
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from heapq import heappop, heappush


@dataclass(frozen=True)
class Item:
    """Something that takes `size` consecutive numbers and belongs to the block with this index."""

    size: int
    block: int


@dataclass(frozen=True)
class Line:
    """The numbers from 1 to `length`: those nobody may take, those of anchors, and the jumps over the anchors.

    `jumps` gives for the first number of a stretch the number behind it; a stretch is longer than one number, and no two
    begin at one number.
    """

    length: int
    taken: frozenset[int] = frozenset()
    anchors: frozenset[int] = frozenset()
    jumps: Mapping[int, int] = field(default_factory=dict)

    def is_free(self, number: int) -> bool:
        """Whether an item may take a number."""
        return 1 <= number <= self.length and number not in self.taken and number not in self.anchors

    def room(self) -> list[int]:
        """For each number, 0 and the one behind the last among them, how many free numbers follow in a row from it on."""
        out = [0] * (self.length + 2)
        for number in range(self.length, 0, -1):
            out[number] = out[number + 1] + 1 if self.is_free(number) else 0
        return out


@dataclass(frozen=True)
class Layout:
    """The first number of each item, and the first numbers of the jumps that were taken."""

    first: tuple[int, ...]
    jumped: tuple[int, ...]


IMPOSSIBLE = -1


def fits(sizes: Sequence[int], line: Line) -> bool:
    """Whether items of these sizes can be put down in their order.

    For each number: the most items that can stand before it. More is never worse, so the most is all there is to know.
    """
    room, last = line.room(), line.length + 1
    most = [IMPOSSIBLE] * (last + 1)
    most[1] = 0
    for number in range(1, last):
        done = most[number]
        if done == IMPOSSIBLE:
            continue
        if number not in line.anchors:
            most[number + 1] = max(most[number + 1], done)
        if number in line.jumps:
            most[line.jumps[number]] = max(most[line.jumps[number]], done)
        if done < len(sizes) and room[number] >= sizes[done]:
            most[number + sizes[done]] = max(most[number + sizes[done]], done + 1)
    return most[last] == len(sizes)


def lay_out(items: Sequence[Item], line: Line, starts: Sequence[int | None], spare: Sequence[int]) -> Layout | None:
    """The best layout, or None if none keeps the order.

    Of all layouts the one is chosen that maximises the sum over blocks of min(free numbers behind the block's last item
    and before the next block's first, spare wanted); then the number of blocks whose first item stands at its `starts`;
    then has the smallest numbers in order; then the smallest jumps in order. What is best is common practice, no source; that
    nothing better was missed is computed by trying every layout, in the tests.

    >>> lay_out([Item(1, 0), Item(2, 1)], Line(8, frozenset({2})), [1, 5], [1, 1])
    Layout(first=(1, 5), jumped=())
    """
    if not fits([item.size for item in items], line):
        return None
    table = _Table(items, line, starts, spare)
    return table.read_back()


@dataclass(frozen=True)
class _Here:
    """A place on the way along the line: the next number, and how much of the spare wanted was passed since the last item."""

    number: int
    left: int


class _Table:
    """For each next item, spare already left and next number: the best worth of everything from there on.

    A free number counts more than all starts together, so that both fit into one number to compare.
    """

    def __init__(self, items: Sequence[Item], line: Line, starts: Sequence[int | None], spare: Sequence[int]):
        self.items, self.line, self.starts = items, line, starts
        self.room = line.room()
        self.blocks = len(starts) + 1
        self.wanted = [self._wanted(index, spare) for index in range(len(items) + 1)]
        self.best: list[list[list[int]]] = [[]] * (len(items) + 1)
        for index in range(len(items), -1, -1):
            self.best[index] = self._values(index)

    def _begins(self, index: int) -> bool:
        """Whether a block begins with an item; what comes after the last item counts as a block."""
        return index in (0, len(self.items)) or self.items[index].block != self.items[index - 1].block

    def _wanted(self, index: int, spare: Sequence[int]) -> int:
        """Spare wanted just before an item: that of the block which ends there, 0 inside a block and before the first."""
        return spare[self.items[index - 1].block] if index and self._begins(index) else 0

    def _values(self, index: int) -> list[list[int]]:
        wanted, last = self.wanted[index], self.line.length + 1
        worth = [[IMPOSSIBLE] * (last + 1) for _ in range(wanted + 1)]
        for left in range(wanted + 1):
            worth[left][last] = left * self.blocks if index == len(self.items) else IMPOSSIBLE
        for number in range(last - 1, 0, -1):
            free = self.room[number] > 0
            passable, jump = number not in self.line.anchors, self.line.jumps.get(number)
            placed = self._placed(index, number)
            for left in range(wanted, -1, -1):
                here = placed + left * self.blocks if placed != IMPOSSIBLE else IMPOSSIBLE
                if passable:
                    here = max(here, worth[min(left + free, wanted)][number + 1])
                if jump:
                    here = max(here, worth[left][jump])
                worth[left][number] = here
        return worth

    def _placed(self, index: int, number: int) -> int:
        """What putting an item down here is worth, the spare before it left aside."""
        if index == len(self.items) or self.room[number] < self.items[index].size:
            return IMPOSSIBLE
        rest = self.best[index + 1][0][number + self.items[index].size]
        if rest == IMPOSSIBLE:
            return IMPOSSIBLE
        return rest + (self._begins(index) and self.starts[self.items[index].block] == number)

    def _is_place(self, index: int, here: _Here) -> bool:
        """Whether a best way puts the item down here."""
        placed = self._placed(index, here.number)
        return placed != IMPOSSIBLE and placed + here.left * self.blocks == self.best[index][here.left][here.number]

    def _onward(self, index: int, here: _Here) -> Iterator[_Here]:
        """The best ways on without putting the item down here, the jump first."""
        worth, wanted, number = self.best[index], self.wanted[index], here.number
        jump = self.line.jumps.get(number)
        if jump and worth[here.left][jump] == worth[here.left][number]:
            yield _Here(jump, here.left)
        left = min(here.left + (self.room[number] > 0), wanted)
        if number not in self.line.anchors and worth[left][number + 1] == worth[here.left][number]:
            yield _Here(number + 1, left)

    def _soonest(self, index: int, here: _Here) -> int:
        """The smallest number at which a best way from here puts the item down; 0 behind the last item."""
        waiting, seen = [(here.number, here.left)], set()
        while waiting and index < len(self.items):
            number, left = heappop(waiting)
            if self._is_place(index, _Here(number, left)):
                return number
            for one in self._onward(index, _Here(number, left)):
                if one not in seen:
                    seen.add(one)
                    heappush(waiting, (one.number, one.left))
        return 0

    def read_back(self) -> Layout:
        """The layout behind the best worth: of ways that are worth the same, the one with the smaller next number."""
        first: list[int] = []
        jumped: list[int] = []
        here = _Here(1, 0)
        while here.number <= self.line.length:
            index = len(first)
            if self._is_place(index, here):
                first.append(here.number)
                here = _Here(here.number + self.items[index].size, 0)
                continue
            ways = list(self._onward(index, here))
            onward = min(ways, key=lambda one: self._soonest(index, one)) if len(ways) > 1 else ways[0]
            if onward.number == self.line.jumps.get(here.number):
                jumped.append(here.number)
            here = onward
        return Layout(tuple(first), tuple(jumped))
