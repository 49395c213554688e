"""How much more battery does the cold ask for?

Between the temperatures for which the profile has a factor it is interpolated; for what is colder than all of them the
published polynomial is used, which agrees with the table within 0.01 where both speak. Warmth is never credited: a
battery gives a little more then, and dies sooner.
"""
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import accumulate, pairwise

from generator.calc.bounds import within
from generator.calc.working import Given, Working, of_limit, of_source
from generator.model.profile import Profile
from generator.tables.lead_acid import BASE_C, COLD_AT_C, COLDER, COLDER_SOURCE, TABLE_FROM_C
from generator.terms.show import digits, figure

LEAST_C, MOST_C = -90.0, 150.0


@dataclass(frozen=True)
class ColdPoint:
    """A published factor and the temperature that it is for."""

    at_c: float
    factor: Given


@dataclass(frozen=True)
class Cold:
    """The factor on a battery's capacity for a place's lowest temperature; `how` says which way it was found."""

    at_c: float
    factor: float
    how: str
    working: Working


def cold_points(profile: Profile) -> tuple[ColdPoint, ...]:
    """The factors that a profile gives, the coldest first."""
    found = ((at, of_limit(profile, key, "K")) for key, at in COLD_AT_C.items())
    return tuple(sorted((ColdPoint(at, factor) for at, factor in found if factor), key=lambda one: one.at_c))


def cold_factor(at_c: float, points: Iterable[ColdPoint], origin: str) -> Cold:
    """The factor at a temperature in °C, 1 at 25 °C and above; what is colder never has the smaller one.

    `origin` says where the temperature was given. Errors: ValueError for what is no temperature.
    """
    within("temperature at the battery", at_c, LEAST_C, MOST_C)
    asked = Given("lowest temperature at the battery", "θ", at_c, "°C", origin)
    known = _falling(points)
    if at_c >= BASE_C:
        note = f"At {figure(BASE_C, '°C')} and above nothing is added; that warmth gives a little more is not counted."
        return _cold(asked, 1.0, "none", (), (note,))
    if known and at_c >= known[0][0]:
        (low, high), used = _between(at_c, known)
        factor = low[1] + (high[1] - low[1]) * (at_c - low[0]) / (high[0] - low[0])
        return _cold(asked, factor, "interpolated", used, ("Interpolated between the profile's factors on both sides.",))
    by_polynomial = _polynomial(at_c)
    note = "By the polynomial, since the profile has no factor for what is so cold."
    notes = (note, f"Extrapolated: the published table ends at {figure(TABLE_FROM_C, '°C')}.") if at_c < TABLE_FROM_C else (note,)
    factor = max(by_polynomial, known[0][1]) if known else by_polynomial
    constant = of_source("polynomial at that temperature", "K", by_polynomial, "", COLDER_SOURCE)
    return _cold(asked, factor, "polynomial", (constant,), notes)


def _falling(points: Iterable[ColdPoint]) -> list[tuple[float, float, Given]]:
    """Temperature, factor and origin, the coldest first; a factor is never below that of a warmer point."""
    warmest_first = sorted(points, key=lambda one: -one.at_c)
    factors = accumulate((one.factor.value for one in warmest_first), max, initial=1.0)
    next(factors)
    return [(one.at_c, factor, one.factor) for one, factor in zip(warmest_first, factors)][::-1]


def _between(at_c: float, known: list[tuple[float, float, Given]]) -> tuple[tuple[tuple[float, float], ...], tuple[Given, ...]]:
    """The two points on both sides of a temperature, and the published factors among them."""
    ends = [(*one[:2], (one[2],)) for one in known] + [(BASE_C, 1.0, ())]
    low, high = next((low, high) for low, high in pairwise(ends) if low[0] <= at_c <= high[0])
    return (low[:2], high[:2]), (*low[2], *high[2])


def _polynomial(at_c: float) -> float:
    value = 0.0
    for coefficient in COLDER:
        value = value * at_c / 100 + coefficient
    return max(value, 1.0)


def _written() -> str:
    """The polynomial in symbols."""
    terms = (f"{digits(factor, 5)}{power}" for factor, power in zip(COLDER, (" x³", " x²", " x", "")))
    return " + ".join(terms).replace("+ -", "− ").replace("-", "−")


def _cold(asked: Given, factor: float, how: str, used: tuple[Given, ...], notes: tuple[str, ...]) -> Cold:
    symbols = {"none": "K = 1", "interpolated": "K = K₁ + (K₂ − K₁) × (θ − θ₁) / (θ₂ − θ₁)",
               "polynomial": f"K = {_written()}, x = θ / 100"}[how]
    working = Working("Factor for cold", "the factor that the table of capacity and temperature gives", symbols, (asked, *used),
                      "K", factor, "", notes=notes)
    return Cold(asked.value, factor, how, working)
