"""Doors by which people come in."""
from tests.rule_cases.case import Cases, Change, Said, both, put

ENTRY = "job.premises.storeys.ground.openings.front-door.entry"


def second_circuit(device: str) -> Change:
    """The front door watched by the second circuit of a unit alone."""
    return both(put("job", "devices", "D1", "protects", value="kitchen-window"), put("job", "devices", device, "protects_2", value="front-door"))


CASES = {
    "entry-not-timed": Cases(
        speaks=(Said(put("job", "devices", "D1", "role", value="immediate"), (ENTRY,),
                     ("People come in by front-door, and no unit there has the role timed-entry.",),
                     ("roles there immediate, entry true",), "role: timed-entry"),
                Said(second_circuit("D3"), (ENTRY,), ("People come in by front-door, and no unit there has the role timed-entry.",),
                     ("roles there immediate, entry true",), "role: timed-entry")),
        clear=(put("job", "premises", "storeys", "ground", "openings", "back-door", "entry", value="false"),
               both(second_circuit("D3"), put("job", "devices", "D3", "role", value="timed-entry")))),
}
