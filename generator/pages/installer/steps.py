"""The steps of the day as pages: one page a phase, its steps one at a time or all at once."""
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from generator.pages.installer.to_write import in_short
from generator.pages.installer.written import PATH as RESULTS
from generator.pages.open_findings import OpenFinding, decides_place
from generator.pages.page import Link, Page
from generator.pages.parts import (Fact, FindingView, HoldView, SafetyView, Stopped, facts_view, hold_view,
                                   safety_view, safety_views, without_local)
from generator.procedure import messages
from generator.procedure.asked import SIGN, Asked
from generator.procedure.leave import WRITTEN
from generator.procedure.listen import OWN_SCALE
from generator.procedure.night import A_DAY
from generator.procedure.signing import in_words
from generator.procedure.step import Step
from generator.procedure.steps import PHASES
from generator.terms.show import count, duration, sentence_list


# The style sheet that the installer's pages have besides that of every pack.
STYLE = "hand.css"
# Work in which what is dangerous in the house can be met: holes and heights.
BODILY = (messages.DRILLING, messages.LADDER, messages.ASBESTOS)
# So many letters of a fact's name and value stand on one line of a phone beside another fact.
BRIEF = 24
# A list of so many facts is folded behind its first ones where a step is shown alone.
LONG, SHOWN = 12, 4
# Facts that only say why: an order is this one, a night falls here.
REASONS = ("Why", A_DAY)
# The facts that tell where a unit goes.
PLACE = ("Room", "Place", "Height", "Height of its middle")
# The hold point at which the pack itself is compared with the office's.
COMPARED = "H1"
# The anchor of a page's head, where all its steps are shown at once.
TOP = "all"


@dataclass(frozen=True)
class StepMessage:
    """A safety message before a step: in full the first time on a page, then in one line that leads there."""

    view: SafetyView
    full: bool


@dataclass(frozen=True)
class StepFact:
    """A number or text that a step needs; `look` is "brief" where it stands beside others on a line, "brief numeral" if that is to be read
    from afar too, "again" where it lies behind what is new in the step, else "": a line of its own.

    Behind lies only what is no value of the unit and stood, word for word, in an earlier step of the page, and what only says why.
    """

    name: str
    value: str
    look: str


@dataclass(frozen=True)
class ResultsView:
    """Where the one result of a step's test is written; `calls` are the calls with the station that are the same test, made with the step.

    `apart` are calls that are made with the system set, while the step is made with it unset: these are the market's words for both.
    """

    lines: tuple[Link, ...]
    calls: tuple[Link, ...]
    apart: tuple[Link, ...]
    unset: str
    set: str


@dataclass(frozen=True)
class Ways:
    """Where the bars of a step and of its hold point lead, as written on the page: each to the screen before and the one after, so that no hold
    point is passed by. The first leads back to the top of the page, the last on to the next page; without a hold point its two are ""."""

    back: str
    done: str
    held_back: str
    held_on: str


@dataclass(frozen=True)
class StepView:
    """One step with everything it needs on the spot. `before` and `following` are anchors of screens on the same page, "" at its ends.

    `ways` lead from screen to screen. `held_again` tells whether the same hold point, in the same words, stood at an earlier step of the page;
    `place` is where the step's work is, for a hold point that stands before it. `to_write` is what is written down at it, in short.
    `unit` is the unit that it is about, "" for none; `time` how long it usually takes. `results` leads to the checklist; None for a step that is
    no test, which is written down where it stands; `signed` tells whether names are put to the work at it. `found` is what is open about the
    unit, in a step that decides where it goes. `listed` is the rest of a list that is too long for a screen, `in_all` says how long it is. `head` leads from the
    first step to what stands above it, and from the last of all to the page that sends home what was written.
    """

    id: str
    unit: str
    number: str
    time: str
    title: str
    do: tuple[str, ...]
    facts: tuple[StepFact, ...]
    listed: tuple[StepFact, ...]
    in_all: str
    hold: HoldView | None
    held_again: bool
    place: str
    messages: tuple[StepMessage, ...]
    note: str
    tools: str
    unsigned: str
    found: tuple[OpenFinding, ...]
    results: ResultsView | None
    to_write: str
    signed: bool
    before: str
    following: str
    ways: Ways
    head: tuple[Link, ...] = ()


@dataclass(frozen=True)
class PhaseView:
    """One phase of the day; `following` leads on. `unsigned` is what cannot be signed while it stands, in the last phase.

    `ticked` tells whether anything is to be ticked on the page; `hazards` are those of the house, on arrival and where somebody drills or
    climbs; `order` is how one person goes through the phase, where that is not step by step in one state of the system.
    """

    title: str
    length: str
    first: str
    ticked: bool
    steps: tuple[StepView, ...]
    following: Link
    unsigned: tuple[FindingView, ...]
    hazards: tuple[str, ...]
    order: tuple[str, ...]


def _phase_path(phase: str) -> str:
    return f"steps/{phase}.html"


def step_address(step: Step) -> str:
    """Where one comes to a step: its page, and its anchor or that of the hold point before it."""
    return f"{_phase_path(step.phase)}#{step.entry}"


def hold_told(step: Step) -> str:
    """A step's hold point in words, with the side on which it stands; "" for none."""
    return f"{step.hold.id}, {step.hold.side} its step: {step.hold.until}" if step.hold else ""


def first_step(steps: tuple[Step, ...]) -> tuple[Link, Link]:
    """The first step and the first hold point, in words, each with the way to it."""
    held = next(step for step in steps if step.hold)
    return Link(step_address(steps[0]), steps[0].title), Link(f"{_phase_path(held.phase)}#{held.held}", hold_told(held))


def phases_of(steps: tuple[Step, ...]) -> tuple[str, ...]:
    """The phases that have steps, in their order."""
    return tuple(phase for phase in PHASES if any(step.phase == phase for step in steps))


def time_of(steps: tuple[Step, ...]) -> str:
    """How long steps usually take, in words."""
    return f"about {duration(sum(step.minutes for step in steps))}"


def phase_links(steps: tuple[Step, ...]) -> tuple[Link, ...]:
    """A link to each phase, with how long it usually takes."""
    return tuple(Link(_phase_path(phase), f"{PHASES[phase]}: {_length(_in(steps, phase))}") for phase in phases_of(steps))


def _in(steps: tuple[Step, ...], phase: str) -> tuple[Step, ...]:
    return tuple(step for step in steps if step.phase == phase)


def _length(steps: tuple[Step, ...]) -> str:
    return f"{count(len(steps), 'step')}, {time_of(steps)}"


def step_pages(steps: tuple[Step, ...], places: Mapping[str, ResultsView], stopped: Stopped, stops: tuple[FindingView, ...],
               hazards: tuple[str, ...], found: Mapping[str, tuple[OpenFinding, ...]],
               order: tuple[str, ...], asked: tuple[Asked, ...], print_: str) -> tuple[Page, ...]:
    """A page for each phase that has steps; `places` is where each step's result is written, by the step's name, `stops` are the findings
    that keep the last phase from being signed, `hazards` those of the house, `found` what is open about each unit, `order` that of the tests,
    `asked` what is written down in the whole day, `print_` the pack's fingerprint and revision, which its hold point compares."""
    wanted = in_short(asked)
    number = {step.id: f"Step {index} of {len(steps)}" for index, step in enumerate(steps, 1)}
    phases = phases_of(steps)
    heads = {phase: _Head(() if phase != phases[-1] else stops, hazards if _is_bodily(phase, _in(steps, phase)) else (),
                          order if phase == "test" else ()) for phase in phases}
    out = []
    for phase, following in zip(phases, [*phases[1:], ""]):
        own, head = _in(steps, phase), heads[phase]
        link = Link(_phase_path(following), PHASES[following]) if following else Link("tests.html", "Test checklist")
        # One step stays one step from page to page; what stands at the head of the next page is named, with its links, in its first step.
        first = f"#{_in(steps, following)[0].entry}" if following else ""
        views = _views(own, f"../{link.href}{first}", number, places, stopped, found, wanted, print_)
        views = (replace(views[0], head=(*_head_links(head), *views[0].head)), *views[1:])
        ticked = any(message.view.tick for view in views for message in view.messages)
        view = PhaseView(PHASES[phase], _length(own), own[0].entry, ticked, views, link, head.unsigned, head.hazards, head.order)
        out.append(Page(_phase_path(phase), PHASES[phase], "installer/phase.html.j2", view, "Steps"))
    return tuple(out)


@dataclass(frozen=True)
class _Head:
    """What is read at the head of a page before its first step."""

    unsigned: tuple[FindingView, ...]
    hazards: tuple[str, ...]
    order: tuple[str, ...]


def _head_links(head: _Head) -> tuple[Link, ...]:
    return tuple(Link(f"#{anchor}", text) for there, anchor, text in (
        (head.hazards, "hazards", "Hazards of this house"), (head.unsigned, "unsigned", "Cannot be signed while this stands"),
        (head.order, "order", "The order, for one person")) if there)


def _is_bodily(phase: str, steps: tuple[Step, ...]) -> bool:
    return phase == "arrive" or any(one in BODILY for step in steps for one in step.messages)


def _do(step: Step, stopped: Stopped) -> tuple[str, ...]:
    """What to do; nothing of it while a finding stops a value that the step uses."""
    says = dict.fromkeys(stopped[fact.field] for fact in step.facts if fact.field in stopped)
    return tuple(f"STOP: {one} Ask the office; then do what follows." for one in says) + step.do


def _facts(facts: tuple[Fact, ...], told: set[Fact]) -> Iterator[StepFact]:
    for one in facts:
        written = f"{one.name} {one.value}"
        look = "brief numeral" if any(map(str.isdigit, written)) else "brief"
        yield StepFact(one.name, one.value, "again" if one.name in REASONS or (one.name == OWN_SCALE and one in told) else look if len(written) <= BRIEF else "")


def _list(facts: tuple[StepFact, ...]) -> tuple[tuple[StepFact, ...], tuple[StepFact, ...], str]:
    """The facts that are always shown, those that are folded behind them, and how many there are in words."""
    if len(facts) < LONG:
        return facts, (), ""
    return facts[:SHOWN], facts[SHOWN:], f"All {len(facts)} lines"


def _place(facts: tuple[Fact, ...]) -> str:
    return ". ".join(f"{one.name}: {one.value}" for one in facts if one.name in PLACE)


def _ways(step: Step, before: Step | None, following: Step | None, leads: str) -> Ways:
    earlier, onward = f"#{before.anchor if before else TOP}", f"#{following.entry}" if following else leads
    own, held = f"#{step.anchor}", f"#{step.held}"
    if step.hold is None:
        return Ways(earlier, onward, "", "")
    return Ways(held, onward, earlier, own) if step.hold.before else Ways(earlier, held, own, onward)


def _views(steps: tuple[Step, ...], leads: str, number: dict[str, str], places: Mapping[str, ResultsView], stopped: Stopped,
           found: Mapping[str, tuple[OpenFinding, ...]], wanted: Mapping[str, str], print_: str) -> tuple[StepView, ...]:
    """The steps of one page, the last of which `leads` to the next. Each message stands in full at the first of them that has it, each tool
    where it is first needed; that local code comes before the pack stands with the first message."""
    said: set[str] = set()
    fetched: set[str] = set()
    told: set[Fact] = set()
    held: set[HoldView | None] = set()
    out = []
    for step, before, following in zip(steps, (None, *steps), (*steps[1:], None)):
        shown = map(without_local, map(safety_view, step.messages)) if said else safety_views(step.messages)
        own = tuple(StepMessage(view, view.id not in said) for view in shown)
        facts, hold = facts_view(step.facts, stopped), hold_view(step.hold)
        if hold and hold.id == COMPARED:
            hold = replace(hold, shows=print_)
        ways = _ways(step, before, following, leads)
        tools = [one for one in step.tools if one not in fetched]
        said |= {one.id for one in step.messages}
        fetched |= set(step.tools)
        out.append(StepView(
            step.anchor, step.unit, number[step.id], f"about {duration(step.minutes)}" if step.minutes else "", step.title,
            _do(step, stopped), *_list(tuple(_facts(facts, told))), hold, hold is not None and hold in held, _place(facts), own, step.note, sentence_list(tools),
            in_words(step.unsigned), found.get(step.unit, ()) if decides_place(step.id) else (),
            places.get(step.id), wanted.get(step.anchor, ""), step.id == SIGN, before.anchor if before else "", ways.done.partition("#")[2] if following else "", ways,
            (Link(f"../{RESULTS}", WRITTEN),) if step.id == SIGN else ()))
        told |= set(facts)
        held.add(hold)
    return tuple(out)
