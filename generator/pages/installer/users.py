"""Short sheets for users who do not answer for the house: what they need, and nothing of the homeowner's pages."""
from dataclasses import dataclass

from generator.model.job import User
from generator.model.papers import Papers
from generator.pages.page import Page
from generator.procedure.leave import gets_homeowners_pages
from generator.procedure.units import of_kind
from generator.terms.show import capital


@dataclass(frozen=True)
class UserSheet:
    """One user's sheet."""

    id: str
    title: str
    lines: tuple[str, ...]


@dataclass(frozen=True)
class UsersView:
    """The sheets to print and hand over."""

    sheets: tuple[UserSheet, ...]


def users_page(papers: Papers) -> tuple[Page, ...]:
    """The page of sheets; none where everybody gets the homeowner's pages."""
    sheets = tuple(UserSheet(f"user-{number}", f"User {number}: {user.who}", _lines(papers, user))
                   for number, user in sorted(papers.job.users.items()) if gets_homeowners_pages(papers, user) is not True)
    return (Page("users.html", "Sheets for other users", "installer/users.html.j2", UsersView(sheets)),) if sheets else ()


def _lines(papers: Papers, user: User) -> tuple[str, ...]:
    words, company = papers.profile.words, papers.company
    own = " and ".join([*(["your fob"] if user.fob else []), *(["your tag"] if user.tag else []), "your own code"])
    fire = of_kind(papers, list(papers.job.devices), "smoke", "heat", "carbon-monoxide")
    held = of_kind(papers, list(papers.job.devices), "hold-up")
    return tuple(filter(None, (
        f"Yours: {own}. Lend it to nobody, write the code nowhere. Lost or seen by somebody: tell the householder at once.",
        f"Coming in: go straight to the keypad or reader and {words.unset} the system; a tone tells you that its time runs.",
        f"Leaving: windows shut, {words.set} the system, out by the usual door, shut it. Wait until the tone says that it is done.",
        f"It sounds and you did it: {words.unset} it. Stay. Who rings hears your name and what happened. Then tell the householder.",
        f"It sounds when you come: do not go in. From outside call the householder; where you see that somebody is in there, the emergency number. "
        f"{capital(words.unset)} nothing.",
        "Smoke, heat or carbon monoxide: everybody out first, then the emergency number from outside." if fire else "",
        "The hold-up button is for an attack or threat on a person here and now, for nothing else." if held else "",
        f"The keypad shows a fault, the mains is off, anything you do not know: tell the householder, or call {company.name}, {company.telephone}.")))
