"""In which band of the profile does a frequency lie, and what may be sent there?

A band is a pair of limits, `band_NAME_from_mhz` and `band_NAME_to_mhz`. Beside them may stand its share of time on air
(`band_NAME_duty_percent`, over `duty_period_h`) and its power: `band_NAME_power_mw` (e.r.p., as ERC/REC 70-03 states it), or a
field at 3 m (47 CFR 15): `band_NAME_field_mvpm`, or `..._field_from_mvpm` and `..._field_to_mvpm`, which rises evenly in between.
`supervision_air_s`, the seconds in an hour for supervision, holds in the bands of which `band_NAME_supervision_yes` says so.
"""
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from generator.calc.radio.power_levels import eirp_of_erp_dbm, eirp_of_field_dbm
from generator.model.profile import Limit, Profile

BAND, FROM, TO = "band_", "_from_mhz", "_to_mhz"
PERIOD, SUPERVISION = "duty_period_h", "supervision_air_s"
LIMITS = (PERIOD, SUPERVISION)
# The hour of `supervision_air_s` is part of what that limit means.
HOUR = 1.0


@dataclass(frozen=True)
class Allowed:
    """The most that may be sent: `value` in s over `period_h`, or in dBm e.i.r.p.; `limits` are the profile's it comes from."""

    value: float
    limits: tuple[str, ...]
    period_h: float = 0.0


@dataclass(frozen=True)
class Band:
    """A band by its name in the profile, its edges, and what may be sent in it; None where the profile says
    nothing, or a power of nothing."""

    name: str
    from_mhz: float
    to_mhz: float
    air: Allowed | None
    power: Allowed | None


def bands_at(profile: Profile, frequency_mhz: float) -> tuple[Band, ...]:
    """The bands that hold a frequency, edges included, the lowest first; () if the profile has none there.

    ValueError for a frequency that is not above zero.
    """
    if not frequency_mhz > 0:
        raise ValueError(f"frequency {frequency_mhz!r} MHz: more than 0 is wanted")
    limits = profile.limits
    found = [(limits[name].value, limits[f"{stem}{TO}"].value, stem) for name, stem in _stems(limits)]
    return tuple(Band(stem.removeprefix(BAND), low, high, _air(limits, stem), _power(limits, stem, frequency_mhz))
                 for low, high, stem in sorted(found) if low <= frequency_mhz <= high)


def strictest(allowed: Iterable[Allowed | None]) -> Allowed | None:
    """Where bands touch, the least of what they allow, time on air as a share = seconds / period; None if none of them says anything."""
    return min((one for one in allowed if one), key=lambda one: one.value / (one.period_h or 1), default=None)


def _stems(limits: Mapping[str, Limit]) -> Iterator[tuple[str, str]]:
    for name in limits:
        stem = name.removesuffix(FROM)
        if name.startswith(BAND) and name.endswith(FROM) and f"{stem}{TO}" in limits:
            yield name, stem


def _air(limits: Mapping[str, Limit], stem: str) -> Allowed | None:
    duty = f"{stem}_duty_percent"
    if duty in limits and PERIOD in limits:
        period = limits[PERIOD].value
        return Allowed(period * 3600 * limits[duty].value / 100, (duty, PERIOD), period)
    holds = f"{stem}_supervision_yes"
    if SUPERVISION in limits and holds in limits and limits[holds].value:
        return Allowed(limits[SUPERVISION].value, (SUPERVISION, holds), HOUR)
    return None


def _power(limits: Mapping[str, Limit], stem: str, frequency_mhz: float) -> Allowed | None:
    power, field = f"{stem}_power_mw", f"{stem}_field_mvpm"
    rising = (f"{stem}_field_from_mvpm", f"{stem}_field_to_mvpm")
    if power in limits and limits[power].value:
        return Allowed(eirp_of_erp_dbm(limits[power].value), (power,))
    if field in limits and limits[field].value:
        return Allowed(eirp_of_field_dbm(limits[field].value), (field,))
    if all(name in limits for name in rising):
        low, high = limits[f"{stem}{FROM}"].value, limits[f"{stem}{TO}"].value
        share = (frequency_mhz - low) / (high - low) if high > low else 0
        least, most = (limits[name].value for name in rising)
        field_mvpm = least + share * (most - least)
        return Allowed(eirp_of_field_dbm(field_mvpm), rising) if field_mvpm else None
    return None
