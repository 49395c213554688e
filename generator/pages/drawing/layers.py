"""What else a drawing can show: the ways in with their seconds, what movement detectors see, and the openings that nothing detects.

Taken from the pages that tell them (`installer_routes.py`, `seen_areas.py`), so that both say the same.
"""
from collections.abc import Iterable, Sequence

from generator.calc.house.routes import Blocked
from generator.calc.results import Results
from generator.calc.unknown import Unknown
from generator.model.papers import Papers
from generator.pages.drawing.sheets import Drawn
from generator.pages.drawing.views import DrawnSheet, Layer, WayLine
from generator.pages.installer.routes import RouteLine, route_lines
from generator.pages.installer.seen_areas import GapLine, SeenArea
from generator.pages.parts import Fact
from generator.procedure.handling import opening_name
from generator.terms.show import capital, sentence_list

SLOW = "longer than is programmed"
ONWARD = "goes on on another drawing"


def way_lines(papers: Papers, results: Results, drawn: Drawn, storeys: Sequence[str]) -> tuple[WayLine, ...]:
    """The ways in over these storeys; the last stretch leads on from where one stands to the unit that one reaches for."""
    return tuple(_way(papers, drawn, one) for one in route_lines(results) if one.storey in storeys)


def _way(papers: Papers, drawn: Drawn, one: RouteLine) -> WayLine:
    spot = drawn.spots[one.unit]
    reached = ((spot.x, spot.y),) if one.ends and not isinstance(spot, Unknown) else ()
    rest = [one.label, *([SLOW] if one.short else []), *([] if one.ends else [ONWARD])]
    label = f"{one.seconds}, too long" if one.short else one.seconds
    return WayLine(one.unit, label if one.ends else "", (*one.points, *reached), one.short,
                   f"{opening_name(papers, one.door)} to {one.unit}: {', '.join(rest)}")


def layers_of(sheet: DrawnSheet) -> tuple[Layer, ...]:
    """What can be shown on a drawing and hidden: the links are shown at first."""
    seen = [word for word, there in (("views", sheet.areas), ("gaps", sheet.gaps)) if there]
    found = (Layer("links", "Links", True) if sheet.links else None, Layer("ways", "Ways in", False) if sheet.ways else None,
             Layer("views", capital(sentence_list(seen)), False) if seen else None)
    return tuple(one for one in found if one)


def seen_facts(areas: Iterable[SeenArea]) -> tuple[Fact, ...]:
    """Each detector with the floor that it sees at both heights."""
    found: dict[str, list[str]] = {}
    for one in areas:
        found.setdefault(one.unit, []).append(one.says.partition(": ")[2])
    return tuple(Fact(name, ", ".join(says)) for name, says in found.items())


def gap_facts(gaps: Iterable[GapLine]) -> tuple[Fact, ...]:
    """Each gap by its number on the drawing."""
    return tuple(Fact(f"Gap {one.number}", one.says.partition(": ")[2]) for one in gaps)


def lost_layers(papers: Papers, results: Results) -> tuple[str, ...]:
    """Which ways in and views are not drawn, and why."""
    reasons: dict[str, list[str]] = {}
    for name, one in results.coverage.views.items():
        if isinstance(one, Unknown):
            reasons.setdefault(one.reason, []).append(f"the view of {name}")
    for way in results.routes.doors:
        if isinstance(way.found, (Unknown, Blocked)):
            why = way.found.reason if isinstance(way.found, Unknown) else way.found.says.rstrip(".")
            reasons.setdefault(why, []).append(f"the way in from {opening_name(papers, way.door.key)}")
    for way in results.coverage.ways:
        if way.bare and not way.ends:
            reasons.setdefault("it has no place in the plan", []).append(f"the gap at {opening_name(papers, way.opening)}")
    if results.routes.lacks:
        reasons.setdefault(results.routes.lacks, []).append("ways in")
    return tuple(f"{capital(sentence_list(names))}: not drawn, because {why}." for why, names in reasons.items())
