"""Which openings to the open air can be reached: from the ground, or from a roof that somebody can stand on?"""
from dataclasses import dataclass

from generator.calc.givens import lacking, of_profile
from generator.calc.unknown import Unknown
from generator.calc.working import Given
from generator.geometry.house import House, floor_heights
from generator.geometry.openings import stands
from generator.geometry.shapes import Place, apart_m, area, can_stand
from generator.model.papers import Papers
from generator.model.premises import OUTSIDE, Opening, Roof

HEIGHT, STAND, SIDE = "reach_height_m", "reach_stand_m", "reach_side_m"
DOORS = ("door", "garage-door")
GROUND = "the ground"


@dataclass(frozen=True)
class Reach:
    """How an opening is reached: from where (the ground, or a roof by its key), and how high above that its lower edge is.

    `reached` says whether that is within the limit; for one out of reach it is the nearest way to reach it.
    """

    opening: str
    origin: str
    above_m: float
    limit: Given
    height_from: str

    @property
    def reached(self) -> bool:
        """Whether it is within reach."""
        return self.above_m <= self.limit.value + 1e-9


def openings_out(papers: Papers) -> dict[str, tuple[str, Opening, str]]:
    """Every opening to the open air: its storey, itself and the room behind it."""
    return {key: (storey, one, next((room for room in one.wall if room != OUTSIDE), OUTSIDE))
            for key, (storey, one) in papers.openings().items() if OUTSIDE in one.wall}


def reach_of(papers: Papers, house: House, key: str) -> Reach | Unknown:
    """The easiest way in which one opening is reached."""
    storey, one, room = openings_out(papers)[key]
    limits = [of_profile(papers, name, "h") for name in (HEIGHT, STAND, SIDE)]
    reason = lacking(*limits)
    if reason:
        return reason
    height, stand, side = limits
    level = floor_heights(papers.job.premises)[storey]
    place = f"premises.storeys.{storey}"
    if level is None:
        return Unknown(f"{place} gives no level_m, so it is not known how high {key} is")
    bottom, origin = level + (one.sill_m or 0.0), f"job.{place}.openings.{key}"
    if one.sill_m is None and one.kind not in DOORS:
        # On the ground floor the sill of a window is below the ceiling, however high: it is within reach.
        if level > 0:
            return Unknown(f"{place}.openings.{key} gives no sill_m, so it is not known how high it is")
        origin = f"job.{place}: the floor, no sill_m is given"
    ground = level if papers.job.premises.storeys[storey].outbuilding else 0.0
    found = [Reach(key, GROUND, bottom - ground, height, origin)]
    at = stands(house, key, room)
    ends = (at.start, at.end) if at else (Place(*one.at_m),) if one.at_m else ()
    top = at.top_m if at else bottom
    found += [Reach(key, name, max(0.0, bottom - roof.height_m), height, f"{origin}, and job.premises.roofs.{name}.height_m")
              for name, roof in papers.job.premises.roofs.items() if ends and _beside(roof, stand.value, side.value, top, ends)]
    return min(found, key=lambda way: (not way.reached, way.origin != GROUND, way.above_m))


def roofs_beside(papers: Papers, at: Place, stand_m: float, side_m: float) -> list[tuple[str, Roof]]:
    """The roofs that somebody can stand on from which a point of the plan is within reach to the side."""
    return [(name, roof) for name, roof in papers.job.premises.roofs.items() if _beside(roof, stand_m, side_m, float("inf"), (at,))]


def _beside(roof: Roof, stand_m: float, side_m: float, top_m: float, ends: tuple[Place, ...]) -> bool:
    shape = area(roof)
    return bool(roof.reached and shape and can_stand(shape, stand_m) and roof.height_m <= top_m and apart_m(shape, *ends) <= side_m + 1e-9)
