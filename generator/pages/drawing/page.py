"""The installer's page of the plan: each storey drawn, the key, the same in words, and what is not drawn with what to write."""
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from generator.calc.house.views import HIGH, LOW
from generator.calc.results import Results
from generator.calc.unknown import Unknown
from generator.geometry.walls import Wall
from generator.model.papers import Papers
from generator.model.premises import Shape
from generator.pages.drawing.layers import gap_facts, layers_of, lost_layers, seen_facts, way_lines
from generator.pages.drawing.links import KEY
from generator.pages.drawing.plot import plot_of
from generator.pages.drawing.sheets import (Drawn, drawn_house, opening_lines, opening_words, rooms_of, stairs_of, stairs_words, things_of,
                                         wall_lines, walls_of_sheet)
from generator.pages.drawing.units import link_lines, placed_units, unit_marks, unit_row, unplaced
from generator.pages.drawing.views import DrawnSheet, LEVELS, MarkKey, PlanView, Proposed, SheetView, WallKey
from generator.pages.installer.links import PATH as RADIO
from generator.pages.installer.routes import PATH as ROUTES
from generator.pages.installer.seen_areas import PATH as SEEN, areas_on, gaps_on
from generator.pages.page import Link, Page
from generator.pages.parts import Fact, units_of
from generator.pages.sheet_facts import plan_words
from generator.procedure.handling import room_name
from generator.terms.show import capital, count, figure, number, sentence_list

PATH, TITLE = "plan.html", "Plan"
NOTHING = ("Nothing is drawn, because no room has measures: write corner_m and size_m, or outline_m, for each room in premises.storeys, and "
           "at_m and height_m for each unit.")
COMPASS = ("north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west")
MARKS = {
    "control": "Control unit", "repeater": "Repeater",
    "unit": "Unit, with its name and zone numbers; the tick shows where it looks. Its words open its page",
    "far": "Heard on another drawing: ↑ above, ↓ below, → elsewhere; the stub points to where",
    "way": "Way in, from a timed-entry door to where the alarm is turned off, with the seconds that it needs",
    "way-slow": "Way in that takes longer than is programmed",
    "seen": "Seen by a movement detector {high} above the floor, with every door shut", "seen-low": "The same {low} above the floor",
    "gap": "Gap: nothing detects this opening", "gap-high": "Gap out of reach, or of which it is not known",
    "proposed": "Place for a repeater that was worked out, not fitted", "entry": "Way in",
    "door": "Door or hatch; which way it opens is not in the plan", "window": "Window", "garage-door": "Garage door",
    "stairs": "Stairs, the arrow leads up", "metal": "Metal", "heat": "Gets warm",
    "thing": "Furniture", "roof": "Roof that one can stand on", "boundary": "Boundary of the plot",
    "reach": "From an outside sounder to the nearest point of the boundary, with the level there at most",
}

COUNTED = (("short", "short link", "short links"), ("little", "link with little to spare", "links with little to spare"),
           ("enough", "link with enough", "links with enough"), ("unknown", "link not worked out", "links not worked out"))


def plan_page(papers: Papers, results: Results, proposed: Sequence[Proposed] = ()) -> Page:
    """The page of the plan. `proposed` are places for repeaters that were worked out."""
    drawn = drawn_house(papers, units_of(papers))
    if not drawn.sheets:
        return Page(PATH, TITLE, "installer/plan.html.j2", PlanView(NOTHING, (_radio(),), (), (), (), (), ()))
    storey_of = placed_units(papers, drawn)
    sheets = tuple(_sheet(papers, results, drawn, storey_of, name, proposed) for name in drawn.sheets)
    lost, plot = unplaced(papers, drawn), plot_of(papers, results, drawn, sheets)
    drawings = [*(one.drawing for one in sheets), *([plot.drawing] if plot else [])]
    elsewhere = tuple(unit_row(papers, results, name) for name, spot in drawn.spots.items() if isinstance(spot, Unknown))
    view = PlanView(_answer(sheets, len(elsewhere)), _worked(results), _walls(papers, drawn),
                    tuple(_marks(papers, drawings)), sheets, elsewhere, _missing(papers, drawn, lost), lost_layers(papers, results), plot)
    return Page(PATH, TITLE, "installer/plan.html.j2", view)


def on_plan(page: Page) -> dict[str, Link]:
    """The way to each unit that is drawn, by its name."""
    return {one.name: Link(f"{PATH}#{one.anchor}", "On the plan") for sheet in page.view.sheets for one in sheet.drawing.units}


def _radio() -> Link:
    return Link(RADIO, "Each link worked out")


def _worked(results: Results) -> tuple[Link, ...]:
    """The pages that work out what is drawn."""
    routes = (Link(ROUTES, "Each way in worked out"),) if results.routes.doors else ()
    return (_radio(), *routes, Link(SEEN, "What is seen, and each gap"))


def _answer(sheets: tuple[SheetView, ...], elsewhere: int) -> str:
    links = [one for sheet in sheets for one in sheet.drawing.links]
    short = [one.unit for one in links if one.level == "short"]
    units = sum(len(one.drawing.units) for one in sheets)
    rest = f"{count(elsewhere, 'unit is', 'units are')} carried or without a place: below." if elsewhere else ""
    unknown = sum(one.level == "unknown" for one in links)
    words = [f"{count(len(short), 'link is', 'links are')} short on a bad day: {sentence_list(short)}." if short else
             "None that could be worked out is short on a bad day." if unknown < len(links) else "",
             f"{count(unknown, 'link')} could not be worked out." if unknown else ""]
    return " ".join(filter(None, (f"{count(units, 'unit')} and {count(len(links), 'link')} drawn.", rest, *words)))


def _sheet(papers: Papers, results: Results, drawn: Drawn, storey_of: Mapping[str, str], name: str, proposed: Sequence[Proposed]) -> SheetView:
    storeys = drawn.sheets[name]
    titles = [papers.job.premises.storeys[key].name or key.replace("-", " ").replace("_", " ") for key in storeys]
    walls = walls_of_sheet(drawn, storeys)
    units, links = unit_marks(papers, results, drawn, storey_of, name), link_lines(results, drawn, storey_of, name)
    drawing = DrawnSheet(
        f"storey-{name}", capital(sentence_list(titles)), "", rooms_of(papers, drawn, storeys),
        wall_lines(papers, drawn, walls), opening_lines(papers, drawn, walls), things_of(papers, drawn, storeys), stairs_of(papers, storeys),
        units, links, tuple(one for one in proposed if one.storey in storeys), _front(papers), papers.job.premises.front_deg,
        way_lines(papers, results, drawn, storeys), areas_on(papers, results, storeys), gaps_on(papers, results, storeys))
    drawing = replace(drawing, says=_says(drawing))
    return SheetView(drawing, tuple(unit_row(papers, results, one.name) for one in units),
                     tuple(_room(papers, drawn, walls, room) for key in storeys for room in papers.job.premises.storeys[key].rooms
                           if room in drawn.house.rooms),
                     tuple(_fact(opening_words(papers, hole.opening)) for wall in walls for hole in wall.holes),
                     (*(_fact(one.says) for one in (*drawing.things, *drawing.stairs)),
                      *(Fact(f"Place for a repeater, {one.label}", plan_words([one.x, one.y])) for one in drawing.proposed)),
                     layers_of(drawing), tuple(_fact(one.says) for one in drawing.ways), seen_facts(drawing.areas), gap_facts(drawing.gaps))


def _says(sheet: DrawnSheet) -> str:
    levels = [one.level for one in sheet.links]
    kinds = [*((levels.count(level), one, many) for level, one, many in COUNTED),
             (len(sheet.ways), "way in", "ways in"), (len({one.unit for one in sheet.areas}), "view", "views"), (len(sheet.gaps), "gap", "gaps")]
    parts = [count(number, one, many) for number, one, many in kinds if number]
    return f"{sheet.title} seen from above: {', '.join((count(len(sheet.units), 'unit'), *parts))}. The same in words below."


def _front(papers: Papers) -> str:
    bearing = papers.job.premises.front_deg
    return "Front" if bearing is None else f"Front, faces {COMPASS[round(bearing / 45) % 8]}"


def _fact(words: str) -> Fact:
    name, _, value = words.partition(": ")
    return Fact(capital(name), value)


def _room(papers: Papers, drawn: Drawn, walls: Sequence[Wall], room: str) -> Fact:
    """A room in words: its area, and the walls that it has to each place, by construction, with their length."""
    found: dict[tuple[str, str], float] = {}
    for wall in walls:
        if room in wall.places and not wall.own:
            other = next((one for one in wall.places if one != room), room)
            key = room_name(papers, other), wall.construction or "construction not given"
            found[key] = found.get(key, 0.0) + wall.length_m
    words = [f"to {other}: {built}, {figure(length, 'm', 3)}" for (other, built), length in found.items()]
    return Fact(capital(room_name(papers, room)), "; ".join([figure(drawn.house.rooms[room].area, "m²", 3), *words]))


def _walls(papers: Papers, drawn: Drawn) -> tuple[WallKey, ...]:
    every = papers.constructions()
    known = [WallKey(look, drawn.thickness_m.get(name), f"{name}: {every[name].means}, {number(drawn.thickness_m[name] * 1000, 0)} mm")
             for name, look in drawn.looks.items()]
    lacking = any(one.wall.construction is None for one in drawn.house.walls)
    return (*known, *([WallKey(None, None, "Construction not given; write walls for the storey")] if lacking else []))


def _marks(papers: Papers, drawings: Sequence[DrawnSheet]) -> Iterable[MarkKey]:
    """The key: the links first, then what else is on these drawings."""
    there = {one.level for drawing in drawings for one in drawing.links}
    yield from (MarkKey(level, KEY[level]) for level in LEVELS if level in there)
    there = {one.kind for drawing in drawings for one in drawing.units}
    for drawing in drawings:
        there |= {"far"} if any(one.far for one in drawing.units) else set()
        there |= {"way-slow" if one.slow else "way" for one in drawing.ways}
        there |= {"seen" if one.height == "upper" else "seen-low" for one in drawing.areas}
        there |= {"gap" if one.reached else "gap-high" for one in drawing.gaps}
        there |= {"proposed"} if drawing.proposed else set()
        there |= {mark for mark, some in (("boundary", drawing.boundary), ("reach", drawing.reaches)) if some}
        there |= {"stairs"} if drawing.stairs else set()
        there |= {"window" if "window" in one.kind else one.kind if one.kind == "garage-door" else "door" for one in drawing.openings}
        there |= {"entry" for one in drawing.openings if one.inward}
        there |= {mark for one in drawing.things for mark in one.marks or ("thing",)}
    limits = papers.profile.limits
    low, high = (limits[key].shown() if key in limits else "" for key in (LOW, HIGH))
    yield from (MarkKey(mark, words.format(low=low, high=high)) for mark, words in MARKS.items() if mark in there)


def _missing(papers: Papers, drawn: Drawn, lost: Mapping[str, str]) -> tuple[str, ...]:
    """What is not drawn, together by reason."""
    reasons: dict[str, list[str]] = {}
    premises, holes = papers.job.premises, {hole.opening for one in drawn.house.walls for hole in one.wall.holes}

    def shapes(group: Mapping[str, Shape], where: str, called=None) -> None:
        for key, one in group.items():
            if not (one.outline_m or (one.corner_m and one.size_m)):
                lacks = f"no measures are given; write corner_m and size_m, or outline_m, in {where}"
                reasons.setdefault(lacks, []).append(called(papers, key) if called else key.replace("-", " "))

    for key, storey in premises.storeys.items():
        at = f"premises.storeys.{key}"
        shapes(storey.rooms, f"{at}.rooms", room_name)
        for name, one in storey.openings.items():
            if name not in holes:
                lacks = [field for field in ("at_m", "width_m", "height_m") if getattr(one, field) is None]
                why = f"not all measures are given; write {sentence_list(lacks)} in {at}.openings" if lacks else "the wall it stands in is not drawn"
                reasons.setdefault(why, []).append(opening_words(papers, name).partition(":")[0])
        shapes(storey.furniture, f"{at}.furniture")
    shapes(premises.roofs, "premises.roofs")
    for name, one in premises.stairs.items():
        lacks = [f"{end}.at_m" for end, where in (("foot", one.foot), ("head", one.head)) if where.at_m is None]
        if lacks:
            reasons.setdefault(f"not both ends have a place; write {sentence_list(lacks)} in premises.stairs.{name}", []).append(
                stairs_words(papers, name, one).partition(":")[0])
    for name, why in lost.items():
        reasons.setdefault(why, []).append(name)
    return tuple(f"{capital(sentence_list(names))}: not drawn, because {why}." for why, names in reasons.items())
