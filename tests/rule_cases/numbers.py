"""Numbers that do not fit, and blocks with too little spare."""
from tests.rule_cases.case import Cases, Said, put


def zones(number: str):
    return put("equipment", "tern-cu32", "control_unit", "lists", "zones", value=number)


CASES = {
    "numbers-do-not-fit": Cases(
        speaks=(Said(zones("3"), ("job.control_unit.sheet",),
                     ("4 numbers of the zones needed, 3 available. D3 takes more than one. Spare would be -1; the profile wants at "
                      "least 0.3 (10 % of 3).",),
                     ("needed 4, available 3, takes more than one D3, spare -1, spare wanted 0.3 (10 % of 3)",),
                     "Leave the second input of D3 unused (3 of 3 numbers taken then). Or: Take out D1, D2 or D3. "
                     "Or: Choose a control unit with 4 zones."),),
        clear=(zones("4"),)),
    "spare-short": Cases(
        speaks=(Said(zones("5"), ("job.devices",) * 3,
                     ("Block entry: 0 free behind number 1, 2 wanted.", "Block route: 0 free behind number 2, 2 wanted.",
                      "Block perimeter: 1 free behind number 4, 2 wanted."),
                     ("free 0, wanted 2", "free 0, wanted 2", "free 1, wanted 2")),),
        clear=(zones("10"),),
        unchecked=((zones("3"), "the zones do not fit"),)),
}
