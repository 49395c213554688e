"""What steps leave isolated, off, running, silenced or waited for, by their own declaration: which step ends it, and where nothing is open."""
from collections.abc import Iterator
from dataclasses import replace

from generator.procedure.step import Fact, Open, Step
from generator.tables.minutes import DAY_MIN

LEFT_OPEN, STILL_OPEN = "Left open", "Still open"


def unbroken(steps: tuple[Step, ...]) -> tuple[tuple[Step, ...], ...]:
    """The steps in stretches: only between two of them nothing is open that has to be ended before anybody leaves."""
    out: list[tuple[Step, ...]] = []
    first, last = 0, 0
    for index, step in enumerate(steps):
        last = max([last, index, *(_end(steps, index, one) for one in step.leaves if not one.tonight)])
        last = max(last, _read(steps, index))
        if index == last:
            out.append(steps[first:index + 1])
            first = index + 1
    return (*out, steps[first:]) if first < len(steps) else tuple(out)


def _end(steps: tuple[Step, ...], index: int, one: Open) -> int:
    """Where the step stands that ends what the step at `index` leaves open; `index` itself where this job has none."""
    return next((at for at in range(index + 1, len(steps)) if steps[at].id == one.until), index)


def _read(steps: tuple[Step, ...], index: int) -> int:
    """Where the last step stands that is done while one waits for what the step at `index` started; itself where nobody waits today."""
    wait = steps[index].wait
    if wait and wait.until:
        return next((at for at in range(index + 1, len(steps)) if steps[at].id == wait.until), index)
    if wait is None or wait.minutes is None or wait.minutes > DAY_MIN:
        return index
    gone = 0.0
    for at in range(index + 1, len(steps)):
        if gone >= wait.minutes:
            # Read at the beginning of this step, which is therefore part of the stretch.
            return at
        gone += steps[at].minutes
    return len(steps) - 1


def told(steps: tuple[Step, ...], own: tuple[Step, ...]) -> tuple[Step, ...]:
    """Steps of the day with a line for each thing that they leave open: which step ends it, and whether the day may end before."""
    title = {step.id: step.title for step in steps}
    return tuple(replace(step, facts=(*_still(steps, step, title), *step.facts, *_left(step, title))) for step in own)


def _left(step: Step, title: dict[str, str]) -> Iterator[Fact]:
    for one in step.leaves:
        if one.until in title:
            yield Fact(LEFT_OPEN, _line(one, title[one.until]))
    if step.wait and step.wait.until in title:
        yield Fact(LEFT_OPEN, _line(Open(step.wait.what, step.wait.until), title[step.wait.until]))
    elif step.wait and step.wait.what:
        yield Fact(LEFT_OPEN, f"{step.wait.what}. Ended when it is read.")


def _still(steps: tuple[Step, ...], own: Step, title: dict[str, str]) -> tuple[Fact, ...]:
    """What an earlier step left in a state that nobody may forget, in a step that does not end it either."""
    here = next((index for index, step in enumerate(steps) if step.id == own.id), 0)
    left = [one for index, step in enumerate(steps[:here]) for one in step.leaves if one.grave and _end(steps, index, one) > here]
    return tuple(Fact(STILL_OPEN, f"{one.what}. Until “{title[one.until]}”: never past that step, whatever could not be done.") for one in left)


def _line(one: Open, end: str) -> str:
    return f"{one.what}. Ended in the step “{end}”" + ("." if one.tonight else "; do not leave the site before.")


def tonight(done: tuple[Step, ...]) -> tuple[str, ...]:
    """What has to be put right for the night after the steps so far: each thing that is still open and may be ended early."""
    ids = [step.id for step in done]
    left = [one.tonight for index, step in enumerate(done) for one in step.leaves if one.tonight and one.until not in ids[index + 1:]]
    return tuple(dict.fromkeys((*left, *(step.wait.tonight for index, step in enumerate(done) if step.wait and step.wait.tonight
                                         and _runs(done, index)))))


def _runs(done: tuple[Step, ...], index: int) -> bool:
    """Whether what a step started still goes on by usual times when the steps after it are done."""
    minutes = done[index].wait.minutes
    return minutes is None or sum(step.minutes for step in done[index + 1:]) < minutes
