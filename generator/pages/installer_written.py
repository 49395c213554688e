"""What was written down on this phone, as a page: its frame and its words. What is in it only the pack's own script knows, on the phone."""
from dataclasses import dataclass

from generator.pages.page import Link, Page

PATH, TITLE = "results.html", "What was written down"


@dataclass(frozen=True)
class WrittenView:
    """`paper` is where lines stand to write on, which need no script."""

    paper: Link


def written_page() -> Page:
    """The page. It says the same for every job; the script fills it."""
    return Page(PATH, TITLE, "installer/results.html.j2", WrittenView(Link("paper.html", "the day on paper")))
