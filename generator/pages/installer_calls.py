"""The calls with the station: each test of the day, what to say, and the exact message that the operator must read back."""
from dataclasses import dataclass
from itertools import groupby

from generator.calc.events import PlannedTest
from generator.calc.results import Results
from generator.model.papers import Papers
from generator.pages.page import Link, Page
from generator.pages.parts import Fact, FindingView, Stopped, facts_view, unless_stopped
from generator.procedure.handling import filled
from generator.tables.events import SET_OFF
from generator.terms.show import capital, count, lower

ZONES, USERS, SYSTEM = "zones", "users", "system"
TITLES = {ZONES: "Zones", USERS: "Users", SYSTEM: "The system"}
NO_MESSAGE = "no message can be written, see below"
FORMATS = {"dc-05": "", "dc-09": "What is carried by SIA DC-09 is the event below, inside a line of its own."}


@dataclass(frozen=True)
class ExpectedView:
    """One message that must come: what the operator reads, and what it means."""

    message: str
    means: str


@dataclass(frozen=True)
class CallView:
    """One test: what to say, what to do, and what must come."""

    id: str
    number: str
    title: str
    do: str
    say: str
    expects: tuple[ExpectedView, ...]


@dataclass(frozen=True)
class CallGroup:
    """Tests of one kind, in the order of the day."""

    id: str
    title: str
    calls: tuple[CallView, ...]


@dataclass(frozen=True)
class CallsView:
    """What was found about the account, and all calls of the day."""

    found: tuple[FindingView, ...]
    facts: tuple[Fact, ...]
    total: str
    format: str
    groups: tuple[CallGroup, ...]
    unsaid: tuple[str, ...]
    sources: tuple[str, ...]
    safety: Link


def calls_page(papers: Papers, results: Results, found: tuple[FindingView, ...], stopped: Stopped) -> tuple[Page, ...]:
    """The page of calls; none for a system that only sounds."""
    if papers.job.monitoring is None:
        return ()
    return (Page("calls.html", "Calls with the station", "installer/calls.html.j2", _view(papers, results, found, stopped)),)


def _view(papers: Papers, results: Results, found: tuple[FindingView, ...], stopped: Stopped) -> CallsView:
    agreed, events = papers.job.monitoring, results.events
    fields = {row.zone: row.text_field for row in results.slots.rows if row.list == "zones"}
    calls = []
    for index, one in enumerate(events.tests, 1):
        text = unless_stopped(one.text, fields.get(one.number, ""), stopped) if one.device else one.text
        calls.append((_about(one), _call(papers, results, one, text, f"{index} of {len(events.tests)}")))
    groups = tuple(CallGroup(about, TITLES[about], tuple(call for _, call in members))
                   for about, members in groupby(calls, key=lambda pair: pair[0]))
    facts = (Fact("Station", agreed.station), Fact("Telephone", agreed.telephone), Fact("Account", agreed.account, "job.monitoring.account"))
    sources = tuple(dict.fromkeys((*(one.source.cited() for one in events.rows), events.chosen.cited())))
    form = FORMATS[agreed.format] if agreed.format else "The format is not given: in another one than SIA DC-05 the messages are written otherwise."
    return CallsView(found, facts_view(facts, stopped), count(len(calls), "test"), form, groups, tuple(map(capital, events.unsaid)), sources,
                     Link("safety.html", "Before cases are opened and mains switched: every hazard of this job"))


def _about(one: PlannedTest) -> str:
    return ZONES if one.device else USERS if one.number else SYSTEM


def _call(papers: Papers, results: Results, one: PlannedTest, text: str, number: str) -> CallView:
    about = _about(one)
    title = {ZONES: f"Zone {one.number}, {text}", USERS: f"User {one.number}, {text}"}.get(about) or capital(one.expects[0].means.partition(":")[0])
    # The event is said too, so that a unit's case and its signal are told apart.
    event = "" if about == SYSTEM else f": {lower(one.expects[0].means.partition(':')[0])}"
    return CallView(f"call-{number.partition(' ')[0]}", number, title, _do(papers, results, one),
                    f"“{title}{event}. {count(len(one.expects), 'message')} must come. Please read what you get.”",
                    tuple(ExpectedView(sent.message or NO_MESSAGE, capital(sent.means)) for sent in one.expects))


def _do(papers: Papers, results: Results, one: PlannedTest) -> str:
    """What is done: where a unit is set off, what its sheet says of its test."""
    if one.do != SET_OFF:
        return f"{one.device}: {one.do}" if one.device else one.do
    return f"{one.device}: {filled(papers.sheet_of[one.device].handling.test, papers, results, one.device)}"
