"""Which storeys stand on one drawing, and what is on it: taken from the house that the links are worked out in, and from nothing else."""
from collections.abc import Mapping, Sequence
from dataclasses import dataclass


from generator.calc.house.reach import STAND
from generator.calc.house.spots import spot_of
from generator.calc.unknown import Unknown
from generator.geometry.drawn import corners, middle
from generator.geometry.house import House, house_of
from generator.geometry.shapes import area, can_stand, holds, Polygon, Spot
from generator.geometry.walls import Hole, Wall
from generator.model.papers import Papers
from generator.model.premises import OUTSIDE, Furniture, Stairs
from generator.pages.drawing.views import At, OpeningLine, RoomArea, StairsLine, ThingArea, WallLine
from generator.procedure.handling import opening_name, room_name
from generator.terms.show import figure, metres, sentence_list

# An outbuilding that makes the drawing longer than so many times the house has one of its own: else the house could not be read.
LONGEST = 2.5
# How far beside a wall is looked for the room that lies there.
BESIDE_M = 0.05


@dataclass(frozen=True)
class Drawn:
    """The house as it is drawn: storeys by drawing, each named by its first; constructions by their place in the key; places of units."""

    house: House
    sheets: Mapping[str, tuple[str, ...]]
    looks: Mapping[str, int]
    thickness_m: Mapping[str, float]
    spots: Mapping[str, Spot | Unknown]

    def sheet_of(self, storey: str) -> str:
        """The drawing on which a storey stands."""
        return next(name for name, storeys in self.sheets.items() if storey in storeys)


def drawn_house(papers: Papers, names: Sequence[str]) -> Drawn:
    """What is drawn of a job. Of two constructions the one met first on the plan comes first in the key."""
    house = house_of(papers.job.premises)
    built = dict.fromkeys(one.wall.construction for one in house.walls if one.wall.construction)
    every = papers.constructions()
    thickness = {name: sum(layer.thickness_mm for layer in every[name].layers) / 1000 for name in built if name in every}
    return Drawn(house, _sheets(papers, house), {name: index for index, name in enumerate(built)}, thickness,
                 {name: spot_of(papers, house, name) for name in names})


def storey_of_unit(papers: Papers, drawn: Drawn, name: str) -> str:
    """The storey on whose drawing a unit with a place stands; one in the open air on that whose floor is next below it."""
    own = papers.job.control_unit
    unit = own if name == own.id else papers.job.devices[name]
    watched = papers.openings().get(getattr(unit, "protects", None) or "")
    found = papers.rooms().get(unit.room or "") or watched
    if found:
        return found[0]
    floor, spot = drawn.house.floor_m, drawn.spots[name]
    house = [one for one in drawn.sheets if not papers.job.premises.storeys[one].outbuilding] or list(drawn.sheets)
    return max((one for one in house if floor[one] <= spot.z), key=lambda one: floor[one], default=min(house, key=lambda one: floor[one]))


def _sheets(papers: Papers, house: House) -> dict[str, tuple[str, ...]]:
    """An outbuilding stands on the drawing of the storey that lies nearest to it in height, unless that would grow too long, or another
    storey of an outbuilding is there already."""
    storeys = papers.job.premises.storeys
    drawn = {key: [one for room in storey.rooms if room in house.rooms for one in corners(house.rooms[room])] for key, storey in storeys.items()}
    drawn = {key: found for key, found in drawn.items() if found}
    sheets = {key: (key,) for key in drawn if not storeys[key].outbuilding}
    for key in drawn:
        if storeys[key].outbuilding:
            near = min((one for one in sheets if not storeys[one].outbuilding), default=None,
                       key=lambda one: abs(house.floor_m[one] - house.floor_m[key]))
            if near and _fits(drawn, sheets[near], key):
                sheets[near] = (*sheets[near], key)
            else:
                sheets[key] = (key,)
    return {key: sheets[key] for key in storeys if key in sheets}


def _fits(drawn: Mapping[str, list[At]], there: tuple[str, ...], key: str) -> bool:
    main, *others = there
    together = _box([one for name in (*there, key) for one in drawn[name]])
    clear = all(_apart(_box(drawn[one]), _box(drawn[key])) for one in others)
    return clear and max(_sides(together)) <= LONGEST * max(_sides(_box(drawn[main])))


def _box(points: Sequence[At]) -> tuple[float, float, float, float]:
    xs, ys = [one[0] for one in points], [one[1] for one in points]
    return min(xs), min(ys), max(xs), max(ys)


def _sides(box: tuple[float, float, float, float]) -> tuple[float, float]:
    return box[2] - box[0], box[3] - box[1]


def _apart(one: tuple[float, float, float, float], other: tuple[float, float, float, float]) -> bool:
    return one[2] < other[0] or other[2] < one[0] or one[3] < other[1] or other[3] < one[1]


def rooms_of(papers: Papers, drawn: Drawn, storeys: Sequence[str]) -> tuple[RoomArea, ...]:
    """The rooms of a drawing that have a shape, in walking order."""
    found = [room for key in storeys for room in papers.job.premises.storeys[key].rooms if room in drawn.house.rooms]
    return tuple(RoomArea(room_name(papers, room), corners(drawn.house.rooms[room]), middle(drawn.house.rooms[room]), room)
                 for room in found)


def walls_of_sheet(drawn: Drawn, storeys: Sequence[str]) -> list[Wall]:
    """The walls of a drawing, in the order of the plan."""
    return [one.wall for one in drawn.house.walls if one.wall.storey in storeys]


def wall_lines(papers: Papers, drawn: Drawn, walls: Sequence[Wall]) -> tuple[WallLine, ...]:
    """Walls as they are drawn, each once."""
    return tuple(WallLine(f"{_sides_in_words(papers, one)}: {one.construction or 'construction not given'}, {figure(one.length_m, 'm', 3)} long",
                          one.start, one.end, drawn.looks.get(one.construction or ""), drawn.thickness_m.get(one.construction or ""))
                 for one in walls)


def _sides_in_words(papers: Papers, wall: Wall) -> str:
    if wall.own:
        return f"wall {wall.places[0]}"
    return f"wall between {sentence_list([room_name(papers, one) for one in wall.places])}"


def opening_lines(papers: Papers, drawn: Drawn, walls: Sequence[Wall]) -> tuple[OpeningLine, ...]:
    """Openings of which place and size are known, as they stand in these walls."""
    return tuple(_opening(papers, drawn, wall, hole) for wall in walls for hole in wall.holes)


def _opening(papers: Papers, drawn: Drawn, wall: Wall, hole: Hole) -> OpeningLine:
    one = papers.openings()[hole.opening][1]
    start, end = _along(wall, hole.start_m), _along(wall, hole.end_m)
    return OpeningLine(opening_words(papers, hole.opening), one.kind, start, end, _inward(drawn, one.wall, start, end) if one.entry else None)


def opening_words(papers: Papers, key: str) -> str:
    """An opening in words: what it is, between which places, how large, of what."""
    one = papers.openings()[key][1]
    sizes = [f"{metres(one.width_m)} wide" if one.width_m else "", f"{metres(one.height_m)} high" if one.height_m else "",
             f"sill at {metres(one.sill_m)}" if one.sill_m else "", f"leaf {one.leaf}" if one.leaf else "leaf not given"]
    way_in = "way in, " if one.entry else ""
    return f"{opening_name(papers, key)}: {way_in}{one.kind.replace('-', ' ')}, {' to '.join(room_name(papers, at) for at in one.wall)}; " \
           f"{', '.join(filter(None, sizes))}"


def _along(wall: Wall, metres: float) -> At:
    share = metres / wall.length_m
    return wall.start.x + (wall.end.x - wall.start.x) * share, wall.start.y + (wall.end.y - wall.start.y) * share


def _inward(drawn: Drawn, places: Sequence[str], start: At, end: At) -> At:
    """The direction in which one comes in: away from the open air, or of two rooms into the second."""
    within = next((one for one in places if one != OUTSIDE and OUTSIDE in places), places[-1])
    (dx, dy), length = (end[0] - start[0], end[1] - start[1]), ((end[0] - start[0]) ** 2 + (end[1] - start[1]) ** 2) ** 0.5
    across = (-dy / length, dx / length)
    x, y = (start[0] + end[0]) / 2 + across[0] * BESIDE_M, (start[1] + end[1]) / 2 + across[1] * BESIDE_M
    return across if holds(drawn.house.rooms[within], x, y) else (-across[0], -across[1])


def things_of(papers: Papers, drawn: Drawn, storeys: Sequence[str]) -> tuple[ThingArea, ...]:
    """What stands in the rooms of a drawing, then the roofs that lie nearest to its floor in height."""
    found = [ThingArea(_plain(name), thing_words(papers, name, one), corners(shape), middle(shape),
                       tuple(mark for mark, there in (("metal", one.metal), ("heat", one.heat)) if there))
             for key in storeys for name, one in papers.job.premises.storeys[key].furniture.items() if (shape := area(one))]
    return (*found, *_roofs(papers, drawn, storeys))


def _roofs(papers: Papers, drawn: Drawn, storeys: Sequence[str]):
    houses = [one for one in drawn.sheets if not papers.job.premises.storeys[one].outbuilding] or list(drawn.sheets)
    for name, one in papers.job.premises.roofs.items():
        shape = area(one)
        if shape and min(houses, key=lambda key: abs(drawn.house.floor_m[key] - one.height_m)) in storeys:
            yield ThingArea(_plain(name), f"{_plain(name)}: {metres(one.height_m)} above the ground, {_stood_on(papers, shape)}; "
                                          f"{'can be reached' if one.reached else 'cannot be reached without a ladder'}",
                            corners(shape), middle(shape), ("roof",))


def _stood_on(papers: Papers, shape: Polygon) -> str:
    """Whether it is wide enough to stand on, by the profile; where that holds no figure, what the job means by a roof."""
    least = papers.profile.limits.get(STAND)
    narrow = least is not None and not can_stand(shape, float(least.value))
    return f"narrower than {least.shown()}, not counted as something to stand on" if narrow else "one can stand on it"


def thing_words(papers: Papers, name: str, one: Furniture) -> str:
    """A thing in words: where it stands, how high, of metal or warm."""
    base = f"{metres(one.base_m)} to " if one.base_m else ""
    more = [word for word, there in (("metal, radio does not pass", one.metal), ("gets warm", one.heat)) if there]
    return ", ".join([f"{_plain(name)}: {room_name(papers, one.room)}", f"{base}{metres(one.height_m)} high", *more])


def stairs_of(papers: Papers, storeys: Sequence[str]) -> tuple[StairsLine, ...]:
    """Flights of which both ends have a place, on the drawings of both."""
    rooms = papers.rooms()
    return tuple(StairsLine(stairs_words(papers, name, one), tuple(one.foot.at_m), tuple(one.head.at_m), one.width_m, up)
                 for name, one in papers.job.premises.stairs.items() if one.foot.at_m and one.head.at_m
                 for up, end in ((True, one.foot), (False, one.head)) if end.room in rooms and rooms[end.room][0] in storeys)


def stairs_words(papers: Papers, name: str, one: Stairs) -> str:
    """Stairs in words."""
    return f"stairs {_plain(name)}: from {room_name(papers, one.foot.room)} up to {room_name(papers, one.head.room)}"


def _plain(key: str) -> str:
    return key.replace("-", " ").replace("_", " ")
