"""Every field of every file with its schema beside what our reader takes, and a text as a YAML 1.2 editor would see it."""
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Any, get_args, get_origin

from jsonschema import Draft202012Validator
from pydantic import TypeAdapter, ValidationError

from generator.intake.yaml_tree import NOTHING
from generator.model.schema import WRITTEN, schema_of
from generator.model.visibility import plain

SCHEMAS = {root: schema_of(root) for root in WRITTEN}
# Formats are asserted: the calendar is checked, as editors do.
FORMATS = Draft202012Validator.FORMAT_CHECKER


@dataclass(frozen=True)
class Leaf:
    """One value of a file: its way, what our reader takes there, its schema, whether it is a name in a group."""

    way: str
    kind: Any
    schema: dict[str, Any]
    is_name: bool = False

    def read(self, text: str | None) -> bool:
        """Whether our reader takes a text there."""
        try:
            self._reader.validate_python(text)
        except ValidationError:
            return False
        return True

    def takes(self, value: Any) -> bool:
        """Whether the schema takes a value there, jsonschema (an independent validator) being the judge."""
        return self._validator.is_valid(value)

    @cached_property
    def _reader(self) -> TypeAdapter:
        return TypeAdapter(self.kind)

    @cached_property
    def _validator(self) -> Draft202012Validator:
        return Draft202012Validator(self.schema, format_checker=FORMATS)

    @property
    def quoted(self) -> bool:
        """Whether a value is written as a text here, in quotes where it looks like something else."""
        types = self.schema.get("type", "string" if self.is_name else [])
        options = [one for one in self.schema.get("enum", ()) if one is not None]
        return all(isinstance(one, str) for one in options) if options else "string" in types


def leaves_of(root: str) -> list[Leaf]:
    """Every value that a kind of file may hold, the names in groups among them."""
    return list(_leaves(WRITTEN[root], SCHEMAS[root], SCHEMAS[root], root))


def every_leaf() -> list[Leaf]:
    """Every value of every kind of file."""
    return [leaf for root in WRITTEN for leaf in leaves_of(root)]


def resolved(schema: dict[str, Any], top: dict[str, Any]) -> dict[str, Any]:
    """A schema with its reference followed, "or nothing" left aside."""
    if "anyOf" in schema:
        schema = next(one for one in schema["anyOf"] if one.get("type") != "null")
    return top["$defs"][schema["$ref"].rpartition("/")[2]] if "$ref" in schema else schema


def _leaves(annotation: Any, schema: dict[str, Any], top: dict[str, Any], way: str) -> Iterator[Leaf]:
    inner = plain(annotation)
    schema = resolved(schema, top)
    if hasattr(inner, "model_fields"):
        assert set(inner.model_fields) == set(schema["properties"]), way
        for name, field in inner.model_fields.items():
            yield from _leaves(field.rebuild_annotation(), schema["properties"][name], top, f"{way}.{name}")
    elif get_origin(inner) is dict:
        yield Leaf(f"{way}.*", get_args(inner)[0], schema["propertyNames"], is_name=True)
        yield from _leaves(get_args(inner)[1], schema["additionalProperties"], top, f"{way}.*")
    elif get_origin(inner) is list:
        yield from _leaves(get_args(inner)[0], schema["items"], top, f"{way}.-")
    else:
        yield Leaf(way, annotation, schema)


# YAML 1.2.2, 10.3.2 "Tag resolution" of the core schema (from memory; the independent parser of tests/editor reads the files).
CORE = ((re.compile(r"[-+]?[0-9]+"), int), (re.compile(r"0o[0-7]+"), lambda text: int(text[2:], 8)),
        (re.compile(r"0x[0-9a-fA-F]+"), lambda text: int(text[2:], 16)),
        (re.compile(r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?"), float),
        (re.compile("true|True|TRUE"), lambda _: True), (re.compile("false|False|FALSE"), lambda _: False))


def seen(text: str | None, quoted: bool) -> Any:
    """A written text as a YAML 1.2 editor sees it."""
    if text is None or quoted:
        return text
    if text in NOTHING:
        return None
    return next((make(text) for shape, make in CORE if shape.fullmatch(text)), text)


def as_written(value: Any) -> Any:
    """A value of an editor, or a whole file of them, as the texts that a person writes."""
    if isinstance(value, dict):
        return {key: as_written(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [as_written(inner) for inner in value]
    if value is None or isinstance(value, str):
        return value
    return f"{value:.6f}" if isinstance(value, float) else str(value).lower()


def file_seen(data: Any, schema: dict[str, Any], top: dict[str, Any]) -> Any:
    """A file's tree of texts as an editor sees it if every text stands in quotes where its field is a text."""
    schema = resolved(schema, top)
    if isinstance(data, dict):
        inside = schema.get("properties", {})
        return {key: file_seen(value, inside.get(key, schema.get("additionalProperties")), top) for key, value in data.items()}
    if isinstance(data, list):
        return [file_seen(one, schema["items"], top) for one in data]
    return seen(data, Leaf("", None, schema).quoted)
