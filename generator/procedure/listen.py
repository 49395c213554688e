"""Before any hole: where the control unit stands, how quiet the band is, whether every link holds."""
from collections.abc import Iterator

from generator.calc.radio.link import Link
from generator.calc.radio.link_limit import link_limit
from generator.calc.radio.wanted_reading import wanted_reading
from generator.calc.results import Results
from generator.model.equipment import Sheet
from generator.model.papers import Papers
from generator.procedure import messages
from generator.procedure.check import UNWATCHED, on_own_scale
from generator.procedure.climb import climb, to_climb, two_people, who_reads
from generator.procedure.handling import room_name
from generator.procedure.safety import PERSONAL_KINDS, is_outside, met, own_mains
from generator.procedure.signing import AS_FITTED, lines_of
from generator.procedure.step import Fact, Hold, Open, Step
from generator.procedure.units import check_minutes, fitted, limit_fact, limit_text, unit_facts, unwatched
from generator.tables import tools
from generator.tables.minutes import OF_STEP
from generator.terms.show import metres, number, sentence_list


# What a reading on the control unit's own scale tells, and what it leaves open: the same for every unit.
OWN_SCALE = "On its own scale"


def listen(papers: Papers, results: Results) -> Iterator[Step]:
    """Trial place, background, and the signal check of each position."""
    unit = papers.job.control_unit
    least = limit_text(papers, "background_min")
    positions = limit_text(papers, "background_positions")
    clear = limit_text(papers, "metal_clear_m")
    on_cell = papers.sheet_of[unit.id].power.kind == "cell"
    yield Step("place", "listen", f"Hold {unit.id} in place for a trial",
               ("Inside what is watched, out of sight of windows, off the entry route where that can be, in a space that a detector covers.",
                f"{f'At least {clear}' if clear else 'Well away'} from fuses or breakers, meter, router, radiators, mirrors and foil-backed board.",
                "Near an unswitched supply and the network. Not in a cold space under the roof, bathroom, kitchen or a child's room.", *_unwatched(papers)),
               after=("walk-round",), unit=unit.id, facts=(*_where(papers), *limit_fact(papers, "metal_clear_m", "Clear of metal")),
               minutes=OF_STEP["place"], tools=(*tools.LOOK, *tools.SIGNAL), unsigned=(AS_FITTED, *(lines_of(unit.id, UNWATCHED) if unwatched(papers) else ())))
    yield Step("background", "listen", "Listen to the band where the control unit will stand",
               (*_trial_supply(papers, unit.id),
                f"Watch the background level for {least} or more, at {positions or 'the'} worst positions of units too. A busy hour tells most."),
               after=("walk-round", "place"), messages=met(papers, (), messages.RADIO), unit=unit.id,
               facts=limit_fact(papers, "background_min", "Watch for"),
               hold=Hold("H5", "The background is quieter than the unit's own paper asks.", "A noisy band shows up later as lost supervision."),
               minutes=OF_STEP["background"], tools=() if on_cell else tools.BENCH, unsigned=lines_of(unit.id, "Background"),
               leaves=() if on_cell else (Open(f"{unit.id} runs on the bench supply", _last_check(papers)),))
    for name in fitted(papers):
        yield from two_people(papers, name, "listen", f"signal-{name}", ("background", "set-authority"))
        yield _signal(papers, results, name)


def _last_check(papers: Papers) -> str:
    """The step after which nothing is heard on trial any more."""
    return next((f"signal-{name}" for name in reversed(fitted(papers))), "")


def _in_its_place(sheet: Sheet) -> str:
    """Where a bench supply is joined and at how many volts: as the standby battery is, which comes later."""
    at = next((one.name for one in sheet.terminals if "battery" in one.wire.lower()), "")
    where = f"at {at}, in place of its standby battery" if at else "where its standby battery is joined later"
    return f"{where}{f' and at that voltage ({sheet.power.cell})' if sheet.power.cell else ', at the voltage on its plate'}"


def _trial_supply(papers: Papers, unit: str) -> Iterator[str]:
    """What the control unit runs on for the trial: never its own standby battery, which is joined only when its polarity was read."""
    if papers.sheet_of[unit].power.kind == "cell":
        yield f"Power {unit} for the trial from its own cells."
        return
    yield (f"Power {unit} for the trial from a bench supply or a test kit {_in_its_place(papers.sheet_of[unit])}, as its papers allow, polarity read. Its "
           "standby battery and the mains are not joined yet: both wait for their step.")
    yield f"The bench supply comes off again when the last link is checked, before {unit} is fixed."


def _unwatched(papers: Papers) -> Iterator[str]:
    """A question where no detector of the plan is in the control unit's room."""
    if unwatched(papers):
        room = room_name(papers, papers.job.control_unit.room)
        yield f"No detector of the plan is in the same space ({room}). Ask the office whether that is meant, and write its answer at the line “{UNWATCHED}”."


def _where(papers: Papers) -> Iterator[Fact]:
    unit = papers.job.control_unit
    yield Fact("Room", room_name(papers, unit.room))
    if unit.position:
        yield Fact("Place", unit.position)
    if unit.height_m is not None:
        yield Fact("Height", metres(unit.height_m))


def _signal(papers: Papers, results: Results, name: str) -> Step:
    sent = int(papers.profile.limits["link_messages"].value)
    device, behind = papers.job.devices[name], heard_through(papers, name)
    stable, moved = limit_text(papers, "link_stable_s"), limit_text(papers, "link_move_m")
    more = [Fact("Heard through", device.via)] if device.via else []
    if on_own_scale(papers):
        more.append(Fact(OWN_SCALE, on_own_scale(papers)))
    last = [via for via in [device.via] if via in papers.job.devices and heard_through(papers, via)[-1] == name]
    return Step(f"signal-{name}", "listen", f"Check the link of {name} before drilling",
                (_heard(name, behind), *_own_supply(papers, name), *_pressed(papers, name),
                 f"Hold {name} at its final place and height,{' from steps,' if met(papers, [name], messages.STEPS) else ''} cover on, {_worst(papers, name)}.",
                 f"Send {sent} test messages; count those that arrive." + (" Read both directions." if papers.sheet_of[name].two_way else ""),
                 *who_reads(papers, name, "what arrives", "the control unit"),
                 f"If it falls short: {'first as the findings say; then ' if name in results.mends.units else ''}turn it, move it {moved or 'a little'}, "
                 "plan a repeater, move the control unit (then check every link again).",
                 *(f"It is the last that is checked through {via}: delete {via} from the list again too, its supply out." for via in last)),
                after=("background", "set-authority", climb(name, "listen"), *([f"signal-{device.via}"] if device.via else [])), unit=name,
                messages=met(papers, [name], messages.LADDER, messages.SOUNDER),
                facts=(*unit_facts(papers, results, name), *limit_fact(papers, link_limit(papers, name), "Margin at least"),
                       *_reading(results, name), *more),
                hold=Hold("H6", f"{sent} of {sent} arrive; the margin holds for {stable or 'as long as you watch'}, or stands as “could not test”; "
                                f"{_deleted(behind, last)}.",
                          "Moving it later leaves holes."),
                minutes=check_minutes(papers, name), tools=(*tools.SIGNAL, *to_climb(papers, [name])), unsigned=lines_of(name, "Link margin", "Messages"),
                note=device.note or "", leaves=tuple(_on_trial(papers, name)))


def _reading(results: Results, name: str) -> Iterator[Fact]:
    """What is worked out for the link, and where it is short what must be read so that a bad day is allowed for; nothing where it is not known."""
    link = results.links.units[name].link if name in results.links.units else None
    if not isinstance(link, Link):
        return
    typical, bad, clear, shut = (f"{number(one)} dB".replace("-", "−") for one in (link.margin_db("typical"), link.margin_db("bad"), wanted_reading(link).value,
                                                                                  wanted_reading(link, shut=True).value))
    yield Fact("Margin worked out", f"{typical} on a typical day, {bad} on a bad one; an estimate")
    if link.reserve_db < 0:
        yield Fact("Read here, to allow for a bad day", f"at least {shut} with doors shut and people in the way, {clear} with doors open and nobody there")


def _worst(papers: Papers, name: str) -> str:
    """How its surroundings are when a link is read: as they are when it is hardest to hear."""
    if is_outside(papers, name):
        return "doors and windows shut, gates and vehicles as they usually stand"
    return "doors shut, curtains drawn, people standing about"


def heard_through(papers: Papers, name: str) -> list[str]:
    """The units that are checked through a repeater, in the order in which that is done."""
    return [unit for unit in fitted(papers) if papers.job.devices[unit].via == name]


def _heard(name: str, behind: list[str]) -> str:
    """How it is heard before it is fitted: a repeater that others are checked through is enrolled for as long as that takes."""
    if behind:
        return (f"Enrol {name} for the trial: {sentence_list(behind)} {'is' if len(behind) == 1 else 'are'} checked through it. "
                "It stays enrolled and on until then.")
    return ("Send with a test transmitter in its place. Without one: enrol it for the trial, and when the link is written down delete it again, cell or "
            "supply out.")


def _deleted(behind: list[str], last: list[str]) -> str:
    if behind:
        return f"its own trial enrolment stays until {sentence_list(behind)} {'is' if len(behind) == 1 else 'are'} checked, and is deleted then"
    return f"what was enrolled for the trial is deleted again{''.join(f', {via} with it' for via in last)}"


def _on_trial(papers: Papers, name: str) -> Iterator[Open]:
    """A repeater is kept on while others are checked through it."""
    behind = heard_through(papers, name)
    if behind:
        yield Open(f"{name} runs in its place, enrolled for the trial", f"signal-{behind[-1]}")


def _own_supply(papers: Papers, name: str) -> Iterator[str]:
    """What a unit with mains of its own runs on before the mains is joined."""
    if name in own_mains(papers):
        yield f"{name} runs from its own pack, or from a bench supply as its plate says; its mains is not joined yet."


def _pressed(papers: Papers, name: str) -> Iterator[str]:
    if papers.sheet_of[name].kind in PERSONAL_KINDS and papers.job.monitoring:
        yield "Press it only while the account is on test: look at the operator's name and the end of the test first."
