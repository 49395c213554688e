"""Which words must not be found in a reader's pack, and which cannot be looked for?"""
import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import lru_cache
from typing import Any

from generator.model.papers import Papers
from generator.model.visibility import choices, leaves, may_see
from generator.terms.audience import Audience
from generator.terms.show import day, long_day

SHORTEST = 5
# A hidden text is no proof of a leak if the pack says it anyway in so few pieces: "front door", "sensor in the | hall".
MOST_PIECES = 3
LONGEST_PIECED = 12
CLOCK = re.compile(r"[0-9]{2}:[0-9]{2}")
WORD = re.compile(r"\w+")
PLACEHOLDER = re.compile(r"\{[^}]*\}")
EMPHASIS = re.compile(r"[*_`]+")


@dataclass(frozen=True)
class Hidden:
    """A value that a reader may not see, as it is looked for, and the field it comes from."""

    text: str
    field: str
    pattern: str = ""


@dataclass(frozen=True)
class Skipped:
    """A hidden value that is not looked for: its field, and why not."""

    field: str
    why: str
    pattern: str = ""


@dataclass(frozen=True)
class Wording:
    """What is said anyway: by the program and its theme, or by the fields that a reader may see.

    `answered` are phrases that it was asked about: the same values are hidden from several readers.
    """

    words: tuple[str, ...]
    places: Mapping[str, list[int]]
    answered: dict[tuple[str, ...], bool] = field(default_factory=dict, compare=False, repr=False)

    @classmethod
    def of(cls, texts: Iterable[str]) -> "Wording":
        """The wording of some texts; no phrase runs from one text into the next."""
        words: list[str] = []
        for text in texts:
            words += WORD.findall(text.casefold().replace("_", " "))
            words.append("")
        places: defaultdict[str, list[int]] = defaultdict(list)
        for place, word in enumerate(words):
            places[word].append(place)
        return cls(tuple(words), dict(places))

    def says(self, words: tuple[str, ...]) -> bool:
        """Whether these words stand in it one after the other."""
        if words not in self.answered:
            self.answered[words] = self._says(words)
        return self.answered[words]

    def _says(self, words: tuple[str, ...]) -> bool:
        """Looks where the rarest of the words stands."""
        rarest = min(range(len(words)), key=lambda index: len(self.places.get(words[index], ())))
        return any(self.words[place - rarest:place - rarest + len(words)] == words
                   for place in self.places.get(words[rarest], ()))


def fold(text: str) -> str:
    """Text as it is compared: letters without case, any run of blanks one blank."""
    return " ".join(text.casefold().split())


def pieces(words: tuple[str, ...], wordings: tuple[Wording, ...]) -> int:
    """The fewest pieces, each said in one of the wordings, that make up these words; more than MOST_PIECES if it takes more.

    Who says a phrase says every part of it: none does better than to take the longest piece that is said, time and again.
    """
    found = start = 0
    while start < len(words):
        end = start
        while end < len(words) and any(one.says(words[start:end + 1]) for one in wordings):
            end += 1
        if end == start or found == MOST_PIECES:
            return MOST_PIECES + 1
        found, start = found + 1, end
    return found


def _written(value: Any) -> Iterator[str]:
    """The ways in which a value may be printed."""
    if isinstance(value, date):
        yield value.isoformat()
        yield day(value)
        yield long_day(value)
    elif isinstance(value, float):
        yield f"{value:g}"
    elif isinstance(value, str):
        # Texts of sheets are printed with their placeholders filled, notes without the marks of emphasis.
        whole = max(PLACEHOLDER.split(value), key=len)
        yield whole.strip()
        if EMPHASIS.search(whole):
            yield EMPHASIS.sub("", whole).strip()
    else:
        yield str(value)


def _all(papers: Papers) -> Iterator[tuple[str, str, Any]]:
    yield from leaves(papers.job, "job", "job")
    for name, sheet in papers.sheet_of.items():
        yield from leaves(sheet, "sheet", f"sheet of {name}")
    yield from leaves(papers.company, "company", "company")
    yield from leaves(papers.profile, "profile", "profile")
    if papers.people:
        yield from leaves(papers.people, "people", "people")
    # What was typed on site. Of thousands of entries each kind of value is one field: where it is not looked for, that is said once.
    for name in ("value", "note", "by"):
        for text in dict.fromkeys(getattr(entry, name) for file in papers.site for entry in file.entries):
            if text.strip():
                yield f"results.entries.*.{name}", f"found on site, {name}", text


Written = tuple[str, str, tuple[str, ...]]


def written_values(papers: Papers) -> tuple[Written, ...]:
    """Every value of a job, whoever may see it: its row in the table, its field, and the ways it may be printed, folded."""
    return tuple((pattern, field, tuple(map(fold, _written(value)))) for pattern, field, value in _all(papers))


@lru_cache(maxsize=1)
def _choices() -> frozenset[str]:
    return choices()


def hidden_values(values: Iterable[Written], audience: Audience, own: Wording,
                  also_seen: tuple[str, ...] = ()) -> tuple[tuple[Hidden, ...], tuple[Skipped, ...]]:
    """What to look for in a reader's pack, and what is not looked for.

    Not looked for are values shorter than five characters, words out of a fixed list, times of day that were written on site, values that
    also stand in a field which the reader may see, and values that the pack says anyway: a hit would prove nothing. `also_seen` are texts that
    stand in every pack besides the fields.
    """
    seen = list(also_seen)
    unseen: list[Written] = []
    for one in values:
        if may_see(audience, one[0]):
            seen.extend(one[2])
        else:
            unseen.append(one)
    visible = "\n".join(dict.fromkeys(map(fold, seen)))
    # A name such as front-door is printed with blanks.
    wordings = (own, Wording.of(dict.fromkeys(seen)))
    found: dict[str, Hidden] = {}
    skipped: dict[tuple[str, str], Skipped] = {}
    for pattern, field, texts in unseen:
        for text in texts:
            why = _why_not(pattern, text, visible, wordings)
            if why:
                skipped.setdefault((field, why), Skipped(field, why, pattern))
            else:
                found.setdefault(text, Hidden(text, field, pattern))
    return tuple(found.values()), tuple(skipped.values())


def _why_not(pattern: str, text: str, visible: str, wordings: tuple[Wording, ...]) -> str:
    if pattern in _choices():
        return "a word out of a fixed list"
    if len(text) < SHORTEST:
        return f"shorter than {SHORTEST} characters"
    if pattern.startswith("results.") and CLOCK.fullmatch(text):
        return "a time of day that was written on site: another may be the same"
    if text in visible:
        return "stands in a field too that this reader may see"
    words = tuple(WORD.findall(text.replace("_", " ")))
    if not words:
        return "holds no letter and no digit"
    if len(words) <= LONGEST_PIECED and pieces(words, wordings) <= MOST_PIECES:
        return "words that this pack says anyway"
    return ""
