"""A job in which every field of every file is set, and for each of its fields another valid value.

A place is a path into the files as `read_files` gives them: ("job", "devices", "D1", "text"), ("equipment", "tern-dc",
"name"). Where a name is used in other places too, a change renames it everywhere.
"""
import copy
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache
from typing import Any, Literal, get_args, get_origin

from pydantic import BaseModel, TypeAdapter, ValidationError

from generator.model.limits import YES_NO
from generator.model.profile import NEEDED_LIMITS
from generator.model.visibility import ROOTS, TABLE, may_see, plain
from generator.pages.sources import USED
from generator.rules.all_rules import RULES
from generator.terms.audience import Audience
from tests.conftest import Files, read_files
from tests.rule_cases.case import whole_profile

PROFILE = "house-rules"
# Units of a limit whose name ends in none.
COUNTED = ("steps", "paces")
OWN_SHEET, SPARE_SHEET = "tern-own", "tern-spare"
# Two units that differ in their names only: if their order hung on a hidden field, a change of it would turn them.
TWINS = {"D5": "tern-twin-a", "D6": "tern-twin-b"}
NEIGHBOURS = {"D2": "D1", "T1": "T2"}
RESERVED = {f"job.reserved.*.{key}" for key in ("list", "first", "last", "why")}
RANDOM = {"installer": "k3v9q0x7m2c8r4t6y1w5z0a7b3", "homeowner": "p8d2n6h4j0s7f1g9l5u3e6i2o4",
          "station": "c7x1b5v9n3m0q4w8r2t6y0u4i8", "record": "z2e6r0t4y8u2i6o0p4a8s2d6f0"}
SIBLINGS = ({"contact", "shock"}, {"movement", "glass-break"}, {"keypad", "reader"})

Place = tuple[str | int, ...]


@dataclass(frozen=True)
class Field:
    """One value of the files: its row in the table and its place. `is_name`: the value is the last name of the path."""

    pattern: str
    path: Place
    is_name: bool = False

    def __str__(self) -> str:
        return ".".join(map(str, self.path))


@dataclass(frozen=True)
class Changed:
    """The files with another value, and the rows of the table that the change touched."""

    files: Files
    touched: frozenset[str]


# --- the job ------------------------------------------------------------------------------------------------

def every_field_files() -> Files:
    """The demo job with everything set that a file may say."""
    files = copy.deepcopy(read_files())
    files["profiles"] = {PROFILE: _profile() | {"constructions": {"profile-wall": _construction("wall of this market")}}}
    _fill_premises(files["job"]["premises"])
    _fill_plan(files["job"]["premises"])
    files["company"]["constructions"] = {"company-wall": _construction("wall that we measured"),
                                         "company-door": _construction("door that we measured")}
    _fill_job(files["job"])
    _fill_sheets(files)
    for name, device in files["job"]["devices"].items():
        _fill_device(name, device, _sheet(files, device["sheet"])["kind"])
    files["company"] |= {"false_alarms": "technical manager", "keeps": [{"what": "papers of the system", "how_long": "ten years"}],
                         "spares": [{"item": "spare lid screw", "count": "4"}],
                         "label_sheet": {"paper": "A4", "columns": "1", "rows": "3", "width_mm": "90", "height_mm": "48", "left_mm": "11.5",
                                         "top_mm": "15", "across_mm": "3.5", "down_mm": "2.5"}}
    files["people"]["customer"]["grid_reference"] = "ZZ 123 456"
    for index, one in enumerate(files["people"]["keyholders"].values()):
        one |= {"other_telephone": f"01632 96019{index}", "relation": f"cousin {index}", "lives_here": "false", "arrives_min": "15",
                "has_key": "true", "can_unset": "true", "trained_on": "2026-08-28", "agreed_on": "2026-08-29",
                "away": f"at sea in spring {index}"}
    files["company"]["licences"].append({"name": "Marsh Council", "number": "MD-2210", "valid_to": "2028-02-28"})
    files["company"]["limits"] = {"sounder_max_min": {"value": "18", "because": "The parish council asked for it.",
                                                      "by": "technical manager"}}
    used = {files["job"]["control_unit"]["sheet"], *(one["sheet"] for one in files["job"]["devices"].values())}
    files["equipment"] = {name: sheet for name, sheet in files["equipment"].items() if name in used}
    return files


CONSTRUCTION = {"means": "a wall of its own kind", "layers": [{"material": "brick", "thickness_mm": "102"},
                                                              {"material": "air", "thickness_mm": "50"}],
                "measured": {"loss_db": "7.5", "frequency_mhz": "868", "on": "2026-03-02", "how": "two readings, door shut"}}


def _construction(means: str) -> dict:
    return copy.deepcopy(CONSTRUCTION) | {"means": means}


def _fill_plan(premises: dict) -> None:
    """Measures and makes of everything; one room is no rectangle."""
    premises["front_deg"] = "200"
    premises["constructions"] = {"job-wall": _construction("wall of this house"), "job-floor": _construction("floor of this house")}
    premises["stairs"] = {"ladder": {"foot": {"room": "hall", "at_m": ["1", "2"]}, "head": {"room": "boat-shed", "at_m": ["1", "2.5"]},
                                     "width_m": "0.7"}}
    premises["boundary_m"] = [["-10", "-10"], ["60", "-10"], ["60", "40"], ["-10", "40"]]
    premises["roofs"] = {"porch": {"corner_m": ["0", "-2"], "size_m": ["2", "2"], "height_m": "2.4", "reached": "true"},
                         "lean-to": {"outline_m": [["0", "8"], ["2", "8"], ["2", "9"]], "height_m": "2.2", "reached": "false"}}
    for index, (name, storey) in enumerate(premises["storeys"].items()):
        storey |= {"level_m": str(3 * index), "floor": "job-floor", "walls": _walls(storey), "furniture": _furniture(storey)}
        for place, room in enumerate(storey["rooms"].values()):
            room |= {"corner_m": [str(4 * place), "0"], "size_m": ["3.5", "3"]}
        for opening in storey["openings"].values():
            opening |= {"at_m": _front(storey, opening["wall"][0]), "width_m": "0.9", "height_m": "1.7", "sill_m": "0.1",
                        "glazed": "true", "letter_plate": "true", "leaf": "company-door"}
    last = list(premises["storeys"]["ground"]["rooms"].values())[-1]
    del last["corner_m"], last["size_m"]
    last["outline_m"] = [["20", "0"], ["24", "0"], ["24", "3"]]


def _front(storey: dict, room: str) -> list[str]:
    """A place on the front of a room, which stands beside its neighbour with air between: so no change of a measure joins the two."""
    return [str(4 * list(storey["rooms"]).index(room) + 1), "0"]


def _walls(storey: dict) -> dict:
    return {"outside": "job-wall", "inside": "profile-wall",
            "between": [{"places": list(storey["rooms"])[:2], "construction": "company-wall"}],
            "own": {"chimney": {"from_m": ["1", "1"], "to_m": ["2", "1"], "construction": "job-wall", "height_m": "2.2"}}}


def _furniture(storey: dict) -> dict:
    room = list(storey["rooms"])[0]
    flags = {"metal": "true", "heat": "true", "transmits": "true", "climbed": "true"}
    return {"bench": {"room": room, "corner_m": ["1", "1"], "size_m": ["0.5", "1"], "base_m": "0.2", "height_m": "1", **flags},
            "stove": {"room": room, "outline_m": [["2", "2"], ["3", "2"], ["3", "3"]], "base_m": "0.1", "height_m": "1.1", **flags}}


def _fill_premises(premises: dict) -> None:
    premises["children"] = "true"
    premises["storeys"]["yard"] = {
        "name": "the yard", "outbuilding": "true", "ceiling_m": "2.1",
        "rooms": {"boat-shed": {"name": "boat shed"}, "coal-hole": {"name": "coal hole"}},
        "openings": {"shed-door": {"kind": "door", "wall": ["boat-shed", "outside"]}}}
    for name, storey in premises["storeys"].items():
        storey.setdefault("name", f"the {name} floor")
        storey.setdefault("outbuilding", "false")
        for key, room in storey["rooms"].items():
            storey["rooms"][key] = {"name": key, "cooking": "false", "sleeping": "false", "bathroom": "false", "traffic": "usual", "coldest_c": "12",
                                    "warmest_c": "30", "untested_ceiling": "old paint", "untested_walls": "old plaster", **(room or {})}
        for key, opening in storey["openings"].items():
            storey["openings"][key] = {"name": key.replace("-", " "), "entry": "false", **opening}


def _fill_job(job: dict) -> None:
    job["profile"] = PROFILE
    job["note"] = "Park in the *lower* lane.\n\n- The gate sticks.\n- The bell is dead."
    job["control_unit"] |= {"serial": "00F0C1", "at_m": ["22", "1"], "battery_ah": "7", "battery_on": "2026-05-04"}
    _fill_agreed(job)
    job["devices"] |= {
        "D4": {"sheet": OWN_SHEET, "protects": "shed-door", "role": "immediate", "text": "SHED DOOR"},
        "H1": {"sheet": "tern-hu", "room": "lounge", "role": "hold-up", "text": "HOLD-UP", "signal": "silent"},
        "R1": {"sheet": "tern-repeater", "room": "store", "from_socket": "true"}, "R2": {"sheet": "tern-repeater", "room": "lounge"},
        "F2": {"sheet": "tern-fob"}, "T1": {"sheet": "tern-tag"}, "T2": {"sheet": "tern-tag"}}
    job["devices"] |= {name: {"sheet": sheet, "room": "coal-hole", "role": "immediate", "text": "TWIN",
                              "serial": serial, "position": "above the hatch", "called": "twin", "note": "Take care."}
                       for (name, sheet), serial in zip(TWINS.items(), ("00FFA", "00FFA0"))}
    job["partitions"] = {"1": {"name": "the house"}, "2": {"name": "the yard's buildings"}}
    job["devices"]["D4"]["partition"] = "2"
    job["users"] = {"1": {"who": "householder", "fob": "F1", "tag": "T1"},
                    "2": {"who": "neighbour who waters the plants", "fob": "F2", "tag": "T2"}}
    job["accepted"] = [{"rule": "text-not-unique", "at": "devices.D6.text", "who": "surveyor", "on": "2026-09-01",
                        "values": "text TWIN, the other TWIN, alike TWIN, must differ within 8 characters",
                        "why": "Both stand in one cupboard."}]
    job["reserved"] = [{"list": "zones", "first": "20", "last": "21", "why": "kept for the greenhouse"},
                       {"list": "fobs", "first": "6", "last": "7", "why": "kept for summer guests"}]
    job["kind"] = "extension"
    job["existing"] = [{"list": "repeaters", "number": "1", "device": "R1", "text": "SHED BOOST", "serial": "0077R", "note": "lid cracked"},
                       {"list": "fobs", "number": "1", "text": "LOST FOB", "serial": "0077F", "note": "nobody has it"}]
    job["freed"] = [{"list": "fobs", "number": "3", "why": "the station has the new table"}]
    job["publish"] = {"address": "https://packs.saltmarsh.example/", **RANDOM}


def _fill_agreed(job: dict) -> None:
    """What was agreed with customer and station, what was found, and what comes after."""
    job["times"] |= {"inside_sounder_min": "10", "report_delay_s": "30", "abort_s": "20", "trips": "3", "mains_report_min": "25",
                     "completes_by": "final-door"}
    job["part_sets"] = {"night": {"name": "Night", "when": "everybody sleeps"}, "party": {"name": "Garden", "when": "we sit outside"}}
    job["cables"] = {"bell": {"size_mm2": "0.5", "build": "stranded", "warmest_c": "35", "loads": [{"unit": "S1", "at_m": "9"}]},
                     "shed": {"awg": "18", "build": "solid", "loads": [{"unit": "K1", "at_m": "12"}]}}
    job["agreement"] = {"decided_by": "householder", "tenure": "owner", "signed_on": "2026-08-03", "signed_at": "home",
                        "early_start_on": "2026-08-04", "work_on": "2026-09-21", "in_use_on": "2026-09-22", "insurer": "stated",
                        "insurer_condition": "kept up by contract", "term_months": "24",
                        "left_out": [{"what": "skylight over the landing", "why": "nobody can stand there", "by": "householder",
                                      "on": "2026-08-05"}]}
    job["survey"] = {"on": "2026-07-20", "by": "surveyor of the company", "contents": ["fishing gear of value"],
                     "influences": ["a beacon two fields away"],
                     "assumptions": {"pets": {"assumed": "no animals", "found": "a young spaniel", "on": "2026-09-01"}}}
    job["household"] = {"language": "en", "animals": {"terrier": {"mass_kg": "8.5"}}}
    job["history"] = {"false_calls": [{"on": "2026-03-02", "kind": "intruder", "cause": "user at the old keypad"}]}
    job["handover"] = {"authority_changed": "true", "changed_on": "2026-09-22", "changed_by": "fitter on site"}
    job["household"] |= {"slowest": "slow"}
    job["service"] = {"every_months": "12", "visits": [{"on": "2027-09-14", "remote": "false"}]}
    job["monitoring"] |= {
        "format": "dc-05", "agreed_test_interval_h": "24", "category_asked": "DP1", "category_given": "DP1",
        "paths": {"first": {"kind": "broadband", "router": "true", "standby_h": "6"}, "second": {"kind": "mobile", "router": "false", "standby_h": "12"}},
        "confirmation": "sequential", "open_close": "true",
        "responses": [{"to": "water", "plan": "ring the householder, then the second number"}],
        "verify": ["ring the house before anybody is sent"], "shared": ["a deaf person sleeps at the back"],
        "proof_agreed_on": "2026-08-20", "proof_agreed_by": "office clerk", "may_change": "householder in writing", "soak_days": "10",
        "permits": {"police": {"covers": "intruder", "by": "Marsh Constabulary", "number": "MC-88123", "since": "2026-08-25",
                               "valid_to": "2029-08-24"}}}


def _fill_sheets(files: Files) -> None:
    own = copy.deepcopy(files["equipment"]["tern-dc2"]) | {"name": "Tern contact of this job"}
    files["job"]["equipment"] = {OWN_SHEET: own, SPARE_SHEET: copy.deepcopy(own) | {"name": "Tern contact left over"}}
    files["equipment"] |= {name: copy.deepcopy(files["equipment"]["tern-pir12"]) for name in TWINS.values()}
    files["equipment"]["tern-hu"] = copy.deepcopy(files["equipment"]["tern-dc"]) | {"name": "Tern hold-up button", "kind": "hold-up"}
    files["equipment"]["tern-tag"] = copy.deepcopy(files["equipment"]["tern-fob"]) | {"name": "Tern tag", "kind": "tag"}
    files["equipment"]["tern-repeater"] = copy.deepcopy(files["equipment"]["tern-kp"]) | {"name": "Tern repeater", "kind": "repeater"}
    files["equipment"]["tern-repeater"]["power"]["kind"] = "mains"
    for sheet in (*files["equipment"].values(), *files["job"]["equipment"].values()):
        sheet["slots"] = "2" if sheet["kind"] == "movement" else "1"
        _fill_ratings(sheet)
        if len(sheet.get("inputs", ())) > 1:
            for index, one in enumerate(sheet["inputs"]):
                one["optional"] = "true" if index else "false"


def _fill_ratings(sheet: dict) -> None:
    """Every number that a sheet can give, where it does not give one itself."""
    sheet["serial"] = {"least": "3", "most": "12", "alphabet": "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"}
    sheet["radio"] = {"frequency_mhz": "868.3", "tx_power_dbm": "8", "sensitivity_dbm": "-105", "supervision_min": "15",
                      "message_ms": "40", **sheet.get("radio", {})}
    sheet["power"] = {"capacity_mah": "1500", "self_discharge_percent": "1", "sleep_ua": "12", "message_mas": "30",
                      "quiescent_ma": "20", "alarm_ma": "300", "least_v": "9", "standby_h": "12", **sheet["power"]}
    sheet["environment"] = {"environmental_class": "II", "least_c": "-10", "most_c": "40", **sheet.get("environment", {})}
    sheet["coverage"] = {"range_m": "12", "angle_deg": "90", "down_from_deg": "2", "down_to_deg": "70", "animal_kg": "18", **sheet.get("coverage", {})}
    sheet["sound"] = {"level_db": "85", "at_m": "3", **sheet.get("sound", {})}
    sheet["life_years"] = "10"
    sheet["tools"] = ["torque driver, small"]
    sheet["minutes"] = {"check_min": "4", "fix_min": "12", "enrol_min": "3", "test_min": "5"}
    sheet["two_action"] = "true"
    sheet["signals"] = [{"when": "leaving", "sound": "slow pips", "light": "amber, blinking"}]
    if sheet["kind"] == "repeater":
        sheet["repeats"] = "16"
    if sheet["kind"] == "control-unit":
        sheet["control_unit"]["lists"]["partitions"] = "8"
        sheet["control_unit"] |= {
            "lists": {"wired_inputs": "2", **sheet["control_unit"]["lists"]},
            "hops": "1", "event_log": "500", "link_scale": {"unit": "bars", "most": "9", "passes": "5"},
            "battery_box": {"most_ah": "7.2", "size_mm": ["151", "65", "100"]},
            "charger": {"current_ma": "350", "least_v": "13.4", "most_v": "13.9"}}


def _fill_device(name: str, device: dict, kind: str) -> None:
    number = {"D1": "2", "D3": "12", "F2": "5", "T2": "4"}.get(name)
    if number:
        device |= {"number": number, "number_why": f"the office likes {name} there"}
    if name in NEIGHBOURS:
        device["next_to"] = NEIGHBOURS[name]
    device.setdefault("serial", f"00FF{name}")
    device.setdefault("position", f"where {name} can be reached")
    device.setdefault("called", f"the {kind} we call {name}")
    device.setdefault("note", f"Take care of **{name}**.")
    device.setdefault("height_m", "1.9")
    device["faces_deg"] = "90"
    device["replace_by"] = "2036-05-31"
    if device.get("role"):
        device |= {"left_out_in": ["night"], "omit": "true", "chime": "false", "confirms": "false", "traffic": "busy"}
    if name in ("D1", "D3", "D5", "D6"):
        device["path"] = {"distance_m": "9", "walls": ["job-wall", "profile-wall"], "floors": ["job-floor"]}
        device["via"] = "R1"
    else:
        device["at_m"] = {"lounge": ["9.5", "2"], "store": ["22", "1"]}.get(device.get("room"), ["1.5", "2"])
    if name == "D3":
        device["protects_2"] = "kitchen-window"
    if name == "D4":
        device["use_input_2"] = "false"
    if device.get("protects"):
        device.setdefault("room", "kitchen" if name == "D3" else "boat-shed" if name == "D4" else "hall")


def _profile() -> dict:
    profile = whole_profile()
    profile["name"] = "House rules"
    # Those that steps and rules compare with, of every market, so that each rule is asked; changing each of a hundred others would
    # prove the same again.
    compared = {*USED, *(name for one in RULES for name in (*one.limits, *one.also))}
    profile["limits"] = {name: limit for name, limit in profile["limits"].items() if name in compared}
    sources = {limit["source"] for limit in profile["limits"].values()}
    profile["documents"] = {key: document for key, document in profile["documents"].items() if key in sources}
    for index, document in enumerate(profile["documents"].values()):
        document.setdefault("edition", f"edition {index}")
    for name, limit in profile["limits"].items():
        limit.setdefault("unit", "steps")
        # What was read second-hand must say through what; here that too may be left out.
        limit["known"] = limit["known"].replace("read second-hand", "from memory")
        limit.setdefault("through", f"a talk on {name}")
        limit.setdefault("because", f"the insurer of {name} asked")
    profile["blocks"][0]["start_from_end"] = "32"
    profile["blocks"][-1]["start"] = "29"
    return profile


# --- its fields ---------------------------------------------------------------------------------------------

def fields(files: Files) -> list[Field]:
    """Every value that the files hold, the names in groups among them."""
    found = [*_walk(files["job"], "job", ("job",)), *_walk(files["company"], "company", ("company",))]
    if files["people"] is not None:
        found += _walk(files["people"], "people", ("people",))
    for name, sheet in files["equipment"].items():
        found += _walk(sheet, "sheet", ("equipment", name))
    for name, profile in files["profiles"].items():
        found += _walk(profile, "profile", ("profiles", name))
    return found


def _walk(value: Any, pattern: str, path: Place) -> Iterator[Field]:
    if isinstance(value, dict):
        named = any(row == f"{pattern}.*" or row.startswith(f"{pattern}.*.") for row in TABLE)
        for key, inner in value.items():
            if f"{pattern}.*" in TABLE:
                yield Field(f"{pattern}.*", (*path, key), is_name=True)
            below = "sheet" if pattern == "job.equipment" else f"{pattern}.*" if named else f"{pattern}.{key}"
            yield from _walk(inner, below, (*path, key))
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            yield from _walk(inner, f"{pattern}.*", (*path, index))
    else:
        yield Field(pattern, path)


def value_at(files: Files, path: Place) -> Any:
    """What stands at a place."""
    for part in path:
        files = files[part]
    return files


def put(files: Files, path: Place, value: Any) -> None:
    """Writes a value at a place."""
    value_at(files, path[:-1])[path[-1]] = value


@lru_cache(maxsize=1)
def kinds() -> dict[str, Any]:
    """For each row of the table what its field may hold, as the models declare it."""
    return {pattern: kind for root, model in ROOTS.items() for pattern, kind in _kinds(model, root)}


def _kinds(annotation: Any, at: str) -> Iterator[tuple[str, Any]]:
    inner = plain(annotation)
    if isinstance(inner, type) and issubclass(inner, BaseModel):
        for name, field in inner.model_fields.items():
            yield from _kinds(field.rebuild_annotation(), f"{at}.{name}")
    elif get_origin(inner) is dict:
        yield f"{at}.*", get_args(inner)[0]
        if at != "job.equipment":
            yield from ((row, kind) for row, kind in _kinds(get_args(inner)[1], f"{at}.*") if row != f"{at}.*")
    elif get_origin(inner) is list:
        yield from _kinds(get_args(inner)[0], f"{at}.*")
    else:
        yield at, annotation


@lru_cache(maxsize=1)
def optional() -> frozenset[str]:
    """The rows of fields that a file may leave out."""
    return frozenset(row for root, model in ROOTS.items() for row in _optional(model, root))


def _optional(annotation: Any, at: str) -> Iterator[str]:
    inner = plain(annotation)
    if isinstance(inner, type) and issubclass(inner, BaseModel):
        for name, field in inner.model_fields.items():
            if f"{at}.{name}" in TABLE and not field.is_required():
                yield f"{at}.{name}"
            yield from _optional(field.annotation, f"{at}.{name}")
    elif get_origin(inner) in (dict, list) and at != "job.equipment":
        yield from _optional(get_args(inner)[-1], f"{at}.*")


def without(files: Files, wanted: Callable[[str], bool]) -> Files:
    """The files without those optional fields whose row is `wanted`, and without ranges that stay free if all of them is."""
    out = copy.deepcopy(files)
    for field in fields(files):
        bound = field.pattern == "profile.limits.*.unit" and value_at(files, field.path) not in COUNTED
        # A unit that lives on a cell must say how the cell is changed.
        bound |= field.pattern == "sheet.handling.change_cell"
        if field.pattern in optional() and wanted(row_of(field)) and not bound:
            value_at(out, field.path[:-1]).pop(field.path[-1])
    if all(wanted(row) for row in RESERVED):
        del out["job"]["reserved"]
    if any(wanted(f"job.cables.*.{key}") for key in ("size_mm2", "awg")):
        # A cable without its size is no cable.
        del out["job"]["cables"]
    _drop_found(out["job"], wanted)
    return out


def _drop_found(job: dict, wanted: Callable[[str], bool]) -> None:
    """Numbers found or freed in a list that the control unit is no longer said to have; without any found, the job is a new one."""
    for group in ("existing", "freed"):
        job[group] = [one for one in job[group] if not wanted(f"sheet.control_unit.lists.{one['list']}")]
    if not job["existing"]:
        del job["existing"]
        job["kind"] = "new"


def row_of(field: Field) -> str:
    """The row that says who may see a field: for the sheet that no unit uses, the row of sheets in the job file."""
    return "job.equipment.*" if field.path[:3] == ("job", "equipment", SPARE_SHEET) else field.pattern


def fits(pattern: str, value: str) -> bool:
    """Whether a field may hold a value, other fields left aside."""
    try:
        TypeAdapter(kinds()[pattern]).validate_python(value)
    except ValidationError:
        return False
    return True


# --- another value ------------------------------------------------------------------------------------------

def change(files: Files, field: Field) -> Changed | None:
    """The files with another valid value in one field; None if there is no other that keeps the job valid."""
    files = copy.deepcopy(files)
    touched = _change(files, field)
    if touched and row_of(field) != field.pattern:
        touched = {row_of(field)}
    return Changed(files, frozenset(touched)) if touched else None


def change_all(files: Files, wanted: Callable[[frozenset[str]], bool]) -> Files:
    """The files with another value in every field whose change touches only rows that are `wanted`."""
    out = copy.deepcopy(files)
    chosen = [field for field in fields(files) if (one := change(files, field)) and wanted(one.touched)]
    # Names last and from the inside out, so that the places of the others still stand; a pair that is swapped, once.
    chosen = [one for one in chosen if one.pattern != "sheet.inputs.*.optional" or one.path[-2] == 0]
    for field in sorted(chosen, key=lambda one: (_renames(one), -len(one.path))):
        if _there(out, field.path):
            _change(out, field)
    return out


def rename(files: Files, field: Field, new: str) -> None:
    """Gives a name another name, everywhere."""
    NAMES[field.pattern](files, field, new)


def hidden_from(audience: Audience) -> Callable[[frozenset[str]], bool]:
    """Whether a reader may see none of these rows."""
    return lambda touched: not any(may_see(audience, pattern) for pattern in touched)


def _renames(field: Field) -> bool:
    return field.is_name or field.pattern in NAMES


def _there(files: Files, path: Place) -> bool:
    try:
        value_at(files, path)
    except (KeyError, IndexError):
        return False
    return True


def _change(files: Files, field: Field) -> set[str]:
    if special := NAMES.get(field.pattern) or SPECIAL.get(field.pattern):
        return special(files, field)
    value = other(field.pattern, value_at(files, field.path))
    if value is None:
        return set()
    put(files, field.path, value)
    return {field.pattern}


def other(pattern: str, value: str) -> str | None:
    """Another value of the same kind; None if the field can hold one value only."""
    return next((one for one in _candidates(pattern, value) if one != value and fits(pattern, one)), None)


def _candidates(pattern: str, value: str) -> Iterator[str]:
    kind = plain(kinds()[pattern])
    if get_origin(kind) is Literal:
        yield from get_args(kind)
        return
    if kind is bool:
        yield "false" if value == "true" else "true"
    elif kind is date:
        yield (date.fromisoformat(value) + timedelta(days=1)).isoformat()
    elif kind is int:
        yield str(int(value) + 1)
    elif kind is float:
        yield f"{float(value) + 0.1:.6g}"
    last = value[-1]
    if re.fullmatch("[0-8a-yA-Y]", last):
        yield value[:-1] + chr(ord(last) + 1)
    elif re.fullmatch("[9zZ]", last):
        yield value[:-1] + chr(ord(last) - 1)
    yield f"{value} too"


def _unused(name: str, taken: Any) -> str:
    # Sorted, it stands behind the others.
    return next(new for new in (f"z{count}-{name}" for count in range(2, 1000)) if new not in taken)


def _rename_key(group: dict, old: str, new: str) -> None:
    """Another name for an entry, its place in the order kept."""
    entries = [(new if key == old else key, value) for key, value in group.items()]
    group.clear()
    group.update(entries)


def _rename_sheet(files: Files, old: str, new: str = "") -> set[str]:
    inline = files["job"]["equipment"]
    group = inline if old in inline else files["equipment"]
    new = new or _unused(old, {*inline, *files["equipment"]})
    _rename_key(group, old, new)
    touched = {"job.equipment.*"} if group is inline else set()
    job = files["job"]
    if job["control_unit"]["sheet"] == old:
        job["control_unit"]["sheet"] = new
        touched.add("job.control_unit.sheet")
    for device in job["devices"].values():
        if device["sheet"] == old:
            device["sheet"] = new
            touched.add("job.devices.*.sheet")
    return touched


def _sheet(files: Files, name: str) -> dict:
    return files["job"].get("equipment", {}).get(name) or files["equipment"][name]


def _sheet_reference(files: Files, field: Field, new: str = "") -> set[str]:
    return _rename_sheet(files, value_at(files, field.path), new)


def _inline_sheet(files: Files, field: Field, new: str = "") -> set[str]:
    return _rename_sheet(files, field.path[-1], new)


def _profile_reference(files: Files, field: Field, new: str = "") -> set[str]:
    old = files["job"]["profile"]
    files["job"]["profile"] = new or _unused(old, files["profiles"])
    _rename_key(files["profiles"], old, files["job"]["profile"])
    return {field.pattern}


def _all(files: Files, group: str) -> list[str]:
    return [key for storey in files["job"]["premises"]["storeys"].values() for key in storey[group]]


def _storey_of(files: Files, room: str) -> dict:
    return next(one for one in files["job"]["premises"]["storeys"].values() if room in one["rooms"])


def _other_room(files: Files, field: Field) -> set[str]:
    """Another room, of the same storey where what stands in it is measured: it moves there too. What hangs outside stays."""
    old, holder = value_at(files, field.path), value_at(files, field.path[:-1])
    if old == "outside":
        return set()
    if "at_m" not in holder:
        put(files, field.path, next(room for room in reversed(_all(files, "rooms")) if room != old))
        return {field.pattern}
    storey = _storey_of(files, old)
    new = next(room for room in storey["rooms"] if room != old)
    put(files, field.path, new)
    holder["at_m"] = [_front(storey, new)[0], "2"]
    return {field.pattern, f"{field.pattern.removesuffix('.room')}.at_m.*"}


def _other_side(files: Files, field: Field) -> set[str]:
    """Another room behind an opening of an outside wall, which then stands in that room's wall."""
    old, opening = value_at(files, field.path), value_at(files, field.path[:-2])
    if old == "outside":
        return set()
    storey = _storey_of(files, old)
    new = next(room for room in reversed(storey["rooms"]) if room not in opening["wall"] and "corner_m" in storey["rooms"][room])
    put(files, field.path, new)
    opening["at_m"] = _front(storey, new)
    return {field.pattern, "job.premises.storeys.*.openings.*.at_m.*"}


def _other_opening(files: Files, field: Field) -> set[str]:
    old = value_at(files, field.path)
    put(files, field.path, next(one for one in _all(files, "openings") if one != old))
    return {field.pattern}


def _name(*followers: Callable[[Files, str, str], set[str]]) -> Callable[[Files, Field], set[str]]:
    """Renames an entry of a group and, through `followers`, every mention of it."""

    def rename(files: Files, field: Field, new: str = "") -> set[str]:
        old = field.path[-1]
        group = value_at(files, field.path[:-1])
        new = new or _unused(old, group)
        _rename_key(group, old, new)
        return {field.pattern}.union(*(follow(files, old, new) for follow in followers))

    return rename


def _mentions(pattern: str) -> Callable[[Files, str, str], set[str]]:
    def follow(files: Files, old: str, new: str) -> set[str]:
        mentions = [one for one in fields(files) if one.pattern == pattern and value_at(files, one.path) == old]
        for one in mentions:
            put(files, one.path, new)
        return {pattern} if mentions else set()

    return follow


def _partition_number(files: Files, field: Field) -> set[str]:
    partitions = value_at(files, field.path[:-1])
    new = next(str(number) for number in range(int(field.path[-1]) + 1, 9) if str(number) not in partitions)
    _rename_key(partitions, field.path[-1], new)
    return {field.pattern} | _mentions("job.devices.*.partition")(files, field.path[-1], new)


def _other_partition(files: Files, field: Field) -> set[str]:
    old = value_at(files, field.path)
    put(files, field.path, next(one for one in files["job"]["partitions"] if one != old))
    return {field.pattern}


def _user_number(files: Files, field: Field) -> set[str]:
    users = value_at(files, field.path[:-1])
    new = next(str(number) for number in range(int(field.path[-1]) + 1, 17) if str(number) not in users)
    _rename_key(users, field.path[-1], new)
    return {field.pattern}


def _limit_name(files: Files, field: Field, new: str = "") -> set[str]:
    old = field.path[-1]
    if old in NEEDED_LIMITS:
        return set()
    before = set(value_at(files, field.path[:-1]))
    touched = _name()(files, field, new)
    renamed = next(name for name in value_at(files, field.path[:-1]) if name not in before)
    if old in files["company"]["limits"]:
        _rename_key(files["company"]["limits"], old, renamed)
        touched.add("company.limits.*")
    return touched


def _other_limit(files: Files, field: Field) -> set[str]:
    """Another limit for the company to set, one that no other limit bounds."""
    own = value_at(files, field.path[:-1])
    _rename_key(own, field.path[-1], next(name for name in ("background_min", "mains_off_min") if name not in own))
    return {field.pattern}


def _unit_of_count(files: Files, field: Field) -> set[str]:
    """The unit of a limit whose name ends in none; any other unit is bound to the name."""
    old = value_at(files, field.path)
    if old not in COUNTED:
        return set()
    put(files, field.path, next(unit for unit in COUNTED if unit != old))
    return {field.pattern}


def _other_number(files: Files, field: Field) -> set[str]:
    """Another value of a limit: the other answer where it is yes or no."""
    limit = value_at(files, field.path[:-1])
    number = 1 - int(limit["value"]) if limit["unit"] == YES_NO else float(limit["value"]) + 0.1
    put(files, field.path, f"{number:.6g}")
    return {field.pattern}


def _other_of(*way: str) -> Callable[[Files, Field], set[str]]:
    """Another name out of a group."""

    def pick(files: Files, field: Field) -> set[str]:
        old = value_at(files, field.path)
        put(files, field.path, next(one for one in value_at(files, way) if one != old))
        return {field.pattern}

    return pick


def _other_unit(kind: str) -> Callable[[Files, Field], set[str]]:
    def pick(files: Files, field: Field) -> set[str]:
        old = value_at(files, field.path)
        put(files, field.path, next(name for name, device in files["job"]["devices"].items()
                                    if _sheet(files, device["sheet"])["kind"] == kind and name != old))
        return {field.pattern}

    return pick


def _furnished_room(files: Files, field: Field) -> set[str]:
    """Another room of the same storey for a piece of furniture, which moves there too."""
    touched = _room_of_storey(files, field)
    storey, thing = value_at(files, field.path[:4]), value_at(files, field.path[:-1])
    left = float(_front(storey, thing["room"])[0])
    if "corner_m" in thing:
        thing["corner_m"] = [f"{left:g}", "1"]
    else:
        thing["outline_m"] = [[f"{left + east:g}", north] for east, north in ((0, "1"), (1, "1"), (1, "2"))]
    row = field.pattern.removesuffix("room")
    return touched | {f"{row}corner_m.*" if "corner_m" in thing else f"{row}outline_m.*.*"}


def _room_of_storey(files: Files, field: Field) -> set[str]:
    """Another room of the same storey."""
    rooms = value_at(files, field.path[:4])["rooms"]
    old = value_at(files, field.path)
    put(files, field.path, next(room for room in rooms if room != old))
    return {field.pattern}


def _other_end(files: Files, field: Field) -> set[str]:
    """Another room of the same storey for one end of the stairs, and its place in it."""
    end = value_at(files, field.path[:-1])
    storey, old = _storey_of(files, end["room"]), end["room"]
    end["room"] = next(room for room in storey["rooms"] if room != old)
    end["at_m"] = [_front(storey, end["room"])[0], "2"]
    return {field.pattern, f"{field.pattern.removesuffix('.room')}.at_m.*"}


def _other_construction(files: Files, field: Field) -> set[str]:
    old = value_at(files, field.path)
    put(files, field.path, next(one for one in ("job-wall", "company-wall") if one != old))
    return {field.pattern}


def _other_neighbour(files: Files, field: Field) -> set[str]:
    """Another unit of the same list, where the list has one."""
    if value_at(files, field.path) not in ("D1", "D3"):
        return set()
    put(files, field.path, "D3" if value_at(files, field.path) == "D1" else "D1")
    return {field.pattern}


def _other_list(files: Files, field: Field) -> set[str]:
    """Another list that is as long."""
    old = value_at(files, field.path)
    if old not in ("fobs", "tags"):
        return set()
    put(files, field.path, "tags" if old == "fobs" else "fobs")
    return {field.pattern}


def _other_kind(files: Files, field: Field) -> set[str]:
    """The other kind of job that starts with numbers taken."""
    put(files, field.path, "takeover" if value_at(files, field.path) == "extension" else "extension")
    return {field.pattern}


def _second_input(files: Files, field: Field) -> set[str]:
    device = value_at(files, field.path[:-1])
    if device["use_input_2"] == "true":
        device |= {"use_input_2": "false"}
        gone = [key for key in ("text_2", "protects_2") if device.pop(key, None)]
        return {field.pattern, *(f"job.devices.*.{key}" for key in gone)}
    device |= {"use_input_2": "true", "text_2": "SECOND"}
    return {field.pattern, "job.devices.*.text_2"}


def _swap_optional(files: Files, field: Field) -> set[str]:
    inputs = value_at(files, field.path[:-2])
    if len(inputs) != 2:
        return set()
    inputs[0]["optional"], inputs[1]["optional"] = inputs[1]["optional"], inputs[0]["optional"]
    return {field.pattern}


def _supply_of_unit(files: Files, field: Field) -> set[str]:
    """Another supply, but for the unit that hangs on a socket: only mains of its own does."""
    if any(one.get("from_socket") == "true" and one["sheet"] in field.path for one in files["job"]["devices"].values()):
        return set()
    put(files, field.path, other(field.pattern, value_at(files, field.path)))
    return {field.pattern}


def _kind_of_unit(files: Files, field: Field) -> set[str]:
    old = value_at(files, field.path)
    for group in SIBLINGS:
        if old in group:
            put(files, field.path, next(iter(group - {old})))
            return {field.pattern}
    return set()


def _swap_blocks(files: Files, field: Field) -> set[str]:
    blocks, index = value_at(files, field.path[:-2]), field.path[-2]
    following = blocks[(index + 1) % len(blocks)]
    blocks[index]["name"], following["name"] = following["name"], blocks[index]["name"]
    return {field.pattern}


def _swap_supplies(files: Files, field: Field) -> set[str]:
    """Each supply stands once in the order, so another value is another place."""
    order, index = value_at(files, field.path[:-1]), field.path[-1]
    following = (index + 1) % len(order)
    order[index], order[following] = order[following], order[index]
    return {field.pattern}


def _other_document(files: Files, field: Field) -> set[str]:
    documents = value_at(files, field.path[:2])["documents"]
    old = value_at(files, field.path)
    put(files, field.path, next(one for one in documents if one != old))
    return {field.pattern}


def _other_rule(files: Files, field: Field) -> set[str]:
    """A rule that there is, and whose findings can be accepted."""
    old = value_at(files, field.path)
    put(files, field.path, next(one.id for one in RULES if not one.firm and one.id != old))
    return {field.pattern}


def _other_address(files: Files, field: Field) -> set[str]:
    put(files, field.path, value_at(files, field.path).replace("https://", "https://other."))
    return {field.pattern}


# What is a name, used in other places too: renamed everywhere, and the file of that name with it.
CONSTRUCTION_ROWS = (
    "job.premises.storeys.*.floor", "job.premises.storeys.*.walls.outside", "job.premises.storeys.*.walls.inside",
    "job.premises.storeys.*.walls.between.*.construction", "job.premises.storeys.*.walls.own.*.construction",
    "job.premises.storeys.*.openings.*.leaf", "job.devices.*.path.walls.*", "job.devices.*.path.floors.*")
_rename_construction = _name(*map(_mentions, CONSTRUCTION_ROWS))
ROOM_ROWS = ("job.control_unit.room", "job.devices.*.room", "job.premises.storeys.*.openings.*.wall.*",
             "job.premises.storeys.*.walls.between.*.places.*", "job.premises.storeys.*.furniture.*.room",
             "job.premises.stairs.*.foot.room", "job.premises.stairs.*.head.room")
NAMES: dict[str, Callable[..., set[str]]] = {
    "job.profile": _profile_reference,
    "job.control_unit.sheet": _sheet_reference,
    "job.devices.*.sheet": _sheet_reference,
    "job.equipment.*": _inline_sheet,
    "job.premises.storeys.*": _name(),
    "job.part_sets.*": _name(_mentions("job.devices.*.left_out_in.*")),
    "job.cables.*": _name(),
    "job.survey.assumptions.*": _name(),
    "job.household.animals.*": _name(),
    "job.monitoring.paths.*": _name(),
    "job.monitoring.permits.*": _name(),
    "job.premises.storeys.*.rooms.*": _name(*map(_mentions, ROOM_ROWS)),
    "job.premises.storeys.*.furniture.*": _name(),
    "job.premises.storeys.*.walls.own.*": _name(),
    "job.premises.stairs.*": _name(),
    "job.premises.roofs.*": _name(),
    "job.premises.constructions.*": _rename_construction,
    "company.constructions.*": _rename_construction,
    "profile.constructions.*": _rename_construction,
    "job.premises.storeys.*.openings.*": _name(_mentions("job.devices.*.protects"), _mentions("job.devices.*.protects_2")),
    "job.devices.*": _name(_mentions("job.users.*.fob"), _mentions("job.users.*.tag"), _mentions("job.devices.*.next_to"), _mentions("job.devices.*.via"),
                           _mentions("job.existing.*.device"), _mentions("job.cables.*.loads.*.unit")),
    "people.keyholders.*": _name(),
    "profile.documents.*": _name(_mentions("profile.limits.*.source")),
    "profile.limits.*": _limit_name,
}
# What points at another part of the job, or is tied to another field.
SPECIAL: dict[str, Callable[[Files, Field], set[str]]] = {
    "job.devices.*.left_out_in.*": _other_of("job", "part_sets"),
    "job.cables.*.loads.*.unit": _other_of("job", "devices"),
    "job.control_unit.room": _other_room,
    "job.devices.*.room": _other_room,
    "job.devices.*.protects": _other_opening,
    "job.devices.*.protects_2": _other_opening,
    "job.premises.storeys.*.openings.*.wall.*": _other_side,
    **{row: _other_construction for row in CONSTRUCTION_ROWS},
    "job.premises.storeys.*.walls.between.*.places.*": _room_of_storey,
    "job.premises.storeys.*.furniture.*.room": _furnished_room,
    "job.premises.stairs.*.foot.room": _other_end,
    "job.premises.stairs.*.head.room": _other_end,
    "job.devices.*.via": _other_unit("repeater"),
    "job.devices.*.use_input_2": _second_input,
    "job.devices.*.next_to": _other_neighbour,
    "job.reserved.*.list": _other_list,
    "job.partitions.*": _partition_number,
    "job.devices.*.partition": _other_partition,
    "job.existing.*.list": _other_list,
    "job.freed.*.list": _other_list,
    "job.existing.*.device": _other_unit("repeater"),
    "job.kind": _other_kind,
    "job.users.*": _user_number,
    "job.users.*.fob": _other_unit("fob"),
    "job.users.*.tag": _other_unit("tag"),
    "job.accepted.*.rule": _other_rule,
    "job.publish.address": _other_address,
    "sheet.kind": _kind_of_unit,
    "sheet.power.kind": _supply_of_unit,
    "sheet.inputs.*.optional": _swap_optional,
    "sheet.control_unit.power_order.*": _swap_supplies,
    "profile.limits.*.source": _other_document,
    "profile.limits.*.unit": _unit_of_count,
    "profile.limits.*.value": _other_number,
    "company.limits.*": _other_limit,
    "profile.blocks.*.name": _swap_blocks,
}
