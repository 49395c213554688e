"""The day on paper: every step as on the phone, in the same order and with the same numbers, and beside it what is written down there.

What is asked comes from the same list as on the phone (`procedure/asked.py`), so that both ask the same.
"""
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from generator.model.papers import Papers
from generator.pages.installer.steps import PhaseView, StepMessage, StepView
from generator.pages.page import ON_PAPER, Page, Stamp, device_path, foot_of, payload
from generator.pages.parts import Stopped
from generator.procedure.asked import CALLED, CHECK, OPERATOR, PHOTO, SERIAL, SIGNAL, SIGNATURE, Asked
from generator.procedure.check import BY_STATION, on_own_scale, own_scale
from generator.terms.audience import Audience
from generator.terms.show import count, lower, sentence_list

PATH, TITLE = "paper.html", "The day on paper"
START = "index.html"
TRIES = (1, 2, 3)
BOXED = (CHECK, SERIAL)
# So many letters are found at a glance; so many are worth a look at an earlier step rather than a sheet more.
STRONG, LONG = 48, 120


@dataclass(frozen=True)
class PaperRow:
    """One row to write on. `value` names what is measured, with its unit, "" for nothing; `ways` are the directions of a link, each of `tries`
    times; `boxes` are photographs, a box each."""

    kind: str
    title: str
    accept: str
    value: str = ""
    ways: tuple[str, ...] = ()
    tries: tuple[int, ...] = ()
    boxes: tuple[str, ...] = ()

    @property
    def named(self) -> bool:
        """Whether somebody puts a name to it."""
        return self.kind == SIGNATURE


@dataclass(frozen=True)
class PaperFact:
    """A number or text; a `strong` one is short enough to be found at a glance."""

    name: str
    value: str
    strong: bool


@dataclass(frozen=True)
class PaperStep:
    """One step; `messages` in full the first time in the whole day, then in one line; `facts` that are long as well; `calls` say which call
    with the station is the same test."""

    view: StepView
    messages: tuple[StepMessage, ...]
    facts: tuple[PaperFact, ...]
    calls: tuple[str, ...]
    rows: tuple[PaperRow, ...]


@dataclass(frozen=True)
class PaperPhase:
    """One phase of the day."""

    title: str
    length: str
    order: tuple[str, ...]
    steps: tuple[PaperStep, ...]


@dataclass(frozen=True)
class PaperView:
    """Everything on one page. `payload` is what the code at its head holds and `opens` says what that is; `foot` stands on every sheet."""

    title: str
    place: str
    contact: tuple[str, ...]
    hazards: tuple[str, ...]
    draft: str
    payload: str
    opens: str
    phases: tuple[PaperPhase, ...]
    foot: str


def paper_day(papers: Papers, phases: Iterable[PhaseView], asked: tuple[Asked, ...], short: str, stopped: Stopped,
              mark: Stamp, draft: str) -> Page:
    """The page. `phases` are the phone's own views, `short` the control unit's reference, which stands for the pack where that is not published."""
    people = papers.people
    link = payload(papers, Audience.INSTALLER, short)
    held = short if link == short else link.removesuffix(device_path(short)) + START
    by_step: dict[str, list[Asked]] = {}
    for one in asked:
        by_step.setdefault(one.step, []).append(_unstopped(one, stopped))
    said: set[str] = set()
    told: dict[str, str] = {}
    views = tuple(PaperPhase(phase.title, phase.length, phase.order, tuple(
        PaperStep(step, tuple(_first_time(step.messages, said)), tuple(_facts(step, told)), tuple(_calls(step)),
                  tuple(_rows(papers, by_step.get(step.id, []), " ".join(step.do)))) for step in phase.steps)) for phase in phases)
    opens = f"{short}: the control unit. Find it in the pack by this reference" if link == short else "This pack, on a phone"
    return Page(PATH, TITLE, "installer/paper.html.j2", PaperView(
        f"{papers.job.title}: {TITLE.lower()}", papers.job.premises.place,
        (people.customer.name, people.customer.telephone, *people.customer.address) if people else (), tuple(papers.job.premises.hazards), draft,
        held, opens, views, foot_of(mark)[0]), ON_PAPER)


def _unstopped(one: Asked, stopped: Stopped) -> Asked:
    """What is asked; where it quotes a value that a finding stops, that finding instead."""
    says = next((stopped[field] for field in one.fields if field in stopped), None)
    return replace(one, accept=f"STOP: {says}", planned="") if says else one


def _first_time(messages: Iterable[StepMessage], said: set[str]) -> Iterator[StepMessage]:
    """Messages, in full where they were not said before on this paper."""
    for one in messages:
        yield replace(one, full=one.view.id not in said)
        said.add(one.view.id)


def _facts(step: StepView, told: dict[str, str]) -> Iterator[PaperFact]:
    """What a step needs. A long text that an earlier step holds word for word stands there alone; numbers stand in every step."""
    for one in step.facts:
        if len(one.value) <= LONG:
            yield PaperFact(one.name, one.value, len(one.value) <= STRONG)
            continue
        first = told.setdefault(one.value, step.id)
        yield PaperFact(one.name, one.value if first == step.id else f"as at {told[first]}", False)
    told[step.id] = lower(step.number.partition(" of ")[0])


def _calls(step: StepView) -> Iterator[str]:
    if step.results and step.results.calls:
        yield f"With the station the same test, made once: {sentence_list([one.text for one in step.results.calls])}."
    if step.results and step.results.apart:
        yield f"With the station in a call of its own, made {step.results.set}: {sentence_list([one.text for one in step.results.apart])}."


def _rows(papers: Papers, asked: list[Asked], do: str) -> Iterator[PaperRow]:
    """What is written down at one step, photographs together. The step itself and its note stand in its head; what stands above in the step is
    not said again."""
    above = [do, *(one.accept for one in asked if one.kind == SIGNAL)]
    scale = on_own_scale(papers)
    many = len({one.device for one in asked}) > 1
    for one in asked:
        if one.kind == SIGNAL:
            # What the scale of its own says stands among the step's facts.
            yield _signal(papers, replace(one, accept=one.accept.replace(f" {scale}.", "")) if scale else one)
        elif one.kind in BOXED:
            again = one.kind == CHECK and any(one.accept in text for text in above)
            title = f"{one.device}: {one.title}" if many and one.device and one.kind == CHECK else one.title
            yield PaperRow(one.kind, title, "As above." if again else _accepted(one), "serial" if one.kind == SERIAL else one.unit)
        elif one.what == OPERATOR:
            parts = sentence_list([other.title.lower() for other in asked if other.kind == CALLED])
            yield PaperRow(CALLED, f"Call with the station: {parts}", one.accept, BY_STATION)
        elif one.kind == SIGNATURE:
            yield PaperRow(one.kind, one.title, one.accept)
    photos = [one for one in asked if one.kind == PHOTO]
    if len(photos) == 1:
        yield PaperRow(CHECK, f"Photograph: {photos[0].title}", photos[0].accept)
    elif photos:
        says = sentence_list(list(dict.fromkeys(one.accept for one in photos)))
        yield PaperRow(PHOTO, count(len(photos), "Photograph"), says, boxes=tuple(one.title for one in photos))


def _accepted(one: Asked) -> str:
    return f"{one.accept} Planned: {one.planned}." if one.planned else one.accept


def _signal(papers: Papers, one: Asked) -> PaperRow:
    scale = own_scale(papers)
    ways = (f"from {one.device}", *([f"to {one.device}"] if papers.sheet_of[one.device].two_way else []))
    unit = f"{one.unit} or {scale.unit}" if scale else one.unit
    return PaperRow(SIGNAL, one.title, one.accept, unit, ways, TRIES)
