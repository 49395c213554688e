"""Codes, PINs, passwords and station keywords have no place in any file: found by their key or by their shape.

Files hold facts about secrets ("changed from its default: yes"), never the secret. What is found is never quoted back, for
the answer may be read by others.
"""
import re
from collections.abc import Iterator
from typing import Any

from generator.intake.yaml_tree import Path_, Tree
from generator.terms.problem import Problem

WHY = "a code, PIN, password or keyword has no place in any file: whoever reads it can open the house."
DO = "Take it out, keep it where the company keeps secrets, and change it: it has been written down."

# A key that ends in a fact about a secret is no secret.
SECRET_KEY = re.compile(
    r"(?:^|[_-])(?:pin|pins|code|codes|passcode|pass_?code|password|passwd|pwd|passphrase|secret|keyword|key_?word|"
    r"safe_?word|duress_?word|cancel_?word)\d*$", re.I)
# A post code, an area code, a date code open nothing.
_NAMES = r"(?<!area )(?<!post )(?<!zip )(?<!date )(?<!dialling )(?<!bar )(?:pin|pin code|code|passcode|access code|user code|master code|installer code|door code|gate code|alarm code)"
_WORDS = r"(?:password|pass ?word|passphrase|keyword|key word|safe word|cancel word|duress word|code ?word)"
SHAPES = (
    re.compile(rf"\b{_NAMES}s?\b\W{{0,3}}(?:(?:is|are|was|no|number|set to)\b\W{{0,3}})?[\"'“]?\d{{3,8}}\b", re.I),
    re.compile(rf"\b\d{{4,8}}\b\W{{0,3}}(?:is|=|as)\W{{0,3}}(?:(?:the|her|his|their|our|my)\s+)?{_NAMES}\b", re.I),
    re.compile(rf"\b{_WORDS}\b\s*(?:[:=]|is\b|are\b)\s*[\"'“]?(?!(?:held|kept|set|changed|not|never|known|asked|at|with|to)\b)\S+", re.I),
)


def secrets(tree: Tree) -> Iterator[Problem]:
    """Every place of a file where a secret seems to stand."""
    yield from _search(tree, tree.data, ())


def _search(tree: Tree, value: Any, path: Path_) -> Iterator[Problem]:
    if isinstance(value, dict):
        for key, inner in value.items():
            here = (*path, key)
            if SECRET_KEY.search(key) and not isinstance(inner, dict):
                yield _problem(tree, here, key=True)
            else:
                yield from _search(tree, inner, here)
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            yield from _search(tree, inner, (*path, index))
    elif isinstance(value, str) and any(shape.search(value) for shape in SHAPES):
        yield _problem(tree, path, key=False)


def _problem(tree: Tree, path: Path_, key: bool) -> Problem:
    line, column = tree.place(path, key)
    # Without the line as it is written: the secret stands in it.
    return Problem(tree.file, line, column, ".".join(map(str, path)), WHY, DO)


def without_secrets(problems: list[Problem], found: list[Problem]) -> list[Problem]:
    """The problems less those at a place where a secret stands: their words or their line would quote it."""
    lines = {(one.file, one.line) for one in found}
    return found + [one for one in problems if (one.file, one.line) not in lines]
