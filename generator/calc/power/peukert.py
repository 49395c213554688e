"""What does a battery give to a current above its rated one?

Peukert's law in its rated-hour form, for capacities printed "at the 20 h rate": t = H × (C / (I × H))^k. At the rated
current, I = C / H, it gives H. The older one-ampere form t = Cp / I^k is the case H = Cp, C = Cp, and takes another
capacity: the two are not interchangeable. The law and its exponents are from memory.
"""
from collections.abc import Sequence

from generator.calc.bounds import not_negative, positive, within

# Halvings until the search stands still in the last digit of a number.
STEPS = 200
MOST_EXPONENT = 2.0


def lasts_h(*, capacity_ah: float, current_a: float, exponent: float, rated_h: float) -> float:
    """Hours until a battery is empty at a steady current.

    `exponent` is Peukert's, 1 for a battery that knows no rate, at most 2. Errors: ValueError with the quantity's name.
    """
    positive("capacity", capacity_ah)
    positive("current", current_a)
    positive("rated hours", rated_h)
    _exponent(exponent)
    return positive("hours", rated_h * (capacity_ah / (current_a * rated_h)) ** exponent)


def rate_factor(*, capacity_ah: float, current_a: float, exponent: float, rated_h: float) -> float:
    """How much more of the printed capacity each ampere-hour takes at this current; never less than 1.

    A current below the rated one would take a little less; that is not counted.
    """
    positive("capacity", capacity_ah)
    not_negative("current", current_a)
    positive("rated hours", rated_h)
    _exponent(exponent)
    return max(1.0, (current_a * rated_h / capacity_ah) ** (exponent - 1))


def capacity_for(phases: Sequence[tuple[float, float]], *, exponent: float, rated_h: float) -> float:
    """The least printed capacity in Ah that carries the phases, each a current in A and its hours, one after the other.

    Each phase takes the share t / lasts_h of the battery. What a phase takes hangs on the capacity sought; the difference
    between a capacity and what is taken of it grows with the capacity, so that halving finds the only one.
    """
    plain = sum(not_negative("current", current) * not_negative("hours", hours) for current, hours in phases)
    positive("charge taken", plain)

    def left(capacity: float) -> float:
        return capacity - sum(current * hours * rate_factor(capacity_ah=capacity, current_a=current, exponent=exponent, rated_h=rated_h)
                              for current, hours in phases)

    low = high = plain
    while left(high) < 0:
        low, high = high, positive("capacity", high * 2)
    for _ in range(STEPS):
        middle = (low + high) / 2
        low, high = (low, middle) if left(middle) >= 0 else (middle, high)
    return high


def _exponent(exponent: float) -> None:
    within("Peukert's exponent", exponent, 1.0, MOST_EXPONENT)
