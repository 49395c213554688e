"""A figure that a reader can unfold: how it was got, from what, and what it is held against. For installer and record only."""
from dataclasses import dataclass

from generator.calc.unknown import Unknown
from generator.calc.working import Given, Working
from generator.pages.origins import origin_in_words

HELD = {True: "kept", False: "not kept", None: ""}


@dataclass(frozen=True)
class InputView:
    """One number that went in: its name with its symbol, its value, and where it was given and how it is known."""

    name: str
    value: str
    origin: str


@dataclass(frozen=True)
class WorkingView:
    """One figure. `level` is for the style: kept, unkept, or unheld where there is no limit."""

    level: str
    summary: str
    words: str
    symbols: str
    inputs: tuple[InputView, ...]
    result: str
    limit: str
    limit_from: str
    notes: tuple[str, ...]


def working_view(one: Working) -> WorkingView:
    """A working as pages show it."""
    holds, result = one.holds(), f"{one.symbol} = {one.shown()}" if one.symbol else one.shown()
    level = {True: "kept", False: "unkept", None: "unheld"}[holds]
    limit = f"{'At least' if one.limit_is == 'least' else 'At most'} {one.limit_shown()}, {one.limit.name}: {HELD[holds]}" if one.limit else ""
    return WorkingView(level, summary(one), one.words, one.symbols, tuple(map(_input, one.inputs)), result, limit,
                       origin_in_words(one.limit.origin) if one.limit else "", one.notes)


def summary(one: Working) -> str:
    """Figure and limit in a line: "Time to recharge: 14 h, at most 72 h: kept"."""
    if one.limit is None:
        return f"{one.title}: {one.shown()}"
    return f"{one.title}: {one.shown()}, at {one.limit_is} {one.limit_shown()}: {HELD[one.holds()]}"


def not_checked(*parts: object) -> tuple[str, ...]:
    """What could not be worked out, each in a sentence, each once."""
    return tuple(dict.fromkeys(f"Not checked, because {one.reason}." for one in parts if isinstance(one, Unknown)))


def _input(one: Given) -> InputView:
    return InputView(f"{one.name} ({one.symbol})" if one.symbol else one.name, one.shown(), origin_in_words(one.origin))
