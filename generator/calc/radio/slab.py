"""What does a wall take from a signal that passes straight through it?

ITU-R P.2040: each layer has a complex permittivity by its frequency, waves go to and fro between the faces of all layers, and
what comes out on the far side is what is left. Worked out by the transfer matrix of the whole stack, for both polarisations;
nobody knows how a unit on a wall is turned to the receiver, so the *powers* that pass in both are averaged.

ε′ = a × f^b, σ = c × f^d, η = ε′ − j 17.98 × σ / f; loss = −10 log((T_TE + T_TM) / 2).

A slab of one material has resonances: a thicker one can take less.
"""
import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from generator.calc.bounds import positive, within
from generator.tables.radio_materials import LIGHT_MPS, LOSS_FACTOR, Material


@dataclass(frozen=True)
class Slice:
    """One layer of a wall: its complex permittivity η = η' − jη'' and its thickness."""

    permittivity: complex
    thickness_m: float

    def __post_init__(self) -> None:
        positive("thickness of a layer in m", self.thickness_m)
        if not (cmath.isfinite(self.permittivity) and self.permittivity.real > 0 and self.permittivity.imag <= 0):
            raise ValueError("the permittivity of a layer is no permittivity.")


def conductivity(material: Material, frequency_mhz: float) -> float:
    """σ in S/m."""
    return material.c * _ghz(frequency_mhz) ** material.d


@lru_cache(maxsize=256)
def permittivity(material: Material, frequency_mhz: float) -> complex:
    """η = a f^b − j 17.98 σ / f, f in GHz. Errors: ValueError for what is no frequency."""
    ghz = _ghz(frequency_mhz)
    return complex(material.a * ghz ** material.b, -LOSS_FACTOR * conductivity(material, frequency_mhz) / ghz)


def in_range(material: Material, frequency_mhz: float) -> bool:
    """Whether the table gives the material for that frequency; else its figures are extrapolated."""
    return material.from_ghz <= _ghz(frequency_mhz) <= material.to_ghz


def losses_db(layers: Sequence[Slice], frequency_mhz: float, angle_deg: float = 0.0) -> tuple[float, float]:
    """Loss in dB of a stack with air on both sides, the field across the plane of incidence (TE) and in it (TM).

    The angle is that between the way and the wall's normal. Errors: ValueError for what is no frequency or angle.
    """
    within("angle of incidence in degrees", angle_deg, 0, 89.9)
    wave = 2 * math.pi * _ghz(frequency_mhz) * 1e9 / LIGHT_MPS
    sine2, cosine = math.sin(math.radians(angle_deg)) ** 2, math.cos(math.radians(angle_deg))
    return (_stack(layers, wave, sine2, cosine, False), _stack(layers, wave, sine2, cosine, True))


def loss_db(layers: Sequence[Slice], frequency_mhz: float, angle_deg: float = 0.0) -> float:
    """Loss in dB by the mean of the powers that pass in both polarisations."""
    less, more = sorted(losses_db(layers, frequency_mhz, angle_deg))
    return less - 10 * math.log10((1 + 10 ** ((less - more) / 10)) / 2)


def _ghz(frequency_mhz: float) -> float:
    return positive("frequency in MHz", frequency_mhz) / 1000


def _stack(layers: Sequence[Slice], wave: float, sine2: float, cosine: float, tm: bool) -> float:
    """The loss by the product of the layers' matrices. What a layer dampens is kept apart as a power of e: a metre of metal overflows."""
    one, two, three, four, damped = 1 + 0j, 0j, 0j, 1 + 0j, 0.0
    for layer in layers:
        root = cmath.sqrt(layer.permittivity - sine2)
        admittance = layer.permittivity / root if tm else root
        phase = wave * layer.thickness_m * root
        there, back = cmath.exp(1j * phase - abs(phase.imag)), cmath.exp(-1j * phase - abs(phase.imag))
        cos, sin = (there + back) / 2, (there - back) / 2
        damped += abs(phase.imag)
        one, two, three, four = (one * cos + two * sin * admittance, one * sin / admittance + two * cos,
                                 three * cos + four * sin * admittance, three * sin / admittance + four * cos)
    air = 1 / cosine if tm else cosine
    passed = abs(2 / (one + four + two * air + three / air))
    return 20 * damped / math.log(10) - 20 * math.log10(passed)
