"""Names, telephone numbers and addresses stand in people.yaml and nowhere else: found again in the job file, they are problems."""
from collections.abc import Iterator
from typing import Any

from generator.intake.yaml_tree import Path_, Tree
from generator.model.people import People
from generator.terms.problem import Problem


def personal(tree: Tree, people: People) -> Iterator[Problem]:
    """Every text of the job file that repeats what people.yaml says of a person."""
    # A name of one word can be a word of every day; a full name is nobody else's.
    known = [name for name in (people.customer.name, *(one.name for one in people.keyholders.values())) if " " in name.strip()]
    known += [people.customer.telephone, *(one.telephone for one in people.keyholders.values())]
    # A line with a number in it is a street or a post code; a line without may be the alias that the job goes by.
    known += [line for line in people.customer.address if any(letter.isdigit() for letter in line)]
    wanted = [text.casefold() for text in known]
    for path, text in _texts(tree.data, ()):
        if any(one in text.casefold() for one in wanted):
            yield tree.problem(path, "this stands in people.yaml too.", "Write a role or an alias here; personal data has one place only.")


def _texts(value: Any, path: Path_) -> Iterator[tuple[Path_, str]]:
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from _texts(inner, (*path, key))
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            yield from _texts(inner, (*path, index))
    elif isinstance(value, str):
        yield path, value
