"""Doors by which people come in."""
from tests.rule_cases.case import Cases, Said, put

ENTRY = "job.premises.storeys.ground.openings.front-door.entry"

CASES = {
    "entry-not-timed": Cases(
        speaks=(Said(put("job", "devices", "D1", "role", value="immediate"), (ENTRY,),
                     ("People come in by front-door, and no unit there has the role timed-entry.",),
                     ("roles there immediate, entry true",), "role: timed-entry"),),
        clear=(put("job", "premises", "storeys", "ground", "openings", "back-door", "entry", value="false"),)),
}
