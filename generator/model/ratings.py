"""What the plate and the papers of a unit say: radio, supply, climate, view, sound. Every number is the maker's, none is measured."""
from typing import Annotated

from generator.model.entry import Entry
from generator.model.fields import Decimal, Text, Whole, choice, within

ENVIRONMENTAL_CLASSES = ("I", "II", "III", "IV")


class SerialForm(Entry):
    """What a serial of this kind of unit looks like, so that a mistyped one shows."""

    least: Annotated[Whole, within(1, 40)]
    """Characters at least, blanks and hyphens not counted."""
    most: Annotated[Whole, within(1, 40)]
    """Characters at most, blanks and hyphens not counted."""
    alphabet: Text | None = None
    """Every character that can stand in it, in a row; leave out if any letter and digit can."""


class Radio(Entry):
    """How the unit sends and hears."""

    frequency_mhz: Annotated[Decimal, within(25, 6000)]
    """Middle of the band it uses."""
    tx_power_dbm: Annotated[Decimal, within(-60, 36)] | None = None
    """Power that it radiates with its own antenna (e.i.r.p.)."""
    sensitivity_dbm: Annotated[Decimal, within(-150, -30)] | None = None
    """Weakest signal that it still understands; leave out for a unit that only sends."""
    supervision_min: Annotated[Decimal, within(0.1, 1440)] | None = None
    """Time between two supervision messages."""
    message_ms: Annotated[Decimal, within(0.1, 60000)] | None = None
    """Time on air for one message, repeats of it counted."""


class Power(Entry):
    """What a unit lives on."""

    kind: choice("cell", "mains", "wired", "none")
    """`cell` for a primary cell, `mains` for a fixed supply with a battery behind it, `wired` for a supply from elsewhere, `none`
    for a tag, which lives on the reader's field."""
    cell: Text | None = None
    """Type of the primary cell or of the standby battery, as printed on it."""
    cells: Whole = 0
    """How many of them one unit takes."""
    capacity_mah: Annotated[Decimal, within(1, 200000)] | None = None
    """Capacity of all of them together at the voltage of the unit."""
    self_discharge_percent: Annotated[Decimal, within(0, 50)] | None = None
    """Share of its capacity that a cell loses in a year at 20 °C without any use."""
    sleep_ua: Annotated[Decimal, within(0, 100000)] | None = None
    """Current from the cell between messages."""
    message_mas: Annotated[Decimal, within(0, 100000)] | None = None
    """Charge from the cell for one message."""
    quiescent_ma: Annotated[Decimal, within(0, 10000)] | None = None
    """Current from the supply at rest."""
    alarm_ma: Annotated[Decimal, within(0, 20000)] | None = None
    """Current from the supply in alarm."""
    least_v: Annotated[Decimal, within(0.5, 250)] | None = None
    """Lowest voltage at which it still works."""
    standby_h: Annotated[Decimal, within(0, 1000)] | None = None
    """How long its own battery carries it when the supply fails."""


class Environment(Entry):
    """The climate it may stand in."""

    environmental_class: choice(*ENVIRONMENTAL_CLASSES) | None = None
    """Environmental class: I indoors and heated, II indoors, III outdoors but sheltered, IV outdoors."""
    least_c: Annotated[Decimal, within(-60, 40)] | None = None
    """Lowest temperature."""
    most_c: Annotated[Decimal, within(0, 100)] | None = None
    """Highest temperature."""


class Coverage(Entry):
    """What a detector takes in from its place."""

    range_m: Annotated[Decimal, within(0.1, 200)]
    """How far."""
    angle_deg: Annotated[Decimal, within(1, 360)] | None = None
    """How wide, from edge to edge; leave out for one that takes in all round."""
    down_from_deg: Annotated[Decimal, within(-90, 89)] | None = None
    """Upper edge of its view, down from the level, fitted as its papers say; less than 0 if it looks up."""
    down_to_deg: Annotated[Decimal, within(1, 90)] | None = None
    """Lower edge of its view, down from the level; 90 if it sees what is right below it."""
    animal_kg: Annotated[Decimal, within(0, 100)] | None = None
    """Mass of the heaviest animal that it lets pass, fitted as its papers say."""


class Sound(Entry):
    """How loud it is."""

    level_db: Annotated[Decimal, within(20, 140)]
    """A-weighted level straight in front of it."""
    at_m: Annotated[Decimal, within(0.1, 30)]
    """Distance at which that was measured: a level without it says nothing."""


class BatteryBox(Entry):
    """Room for the standby battery."""

    most_ah: Annotated[Decimal, within(0.1, 200)]
    """Largest battery that the charger and the box are made for."""
    size_mm: list[Annotated[Decimal, within(1, 1000)]] = []
    """Length, width and height that fit in."""


class Charger(Entry):
    """What fills the standby battery again."""

    current_ma: Annotated[Decimal, within(1, 20000)]
    """Current that is left for the battery while the unit rests."""
    least_v: Annotated[Decimal, within(1, 60)]
    """Lowest voltage at the battery's leads, battery not joined."""
    most_v: Annotated[Decimal, within(1, 60)]
    """Highest voltage there."""


class LinkScale(Entry):
    """How the unit itself shows the strength of a link."""

    unit: Text
    """What it counts in, in its own words, for example "bars" or "dB"."""
    most: Annotated[Whole, within(1, 200)]
    """The best that it can show."""
    passes: Annotated[Whole, within(1, 200)]
    """The least at which its papers call a link good."""
