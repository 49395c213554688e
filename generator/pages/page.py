"""What a page is, and what all pages of a pack have in common."""
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from typing import Any

from generator.calc.days.calendar import Calendar
from generator.model.issued import Revision
from generator.model.papers import Papers
from generator.pages.installer.hand_told import HandData
from generator.terms.audience import Audience
from generator.terms.show import MONTHS, day

# The group of pages that are there to be printed.
ON_PAPER = "On paper"
# The folder of the pages of units.
DEVICES = "d/"


@dataclass(frozen=True)
class Page:
    """One page: its path in the pack, its title, the template that prints its view, and its group in the navigation."""

    path: str
    title: str
    template: str
    view: Any
    group: str = ""

    @property
    def root(self) -> str:
        """The way from this page to the pack's first folder: "" or "../"."""
        return "../" * self.path.count("/")


@dataclass(frozen=True)
class Link:
    """Somewhere to go inside the same pack; `href` counts from the pack's first folder."""

    href: str
    text: str


@dataclass(frozen=True)
class Stamp:
    """What stands at the foot of every page, so that two builds cannot be taken for one.

    `issued` says which revision this is, or that it is none.
    """

    title: str
    reference: str
    fingerprint: str
    as_of: str
    checked_against: str
    issued: str


OFFICE_FOOT = "{title} · {reference} · Fingerprint {fingerprint} · as of {day}"
# At home a fingerprint is a finger's.
HOME_FOOT = "{title} · {reference} · Version {fingerprint} · as of {day}"


def foot_of(mark: Stamp, say: Callable[[str], str] = str, first_line: str = OFFICE_FOOT) -> tuple[str, ...]:
    """A stamp line by line in a reader's language; its day and its state were said in it when it was made."""
    first = say(first_line).format(
        title=mark.title, reference=mark.reference, fingerprint=mark.fingerprint, day=mark.as_of)
    return tuple(filter(None, (first, mark.issued, mark.checked_against)))


@dataclass(frozen=True)
class CalendarFile:
    """A calendar that lies in a pack as a file of its own, beside the page that shows it; `as_of` is the day it is worked out for."""

    calendar: Calendar
    as_of: date


@dataclass(frozen=True)
class Pack:
    """Everything one reader gets: the pages, what stands at their feet, what their QR codes hold, the calendar as a file and
    what the script for taking results down is told, if this reader gets them; `address` is where a phone that keeps the pack gets it, "" for nowhere."""

    audience: Audience
    stamp: Stamp
    foot: tuple[str, ...]
    pages: tuple[Page, ...]
    payloads: tuple[str, ...]
    calendar: CalendarFile | None = None
    hand: HandData | None = None
    address: str = ""


@dataclass(frozen=True)
class Site:
    """Pages as MkDocs prints them: the title, what stands at the foot of each, whether their words can be searched.

    `style` is a style sheet that they have besides that of every pack, by its name among the assets; "" for none. `hand` is what
    the script is told by which results are taken down; None where there is no such script. `kept`: a phone can keep it from its address.
    """

    title: str
    foot: tuple[str, ...]
    searched: bool
    pages: tuple[Page, ...]
    style: str = ""
    hand: HandData | None = None
    kept: bool = False


def stamp(papers: Papers, fingerprint: str, as_of: date, last: Revision | None, same: bool, say: Callable[[str], str] = str) -> Stamp:
    """The stamp of a reader's pack, in that reader's language. The profile is named only to readers who may see it.

    `last` is the last revision that was issued; `same` whether this reader would see nothing else in it.
    """
    profile = papers.profile
    checked = f"Checked against profile {profile.name}, edition {profile.edition}, as of {day(as_of)}" if profile.name else ""
    return Stamp(papers.job.title, papers.job.reference, fingerprint[:12], _said_day(as_of, say), checked, issued_in_words(last, same, say))


def issued_in_words(last: Revision | None, same: bool, say: Callable[[str], str] = str) -> str:
    """Which revision a pack is."""
    if last is None:
        return say("Not issued")
    if not same:
        return say("Changed since revision {revision}, not issued").format(revision=last.revision)
    return say("Issued: revision {revision}, {day}").format(revision=last.revision, day=_said_day(last.date, say))


def _said_day(on: date, say: Callable[[str], str]) -> str:
    """A date at the foot of a page, its month in the reader's language."""
    return say("{day} {month} {year}").format(day=on.day, month=say(MONTHS[on.month - 1]), year=on.year)


def device_path(short: str) -> str:
    """The page of a unit, by its short reference; short, so that the code on a small label stays coarse."""
    return f"{DEVICES}{short.lower()}.html"


def is_device_path(path: str) -> bool:
    """Whether a page is that of a unit."""
    return path.startswith(DEVICES)


def payload(papers: Papers, audience: Audience, short: str) -> str:
    """What a QR code of this reader's pack holds: a link into that pack where one is published, else the short reference."""
    where = address(papers, audience)
    return f"{where}{device_path(short)}" if where else short


def address(papers: Papers, audience: Audience) -> str:
    """Where this reader's pack stands on the web, its last sign a stroke; "" for nowhere."""
    publish = papers.job.publish
    name = getattr(publish, audience.value, None) if publish else None
    return f"{publish.address}{name}/" if name and publish.address else ""
