"""What must the numbers of one list keep, and which numbers keep it best?

The law of a list. Every unit has consecutive numbers, none is given twice, none that is kept free is given. A unit with a
number of its own (pinned in the job file, or frozen) keeps it and is exempt from the order; all others follow one order.

Neighbours. Wishes make groups: the units that are tied to each other, directly or through others. A group stands side by
side, without a free number in it, each unit beside those that it must be next to; so it is a row, and a unit with three
neighbours or a ring cannot be. A group without a fixed unit goes where its earliest unit stands in the order, counts in
that unit's block, and is read from the end whose unit is the earlier: of two the later moves next to the earlier. In a
group with a fixed unit the others move next to that one, whichever side keeps the law best: they are exempt from the
order too.
"""
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from generator.calc.slots.layout import Item, Line, fits, lay_out


class Kind(StrEnum):
    """What a demand asks for."""

    UNIT = "unit"
    """That `unit` has a number."""
    SECOND = "second input"
    """That the optional inputs of `unit` have numbers too."""
    PIN = "pin"
    """That `unit` has the number `first`: the job file says so."""
    FROZEN = "frozen"
    """That `unit` has the number `first`: it had it before."""
    KEPT = "kept free"
    """That the numbers from `first` to `last` stay free: the job file says so."""
    RESTING = "resting"
    """That the number `first` stays free: its unit was removed."""
    NEIGHBOURS = "neighbours"
    """That `unit` and `other` stand side by side."""


@dataclass(frozen=True)
class Demand:
    """One thing that is asked of a list, and that can be dropped. `field` is where it stands, "" if not in the job file."""

    kind: Kind
    unit: str = ""
    other: str = ""
    first: int = 0
    last: int = 0
    why: str = ""
    field: str = ""


@dataclass(frozen=True)
class Unit:
    """One unit of a list: the numbers it takes, how many more if its optional inputs are used, and its block's index."""

    name: str
    size: int = 1
    extra: int = 0
    block: int = 0


@dataclass(frozen=True)
class Task:
    """One list of the control unit: its units in the trade's order, and everything that is asked.

    `starts` and `spare` are those of the blocks, by index.
    """

    list: str
    length: int
    units: tuple[Unit, ...]
    demands: tuple[Demand, ...]
    starts: tuple[int | None, ...] = (1,)
    spare: tuple[int, ...] = (0,)

    def without(self, *dropped: Demand) -> "Task":
        """The same without some demands."""
        return replace(self, demands=tuple(one for one in self.demands if one not in dropped))

    def of(self, *kinds: Kind) -> tuple[Demand, ...]:
        """The demands of some kinds."""
        return tuple(one for one in self.demands if one.kind in kinds)


@dataclass(frozen=True)
class Group:
    """Units that stand side by side, in this order; a unit without neighbours is a group of its own."""

    units: tuple[str, ...]
    fixed: bool


@dataclass(frozen=True)
class Settled:
    """The first number of every unit, and the groups: first those of the order, in order, then those round fixed units."""

    number: Mapping[str, int]
    ordered: tuple[Group, ...]
    fixed: tuple[Group, ...]


class _Broken(Exception):
    """What is asked cannot be, wherever the units of the order go."""


@dataclass(frozen=True)
class _Row:
    """A group round fixed units in one of its directions, and the first number it begins at."""

    units: tuple[str, ...]
    begin: int


def feasible(task: Task) -> bool:
    """Whether some assignment keeps everything that is asked."""
    try:
        plan = _Plan(task)
    except _Broken:
        return False
    return fits([plan.size_of(group) for group in plan.ordered], plan.line)


def settle(task: Task) -> Settled | None:
    """The numbers that keep the law best; None if none keep it."""
    try:
        plan = _Plan(task)
    except _Broken:
        return None
    items = [Item(plan.size_of(group), plan.block_of(group)) for group in plan.ordered]
    found = lay_out(items, plan.line, task.starts, task.spare)
    if found is None:
        return None
    number = dict(plan.fixed)
    for group, first in zip(plan.ordered, found.first):
        number |= plan.placed(group.units, first)
    rows = [plan.rows[first] for first in found.jumped]
    for row in rows:
        number |= plan.placed(row.units, row.begin)
    alone = [group for group in plan.around if len(group.units) == 1]
    return Settled(number, tuple(plan.ordered), tuple(alone + [Group(row.units, True) for row in rows]))


def sizes(task: Task) -> dict[str, int]:
    """How many numbers each unit takes, without those that are not asked to have any; in the trade's order."""
    doubled = {one.unit for one in task.of(Kind.SECOND)}
    asked = {one.unit for one in task.of(Kind.UNIT)}
    every = {one.name: one.size + (one.extra if one.name in doubled else 0) for one in task.units if one.name in asked}
    return {name: size for name, size in every.items() if size}


def kept_free(task: Task) -> frozenset[int]:
    """The numbers of the list that stay free because somebody asks for it."""
    return frozenset(number for one in task.of(Kind.KEPT, Kind.RESTING) for number in range(one.first, one.last + 1)
                     if 1 <= number <= task.length)


class _Plan:
    """A task made ready for the line: groups, anchors and jumps. Raises _Broken if the fixed numbers alone cannot be."""

    def __init__(self, task: Task):
        self.size = sizes(task)
        self.block = {one.name: one.block for one in task.units}
        self.rank = {name: index for index, name in enumerate(self.size)}
        self.fixed = self._fixed(task)
        barred = kept_free(task)
        owner = self._owners(task.length, barred)
        groups = list(self._groups(task))
        self.around = [group for group in groups if group.fixed]
        self.ordered = sorted((group for group in groups if not group.fixed), key=self._earliest)
        tied = [group for group in self.around if len(group.units) > 1]
        self.rows = {row.begin: row for group in tied for row in self._rows(group, task.length, barred, owner)}
        anchors = frozenset(number for number, name in owner.items() if any(name in group.units for group in tied))
        self.line = Line(task.length, barred | (owner.keys() - anchors), anchors,
                         {row.begin: row.begin + self._length(row.units) for row in self.rows.values()})

    def size_of(self, group: Group) -> int:
        """How many numbers a group takes."""
        return self._length(group.units)

    def block_of(self, group: Group) -> int:
        """The block of a group: that of its earliest unit."""
        return self.block[min(group.units, key=self.rank.__getitem__)]

    def placed(self, units: Sequence[str], first: int) -> dict[str, int]:
        """The first number of each unit of a row that begins at `first`."""
        out = {}
        for name in units:
            out[name] = first
            first += self.size[name]
        return out

    def _length(self, units: Sequence[str]) -> int:
        return sum(self.size[name] for name in units)

    def _earliest(self, group: Group) -> int:
        return min(self.rank[name] for name in group.units)

    def _fixed(self, task: Task) -> dict[str, int]:
        fixed: dict[str, int] = {}
        for one in task.of(Kind.PIN, Kind.FROZEN):
            if one.unit in self.size and fixed.setdefault(one.unit, one.first) != one.first:
                raise _Broken
        return fixed

    def _owners(self, length: int, barred: frozenset[int]) -> dict[int, str]:
        """The fixed unit of each number that one has."""
        owner: dict[int, str] = {}
        for name, first in self.fixed.items():
            for number in range(first, first + self.size[name]):
                if not 1 <= number <= length or number in barred or owner.setdefault(number, name) != name:
                    raise _Broken
        return owner

    def _groups(self, task: Task) -> Iterator[Group]:
        """Every group, its units in a row that begins at the end whose unit is the earlier in the order."""
        beside: dict[str, set[str]] = {name: set() for name in self.size}
        for one in task.of(Kind.NEIGHBOURS):
            if one.unit in beside and one.other in beside:
                beside[one.unit].add(one.other)
                beside[one.other].add(one.unit)
        if any(len(others) > 2 for others in beside.values()):
            raise _Broken
        left = set(beside)
        for name in beside:
            # An end of a row; in the order, so the first of its two ends.
            if name in left and len(beside[name]) < 2:
                row = _walk(name, beside)
                left -= set(row)
                yield Group(row, any(one in self.fixed for one in row))
        if left:
            raise _Broken

    def _rows(self, group: Group, length: int, barred: frozenset[int], owner: Mapping[int, str]) -> list[_Row]:
        """The directions in which a group fits round its fixed units; the one read from its earlier end last, so that it
        counts where both begin at one number."""
        found = [row for units in (group.units[::-1], group.units)
                 if (row := self._row(units)) and self._is_open(row, length, barred, owner)]
        if not found:
            raise _Broken
        return found

    def _row(self, units: tuple[str, ...]) -> _Row | None:
        offset = self.placed(units, 0)
        begins = {self.fixed[name] - offset[name] for name in units if name in self.fixed}
        return _Row(units, begins.pop()) if len(begins) == 1 else None

    def _is_open(self, row: _Row, length: int, barred: frozenset[int], owner: Mapping[int, str]) -> bool:
        numbers = range(row.begin, row.begin + self._length(row.units))
        return numbers[0] >= 1 and numbers[-1] <= length and not any(
            number in barred or owner.get(number, row.units[0]) not in row.units for number in numbers)


def _walk(first: str, beside: Mapping[str, set[str]]) -> tuple[str, ...]:
    """A row of neighbours from one of its ends."""
    row = [first]
    while onward := beside[row[-1]] - set(row[-2:-1]):
        row.append(next(iter(onward)))
    return tuple(row)
