"""Is the shortest way through a house the shortest, and one that a person fits through?

Held against closed forms, and against a search over a fine grid. A step to one of eight neighbours makes a way on a grid longer than
a straight one by at most √(4 − 2√2) = 1.0824 (octile distance, geometry), and each corner of the way can lie off the grid by 0.71 of its mesh.
"""
import heapq
import math

import pytest
import shapely
from hypothesis import assume, example, given, settings
from hypothesis import strategies as some

from generator.geometry.floors import HALF_M, floor_of
from generator.geometry.house import house_of
from generator.geometry.routes import Goal, Stand, in_reach, passed, routes, walk_of
from generator.geometry.shapes import Place
from generator.model.premises import Premises
from generator.tables.body import REACH_M
from tests.test_way import texts

OCTILE = math.sqrt(4 - 2 * math.sqrt(2))
MESH = 0.1


def plan(storeys: dict, **more) -> Premises:
    return Premises.model_validate(texts({"place": "a house", "storeys": storeys, **more}))


def walk(storeys: dict, shut=(), stairs_count: float = 1.0, **more):
    premises = plan(storeys, **more)
    return walk_of(house_of(premises), premises, stairs_count, shut)


def spot(x: float, y: float, storey: str = "ground") -> Goal:
    return Goal(storey, shapely.Point(x, y))


def way(walked, start: tuple, end: tuple, storey: str = "ground", to: str = "ground"):
    return routes(walked, Stand(storey, Place(*start)), {"end": spot(*end, to)}).get("end")


# Two rooms of 4 m by 3 m side by side with a door 0.9 m wide in their wall, its middle at y = 2.
ROOMS = {"left": {"corner_m": [0, 0], "size_m": [4, 3]}, "right": {"corner_m": [4, 0], "size_m": [4, 3]}}
DOOR = {"kind": "door", "wall": ["left", "right"], "at_m": [4, 2], "width_m": 0.9, "height_m": 2.0}
FRONT = {"kind": "door", "wall": ["left", "outside"], "at_m": [1, 0], "width_m": 0.9, "height_m": 2.0}
GROUND = {"ceiling_m": 2.4, "rooms": ROOMS, "openings": {"door": DOOR, "front": FRONT}}


def with_things(**things) -> dict:
    return {"ground": GROUND | {"furniture": {name: {"room": "left", "height_m": 1.0} | one for name, one in things.items()}}}


def test_in_an_empty_room_the_way_is_the_straight_line() -> None:
    found = way(walk({"ground": GROUND}), (1, 1), (3, 2))
    assert found.flat_m == pytest.approx(math.sqrt(5)) and found.stretches[0].places == (Place(1, 1), Place(3, 2)) and found.slope_m == 0


def test_round_the_inner_corner_of_a_room_the_way_turns_once() -> None:
    ell = {"ceiling_m": 2.4, "rooms": {"ell": {"outline_m": [[0, 0], [4, 0], [4, 2], [2, 2], [2, 4], [0, 4]]}}}
    found = way(walk({"ground": ell}), (3.5, 1), (1, 3.5))
    assert found.stretches[0].places[1] == pytest.approx((1.75, 1.75)) and found.flat_m == pytest.approx(2 * math.hypot(1.75, 0.75))


def test_through_a_door_the_way_turns_a_quarter_of_a_metre_off_its_jambs() -> None:
    # By hand: from (1, 0.5) to (7, 0.5) past the lower jamb at y = 1.55; nobody's middle comes lower than 1.8 for 0.25 m before and behind.
    found = way(walk({"ground": GROUND}), (1, 0.5), (7, 0.5))
    assert found.flat_m == pytest.approx(2 * math.hypot(2.75, 1.3) + 0.5, abs=0.003)


def test_round_a_thing_the_way_keeps_half_a_person_off_it_on_the_shorter_side() -> None:
    # A chest 1 m by 1 m at (1.5, 1): its floor is 1.25 to 2.75 by 0.75 to 2.25. From (0.5, 1.2) to (3.5, 1.2) the lower side is the nearer.
    chest = {"corner_m": [1.5, 1], "size_m": [1, 1]}
    found = way(walk(with_things(chest=chest)), (0.5, 1.2), (3.5, 1.2))
    assert found.flat_m == pytest.approx(2 * math.hypot(0.75, 0.45) + 1.5)
    # What hangs above heads is walked under, what hangs lower is not.
    assert way(walk(with_things(chest=chest | {"base_m": 2.0, "height_m": 2.3})), (0.5, 1.2), (3.5, 1.2)).flat_m == pytest.approx(3)
    assert way(walk(with_things(chest=chest | {"base_m": 1.4, "height_m": 2.3})), (0.5, 1.2), (3.5, 1.2)).flat_m > 3.2
    # Taken away for a trial, it is in nobody's way.
    assert way(walk(with_things(chest=chest), shut=("chest",)), (0.5, 1.2), (3.5, 1.2)).flat_m == pytest.approx(3)


def test_a_door_that_is_too_narrow_or_shut_or_blocked_leads_nowhere() -> None:
    assert way(walk({"ground": GROUND}), (1, 1), (7, 1)) is not None
    narrow = walk({"ground": GROUND | {"openings": {"door": DOOR | {"width_m": 0.45}}}})
    assert way(narrow, (1, 1), (7, 1)) is None and narrow.floors["ground"].closed == {"door": "door is 0.45 m wide, too narrow for a person"}
    assert way(walk({"ground": GROUND}, shut=("door",)), (1, 1), (7, 1)) is None
    assert way(walk(with_things(dresser={"corner_m": [3.4, 1.4], "size_m": [0.6, 1.2]})), (1, 1), (7, 1)) is None
    # A thing on the other side of a wall is in nobody's way here.
    assert way(walk(with_things(shelf={"corner_m": [3.7, 0.1], "size_m": [0.3, 1.0]})), (4.3, 0.3), (4.3, 1.2)).flat_m == pytest.approx(0.9)


def test_a_door_of_which_measures_lack_says_which() -> None:
    found = walk({"ground": GROUND | {"openings": {"door": {key: one for key, one in DOOR.items() if key not in ("width_m", "height_m")}}}})
    assert found.floors["ground"].closed == {"door": "door gives no width_m and no height_m"}


def test_a_window_is_no_way_and_a_gap_of_just_a_persons_width_is_one() -> None:
    assert way(walk({"ground": GROUND | {"openings": {"door": DOOR | {"kind": "window"}}}}), (1, 1), (7, 1)) is None
    assert way(walk({"ground": GROUND | {"openings": {"door": DOOR | {"width_m": 0.5}}}}), (1, 2), (7, 2)).flat_m == pytest.approx(6)


def test_a_wall_that_stands_by_itself_is_walked_round() -> None:
    own = {"own": {"screen": {"from_m": [2, 0], "to_m": [2, 2], "construction": "brick"}}}
    found = way(walk({"ground": GROUND | {"walls": own}}), (1, 1), (3, 1))
    assert found.flat_m == pytest.approx(2 * math.hypot(0.75, 1.25) + 0.5)


def test_doors_and_rooms_are_named_in_the_order_in_which_they_are_met() -> None:
    walked = walk({"ground": GROUND})
    found = way(walked, walked.floors["ground"].passages["front"].before, (7, 2))
    assert [(one.kind, one.name) for one in passed(walked, found)] == [("door", "front"), ("room", "left"), ("door", "door"), ("room", "right")]
    assert passed(walked, found)[0].flat_m == pytest.approx(0.25, abs=0.05)


def test_in_front_of_a_door_somebody_stands_in_the_open() -> None:
    assert walk({"ground": GROUND}).floors["ground"].passages["front"].before == pytest.approx((1, -HALF_M))
    assert walk({"ground": GROUND}).floors["ground"].passages["door"].before is None


# --- stairs -----------------------------------------------------------------------------------------------------

TWO = {"ground": GROUND, "upper": {"level_m": 2.8, "ceiling_m": 2.4, "rooms": {"landing": {"corner_m": [0, 0], "size_m": [8, 3]}}}}


def stairs(foot, head, **more) -> dict:
    return {"main": {"foot": {"room": "left", "at_m": foot}, "head": {"room": "landing", "at_m": head}, **more}}


def test_stairs_are_as_long_as_their_slope() -> None:
    # Going 4 m, rise 2.8 m: 4.883 m along the slope.
    found = way(walk(TWO, stairs=stairs([0.5, 1], [4.5, 1])), (0.5, 2), (4.5, 2), to="upper")
    assert found.flat_m == pytest.approx(2) and found.stairs == (("main", pytest.approx(math.hypot(4, 2.8))),)
    assert [one.storey for one in found.stretches] == ["ground", "upper"]
    down = way(walk(TWO, stairs=stairs([0.5, 1], [4.5, 1])), (4.5, 2), (0.5, 2), storey="upper")
    assert (down.flat_m, down.slope_m) == (pytest.approx(found.flat_m), pytest.approx(found.slope_m))


def test_the_step_from_the_free_floor_onto_a_flight_beside_a_wall_counts_as_stairs() -> None:
    # The foot lies 0.1 m off the wall, where nobody's middle comes: from 0.25 m off it is 0.15 m to the first step.
    found = way(walk(TWO, stairs=stairs([0.1, 1], [4.1, 1])), (0.25, 2), (4.1, 2), to="upper")
    assert found.slope_m == pytest.approx(math.hypot(4, 2.8) + 0.15) and found.flat_m == pytest.approx(2)


def test_stairs_that_would_be_too_steep_turn_and_are_longer() -> None:
    found = way(walk(TWO, stairs=stairs([1, 1], [2, 1])), (1, 2), (2, 2), to="upper")
    assert found.slope_m == pytest.approx(2.8 / math.sin(math.radians(42)))


def test_of_two_flights_the_one_with_the_shorter_time_is_taken() -> None:
    two = {"near": {"foot": {"room": "left", "at_m": [0.5, 1]}, "head": {"room": "landing", "at_m": [6.5, 1]}},
           "far": {"foot": {"room": "left", "at_m": [0.5, 2.7]}, "head": {"room": "landing", "at_m": [3.5, 2.7]}}}
    for count, name in ((1.0, "near"), (3.0, "far")):
        assert [one for one, _ in way(walk(TWO, stairs=two, stairs_count=count), (0.5, 1), (6.5, 1), to="upper").stairs] == [name]


def test_without_stairs_or_without_their_ends_no_way_leads_up() -> None:
    assert way(walk(TWO), (0.5, 2), (4.5, 2), to="upper") is None
    lost = {"main": {"foot": {"room": "left"}, "head": {"room": "landing", "at_m": [4.5, 1]}}}
    assert way(walk(TWO, stairs=lost), (0.5, 2), (4.5, 2), to="upper") is None


def test_stairs_with_a_width_stand_in_the_way_below_and_leave_a_hole_above() -> None:
    wide = walk(TWO, stairs=stairs([0.6, 1], [3.4, 1], width_m=0.8))
    assert way(wide, (2, 0.3), (2, 2.5)).flat_m > 2.3 and way(wide, (2, 0.3), (2, 2.5), "upper", "upper").flat_m > 2.3
    # Rise and going of 2.8 m: from 2.0 m on there is headroom below, and up to 0.8 m above there is floor.
    assert way(wide, (3.1, 0.3), (3.1, 2.5)).flat_m == pytest.approx(2.2) and way(wide, (1, 0.3), (1, 2.5), "upper", "upper").flat_m == pytest.approx(2.2)


# --- a keypad within reach ---------------------------------------------------------------------------------------

def test_a_keypad_is_reached_from_as_far_as_an_arm_reaches_and_through_no_wall() -> None:
    walked = walk({"ground": GROUND})
    goal = in_reach(walked, "left", Place(3.98, 0.5))
    found = routes(walked, Stand("ground", Place(1, 0.5)), {"K": goal})["K"]
    assert found.flat_m == pytest.approx(2.98 - REACH_M, abs=0.002)
    # From the other side of its wall one goes round by the door.
    assert routes(walked, Stand("ground", Place(4.3, 0.5)), {"K": goal})["K"].flat_m > 2


def test_a_keypad_behind_a_deep_thing_is_reached_by_nobody() -> None:
    walked = walk(with_things(bed={"corner_m": [2.6, 0], "size_m": [1.4, 1.4]}))
    assert in_reach(walked, "left", Place(3.98, 0.3)) is None
    assert in_reach(walked, "cellar", Place(3.98, 0.3)) is None


# --- the free floor, point by point ------------------------------------------------------------------------------

FLOORS = some.lists(some.tuples(some.floats(0, 3.4), some.floats(0, 2.4), some.floats(0.2, 1.4), some.floats(0.2, 1.4)), max_size=4)
ANYWHERE = some.tuples(some.floats(0.05, 7.95), some.floats(0.05, 2.95))
WHERE = some.tuples(some.floats(0.3, 7.7), some.floats(0.3, 2.7))


def furnished(things) -> dict:
    return with_things(**{f"thing-{index}": {"corner_m": [round(x, 2), round(y, 2)], "size_m": [round(min(w, 4 - x) + 0.01, 2), round(min(d, 3 - y) + 0.01, 2)]}
                          for index, (x, y, w, d) in enumerate(things)})


@settings(max_examples=60, deadline=None)
@given(things=FLOORS, points=some.lists(ANYWHERE, min_size=20, max_size=60))
def test_a_person_fits_wherever_the_free_floor_says_and_nowhere_else(things, points) -> None:
    storeys = furnished(things)
    premises = plan(storeys)
    free = floor_of(house_of(premises), premises, "ground").free
    # Walls as a person meets them: the outline and the wall in between, less the doors.
    walls = shapely.union_all([shapely.LineString([(1.45, 0), (8, 0), (8, 3), (0, 3), (0, 0), (0.55, 0)]), shapely.LineString([(4, 0), (4, 1.55)]),
                               shapely.LineString([(4, 2.45), (4, 3)])])
    solid = [shapely.box(one["corner_m"][0], one["corner_m"][1], one["corner_m"][0] + one["size_m"][0], one["corner_m"][1] + one["size_m"][1])
             for one in storeys["ground"]["furniture"].values()]
    for x, y in points:
        point = shapely.Point(x, y)
        things_off = min([one.distance(point) for one in solid if x < 4], default=9.0)
        inside = free.buffer(1e-6).covers(point)
        if inside:
            assert walls.distance(point) >= HALF_M - 0.002 and things_off >= HALF_M - 0.002
        # Round a corner the floor is cut square, at most √2 times as far off.
        if walls.distance(point) > HALF_M * math.sqrt(2) and things_off > HALF_M * math.sqrt(2):
            assert inside


# --- the shortest way, against a grid ------------------------------------------------------------------------------

def on_grid(region, start: Place, end: Place) -> float | None:
    """The shortest way over a grid of a region from the start to the mesh point nearest to the end, and from there straight; None if there is none."""
    minx, miny, maxx, maxy = region.bounds
    wide, high = math.ceil((maxx - minx) / MESH) + 1, math.ceil((maxy - miny) / MESH) + 1
    x0, y0 = start.x - math.ceil((start.x - minx) / MESH) * MESH, start.y - math.ceil((start.y - miny) / MESH) * MESH
    points = [(x0 + MESH * index, y0 + MESH * row) for row in range(high + 1) for index in range(wide + 1)]
    shapely.prepare(region)
    inside = [bool(one) for one in shapely.covers(region, shapely.points(points))]
    across = wide + 1
    edges: list[tuple[int, int]] = [(here, there) for here in range(len(points)) if inside[here] for dx, dy in ((1, 0), (0, 1), (1, 1), (-1, 1))
                                    if 0 <= here % across + dx < across and (there := here + dx + dy * across) < len(points) and inside[there]]
    clear = shapely.covers(region, shapely.linestrings([[points[one], points[other]] for one, other in edges])) if edges else []
    near: dict[int, list[tuple[int, float]]] = {}
    for (one, other), seen in zip(edges, clear):
        if seen:
            length = math.dist(points[one], points[other])
            near.setdefault(one, []).append((other, length))
            near.setdefault(other, []).append((one, length))

    def at(place: Place) -> int:
        return round((place.x - x0) / MESH) + round((place.y - y0) / MESH) * across

    goal, queue, done = at(end), [(0.0, at(start))], set()
    while queue:
        cost, here = heapq.heappop(queue)
        if here == goal:
            return cost + math.dist(points[goal], end) if region.covers(shapely.LineString((points[goal], end))) else None
        if here not in done:
            done.add(here)
            for other, length in near.get(here, ()):
                if other not in done:
                    heapq.heappush(queue, (cost + length, other))
    return None


@settings(max_examples=30, deadline=None)
@example([(1.5, 0.0, 0.4, 1.4), (2.4, 1.6, 0.4, 1.4)], (0.5, 0.5), (7.5, 0.5))
@given(things=FLOORS, start=WHERE, end=WHERE)
def test_the_shortest_way_is_never_longer_than_one_on_a_grid_and_never_shorter_than_a_grid_allows(things, start, end) -> None:
    walked = walk(furnished(things))
    free = walked.floors["ground"].free
    begin, stop = Place(*start), Place(*end)
    assume(free.covers(shapely.Point(begin)) and free.covers(shapely.Point(stop)))
    found = way(walked, start, end)
    # A way on the grid of the free floor is one that can be walked.
    inner = on_grid(free, begin, stop)
    if inner is not None:
        assert found is not None and found.flat_m <= inner + 1e-6
    # The shortest way can be followed on the grid of a floor that is wider by a mesh and the 0.71 by which its corners move.
    outer = on_grid(free.buffer(MESH * (1 + math.sqrt(0.5)), join_style="mitre"), begin, stop)
    if found is None:
        assert inner is None
    else:
        legs = sum(len(one.places) - 1 for one in found.stretches)
        assert outer is not None and outer <= OCTILE * (found.flat_m + math.sqrt(2) * MESH * legs) + MESH
        assert all(free.buffer(1e-5).covers(shapely.LineString(one.places)) for one in found.stretches if len(one.places) > 1)


@settings(max_examples=40, deadline=None)
@given(things=FLOORS, start=WHERE, end=WHERE)
def test_the_way_back_is_as_long(things, start, end) -> None:
    walked = walk(furnished(things))
    there, back = way(walked, start, end), way(walked, end, start)
    free = walked.floors["ground"].free
    assume(free.covers(shapely.Point(start)) and free.covers(shapely.Point(end)))
    assert (there is None) == (back is None) and (there is None or there.flat_m == pytest.approx(back.flat_m))


def test_a_wall_that_stands_by_itself_and_a_thing_of_the_same_name_both_stand_in_the_way() -> None:
    # A screen up to 1.6 m off the front and a chest behind it: the way from one end of the room to the other goes round the screen.
    screen = {"from_m": [2, 0], "to_m": [2, 1.6], "construction": "block"}
    alone = GROUND | {"walls": {"own": {"screen": screen}}}
    named = alone | {"furniture": {"screen": {"room": "left", "corner_m": [0.2, 2.6], "size_m": [0.3, 0.3], "height_m": 1}}}
    one, both = (way(walk({"ground": storeys}), (1, 0.5), (3, 0.5)) for storeys in (alone, named))
    assert one.flat_m == pytest.approx(both.flat_m) and one.flat_m > 2.5
    assert set(walk({"ground": named}).floors["ground"].blocked([Place(1.9, 0.5), Place(2.1, 0.5)])) == {"screen"}
    assert walk({"ground": named}).floors["ground"].blocked([Place(0.3, 2.5), Place(0.4, 2.7)]) == ("screen",)
