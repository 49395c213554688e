"""How building materials hinder radio: permittivity and conductivity by frequency, and what was measured on real walls."""
from dataclasses import dataclass

from generator.terms.source import Known, Source


@dataclass(frozen=True)
class Material:
    """One row of ITU-R P.2040, Table 3: ε' = a f^b, σ = c f^d in S/m, f in GHz, and the range that it was given for."""

    a: float
    b: float
    c: float
    d: float
    from_ghz: float
    to_ghz: float


MATERIALS = {
    "air": Material(1.0, 0.0, 0.0, 0.0, 0.001, 100.0),
    "brick": Material(3.91, 0.0, 0.0238, 0.16, 1.0, 40.0),
    "ceiling-board": Material(1.48, 0.0, 0.0011, 1.0750, 1.0, 100.0),
    "chipboard": Material(2.58, 0.0, 0.0217, 0.78, 1.0, 100.0),
    "concrete": Material(5.24, 0.0, 0.0462, 0.7822, 1.0, 100.0),
    "floorboard": Material(3.66, 0.0, 0.0044, 1.3515, 50.0, 100.0),
    "glass": Material(6.31, 0.0, 0.0036, 1.3394, 0.1, 100.0),
    "marble": Material(7.074, 0.0, 0.0055, 0.9262, 1.0, 60.0),
    "metal": Material(1.0, 0.0, 1e7, 0.0, 1.0, 100.0),
    "plasterboard": Material(2.73, 0.0, 0.0085, 0.9395, 1.0, 100.0),
    "plywood": Material(2.71, 0.0, 0.33, 0.0, 1.0, 40.0),
    "wood": Material(1.99, 0.0, 0.0047, 1.0718, 0.001, 100.0),
}
P2040 = Source("Recommendation ITU-R P.2040, Table 3", "P.2040-4 (09/2025)", Known.SECOND_HAND, "the table of an open-source ray-tracing library")
SLAB = Source("Recommendation ITU-R P.2040, 2.2.2, slabs with reflections inside", "P.2040-3 (08/2023)", Known.SECOND_HAND,
              "two independent open-source programs")
# η'' = 17.98 σ / f, the Recommendation's rounding of 1 / (2π ε₀) for σ in S/m and f in GHz.
LOSS_FACTOR = 17.98
# Metres a second, exact by definition of the metre.
LIGHT_MPS = 299_792_458.0

P525 = Source("Recommendation ITU-R P.525, free space between isotropic antennas", "P.525-4", Known.SECOND_HAND,
              "the source of an open propagation library of a research centre")
# Nearer than this no antenna of an alarm is small against the distance. Common practice, no source.
NEAREST_M = 0.1
# A way that runs along a wall meets no slab: beyond this angle what arrives has come another way. Common practice, no source.
GRAZING_DEG = 80.0

# What concrete took, dB for a mm of thickness, by frequency in GHz; the samples were fairly new and wet.
WET_CONCRETE = ((0.5, 0.106), (1.0, 0.133), (1.5, 0.160), (2.0, 0.185), (2.5, 0.210), (3.0, 0.230), (4.0, 0.255), (5.0, 0.264), (5.5, 0.265))
# What samples of one material took at 2 GHz: thickness in mm, dB. Nothing nearer to the bands of alarms was found readable.
MEASURED_2_GHZ = {
    "brick": ((90.4, 5.4), (178.0, 7.6)),
    "wood": ((36.95, 3.3), (75.42, 4.8)),
}
MEASURED = Source("NISTIR 6055, electromagnetic signal attenuation in construction materials", "1997", Known.SECOND_HAND,
                  "tables in two open-source radio planning programs")

# Foil is no thicker; what is thicker is sheet. EN 546, from memory.
FOIL_UP_TO_MM = 0.2
