"""Work that takes one person more than a day: where it stops for the night, and what holds before anybody leaves."""
from generator.model.papers import Papers
from generator.procedure.high_up import SAME_VISIT
from generator.procedure.signing import COMPLETION
from generator.procedure.step import Fact, Hold, Step
from generator.tables.minutes import DAY_MIN, OF_STEP
from generator.terms.show import duration


def with_nights(papers: Papers, steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """The steps with one before each night: after the last step that one person still ends in a day of usual length."""
    out: list[Step] = []
    gone, nights = 0.0, 0
    for step, visit in zip(steps, map(sum, _visits(steps))):
        if out and visit and gone + visit > DAY_MIN:
            nights += 1
            out.append(_night(papers, nights, out[-1]))
            gone = 0.0
        out.append(step)
        gone += step.minutes
    return tuple(out)


def _visits(steps: tuple[Step, ...]) -> list[list[float]]:
    """The minutes of each step with those that follow in one visit; none for a step that must follow, since no night comes before it."""
    out: list[list[float]] = []
    first = 0
    for index, step in enumerate(steps):
        out.append([])
        first = first if step.id.startswith(SAME_VISIT) else index
        out[first].append(step.minutes)
    return out


def _night(papers: Papers, number: int, before: Step) -> Step:
    agreed = papers.job.monitoring
    station = () if agreed is None else (
        f"Tell {agreed.station} ({agreed.telephone}) what stands and what does not: the account stays on test until a time that you name, or goes "
        "off test with what works.",)
    return Step(f"night-{number}", before.phase, "If one person works alone: leave for the night",
                ("Or earlier: at the end of a step, never within one. With two people the day reaches further; do this before you leave, wherever "
                 "that is.",
                 "No open cover, no bare wire, no hole through to the outside. What is isolated stays locked off, with its label. Power tools, used "
                 "cells and ladder away.",
                 "Write down for the customer what works tonight and what does not, and read it to them.", *station,
                 "Coming back: " + ("put the account on test again, then " if agreed else "") + "prove dead again whatever was isolated."),
                after=(before.id,), facts=(Fact("A day holds", f"about {duration(DAY_MIN)} of work for one person (common practice)"),),
                hold=Hold("H15", "The customer has in writing what works tonight" + (", and the station knows it." if agreed else "."),
                          "Between two days nobody else knows what the house can rely on."),
                minutes=OF_STEP["night"], unsigned=(COMPLETION,))
