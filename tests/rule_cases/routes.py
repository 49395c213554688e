"""Ways in: a hall 2 m wide and 26 m long with the front door at its end, a kitchen on its right with a back door, and a keypad on the right wall.

By hand: who stands at [1, -0.25] walks to where the keypad at [2, y] is 0.6 m off, a quarter of a metre off the wall: to [1.75, y - 0.554].
So y = 14.28 is 14.0 m and y = 22.29 is 22.0 m away. Doors 5 s, a code 6 s, a tag 3 s, 0.8 m/s and a reserve of 1.25 are common practice.
"""
from tests.conftest import Files
from tests.rule_cases.case import Cases, Change, Said, both, put, with_limit, without_limit

DOOR, ENTRY = "job.premises.storeys.ground.openings.front-door", "job.times.entry_s"


def plan(y: float, **things: dict) -> Change:
    """The demo job with a plan and its keypad so far up the hall."""

    def change(files: Files) -> None:
        ground = files["job"]["premises"]["storeys"]["ground"]
        ground["rooms"]["hall"] |= {"corner_m": ["0", "0"], "size_m": ["2", "26"]}
        ground["rooms"]["kitchen"] |= {"corner_m": ["2", "8"], "size_m": ["3", "4"]}
        size = {"width_m": "0.9", "height_m": "2.0"}
        ground["openings"]["front-door"] |= {"at_m": ["1", "0"], **size}
        ground["openings"]["back-door"] |= {"at_m": ["5", "10"], **size}
        ground["openings"]["kitchen-door"] = {"kind": "door", "wall": ["hall", "kitchen"], "at_m": ["2", "10"], **size}
        ground["furniture"] = {name: {"room": "hall", "height_m": "1"} | one for name, one in things.items()}
        files["job"]["devices"]["K1"] |= {"at_m": ["2", str(y)]}
        files["job"]["household"] = {"language": "en", "slowest": "slow"}

    return change


def time(key: str, value: int) -> Change:
    return put("job", "times", key, value=str(value))


def unit(name: str, **keys: str | None) -> Change:
    return both(*(put("job", "devices", name, key, value=value) for key, value in keys.items()))


def reader(at: list[str]) -> Change:
    """A tag reader in the hall as well; the householder has a tag, the neighbour only a code."""

    def change(files: Files) -> None:
        files["equipment"]["tern-rd"] = files["equipment"]["tern-kp"] | {"name": "Tern tag reader", "kind": "reader"}
        files["equipment"]["tern-tag"] = files["equipment"]["tern-fob"] | {"name": "Tern tag", "kind": "tag"}
        files["equipment"]["tern-tag"].pop("radio", None)
        files["job"]["devices"]["K2"] = {"sheet": "tern-rd", "room": "hall", "at_m": at, "height_m": "1.3", "serial": "00C021"}
        files["job"]["devices"]["TG1"] = {"sheet": "tern-tag", "serial": "00E5A2"}
        files["job"]["users"]["1"] = {"who": "householder", "tag": "TG1"}

    return change


def porch(files: Files) -> None:
    """The timed door lies between a porch and the hall; the porch has a door of its own."""
    plan(3)(files)
    ground = files["job"]["premises"]["storeys"]["ground"]
    ground["rooms"]["porch"] = {"corner_m": ["0", "-2"], "size_m": ["2", "2"]}
    ground["openings"]["front-door"]["wall"] = ["hall", "porch"]
    ground["openings"]["porch-door"] = {"kind": "door", "wall": ["porch", "outside"], "at_m": ["1", "-2"], "width_m": "0.9", "height_m": "2.0"}


def movement(room: str, role: str = "immediate") -> Change:
    return unit("D2", room=room, role=role)


def limit(name: str, value: str) -> Change:
    """Another number in a profile that is the job's own already."""
    return put("profiles", "own", "limits", name, "value", value=value)


def looking(y: str, faces: str) -> Change:
    """The movement detector in the hall at once, on the middle of a screen across it, looking one way along it."""
    return both(movement("hall"), unit("D2", at_m=["1", y], height_m="2.2", faces_deg=faces))


SPEEDS = ("walk_slow_mps", "entry_door_s", "stairs_mps", "code_entry_s", "tag_entry_s", "time_reserve_factor")
DRESSER = {"corner_m": ["0", "2"], "size_m": ["1.8", "0.5"]}
LOST = tuple((both(plan(3), without_limit(name)), f"the profile has no limit {name}") for name in SPEEDS)
UNKNOWN = (*LOST, (both(plan(3), put("job", "premises", "storeys", "ground", "openings", "front-door", "width_m", value=None)),
                   f"the way in by front-door is not known: front-door gives no width_m; write it in {DOOR}"),
           (both(plan(3), unit("K1", at_m=None)),
            "the way in by front-door is not known: K1 has no place in the plan; write at_m in job.devices.K1"))
# 5 + 14 / 0.8 + 6 = 28.5 s, times 1.25 = 35.6 s; back (17.5 + 5) x 1.25 = 28.1 s.
NEEDS = "Whoever comes in by front-door needs {} s to K1: 5 s for the door, {} s for {} m on the flat and 6 s to unset by code, times 1.25."

LEAVES = ("Whoever leaves by front-door needs 28.1 s from K1 until it is shut: 17.5 s for 14 m on the flat and 5 s for the door, times 1.25. "
          "28 s are programmed.")

CASES = {
    "entry-route-short": Cases(
        speaks=(
            # (20 / 1.25 - 5 - 6) x 0.8 = 4 m for a keypad, (16 - 5 - 3) x 0.8 = 6.4 m for a reader.
            Said(both(plan(14.28), time("entry_s", 20)), (ENTRY,), (f"{NEEDS.format(35.6, 17.5, 14)} 20 s are programmed.",),
                 ("needed 35.6 s, programmed 20 s, longest 45 s",),
                 "Set entry_s to 40 (45 s is the longest); or keep 20 s and put a keypad within 4 m of the door or a reader within 6.4 m of the door along the way"),
            # The next step of 5 s would lie beyond the longest time.
            Said(both(plan(14.28), with_limit("entry_max_s", "37"), time("entry_s", 35)), (ENTRY,), (f"{NEEDS.format(35.6, 17.5, 14)} 35 s are programmed.",),
                 ("needed 35.6 s, programmed 35 s, longest 37 s",), "Set entry_s to 37 (37 s is the longest)"),
            # A frail user: 5 + 14 / 0.64 + 6 = 32.875 s, times 1.25 = 41.1 s.
            Said(both(plan(14.28), time("entry_s", 40), put("job", "household", "slowest", value="frail")), (ENTRY,),
                 (f"{NEEDS.format(41.1, 21.9, 14)} 40 s are programmed.",), ("needed 41.1 s, programmed 40 s, longest 45 s",), "Set entry_s to 45"),
            # The reader is quick, but the neighbour has neither fob nor tag.
            Said(both(plan(14.28), reader(["2", "2"]), time("entry_s", 30)), (ENTRY,),
                 (f"With a code (user 2: neighbour who waters the plants), w{NEEDS.format(35.6, 17.5, 14)[1:]} 30 s are programmed.",),
                 ("needed 35.6 s, programmed 30 s, longest 45 s",), "Set entry_s to 40")),
        clear=(both(plan(14.28), time("entry_s", 36)), both(plan(3), time("entry_s", 20)),
               # No permitted time is enough: another rule's word.
               plan(22.29), both(plan(14.28), put("job", "household", "slowest", value="fit"), time("entry_s", 30))),
        unchecked=UNKNOWN),
    "entry-route-beyond": Cases(
        # 5 + 22 / 0.8 + 6 = 38.5 s, times 1.25 = 48.1 s; (45 / 1.25 - 11) x 0.8 = 20 m.
        speaks=(Said(plan(22.29), ("job.devices.K1.at_m",), (f"{NEEDS.format(48.1, 27.5, 22)} 45 s is the longest entry time: no permitted time is enough.",),
                     ("needed 48.1 s, limit 45 s",), "ut a keypad within 20 m of the door or a reader within 22.4 m of the door along the way (K1 would do at [2, 20.2] in hall, 19.9 m along the way); or come in by back-door, which needs 37.3 s"),),
        clear=(both(plan(14.28), time("entry_s", 20)),),
        unchecked=(*UNKNOWN, (both(plan(3), without_limit("entry_max_s")), "the profile has no limit entry_max_s"))),
    "exit-route-short": Cases(
        speaks=(Said(both(plan(14.28), time("exit_s", 28)), ("job.times.exit_s",),
                     (LEAVES,),
                     ("needed 28.1 s, programmed 28 s",), "Set exit_s to 30."),
                # The next step of 5 s would lie beyond the longest time; then no permitted time is enough.
                Said(both(plan(14.28), with_limit("exit_max_s", "46"), limit("exit_max_s", "29"), limit("exit_min_s", "20"), limit("exit_default_s", "25"), time("exit_s", 28)),
                     ("job.times.exit_s",), (LEAVES,), ("needed 28.1 s, programmed 28 s",), "Set exit_s to 29."),
                Said(both(plan(14.28), with_limit("exit_max_s", "46"), limit("exit_max_s", "28"), limit("exit_min_s", "20"), limit("exit_default_s", "25"),
                          time("exit_s", 28)),
                     ("job.times.exit_s",), (LEAVES,), ("needed 28.1 s, programmed 28 s",), "No permitted time is enough, 28 s is the longest exit time")),
        clear=(both(plan(14.28), time("exit_s", 29)), both(plan(14.28), time("exit_s", 20), put("job", "times", "completes_by", value="tag"))),
        unchecked=UNKNOWN),
    "entry-route-blocked": Cases(
        speaks=(
            Said(plan(3, dresser=DRESSER), (DOOR,),
                 ("No way leads from front-door to K1: dresser stands in it; a person needs 0.5 m between things, and a place within 0.6 m of the unit.",),
                 ("reached none, there K1",), "Measure dresser again"),
            Said(both(plan(3), put("job", "premises", "storeys", "ground", "openings", "front-door", "width_m", value="0.4")), (DOOR,),
                 ("Nobody comes in by front-door: front-door is 0.40 m wide, too narrow for a person.",), ("reached none, there K1",), "Measure the door"),
            Said(both(plan(3), unit("K1", room="outside", at_m=None)), (DOOR,), ("Whoever comes in by front-door finds no keypad and no reader inside.",),
                 ("reached none, there none",), "Plan one inside"),
            # Nobody can stand in front of the keypad.
            Said(plan(3, piano={"corner_m": ["1.1", "2.2"], "size_m": ["0.9", "1.6"]}), (DOOR,),
                 ("No way leads from front-door to K1: piano stands in it; a person needs 0.5 m between things, and a place within 0.6 m of the unit.",),
                 ("reached none, there K1",), "Measure piano again"),
            # A keypad in a room to which no door leads.
            Said(both(plan(3), put("job", "premises", "storeys", "ground", "rooms", "bedroom", value={"corner_m": ["-3", "0"], "size_m": ["3", "4"]}),
                      unit("K1", room="bedroom", at_m=["-1", "0.05"])), (DOOR,),
                 ("No door or stairs of the plan lead from front-door to K1.",), ("reached none, there K1",), "Write the doors and stairs")),
        clear=(plan(3), plan(3, dresser=DRESSER | {"size_m": ["1.4", "0.5"]})),
        unchecked=UNKNOWN),
    "immediate-on-way-in": Cases(
        speaks=(
            # In the hall a quarter of a metre after the start: 5 + 0.26 / 0.8 = 5.3 s.
            Said(both(plan(3), movement("hall")), ("job.devices.D2.role",),
                 ("D2 (immediate) stands in hall, on the way of whoever comes in by front-door: they are there after 5.3 s, with the alarm still on.",),
                 ("met 5.3 s, entry time 30 s",), "role: entry-route"),
            # With place and direction known it is asked what it sees: 12 m up the hall, from y = 18.1 down to y = 6.1. Somebody 0.26 + 6.3 m on has
            # come so near: 5 + 6.4 / 0.8 = 13 s.
            Said(both(plan(14.28), looking("18.1", "180")), ("job.devices.D2.role",),
                 ("D2 (immediate) sees people in hall, on the way of whoever comes in by front-door: they are there after 13 s, with the alarm still on.",),
                 ("met 13 s, entry time 30 s",), "role: entry-route"),
            # In the porch they are before the entry time begins: neither role waits there.
            Said(both(porch, movement("porch")), ("job.devices.D2.role",),
                 ("D2 (immediate) stands in porch, where people pass before front-door moves and the entry time begins.",),
                 ("entry time run when it is met 0 s, entry time 30 s",), "Put the timed contact on the door before porch"),
            Said(both(porch, movement("porch", "entry-route")), ("job.devices.D2.role",),
                 ("D2 (entry-route) stands in porch, where people pass before front-door moves and the entry time begins.",),
                 ("entry time run when it is met 0 s, entry time 30 s",), "move D2 behind front-door"),
            # By the back door, whose contact is timed now, to the hall: through a door with a contact that does not wait.
            Said(both(plan(10), unit("D3", role="timed-entry"), unit("D1", protects="kitchen-door", role="immediate")), ("job.devices.D1.role",),
                 ("D1 (immediate) watches kitchen-door, on the way of whoever comes in by back-door: they are there after 9.1 s, with the alarm still on.",),
                 ("met 9.1 s, entry time 30 s",), "role: entry-route")),
        # One in the hall that looks away from all of the way meets nobody.
        clear=(plan(3), both(plan(3), movement("kitchen")), porch, both(plan(14.28), looking("18.1", "0"))),
        unchecked=UNKNOWN),
    "keypad-outside": Cases(
        speaks=(Said(unit("K1", room="outside"), ("job.devices.K1.room",), ("K1 is a keypad, and it is planned outside.",),
                     ("place outside, rooms inside 5",), "Plan it in the room"),),
        clear=(plan(3), both(reader(["2", "2"]), plan(3), unit("K2", room="outside", at_m=None)))),
}
