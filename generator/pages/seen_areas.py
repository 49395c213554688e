"""What a drawing of each storey shows of what is seen, in metres of the plan: the areas of detectors, and the openings that nothing detects.

A place is (to the right, away from the front), as the job file writes it. `says` are the words of a part, for whoever cannot see it.
"""
from dataclasses import dataclass

from generator.calc.gaps import Way
from generator.calc.results import Results
from generator.calc.unknown import Unknown
from generator.calc.views import HIGH, LOW, Seen
from generator.model.papers import Papers
from generator.procedure.handling import opening_name, room_name
from generator.terms.show import amount, capital, count, sentence_list

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


@dataclass(frozen=True)
class RoomLine:
    """A room by its corners in turn."""

    name: str
    corners: Ring


@dataclass(frozen=True)
class SeenOnStorey:
    """Everything of one storey; of the areas, those at the lower height first."""

    storey: str
    title: str
    says: str
    rooms: tuple[RoomLine, ...]
    areas: tuple[SeenArea, ...]
    gaps: tuple[GapLine, ...]

    @property
    def numbered(self) -> tuple[str, ...]:
        """The gaps by their numbers, a line each."""
        return tuple(one.says for one in self.gaps)


def seen_on_storeys(papers: Papers, results: Results) -> tuple[SeenOnStorey, ...]:
    """Every storey with rooms in the plan on which something is seen, or an opening is not."""
    return tuple(one for key in papers.job.premises.storeys if (one := _storey(papers, results, key)).rooms and (one.areas or one.gaps))


def _storey(papers: Papers, results: Results, key: str) -> SeenOnStorey:
    storey = papers.job.premises.storeys[key]
    rooms = tuple(RoomLine(room_name(papers, one.room), tuple(map(tuple, one.corners))) for one in results.coverage.rooms
                  if one.corners and one.room in storey.rooms)
    known = {name: one for name, one in results.coverage.views.items() if isinstance(one, Seen) and one.view.storey == key}
    areas = tuple(_area(papers, name, one, level) for level in (LOW, HIGH) for name, one in known.items())
    bare = [way for way in results.coverage.ways if way.bare and way.ends and way.storey == key]
    gaps = tuple(_gap(papers, index + 1, way, way.ends) for index, way in enumerate(bare))
    title = capital(storey.name or key.replace("-", " "))
    seen = sentence_list([f"{name} sees {amount(one.high.area_m2, 'm²')}" for name, one in known.items()]) or "no detector sees anything"
    says = f"{title}: {seen}; {count(len(gaps), 'opening')} without detection"
    return SeenOnStorey(key, title, f"{says}{': ' + sentence_list([gap.opening for gap in gaps]) if gaps else ''}.", rooms, areas, gaps)


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
