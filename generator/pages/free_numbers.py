"""What is said of a number that no unit has: that it is free, with its neighbours, or which numbers there are."""
from collections.abc import Iterator

from generator.calc.slots.slots import SlotMap
from generator.calc.slots.whys import span
from generator.pages.installer.hand_told import HandNumbers
from generator.terms.show import capital, lower, sentence_list

# The numbers of people and of parts of the house are no numbers of units.
NOT_OF_UNITS = ("users", "partitions")


def free_numbers(slots: SlotMap) -> HandNumbers:
    """Sentences by number, of every list in which units stand: one for each list in which it is free."""
    kinds = [kind for kind in slots.length if kind not in NOT_OF_UNITS and any(row.list == kind and row.device for row in slots.rows)]
    free: dict[str, str] = {}
    for kind in kinds:
        for number, says in _free_in(slots, kind):
            free[str(number)] = " ".join(filter(None, (free.get(str(number), ""), says)))
    every = sentence_list([f"{lower(kind)} {span(1, slots.length[kind])}" for kind in kinds])
    return HandNumbers(free, f"Numbers there are: {every}." if every else "")


def _free_in(slots: SlotMap, kind: str) -> Iterator[tuple[int, str]]:
    """The numbers of a list that nobody has, as the slot map has them: with the others in their row, or why each stays free."""
    taken = {row.number if row.zone is None else row.zone for row in slots.rows if row.list == kind}
    kept = {number: one.why for one in slots.kept if one.list == kind for number in range(one.first, one.last + 1)}
    name = capital(kind.removesuffix("s"))
    for number in range(1, slots.length[kind] + 1):
        if number in kept:
            yield number, f"{name} {number} stays free: {kept[number]}."
        elif number not in taken:
            first, last = number, number
            while first > 1 and not {first - 1} & (taken | kept.keys()):
                first -= 1
            while last < slots.length[kind] and not {last + 1} & (taken | kept.keys()):
                last += 1
            yield number, f"{name} {number} is free{f' ({span(first, last)} are)' if last > first else ''}."
