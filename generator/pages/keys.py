"""Every key that a file may hold, with its meaning, from the models themselves."""
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Literal, get_args, get_origin

from generator.model.issued import Issued
from generator.model.schema import WRITTEN
from generator.model.visibility import plain
from generator.terms.units import unit_of

FILES = {"job": "job.yaml", "people": "people.yaml", "company": "company.yaml", "sheet": "equipment/NAME.yaml",
         "profile": "profiles/NAME.yaml", "issued": "issued.yaml"}
MODELS = {**WRITTEN, "issued": Issued}
KINDS = {str: "text", int: "whole number", float: "number", bool: "true or false"}


@dataclass(frozen=True)
class KeyRow:
    """One key: its way from the top of the file, what it takes, whether it must be there, and what it means."""

    way: str
    takes: str
    needed: bool
    means: str


def key_rows(root: str) -> tuple[KeyRow, ...]:
    """The keys of one kind of file, in the order of the model."""
    return tuple(_rows(MODELS[root], ""))


def _rows(model: Any, before: str) -> Iterator[KeyRow]:
    for name, field in model.model_fields.items():
        annotation = plain(field.annotation)
        means = " ".join((field.description or "").split())
        yield KeyRow(f"{before}{name}", _takes(annotation, name), field.is_required(), means)
        inner, step = _inside(annotation)
        if inner is not None and f"{before}{name}" != "equipment":
            yield from _rows(inner, f"{before}{name}.{step}")


def _inside(annotation: Any) -> tuple[Any, str]:
    """The group of keys inside a value, if there is one, and the step that leads to it."""
    step = ""
    if get_origin(annotation) in (dict, list):
        step = "NAME." if get_origin(annotation) is dict else "-."
        annotation = plain(get_args(annotation)[-1])
    return (annotation, step) if hasattr(annotation, "model_fields") else (None, "")


def _takes(annotation: Any, name: str) -> str:
    if get_origin(annotation) is Literal:
        return "one of: " + ", ".join(get_args(annotation))
    if get_origin(annotation) is dict:
        return "names, each with keys of its own"
    if get_origin(annotation) is list:
        return f"list: {_takes(plain(get_args(annotation)[0]), name)}"
    if hasattr(annotation, "model_fields"):
        return "keys"
    unit = unit_of(name)
    return KINDS.get(annotation, "date") + (f" in {unit}" if unit else "")
