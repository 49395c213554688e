"""The homeowner's words: how a sentence is said in their language, what things are called, and the pieces of their pages.

Everything a person of the house reads passes through a `Voice` in Python or through `_()` in a template.
"""
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from generator.calc.days.dates import Month
from generator.model.papers import Papers
from generator.pages.page import Link
from generator.procedure.handling import opening_name, room_name
from generator.terms.show import LONG_MONTHS, capital, lower, sentence_list

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
    "hold-up": "threat button",
    "medical": "call button",
    "keypad": "keypad",
    "reader": "tag reader",
    "sounder": "sounder",
    "fob": "fob",
    "tag": "tag",
    "repeater": "radio helper",
}
CARRIED = "Do not keep it with your address. If you lose it, call us at once, by day or by night."
FIRE = "Never paint it or cover it. Do not climb to it. If it sounds, get everybody out, then call {number}."
CARE = {
    "contact": "Shut the door or window firmly before you turn the alarm on. Tell us if it sticks or rattles.",
    "movement": "Keep balloons, hanging signs and moving curtains away from it. Please ask us before you move furniture in front of it.",
    "glass-break": "Do not hang anything over it, and ask us before you put up thick curtains in this room.",
    "shock": "Do not knock on it or paint it, and tell people who clean or mend the window that it is there.",
    "keypad": "Wipe it with a dry cloth, and do not let anybody watch you when you type.",
    "reader": "Wipe it with a dry cloth, and hold your tag to it only when you mean to use the alarm.",
    "fob": CARRIED,
    "tag": CARRIED,
    "sounder": "You need do nothing, but please tell us before you paint near it or put up scaffolding.",
    "hold-up": "We showed you where it is and how you press it. We never write it down, so ask us again if you are not sure.",
    "medical": "Press it when you are ill or hurt and need help, and call {number} too if you can.",
    "smoke": FIRE,
    "heat": FIRE,
    "carbon-monoxide": "If it sounds, get everybody out into fresh air, then call {number}. It does not notice the gas of a cooker or a heater.",
    "water": "Leave it on the floor where it is, and dry it if it gets wet when you clean.",
    "temperature": "Leave it where it is, and tell us before you move the thing that it watches.",
    "repeater": "Do not unplug it or cover it, and ask us before you move it.",
}
ANY_CARE = "Do not open it, and call us if it looks loose or broken."
FIRE_KINDS = frozenset({"smoke", "heat"})
# What warns of fire and of carbon monoxide, and has a test button as a rule.
WARNING_KINDS = FIRE_KINDS | {"carbon-monoxide"}
AT_HAND = ("keypad", "reader")
# Places that one is on and not in, by the last word of their name.
ON = frozenset({"landing", "stairs", "staircase", "balcony", "terrace", "veranda", "porch", "patio", "deck", "roof", "stair"})
# What only notices, and nobody touches: the places of all of them would show by subtraction what nothing watches, so no page and no card
# of the house tells one.
SENSORS = {
    "contact": "Any sensor on a door or window",
    "movement": "Any movement sensor",
    "glass-break": "Any glass sensor",
    "shock": "Any shock sensor",
    "repeater": "Any radio helper",
    "hold-up": "Any threat button",
}
# Where these are and how they are worked is shown in person: whoever forces somebody of the house must not learn it from a page or a card.
IN_PERSON = frozenset({"hold-up"})
# Kinds whose cell a child can get at, as they are carried or lie on the floor; all others hang shut on a wall (common practice, no source).
IN_REACH = frozenset({"fob", "medical", "water"})
# Kinds in which there is never a cell.
NO_CELL = frozenset({"tag"})


class Voice:
    """Says a sentence in the reader's language. What stands in its braces are the job's own words, left as they are."""

    def __init__(self, papers: Papers, say: Say) -> None:
        words, agreed, company = papers.profile.words, papers.job.monitoring, papers.company
        self._say = say
        self._own = {
            "set": words.set, "unset": words.unset, "is_set": words.is_set, "is_unset": words.is_unset, "part_set": words.part_set,
            "is_part_set": words.is_part_set, "permit": words.permit, "number": words.emergency_number, "company": company.name,
            "station": agreed.station if agreed else "", "reference": papers.job.reference, "data_contact": company.data_contact,
        }

    def __call__(self, sentence: str, **more: object) -> str:
        return self._say(sentence).format_map({**self._own, **more})

    def day(self, on: date) -> str:
        """A date with its month in words and in full."""
        return self("{day} {month} {year}", day=on.day, month=self(LONG_MONTHS[on.month - 1]), year=on.year)

    def month(self, due: Month) -> str:
        """A month of a year in words."""
        return self("{month} {year}", month=self(LONG_MONTHS[due.month - 1]), year=due.year)


@dataclass(frozen=True)
class Phone:
    """A telephone number as it is read, and as a touch on it dials it (RFC 3966: digits, and a plus before them).

    `unprinted` is true for one that stands in the sentences beside it too: on paper nobody touches it.
    """

    text: str
    href: str
    unprinted: bool = False


@dataclass(frozen=True)
class Step:
    """One numbered step. `on_screen` is what follows it on a screen and never on paper: times that a burglar would like to know."""

    text: str
    on_screen: str = ""


@dataclass(frozen=True)
class Topic:
    """One heading with what belongs under it: sentences, telephone numbers, numbered steps, points in no order, last words.
    `us` are the company's numbers where it says to call them; `calls` those of others whom its sentences say to call.

    `urgent` topics stand in a frame, in bold.
    """

    id: str
    title: str
    lines: tuple[str, ...] = ()
    phones: tuple[Phone, ...] = ()
    steps: tuple[Step, ...] = ()
    points: tuple[str, ...] = ()
    last: tuple[str, ...] = ()
    us: tuple[Phone, ...] = ()
    calls: tuple[Phone, ...] = ()
    urgent: bool = False

    def sentences(self) -> tuple[str, ...]:
        """All that it says."""
        return (*self.lines, *(f"{one.text} {one.on_screen}" for one in self.steps), *self.points, *self.last)


@dataclass(frozen=True)
class TopicsView:
    """A page of topics. What is in `first` stands before the links that lead to the topics; a `large` page is printed in letters
    of 18 points."""

    topics: tuple[Topic, ...]
    first: tuple[Topic, ...] = ()
    links: tuple[Link, ...] = ()
    large: bool = False


def steps(*texts: str | Step) -> tuple[Step, ...]:
    """Steps out of sentences; an empty one is none."""
    return tuple(one if isinstance(one, Step) else Step(one) for one in texts if one)


def listed(path: str, topics: tuple[Topic, ...]) -> TopicsView:
    """A page that begins with what is urgent, and then with a link to each of its other topics."""
    others = tuple(one for one in topics if not one.urgent)
    return TopicsView(others, tuple(one for one in topics if one.urgent), tuple(Link(f"{path}#{one.id}", one.title) for one in others))


def kinds_of(papers: Papers) -> frozenset[str]:
    """The kinds of things in the house, the control unit aside."""
    return frozenset(papers.sheet_of[name].kind for name in papers.job.devices)


def in_person(papers: Papers, name: str) -> bool:
    """Whether a thing's place and handling stand on no page and no card."""
    return papers.sheet_of[name].kind in IN_PERSON


def called(papers: Papers, name: str, say: Voice) -> str:
    """What people call a thing: the job's word for it, else its kind and where it is; its kind alone for what only notices, as all
    pages and cards together would show by what is missing where nothing watches."""
    device = papers.job.devices[name]
    kind = say(KINDS[papers.sheet_of[name].kind])
    if papers.sheet_of[name].kind in SENSORS:
        return capital(kind)
    if device.called:
        return capital(device.called)
    if device.protects:
        return capital(say("{kind} at the {place}", kind=kind, place=opening_name(papers, device.protects)))
    room = papers.room_of(device)
    if room == "outside":
        return capital(say("{kind} outside", kind=kind))
    place = room_name(papers, room)
    if place.split(" ")[-1] in ON:
        return capital(say("{kind} on the {place}", kind=kind, place=place))
    return capital(say("{kind} in the {place}", kind=kind, place=place) if room else kind)


def entry_doors(papers: Papers, say: Voice) -> str:
    """The doors by which people come and go, as a sentence names them."""
    doors = [opening_name(papers, key) for key, (_, opening) in papers.openings().items() if opening.entry]
    return say("the {door}", door=sentence_list(doors, say("or the"))) if doors else say("your usual door")


def place_at_hand(papers: Papers, say: Voice, kinds: tuple[str, ...] = AT_HAND) -> str:
    """Where one turns the alarm off: the first keypad, else the first reader, as the house calls it."""
    of_kinds = (name for kind in kinds for name in papers.job.devices if papers.sheet_of[name].kind == kind)
    return next((at_hand(papers, name, say) for name in of_kinds), say("alarm"))


def at_hand(papers: Papers, name: str, say: Voice) -> str:
    """A keypad or reader as a sentence goes on with it after "the"; "" for everything else."""
    return lower(called(papers, name, say)).removeprefix("the ") if papers.sheet_of[name].kind in AT_HAND else ""


def danger(say: Voice) -> Topic:
    """What stands first wherever somebody may be in danger. Out of a fire one runs; to a stranger, never."""
    return Topic("danger", say("You are in danger"), (
        say("Fire, or a carbon monoxide alarm, or a smell of gas: get out, then call {number}."),
        say("A stranger: stay away from them, and call {number} from where you are safe."),
        say("The alarm is not the emergency service, so tell {number} your address yourself.")), urgent=True)


def maybe_fire(say: Voice) -> str:
    """What comes before hiding wherever somebody does not know why it sounds: whoever shuts the door on a fire may die behind it."""
    return say("If there is smoke, heat or a smell of gas, or it might be a fire, get everybody out at once. Call {number} from outside.")


def let_it_sound(say: Voice) -> str:
    """What nobody does while it may burn or while there may be gas in the air."""
    return say("Let it sound. Do not stop to turn it off.")


def sounds_of(papers: Papers, when: str) -> tuple[str, ...]:
    """What is heard at one time, each sound once, as the sheets of the house's units say it; none where no sheet says it."""
    heard = (signal.sound for name in papers.job.devices if not in_person(papers, name)
             for signal in papers.sheet_of[name].signals if signal.when == when)
    return tuple(dict.fromkeys(sound.rstrip(".") for sound in heard if sound))
