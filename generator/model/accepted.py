"""What the company decided to live with, and who answers for it."""
from generator.model.entry import Entry
from generator.model.fields import Day, Key, Note, Text


class Accepted(Entry):
    """A finding that somebody answers for. It lapses as soon as one of the values compared is another."""

    rule: Key
    """The rule that speaks."""
    at: Text
    """The field at which it speaks, as `doorpost check` names it, for example times.entry_s."""
    values: Note
    """The values compared, as `doorpost check --how-to-accept` prints them."""
    who: Text
    """Role of whoever accepts it, never a person's name."""
    on: Day
    """The day on which it was accepted."""
    why: Text
    """The reason, for whoever asks in three years."""
