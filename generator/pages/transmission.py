"""The ways to the monitoring station: what carries them, and what is left of them when something fails."""
from collections.abc import Iterator
from dataclasses import dataclass

from generator.calc.results import Results
from generator.calc.station.categories import reporting_limit
from generator.calc.station.transmission import LINE, MAINS, ROUTER, Failure, Outlook, Transmission
from generator.calc.unknown import Unknown
from generator.calc.working import Given
from generator.model.monitoring import TransmissionPath
from generator.model.papers import Papers
from generator.pages.origins import origin_in_words
from generator.pages.page import Page
from generator.pages.parts import Fact, FindingView
from generator.tables.transmission import ANALOGUE, CARRIED_BY, CATEGORIES
from generator.terms.show import amount, capital, day, sentence_list

NOT_GIVEN = "not given"
DECIDES = "The standard decides: look the figure up before you promise it."


@dataclass(frozen=True)
class LeftView:
    """What becomes of one path."""

    path: str
    says: str


@dataclass(frozen=True)
class FailureView:
    """One failure, what it leaves of each path, and whether the station still hears the system."""

    id: str
    title: str
    left: tuple[LeftView, ...]
    says: str


@dataclass(frozen=True)
class TransmissionView:
    """What was found about the ways to the station, and what these are."""

    found: tuple[FindingView, ...]
    category: tuple[Fact, ...]
    times: tuple[Fact, ...]
    decides: str
    paths: tuple[Fact, ...]
    asked: tuple[Fact, ...]
    failures: tuple[FailureView, ...]
    single: tuple[str, ...]
    notes: tuple[str, ...]


def transmission_page(papers: Papers, results: Results, findings: tuple[FindingView, ...] = ()) -> tuple[Page, ...]:
    """The page of the ways to the station; none for a system that only sounds."""
    found = results.transmission
    return (Page("transmission.html", "Transmission", "shared/transmission.html.j2", _view(papers, results, found, findings)),) if found else ()


def _view(papers: Papers, results: Results, found: Transmission, findings: tuple[FindingView, ...]) -> TransmissionView:
    paths = papers.job.monitoring.paths
    asked = (Fact("Without mains the control unit must carry on for", f"{found.asked_h.shown()} ({origin_in_words(found.asked_h.origin)})"),) if isinstance(found.asked_h, Given) else ()
    times = tuple(_times(papers, found))
    return TransmissionView(
        findings, tuple(_category(found)), times, DECIDES if times else "",
        tuple(Fact(f"Path “{key}”", path_in_words(one)) for key, one in paths.items()) or (Fact("Paths", NOT_GIVEN),), asked,
        tuple(_failure(one, results.power.runs_in_words()) for one in found.failures), tuple(_single(found)), tuple(_notes(papers, results)))


def _category(found: Transmission) -> Iterator[Fact]:
    one = found.category
    yield Fact("Asked", one.asked or NOT_GIVEN)
    yield Fact("Given", one.given or NOT_GIVEN)
    if isinstance(one.reached, Unknown):
        yield Fact("Reached", f"not checked, because {one.reached.reason}")
    elif one.reached is not None:
        yield Fact("Reached", f"{'yes' if one.reached else 'no'}, by the order of the categories in {CATEGORIES.cited()}")


def _times(papers: Papers, found: Transmission) -> Iterator[Fact]:
    """How soon a failed path must be known, as the profile holds it, never without its mark."""
    for one in dict.fromkeys(filter(None, (found.category.asked, found.category.given))):
        name = reporting_limit(papers.profile, one)
        if name:
            limit = papers.profile.limits[name]
            yield Fact(f"{capital(limit.means)}", f"{limit.shown()}: {papers.profile.source_of(name).cited()}")


def path_in_words(path: TransmissionPath) -> str:
    """What a path needs: "broadband, through a router of the house, which carries on for 12 h without mains"."""
    via = "through a router of the house" if path.router else "past every router of the house"
    supply = "router" if path.router else "modem"
    if path.standby_h is not None:
        own = f"the {supply} carries on for {amount(path.standby_h, 'h')} without mains"
    elif path.router:
        own = "how long the router carries on without mains is not given"
    else:
        own = "fed by the exchange and the control unit" if path.kind == ANALOGUE else "fed by the control unit"
    return f"{capital(CARRIED_BY[path.kind])}, {via}; {own}"


def _failure(one: Failure, runs: str) -> FailureView:
    title = {MAINS: "When the mains fails", ROUTER: "When the router fails"}.get(one.what, f"When the line of path “{one.of}” fails")
    return FailureView(f"{one.what}-{one.of}" if one.of else one.what, title, tuple(_left(path, runs) for path in one.paths), _silent(one))


def _left(one: Outlook, runs: str) -> LeftView:
    """What becomes of a path; `runs` is how long the control unit's battery lasts at rest, "" where that is not known."""
    if isinstance(one.hours, Unknown):
        return LeftView(one.path, f"Not checked, because {one.hours.reason}.")
    if one.hours is None:
        return LeftView(one.path, f"Carries on: {one.why}.")
    if one.dies:
        return LeftView(one.path, f"Gone at once: {one.why}.")
    if one.with_unit:
        counted = f"about {runs} were worked out for its battery at rest" if runs else "how long its battery lasts was not worked out"
        return LeftView(one.path, f"Carries on for at least the {amount(one.hours, 'h')} asked: {one.why}; {counted}.")
    return LeftView(one.path, f"Carries on for {amount(one.hours, 'h')}: {one.why}.")


def _silent(one: Failure) -> str:
    if one.silent is None:
        return "Whether the station still hears the system is not checked, because of what is missing above."
    if one.silent:
        return "The station hears nothing any more."
    left = [path.path for path in one.paths if not path.dies and not isinstance(path.hours, Unknown)]
    return f"The station hears the system over {sentence_list([f'path “{path}”' for path in left])}."


def _single(found: Transmission) -> Iterator[str]:
    """What takes the station's ear away alone; the control unit itself always does."""
    names = {MAINS: "The mains", ROUTER: "The router"}
    for one in found.single_points:
        yield names.get(one.what, f"The line of path “{one.of}”")
    unsure = [names.get(one.what, f"the line of path “{one.of}”") for one in found.failures if one.silent is None]
    if unsure:
        yield f"Not checked: {sentence_list(unsure)}"


def _notes(papers: Papers, results: Results) -> Iterator[str]:
    lines = [key for key, one in papers.job.monitoring.paths.items() if one.kind == ANALOGUE]
    end = next((one for one in results.dates.entries if one.kind == LINE), None)
    if lines:
        until = f" until {day(end.last)} ({end.source})" if end else ""
        yield f"The analogue line of {sentence_list(lines)} brings its own power{until}; a digital line from the same socket brings none."
