"""What one event of a system is, and one call with the station: plain records that `events.py` and `calls_of_day.py` share."""
from dataclasses import dataclass

from generator.terms.source import Source


@dataclass(frozen=True)
class Sent:
    """One message and what it says; `message` is "" where it cannot be written, and `SentEvents.unsaid` has the reason."""

    means: str
    message: str


@dataclass(frozen=True)
class EventRow:
    """One event that the system sends.

    `about` is zone, user or system, `number` that zone or user, 0 for the system; `device` is "" where no unit stands for
    it; `text` is the zone's text or the user's role. `begins` and `ends` are its two messages, None for one never sent.
    """

    code: str
    means: str
    about: str
    partition: int
    number: int
    device: str
    text: str
    begins: Sent | None
    ends: Sent | None
    source: Source


@dataclass(frozen=True)
class PlannedTest:
    """One thing done on the day and the messages that the station must see, in their order.

    `code` is the event it is done for, `state` the state of the system in which it is done, one of `tables/events.STATES`;
    `setting` counts the times that the system is set for zones, from 1; 0 for what needs none of them.
    """

    do: str
    code: str
    state: str
    device: str
    number: int
    text: str
    expects: tuple[Sent, ...]
    setting: int = 0
