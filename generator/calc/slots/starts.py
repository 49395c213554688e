"""Where does each block of the zones start: where the profile says, or, once units are frozen, where there is room for more?"""
from collections.abc import Iterator, Sequence
from dataclasses import replace

from generator.calc.slots.law import Kind, Task, kept_free, sizes
from generator.model.profile import Block


def starts_of(blocks: Sequence[Block], length: int) -> tuple[int | None, ...]:
    """Where the profile starts each block in a list of this length; None where it leaves that open."""
    return tuple(length - one.start_from_end + 1 if one.start_from_end is not None else one.start for one in blocks)


def with_starts(task: Task, starts: Sequence[int | None]) -> Task:
    """A task whose blocks start where the profile says, or where a unit that is added should go."""
    frozen = _Frozen(task)
    return replace(task, starts=tuple(frozen.start(index, start) for index, start in enumerate(starts)))


class _Frozen:
    """The frozen units of a list, by block, and the room behind them."""

    def __init__(self, task: Task):
        self.task, size = task, sizes(task)
        block = {unit.name: unit.block for unit in task.units}
        self.numbers = {one.unit: range(one.first, one.first + size.get(one.unit, 0)) for one in task.of(Kind.FROZEN)}
        pinned = (range(one.first, one.first + size[one.unit]) for one in task.of(Kind.PIN) if one.unit in size)
        self.held = kept_free(task).union(*self.numbers.values(), *pinned)
        self.first = {name: numbers.start for name, numbers in self.numbers.items() if name in block and numbers}
        self.last: dict[int, int] = {}
        for name in self.first:
            self.last[block[name]] = max(self.last.get(block[name], 0), self.numbers[name][-1])

    def start(self, block: int, start: int | None) -> int | None:
        """Where units that are added to a block go: behind its frozen units; if it has none, where the profile starts it; and
        if that is not to be had, where they take no other block's spare."""
        if not self.first:
            return start
        there = start is not None and 1 <= start <= self.task.length and start not in self.held
        own = self.behind(block) if block in self.last else iter((start,) if there else ())
        return next(own, None) or self._away(block) or start

    def behind(self, block: int) -> Iterator[int]:
        """The numbers to be had behind the last frozen unit of a block and before the next frozen unit of another."""
        last = self.last[block]
        until = min((first for first in self.first.values() if first > last), default=self.task.length + 1)
        return (number for number in range(last + 1, until) if number not in self.held)

    def _away(self, block: int) -> int | None:
        """The first number that is no block's spare: behind the nearest block before this one, else anywhere."""
        spare = {number for other in self.last for number, _ in zip(self.behind(other), range(self.task.spare[other]))}
        for last in (*(self.last[other] for other in sorted(self.last, reverse=True) if other <= block), 0):
            for number in range(last + 1, self.task.length + 1):
                if number not in self.held and number not in spare:
                    return number
        return None
