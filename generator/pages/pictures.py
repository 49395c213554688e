"""What the pictures of batteries, cables, cells and links show. Numbers only: where a line is drawn is for who draws it.

Beside each picture stands the same in words, and each mark bears its own words: nothing is said by colour alone.
"""
from dataclasses import dataclass


@dataclass(frozen=True)
class Bar:
    """One bar: its words, its value, and its kind for the pattern: need, fitted or stock."""

    text: str
    value: float
    kind: str


@dataclass(frozen=True)
class BarsPicture:
    """Bars against a mark that they must reach. `says` tells the picture in a sentence."""

    says: str
    bars: tuple[Bar, ...]
    mark: float


@dataclass(frozen=True)
class Spot:
    """A load on a run: its name, its numbers in words, how far along, its voltage, and the least that it needs, if known."""

    unit: str
    text: str
    at: float
    voltage: float
    least: float | None
    least_text: str


@dataclass(frozen=True)
class RunPicture:
    """Voltage along a cable. `start` is the supply's voltage, `lowest` the foot of the scale."""

    says: str
    start: float
    start_text: str
    lowest: float
    spots: tuple[Spot, ...]


@dataclass(frozen=True)
class LifeBar:
    """The life of one unit's cells in days from fitting, and the day of the visit that changes them; None if none does."""

    unit: str
    days: int
    visit: int | None
    text: str


@dataclass(frozen=True)
class Year:
    """A mark of the time line."""

    day: int
    text: str


@dataclass(frozen=True)
class LifePicture:
    """Lives of cells on a line of `days` days, with the visits."""

    says: str
    days: int
    years: tuple[Year, ...]
    visits: tuple[int, ...]
    bars: tuple[LifeBar, ...]


@dataclass(frozen=True)
class MarginBar:
    """The margin of one unit's link in dB, the margin that is wanted, and whether it is short of it."""

    text: str
    margin: float
    wanted: float
    short: bool


@dataclass(frozen=True)
class MarginPicture:
    """Margins one under the other, the one with the least reserve first. `says` tells the picture in a sentence."""

    says: str
    bars: tuple[MarginBar, ...]


@dataclass(frozen=True)
class LossPart:
    """One part of what a link loses: its kind (free, wall, floor, metal, people, shadowing), its letter in the picture, and its dB."""

    kind: str
    letter: str
    loss: float


@dataclass(frozen=True)
class LossBar:
    """What a link loses on its worse day, part by part, and the most that it may lose, all in dB."""

    text: str
    parts: tuple[LossPart, ...]
    most: float


@dataclass(frozen=True)
class LossPicture:
    """Losses one under the other. `says` tells the picture in words, link by link."""

    says: str
    bars: tuple[LossBar, ...]
