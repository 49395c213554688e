"""Codes, PINs, passwords and station keywords have no place in any file: found by their key or by their shape.

Files hold facts about secrets ("changed from its default: yes"), never the secret. What is found is never quoted back, for
the answer may be read by others. Comments are not read, so nothing is refused in them; a line with one is not quoted.
"""
from collections.abc import Callable, Iterator
from typing import Any

from generator.intake.secret_words import asks_for_secret, gives_secret
from generator.intake.yaml_tree import Path_, Place, Tree, dotted
from generator.terms.problem import Problem

WHY = "a code, PIN, password or keyword has no place in any file: whoever reads it can open the house."
DO = "Take it out, keep it where the company keeps secrets, and change it: it has been written down."


def secrets(tree: Tree, chosen: Callable[[Path_], bool] = lambda path: False) -> Iterator[Problem]:
    """Every place of a file where a secret seems to stand.

    `chosen` tells of a path whether its last key is a name that the writer may choose, as a room's: a group under such a
    name is what the file's form says it is, whatever the name.
    """
    yield from _search(tree, tree.data, (), chosen)
    for path, place, value in tree.second:
        if _asks(path, value, chosen) or any(_search(tree, value, path, chosen)):
            yield _at(tree, place, path)


def _asks(path: Path_, value: Any, chosen: Callable[[Path_], bool]) -> bool:
    return asks_for_secret(str(path[-1])) and not (isinstance(value, dict) and chosen(path))


def _search(tree: Tree, value: Any, path: Path_, chosen: Callable[[Path_], bool]) -> Iterator[Problem]:
    if isinstance(value, dict):
        for key, inner in value.items():
            here = (*path, key)
            if gives_secret(key):
                yield _at(tree, tree.place(here, True), path)
            elif _asks(here, inner, chosen):
                yield _at(tree, tree.place(here, True), here)
            else:
                yield from _search(tree, inner, here, chosen)
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            yield from _search(tree, inner, (*path, index), chosen)
    elif isinstance(value, str) and gives_secret(" ".join(value.split())):
        yield _at(tree, tree.place(path), path)


def _at(tree: Tree, place: Place, path: Path_) -> Problem:
    # Without the line as it is written: the secret stands in it.
    return Problem(tree.file, *place, dotted(path), WHY, DO)


def without_secrets(problems: list[Problem], found: list[Problem]) -> list[Problem]:
    """The problems less those at a line where a secret stands, or under a key that asks for one: their words would quote it."""
    lines = {(one.file, one.line) for one in found}
    keys = tuple(f"{one.file}:{one.field}." for one in found if asks_for_secret(one.field.rpartition(".")[2]))
    return found + [one for one in problems if (one.file, one.line) not in lines
                    and not f"{one.file}:{one.field}.".startswith(keys)]
