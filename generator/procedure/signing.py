"""What is signed at the end, so that a step which cannot be done can say what then stays unsigned."""
from generator.procedure.step import Step
from generator.terms.show import sentence_list

OF = " of "

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
    """What stays unsigned in one sentence: the same line of several units is named once."""
    units: dict[str, list[str]] = {}
    for one in unsigned:
        line, of, unit = one.partition(OF)
        units.setdefault(line if of else one, []).append(unit)
    return "; ".join(line + (f"{OF}{sentence_list(named)}" if all(named) else "") for line, named in units.items())


def results_of(steps: tuple[Step, ...]) -> dict[str, tuple[str, ...]]:
    """The lines of the checklist whose result is got in each step, by the step's name: the last that names a line brings its result,
    the steps before it only make ready for it."""
    last = {line: step.id for step in steps for line in step.unsigned if line not in CERTIFICATE}
    return {step.id: tuple(line for line in dict.fromkeys(step.unsigned) if last.get(line) == step.id) for step in steps}
