"""What is left of the supply's voltage at each wired load?

Worked out for the worst moment: the battery at the end of its discharge, every load in alarm. Two cores carry the current,
there and back. A load is taken to draw the current on its plate at any voltage.
"""
from collections.abc import Sequence
from dataclasses import dataclass

from generator.calc.bounds import positive, within
from generator.calc.power.conductor import Conductor, Resistance, ladder, resistance
from generator.calc.working import Given, Working, worked_out
from generator.tables.cable import LONGEST_RUN_M


@dataclass(frozen=True)
class Tap:
    """A load on a run: how far along the cable from the supply, the most it draws, and the least voltage it works at.

    Each number names where it was given; `least_v` is None if the sheet does not say it.
    """

    name: str
    at_m: Given
    current_ma: Given
    least_v: Given | None = None

    def __post_init__(self) -> None:
        for one in (self.at_m, self.current_ma, *((self.least_v,) if self.least_v else ())):
            positive(f"{one.name} of {self.name}", one.value)
        within(f"{self.at_m.name} of {self.name} in m", self.at_m.value, 0, LONGEST_RUN_M)


@dataclass(frozen=True)
class Point:
    """The voltage at one load.

    `longest_m` is how far along it could stand, the whole run stretched alike; at most 1000 m, beyond which nobody asks. It
    and `spare_v` are None if the load's least voltage is not known.
    """

    tap: Tap
    drop_v: float
    voltage_v: float
    spare_v: float | None
    longest_m: float | None
    working: Working


@dataclass(frozen=True)
class Run:
    """A cable from the supply along its loads, the nearest first; voltage falls in straight lines from point to point."""

    resistance: Resistance
    supply_v: Given
    points: tuple[Point, ...]

    @property
    def holds(self) -> bool | None:
        """Whether each load that says its least voltage has it; None if none says it."""
        answers = [one.working.holds() for one in self.points if one.tap.least_v]
        return all(answers) if answers else None


def run(conductor: Resistance, taps: Sequence[Tap], supply_v: Given) -> Run:
    """The voltages along a run of two cores. Errors: ValueError if there is no load, or with the name of a number."""
    positive(supply_v.name, supply_v.value)
    if not taps:
        raise ValueError("a run of cable without a load has no drop.")
    in_order = sorted(taps, key=lambda one: one.at_m.value)
    points, drop, before = [], 0.0, 0.0
    sections: list[Given] = []
    for index, tap in enumerate(in_order):
        beyond = sum(one.current_ma.value for one in in_order[index:]) / 1000
        length = tap.at_m.value - before
        drop += 2 * length * conductor.ohm_per_m * beyond
        sections += [Given(f"length of section {index + 1}, to {tap.name}", f"L{index + 1}", length, "m", tap.at_m.origin),
                     Given(f"current in section {index + 1}", f"I{index + 1}", beyond, "A", "the loads from there on, in alarm together")]
        points.append(_point(conductor, tap, supply_v, drop, tuple(sections)))
        before = tap.at_m.value
    return Run(conductor, supply_v, tuple(points))


def smallest(conductor: Conductor, at_c: float, at_from: str, taps: Sequence[Tap], supply_v: Given) -> Run | None:
    """The run in the thinnest size of the same make at which every load has its least voltage; None if none is enough.

    None too if no load says its least voltage: then there is nothing to pass.
    """
    tried = (run(resistance(size, at_c, at_from), taps, supply_v) for size in ladder(conductor))
    return next((one for one in tried if one.holds), None)


def _point(conductor: Resistance, tap: Tap, supply_v: Given, drop: float, sections: tuple[Given, ...]) -> Point:
    lost = min(drop, supply_v.value)
    left, least = supply_v.value - lost, tap.least_v.value if tap.least_v else None
    longest = None if least is None else min(LONGEST_RUN_M, max(0.0, supply_v.value - least) / drop * tap.at_m.value)
    notes = ("The current on the plate is taken to be drawn at any voltage.",)
    if drop >= supply_v.value:
        notes += ("The cable cannot carry this current: nothing would be left at the load.",)
    if tap.least_v is None:
        notes += ("Not held against a least voltage, because the load's sheet does not say it.",)
    sums = " + ".join(f"L{index} × I{index}" for index in range(1, len(sections) // 2 + 1))
    working = Working(f"Voltage at {tap.name}", "supply − 2 cores × resistance of one core × (length × current of each section, added up)",
                      f"V = V₀ − 2 × r × ({sums})", (supply_v, worked_out(conductor.working), *sections), "V", left, "V",
                      tap.least_v, "least" if tap.least_v else "", notes)
    return Point(tap, lost, left, None if least is None else left - least, longest, working)
