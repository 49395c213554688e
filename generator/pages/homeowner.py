"""The homeowner's pack: how to live with the alarm, in everyday words, and nothing that helps anybody to get round it.

Everything a person reads here passes through `say`, the translation into their language.
"""
from collections.abc import Mapping
from dataclasses import dataclass

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.pages.codes import CodeRow, CodesView
from generator.pages.homeowner_care import care_topics
from generator.pages.homeowner_help import help_topics, sheet_view
from generator.pages.homeowner_papers import papers_topics
from generator.pages.homeowner_people import moving_topics, people_topics
from generator.pages.homeowner_setting import setting_view
from generator.pages.homeowner_sounds import sound_topics
from generator.pages.homeowner_when import when_topics
from generator.pages.homeowner_words import (ANY_CARE, CARE, Phone, Say, TopicsView, Voice, called, listed, phones_of_company,
                                             say_reference)
from generator.pages.labels import Label, LabelsView
from generator.pages.page import Link, Page, device_path, payload
from generator.terms.audience import Audience

TOPICS = "homeowner/topics.html.j2"
SHEET = "sheet.html"


@dataclass(frozen=True)
class HomeStart:
    """First sight: danger first, then what people look for."""

    emergency: str
    company: str
    phones: tuple[Phone, ...]
    reference: str
    links: tuple[Link, ...]


@dataclass(frozen=True)
class ThingView:
    """One thing in the house. `replace_by` says when it is too old, or nothing."""

    name: str
    short: str
    payload: str
    does: str
    care: str
    replace_by: str
    children: bool


@dataclass(frozen=True)
class ThingsView:
    """Every thing in the house."""

    links: tuple[Link, ...]


def homeowner_pages(papers: Papers, results: Results, say: Say) -> tuple[Page, ...]:
    """Every page of the homeowner's pack, in the order of the navigation."""
    voice = Voice(papers, say)
    names = _in_walking_order(papers)
    short = results.references
    own = _apart({name: _called(papers, name, voice) for name in names}, short)
    things = tuple(Link(device_path(short[name]), own[name]) for name in names)
    rows = sorted((CodeRow(short[name], device_path(short[name]), own[name], "") for name in names), key=lambda row: row.short)
    labels = tuple(Label(short[name], payload(papers, Audience.HOMEOWNER, short[name]), (own[name],)) for name in names)
    topics = (*_topics(papers, voice), Page("things.html", voice("What is in the house"), "homeowner/things.html.j2", ThingsView(things)))
    sheet = Page(SHEET, voice("Large print for the cupboard"), TOPICS, sheet_view(papers, voice))
    return (
        Page("index.html", voice("Your alarm"), "homeowner/start.html.j2", _start(papers, (*topics, sheet), voice)),
        *topics,
        *(_thing(papers, results, name, own[name], voice) for name in names),
        Page("codes.html", voice("Find by reference"), "homeowner/codes.html.j2", CodesView(tuple(rows))),
        Page("labels.html", voice("Cards"), "shared/labels.html.j2",
             LabelsView(labels, voice("Cards for the drawer"), voice("Keep them inside a cupboard, not by the door."))),
        sheet,
    )


def _topics(papers: Papers, say: Voice) -> tuple[Page, ...]:
    """The pages of topics, in the order in which people look for them."""
    pages = (
        ("setting.html", say("How to {set} and {unset} the alarm"), setting_view(papers, say)),
        ("when.html", say("What to do when something happens"), listed("when.html", tuple(when_topics(papers, say)))),
        ("sounds.html", say("What sounds and lights mean"), TopicsView(tuple(sound_topics(papers, say)))),
        ("help.html", say("Who to call"), TopicsView(tuple(help_topics(papers, say)))),
        ("care.html", say("Tests, batteries, false alarms"), listed("care.html", tuple(care_topics(papers, say)))),
        ("people.html", say("People and codes"), listed("people.html", tuple(people_topics(papers, say)))),
        ("moving.html", say("Changes and moving house"), TopicsView(tuple(moving_topics(papers, say)))),
        ("papers.html", say("What it does not do, and your papers"), listed("papers.html", tuple(papers_topics(papers, say)))),
    )
    return tuple(Page(path, title, TOPICS, view) for path, title, view in pages)


def _in_walking_order(papers: Papers) -> list[str]:
    rooms = list(papers.rooms())

    def place(name: str) -> tuple[int, str]:
        room = papers.room_of(papers.job.devices[name])
        return (rooms.index(room) if room in rooms else len(rooms), name)

    return sorted(papers.job.devices, key=place)


def _apart(own: dict[str, str], short: Mapping[str, str]) -> dict[str, str]:
    """Names that nobody mistakes: where two things are called the same, their references stand with them."""
    names = list(own.values())
    return {name: f"{text} {short[name]}" if names.count(text) > 1 else text for name, text in own.items()}


_called = called


def _start(papers: Papers, pages: tuple[Page, ...], say: Voice) -> HomeStart:
    return HomeStart(papers.profile.words.emergency_number, papers.company.name, phones_of_company(papers, say), say_reference(say),
                     tuple(Link(page.path, page.title) for page in pages))


def _thing(papers: Papers, results: Results, name: str, own: str, say: Voice) -> Page:
    sheet, until = papers.sheet_of[name], papers.job.devices[name].replace_by
    short = results.references[name]
    old = say("It gets old. Have it replaced before {day}.", day=say.day(until)) if until else ""
    view = ThingView(own, short, payload(papers, Audience.HOMEOWNER, short), sheet.everyday, say(CARE.get(sheet.kind, ANY_CARE)), old,
                     bool(papers.job.premises.children))
    return Page(device_path(short), own, "homeowner/thing.html.j2", view, say("Things"))
