"""Are all changed files of a job written or none, and is nothing written over that is not what was read?"""
import os
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest

from generator.intake.migrate import plan_migration
from generator.record import rewrite as rewriting
from generator.terms.problem import CannotWrite
from tests.old_format import old_format  # noqa: F401
from tests.old_jobs import NEW_JOB, OLD_COMPANY, OLD_JOB, content, jobs, lay_out  # noqa: F401


def refused(run, jobs: Path, says: str) -> None:
    """The command says one line, writes nothing and leaves nothing behind."""
    before = content(jobs)
    code, out, err = run("migrate", jobs, "--write")
    assert code == 4 and err.startswith("doorpost: ") and err.count("\n") == 1 and says in err, err
    assert content(jobs) == before and "changed" not in out.splitlines()[-1]


def test_a_link_is_not_replaced(run, jobs, tmp_path) -> None:
    (jobs / "company.yaml").rename(tmp_path / "real.yaml")
    (jobs / "company.yaml").symlink_to(tmp_path / "real.yaml")
    refused(run, jobs, "company.yaml is a link.")
    assert (jobs / "company.yaml").is_symlink() and (tmp_path / "real.yaml").read_text(encoding="utf-8") == OLD_COMPANY


@pytest.mark.parametrize("change", [lambda path: path.write_text("other"), lambda path: path.unlink(),
                                    lambda path: (path.unlink(), path.mkdir()), lambda path: (path.unlink(), os.mkfifo(path))])
@pytest.mark.parametrize("when", [1, 2])
def test_a_file_that_has_changed_since_it_was_read_is_left_alone(run, jobs, monkeypatch, change, when: int) -> None:
    """Changed after the first of two new files was written beside its place, or after both were."""
    real, calls = rewriting._beside, []

    def beside(*given):
        calls.append(given)
        out = real(*given)
        if len(calls) == when:
            change(jobs / "company.yaml")
        return out

    monkeypatch.setattr(rewriting, "_beside", beside)
    code, out, err = run("migrate", jobs, "--write")
    assert code == 4 and "company.yaml has changed since it was read. Migrate again. Nothing was changed." in err
    assert (jobs / "one" / "job.yaml").read_text(encoding="utf-8") == OLD_JOB
    assert [path.name for path in jobs.rglob(".*")] == []


def test_a_swap_that_breaks_off_puts_the_files_before_it_back(run, jobs, monkeypatch) -> None:
    real, names = os.replace, []

    def replace(source, target) -> None:
        names.append(Path(target).name)
        if Path(target).name == "company.yaml":
            raise OSError(28, "No space left on device")
        real(source, target)

    monkeypatch.setattr(os, "replace", replace)
    refused(run, jobs, "company.yaml could not be written (No space left on device). Nothing was changed.")
    assert names == ["job.yaml", "company.yaml", "job.yaml"]


def test_what_cannot_be_put_back_is_named(run, jobs, monkeypatch) -> None:
    real, names = os.replace, []

    def replace(source, target) -> None:
        names.append(target)
        if len(names) > 1:
            raise OSError(28, "No space left on device")
        real(source, target)

    monkeypatch.setattr(os, "replace", replace)
    code, _, err = run("migrate", jobs, "--write")
    assert code == 4 and "job.yaml: written, and could not be put back" in err
    assert (jobs / "one" / "job.yaml").read_text(encoding="utf-8") == NEW_JOB and [path.name for path in jobs.rglob(".*")] == []


@pytest.fixture
def open_to_all(old_format) -> Iterator[Path]:  # noqa: F811
    """A folder that another user can reach, with the files of an old job that are that user's own."""
    folder = Path(tempfile.mkdtemp())
    lay_out(folder / "jobs")
    for path in (folder, *folder.rglob("*")):
        if os.geteuid() == 0:
            os.chown(path, 65534, 65534)
        path.chmod(0o755 if path.is_dir() else 0o644)
    yield folder / "jobs"
    for path in folder.rglob("*"):
        if path.is_dir():
            path.chmod(0o755)
    shutil.rmtree(folder)


@pytest.fixture
def as_other() -> Iterator[None]:
    """Runs the test as another user than the administrator, whom the system lets write anything."""
    administrator = os.geteuid() == 0
    if administrator:
        os.setegid(65534)
        os.seteuid(65534)
    yield
    if administrator:
        os.seteuid(0)
        os.setegid(0)


@pytest.mark.parametrize("name, mode, says", [
    ("company.yaml", 0o444, "company.yaml may not be written. Ask for the right to write it. Nothing was changed."),
    (".", 0o555, "company.yaml could not be written (Permission denied). Nothing was changed."),
    ("one", 0o555, "job.yaml could not be written (Permission denied). Nothing was changed."),
])
def test_a_file_that_may_not_be_written_is_answered(run, open_to_all, as_other, name: str, mode: int, says: str) -> None:
    (open_to_all / name).chmod(mode)
    refused(run, open_to_all, says)


def test_a_file_that_may_not_be_read_is_answered(run, open_to_all, as_other) -> None:
    (open_to_all / "company.yaml").chmod(0)
    code, out, err = run("migrate", open_to_all, "--write")
    assert code == 4 and out == ""
    assert err.endswith("company.yaml: you are not allowed to read this file. Ask the one whose file it is, or read it as that user.\n")


def test_the_owner_of_a_file_stays(run, open_to_all) -> None:
    owner = (open_to_all / "company.yaml").stat()
    assert run("migrate", open_to_all, "--write")[0] == 0
    after = (open_to_all / "company.yaml").stat()
    assert (after.st_uid, after.st_gid, after.st_mode) == (owner.st_uid, owner.st_gid, owner.st_mode) and after.st_ino != owner.st_ino


def test_an_interrupted_run_leaves_the_files_as_they_were(jobs, monkeypatch) -> None:
    plan = plan_migration(jobs / "one" / "job.yaml")
    before = content(jobs)
    for broken in (KeyboardInterrupt, CannotWrite):
        real, left = rewriting._settle, [1]

        def settle(folder) -> None:
            if left:
                left.pop()
                raise broken("stop")
            real(folder)

        monkeypatch.setattr(rewriting, "_settle", settle)
        with pytest.raises(broken):
            rewriting.rewrite(plan.changes)
        assert content(jobs) == before
        monkeypatch.setattr(rewriting, "_settle", real)
