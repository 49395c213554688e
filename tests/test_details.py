"""Do details that stand at the wrong thing get their answer, each at its line?"""
import pytest

from generator.intake.job_reader import read_job
from generator.terms.problem import JobInvalid
from tests.conftest import Files, read_files, write_files


def problems(files: Files, folder) -> list[str]:
    """What is said of a job, without file and line."""
    try:
        read_job(write_files(files, folder))
    except JobInvalid as found:
        assert all(one.line for one in found.problems)
        return [f"{one.field}: {one.says}" for one in found.problems]
    return []


@pytest.fixture
def files() -> Files:
    """The cottage with a way of setting for the night, a cable, an order and a permit."""
    out = read_files()
    out["job"]["part_sets"] = {"night": {"name": "Night", "when": "everybody sleeps"}}
    out["job"]["cables"] = {"run": {"size_mm2": "0.5", "build": "stranded", "loads": [{"unit": "S1", "at_m": "9"}, {"unit": "K1", "at_m": "12"}]}}
    out["job"]["agreement"] = {"decided_by": "householder", "tenure": "owner", "insurer": "none", "signed_on": "2026-08-03",
                               "early_start_on": "2026-08-03", "work_on": "2026-09-01", "in_use_on": "2026-09-01"}
    out["job"]["monitoring"]["permits"] = {"one": {"covers": "all", "by": "police", "since": "2026-08-01", "valid_to": "2026-08-01"}}
    out["job"]["devices"]["D2"]["left_out_in"] = ["night"]
    return out


def test_a_job_with_all_of_them_is_taken(files, tmp_path) -> None:
    assert problems(files, tmp_path) == []


@pytest.mark.parametrize("path, value, said", [
    (("devices", "D2", "left_out_in"), ["nigth"], 'devices.D2.left_out_in.0: there is no part set "nigth".'),
    (("devices", "K1", "omit"), "true", "devices.K1.omit: a keypad reports to no zone."),
    (("devices", "D1", "signal"), "silent", "devices.D1.signal: this unit is no hold-up unit."),
    (("cables", "run", "awg"), "18", "cables.run.awg: one size of conductor is wanted here."),
    (("cables", "run", "loads", 1, "unit"), "S2", 'cables.run.loads.1.unit: there is no unit "S2".'),
    (("cables", "run", "loads", 1, "at_m"), "8", "cables.run.loads.1.at_m: 8 m is nearer than the unit before it, at 9 m."),
    (("cables", "run", "loads", 1, "at_m"), "0", "cables.run.loads.1.at_m: 0 is out of range."),
    (("premises", "storeys", "ground", "rooms", "hall"), {"coldest_c": "9", "warmest_c": "8"},
     "premises.storeys.ground.rooms.hall.coldest_c: 9 °C is the coldest here and 8 °C the warmest."),
    (("agreement", "early_start_on"), "2026-08-02", "agreement.early_start_on: 2 Aug 2026 lies before 3 Aug 2026, when the order was signed."),
    (("agreement", "in_use_on"), "2026-08-31", "agreement.in_use_on: 31 Aug 2026 lies before 1 Sep 2026, when work begins."),
    (("monitoring", "permits", "one", "valid_to"), "2026-07-31", "monitoring.permits.one.valid_to: 31 Jul 2026 lies before 1 Aug 2026, when it was given."),
], ids=lambda value: ".".join(map(str, value)) if isinstance(value, tuple) else "")
def test_a_detail_at_the_wrong_place_is_answered(files, tmp_path, path, value, said) -> None:
    place = files["job"]
    for part in path[:-1]:
        place = place[part]
    place[path[-1]] = value
    assert problems(files, tmp_path) == [said]


def test_a_cable_without_a_size_is_answered(files, tmp_path) -> None:
    del files["job"]["cables"]["run"]["size_mm2"]
    assert problems(files, tmp_path) == ["cables.run: one size of conductor is wanted here."]
