"""A sounder up a ladder: all that can be done on the ground is done there, then one visit up, and its sound only when the ladder is away.

The order: common practice, no source.
"""
from collections.abc import Iterator

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.procedure import messages
from generator.procedure.climb import climb, two_are_here, who_reads
from generator.procedure.power import JOIN_HIGH, SUPPLIES, locked_off, powered_in_order
from generator.procedure.safety import is_outside, met
from generator.procedure.signing import lines_of
from generator.procedure.step import Fact, Open, Step
from generator.procedure.units import high_sounders, numbered, of_kind, unit_facts
from generator.tables import tools
from generator.tables.minutes import OF_STEP
from generator.terms.show import sentence_list


LID = "Lid, wall and link of {0}, before the ladder goes"


def first_enrolled(papers: Papers, results: Results) -> list[str]:
    """What is enrolled before the first high sounder goes up: the repeaters that hear one, a keypad to read at, the sounders themselves."""
    high = high_sounders(papers)
    if not high:
        return []
    names = numbered(papers, results)
    through = {papers.job.devices[name].via for name in high}
    keypad = of_kind(papers, names, "keypad")[:1]
    return [name for name in names if name in through or name in keypad or name in high]


def fixed_after(papers: Papers, results: Results, name: str) -> tuple[str, ...]:
    """What a unit's fixing waits for besides: of a high sounder that it was tried on the ground, and that what feeds it is off. One without a
    number is never enrolled."""
    return (f"quiet-{name}", f"off-{name}") if name in high_sounders(papers) and name in numbered(papers, results) else ()


def high_up(papers: Papers, results: Results) -> Iterator[Step]:
    """The steps of each high sounder round its fixing."""
    for name in high_sounders(papers):
        if name not in numbered(papers, results):
            continue
        yield Step(f"quiet-{name}", "fix", f"Try {name} on the ground, then silence it",
                   (f"Still on the ground: open and shut the lid of {name}; a second person reads its tamper at a keypad.",
                    f"Switch the sound of {name} off in programming. It stays off until the ladder is away."),
                   after=(f"enrol-{name}",), unit=name, messages=met(papers, [name], messages.SOUNDER), facts=unit_facts(papers, results, name),
                   minutes=OF_STEP["quiet"], unsigned=lines_of(name, "Lid tamper"), leaves=(Open(f"The sound of {name} is switched off", f"lid-{name}"),))
        if papers.sheet_of[name].power.kind == "wired":
            yield _taken_away(papers, name)
            yield _joined(papers, name)
            yield _back_on(papers, name)
        yield Step(f"lid-{name}", "fix", LID.format(name),
                   (f"Open and shut the lid of {name}: tamper, then restore. Where it watches its wall, the same with the wall. Read its link at that height once more.",
                    *who_reads(papers, name, "what it sends", "a keypad"),
                    f"Ladder away; only then is the sound of {name} switched on again. It sounds only in its own test, from the ground."),
                   after=(f"fix-{name}", f"join-{name}", f"on-{name}"), unit=name, messages=met(papers, [name], messages.LADDER, messages.SOUNDER),
                   hold=two_are_here(name, before=True) if is_outside(papers, name) else None,
                   minutes=OF_STEP["lid"], tools=(*tools.LADDER, *tools.SECOND), unsigned=lines_of(name, "Lid tamper", "Wall tamper", "Drift"))


def visit_up(papers: Papers, results: Results, name: str) -> tuple[Open, ...]:
    """The ladder stands from the fixing of a high sounder until its lid was tried."""
    return (Open(f"The ladder stands at {name}", f"lid-{name}"),) if fixed_after(papers, results, name) else ()


def _taken_away(papers: Papers, name: str) -> Step:
    """The control unit loses every supply before a wire that it feeds is touched: the mains first and from outside, so that no lid comes off over
    live mains. The order in which supplies are joined is the sheet's; that in which they are taken away is for whoever stands before the lid."""
    unit = papers.job.control_unit.id
    sheet = papers.sheet_of[unit]
    mains = sheet.power.kind == "mains"
    rest = sentence_list([SUPPLIES[one] for one in reversed(sheet.control_unit.power_order) if one != "mains"], "then")
    first = ((f"A licensed electrician, or whom else the law allows, isolates the mains of {unit} at its own switch or fuse, locks it off with a label, and "
              f"proves it dead at {unit}: proving unit, test, proving unit. No mains wire is touched or taken out.",) if mains else ())
    return Step(f"off-{name}", "fix", f"Have {unit} off before the supply of {name} is joined",
                (f"Only where {name} goes up now; else leave {unit} on.",
                 *first, f"{'Then, with' if mains else 'With'} nothing sounding: take away {rest}. {unit} shows nothing."),
                after=(f"quiet-{name}", climb(name, "fix")), unit=unit, messages=met(papers, [unit], messages.WIRING, messages.BATTERY),
                hold=locked_off(unit) if mains else None, minutes=OF_STEP["isolate"], tools=(*_takes_mains_away(papers, name), *(tools.ISOLATE if mains else ())),
                unsigned=lines_of(name, "Own supply"),
                leaves=(Open(f"{unit} is off{', its mains locked off' if mains else ''}: the house has no alarm", f"on-{name}", grave=True),))


def _takes_mains_away(papers: Papers, name: str) -> tuple[str, ...]:
    """Who is needed where the control unit's mains is taken away and joined again for the sake of a sounder that it feeds."""
    own = papers.sheet_of[papers.job.control_unit.id]
    return tools.ELECTRICIAN if papers.sheet_of[name].power.kind == "wired" and own.power.kind == "mains" else ()


def _joined(papers: Papers, name: str) -> Step:
    """The wires of its supply are joined dead, in the same visit."""
    unit = papers.job.control_unit.id
    return Step(f"join-{name}", "fix", JOIN_HIGH.format(name),
                (f"Prove each wire at {name} dead, though {unit} is off{_still_locked(papers, name)}.",
                 f"Join the wires of {name} as its page “{name}” says, polarity checked, nothing bare.",
                 "Could not: each wire ends insulated. Then come down: nobody is on the ladder while anything is switched on."),
                after=(f"fix-{name}", f"off-{name}"), unit=name,
                messages=(*met(papers, [name, unit], messages.WIRING), *met(papers, [name], messages.LADDER, messages.TERMINALS)),
                minutes=OF_STEP["join"], tools=(*tools.METER, *tools.LADDER, *tools.SECOND), unsigned=lines_of(name, "Own supply"))


def _back_on(papers: Papers, name: str) -> Step:
    """What feeds it comes back in the order of the control unit's sheet, from the ground; nothing that follows works before."""
    unit = papers.job.control_unit.id
    own = papers.sheet_of[unit].control_unit
    order = sentence_list([SUPPLIES[one] for one in own.power_order], "then")
    return Step(f"on-{name}", "fix", f"Have {unit} on again after {name}",
                (f"In any case: also where {name} could not be fixed or joined.",
                 f"From the ground, nobody on the ladder: {unit} on again in the order above, polarity read before a battery is joined. "
                 f"{_switched_on(papers, name)}{unit} shows no fault; where {name} is joined, {name} shows none."),
                after=(f"join-{name}",), unit=unit, messages=met(papers, [unit], messages.LIVE, messages.BATTERY),
                facts=(Fact("Order", order), Fact("Why", own.power_order_reason)), hold=powered_in_order(papers), minutes=OF_STEP["on"],
                tools=(*_takes_mains_away(papers, name), *tools.METER), unsigned=lines_of(name, "Own supply"))


def _still_locked(papers: Papers, name: str) -> str:
    return ", its mains still locked off" if _takes_mains_away(papers, name) else ""


def _switched_on(papers: Papers, name: str) -> str:
    """Who gives the mains back, and in which state its terminals are then."""
    return "Whoever locked the mains off switches it on, its terminal cover on. " if _takes_mains_away(papers, name) else ""
