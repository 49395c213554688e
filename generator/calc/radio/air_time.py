"""Are a unit's regular messages short and rare enough for its band, and is it weak enough?

Time on air counts over the worst period: messages at an even interval, of which as many fall into it as can. A repeater sends,
besides its own, one message for each message of every unit that is heard over it, each as long as its own are. What a unit
sends in alarm or when a door is opened is left aside: nobody can say beforehand how often that is.

Numbers are those of the sheets; the band's are the profile's (ERC/REC 70-03; 47 CFR 15.231 and 15.249).
"""
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from generator.calc.radio.bands import PERIOD, Band, bands_at, strictest
from generator.calc.radio.repeaters import ways
from generator.calc.unknown import Unknown
from generator.model.equipment import Sheet
from generator.model.papers import Papers
from generator.terms.show import amount, sentence_list

# What is carried and used by hand.
CARRIED = ("fob", "tag")


@dataclass(frozen=True)
class OnAir:
    """Time on air in the worst period, in s, and the most that the band allows there. `messages` fall into that period."""

    seconds: float
    most_s: float
    period_h: float
    messages: int
    limits: tuple[str, ...]

    @property
    def within(self) -> bool:
        """Whether it keeps the limit."""
        return self.seconds <= self.most_s


@dataclass(frozen=True)
class ByHand:
    """Nothing regular is sent: a unit that is carried, and sends when somebody uses it. There is no supervision to count."""


@dataclass(frozen=True)
class Radiated:
    """The power that the sheet gives and the most that the band allows, both dBm e.i.r.p."""

    power_dbm: float
    most_dbm: float
    limits: tuple[str, ...]

    @property
    def within(self) -> bool:
        """Whether it keeps the limit."""
        return self.power_dbm <= self.most_dbm


@dataclass(frozen=True)
class BandUse:
    """One transmitter in its band. `bands` are the profile's names of the bands it lies in: two where they touch, none if the
    profile has no band there."""

    unit: str
    frequency_mhz: float
    bands: tuple[str, ...]
    air: OnAir | ByHand | Unknown
    power: Radiated | Unknown


def band_uses(papers: Papers) -> tuple[BandUse, ...]:
    """Every unit that has a radio, the control unit first."""
    names = (papers.job.control_unit.id, *papers.job.devices)
    return tuple(_use(papers, name) for name in names if papers.sheet_of[name].radio)


def most_messages(interval_min: float, period_h: float) -> int:
    """The most messages at an even interval (min) that fall into a period (h); ValueError unless both are above zero.

    >>> most_messages(15, 1)
    4
    """
    for name, value in (("interval", interval_min), ("period", period_h)):
        if not value > 0:
            raise ValueError(f"{name} {value!r}: more than 0 is wanted")
    # As decimals: 0.1 min is exactly the tenth of a minute.
    return ceil(Fraction(str(period_h)) * 60 / Fraction(str(interval_min)))


def seconds_on_air(message_ms: float, messages: int) -> float:
    """Time on air (s) of so many messages of one length (ms): t = n × length / 1000; ValueError for a number below zero.

    >>> seconds_on_air(40, 4)
    0.16
    """
    for name, value in (("message_ms", message_ms), ("messages", messages)):
        if value < 0:
            raise ValueError(f"{name} {value!r}: 0 or more is wanted")
    return message_ms * messages / 1000


def longest_message_ms(air: OnAir) -> float:
    """The longest message (ms, rounded down to a tenth) with which as many keep the limit: length = limit / n."""
    return floor(air.most_s * 1000 / air.messages * 10) / 10


def least_interval_min(air: OnAir, message_ms: float) -> float | None:
    """The shortest even interval (min, rounded up to a tenth) at which messages of a length keep the limit; None if one is too many.

    The interval is the period / n, where n = limit / length, rounded down, is how many messages may fall into it.
    """
    most = floor(air.most_s * 1000 / message_ms)
    return ceil(air.period_h * 60 / most * 10) / 10 if most else None


def _use(papers: Papers, name: str) -> BandUse:
    radio = papers.sheet_of[name].radio
    bands = bands_at(papers.profile, radio.frequency_mhz)
    if not bands:
        none = Unknown(f"{amount(radio.frequency_mhz, 'MHz', 3)} lies in no band of the profile {papers.profile.name}")
        return BandUse(name, radio.frequency_mhz, (), none, none)
    return BandUse(name, radio.frequency_mhz, tuple(one.name for one in bands), _air(papers, name, bands), _power(papers, name, bands))


def _air(papers: Papers, name: str, bands: tuple[Band, ...]) -> OnAir | ByHand | Unknown:
    if papers.sheet_of[name].kind in CARRIED and papers.sheet_of[name].radio.supervision_min is None:
        return ByHand()
    allowed = strictest(one.air for one in bands)
    if allowed is None:
        return Unknown(f"the profile {papers.profile.name} limits no time on air in this band")
    if not allowed.period_h:
        return Unknown(f"the limit {PERIOD} is 0 h, and in no time nothing can be counted")
    radio = papers.sheet_of[name].radio
    heard = _heard_over(papers, name)
    lacking = [*([] if radio.message_ms is not None else [f"the sheet of {name} gives no message_ms"]),
               *(f"the sheet of {one} gives no supervision_min" for one in (name, *heard) if _interval(papers.sheet_of[one]) is None)]
    if lacking:
        return Unknown(sentence_list(lacking))
    count = sum(most_messages(_interval(papers.sheet_of[one]), allowed.period_h) for one in (name, *heard))
    return OnAir(seconds_on_air(radio.message_ms, count), allowed.value, allowed.period_h, count, allowed.limits)


def _power(papers: Papers, name: str, bands: tuple[Band, ...]) -> Radiated | Unknown:
    allowed = strictest(one.power for one in bands)
    if allowed is None:
        return Unknown(f"the profile {papers.profile.name} gives no power for this band")
    power_dbm = papers.sheet_of[name].radio.tx_power_dbm
    if power_dbm is None:
        return Unknown(f"the sheet of {name} gives no tx_power_dbm")
    return Radiated(power_dbm, allowed.value, allowed.limits)


def counted_units(papers: Papers, name: str) -> tuple[str, ...]:
    """The units whose regular messages a unit sends: its own, and those of units that are heard over it."""
    return (name, *_heard_over(papers, name))


def _heard_over(papers: Papers, name: str) -> tuple[str, ...]:
    """The units whose regular messages a repeater passes on; nobody for another unit. A unit that reports nothing regularly,
    such as a fob, passes none."""
    return tuple(_carried(papers, name))


def _carried(papers: Papers, name: str) -> Iterator[str]:
    for one, way in ways(papers.job.devices).items():
        if name in way and papers.sheet_of[one].radio and papers.sheet_of[one].kind not in CARRIED:
            yield one


def _interval(sheet: Sheet) -> float | None:
    return sheet.radio.supervision_min if sheet.radio else None
