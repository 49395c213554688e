"""How much more battery does the cold ask for?

Between the temperatures for which the profile has a factor it is interpolated; for what is colder than all of them the
published polynomial is used, which agrees with the table within 0.01 where both speak. Warmth is never credited: a
battery gives a little more then, and dies sooner.
"""
from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import accumulate, pairwise

from generator.calc.bounds import within
from generator.calc.working import Given, Working, of_limit, of_source
from generator.model.profile import Profile
from generator.tables.lead_acid import BASE_C, COLD_AT_C, COLDER, COLDER_SOURCE, RATED, TABLE_FROM_C
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
    coldest = known[0] if len(known) > 1 else None
    if at_c >= BASE_C:
        note = f"At {figure(BASE_C, '°C')} and above nothing is added; that warmth gives a little more is not counted."
        return _cold(asked, 1.0, "none", (), (note,))
    if coldest and at_c >= coldest.at_c:
        low, high = _between(at_c, known)
        factor = low.factor.value + (high.factor.value - low.factor.value) * (at_c - low.at_c) / (high.at_c - low.at_c)
        return _cold(asked, factor, "interpolated", (*_end("colder", "₁", low), *_end("warmer", "₂", high)),
                     ("Interpolated between the factors on both sides.",))
    by_polynomial = _polynomial(at_c)
    note = "By the polynomial, since the profile has no factor for what is so cold."
    notes = (note, f"Extrapolated: the published table ends at {figure(TABLE_FROM_C, '°C')}.") if at_c < TABLE_FROM_C else (note,)
    constant = of_source("polynomial at that temperature", "K", by_polynomial, "", COLDER_SOURCE)
    if coldest and coldest.factor.value > by_polynomial:
        return _cold(asked, coldest.factor.value, "coldest", (constant, coldest.factor), notes)
    return _cold(asked, by_polynomial, "polynomial", (constant,), notes)


def _falling(points: Iterable[ColdPoint]) -> list[ColdPoint]:
    """The points, the coldest first, up to 25 °C; a factor is never below that of a warmer point."""
    base = of_source("factor at the temperature of the rating", "K", 1.0, "", RATED)
    warmest_first = sorted((one for one in points if one.at_c < BASE_C), key=lambda one: -one.at_c)
    factors = accumulate((one.factor for one in warmest_first), lambda one, other: max(one, other, key=lambda each: each.value), initial=base)
    at = [BASE_C, *(one.at_c for one in warmest_first)]
    return [ColdPoint(*one) for one in zip(at, factors)][::-1]


def _between(at_c: float, known: list[ColdPoint]) -> tuple[ColdPoint, ColdPoint]:
    """The two points on both sides of a temperature."""
    return next((low, high) for low, high in pairwise(known) if low.at_c <= at_c <= high.at_c)


def _end(side: str, index: str, point: ColdPoint) -> tuple[Given, Given]:
    """A point as two numbers of the working."""
    return (Given(f"next {side} temperature with a factor", f"θ{index}", point.at_c, "°C", point.factor.origin, point.factor.known),
            replace(point.factor, symbol=f"K{index}"))


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
               "coldest": "K = that of the profile's coldest factor, since the polynomial gives less",
               "polynomial": f"K = {_written()}, x = θ / 100"}[how]
    working = Working("Factor for cold", "the factor that the table of capacity and temperature gives", symbols, (asked, *used),
                      "K", factor, "", notes=notes)
    return Cold(asked.value, factor, how, working)
