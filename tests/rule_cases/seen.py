"""What is seen, exposed, too cold and heard, on a small plan of the demo house. Rows 3, 12, 13 and 21 of the trade's list of failures.

Openings within reach up to 3.7 m above a surface that is 1.2 m wide: UL 1641 (published extracts, read second-hand). An outside sounder 3 m up:
common practice; environmental class I, 5 to 40 °C: EN 50131-1 (from memory). A shut door takes 17 dB: UL FSRI (read); 18 to 23 dB: Lee and Kim 2018
(abstract). 55 dB(A) wake: Nober and others (abstract).
"""
from tests.rule_cases.case import Cases, Said, both, lacking, put, without_limit

ROOMS = {"hall": ([0, 0], [2, 4]), "lounge": ([2, 0], [4, 4]), "store": ([6, 0], [2, 4]), "kitchen": ([0, 4], [3, 3]), "bedroom": ([3, 4], [3, 3]),
         "bathroom": ([6, 4], [2, 3])}
INNER = {"kitchen-door": (["hall", "kitchen"], [1, 4]), "lounge-door": (["hall", "lounge"], [2, 2]), "bedroom-door": (["kitchen", "bedroom"], [3, 5]),
         "bathroom-door": (["bedroom", "bathroom"], [6, 5]), "store-door": (["lounge", "store"], [6, 1])}
ROOF = {"corner_m": ["3", "-2"], "size_m": ["2", "2"], "height_m": "2.6"}
LOUD = {"sheet": "tern-sx", "room": "hall", "serial": "00D00F", "at_m": ["1", "3.9"], "height_m": "2.1"}


def texts(point) -> list[str]:
    return [str(one) for one in point]


def plan(files) -> None:
    """The demo house measured: hall in front, lounge and store on its right, kitchen, bedroom and bathroom behind."""
    job = files["job"]
    job["premises"] |= {"front_deg": "180"}
    ground = job["premises"]["storeys"]["ground"]
    ground["level_m"] = "0"
    for key, (corner, size) in ROOMS.items():
        ground["rooms"].setdefault(key, {})
        ground["rooms"][key] |= {"corner_m": texts(corner), "size_m": texts(size)}
    ground["rooms"]["bathroom"]["bathroom"] = "true"
    ground["openings"] |= {key: {"kind": "door", "wall": wall, "at_m": texts(at), "width_m": "0.8", "height_m": "2"} for key,
                           (wall, at) in INNER.items()}
    ground["openings"]["front-door"] |= {"at_m": ["1", "0"], "width_m": "0.9", "height_m": "2"}
    ground["openings"]["back-door"] |= {"at_m": ["0", "5.5"], "width_m": "0.9", "height_m": "2"}
    ground["openings"]["kitchen-window"] |= {"at_m": ["1.5", "7"], "width_m": "1", "height_m": "1", "sill_m": "1", "glazed": "true"}
    devices = job["devices"]
    devices["D2"] |= {"at_m": ["0.1", "0.1"], "faces_deg": "45"}
    devices["D3"]["protects_2"] = "kitchen-window"
    devices["K1"] |= {"at_m": ["1.95", "1"]}
    devices["S1"] |= {"at_m": ["3.5", "-0.1"]}
    devices["S2"] = dict(LOUD)


def opening(name: str, **keys):
    return lambda files: files["job"]["premises"]["storeys"]["ground"]["openings"].setdefault(name, {"kind": "window"}).update(keys)


def room(name: str, **keys):
    return lambda files: files["job"]["premises"]["storeys"]["ground"]["rooms"][name].update(keys)


def unit(name: str, **keys):
    def change(files) -> None:
        here = files["job"]["devices"].setdefault(name, {})
        for key, value in keys.items():
            here.pop(key, None) if value is None else here.update({key: value})

    return change


def sheet(name: str, *way: str, value):
    return put("equipment", name, *way, value=value)


def thing(name: str, **keys):
    return put("job", "premises", "storeys", "ground", "furniture", value={name: keys})


WINDOW = dict(wall=["store", "outside"], at_m=["8", "2"], width_m="1", height_m="1", glazed="true")
# Row 3: a door of the ground floor that no unit refers to, in a room without a movement detector.
DOOR = opening("side-door", kind="door", wall=["store", "outside"])


def upper(files) -> None:
    """A loft with a window 3.8 m above the ground."""
    files["job"]["premises"]["storeys"]["upper"] = {"level_m": "2.7", "rooms": {"loft": {}}, "openings": {
        "gable": {"kind": "window", "wall": ["loft", "outside"], "sill_m": "1.1"}}}


MOVE = dict(sheet="tern-pir12", room="store", role="immediate", text="STORE MOVE", serial="00B11A", at_m=["6.1", "0.1"], height_m="2.2",
            faces_deg="45")
SIGNED = "or accept this with the customer's signed exclusion"
DOG = put("job", "household", "animals", value={"dog": {"mass_kg": "12"}, "cat": {"mass_kg": "4"}})
NIGHT = put("job", "part_sets", value={"night": {"name": "Night", "when": "everybody sleeps"}})
SOFA = dict(room="hall", corner_m=["1.2", "2"], size_m=["0.6", "1"], height_m="0.8", climbed="true")
HEATER = dict(room="hall", corner_m=["1.9", "1.5"], size_m=["0.09", "1"], height_m="0.6", heat="true")
PATIO = opening("hall-window", wall=["hall", "outside"], at_m=["0", "3"], width_m="1", height_m="1", sill_m="1", glazed="true")
LOFT = both(room("store", coldest_c="-8", warmest_c="44"), put("job", "premises", "storeys", "ground", "rooms", "hall", "coldest_c", value="14"),
            *(room(key, coldest_c="14", warmest_c="30") for key in ("hall", "kitchen")))
NOWHERE = "S2 has no place in the plan; write at_m in job.devices.S2"
CASES = {
    "opening-undetected": Cases(
        speaks=(Said(DOOR, ("job.premises.storeys.ground.openings.side-door",),
                     ("side-door is 0 m above the ground, within reach up to 3.7 m, and nothing detects who comes in by it.",),
                     ("above 0 m, within reach 3.7 m, units that detect none",), SIGNED),
                # From the ground 3.8 m up it is out of reach, from the roof of the porch 1.2 m.
                Said(both(upper, put("job", "premises", "storeys", "upper", "level_m", value="2.7"),
                          put("job", "premises", "storeys", "upper", "openings", "gable", "at_m", value=["4", "0"]),
                          put("job", "premises", "roofs", value={"porch": ROOF})), ("job.premises.storeys.upper.openings.gable",),
                     ("gable is 1.2 m above the roof porch, within reach up to 3.7 m, and nothing detects who comes in by it.",),
                     ("above 1.2 m, within reach 3.7 m, units that detect none",), "protects: gable"),
                # A detector of the room that looks away from the window does not see who comes in by it.
                Said(both(plan, opening("store-window", sill_m="1", **WINDOW), unit("M1", **(MOVE | {"faces_deg": "0", "at_m": ["6.1", "2.6"]}))),
                     ("job.premises.storeys.ground.openings.store-window",),
                     ("store-window is 1 m above the ground, within reach up to 3.7 m, and nothing detects who comes in by it.",),
                     # By hand: from (6.1, 2.6) to (7.5, 2), one step inside, the heading is 113.2 degrees; less half of its right angle, 68.2.
                     ("above 1 m, within reach 3.7 m, units that detect none",), "Turn M1, with faces_deg: 70 it sees one step inside")),
        clear=(upper, both(DOOR, unit("M1", sheet="tern-pir12", room="store", role="immediate", text="STORE MOVE", serial="00B11A")),
               both(plan, opening("store-window", sill_m="1", **WINDOW), unit("M1", **MOVE)),
               both(upper, put("job", "premises", "roofs", value={"porch": ROOF})),
               # A roof of 1.1 m is none to stand on; one that takes a ladder neither.
               both(upper, put("job", "premises", "storeys", "upper", "openings", "gable", "at_m", value=["4", "0"]),
                    put("job", "premises", "roofs", value={"porch": ROOF | {"size_m": ["2", "1.1"], "corner_m": ["3", "-1.1"]},
                                                           "high": ROOF | {"reached": "false"}}))),
        unchecked=((both(upper, put("job", "premises", "storeys", "upper", "openings", "gable", "sill_m", value=None)),
                    "nothing detects who comes in by gable, and premises.storeys.upper.openings.gable gives no sill_m, so it is not known how high it is"),
                   (both(upper, put("job", "premises", "storeys", "upper", "level_m", value=None)),
                    "nothing detects who comes in by gable, and premises.storeys.upper gives no level_m, so it is not known how high gable is"),
                   (put("job", "devices", "D3", "protects_2", value=None),
                    "nothing is said to detect who comes in by kitchen-window, and D3 has a second circuit there of which it is not said what it watches; "
                    "write protects_2 in job.devices.D3"),
                   *lacking("reach_height_m", "reach_stand_m", "reach_side_m"))),
    # Row 13: a window and a radiator in view.
    "detector-disturbed": Cases(
        speaks=(Said(both(plan, PATIO, unit("D2", at_m=["1.9", "0.1"], faces_deg="315"),
                          thing("radiator", **(HEATER | {"corner_m": ["0.02", "1.5"]}))),
                     ("job.devices.D2.faces_deg",),
                     ("D2 has 2 sources of heat in view: the window hall-window, 3.5 m away, facing 270° by the compass, so the sun comes in; radiator, "
                      "which gets warm, 2.3 m away.",), ("hall-window 3.5 m away, radiator 2.3 m away, wanted in view none",),
                     "Hang it at [0.1, 0.1] with faces_deg: 50; it then sees"),
                # To the north: no sun, still a pane.
                Said(both(plan, PATIO, put("job", "premises", "front_deg", value="270"), unit("D2", at_m=["1.9", "0.1"], faces_deg="315")),
                     ("job.devices.D2.faces_deg",),
                     ("D2 has 1 source of heat in view: the window hall-window, 3.5 m away, facing 0° by the compass.",),
                     ("hall-window 3.5 m away, wanted in view none",))),
        clear=(plan, both(plan, PATIO), both(plan, thing("radiator", **(HEATER | {"heat": "false"}))), both())),
    "animal-heavy": Cases(
        speaks=(Said(both(DOG, sheet("tern-pir12", "coverage", "animal_kg", value="8")), ("job.devices.D2.sheet",),
                     ("D2 lets animals up to 8 kg pass; dog weighs 12 kg.",), ("animal 12 kg, lets pass 8 kg",), "animal_kg of 12 kg or more"),),
        clear=(both(DOG, sheet("tern-pir12", "coverage", "animal_kg", value="12")), both()),
        unchecked=((DOG, "the sheet of D2 gives no coverage.animal_kg; write in the sheet tern-pir12 the mass that it lets pass, or 0 for none"),)),
    "animal-climbs": Cases(
        speaks=(Said(both(plan, DOG, thing("sofa", **SOFA)), ("job.devices.D2.faces_deg",),
                     ("D2 sees what an animal can get onto: sofa (0.8 m high, 2.2 m away).",), ("sofa 0.8 m high, wanted in view none",),
                     "move sofa out of its view"),),
        clear=(both(plan, DOG), both(plan, thing("sofa", **SOFA)), both(plan, DOG, thing("sofa", **(SOFA | {"climbed": "false"}))), both(DOG))),
    "sleepers-way": Cases(
        speaks=(Said(both(plan, NIGHT, unit("M1", **(MOVE | {"room": "bedroom", "at_m": ["3.1", "4.1"]}))), ("job.devices.M1.left_out_in",),
                     ("M1 acts in the part set night and meets whoever goes from bedroom to bathroom, in bedroom.",),
                     # By hand: from (4.5, 5.5) by the door at (6, 5) to (7, 5.5), 1.58 and 1.12 m; seen from its first step.
                     ("met after 0 m, way bedroom to bathroom 2.7 m, left out in none, part set night",), "left_out_in: [night]"),
                # The bathroom off the hall: its door to the kitchen open, the hall's detector sees the way behind it.
                Said(both(plan, NIGHT, put("job", "premises", "storeys", "ground", "rooms", "bathroom", "bathroom", value=None),
                          room("lounge", bathroom="true"),
                          unit("S2", room="kitchen", at_m=["1", "4.1"])),
                     ("job.devices.D2.left_out_in",), ("D2 acts in the part set night and meets whoever goes from bedroom to lounge, in kitchen.",),
                     # By hand: by the doors at (3, 5), (1, 4), (2, 2) to (4, 2), 8.05 m; past the jamb at (1.4, 4) it sees them at (1.48, 4.24), 3.28 m on.
                     ("met after 3.3 m, way bedroom to kitchen to hall to lounge 8.1 m, left out in none, part set night",))),
        clear=(both(plan, NIGHT), plan, both(NIGHT),
               both(plan, NIGHT, unit("M1", **(MOVE | {"room": "bedroom", "at_m": ["3.1", "4.1"], "left_out_in": ["night"]})))),
        unchecked=((both(plan, NIGHT, put("job", "premises", "storeys", "ground", "rooms", "bathroom", "bathroom", value=None)),
                    "the way from bedroom to a bathroom is not known: no room is marked with bathroom: true"),
                   (both(plan, NIGHT, lambda files: files["job"]["premises"]["storeys"]["ground"]["openings"].pop("bathroom-door")),
                    "the way from bedroom to a bathroom is not known: the plan has no doors or stairs that lead from bedroom to a bathroom"))),
    # Row 12: a keypad opposite a glazed front door, and one beside a letter plate.
    "keypad-exposed": Cases(
        speaks=(Said(both(plan, opening("front-door", glazed="true"), unit("K1", at_m=["1.5", "3.95"])), ("job.devices.K1.at_m",),
                     ("K1 is seen from outside through front-door, 4 m away.",), ("front-door 4 m away, wanted in sight none",),
                     "film the glass of front-door"),
                Said(both(plan, opening("front-door", letter_plate="true"), unit("K1", at_m=["1.38", "0.05"], height_m="1.1")),
                     ("job.devices.K1.at_m",),
                     ("K1 is 0.396 m from the letter plate of front-door, within an arm's reach of 0.4 m.",),
                     ("letter plate of front-door 0.3961 m away, arm's reach 0.4 m",), "Move it farther away"),
                # Seen through the glass of one door and within reach of its letter plate: one finding says both, with both pairs of numbers.
                Said(both(plan, opening("front-door", glazed="true", letter_plate="true"), unit("K1", at_m=["1.05", "0.38"], height_m="1.0")),
                     ("job.devices.K1.at_m",),
                     ("K1 is seen from outside through front-door, 0.4 m away and is 0.383 m from the letter plate of front-door, within an arm's reach of "
                      "0.4 m.",), ("front-door 0.4 m away, wanted in sight none, letter plate of front-door 0.3833 m away, arm's reach 0.4 m",))),
        clear=(plan, both(plan, opening("front-door", letter_plate="true")), both(plan, opening("front-door", glazed="true"),
                                                                                  unit("K1", at_m=["1.7", "0.05"])),
               both(plan, opening("kitchen-window", glazed="true"))),
        unchecked=((both(plan, unit("K1", at_m=None)),
                    "what is seen of K1 from outside is not known: K1 has no place in the plan; write at_m in job.devices.K1"),)),
    "sounder-in-reach": Cases(
        speaks=(Said(unit("S1", height_m="2.4"), ("job.devices.S1.height_m",), ("S1 hangs 2.4 m above the ground; 4 m are wanted.",),
                     ("above the ground 2.4 m, wanted 4 m",), "1.6 m higher, at height_m: 4"),
                Said(both(plan, put("job", "premises", "roofs", value={"porch": ROOF})), ("job.devices.S1.height_m",),
                     ("S1 hangs 1.6 m above the roof porch; 4 m are wanted.",), ("above the roof porch 1.6 m, wanted 4 m",),
                     "farther along the wall"),
                # Where no insurer asks for more, the usual height counts.
                Said(both(without_limit("sounder_insurer_height_m"), unit("S1", height_m="2.4")), ("job.devices.S1.height_m",),
                     ("S1 hangs 2.4 m above the ground; 3 m are wanted.",), ("above the ground 2.4 m, wanted 3 m",))),
        clear=(unit("S1", height_m="4"), plan, both(plan, put("job", "premises", "roofs", value={"porch": ROOF | {"corner_m": ["4.6", "-2"]}}))),
        unchecked=((unit("S1", height_m=None),
                    "whether S1 can be reached is not known: the height of S1 is not known; write height_m in job.devices.S1"),
                   *lacking("sounder_height_m"))),
    # Row 21: -8 to 44 °C, and a unit of class I, 5 to 40 °C.
    "place-outside-plate": Cases(
        speaks=(Said(both(LOFT, unit("D9", sheet="tern-dc", room="store", role="immediate", text="STORE HATCH", serial="00A4FC"),
                          sheet("tern-dc", "environment", value={"environmental_class": "I"}), put("job", "control_unit", "room", value="hall")),
                     ("job.devices.D9.sheet",),
                     ("D9 stands in store, which gets as cold as -8 °C, and it is made for 5 °C and more, and as warm as 44 °C, and it is made for 40 °C at most.",),
                     ("coldest -8 °C, allowed down to 5 °C, warmest 44 °C, allowed up to 40 °C",), "class III (-25 to 50 °C)"),
                Said(both(LOFT, room("store", coldest_c="5", warmest_c="30"), sheet("tern-sx", "environment", "environmental_class", value="II")),
                     ("job.devices.S1.sheet",), ("S1 hangs outside and is made for environmental class II, which is indoors.",),
                     ("place outside, class II, wanted III or IV",), "class IV"),
                # No class holds it.
                Said(both(LOFT, room("store", coldest_c="-40", warmest_c="30"), put("job", "control_unit", "room", value="store")),
                     ("job.control_unit.sheet",),
                     ("CU stands in store, which gets as cold as -40 °C, and it is made for -10 °C and more.",),
                     ("coldest -40 °C, allowed down to -10 °C",),
                     "no environmental class")),
        clear=(both(LOFT, room("store", coldest_c="5", warmest_c="30")), both()),
        unchecked=((both(LOFT, room("store", coldest_c="5", warmest_c="30"), put("job", "premises", "storeys", "ground", "rooms", "kitchen",
                                                                                 "warmest_c", value=None)),
                    "kitchen gives no warmest_c"),
                   (both(LOFT, room("store", coldest_c="5", warmest_c="30"), put("equipment", "tern-kp", "environment", value=None)),
                    "the sheet of K1 gives no environment; write least_c and most_c under environment in the sheet tern-kp"))),
    # By hand: from (1, 3.9, 2.1) to the kitchen's door at (1, 4, 1), 1.105 m; to the bedroom's at (3, 5, 1), 2.236 m; to its far corner (5.98, 6.98, 0.6),
    # 3.600 m: 6.941 m. 80 - 20 log 6.941 - 2 x 23 = 17.2 dB(A).
    "bedroom-too-quiet": Cases(
        speaks=(Said(both(plan, sheet("tern-sx", "sound", "level_db", value="80")), ("job.premises.storeys.ground.rooms.bedroom.sleeping",),
                     ("In bedroom S2 comes to 17 dB(A) at least behind 2 shut doors and 6.9 m away; 55 dB(A) wake.",),
                     ("level 17 dB(A), wakes from 55 dB(A)",), "at most 18 m from the bed with none in between; or one that is 38 dB louder"),),
        clear=(both(plan, unit("S2", room="bedroom", at_m=["3.1", "4.1"])), both()),
        unchecked=((both(plan, lambda files: files["job"]["devices"].pop("S2")),
                    "what is heard in bedroom is not known: the job has no sounder inside"),
                   (both(plan, unit("S2", at_m=None)), f"what is heard in bedroom is not known: {NOWHERE}"),
                   *((both(plan, without_limit(name)), f"the profile has no limit {name}") for name in ("wake_dba", "door_loss_high_db")))),
}
