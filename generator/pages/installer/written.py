"""What was written down on this phone, as a page: its frame and its words. What is in it only the pack's own script knows, on the phone."""
from dataclasses import dataclass

from generator.model.company import Company
from generator.pages.page import Link, Page
from generator.procedure.leave import WRITTEN

PATH, TITLE = "results.html", WRITTEN


@dataclass(frozen=True)
class WrittenView:
    """`paper` is where lines stand to write on, which need no script; `home` is who is to have it, with a telephone number."""

    paper: Link
    home: str


def written_page(company: Company) -> Page:
    """The page. It says the same for every job of a company; the script fills it."""
    home = f"{company.name}, {company.telephone}"
    return Page(PATH, TITLE, "installer/results.html.j2", WrittenView(Link("paper.html", "the day on paper"), home))
