"""Does a straight line through the house meet the walls, openings, floors and metal that stand in it, and nothing else?"""
import math
from collections import Counter
from random import Random

import pytest

from generator.geometry.house import house_of
from generator.geometry.shapes import Place, Spot
from generator.geometry.way import way
from generator.model.premises import Premises


def texts(value):
    """Plain data as a file gives it: every number a text."""
    if isinstance(value, dict):
        return {key: texts(inner) for key, inner in value.items()}
    if isinstance(value, list | tuple):
        return [texts(inner) for inner in value]
    return value if isinstance(value, str) else ("true" if value is True else "false" if value is False else repr(value))


def premises(**storeys) -> Premises:
    return Premises.model_validate(texts({"place": "a house", "storeys": storeys}))


def house(**storeys):
    return house_of(premises(**storeys))


def met(found) -> list[str]:
    """What a way meets, in order, in short."""
    return [f"{one.kind} {one.name}" for one in found.crossings]


# Two rooms side by side and one across both, 2.4 m high, under an upper room over the first two; measures in metres.
GROUND = {"ceiling_m": 2.4, "floor": "slab",
          "rooms": {"left": {"corner_m": [0, 0], "size_m": [4, 3]}, "right": {"corner_m": [4, 0], "size_m": [4, 3]},
                    "back": {"corner_m": [0, 3], "size_m": [8, 2]}},
          "walls": {"outside": "brick", "inside": "stud", "between": [{"places": ["left", "back"], "construction": "foil"}]}}
UPPER = {"ceiling_m": 2.4, "level_m": 2.7, "floor": "joists", "rooms": {"bedroom": {"corner_m": [0, 0], "size_m": [8, 3]}},
         "walls": {"outside": "brick"}}


def test_walls_stand_where_rooms_meet_and_where_they_end_each_once() -> None:
    found = {(one.wall.places, one.wall.construction, round(one.wall.length_m, 9)) for one in house(ground=GROUND).walls}
    assert found == {(("left", "outside"), "brick", 4), (("left", "outside"), "brick", 3), (("right", "outside"), "brick", 4),
                     (("right", "outside"), "brick", 3), (("back", "outside"), "brick", 2), (("back", "outside"), "brick", 8),
                     (("left", "right"), "stud", 3), (("left", "back"), "foil", 4), (("right", "back"), "stud", 4)}
    assert sum(one.wall.length_m for one in house(ground=GROUND).walls if one.wall.outer) == pytest.approx(2 * (8 + 5))


def test_a_way_names_what_it_meets_in_order_with_place_and_angle() -> None:
    # By hand: from (1, 1) to (7, 4) the line rises 1 in 2; it meets x = 4 after half of its 6.708 m, y = 3 after two thirds.
    found = way(house(ground=GROUND), Spot(1, 1, 1), Spot(7, 4, 1))
    assert found.distance_m == pytest.approx(math.sqrt(45)) and met(found) == ["wall left and right", "wall right and back"]
    assert [one.at_m for one in found.crossings] == pytest.approx([math.sqrt(45) / 2, math.sqrt(45) * 2 / 3])
    assert [one.angle_deg for one in found.crossings] == pytest.approx([26.565, 63.435], abs=0.001)
    assert [one.construction for one in found.crossings] == ["stud", "stud"]


def test_the_height_counts_for_angle_and_distance() -> None:
    # By hand: 3 m along, 0 across, 2 m up: the wall's normal is met at atan(2/3) = 33.69°.
    found = way(house(ground=GROUND), Spot(2.5, 1, 0.2), Spot(5.5, 1, 2.2))
    assert found.distance_m == pytest.approx(math.sqrt(13)) and found.crossings[0].angle_deg == pytest.approx(33.690, abs=0.001)


def test_a_floor_is_met_at_the_angle_to_the_vertical_and_an_inside_wall_ends_at_the_ceiling() -> None:
    # From the back of the ground floor at 1 m to the bedroom at 3.7 m: the wall is reached at 1.9 m, the floor at 2.7 m.
    found = way(house(ground=GROUND, upper=UPPER), Spot(2, 4, 1), Spot(2, 1, 3.7))
    assert met(found) == ["wall left and back", "floor upper"]
    assert found.crossings[1].angle_deg == pytest.approx(math.degrees(math.acos(2.7 / math.hypot(3, 2.7))))
    assert [one.construction for one in found.crossings] == ["foil", "joists"]
    # Steeper, the wall's line is passed at 2.5 m, between its ceiling and the floor above: no wall there.
    steep = way(house(ground=GROUND, upper=UPPER), Spot(4.15, 1, 2.35), Spot(3.0, 1, 3.5))
    assert met(steep) == ["floor upper"]


def test_an_outside_wall_goes_on_up_to_the_floor_above() -> None:
    assert met(way(house(ground=GROUND, upper=UPPER), Spot(2, 1, 2.3), Spot(2, -1, 2.7))) == ["wall left and outside"]
    assert met(way(house(ground=GROUND), Spot(2, 1, 2.3), Spot(2, -1, 2.7))) == ["roof ground"]


def test_straight_up_only_the_floor_is_met() -> None:
    found = way(house(ground=GROUND, upper=UPPER), Spot(2, 1, 1), Spot(2, 1, 4))
    assert met(found) == ["floor upper"] and found.crossings[0].angle_deg == 0 and found.crossings[0].at_m == pytest.approx(1.7)


def test_over_a_part_without_a_storey_above_a_way_leaves_through_the_roof() -> None:
    found = way(house(ground=GROUND, upper=UPPER), Spot(2, 4.5, 1), Spot(2, 2.0, 4.5))
    assert met(found) == ["roof ground", "wall bedroom and outside"] and found.crossings[0].construction is None


DOOR = {"kind": "door", "wall": ["right", "left"], "at_m": [4, 1], "width_m": 0.8, "height_m": 2.0, "leaf": "leaf"}
WINDOW = {"kind": "window", "wall": ["left", "outside"], "at_m": [2, 0], "width_m": 1.2, "height_m": 1.0, "sill_m": 0.9, "leaf": "glass"}


@pytest.mark.parametrize("y, z, kind", [(1, 1, "opening door"), (1.39, 1.99, "opening door"), (1.41, 1, "wall left and right"),
                                        (0.59, 1, "wall left and right"), (1, 2.01, "wall left and right")])
def test_an_opening_is_passed_where_it_is_and_below_its_upper_edge(y, z, kind) -> None:
    found = way(house(ground=GROUND | {"openings": {"door": DOOR}}), Spot(1, y, z), Spot(7, y, z))
    assert met(found) == [kind]
    if kind == "opening door":
        assert (found.crossings[0].construction, found.crossings[0].around, found.crossings[0].inner) == ("leaf", "stud", True)


@pytest.mark.parametrize("z, kind", [(0.89, "wall"), (0.91, "opening"), (1.89, "opening"), (1.91, "wall")])
def test_a_window_is_passed_between_sill_and_lintel(z, kind) -> None:
    found = way(house(ground=GROUND | {"openings": {"window": WINDOW}}), Spot(2, 1, z), Spot(2, -1, z))
    assert [one.kind for one in found.crossings] == [kind] and not found.crossings[0].inner


def test_an_opening_whose_size_is_not_known_is_wall() -> None:
    unsized = {key: one for key, one in DOOR.items() if key != "width_m"}
    assert met(way(house(ground=GROUND | {"openings": {"door": unsized}}), Spot(1, 1, 1), Spot(7, 1, 1))) == ["wall left and right"]


def test_a_wall_of_its_own_is_met_up_to_its_height() -> None:
    ground = GROUND | {"walls": {"own": {"screen": {"from_m": [1, 0.5], "to_m": [1, 2], "construction": "brick", "height_m": 1.5}}}}
    assert met(way(house(ground=ground), Spot(0.5, 1, 1), Spot(1.5, 1, 1))) == ["wall screen"]
    assert met(way(house(ground=ground), Spot(0.5, 1, 1.6), Spot(1.5, 1, 1.6))) == []
    assert met(way(house(ground=ground), Spot(0.5, 2.1, 1), Spot(1.5, 2.1, 1))) == []


FRIDGE = {"room": "left", "corner_m": [1, 1], "size_m": [1, 1], "height_m": 1.5, "metal": True}


@pytest.mark.parametrize("start, end, hit", [
    (Spot(0.5, 1.5, 1), Spot(2.5, 1.5, 1), True), (Spot(0.5, 1.5, 1.6), Spot(2.5, 1.5, 1.6), False), (Spot(0.5, 0.9, 1), Spot(2.5, 0.9, 1), False),
    # Down over its far edge: above it where it begins, below its upper edge before it ends.
    (Spot(0.5, 1.5, 2.2), Spot(2.5, 1.5, 1.0), True), (Spot(0.5, 1.5, 2.4), Spot(2.5, 1.5, 1.4), False), (Spot(1.5, 1.5, 0.1), Spot(1.5, 1.5, 2), True)])
def test_metal_is_met_where_it_stands_and_as_high_as_it_is(start, end, hit) -> None:
    ground = GROUND | {"furniture": {"fridge": FRIDGE}}
    assert met(way(house(ground=ground), start, end)) == (["metal fridge"] if hit else [])
    assert met(way(house(ground=GROUND | {"furniture": {"fridge": FRIDGE | {"metal": False}}}), start, end)) == []


def test_metal_that_hangs_lets_a_way_pass_below() -> None:
    ground = GROUND | {"furniture": {"cupboard": FRIDGE | {"base_m": 1.2}}}
    assert met(way(house(ground=ground), Spot(0.5, 1.5, 1), Spot(2.5, 1.5, 1))) == []


def test_a_corner_where_four_rooms_meet_is_two_walls_and_a_way_along_a_wall_meets_none() -> None:
    four = {"ceiling_m": 2.4, "rooms": {name: {"corner_m": [x, y], "size_m": [2, 2]} for name, x, y in (("a", 0, 0), ("b", 2, 0), ("c", 0, 2), ("d", 2, 2))}}
    assert len(way(house(ground=four), Spot(1, 1, 1), Spot(3, 3, 1)).crossings) == 2
    assert way(house(ground=four), Spot(2, 0.5, 1), Spot(2, 1.5, 1)).crossings == ()
    assert way(house(ground=four), Spot(1, 1, 1), Spot(1, 1, 1)).crossings == ()


def test_a_unit_on_the_line_of_a_wall_hangs_on_its_rooms_side() -> None:
    found = house(ground=GROUND)
    assert found.spot("left", Place(4.0, 1), 1.5) == pytest.approx((3.98, 1, 1.5))
    assert found.spot("right", Place(3.95, 1), 1.5) == pytest.approx((4.02, 1, 1.5))
    assert found.spot("left", Place(3.9, 1), 1.5) == (3.9, 1, 1.5)
    assert found.spot("left", Place(1, 1), 2.4) == pytest.approx((1, 1, 2.38))
    assert met(way(found, found.spot("left", Place(2, 1), 2.4), found.spot("right", Place(6, 1), 2.4))) == ["wall left and right"]
    assert found.spot("outside", Place(2, 0), 4.0) == pytest.approx((2, -0.02, 4.0))
    assert found.spot("outside", Place(2, -0.1), 4.0) == (2, -0.1, 4.0)


def test_what_has_no_height_is_said_and_a_first_storey_lies_at_zero() -> None:
    assert house(ground=GROUND).lacks == ""
    assert house(ground=GROUND, upper={key: one for key, one in UPPER.items() if key != "level_m"}).lacks == "premises.storeys.upper gives no level_m"
    assert house(ground={"rooms": {"left": {}}}).lacks == "no room has a shape in the plan"


def test_a_wall_without_a_ceiling_is_met_at_any_height() -> None:
    high = {key: one for key, one in GROUND.items() if key != "ceiling_m"}
    assert met(way(house(ground=high), Spot(1, 1, 9), Spot(7, 1, 9))) == ["wall left and right"]


# --- against ray marching -------------------------------------------------------------------------------------

STEP_M = 0.001


def in_room(corners, x: float, y: float) -> bool:
    """Even-odd rule, independent of the program's geometry."""
    inside = False
    for (ax, ay), (bx, by) in zip(corners, [*corners[1:], corners[0]]):
        if (ay > y) != (by > y) and x < ax + (y - ay) / (by - ay) * (bx - ax):
            inside = not inside
    return inside


def split_floor(chance: Random, letter: str) -> dict:
    """A rectangle cut into rooms again and again, walls meeting in T's; measures in centimetres until it is turned."""
    pieces = [(0, 0, chance.randint(500, 1200), chance.randint(500, 1000))]
    for _ in range(chance.randint(0, 5)):
        x, y, width, depth = pieces.pop(chance.randrange(len(pieces)))
        across = chance.random() < 0.5
        if (width if across else depth) < 200:
            pieces.append((x, y, width, depth))
            continue
        cut = chance.randint(100, (width if across else depth) - 100)
        pieces += [(x, y, cut, depth), (x + cut, y, width - cut, depth)] if across else [(x, y, width, cut), (x, y + cut, width, depth - cut)]
    return {f"{letter}{index}": [(x, y), (x + width, y), (x + width, y + depth), (x, y + depth)] for index, (x, y, width, depth) in enumerate(pieces)}


def turned(rooms: dict, angle: float) -> dict:
    """The rooms in metres, turned about the corner and sheared, so that no wall is square to the plan."""
    cos, sin = math.cos(angle), math.sin(angle)
    return {name: [(round((x * cos - y * sin + 0.2 * y) / 100, 4), round((x * sin + y * cos) / 100, 4)) for x, y in corners] for name, corners in rooms.items()}


def marched(floors: list[dict], height: float, start: Spot, end: Spot) -> tuple[list[tuple[float, str, str]], float]:
    """What a point meets that goes along the line by a millimetre at a time, and the shortest stay anywhere, in steps."""
    steps = max(2, round(math.dist(start, end) / STEP_M))
    found, before, stay, shortest = [], None, 0, math.inf
    for step in range(steps + 1):
        share = step / steps
        x, y, z = (a + (b - a) * share for a, b in zip(start, end))
        storey = min(int(z // height), len(floors) - 1)
        room = before[1] if before and before[0] == storey and before[1] != "outside" and in_room(floors[storey][before[1]], x, y) else \
            next((name for name, corners in floors[storey].items() if in_room(corners, x, y)), "outside")
        here = (storey, room)
        if before not in (None, here):
            shortest, stay = min(shortest, stay), 0
            if before[0] != storey:
                if before[1] != next((name for name, corners in floors[before[0]].items() if in_room(corners, x, y)), "outside"):
                    shortest = 0  # wall and floor within one step
                upper = floors[max(before[0], storey)]
                found.append((share, "floor" if any(in_room(corners, x, y) for corners in upper.values()) else "open air", ""))
            elif before[1] != room:
                found.append((share, "wall", " and ".join(sorted((before[1], room)))))
        before, stay = here, stay + 1
    return found, min(shortest, stay)


def off_line(a, b, point) -> float:
    """How far a point lies from the stretch between two others."""
    (dx, dy), (px, py) = (b[0] - a[0], b[1] - a[1]), (point[0] - a[0], point[1] - a[1])
    share = min(1, max(0, (px * dx + py * dy) / ((dx * dx + dy * dy) or 1)))
    return math.hypot(px - share * dx, py - share * dy)


def clear_of_corners(floors: list[dict], start: Spot, end: Spot) -> bool:
    """Whether no corner lies on the line and neither end on a wall: there, how often a wall is met is a matter of rounding."""
    rings = [list(zip(corners, [*corners[1:], corners[0]])) for rooms in floors for corners in rooms.values()]
    return all(off_line(start, end, one) > 0.01 and min(off_line(one, two, start), off_line(one, two, end)) > 0.01 for ring in rings for one, two in ring)


def centre(corners) -> tuple[float, float]:
    return sum(x for x, _ in corners) / len(corners), sum(y for _, y in corners) / len(corners)


def towards(one, other, share: float) -> tuple[float, float]:
    return round(one[0] + (other[0] - one[0]) * share, 4), round(one[1] + (other[1] - one[1]) * share, 4)


def behind(rooms: dict, name: str, a, b, share: float) -> str:
    """The place two centimetres behind an edge of a room: another room, or the open air."""
    middle = centre(rooms[name])
    x, y = towards(middle, towards(a, b, share), 1 + 0.02 / math.dist(middle, towards(a, b, share)))
    return next((other for other, corners in rooms.items() if in_room(corners, x, y)), "outside")


def openings_of(chance: Random, letter: str, rooms: dict) -> dict:
    """Openings in some walls, found by stepping over the edge: as wide as half of it, between two places alone."""
    found = {}
    for name, corners in rooms.items():
        for a, b in zip(corners, [*corners[1:], corners[0]]):
            beyond = {behind(rooms, name, a, b, share) for share in (0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8)}
            # A wall is written once: from the room whose key comes first.
            if len(beyond) == 1 and (other := beyond.pop()) > name and chance.random() < 0.5:
                sill = chance.choice([0.0, 0.9])
                found[f"{letter}o{len(found)}"] = {"kind": "window" if sill else "door", "wall": [name, other], "at_m": towards(a, b, 0.5),
                                                   "width_m": round(math.dist(a, b) / 2, 3), "height_m": chance.choice([0.6, 1.1, 1.4]), "sill_m": sill}
    return found


def metal_of(chance: Random, letter: str, rooms: dict) -> dict:
    """Things of metal that stand or hang in the middle of some rooms."""
    found = {}
    for name, corners in rooms.items():
        if chance.random() < 0.5:
            base = chance.choice([0.0, 0.7])
            found[f"{letter}m{len(found)}"] = {"room": name, "outline_m": [towards(centre(corners), one, 0.6) for one in corners], "base_m": base,
                                               "height_m": round(base + chance.choice([0.5, 1.2]), 1), "metal": True}
    return found


def through_metal(thing: dict, level: float, start: Spot, end: Spot, more: float) -> bool:
    """Whether a point that goes along the line is ever within a thing that is larger by so much on every side."""
    middle, steps = centre(thing["outline_m"]), max(2, round(math.dist(start, end) / STEP_M))
    corners = [towards(middle, one, 1 + more / math.dist(middle, one)) for one in thing["outline_m"]]
    low, high = level + thing["base_m"] - more, level + thing["height_m"] + more
    points = (tuple(a + (b - a) * step / steps for a, b in zip(start, end)) for step in range(steps + 1))
    return any(low < z < high and in_room(corners, x, y) for x, y, z in points)


def in_opening(one: dict, level: float, spot, less: float) -> bool:
    """Whether a point on a wall is within an opening that is smaller by so much on every side."""
    (x, y), sill = one["at_m"], one["sill_m"]
    return math.hypot(spot[0] - x, spot[1] - y) < one["width_m"] / 2 - less and level + sill + less < spot[2] < level + sill + one["height_m"] - less


def marching(seed: int) -> Counter | None:
    """A random plan and a random line: what is met, by kind, once it is known to be what marching finds; None where rounding decides.

    The plan: two storeys of rooms at any angle, openings, metal; the line: from anywhere in or about the house to anywhere.
    """
    chance, height = Random(seed), 2.5
    angle = chance.uniform(0, 3)
    floors = [turned(split_floor(chance, letter), angle) for letter in "ab"]
    holes = [openings_of(chance, letter, rooms) for letter, rooms in zip("ab", floors)]
    metal = [metal_of(chance, letter, rooms) for letter, rooms in zip("ab", floors)]
    plan = {name: {"ceiling_m": height, "level_m": level * height, "rooms": {room: {"outline_m": corners} for room, corners in floors[level].items()},
                   "openings": holes[level], "furniture": metal[level]} for level, name in enumerate(("ground", "upper"))}
    xs, ys = zip(*(corner for rooms in floors for corners in rooms.values() for corner in corners))
    start, end = (Spot(*(min(axis) + chance.uniform(-0.1, 1.1) * (max(axis) - min(axis)) for axis in (xs, ys)), chance.uniform(0.1, 4.9)) for _ in range(2))
    if math.dist(start, end) < 0.5 or not clear_of_corners(floors, start, end):
        return None
    expected, shortest = marched(floors, height, start, end)
    if shortest <= 10:
        return None
    length, found = math.dist(start, end), way(house(**plan), start, end).crossings
    wanted = []
    for share, kind, name in expected:
        spot = [a + (b - a) * share for a, b in zip(start, end)]
        level = int(spot[2] // height)
        if kind == "wall":
            own = {key: one for key, one in holes[level].items() if " and ".join(sorted(one["wall"])) == name}
            through, less, more = ({key for key, one in own.items() if in_opening(one, level * height, spot, by)} for by in (0, 0.01, -0.01))
            if less != more:
                return None
            kind, name = ("opening", through.pop()) if through else (kind, name)
        elif kind != "floor":
            kind = "roof" if any(in_room(corners, *spot[:2]) for corners in floors[0].values()) else ""
        if kind:
            wanted.append((share * length, kind, name))
    met_here = [(one.at_m, one.kind, " and ".join(sorted(one.name.split(" and "))) if one.kind in ("wall", "opening") else "")
                for one in found if one.kind != "metal"]
    assert [one[1:] for one in met_here] == [one[1:] for one in wanted]
    assert [one[0] for one in met_here] == pytest.approx([one[0] for one in wanted], abs=0.01)
    things = {key: (one, level * height) for level, of in enumerate(metal) for key, one in of.items()}
    surely, perhaps = ({key for key, one in things.items() if through_metal(*one, start, end, more)} for more in (-0.005, 0.005))
    hit = {one.name for one in found if one.kind == "metal"}
    assert surely <= hit <= perhaps and len(hit) == sum(one.kind == "metal" for one in found)
    return Counter(one.kind for one in found)


def test_every_crossing_is_the_one_that_marching_by_a_millimetre_finds() -> None:
    found = [one for one in map(marching, range(160)) if one is not None]
    # Of every kind enough, or nothing was proved of it.
    every = sum(found, Counter())
    assert len(found) >= 60 and min(every[kind] for kind in ("wall", "opening", "floor", "roof", "metal")) >= 10, (len(found), every)
