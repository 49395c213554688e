"""Which event does a zone send when its unit signals? Common practice, no source: the control unit's own papers decide."""
import re

from generator.model.papers import Papers
from generator.model.premises import OUTSIDE
from generator.tables.events import (BY_KIND, BY_ROLE, HIGH_WORDS, HOLD_UP, INTERIOR, INTRUDER, LOW_WORDS, OUTDOORS, PERIMETER,
                                     TOO_HIGH, TOO_LOW)

# Kinds whose zones watch the shell of the house wherever they stand.
SHELL = ("contact", "shock", "glass-break")


def zone_codes(papers: Papers, device: str, circuit: str, hold_up: str = "") -> tuple[str, ...]:
    """The codes of one zone, by the role and kind of its unit, its place, and the name of its circuit.

    More than one means that it cannot be told which of them is sent: a temperature circuit whose name does not say whether
    it watches heat or cold. `hold_up` is "silent", "audible", or "" where it is not known.
    """
    one, kind = papers.job.devices[device], _kind(papers.sheet_of[device].kind, circuit)
    if hold_up and hold_up not in HOLD_UP:
        raise ValueError(f"hold-up {hold_up!r}: silent or audible is wanted")
    if kind == "temperature":
        return _temperature(circuit)
    if kind in BY_KIND:
        return (BY_KIND[kind],)
    if "hold-up" in (kind, one.role):
        return (HOLD_UP.get(hold_up, BY_ROLE["hold-up"]),)
    if one.role in BY_ROLE:
        return (BY_ROLE[one.role],)
    room = papers.room_of(one)
    if one.role is None or room is None:
        return (INTRUDER,)
    if one.protects or kind in SHELL:
        return (PERIMETER,)
    return (OUTDOORS if room == OUTSIDE else INTERIOR,)


def _kind(kind: str, circuit: str) -> str:
    """The kind of a circuit: that which its name says, as in a smoke alarm that also senses "carbon monoxide", else its unit's."""
    named = circuit.lower().replace(" ", "-")
    return named if named in (*BY_KIND, "temperature") else kind


def _temperature(circuit: str) -> tuple[str, ...]:
    words = set(re.findall("[A-Z]+", circuit.upper()))
    high, low = bool(words & HIGH_WORDS), bool(words & LOW_WORDS)
    if high == low:
        return TOO_HIGH, TOO_LOW
    return (TOO_HIGH,) if high else (TOO_LOW,)
