"""What does nothing detect: openings to the open air that nothing watches or sees, and rooms in which nothing is seen?

A movement detector counts for an opening if it sees the floor one step inside it. Where its view is not known, one in the room counts: then
nothing better is known, and the page says so.
"""
from collections.abc import Mapping
from dataclasses import dataclass, replace

from generator.calc.givens import of_profile
from generator.calc.house.reach import Reach, openings_out, reach_of
from generator.calc.house.views import HIGH, Seen
from generator.calc.unknown import Unknown
from generator.geometry.house import House, house_of
from generator.geometry.openings import stands
from generator.geometry.shapes import Place, corners_of
from generator.geometry.sight import Turning
from generator.model.job import watched
from generator.model.papers import Papers

STEP = "step_inside_m"
# Kinds of detector that watch the panes of their room without being told which.
PANES = "glass-break"
# A detector is turned by so many degrees at a time, up to half a turn.
TURN_DEG, HALF_TURN_DEG = 5, 180


@dataclass(frozen=True)
class Way:
    """An opening to the open air: how it is reached, the units that watch it, the detectors that see whoever came in by it.

    `by_room` are detectors of the room of which it is not known what they see; `ends` are where it begins and ends in the plan, if that says so.
    """

    opening: str
    room: str
    reach: Reach | Unknown
    watched_by: tuple[str, ...]
    seen_by: tuple[str, ...]
    by_room: tuple[str, ...]
    storey: str
    ends: tuple[Place, Place] | None

    @property
    def bare(self) -> bool:
        """Whether nothing detects who comes in by it."""
        return not (self.watched_by or self.seen_by or self.by_room)


@dataclass(frozen=True)
class RoomSeen:
    """A room: the detectors that see any of it, the share of its floor that they see at both heights, the units on its openings.

    Shares are None where the plan gives the room no shape; `corners` are those of its shape in turn.
    """

    room: str
    seen_by: tuple[str, ...]
    low_percent: float | None
    high_percent: float | None
    on_openings: tuple[str, ...]
    unknown: tuple[str, ...]
    corners: tuple[Place, ...] = ()

    @property
    def bare(self) -> bool:
        """Whether nothing detects anybody in it."""
        return not (self.seen_by or self.on_openings or self.unknown)


def ways_in(papers: Papers, house: House, views: Mapping[str, Seen | Unknown]) -> tuple[Way, ...]:
    """Every opening to the open air."""
    return tuple(_way(papers, house, views, key, room) for key, (_, _, room) in openings_out(papers).items())


def _way(papers: Papers, house: House, views: Mapping[str, Seen | Unknown], key: str, room: str) -> Way:
    devices, step = papers.job.devices, of_profile(papers, STEP, "s")
    on = [name for name, one in devices.items() if key in watched(one)]
    glazed = papers.openings()[key][1].glazed
    on += [name for name, one in devices.items() if name not in on and papers.sheet_of[name].kind == PANES and papers.room_of(one) == room and glazed]
    at = stands(house, key, room)
    here, blind = [], []
    for name, view in views.items():
        if at is None or isinstance(view, Unknown) or isinstance(step, Unknown):
            blind += [name] if papers.room_of(devices[name]) == room else []
        elif view.view.storey == at.storey and any(region.holds(*at.inside(step.value)) for region in (view.high, view.low)):
            here.append(name)
    return Way(key, room, reach_of(papers, house, key), tuple(on), tuple(here), tuple(blind), papers.openings()[key][0],
               (at.start, at.end) if at else None)


def turned_to_see(papers: Papers, views: Mapping[str, Seen | Unknown], way: Way) -> tuple[str, float] | None:
    """A movement detector of the room and the heading nearest to its own from which it sees one step inside an opening; None if none does."""
    house = house_of(papers.job.premises)
    at, step, height = stands(house, way.opening, way.room), of_profile(papers, STEP, "s"), of_profile(papers, HIGH, "h")
    if at is None or isinstance(step, Unknown) or isinstance(height, Unknown):
        return None
    turning, inside = Turning(house, papers.job.premises), at.inside(step.value)
    for name, one in views.items():
        if isinstance(one, Unknown) or papers.room_of(papers.job.devices[name]) != way.room:
            continue
        for turn in range(TURN_DEG, HALF_TURN_DEG + 1, TURN_DEG):
            for heading in ((one.view.faces_deg + turn) % 360, (one.view.faces_deg - turn) % 360):
                if turning.seen(replace(one.view, faces_deg=heading), height.value).holds(*inside):
                    return name, heading
    return None


def rooms_seen(papers: Papers, house: House, views: Mapping[str, Seen | Unknown]) -> tuple[RoomSeen, ...]:
    """Every room in walking order."""
    return tuple(_room(papers, house, views, room, storey) for room, (storey, _) in papers.rooms().items())


def _room(papers: Papers, house: House, views: Mapping[str, Seen | Unknown], room: str, storey: str) -> RoomSeen:
    known = {name: one for name, one in views.items() if isinstance(one, Seen) and one.view.storey == storey}
    blind = tuple(name for name, one in views.items() if isinstance(one, Unknown) and papers.room_of(papers.job.devices[name]) == room)
    on = tuple(name for name, one in papers.job.devices.items() if any(room in papers.openings()[key][1].wall for key in watched(one)))
    floor = house.rooms.get(room)
    if floor is None:
        return RoomSeen(room, (), None, None, on, blind)
    here = {name: one for name, one in known.items() if one.high.shared_m2(floor) > 0.01 or one.low.shared_m2(floor) > 0.01}
    low, high = (_percent([getattr(one, level) for one in here.values()], floor) for level in ("low", "high"))
    return RoomSeen(room, tuple(here), low, high, on, blind, corners_of(floor))


def _percent(regions: list, floor) -> float:
    whole = None
    for one in regions:
        whole = one if whole is None else whole.with_(one)
    return 100 * whole.shared_m2(floor) / floor.area if whole else 0.0
