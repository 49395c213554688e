"""Units that must receive, and chains of repeaters."""
from tests.conftest import Files
from tests.rule_cases.case import Cases, Said, both, put, without_limit


def one_way(sheet: str):
    return put("equipment", sheet, "two_way", value="false")


def repeaters(files: Files) -> None:
    """D2 is heard over R1 and R2, R2 directly."""
    files["equipment"]["tern-rp"] = files["equipment"]["tern-kp"] | {"name": "Tern repeater", "kind": "repeater"}
    files["job"]["devices"] |= {"R1": {"sheet": "tern-rp", "room": "lounge", "serial": "00AA01"},
                                "R2": {"sheet": "tern-rp", "room": "kitchen", "serial": "00AA02"}}
    files["job"]["devices"]["D2"]["via"] = "R1"


def chain(files: Files) -> None:
    repeaters(files)
    files["job"]["devices"]["R1"]["via"] = "R2"


def hops(number: str | None):
    return put("equipment", "tern-cu32", "control_unit", "hops", value=number)


def two_by_profile(files: Files) -> None:
    without_limit("repeater_hops")(files)
    files["profiles"]["own"]["limits"]["repeater_hops"] = {
        "value": "2", "means": "most repeaters one after the other between a unit and the control unit", "source": "practice",
        "known": "common practice"}


CASES = {
    "one-way-must-receive": Cases(
        speaks=(Said(one_way("tern-sx"), ("job.devices.S1.sheet",), ("S1 is a one-way sounder, but it is told when to sound.",),
                     ("kind sounder, two_way false",), "two_way"),
                Said(one_way("tern-kp"), ("job.devices.K1.sheet",), ("K1 is a one-way keypad, but it is told what to show.",),
                     ("kind keypad, two_way false",)),
                Said(both(repeaters, put("equipment", "tern-rp", "two_way", value="false")),
                     ("job.devices.R1.sheet", "job.devices.R2.sheet"),
                     tuple(f"{one} is a one-way repeater, but it hears the units that it passes on." for one in ("R1", "R2")),
                     ("kind repeater, two_way false",) * 2),
                Said(both(one_way("tern-kp"), put("equipment", "tern-kp", "kind", value="reader")), ("job.devices.K1.sheet",),
                     ("K1 is a one-way reader, but it is told whether the alarm is set.",), ("kind reader, two_way false",))),
        clear=(both(one_way("tern-dc"), one_way("tern-fob")),)),
    "repeater-hops": Cases(
        speaks=(Said(chain, ("job.devices.D2.via",), ("D2 is heard over 2 repeaters (R1, then R2); 1 may stand one after the other.",),
                     ("way D2 R1 R2, repeaters 2, at most 1",), "move a repeater"),
                # The control unit allows fewer than the profile.
                Said(both(two_by_profile, chain, hops("1")), ("job.devices.D2.via",),
                     ("D2 is heard over 2 repeaters (R1, then R2); 1 may stand one after the other.",),
                     ("way D2 R1 R2, repeaters 2, at most 1",))),
        clear=(repeaters, both(two_by_profile, chain, hops("2")), both(two_by_profile, chain, hops(None))),
        unchecked=((without_limit("repeater_hops"), "the profile has no limit repeater_hops"),)),
}
