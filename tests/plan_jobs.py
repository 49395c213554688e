"""Small jobs by plan, made in memory: the sheets and limits of the large demo, and a house of a few rooms."""
import random
from dataclasses import replace
from functools import lru_cache

from generator.intake.job_reader import read_job
from generator.model.construction import Construction
from generator.model.job import ControlUnitPlace, Device
from generator.model.papers import Papers
from generator.model.premises import Premises
from tests.conftest import JOBS


def texts(value):
    """Plain data as a file gives it: every number a text."""
    if isinstance(value, dict):
        return {key: texts(inner) for key, inner in value.items()}
    if isinstance(value, list | tuple):
        return [texts(inner) for inner in value]
    return value if isinstance(value, str) else ("true" if value is True else "false" if value is False else repr(value))


@lru_cache
def demo() -> Papers:
    """The large demo."""
    return read_job(JOBS / "curlew-house" / "job.yaml").papers


def made(storeys: dict, control: dict, devices: dict, power_dbm: float = 8, constructions: dict | None = None, **repeater) -> Papers:
    """A job of a few rooms. Every unit but a repeater sends with `power_dbm`; `repeater` changes the sheet of repeaters."""
    base = demo()
    by_key = {device.sheet: base.sheet_of[name] for name, device in base.job.devices.items()}
    sheets = {key: one.model_copy(update={"radio": one.radio.model_copy(update={"tx_power_dbm": power_dbm})} if one.radio and one.kind != "repeater" else repeater)
              for key, one in by_key.items()}
    premises = Premises.model_validate(texts({"place": "a house", "storeys": storeys}))
    built = {key: Construction.model_validate(texts(one)) for key, one in (constructions or {}).items()}
    units = {name: Device.model_validate(texts(one)) for name, one in devices.items()}
    job = base.job.model_copy(update={"premises": premises.model_copy(update={"constructions": built}), "devices": units,
                                      "control_unit": ControlUnitPlace.model_validate(texts({"id": "CU", "sheet": "tern-cu48", **control}))})
    own = {"tern-rp": sheets["tern-rp"]}
    return replace(base, job=job.model_copy(update={"equipment": own}), sheet_of={"CU": base.sheet_of["CU"], **{name: sheets[one.sheet] for name, one in units.items()}})


# The house of the tests that a hand can follow. Behind the foil (x = 4, y from 0 to 4) lies the front room on the right.
#
#   8 +--------+--------+
#     |  left  |  back  |
#   4 |        +--------+
#     |        # front  |
#   0 +--------+--------+
#     0        4        8
FOIL = {"ground": {"ceiling_m": 2.4, "level_m": 0, "floor": "concrete-floor",
                   "rooms": {"left": {"corner_m": [0, 0], "size_m": [4, 8]}, "front": {"corner_m": [4, 0], "size_m": [4, 4]},
                             "back": {"corner_m": [4, 4], "size_m": [4, 4]}},
                   "walls": {"outside": "cavity-brick", "inside": "stud-plasterboard", "between": [{"places": ["left", "front"], "construction": "stud-foil"}]}}}


def random_house(seed: int, bare: bool = False) -> Papers:
    """A house of four to nine rooms with walls by chance, and doors and metal unless it is bare; a control unit and two or three weak units."""
    chance = random.Random(seed)
    across, deep = chance.randint(2, 3), chance.randint(2, 3)
    xs, ys = ([0.0], [0.0])
    for edges, number in ((xs, across), (ys, deep)):
        for _ in range(number):
            edges.append(round(edges[-1] + chance.choice((2.0, 2.5, 3.0, 3.5)), 2))
    rooms, between, openings, furniture = {}, [], {}, {}
    kinds = ("stud-plasterboard", "block", "stud-foil", "half-brick")
    for row in range(deep):
        for column in range(across):
            name = f"r{row}{column}"
            rooms[name] = {"corner_m": [xs[column], ys[row]], "size_m": [round(xs[column + 1] - xs[column], 2), round(ys[row + 1] - ys[row], 2)]}
            if column:
                between.append({"places": [f"r{row}{column - 1}", name], "construction": chance.choice(kinds)})
                if chance.random() < 0.5:
                    openings[f"d{name}"] = {"kind": "door", "wall": [f"r{row}{column - 1}", name], "at_m": [xs[column], round(ys[row] + 0.9, 2)],
                                            "width_m": 0.8, "height_m": 2.0, "leaf": "wooden-door"}
            if row:
                between.append({"places": [f"r{row - 1}{column}", name], "construction": chance.choice(kinds)})
            if chance.random() < 0.4:
                furniture[f"m{name}"] = {"room": name, "corner_m": [round(xs[column] + 0.7, 2), round(ys[row] + 0.6, 2)], "size_m": [0.6, 0.5], "height_m": 2.1,
                                         "metal": True}
    storeys = {"ground": {"ceiling_m": 2.4, "level_m": 0, "floor": "concrete-floor", "rooms": rooms, **({} if bare else {"openings": openings, "furniture": furniture}),
                          "walls": {"outside": "cavity-brick", "inside": "block", "between": between}}}

    def spot(name: str) -> dict:
        (x, y), (width, depth) = rooms[name]["corner_m"], rooms[name]["size_m"]
        return {"room": name, "at_m": [round(x + chance.uniform(0.1, width - 0.1), 2), round(y + chance.uniform(0.1, depth - 0.1), 2)],
                "height_m": chance.choice((1.2, 2.0))}

    names = list(rooms)
    units = {f"M{number}": {"sheet": "tern-pir12", **spot(chance.choice(names))} for number in range(1, chance.randint(3, 4))}
    return made(storeys, spot(chance.choice(names)), units, power_dbm=chance.choice((-36, -44)))
