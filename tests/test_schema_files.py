"""Do schema and reader agree on whole files: those that a schema takes, and those with one thing spoiled?"""
import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from pydantic import ValidationError

from generator.model.schema import WRITTEN
from tests.schema_fields import FORMATS, SCHEMAS, as_written
from tests.schema_files import files, spoiled

# Without explaining: of so large a value that takes minutes.
MANY = settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck),
                phases=(Phase.explicit, Phase.reuse, Phase.generate, Phase.shrink))
FILES = {root: files(SCHEMAS[root], SCHEMAS[root]) for root in WRITTEN}
SPOILED = {root: spoiled(FILES[root], SCHEMAS[root]) for root in WRITTEN}


def validator(root: str) -> Draft202012Validator:
    return Draft202012Validator(SCHEMAS[root], format_checker=FORMATS)


def faults(root: str, value: object) -> list[str]:
    """What our reader says against a file's data, references between files aside."""
    try:
        WRITTEN[root].model_validate(as_written(value))
    except ValidationError as error:
        return [f"{one['loc']}: {one['msg']}" for one in error.errors()]
    return []


@pytest.mark.parametrize("root", WRITTEN)
@MANY
@given(data=st.data())
def test_a_file_that_the_schema_takes_the_reader_takes(root: str, data: st.DataObject) -> None:
    value = data.draw(FILES[root])
    validator(root).validate(value)
    assert faults(root, value) == []


@pytest.mark.parametrize("root", WRITTEN)
@MANY
@given(data=st.data())
def test_of_a_spoiled_file_schema_and_reader_say_the_same(root: str, data: st.DataObject) -> None:
    value = data.draw(SPOILED[root])
    assert bool(faults(root, value)) == (not validator(root).is_valid(value)), faults(root, value)
