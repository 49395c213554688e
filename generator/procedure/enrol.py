"""Making each unit known to the control unit, and proving that it is the one that was meant."""
from collections.abc import Iterator

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.procedure import messages
from generator.procedure.handling import filled
from generator.procedure.power import powered
from generator.procedure.safety import met
from generator.procedure.signing import AS_FITTED, lines_of
from generator.procedure.step import Hold, Step
from generator.procedure.units import attributes, enrol_minutes, numbered, unit_facts, without_number


def enrol(papers: Papers, results: Results) -> Iterator[Step]:
    """A step for each unit, in the order of enrolling; a unit without a number gets none."""
    earlier = powered(papers)
    for name in numbered(papers, results):
        # What is read, triggered and seen proves which unit it is: one step, so that nobody enrols ten and proves them later.
        yield Step(f"enrol-{name}", "enrol", f"Enrol {name}",
                   (filled(papers.sheet_of[name].handling.enrol, papers, results, name),
                    "Read the serial on the unit aloud, compare, trigger the unit, see the right number and text."),
                   after=(earlier, f"fix-{name}", "cells"), unit=name,
                   facts=(*unit_facts(papers, results, name), *attributes(papers, name)),
                   messages=met(papers, [name], messages.LADDER, messages.SOUNDER, messages.TERMINALS, messages.WIRING, messages.LIFE_SAFETY,
                                messages.BUTTON_CELL),
                   hold=Hold("H10", "Serial, number, text and trigger agree.", "Swapped units show only in an alarm."),
                   minutes=enrol_minutes(papers, name), unsigned=lines_of(name, "Identity"))
        earlier = f"enrol-{name}"
    for name in without_number(papers, results):
        yield Step(f"enrol-{name}", "enrol", f"{name} has no number",
                   ("The control unit's list has no number for it. Do not enrol it; call the office.",),
                   after=(earlier,), unit=name,
                   hold=Hold("H10", "The office has sent a plan with a number for it.", "A unit without a number cannot be signed."),
                   unsigned=(AS_FITTED,))
