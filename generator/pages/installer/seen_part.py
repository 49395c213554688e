"""One part of the page of what is seen and heard."""
from dataclasses import dataclass

from generator.pages.parts import Fact
from generator.pages.workings import WorkingView


@dataclass(frozen=True)
class Part:
    """One part of the page: facts, figures that unfold, and a line above them."""

    id: str
    title: str
    lead: str
    facts: tuple[Fact, ...]
    workings: tuple[WorkingView, ...] = ()
    missing: tuple[str, ...] = ()
