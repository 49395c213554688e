"""What is signed at the end, so that a step which cannot be done can say what then stays unsigned."""
from collections import Counter

from generator.procedure.step import Step
from generator.terms.show import count, sentence_list

OF, IN = " of ", ": "
# So many units or rooms are named; more are counted.
MANY = 8

AS_FITTED = "the as-fitted record"
ELECTRICAL = "the number of the electrical certificate"
MONITORING = "that the station receives this system"
HANDOVER = "the handover to its users"
COMPLETION = "the certificate of completion"
CERTIFICATE = (AS_FITTED, ELECTRICAL, MONITORING, HANDOVER, COMPLETION)


def lines_of(unit: str, *lines: str) -> tuple[str, ...]:
    """Lines of the checklist of one unit, as a step names them."""
    return tuple(f"{line} of {unit}" for line in lines)


def lines_of_each(units: list[str], *lines: str) -> tuple[str, ...]:
    """The same lines of the checklists of several units, a text for each."""
    return tuple(f"{line} of {unit}" for line in lines for unit in units)


def in_words(unsigned: tuple[str, ...]) -> str:
    """What stays unsigned in one sentence: the same line of several units, or of several rooms, is named once, and many are counted."""
    units: dict[str, list[str]] = {}
    rooms = Counter(one.partition(IN)[0] for one in unsigned if OF not in one)
    for one in unsigned:
        line, of, unit = one.partition(OF)
        room = one.partition(IN)[0]
        if not of and rooms[room] > MANY:
            units[f"{room}, {count(rooms[room], 'line')}"] = [""]
        else:
            units.setdefault(line if of else one, []).append(unit)
    return "; ".join(line + (f"{OF}{_named(named)}" if all(named) else "") for line, named in units.items())


def _named(units: list[str]) -> str:
    return sentence_list(units) if len(units) <= MANY else count(len(units), "unit")


def results_of(steps: tuple[Step, ...]) -> dict[str, tuple[str, ...]]:
    """The lines of the checklist whose result is got in each step, by the step's name: the last that names a line brings its result,
    the steps before it only make ready for it."""
    last = {line: step.id for step in steps for line in step.unsigned if line not in CERTIFICATE}
    return {step.id: tuple(line for line in dict.fromkeys(step.unsigned) if last.get(line) == step.id) for step in steps}
