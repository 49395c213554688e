"""What to set at the control unit, by topics of the job, with room to tick what was read back."""
from dataclasses import dataclass

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.pages.page import Page
from generator.pages.parts import Fact, Stopped, facts_view
from generator.procedure.settings import settings


@dataclass(frozen=True)
class TopicView:
    """One topic of programming and its planned values."""

    id: str
    title: str
    rows: tuple[Fact, ...]


@dataclass(frozen=True)
class SettingsView:
    """Everything that is programmed."""

    topics: tuple[TopicView, ...]


def settings_page(papers: Papers, results: Results, stopped: Stopped) -> Page:
    """The page that is programmed from and read back against; a value that a finding stops is never shown as one to use."""
    topics = tuple(TopicView(one.id, one.title, facts_view(one.rows, stopped)) for one in settings(papers, results))
    return Page("settings.html", "What to set", "installer/settings.html.j2", SettingsView(topics))
