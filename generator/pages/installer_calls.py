"""The calls with the station: each test of the day, what to say, and the exact message that the operator must read back."""
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from generator.calc.events import PlannedTest, Sent
from generator.calc.results import Results
from generator.model.papers import Papers
from generator.pages.page import Link, Page, device_path
from generator.pages.parts import Fact
from generator.terms.show import capital, count

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
    """One test. `unit` opens the page of the unit that is set off; none for what no unit stands for."""

    id: str
    number: str
    title: str
    do: str
    say: str
    expects: tuple[ExpectedView, ...]
    unit: tuple[Link, ...]


@dataclass(frozen=True)
class CallGroup:
    """Tests of one kind, in the order of the day."""

    id: str
    title: str
    calls: tuple[CallView, ...]


@dataclass(frozen=True)
class CallsView:
    """All calls of the day."""

    facts: tuple[Fact, ...]
    total: str
    format: str
    groups: tuple[CallGroup, ...]
    unsaid: tuple[str, ...]
    sources: tuple[str, ...]


def calls_page(papers: Papers, results: Results) -> tuple[Page, ...]:
    """The page of calls; none for a system that only sounds."""
    if papers.job.monitoring is None:
        return ()
    return (Page("calls.html", "Calls with the station", "installer/calls.html.j2", _view(papers, results)),)


def _view(papers: Papers, results: Results) -> CallsView:
    agreed, events = papers.job.monitoring, results.events
    calls = [(_about(one), _call(results, one, index, len(events.tests))) for index, one in enumerate(events.tests, 1)]
    groups = tuple(CallGroup(about, TITLES[about], tuple(call for _, call in members))
                   for about, members in groupby(calls, key=lambda pair: pair[0]))
    facts = (Fact("Station", agreed.station), Fact("Telephone", agreed.telephone), Fact("Account", agreed.account))
    sources = tuple(dict.fromkeys((*(one.source.cited() for one in events.rows), events.chosen.cited())))
    form = FORMATS[agreed.format] if agreed.format else "The format is not given: in another one than SIA DC-05 the messages are written otherwise."
    return CallsView(facts, count(len(calls), "test"), form, groups, tuple(map(capital, events.unsaid)), sources)


def _about(one: PlannedTest) -> str:
    return ZONES if one.device else USERS if one.number else SYSTEM


def _call(results: Results, one: PlannedTest, index: int, last: int) -> CallView:
    title = {ZONES: f"Zone {one.number}, {one.text}", USERS: f"User {one.number}, {one.text}", SYSTEM: "The system"}[_about(one)]
    href = device_path(results.references[one.device]) if one.device else ""
    return CallView(f"call-{index}", f"{index} of {last}", title, one.do, f"“{' '.join(_say(one, title))}”", tuple(map(_expected, one.expects)),
                    (Link(href, f"{one.device}: how it is tested"),) if href else ())


def _say(one: PlannedTest, title: str) -> Iterator[str]:
    """What the installer says before the test is done."""
    yield f"{title}." if _about(one) != SYSTEM else f"{capital(one.expects[0].means.partition(':')[0])}."
    yield f"{count(len(one.expects), 'message')} must come. Please read what you get."


def _expected(one: Sent) -> ExpectedView:
    return ExpectedView(one.message or NO_MESSAGE, capital(one.means))
