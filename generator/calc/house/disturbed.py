"""What in a detector's view can set it off though nobody came: panes to the open air, warm things, and what an animal can get onto?

Each at the height of its own middle, every door shut: glass and heat lie in the room. And how it could look past them.
"""
import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Literal

from generator.calc.givens import known, of_profile
from generator.calc.house.reach import openings_out
from generator.calc.house.views import HIGH, Seen
from generator.calc.unknown import Unknown
from generator.geometry.house import House, house_of
from generator.geometry.openings import inner_corners, stands
from generator.geometry.shapes import Place, Spot, apart_m, area
from generator.geometry.sight import Turning, View, heading_deg
from generator.model.papers import Papers

SUN_FROM, SUN_TO = "sun_from_deg", "sun_to_deg"
# By how much it is turned at a time, and at most: in its place, and off the middle of the room in another corner. How far off both walls a
# unit hangs in a corner.
TURN_DEG, MOST_TURN_DEG, CORNER_TURN_DEG, OFF_M = 5, 90, 30, 0.1
# Of the floor that is seen now, so much must still be seen.
ENOUGH = 0.9
Kind = Literal["window", "heat", "climbed"]


@dataclass(frozen=True)
class InView:
    """One thing in view: how far away; of a window the compass bearing that it faces, None if the plan does not say, and whether the sun
    comes in by it (None if not known); of a thing the height of its upper edge above the floor."""

    kind: Kind
    name: str
    away_m: float
    bearing_deg: float | None = None
    sun: bool | None = None
    top_m: float | None = None


@dataclass(frozen=True)
class Better:
    """Another heading, or another place, from which none of them is in view; `share` is how much floor it then sees of
    what it sees now."""

    at: Place | None
    faces_deg: float
    share: float

    @property
    def percent(self) -> float:
        """That share in percent."""
        return 100 * self.share


def in_view(papers: Papers, house: House, view: View, room: str, turning: Turning | None = None) -> tuple[InView, ...]:
    """All that could disturb a detector, the windows first. `turning` keeps what is seen where many headings are asked for."""
    turning = turning or Turning(house, papers.job.premises)
    found = [one for key, (_, opening, behind) in openings_out(papers).items()
             if opening.glazed and behind == room and (one := _window(papers, house, view, key, room, turning))]
    storey = papers.job.premises.storeys[view.storey]
    for name, thing in storey.furniture.items():
        shape, kind = area(thing), "heat" if thing.heat else "climbed"
        if shape is None or thing.room != room or not (thing.heat or thing.climbed):
            continue
        middle = ((thing.base_m or 0.0) + thing.height_m) / 2 if thing.heat else thing.height_m
        if _inside(view, shape) and turning.seen(view, middle).touches(shape):
            found.append(InView(kind, name, apart_m(shape, Place(view.at.x, view.at.y)), top_m=thing.height_m))
    return tuple(found)


def _inside(view: View, shape) -> bool:
    return apart_m(shape, Place(view.at.x, view.at.y)) <= view.range_m


def _window(papers: Papers, house: House, view: View, key: str, room: str, turning: Turning) -> InView | None:
    at = stands(house, key, room)
    if at is None or at.storey != view.storey:
        return None
    middle = (at.bottom_m + at.top_m) / 2 - house.floor_m[at.storey]
    if not turning.seen(view, middle).meets((at.start, at.end)):
        return None
    front, ends = papers.job.premises.front_deg, known([of_profile(papers, name, "b") for name in (SUN_FROM, SUN_TO)])
    bearing = None if front is None else (front + 180 + at.out_deg) % 360
    sun = None if bearing is None or len(ends) < 2 else ends[0].value <= bearing <= ends[1].value
    return InView("window", key, math.dist(at.middle, view.at[:2]), bearing, sun)


def better(papers: Papers, name: str, now: Seen, wanted: tuple[Kind, ...]) -> Better | None:
    """The nearest change after which nothing of those kinds is in view and at least nine tenths as much floor is seen: turned, else in another
    corner."""
    house, room, height = house_of(papers.job.premises), papers.room_of(papers.job.devices[name]) or "", of_profile(papers, HIGH, "h")
    if isinstance(height, Unknown) or not now.high.area_m2:
        return None

    turning = Turning(house, papers.job.premises)

    def clear(view: View) -> float:
        if any(one.kind in wanted for one in in_view(papers, house, view, room, turning)):
            return 0.0
        return turning.seen(view, height.value).area_m2 / now.high.area_m2

    def look(at: Spot, heading: float) -> float:
        return clear(replace(now.view, at=at, faces_deg=heading % 360))

    for turn in range(TURN_DEG, MOST_TURN_DEG + 1, TURN_DEG):
        for heading in (now.view.faces_deg + turn, now.view.faces_deg - turn):
            if (share := look(now.view.at, heading)) >= ENOUGH:
                return Better(None, heading % 360, share)
    middle = house.rooms[room].centroid
    for at in sorted(inner_corners(house.rooms[room], OFF_M), key=lambda at: math.dist(at, now.view.at[:2])):
        across = round(heading_deg(at, Place(middle.x, middle.y)) / TURN_DEG) * TURN_DEG
        for turn in sorted(range(-CORNER_TURN_DEG, CORNER_TURN_DEG + 1, TURN_DEG), key=abs):
            if (share := look(now.view.at._replace(x=at.x, y=at.y), across + turn)) >= ENOUGH:
                return Better(at, (across + turn) % 360, share)
    return None


def disturbances(papers: Papers, house: House, views: Mapping[str, Seen | Unknown]) -> dict[str, tuple[InView, ...]]:
    """What is in view of each detector whose view is known."""
    return {name: in_view(papers, house, one.view, papers.room_of(papers.job.devices[name]) or "")
            for name, one in views.items() if isinstance(one, Seen)}
