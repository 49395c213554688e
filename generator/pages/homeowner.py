"""The homeowner's pack: how to live with the alarm, in everyday words, and nothing that helps anybody to get round it.

Everything a person reads here passes through `say`, the translation into their language.
"""
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.pages.codes import CodeRow, CodesView
from generator.pages.labels import Label, LabelsView
from generator.pages.page import Link, Page, device_path, payload
from generator.procedure.handling import opening_name, room_name
from generator.terms.audience import Audience
from generator.terms.show import capital, sentence_list

Say = Callable[[str], str]

KINDS = {
    "contact": "sensor",
    "movement": "movement sensor",
    "glass-break": "glass sensor",
    "shock": "shock sensor",
    "smoke": "smoke alarm",
    "heat": "heat alarm",
    "carbon-monoxide": "carbon monoxide alarm",
    "water": "water sensor",
    "temperature": "temperature sensor",
    "hold-up": "button for when you are threatened",
    "medical": "call button",
    "keypad": "keypad",
    "reader": "tag reader",
    "sounder": "sounder",
    "fob": "fob",
    "tag": "tag",
    "repeater": "radio helper",
}
CARE = {
    "contact": "Shut the door or window firmly before you turn the alarm on. Tell us if it sticks or rattles.",
    "movement": "Keep balloons, hanging signs and moving curtains away from it. Tell us before you move furniture in front of it.",
    "keypad": "Wipe it with a dry cloth. Do not let anybody watch you type.",
    "fob": "Do not put it with anything that shows your address. If you lose it, call us at once.",
    "tag": "Do not put it with anything that shows your address. If you lose it, call us at once.",
    "sounder": "Nothing to do. Tell us before you paint or put up scaffolding.",
    "hold-up": "Only if somebody threatens you or is attacking you, and not for illness or fire.",
    "smoke": "Test it as the fire service advises. It must never be painted or covered.",
    "heat": "Test it as the fire service advises. It must never be painted or covered.",
    "carbon-monoxide": "Test it as its leaflet says. If it sounds, open windows, get out and call for help.",
}
ANY_CARE = "Do not open it. Call us if it looks loose or broken."


@dataclass(frozen=True)
class HomeStart:
    """First sight: danger first, then what people look for."""

    title: str
    emergency: str
    company: str
    telephone: str
    out_of_hours: str
    reference: str
    links: tuple[Link, ...]


@dataclass(frozen=True)
class SettingView:
    """How to turn the alarm on and off."""

    set: str
    unset: str
    is_set: str
    is_unset: str
    entry_doors: str
    entry_s: int
    exit_s: int
    has_fob: bool


@dataclass(frozen=True)
class SoundsView:
    """What each sound means."""

    emergency: str
    sounder_min: int
    has_fire: bool
    station: str
    telephone: str


@dataclass(frozen=True)
class HelpView:
    """Whom to call."""

    emergency: str
    company: str
    telephone: str
    out_of_hours: str
    reference: str
    station: str
    station_telephone: str
    data_contact: str


@dataclass(frozen=True)
class ThingView:
    """One thing in the house."""

    name: str
    short: str
    payload: str
    does: str
    care: str
    children: bool


@dataclass(frozen=True)
class ThingsView:
    """Every thing in the house."""

    links: tuple[Link, ...]


def homeowner_pages(papers: Papers, results: Results, say: Say) -> tuple[Page, ...]:
    """Every page of the homeowner's pack, in the order of the navigation."""
    names = _in_walking_order(papers)
    short = results.references
    called = _apart({name: _called(papers, name, say) for name in names}, short)
    things = tuple(Link(device_path(short[name]), called[name]) for name in names)
    rows = sorted((CodeRow(short[name], device_path(short[name]), called[name], "") for name in names), key=lambda row: row.short)
    labels = tuple(Label(short[name], payload(papers, Audience.HOMEOWNER, short[name]), (called[name],)) for name in names)
    return (
        Page("index.html", say("Your alarm"), "homeowner/start.html.j2", _start(papers, say)),
        Page("setting.html", say("On and off"), "homeowner/setting.html.j2", _setting(papers, say)),
        Page("sounds.html", say("What sounds mean"), "homeowner/sounds.html.j2", _sounds(papers)),
        Page("help.html", say("Who to call"), "homeowner/help.html.j2", _help(papers)),
        Page("things.html", say("What is in the house"), "homeowner/things.html.j2", ThingsView(things)),
        *(_thing(papers, results, name, called[name], say) for name in names),
        Page("codes.html", say("Find by reference"), "homeowner/codes.html.j2", CodesView(tuple(rows))),
        Page("labels.html", say("Cards"), "shared/labels.html.j2",
             LabelsView(labels, say("Cards for the drawer"), say("Keep them inside a cupboard, not by the door."))),
    )


def _in_walking_order(papers: Papers) -> list[str]:
    rooms = list(papers.rooms())

    def place(name: str) -> tuple[int, str]:
        room = papers.room_of(papers.job.devices[name])
        return (rooms.index(room) if room in rooms else len(rooms), name)

    return sorted(papers.job.devices, key=place)


def _apart(called: dict[str, str], short: Mapping[str, str]) -> dict[str, str]:
    """Names that nobody mistakes: where two things are called the same, their references stand with them."""
    names = list(called.values())
    return {name: f"{text} {short[name]}" if names.count(text) > 1 else text for name, text in called.items()}


def _called(papers: Papers, name: str, say: Say) -> str:
    """What people call a thing: the job's word for it, else its kind and where it is."""
    device = papers.job.devices[name]
    if device.called:
        return capital(device.called)
    kind = say(KINDS[papers.sheet_of[name].kind])
    if device.protects:
        return capital(say("{kind} at the {place}").format(kind=kind, place=opening_name(papers, device.protects)))
    room = papers.room_of(device)
    if room == "outside":
        return capital(say("{kind} outside").format(kind=kind))
    return capital(say("{kind} in the {place}").format(kind=kind, place=room_name(papers, room)) if room else kind)


def _start(papers: Papers, say: Say) -> HomeStart:
    company = papers.company
    links = (Link("setting.html", say("Turn it on and off")), Link("sounds.html", say("What does this sound mean?")),
             Link("help.html", say("Who do I call?")), Link("things.html", say("What is in the house?")))
    return HomeStart(papers.job.title, papers.profile.words.emergency_number, company.name, company.telephone,
                     company.out_of_hours, papers.job.reference, links)


def _setting(papers: Papers, say: Say) -> SettingView:
    doors = [opening_name(papers, key) for key, (_, opening) in papers.openings().items() if opening.entry]
    words, times = papers.profile.words, papers.job.times
    has_fob = any(papers.sheet_of[name].kind == "fob" for name in papers.job.devices)
    return SettingView(words.set, words.unset, words.is_set, words.is_unset, sentence_list(doors, say("or")), times.entry_s,
                       times.exit_s, has_fob)


def _sounds(papers: Papers) -> SoundsView:
    agreed = papers.job.monitoring
    has_fire = any(papers.sheet_of[name].kind in ("smoke", "heat", "carbon-monoxide") for name in papers.job.devices)
    return SoundsView(papers.profile.words.emergency_number, papers.job.times.sounder_min, has_fire, agreed.station if agreed else "", agreed.telephone if agreed else "")


def _help(papers: Papers) -> HelpView:
    company, agreed = papers.company, papers.job.monitoring
    return HelpView(papers.profile.words.emergency_number, company.name, company.telephone, company.out_of_hours,
                    papers.job.reference, agreed.station if agreed else "", agreed.telephone if agreed else "",
                    company.data_contact)


def _thing(papers: Papers, results: Results, name: str, called: str, say: Say) -> Page:
    sheet = papers.sheet_of[name]
    short = results.references[name]
    view = ThingView(called, short, payload(papers, Audience.HOMEOWNER, short), sheet.everyday, say(CARE.get(sheet.kind, ANY_CARE)),
                     bool(papers.job.premises.children))
    return Page(device_path(short), called, "homeowner/thing.html.j2", view, say("Things"))
