"""Zone texts. Row 19 of the trade's list of failures: 35 characters where 16 are shown."""
from tests.conftest import Files
from tests.rule_cases.case import Cases, Said, both, put, text, without_limit

PATIO = "GROUND FLOOR DINING ROOM PATIO DOOR"
ALPHABET = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789 -/."
HABIT = "must differ within 8 characters"


def customer(name: str):
    return put("people", "customer", "name", value=name)


def nobody(files: Files) -> None:
    files["people"] = None


CASES = {
    "text-too-long": Cases(
        speaks=(Said(text("D1", PATIO), ("job.devices.D1.text",), (f'"{PATIO}" has 35 characters, 16 are shown.',),
                     ("characters 35, shown 16",),
                     'Proposed: "GF DINING PATIO", 15 characters, and no other zone begins with its first 8.'),
                Said(text("D1", "12345678901234567"), ("job.devices.D1.text",),
                     ('"12345678901234567" has 17 characters, 16 are shown.',), ("characters 17, shown 16",),
                     "No short form of the trade fits")),
        clear=(text("D1", "PORCH FRONT DOOR"),)),
    "text-not-in-alphabet": Cases(
        speaks=(Said(text("D1", "Café"), ("job.devices.D1.text",), ('"Café" holds “a”, “f” and “é”, which cannot be shown.',),
                     (f"text Café, alphabet {ALPHABET}",), 'Proposed: "CAFE"'),),
        clear=(text("D1", "CAFE 2-B/C."),
               both(text("D1", "Café"), put("equipment", "tern-cu32", "control_unit", "zone_text", "alphabet", value=None)))),
    "text-not-unique": Cases(
        speaks=(Said(text("D2", "hall front move"), ("job.devices.D2.text",),
                     ('"hall front move" begins like "HALL FRONT DR": of the first 8 characters none differs.',),
                     (f"text hall front move, the other HALL FRONT DR, alike HALL FRO, {HABIT}",), 'Proposed: "HALL FRT MOVE"'),),
        clear=(text("D2", "HALL FR MOVE"),),
        unchecked=((without_limit("text_unique_characters"), "the profile has no limit text_unique_characters"),)),
    "text-names-person": Cases(
        speaks=(Said(text("D2", "OBADIAHS ROOM"), ("job.devices.D2.text",),
                     ('"OBADIAHS ROOM" holds “OBADIAHS”, part of a name in people.yaml.',), ("text OBADIAHS ROOM",), "BED 2"),
                Said(both(text("D2", "EMMA'S BED"), customer("Emma Thornquist"),
                          put("equipment", "tern-cu32", "control_unit", "zone_text", "alphabet", value=None)),
                     ("job.devices.D2.text",), ('"EMMA\'S BED" holds “EMMAS”, part of a name in people.yaml.',), ("text EMMA'S BED",))),
        # A customer called Hall does not make the hall a person's room.
        clear=(customer("Mr Frank Hall"), text("D2", "THORN BED")),
        unchecked=((nobody, "there is no people.yaml"),)),
    "text-names-child": Cases(
        speaks=(Said(text("D2", "BABY ROOM"), ("job.devices.D2.text",), ('"BABY ROOM" says “BABY”.',), ("text BABY ROOM",), "BED 2"),
                Said(text("D2", "KIDS BED NURSERY"), ("job.devices.D2.text",), ('"KIDS BED NURSERY" says “KIDS” and “NURSERY”.',),
                     ("text KIDS BED NURSERY",))),
        clear=(text("D2", "BED 2"), text("D2", "KIDDERS GATE"))),
}
