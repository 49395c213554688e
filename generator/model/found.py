"""What was found on site, as a phone wrote it: read by `doorpost results`, kept under `site/` beside the job file, edited by nobody.

The same thing is (`device`, `step`, `what`). A file is text that holds JSON; phones do not hand on other kinds of file.
"""
from typing import Annotated

from generator.model.entry import Entry
from generator.model.fields import (Drawing, EntryId, LongPrint, Moment, Name, PhoneId, ShortPrint, StepName, Thing, Told, ToldNote, ToldShort,
                                    UnitOrNone, Whole, choice, of_length, within)

FORMAT = 1
MOST_ENTRIES = 20_000
DONE, COULD_NOT = "done", "could not"
# What a line of the checklist can come to; a blank is none of them.
PASS, FAIL, COULD_NOT_TEST, NOT_APPLICABLE = "pass", "fail", "could not test", "not applicable"
SIGNATURE = "signature/"
# Notes that nobody on site wrote. What the phone notes of a serial of which it filled in the rest; what stands where a code seemed to.
FILLED = "Only its last signs were read; the rest is from the plan."
TAKEN_OUT = "(taken out: it seemed to hold a code; ask whoever wrote it)"


class FoundEntry(Entry):
    """One thing that was written down. A later entry of the same phone corrects an earlier one of the same thing; both are kept. Every key stands in
    every entry, as phones write and ask for it."""

    id: EntryId
    """The phone, this opening of the pack, and a counter that grows as long as the phone keeps the pack."""
    device: UnitOrNone
    """The unit; empty for the system."""
    step: StepName
    """The step of the day, as its address on the page names it."""
    what: Thing
    """What was written down: the step, a serial, an attempt of a signal check, a line of the checklist, a call with the station, a photograph, a signature,
    a hold point, a note."""
    value: Told
    """What was read, measured or typed."""
    unit: ToldShort
    """The unit of the value."""
    result: choice("", DONE, COULD_NOT, PASS, FAIL, COULD_NOT_TEST, NOT_APPLICABLE)
    """What it came to; empty where only a value or a note is written."""
    at: Moment
    """When, by the phone's clock; entries are ordered by their counter, since clocks can be wrong."""
    by: ToldShort
    """Who, in short letters; never a name."""
    note: ToldNote
    """The reason, or whatever else is to be known."""


class FoundFile(Entry):
    """Everything that a phone holds of a job."""

    format: choice(str(FORMAT))
    """Version of this form; 1."""
    reference: Name
    """The job's reference."""
    revision: Annotated[Whole, within(0, 9999)]
    """The revision of the pack; 0 if it was not issued."""
    fingerprint: ShortPrint
    """The fingerprint at the foot of the pack's pages."""
    phone: PhoneId
    """The phone that wrote the file."""
    entries: Annotated[list[FoundEntry], of_length(0, MOST_ENTRIES, f"at most {MOST_ENTRIES} entries")]
    """Every entry that the phone holds, those of other phones among them."""
    signatures: dict[LongPrint, Drawing] = {}
    """What was drawn as a signature, as lines, by its SHA-256."""


def phone_of(entry: FoundEntry) -> str:
    """The phone that wrote an entry."""
    return entry.id.partition("-")[0]


def counter_of(entry: FoundEntry) -> int:
    """How many entries its phone had written by then; it grows as long as the phone keeps the pack."""
    return int(entry.id.rpartition("-")[2])
