"""Where do smoke, heat and carbon monoxide units hang, beside the figures that are published? A reminder: the local fire code decides, nothing is judged.

Each row is a measure of the plan: straight along the floor, but for the way from a bedroom's door, which is walked. Rooms reach to the line of their
walls, so that a wall's face is nearer by half a wall.
"""
import math
from collections.abc import Iterator
from dataclasses import dataclass

from generator.calc.house.spots import spot_of
from generator.calc.unknown import Unknown
from generator.calc.working import Given, of_limit
from generator.geometry.floors import WALKED
from generator.geometry.house import House
from generator.geometry.routes import Goal, Stand, Walk, routes, walk_of
from generator.geometry.shapes import Place, Spot, apart_m, area, corners_of
from generator.model.papers import Papers
from generator.model.premises import Storey

# The figures of a profile beside which these units stand; by none of them are they judged.
LIMITS = ("smoke_cooking_m", "smoke_hush_m", "smoke_kitchen_door_m", "smoke_wall_mm", "smoke_ceiling_mm", "smoke_element_low_mm",
          "smoke_element_high_mm", "smoke_room_m", "smoke_spacing_m", "smoke_low_f", "smoke_high_f", "heat_room_m", "co_near_m", "co_far_m",
          "co_wall_mm", "co_ceiling_mm", "co_low_c", "co_high_c", "smoke_bedroom_door_m")
KINDS = ("smoke", "heat", "carbon-monoxide")
# What hangs no lower than this below a ceiling hangs on it.
ON_CEILING_M = 0.05
BREATHING = "where people sleep, near the height at which they breathe"
MM, FAHRENHEIT = "mm", "°F"


@dataclass(frozen=True)
class Beside:
    """A measure and the published figures that it stands beside; what is measured reads on from the number. None are figures that the profile
    has not."""

    measured: Given
    published: tuple[Given, ...]


@dataclass(frozen=True)
class FirePlace:
    """A unit with its measures, or why there is none."""

    unit: str
    kind: str
    room: str
    beside: tuple[Beside, ...]
    lacks: str = ""


@dataclass(frozen=True)
class FromBedroom:
    """A bedroom: the smoke units in it, or the nearest one outside and the way to it from the door, with the published figure."""

    bedroom: str
    inside: tuple[str, ...]
    nearest: str
    way: Beside | None


def fire_places(papers: Papers, house: House) -> tuple[FirePlace, ...]:
    """Every such unit."""
    return tuple(_place(papers, house, name) for name in papers.job.devices if papers.sheet_of[name].kind in KINDS)


def _place(papers: Papers, house: House, name: str) -> FirePlace:
    kind, room = papers.sheet_of[name].kind, papers.room_of(papers.job.devices[name]) or ""
    spot, storey = spot_of(papers, house, name), papers.storey_of(room)
    if isinstance(spot, Unknown) or storey is None or room not in house.rooms:
        return FirePlace(name, kind, room, (), spot.reason if isinstance(spot, Unknown) else f"{name} hangs outside the rooms of the plan")
    at, below = Place(spot.x, spot.y), _below_ceiling(papers, house, name, room)
    rows = {"smoke": _smoke, "heat": _heat, "carbon-monoxide": _co}[kind](papers, house, name, storey, room, at, below)
    return FirePlace(name, kind, room, tuple(one for one in rows if one.published))


def _smoke(papers: Papers, house: House, name: str, storey: Storey, room: str, at: Place, below: float | None) -> Iterator[Beside]:
    cooks = {key for key, one in storey.rooms.items() if one.cooking}
    for metres, thing in _warm(storey, at, cooks)[:1]:
        yield _row(papers, f"along the floor from {thing}", metres, "smoke_cooking_m", "smoke_hush_m")
    wet = {key for key, one in storey.rooms.items() if one.bathroom}
    doors = [(math.dist(one.at_m, at), key) for key, one in storey.openings.items() if one.kind in WALKED and one.at_m and (cooks | wet) & set(one.wall)]
    if doors:
        yield _row(papers, f"from {min(doors)[1]}", min(doors)[0], "smoke_kitchen_door_m")
    yield from _hung(papers, house, room, at, below, ("smoke_wall_mm",), ("smoke_ceiling_mm", "smoke_element_low_mm", "smoke_element_high_mm"))
    yield _row(papers, f"to the farthest point of {room}", _farthest(house, room, at), "smoke_room_m")
    others = [(math.dist(at, other[:2]), one) for one, other in _smokes(papers, house).items()
              if one != name and papers.storey_of(papers.room_of(papers.job.devices[one]) or "") is storey]
    if others:
        yield _row(papers, f"from {min(others)[1]}", min(others)[0], "smoke_spacing_m")
    yield from _climate(papers, storey, room, "smoke_low_f", "smoke_high_f")


def _heat(papers: Papers, house: House, name: str, storey: Storey, room: str, at: Place, below: float | None) -> Iterator[Beside]:
    yield _row(papers, f"to the farthest point of {room}", _farthest(house, room, at), "heat_room_m")


def _co(papers: Papers, house: House, name: str, storey: Storey, room: str, at: Place, below: float | None) -> Iterator[Beside]:
    # Which of them burns fuel no plan says.
    for metres, thing in _warm(storey, at, {room}):
        yield _row(papers, f"along the floor from {thing}", metres, "co_near_m", "co_far_m")
    yield from _hung(papers, house, room, at, below, ("co_wall_mm",), ("co_ceiling_mm",))
    source = papers.profile.source_of("co_near_m") if "co_near_m" in papers.profile.limits else None
    height = papers.job.devices[name].height_m
    if storey.rooms[room].sleeping and source and height is not None:
        yield Beside(Given("above the floor", "h", height, "m", "the plan"),
                     (Given(BREATHING, "h", height, "", source.cited(), source.known.value),))
    yield from _climate(papers, storey, room, "co_low_c", "co_high_c")


def _hung(papers: Papers, house: House, room: str, at: Place, below: float | None, on_ceiling: tuple[str, ...], on_wall: tuple[str, ...]) -> Iterator[Beside]:
    """On a ceiling how far it is from the walls, on a wall how far below the ceiling; nothing where the height of the ceiling is not known."""
    if below is None:
        return
    if below <= ON_CEILING_M:
        walls = house.rooms[room].exterior
        yield _row(papers, "from the nearest wall, on the ceiling", apart_m(walls, at), *on_ceiling)
    else:
        yield _row(papers, "below the ceiling", below, *on_wall)


def _climate(papers: Papers, storey: Storey, room: str, low: str, high: str) -> Iterator[Beside]:
    for value, key, word in ((storey.rooms[room].coldest_c, low, "at the coldest"), (storey.rooms[room].warmest_c, high, "at the warmest")):
        if value is not None:
            limit = of_limit(papers.profile, key, "T")
            shown = value * 9 / 5 + 32 if limit and limit.unit == FAHRENHEIT else value
            yield Beside(Given(word, "T", shown, limit.unit if limit else "°C", f"job: {room}"), (limit,) if limit else ())


def _row(papers: Papers, what: str, metres: float, *keys: str) -> Beside:
    published = tuple(one for key in keys if (one := of_limit(papers.profile, key, "d")))
    small = bool(published) and published[0].unit == MM
    return Beside(Given(what, "d", metres * 1000 if small else metres, MM if small else "m", "the plan"), published)


def _warm(storey: Storey, at: Place, rooms: set[str]) -> list[tuple[float, str]]:
    """What gets warm in some rooms, the nearest first."""
    return sorted((apart_m(shape, at), key) for key, thing in storey.furniture.items() if thing.heat and thing.room in rooms and (shape := area(thing)))


def _below_ceiling(papers: Papers, house: House, name: str, room: str) -> float | None:
    height, ceiling = papers.job.devices[name].height_m, house.ceiling_m.get(house.storey_of(room))
    return max(0.0, ceiling - height) if ceiling is not None and height is not None else None


def _farthest(house: House, room: str, at: Place) -> float:
    return max(math.dist(at, corner) for corner in corners_of(house.rooms[room]))


def _smokes(papers: Papers, house: House) -> dict[str, Spot]:
    found = {name: spot_of(papers, house, name) for name in papers.job.devices if papers.sheet_of[name].kind == "smoke"}
    return {name: one for name, one in found.items() if not isinstance(one, Unknown)}


def from_bedrooms(papers: Papers, house: House) -> tuple[FromBedroom, ...]:
    """Every bedroom of the plan, where the profile has a figure for it and a smoke unit has a place."""
    smokes, limit = _smokes(papers, house), "smoke_bedroom_door_m"
    if not smokes or limit not in papers.profile.limits:
        return ()
    walk = walk_of(house, papers.job.premises)
    return tuple(_bedroom(papers, walk, smokes, room, storey, limit) for room, (storey, one) in papers.rooms().items()
                 if one.sleeping and room in house.rooms and storey in walk.floors)


def _bedroom(papers: Papers, walk: Walk, smokes: dict[str, Spot], room: str, storey: str, limit: str) -> FromBedroom:
    room_of = {name: papers.room_of(papers.job.devices[name]) or "" for name in smokes}
    inside = tuple(name for name in smokes if room_of[name] == room)
    floor_of = {key: floor for floor in walk.floors.values() for key in floor.rooms}
    goals = {name: Goal.at(floor_of[room_of[name]].storey, place) for name, spot in smokes.items()
             if room_of[name] in floor_of and (place := floor_of[room_of[name]].nearest(room_of[name], Place(spot.x, spot.y)))}
    doors = [one for one in walk.floors[storey].passages.values() if room in one.places and one.before is None]
    ways = [(route.flat_m + route.slope_m, name) for door in doors for name, route in routes(walk, Stand(storey, door.middle), goals).items()]
    if inside or not ways:
        return FromBedroom(room, inside, "", None)
    metres, name = min(ways)
    return FromBedroom(room, (), name, _row(papers, "from its door, as one walks", metres, limit))
