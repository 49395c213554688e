"""Which number would a unit get that is added later, in each block? Worked out by the same law as every other number."""
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from generator.calc.slots.blocks import Blocks
from generator.calc.slots.law import Demand, Kind, Settled, Task, Unit, settle
from generator.calc.slots.starts import starts_of, with_starts
from generator.model.profile import Block

# Names that no unit can have: a name begins with a letter or a digit.
ADDED = ("+1", "+2")


@dataclass(frozen=True)
class NextNumbers:
    """What units that are added to one block would get once everything that has a number keeps it.

    `one` is the number of a single unit with one input, None if there is no room; `two` those of two that are added
    together, empty if there is none for two. `with_its_own`: whether `one` stands in the room behind its block, or the block
    is empty.
    """

    name: str
    means: str
    one: int | None
    two: tuple[int, ...]
    with_its_own: bool


def next_numbers(task: Task, settled: Settled, entries: Sequence[Block], at_most: int) -> Iterator[NextNumbers]:
    """For every block of the profile, filled or not. `at_most` is how many units can be added at all."""
    before = Blocks(task, settled, entries)
    for index, entry in enumerate(entries):
        one, two = (_added(task, settled, index, ADDED[:number], entries) if number <= at_most else () for number in (1, 2))
        number = one[0] if one else None
        own = not before.units(index) or (number is not None and before.last(index) < number < before.until(index))
        yield NextNumbers(entry.name, entry.means, number, two, own)


def _added(task: Task, settled: Settled, block: int, names: Sequence[str], entries: Sequence[Block]) -> tuple[int, ...]:
    """The numbers of units that are added to a block, the others kept where they are; empty if there is no room."""
    frozen = [Demand(Kind.FROZEN, name, first=first) for name, first in settled.number.items()]
    kept = [one for one in task.demands if one.kind not in (Kind.FROZEN, Kind.PIN, Kind.NEIGHBOURS)]
    asked = [Demand(Kind.UNIT, name) for name in names]
    new = [Unit(name, block=block) for name in names]
    units = [one for one in task.units if one.block <= block] + new + [one for one in task.units if one.block > block]
    later = replace(task, units=tuple(units), demands=(*kept, *frozen, *asked), spare=tuple(one.spare for one in entries))
    found = settle(with_starts(later, starts_of(entries, task.length)))
    return tuple(found.number[name] for name in names) if found else ()
