"""The safety messages: own words for hazards that the trade knows. Which job has which hazard stands in `safety.py`."""
from generator.procedure.message import Message, Word

LOCAL = "Local code and practice come before this pack. Where they differ, stop and ask."

WIRING = Message(
    "wiring", Word.DANGER, "Live mains and hidden conductors.",
    "Touching a live part kills.",
    "Isolate the supply and lock it off. Prove it dead at the point of work: proving unit, test, proving unit. Keep out of fixed "
    "wiring: leave it to a licensed electrician. Open no cover and join no wire before.",
    "The local wiring code and licensed electricians decide what may be joined, where and by whom. " + LOCAL,
    "Isolate, lock off, prove dead: proving unit, test, proving unit. Keep out of fixed wiring: licensed electrician, local wiring code.")
LIVE = Message(
    "live", Word.DANGER, "The mains is on here.",
    "Touching a live part kills.",
    "The cover of the mains terminals stays on, whatever else is opened. Switch the mains off at its own switch only, never at a terminal. Cover off, "
    "cracked or in the way: touch nothing; a licensed electrician isolates it, locks it off and proves it dead first.",
    "The local wiring code and licensed electricians decide what may be opened while it is live, and by whom. " + LOCAL,
    "The cover of its terminals stays on. Cover off, cracked or in the way: touch nothing; a licensed electrician proves it dead first.")
TERMINALS = Message(
    "terminals", Word.WARNING, "Wires are joined at this unit.",
    "A wire taken for extra-low voltage can be live and kill; a wrong one can burn.",
    "Isolate whatever feeds the unit or the wire, prove every wire dead before touching it. Keep low-voltage wires apart from mains "
    "cables. Keep out of fixed wiring: leave it to a licensed electrician.",
    "The local wiring code and licensed electricians decide. " + LOCAL,
    "Isolate what feeds it, prove every wire dead. Keep out of fixed wiring: licensed electrician, local wiring code.")
DRILLING = Message(
    "drilling", Word.WARNING, "Cables and pipes in the wall.",
    "A drill in a live cable or gas pipe can kill.",
    "Scan before each hole, at two sensitivities. In walls, do not drill above, below or level with a switch or socket, nor "
    "near corners and ceilings; in ceilings, not in line with a lamp. Where unsure, do not drill. Know where water, gas and "
    "electricity are shut off.",
    "Wiring zones are set by the local wiring code; gas by its own law. " + LOCAL,
    "Scan twice; off lines with switches, sockets, lamps, corners. Unsure: do not drill.")
ASBESTOS = Message(
    "asbestos", Word.DANGER, "Old coatings, boards and fuse panels can hold asbestos.",
    "Its dust causes deadly disease years later.",
    "Ask for the records. If it must be drilled and nobody has cleared it, stop, keep others out and report.",
    "The asbestos law and a licensed surveyor decide. " + LOCAL,
    "Not cleared: do not drill. Keep others out, report.")
LADDER = Message(
    "ladder", Word.DANGER, "Work from a ladder.",
    "Falls kill.",
    "Short, light work only; firm level ground, about one out for four up, tied or footed, three points of contact. Do not reach "
    "sideways. Not alone, not in wind, ice or the dark, never near overhead lines.",
    "The law on work at height decides; use a tower or another trade where a ladder will not do. " + LOCAL,
    "Tied or footed, firm ground, three points of contact. Not alone, in wind, ice or the dark, near lines.")
STEPS = Message(
    "steps", Word.WARNING, "Work from steps.",
    "A fall from no great height can break a skull or a hip, and kill.",
    "Steps or a low platform that stand firm on all feet, locked open, facing the work; never a chair, a table or a bed, never the top step. Do not reach "
    "sideways: move them. Never beside an open stair or its edge: stand so that a fall ends on the floor.",
    "The law on work at height decides. " + LOCAL,
    "Locked open, no chair, not by an open stair.")
BATTERY = Message(
    "battery", Word.WARNING, "A lead-acid battery can deliver a very large current.",
    "Shorted, it burns and can burst; charging, it gives off hydrogen; its acid harms eyes and skin.",
    "Rings and watch off, insulated tools, terminals covered, polarity checked, nothing laid on it. Keep it upright and the box "
    "aired.",
    "The battery's own plate and the safety authority's guidance decide. " + LOCAL,
    "Rings off, insulated tools, terminals covered, polarity checked.")
LITHIUM = Message(
    "lithium", Word.WARNING, "Lithium cells.",
    "Shorted, charged, crushed or heated, they catch fire and can burst.",
    "Never charge, solder, open or mix them; old and new stay apart. Tape the poles of each used one at once and take it to a "
    "collection point. Keep to the limits for carrying them in the van.",
    "The cell's own plate, the rules on carrying batteries and the waste law decide. " + LOCAL,
    "Never charge, short, crush, solder or mix them. Tape used ones at once, off to the collection point.")
BUTTON_CELL = Message(
    "button-cell", Word.DANGER, "Button cells where children live.",
    "Swallowed, a cell burns through within about two hours.",
    "Cell compartment closed with its screw; used cells taped and out of reach at once. If one may have been swallowed: "
    "hospital, immediately.",
    "Emergency services and doctors decide. " + LOCAL,
    "Compartment screwed shut; used cells taped and out of reach at once. Perhaps swallowed: hospital, immediately.")
STATIC = Message(
    "static", Word.NOTICE, "Open circuit boards.",
    "A spark too small to feel destroys them; nobody is hurt.",
    "Before a board is handled its supplies are off; touch metal that is joined to ground first, hold it by its edges, leave it in its bag until it is fixed.",
    "The unit's own papers decide. " + LOCAL,
    "Handle a board only with its supplies off; touch metal that is joined to ground first; hold it by its edges.")
SOUNDER = Message(
    "sounder", Word.WARNING, "A sounder near the ear.",
    "It can harm hearing within minutes, and startle somebody off a ladder.",
    "Ear protection on, the house and those next door told, children and animals out of the way, nobody on the ladder while it can sound.",
    "The law on noise at work decides. " + LOCAL,
    "Ear protection on, everybody told, children and animals away, nobody on a ladder while it can sound.")
DUST = Message(
    "dust", Word.WARNING, "Chips and dust from the drill.",
    "Chips can blind an eye; stone dust breathed in again and again causes deadly lung disease.",
    "Eye protection and a fitting dust mask on. Vacuum at the bit, dust sheet under it, nobody else in the way.",
    "The law on dust at work decides. " + LOCAL,
    "Eye protection and mask on, vacuum at the bit, dust sheet down.")
LIFE_SAFETY = Message(
    "life-safety", Word.WARNING, "Smoke, heat and carbon monoxide devices save lives.",
    "Wrongly placed, they do not warn.",
    "Position, number, power and tests follow the fire code and the device's own listing, not the intruder plan. Remove no "
    "existing alarm.",
    "The fire and building code and the fire service decide. " + LOCAL,
    "By the fire code and its listing only. Remove no existing alarm.")
ESCAPE = Message(
    "escape", Word.WARNING, "The way out in a fire.",
    "Somebody who stops to turn the alarm off, or stands before a lock, can die in the smoke.",
    "Nothing of the system may hold anybody back who leaves: no lock, grille, keypad or part set. Show everybody that they leave "
    "first, alarm or not.",
    "The building and fire code decide. " + LOCAL,
    "Nothing may hold back who leaves in a fire: no lock, keypad or part set. Out first, alarm or not.")
PERSONAL = Message(
    "personal", Word.WARNING, "Hold-up and call devices are no telephone.",
    "Whoever relies on one for anything else can wait in vain; misused, it brings police where nobody is attacked.",
    "Hold-up is for an attack or threat here and now, on a person. A medical call counts only where the system is approved for it. "
    "For everything else: the emergency number.",
    "Police policy and the rules on social alarms decide. " + LOCAL,
    "Hold-up only for an attack or threat on a person here; for all else the emergency number.")
RADIO = Message(
    "radio", Word.NOTICE, "A radio band shared with everybody.",
    "Units for another country's band, added antennas, amplifiers and jammers are against the law nearly everywhere and disturb others.",
    "Only units made for this country's band, as they are. No jammer, ever, not even for a test.",
    "The radio authority decides. " + LOCAL,
    "Only units for this country's band, unchanged. No jammer, ever.")
IMPLANTS = Message(
    "implants", Word.WARNING, "Fobs and pendants near a heart pacemaker or other implant.",
    "A magnet or a transmitter too close can disturb it.",
    "Ask before handing one out. Keep the distance that its plate and the implant's card give; do not wear it on the chest.",
    "The doctor and the papers of the implant decide. " + LOCAL,
    "Ask about implants; keep the distance on plate and card, not on the chest.")
CAMERAS = Message(
    "cameras", Word.NOTICE, "Alarms confirmed by picture or sound.",
    "Cameras and microphones are not part of this pack; who is seen or heard has rights.",
    "Fit and aim none by this pack. Ask the company which signs, consent and limits hold here.",
    "The data-protection authority decides. " + LOCAL,
    "None is fitted by this pack; ask the company which privacy rules hold.")
GAS = Message(
    "gas", Word.WARNING, "Appliances that burn gas, oil or wood.",
    "Carbon monoxide and gas kill unseen.",
    "Do not work on an appliance or its flue, nor move an existing alarm. If an alarm sounds or you smell gas: everybody out, touch no "
    "switch, call from outside.",
    "Registered gas and heating engineers, the gas emergency service and the fire service decide. " + LOCAL,
    "No work on appliances or flues, move no existing alarm. Alarm or smell of gas: out, no switches, call from outside.")
NEIGHBOURS = Message(
    "neighbours", Word.NOTICE, "Noise outside.",
    "A sounder that runs on brings complaints and fines; nobody is hurt.",
    "Tell those next door before the test. Set no longer time than the law allows; keyholders are registered where that is asked.",
    "The local law on noise decides. " + LOCAL,
    "Tell those next door first; no longer than the local law allows.")
ALONE = Message(
    "alone", Word.WARNING, "Alone in a house you do not know.",
    "A dog, a person in a rage or a fall can injure badly, and nobody is there to help.",
    "Somebody knows where you are and when you report. Dogs shut away. In an empty house look before you reach. If it feels wrong: "
    "leave and report.",
    "The company's rules on working alone decide. " + LOCAL,
    "Report in, dogs shut away, look before you reach. If it feels wrong: leave and report.")
NO_LESS = Message(
    "no-less-secure", Word.NOTICE, "A house that has an alarm now.",
    "In the middle of the work, neither the old nor the new one works; nobody is hurt.",
    "Leave the house no less secure than you found it. If the work stops before its end, say in writing what works and what does not.",
    "The insurer's condition and the company's rules decide. " + LOCAL,
    "If the work stops before its end, say in writing what works and what does not.")

# What stands before work that is not reached from the floor: one of them for a unit.
HEIGHTS = (LADDER, STEPS)
# The gravest first; within a word in the order in which a day meets them.
EVERY = (WIRING, ASBESTOS, LADDER, BUTTON_CELL, LIVE, TERMINALS, DRILLING, DUST, ALONE, BATTERY, LITHIUM, STEPS, SOUNDER, LIFE_SAFETY, GAS, PERSONAL,
         ESCAPE, IMPLANTS, NO_LESS, RADIO, STATIC, NEIGHBOURS, CAMERAS)
