"""What would models say that know a house by its distance alone? ITU-R P.1238, both of its forms.

No residential row exists near 868 MHz, so the first form is given with the two that bound it. They stand beside the estimate for
comparison; no margin is judged by them.
"""
import math

from generator.calc.bounds import within
from generator.calc.working import Given, Working, of_source
from generator.tables.indoor_loss import (HARSH_FLOORS_DB, HARSH_N, MILD_FLOOR_DB, MILD_N, OFFICE_ALPHA, OFFICE_BETA, OFFICE_GAMMA, P1238_N,
                                          P1238_SITE, WHOLE_PATH_DB)

# Beyond these the models were not made for.
NEAREST_M, FARTHEST_M = 1.0, 1000.0


def whole_path_db(distance_m: float, frequency_mhz: float, exponent: float, floors_db: float) -> float:
    """20 log f + N log d + floors − 28, f in MHz, d in m. Errors: ValueError below one metre."""
    within("distance in m", distance_m, NEAREST_M, FARTHEST_M)
    return 20 * math.log10(frequency_mhz) + exponent * math.log10(distance_m) + floors_db - WHOLE_PATH_DB


def site_general_db(distance_m: float, frequency_mhz: float) -> float:
    """10 α log d + β + 10 γ log f, f in GHz, office out of sight. Errors: ValueError below one metre."""
    within("distance in m", distance_m, NEAREST_M, FARTHEST_M)
    return 10 * OFFICE_ALPHA * math.log10(distance_m) + OFFICE_BETA + 10 * OFFICE_GAMMA * math.log10(frequency_mhz / 1000)


def mild(distance: Given, frequency: Given, floors: int) -> Working:
    """The lower bound: homes at 1.8 to 2 GHz."""
    return _whole_path("the milder bound", distance, frequency, MILD_N, MILD_FLOOR_DB * floors, floors, ("The row for homes at 1.8 to 2 GHz.",))


def harsh(distance: Given, frequency: Given, floors: int) -> Working:
    """The upper bound: offices at 900 MHz; the table ends at three floors."""
    last = len(HARSH_FLOORS_DB) - 1
    notes = ("The row for offices at 900 MHz.", *([f"The table ends at {last} floors; that figure is taken."] if floors > last else []))
    return _whole_path("the harsher bound", distance, frequency, HARSH_N, HARSH_FLOORS_DB[min(floors, last)], floors, notes)


def _whole_path(which: str, distance: Given, frequency: Given, exponent: float, floors_db: float, floors: int, notes: tuple[str, ...]) -> Working:
    loss = whole_path_db(distance.value, frequency.value, exponent, floors_db)
    return Working(f"By distance and floors alone, {which}", "a model that sees no wall of this house", "L = 20 log f + N × log d + F − 28",
                   (frequency, distance, of_source("distance power loss coefficient", "N", exponent, "", P1238_N),
                    of_source(f"floors in between, {floors}", "F", floors_db, "dB", P1238_N)), "L", loss, "dB",
                   notes=(*notes, "No figure for homes exists near 868 MHz. Timber floors are left out."))


def site_general(distance: Given, frequency: Given) -> Working:
    """The newer form, office out of sight."""
    loss = site_general_db(distance.value, frequency.value)
    factors = tuple(of_source(name, symbol, value, "", P1238_SITE) for name, symbol, value in (
        ("distance factor", "α", OFFICE_ALPHA), ("loss at one metre and one gigahertz", "β", OFFICE_BETA), ("frequency factor", "γ", OFFICE_GAMMA)))
    return Working("By distance alone, office out of sight", "a model that sees no wall of this house", "L = 10 α log d + β + 10 γ log(f / 1000)",
                   (distance, frequency, *factors), "L", loss, "dB", notes=("There is no row for homes.",))
