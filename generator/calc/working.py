"""How was a figure got? The one form in which a calculation shows it, so that every page can unfold every figure.

Whoever cannot check one number believes none. So a working holds the formula twice, in words and in symbols, each number
that went in with the place where it was given, and what the result is held against. Nothing here rounds: numbers become
text in `terms/show.py` alone.
"""
import math
from dataclasses import dataclass
from typing import Literal

from generator.calc.bounds import reaches
from generator.model.profile import Profile
from generator.terms.show import figure, told_apart
from generator.terms.source import Source

WORKED_OUT = "worked out"


@dataclass(frozen=True)
class Given:
    """One number of a working: what it is, its symbol in the formula, value, unit and where it was given.

    `origin` names the field, the sheet or, for a limit or a constant, the document; `known` is the mark of a number that
    has a document, empty for one that a person wrote or that was worked out.
    """

    name: str
    symbol: str
    value: float
    unit: str
    origin: str
    known: str = ""

    def __post_init__(self) -> None:
        if isinstance(self.value, bool) or not isinstance(self.value, int | float) or not math.isfinite(self.value):
            raise ValueError(f"{self.name} is no finite number.")

    def shown(self) -> str:
        """The number and its unit, as people read them."""
        return figure(self.value, self.unit)


@dataclass(frozen=True)
class Working:
    """A figure and how it was got.

    `least` and `most` say which kind of limit it is held against: what must at least be reached, or must not be
    exceeded. `notes` say in whole sentences what else must be known: extrapolated, derated, assumed. `digits` is how
    many of the result's digits mean something.
    """

    title: str
    words: str
    symbols: str
    inputs: tuple[Given, ...]
    symbol: str
    value: float
    unit: str
    limit: Given | None = None
    limit_is: Literal["least", "most", ""] = ""
    notes: tuple[str, ...] = ()
    digits: int = 4

    def __post_init__(self) -> None:
        if not math.isfinite(self.value):
            raise ValueError(f"{self.title}: the result is no finite number.")
        if bool(self.limit) != bool(self.limit_is):
            raise ValueError(f"{self.title}: a limit is either the least or the most.")

    def holds(self) -> bool | None:
        """Whether the limit is kept; None if there is none."""
        if self.limit is None:
            return None
        return reaches(self.value, self.limit.value) if self.limit_is == "least" else reaches(self.limit.value, self.value)

    def shown(self) -> str:
        """The result and its unit, as people read them; beside a limit, told apart from it."""
        return figure(self.value, self.unit, self.digits) if self.limit is None else _with_unit(self._apart()[0], self.unit)

    def limit_shown(self) -> str:
        """The limit and its unit, told apart from the result; nothing if there is none."""
        return _with_unit(self._apart()[1], self.limit.unit) if self.limit else ""

    def _apart(self) -> tuple[str, str]:
        return told_apart(self.value, self.limit.value, min(self.digits, 3))


def of_limit(profile: Profile, key: str, symbol: str) -> Given | None:
    """A limit of the profile as a number of a working; None if the profile holds no such limit."""
    limit = profile.limits.get(key)
    if limit is None:
        return None
    return of_source(limit.means, symbol, limit.value, limit.unit or "", profile.source_of(key))


def of_source(name: str, symbol: str, value: float, unit: str, source: Source) -> Given:
    """A number out of a document."""
    return Given(name, symbol, value, unit, source.cited(), source.known.value)


def worked_out(working: Working, name: str = "") -> Given:
    """The result of one working as a number of the next."""
    return Given(name or working.title, working.symbol, working.value, working.unit, WORKED_OUT)


def _with_unit(text: str, unit: str) -> str:
    return f"{text} {unit}".rstrip()
