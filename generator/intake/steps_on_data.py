"""What do the steps of a migration give as plain data? The second way to the same result, against which the edited text is held."""
from fractions import Fraction
from typing import Any

from generator.intake.migrations import Way


def rename(data: Any, way: Way, to: str) -> None:
    """Gives one key another name; the order stays."""
    group = at(data, way[:-1])
    pairs = [(to if key == way[-1] else key, value) for key, value in group.items()]
    group.clear()
    group.update(pairs)


def give(data: Any, way: Way, value: Any) -> None:
    """Puts another value at one place."""
    at(data, way[:-1])[way[-1]] = value


def take_out(data: Any, way: Way) -> None:
    """Takes one key out."""
    del at(data, way[:-1])[way[-1]]


def move(data: Any, way: Way, group: Way) -> None:
    """Puts one key at the end of another group, which is made if it is not there."""
    value = at(data, way[:-1]).pop(way[-1])
    target = data
    for name in group:
        target = target.setdefault(name, {}) if isinstance(target, dict) else target[name]
    target[way[-1]] = value


def times(value: Any, factor: Fraction) -> Any:
    """A number, or each of a list, times a factor, in digits; for what has no end of digits, nothing fits."""
    if isinstance(value, list):
        return [times(one, factor) for one in value]
    product = Fraction(value) * factor
    millionths = product * 10**6
    whole, rest = divmod(abs(millionths.numerator), 10**6)
    text = f"{whole}.{rest:06d}".rstrip("0").rstrip(".")
    return f"-{text}" if product < 0 else text


def same(one: Any, other: Any) -> bool:
    """Whether two data are equal, and so is the order of their keys."""
    if isinstance(one, dict) and isinstance(other, dict):
        return list(one) == list(other) and all(same(value, other[key]) for key, value in one.items())
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and all(map(same, one, other))
    return one == other


def at(data: Any, way: Way) -> Any:
    """What stands at a way that is there."""
    for name in way:
        data = data[name]
    return data
