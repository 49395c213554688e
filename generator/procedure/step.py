"""What a step is, and the order that steps must keep."""
from collections.abc import Iterable
from dataclasses import dataclass

from generator.procedure.message import Message
from generator.terms.problem import JobInvalid, Problem


@dataclass(frozen=True)
class Hold:
    """A hold point: do not go on until `until` holds, because of `why`. `id` is its name in the trade's list of them.

    It stands after its step, which brings what it asks for, and holds all that follows; or `before` it, where it holds the step's own work.
    `otherwise` is what to do where it does not hold, as the end of a sentence.
    """

    id: str
    until: str
    why: str
    before: bool = False
    otherwise: str = "stop here and ask the office"

    @property
    def side(self) -> str:
        """On which side of its step it stands, in a word."""
        return "before" if self.before else "after"


@dataclass(frozen=True)
class Fact:
    """A number or text that a step needs. `field` names where the job says it, "" where nothing there could be wrong."""

    name: str
    value: str
    field: str = ""


@dataclass(frozen=True)
class Open:
    """What a step leaves isolated, off, running or silenced, as a sentence without its stop; `until` names the step that ends it.

    No night falls before that step is done. Where `tonight` is given the day may end before: it says how the thing is put right for
    the night, and how one goes on. Where it is `grave` each step until then says it again, for any of them may be left undone.
    """

    what: str
    until: str
    tonight: str = ""
    grave: bool = False


@dataclass(frozen=True)
class Wait:
    """How long something that a step starts goes on, in min, before it is read; None where nobody says, and `unknown` tells what lacks.

    `what` is the state that it leaves meanwhile, `tonight` how that is ended where it goes on for longer than a day's work. `until` names the
    step in which it is read, whatever the time; "" where it is read when the time is over.
    """

    minutes: float | None
    unknown: str = ""
    what: str = ""
    tonight: str = ""
    until: str = ""


@dataclass(frozen=True)
class Step:
    """One thing to do. `after` names the steps that must come before; `unit` is the device it is about, "" for none.

    `minutes` is how long it usually takes, `tools` what it needs besides the parts; `unsigned` are the lines of checklist and
    certificate that nobody can sign while the step is not done; `note` is what the office wrote about the unit; `wait` is what
    goes on after the step, while others are done; `leaves` is what it leaves isolated, off, running or silenced for a later step.
    """

    id: str
    phase: str
    title: str
    do: tuple[str, ...]
    after: tuple[str, ...] = ()
    unit: str = ""
    facts: tuple[Fact, ...] = ()
    hold: Hold | None = None
    messages: tuple[Message, ...] = ()
    minutes: float = 0
    tools: tuple[str, ...] = ()
    unsigned: tuple[str, ...] = ()
    note: str = ""
    wait: Wait | None = None
    leaves: tuple[Open, ...] = ()

    @property
    def anchor(self) -> str:
        """Its name where it stands on a page and where what was found in it is written."""
        return self.id.lower()

    @property
    def held(self) -> str:
        """The anchor of its hold point."""
        return f"hold-{self.anchor}"

    @property
    def entry(self) -> str:
        """The anchor under which one comes to it: a hold point before its work is not passed by."""
        return self.held if self.hold and self.hold.before else self.anchor


def in_order(steps: Iterable[Step]) -> tuple[Step, ...]:
    """The steps so that each comes after those it waits for; else in the order in which they were declared.

    Names of steps that this job does not have are passed over. Raises JobInvalid that names the circle if steps wait for each
    other.
    """
    waiting = {step.id: step for step in steps}
    known = set(waiting)
    done: dict[str, Step] = {}
    while waiting:
        ready = next((one for one in waiting.values() if all(name in done or name not in known for name in one.after)), None)
        if ready is None:
            raise JobInvalid([_circle_problem(waiting)])
        done[ready.id] = waiting.pop(ready.id)
    return tuple(done.values())


def _circle_problem(waiting: dict[str, Step]) -> Problem:
    titles = [f'"{waiting[name].title}"' for name in _circle(waiting)]
    return Problem("the steps of the day", 0, 0, "", f"these steps wait for each other, so that none can be the first: {', '.join(titles)}.",
                   "This is a mistake of the program, not of the job file: report the steps named here.")


def _circle(waiting: dict[str, Step]) -> list[str]:
    path = [next(iter(waiting))]
    while True:
        following = next(name for name in waiting[path[-1]].after if name in waiting)
        if following in path:
            return path[path.index(following):]
        path.append(following)
