"""What a limit's number and unit can be, and which limits must not contradict each other."""
from collections.abc import Iterator, Mapping

from generator.model.profile import Limit

YES_NO = "yes or no"
# The unit that a limit's name ends in, and how the unit may be written. The longest ending wins.
UNITS = {
    "_s": ("s",), "_min": ("min",), "_h": ("h",), "_days": ("days", "day", "business days"), "_months": ("months", "month"),
    "_years": ("years", "year"), "_mm": ("mm",), "_m": ("m",), "_mps": ("m/s",), "_db": ("dB",),
    "_dba": ("dB(A)",), "_dbc": ("dB(C)",), "_percent": ("%",), "_c": ("°C",), "_f": ("°F",),
    "_v": ("V",), "_a": ("A",), "_ah": ("Ah",), "_va": ("VA",), "_mw": ("mW",), "_mhz": ("MHz",), "_hz": ("Hz",), "_mvpm": ("mV/m",), "_yes": (YES_NO,), "_deg": ("°",),
}
# Units whose numbers may lie below zero, or have an upper end; all others start at zero and are open above.
RANGES = {"%": (0.0, 100.0), YES_NO: (0.0, 1.0), "°C": (-90.0, 150.0), "°F": (-130.0, 300.0), "°": (0.0, 360.0)}
# Units whose numbers must be more than nothing: something is divided by them.
ABOVE_ZERO = ("m/s",)
SECONDS = {"s": 1, "min": 60, "h": 3600, "day": 86400, "days": 86400}
NO_WHOLE = ("_factor", "_exponent")

# Words of a name that make two limits the lower and the upper end of one thing.
ENDS = (("min", "max"), ("least", "most"), ("low", "high"), ("from", "to"), ("near", "far"), ("lower", "upper"),
        ("warned", "withdrawn"))
# Limits that must not fall from left to right, though their names do not show it.
RISING = (
    ("entry_min_s", "entry_default_s", "entry_max_s"),
    ("exit_min_s", "exit_default_s", "exit_max_s"),
    ("abort_min_s", "abort_default_s", "abort_max_s"),
    ("trip_limit_least", "trip_limit_default", "trip_limit_most"),
    ("link_margin_floor_db", "link_margin_db", "link_margin_main_db"),
    ("last_heard_min", "supervision_min"),
    ("sounder_least_s", "sounder_strict_min", "sounder_usual_min", "sounder_max_min"),
    ("false_calls_inspected", "false_calls_upgraded"),
    ("keyholder_attend_min", "keyholder_attend_latest_min"),
    ("battery_watch_months", "battery_change_months"),
    ("cell_busy_months", "cell_change_months"),
    ("spare_percent", "spare_good_percent"),
    ("walk_frail_mps", "walk_slow_mps", "walk_fit_mps"),
)


def units_of(name: str) -> tuple[str, ...]:
    """How the unit that a limit's name ends in may be written; none if the name ends in no unit."""
    fitting = [ending for ending in UNITS if name.endswith(ending)]
    return UNITS[max(fitting, key=len)] if fitting else ()


def impossible(name: str, value: float, unit: str | None) -> tuple[str, str] | None:
    """What is wrong with a number for its unit, and what to write instead; None if nothing is."""
    least, most = RANGES.get(unit or "", (0.0, float("inf")))
    if not least <= value <= most:
        upper = f"to {most:g}" if most < float("inf") else "up"
        return f"{value:g} {unit or ''}".rstrip() + " cannot be.", f"Write a number from {least:g} {upper}."
    if unit in ABOVE_ZERO and not value:
        return f"{value:g} {unit} cannot be: nobody would arrive.", "Write a number above 0."
    if unit == YES_NO and value not in (0, 1):
        return f"{value:g} is neither yes nor no.", "Write 1 for yes or 0 for no."
    if not unit and not value.is_integer() and not name.endswith(NO_WHOLE):
        return f"{value:g} cannot be counted.", "Write a whole number."
    return None


def contradictions(limits: Mapping[str, Limit]) -> Iterator[tuple[str, str]]:
    """Pairs of names of which the first is to be the lower, yet its value is the higher; what cannot be is left aside."""
    possible = {name: limit for name, limit in limits.items() if not impossible(name, limit.value, limit.unit)}
    for lower, upper in _pairs(possible):
        one, other = _comparable(limits[lower]), _comparable(limits[upper])
        if one[1] == other[1] and one[0] > other[0]:
            yield lower, upper


def _comparable(limit: Limit) -> tuple[float, str]:
    """The value and its unit, times in seconds."""
    factor = SECONDS.get(limit.unit or "")
    return (limit.value * factor, "s") if factor else (limit.value, limit.unit or "")


def _pairs(limits: Mapping[str, Limit]) -> Iterator[tuple[str, str]]:
    """Every pair that stands in an order, once."""
    pairs: dict[tuple[str, str], None] = {}
    for chain in RISING:
        there = [name for name in chain if name in limits]
        pairs |= dict.fromkeys(zip(there, there[1:]))
    for name in limits:
        pairs |= dict.fromkeys((name, other) for other in _upper_ends(name) if other in limits)
    yield from pairs


def _upper_ends(name: str) -> Iterator[str]:
    """The names a lower end's upper end would have. "min" as the last part stands for minutes."""
    parts = name.split("_")
    for lower, upper in ENDS:
        for index, part in enumerate(parts):
            if part == lower and not (part == "min" and index == len(parts) - 1):
                yield "_".join([*parts[:index], upper, *parts[index + 1:]])
