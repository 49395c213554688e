"""The page of the finder: filled by the pack's script; without scripts it leads to the lists."""
from dataclasses import dataclass

from generator.pages.page import Link, Page

FIND = "find.html"


@dataclass(frozen=True)
class FindView:
    """The lists in which a unit is found without a script."""

    lists: tuple[Link, ...]


def find_page() -> Page:
    """The finder: from the last signs of a serial, a number, a room or a reference to the unit and what is next to do there."""
    return Page(FIND, "Find a unit", "installer/find.html.j2", FindView((Link("codes.html", "Find by reference"), Link("slots.html", "Slot map, with serials"))))
