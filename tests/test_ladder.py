"""Does each job of the ladder show its one idea, and no more than that?"""
import re
from functools import cache
from pathlib import Path

import pytest
import yaml
from bs4 import BeautifulSoup

from generator.intake.find import job_files
from generator.pages.manual.ladder import Rung, look_at
from generator.pipeline import Compiled, compile_job
from generator.publish.ladder import rungs
from generator.publish.pack import write_pack
from generator.publish.places import LADDER
from tests.conftest import JOBS, ROOT

FOLDERS = sorted(path.name for path in LADDER.iterdir() if path.is_dir())
# Zones of each rung, worked out by hand from the order of the trade and the starts of the European profile (1 entry, 5 route,
# 9 perimeter): the rung's own idea is what differs from the one before.
ZONES = {
    "01-one-door": {1: "D1"},
    "02-movement": {1: "D1", 5: "M1"},
    "03-texts-and-order": {1: "D1", 5: "M1", 9: "D2", 10: "D3"},
    "04-second-input": {1: "D1", 5: "M1", 9: "D2", 10: "D2", 11: "D3"},
    "05-users": {1: "D1", 5: "M1", 9: "D2", 10: "D2", 11: "D3"},
    "06-numbers": {1: "D1", 5: "M1", 9: "D2", 10: "D2", 12: "D3"},
    "07-repeater": {1: "D1", 5: "M1", 9: "D2", 10: "D2", 12: "D3", 14: "D4"},
    "10-partitions": {1: "D1", 2: "D4", 5: "M1", 9: "D2", 10: "D2", 12: "D3"},
    "12-issued": {1: "D1", 2: "D4", 5: "M1", 9: "D2", 10: "D2", 12: "D3", 13: "D5"},
}
ZONES |= {name: ZONES["07-repeater"] for name in ("08-part-set", "09-monitoring")} | {"11-accepted": ZONES["10-partitions"]}
# The keys that a rung is the first to use.
FIRST = {
    "02-movement": {"devices.*.room", "devices.*.role"}, "03-texts-and-order": {"premises.storeys.*.rooms.*.name"},
    "04-second-input": {"devices.*.use_input_2", "devices.*.text_2", "devices.*.protects_2"}, "05-users": {"users.*.fob", "users.*.tag"},
    "06-numbers": {"devices.*.number", "devices.*.number_why", "reserved"}, "07-repeater": {"devices.*.via", "premises.storeys.*.outbuilding"},
    "08-part-set": {"part_sets", "devices.*.left_out_in"}, "09-monitoring": {"monitoring"}, "10-partitions": {"partitions", "devices.*.partition"},
    "11-accepted": {"accepted"},
}


@pytest.fixture(scope="module")
def jobs() -> dict[str, Compiled]:
    """Every rung, worked out."""
    return {name: compile_job(LADDER / name / "job.yaml") for name in FOLDERS}


def data(name: str) -> dict:
    """A rung's job file as another parser reads it."""
    return yaml.safe_load((LADDER / name / "job.yaml").read_text(encoding="utf-8"))


def ways(value, before: str = "") -> set[str]:
    """Every key that a file uses, names that the writer chose as a star."""
    named = before in ("devices", "users", "partitions", "part_sets", "premises.storeys", "premises.storeys.*.rooms", "premises.storeys.*.openings")
    out: set[str] = set()
    for key, inner in value.items() if isinstance(value, dict) else ():
        way = ".".join(filter(None, (before, "*" if named else str(key))))
        out |= {way} | ways(inner, way)
    return out


def test_the_rungs_are_numbered_without_a_gap() -> None:
    assert FOLDERS == sorted(ZONES) and [name[:2] for name in FOLDERS] == [f"{number:02}" for number in range(1, len(FOLDERS) + 1)]


@pytest.mark.parametrize("name", FOLDERS)
def test_a_rung_has_the_zones_that_are_meant(jobs, name: str) -> None:
    assert {row.zone: row.device for row in jobs[name].results.slots.rows if row.list == "zones"} == ZONES[name]


@pytest.mark.parametrize("name", FOLDERS)
def test_nothing_of_a_rung_is_stopped(jobs, name: str) -> None:
    assert not jobs[name].stops


@pytest.mark.parametrize("name", FOLDERS)
def test_a_rung_uses_first_the_keys_that_it_is_about(name: str) -> None:
    index = FOLDERS.index(name)
    earlier = set().union(*(ways(data(one)) for one in FOLDERS[:index]))
    own = ways(data(name))
    assert FIRST.get(name, set()) <= own
    if index and name != "02-movement":
        assert FIRST.get(name, set()) & earlier == set()


@pytest.mark.parametrize("before, name", list(zip(FOLDERS, FOLDERS[1:])))
def test_a_rung_keeps_all_keys_of_the_one_before_and_the_house_its_name(before: str, name: str) -> None:
    assert ways(data(before)) - ways(data(name)) == set()
    assert data(before)["title"] == data(name)["title"] and data(before)["dated"] == data(name)["dated"]


@pytest.mark.parametrize("name", FOLDERS)
def test_a_rung_says_at_its_head_what_it_shows_and_the_page_that_it_names_is_there(name: str) -> None:
    text = (LADDER / name / "job.yaml").read_text(encoding="utf-8")
    head = [line for line in text.splitlines() if line.startswith("#")]
    assert 3 <= len(head) <= 10 and len(head[0]) <= 70 and look_at(text)
    shown = next(one for one in shown_rungs() if one.folder == name)
    assert shown.page and shown.page_name.endswith(f"({look_at(text)})")


@cache
def shown_rungs() -> tuple[Rung, ...]:
    """The rungs as the manual shows them, worked out once."""
    return rungs()[0]


def test_no_reference_stands_twice_over_all_jobs() -> None:
    every = [yaml.safe_load(path.read_text(encoding="utf-8"))["reference"].lower() for path in JOBS.rglob("job.yaml")]
    assert len(every) == len(set(every)) >= len(FOLDERS) + 5


def test_building_all_jobs_does_not_build_the_ladder_and_building_the_ladder_does() -> None:
    assert not [path for path in job_files(JOBS) if LADDER in path.parents]
    assert [path.parent.name for path in job_files(LADDER)] == FOLDERS


def test_the_accepted_finding_stops_the_rung_without_its_acceptance(jobs, tmp_path: Path) -> None:
    accepted = [one for one in jobs["11-accepted"].findings if one.accepted]
    assert [one.rule for one in accepted] == ["entry-time-long"]
    text = (LADDER / "11-accepted" / "job.yaml").read_text(encoding="utf-8")
    assert compile_job(written(tmp_path, text.partition("accepted:\n")[0])).stops


def written(folder: Path, text: str) -> Path:
    """A job file beside the shared files of the jobs."""
    for name in ("company.yaml", "equipment"):
        (folder / name).symlink_to(JOBS / name)
    (folder / "job").mkdir()
    (folder / "job" / "job.yaml").write_text(text, encoding="utf-8")
    return folder / "job" / "job.yaml"


def test_the_window_added_after_the_issue_would_have_moved_others_before_it(jobs, tmp_path: Path) -> None:
    """Without `issued.yaml` the hall's window stands before all windows, at the first number of its block, and moves the back door's contact."""
    text = (LADDER / "12-issued" / "job.yaml").read_text(encoding="utf-8")
    zones = {row.device: row.zone for row in reversed(compile_job(written(tmp_path, text)).results.slots.rows) if row.list == "zones"}
    assert (zones["D5"], zones["D2"]) == (9, 10) and ZONES["12-issued"][9] == "D2"
    assert jobs["12-issued"].last.revision == 1 and jobs["12-issued"].changes(None) is not None


def test_part_set_and_station_are_there_from_the_ninth_rung_on(jobs) -> None:
    """What the manual promises of ten minutes: a monitored job with a part-set, by a file that is read in that time."""
    job = jobs["09-monitoring"].papers.job
    assert job.monitoring and job.part_sets and any(one.left_out_in for one in job.devices.values())
    words = sum(len(re.findall(r"\w+", line)) for name in FOLDERS[:9] for line in new_lines(name))
    # 200 words a minute is common practice for plain text; a file is read more slowly: half of that.
    assert words <= 10 * 100


def new_lines(name: str) -> list[str]:
    """What a reader has not read yet: the head, and the lines that the rung before does not have."""
    index = FOLDERS.index(name)
    before = set((LADDER / FOLDERS[index - 1] / "job.yaml").read_text(encoding="utf-8").splitlines()) if index else set()
    return [line for line in (LADDER / name / "job.yaml").read_text(encoding="utf-8").splitlines() if line not in before]


def test_the_manual_shows_of_a_rung_what_is_new(manual: Path) -> None:
    """By hand: the second rung adds one line to the file and one number."""
    soup = BeautifulSoup((manual / "ladder" / "02-movement.html").read_text(encoding="utf-8"), "html5lib")
    new = ["".join(one.get_text().split()) for one in soup.select("ins")]
    assert new[:3] == ["+reference:L-02", "+M1:{sheet:tern-pir12,room:hall,role:entry-route,text:HALLMOVEMENT}", "+zone5M1HALLMOVEMENT"]
    assert [one.get_text().strip() for one in soup.select_one("pre.lines").select("del")] == ["−reference: L-01"]


@pytest.mark.long
@pytest.mark.parametrize("name", FOLDERS)
def test_a_rung_is_built(jobs, tmp_path: Path, name: str) -> None:
    assert (write_pack(jobs[name], tmp_path) / "installer" / "index.html").is_file()


def test_the_readme_names_the_ladder() -> None:
    assert "jobs/ladder" in (ROOT / "README.md").read_text(encoding="utf-8")
