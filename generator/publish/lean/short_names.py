"""Classes by names of a letter or two: in one file they stand thousands of times."""
import itertools
import re
import string
from collections import Counter
from collections.abc import Iterator

from generator.publish.lean.pieces import TEXT, pieces

CLASS = re.compile(r'(?<= )class=("[^"]*"|[^\s>"]+)')
SELECTED = re.compile(r"\.([A-Za-z_][\w-]*)")
WORD = re.compile(r"[A-Za-z_][\w-]*")


def short_names(page: str, style: str, script: str) -> tuple[str, str]:
    """A page and its style with short names for classes, the commonest the shortest. A name that is a word in a text of the script stays as it is: only
    by a text can a script reach a class."""
    words = frozenset(word for piece in pieces(script) if piece.kind == TEXT for word in WORD.findall(piece.text))
    often = Counter(name for match in CLASS.finditer(page) for name in _names(match[1]))
    given = _given(words | often.keys())
    short = {name: name if name in words else min(next(given), name, key=len) for name, _ in often.most_common()}
    return CLASS.sub(lambda match: _attribute([short[name] for name in _names(match[1])]), page), SELECTED.sub(lambda match: f".{short.get(match[1], match[1])}", style)


def _names(value: str) -> list[str]:
    return value.strip('"').split()


def _attribute(names: list[str]) -> str:
    return f'class="{" ".join(names)}"' if len(names) > 1 else f"class={names[0]}"


def _given(taken: frozenset[str]) -> Iterator[str]:
    """Names of one letter, then of two, that nothing else bears."""
    for length in itertools.count(1):
        yield from (name for name in map("".join, itertools.product(string.ascii_lowercase, repeat=length)) if name not in taken)
