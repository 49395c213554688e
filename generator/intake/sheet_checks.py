"""Is an equipment sheet in agreement with itself?"""
from collections.abc import Iterator

from generator.intake.typed import placeholders
from generator.intake.yaml_tree import Path_, Tree
from generator.model.entry import Entry
from generator.model.equipment import Sheet
from generator.model.fields import nearest
from generator.model.lists import list_of
from generator.terms.problem import Problem

TEXT_NAMES = ("id", "number", "zone", "text", "serial", "room")
# Groups of a sheet that name a least and a most, by the ends of their keys.
RANGES = {("serial",): "", ("environment",): "_c", ("control_unit", "charger"): "_v"}


def sheet_problems(tree: Tree, at: Path_, sheet: Sheet) -> Iterator[Problem]:
    """What is wrong inside one equipment sheet."""
    yield from _texts(tree, at, sheet)
    yield from _power_order(tree, at, sheet)
    yield from _heights(tree, at, sheet)
    yield from _ranges(tree, at, sheet)
    yield from _radio(tree, at, sheet)
    yield from _view(tree, at, sheet)
    yield from _by_kind(tree, at, sheet)
    yield from _cell(tree, at, sheet)


def _texts(tree: Tree, at: Path_, sheet: Sheet) -> Iterator[Problem]:
    for key in type(sheet.handling).model_fields:
        text = getattr(sheet.handling, key) or ""
        if not text.strip() and key != "change_cell":
            yield tree.problem((*at, "handling", key), "an empty text stands here; a step of the day would have nothing to do.",
                               "Write what is done, from the unit's own papers.")
        for name in placeholders(text):
            if name not in TEXT_NAMES:
                yield tree.problem((*at, "handling", key), f'"{{{name}}}" is filled with nothing.',
                                   f"{nearest(name, list(TEXT_NAMES))}Known: {', '.join(TEXT_NAMES)}.")


def _power_order(tree: Tree, at: Path_, sheet: Sheet) -> Iterator[Problem]:
    unit = sheet.control_unit
    lacks_mains = unit is not None and sheet.power.kind == "mains" and "mains" not in unit.power_order
    if unit and (lacks_mains or len(set(unit.power_order)) < len(unit.power_order)):
        yield tree.problem((*at, "control_unit", "power_order"), f"{', '.join(unit.power_order) or 'nothing'} stands here.",
                           "Write loads, mains and battery in the order in which they are joined, each once; where there is mains, mains among them.")


def _heights(tree: Tree, at: Path_, sheet: Sheet) -> Iterator[Problem]:
    if sheet.mounting_m and (len(sheet.mounting_m) != 2 or sheet.mounting_m[0] > sheet.mounting_m[1]):
        yield tree.problem((*at, "mounting_m"), "these are not a lowest and a highest height.",
                           "Write two numbers, the lower first, for example [2.0, 2.4].")
    box = sheet.control_unit.battery_box if sheet.control_unit else None
    if box and box.size_mm and len(box.size_mm) != 3:
        yield tree.problem((*at, "control_unit", "battery_box", "size_mm"), f"{len(box.size_mm)} measures stand here.",
                           "Write length, width and height in mm, for example [151, 65, 100].")


def _radio(tree: Tree, at: Path_, sheet: Sheet) -> Iterator[Problem]:
    radio = sheet.radio
    if radio and radio.sensitivity_dbm is not None and radio.tx_power_dbm is not None and radio.sensitivity_dbm >= radio.tx_power_dbm:
        yield tree.problem((*at, "radio", "sensitivity_dbm"), f"{radio.sensitivity_dbm:g} dBm is not below the {radio.tx_power_dbm:g} dBm that the unit sends with.",
                           "Write the weakest signal that it still understands, with its minus sign, for example -105.")


def _view(tree: Tree, at: Path_, sheet: Sheet) -> Iterator[Problem]:
    upper, lower = (getattr(sheet.coverage, key, None) for key in ("down_from_deg", "down_to_deg"))
    if upper is not None and lower is not None and upper >= lower:
        yield tree.problem((*at, "coverage", "down_from_deg"), f"the upper edge at {upper:g}° lies no higher than the lower edge at {lower:g}°.",
                           "Both count down from the level: write the smaller of the two as down_from_deg.")


def _ranges(tree: Tree, at: Path_, sheet: Sheet) -> Iterator[Problem]:
    for way, end in RANGES.items():
        group: Entry | None = sheet
        for key in way:
            group = getattr(group, key) if group else None
        least, most = (getattr(group, f"{key}{end}", None) for key in ("least", "most"))
        if least is not None and most is not None and least > most:
            yield tree.problem((*at, *way, f"least{end}"), f"{least:g} is the least here and {most:g} the most.",
                               f"Write the smaller of the two as least{end}.")
    scale = sheet.control_unit.link_scale if sheet.control_unit else None
    if scale and scale.passes > scale.most:
        yield tree.problem((*at, "control_unit", "link_scale", "passes"),
                           f"{scale.passes} passes, and the scale ends at {scale.most}.", "Write a number that it can show.")


def _by_kind(tree: Tree, at: Path_, sheet: Sheet) -> Iterator[Problem]:
    """What only some kinds of unit have or must have."""
    if list_of(sheet) == "zones" and sheet.kind != "control-unit" and all(one.optional for one in sheet.inputs):
        yield tree.problem((*at, "inputs"), f"a {sheet.kind} reports to a zone and lists no input that is always used.",
                           "Write at least one input without optional: true.")
    if sheet.kind == "control-unit" and sheet.control_unit is None:
        yield tree.problem(at, "a control unit needs its lists.", "Write control_unit: with lists, zone_text and the rest.")
    if sheet.kind != "control-unit" and sheet.control_unit is not None:
        yield tree.problem((*at, "control_unit"), f"this is the sheet of a {sheet.kind}.", "Take control_unit: out.", key=True)
    if sheet.power.kind == "cell" and not (sheet.handling.change_cell or "").strip():
        yield tree.problem((*at, "handling"), f"a {sheet.kind} that lives on its own cell does not say how the cell is changed.",
                           "Write change_cell: with what is done, from the unit's own papers.", key=True)
    if sheet.repeats is not None and sheet.kind != "repeater":
        yield tree.problem((*at, "repeats"), f"a {sheet.kind} carries no other units.", "Take repeats: out.", key=True)


def _cell(tree: Tree, at: Path_, sheet: Sheet) -> Iterator[Problem]:
    """A cell that gives nothing would last for ever. Only what does not live between two presses takes nothing at rest."""
    power, radio = sheet.power, sheet.radio
    if power.kind != "cell" or radio is None:
        return
    if power.sleep_ua == 0 and radio.supervision_min is not None:
        yield tree.problem((*at, "power", "sleep_ua"), "a unit with supervision messages counts the time between them, which takes a current.",
                           "Write the current from its papers, or take supervision_min out of radio if it sends none.")
    if power.message_mas == 0:
        yield tree.problem((*at, "power", "message_mas"), "a message takes a charge.", "Write the charge from its papers, or take the key out.")
