"""Does the search by bounds find the best of all spots, whatever the figures are, and say so where it gave up before the end?"""
import math

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as some

from generator.calc.radio import nearest_move, place_search
from generator.calc.radio.place_search import best_spot
from generator.geometry.nodes import nodes_of
from generator.geometry.shapes import Spot
from generator.geometry.stretches import Stretch

NODES = nodes_of((Stretch("s", "one", Spot(0, 0, 1), Spot(6, 0, 1)), Stretch("s", "two", Spot(0, 3, 1), Spot(4.02, 3, 1))), 10_000)
PLACE = {NODES.spot(index): index for index in range(len(NODES.at))}
MANY = len(NODES.at)
RATINGS = some.lists(some.tuples(some.integers(0, 2), some.integers(-20, 20).map(float)), min_size=MANY, max_size=MANY)
SLACKS = some.lists(some.integers(0, 8), min_size=MANY, max_size=MANY)


def found(ratings, slacks, least=(0, -99.0)):
    """What the search finds where spots have these ratings and bounds exceed them by so much, and how many it rated."""
    bounds, rated = [(count, reserve + slack) for (count, reserve), slack in zip(ratings, slacks)], []

    def bounded(first: np.ndarray, last: np.ndarray | None, _: np.ndarray) -> np.ndarray:
        if last is None:
            return np.array([bounds[PLACE[Spot(*map(float, at))]] for at in first])
        return np.array([max(bounds[PLACE[Spot(*map(float, one))]:PLACE[Spot(*map(float, other))] + 1]) for one, other in zip(first, last)])

    def rate(spot: Spot, _: int, best):
        # Between the spots there is nothing better: the last look round finds the same place.
        rated.append(spot)
        rating = ratings[PLACE[spot]] if spot in PLACE else None
        return rating if rating and rating >= best else None

    return best_spot(NODES, bounded, rate, least), rated


def test_spots_stand_every_five_centimetres_and_at_both_ends_of_a_line() -> None:
    assert [round(float(x), 2) for x, y, _ in NODES.at if y == 0] == [round(0.05 * number, 2) for number in range(121)]
    assert [float(x) for x, y, _ in NODES.at if y == 3][-2:] == [4.0, 4.02]
    covered = [index for first, last in NODES.groups for index in range(first, last + 1)]
    assert covered == list(range(MANY)) and max(last - first for first, last in NODES.groups) == 9


def test_where_there_would_be_too_many_they_stand_farther_apart_and_the_last_look_closes_the_gap() -> None:
    wide = nodes_of(NODES.stretches, 20)
    assert wide.step_m == 10.02 / 20 and len(wide.at) <= 24
    (first, second, third), near = wide.finer(), NODES.finer()
    assert [first[0], second[0], third[0]] == [0.501, first[1], second[1]] and third[1] == 0.01 and near == [(0.05, 0.01)]
    around = {round(spot.x - float(wide.at[3][0]), 2) for spot in wide.round_about(0, wide.spot(3), 0.05, 0.01)}
    assert around == {round(0.01 * number, 2) for number in range(-5, 6) if number}


@settings(max_examples=60, deadline=None)
@given(RATINGS, SLACKS)
def test_the_best_is_found_and_of_equals_the_first(ratings, slacks) -> None:
    best, _ = found(ratings, [slack + 1 for slack in slacks])
    expected = max(ratings)
    assert best.rating == expected and best.proved
    assert best.spot == NODES.spot(ratings.index(expected)) and best.stretch == int(NODES.stretch[ratings.index(expected)])


@settings(max_examples=20, deadline=None)
@given(RATINGS, SLACKS)
def test_nothing_is_found_where_nothing_is_better_than_what_there_is(ratings, slacks) -> None:
    assert found(ratings, slacks, max(ratings))[0] is None


def test_of_a_long_slope_hardly_any_spot_is_rated() -> None:
    ratings = [(1, -0.1 * index) for index in range(MANY)]
    best, rated = found(ratings, [0] * MANY)
    assert best.spot == NODES.spot(0) and len(rated) < 12


def test_a_search_that_gives_up_says_so(monkeypatch) -> None:
    monkeypatch.setattr(place_search, "MOST_TRIED", 5)
    best, rated = found([(1, float(index % 7)) for index in range(MANY)], [8] * MANY)
    assert not best.proved and len(set(rated) & set(PLACE)) <= 7


class Among(nearest_move._Nearest):
    """The search for the nearest spot, where only some spots do."""

    does: set[Spot] = frozenset()

    def _most(self, first, last=None):
        return np.zeros(len(first))

    def _does(self, spot):
        return "heard" if spot in self.does else None


@settings(max_examples=80, deadline=None)
@given(some.sets(some.integers(0, MANY - 1), min_size=40) | some.just(set()), some.floats(0, 6), some.floats(0, 3))
def test_the_nearest_of_the_spots_that_do_is_found(does, x, y) -> None:
    Among.does = {NODES.spot(index) for index in does}
    found = Among(None, None, Spot(x, y, 1), Spot(0, 0, 0), NODES).found()
    nearest = min((math.dist(spot, (x, y, 1)) for spot in Among.does), default=None)
    assert (found is None) == (nearest is None) and (found is None or math.isclose(found.distance_m, nearest, abs_tol=1e-9))
