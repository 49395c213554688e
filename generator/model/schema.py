"""What does an editor need to know of a file? The models as JSON Schema, draft 2020-12.

An editor reads YAML 1.2 and sees numbers, texts and true or false; we read texts. So a schema may be looser than we are (it
knows no calendar and no other file), and asks for one spelling where we take several (true, not yes; text that looks like a
number in quotes).
"""
import copy
import re
from collections.abc import Iterator
from typing import Any

from pydantic import BaseModel
from pydantic.json_schema import GenerateJsonSchema

from generator.model import forms
from generator.model.examples import EXAMPLES
from generator.model.formats import FORMATS
from generator.model.found import FORMAT, FoundFile
from generator.model.profile import ProfilePart
from generator.model.visibility import ROOTS
from generator.terms.units import unit_of

DRAFT = "https://json-schema.org/draft/2020-12/schema"
# What stands in a file: of a profile its own part, not what it becomes with those that it extends.
WRITTEN: dict[str, type[BaseModel]] = {**ROOTS, "profile": ProfilePart, "results": FoundFile}
TITLES = {"job": "Doorpost job file", "sheet": "Doorpost equipment sheet", "profile": "Doorpost profile",
          "company": "Doorpost company file", "people": "Doorpost file of personal data", "results": "Doorpost file of results, as a phone writes it"}
NUMBERS = ("integer", "number")


def schema_of(root: str) -> dict[str, Any]:
    """The schema of one kind of file: job, sheet, profile, company, people or results."""
    model = WRITTEN[root]
    groups = groups_of(model)
    found = groups.pop(model.__name__)
    inner = {name: group | {"title": _words(name)} for name, group in groups.items()}
    found.pop("title")
    head = {"$schema": DRAFT, "$id": f"urn:doorpost:schema:{root}:{FORMATS.get(root, FORMAT)}", "title": TITLES[root]}
    return head | found | ({"$defs": inner} if inner else {})


def groups_of(model: type[BaseModel]) -> dict[str, dict[str, Any]]:
    """The schema of every class that a file is made of, by its name; each value with its unit and the nearest examples."""
    found = model.model_json_schema(schema_generator=_ForEditors)
    groups = {**found.pop("$defs", {}), model.__name__: found}
    for name, group in groups.items():
        for key, value in group["properties"].items():
            _tell(value, f"{name}.{key}", unit_of(key))
    return groups


def _words(name: str) -> str:
    """The name of a class as words: an editor shows it where a whole group of keys is offered."""
    return re.sub("(?<=[a-z])[A-Z]", lambda found: f" {found[0].lower()}", name)


def _tell(value: dict[str, Any], field: str, unit: str) -> None:
    """Gives a field its unit and the examples that are nearest to it."""
    value["description"] = " ".join(value.get("description", "").split())
    numbers = [leaf for leaf in leaves(value) if _is_number(leaf)]
    if unit and numbers:
        value["description"] += f" Unit: {unit}."
        for leaf in numbers:
            leaf["x-unit"] = unit
    if field in EXAMPLES:
        for leaf in leaves(value):
            leaf["examples"] = list(EXAMPLES[field])


def leaves(value: dict[str, Any]) -> Iterator[dict[str, Any]]:
    """The schemas inside a field's schema that take one value, not a group of keys or a list. A point is one value."""
    if "anyOf" in value:
        for one in value["anyOf"]:
            yield from leaves(one)
    elif "items" in value and "examples" not in value:
        yield from leaves(value["items"])
    elif "propertyNames" in value:
        yield value["propertyNames"]
        yield from leaves(value["additionalProperties"])
    elif "$ref" not in value and value.get("type") != "null":
        yield value


def types_of(leaf: dict[str, Any]) -> set[str]:
    """The types that a schema of one value takes, by their names in JSON Schema."""
    types = leaf.get("type", [])
    return {types} if isinstance(types, str) else set(types)


def _is_number(leaf: dict[str, Any]) -> bool:
    """Whether a value is a number or, like a point, made of numbers."""
    parts = [*leaf.get("prefixItems", ()), *([leaf["items"]] if isinstance(leaf.get("items"), dict) else [])]
    return bool(types_of(leaf) & set(NUMBERS)) or any(_is_number(part) for part in parts)


class _ForEditors(GenerateJsonSchema):
    """The schema as pydantic draws it from the models, but for what an editor would show amiss."""

    def field_title_should_be_set(self, schema: Any) -> bool:
        """No titles: they would repeat the key."""
        return False

    def default_schema(self, schema: Any) -> dict[str, Any]:
        """No default that says nothing: an editor would write `null` or `[]` into the file."""
        found = super().default_schema(schema)
        if found.get("default") in (None, [], {}):
            found.pop("default", None)
        return found

    def nullable_schema(self, schema: Any) -> dict[str, Any]:
        """A key with nothing after it is a key left out. Said within the type, which editors answer more shortly than a choice."""
        found = self.generate_inner(schema["schema"])
        if "type" in found:
            return found | {"type": [found["type"], "null"]}
        if "enum" in found:
            return found | {"enum": [*found["enum"], None]}
        return {"anyOf": [found, {"type": "null"}]}

    def dict_schema(self, schema: Any) -> dict[str, Any]:
        """A group whose names the writer chooses. To JSON every name is a text, the number of a user too."""
        name = copy.deepcopy(self.generate_inner(schema["keys_schema"]))
        what, bounds = "name", ""
        if name["type"] in NUMBERS:
            what, bounds = "number", f" From {name['minimum']:g} to {name['maximum']:g}."
            name = forms.WHOLE.as_name().schema()
        # Without a type: every name is a text to JSON, and an editor that takes the 1 of `1:` for a number would find fault.
        del name["type"]
        name["description"] = f"A {what} that you choose. {name['patternErrorMessage']}{bounds}"
        return {"type": "object", "propertyNames": name, "additionalProperties": self.generate_inner(schema["values_schema"])}
