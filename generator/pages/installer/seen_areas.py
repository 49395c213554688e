"""What a drawing of each storey shows of what is seen, in metres of the plan: the areas of detectors, and the openings that nothing detects.

A place is (to the right, away from the front), as the job file writes it. `says` are the words of a part, for whoever cannot see it.
"""
from collections.abc import Sequence
from dataclasses import dataclass

from generator.calc.house.gaps import Way
from generator.calc.house.views import HIGH, LOW, Seen
from generator.calc.results import Results
from generator.calc.unknown import Unknown
from generator.model.papers import Papers
from generator.procedure.handling import opening_name
from generator.terms.show import amount

# The page that tells all of it.
PATH = "coverage.html"
At = tuple[float, float]
Ring = tuple[At, ...]


@dataclass(frozen=True)
class SeenArea:
    """What one detector sees at one height: pieces, each an outer ring of corners and then the rings of what is hidden within it."""

    unit: str
    height: str
    at: At
    pieces: tuple[tuple[Ring, ...], ...]
    says: str


@dataclass(frozen=True)
class GapLine:
    """An opening that nothing detects, by its number in the drawing, from where to where in its wall; `reached` is None where it is not known
    whether it can be reached."""

    number: int
    opening: str
    start: At
    end: At
    reached: bool | None
    says: str


def areas_on(papers: Papers, results: Results, storeys: Sequence[str]) -> tuple[SeenArea, ...]:
    """What is seen on these storeys; the areas at the lower height first."""
    known = {name: one for name, one in results.coverage.views.items() if isinstance(one, Seen) and one.view.storey in storeys}
    return tuple(_area(papers, name, one, level) for level in (LOW, HIGH) for name, one in known.items())


def gaps_on(papers: Papers, results: Results, storeys: Sequence[str]) -> tuple[GapLine, ...]:
    """The openings of these storeys that nothing detects and that have a place, numbered from 1."""
    bare = [way for way in results.coverage.ways if way.bare and way.ends and way.storey in storeys]
    return tuple(_gap(papers, index + 1, way, way.ends) for index, way in enumerate(bare))


def _area(papers: Papers, name: str, one: Seen, level: str) -> SeenArea:
    region, height = (one.low, "lower") if level == LOW else (one.high, "upper")
    pieces = tuple(tuple(tuple((corner.x, corner.y) for corner in ring) for ring in piece) for piece in region.parts())
    return SeenArea(name, height, (one.view.at.x, one.view.at.y), pieces,
                    f"{name}: {amount(region.area_m2, 'm²')} at {papers.profile.limits[level].shown()}")


def _gap(papers: Papers, number: int, way: Way, ends: tuple[At, At]) -> GapLine:
    reached = None if isinstance(way.reach, Unknown) else way.reach.reached
    words = {None: "height not known", True: "within reach", False: "out of reach"}[reached]
    name = opening_name(papers, way.opening)
    return GapLine(number, name, tuple(ends[0]), tuple(ends[1]), reached, f"{number}: {name}, no detection, {words}")
