"""The installer's page of ways in and out: what each way takes, part by part, beside what is programmed; and the ways as lines to be drawn."""
from dataclasses import dataclass

from generator.calc.house.routes import Blocked, DoorWays, WayIn
from generator.calc.results import Results
from generator.calc.unknown import Unknown
from generator.model.papers import Papers
from generator.pages.page import Link, Page, device_path
from generator.pages.parts import Fact, FindingView
from generator.pages.power import unit_link
from generator.pages.workings import WorkingView, working_view
from generator.procedure.handling import opening_name, room_name
from generator.terms.show import amount, capital, count, sentence_list

PATH = "routes.html"


@dataclass(frozen=True)
class RouteLine:
    """A way as a line on a storey, corner by corner in metres of the plan, from the door to the unit; `label` says metres and seconds,
    `seconds` those alone.

    `ends` says that the unit is on this storey: there the label belongs. `short` says that the programmed time is too short for it.
    """

    door: str
    unit: str
    storey: str
    points: tuple[tuple[float, float], ...]
    label: str
    seconds: str
    ends: bool
    short: bool


@dataclass(frozen=True)
class WayView:
    """One way: where to and for whom, what comes out, each part, and how it was got."""

    unit: Link
    whom: str
    answer: str
    level: str
    facts: tuple[Fact, ...]
    workings: tuple[WorkingView, ...]


@dataclass(frozen=True)
class DoorView:
    """One door with its ways, or why there is none, and what alarms at once on them."""

    anchor: str
    title: str
    ways: tuple[WayView, ...]
    missing: str
    met: str


@dataclass(frozen=True)
class RoutesView:
    """Every timed door."""

    found: tuple[FindingView, ...]
    answer: str
    doors: tuple[DoorView, ...]
    lines: tuple[RouteLine, ...]


def routes_page(papers: Papers, results: Results, found: tuple[FindingView, ...]) -> tuple[Page, ...]:
    """The page of ways in and out; none for a job of which no way could be looked for."""
    doors = results.routes.doors
    if not doors:
        return ()
    return (Page(PATH, "Ways in and out", "installer/routes.html.j2",
                 RoutesView(found, _answer(results), tuple(_door(papers, results, one) for one in doors), route_lines(results))),)


def route_lines(results: Results) -> tuple[RouteLine, ...]:
    """Every way that was found, a line for each storey that it leads over."""
    return tuple(RouteLine(way.door.key, way.unit, one.storey, tuple((x, y) for x, y in one.places), _label(way),
                           amount(way.entry.value, "s"), one is way.route.stretches[-1],
                           not way.entry.holds())
                 for way in results.routes.ways for one in way.route.stretches)


def _label(way: WayIn) -> str:
    return f"{amount(way.route.flat_m + way.route.slope_m, 'm')}, {amount(way.entry.value, 's')} needed"


def _answer(results: Results) -> str:
    every = results.routes.ways
    short = [f"from {way.door.key} to {way.unit}" for way in every if not way.entry.holds()]
    lost = sum(not isinstance(one.found, tuple) for one in results.routes.doors)
    rest = f" For {count(lost, 'door')} there is none." if lost else ""
    if short:
        return f"Too slow for the programmed entry time: {sentence_list(short)}.{rest}"
    if not every:
        return f"No way could be worked out.{rest}"
    least = min(every, key=lambda way: way.reserve_s)
    return (f"{count(len(every), 'way')} in, each within the programmed entry time of {least.entry.limit.shown()}. The least is left from {least.door.key} "
            f"to {least.unit}: {amount(least.reserve_s, 's')}.{rest}")


def _door(papers: Papers, results: Results, one: DoorWays) -> DoorView:
    key = one.door.key
    ways = tuple(_way(papers, results, way) for way in one.found) if isinstance(one.found, tuple) else ()
    missing = f"Not worked out, because {one.found.reason}." if isinstance(one.found, Unknown) else ""
    missing = f"{one.found.says} {one.found.do}" if isinstance(one.found, Blocked) else missing
    met = sentence_list([f"{met.unit} in {met.where}" for met in one.met])
    return DoorView(f"door-{key}", capital(opening_name(papers, key)), ways, missing, f"Alarms at once on this way: {met}." if met else "")


def _way(papers: Papers, results: Results, way: WayIn) -> WayView:
    held = {True: "kept", False: "unkept"}[bool(way.entry.holds() and way.exit.holds())]
    left = f"{amount(way.reserve_s, 's')} to spare" if way.entry.holds() else f"{amount(-way.reserve_s, 's')} short"
    answer = (f"In: {way.entry.shown()} needed, {way.entry.limit_shown()} programmed, {left}. "
              f"Out: {way.exit.shown()} needed, {way.exit.limit_shown()} programmed.")
    whom = f"For who has neither fob nor tag: {sentence_list(list(way.users))}." if way.users else ""
    return WayView(unit_link(results, way.unit, device_path), whom, answer, held, _facts(papers, way), tuple(map(working_view, (way.entry, way.exit))))


def _facts(papers: Papers, way: WayIn) -> tuple[Fact, ...]:
    parts, route = way.parts, way.route
    rooms = [room_name(papers, one.name) for one in way.through if one.kind == "room"]
    rows = [("Door", amount(parts.door_s, "s")),
            ("On the flat", f"{amount(route.flat_m, 'm')} at {way.speed.shown()}: {amount(parts.flat_s, 's')}"),
            ("On stairs", f"{amount(route.slope_m, 'm')} along the slope: {amount(parts.stairs_s, 's')}" if route.stairs else ""),
            (f"Unsetting by {way.means}", amount(parts.unset_s, "s")),
            ("All of it", f"{amount(parts.whole_s, 's')}, times {way.reserve.shown()} in reserve: {way.entry.shown()}"),
            ("Leads through", sentence_list(rooms)),
            (f"A {papers.sheet_of[way.unit].kind} may be as far off", f"{amount(way.within_m, 'm')} along the way, for the programmed time"
             if way.within_m > 0 else "nowhere: the rest alone takes longer")]
    return tuple(Fact(name, value) for name, value in rows if value)
