"""How the pack is carried: which way works on which phone, and what each way keeps.

Where a line says "reported", others have found it so and none of us has tried it on a phone; "measured" is what the project's own tests find in
a browser on a laptop. Sources: public reports on opening pages from files, kept by browsers and their users, read in November 2026.
"""
from dataclasses import dataclass, replace

from generator.model.papers import Papers
from generator.pages.page import Link, Page, address
from generator.pages.parts import Fact
from generator.terms.audience import Audience

CARRY = "carry.html"
TITLE = "How to carry this pack"
POCKET = "pocket.html"


@dataclass(frozen=True)
class Way:
    """One way: what to do, then what it gives on which device. `note` is what is known once the pack was made, "" for nothing."""

    id: str
    title: str
    do: tuple[str, ...]
    facts: tuple[Fact, ...]
    note: str = ""


@dataclass(frozen=True)
class CarryView:
    """All ways, the best first. `written` is where entries are sent off."""

    ways: tuple[Way, ...]
    nothing_lost: tuple[str, ...]
    marks: str
    written: Link


def carry_page(papers: Papers) -> Page:
    """The page."""
    return Page(CARRY, TITLE, "installer/carry.html.j2",
                CarryView((_kept(address(papers, Audience.INSTALLER)), ONE_FILE, PAPER, FOLDER, NEAR), NOTHING_LOST, MARKS,
                          Link("results.html", "Written down: send it off")))


def with_note(view: CarryView, note: str) -> CarryView:
    """The page with what is to be said of the one file."""
    return replace(view, ways=tuple(replace(way, note=note) if way.id == ONE_FILE.id else way for way in view.ways))


def _kept(where: str) -> Way:
    """The way over an HTTPS address, which a pack has if the job gives one."""
    first = (f"With a network, open {where}index.html in the phone's own browser and wait for “This phone has it all”." if where else
             "This pack was built without an address, so this way is closed. Ask the office for one (the keys under publish), or take the one file.")
    return Way("kept", "Best: the address, kept by the phone", (
        first,
        "Put it on the home screen: on an iPhone by Share, then Add to Home Screen; on Android by the browser's menu, then Add to Home screen.",
        "From then on open it there and nowhere else: on an iPhone the home screen and the browser keep notes apart (from memory).",
        "“A newer pack exists”: take it between two steps. What was written for the older one stays on the phone and goes home under its revision.",
    ), (
        Fact("Android", "every page, the finder and notes, without a network (measured in the same browser on a laptop; on a phone: reported)"),
        Fact("iPhone", "the same (reported)"),
        Fact("Codes inside the lids", "the phone's camera opens the page of the unit (reported)"),
    ))


ONE_FILE = Way("one-file", f"One file: {POCKET}", (
    f"The office sends {POCKET} by mail or chat, or it goes over by cable. It holds every step, unit, test, the plan and the slot map.",
    "Tap it where it was saved. What it leaves out stands at its own end, under “All pages”.",
), (
    Fact("Android", "the browser opens it with scripts: finder and notes work (reported)"),
    Fact("iPhone", "the preview shows it and runs no script: to read only, results go on paper (reported)"),
    Fact("Laptop", "any browser, with scripts (measured)"),
))
PAPER = Way("paper", "Paper", (
    "Print the steps and the test checklist before you leave. It is the one way that no battery ends.",
), (Fact("Every phone", "needs none"),))
FOLDER = Way("folder", "The folder, or the folder as a zip", (
    "For laptops. Unpack it first; then open installer/index.html.",
), (
    Fact("Laptop", "every page, the search, the finder (measured)"),
    Fact("Android", "no: a file manager hands the browser one file without those beside it, so links fail (reported)"),
    Fact("iPhone", "no: the preview runs no script and does not go from file to file (reported)"),
))
NEAR = Way("near", "A laptop that hands out pages over Wi-Fi", (
    "To read while the laptop is near. An address that does not begin with https lets no phone keep the pages.",
), (Fact("Every phone", "to read; nothing of the pack is kept (measured)"),))
NOTHING_LOST = (
    "Send off what was written at the end of each day, and before the phone leaves your hand. Until then it is on this phone alone.",
    "Safari drops what a site has stored after 7 days of use without a visit to it; a pack on the home screen has a count of its own (reported).",
    "A private window keeps nothing. Where the browser will not keep notes, the page of a step says so before you write.",
)
MARKS = ("Measured: the program's own tests find it so, in browsers on a laptop. Reported: others write that it is so. "
         "We have held no phone of either make ourselves: try your own once before you rely on it.")
