"""Do labels of a drawing never lie one over the other, nor over a mark, whatever the plan?"""
import random
from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as some

from generator.publish.drawing.labels import Box, Ground, Wanted, below, beside, inside, leader_to

HALL = ((20.0, 20.0), (120.0, 20.0), (120.0, 60.0), (60.0, 60.0), (60.0, 110.0), (20.0, 110.0))


def over(one: Box, other: Box) -> bool:
    """Whether two boxes share more than an edge."""
    return (one.x < other.x + other.width and other.x < one.x + one.width
            and one.y < other.y + other.height and other.y < one.y + one.height)


def clashes(boxes) -> list[tuple[Box, Box]]:
    return [pair for pair in combinations(boxes, 2) if over(*pair)]


def settled(width: float, height: float, wanted: list[Wanted]) -> tuple[list[Box], list[Box], list[Box]]:
    """The boxes that found a place on the drawing, those below it, and the marks."""
    ground = Ground(width, height)
    marks = [Box(one.x - one.reach, one.y - one.reach, 2 * one.reach, 2 * one.reach) for one in wanted]
    for one in marks:
        ground.take(one)
    found = [(one, beside(ground, one)) for one in wanted]
    rows, _ = below(width, height, [one for one, box in found if box is None])
    return [box for _, box in found if box], rows, marks


@settings(max_examples=60, deadline=None)
@given(some.lists(some.builds(Wanted, some.floats(0, 340), some.floats(0, 260), some.sampled_from([5.5, 7.0]), some.floats(8, 120),
                              some.sampled_from([14.0, 28.0])), min_size=1, max_size=45))
def test_no_two_labels_overlap_and_none_hides_a_mark_or_leaves_the_drawing(wanted) -> None:
    there, rows, marks = settled(340.0, 260.0, wanted)
    assert len(there) + len(rows) == len(wanted) and not clashes([*there, *rows])
    assert not [1 for box in (*there, *rows) for mark in marks if over(box, mark) and box.y < 260]
    assert all(0 <= box.x and box.x + box.width <= 340 for box in (*there, *rows))
    assert all(box.y >= 260 for box in rows) and all(0 <= box.y and box.y + box.height <= 260 for box in there)


def test_a_crowd_of_two_hundred_units_is_placed_and_the_rest_stands_below() -> None:
    chance = random.Random(7)
    wanted = [Wanted(chance.uniform(20, 320), chance.uniform(20, 240), 5.5, chance.uniform(20, 60), 14.0) for _ in range(200)]
    there, rows, _ = settled(340.0, 260.0, wanted)
    assert len(there) > 30 and len(rows) > 30 and not clashes([*there, *rows])


def test_a_label_stands_beside_its_mark_where_nothing_is_in_the_way_and_moves_on_where_something_is() -> None:
    ground, wanted = Ground(340.0, 200.0), Wanted(100.0, 100.0, 5.0, 40.0, 14.0)
    first = beside(ground, wanted)
    assert (first.x, first.middle[1]) == (107.0, 100.0)
    second = beside(ground, wanted)
    assert (second.x + second.width, second.middle[1]) == (93.0, 100.0)


def test_a_label_rather_hides_no_line() -> None:
    ground, wanted = Ground(340.0, 200.0), Wanted(100.0, 100.0, 5.0, 40.0, 14.0)
    ground.draw((105.0, 100.0), (200.0, 100.0), 4)
    assert beside(ground, wanted).x < 100


def test_a_name_stands_in_its_area_off_its_corners_and_off_what_is_taken() -> None:
    ground = Ground(340.0, 200.0)
    ground.take(Box(40.0, 30.0, 20.0, 20.0))
    name = inside(ground, HALL, Wanted(55.0, 50.0, 0.0, 50.0, 14.0))
    assert name and not over(name, Box(40.0, 30.0, 20.0, 20.0)) and name.x >= 60 and name.y + name.height <= 60
    assert inside(ground, HALL, Wanted(55.0, 50.0, 0.0, 50.0, 14.0)) != name
    assert inside(ground, HALL, Wanted(55.0, 50.0, 0.0, 101.0, 14.0)) is None


def test_a_leader_ends_at_the_nearest_point_of_its_label() -> None:
    box = Box(10.0, 10.0, 30.0, 14.0)
    assert leader_to(0.0, 0.0, box) == (10.0, 10.0) and leader_to(20.0, 50.0, box) == (20.0, 24.0) and leader_to(90.0, 12.0, box) == (40.0, 12.0)
