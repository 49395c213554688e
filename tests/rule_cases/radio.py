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
THREE_FOILS = FAR | {"walls": ["half-brick", "half-brick", "stud-foil", "stud-foil", "stud-foil"]}
THREE_BLOCKS = {"distance_m": "10", "walls": ["block", "block", "block"]}
MOST = put("equipment", "tern-rp", "repeats", value="1")


def full(files: Files) -> None:
    """D1 and D2 are heard through R1, which carries one."""
    repeaters(files)
    files["job"]["devices"]["D1"]["via"] = "R1"
    MOST(files)


def chain_full(files: Files) -> None:
    """D2 is heard over R1 and R2: R2 carries both, R1 only D2."""
    chain(files)
    MOST(files)


def planned(*things: tuple[str, dict], walls: dict | None = None, **units: dict):
    """The demo with a plan: store and hall, 4 m by 3 m, side by side; the control unit 1.5 m up at [1, 1.5], and things in the store."""

    def change(files: Files) -> None:
        storey = files["job"]["premises"]["storeys"]["ground"]
        for at, room in (("0", "store"), ("4", "hall")):
            storey["rooms"][room] = {**(storey["rooms"][room] or {}), "corner_m": [at, "0"], "size_m": ["4", "3"]}
        storey["walls"] = walls or {"outside": "cavity-brick", "inside": "block"}
        storey["furniture"] = {name: {"room": "store", "size_m": ["0.5", "0.5"], "height_m": "1.8", **of} for name, of in things}
        files["job"]["control_unit"]["at_m"] = ["1", "1.5"]
        for name, of in units.items():
            files["job"]["devices"][name] |= of

    return change


placed = planned(R1={"room": "hall", "at_m": ["7.5", "2.5"], "height_m": "2"}, R2={"room": "store", "at_m": ["3.5", "2.5"], "height_m": "2"},
                 D1={"at_m": ["4.1", "1"], "height_m": "2"}, D2={"at_m": ["7.5", "0.5"]})


# Straight below and beside [1, 1.5], 1.5 m up: 0.3 m to the right, 0.4 m towards the front.
FUSES = ("fuse-box", {"corner_m": ["1.3", "1.4"], "metal": "true"})
ROUTER = ("router", {"corner_m": ["0.9", "0.6"], "transmits": "true"})
# 0.6 m to the right and 0.8 m lower: 1 m.
TIN = ("tin-trunk", {"corner_m": ["1.6", "1.4"], "height_m": "0.7", "metal": "true"})

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
                     ("D2 would be heard by CU with a margin of 2.5 dB on a bad day; 10 dB are wanted. What takes most: wall number 3 (stud-foil), 30.6 dB; "
                      "without it the margin is 33.1 dB.",),
                     ("margin 2.5 dB, wanted 10 dB",), "Do not drill before the check on site."),
                # A second foil: with doors open and nobody about it can be heard.
                Said(paths(D2=TWO_FOILS), ("job.devices.D2.path",),
                     ("D2 would not be heard by CU on a bad day, by 28.1 dB; 10 dB are wanted. What takes most: wall number 3 (stud-foil), 30.6 dB; "
                      "without it the margin is 2.5 dB.",),
                     ("margin -28.1 dB, wanted 10 dB",), "plan a repeater"),
                # A repeater whose own link is short takes along what is heard through it. By hand: 8 + 105 - 51.22 of free space - 3 x 12.59
                # of wet concrete - 8 - 6.42 = 9.6; 15 dB are wanted of it.
                Said(both(repeaters, paths(R1=THREE_BLOCKS)), ("job.devices.R1.path",),
                     ("R1 would be heard by CU with a margin of 9.6 dB on a bad day; 15 dB are wanted. What takes most: wall number 1 (block), 12.6 dB; "
                      "without it the margin is 22.2 dB. D2 is heard through it, and no better than it.",),
                     ("margin 9.6 dB, wanted 15 dB",))),
        clear=(paths(), paths(D2=NO_FOIL), both(), paths(D2=THREE_FOILS)),
        unchecked=((paths(D2=None), "the link of D2 is not known: there is no plan, and no path is written for it; write path for the unit"),)),
    "no-link": Cases(
        # By hand: 8 + 105 - 52.80 - 2 x 2.77 of dry brick - 3 x (22.5 of foil + 0.35 of boards) - 0.79 of floor = -14.7; on a bad day
        # two foils more than in the first case of link-short: 2.5 - 2 x 30.6 = -58.7.
        speaks=(Said(paths(D2=THREE_FOILS), ("job.devices.D2.path",),
                     ("No link is expected between D2 and CU: 14.7 dB are missing on a typical day, 58.7 dB on a bad one. What takes most: "
                      "wall number 3 (stud-foil), 30.6 dB; without it the margin is -28.1 dB.",),
                     ("margin on a typical day -14.7 dB, margin on a bad day -58.7 dB, wanted 10 dB",), "Do not drill before the check on site."),),
        clear=(paths(D2=FAR), paths(D2=TWO_FOILS), both())),
    "repeater-full": Cases(
        speaks=(Said(full, ("job.devices.R1.sheet",), ("2 units are heard through R1 (D1 and D2); it carries 1.",), ("units 2 (D1 D2), at most 1",),
                     "Let 1 of them be heard directly"),
                Said(both(two_by_profile, chain_full), ("job.devices.R2.sheet",), ("2 units are heard through R2 (D2 and R1); it carries 1.",),
                     ("units 2 (D2 R1), at most 1",)),
                # With a plan it is known who hears the units better: R1, 3 m off behind a wall, carries one of them.
                Said(both(full, placed), ("job.devices.R1.sheet",), ("2 units are heard through R1 (D1 and D2); it carries 1.",),
                     ("units 2 (D1 D2), at most 1",), "By the links worked out best heard: D1 by R2 (49.4 dB).")),
        clear=(both(repeaters, MOST), both(full, put("equipment", "tern-rp", "repeats", value="2"))),
        unchecked=((repeaters, "the sheet of R1 gives no repeats; write how many units it can carry in the sheet tern-rp"),)),
    "receiver-near-metal": Cases(
        speaks=(Said(planned(FUSES, ROUTER), ("job.control_unit.at_m",),
                     ("CU would hang 0.3 m from fuse-box (metal) and 0.4 m from router (sends by itself); 1 m is wanted.",),
                     ("fuse-box 0.3 m, router 0.4 m, at least 1 m",), "until 1 m or more lies between"),
                # Beside and above a freezer, 0.4 m each: 0.4 x sqrt 2; half a metre from a wall with foil in it.
                Said(both(repeaters, planned(("freezer", {"room": "hall", "corner_m": ["6", "1"], "metal": "true", "transmits": "true"}),
                                             walls={"outside": "cavity-brick", "inside": "stud-foil"}, R1={"room": "hall", "at_m": ["6.9", "1.25"],
                                             "height_m": "2.2"}, R2={"room": "hall", "at_m": ["4.5", "2.5"], "height_m": "1.2"})),
                     ("job.devices.R1.at_m", "job.devices.R2.at_m"),
                     ("R1 would hang 0.566 m from freezer (metal, sends by itself); 1 m is wanted.",
                      "R2 would hang 0.5 m from the stud-foil wall between hall and store (metal); 1 m is wanted."),
                     ("freezer 0.566 m, at least 1 m", "the stud-foil wall between hall and store 0.5 m, at least 1 m"))),
        clear=(planned(TIN), planned(("chest", {"corner_m": ["1.2", "1.4"]})), both(), paths()),
        unchecked=((both(planned(FUSES), put("job", "control_unit", "at_m", value=None)),
                    "what stands near CU is not known: CU has no place in the plan; write at_m in job.control_unit"),
                   (both(planned(FUSES), put("job", "control_unit", "height_m", value=None)),
                    "what stands near CU is not known: the height of CU is not known; write height_m in job.control_unit"),
                   (both(without_limit("metal_clear_m"), planned(FUSES)), "the profile has no limit metal_clear_m"))),
}
