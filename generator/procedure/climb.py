"""Before anybody goes up outside: two people, and a ladder, a ground and a weather for it, looked at when it is done and not on arrival.

Common practice, no source; the law on work at height decides.
"""
from collections.abc import Iterator

from generator.model.papers import Papers
from generator.procedure import messages
from generator.procedure.safety import is_outside, met
from generator.procedure.signing import lines_of
from generator.procedure.step import Fact, Hold, Open, Step
from generator.tables import tools
from generator.tables.minutes import OF_STEP
from generator.terms.show import metres


def climb(name: str, phase: str) -> str:
    """The step before the ladder goes up at a unit, in a phase; a job has it for units outside only."""
    return f"climb-{phase}-{name}"


def two_people(papers: Papers, name: str, phase: str, work: str, after: tuple[str, ...]) -> Iterator[Step]:
    """That step, before the step `work`; nothing for a unit inside. Without a second person the unit waits, and the day does not."""
    if not is_outside(papers, name):
        return
    height = papers.job.devices[name].height_m
    yield Step(climb(name, phase), phase, f"Ready to go up at {name}",
               ("Two people: one goes up, one stays at the foot.",
                "Look now: ground, wind, rain, ice, daylight, lines overhead. Ladder tied or footed.",
                f"Nobody second, or one of these not right: “could not”. {name} waits for another day with its steps; what needs no ladder goes on."),
               after=after, unit=name, facts=(Fact("Height", metres(height)),) if height else (), messages=met(papers, [name], messages.LADDER),
               hold=Hold("H4", f"Two people are here for {name}; nobody goes up outside alone, in wind, rain or ice, or in the dark.",
                         "There is no second try after a fall.", otherwise=f"leave {name} with its ladder steps for another day; what needs no ladder goes on"),
               minutes=OF_STEP["climb"], tools=(*tools.LADDER, *tools.SECOND), unsigned=lines_of(name, "Fixing"),
               leaves=(Open(f"The ladder is out for {name}", work),))
