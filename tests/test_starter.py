"""Do the starter files build as they stand, both ways of giving a house, and read back as they were written?"""
import tempfile
from pathlib import Path

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.intake.job_reader import read_job
from generator.intake.yaml_tree import read_tree
from generator.publish.places import TEMPLATES
from generator.record import starter
from generator.record.starter import HOUSES, LETTERS, PATH_LETTERS, write_starter

STARTER = TEMPLATES / "starter"


@pytest.mark.parametrize("house", HOUSES)
def test_starter_files_build_as_they_stand_and_nothing_stops(run, tmp_path, house: str) -> None:
    assert run("new", tmp_path / "job", "--house", house)[0] == 0
    code, out, err = run("build", tmp_path / "job", "--out", tmp_path / "packs")
    assert code == 0 and err == ""
    assert [line.split()[1:3] for line in out.splitlines() if " serial-" in line] == [["note", "serial-not-captured"]]
    assert (tmp_path / "packs" / "J-0001" / "installer" / "index.html").is_file()


def test_a_plan_gives_places_and_measures_and_paths_give_none(tmp_path) -> None:
    jobs = {}
    for house in HOUSES:
        write_starter(tmp_path / house, STARTER, house)
        jobs[house] = read_job(tmp_path / house / "job.yaml").papers.job
    plan, paths = jobs["plan"], jobs["paths"]
    assert all(room.corner_m or room.outline_m for storey in plan.premises.storeys.values() for room in storey.rooms.values())
    assert plan.premises.stairs and plan.control_unit.at_m and not any(device.path for device in plan.devices.values())
    assert not any(room.corner_m or room.outline_m for storey in paths.premises.storeys.values() for room in storey.rooms.values())
    assert all(device.path for name, device in paths.devices.items() if name != "F1") and paths.control_unit.at_m is None
    assert list(plan.devices) == list(paths.devices) and list(plan.premises.storeys) == list(paths.premises.storeys)


@pytest.mark.parametrize("house", HOUSES)
def test_no_mark_of_the_templates_is_left_and_every_file_has_a_comment_or_is_a_sheet(tmp_path, house: str) -> None:
    for path in write_starter(tmp_path / "job", STARTER, house):
        text = path.read_text(encoding="utf-8")
        assert not any(line.startswith(tuple(f"{one}:" for one in HOUSES)) for line in text.splitlines()) and ": @" not in text
        assert "# " in text or path.parent.name == "equipment", path.name


def test_each_kind_of_unit_that_the_starter_brings_has_a_sheet_that_can_be_used(tmp_path) -> None:
    paths = write_starter(tmp_path / "job", STARTER)
    sheets = {path.stem for path in paths if path.parent.name == "equipment"}
    assert sheets == {"control-unit", "contact", "movement", "keypad", "sounder", "fob", "repeater"}
    job = (tmp_path / "job" / "job.yaml").read_text(encoding="utf-8")
    repeater = "  R1: {sheet: repeater, room: landing}\n  D9: {sheet: movement, room: landing, role: immediate, text: LANDING, via: R1}\n"
    (tmp_path / "job" / "job.yaml").write_text(job.replace("\nusers:", f"{repeater}\nusers:"), encoding="utf-8")
    assert read_job(tmp_path / "job" / "job.yaml").papers.job.devices["D9"].via == "R1"


@settings(deadline=None, max_examples=30)
@given(st.sampled_from(HOUSES), st.lists(st.text(LETTERS, min_size=PATH_LETTERS, max_size=PATH_LETTERS), min_size=4, max_size=4))
def test_what_is_written_reads_back_equal(house: str, names: list[str]) -> None:
    drawn = iter(names)
    with tempfile.TemporaryDirectory() as folder, pytest.MonkeyPatch.context() as patched:
        patched.setattr(starter, "path_name", lambda: next(drawn))
        for path in write_starter(Path(folder) / "job", STARTER, house):
            text = path.read_text(encoding="utf-8")
            # PyYAML's base loader reads every value as text too; it knows nothing of places or problems.
            assert read_tree(path, path.name).data == yaml.load(text, yaml.BaseLoader)
        assert list(read_job(Path(folder) / "job" / "job.yaml").papers.job.publish.model_dump(exclude_none=True).values()) == names
