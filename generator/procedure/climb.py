"""Before anybody goes up outside: two people, and a ladder, a ground and a weather for it, looked at when it is done and not on arrival.

Common practice, no source; the law on work at height decides.
"""
from collections.abc import Iterator

from generator.model.papers import Papers
from generator.procedure import messages
from generator.procedure.message import Message
from generator.procedure.safety import FIRE_KINDS, is_outside, met
from generator.procedure.signing import lines_of
from generator.procedure.step import Fact, Hold, Open, Step
from generator.tables import tools
from generator.tables.minutes import OF_STEP
from generator.terms.show import metres


# Whoever foots a ladder does nothing else.
FOOT = "Whoever is at the foot stays there and reads nothing"


def climb(name: str, visit: str) -> str:
    """The step before the ladder goes up at a unit, for one visit; a job has it for units outside only."""
    return f"climb-{visit}-{name}"


def two_people(papers: Papers, name: str, phase: str, work: str, after: tuple[str, ...], visit: str = "") -> Iterator[Step]:
    """That step, before the step `work`; nothing for a unit inside. Without a second person the unit waits, and the day does not.

    `visit` is what one goes up for, where that is not what the phase is called after.
    """
    if not is_outside(papers, name):
        return
    height = papers.job.devices[name].height_m
    yield Step(climb(name, visit or phase), phase, f"Ready to go up at {name}",
               ("Two people: one goes up, one stays at the foot and does nothing else.",
                "Look now: ground, wind, rain, ice, daylight, lines overhead. Ladder tied or footed.",
                f"Nobody second, or one of these not right: “could not”. {name} waits for another day with its steps; what needs no ladder goes on."),
               after=after, unit=name, facts=(Fact("Height", metres(height)),) if height else (), messages=met(papers, [name], messages.LADDER),
               hold=two_are_here(name),
               minutes=OF_STEP["climb"], tools=(*tools.LADDER, *tools.SECOND), unsigned=lines_of(name, "Fixing"),
               leaves=(Open(f"The ladder is out for {name}", work),))


def two_are_here(name: str, before: bool = False) -> Hold:
    """Two people, and a ladder and a weather for it: after the step that looks, or `before` one that is done later, when the ladder was left."""
    still = "still " if before else ""
    return Hold("H4", f"Two people are {still}here for {name}, one at the foot; nobody goes up outside alone, in wind, rain or ice, or in the dark.",
                "There is no second try after a fall.", before=before,
                otherwise=f"leave {name} with its ladder steps for another day, the ladder away; what needs no ladder goes on")


def to_climb(papers: Papers, names: list[str]) -> tuple[str, ...]:
    """What is fetched to reach units: a ladder, steps, both or nothing."""
    return (*(tools.LADDER if met(papers, names, messages.LADDER) else ()), *(tools.STEPS if met(papers, names, messages.STEPS) else ()))


def at_height(papers: Papers, name: str) -> tuple[Fact, ...]:
    """How high a unit hangs, and that one reaches it from steps; nothing where nobody says."""
    height = papers.job.devices[name].height_m
    steps = ", from steps" if met(papers, [name], messages.STEPS) and messages.STEPS not in cautioned(papers, name) else ""
    return (Fact("Height", f"{metres(height)}{steps}"),) if height else ()


def cautioned(papers: Papers, name: str) -> tuple[Message, ...]:
    """What stands before work up at a unit: the ladder always; steps under a ceiling or beside stairs, for elsewhere its height says them."""
    device = papers.job.devices[name]
    stairs = {end.room for one in papers.job.premises.stairs.values() for end in (one.foot, one.head)}
    full = papers.sheet_of[name].kind in FIRE_KINDS or papers.room_of(device) in stairs
    return met(papers, [name], *(messages.HEIGHTS if full else (messages.LADDER,)))


def who_reads(papers: Papers, name: str, what: str, where: str) -> tuple[str, ...]:
    """Who reads what a unit up a ladder sends, since whoever foots it does not leave; nothing for a unit that is reached otherwise."""
    if not met(papers, [name], messages.LADDER):
        return ()
    return (f"{FOOT}: {what} is read by a third person, over a telephone that was left on loud beside {where}, or when you are down again.",)
