"""What is a radiated power in dBm (e.i.r.p.), as sheets give it?

Plain arithmetic: P_dBm = 10 × log10(P / 1 mW). A half-wave dipole gains 2.15 dB over a radiator that sends alike in all directions
(from memory), so that e.i.r.p. = e.r.p. + 2.15 dB.
"""
from math import log10

from generator.tables.antennas import DIPOLE_DB, FIELD_AT_M, FIELD_OHM


def dbm(power_mw: float) -> float:
    """A power in dBm; ValueError for one that is not above zero.

    >>> dbm(10)
    10.0
    """
    if not power_mw > 0:
        raise ValueError(f"power {power_mw!r} mW: more than 0 is wanted")
    return 10 * log10(power_mw)


def eirp_of_erp_dbm(power_mw: float) -> float:
    """A power stated against a half-wave dipole (mW, e.r.p.) in dBm e.i.r.p.: 25 mW is 16.13 dBm."""
    return dbm(power_mw) + DIPOLE_DB


def eirp_of_field_dbm(field_mvpm: float, at_m: float = FIELD_AT_M) -> float:
    """The power (dBm, e.i.r.p.) that makes a field (mV/m) at a distance (m) in free space: P = (E d)² / 30.

    Recommendation ITU-R P.525 (from memory). ValueError for a field or a distance that is not above zero.
    """
    if not at_m > 0:
        raise ValueError(f"distance {at_m!r} m: more than 0 is wanted")
    if not field_mvpm > 0:
        raise ValueError(f"field {field_mvpm!r} mV/m: more than 0 is wanted")
    return dbm((field_mvpm * 1e-3 * at_m) ** 2 / FIELD_OHM * 1e3)
