"""Changed copies of the demo job. Its free texts are found from the model, so that a field added later is tried too."""
from collections.abc import Callable
from pathlib import Path
from types import UnionType
from typing import Annotated, Any, Union, get_args, get_origin, get_type_hints

from pydantic import BaseModel

from generator.model.company import Company
from generator.model.equipment import Sheet
from generator.model.fields import Note, Text
from generator.model.job import Job
from generator.model.people import People
from generator.pipeline import compile_job
from generator.publish.pack import write_pack
from tests.conftest import Files, write_files

# Invented path names, one a reader: 26 small letters and digits.
PATH_NAMES = {"installer": "k3v9q0x7m2c8t5w1r6z4n0b8ha", "homeowner": "p7d2j9s4f6g1y8l3u5e0i7o2qc",
              "station": "w8n1t6h3k5v0b9m4x2r7c6z1je", "record": "y4u0f8l2g7s5d1p9a3q6o0i8tk"}
ADDRESS = "https://packs.example/"
# The control unit's alphabet binds zone texts; they have a job of their own.
KEPT = ("job.devices.*.text", "job.devices.*.text_2", "sheet.control_unit.zone_text.alphabet")
# Why a number is wanted can be said only where a number stands.
REASON = "job.devices.*.number_why"

Write = Callable[[str], str]


def build(files: Files, folder: Path) -> Path:
    """The packs of a job given as data."""
    return write_pack(compile_job(write_files(files, folder / "job")), folder / "packs")


def fill(files: Files, write: Write) -> None:
    """Puts a text into every free text field of a job's files, those left out as well; `write` is told the field.

    The first unit gets a number of its own, so that it can say who wants it.
    """
    next(iter(files["job"]["devices"].values())).setdefault("number", "1")
    for model, at, data in ((Job, "job", files["job"]), (People, "people", files["people"]),
                            (Company, "company", files["company"])):
        _group(model, data, at, write)
    for sheet in files["equipment"].values():
        _group(Sheet, sheet, "sheet", write)


def _group(model: type[BaseModel], data: dict[str, Any], at: str, write: Write) -> None:
    for name, hint in get_type_hints(model, include_extras=True).items():
        field, kind = f"{at}.{name}", _without_none(hint)
        if field in KEPT or name not in model.model_fields or (field == REASON and "number" not in data):
            continue
        if kind in (Text, Note):
            data[name] = write(field)
        elif name in data:
            data[name] = _inside(kind, data[name], field, write)


def _inside(kind: Any, value: Any, field: str, write: Write) -> Any:
    """A value with its texts replaced; groups are changed where they stand."""
    kind = _without_none(kind)
    if kind in (Text, Note):
        return write(field)
    if isinstance(kind, type) and issubclass(kind, BaseModel):
        _group(kind, value, field, write)
    elif get_origin(kind) is dict:
        return {key: _inside(get_args(kind)[1], one, f"{field}.*", write) for key, one in value.items()}
    elif get_origin(kind) is list:
        return [_inside(get_args(kind)[0], one, f"{field}.*", write) for one in value]
    return value


def _without_none(kind: Any) -> Any:
    if get_origin(kind) in (Union, UnionType):
        return next(one for one in get_args(kind) if one is not type(None))
    if get_origin(kind) is Annotated and kind not in (Text, Note):
        return get_args(kind)[0]
    return kind
