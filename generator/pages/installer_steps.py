"""The steps of the day as pages: one page a phase."""
from dataclasses import dataclass

from generator.pages.page import Link, Page
from generator.pages.parts import (Fact, FindingView, HoldView, SafetyView, Stopped, facts_view, hold_view,
                                   safety_view)
from generator.procedure.step import Step
from generator.procedure.steps import PHASES


@dataclass(frozen=True)
class StepView:
    """One step with everything it needs on the spot."""

    id: str
    number: str
    title: str
    do: tuple[str, ...]
    facts: tuple[Fact, ...]
    hold: HoldView | None
    messages: tuple[SafetyView, ...]


@dataclass(frozen=True)
class PhaseView:
    """One phase of the day; `following` leads on. `unsigned` is what cannot be signed while it stands, in the last phase."""

    title: str
    steps: tuple[StepView, ...]
    following: Link
    unsigned: tuple[FindingView, ...]


def _phase_path(phase: str) -> str:
    return f"steps/{phase}.html"


def first_step(steps: tuple[Step, ...]) -> tuple[str, str, str]:
    """Where the first step stands, its title, and the next hold point in words."""
    hold = next(step.hold for step in steps if step.hold)
    return _phase_path(steps[0].phase), steps[0].title, f"{hold.id}: {hold.until}"


def step_pages(steps: tuple[Step, ...], stopped: Stopped, stops: tuple[FindingView, ...]) -> tuple[Page, ...]:
    """A page for each phase that has steps; `stops` are the findings that keep the last from being signed."""
    total = len(steps)
    number = {step.id: f"Step {index} of {total}" for index, step in enumerate(steps, 1)}
    phases = [phase for phase in PHASES if any(step.phase == phase for step in steps)]
    out = []
    for phase, following in zip(phases, [*phases[1:], ""]):
        views = tuple(_view(step, number[step.id], stopped) for step in steps if step.phase == phase)
        link = Link(_phase_path(following), PHASES[following]) if following else Link("tests.html", "Test checklist")
        out.append(Page(_phase_path(phase), PHASES[phase], "installer/phase.html.j2", PhaseView(PHASES[phase], views, link, stops if not following else ()),
                        "Steps"))
    return tuple(out)


def _view(step: Step, number: str, stopped: Stopped) -> StepView:
    return StepView(step.id.lower(), number, step.title, step.do, facts_view(step.facts, stopped),
                    hold_view(step.hold), tuple(map(safety_view, step.messages)))
