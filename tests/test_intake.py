"""Is every mistake in a file answered at its own line, in words that lead to the mend, all in one run?"""
from pathlib import Path

import pytest

from generator.intake.job_reader import read_job
from generator.intake.yaml_tree import read_tree
from generator.terms.problem import JobInvalid
from tests.conftest import DEMO, ROOT

JOB = (DEMO / "job.yaml").read_text(encoding="utf-8")


def answers(folder: Path, text: str | bytes) -> list[str]:
    """The problems of a job file with this text, the demo's shared files beside it."""
    jobs = folder / "jobs"
    (jobs / "one").mkdir(parents=True, exist_ok=True)
    for name in ("company.yaml", "equipment"):
        if not (jobs / name).exists():
            (jobs / name).symlink_to(ROOT / "jobs" / name)
    path = jobs / "one" / "job.yaml"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    try:
        read_job(path)
    except JobInvalid as invalid:
        return [problem.one_line() for problem in invalid.problems]
    return []


def line_of(text: str, wanted: str) -> int:
    return next(number for number, line in enumerate(text.splitlines(), 1) if wanted in line)


def changed(old: str, new: str) -> str:
    assert JOB.count(old) == 1, f"{old!r} stands {JOB.count(old)} times in the demo"
    return JOB.replace(old, new)


def test_the_demo_has_no_problem(tmp_path) -> None:
    assert answers(tmp_path, JOB) == []


@pytest.mark.parametrize("old, new, field, says", [
    ("entry_s: 30,", "entry_s: half,", "times.entry_s", '"half" is not a whole number. Write digits only, for example 12.'),
    ("entry_s: 30,", "entry_s: 022,", "times.entry_s", '"022" is not a whole number. Write digits only, for example 12.'),
    ("height_m: 2.2", "heigth_m: 2.2", "devices.D2.heigth_m", 'the key "heigth_m" is not known here. Did you mean "height_m"?'),
    ("protects: front-door", "protects: frnt-door", "devices.D1.protects",
     'there is no opening "frnt-door". Did you mean "front-door"?'),
    ("sheet: tern-pir12", "sheet: tern-pir", "devices.D2.sheet", 'there is no equipment sheet "tern-pir". Did you mean "tern-pir12"?'),
    ("role: timed-entry", "role: timed-entri", "devices.D1.role", '"timed-entri" is not known here. Did you mean "timed-entry"?'),
    ("dated: 2026-09-14", "dated: 2026-02-30", "dated", '"2026-02-30" is no day of the calendar.'),
    ("built_before: true", "built_before: perhaps", "premises.built_before", '"perhaps" is neither true nor false.'),
    ("reference: K-2041", "reference: K 2041", "reference", '"K 2041" cannot be a name.'),
    ("profile: en-grade-2", "profile: en-grade-9", "profile", 'there is no profile "en-grade-9". Did you mean "en-grade-2"?'),
    ("title: Thrift Cottage", "title:", "title", "nothing stands here. Write a text, or leave the key out."),
    ("fob: F1", "fob: D1", "users.1.fob", 'there is no fob "D1".'),
    ("protects_2: kitchen-window", "protects_2: kitchen-windw", "devices.D3.protects_2",
     'there is no opening "kitchen-windw". Did you mean "kitchen-window"?'),
    ("position: corner", "protects_2: kitchen-window\n    position: corner", "devices.D2.protects_2",
     "this unit takes no second zone here. Write use_input_2: true if the second input is used, or take protects_2 out."),
    ("text_2: KIT WINDOW", "note: x", "devices.D3", "this unit takes two zones and has one text."),
])
def test_a_mistake_is_answered_at_its_own_line(tmp_path, old: str, new: str, field: str, says: str) -> None:
    text = changed(old, new)
    found = answers(tmp_path, text)
    line = line_of(text, field.rpartition(".")[2] + ":" if "protects_2" in field else new) if field != "devices.D3" else line_of(text, "  D3:")
    assert len(found) == 1 and found[0].startswith(f"job.yaml:{line}:"), found
    assert f" {field}: {says}" in found[0]


def test_a_missing_key_is_answered_where_its_group_stands(tmp_path) -> None:
    text = changed("reference: K-2041\n", "")
    assert answers(tmp_path, text) == ["job.yaml:2:1 reference: this key is missing. Write reference: and its value here."]


def test_a_key_that_stands_twice_is_answered_with_both_places(tmp_path) -> None:
    text = changed("title: Thrift Cottage\n", "title: Thrift Cottage\ntitle: Other\n")
    assert answers(tmp_path, text) == ['job.yaml:5:1 title: "title" stands twice; first in line 4. Keep one of the two.']


def test_all_mistakes_are_answered_in_one_run(tmp_path) -> None:
    text = JOB.replace("entry_s: 30", "entry_s: x").replace("exit_s: 45", "exit_s: y").replace("kind: new", "kind: old")
    assert [line.partition(": ")[0] for line in answers(tmp_path, text)] == [
        "job.yaml:6:7 kind", f"job.yaml:{line_of(text, 'times:')}:18 times.entry_s",
        f"job.yaml:{line_of(text, 'times:')}:29 times.exit_s"]


def test_two_units_on_one_number_are_answered(tmp_path) -> None:
    text = JOB.replace("    role: timed-entry", "    number: 5\n    role: timed-entry")
    text = text.replace("    role: entry-route", "    number: 5\n    role: entry-route")
    assert "number 5 of the zones is given to D1 too" in answers(tmp_path, text)[0]


def test_a_number_past_the_end_is_answered(tmp_path) -> None:
    text = JOB.replace("    role: timed-entry", "    number: 33\n    role: timed-entry")
    assert "number 33 lies past the end of the zones. Write a number that ends at 32 or before" in answers(tmp_path, text)[0]


@pytest.mark.parametrize("text, says", [
    ("", "nothing stands in this file."),
    ("# only a comment\n", "nothing stands in this file."),
    ("- a\n- b\n", "a list stands here. Write a group of keys"),
    ("just text\n", "stands here. Write a group of keys"),
    (b"\xff\xfea\x00", "this file is saved as UTF-16."),
    (b"title: caf\xe9\n", "there is a character here that is not UTF-8."),
    ("a: 1\nb: [1, 2\n", "the bracket that opens here is not closed before the file ends"),
    ("a: &x 1\n", '"&x" gives this place a name.'),
    ("a: *x\n", '"*x" refers to another place of the file.'),
    ("a: !!python/object:os.system x\n", "asks for a special kind of value."),
    ("a: " + "[" * 100 + "]" * 100, "more than 40 levels deep"),
    ("a: b\n---\na: c\n", "a second document starts here."),
    ("#" * 1_000_001, "larger than 1 MB"),
    ("a: b\x00c\n", "zero byte"),
])
def test_a_broken_file_is_answered_in_one_line(tmp_path, text, says: str) -> None:
    found = answers(tmp_path, text)
    assert any(says in line for line in found), found
    assert not any("Traceback" in line or "pydantic" in line for line in found)


def test_a_missing_file_is_answered(tmp_path) -> None:
    with pytest.raises(JobInvalid) as caught:
        read_job(tmp_path / "job.yaml")
    assert caught.value.problems[0].one_line().startswith("job.yaml: there is no such file.")


@pytest.mark.parametrize("written", ["00412", "1E5", "22:30", "0x1F", "no", "+441632960001", "2026-02-30", "1_000", "~x", "null "])
def test_what_is_written_stays_as_it_is_written(tmp_path, written: str) -> None:
    path = tmp_path / "one.yaml"
    path.write_text(f"a: {written}\nb: '{written}'\n", encoding="utf-8")
    data = read_tree(path, "one.yaml").data
    assert data["b"] == written and (data["a"] or "null") == written.strip()


@pytest.mark.parametrize("change, field", [
    (lambda f: f["job"].update(title="3 Samphire Lane, Great Marram"), "title"),
    (lambda f: f["job"]["users"]["1"].update(who="Wilhelmina Thornquist"), "users.1.who"),
    (lambda f: f["job"].update(note="Call obadiah penhallow first."), "note"),
    (lambda f: f["job"]["premises"]["hazards"].append("Ring 07700 900461 before coming"), "premises.hazards.2"),
])
def test_what_people_yaml_says_of_a_person_is_a_problem_in_the_job_file(job_file, change, field: str) -> None:
    with pytest.raises(JobInvalid) as caught:
        read_job(job_file(change))
    assert [(problem.field, problem.says) for problem in caught.value.problems] == [(field, "this stands in people.yaml too.")]


@pytest.mark.parametrize("order", [[], ["loads", "battery"], ["mains", "loads", "mains"]])
def test_a_power_order_that_cannot_be_followed_is_answered(job_file, order) -> None:
    with pytest.raises(JobInvalid) as caught:
        read_job(job_file(lambda f: f["equipment"]["tern-cu32"]["control_unit"].update(power_order=order)))
    assert [problem.field for problem in caught.value.problems] == ["control_unit.power_order"]


def test_a_sheet_text_with_an_unknown_placeholder_is_answered_in_its_own_file(job_file) -> None:
    def change(files) -> None:
        files["equipment"]["tern-dc"]["handling"]["fix"] = "Fix {idd} here."
    with pytest.raises(JobInvalid) as caught:
        read_job(job_file(change))
    problem = caught.value.problems[0]
    assert problem.file.endswith("equipment/tern-dc.yaml") and problem.line > 1
    assert problem.says == '"{idd}" is filled with nothing.' and 'Did you mean "id"?' in problem.do
