"""How long do the numbers of 500 units take? Run as `many_units.py`: prints seconds, the median of some turns."""
import time
from statistics import median

from generator.calc.slots.law import Demand, Kind, Task, Unit, settle

TURNS = 5


def many(length: int) -> Task:
    """500 units in eight blocks, every second with two numbers, with 25 pins, ranges that stay free and 22 pairs."""
    units = tuple(Unit(f"D{index:03}", 1 + index % 2, 0, index // 63) for index in range(500))
    pins = [Demand(Kind.PIN, f"D{index:03}", first=900 - 3 * index // 4) for index in range(0, 500, 20)]
    kept = [Demand(Kind.KEPT, first=first, last=first + 1) for first in range(7, 500, 41)]
    pairs = [Demand(Kind.NEIGHBOURS, f"D{index:03}", f"D{index + 2:03}") for index in range(3, 500, 25)]
    tied = [Demand(Kind.NEIGHBOURS, "D000", "D001"), Demand(Kind.NEIGHBOURS, "D020", "D499")]
    return Task("zones", length, units, (*(Demand(Kind.UNIT, unit.name) for unit in units), *pins, *kept, *pairs, *tied),
                (None,) * 8, (3,) * 8)


def seconds() -> float:
    """How long one turn takes; raises ValueError if there were no numbers to measure."""
    begun = time.perf_counter()
    if settle(many(1000)) is None:
        raise ValueError("the 500 units no longer fit; nothing was measured")
    return time.perf_counter() - begun


if __name__ == "__main__":
    print(median(seconds() for _ in range(TURNS)))
