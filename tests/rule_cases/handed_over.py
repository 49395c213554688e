"""Before the system is handed over, and fire's reminder. Rows 18, 27 and 43 of the trade's list of failures.

A smoke alarm stays about 3 m from cooking: NFPA 72 (from memory).
"""
from tests.conftest import Files
from tests.rule_cases.case import Cases, Said, both, lacking, put

NOT_WRITTEN = "nobody has written yet whether the installer's authority was changed"
IN_USE = put("job", "agreement", "in_use_on", value="2026-09-13")
NO_HANDOVER = put("job", "handover", value=None)


def changed(value: str):
    return put("job", "handover", value={"authority_changed": value})


def smoke(place: dict[str, str], kind: str = "smoke"):
    def change(files: Files) -> None:
        files["equipment"]["tern-smoke"] = files["equipment"]["tern-dc"] | {"kind": kind}
        files["job"]["devices"]["SM1"] = {"sheet": "tern-smoke", "role": "fire", "text": "SMOKE", "serial": "00A501"} | place

    return change


def reads(language: str | None):
    return put("job", "household", "language", value=language)


CASES = {
    "smoke-where-cooking": Cases(
        speaks=(Said(smoke({"room": "kitchen"}), ("job.devices.SM1.room",),
                     ("SM1 is a smoke unit in kitchen, where food is cooked; 3 m is the least distance of a smoke alarm from cooking.",),
                     ("smoke unit in kitchen, cooking true, wanted at least 3 m",), "the local fire code asks for"),
                Said(smoke({"protects": "kitchen-window"}), ("job.devices.SM1.protects",),
                     ("SM1 is a smoke unit in kitchen, where food is cooked; 3 m is the least distance of a smoke alarm from cooking.",),
                     ("smoke unit in kitchen, cooking true, wanted at least 3 m",))),
        clear=(smoke({"room": "hall"}), smoke({"room": "kitchen"}, "heat"), smoke({"room": "outside"}),
               both(smoke({"room": "kitchen"}), put("job", "premises", "storeys", "ground", "rooms", "kitchen", "cooking", value="false"))),
        unchecked=lacking("smoke_cooking_m")),
    "authority-not-changed": Cases(
        speaks=(Said(changed("false"), ("job.handover.authority_changed",),
                     ("The installer's authority is as delivered: the certificate cannot be signed.",), ("changed false, wanted true",),
                     "no file holds the code itself"),),
        clear=(changed("true"),),
        unchecked=((NO_HANDOVER, NOT_WRITTEN), (put("job", "handover", value={}), NOT_WRITTEN))),
    "authority-not-known": Cases(
        # Dated 14 September, in use since the day before.
        speaks=(Said(both(NO_HANDOVER, IN_USE), ("job.handover.authority_changed",),
                     ("In use since 13 Sep 2026, and nothing is written of the installer's authority.",),
                     ("changed not known, in use from 13 Sep 2026, then in use",), "on the next visit"),),
        clear=(NO_HANDOVER, both(IN_USE, changed("false")), both(NO_HANDOVER, put("job", "agreement", value=None)))),
    "language-not-there": Cases(
        speaks=(Said(reads("cy"), ("job.household.language",),
                     ('The main user reads "cy"; the homeowner\'s pages are there in: en. They come in English.',), ("main user cy, there en",),
                     "do not take them for understood"),),
        clear=(reads("en"),),
        unchecked=((reads(None), "the job file does not say which language the main user reads"),
                   (put("job", "household", value=None), "the job file does not say which language the main user reads"))),
}
