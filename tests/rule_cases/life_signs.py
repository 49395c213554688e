"""Signs of life: the longest time between two (120 min) and the greatest age of the last at setting (20 min), EN 50131-1 at grade 2; from memory."""
from tests.rule_cases.case import Cases, Said, both, put, without_limit
from tests.rule_cases.on_air import radio

one_way = put("equipment", "tern-dc", "two_way", value="false")
NOT_SAID = "the sheet of D1 gives no radio.supervision_min; write it in the sheet tern-dc"

CASES = {
    "supervision-long": Cases(
        speaks=(Said(radio("tern-dc", "supervision_min", "121"), ("job.devices.D1.sheet",),
                     ("D1 gives a sign of life every 121 min; 120 min is the longest allowed.",), ("every 121 min, at most 120 min",),
                     "every 120 min or oftener"),
                Said(radio("tern-cu32", "supervision_min", "240"), ("job.control_unit.sheet",),
                     ("CU gives a sign of life every 240 min; 120 min is the longest allowed.",), ("every 240 min, at most 120 min",))),
        # What is carried gives none, and a control unit need not.
        clear=(radio("tern-dc", "supervision_min", "120"), radio("tern-fob", "supervision_min", "1440"), radio("tern-cu32", "supervision_min", None)),
        unchecked=((radio("tern-dc", "supervision_min", None), NOT_SAID),
                   (without_limit("supervision_min"), "the profile has no limit supervision_min"))),
    "last-message-old": Cases(
        speaks=(Said(both(one_way, radio("tern-dc", "supervision_min", "60")), ("job.devices.D1.sheet",),
                     ("D1 only sends, every 60 min: at setting its last message can be as old; 20 min is allowed.",),
                     ("every 60 min, at most 20 min",), "can be asked"),),
        clear=(both(one_way, radio("tern-dc", "supervision_min", "20")), both(put("equipment", "tern-dc", "two_way", value="true"), radio("tern-dc", "supervision_min", "60"))),
        unchecked=((both(one_way, radio("tern-dc", "supervision_min", None)), NOT_SAID),
                   (without_limit("last_heard_min"), "the profile has no limit last_heard_min"))),
}
