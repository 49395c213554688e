"""Is each thing that cannot be in ways, views and sound answered at its own line, as a problem or a finding, with a mend?

The line is found anew in the file's text, by the depth of its keys.
"""
import re
from pathlib import Path

import pytest

from generator.calc.results import compute
from generator.intake.job_reader import read_job
from generator.rules.all_rules import findings, judge
from generator.terms.problem import JobInvalid
from tests.conftest import JOBS, read_files, write_files

OPENINGS = ("premises", "storeys", "ground", "openings")
KEY = re.compile(r'( *)"([^"]+)":')


def line_of(file: Path, *way: str) -> int:
    """The line on which a key stands in a file that is written one key a line, each a blank deeper than what holds it."""
    here: list[str] = []
    for number, text in enumerate(file.read_text(encoding="utf-8").splitlines(), 1):
        if found := KEY.match(text):
            here = [*here[:len(found[1]) - 1], found[2]]
            if tuple(here) == way:
                return number
    raise AssertionError(way)


def job(*way: str, **keys):
    """A change of the job file: keys under a place; None takes one out."""

    def change(files) -> None:
        here = files["job"]
        for part in way:
            here = here.setdefault(part, {})
        for key, value in keys.items():
            here.pop(key, None) if value is None else here.update({key: value})

    return change


def view(**keys):
    return lambda files: files["equipment"]["tern-pir12"]["coverage"].update(keys)


def speed(files) -> None:
    files["company"].setdefault("limits", {})["walk_slow_mps"] = {"value": "0", "because": "nobody is in a hurry"}


def both(*changes):
    return lambda files: [change(files) for change in changes]


# What is wrong; in which file and where that is answered; what stands there, and what to write instead.
PROBLEMS = {
    "a door that lies in no wall": (job(*OPENINGS, "front-door", at_m=["5.0", "1.0"]), "job.yaml", (*OPENINGS, "front-door", "at_m"),
                                    "[5, 1] is not on the wall between hall and outside.", "That wall runs from [4, 0] to [6, 0]."),
    "a door that runs into the next wall": (job(*OPENINGS, "front-door", at_m=["5.8", "0"]), "job.yaml", (*OPENINGS, "front-door", "at_m"),
                                            "past the end of the wall between hall and outside", "at most 0.4 m wide here"),
    "a detector that faces its own wall": (job("devices", "M5", faces_deg="45"), "job.yaml", ("devices", "M5", "faces_deg"),
                                           "45 looks at the wall 0.14 m before M5.", "into study it is about"),
    "a view of 400 degrees": (view(angle_deg="400"), "equipment/tern-pir12.yaml", ("coverage", "angle_deg"), "400 is out of range.", "from 1 to 360"),
    "a lower edge of 100 degrees": (view(down_to_deg="100"), "equipment/tern-pir12.yaml", ("coverage", "down_to_deg"), "100 is out of range.", "from 1 to 90"),
    "a speed of 0": (speed, "company.yaml", ("limits", "walk_slow_mps", "value"), "0 m/s cannot be: nobody would arrive.", "Write a number above 0."),
    "a boundary through the house": (job("premises", boundary_m=[["-3", "-7"], ["5", "-7"], ["5", "29"], ["-3", "29"]]), "job.yaml", ("premises", "boundary_m"),
                                     "garage of ground reaches 8 m beyond it, and 13 more rooms besides.", "goes round every building"),
}
FINDINGS = {
    # A screen across the hall, from wall to wall, 0.4 m inside the front door; the tag reader stands behind it too.
    "a door that opens into a wall": (job("premises", "storeys", "ground", "walls", "own", screen={
        "from_m": ["4.0", "0.4"], "to_m": ["6.0", "0.4"], "construction": "block"}), "entry-route-blocked", (*OPENINGS, "front-door"),
        "No way leads from front-door to K1 or K2: screen stands in it", "Measure screen again"),
    "a route with no way": (both(*(job(*OPENINGS, **{name: None}) for name in ("sitting-room-door", "kitchen-door", "cloakroom-door", "study-door")),
                                 job("devices", "K1", room="kitchen", at_m=["6.0", "7.9"]), job("devices", "K2", room="study", at_m=["9.95", "1.5"])), "entry-route-blocked",
                            (*OPENINGS, "front-door"), "No door or stairs of the plan lead from front-door to", "Write the doors and stairs between them"),
    "a keypad outside": (job("devices", "K1", room="outside", at_m=["5.8", "-0.1"]), "keypad-outside", ("devices", "K1", "room"),
                         "K1 is a keypad, and it is planned outside.", "Plan it in the room"),
}


def written(folder: Path, change) -> Path:
    files = read_files(JOBS / "curlew-house")
    change(files)
    return write_files(files, folder / "job")


@pytest.mark.parametrize("what", PROBLEMS)
def test_what_cannot_be_is_a_problem_at_its_line_with_a_mend(tmp_path, what: str) -> None:
    change, name, way, says, do = PROBLEMS[what]
    file = written(tmp_path, change)
    with pytest.raises(JobInvalid) as wrong:
        read_job(file)
    found, = wrong.value.problems
    assert (Path(found.file).name, found.line) == (Path(name).name, line_of(file.parent / name, *way))
    assert says in found.says and do in found.do, str(found)


@pytest.mark.parametrize("what", FINDINGS)
def test_what_leads_nowhere_is_a_finding_at_its_line_with_a_mend(tmp_path, what: str) -> None:
    change, rule, way, says, do = FINDINGS[what]
    file = written(tmp_path, change)
    read = read_job(file)
    found = [one for one in findings(judge(read.papers, compute(read.papers))) if one.rule == rule]
    assert len(found) == 1, found
    hit = found[0].hit
    assert says in hit.says and do in hit.do, hit
    assert read.place(hit.at).startswith(f"job.yaml:{line_of(file, *way)} ")
