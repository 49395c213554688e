"""The control unit: a dead supply, no surprise in the wall, cables first, then the supplies in the order of its sheet."""
from collections.abc import Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType

from generator.calc.results import Results
from generator.model.cable import Cable
from generator.model.equipment import Sheet
from generator.model.papers import Papers
from generator.model.ratings import Charger
from generator.procedure import messages
from generator.procedure.cleared import stopped_by, told, untested
from generator.procedure.climb import to_climb
from generator.procedure.handling import filled, room_name
from generator.procedure.safety import has_wiring, is_outside, met, own_mains
from generator.procedure.signing import COMPLETION, ELECTRICAL, lines_of, lines_of_each
from generator.procedure.step import Fact, Hold, Open, Step
from generator.procedure.units import fitted, fix_minutes, high_sounders, limit_fact
from generator.tables import tools
from generator.tables.minutes import OF_STEP
from generator.terms.show import amount, metres, number, sentence_list

SUPPLIES = {"loads": "low-voltage loads", "mains": "mains", "battery": "standby battery"}
CONNECTION = ("The connection is fixed and fused as the local code asks; nothing that somebody pulls or switches off by accident; earth (ground) continuity "
              "proved where the unit wants it; labelled.",)
JOINED = ("With the supply still locked off and proved dead, the competent person joins its wires (line, neutral, and the grounding wire where the unit "
          "has one) and puts the terminal cover on.",
          "They take the lock off and switch the mains on. From here the unit is live: its terminal cover stays on.")
JOIN = {"loads": ("Join the low-voltage loads; mains and battery stay off.",),
        "mains": (*CONNECTION, *JOINED, "Read charging voltage and polarity at the battery's leads and write them down: only within the limits above does the battery follow."),
        "battery": ("Polarity at the battery's leads once more, plus to plus; then join the standby battery.",)}
JOIN_HIGH = "Join the supply of {0}, in the same visit"
WIRES = (messages.WIRING, messages.TERMINALS)
# The same once the mains is on: what was joined dead stays covered.
LIVE_NOW = (messages.LIVE, messages.TERMINALS)


def power(papers: Papers, results: Results) -> Iterator[Step]:
    """From the isolated supply to the powered control unit."""
    unit = papers.job.control_unit
    sheet = papers.sheet_of[unit.id]
    checked = tuple(f"signal-{name}" for name in fitted(papers))
    apart = own_mains(papers)
    back = "power-mains" if "mains" in _joined_here(papers) else powered(papers)
    fed = [*([unit.id] if sheet.power.kind == "mains" else []), *apart]
    if fed:
        yield Step("isolate", "power", f"Have the supply of {sentence_list(fed)} isolated and proved dead",
                   ("A person whom the law allows isolates and locks off the supply, with a label"
                    + (", each of them by itself." if len(fed) > 1 else "."),
                    "Prove it dead at the point of work: proving unit, test, proving unit.",
                    "No cover is opened and no wire touched here: that waits for its own step."),
                   after=("background", *checked), unit=fed[0], messages=met(papers, fed, messages.WIRING),
                   hold=DEAD,
                   minutes=OF_STEP["isolate"] * len(fed), tools=(*tools.ELECTRICIAN, *tools.ISOLATE),
                   unsigned=(*lines_of_each(fed, "Supply"), ELECTRICAL),
                   leaves=tuple(Open(f"The supply of {name} is isolated and locked off", back if name == unit.id else f"power-{name}", grave=True)
                                for name in fed))
    yield Step("services", "power", "Find out what lies in the walls",
               ("Find where electricity, gas and water are shut off, and that you can reach it.",
                "Try the detector over a cable that you know, at two sensitivities.",
                "Ask about underfloor heating, pipes behind radiators and what was built in later."),
               after=("walk-round", "asbestos", "isolate", *checked), messages=met(papers, [unit.id], messages.DRILLING),
               facts=limit_fact(papers, "wiring_zone_mm", "Keep from corners and ceilings"),
               minutes=OF_STEP["services"], tools=tools.SERVICES, unsigned=(COMPLETION,))
    # The hole of a unit outside is made where it is fixed, when somebody may go up.
    wired = [name for name in (unit.id, *fitted(papers)) if has_wiring(papers.sheet_of[name]) and not is_outside(papers, name)]
    if wired:
        yield _entries(papers, wired)
    yield Step(f"fix-{unit.id}", "power", f"Fix {unit.id}",
               (*stopped_by(papers, unit.id), filled(sheet.handling.fix, papers, results, unit.id), "To masonry or a stud, never to plasterboard alone; tamper plate flat.", *_trial_over(sheet)),
               after=("isolate", "services", "cable-entry", *checked), unit=unit.id,
               messages=met(papers, [unit.id], *WIRES, messages.DRILLING, messages.DUST, messages.ASBESTOS, *messages.HEIGHTS, messages.STATIC),
               facts=(*untested(papers, unit.id), Fact("Room", room_name(papers, unit.room)), *((Fact("Place", unit.position),) if unit.position else ()),
                      *((Fact("Height of its middle", metres(unit.height_m)),) if unit.height_m is not None else ())), hold=scanned(papers, [unit.id]),
               minutes=fix_minutes(papers, unit.id), tools=(*tools.DRILL, *tools.STATIC, *sheet.tools), unsigned=lines_of(unit.id, "Fixing"))
    yield from _supplies(papers)


def scanned(papers: Papers, names: list[str]) -> Hold:
    """Before any hole: what lies in the wall and, in a house that is not known to be new, the answer on asbestos for this very place."""
    return Hold("H8", f"Each place where a hole goes is scanned for cables and pipes.{told(papers, names)}", "What the drill finds cannot be seen.", before=True)


# After a supply was isolated: nothing that it feeds is opened before.
DEAD = Hold("H7", "Proved dead: proving unit, test, proving unit; locked and labelled.", "Mains kills.")


def locked_off(unit: str) -> Hold:
    """After a control unit was switched off again, before a wire that it feeds is touched."""
    return replace(DEAD, until=f"The mains of {unit} is locked off, labelled and proved dead: proving unit, test, proving unit; every other supply is taken away.")


def powered_in_order(papers: Papers) -> Hold | None:
    """After the supplies of the control unit came back; None where it runs on cells, which have no order to get wrong."""
    unit = papers.job.control_unit.id
    sheet = papers.sheet_of[unit]
    if sheet.power.kind == "cell":
        return None
    return Hold("H9", f"{unit} is on, every supply joined in its order; polarity{f', and charging voltage {_within(sheet)},' if sheet.power.kind == 'mains' else ''} "
                      "was read before the battery was joined.", f"Without {unit} nothing that follows works, and the house has no alarm.",
                otherwise=f"{unit} stays off and locked with its label, and nobody goes on: ask the office")


def still_dead(names: str) -> Hold:
    """Before anybody touches the mains wires of a unit: hours, or a night, may have gone since its supply was isolated."""
    return Hold("H7", f"The supply of {names} is still locked off and labelled, and proved dead again here: proving unit, test, proving unit.",
                "Mains kills.", before=True)


def _trial_over(sheet: Sheet) -> tuple[str, ...]:
    return () if sheet.power.kind == "cell" else ("The bench supply of the trial is off; nothing feeds it.",)


def powered_apart(papers: Papers, name: str) -> Iterator[Step]:
    """A unit with mains of its own: joined by the competent person as soon as it is fixed, so that no supply stays isolated for long."""
    if name in own_mains(papers):
        yield Step(f"power-{name}", "fix", f"Power {name}: its own mains", (*CONNECTION, *JOINED, f"{name} shows that its mains is there; its own battery or pack "
                                                                            "is joined as its papers say, polarity checked."),
                   after=(f"fix-{name}", "isolate"), unit=name, messages=met(papers, [name], *WIRES, messages.BATTERY, messages.LITHIUM),
                   facts=limit_fact(papers, "fuse_a", "Usual fuse"), hold=still_dead(name),
                   minutes=OF_STEP["supply"], tools=(*tools.ELECTRICIAN, *tools.METER), unsigned=(*lines_of(name, "Supply"), ELECTRICAL))


def _entries(papers: Papers, wired: list[str]) -> Step:
    """The cable entries come first: a draught through the hole trips detectors."""
    facts = [Fact(f"Run {key}", f"{_size(cable)}, to {_loads(cable)}") for key, cable in papers.job.cables.items()]
    later = [name for name in fitted(papers) if has_wiring(papers.sheet_of[name]) and is_outside(papers, name)]
    apart = [f"The hole of {name} is not made here but in the step “Fix {name}”, when two people are there for the ladder: here its cable is laid up to "
             "that place, from inside." for name in later]
    return Step("cable-entry", "power", "Make the cable entries",
                ("Holes fall outwards; grommet and seal from inside, so that no draught, damp or insect comes in.",
                 "Outside cables get a drip loop before they enter.",
                 "Mains and extra-low voltage enter on different sides and stay apart.", *apart),
                after=("services", "isolate"), facts=(*facts, Fact("Wired units", sentence_list(wired))),
                messages=met(papers, wired, *WIRES, messages.DRILLING, messages.DUST, messages.ASBESTOS, *messages.HEIGHTS),
                hold=scanned(papers, wired), minutes=OF_STEP["cable-entry"],
                tools=(*tools.DRILL, *tools.CABLE, *to_climb(papers, wired)),
                unsigned=lines_of_each(wired, "Fixing"))


def _size(cable: Cable) -> str:
    return f"{number(cable.size_mm2, 2)} mm², {cable.build}" if cable.size_mm2 else f"AWG {cable.awg}, {cable.build}"


def _loads(cable: Cable) -> str:
    return sentence_list([f"{load.unit} after {amount(load.at_m, 'm')}" for load in cable.loads])


def _supplies(papers: Papers) -> Iterator[Step]:
    """One step for each supply in the sheet's order; before the wires of the mains and before a standby battery stands a hold point."""
    unit = papers.job.control_unit
    sheet = papers.sheet_of[unit.id]
    own, charger = sheet.control_unit, sheet.control_unit.charger
    order = sentence_list([SUPPLIES[one] for one in own.power_order], "then")
    joined = _joined_here(papers)
    none = () if "loads" in joined or "loads" not in own.power_order else (Fact("Low-voltage loads", _no_loads(papers)),)
    volts = (Fact("Charging voltage", f"{_volts(charger)}, battery not joined"),) if charger else ()
    fuse = limit_fact(papers, "fuse_a", "Usual fuse")
    # Polarity is read where its leads first carry something, before the battery is joined to them.
    reads = next((one for one in joined if one in ("mains", "battery")), "")
    earlier = f"fix-{unit.id}"
    for one, following in zip(joined, [*joined[1:], ""]):
        live = sheet.power.kind == "mains" and "mains" in joined[:joined.index(one)]
        read = f"Charging voltage is read and {_within(sheet)}, and polarity" if "mains" in joined[:joined.index(one)] else "Polarity"
        holds = {"mains": still_dead(unit.id) if sheet.power.kind == "mains" else None,
                 "battery": None if sheet.power.kind == "cell" else Hold("H9", f"{read} is read and right, before the battery is joined.",
                                                                         "A wrong polarity destroys the unit and can burn.", before=True)}
        yield Step(f"power-{one}", "power", f"Power {unit.id}: {SUPPLIES[one]}", JOIN[one], after=(earlier,), unit=unit.id,
                   messages=met(papers, [unit.id], *(LIVE_NOW if live else (*WIRES, messages.STATIC)), messages.BATTERY),
                   facts=(Fact("Order", order), Fact("Why", own.power_order_reason), *(none if one == joined[0] else ()),
                          *((*fuse, *volts) if one == "mains" else ())),
                   hold=holds.get(one), minutes=OF_STEP["supply"],
                   tools=(*(tools.ELECTRICIAN if one == "mains" else ()), *tools.METER, *tools.STATIC),
                   unsigned=(lines_of(unit.id, *SIGNED[one], *(("Polarity",) if one == reads else ())) if sheet.power.kind == "mains" else ()) or (COMPLETION,),
                   leaves=(Open(f"{unit.id} has not all its supplies yet", f"power-{joined[-1]}"),) if following else ())
        earlier = f"power-{one}"


def _within(sheet: Sheet) -> str:
    """The span of the charging voltage, as its sheet has it."""
    charger = sheet.control_unit.charger
    return f"within {_volts(charger)}" if charger else "within the range on its plate"


def _volts(charger: Charger) -> str:
    return f"{number(charger.least_v, 2)} to {number(charger.most_v, 2)} V"


# The lines of the control unit's checklist that hang on each supply; currents are read later, with the mains off.
SIGNED: Mapping[str, tuple[str, ...]] = MappingProxyType({"loads": (), "mains": ("Supply", "Charging voltage"), "battery": ("Battery", "Standby", "Battery fail")})


def powered(papers: Papers) -> str:
    """The last step of powering the control unit."""
    order = _joined_here(papers)
    return f"power-{order[-1]}" if order else f"fix-{papers.job.control_unit.id}"


def _joined_here(papers: Papers) -> list[str]:
    """The supplies that are joined when the control unit is fixed, in its sheet's order: loads only where it feeds a unit by now."""
    order = papers.sheet_of[papers.job.control_unit.id].control_unit.power_order
    later = high_sounders(papers)
    fed = [name for name in fitted(papers) if papers.sheet_of[name].power.kind == "wired" and name not in later]
    return [one for one in order if one != "loads" or fed]


def _no_loads(papers: Papers) -> str:
    later = [name for name in high_sounders(papers) if papers.sheet_of[name].power.kind == "wired"]
    return "none is joined now" + (f"; {sentence_list(later)}: in the step “{JOIN_HIGH.format(later[0])}”" if later else "")
