"""What takes longer than its step is started now and read later: in how many minutes, and before which step that is."""
from dataclasses import replace

from generator.procedure.step import Fact, Step
from generator.tables.minutes import DAY_MIN
from generator.terms.show import duration

COME_BACK = "Come back to it"


def with_waits(steps: tuple[Step, ...]) -> tuple[Step, ...]:
    """The steps, each that has a wait with the time after which it is read; the order stays."""
    return tuple(_with_wait(step, steps[index + 1:]) if step.wait else step for index, step in enumerate(steps))


def _with_wait(step: Step, later: tuple[Step, ...]) -> Step:
    wait = step.wait
    told = f"Not known when: {wait.unknown}"
    read = next((one for one in later if one.id == wait.until), None)
    if read:
        told = _in_its_step(wait.minutes, later, read) if wait.minutes is not None else f"In the step “{read.title}”. {told}"
    elif wait.minutes is not None:
        told = f"{duration(wait.minutes)} after the time you wrote down. {_reached(wait.minutes, later)}"
    return replace(step, facts=(*step.facts, Fact(COME_BACK, told)))


def _in_its_step(minutes: float, later: tuple[Step, ...], read: Step) -> str:
    """That it is read in a step of its own, and what is left to wait there."""
    gone = sum(step.minutes for step in later[:later.index(read)])
    left = "By usual times it is over by then."
    if minutes > DAY_MIN:
        left = "Nobody waits that long today: not shown by then, write “could not test”, with the time that you did wait."
    elif gone < minutes:
        left = f"By usual times {duration(minutes - gone)} are left then: take your break there."
    return f"In the step “{read.title}”, at most {duration(minutes)} after the time you wrote down. {left}"


def _reached(minutes: float, later: tuple[Step, ...]) -> str:
    """Which step that is by usual times; a night or the end of the work can come first."""
    gone = 0.0
    for step in later:
        if step.id.startswith("night-"):
            return f"By usual times the night comes first, about {duration(gone)} from here: it is ended then, as that step says."
        if gone >= minutes:
            return f"By usual times that is before the step “{step.title}”."
        gone += step.minutes
    return (f"What is left to do takes less, about {duration(gone)} by usual times: wait the rest, or write “could not test” with the time "
            "that you did wait.")
