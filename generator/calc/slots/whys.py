"""Why is a number this one and no other? The order itself is said once, by `order_of`; of a number only what is its own."""
from collections.abc import Iterator
from itertools import groupby

from generator.calc.slots.blocks import Blocks
from generator.calc.slots.law import Demand, Group, Kind, Settled, Task, sizes
from generator.terms.show import sentence_list

ZONE_ORDER = ("Block by block; in each, floor by floor, then rooms in walking order as the job file lists them, door before window "
              "before movement, then by text. In block entry the doors by which people come in stand first.")
WALKING_ORDER = "In walking order."
USER_ORDER = "In the order of their users."


def order_of(kind: str) -> str:
    """The order of a list in a sentence; "" where the job file gives each number."""
    orders = {"zones": ZONE_ORDER, "fobs": USER_ORDER, "tags": USER_ORDER, "users": "", "partitions": ""}
    return orders.get(kind, WALKING_ORDER)


class Whys:
    """The reasons of one settled list; `blocks` are those of the zones, None for a list without."""

    def __init__(self, task: Task, settled: Settled, blocks: Blocks | None = None):
        self.task, self.settled, self.blocks = task, settled, blocks
        self.size = sizes(task)
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
        place = self._place(group) + self._past(group)
        return place if name == lead else f"{self._beside(name)}, with {lead} in its place: {place}"

    def _beside(self, name: str) -> str:
        others = [one.other if one.unit == name else one.unit for one in self.task.of(Kind.NEIGHBOURS)
                  if name in (one.unit, one.other)]
        return f"next to {sentence_list([one for one in self.group[name].units if one in others])}, as the job file asks"

    def _anchors(self, group: Group) -> str:
        fixed = {one.unit for one in self.task.of(Kind.FROZEN, Kind.PIN)}
        return f"the number of {sentence_list([one for one in group.units if one in fixed])} is given"

    def _place(self, group: Group) -> str:
        """The place of a row of units in the order: first, with why the first is there, or behind whom."""
        mates = self.blocks.ordered(self.blocks.of(group)) if self.blocks else self.settled.ordered
        index = mates.index(group)
        if index:
            return f"follows {mates[index - 1].units[-1]}"
        return self.blocks.first_of(self.blocks.of(group)) if self.blocks else "first"

    def _past(self, group: Group) -> str:
        """What was stepped over to get here: the numbers just before, if they are not to be had."""
        number = self.settled.number[group.units[0]] - 1
        passed = []
        # That it stands behind its block's numbers from before is said already.
        said = self.blocks.last_frozen(self.blocks.of(group)) if self.blocks else 0
        while number in self.holder and number > said:
            passed.append((number, self.holder[number]))
            number -= 1
        runs = [(kind, list(run)) for kind, run in groupby(reversed(passed), key=lambda one: one[1][0])]
        return "; past " + sentence_list([_passed(kind, run) for kind, run in runs]) if runs else ""

    def _holders(self) -> Iterator[tuple[int, tuple[str, str]]]:
        """Every number that the order steps over, with what holds it: in a word, and by name where it is a unit."""
        for one in self.task.of(Kind.KEPT, Kind.RESTING):
            for number in range(one.first, one.last + 1):
                yield number, ("kept free" if one.kind is Kind.KEPT else "at rest", "")
        for name in (name for group in self.settled.fixed for name in group.units):
            first = self.settled.number[name]
            yield from ((number, ("taken", name)) for number in range(first, first + self.size[name]))


def _passed(kind: str, run: list[tuple[int, tuple[str, str]]]) -> str:
    """A stretch that was stepped over; a unit is named if it is the only one in it."""
    names = list(dict.fromkeys(name for _, (_, name) in run if name))
    first, last = run[0][0], run[-1][0]
    return f"{span(first, last)} ({names[0] if len(names) == 1 else kind})"


def _given(one: Demand) -> str:
    if one.kind is Kind.FROZEN:
        return f"its number from before, {one.why}"
    return f"pinned in the job file: {one.why}" if one.why else "pinned in the job file"


def span(first: int, last: int) -> str:
    """Numbers in a row: "9", or "9 to 12"."""
    return f"{first}" if first == last else f"{first} to {last}"


def second_input(name: str) -> str:
    """Why a second zone has its number."""
    return f"second input of {name}"
