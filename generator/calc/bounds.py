"""May a number go into a calculation? What may not is refused by its name, so that no figure is made of nonsense.

Files are bounded where they are read; these bounds are for whoever calls a calculation with anything else.
"""
import math

# No quantity of a house comes near these, in any unit that is used here; inside them nothing overflows.
SMALLEST, LARGEST = 1e-9, 1e9
# Two numbers that differ by less are the same number, worked out in another order.
NEAR = 1e-9


def positive(name: str, value: float) -> float:
    """The value, if it is a number above zero. Errors: ValueError with the name of the quantity."""
    if _number(name, value) <= 0:
        raise ValueError(f"{name} is {value:g}; it must be more than zero.")
    return _possible(name, value)


def not_negative(name: str, value: float) -> float:
    """The value, if it is zero or a number above it. Errors: ValueError with the name of the quantity."""
    if _number(name, value) < 0:
        raise ValueError(f"{name} is {value:g}; it cannot be less than zero.")
    return _possible(name, value) if value else 0.0


def within(name: str, value: float, least: float, most: float) -> float:
    """The value, if it lies between both ends or on one. Errors: ValueError with the name of the quantity."""
    if not least <= _number(name, value) <= most:
        raise ValueError(f"{name} is {value:g}; it must be {least:g} to {most:g}.")
    return float(value)


def reaches(value: float, least: float) -> bool:
    """Whether a value is at least another; one that misses it by no more than the last digits of a calculation is."""
    return value >= least or math.isclose(value, least, rel_tol=NEAR)


def _number(name: str, value: float) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise ValueError(f"{name} is no number.")
    if not math.isfinite(value):
        raise ValueError(f"{name} is no finite number.")
    return value


def _possible(name: str, value: float) -> float:
    if not SMALLEST <= value <= LARGEST:
        raise ValueError(f"{name} is {value:g}; no house holds that.")
    return float(value)
