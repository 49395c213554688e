"""How long does the cell of a wireless unit last in its place?

From the charge that it gives in a day, and what it loses by itself: years = u × C / (I × 8766 + s × C), I in mA, C in
mAh. The loss is taken of the whole capacity in every year: the form that can be checked with a pencil, and beyond the
first year the shorter-lived of the two in use; the other is C × (1 − s)^T = I × 8766 × T.
"""
import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from generator.calc.bounds import not_negative, positive, within
from generator.calc.working import WORKED_OUT, Given, Working, of_source
from generator.tables.cells import AVERAGE, LONGEST, LONGEST_YEARS
from generator.terms.show import digits, figure

HOURS_A_YEAR, DAYS_A_YEAR, DAY_H, DAY_MIN, SECONDS_AN_HOUR = 8766, 365.25, 24, 1440, 3600
NOT_FOR_COLD = "Not derated for cold: no figure."


@dataclass(frozen=True)
class Cell:
    """A unit's cell and what the unit takes from it, each number with its origin; the share is what is counted on."""

    capacity_mah: Given
    usable_percent: Given
    loss_percent: Given
    sleep_ua: Given
    message_mas: Given


@dataclass(frozen=True)
class CellLife:
    """Years that are counted on, at most ten; `by_the_sum` is the same without that end, for checking only.

    `day_mah` is the charge that the unit takes in a day.
    """

    years: float
    by_the_sum: float
    day_mah: float
    working: Working

    def dies_on(self, fitted: date) -> date:
        """The day on which a cell fitted on a date is spent, by the years counted on. Errors: ValueError past the calendar."""
        try:
            return fitted + timedelta(days=math.floor(self.years * DAYS_A_YEAR))
        except OverflowError:
            raise ValueError("date of fitting lies too far ahead.") from None


def supervision_messages(every_min: Given) -> Given:
    """Signs of life in a day, from the minutes between two."""
    every = positive(every_min.name, every_min.value)
    return Given("supervision messages in a day", "n", DAY_MIN / every, "", f"one every {every_min.shown()}: {every_min.origin}")


def cell_life(cell: Cell, messages: Sequence[Given]) -> CellLife:
    """The life of a cell from its messages in a day, those that its room brings about and supervision messages.

    More messages never make it longer. Errors: ValueError with the name of a number that cannot be, or if nothing is taken
    and nothing is lost, for then no life follows.
    """
    capacity = positive(cell.capacity_mah.name, cell.capacity_mah.value)
    positive(cell.usable_percent.name, cell.usable_percent.value)
    usable = capacity * within(cell.usable_percent.name, cell.usable_percent.value, 0, 100) / 100
    loss = within(cell.loss_percent.name, cell.loss_percent.value, 0, 100) / 100
    sleep = not_negative(cell.sleep_ua.name, cell.sleep_ua.value) / 1000
    charge = not_negative(cell.message_mas.name, cell.message_mas.value)
    count = sum(not_negative(one.name, one.value) for one in messages)
    mean = sleep + count * charge / SECONDS_AN_HOUR / DAY_H
    taken = positive("charge that the cell gives or loses in a year", mean * HOURS_A_YEAR + loss * capacity)
    by_the_sum = usable / taken
    years = min(by_the_sum, LONGEST_YEARS)
    derated = "Derated" if usable < capacity else "Not derated"
    notes = (f"{derated}: {figure(cell.usable_percent.value, '%')} of the capacity is counted on. Lives worked out from average "
             f"currents were found unreliable: {AVERAGE.cited()}.", NOT_FOR_COLD)
    if by_the_sum > LONGEST_YEARS:
        notes += (f"By the sum it would last longer: {LONGEST.cited()}.",)
    inputs = (cell.capacity_mah, cell.usable_percent, cell.loss_percent, cell.sleep_ua, cell.message_mas, *messages,
              Given("messages in a day, all together", "N", count, "", WORKED_OUT), Given("mean current", "I", mean, "mA", WORKED_OUT))
    symbols = f"T = u / 100 × C / (I × 8766 + s / 100 × C), at most {digits(LONGEST_YEARS)}, I = I_s / 1000 + N × q / 3600 / 24"
    working = Working("Life of the cell", "capacity counted on / (mean current × hours of a year + share lost in a year × capacity)",
                      symbols, inputs, "T", years, "years", notes=notes, digits=2)
    return CellLife(years, by_the_sum, mean * DAY_H, working)
