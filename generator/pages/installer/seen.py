"""The installer's page of what is seen and heard: ways in, detectors, rooms, what confirms, the way at night, what is exposed, sounders, places."""
from collections.abc import Iterator
from dataclasses import dataclass

from generator.calc.climate import Climate, climates
from generator.calc.house.confirming import Ahead, Confirmed
from generator.calc.house.disturbed import InView
from generator.calc.house.exposed import KeypadPlace
from generator.calc.house.gaps import RoomSeen, Way
from generator.calc.house.reach import GROUND, Reach
from generator.calc.house.sleepers import Sleeper
from generator.calc.house.sound import AtBoundary, Heard
from generator.calc.house.views import HIGH, LOW, Seen
from generator.calc.results import Results
from generator.calc.unknown import Unknown
from generator.model.papers import Papers
from generator.pages.drawing.page import PATH as PLAN
from generator.pages.drawing.plot import side_of
from generator.pages.installer.seen_areas import PATH
from generator.pages.installer.seen_fire import fire_part
from generator.pages.installer.seen_part import Part
from generator.pages.page import Link, Page
from generator.pages.parts import Fact, FindingView
from generator.pages.workings import working_view
from generator.procedure.handling import opening_name, room_name
from generator.terms.show import amount, capital, count, number, rough, sentence_list


@dataclass(frozen=True)
class SeenView:
    """The whole page."""

    found: tuple[FindingView, ...]
    answer: str
    plan: tuple[Link, ...]
    parts: tuple[Part, ...]


def seen_page(papers: Papers, results: Results, found: tuple[FindingView, ...]) -> Page:
    """The page of what is seen and heard."""
    parts = (_ways(papers, results), _detectors(papers, results), _rooms(papers, results), _confirmed(papers, results), _night(papers, results),
             _exposed(papers, results), _heard(papers, results), _outside(results), _climate(papers), fire_part(papers, results))
    return Page(PATH, "Seen and heard", "installer/seen.html.j2",
                SeenView(found, _answer(papers, results), _plan(results),
                         tuple(one for one in parts if one.facts or one.workings or one.missing)))


def _plan(results: Results) -> tuple[Link, ...]:
    """The way to the drawing of it; none where no room is drawn."""
    return (Link(PLAN, "Views and gaps drawn on the plan"),) if any(one.corners for one in results.coverage.rooms) else ()


def _answer(papers: Papers, results: Results) -> str:
    ways = results.coverage.ways
    bare = [way for way in ways if way.bare and isinstance(way.reach, Unknown) is False and way.reach.reached]
    high = [way for way in ways if way.bare and isinstance(way.reach, Unknown) is False and not way.reach.reached]
    if not ways:
        return "The job names no opening to the open air."
    said = f"{count(len(bare), 'opening')} of {len(ways)} within reach without any detection: {sentence_list([opening_name(papers, one.opening) for one in bare])}." \
        if bare else f"Of {count(len(ways), 'opening')} none within reach is without detection."
    return f"{said} {count(len(high), 'opening')} out of reach and without detection." if high else said


def _unsaid(found: dict[str, list[str]]) -> tuple[str, ...]:
    return tuple(f"{sentence_list(names)}: not checked, because {reason}." for reason, names in found.items())


def _ways(papers: Papers, results: Results) -> Part:
    order = sorted(results.coverage.ways, key=lambda way: (not way.bare, isinstance(way.reach, Unknown) or not way.reach.reached))
    lost: dict[str, list[str]] = {}
    for way in order:
        if isinstance(way.reach, Unknown):
            lost.setdefault(way.reach.reason, []).append(way.opening)
    return Part("ways-in", "Ways in", "Those that nothing detects first. A detector counts if it sees the floor one step inside.",
                tuple(Fact(capital(opening_name(papers, way.opening)), _way(way)) for way in order), missing=_unsaid(lost))


def _way(way: Way) -> str:
    detects = [f"watched by {sentence_list(list(way.watched_by))}"] if way.watched_by else []
    detects += [f"seen by {sentence_list(list(way.seen_by))}"] if way.seen_by else []
    detects += [f"{sentence_list(list(way.by_room))} in the room, view not known"] if way.by_room else []
    # Out of reach it is no gap, only a fact.
    bare = "nothing detects there" if isinstance(way.reach, Reach) and not way.reach.reached else "NO DETECTION"
    return f"{_reach(way)}; {', '.join(detects) or bare}"


def _reach(way: Way) -> str:
    if isinstance(way.reach, Unknown):
        return "height not known"
    if way.reach.origin == GROUND and way.reach.above_m == 0:
        return "reached from the ground"
    return f"{rough(way.reach.above_m, 'm')} above {way.reach.origin}{'' if way.reach.reached else ', out of reach'}"


def _detectors(papers: Papers, results: Results) -> Part:
    low, high = (papers.profile.limits[key].shown() if key in papers.profile.limits else "" for key in (LOW, HIGH))
    lost: dict[str, list[str]] = {}
    facts = []
    for name, view in results.coverage.views.items():
        if isinstance(view, Unknown):
            lost.setdefault(view.reason, []).append(name)
            continue
        facts.append(Fact(f"{name}, {room_name(papers, papers.room_of(papers.job.devices[name]))}",
                          f"{amount(view.low.area_m2, 'm²')} of floor at {low}, {amount(view.high.area_m2, 'm²')} at {high}"
                          f"{_opened(view)}; {_edges(view, low, high)}{_stairs(view)}; in view: {_in_view(results.coverage.disturbed[name])}"))
    both = [Fact("Seen by two", "; ".join(f"{one.one} and {one.other}: {amount(one.shared_m2, 'm²')}" for one in results.coverage.overlaps))] \
        if results.coverage.overlaps else []
    return Part("detectors", "Movement detectors",
                "With every door shut: nothing may hang on a door that was left open. Within range, angle and edges of the sheet, less what walls "
                "and things hide. Each looks at its own floor only: through a stairwell or over a gallery it is not counted, and of stairs only "
                "their foot or head.", (*facts, *both), missing=_unsaid(lost))


def _opened(view: Seen) -> str:
    more = view.opened.area_m2 - view.high.area_m2
    return f", {amount(more, 'm²')} more with inside doors open" if round(more, 1) > 0 else ""


def _edges(view: Seen, low: str, high: str) -> str:
    """Where the edges of the view cut the floor off, near and far."""
    lower, upper = view.view.down_to_deg, view.view.down_from_deg
    if lower is None and upper is None:
        return "height of the view not given"
    bands = ((view.low_m, low), (view.high_m, high))
    near = [f"{amount(band[0], 'm')} at {level}" for band, level in bands if band[0] > 0]
    far = [f"{amount(band[1], 'm')} at {level}" for band, level in bands if 0 < band[1] < view.view.range_m]
    blind = [f"nothing at {level}" for band, level in bands if band[0] >= band[1]]
    said = [f"dead zone {sentence_list(near)}" if near else "no dead zone" if lower is not None else "lower edge not given",
            f"no farther than {sentence_list(far)}" if far else "" if upper is not None else "upper edge not given", *blind]
    return ", ".join(filter(None, said))


def _stairs(view: Seen) -> str:
    ends = sentence_list([f"{end} of {name}" for name, end in view.stairs])
    return f"; stairs: {ends}" if ends else ""


def _in_view(found: tuple[InView, ...]) -> str:
    words = {"window": "window", "heat": "warm", "climbed": "can be climbed"}
    return "; ".join(f"{one.name} ({words[one.kind]}, {amount(one.away_m, 'm')})" for one in found) or "no window, nothing warm, nothing to climb"


def _rooms(papers: Papers, results: Results) -> Part:
    order = sorted(results.coverage.rooms, key=lambda one: not one.bare)
    return Part("rooms", "Rooms", "Those with no detection first. The share is that of the floor, lower and upper height.",
                tuple(Fact(capital(room_name(papers, one.room)), _room(one)) for one in order))


def _room(one: RoomSeen) -> str:
    share = f"{number(one.low_percent, 0)} and {number(one.high_percent, 0)} % by {sentence_list(list(one.seen_by))}" if one.seen_by else \
        f"{sentence_list(list(one.unknown))}, view not known" if one.unknown else "no movement detector"
    return f"{share}; {'on its doors and windows ' + sentence_list(list(one.on_openings)) if one.on_openings else 'nothing on its doors and windows'}"


def _confirmed(papers: Papers, results: Results) -> Part:
    if not any(one.confirms for one in papers.job.devices.values()):
        return Part("confirm", "", "", ())
    lost: dict[str, list[str]] = {}
    for one in results.coverage.confirmed:
        if isinstance(one.ahead, Unknown):
            lost.setdefault(one.ahead.reason, []).append(one.opening)
    return Part("confirm", "What can confirm", "For each way in: what acts first, then what whoever walks on from there meets next, with the metres from one step "
                "inside. Doors are taken as opened, things as climbed over.",
                tuple(Fact(capital(opening_name(papers, one.opening)), _confirming(one)) for one in results.coverage.confirmed), missing=_unsaid(lost))


def _confirming(one: Confirmed) -> str:
    first = f"{sentence_list(list(one.first))} first"
    if isinstance(one.ahead, Unknown):
        return f"{first}; in the same building {sentence_list(list(one.by), 'or') + ' may confirm' if one.by else 'NOTHING MAY CONFIRM'}"
    may = [f"{met.unit} {_walked(met)}" for met in one.ahead if met.confirms]
    sooner = [f"{met.unit} {_walked(met)}" for met in one.ahead if one.confirming and met.unit in one.confirming.past]
    not_yet = f"; met sooner, and may not: {sentence_list(sooner)}" if sooner else ""
    return f"{first}; {sentence_list(may, 'or') + ' may confirm' if may else 'NOTHING MAY CONFIRM'}{not_yet}"


def _walked(met: Ahead) -> str:
    return "at once" if met.at_once else f"{amount(met.metres, 'm')} on"


def _night(papers: Papers, results: Results) -> Part:
    if not papers.job.part_sets:
        return Part("night", "", "", ())
    lost: dict[str, list[str]] = {}
    for one in results.coverage.sleepers:
        if isinstance(one.way, Unknown):
            lost.setdefault(one.way.reason, []).append(one.bedroom)
    known = [one for one in results.coverage.sleepers if not isinstance(one.way, Unknown)]
    return Part("night", "The way at night", "From each bedroom to the nearest bathroom, doors opened, and what acts on it in a part set.",
                tuple(Fact(capital(room_name(papers, one.bedroom)), _sleeper(papers, one)) for one in known), missing=_unsaid(lost))


def _sleeper(papers: Papers, one: Sleeper) -> str:
    way = " – ".join(room_name(papers, room) for room in one.way.rooms[1:])
    met = "; ".join(f"{unit.unit} acts in the part set {unit.part_set}, met after {amount(unit.after_m, 'm')}" for unit in one.met)
    return f"{way}, {amount(one.way.length_m, 'm')}; {met or 'nothing acts on it'}"


def _exposed(papers: Papers, results: Results) -> Part:
    lost: dict[str, list[str]] = {}
    facts = []
    for name, one in results.coverage.keypads.items():
        if isinstance(one, Unknown):
            lost.setdefault(one.reason, []).append(name)
        else:
            facts.append(Fact(name, _keypad(one)))
    for name, places in results.coverage.sounders.items():
        if isinstance(places, Unknown):
            lost.setdefault(places.reason, []).append(name)
        else:
            facts.append(Fact(name, "; ".join(f"{rough(one.above_m, 'm')} above {one.origin}, {one.limit.shown()} wanted" for one in places)))
    return Part("exposed", "Seen or reached from outside",
                "Keypads and readers, with inside doors shut; outside sounders above what one can stand on.",
                tuple(facts), missing=_unsaid(lost))


def _keypad(one: KeypadPlace) -> str:
    seen = "; ".join(f"SEEN through {pane.opening}, {amount(pane.away_m, 'm')} away" for pane in one.through) or "not seen through glass"
    plates = "".join(f"; {rough(plate.away_m, 'm')} from the letter plate of {plate.opening}" for plate in one.plates)
    return seen + plates


def _heard(papers: Papers, results: Results) -> Part:
    lost: dict[str, list[str]] = {}
    rows: list[Heard] = []
    for room, found in results.sound.bedrooms.items():
        if isinstance(found, Unknown):
            lost.setdefault(found.reason, []).append(room)
        else:
            rows += found
    rows.sort(key=lambda one: one.level.value)
    return Part("heard", "Heard in bedrooms, every door shut",
                "The quietest first, at the worse measured door. For fire the local fire code decides what must be heard.",
                tuple(Fact(f"{one.sounder} in {room_name(papers, one.room)}", _level(one)) for one in rows),
                tuple(working_view(one.level) for one in rows), _unsaid(lost))


def _level(one: Heard) -> str:
    return (f"{amount(one.level.value, 'dB(A)', 0)} at least, {amount(one.mild.value, 'dB(A)', 0)} with the best measured door; "
            f"{one.level.limit.shown()} wake; through {sentence_list(list(one.way.doors)) or 'no door'}")


def _outside(results: Results) -> Part:
    sound, lost = results.sound, {}
    known = [one for one in sound.boundary.values() if isinstance(one, AtBoundary)]
    for name, one in sound.boundary.items():
        if isinstance(one, Unknown):
            lost.setdefault(one.reason, []).append(name)
    rows = [one for found in known for one in found.levels]
    rows += [one for name, found in sound.outside.items() if name not in {here.sounder for here in known} and not isinstance(found, Unknown) for one in found]
    return Part("outside", "Outside sounders at the boundary",
                "What reaches the nearest point of the boundary straight, at most. Inside sounders are not counted: for outside walls and panes no figure is known.",
                tuple(Fact(one.sounder, _at_boundary(one)) for one in known), tuple(map(working_view, rows)), _unsaid(lost)) \
        if sound.boundary else Part("outside", "", "", ())


def _at_boundary(one: AtBoundary) -> str:
    held = [f"{level.limit_shown()} is the {level.limit.name}: {'kept' if level.holds() else 'NOT KEPT'}" for level in one.levels if level.limit]
    walls = f", behind {count(one.walls, 'wall')} of the plan" if one.walls else ""
    return (f"{amount(one.levels[0].value, 'dB(A)', 0)} at most, {amount(one.away_m, 'm')} {side_of(one.stands, one.at)}{walls}; "
            f"{'; '.join(held) or 'no figure in this profile to hold it against'}")


def _climate(papers: Papers) -> Part:
    facts, lost = [], {}
    rooms: dict[str, list[Climate]] = {}
    for name, one in climates(papers).items():
        if isinstance(one, Unknown):
            lost.setdefault(one.reason, []).append(name)
        else:
            rooms.setdefault(one.room, []).append(one)
    for room, here in rooms.items():
        ends = f"{amount(here[0].coldest.value, '°C')} to {amount(here[0].warmest.value, '°C')}" if here[0].coldest and here[0].warmest else "in the open air"
        classes = f"class {sentence_list(list(here[0].fits), 'or')} fits" if here[0].fits else "no class of the profile is known to fit"
        units = ", ".join(f"{one.unit} {one.of_class or 'class not given'}" for one in here)
        facts.append(Fact(capital(room_name(papers, room)), f"{ends}; {classes}; {units}"))
    return Part("climate", "Cold, warmth and environmental class", "", tuple(facts), missing=_unsaid(lost))
