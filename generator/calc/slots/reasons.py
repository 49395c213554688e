"""Why can a list not be numbered, and what are the nearest mends?

A reason is irreducible: what it lists cannot be kept together, and dropping any one of it makes the rest of it fit. Found
by a deletion filter. Dropping one thing can stop another from fitting (a unit without its number of its own goes back
into the order), so the filter goes round until nothing more can be dropped. A mend is only named after it was tried.
"""
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from generator.calc.slots.law import Demand, Kind, Task, feasible, kept_free, sizes
from generator.terms.show import sentence_list

# How many units are named one by one before a count says more.
FEW = 4
# What is counted, wherever it stands: these alone decide whether there are numbers enough.
COUNTED = (Kind.UNIT, Kind.SECOND, Kind.KEPT, Kind.RESTING)


@dataclass(frozen=True)
class Mend:
    """A change that was tried: what to do, as a sentence without its full stop, and the task that fits then."""

    says: str
    task: Task


@dataclass(frozen=True)
class Reason:
    """Demands that cannot be kept together, and what would mend it, the nearest first.

    `short`: it says no more than that there are too few numbers.
    """

    demands: tuple[Demand, ...]
    mends: tuple[Mend, ...]
    short: bool


@dataclass(frozen=True)
class NoRoom:
    """A list whose units do not fit: how many numbers they need, how many there are for them, how many are kept free.

    `needed` can be smaller than `available`: then numbers of their own, ranges and neighbours leave no room for the order.
    `two_numbers` are the units that take more than one.
    """

    list: str
    needed: int
    available: int
    kept: int = 0
    two_numbers: tuple[str, ...] = ()
    reasons: tuple[Reason, ...] = ()

    @property
    def length(self) -> int:
        """How many numbers the list has, with those that are kept free."""
        return self.available + self.kept

    def share(self, percent: float) -> float:
        """So many percent of the list, as a count of numbers that need not be whole."""
        return percent * self.length / 100


def no_room(task: Task) -> NoRoom:
    """What keeps a list from being numbered. The task is not feasible."""
    size = sizes(task)
    needed, kept = sum(size.values()), len(kept_free(task))
    available = task.length - kept
    found = list(dict.fromkeys(_irreducible_sets(task, needed > available)))
    for one in found[:]:
        # A unit that lost its own number or its neighbour is in the order again: what is broken alone can be whole in company.
        if feasible(_apart(task, one, found)):
            found.remove(one)
    reasons = [Reason(one, tuple(_mends(_apart(task, one, found), one)), _short(replace(task, demands=one))) for one in found]
    return NoRoom(task.list, needed, available, kept, tuple(name for name in size if size[name] > 1), tuple(reasons))


def _short(task: Task) -> bool:
    """Whether there are fewer numbers than are needed, wherever they lie."""
    return all(one.kind in COUNTED for one in task.demands) and sum(sizes(task).values()) > task.length - len(kept_free(task))


def _broken(task: Task) -> bool:
    return not feasible(task)


def irreducible(task: Task, broken: Callable[[Task], bool] = _broken) -> tuple[Demand, ...]:
    """Demands of a broken task that are broken together, none of them needless; without more said, broken is infeasible."""
    kept = sorted(task.demands, key=_first_dropped(task))
    step = max(len(kept) // 2, 1)
    while True:
        shorter = _one_pass(task, kept, step, broken)
        if step == 1 and len(shorter) == len(kept):
            return tuple(one for one in task.demands if one in shorter)
        kept, step = shorter, max(step // 2, 1)


def _one_pass(task: Task, kept: Sequence[Demand], step: int, broken: Callable[[Task], bool]) -> list[Demand]:
    """What is left after each run of `step` demands in turn was dropped wherever the rest is still broken."""
    left, index = list(kept), 0
    while index < len(left):
        rest = left[:index] + left[index + step:]
        if broken(replace(task, demands=tuple(rest))):
            left = rest
        else:
            index += step
    return left


def _first_dropped(task: Task) -> Callable[[Demand], bool]:
    """Sorts units of which nothing special is asked to the front: a reason should name what is special."""
    special = {name for one in task.demands if one.kind is not Kind.UNIT for name in (one.unit, one.other)}
    return lambda one: one.kind is not Kind.UNIT or one.unit in special


def _irreducible_sets(task: Task, overfull: bool) -> Iterator[tuple[Demand, ...]]:
    """One reason after the other, without a demand in common: what is left when all of them are gone fits.

    Too few numbers are one reason, found among what is counted; the others are sought in a list that is long enough, and
    named if they are more than that they too are short of numbers.
    """
    rest = task
    if overfull:
        # Counting is quick: what is not needed for there to be too few goes first.
        yield irreducible(replace(task, demands=irreducible(replace(task, demands=task.of(*COUNTED)), _short)))
        rest = replace(task, length=_long_enough(task))
    others = []
    while not feasible(rest):
        lasting = irreducible(rest)
        found = irreducible(replace(task, demands=lasting))
        if not _short(replace(task, demands=found)):
            others.append(found)
        rest = rest.without(*lasting)
    yield from sorted(others, key=lambda one: task.demands.index(one[0]))


def _long_enough(task: Task) -> int:
    """A length at which everything fits that can fit in any list: behind every number that is asked for there is room for all."""
    size = sizes(task)
    furthest = max((task.length, *(max(one.first, one.last) + size.get(one.unit, 0) for one in task.demands)))
    return furthest + sum(size.values())


def _apart(task: Task, reason: tuple[Demand, ...], found: Sequence[tuple[Demand, ...]]) -> Task:
    """The task without what only other reasons name, so that a mend of this one can show."""
    return task.without(*(one for other in found for one in other if one not in reason))


def _mends(task: Task, reason: tuple[Demand, ...]) -> Iterator[Mend]:
    """The mends of one reason that make the task fit, the nearest first."""
    yield from _second_inputs(task, reason)
    for one in reason:
        if one.kind is Kind.KEPT:
            yield from _freed(task, one)
        elif one.kind in LET_GO:
            yield from _tried(LET_GO[one.kind](one), task.without(one))
    yield from _units_out(task, reason)
    yield from _longer(task)


LET_GO: dict[Kind, Callable[[Demand], str]] = {
    Kind.PIN: lambda one: f"Let {one.unit} have another number than {one.first}",
    Kind.NEIGHBOURS: lambda one: f"Let {one.unit} and {one.other} stand apart",
    Kind.RESTING: lambda one: f"Use number {one.first} again, once the station has the new table",
}


def _tried(says: str, task: Task) -> Iterator[Mend]:
    """A mend, if the task fits with it."""
    if feasible(task):
        yield Mend(says, task)


def _second_inputs(task: Task, reason: tuple[Demand, ...]) -> Iterator[Mend]:
    """One second input less, whichever; else as few as it takes, from the last on."""
    seconds = [one for one in reason if one.kind is Kind.SECOND]
    alone = [one for one in seconds if feasible(task.without(one))]
    for count in range(1, len(seconds) + 1):
        out = alone[-1:] if alone else seconds[-count:]
        names = sentence_list([one.unit for one in alone or out], "or" if alone else "and")
        mended = task.without(*out)
        inputs = "input" if len(out) == 1 else "inputs"
        says = f"Leave the second {inputs} of {names} unused ({_taken(mended)} then)"
        if found := list(_tried(says, mended)):
            yield from found
            return


def _taken(task: Task) -> str:
    """How full a list is."""
    return f"{sum(sizes(task).values())} of {task.length - len(kept_free(task))} numbers taken"


def _freed(task: Task, one: Demand) -> Iterator[Mend]:
    """One number of a range that is kept free, if one is enough; else the whole range."""
    rest = task.without(one)
    for number in range(one.first, one.last + 1):
        sides = (replace(one, last=number - 1), replace(one, first=number + 1))
        mended = replace(rest, demands=(*rest.demands, *(side for side in sides if side.first <= side.last)))
        if found := list(_tried(f"Free number {number}", mended)):
            yield from found
            return
    yield from _tried(f"Free numbers {one.first} to {one.last}", rest)


def _units_out(task: Task, reason: tuple[Demand, ...]) -> Iterator[Mend]:
    """A unit less, whichever of the reason; else as few as it takes, from the last on."""
    units = [one for one in reason if one.kind is Kind.UNIT]
    alone = [one for one in units if feasible(task.without(one))]
    if alone:
        names = sentence_list([one.unit for one in alone], "or")
        few = len(alone) <= FEW
        yield Mend(f"Take out {names}" if few else f"Take out one of {len(alone)} units, for example {alone[-1].unit}",
                   task.without(alone[-1]))
        return
    for count in range(2, len(units) + 1):
        if found := list(_tried(f"Take {count} units out, for example from {units[-count].unit} on", task.without(*units[-count:]))):
            yield from found
            return


def _longer(task: Task) -> Iterator[Mend]:
    """The shortest list that is long enough: what fits in one list fits in any longer one."""
    short, long = task.length, _long_enough(task)
    if not feasible(replace(task, length=long)):
        return
    while long - short > 1:
        middle = (short + long) // 2
        short, long = (short, middle) if feasible(replace(task, length=middle)) else (middle, long)
    yield Mend(f"Choose a control unit with {long} {task.list}", replace(task, length=long))
