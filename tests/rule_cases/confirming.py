"""What confirms what, on the small plan of the demo house (tests/rule_cases/seen.py): what whoever came in walks into next. Common practice, no source.

By hand: from one step inside the store's window, at (7.5, 2), past the jambs of its door to the lounge (quarter of a metre off them, (6.25, 1.15)) it is
1.51 m; 0.35 m on they pass x = 5.9, the edge of what the lounge's detector sees from its corner: 1.86 m. On to (2.25, 1.85), 0.25 + 3.57 m, and to the line of the hall's door: 5.83 m.
"""
from tests.rule_cases.case import Cases, Said, both, put
from tests.rule_cases.seen import MOVE, WINDOW, opening, plan, unit, upper
from tests.rule_cases.times import not_monitored

SEQUENTIAL = both(put("job", "monitoring", "confirmation", value="sequential"), unit("D2", confirms="true"))
SHED = put("job", "premises", "storeys", "shed", value={"outbuilding": "true", "rooms": {"shed": {}}})
IN_SHED = unit("D8", sheet="tern-pir12", room="shed", role="immediate", text="SHED MOVE", serial="00B11B")
SHED_DOOR = put("job", "premises", "storeys", "shed", value={"outbuilding": "true", "rooms": {"shed": {}}, "openings": {
    "shed-door": {"kind": "door", "wall": ["shed", "outside"]}}})
SHED_TWO = unit("D9", sheet="tern-pir12", room="shed", role="immediate", text="SHED TWO", serial="00B11C", confirms="true")
STORE = both(plan, SEQUENTIAL, opening("store-window", sill_m="1", **WINDOW))
CONTACT = unit("D9", sheet="tern-dc", protects="store-window", role="immediate", text="STORE WINDOW", serial="00A4FC")
IN_LOUNGE = unit("M1", **(MOVE | {"room": "lounge", "at_m": ["5.9", "3.9"], "faces_deg": "225"}))
CASES = {
    "part-cannot-confirm": Cases(
        speaks=(Said(both(plan, SEQUENTIAL, SHED, IN_SHED), ("job.devices.D8.confirms",),
                     ("In shed no alarm can be confirmed: D8 is there, and none of them may confirm.",),
                     ("units there 1, may confirm none, wanted 1 besides the first",), "Add a second unit there"),
                # With a way in it is named, and who is met behind it.
                Said(both(plan, SEQUENTIAL, SHED_DOOR, IN_SHED), ("job.devices.D8.confirms",),
                     ("In shed no alarm can be confirmed: D8 is there, and none of them may confirm. Ways in: shed-door (D8 first).",),
                     ("units there 1, may confirm none, wanted 1 besides the first",), "Add a second unit there with confirms: true in shed, behind shed-door"),
                # Its own alarm it does not confirm.
                Said(both(plan, SEQUENTIAL, SHED, IN_SHED, unit("D8", confirms="true")), ("job.devices.D8.confirms",),
                     ("In shed no alarm can be confirmed: D8 is there, and D8 may confirm.",),
                     ("units there 1, may confirm D8, wanted 1 besides the first",))),
        clear=(both(plan, SEQUENTIAL), both(plan, SHED, IN_SHED), both(put("job", "monitoring", "confirmation", value="sequential")), not_monitored,
               both(plan, SEQUENTIAL, SHED, IN_SHED, SHED_TWO))),
    "opening-unconfirmed": Cases(
        speaks=(Said(both(STORE, unit("M1", **MOVE, confirms="true"), unit("D2", confirms=None)), ("job.premises.storeys.ground.openings.store-window",),
                     ("Whoever comes in by store-window sets off M1 first, and meets no unit that may confirm it; the next that is met, D2, 5.8 m on, may not.",),
                     ("met that may confirm 0, wanted 1 besides the first, D2, which may not 5.8 m on",), "Write confirms: true at D2"),
                # Nothing at all is met: 1.51 m past the jamb and 0.29 m to the middle of the door.
                Said(both(STORE, unit("M1", **MOVE, confirms="true"), lambda files: files["job"]["devices"].pop("D2")),
                     ("job.premises.storeys.ground.openings.store-window",),
                     ("Whoever comes in by store-window sets off M1 first, and meets no unit that may confirm it.",),
                     ("met that may confirm 0, wanted 1 besides the first",),
                     "Add a second unit with confirms: true in store, behind store-window, or in lounge, whose door is 1.8 m on")),
        clear=(STORE, both(STORE, unit("M1", **MOVE)), both(STORE, unit("M1", **MOVE, confirms="true")), both(upper, plan, SEQUENTIAL), SEQUENTIAL, plan,
               not_monitored),
        unchecked=((both(STORE, opening("kitchen-door", width_m=None, height_m="2")),
                    "what may confirm an alarm of whoever comes in by back-door and kitchen-window is not known: no way is found, and kitchen-door gives "
                    "no width_m"),)),
    "confirmed-farther-on": Cases(
        speaks=(Said(both(STORE, CONTACT, IN_LOUNGE), ("job.devices.M1.confirms",),
                     ("M1 may not confirm an alarm, and whoever comes in meets it before any unit that may: by store-window 1.9 m on, with D2 5.8 m on.",),
                     ("M1 from store-window 1.9 m on, D2, which may confirm 5.8 m on",), "Write confirms: true at M1"),),
        # It may confirm; it waits on the entry route; it is not on the way to the one that may; both are met in one room.
        clear=(both(STORE, CONTACT, IN_LOUNGE, unit("M1", confirms="true")), both(STORE, CONTACT, IN_LOUNGE, unit("M1", role="entry-route")),
               both(STORE, unit("M1", **MOVE)), both(STORE, CONTACT, IN_LOUNGE, unit("D2", room="lounge", at_m=["5.9", "0.1"], faces_deg="315")),
               both(CONTACT, IN_LOUNGE, plan, opening("store-window", **WINDOW)))),
}
