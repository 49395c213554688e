"""Does `doorpost migrate` show first, say what it did, and take along every file of a job that is the user's own?"""
import shutil
import stat
import subprocess
from pathlib import Path

import pytest

from generator.intake import find
from tests.conftest import ROOT
from tests.old_format import old_format  # noqa: F401
from tests.old_jobs import COMPANY, JOB, NEW_JOB, OLD_COMPANY, OLD_JOB, PEOPLE, content, jobs  # noqa: F401


def test_the_demo_of_an_old_format_is_really_an_old_one() -> None:
    assert OLD_JOB.count("place: on the frame") == OLD_JOB.count("entry_min: 0.5") == OLD_JOB.count("format: 0") == 1
    assert OLD_COMPANY.count("\nphone:") == 1 and NEW_JOB.replace("  # old", "") == JOB


def test_without_write_the_difference_is_shown_and_nothing_is_written(run, jobs, tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    before = content(jobs)
    code, out, err = run("migrate", "jobs")
    assert (code, err) == (0, "") and content(jobs) == before
    assert out.startswith("--- jobs/one/job.yaml\n+++ jobs/one/job.yaml\n@@ ")
    assert "-format: 0  # old\n+format: 1  # old\n" in out and "-    place: on the frame, lock" in out
    assert "-phone: " in out and out.endswith("\n2 files would change. Change them with --write.\n")
    assert len([line for line in out.splitlines() if line[:1] == "+" and line[:3] != "+++"]) == 5


def test_with_write_the_files_are_as_the_difference_says(run, jobs, tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    shutil.copytree("jobs", "patched/jobs")
    shown = run("migrate", "jobs")[1]
    code, out, err = run("migrate", "jobs", "--write")
    assert (code, err) == (0, "") and out == shown.replace("2 files would change. Change them with --write.", "2 files changed.")
    assert (jobs / "one" / "job.yaml").read_text(encoding="utf-8") == NEW_JOB
    assert (jobs / "company.yaml").read_text(encoding="utf-8") == COMPANY
    # git, which knows nothing of this program, makes the same files out of the old ones and the difference.
    subprocess.run(["git", "apply", "-p0", "-"], input=shown.rpartition("2 files")[0].encode(), cwd="patched", check=True)
    assert content(Path("patched/jobs")) == content(jobs)
    assert run("check", "jobs")[0] == 0


def test_a_second_run_has_nothing_to_do(run, jobs) -> None:
    run("migrate", jobs, "--write")
    before = content(jobs)
    assert run("migrate", jobs, "--write") == (0, "Nothing to migrate.\n", "") and content(jobs) == before


def test_the_demos_have_nothing_to_migrate(run) -> None:
    assert run("migrate", ROOT / "jobs") == (0, "Nothing to migrate.\n", "")


@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
@pytest.mark.parametrize("end", [b"\n", b"\r\n"])
@pytest.mark.parametrize("last", [True, False])
def test_line_ends_mark_mode_and_last_line_stay(run, jobs, mark: bytes, end: bytes, last: bool) -> None:
    def written(text: str) -> bytes:
        raw = mark + text.encode().replace(b"\n", end)
        return raw if last else raw.removesuffix(end)

    path = jobs / "one" / "job.yaml"
    path.write_bytes(written(OLD_JOB))
    path.chmod(0o640)
    assert run("migrate", jobs / "one", "--write")[0] == 0
    assert path.read_bytes() == written(NEW_JOB) and stat.S_IMODE(path.stat().st_mode) == 0o640


def test_a_difference_in_a_last_line_without_an_end_says_so(run, jobs) -> None:
    path = jobs / "one" / "job.yaml"
    path.write_text(OLD_JOB.replace("format: 0  # old\n", "") + "format: 0", encoding="utf-8")
    out = run("migrate", jobs)[1]
    assert "-format: 0\n\\ No newline at end of file\n+format: 1\n\\ No newline at end of file\n" in out


def test_sheets_profiles_people_and_inline_sheets_are_migrated_and_the_programs_own_files_are_not(run, jobs, monkeypatch) -> None:
    sheet = jobs / "equipment" / "tern-pir12.yaml"
    text = sheet.read_text(encoding="utf-8")
    assert text.count("mounting_m: [2.1, 2.4]") == 1
    old = text.replace("format: 1", "format: 0").replace("mounting_m: [2.1, 2.4]", "mounting_cm: [210, 240]")
    sheet.write_text(old.replace("240]", "240.0]"), encoding="utf-8")
    inline = "".join(f"    {line}" if line.strip() else line for line in old.splitlines(True))
    (jobs / "one" / "job.yaml").write_text(OLD_JOB.replace("profile: en-grade-2", "profile: own") + f"\nequipment:\n  mine:\n{inline}")
    (jobs / "one" / "people.yaml").write_text(PEOPLE.replace("format: 1", "format: 0").replace("  telephone:", "  phone:", 1))
    (jobs / "profiles").mkdir()
    own = "format: 0\nextends: base\nname: Own\nedition: 1\nstand:\n  d: {edition: '2020'}  # c\ndocuments:\n  d: {title: T}\n"
    for name in ("own", "base"):
        (jobs / "profiles" / f"{name}.yaml").write_text(own.replace("extends: base", f"extends: {'base' if name == 'own' else 'own'}"))
    code, out, err = run("migrate", jobs, "--write")
    assert (code, err, out.splitlines()[-1]) == (0, "", "6 files changed.")
    assert sheet.read_text(encoding="utf-8") == text.replace("[2.1, 2.4]", "[2.1, 2.4]")
    assert "\n    mounting_m: [2.1, 2.4]" in (jobs / "one" / "job.yaml").read_text(encoding="utf-8")
    assert (jobs / "one" / "people.yaml").read_text(encoding="utf-8") == PEOPLE
    assert (jobs / "profiles" / "own.yaml").read_text() == (
        "format: 1\nextends: base\nname: Own\nedition: 1\n  # c\ndocuments:\n  d: {title: T, edition: '2020'}\n")


def test_the_programs_own_files_are_left_alone(run, jobs, monkeypatch) -> None:
    (jobs / "equipment" / "tern-dc.yaml").write_text("format: 0\n")
    monkeypatch.setattr(find, "PACKAGE", jobs)
    assert run("migrate", jobs, "--write") == (0, "Nothing to migrate.\n", "")


def test_a_shared_file_of_two_jobs_is_shown_and_written_once(run, jobs) -> None:
    shutil.copytree(jobs / "one", jobs / "two")
    assert run("migrate", jobs)[1].count("company.yaml\n") == 2 and run("migrate", jobs)[1].endswith("3 files would change. Change them with --write.\n")
    code, out, err = run("migrate", jobs, "--write")
    assert (code, err) == (0, "") and out.endswith("\n3 files changed.\n")


def test_a_file_that_cannot_be_migrated_keeps_the_whole_job_from_being_written(run, jobs) -> None:
    path = jobs / "one" / "job.yaml"
    path.write_text(OLD_JOB.replace("entry_min: 0.5", "entry_min: half"), encoding="utf-8")
    before = content(jobs)
    code, out, err = run("migrate", jobs, "--write")
    line = next(number for number, one in enumerate(OLD_JOB.splitlines(), 1) if "entry_min" in one)
    assert code == 3 and out == "" and content(jobs) == before
    assert err.rpartition("one/")[2] == (f'job.yaml:{line}:20 times.entry_min: "half" stands here, which is not a plain number and cannot '
                                         "be given in another unit. Write digits with a point for decimals, for example 2.4, then migrate again.\n")


def test_one_bad_job_does_not_keep_another_from_being_migrated(run, jobs) -> None:
    shutil.copytree(jobs / "one", jobs / "two")
    (jobs / "one" / "job.yaml").write_text("format: 0\na: [\n")
    code, out, err = run("migrate", jobs, "--write")
    assert code == 3 and err.count("\n") == 1 and out.endswith("\n2 files changed.\n")
    assert (jobs / "two" / "job.yaml").read_text(encoding="utf-8") == NEW_JOB


@pytest.mark.parametrize("text, says", [
    ("format: 2\na: 1\n", "job.yaml:1:9 format: format 2 stands here; Doorpost"),
    ("format: one\n", "job.yaml:1:9 format: no format number that is known stands here. Write format:"),
    ("format: -3\n", "job.yaml:1:9 format: no format number that is known stands here."),
    ("title: x\n", "job.yaml:1:1 format: no format number that is known stands here."),
    ("- format: 0\n", "job.yaml:1:1 format: no format number that is known stands here."),
    ("", "job.yaml:1:1 format: no format number that is known stands here."),
    ("format: 0\nnote: the door code is 4711\n", "job.yaml:2:7 note: a code, PIN, password or keyword has no place in any file"),
    ("format: 0\nnote: \"a\u2028b\"\n", "job.yaml:2:9: there is a mark here that cannot be seen."),
    ("format: 0\nformat: 0\n", 'job.yaml:2:1 format: "format" stands twice'),
])
def test_what_cannot_be_read_is_one_line_exit_3_and_nothing_written(run, jobs, text: str, says: str) -> None:
    (jobs / "one" / "job.yaml").write_text(text, encoding="utf-8")
    before = content(jobs)
    code, out, err = run("migrate", jobs, "--write")
    assert code == 3 and out == "" and content(jobs) == before
    assert err.count("\n") == 1 and err.rpartition("one/")[2].startswith(says), err


def test_a_folder_without_a_job_and_a_job_that_is_not_there_are_answered(run, tmp_path) -> None:
    (tmp_path / "empty").mkdir()
    assert run("migrate", tmp_path / "empty")[::2] == (3, f"{tmp_path}/empty: there is no job in this folder. Start one with `doorpost new`.\n")
    code, _, err = run("migrate", tmp_path / "no" / "job.yaml")
    assert code == 3 and err.endswith("job.yaml: there is no such file. Check the name, or start one with `doorpost new`.\n")
    assert run("migrate")[0] == 2
