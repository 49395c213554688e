"""How far do smoke, heat and carbon monoxide units hang from what warms or cooks? For a reminder only: the local fire code decides."""
import math
from dataclasses import dataclass

from generator.calc.spots import spot_of
from generator.calc.unknown import Unknown
from generator.calc.working import Given, of_limit
from generator.geometry.house import House
from generator.geometry.shapes import Place, apart_m, area
from generator.model.papers import Papers

KINDS = ("smoke", "heat", "carbon-monoxide")


@dataclass(frozen=True)
class FirePlace:
    """A unit and the nearest warm thing that its siting looks at, along the floor: of a smoke unit one of a room with cooking on its storey, of a
    carbon monoxide unit one of its own room. `least` and `most` are what the profile reminds of, where it has them."""

    unit: str
    kind: str
    room: str
    thing: str
    away_m: float | None
    least: Given | None
    most: Given | None


def fire_places(papers: Papers, house: House) -> tuple[FirePlace, ...]:
    """Every such unit; `away_m` is None where the plan does not say."""
    return tuple(_place(papers, house, name) for name in papers.job.devices if papers.sheet_of[name].kind in KINDS)


def _place(papers: Papers, house: House, name: str) -> FirePlace:
    kind, room = papers.sheet_of[name].kind, papers.room_of(papers.job.devices[name]) or ""
    ends = {"smoke": ("smoke_cooking_m", ""), "carbon-monoxide": ("co_near_m", "co_far_m")}.get(kind, ("", ""))
    least, most = (of_limit(papers.profile, end, "d") if end else None for end in ends)
    spot, storey = spot_of(papers, house, name), papers.storey_of(room)
    near: tuple[float, str] = (math.inf, "")
    for key, thing in (storey.furniture if storey and not isinstance(spot, Unknown) else {}).items():
        shape = area(thing)
        if shape and thing.heat and (thing.room == room if kind == "carbon-monoxide" else storey.rooms[thing.room].cooking):
            near = min(near, (apart_m(shape, Place(spot.x, spot.y)), key))
    return FirePlace(name, kind, room, near[1], near[0] if near[1] else None, least, most)
