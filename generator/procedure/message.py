"""What a safety message is.

Signal words in their ANSI Z535.6 sense, derived afresh for each hazard: DANGER where death or serious injury will
follow if the message is ignored, WARNING where it could, CAUTION where minor or moderate injury could, NOTICE where
nobody is hurt. Source: `tables.sources.SIGNAL_WORDS`.
"""
from dataclasses import dataclass
from enum import StrEnum


class Word(StrEnum):
    """The signal word of a message."""

    DANGER = "DANGER"
    WARNING = "WARNING"
    CAUTION = "CAUTION"
    NOTICE = "NOTICE"


@dataclass(frozen=True)
class Message:
    """One hazard: what it is, what it does, how to avoid it, and whose word counts above this pack's.

    `brief` is how to avoid it in one line, for a step further down the page on which the message stands in full.
    """

    id: str
    word: Word
    hazard: str
    consequence: str
    avoid: str
    defers_to: str
    brief: str
