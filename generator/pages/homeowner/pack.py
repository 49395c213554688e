"""The homeowner's pack: how to live with the alarm, in everyday words, and nothing that helps anybody to get round it.

Everything a person reads here passes through `say`, the translation into their language.
"""
from collections.abc import Mapping
from dataclasses import dataclass

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.pages.codes import CodeRow, CodesView
from generator.pages.homeowner.calls import calls_in, our_hours, phones_of_company, say_reference, with_calls
from generator.pages.homeowner.care import care_of, care_topics
from generator.pages.homeowner.help import help_topics, sheet_view
from generator.pages.homeowner.papers import papers_topics
from generator.pages.homeowner.people import moving_topics, people_topics
from generator.pages.homeowner.setting import setting_view
from generator.pages.homeowner.sounds import sound_topics
from generator.pages.homeowner.when import when_topics
from generator.pages.homeowner.words import (CARE, IN_REACH, NO_CELL, SENSORS, Phone, Say, Topic, TopicsView, Voice, called, in_person, kinds_of,
                                             listed)
from generator.pages.labels import Label, LabelsView
from generator.pages.page import Link, Page, device_path, payload
from generator.terms.audience import Audience

TOPICS = "homeowner/topics.html.j2"
SHEET = "sheet.html"


@dataclass(frozen=True)
class HomeStart:
    """First sight: danger first, then what people look for."""

    emergency: tuple[str, ...]
    calls: tuple[Phone, ...]
    company: str
    phones: tuple[Phone, ...]
    reference: str
    hours: str
    links: tuple[Link, ...]


@dataclass(frozen=True)
class ThingView:
    """One thing in the house. `replace_by` says when it is too old, or nothing; `battery` what to do when it is weak, or nothing.

    `sensor` is true for what only notices: its page is opened from its card, and neither says where it is.
    """

    name: str
    short: str
    payload: str
    does: str
    care: str
    replace_by: str
    battery: str
    children: bool
    sensor: bool
    calls: tuple[Phone, ...]
    phones: tuple[Phone, ...]


@dataclass(frozen=True)
class ThingsView:
    """What people touch and care for, by name; what only notices by its kind, so that no list shows what nothing watches."""

    links: tuple[Link, ...]
    topics: tuple[Topic, ...]


def homeowner_pages(papers: Papers, results: Results, say: Say) -> tuple[Page, ...]:
    """Every page of the homeowner's pack, in the order of the navigation."""
    voice = Voice(papers, say)
    names = [name for name in _in_walking_order(papers) if not in_person(papers, name)]
    short = results.references
    own = _apart(papers, {name: called(papers, name, voice) for name in names}, short)
    rows = sorted((CodeRow(short[name], device_path(short[name]), called(papers, name, voice), "") for name in names), key=lambda row: row.short)
    order = _touched_first(papers, short, names)
    labels = tuple(Label(short[name], payload(papers, Audience.HOMEOWNER, short[name]), (called(papers, name, voice),)) for name in order)
    topics = (*_topics(papers, voice),
              Page("things.html", voice("What is in the house"), "homeowner/things.html.j2", _things(papers, own, short, voice)))
    sheet = Page(SHEET, voice("Large print for the drawer"), TOPICS, with_calls(sheet_view(papers, voice), papers, voice))
    return (
        Page("index.html", voice("Your alarm"), "homeowner/start.html.j2", _start(papers, (*topics, sheet), voice)),
        *topics,
        *(_thing(papers, results, name, own[name], voice) for name in order),
        Page("codes.html", voice("Find by reference"), "homeowner/codes.html.j2", CodesView(tuple(rows))),
        Page("labels.html", voice("Cards"), "shared/labels.html.j2",
             LabelsView(labels, voice("Cards for the drawer"), voice("Keep them in a drawer, not by the door. They open pages about your alarm."))),
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
    return tuple(Page(path, title, TOPICS, with_calls(view, papers, say)) for path, title, view in pages)


def _in_walking_order(papers: Papers) -> list[str]:
    rooms = list(papers.rooms())

    def place(name: str) -> tuple[int, str]:
        room = papers.room_of(papers.job.devices[name])
        return (rooms.index(room) if room in rooms else len(rooms), name)

    return sorted(papers.job.devices, key=place)


def _touched_first(papers: Papers, short: Mapping[str, str], names: list[str]) -> list[str]:
    """Sensors stand last, by kind and reference: between their neighbours their order would tell their rooms."""
    kinds, sensors = list(SENSORS), [name for name in names if papers.sheet_of[name].kind in SENSORS]
    return [*(name for name in names if name not in sensors),
            *sorted(sensors, key=lambda name: (kinds.index(papers.sheet_of[name].kind), short[name]))]


def _apart(papers: Papers, own: dict[str, str], short: Mapping[str, str]) -> dict[str, str]:
    """Names that nobody mistakes: where two things are called the same, and for every sensor, their references stand with them."""
    names = list(own.values())
    return {name: f"{text} {short[name]}" if names.count(text) > 1 or papers.sheet_of[name].kind in SENSORS else text
            for name, text in own.items()}


def _things(papers: Papers, own: dict[str, str], short: Mapping[str, str], say: Voice) -> ThingsView:
    touched = tuple(Link(device_path(short[name]), text) for name, text in own.items() if papers.sheet_of[name].kind not in SENSORS)
    kinds = kinds_of(papers)
    sensors = tuple(Topic(f"all-{kind}", say(title), (say(CARE[kind]),)) for kind, title in SENSORS.items() if kind in kinds)
    return ThingsView(touched, sensors)


def _start(papers: Papers, pages: tuple[Page, ...], say: Voice) -> HomeStart:
    first = say("In danger? Call {number}. In a fire, get out first.")
    return HomeStart((first, say("The alarm is not the emergency service.") + " " + say("Tell {number} your address.")), calls_in(first, papers, say),
                     papers.company.name, phones_of_company(papers, say), say_reference(say), our_hours(say),
                     tuple(Link(page.path, page.title) for page in pages))


def _thing(papers: Papers, results: Results, name: str, own: str, say: Voice) -> Page:
    sheet, until = papers.sheet_of[name], papers.job.devices[name].replace_by
    short = results.references[name]
    old = say("It gets old. Have it replaced before {day}.", day=say.day(until)) if until else ""
    cell = sheet.kind not in NO_CELL
    weak = say("If the alarm says that its battery is weak, call us. Do not change it yourself.") if cell else ""
    care = care_of(sheet.kind, papers, say)
    view = ThingView(own, short, payload(papers, Audience.HOMEOWNER, short), sheet.everyday, care, old,
                     weak, sheet.kind in IN_REACH and bool(papers.job.premises.children),
                     sheet.kind in SENSORS, calls_in(care, papers, say), phones_of_company(papers, say))
    return Page(device_path(short), own, "homeowner/thing.html.j2", view, say("Things"))
