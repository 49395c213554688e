"""What resistance has one core of a cable?

A section in mm² that IEC 60228 lists has the table's largest resistance; any other that of copper of that section, and
never less than the next larger section of the table. A gauge has the resistance of copper of its diameter.
"""
import math
from dataclasses import dataclass, replace
from typing import Literal

from generator.calc.bounds import within
from generator.calc.working import Given, Working, of_source
from generator.tables.cable import (
    ALPHA, CLASS_1_2, CLASS_5, COPPER, FLEXIBLE, GAUGE, GAUGE_FROM, GAUGE_MM, GAUGE_RATIO, GAUGE_STEPS, LAY, LAY_SOURCE, LEAST_GAUGE,
    MOST_GAUGE, RHO, SIZES_AWG, SIZES_MM2, SOLID_OR_STRANDED, TABLE_ALPHA, TABLE_ALPHA_SOURCE)
from generator.terms.show import digits, figure

LEAST_MM2, MOST_MM2 = 0.01, 1000.0
LEAST_C, MOST_C = -60.0, 120.0
TABLE_C = 20.0


@dataclass(frozen=True)
class Conductor:
    """One core of copper: its section in mm² or its gauge, and how it is made. `size_from` says where it was given."""

    size: float
    unit: Literal["mm²", "AWG"]
    make: Literal["solid", "stranded", "flexible"]
    size_from: str = ""

    def __post_init__(self) -> None:
        if self.unit not in ("mm²", "AWG"):
            raise ValueError(f"{self.unit} is no unit of a conductor; it must be mm² or AWG.")
        if self.make not in ("solid", "stranded", "flexible"):
            raise ValueError(f"a conductor is not {self.make}; it must be solid, stranded or flexible.")
        if self.unit == "mm²":
            within("section of the conductor in mm²", self.size, LEAST_MM2, MOST_MM2)
        else:
            within("gauge of the conductor", self.size, LEAST_GAUGE, MOST_GAUGE)
            if not float(self.size).is_integer():
                raise ValueError(f"gauge of the conductor is {self.size:g}; it must be a whole number.")

    def shown(self) -> str:
        """The size as it is printed on a cable: "0.5 mm²", "18 AWG"."""
        return figure(self.size, self.unit)


@dataclass(frozen=True)
class Resistance:
    """Resistance of one core in ohm per metre at a temperature, and how it was found."""

    conductor: Conductor
    at_c: float
    ohm_per_m: float
    working: Working


def resistance(conductor: Conductor, at_c: float, at_from: str) -> Resistance:
    """Resistance of one core at a temperature in °C of the copper itself; `at_from` says where that was given.

    Errors: ValueError for a temperature that no cable of a house has.
    """
    within("temperature of the cable in °C", at_c, LEAST_C, MOST_C)
    given = (Given("size of the conductor", "A" if conductor.unit == "mm²" else "n", conductor.size, conductor.unit, conductor.size_from),
             Given("temperature of the copper", "θ", at_c, "°C", at_from))
    listed = conductor.unit == "mm²" and conductor.size in _table(conductor)
    cold, used, words, symbols, notes = (_listed if listed else _section if conductor.unit == "mm²" else _gauge)(conductor)
    alpha = of_source("gain per °C", "α", *((TABLE_ALPHA, "1/°C", TABLE_ALPHA_SOURCE) if listed else (ALPHA, "1/°C", COPPER)))
    value = cold * (1 + alpha.value * (at_c - TABLE_C))
    working = Working("Resistance of one core", f"{words}, at its temperature", f"r = {symbols} × (1 + α × (θ − 20))", (*given, *used, alpha),
                      "r", value, "Ω/m", notes=notes)
    return Resistance(conductor, at_c, value, working)


def ladder(conductor: Conductor) -> tuple[Conductor, ...]:
    """The same make in every size that is to be had in that unit, the thinnest first."""
    return tuple(replace(conductor, size=float(size), size_from="sizes that are to be had (common practice)")
                 for size in (SIZES_MM2 if conductor.unit == "mm²" else SIZES_AWG))


def diameter_mm(gauge: float) -> float:
    """Diameter of a solid wire of an American gauge. ASTM B258."""
    return GAUGE_MM * GAUGE_RATIO ** ((GAUGE_FROM - gauge) / GAUGE_STEPS)


def _table(conductor: Conductor) -> dict[float, float]:
    return FLEXIBLE if conductor.make == "flexible" else SOLID_OR_STRANDED


def _listed(conductor: Conductor) -> tuple[float, tuple[Given, ...], str, str, tuple[str, ...]]:
    of = _table(conductor)[conductor.size]
    source = CLASS_5 if conductor.make == "flexible" else CLASS_1_2
    return (of / 1000, (of_source("largest resistance at 20 °C", "R₂₀", of, "Ω/km", source),), "largest resistance of the table",
            "R₂₀ / 1000", ())


def _section(conductor: Conductor) -> tuple[float, tuple[Given, ...], str, str, tuple[str, ...]]:
    value = RHO / conductor.size
    notes = ("The table does not hold this size: it is worked out from its printed section, without what tolerance and strands add.",)
    larger = min((size for size in _table(conductor) if size > conductor.size), default=None)
    if larger and (least := _table(conductor)[larger] / 1000) > value:
        source = CLASS_5 if conductor.make == "flexible" else CLASS_1_2
        used = (of_source(f"largest resistance at 20 °C of {figure(larger, 'mm²')}", "R₂₀", least * 1000, "Ω/km", source),)
        return least, used, "largest resistance of the next larger size in the table", "R₂₀ / 1000", notes
    return value, (_rho(),), "resistivity of copper / section", "ρ / A", notes


def _gauge(conductor: Conductor) -> tuple[float, tuple[Given, ...], str, str, tuple[str, ...]]:
    across = diameter_mm(conductor.size)
    value = RHO / (math.pi / 4 * across ** 2)
    used = (of_source("diameter of that gauge", "d", across, "mm", GAUGE), _rho())
    if conductor.make == "solid":
        return value, used, "resistivity of copper / section of that diameter", "ρ / (π / 4 × d²)", ()
    used = (*used, of_source("stranded to solid", "s", LAY, "", LAY_SOURCE))
    return (value * LAY, used, "resistivity of copper / section of that diameter × what strands add", "ρ / (π / 4 × d²) × s",
            (f"Strands are taken to add {digits((LAY - 1) * 100, 2)} %.",))


def _rho() -> Given:
    return of_source("resistivity of copper at 20 °C", "ρ", RHO, "Ω·mm²/m", COPPER)
