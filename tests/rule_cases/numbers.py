"""Numbers that do not fit, and blocks with too little spare."""
from tests.rule_cases.case import Cases, Said, put


def zones(number: str):
    return put("equipment", "tern-cu32", "control_unit", "lists", "zones", value=number)


CASES = {
    "numbers-do-not-fit": Cases(
        speaks=(Said(zones("3"), ("job.control_unit.sheet",),
                     ("4 numbers of the zones needed, 3 available. D3 take two each.",), ("needed 4, available 3",),
                     "Leave a second input unused"),),
        clear=(zones("4"),)),
    "spare-short": Cases(
        speaks=(Said(zones("5"), ("job.devices",) * 3,
                     ("Block entry: 0 free behind number 1, 2 wanted.", "Block route: 0 free behind number 2, 2 wanted.",
                      "Block perimeter: 1 free behind number 4, 2 wanted."),
                     ("free 0, wanted 2", "free 0, wanted 2", "free 1, wanted 2")),),
        clear=(zones("10"),),
        unchecked=((zones("3"), "the zones do not fit"),)),
}
