"""Does an issue freeze the numbers, leave one file for the archive, and leave the old state or the new wherever it ends?"""
import fcntl
import hashlib
import os
import re
import shutil
import stat
import subprocess
import sys
import tempfile
import traceback
import zipfile
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from generator.pipeline import Compiled, compile_job
from generator.publish.manifest import MANIFEST
from generator.publish.pack import fill
from generator.record.issue import ISSUED, NEW, issue
from generator.terms.problem import CannotWrite
from tests.conftest import ROOT, read_files, write_files
from tests.issues import changed
from tests.test_same_bytes import CHILD, EVERYTHING_ELSE, far_shift

REFERENCE = read_files()["job"]["reference"]
FIRST, SECOND = date(2026, 9, 14), date(2026, 10, 1)
HIDDEN_NEW = f"{NEW}{ISSUED}"


def few_files(job: Compiled, folder: Path, more: dict[str, bytes]) -> None:
    """In place of the packs: files that are written in no time."""
    (folder / "installer").mkdir()
    (folder / "installer" / "index.html").write_text(f"{job.papers.job.title}, revision {job.last.revision}")
    for name, content in more.items():
        (folder / name).write_bytes(content)


def new_text(files) -> None:
    files["job"]["devices"]["D2"]["text"] = "HALL PIR"


def names(folder: Path) -> set[str]:
    return {path.name for path in folder.iterdir()}


def content(archive: Path) -> dict[str, bytes]:
    with zipfile.ZipFile(archive) as file:
        assert file.testzip() is None
        return {name: file.read(name) for name in file.namelist()}


# --- the command --------------------------------------------------------------------------------------------

@pytest.fixture(scope="module")
def issued(tmp_path_factory) -> Path:
    """A folder with the demo job in `job`, issued once, its archive in `out`, unpacked in `x`; do not change it."""
    folder = tmp_path_factory.mktemp("issued")
    path = write_files(read_files(), folder / "job")
    done = issue(path, FIRST, folder / "out", fill)
    with zipfile.ZipFile(done.archive) as file:
        file.extractall(folder / "x")
    return folder


def test_the_archive_holds_the_packs_what_was_issued_and_the_checksums_of_all(issued, run, tmp_path) -> None:
    assert names(issued / "out") == {f"{REFERENCE}-r1.zip"} and names(issued / "x") == {f"{REFERENCE}-r1"}
    archive = issued / "x" / f"{REFERENCE}-r1"
    assert names(archive) == {"installer", "pocket.html", "homeowner", "homeowner.html", "station", "record", "pack.json", ISSUED, MANIFEST}
    assert (archive / ISSUED).read_bytes() == (issued / "job" / ISSUED).read_bytes()
    files = sorted((path for path in archive.rglob("*") if path.is_file() and path.name != MANIFEST),
                   key=lambda one: one.relative_to(archive).as_posix())
    assert (archive / MANIFEST).read_text() == "".join(
        f"{hashlib.sha256(path.read_bytes()).hexdigest()}  {path.relative_to(archive).as_posix()}\n" for path in files)
    # The packs that a build makes from then on are those that were issued.
    assert run("build", issued / "job", "--out", tmp_path)[0] == 0
    pack = tmp_path / REFERENCE
    assert {path.relative_to(pack): path.read_bytes() for path in pack.rglob("*") if path.is_file() and path.name != MANIFEST} == {
        path.relative_to(archive): path.read_bytes() for path in files if path.name != ISSUED}


@pytest.mark.parametrize("page", ["installer/index.html", "homeowner/index.html", "station/index.html", "record/index.html"])
def test_every_readers_pages_say_which_revision_they_are(issued, page) -> None:
    assert "Issued: revision 1, 14 Sep 2026" in (issued / "x" / f"{REFERENCE}-r1" / page).read_text()


def test_the_slot_map_says_of_each_number_why_and_in_which_revision_it_was_given(issued) -> None:
    page = (issued / "x" / f"{REFERENCE}-r1" / "installer" / "slots.html").read_text()
    # Once for all; on a unit's own page with the number.
    assert page.count("Numbers were given in revision 1 where a row says nothing else.") == 1 and "Given in revision 1:" not in page
    assert "The only one of block entry; the profile starts it here." in page
    units = "".join(one.read_text() for one in (issued / "x" / f"{REFERENCE}-r1" / "installer" / "d").iterdir())
    assert "given in revision 1: the only one of block entry; the profile starts it here" in units
    assert re.search(r"<strong>1 Entry:</strong> timed entry doors; 3 free behind it, 2 wanted. At 1: D1 keeps it, as issued.", page)


def test_a_pack_of_a_job_that_changed_since_says_so_and_one_never_issued_too(issued, demo, tmp_path, run) -> None:
    shutil.copytree(issued / "job", tmp_path / "job")
    changed(read_files(), tmp_path / "job", new_text)
    assert run("build", tmp_path / "job", "--out", tmp_path / "out")[0] == 0
    pack = tmp_path / "out" / REFERENCE
    for reader in ("installer", "station", "record"):
        assert "Changed since revision 1, not issued" in (pack / reader / "index.html").read_text()
    # Texts of zones are not for the people of the house: for them nothing changed.
    assert "Issued: revision 1, 14 Sep 2026" in (pack / "homeowner" / "index.html").read_text()
    assert all("Not issued" in (demo / reader.name / "index.html").read_text() for reader in demo.iterdir() if reader.is_dir())
    # The installer's start page says so at its head, and what it means; of an issued pack it says nothing.
    starts = [folder / "installer" / "index.html" for folder in (demo, pack, issued / "x" / f"{REFERENCE}-r1")]
    never, since, never_again = (one.read_text() for one in starts)
    assert "<strong>Draft: not issued.</strong> Read it, check it" in never
    assert "<strong>Draft: not issued.</strong> It is not what was issued as revision 1 on 14 Sep 2026. Fit nothing from it" in since
    assert "Draft" not in never_again


def test_the_command_prints_the_archive_and_the_next_issue_is_the_next_revision(tmp_path, run) -> None:
    write_files(read_files(), tmp_path / "job")
    code, out, _ = run("issue", tmp_path / "job", "--on", "2026-09-14", "--out", tmp_path / "out")
    assert code == 0 and out.endswith(f"{tmp_path / 'out' / f'{REFERENCE}-r1.zip'}\n")
    first = (tmp_path / "job" / ISSUED).read_text()
    code, out, _ = run("issue", tmp_path / "job" / "job.yaml", "--on", "2026-09-14", "--out", tmp_path / "out")
    assert code == 0 and names(tmp_path / "out") == {f"{REFERENCE}-r1.zip", f"{REFERENCE}-r2.zip"}
    second = (tmp_path / "job" / ISSUED).read_text()
    above = first.rpartition("check: ")[0]
    assert second.startswith(above) and second.count("  - revision: ") == 2
    assert names(tmp_path / "job") - {"job.yaml", "people.yaml", "company.yaml", "equipment", "profiles"} == {ISSUED}


def test_without_a_date_the_day_of_issue_is_today(tmp_path, run, monkeypatch) -> None:
    class Fixed(date):
        @classmethod
        def today(cls):
            return cls(2026, 10, 6)

    monkeypatch.setattr("generator.cli.jobs.date", Fixed)
    monkeypatch.setattr("generator.publish.pack.fill", few_files)
    path = write_files(read_files(), tmp_path / "job")
    assert run("issue", path, "--out", tmp_path / "out")[0] == 0
    assert "date: 2026-10-06" in (tmp_path / "job" / ISSUED).read_text()


# --- what is refused ----------------------------------------------------------------------------------------

def quick(path: Path, on: date = FIRST, out: str = "out"):
    return issue(path, on, path.parent.parent / out, few_files)


def test_a_job_whose_numbers_do_not_fit_is_not_issued(tmp_path, run) -> None:
    files = read_files()
    files["equipment"]["tern-cu32"]["control_unit"]["lists"]["zones"] = "3"
    write_files(files, tmp_path / "job")
    code, _, error = run("issue", tmp_path / "job", "--on", "2026-09-14", "--out", tmp_path / "out")
    assert code == 1 and error == ("doorpost: the numbers do not fit (zones), so there is nothing to freeze. "
                                   "Mend what `doorpost check` finds, then issue.\n")
    assert not (tmp_path / "job" / ISSUED).exists() and names(tmp_path / "out") == set()


def test_an_invalid_job_is_not_issued(tmp_path, run) -> None:
    files = read_files()
    files["job"]["times"]["entry_s"] = "soon"
    write_files(files, tmp_path / "job")
    code, _, error = run("issue", tmp_path / "job", "--on", "2026-09-14", "--out", tmp_path / "out")
    assert code == 3 and "times.entry_s" in error and not (tmp_path / "job" / ISSUED).exists()


def test_a_day_before_the_last_issue_is_refused(tmp_path, run) -> None:
    path = write_files(read_files(), tmp_path / "job")
    quick(path, SECOND)
    before = (tmp_path / "job" / ISSUED).read_bytes()
    code, _, error = run("issue", path, "--on", "2026-09-30", "--out", tmp_path / "out")
    assert code == 2 and error == "doorpost: revision 1 was issued on 1 Oct 2026. Name that day or a later one.\n"
    assert (tmp_path / "job" / ISSUED).read_bytes() == before


def test_several_jobs_are_not_issued_at_once(tmp_path, run) -> None:
    for name in ("one", "two"):
        write_files(read_files(), tmp_path / name)
    code, _, error = run("issue", tmp_path, "--on", "2026-09-14", "--out", tmp_path / "out")
    assert code == 2 and error == "doorpost: issue takes one job; name its folder.\n"


@pytest.mark.parametrize("name", ["no/such/folder", "empty"])
def test_a_job_that_is_not_there_is_answered_as_by_the_other_commands(tmp_path, run, name) -> None:
    (tmp_path / "empty").mkdir()
    answers = [run(*command, tmp_path / name, "--out", tmp_path / "out") for command in (("issue", "--on", "2026-09-14"), ("build",))]
    assert answers[0] == answers[1] and answers[0][0] in (3, 4) and answers[0][2]
    assert not (tmp_path / "out").exists()


def test_an_archive_is_never_written_over(tmp_path) -> None:
    path = write_files(read_files(), tmp_path / "job")
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / f"{REFERENCE}-r1.zip").write_text("the only copy")
    with pytest.raises(CannotWrite, match="an archive is never written over"):
        quick(path)
    assert (tmp_path / "out" / f"{REFERENCE}-r1.zip").read_text() == "the only copy" and ISSUED not in names(tmp_path / "job")


@pytest.mark.parametrize("locked", ["job", "out"])
def test_a_second_issue_at_the_same_time_is_refused(tmp_path, run, locked) -> None:
    path = write_files(read_files(), tmp_path / "job")
    (tmp_path / "out").mkdir()
    handle = os.open(tmp_path / locked, os.O_RDONLY)
    try:
        fcntl.flock(handle, fcntl.LOCK_EX)
        code, _, error = run("issue", path, "--on", "2026-09-14", "--out", tmp_path / "out")
    finally:
        os.close(handle)
    assert code == 4 and error == f"doorpost: another run is writing into {tmp_path / locked}. Wait until it ends, then issue again.\n"
    assert ISSUED not in names(tmp_path / "job") and names(tmp_path / "out") == set()
    quick(path)


def test_the_archive_may_stand_beside_the_job(tmp_path) -> None:
    path = write_files(read_files(), tmp_path / "job")
    assert quick(path, out="job").archive == tmp_path / "job" / f"{REFERENCE}-r1.zip"


@pytest.fixture
def open_to_all() -> Iterator[Path]:
    folder = Path(tempfile.mkdtemp())
    folder.chmod(0o755)
    write_files(read_files(), folder / "job")
    yield folder
    for path in folder.rglob("*"):
        if path.is_dir():
            path.chmod(0o755)
    shutil.rmtree(folder)


def test_in_a_job_folder_that_may_not_be_written_nothing_is_written_anywhere(open_to_all, run) -> None:
    (open_to_all / "job").chmod(0o555)
    (open_to_all / "out").mkdir(mode=0o777)
    administrator = os.geteuid() == 0
    if administrator:
        os.seteuid(65534)
    try:
        code, _, error = run("issue", open_to_all / "job", "--on", "2026-09-14", "--out", open_to_all / "out")
    finally:
        if administrator:
            os.seteuid(0)
    assert code == 4 and error == f"doorpost: {open_to_all / 'job' / HIDDEN_NEW} could not be written (Permission denied).\n"
    assert names(open_to_all / "out") == set() and not {ISSUED, HIDDEN_NEW} & names(open_to_all / "job")


# --- the same bytes -----------------------------------------------------------------------------------------

def test_the_same_job_issued_elsewhere_on_another_day_gives_the_same_archive(issued, tmp_path) -> None:
    folder = tmp_path / "quite elsewhere, ünder umlauts"
    write_files(read_files(), folder / "job")
    kept = {name: value for name, value in os.environ.items() if name not in ("SOURCE_DATE_EPOCH", "PYTHONHASHSEED")}
    done = subprocess.run([sys.executable, "-c", CHILD, str(far_shift()), "077", "issue", "job", "--on", "2026-09-14", "--out", "a/b"],
                          env={**kept, "PYTHONPATH": str(ROOT), **EVERYTHING_ELSE}, cwd=folder, text=True, capture_output=True, timeout=120)
    assert done.returncode == 0, done.stderr
    assert "umask 077" in done.stderr
    archive = folder / "a" / "b" / f"{REFERENCE}-r1.zip"
    assert archive.read_bytes() == (issued / "out" / archive.name).read_bytes()
    assert (folder / "job" / ISSUED).read_bytes() == (issued / "job" / ISSUED).read_bytes()
    assert stat.S_IMODE(archive.stat().st_mode) == stat.S_IMODE((folder / "job" / ISSUED).stat().st_mode) == 0o644


def test_an_archive_tells_the_day_of_its_issue_and_no_clock_and_lists_its_files_in_order(issued) -> None:
    with zipfile.ZipFile(issued / "out" / f"{REFERENCE}-r1.zip") as file:
        entries = file.infolist()
    assert {one.date_time for one in entries} == {(2026, 9, 14, 0, 0, 2)} and {one.compress_type for one in entries} == {zipfile.ZIP_STORED}
    assert [one.filename for one in entries] == sorted(one.filename for one in entries) and len(entries) > 50


# --- a run that ends in the middle --------------------------------------------------------------------------

WRITES = ("os.rename", "os.remove", "os.mkdir", "os.rmdir", "os.chmod", "os.utime", "shutil.rmtree")


def writes(event: str, given: tuple, folder: Path) -> bool:
    """Whether an event of the interpreter is a step that writes below a folder."""
    if event == "open":
        path, _, flags = given
        wanted = isinstance(path, (str, Path)) and bool(flags & (os.O_WRONLY | os.O_RDWR | os.O_CREAT))
        return wanted and str(path).startswith(str(folder))
    return event in WRITES and str(given[0]).startswith(str(folder))


def broken_off(path: Path, at: int, how: str) -> int:
    """Issues a job in a process of its own whose n-th step that writes is its last, or fails; gives its exit code: 137 if it
    was killed, 4 if it told that it could not write, 0 if it came to its end."""
    child = os.fork()
    if child:
        return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    left, folder = [at], path.parent.parent

    def hook(event: str, given: tuple) -> None:
        if writes(event, given, folder):
            left[0] -= 1
            if left[0] == 0 and how == "killed":
                os._exit(137)
            elif left[0] == 0:
                raise OSError(28, "No space left on device", str(given[0]))

    try:
        sys.addaudithook(hook)
        quick(path, SECOND)
        os._exit(0 if left[0] > 0 else 5)
    except CannotWrite:
        os._exit(4)
    except BaseException:
        traceback.print_exc()
        os._exit(99)


@pytest.fixture(scope="module")
def states(tmp_path_factory) -> dict[str, bytes]:
    """What stands in the job folder and in the archive before and after the second issue of a changed job."""
    folder = tmp_path_factory.mktemp("states")
    path = write_files(read_files(), folder / "job")
    quick(path)
    old = (folder / "job" / ISSUED).read_bytes()
    changed(read_files(), folder / "job", new_text)
    quick(path, SECOND)
    return {"old": old, "new": (folder / "job" / ISSUED).read_bytes(), "r1": (folder / "out" / f"{REFERENCE}-r1.zip").read_bytes(),
            "r2": (folder / "out" / f"{REFERENCE}-r2.zip").read_bytes()}


def before_second(folder: Path, states: dict[str, bytes]) -> Path:
    shutil.rmtree(folder, ignore_errors=True)
    files = read_files()
    new_text(files)
    path = write_files(files, folder / "job")
    (folder / "job" / ISSUED).write_bytes(states["old"])
    (folder / "out").mkdir()
    (folder / "out" / f"{REFERENCE}-r1.zip").write_bytes(states["r1"])
    return path


def state_of(folder: Path, states: dict[str, bytes]) -> str:
    """Old or new, as issued.yaml says; no archive has its name that is not whole, or that belongs to the other state."""
    stands = (folder / "job" / ISSUED).read_bytes()
    state = "new" if stands == states["new"] else "old"
    assert stands == states[state]
    assert compile_job(folder / "job" / "job.yaml").last.revision == (2 if state == "new" else 1)
    archives = {path.name: path.read_bytes() for path in (folder / "out").glob("[!.]*")}
    assert archives.pop(f"{REFERENCE}-r1.zip") == states["r1"]
    if state == "old":
        assert archives == {}
    else:
        left = folder / "out" / f"{NEW}{REFERENCE}-r2.zip"
        assert archives == {f"{REFERENCE}-r2.zip": states["r2"]} or (archives == {} and left.read_bytes() == states["r2"])
    return state


@pytest.mark.parametrize("how", ["killed", "failed"])
def test_wherever_an_issue_ends_the_old_state_stands_or_the_new_and_the_next_issue_ends_well(tmp_path, states, how) -> None:
    seen, step, finished = [], 0, False
    while True:
        step += 1
        path = before_second(tmp_path / "work", states)
        code = broken_off(path, step, how)
        assert code in (0, 4, 5, 137), f"step {step}"
        seen.append(state_of(tmp_path / "work", states))
        complete = (tmp_path / "work" / "out" / f"{REFERENCE}-r2.zip").exists()
        again = quick(path, SECOND)
        # An issue that came to its end is followed by the next revision; one that was broken off is finished.
        assert again.job.last.revision == (3 if complete else 2) and again.finished == (seen[-1] == "new" and not complete), f"step {step}"
        finished |= again.finished
        if not complete:
            assert (tmp_path / "work" / "job" / ISSUED).read_bytes() == states["new"]
            assert again.archive.read_bytes() == states["r2"]
        assert [name for name in (*names(tmp_path / "work" / "job"), *names(tmp_path / "work" / "out")) if name.startswith(NEW)] == []
        if code == 0:
            break
    assert step > 15 and finished and {"old", "new"} == set(seen)
    # Of those that were killed: one step decides. A step that only clears up may fail, and the issue comes to its end.
    assert how == "failed" or seen == sorted(seen, reverse=True)


def test_a_broken_off_issue_that_is_finished_says_so(tmp_path, states, run) -> None:
    path = before_second(tmp_path / "work", states)
    (tmp_path / "work" / "job" / ISSUED).write_bytes(states["new"])
    (tmp_path / "work" / "out" / f"{NEW}{REFERENCE}-r2.zip").write_bytes(states["r2"])
    code, out, error = run("issue", path, "--on", "2026-10-01", "--out", tmp_path / "work" / "out")
    assert code == 0 and out.endswith(f"{REFERENCE}-r2.zip\n") and error == (
        "Revision 2 was issued by a run that was broken off; its archive has its name now. Issue again if the job has changed since.\n")


def test_what_another_jobs_issue_left_is_not_touched(tmp_path) -> None:
    path = write_files(read_files(), tmp_path / "job")
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / f"{NEW}X-1-r2.zip").write_text("of another job")
    quick(path)
    assert names(tmp_path / "out") == {f"{NEW}X-1-r2.zip", f"{REFERENCE}-r1.zip"}


def test_nothing_personal_stands_in_what_was_issued(issued) -> None:
    people = read_files()["people"]
    text = (issued / "job" / ISSUED).read_text()
    words = [*people["customer"]["name"].split(), people["customer"]["telephone"], *people["customer"]["address"],
             *(word for one in people["keyholders"].values() for word in one["name"].split())]
    # The job's title may be the house's name, as here.
    assert [word for word in words if re.search(rf"\b{re.escape(word)}\b", text) and word != read_files()["job"]["title"]] == []


def test_the_hashes_do_not_hang_on_people_or_on_where_packs_are_put(tmp_path, states) -> None:
    files = read_files()
    new_text(files)
    files["people"] = None
    files["job"].pop("publish", None)
    path = write_files(files, tmp_path / "job")
    (tmp_path / "job" / ISSUED).write_bytes(states["old"])
    quick(path, SECOND)
    one, other = ((re.search(r"    pages:\n.*?    links:\n", text, re.S)[0]) for text in (
        (tmp_path / "job" / ISSUED).read_text().split("  - revision: 2")[1], states["new"].decode().split("  - revision: 2")[1]))
    assert one == other
