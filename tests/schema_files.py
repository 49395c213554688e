"""Whole files made from a schema, and the same with one thing spoiled, as hypothesis strategies."""
import copy
from collections.abc import Iterator
from math import ceil, floor
from typing import Any

from hypothesis import strategies as st

from generator.model.schema import types_of
from tests.schema_fields import Leaf, resolved

Way = tuple[str | int, ...]
# What stands in place of a value, or is left out. A number for a text is none: in quotes it would be a text.
SPOILS = ("", "two words", "\u202e", None, [], {}, ["a", "b"], {"a": "b"}, "zz" * 400, -1, 10**10, 0.5)


def files(schema: dict[str, Any], top: dict[str, Any]) -> st.SearchStrategy[Any]:
    """Files that a schema takes, small ones."""
    schema = resolved(schema, top)
    if "properties" in schema:
        needed = {key: files(schema["properties"][key], top) for key in schema.get("required", ())}
        rest = {key: files(value, top) for key, value in schema["properties"].items() if key not in needed}
        return st.fixed_dictionaries(needed, optional=rest)
    if "propertyNames" in schema:
        return st.dictionaries(_name(schema["propertyNames"]), files(schema["additionalProperties"], top),
                               **_size(schema, "Properties"))
    if "items" in schema:
        return st.lists(files(schema["items"], top), **_size(schema, "Items"))
    return _value(schema)


def _size(schema: dict[str, Any], of: str) -> dict[str, int]:
    """Few entries, but as many as there must be."""
    least = schema.get(f"min{of}", 0)
    return {"min_size": least, "max_size": max(least, min(schema.get(f"max{of}", 2), 2))}


def _name(schema: dict[str, Any]) -> st.SearchStrategy[str]:
    # The numbers of users have bounds that a pattern does not know.
    if "From 1 to 9999" in schema["description"]:
        return st.integers(1, 9999).map(str)
    return st.from_regex(schema["pattern"].removeprefix("^").removesuffix("$"), fullmatch=True)


def _value(schema: dict[str, Any]) -> st.SearchStrategy[Any]:
    if "enum" in schema:
        return st.sampled_from(schema["enum"])
    types = types_of(schema)
    if "boolean" in types:
        found: st.SearchStrategy[Any] = st.booleans()
    elif "integer" in types:
        found = st.integers(int(schema["minimum"]), int(schema["maximum"]))
    elif "number" in types:
        least, most = ceil(schema["minimum"] * 1000), floor(schema["maximum"] * 1000)
        found = st.integers(least, most).map(lambda whole: whole / 1000)
    elif schema.get("format") == "date":
        found = st.dates().map(str)
    else:
        fitting = st.from_regex(schema["pattern"].removeprefix("^").removesuffix("$"), fullmatch=True)
        found = fitting.filter(lambda text: len(text) <= schema.get("maxLength", len(text)))
    return found | st.none() if "null" in types else found


@st.composite
def spoiled(draw: st.DrawFn, whole: st.SearchStrategy[Any], top: dict[str, Any]) -> Any:
    """A file with one key renamed or left out, or one value replaced by what may or may not stand there."""
    value = copy.deepcopy(draw(whole))
    way, schema = draw(st.sampled_from(list(_ways(value, top, top, ()))))
    group = value
    for step in way[:-1]:
        group = group[step]
    deed = draw(st.sampled_from(("replace", "leave out", "rename")))
    if deed == "replace":
        group[way[-1]] = draw(st.sampled_from([one for one in SPOILS if _spelled_as_taught(one, schema)]))
    else:
        old = group.pop(way[-1])
        if deed == "rename" and isinstance(group, dict):
            group["not a key"] = old
    return value


def _spelled_as_taught(value: Any, schema: dict[str, Any]) -> bool:
    return not isinstance(value, (int, float)) or ("properties" not in schema and not Leaf("", None, schema).quoted)


def _ways(value: Any, schema: dict[str, Any], top: dict[str, Any], way: Way) -> Iterator[tuple[Way, dict[str, Any]]]:
    """The way to every value of a file, with its schema."""
    schema = resolved(schema, top)
    if way:
        yield way, schema
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from _ways(inner, schema.get("properties", {}).get(key) or schema["additionalProperties"], top, (*way, key))
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            yield from _ways(inner, schema["items"], top, (*way, index))
