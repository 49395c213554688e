"""Which words must not be found in a reader's pack, and which cannot be looked for?"""
import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import Any

from generator.model.papers import Papers
from generator.model.visibility import choices, leaves, may_see
from generator.terms.audience import Audience
from generator.terms.show import day

SHORTEST = 5
WORD = re.compile(r"\w+")


@dataclass(frozen=True)
class Hidden:
    """A value that a reader may not see, as it is looked for, and the field it comes from."""

    text: str
    field: str


@dataclass(frozen=True)
class Skipped:
    """A hidden value that is not looked for: its field, and why not."""

    field: str
    why: str


@dataclass(frozen=True)
class OwnText:
    """The program's own wording: all of it, and the words in it."""

    text: str
    words: frozenset[str]

    @classmethod
    def of(cls, text: str) -> "OwnText":
        text = fold(text)
        return cls(text, frozenset(WORD.findall(text)))

    def holds(self, folded: str) -> bool:
        """Whether the wording says this by itself."""
        return self.words.issuperset(WORD.findall(folded)) and folded in self.text


def fold(text: str) -> str:
    """Text as it is compared: letters without case, any run of blanks one blank."""
    return " ".join(text.casefold().split())


def _written(value: Any) -> Iterator[str]:
    if isinstance(value, date):
        yield value.isoformat()
        yield day(value)
    elif isinstance(value, float):
        yield f"{value:g}"
    elif not isinstance(value, bool):
        yield str(value)


def _all(papers: Papers) -> Iterator[tuple[str, str, Any]]:
    yield from leaves(papers.job, "job", "job")
    for name, sheet in papers.sheet_of.items():
        yield from leaves(sheet, "sheet", f"sheet of {name}")
    yield from leaves(papers.company, "company", "company")
    yield from leaves(papers.profile, "profile", "profile")
    if papers.people:
        yield from leaves(papers.people, "people", "people")


@lru_cache(maxsize=1)
def _choices() -> frozenset[str]:
    return choices()


def hidden_values(papers: Papers, audience: Audience, own: OwnText) -> tuple[tuple[Hidden, ...], tuple[Skipped, ...]]:
    """What to look for in a reader's pack, and what is not looked for.

    Not looked for are values shorter than five characters, words out of a fixed list, values that also stand in a field
    which the reader may see, and values that are words of the program's own text: a hit would prove nothing.
    """
    seen: list[str] = []
    unseen: list[tuple[str, str, Any]] = []
    for pattern, field, value in _all(papers):
        (seen.extend(map(fold, _written(value))) if may_see(audience, pattern) else unseen.append((pattern, field, value)))
    visible = "\n".join(dict.fromkeys(seen))
    found: dict[str, Hidden] = {}
    skipped: dict[tuple[str, str], Skipped] = {}
    for pattern, field, value in unseen:
        for text in map(fold, _written(value)):
            why = _why_not(pattern, text, visible, own)
            if why:
                skipped.setdefault((field, why), Skipped(field, why))
            else:
                found.setdefault(text, Hidden(text, field))
    return tuple(found.values()), tuple(skipped.values())


def _why_not(pattern: str, text: str, visible: str, own: OwnText) -> str:
    if pattern in _choices():
        return "a word out of a fixed list"
    if len(text) < SHORTEST:
        return f"shorter than {SHORTEST} characters"
    if text in visible:
        return "stands in a field too that this reader may see"
    if own.holds(text):
        return "words of the program's own text"
    return ""
