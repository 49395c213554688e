"""Before any hole: where the control unit stands, how quiet the band is, whether every link holds."""
from collections.abc import Iterator

from generator.calc.link_limit import link_limit
from generator.calc.results import Results
from generator.model.papers import Papers
from generator.procedure import messages
from generator.procedure.handling import room_name
from generator.procedure.safety import met
from generator.procedure.signing import AS_FITTED, lines_of
from generator.procedure.step import Fact, Hold, Step
from generator.procedure.units import check_minutes, fitted, limit_fact, limit_text, unit_facts
from generator.tables import tools
from generator.tables.minutes import OF_STEP
from generator.terms.show import amount


def listen(papers: Papers, results: Results) -> Iterator[Step]:
    """Trial place, background, and the signal check of each position."""
    unit = papers.job.control_unit
    least = limit_text(papers, "background_min")
    positions = limit_text(papers, "background_positions")
    clear = limit_text(papers, "metal_clear_m")
    yield Step("place", "listen", f"Trial-place {unit.id}",
               ("Inside what is watched, out of sight of windows, off the entry route where that can be, a detector in the same space.",
                f"{f'At least {clear}' if clear else 'Well away'} from fuse box, meter, router, radiators, mirrors and foil-backed board.",
                "Near an unswitched supply and the network. Not in a cold loft, bathroom, kitchen or a child's room."),
               after=("walk-round",), unit=unit.id, facts=(*_where(papers), *limit_fact(papers, "metal_clear_m", "Clear of metal")),
               minutes=OF_STEP["place"], tools=(*tools.LOOK, *tools.SIGNAL), unsigned=(AS_FITTED,))
    yield Step("background", "listen", "Listen to the band where the control unit will stand",
               (f"Power {unit.id} for the trial from its battery or a bench supply; nothing is joined to the mains yet.",
                f"Watch the background level for {least} or more, at {positions or 'the'} worst positions of units too. A busy hour tells most."),
               after=("walk-round", "place"), messages=met(papers, (), messages.RADIO), unit=unit.id,
               facts=limit_fact(papers, "background_min", "Watch for"),
               hold=Hold("H5", "The background is quieter than the unit's own paper asks.", "A noisy band shows up later as lost supervision."),
               minutes=OF_STEP["background"], unsigned=lines_of(unit.id, "Background"))
    for name in fitted(papers):
        yield _signal(papers, results, name)


def _where(papers: Papers) -> Iterator[Fact]:
    unit = papers.job.control_unit
    yield Fact("Room", room_name(papers, unit.room))
    if unit.position:
        yield Fact("Place", unit.position)
    if unit.height_m is not None:
        yield Fact("Height", amount(unit.height_m, "m"))


def _signal(papers: Papers, results: Results, name: str) -> Step:
    sent = int(papers.profile.limits["link_messages"].value)
    device, scale = papers.job.devices[name], papers.sheet_of[papers.job.control_unit.id].control_unit.link_scale
    stable, moved = limit_text(papers, "link_stable_s"), limit_text(papers, "link_move_m")
    more = [Fact("Heard through", device.via)] if device.via else []
    if scale:
        more.append(Fact("The control unit shows", f"{scale.unit}, {scale.most} at most; its papers call {scale.passes} good"))
    return Step(f"signal-{name}", "listen", f"Check the link of {name} before drilling",
                ("Enrol it for the trial, or send with a test transmitter in its place.",
                 f"Hold {name} at its final place and height, cover on, doors shut, curtains drawn, people standing about.",
                 f"Send {sent} test messages; count those that arrive." + (" Read both directions." if papers.sheet_of[name].two_way else ""),
                 f"If it falls short: turn it, move it {moved or 'a little'}, move the control unit, plan a repeater. Write down each try."),
                after=("background", *([f"signal-{device.via}"] if device.via else [])), unit=name,
                messages=met(papers, [name], messages.LADDER, messages.SOUNDER),
                facts=(*unit_facts(papers, results, name), *limit_fact(papers, link_limit(papers, name), "Margin at least"), *more),
                hold=Hold("H6", f"{sent} of {sent} arrive, the margin holds for {stable or 'as long as you watch'}.",
                          "Moving it later leaves holes."),
                minutes=check_minutes(papers, name), tools=tools.SIGNAL, unsigned=lines_of(name, "Link margin", "Messages", "Drift"))
