"""Why is a number this one and no other?"""
from collections.abc import Iterator
from itertools import groupby

from generator.calc.law import Demand, Group, Kind, Settled, Task, sizes
from generator.terms.show import sentence_list

TRADE_ORDER = "storey, rooms as listed, door before window before movement, then by text"


class Whys:
    """The reasons of one settled list. `blocks` gives name and meaning of each block by index; without it, `order` says
    in which order the list goes."""

    def __init__(self, task: Task, settled: Settled, blocks: tuple[tuple[str, str], ...] = (), order: str = ""):
        self.task, self.settled, self.blocks, self.order = task, settled, blocks, order
        self.size = sizes(task)
        self.block = {unit.name: unit.block for unit in task.units}
        self.group = {name: one for one in (*settled.ordered, *settled.fixed) for name in one.units}
        self.holder = {number: what for number, what in self._holders()}

    def of(self, name: str) -> str:
        """Why a unit has its number."""
        given = [one for one in self.task.of(Kind.FROZEN, Kind.PIN) if one.unit == name]
        if given:
            return "; ".join(_given(one) for one in given)
        group = self.group[name]
        if group.fixed:
            return f"{self._beside(name)}; {self._anchors(group)}"
        lead = next(unit.name for unit in self.task.units if unit.name in group.units)
        place = self._place(name) + self._start(name) + self._past(group)
        return place if name == lead else f"{self._beside(name)}, with {lead} in its place: {place}"

    def _beside(self, name: str) -> str:
        others = [one.other if one.unit == name else one.unit for one in self.task.of(Kind.NEIGHBOURS)
                  if name in (one.unit, one.other)]
        return f"next to {sentence_list([one for one in self.group[name].units if one in others])}, as the job file asks"

    def _anchors(self, group: Group) -> str:
        fixed = {one.unit for one in self.task.of(Kind.FROZEN, Kind.PIN)}
        return f"the number of {sentence_list([one for one in group.units if one in fixed])} is given"

    def _mates(self, name: str) -> list[str]:
        """The units in the block of a unit's group, by number."""
        block = self._block(self.group[name])
        return [one for group in self.settled.ordered if self._block(group) == block for one in group.units]

    def _block(self, group: Group) -> int:
        return min(self.block[name] for name in group.units)

    def _place(self, name: str) -> str:
        if not self.blocks:
            return self.order
        block, means = self.blocks[self._block(self.group[name])]
        mates = self._mates(name)
        if len(mates) == 1:
            return f"block {block} ({means}), the only one there"
        return f"block {block} ({means}), place {mates.index(name) + 1} of {len(mates)}: {TRADE_ORDER}"

    def _start(self, name: str) -> str:
        """Of the first of a block: whether it stands where the profile starts the block, or where its frozen units end."""
        block = self._block(self.group[name])
        start = self.task.starts[block]
        if not self.blocks or self._mates(name)[0] != name or start is None:
            return ""
        goes_on = any(self.block.get(one.unit) == block for one in self.task.of(Kind.FROZEN))
        if self.settled.number[name] == start:
            return f"; the block goes on at {start}, behind its numbers from before" if goes_on else f"; the profile starts the block at {start}"
        wanted = f"the block would go on at {start}" if goes_on else f"the profile would start the block at {start}"
        return f"; {wanted}, which would cost room, spare or another block's start"

    def _past(self, group: Group) -> str:
        """What was stepped over to get here: the numbers just before, if they are not to be had."""
        number = self.settled.number[group.units[0]] - 1
        passed = []
        while number in self.holder:
            passed.append((number, self.holder[number]))
            number -= 1
        runs = [(what, [number for number, _ in run]) for what, run in groupby(reversed(passed), key=lambda one: one[1])]
        return "; past " + sentence_list([f"{_span(run)} ({what})" for what, run in runs]) if runs else ""

    def _holders(self) -> Iterator[tuple[int, str]]:
        """Every number that the order steps over, with what holds it."""
        for one in self.task.of(Kind.KEPT, Kind.RESTING):
            for number in range(one.first, one.last + 1):
                yield number, f"kept free: {one.why}" if one.kind is Kind.KEPT else f"rests: {one.why}"
        for name in (name for group in self.settled.fixed for name in group.units):
            first = self.settled.number[name]
            yield from ((number, name) for number in range(first, first + self.size[name]))


def _given(one: Demand) -> str:
    if one.kind is Kind.FROZEN:
        return f"its number from before, {one.why}"
    return f"number given in the job file: {one.why}" if one.why else "number given in the job file"


def _span(numbers: list[int]) -> str:
    return f"{numbers[0]}" if len(numbers) == 1 else f"{numbers[0]} to {numbers[-1]}"


def second_input(name: str) -> str:
    """Why a second zone has its number."""
    return f"second input of {name}, next to its first"
