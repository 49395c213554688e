"""Is each unit heard through the receiver that makes the smallest reserve as large as can be, as trying every way finds?"""
from collections import Counter
from itertools import product
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from generator.calc.radio.assignment import SAME_DB, assigned
from generator.calc.radio.links import links_of_job
from generator.calc.radio.ordered_cost import Cost
from generator.calc.radio.receivers import best_receivers
from generator.calc.unknown import Unknown
from generator.intake.job_reader import read_job
from tests.conftest import JOBS, read_files, write_files


def tried(root, reserves, carries, hops):
    """Every way there is, each checked by walking it; the best by sorted reserves, then by receivers in the order of ids."""
    names, receivers = sorted(reserves), [root, *sorted(carries)]
    best = None
    for chosen in product(*([one for one in receivers if one != name and one in reserves[name]] + [None] for name in names)):
        through, load, right = dict(zip(names, chosen)), dict.fromkeys(carries, 0), True
        for name in names:
            at, seen = through[name], []
            while at not in (root, None) and at not in seen:
                seen.append(at)
                at = through.get(at)
            # What hangs on a repeater must reach the control unit over few enough; a repeater hangs on another only where it is of use.
            most = max(0, hops - 1) if name in carries else hops
            right = right and (through[name] is None or (at == root and len(seen) <= most))
            if through[name] is not None:
                for one in seen:
                    load[one] += 1
        if not right or any(load[one] > carries[one] for one in carries):
            continue
        values = sorted(round(reserves[name][to] / SAME_DB) if to is not None else -10 ** 12 for name, to in through.items())
        order = [receivers.index(to) if to is not None else len(receivers) for _, to in sorted(through.items())]
        key = ([-one for one in values], order)
        if best is None or key < best[0]:
            best = (key, through)
    return best[1]


@some.composite
def houses(draw):
    repeaters = [f"R{index}" for index in range(draw(some.integers(0, 2)))]
    units = [f"D{index}" for index in range(draw(some.integers(1, 7 if len(repeaters) < 2 else 5)))]
    values = some.integers(-3, 3).map(float)
    reserves = {name: {to: draw(values) for to in ["CU", *repeaters] if to != name and draw(some.integers(0, 4))} for name in (*units, *repeaters)}
    return reserves, {name: draw(some.integers(0, 4)) for name in repeaters}, draw(some.integers(0, 3))


@settings(max_examples=250, deadline=None)
@given(houses())
def test_no_other_way_is_better(house) -> None:
    reserves, carries, hops = house
    assert dict(assigned("CU", reserves, carries, hops).through) == tried("CU", reserves, carries, hops)


def test_seven_units_and_three_receivers_are_heard_as_trying_every_way_finds() -> None:
    reserves = {f"D{index}": {"CU": float(index % 3 - 1), "R1": float((index * 5) % 4), "R2": float((index * 3) % 5 - 1)} for index in range(7)}
    reserves |= {"R1": {"CU": 9.0, "R2": 2.0}, "R2": {"CU": 8.0, "R1": 1.0}}
    carries = {"R1": 2, "R2": 3}
    for hops in (1, 2):
        assert dict(assigned("CU", reserves, carries, hops).through) == tried("CU", reserves, carries, hops)


@pytest.mark.parametrize("seed", [0, 1, *(pytest.param(seed, marks=pytest.mark.long) for seed in range(2, 20))])
def test_seven_units_and_three_receivers_of_chance_are_heard_as_trying_every_way_finds(seed) -> None:
    chance = Random(seed)
    names, receivers = [*(f"D{index}" for index in range(7)), "R1", "R2"], ("CU", "R1", "R2")
    reserves = {name: {to: float(chance.randint(-6, 6)) for to in receivers if to != name and chance.random() < 0.85} for name in names}
    carries, hops = {"R1": chance.randint(0, 4), "R2": chance.randint(0, 4)}, chance.choice([1, 2])
    assert dict(assigned("CU", reserves, carries, hops).through) == tried("CU", reserves, carries, hops)


def test_forty_repeaters_are_no_more_ways_than_one() -> None:
    repeaters = [f"R{index:02}" for index in range(40)]
    reserves = {f"D{index:03}": {to: float((index * (place + 3)) % 41 - 5) for place, to in enumerate(("CU", *repeaters)) if (index + place) % 3} for index in range(80)}
    reserves |= {one: {"CU": 12.0} for one in repeaters[:-1]} | {repeaters[-1]: {repeaters[0]: 9.0}}
    found = assigned("CU", reserves, dict.fromkeys(repeaters, 2), 2)
    # The last is not heard by the control unit, and with so many what they hang on is not searched.
    assert {found.through[one] for one in repeaters[:-1]} == {"CU"} and found.through[repeaters[-1]] is None
    assert max(Counter(to for to in found.through.values() if to in repeaters).values()) <= 2


def test_taking_the_best_for_each_in_turn_is_not_enough() -> None:
    # R1 carries one. D1, asked first, would take it for 9 instead of 8, and D2 would be left with -4.
    reserves = {"D1": {"CU": 8.0, "R1": 9.0}, "D2": {"CU": -4.0, "R1": 5.0}, "R1": {"CU": 20.0}}
    found = assigned("CU", reserves, {"R1": 1}, 1)
    assert dict(found.through) == {"D1": "CU", "D2": "R1", "R1": "CU"} and found.reserves == (5.0, 8.0, 20.0)


def test_of_equals_the_first_by_id_is_taken_and_a_hair_is_no_difference() -> None:
    reserves = {"D1": {"CU": 5.0, "R1": 5.0 + 1e-9}, "R1": {"CU": 9.0}}
    assert assigned("CU", reserves, {"R1": 4}, 1).through["D1"] == "CU"


def test_what_nothing_can_hear_is_left_out_and_no_hop_means_no_repeater() -> None:
    assert assigned("CU", {"D1": {}, "D2": {"R1": 5.0}, "R1": {"CU": 3.0}}, {"R1": 4}, 0).through == {"D1": None, "D2": None, "R1": "CU"}


def test_hundreds_of_units_are_assigned_where_half_of_the_repeaters_are_full() -> None:
    reserves = {f"D{index:04}": {one: float((index * step) % 97) for one, step in (("CU", 7), ("R1", 13), ("R2", 29), ("R3", 31))} for index in range(400)}
    reserves |= {one: {"CU": 30.0} for one in ("R1", "R2", "R3")}
    found = assigned("CU", reserves, {"R1": 60, "R2": 120, "R3": 500}, 1)
    load = [sum(to == one for to in found.through.values()) for one in ("R1", "R2", "R3")]
    assert load[0] <= 60 and load[1] <= 120 and None not in found.through.values()


@given(some.lists(some.tuples(some.tuples(some.integers(0, 1), some.integers(0, 4)), some.integers(-2, 2)), max_size=6), some.lists(some.tuples(some.tuples(
    some.integers(0, 1), some.integers(0, 4)), some.integers(-2, 2)), max_size=6))
def test_costs_are_ordered_place_by_place(one, other) -> None:
    def dense(entries) -> list[int]:
        return [sum(value for place, value in entries if place == (group, index)) for group in (0, 1) for index in range(5)]

    left, right = (sum((Cost(((place, value),)) for place, value in entries if value), Cost()) for entries in (one, other))
    assert (left < right) == (dense(one) < dense(other)) and (left == right) == (dense(one) == dense(other))
    assert (left - right) + right == left


# --- of a job -------------------------------------------------------------------------------------------------

def of_job(tmp_path, *changes):
    files = read_files(JOBS / "curlew-house")
    for change in changes:
        change(files)
    papers = read_job(write_files(files, tmp_path / "job")).papers
    links = links_of_job(papers)
    return papers, links, best_receivers(papers, links)


def test_in_the_large_demo_the_repeater_would_hear_what_the_control_unit_hears_badly(tmp_path) -> None:
    _, of_units, found = of_job(tmp_path)
    links = of_units.units
    assert {name for name, to in found.through.items() if to == "R1"} >= {"D11", "M7", "M4"} and found.through["R1"] == "CU"
    assert found.reserves[0] == min(links[name].to[to].reserve_db for name, to in found.through.items())
    assert found.reserves[0] >= min(one.link.reserve_db for one in links.values())


def test_a_repeater_carries_no_more_than_its_sheet_says(tmp_path) -> None:
    _, _, found = of_job(tmp_path, lambda f: f["equipment"]["tern-rp"].update(repeats="3"))
    assert sum(to == "R1" for to in found.through.values()) == 3


@pytest.mark.parametrize("change, reason", [
    (lambda f: f["equipment"]["tern-rp"].pop("repeats"), "the sheet of R1 gives no repeats; write repeats in the sheet tern-rp"),
])
def test_what_is_missing_for_it_is_named(tmp_path, change, reason) -> None:
    _, _, found = of_job(tmp_path, change)
    assert isinstance(found, Unknown) and found.reason == reason


def test_where_no_repeater_may_stand_between_all_are_heard_directly(tmp_path) -> None:
    _, _, found = of_job(tmp_path, lambda f: f["equipment"]["tern-cu48"]["control_unit"].update(hops="0"))
    assert set(found.through.values()) == {"CU"}
