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


def paths(**of: dict):
    """The demo job by paths: 4 m and a wall of plasterboard for each unit but those that are named."""

    def change(files: Files) -> None:
        for name, device in files["job"]["devices"].items():
            if "radio" in files["equipment"][device["sheet"]]:
                device["path"] = of.get(name, {"distance_m": "4", "walls": ["stud-plasterboard"]})
                if device["path"] is None:
                    del device["path"]

    return change


# A contact 12 m from the control unit: a floor, two walls of brick, and a partition with foil.
FAR = {"distance_m": "12", "walls": ["half-brick", "half-brick", "stud-foil"], "floors": ["timber-floor"]}
NO_FOIL = FAR | {"walls": ["half-brick", "half-brick", "stud-plasterboard"]}
TWO_FOILS = FAR | {"walls": ["half-brick", "half-brick", "stud-foil", "stud-foil"]}

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
    "link-short": Cases(
        # By hand: 8 + 105 - 52.80 of free space - 2 x 5.69 of brick - 30.6 of foil and boards - 1.3 of floor - 8 - 6.42 = 2.5.
        speaks=(Said(paths(D2=FAR), ("job.devices.D2.path",),
                     ("D2 would be heard by CU with a margin of 2.5 dB on a bad day; 10 dB are wanted. What takes most: wall number 3 (stud-foil), 30.6 dB.",),
                     ("margin 2.5 dB, wanted 10 dB",), "Do not drill before the check on site."),
                # A second foil: no link is expected.
                Said(paths(D2=TWO_FOILS), ("job.devices.D2.path",),
                     ("D2 would not be heard by CU on a bad day, by 28.1 dB; 10 dB are wanted. What takes most: wall number 3 (stud-foil), 30.6 dB.",),
                     ("margin -28.1 dB, wanted 10 dB",), "plan a repeater")),
        clear=(paths(), paths(D2=NO_FOIL), both()),
        unchecked=((paths(D2=None), "the link of D2 is not known: there is no plan, and no path is written for it; write path for the unit"),)),
}
