"""Wired runs: a cable from the control unit and what hangs on it."""
from typing import Annotated

from generator.model.entry import Entry
from generator.model.fields import Decimal, Name, Whole, choice, of_length, within


class CableLoad(Entry):
    """A unit that is fed by a run."""

    unit: Name
    """The unit, by its name under devices."""
    at_m: Annotated[Decimal, within(0.1, 500)]
    """Length of cable from the control unit to it."""


class Cable(Entry):
    """One run of cable that feeds one unit or several, one after the other. Write size_mm2 or awg."""

    size_mm2: Annotated[Decimal, within(0.05, 16)] | None = None
    """Cross-section of one conductor in square millimetres, for a metric cable."""
    awg: Annotated[Whole, within(6, 30)] | None = None
    """American wire gauge of one conductor, for a cable sold by gauge."""
    build: choice("solid", "stranded", "flexible")
    """How its conductor is built."""
    warmest_c: Annotated[Decimal, within(-40, 90)] | None = None
    """Highest temperature of the conductor; leave out for 20 °C."""
    loads: Annotated[list[CableLoad], of_length(1, 20, "one unit or more, each with its length of cable")]
    """What it feeds, the nearest first."""
