"""What a unit's sheet says of it, as facts with their units."""
from typing import Any

from generator.model.construction import Construction
from generator.model.equipment import Sheet
from generator.model.job import RadioPath
from generator.procedure.step import Fact
from generator.terms.show import amount, count, metres
from generator.terms.units import unit_of

# The name of each fact and the way to its value in the sheet; the unit stands at the end of the key's name.
RATINGS = (
    ("Frequency", "radio.frequency_mhz"),
    ("Radiated power", "radio.tx_power_dbm"),
    ("Weakest signal it understands", "radio.sensitivity_dbm"),
    ("Check-in every", "radio.supervision_min"),
    ("One message takes", "radio.message_ms"),
    ("Capacity of its cells", "power.capacity_mah"),
    ("They lose in a year unused", "power.self_discharge_percent"),
    ("Current between messages", "power.sleep_ua"),
    ("Charge for a message", "power.message_mas"),
    ("Current at rest", "power.quiescent_ma"),
    ("Current in alarm", "power.alarm_ma"),
    ("Works down to", "power.least_v"),
    ("Carries on without supply for", "power.standby_h"),
    ("Environmental class", "environment.environmental_class"),
    ("Lowest temperature", "environment.least_c"),
    ("Highest temperature", "environment.most_c"),
    ("Range", "coverage.range_m"),
    ("Angle", "coverage.angle_deg"),
    ("Upper edge of view, down from the level", "coverage.down_from_deg"),
    ("Lower edge of view, down from the level", "coverage.down_to_deg"),
    ("Lets animals pass up to", "coverage.animal_kg"),
    ("Level", "sound.level_db"),
    ("Level measured at", "sound.at_m"),
    ("Units it can carry", "repeats"),
    ("Replaced after", "life_years"),
    ("Characters of a serial, least", "serial.least"),
    ("Characters of a serial, most", "serial.most"),
    ("Characters that can stand in a serial", "serial.alphabet"),
    ("Repeaters one after the other, most", "control_unit.hops"),
    ("Events in its log", "control_unit.event_log"),
    ("Shows links in", "control_unit.link_scale.unit"),
    ("Best that it shows", "control_unit.link_scale.most"),
    ("Calls a link good from", "control_unit.link_scale.passes"),
    ("Largest battery", "control_unit.battery_box.most_ah"),
    ("Room for a battery, length, width, height", "control_unit.battery_box.size_mm"),
    ("Charging current", "control_unit.charger.current_ma"),
    ("Charging voltage, least", "control_unit.charger.least_v"),
    ("Charging voltage, most", "control_unit.charger.most_v"),
)


def ratings(sheet: Sheet) -> tuple[Fact, ...]:
    """What the sheet says in numbers and classes; what it does not say is left out."""
    found = ((name, _value(sheet, way), unit_of(way)) for name, way in RATINGS)
    return tuple(Fact(name, _shown(value, unit)) for name, value, unit in found if value not in (None, []))


def _value(sheet: Sheet, way: str) -> Any:
    value: Any = sheet
    for key in way.split("."):
        value = getattr(value, key) if value is not None else None
    return value


def _shown(value: Any, unit: str) -> str:
    """A value with its unit: 2.5 m, 151 × 65 × 100 mm, II."""
    if isinstance(value, list):
        return f"{' × '.join(f'{one:g}' for one in value)} {unit}"
    return value if isinstance(value, str) else amount(value, unit, places=6)


def plan_words(point: list[float]) -> str:
    """A place in the plan in words. What is left and right is said from where: inside the house a fitter looks the other way."""
    return f"{metres(point[0])} to the right, {metres(point[1])} away from the front, as one faces the front from outside"


def path_words(path: RadioPath, constructions: dict[str, Construction]) -> str:
    """A radio path in words: how far, and through what."""
    parts = [metres(path.distance_m)]
    for group, one in ((path.walls, "wall"), (path.floors, "floor")):
        if group:
            parts.append(f"{count(len(group), one)}: {', '.join(constructions[name].means for name in group)}")
    return "; ".join(parts)
