"""How did each block of the zones come out: where does it stand, why does it start there, and how much room is behind it?"""
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from generator.calc.slots.law import Group, Kind, Settled, Task, sizes
from generator.calc.slots.starts import starts_of
from generator.model.profile import Block
from generator.terms.show import count


@dataclass(frozen=True)
class BlockUse:
    """One block of zone numbers as it came out; `first` and `last` are the numbers of its units; `why` completes "it starts
    at its first number, because: ...". """

    name: str
    means: str
    first: int
    last: int
    taken: int
    spare: int
    spare_wanted: int
    why: str


class Blocks:
    """The blocks of a settled list of zones; `entries` are those of the profile, by index.

    Frozen units count in their blocks: they were in the order when they got their numbers. Pinned ones count in none.
    """

    def __init__(self, task: Task, settled: Settled, entries: Sequence[Block]):
        self.task, self.settled, self.entries = task, settled, entries
        self.size = sizes(task)
        self.own = {unit.name: unit.block for unit in task.units}
        self.frozen = {one.unit: one for one in task.of(Kind.FROZEN) if one.unit in self.own}
        self.block = {name: self.of(group) for group in settled.ordered for name in group.units}
        self.block |= {name: self.own[name] for name in self.frozen}
        self.held = _numbers_of(task, Kind.KEPT, Kind.RESTING)
        self.fixed = {number for group in settled.fixed for name in group.units for number in self._numbers(name)}
        self.taken = set(self.held).union(*map(self._numbers, settled.number))

    def of(self, group: Group) -> int:
        """The block of a row of units: that of its earliest."""
        return min(self.own[name] for name in group.units)

    def ordered(self, block: int) -> list[Group]:
        """The rows of a block that follow the order, by number."""
        return [group for group in self.settled.ordered if self.of(group) == block]

    def uses(self) -> Iterator[BlockUse]:
        """Every block that has units. Spare: the free numbers from its last unit to the next unit of another block."""
        for index, entry in enumerate(self.entries):
            names = self.units(index)
            if names:
                first, last = self.settled.number[names[0]], self.last(index)
                yield BlockUse(entry.name, entry.means, first, last, sum(self.size[name] for name in names),
                               self._free(last, self.until(index)), entry.spare, self._why(index))

    def units(self, block: int) -> list[str]:
        """The units of a block by number."""
        return sorted((one for one in self.block if self.block[one] == block), key=self.settled.number.__getitem__)

    def last(self, block: int) -> int:
        """The last number of a block that has units."""
        return self._numbers(self.units(block)[-1])[-1]

    def until(self, block: int) -> int:
        """The first number behind a block that has units where another block goes on; the one behind the list if none does."""
        last = self.last(block)
        return min((self.settled.number[one] for one in self.block if self.settled.number[one] > last), default=self.task.length + 1)

    def first_of(self, block: int) -> str:
        """What is said of the first unit of a block that follows the order."""
        group = self.ordered(block)[0]
        place = "next" if self._goes_on(block) else "first" if len(self.units(block)) > 1 else "the only one"
        return f"{place} of block {self.entries[block].name}; {self._start(block, self.settled.number[group.units[0]])}"

    def _why(self, block: int) -> str:
        name = self.units(block)[0]
        first = self.settled.number[name]
        if name in self.frozen:
            return f"{name} keeps it, {self.frozen[name].why}"
        return self._start(block, first)

    def _start(self, block: int, first: int) -> str:
        """Why the first unit of a block that follows the order stands at `first`."""
        start = starts_of(self.entries, self.task.length)[block]
        if self._goes_on(block):
            return self._onward(block, first)
        if start is None:
            return self._behind(block, first)
        return "the profile starts it here" if first == start else f"the profile starts it at {start}, {self._but(block, start, first)}"

    def _onward(self, block: int, first: int) -> str:
        """Of a block with frozen units: how a unit that was added stands to them."""
        last = self.last_frozen(block)
        if first < last or any(last < self.settled.number[name] < first for name in self.frozen):
            return f"behind its numbers from before, up to {last}, there is no room"
        return f"behind its numbers from before, up to {last}"

    def last_frozen(self, block: int) -> int:
        """The last number of a block's frozen units; 0 if it has none."""
        return max((self._numbers(name)[-1] for name in self.frozen if self.own[name] == block), default=0)

    def _goes_on(self, block: int) -> bool:
        return self.last_frozen(block) > 0

    def _but(self, block: int, start: int, first: int) -> str:
        """Why a block does not start where the profile says; in general words where no single thing is in its way."""
        if start in self.held:
            return f"which {self.held[start]}"
        if start in self.fixed:
            return "which is taken"
        before = self._before(first)
        if before is not None and first > start:
            name, last = self.entries[before].name, self.last(before)
            if last >= start:
                return f"but block {name} goes up to {last}"
            if self._free(last, start) < self.entries[before].spare:
                return f"which would leave block {name} less than {count(self.entries[before].spare, 'free number')}"
        return "which would cost room, spare or another block's start"

    def _behind(self, block: int, first: int) -> str:
        """Of a block that the profile starts nowhere: what it stands behind."""
        before = self._before(first)
        if before is None:
            return "the first numbers with room for it"
        name, wanted, gap = self.entries[before].name, self.entries[before].spare, self._free(self.last(before), first)
        behind = f"behind block {name}, which ends at {self.last(before)}"
        if gap < wanted:
            return f"{behind}, with {gap or 'none'} of the {count(wanted, 'free number')} wanted there: room is short"
        return f"{behind}, and {count(gap, 'free number')}" if gap else f"straight {behind}"

    def _before(self, first: int) -> int | None:
        """The block whose unit is the last before a number."""
        earlier = [name for name in self.block if self.settled.number[name] < first]
        return self.block[max(earlier, key=self.settled.number.__getitem__)] if earlier else None

    def _free(self, last: int, until: int) -> int:
        """How many numbers between two are free."""
        return sum(number not in self.taken for number in range(last + 1, until))

    def _numbers(self, name: str) -> range:
        return range(self.settled.number[name], self.settled.number[name] + self.size[name])


def _numbers_of(task: Task, *kinds: Kind) -> dict[int, str]:
    """Every number of demands that keep numbers from units, with what they do to it."""
    return {number: "stays free" if one.kind is Kind.KEPT else "rests" for one in task.of(*kinds)
            for number in range(one.first, one.last + 1)}
