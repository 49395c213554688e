"""Is of each number that no unit has said that it is free, as the slot map has it, and of all others which numbers there are?"""
import re

import pytest

from generator.calc.results import compute
from generator.calc.slots.slots import KeptFree, SlotMap
from generator.intake.job_reader import read_job
from generator.pages.free_numbers import free_numbers
from generator.pages.installer.slots import _picture
from tests.conftest import JOBS


def slots_of(job: str) -> SlotMap:
    return compute(read_job(JOBS / job / "job.yaml").papers).slots


@pytest.mark.parametrize("job", ["curlew-house", "thrift-cottage", "heron-bungalow"])
def test_every_zone_of_the_slot_map_is_either_a_units_or_told_to_be_free(job: str) -> None:
    slots = slots_of(job)
    told = {number for number, says in free_numbers(slots).free.items() if re.search(rf"Zone {number} (is|stays) free", says)}
    assert told == {str(cell.number) for cell in _picture(slots) if not cell.taken} and told


def test_a_free_number_is_told_with_its_neighbours_in_each_list_of_units() -> None:
    slots = slots_of("thrift-cottage")
    found = free_numbers(slots)
    taken = sorted(row.number for row in slots.rows if row.list == "keypads")
    assert taken == [1] and "Keypad 3 is free (2 to 4 are)." in found.free["3"]
    assert found.lists.startswith("Numbers there are: zones 1 to 32, keypads 1 to 4, ")
    assert "user" not in found.lists and "partition" not in str(found.free)


def test_a_number_that_stays_free_says_why_and_parts_its_neighbours() -> None:
    rows = tuple(row for row in slots_of("thrift-cottage").rows if row.list == "zones" and row.number < 3)
    slots = SlotMap(rows, (), (), (KeptFree("zones", 5, 5, "the customer wants it"),), {"zones": 7, "keypads": 4}, ())
    taken = {row.zone for row in rows}
    found = free_numbers(slots)
    assert found.free["5"] == "Zone 5 stays free: the customer wants it."
    assert found.free["6"] == "Zone 6 is free (6 to 7 are)." and f"{min(taken)}" not in found.free
    assert found.lists == "Numbers there are: zones 1 to 7."
