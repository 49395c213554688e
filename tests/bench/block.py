"""Writes a block of flats as one job, as an installer would write it: every file goes through the intake like any other.

A flat is 15 m by 15 m and has 25 rooms in five rows that are laid like bricks, three chimney breasts, doors, windows and a metal
cupboard, and 25 units: a contact at each of ten windows, and movement detectors. Of each storey the last unit is a repeater.
"""
import json
import shutil
from pathlib import Path

SIDE_M, ROW_M, ROWS = 15.0, 3.0, 5
CUTS = ((0.0, 3.0, 6.0, 9.0, 12.0, SIDE_M), (0.0, 1.8, 4.8, 7.8, 10.8, SIDE_M))
UNITS, FLATS, FLATS_A_STOREY = 25, 40, 5
STOREY_M, CEILING_M = 2.8, 2.5
SHEETS = ("tern-cu48", "tern-rp", "tern-dc", "tern-pir12")


def write_block(folder: Path, jobs: Path, flats: int = FLATS, receivers: int | None = None, units: int = UNITS) -> Path:
    """The job file of so many flats; `receivers`, the control unit among them, are one a storey more unless they are told."""
    shutil.rmtree(folder, ignore_errors=True)
    (folder / "equipment").mkdir(parents=True)
    for name in SHEETS:
        text = (jobs / "equipment" / f"{name}.yaml").read_text(encoding="utf-8")
        # Larger of their kind than the demo's: a thousand zones, and repeaters that carry a storey.
        for one, other in (("zones: 48, slots: 48", "zones: 1000, slots: 1000"), ("repeaters: 3", "repeaters: 60"), ("repeats: 12", "repeats: 150")):
            text = text.replace(one, other)
        (folder / "equipment" / f"{name}.yaml").write_text(text, encoding="utf-8")
    (folder / "company.yaml").write_text((jobs / "company.yaml").read_text(encoding="utf-8"), encoding="utf-8")
    file = folder / "job.yaml"
    file.write_text(json.dumps(_texts(block(flats, receivers, units)), indent=1), encoding="utf-8")
    return file


def block(flats: int, receivers: int | None = None, units: int = UNITS) -> dict:
    """The job as plain data."""
    storeys = -(-flats // FLATS_A_STOREY)
    repeaters = storeys if receivers is None else receivers - 1
    numbers = list(range(flats))
    devices = [one for flat in numbers for one in _units(flat, units)]
    # Repeaters stand in for the last units of flats spread over the block.
    for index in range(repeaters):
        at = (index * flats // repeaters + 1) * units - 1 - index // flats
        kept = {key: value for key, value in devices[at][1].items() if key not in ("role", "text", "faces_deg")}
        devices[at] = (f"R{index:02}", kept | {"sheet": "tern-rp"})
    return {
        "format": 1, "reference": "K-9040", "title": "Forty Flats", "dated": "2026-10-05", "kind": "new", "profile": "uk-grade-2",
        "control_unit": {"id": "CU", "sheet": "tern-cu48", "room": "f000r22", "at_m": [7.5, 7.4], "height_m": 1.5},
        "premises": {"place": "An invented block of flats", "storeys": {
            f"s{level}": _storey(level, [one for one in numbers if one // FLATS_A_STOREY == level]) for level in range(storeys)}},
        "devices": dict(devices),
        "users": {"1": {"who": "caretaker"}}, "times": {"entry_s": 30, "exit_s": 45, "sounder_min": 15},
    }


def _storey(level: int, flats: list[int]) -> dict:
    rooms, openings, own, furniture, between = {}, {}, {}, {}, []
    for flat in flats:
        left, name = flat % FLATS_A_STOREY * SIDE_M, f"f{flat:03}"
        for row in range(ROWS):
            for place, (low, high) in enumerate(zip(CUTS[row % 2], CUTS[row % 2][1:])):
                rooms[f"{name}r{row}{place}"] = {"corner_m": [_m(left + low), _m(row * ROW_M)], "size_m": [_m(high - low), ROW_M]}
        for place, (low, high) in enumerate(zip(CUTS[0], CUTS[0][1:])):
            for row, y in ((0, 0.0), (ROWS - 1, ROWS * ROW_M)):
                openings[f"{name}w{row}{place}"] = {
                    "kind": "window", "wall": [f"{name}r{row}{place}", "outside"], "at_m": [_m(left + (low + high) / 2), y],
                    "width_m": 1.2, "height_m": 1.1, "sill_m": 0.9, "leaf": "double-glazing"}
        for row in range(ROWS):
            cut = CUTS[row % 2][2]
            openings[f"{name}d{row}"] = {
                "kind": "door", "wall": [f"{name}r{row}1", f"{name}r{row}2"], "at_m": [_m(left + cut), _m(row * ROW_M + 1.5)],
                "width_m": 0.8, "height_m": 2.0, "leaf": "wooden-door"}
        for index in range(3):
            at = left + 3.5 + 3 * index
            own[f"{name}breast{index}"] = {"from_m": [_m(at), 7.0], "to_m": [_m(at + 1), 7.0], "construction": "half-brick"}
        furniture[f"{name}cupboard"] = {"room": f"{name}r00", "corner_m": [_m(left + 0.1), 0.5], "size_m": [0.6, 1.2], "height_m": 1.9, "metal": True}
        if flat + 1 in flats:
            between += [{"places": [f"{name}r{row}4", f"f{flat + 1:03}r{row}0"], "construction": "solid-brick"} for row in range(ROWS)]
    return {"level_m": _m(level * STOREY_M), "ceiling_m": CEILING_M, "floor": "concrete-floor", "rooms": rooms, "openings": openings,
            "furniture": furniture,
            "walls": {"outside": "cavity-brick", "inside": "block" if level % 2 else "stud-plasterboard", "between": between, "own": own}}


def _units(flat: int, units: int) -> list[tuple[str, dict]]:
    left, name, found = flat % FLATS_A_STOREY * SIDE_M, f"f{flat:03}", []
    for index in range(units):
        key = f"D{flat:03}{index:02}"
        row, place = divmod(index, ROWS)
        low, high = CUTS[row % 2][place], CUTS[row % 2][place + 1]
        across = _m(left + low + (high - low) * (0.3 + 0.02 * (flat % 20)))
        if row in (0, ROWS - 1):
            found.append((key, {"sheet": "tern-dc", "protects": f"{name}w{row}{place}", "role": "immediate", "text": f"FLAT {flat} W{index}",
                                "at_m": [_m(left + (low + high) / 2 + 0.55), 0.05 if row == 0 else _m(ROWS * ROW_M - 0.05)], "height_m": 1.8,
                                "serial": f"1{flat:03}{index:02}", "position": "opening edge"}))
        else:
            found.append((key, {"sheet": "tern-pir12", "room": f"{name}r{row}{place}", "role": "immediate", "text": f"FLAT {flat} M{index}",
                                "at_m": [across, _m(row * ROW_M + 0.1)], "height_m": 2.2, "faces_deg": 0, "serial": f"2{flat:03}{index:02}",
                                "position": "back wall"}))
    return found


def _m(metres: float) -> float:
    return round(metres, 3)


def _texts(value):
    """As a file gives it: true and false, and every number in digits."""
    if isinstance(value, dict):
        return {key: _texts(inner) for key, inner in value.items()}
    return [_texts(one) for one in value] if isinstance(value, list) else value
