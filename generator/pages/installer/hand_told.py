"""The form of what the script of the installer's pack is told."""
from dataclasses import dataclass, field
from typing import Any

from generator.model.found import MOST_ENTRIES, FoundEntry


def entry_forms() -> dict[str, str]:
    """The pattern of each value of an entry, as the schema of a results file has it; a length is part of it. Read with a script's flag `u`, in which
    a character is one sign as it is to the schema.

    >>> entry_forms()["unit"], entry_forms()["result"][:12]
    ('^[\\\\s\\\\S]{0,40}$', '^(?:|done|co')
    """
    return {name: _pattern(one) for name, one in FoundEntry.model_json_schema()["properties"].items()}


def _pattern(schema: dict[str, Any]) -> str:
    if "enum" in schema:
        return f"^(?:{'|'.join(schema['enum'])})$"
    # Only what is free text has a length of its own: its pattern is one class, any number of times.
    return schema["pattern"].removesuffix("*$") + f"{{0,{schema['maxLength']}}}$" if "maxLength" in schema else schema["pattern"]



@dataclass(frozen=True)
class HandScale:
    """The scale of its own on which the control unit shows a link: what it counts in, the best it shows, the least its papers call good."""

    unit: str
    most: int
    passes: int


@dataclass(frozen=True)
class HandStep:
    """One step by its anchor: which of how many, its phase, where one comes to it, the unit it is about ("" for none), its hold point in
    words with the side on which it stands ("" for none), and what nobody can sign while it is not done ("" for nothing). `wanted` is the margin that should be read of its link so that a bad day is allowed for,
    in dB, and `wish` what is said while it is not; None and "" where no more is wanted than the limit."""

    id: str
    n: int
    phase: str
    page: str
    title: str
    unit: str
    hold: str
    unsigned: str
    wanted: float | None
    wish: str


@dataclass(frozen=True)
class HandHolds:
    """What hold points rest on. `rests` by the step of one that stands before it: places in `asked`, or the step whose hold point it is; `stops` is what
    is not done while something of it is open, by hold point, "else" for any other; `named` how a line of the checklist is called while it
    is open, where that says more than its title; `last` the step of the last hold point, which rests on the whole day."""

    rests: dict[str, tuple[int | str, ...]]
    stops: dict[str, str]
    named: dict[str, str]
    last: str


@dataclass(frozen=True)
class HandAsked:
    """One thing to write down: see `Asked`, hold points excepted, which the phone knows from the steps. Of a link `planned` are its directions; `limit` is what its value is held against in words, "" where there is nothing to compare with."""

    device: str
    step: str
    what: str
    kind: str
    title: str
    accept: str
    unit: str
    least: float | None
    most: float | None
    planned: str
    limit: str


@dataclass(frozen=True)
class HandUnit:
    """One number of a unit: the list it stands in ("zone", "keypad", "" for the control unit), number, input, text, where it is, the serial
    planned ("" where nobody knows it, or must not use it: then `stop` says why), short reference, page, and the kind of unit that it is."""

    id: str
    list: str
    number: str
    input: str
    text: str
    room: str
    serial: str
    stop: str
    short: str
    page: str
    kind: str


@dataclass(frozen=True)
class HandKeeping:
    """What a page says before anything is written: that it is kept and how long, `brief` where that was said before, or why it is not."""

    kept: str
    brief: str
    off: str
    full: str
    private: str
    alone: str
    long: str


@dataclass(frozen=True)
class HandSerial:
    """What is said of a serial as it is read. `tail`: so many of its last signs tell a unit from the others; `filled` is the note of one of
    which no more was read. In words: {device} is the unit at hand, {planned} its serial, {other} and {second} other units, {place} where the other is.
    Whatever begins in capitals is wrong, and is asked why."""

    tail: int
    filled: str
    start: str
    unplanned: str
    same: str
    ends: str
    alike: str
    another: str
    swapped: str
    twice: str
    so_far: str
    differs: str
    nobody: str


@dataclass(frozen=True)
class HandFile:
    """What is said of a results file that is not taken in; what is wrong, or of which pack it is, stands behind `other` and `damaged`, {id} is an entry's. `most` entries
    stand in a file, each value in its form: what the phone lets through, the office takes in."""

    foreign: str
    other: str
    damaged: str
    twice: str = "Two entries are called {id} and differ. Nothing was taken in."
    large: str = "Nothing was taken in: more entries stand in this file than are written down on any site."
    most: int = MOST_ENTRIES
    forms: dict[str, str] = field(default_factory=entry_forms)


@dataclass(frozen=True)
class HandWords:
    """What can be chosen with one tap: results of a test, whether something is done, why a step could not be, what was moved before a try,
    in which units a link is read; how the note of a step begins from which somebody went on. `keeping` is what is said of the browser, `file` of a file.

    `onward` are reasons to go on from a hold point; `holds` what its action says: where something is open, where all is right, then what is written
    of it where it does not hold, where it does. `sorts` are the sorts of what is open; `kinds` words of the trade for each kind of unit that the finder
    knows besides; `alike` which character is read for which. The rest is said of a value, or of a link."""

    results: tuple[str, ...]
    done: tuple[str, ...]
    reasons: tuple[str, ...]
    moved: tuple[str, ...]
    units: tuple[str, ...]
    without: str
    unread: str
    onward: tuple[str, ...]
    holds: tuple[str, ...]
    sorts: dict[str, str]
    kinds: dict[str, str]
    alike: dict[str, str]
    why: str
    more: str
    no_number: str
    than_sent: str
    ours: str
    busy: str
    other: str
    none: str
    keeping: HandKeeping
    serial: HandSerial
    file: HandFile


@dataclass(frozen=True)
class HandNumbers:
    """What is said of a number that no unit has: `free` by the number, of every list in which it is free; `lists` says what the numbers are."""

    free: dict[str, str]
    lists: str


@dataclass(frozen=True)
class HandData:
    """All of it. `end` stands where no step is left: its phase says so, its hold that no hold point is. `revision` is that which was issued, 0 for a pack that was not; `messages` how many test messages
    are sent to check a link, None where the profile names no number."""

    format: int
    reference: str
    revision: int
    fingerprint: str
    title: str
    scale: HandScale | None
    messages: float | None
    words: HandWords
    numbers: HandNumbers
    holds: HandHolds
    end: HandStep
    steps: tuple[HandStep, ...]
    asked: tuple[HandAsked, ...]
    units: tuple[HandUnit, ...]
