"""What is signed at the end, so that a step which cannot be done can say what then stays unsigned."""
from generator.terms.show import sentence_list

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
    """The same lines of the checklists of several units."""
    return tuple(f"{line} of {sentence_list(units)}" for line in lines if units)
