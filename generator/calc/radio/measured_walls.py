"""What have layers been measured to take that dry slabs of the same material do not? For the bad day.

Concrete by frequency, a fresh and wet one; brick and wood at 2 GHz, taken as they are for the lower bands of alarms, since nothing
nearer was found. Source: NISTIR 6055 (1997), read second-hand. The way inside a layer is longer where it is met at an angle:
loss = loss met squarely / √(1 − sin² θ / ε′).
"""
import math
from collections.abc import Sequence

from generator.calc.bounds import positive, within
from generator.tables.radio_materials import MATERIALS, MEASURED_2_GHZ, WET_CONCRETE

NAMES = ("concrete", *MEASURED_2_GHZ)


def measured_db(material: str, thickness_mm: float, frequency_mhz: float, angle_deg: float = 0.0) -> float | None:
    """Loss in dB of one layer; None for a material that was not measured. Errors: ValueError for what is no thickness or angle."""
    if material not in NAMES:
        return None
    positive("thickness in mm", thickness_mm)
    within("angle of incidence in degrees", angle_deg, 0, 89.9)
    squarely = _concrete(frequency_mhz) * thickness_mm if material == "concrete" else _by_thickness(MEASURED_2_GHZ[material], thickness_mm)
    sine = math.sin(math.radians(angle_deg)) / math.sqrt(MATERIALS[material].a)
    return squarely / math.sqrt(1 - sine ** 2)


def _concrete(frequency_mhz: float) -> float:
    """dB for a mm; below and above what was measured, that of the nearest end."""
    ghz = positive("frequency in MHz", frequency_mhz) / 1000
    return _between(WET_CONCRETE, min(max(ghz, WET_CONCRETE[0][0]), WET_CONCRETE[-1][0]))


def _by_thickness(points: Sequence[tuple[float, float]], at: float) -> float:
    """Up to the thinnest sample in proportion; beyond the thickest as between the last two."""
    return _between(((0.0, 0.0), *points), at)


def _between(points: Sequence[tuple[float, float]], at: float) -> float:
    low, high = next((pair for pair in zip(points, points[1:]) if at <= pair[1][0]), points[-2:])
    return low[1] + (high[1] - low[1]) * (at - low[0]) / (high[0] - low[0])
