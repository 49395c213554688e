"""On arrival: before any tool is unpacked."""
from collections.abc import Iterator

from generator.model.agreement import Assumption
from generator.model.papers import Papers
from generator.procedure import messages
from generator.procedure.checks_of_system import OTHERWISE, found_otherwise
from generator.procedure.cleared import LINE, STEP as ASBESTOS_STEP, asked_for, drilled, line_of, surfaces_of
from generator.procedure.safety import PERSONAL_KINDS, is_outside, met
from generator.procedure.signing import AS_FITTED, COMPLETION, MONITORING, lines_of_each
from generator.procedure.step import Fact, Hold, Step
from generator.procedure.units import fitted, of_kind
from generator.tables import tools
from generator.tables.minutes import OF_STEP
from generator.terms.show import capital, metres, sentence_list


def arrive(papers: Papers) -> Iterator[Step]:
    """Reading, walking round, asking about hazards, what is here already, the ladder, the account."""
    yield Step("read-pack", "arrive", "Read the pack once, before anything else",
               ("Open every phase once with the phone in flight mode.", f"Compare the pack's fingerprint, twelve characters, and its revision with the office: {papers.company.name}, {papers.company.telephone}. Both are printed at the foot of each page."),
               hold=Hold("H1", "The pack's fingerprint, twelve characters, and its revision are those that the office reads out.", "An old plan is fitted as carefully as a new one."),
               minutes=OF_STEP["read-pack"], tools=tools.PAPERS, unsigned=(AS_FITTED,))
    yield _walk_round(papers)
    if asked_for(papers):
        yield _asbestos(papers)
    if papers.job.kind != "new":
        yield _existing(papers)
    high = [name for name in fitted(papers) if is_outside(papers, name)]
    if high:
        yield _ladder(papers, high)
    if papers.job.monitoring:
        yield Step("on-test", "arrive", "Put the account on test",
                   (f"Call {papers.job.monitoring.station}, {papers.job.monitoring.telephone}.",
                    "Write down the operator's name, the time and the end of the test."), after=("walk-round",),
                   facts=(Fact("Account", papers.job.monitoring.account),),
                   hold=Hold("H12", "The operator has said “on test”, with name and time.", "The first trigger calls somebody out."),
                   minutes=OF_STEP["on-test"], unsigned=(MONITORING,))


def _asbestos(papers: Papers) -> Step:
    """Asked for each room that is drilled, with the units that go there; what is not cleared is not drilled, and not signed."""
    places = drilled(papers)
    names = [name for units in places.values() for name in units]
    return Step("asbestos", "arrive", ASBESTOS_STEP,
                ("Ask for the records of coatings, boards, boxing and old fuse panels where you will drill.",
                 f"For each room above write at its line “{LINE}”: pass if it is cleared, with the record or whose word; else fail: not cleared.",
                 "A place without a cleared result is not drilled: its units stay unfixed, and their Fixing is not signed.",
                 "Unsure, or not trained for it: stop, leave it undrilled, call the office."), after=("walk-round",),
                facts=tuple(Fact(f"Drilled: {room}", ". ".join(filter(None, (sentence_list(list(units)), capital(surfaces_of(papers, units))))))
                            for room, units in places.items()),
                messages=(messages.ASBESTOS,),
                hold=Hold("H3", "Each room to be drilled has its result: cleared, or not cleared and then not drilled.", "Dust cannot be taken back."),
                minutes=OF_STEP["asbestos"], unsigned=(*map(line_of, places), *lines_of_each(names, "Fixing"), COMPLETION))


def _walk_round(papers: Papers) -> Step:
    job = papers.job
    assumed = [Fact(f"Planned on: {key.replace('-', ' ').replace('_', ' ')}", _asked(one))
               for key, one in (job.survey.assumptions.items() if job.survey else ())]
    reasons: dict[str, list[str]] = {}
    for one in job.agreement.left_out if job.agreement else ():
        reasons.setdefault(one.why, []).append(one.what)
    left = [Fact("Left out, agreed", f"{sentence_list(what)}: {why}") for why, what in reasons.items()]
    return Step("walk-round", "arrive", "Walk round with the customer",
                ("Confirm every position on the slot map, and what is left out.",
                 "Ask what has changed: pets, building work, furniture, broadband, who sleeps where."),
                after=("read-pack",), facts=(*assumed, *left), messages=met(papers, (), messages.ALONE),
                hold=Hold("H2", "Changes are written down and initialled.", "What nobody wrote down is disputed later."),
                minutes=OF_STEP["walk-round"], unsigned=(AS_FITTED, *(f"{OTHERWISE}{key}" for key, _ in found_otherwise(papers))))


def _asked(one: Assumption) -> str:
    """What the plan was made on; a question where something else was found, for nobody has planned with that yet."""
    if not one.found:
        return one.assumed
    return f"{one.assumed}. Found: {one.found}. The plan was not made on that: which units does it touch, and what does the office say?"


def _existing(papers: Papers) -> Step:
    """The system that is here already: its state is written down before anything is touched."""
    job = papers.job
    title = "Take over the system that is here" if job.kind == "takeover" else "Look at the system that is extended"
    held = of_kind(papers, list(job.devices), *PERSONAL_KINDS)
    do = ["Tell the station that watches it now: account on test before anything is opened.",
          f"{'Take' if held else 'If there are any, take'} hold-up devices out of service first, and write down the time.",
          "Write down its state as found: what works, what is in fault, what stands in its log.",
          "Compare the numbers here with keypad and units; write down each difference.",
          "Agree in writing who removes what, and when."]
    facts = [Fact(f"Found: {row.list.removesuffix('s')} {row.number}", "; ".join(filter(None, (
        row.device, row.text, f"serial {row.serial}" if row.serial else "", row.note))) or "taken") for row in job.existing]
    return Step("existing", "arrive", title, tuple(do), after=("walk-round",), facts=tuple(facts), messages=met(papers, (), messages.NO_LESS),
                minutes=OF_STEP["existing"], tools=tools.LOOK, unsigned=(AS_FITTED, COMPLETION))


def _ladder(papers: Papers, names: list[str]) -> Step:
    heights = [(name, papers.job.devices[name].height_m) for name in names]
    return Step("ladder", "arrive", "Plan the work outside from a ladder",
                ("This work takes two people: without a second one nobody goes up, and it is done on another day. All else goes on.",
                 "Look at ground, slope, eaves, lines and weather where each unit goes.",
                 "Gather the visits: a sounder is enrolled and tried on the ground; the steps from its fixing to its lid are one visit.",
                 "Decide who foots the ladder, or how it is tied; else plan a tower, another trade or another day."),
                after=("walk-round",), messages=(messages.LADDER,),
                facts=tuple(Fact(name, metres(height) if height is not None else "height not known: measure it") for name, height in heights),
                minutes=OF_STEP["ladder"], tools=(*tools.LADDER, *tools.SECOND), unsigned=lines_of_each(names, "Fixing"))
