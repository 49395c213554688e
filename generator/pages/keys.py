"""Every key that a file may hold, with what it takes and who may see it, from the models themselves."""
import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal, get_args, get_origin

from generator.model import forms
from generator.model.issued import Issued
from generator.model.readers import TABLE
from generator.model.readers_of_found import FOUND
from generator.model.schema import WRITTEN, groups_of, leaves, types_of
from generator.model.visibility import LETTERS, plain
from generator.terms.show import lower, sentence_list
from generator.terms.units import unit_of

FILES = {"job": "job.yaml", "people": "people.yaml", "company": "company.yaml", "sheet": "equipment/NAME.yaml",
         "profile": "profiles/NAME.yaml", "issued": "issued.yaml", "results": "REFERENCE-PHONE.txt"}
MODELS = {**WRITTEN, "issued": Issued}
KINDS = {str: "text", int: "whole number", float: "number", bool: "true or false"}
FORMS: dict[tuple[str, int | None], forms.Form] = {(f"^{one.pattern}$", one.longest): one for one in vars(forms).values() if isinstance(one, forms.Form)}
# What YAML would not read back as the text that it is: written in quotes.
PLAIN = re.compile(r"[A-Za-z](?:[\w ./-]|,(?! )|:(?! ))*")
# Sheets inside a job have the keys of a sheet; they are not listed twice.
SAID_ELSEWHERE = "equipment"
# A shape that is no rectangle: a list of lists has no example of its own.
CORNERS = "[0, 0], [4.2, 0], [4.2, 3.6]"


@dataclass(frozen=True)
class KeyRow:
    """One key of a file.

    `way` leads to it from the top of the file: `NAME` stands for a name that the writer chooses, `-` for an entry of a list.
    `takes` is the kind of value, `bounds` what binds it besides, `default` what holds without it, `example` a line as it is
    written, `seen` who may see it. What there is nothing to say of is "".
    """

    way: str
    takes: str
    needed: bool
    means: str
    bounds: str
    unit: str
    default: str
    example: str
    seen: str


def key_rows(root: str) -> tuple[KeyRow, ...]:
    """The keys of one kind of file, in the order of the model."""
    return tuple(_rows(MODELS[root], "", root))


@cache
def _groups(root: str) -> dict[str, dict[str, Any]]:
    return groups_of(MODELS[root])


def _rows(model: Any, before: str, root: str) -> Iterator[KeyRow]:
    properties = _groups(root)[model.__name__]["properties"]
    for name, field in model.model_fields.items():
        way = f"{before}{name}"
        yield _row(root, way, field, properties[name])
        inner, step = _inside(plain(field.annotation))
        if inner is not None and way != SAID_ELSEWHERE:
            yield from _rows(inner, f"{way}.{step}", root)


def _row(root: str, way: str, field: Any, schema: dict[str, Any]) -> KeyRow:
    name, annotation = way.rpartition(".")[2], plain(field.annotation)
    return KeyRow(way, _takes(annotation, schema), field.is_required(), " ".join((field.description or "").split()),
                  _bounds(annotation, schema), unit_of(name) if _numbers(schema) else "", _default(field),
                  _example(name, annotation, root, schema), _seen(root, way))


def _inside(annotation: Any) -> tuple[Any, str]:
    """The group of keys inside a value, if there is one, and the step that leads to it."""
    step = ""
    if get_origin(annotation) in (dict, list):
        step = "NAME." if get_origin(annotation) is dict else "-."
        annotation = plain(get_args(annotation)[-1])
    return (annotation, step) if hasattr(annotation, "model_fields") else (None, "")


def _takes(annotation: Any, schema: dict[str, Any]) -> str:
    if get_origin(annotation) is Literal:
        return f"one of: {', '.join(get_args(annotation))}"
    if get_origin(annotation) is dict:
        return "names, each with keys of its own" if _inside(annotation)[0] is not None else "names, each with a value"
    if get_origin(annotation) is list:
        return f"list: {_takes(plain(get_args(annotation)[0]), schema)}"
    if hasattr(annotation, "model_fields"):
        return "keys"
    form = _form(schema) if annotation is str else None
    return re.sub("^(a|an|the) ", "", form.wanted) if form else KINDS.get(annotation, "date")


def _form(schema: dict[str, Any]) -> forms.Form | None:
    """The form in which a value is written."""
    wanted = ((leaf.get("pattern"), leaf.get("maxLength")) for leaf in leaves(schema))
    return next((FORMS[one] for one in wanted if one in FORMS), None)


def _numbers(schema: dict[str, Any]) -> list[dict[str, Any]]:
    """The schemas of the numbers that a value is, or is made of."""
    found = [*leaves(schema)]
    inner = [leaf["items"] for leaf in found if isinstance(leaf.get("items"), dict)]
    return [leaf for leaf in (*found, *inner) if types_of(leaf) & {"integer", "number"}]


def _bounds(annotation: Any, schema: dict[str, Any]) -> str:
    """What binds a value: ends of a number, how a text is written, how many entries a list has."""
    said = [f"from {_digits(leaf['minimum'])} to {_digits(leaf['maximum'])}" for leaf in _numbers(schema)
            if "minimum" in leaf and leaf["maximum"] < forms.WHOLE.most]
    form = _form(schema)
    if form and get_origin(annotation) is not dict and not hasattr(annotation, "model_fields"):
        said.append(lower(form.do.removeprefix("Write ").rstrip(".")))
    return "; ".join(dict.fromkeys([*said, *_lengths(schema)]))


def _lengths(schema: dict[str, Any]) -> Iterator[str]:
    """How many entries a list must have, outer and inner ones."""
    least, most = schema.get("minItems"), schema.get("maxItems")
    if least is not None:
        yield f"{least} entries" if least == most else f"{least} to {most} entries"
    if isinstance(schema.get("items"), dict):
        yield from _lengths(schema["items"])


def _digits(value: float) -> str:
    return f"{value:.12g}"


def _default(field: Any) -> str:
    value = field.default
    return json.dumps(value) if isinstance(value, bool | int | float | str) and not field.is_required() else ""


def _example(name: str, annotation: Any, root: str, schema: dict[str, Any]) -> str:
    """A line as it is written in the file; of a group of keys its first one."""
    if hasattr(annotation, "model_fields"):
        return f"{name}: {{{_first_key(annotation, root)}, …}}"
    if get_origin(annotation) is dict:
        return f"{name}: {{{_first(_names(schema)) or 'NAME'}: …}}"
    if get_origin(annotation) is list:
        return f"{name}: [{_entries(plain(get_args(annotation)[0]), root, schema)}]"
    value = _first(next(leaves(schema), {}))
    return f"{name}: {value}" if value else ""


def _first_key(model: Any, root: str) -> str:
    name, field = next(iter(model.model_fields.items()))
    return _example(name, plain(field.annotation), root, _groups(root)[model.__name__]["properties"][name])


def _entries(annotation: Any, root: str, schema: dict[str, Any]) -> str:
    """What stands in a list: one entry, or as many as there must be."""
    if hasattr(annotation, "model_fields"):
        return f"{{{_first_key(annotation, root)}, …}}"
    if get_origin(annotation) is list:
        return CORNERS
    leaf = next(leaves(schema), {})
    given, wanted = leaf.get("examples", ()), schema.get("minItems", 1)
    return ", ".join(_written(leaf, given[index % len(given)]) for index in range(wanted)) if given else "…"


def _names(schema: Mapping[str, Any]) -> dict[str, Any]:
    """The schema of the names in a group."""
    inside = schema.get("anyOf", (schema,))
    return next((one["propertyNames"] for one in inside if "propertyNames" in one), {})


def _first(leaf: Mapping[str, Any]) -> str:
    """The first example of a value, as YAML writes it."""
    found = next(iter(leaf.get("examples", ())), None)
    return "" if found is None else _written(leaf, found)


def _written(leaf: Mapping[str, Any], value: Any) -> str:
    """A value as YAML reads it back: in quotes where it would come to mean something else."""
    if isinstance(value, str) and (leaf.get("format") == "date" or PLAIN.fullmatch(value)):
        return value
    return json.dumps(value, ensure_ascii=False)


def _seen(root: str, way: str) -> str:
    """Who may see a key, by the table of readers; "" for a group, whose keys say it one by one, and for what is not in the table."""
    pattern = ".".join((root, *("*" if step in ("NAME", "-") else step for step in way.split("."))))
    rows = {**TABLE, **FOUND}
    letters = next((rows[one] for one in (pattern, f"{pattern}.*", f"{pattern}.*.*") if one in rows), None)
    if letters is None:
        return ""
    return sentence_list([reader.value for reader, letter in LETTERS.items() if letter in letters]) or "nobody"
