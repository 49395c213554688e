"""The steps of the day, declared with what must come before each."""
from collections.abc import Iterator

from generator.calc.results import Results
from generator.model.lists import list_of
from generator.model.papers import Papers
from generator.procedure import safety
from generator.procedure.checks import link_limit
from generator.procedure.handling import filled, room_name, test_in_words
from generator.procedure.step import Fact, Hold, Step, in_order
from generator.terms.show import amount, sentence_list

PHASES = {
    "arrive": "Arrive",
    "listen": "Check the radio",
    "power": "Fix and power the control unit",
    "fix": "Fix the units",
    "enrol": "Enrol and programme",
    "test": "Test",
    "leave": "Hand over and leave",
}
# What sees and silences must exist before what alarms.
ENROL_ORDER = ("repeaters", "keypads", "sounders", "zones", "fobs", "tags")


def procedure(papers: Papers, results: Results) -> tuple[Step, ...]:
    """Every step this job needs, in order."""
    steps = [*_arrive(papers), *_listen(papers, results), *_power(papers, results), *_fix(papers, results),
             *_enrol(papers, results), *_test(papers, results), *_leave(papers)]
    rank = {phase: index for index, phase in enumerate(PHASES)}
    return in_order(sorted(steps, key=lambda step: rank[step.phase]))


def _fitted(papers: Papers) -> list[str]:
    """The units that are fixed somewhere, in the order of the job file."""
    return [name for name in papers.job.devices if papers.sheet_of[name].kind not in ("fob", "tag")]


def _numbered(papers: Papers, results: Results) -> list[str]:
    """Every unit in the order in which it is enrolled: by its numbers in its own list."""
    rows = [row for row in sorted(results.slots.rows, key=lambda row: row.number) if row.device]
    return list(dict.fromkeys(row.device for kind in ENROL_ORDER for row in rows
                              if row.list == kind == list_of(papers.sheet_of[row.device])))


# What can hurt at a unit that hangs in its place.
IN_PLACE = (safety.LADDER, safety.SOUNDER, safety.TERMINALS, safety.LIFE_SAFETY)


def _programmed(papers: Papers, name: str) -> Iterator[Fact]:
    """What a unit's number is programmed as: the zone's role, the user of a fob or tag."""
    role = papers.job.devices[name].role
    if role:
        yield Fact("Zone acts as", role.replace("-", " "))
    for number, user in papers.job.users.items():
        if name in (user.fob, user.tag):
            yield Fact("Belongs to", f"user {number}, {user.who}")


def _without_number(papers: Papers, results: Results) -> list[str]:
    """The units that got no number in their list."""
    numbered = _numbered(papers, results)
    return [name for name in papers.job.devices if name not in numbered]


def _facts(papers: Papers, results: Results, name: str) -> tuple[Fact, ...]:
    """The numbers that a step about a unit needs, so that nobody leafs back."""
    device = papers.job.devices[name]
    facts = [Fact(f"{row.list.removesuffix('s').capitalize()} {row.number}", row.text or papers.sheet_of[name].name,
                  row.text_field) for row in results.slots.of(name)]
    facts.append(Fact("Serial", device.serial or "not known yet: read it and write it here", f"job.devices.{name}.serial"))
    if papers.room_of(device):
        facts.append(Fact("Room", room_name(papers, papers.room_of(device))))
    return tuple(facts)


def _arrive(papers: Papers) -> Iterator[Step]:
    yield Step("read-pack", "arrive", "Read the pack once, before anything else",
               ("Open every phase once with the phone in flight mode.", "Compare the fingerprint and the revision at the foot with the office."),
               hold=Hold("H1", "The fingerprint on this phone is the office's.", "An old plan is fitted as carefully as a new one."))
    yield Step("walk-round", "arrive", "Walk round with the customer",
               ("Confirm every position on the slot map.", "Ask what has changed: pets, building work, furniture, broadband."),
               after=("read-pack",),
               hold=Hold("H2", "Changes are written down and initialled.", "What nobody wrote down is disputed later."))
    if papers.job.premises.built_before is not False:
        yield Step("asbestos", "arrive", "Ask about asbestos before any drilling",
                   ("Ask for the records of coatings, boards and old fuse boards where you will drill.",), after=("walk-round",),
                   messages=(safety.ASBESTOS,),
                   hold=Hold("H3", "Every place to be drilled is known to be free of it.", "Dust cannot be taken back."))
    if papers.job.monitoring:
        yield Step("on-test", "arrive", "Put the account on test",
                   (f"Call {papers.job.monitoring.station}, {papers.job.monitoring.telephone}.",
                    "Write down the operator's name, the time and the end of the test."), after=("walk-round",),
                   facts=(Fact("Account", papers.job.monitoring.account),),
                   hold=Hold("H12", "The operator has said “on test”, with name and time.", "The first trigger calls somebody out."))


def _listen(papers: Papers, results: Results) -> Iterator[Step]:
    limits = papers.profile.limits
    least = amount(limits["background_min"].value, limits["background_min"].unit or "")
    unit = papers.job.control_unit
    yield Step("background", "listen", "Listen to the band where the control unit will stand",
               (f"Trial-place {unit.id} in the {room_name(papers, unit.room)}{': ' + unit.position if unit.position else ''}.",
                "Power it for the trial from its battery or a bench supply; nothing is joined to the mains yet.",
                f"Watch the background level for {least} or more, at the two worst positions too."), after=("walk-round",),
               hold=Hold("H5", "The background is quieter than the unit's own paper asks.",
                         "A noisy band shows up later as lost supervision."))
    sent = int(limits["link_messages"].value)
    for name in _fitted(papers):
        margin = limits[link_limit(papers, name)]
        yield Step(f"signal-{name}", "listen", f"Check the link of {name} before drilling",
                   ("Enrol it for the trial, or send with a test transmitter in its place.",
                    f"Hold {name} at its final place and height, cover on, doors shut, curtains drawn.",
                    f"Send {sent} test messages; count those that arrive."
                    + (" Read both directions." if papers.sheet_of[name].two_way else ""),
                    "If it falls short: turn it, move it 0.3 m, move the control unit, plan a repeater. Write down each try."),
                   after=("background",), unit=name,
                   messages=tuple(one for one in safety.messages_of_unit(papers, name) if one is safety.LADDER),
                   facts=(*_facts(papers, results, name), Fact("Margin at least", amount(margin.value, margin.unit or ""))),
                   hold=Hold("H6", f"{sent} of {sent} arrive, the margin holds for 30 s.", "Moving it later leaves holes."))


def _power(papers: Papers, results: Results) -> Iterator[Step]:
    unit = papers.job.control_unit
    sheet = papers.sheet_of[unit.id]
    messages = safety.messages_of_unit(papers, unit.id)
    if sheet.power.kind == "mains":
        yield Step("isolate", "power", "Have the supply isolated and proved dead",
                   ("A competent person isolates and locks off the supply.", "Prove it dead at the point of work."),
                   after=("background",), unit=unit.id, messages=tuple(one for one in messages if one is safety.WIRING),
                   hold=Hold("H7", "Proved dead: prover, test, prover; locked and labelled.", "Mains kills."))
    yield Step(f"fix-{unit.id}", "power", f"Fix {unit.id}", (filled(sheet.handling.fix, papers, results, unit.id),),
               after=("isolate", *(f"signal-{name}" for name in _fitted(papers))), unit=unit.id,
               messages=tuple(one for one in messages if one in (safety.DRILLING, safety.ASBESTOS, safety.LADDER)),
               facts=(Fact("Room", room_name(papers, unit.room)),),
               hold=Hold("H8", "Scanned for cables and pipes before each hole.", "What the drill finds cannot be seen."))
    yield from _supplies(papers, messages)


SUPPLIES = {"loads": "low-voltage loads", "mains": "mains", "battery": "standby battery"}
JOIN = {"loads": "Join the low-voltage loads; mains and battery stay off.",
        "mains": "Have the mains switched on; read the charging voltage and write it down.",
        "battery": "Check polarity, then join the standby battery."}


def _supplies(papers: Papers, messages: tuple[safety.Message, ...]) -> Iterator[Step]:
    """One step for each supply in the sheet's order; the hold point stands at the step before the battery."""
    unit = papers.job.control_unit
    own = papers.sheet_of[unit.id].control_unit
    order = sentence_list([SUPPLIES[one] for one in own.power_order], "then")
    met = tuple(one for one in messages if one in (safety.WIRING, safety.TERMINALS, safety.BATTERY))
    earlier = f"fix-{unit.id}"
    for one, following in zip(own.power_order, [*own.power_order[1:], ""]):
        charged = "mains" in own.power_order[:own.power_order.index(one) + 1]
        read = "Charging voltage and polarity are" if charged else "Polarity is"
        hold = Hold("H9", f"{read} read before the battery is joined.", "A wrong polarity destroys the unit and can burn.")
        yield Step(f"power-{one}", "power", f"Power {unit.id}: {SUPPLIES[one]}", (JOIN[one],), after=(earlier,), unit=unit.id,
                   messages=met, facts=(Fact("Order", order), Fact("Why", own.power_order_reason)),
                   hold=hold if following == "battery" else None)
        earlier = f"power-{one}"


def _powered(papers: Papers) -> str:
    """The last step of powering the control unit."""
    order = papers.sheet_of[papers.job.control_unit.id].control_unit.power_order
    return f"power-{order[-1]}" if order else f"fix-{papers.job.control_unit.id}"


def _fix(papers: Papers, results: Results) -> Iterator[Step]:
    for name in _fitted(papers):
        messages = tuple(one for one in safety.messages_of_unit(papers, name) if one is not safety.SOUNDER)
        device = papers.job.devices[name]
        where = (Fact("Place", device.position),) if device.position else ()
        height = (Fact("Height", amount(device.height_m, "m")),) if device.height_m else ()
        yield Step(f"fix-{name}", "fix", f"Fix {name}", (filled(papers.sheet_of[name].handling.fix, papers, results, name),),
                   after=(f"signal-{name}", _powered(papers)), unit=name, messages=messages,
                   facts=(*_facts(papers, results, name), *where, *height),
                   hold=Hold("H8", "Scanned for cables and pipes before each hole.", "What the drill finds cannot be seen."))


def _enrol(papers: Papers, results: Results) -> Iterator[Step]:
    earlier = _powered(papers)
    for name in _numbered(papers, results):
        yield Step(f"enrol-{name}", "enrol", f"Enrol {name}",
                   (filled(papers.sheet_of[name].handling.enrol, papers, results, name),
                    "Read the serial aloud, trigger the unit, see the right number and text."),
                   after=(earlier, f"fix-{name}"), unit=name, facts=(*_facts(papers, results, name), *_programmed(papers, name)),
                   messages=tuple(one for one in safety.messages_of_unit(papers, name) if one in IN_PLACE),
                   hold=Hold("H10", "Serial, number, text and trigger agree.", "Swapped units show only in an alarm."))
        earlier = f"enrol-{name}"
    for name in _without_number(papers, results):
        yield Step(f"enrol-{name}", "enrol", f"{name} has no number",
                   ("The control unit's list has no number for it. Do not enrol it; call the office.",),
                   after=(earlier,), unit=name,
                   hold=Hold("H10", "The office has sent a plan with a number for it.", "A unit without a number cannot be signed."))
    times = papers.job.times
    yield Step("programme", "enrol", "Programme and read back",
               ("Change the installer's authority from its default first. Codes are typed by their owners.",
                "Set date, time and the values here; read each back."), after=(earlier,),
               facts=(Fact("Entry time", amount(times.entry_s, "s"), "job.times.entry_s"),
                      Fact("Exit time", amount(times.exit_s, "s"), "job.times.exit_s"),
                      Fact("Outside sounder", amount(times.sounder_min, "min"), "job.times.sounder_min"),
                      *_reported(papers)),
               hold=Hold("H11", "Every value was read back, line by line.", "A value left at the factory's shows in the first night."))


def _reported(papers: Papers) -> Iterator[Fact]:
    """What is programmed for the monitoring station."""
    agreed = papers.job.monitoring
    if agreed:
        yield Fact("Account", agreed.account)
        yield Fact("Automatic test", test_in_words(agreed), "job.monitoring.test_interval_h")


def _test(papers: Papers, results: Results) -> Iterator[Step]:
    for name in (papers.job.control_unit.id, *_numbered(papers, results)):
        if name == papers.job.control_unit.id:
            # Its lid is opened for the tamper while the mains is on.
            messages = tuple(one for one in safety.messages_of_unit(papers, name) if one in (safety.WIRING, safety.TERMINALS))
            facts = (Fact("Room", room_name(papers, papers.job.control_unit.room)),)
            first = ("If mains terminals lie open under its lid: isolate, lock, prove dead before the lid comes off.",)
        else:
            messages = tuple(one for one in safety.messages_of_unit(papers, name) if one in IN_PLACE)
            facts, first = _facts(papers, results, name), ()
        yield Step(f"test-{name}", "test", f"Test {name}",
                   (*first, filled(papers.sheet_of[name].handling.test, papers, results, name),
                    "Write result, time and initials into the checklist. A blank is not a pass."),
                   after=("programme", "on-test"), unit=name, messages=messages, facts=facts)
    yield Step("test-system", "test", "Test entry, exit, full set and every path",
               ("Go through the last part of the checklist.",
                "Never use a jamming transmitter: use the unit's own diagnosis for interference."),
               after=tuple(f"test-{name}" for name in (papers.job.control_unit.id, *_numbered(papers, results))))


def _leave(papers: Papers) -> Iterator[Step]:
    yield Step("train", "leave", "Train every user",
               ("Set, unset, a mistake, mains fail, low cell, whom to call.", "Hand over the homeowner's pages."),
               after=("test-system",), facts=tuple(Fact(f"User {number}", user.who) for number, user in papers.job.users.items()),
               hold=Hold("H13", "Each user has left and come back on their own once.", "Most alarms are mistakes of users."))
    if papers.job.monitoring:
        yield Step("off-test", "leave", "Take the account off test",
                   (f"Call {papers.job.monitoring.station}, {papers.job.monitoring.telephone}.",
                    "Every restore received; hold-up devices back in service."), after=("train",),
                   hold=Hold("H14", "The operator has said “off test”, with name and time.",
                             "Left on test, nobody comes."))
    yield Step("sign", "leave", "Clear up and sign",
               ("Lids on, marks cleaned, cells and strips counted.",
                "Write every difference from the plan, with its reason and who agreed.",
                "If the job stops half-way, say in writing what works."), after=("off-test", "train"))
