"""Does the printed schema of a file say what our reader takes, neither more strictly nor in other words?

Independent of us: the meta-schema of JSON Schema draft 2020-12 and the validator, both of the package jsonschema.
"""
import json
import re
from typing import Annotated, get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from pydantic import BaseModel, TypeAdapter

from generator.model import fields
from generator.model.examples import EXAMPLES
from generator.model.schema import WRITTEN, leaves, schema_of, types_of
from generator.terms.units import unit_of
from tests.every_field import PROFILE, every_field_files
from tests.schema_fields import FORMATS, SCHEMAS, Leaf, as_written, every_leaf, file_seen, seen

LEAVES = every_leaf()


def one_of_each(*leaving_out: str) -> list[Leaf]:
    """One value of each kind: of two with the same schema, some words of it left out, the first."""
    def same(leaf: Leaf) -> str:
        return json.dumps({name: part for name, part in leaf.schema.items() if name not in leaving_out}) + str(leaf.is_name)

    return list({same(leaf): leaf for leaf in reversed(LEAVES)}.values())


WORDS = ("description", "examples", "x-unit")
BOUNDED = one_of_each(*WORDS)
# The ends of bounds are proved for each; between them, numbers are alike.
KINDS = one_of_each(*WORDS, "minimum", "maximum")


def groups(root: str) -> dict[str, dict]:
    """Every group of keys in a schema, by its name."""
    return {"": SCHEMAS[root], **SCHEMAS[root].get("$defs", {})}


def models(model: type[BaseModel], name: str = "") -> dict[str, type[BaseModel]]:
    """Every class of a kind of file, by the name of its group in the schema."""
    found = {name: model}
    for field in model.model_fields.values():
        for inner in (one for one in _parts(field.annotation) if hasattr(one, "model_fields")):
            found |= models(inner, inner.__name__)
    return found


def _parts(annotation) -> list:
    return [annotation, *(part for one in get_args(annotation) for part in _parts(one))]


@pytest.mark.parametrize("root", WRITTEN)
def test_a_schema_is_one_by_the_meta_schema(root: str) -> None:
    Draft202012Validator.check_schema(SCHEMAS[root])
    assert SCHEMAS[root]["$schema"].endswith("draft/2020-12/schema") and SCHEMAS[root]["$id"].startswith("urn:")
    assert SCHEMAS[root]["title"]


@pytest.mark.parametrize("root", WRITTEN)
def test_every_property_has_a_description_and_every_group_is_closed(root: str) -> None:
    for name, group in groups(root).items():
        assert group["additionalProperties"] is False and group["description"], name
        assert [key for key, value in group["properties"].items() if not value.get("description")] == [], name


@pytest.mark.parametrize("root", WRITTEN)
def test_what_is_required_is_what_the_reader_misses(root: str) -> None:
    with pytest.raises(Exception) as caught:
        WRITTEN[root].model_validate({})
    missing = {error["loc"][0] for error in caught.value.errors() if error["type"] == "missing"}
    assert missing == set(SCHEMAS[root]["required"])


@pytest.mark.parametrize("leaf", LEAVES, ids=lambda leaf: leaf.way)
def test_the_examples_of_a_value_are_taken_by_schema_and_reader(leaf: Leaf) -> None:
    assert leaf.schema.get("examples"), "its kind needs examples in model/forms.py"
    for example in leaf.schema["examples"]:
        text = {True: "true", False: "false"}[example] if isinstance(example, bool) else str(example)
        assert leaf.takes(example) and leaf.read(text), example


@pytest.mark.parametrize("leaf", LEAVES, ids=lambda leaf: leaf.way)
def test_a_value_is_bounded_by_a_pattern_by_numbers_or_by_a_list(leaf: Leaf) -> None:
    if {"integer", "number"} & types_of(leaf.schema):
        assert leaf.schema["minimum"] < leaf.schema["maximum"]
    elif "enum" not in leaf.schema and "boolean" not in types_of(leaf.schema):
        assert leaf.schema["pattern"] and leaf.schema["patternErrorMessage"]


@pytest.mark.parametrize("leaf", BOUNDED, ids=lambda leaf: leaf.way)
def test_the_ends_of_what_may_be_written_are_the_same(leaf: Leaf) -> None:
    schema = leaf.schema
    inside = ["x" * schema["maxLength"]] if "maxLength" in schema else []
    outside = ["x" * (schema["maxLength"] + 1)] if "maxLength" in schema else []
    if "minimum" in schema:
        inside += [schema["minimum"], schema["maximum"]]
        outside += [schema["minimum"] - 1, schema["maximum"] + 1]
    assert [one for one in inside if not leaf.takes(one) or not leaf.read(as_written(one))] == []
    assert [one for one in outside if leaf.takes(one) or leaf.read(as_written(one))] == []


@pytest.mark.parametrize("root", WRITTEN)
def test_nothing_after_a_key_is_taken_where_the_reader_takes_it(root: str) -> None:
    def takes(name: str, key: str) -> bool:
        schema = {**groups(root)[name]["properties"][key], "$defs": SCHEMAS[root].get("$defs", {})}
        return Draft202012Validator(schema).is_valid(None)

    fields_of = {(name, key): field for name, model in models(WRITTEN[root]).items() for key, field in model.model_fields.items()}
    told = {way: takes(*way) for way in fields_of}
    assert told == {way: Leaf("", field.rebuild_annotation(), {}).read(None) for way, field in fields_of.items()}


def test_a_unit_stands_wherever_a_key_names_one() -> None:
    told = 0
    for root in WRITTEN:
        for group in groups(root).values():
            for key, value in group["properties"].items():
                numbers = [leaf for leaf in leaves(value) if {"integer", "number"} & types_of(leaf)]
                if unit_of(key) and numbers:
                    told += 1
                    assert value["description"].endswith(f" Unit: {unit_of(key)}.")
                    assert all(leaf["x-unit"] == unit_of(key) for leaf in numbers)
    assert told >= 8


def test_nearer_examples_are_those_of_fields_that_exist() -> None:
    known = {f"{name or WRITTEN[root].__name__}.{key}" for root in WRITTEN for name, group in groups(root).items()
             for key in group["properties"]}
    assert set(EXAMPLES) - known == set()


def test_a_file_with_every_field_set_is_taken() -> None:
    files = every_field_files()
    every = [("job", files["job"]), ("people", files["people"]), ("company", files["company"]),
             ("profile", files["profiles"][PROFILE]), *(("sheet", sheet) for sheet in files["equipment"].values())]
    for root, data in every:
        value = file_seen(data, SCHEMAS[root], SCHEMAS[root])
        faults = [f"{error.json_path}: {error.message}" for error in
                  Draft202012Validator(SCHEMAS[root], format_checker=FORMATS).iter_errors(value)]
        assert faults == [], root


def texts(leaf: Leaf) -> st.SearchStrategy[str]:
    """Texts that fit a value, nearly fit it, or do not."""
    pattern = leaf.schema.get("pattern", "^-?[0-9]{1,11}([.][0-9]{0,7})?$").removeprefix("^").removesuffix("$")
    fitting = st.from_regex(pattern, fullmatch=True)
    words = st.sampled_from([*map(str, leaf.schema.get("enum", ())), "true", "no", "TRUE", "1e3", "0x1F", "007", "", "null", "12 ",
                             "2026-02-30", "0000-01-01", "24:00", "\u00a0", "\ufeff", "a\u202eb", "x" * 201, "x" * 4001])
    spoiled = st.builds(lambda text, at, more: text[:at] + more + text[at:], fitting, st.integers(0, 12), st.characters(codec="utf-8"))
    return st.one_of(fitting, spoiled, words, st.text(max_size=8), st.integers().map(str))


def spelled_otherwise(text: str, value: object) -> bool:
    """Texts that our reader takes and of which an editor is told one spelling only: yes and no, and true in odd letters."""
    return not isinstance(value, bool) and text.lower() in ("yes", "no", "true", "false")


@pytest.mark.parametrize("leaf", KINDS, ids=lambda leaf: leaf.way)
@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_what_the_reader_takes_the_schema_takes(leaf: Leaf, data: st.DataObject) -> None:
    text = data.draw(texts(leaf))
    value = seen(text, leaf.quoted)
    if leaf.read(None if value is None else text) and not ("boolean" in types_of(leaf.schema) and spelled_otherwise(text, value)):
        assert leaf.takes(value), text


@pytest.mark.parametrize("leaf", KINDS, ids=lambda leaf: leaf.way)
@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_what_the_schema_takes_the_reader_takes(leaf: Leaf, data: st.DataObject) -> None:
    numbers = st.one_of(st.integers(), st.floats(allow_nan=False, allow_infinity=False), st.booleans(), st.none())
    value = data.draw(texts(leaf) if leaf.quoted else st.one_of(numbers, texts(leaf).map(lambda text: seen(text, False))))
    if isinstance(value, float) and (value.is_integer() or round(value, 6) != value):
        # 12.0 is a whole number to JSON Schema, and more than six decimals are too many for us only.
        return
    # A `$` of Python also stands before a last line end; that of ECMA-262 does not.
    if leaf.takes(value) and not (isinstance(value, str) and value.endswith("\n")):
        # A user's number is a text where it is a name, and a pattern knows no bounds.
        if leaf.is_name and value.isdecimal() and not 1 <= int(value) <= 9999:
            return
        assert leaf.read(as_written(value)), value


def test_a_kind_without_examples_is_seen() -> None:
    class Strange(BaseModel):
        model_config = {"use_attribute_docstrings": True}
        odd: str
        """A text of no kind."""

    bare = Leaf("strange.odd", str, Strange.model_json_schema()["properties"]["odd"])
    with pytest.raises(AssertionError):
        test_the_examples_of_a_value_are_taken_by_schema_and_reader(bare)
    with pytest.raises(KeyError):
        test_a_value_is_bounded_by_a_pattern_by_numbers_or_by_a_list(bare)


def test_bounds_reach_the_schema_and_the_examples_lie_within() -> None:
    schema = TypeAdapter(Annotated[fields.Whole, fields.within(700, 800)]).json_schema()
    assert (schema["minimum"], schema["maximum"], schema["examples"]) == (700, 800, [700])


@pytest.mark.parametrize("kind, what", [(list[fields.Key], "Items"), (dict[fields.Key, fields.Key], "Properties")])
def test_the_length_of_a_list_or_group_reaches_the_schema(kind, what: str) -> None:
    schema = TypeAdapter(Annotated[kind, fields.of_length(2, 3, "two or three")]).json_schema()
    assert (schema[f"min{what}"], schema[f"max{what}"]) == (2, 3)


@pytest.mark.parametrize("kind", WRITTEN)
def test_the_command_prints_the_schema(run, kind: str) -> None:
    code, out, _ = run("schema", kind)
    assert code == 0 and json.loads(out) == schema_of(kind)


def test_the_command_writes_all_schemas(run, tmp_path) -> None:
    code, out, _ = run("schema", "all", "--out", tmp_path / "new" / "schemas")
    assert code == 0 and len(out.splitlines()) == len(WRITTEN)
    for kind in WRITTEN:
        assert json.loads((tmp_path / "new" / "schemas" / f"{kind}.schema.json").read_text(encoding="utf-8")) == schema_of(kind)


def test_the_command_answers_what_it_cannot_do(run, tmp_path) -> None:
    assert run("schema", "all")[0] == 2
    assert run("schema", "house")[0] == 2
    (tmp_path / "file").write_text("", encoding="utf-8")
    code, _, said = run("schema", "job", "--out", tmp_path / "file")
    assert code == 4 and "could not be written" in said


def test_a_schema_names_no_address_but_its_draft(run) -> None:
    hosts = {host for kind in WRITTEN for host in re.findall(r"https?://([a-z0-9.-]+)", run("schema", kind)[1])}
    assert {host for host in hosts if not host.endswith(".example")} == {"json-schema.org"}
