"""Work that takes one person more than a day: where it stops for the night, in which state that leaves the house, and what holds before
anybody leaves. No night falls while something is isolated, off, running, silenced or waited for."""
from dataclasses import replace

from generator.model.papers import Papers
from generator.procedure.open import LEFT_OPEN, told, tonight, unbroken
from generator.procedure.power import powered
from generator.procedure.signing import COMPLETION
from generator.procedure.step import Fact, Hold, Step
from generator.tables.minutes import DAY_MIN, OF_STEP
from generator.terms.show import duration

NIGHT = "night-"
# How much of the work one person does in a day: why the night falls where it does.
A_DAY = "A day holds"


def with_nights(papers: Papers, steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """The steps with one before each night: after the last step that one person still ends in a day of usual length and that leaves
    nothing open. A stretch without such a place that is longer than a day stays whole, and its first step says so."""
    out: list[Step] = []
    gone, nights = 0.0, 0
    for visit in unbroken(steps):
        length = sum(step.minutes for step in visit)
        if out and length and gone + length > DAY_MIN:
            nights += 1
            out.append(_night(papers, nights, [step for step in out if not step.id.startswith(NIGHT)]))
            gone = 0.0
        out.extend(told(steps, (_warned(visit), *visit[1:])))
        gone += length
    return tuple(out)


def _warned(visit: tuple[Step, ...]) -> Step:
    length = sum(step.minutes for step in visit)
    if length <= DAY_MIN:
        return visit[0]
    return replace(visit[0], facts=(*visit[0].facts, Fact(
        "Longer than a day", f"{duration(length)} of work up to the end of “{visit[-1].title}”, and no place to stop for the night within: "
                             "take a second person, or ask the office how to divide it.")))


def _state(papers: Papers, done: list[Step]) -> str:
    """What works when the steps so far are done, in words for whoever leaves and whoever stays."""
    unit, ids = papers.job.control_unit.id, {step.id for step in done}
    if powered(papers) not in ids:
        return f"{unit} has no supply of its own yet: nothing of the new system works tonight."
    enrolled = len([name for name in ids if name.startswith("enrol-")])
    programmed = ("its values are set and read back. What was not tested yet is not relied on" if "read-back" in ids else
                  "its values are not all set and read back: nobody relies on it")
    return f"{unit} is on, every supply joined; units enrolled so far: {enrolled}; {programmed}."


def _night(papers: Papers, number: int, done: list[Step]) -> Step:
    agreed, before = papers.job.monitoring, done[-1]
    station = () if agreed is None else (
        f"Tell {agreed.station} ({agreed.telephone}) what stands: the account stays on test until a time that you name, or goes off test with "
        "what works.",)
    return Step(f"{NIGHT}{number}", before.phase, "If one person works alone: leave for the night",
                ("Earlier only at the end of a step that leaves nothing open. With two people the day reaches further: do this before you leave, "
                 "wherever that is.",
                 *tonight(tuple(done)),
                 "No open cover, no bare wire, no hole through to the outside. Power tools, used cells and ladder away.",
                 "Write down for the customer what works tonight and what does not, and read it to them.", *station,
                 "If you have to leave with something open: what is isolated stays locked off, with its label; what is off or silenced is written down, "
                 "and told to customer and office. Prove dead again before you go on.",
                 *(("Coming back: put the account on test again first.",) if agreed else ())),
                after=(before.id,),
                facts=(Fact("State tonight", _state(papers, done)),
                       Fact(LEFT_OPEN, "nothing, once the lines here are done"),
                       Fact(A_DAY, f"about {duration(DAY_MIN)} of work for one person (common practice)")),
                hold=Hold("H15", "The customer has in writing what works tonight" + (", and the station knows it." if agreed else "."),
                          "Between two days nobody else knows what the house can rely on."),
                minutes=OF_STEP["night"], unsigned=(COMPLETION,))
