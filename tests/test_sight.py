"""What a detector sees, against closed forms for plain rooms and against rays cast one by one on random plans."""
import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from generator.geometry.house import house_of
from generator.geometry.shapes import Place, Spot
from generator.geometry.sight import Region, Turning, View, ahead_m, reach_m, seen
from tests.test_way import premises

ROOM = {"ceiling_m": 2.4, "rooms": {"room": {"corner_m": [0, 0], "size_m": [6, 4]}}}
DOOR = {"kind": "door", "wall": ["left", "right"], "at_m": [4, 2], "width_m": 1, "height_m": 2}
TWO = {"ceiling_m": 2.4, "rooms": {"left": {"corner_m": [0, 0], "size_m": [4, 4]}, "right": {"corner_m": [4, 0], "size_m": [4, 4]}},
       "openings": {"door": DOOR}}


def view(at=(3.0, 2.0, 2.2), range_m=20.0, angle_deg=360.0, faces_deg=0.0, **edges) -> View:
    return View("ground", Spot(*at), range_m, angle_deg, faces_deg, **edges)


def region(plan, given: View, height_m=1.2, **keys) -> Region:
    built = premises(ground=plan)
    return seen(house_of(built), built, given, height_m, **keys)


def thing(corner, size, height_m, **keys):
    return ROOM | {"furniture": {"thing": {"room": "room", "corner_m": corner, "size_m": size, "height_m": height_m} | keys}}


# --- closed forms, by hand ------------------------------------------------------------------------------------

def test_an_empty_room_within_range_is_seen_whole_and_nothing_of_the_open_air() -> None:
    found = region(ROOM, view())
    assert found.area_m2 == pytest.approx(24, rel=1e-6)
    assert found.holds(5.9, 0.1) and not found.holds(6.1, 2)


def test_the_range_makes_a_circle_and_the_angle_a_sector_of_it() -> None:
    # pi r^2, and its share of the full turn; the chords lie within the arc by 1 part in 80 000.
    assert region(ROOM, view(range_m=1.5)).area_m2 == pytest.approx(math.pi * 1.5 ** 2, rel=2e-5)
    assert region(ROOM, view(range_m=1.5, angle_deg=110)).area_m2 == pytest.approx(math.pi * 1.5 ** 2 * 110 / 360, rel=2e-5)


def test_it_faces_away_from_the_front_at_0_and_to_the_right_at_90() -> None:
    away, right = (region(ROOM, view(angle_deg=90, faces_deg=faces)) for faces in (0, 90))
    assert away.holds(3, 3.5) and not away.holds(5, 2)
    assert right.holds(5, 2) and not right.holds(3, 3.5)


def test_from_a_corner_a_right_angle_sees_the_whole_room() -> None:
    assert region(ROOM, view(at=(0.0, 0.0, 2.2), angle_deg=90, faces_deg=45)).area_m2 == pytest.approx(24, rel=1e-6)


def test_a_thing_up_to_the_ceiling_hides_what_is_behind_it_as_far_as_the_wall() -> None:
    # Seen from (0, 2): a screen 1 m wide at x = 2, 0.001 deep, hides a wedge that is 1 m at 2 m and 3 m at 6 m: (1 + 3) / 2 x 4 = 8 m².
    found = region(thing([2, 1.5], [0.001, 1], 2.4), view(at=(0.0, 2.0, 2.2), angle_deg=180, faces_deg=90))
    assert found.area_m2 == pytest.approx(24 - 8, abs=0.01)
    assert not found.holds(5, 2) and found.holds(1.9, 2)


def test_over_a_low_thing_the_line_comes_down_behind_it() -> None:
    # Eye 2.2 m up at (0, 2), thing from x = 1 to x = 2, 1.25 m high, level 0.3 m: its back edge is passed at a share of 0.95 / 1.9 = 1/2 of
    # the way, so what lies up to twice 2 m is hidden and at 4 m the level is met again. Width 1 at x = 1, 4 at x = 4, and from there seen.
    low = thing([1, 1.5], [1, 1], 1.25)
    found = region(low, view(at=(0.0, 2.0, 2.2), angle_deg=180, faces_deg=90), height_m=0.3)
    assert not found.holds(1.5, 2) and not found.holds(3.9, 2) and found.holds(4.1, 2)
    # Hidden is the hull of the thing itself, 1 m by 1 m, and of itself twice as far from the eye: x from 2 to 4, y from 1 to 3.
    # Corners (1, 1.5), (2, 1), (4, 1) and their mirror images: (1 + 2) / 2 x 1 + 2 x 2 = 5.5 m².
    assert found.area_m2 == pytest.approx(24 - 5.5, rel=1e-4)
    # A level above its upper edge is not hidden at all.
    assert region(low, view(at=(0.0, 2.0, 2.2), angle_deg=180, faces_deg=90), height_m=1.3).area_m2 == pytest.approx(24, rel=1e-6)


def test_under_a_thing_that_hangs_the_line_passes() -> None:
    # A wall unit from 1.8 m up, 1 m before the eye: at 1 m the line to what is beyond 1 / (0.4 / 1.0) = 2.5 m away is above 1.8 m.
    hangs = thing([1, 1.5], [0.001, 1], 2.4, base_m=1.8)
    found = region(hangs, view(at=(0.0, 2.0, 2.2), angle_deg=180, faces_deg=90), height_m=1.2)
    assert found.holds(2.4, 2) and not found.holds(2.6, 2)


def test_a_shut_door_is_wall_and_an_open_one_is_seen_through_below_its_lintel() -> None:
    shut = region(TWO, view(at=(0.1, 2.0, 2.2)))
    opened = region(TWO, view(at=(0.1, 2.0, 2.2)), doors_open=True)
    assert not shut.holds(5, 2) and shut.area_m2 == pytest.approx(16, rel=1e-3)
    # The lintel at 2.0 m, 3.9 m away: at 1.2 m its shadow begins at 3.9 / (0.2 / 1.0) = 19.5 m. The wedge beyond: 1 m at 3.9 m, 7.9 / 3.9 at 7.9 m.
    assert opened.holds(7.5, 2) and not opened.holds(5, 0.5)
    assert opened.area_m2 - shut.area_m2 == pytest.approx((1 + 7.9 / 3.9) / 2 * 4, rel=1e-2)


def test_a_low_detector_looks_up_over_nothing_and_one_inside_a_thing_sees_nothing() -> None:
    assert region(thing([2, 1.5], [1, 1], 0.5), view(at=(0.0, 2.0, 0.6), angle_deg=180, faces_deg=90)).area_m2 == pytest.approx(24, rel=1e-6)
    assert region(thing([2, 1], [2, 2], 2.3), view()).area_m2 == pytest.approx(0, abs=1e-6)


def test_two_views_share_what_both_see() -> None:
    one, other = region(ROOM, view(range_m=1.0)), region(ROOM, view(at=(4.0, 2.0, 2.2), range_m=1.0))
    # The lens of two circles of radius 1 at a distance of 1: 2 pi / 3 - sqrt(3) / 2.
    assert one.shared_m2(other) == pytest.approx(2 * math.pi / 3 - math.sqrt(3) / 2, rel=1e-4)
    assert one.with_(other).area_m2 == pytest.approx(2 * math.pi - one.shared_m2(other), rel=1e-4)
    assert one.shared(other).area_m2 == pytest.approx(one.shared_m2(other))


def test_straight_ahead_is_measured_to_the_wall() -> None:
    room = house_of(premises(ground=ROOM)).rooms["room"]
    assert ahead_m(room, Place(3, 2), 180) == pytest.approx(2)
    assert ahead_m(room, Place(3, 2), 90) == pytest.approx(3)
    assert ahead_m(room, Place(0.1, 0.1), 225) == pytest.approx(0.1 * math.sqrt(2))


def test_the_pieces_of_a_region_hold_its_area() -> None:
    found = region(thing([2.8, 0.8], [0.4, 0.4], 1.0), view(), height_m=0.3)

    def shoelace(corners: tuple[Place, ...]) -> float:
        return abs(sum(a.x * b.y - b.x * a.y for a, b in zip(corners, corners[1:] + corners[:1]))) / 2

    assert sum(shoelace(outer) - sum(map(shoelace, holes)) for outer, *holes in found.parts()) == pytest.approx(found.area_m2)


# --- rays, one by one, on random plans ------------------------------------------------------------------------

CM = some.integers(0, 800).map(lambda cm: cm / 100)


def _blocked(start: Spot, end: Spot, boxes) -> tuple[bool, float]:
    """Whether a straight line meets a box, by clipping it against the box's six sides; and by how little that was decided."""
    close, hit = math.inf, False
    for low, high in boxes:
        first, last = 0.0, 1.0
        for axis in range(3):
            run = end[axis] - start[axis]
            if abs(run) < 1e-12:
                if not low[axis] <= start[axis] <= high[axis]:
                    first, last = 1.0, 0.0
                continue
            one, two = sorted(((low[axis] - start[axis]) / run, (high[axis] - start[axis]) / run))
            first, last = max(first, one), min(last, two)
        close = min(close, abs(last - first))
        hit = hit or first <= last
    return hit, close


@settings(max_examples=60, deadline=None)
@given(split=some.integers(250, 550), door=some.integers(60, 340), opened=some.booleans(), level=some.sampled_from([0.3, 1.2]),
       eye=some.tuples(some.integers(20, 200), some.integers(20, 380), some.integers(100, 235)), faces=some.integers(0, 359),
       angle=some.integers(20, 360), range_m=some.integers(2, 12),
       things=some.lists(some.tuples(some.integers(5, 700), some.integers(5, 300), some.integers(20, 90), some.integers(20, 90),
                                     some.integers(0, 150), some.integers(10, 230)), max_size=4),
       targets=some.lists(some.tuples(CM, some.integers(0, 400).map(lambda cm: cm / 100)), min_size=25, max_size=25))
def test_every_ray_on_a_random_plan_agrees(split, door, opened, level, eye, faces, angle, range_m, things, targets) -> None:
    x = split / 100
    furniture = {f"t{index}": {"room": "left", "corner_m": [a / 100, b / 100], "size_m": [w / 100, d / 100], "base_m": base / 100,
                               "height_m": (base + tall) / 100} for index, (a, b, w, d, base, tall) in enumerate(things)}
    plan = {"ceiling_m": 2.4, "furniture": furniture,
            "rooms": {"left": {"corner_m": [0, 0], "size_m": [x, 4]}, "right": {"corner_m": [x, 0], "size_m": [round(8 - x, 2), 4]}},
            "openings": {"door": DOOR | {"at_m": [x, door / 100]}}}
    at = Spot(*(cm / 100 for cm in eye))
    found = region(plan, view(at, range_m, angle, faces), level, doors_open=opened)
    boxes = [((one["corner_m"][0], one["corner_m"][1], one["base_m"]),
              (one["corner_m"][0] + one["size_m"][0], one["corner_m"][1] + one["size_m"][1], one["height_m"])) for one in furniture.values()]
    low, high = door / 100 - 0.5, door / 100 + 0.5
    boxes += [((x, 0, 0), (x, low, 2.4)), ((x, high, 0), (x, 4, 2.4)), ((x, low, 2.0), (x, high, 2.4))] if opened else [((x, 0, 0), (x, 4, 2.4))]
    for point in targets:
        target = Spot(*point, level)
        if not (0.02 < target.x < 7.98 and 0.02 < target.y < 3.98) or math.dist(at[:2], point) < 0.05:
            continue
        heading = (math.degrees(math.atan2(target.x - at.x, target.y - at.y)) - faces + 180) % 360 - 180
        away = math.dist(at[:2], point)
        hit, close = _blocked(at, target, boxes)
        # What lies on an edge is decided by rounding.
        if close < 0.01 or abs(abs(heading) - angle / 2) < 0.5 or abs(away - range_m) < 0.01:
            continue
        assert found.holds(*point) == (not hit and abs(heading) < angle / 2 and away < range_m), (point, hit, heading, away)


def test_a_thing_with_a_notch_hides_what_its_parts_hide_and_no_more() -> None:
    # An L, 1.25 m high, and the two boxes that make it up: the same is hidden at both levels, and the notch is not.
    corners = [[2, 1], [3, 1], [3, 2.6], [2.4, 2.6], [2.4, 1.4], [2, 1.4]]
    whole = ROOM | {"furniture": {"thing": {"room": "room", "outline_m": corners, "height_m": 1.25}}}
    boxes = ROOM | {"furniture": {"one": {"room": "room", "corner_m": [2, 1], "size_m": [1, 0.4], "height_m": 1.25},
                                  "other": {"room": "room", "corner_m": [2.4, 1.4], "size_m": [0.6, 1.2], "height_m": 1.25}}}
    for height in (0.3, 1.2):
        one, other = (region(plan, view(at=(0.1, 2.0, 2.2)), height_m=height) for plan in (whole, boxes))
        assert one.area_m2 == pytest.approx(other.area_m2, rel=1e-6) and one.shared_m2(other) == pytest.approx(one.area_m2, rel=1e-6)
        assert not one.holds(2.9, 2.5) and one.holds(2.2, 1.6)


# --- the edges of the view, up and down -----------------------------------------------------------------------

def test_the_dead_zone_under_a_detector_is_as_wide_as_its_lower_edge_says_at_each_height() -> None:
    # (h - 0.3) / tan(angle), and the same at 1.2 m: 1.9 and 1.0 over tan 60 are 1.097 and 0.577.
    for level, radius in ((0.3, 1.9 / math.tan(math.radians(60))), (1.2, 1.0 / math.tan(math.radians(60)))):
        found = region(ROOM, view(down_to_deg=60), level)
        assert found.area_m2 == pytest.approx(24 - math.pi * radius ** 2, rel=2e-5)
        assert not found.holds(3 + radius - 0.01, 2) and found.holds(3 + radius + 0.01, 2) and not found.holds(3, 2)
    assert 1.9 / math.tan(math.radians(60)) == pytest.approx(1.097, abs=5e-4)


def test_the_upper_edge_ends_the_view_where_it_has_come_down_to_the_level() -> None:
    # Eye 2.2 m up, upper edge 50 degrees down, tan 50 = 1.19175: 1.594 m out it is at 0.3 m, 0.839 m out at 1.2 m.
    for level, far in ((0.3, 1.9 / 1.191754), (1.2, 1.0 / 1.191754)):
        found = region(ROOM, view(down_from_deg=50, range_m=12), level)
        assert found.area_m2 == pytest.approx(math.pi * far ** 2, rel=2e-5)
        assert found.holds(3 + far - 0.01, 2) and not found.holds(3 + far + 0.01, 2)
    # The range ends it before.
    assert region(ROOM, view(down_from_deg=50, range_m=1.5), 0.3).area_m2 == pytest.approx(math.pi * 1.5 ** 2, rel=2e-5)


def test_between_both_edges_a_ring_is_seen_and_of_a_sector_its_share() -> None:
    near, far = 1.9 / math.tan(math.radians(70)), 1.9 / math.tan(math.radians(48))
    ring = math.pi * (far ** 2 - near ** 2)
    assert region(ROOM, view(down_from_deg=48, down_to_deg=70), 0.3).area_m2 == pytest.approx(ring, rel=3e-5)
    assert region(ROOM, view(angle_deg=90, down_from_deg=48, down_to_deg=70), 0.3).area_m2 == pytest.approx(ring / 4, rel=3e-5)


def test_an_edge_straight_down_leaves_no_dead_zone_and_a_level_upper_edge_no_end() -> None:
    assert region(ROOM, view(down_from_deg=0, down_to_deg=90), 0.3).area_m2 == pytest.approx(24, rel=1e-6)
    assert reach_m(view(range_m=12), 0.3) == (0.0, 12)


def test_a_level_above_the_eye_is_seen_only_by_who_looks_up() -> None:
    low = view(at=(3.0, 2.0, 0.6), range_m=20)
    assert region(ROOM, low, 1.2).area_m2 == pytest.approx(24, rel=1e-6)
    for upper in (0, 10):
        assert region(ROOM, replace(low, down_from_deg=upper), 1.2).area_m2 == 0
    # 30 degrees up, 0.6 m above the eye: from 0.6 / tan 30 = 1.04 m on.
    assert region(ROOM, replace(low, down_from_deg=-30), 1.2).area_m2 == pytest.approx(24 - math.pi * 0.6 ** 2 * 3, rel=1e-4)


def test_the_level_of_the_eye_itself_is_met_by_a_view_that_holds_the_level() -> None:
    level = view(at=(3.0, 2.0, 1.2))
    assert region(ROOM, replace(level, down_from_deg=-5, down_to_deg=60), 1.2).area_m2 == pytest.approx(24, rel=1e-6)
    assert region(ROOM, replace(level, down_from_deg=5, down_to_deg=60), 1.2).area_m2 == 0


@settings(max_examples=80, deadline=None)
@given(height=some.integers(20, 235), level=some.sampled_from([0.3, 1.2]), upper=some.one_of(some.none(), some.integers(-60, 80)),
       spread=some.one_of(some.none(), some.integers(3, 120)), angle=some.sampled_from([30, 90, 200, 360]),
       targets=some.lists(some.tuples(some.floats(0.1, 5.9), some.floats(0.1, 3.9)), min_size=30, max_size=30))
def test_each_ray_is_as_steep_as_the_edges_allow_or_it_sees_nothing(height, level, upper, spread, angle, targets) -> None:
    eye, lower = height / 100, None if spread is None else max(1, min(90, (upper or 0) + spread))
    looks = View("ground", Spot(3.0, 0.5, eye), 4.0, angle, 0.0, upper, lower)
    found = region(ROOM, looks, level)
    for x, y in targets:
        away, down = math.hypot(x - 3.0, y - 0.5), math.degrees(math.atan2(eye - level, math.hypot(x - 3.0, y - 0.5)))
        off = abs(math.degrees(math.atan2(x - 3.0, y - 0.5)))
        close = [abs(away - 4.0) < 0.01, abs(off - angle / 2) < 0.5, away < 0.02, *(abs(down - edge) < 0.3 for edge in (upper, lower) if edge is not None)]
        if not any(close):
            within = (upper is None or down > upper) and (lower is None or down < lower)
            assert found.holds(x, y) == (within and away < 4.0 and off < angle / 2), (x, y, down)


def test_turning_a_detector_keeps_its_edges() -> None:
    built = premises(ground=ROOM)
    turning, looks = Turning(house_of(built), built), view(angle_deg=90, down_from_deg=20, down_to_deg=60)
    for heading in (0, 45, 180):
        for level in (0.3, 1.2):
            turned = replace(looks, faces_deg=heading)
            assert turning.seen(turned, level).area_m2 == pytest.approx(region(ROOM, turned, level).area_m2)
