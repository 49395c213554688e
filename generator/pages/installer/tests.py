"""The checklist: every test with its limit. A result is written at the step that brings it, on the phone or in the day on paper."""
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.pages.page import Link, Page
from generator.pages.parts import Stopped, units_of, unstopped
from generator.procedure.checks import Check, checks_of_unit, system_checks
from generator.procedure.signing import OF
from generator.terms.show import count

PATH = "tests.html"
TITLE = "Test checklist"
SYSTEM = "system"
PAPER = "paper.html"


@dataclass(frozen=True)
class CheckLine:
    """A line of the checklist with the anchor at which it is found."""

    id: str
    check: Check


@dataclass(frozen=True)
class CheckGroup:
    """The tests of one unit, or of the system."""

    id: str
    title: str
    lines: tuple[CheckLine, ...]


@dataclass(frozen=True)
class TestsView:
    """The checklist; `called` says that some of its tests are made while the station reads, `paper` is where one writes."""

    groups: tuple[CheckGroup, ...]
    total: str
    called: bool
    paper: Link


def tests_page(papers: Papers, results: Results, stopped: Stopped) -> Page:
    """The page of the checklist."""
    groups = tuple(CheckGroup(id, title, tuple(CheckLine(anchor, unstopped(one, stopped)) for anchor, one in _anchored(id, checks)))
                   for id, title, checks in _groups(papers, results))
    total = count(sum(len(one.lines) for one in groups), "line")
    return Page(PATH, TITLE, "installer/tests.html.j2", TestsView(groups, total, papers.job.monitoring is not None, Link(PAPER, "the day on paper")))


def line_links(papers: Papers, results: Results) -> Mapping[str, Link]:
    """Where each line stands, by the line's name as a step says it: "Function of D1", "Supervision"."""
    named = {}
    for id, _, checks in _groups(papers, results):
        for anchor, one in _anchored(id, checks):
            name = f"{one.what}{OF}{one.unit}" if one.unit else one.what
            named[name] = Link(f"{PATH}#{anchor}", name)
    return named


def group_of(results: Results, name: str) -> Link:
    """Where all lines of a unit stand."""
    return Link(f"{PATH}#{_group_id(results, name)}", f"every line of {name}")


def _group_id(results: Results, name: str) -> str:
    return f"unit-{results.references[name].lower()}"


def _groups(papers: Papers, results: Results) -> Iterator[tuple[str, str, tuple[Check, ...]]]:
    for name in units_of(papers):
        yield _group_id(results, name), f"{name} · {papers.sheet_of[name].name}", checks_of_unit(papers, results, name)
    yield SYSTEM, "The whole system", system_checks(papers, results)


def _anchored(group: str, checks: tuple[Check, ...]) -> Iterator[tuple[str, Check]]:
    """Each line with an anchor made of its own words; of two that would have the same the later gets a number too."""
    taken: dict[str, int] = {}
    for one in checks:
        anchor = f"{group}-{re.sub('[^a-z0-9]+', '-', one.what.lower()).strip('-')}"
        taken[anchor] = taken.get(anchor, 0) + 1
        yield (f"{anchor}-{taken[anchor]}" if taken[anchor] > 1 else anchor), one
