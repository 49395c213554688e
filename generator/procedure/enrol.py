"""Making each unit known to the control unit, and proving that it is the one that was meant."""
import re
from collections.abc import Iterator

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.procedure import messages
from generator.procedure.climb import climb, two_people, who_reads
from generator.procedure.handling import filled
from generator.procedure.high_up import first_enrolled, high_sounders
from generator.procedure.power import powered
from generator.procedure.safety import PERSONAL_KINDS, fed_by_wire, met
from generator.procedure.signing import AS_FITTED, lines_of
from generator.procedure.step import Hold, Step
from generator.procedure.units import attributes, enrol_minutes, fitted, numbered, unit_facts, without_number

# How a unit that is not set off shows which one it is; all others are triggered.
PROVED = {"repeater": "send a test from it as its papers say", "keypad": "press a key of it", "reader": "hold a tag to it",
          "sounder": "have it answer as its papers say, its lid shut"}


def enrol(papers: Papers, results: Results) -> Iterator[Step]:
    """A step for each unit, in the order of enrolling; a unit without a number gets none.

    High sounders, and what they need to be read, are enrolled among the fixing: on the ground, before they go up.
    """
    earlier = powered(papers)
    first, high = first_enrolled(papers, results), high_sounders(papers)
    for name in (*first, *(one for one in numbered(papers, results) if one not in first)):
        aloft = name in high
        read_again = name in fitted(papers) and not aloft
        before = (f"signal-{name}", *(() if aloft else (f"fix-{name}", f"power-{name}")))
        if not aloft:
            yield from two_people(papers, name, "fix" if name in first else "enrol", f"enrol-{name}", (earlier, *before), "enrol")
        # What is read, triggered and seen proves which unit it is: one step, so that nobody enrols ten and proves them later.
        yield Step(f"enrol-{name}", "fix" if name in first else "enrol", f"Enrol {name}{' on the ground' if aloft else ''}",
                   (*_misnamed(papers, results, name), *_before(papers, name, first), filled(papers.sheet_of[name].handling.enrol, papers, results, name),
                    f"Read the serial on the unit aloud, compare, {PROVED.get(papers.sheet_of[name].kind, 'trigger the unit')}, see the right number and text.",
                    *(() if aloft else who_reads(papers, name, "what it sends", "a keypad")),
                    *(("Read its link once more, now that it is fixed: what it fell by since the check before drilling is its drift.",) if read_again else ())),
                   after=("set-authority", earlier, *before, *(() if aloft else (climb(name, "enrol"),)), *(() if name in first else ("cells",))), unit=name,
                   facts=(*unit_facts(papers, results, name), *attributes(papers, name)),
                   messages=met(papers, [name], *(() if aloft else messages.HEIGHTS),
                                *((messages.LITHIUM,) if name in first else ()), messages.SOUNDER, messages.LIVE, messages.LIFE_SAFETY, messages.BUTTON_CELL,
                                *([messages.TERMINALS] if fed_by_wire(papers, [name]) else [])),
                   hold=Hold("H10", "Serial, number, text and trigger agree; it stands in the list once.", "Swapped units show only in an alarm."),
                   minutes=enrol_minutes(papers, name), unsigned=lines_of(name, "Identity", *(("Drift",) if read_again else ()), *(("Cell",) if name in first and papers.sheet_of[name].power.cell else ())))
        earlier = f"enrol-{name}"
    for name in without_number(papers, results):
        yield Step(f"enrol-{name}", "enrol", f"{name} has no number",
                   ("The control unit's list has no number for it. Do not enrol it; call the office.",),
                   after=(earlier,), unit=name,
                   hold=Hold("H10", "The office has sent a plan with a number for it.", "A unit without a number cannot be signed."),
                   unsigned=(AS_FITTED,))


def _misnamed(papers: Papers, results: Results, name: str) -> Iterator[str]:
    """That a unit's name ends with another number than it has in a list without texts, where that number is another unit's."""
    own = next((row for row in results.slots.of(name) if row.list != "zones"), None)
    said = re.search(r"[0-9]+$", name)
    if own is None or said is None or int(said[0]) == own.number:
        return
    other = next((row for row in results.slots.rows if row.list == own.list and row.device and row.number == int(said[0])), None)
    if other:
        kind = own.list.removesuffix("s")
        yield f"{name} is {kind} {own.number}, not {other.number}; {other.device} is {kind} {other.number}."


def _before(papers: Papers, name: str, first: list[str]) -> Iterator[str]:
    """What must be so before a unit is enrolled and set off."""
    kind, power = papers.sheet_of[name].kind, papers.sheet_of[name].power
    if name in first and power.cell:
        yield f"Its cell first: {power.cells or 1} × {power.cell}, date well ahead, written inside the lid."
    if kind in PERSONAL_KINDS and papers.job.monitoring:
        yield "Only while the account is on test: look at the operator's name and the end of the test first, then press."
