"""The tests, in the trade's order: each waits for the one before, so that a fault is found where it is."""
from collections.abc import Iterator
from dataclasses import replace

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.procedure import messages
from generator.procedure.checks_of_detectors import opening_limit, panes_of
from generator.procedure.climb import to_climb, two_are_here, who_reads
from generator.procedure.handling import filled, room_name
from generator.procedure.high_up import high_sounders
from generator.procedure.power import LIVE_NOW
from generator.procedure.safety import CARRIED, EVERY, FIRE_KINDS, PERSONAL_KINDS, fed_by_wire, is_outside, met, own_mains
from generator.procedure.sheet_test import test_words
from generator.procedure.signing import lines_of, lines_of_each
from generator.procedure.step import Fact, Hold, Step
from generator.procedure.trial_of_system import (at_the_end, confirmation, entry_exit, heard_again, interference, omitting, part_sets, paths, supervision,
                                                 supply)
from generator.procedure.units import fitted, limit_fact, numbered, of_kind, row_fact, test_minutes, unit_facts
from generator.tables import tools
from generator.tables.minutes import OF_STEP
from generator.terms.show import amount, capital, sentence_list

KEYPADS = ("keypad", "reader")
NOT_WALKED = (*KEYPADS, *FIRE_KINDS, *PERSONAL_KINDS, *CARRIED, "sounder", "repeater")
# What somebody reaches up to when it is tested; all else is set off from the floor.
REACHED = ("sounder", *FIRE_KINDS)
TOOLS = {"glass-break": tools.GLASS, "smoke": tools.FIRE, "heat": tools.FIRE, "carbon-monoxide": tools.FIRE,
         "sounder": tools.EARS, "movement": tools.WATCH}
# What is written about a unit, besides what its own sheet says, in the words of its kind.
MORE = {
    "movement": ("Cross each edge of what it must see, slowly and briskly, the far corner and behind furniture too.",
                 "{panes}A test mode that was switched on for it: off again."),
    "contact": ("Open it slowly from shut: it acts before the gap above is reached. Shut it onto the latch: it restores.",),
    "glass-break": ("Never strike glass.",),
    "shock": ("Never strike glass.",),
    "sounder": ("Everybody told, nobody near it or on a ladder. Let it run once to its end, and time it.", "{supply}"),
    "repeater": ("Its mains off: it carries on and the loss is reported. Block the direct way of each unit behind it, then trigger that unit.",),
    "smoke": ("As the fire code and its listing say; the station, where there is one, reads fire.",),
    "heat": ("As the fire code and its listing say; the station, where there is one, reads fire.",),
    "carbon-monoxide": ("As the code and its listing say; the station, where there is one, reads carbon monoxide.",),
    "keypad": ("Every key, light and tone. Wrong codes on purpose: it locks as its papers say.",),
    "reader": ("Light and tone at each reading. A strange tag does nothing.",),
    "fob": ("{set} and {unset} with it; the log names its user. Pressed in a pocket, nothing happens.",),
    "tag": ("{set} and {unset} with it; the log names its user.",),
}


def trial(papers: Papers, results: Results) -> tuple[Step, ...]:
    """Every test step of the job; each waits for the one before it."""
    steps = list(_in_trade_order(papers, results))
    ready = ("read-back", "on-test", *(f"lid-{name}" for name in high_sounders(papers)))
    return tuple(replace(step, after=(before.id,) if before else ready) for before, step in zip([None, *steps], steps))


def _in_trade_order(papers: Papers, results: Results) -> Iterator[Step]:
    names = numbered(papers, results)
    walked = [name for name in names if papers.sheet_of[name].kind not in NOT_WALKED]
    yield _control_unit(papers, results)
    if fitted(papers):
        yield _tampers(papers, results)
    yield from _units(papers, results, [*of_kind(papers, names, *KEYPADS), *walked])
    yield entry_exit(papers)
    yield from part_sets(papers, results)
    yield from omitting(papers, results)
    yield from _units(papers, results, of_kind(papers, names, "sounder"))
    yield from supply(papers)
    yield from _units(papers, results, of_kind(papers, names, "repeater"))
    # From here to where it is heard again nothing needs the lost unit, or a system that is set.
    lost = bool(fitted(papers))
    if lost:
        yield supervision(papers, results)
    yield interference(papers)
    yield from paths(papers)
    yield from _units(papers, results, of_kind(papers, names, *PERSONAL_KINDS))
    yield from _units(papers, results, of_kind(papers, names, *FIRE_KINDS))
    if lost:
        yield heard_again(papers)
    yield from _units(papers, results, of_kind(papers, names, *CARRIED))
    yield from confirmation(papers, results)
    yield from at_the_end(papers, results)


def _control_unit(papers: Papers, results: Results) -> Step:
    unit = papers.job.control_unit
    return Step(f"test-{unit.id}", "test", f"Test {unit.id}",
                (filled(papers.sheet_of[unit.id].handling.test, papers, results, unit.id),), unit=unit.id, hold=_lid_shut(papers),
                messages=met(papers, [unit.id], *LIVE_NOW), facts=(Fact("Room", room_name(papers, unit.room)),),
                minutes=test_minutes(papers, unit.id), unsigned=lines_of(unit.id, "Lid tamper"))


def _lid_shut(papers: Papers) -> Hold | None:
    """Before the lid of a control unit on mains comes off."""
    if papers.sheet_of[papers.job.control_unit.id].power.kind != "mains":
        return None
    return Hold("H7", "No mains terminal lies open under its lid; or the supply is isolated, locked off and proved dead before the lid comes off.",
                "Mains kills.", before=True)


def _tampers(papers: Papers, results: Results) -> Step:
    words = papers.profile.words
    high = high_sounders(papers)
    names = [name for name in numbered(papers, results) if name in fitted(papers) and name not in high]
    outside = [name for name in names if is_outside(papers, name)]
    return Step("tampers", "test", "Open each lid",
                (f"{capital(words.is_unset)}: open the lid of each unit; the keypad names it in time. Shut it: it restores. "
                 f"{capital(words.is_set)}: once more, one unit of each kind" + (", which has no call of its own." if papers.job.monitoring else "."),
                 "Where a unit watches its wall, lift it off: the same.", *_quiet(papers, names), *_footed(papers, names)),
                facts=(*limit_fact(papers, "tamper_s", "Shown within"), *(row_fact(papers, results, name) for name in names)),
                hold=two_are_here(sentence_list(outside), before=True) if outside else None,
                messages=tuple(one for one in EVERY if one in {*met(papers, names, *messages.HEIGHTS, messages.SOUNDER, messages.LIVE),
                                                                   *met(papers, fed_by_wire(papers, names), messages.TERMINALS)}),
                minutes=OF_STEP["tampers"], tools=to_climb(papers, names),
                unsigned=lines_of_each(names, "Lid tamper"))


def _quiet(papers: Papers, names: list[str]) -> Iterator[str]:
    """A sounder's lid is opened with its sound switched off, and never by one person alone."""
    sounders = of_kind(papers, names, "sounder")
    if sounders:
        yield (f"{sentence_list(sounders)}: sound switched off in programming before anybody goes near it; one opens the lid, a second person reads "
               "the keypad. Then sound on.")


def _footed(papers: Papers, names: list[str]) -> tuple[str, ...]:
    """Who reads the keypad while somebody is up at one of these."""
    return next((who_reads(papers, name, "the keypad", "it") for name in names if met(papers, [name], messages.LADDER)), ())


def _units(papers: Papers, results: Results, names: list[str]) -> Iterator[Step]:
    """A step for each unit: made to act on purpose, in the words of its sheet."""
    for name in names:
        sheet = papers.sheet_of[name]
        # Its joined supply is taken away at the control unit, whose lid comes off for it.
        opens = sheet.kind == "sounder" and bool(fed_by_wire(papers, [name]))
        yield Step(f"test-{name}", "test", f"Test {name}",
                   (*_lid_done(papers, results, name), test_words(papers, results, name), *_more(papers, name)), unit=name,
                   hold=_lid_shut(papers) if opens else None,
                   messages=met(papers, [name, *([papers.job.control_unit.id] if opens else [])],
                                *(() if _lid_done(papers, results, name) else messages.HEIGHTS if sheet.kind in REACHED else (messages.LADDER,)), messages.SOUNDER, messages.LIVE, messages.LIFE_SAFETY,
                                *([messages.TERMINALS] if fed_by_wire(papers, [name]) and not opens else []),
                                messages.GAS, messages.PERSONAL, *([messages.IMPLANTS] if sheet.kind in ("fob", "medical") else [])),
                   facts=(*unit_facts(papers, results, name), *_limits(papers, name)), minutes=_test_min(papers, name),
                   tools=(*TOOLS.get(sheet.kind, ()), *(to_climb(papers, [name]) if sheet.kind in REACHED and not _lid_done(papers, results, name) else ()), *(tools.ELECTRICIAN if name in own_mains(papers) else ())),
                   unsigned=lines_of(name, "Function", *(("Number and text",) if any(row.list == "zones" for row in results.slots.of(name)) else ()),
                                     *(("Own supply",) if sheet.kind == "sounder" and fed_by_wire(papers, [name]) else ())))


def _lid_done(papers: Papers, results: Results, name: str) -> tuple[str, ...]:
    if name not in high_sounders(papers) or name not in numbered(papers, results):
        return ()
    return ("Its lid was tried when it went up and is not opened again: nobody climbs.",)


LIMITS = {"movement": (("slow_walk_steps", "Steps until it answers, at most"), ("stillness_min", "Stillness, apart from the walk: nobody moves, no signal for")),
          "glass-break": (("noise_test_m", "Keys and claps at"),)}


def _limits(papers: Papers, name: str) -> tuple[Fact, ...]:
    """The limits that its test is held against: by its kind, by what it watches, by where it hangs."""
    kind = papers.sheet_of[name].kind
    if kind == "contact":
        return limit_fact(papers, opening_limit(papers, name), "It acts before the gap is")
    if kind == "sounder":
        planned = papers.job.times.sounder_min if is_outside(papers, name) else papers.job.times.inside_sounder_min
        runs = (Fact("Runs for", amount(planned, "min")),) if planned is not None else ()
        return (*runs, *(limit_fact(papers, "sounder_max_min", "It stops within") if is_outside(papers, name) else ()))
    return tuple(fact for limit, title in LIMITS.get(kind, ()) for fact in limit_fact(papers, limit, title))


def _test_min(papers: Papers, name: str) -> float:
    """Minutes for the tests of a unit; of a sounder those that it is left to run besides."""
    usual = test_minutes(papers, name)
    if papers.sheet_of[name].kind != "sounder":
        return usual
    planned = papers.job.times.sounder_min if is_outside(papers, name) else papers.job.times.inside_sounder_min
    return usual + (planned or 0)


def _more(papers: Papers, name: str) -> tuple[str, ...]:
    """What is done with every unit of a kind, in the market's words, as far as this one has it: panes in its room, a joined supply."""
    words, panes = papers.profile.words, panes_of(papers, name)
    fill = {"{set}": capital(words.set), "{unset}": words.unset,
            "{panes}": f"Stand still while somebody walks outside {sentence_list(panes)}: no signal. " if panes else "",
            "{supply}": "Take its joined supply away at the control unit, the cover of the mains terminals on: it still sounds. Wire and lid back." if fed_by_wire(papers, [name]) else ""}
    out = []
    for line in MORE.get(papers.sheet_of[name].kind, ()):
        for key, value in fill.items():
            line = line.replace(key, value)
        out.append(line)
    return tuple(filter(None, out))
