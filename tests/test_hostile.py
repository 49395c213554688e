"""Is every broken, locked or malicious file answered in one clear line that names it, at once and in little memory?"""
import os
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from generator.cli import main
from generator.intake import text_file
from generator.intake.job_reader import read_job
from generator.terms.problem import JobInvalid, Problem
from tests.conftest import DEMO, ROOT

# Loose guards: a hang or a blow-up is found, a busy machine is none. The time is that of the processor.
MOST_S, MOST_KB = 2, 300_000
# Every kind of file that a job needs, by the name under which it is answered, and where it stands.
KINDS = {"job.yaml": "one/job.yaml", "people.yaml": "one/people.yaml", "company.yaml": "company.yaml",
         "equipment/tern-dc.yaml": "equipment/tern-dc.yaml", "profiles/own.yaml": "profiles/own.yaml"}
JOB = (DEMO / "job.yaml").read_text(encoding="utf-8").replace("profile: en-grade-2", "profile: own")
DEEP = 10_000


def numbers(path: Path) -> None:
    path.write_text(f"format: {'9' * 5000}\n", encoding="utf-8")


def text(content: str | bytes) -> Callable[[Path], None]:
    return lambda path: path.write_bytes(content if isinstance(content, bytes) else content.encode()) and None


# What stands in the place of the file, the line that is answered (0: the file as a whole), and what the answer says.
HOSTILE: dict[str, tuple[Callable[[Path], object], int, str]] = {
    "anchor": (text("format: &a 1\n"), 1, '"&a" gives this place a name.'),
    "alias": (text("format: *a\n"), 1, '"*a" refers to another place of the file.'),
    "tag": (text("format: !!python/object/apply:os.system [id]\n"), 1, "asks for a special kind of value."),
    "laughs": (text("a: &a [x, x]\nb: &b [*a, *a]\nc: [*b, *b]\n"), 1, '"&a" gives this place a name.'),
    "10 MB": (text(b"a" * 10_000_000), 0, "this file is larger than 1 MB."),
    "1 MB of colons": (text(":" * 999_999), 1, "a second colon stands in this line."),
    "1 MB of brackets": (text("[" * 999_999), 1, "more than 40 levels deep."),
    "1 MB of hyphens": (text("- " * 499_999), 1, "more than 40 levels deep."),
    "1 MB of entries": (text("a: [" + "1," * 490_000 + "]\n"), 1, "more than 40000 values stand in this file."),
    "1 MB of keys": (text("".join(f"{index:x}: 1\n" for index in range(100_000))), 40_000, "more than 40000 values stand in this file."),
    "1 MB of one key": (text("a: 1\n" * 190_000), 102, "more than 100 keys stand twice in this file."),
    "1 MB of one word": (text("a" * 999_999), 1, "stands here."),
    "1 MB of quotes": (text('"' * 999_999), 1, ""),
    "1 MB of lines": (text("\n" * 999_999), 1, "nothing stands in this file."),
    "10,000 lists in brackets": (text("a: " + "[" * DEEP + "]" * DEEP), 1, "more than 40 levels deep."),
    "10,000 groups in braces": (text("a: " + "{a: " * DEEP + "}" * DEEP), 1, "more than 40 levels deep."),
    "10,000 lists in lines": (text("- " * DEEP + "a"), 1, "more than 40 levels deep."),
    "1,000 groups in lines": (text("".join(" " * level + "a:\n" for level in range(1000))), 42, "more than 40 levels deep."),
    "10,000 keys of keys": (text("? " * DEEP), 1, "a key must be a plain word."),
    "5,000 digits": (numbers, 1, "999…\" is not known here."),
    "a key of 5,000 digits": (text("9" * 5000 + ": 1\n"), 1, "what stands before this colon is too long for a key."),
    "zero byte": (text("# one\nformat: \0 1\n"), 2, "there is a zero byte here."),
    "bell": (text("# one\nformat: \a 1\n"), 2, "a mark here that cannot be seen."),
    "UTF-16 with its mark": (text("format: 1\n".encode("utf-16")), 0, "this file is saved as UTF-16."),
    "UTF-16 without": (text("format: 1\n".encode("utf-16-be")), 0, "this file is saved as UTF-16."),
    "UTF-32": (text("format: 1\n".encode("utf-32")), 0, "this file is saved as UTF-32."),
    "Latin-1": (text("# one\nformat: é\n".encode("latin-1")), 2, "there is a character here that is not UTF-8."),
    "half a letter": (text("# one\nformat: é".encode()[:-1]), 2, "there is a character here that is not UTF-8."),
    "empty": (text(""), 1, "nothing stands in this file."),
    "only comments": (text("# one\n# two\n"), 1, "nothing stands in this file."),
    "only a mark": (text(b"\xef\xbb\xbf"), 1, "nothing stands in this file."),
    "folder": (Path.mkdir, 0, "this is a folder."),
    "fifo": (os.mkfifo, 0, "this is not a file that can be read to its end."),
    "device": (lambda path: path.symlink_to("/dev/zero"), 0, "this is not a file that can be read to its end."),
    "circle of links": (lambda path: path.symlink_to(path.name), 0, "this is a link that leads back to itself."),
    "link to nothing": (lambda path: path.symlink_to("nowhere.yaml"), 0, "there is no such file."),
}
# What the machine does not give out: exit 4, not 3.
NOT_GIVEN = ("folder", "fifo", "device", "circle of links")


@pytest.fixture(autouse=True)
def no_hang() -> Iterator[None]:
    """A test that waits for ever fails instead."""
    def too_long(*_) -> None:
        raise TimeoutError("this hangs")
    before = signal.signal(signal.SIGALRM, too_long)
    signal.alarm(120)
    yield
    signal.alarm(0)
    signal.signal(signal.SIGALRM, before)


@pytest.fixture
def jobs() -> Iterator[Path]:
    """The demo in a folder of its own that everybody may look into, with a profile of its own."""
    top = Path(tempfile.mkdtemp())
    top.chmod(0o755)
    jobs = top / "jobs"
    shutil.copytree(DEMO, jobs / "one")
    shutil.copytree(DEMO.parent / "equipment", jobs / "equipment")
    shutil.copy(DEMO.parent / "company.yaml", jobs)
    (jobs / "profiles").mkdir()
    (jobs / "profiles/own.yaml").write_text('format: 1\nextends: en-grade-2\nname: Own\nedition: "1"\n', encoding="utf-8")
    (jobs / "one/job.yaml").write_text(JOB, encoding="utf-8")
    yield jobs
    shutil.rmtree(top)


def problems_of(jobs: Path) -> list[Problem]:
    try:
        read_job(jobs / "one" / "job.yaml")
    except JobInvalid as invalid:
        return list(invalid.problems)
    return []


def put(jobs: Path, kind: str, make: Callable[[Path], object]) -> None:
    (jobs / KINDS[kind]).unlink()
    make(jobs / KINDS[kind])


def test_the_demo_in_its_own_folder_has_no_problem(jobs) -> None:
    assert problems_of(jobs) == []


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_file_of_every_kind_is_answered_under_its_own_name(jobs, kind: str, name: str) -> None:
    make, line, says = HOSTILE[name]
    put(jobs, kind, make)
    found = [one for one in problems_of(jobs) if one.file == kind]
    assert any(says in one.says and one.line == line for one in found), found
    # Where nothing can be read, that is all that is said; what can be read may lack keys or have them twice.
    assert len(found) == 1 or all("this key is missing" in one.says or "twice" in one.says or one.line == line for one in found), found
    assert len(found) <= 101 and all(one.says and one.do and len(one.one_line()) < 1500 for one in found)


@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_record_of_what_was_issued_is_answered_under_its_own_name(jobs, name: str) -> None:
    # Sealed, and of another size than what people write: what is said besides is its own reader's business.
    HOSTILE[name][0](jobs / "one" / "issued.yaml")
    found = problems_of(jobs)
    assert found and {one.file for one in found} == {"issued.yaml"} and len(found) <= 102
    assert all(one.says and one.do and len(one.one_line()) < 1500 for one in found)
    assert [one.unreadable for one in found] == [True] if name in NOT_GIVEN else not any(one.unreadable for one in found)


@pytest.mark.parametrize("content", [b"\xef\xbb\xbf" + JOB.encode(), JOB.replace("\n", "\r\n").encode(), JOB.replace("\n", "\r").encode(),
                                     b"\xef\xbb\xbf" + JOB.replace("\n", "\r\n").encode(), JOB.rstrip("\n").encode(), b"---\n" + JOB.encode() + b"...\n"],
                         ids=["mark", "CR LF", "CR", "mark and CR LF", "no last line end", "with its marks"])
def test_a_text_saved_on_another_system_is_read(jobs, content: bytes) -> None:
    (jobs / "one/job.yaml").write_bytes(content)
    assert problems_of(jobs) == []
    (jobs / "one/job.yaml").write_bytes(content.replace(b"entry_s: 30", b"entry_s: x"))
    assert [(one.line, one.column) for one in problems_of(jobs)] == [
        (next(n for n, line in enumerate(JOB.splitlines(), 1) if "entry_s" in line) + content.startswith(b"---"), 18)]


def test_a_socket_is_answered(jobs, monkeypatch) -> None:
    monkeypatch.chdir(jobs / "one")
    Path("people.yaml").unlink()
    with socket.socket(socket.AF_UNIX) as one:
        one.bind("people.yaml")
        assert [(problem.file, problem.says) for problem in problems_of(jobs)] == [
            ("people.yaml", "this is not a file that can be read to its end.")]


def append(path: Path) -> None:
    path.write_text(path.read_text() + "# more\n")


def replace(path: Path) -> None:
    other = path.with_suffix(".new")
    other.write_bytes(path.read_bytes())
    other.replace(path)


def overwrite(path: Path) -> None:
    path.write_bytes(path.read_bytes().replace(b"e", b"f"))
    os.utime(path, ns=(0, 0))


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("change", [append, lambda path: os.truncate(path, 5), replace, overwrite], ids=["grows", "shrinks", "replaced", "overwritten"])
def test_a_file_that_changes_while_it_is_read_is_not_read(jobs, kind: str, change, monkeypatch) -> None:
    wanted, real = os.stat(jobs / KINDS[kind]).st_ino, os.read

    def read(handle: int, most: int) -> bytes:
        if os.fstat(handle).st_ino != wanted or getattr(read, "done", False):
            return real(handle, most)
        start = real(handle, 20)
        read.done = True
        change(jobs / KINDS[kind])
        return start
    monkeypatch.setattr(text_file.os, "read", read)
    assert [(one.file, one.line, one.says) for one in problems_of(jobs)] == [(kind, 0, "this file was changed while it was read.")]


def test_what_cannot_be_read_is_exit_4_and_what_is_wrong_is_exit_3(jobs, run) -> None:
    assert run("check", jobs / "one")[0] == 0
    for name in ("anchor", "10 MB", "zero byte", "Latin-1", "empty", "link to nothing", *NOT_GIVEN):
        make = HOSTILE[name][0]
        kept = (jobs / "company.yaml").read_bytes()
        put(jobs, "company.yaml", make)
        codes = {command[0]: run(*command, jobs / "one", *rest)[0] for command, rest in (
            (("check",), ()), (("plan",), ()), (("migrate",), ()), (("build",), ("--out", jobs.parent / "out")))}
        assert set(codes.values()) == {4 if name in NOT_GIVEN else 3} and not (jobs.parent / "out").exists(), (name, codes)
        shutil.rmtree(jobs / "company.yaml") if (jobs / "company.yaml").is_dir() and not (jobs / "company.yaml").is_symlink() else (
            jobs / "company.yaml").unlink()
        (jobs / "company.yaml").write_bytes(kept)


# Run in a process of its own: each hostile job file is checked as from the command line, its processor time measured.
CHILD = """
import sys, time, shutil
from pathlib import Path
from generator.cli import main
from tests.test_hostile import HOSTILE
job = Path(sys.argv[1]) / "one" / "job.yaml"
for name, (make, _, says) in HOSTILE.items():
    shutil.rmtree(job) if job.is_dir() and not job.is_symlink() else job.unlink()
    make(job)
    print("case", name, file=sys.stderr, flush=True)
    before = time.process_time()
    code = main(["check", str(job.parent)])
    most = next(line.split()[1] for line in Path("/proc/self/status").read_text().splitlines() if line.startswith("VmHWM"))
    print("took", code, time.process_time() - before, most, file=sys.stderr, flush=True)
"""


@pytest.mark.alone
def test_a_hostile_job_file_is_answered_at_once_and_in_little_memory(jobs) -> None:
    with tempfile.TemporaryFile("w+") as err:
        done = subprocess.run([sys.executable, "-c", CHILD, str(jobs)], cwd=ROOT, stdout=subprocess.DEVNULL, stderr=err)
        err.seek(0)
        told = err.read().split("case ")[1:]
    assert done.returncode == 0 and [one.partition("\n")[0] for one in told] == [*HOSTILE], told[-1]
    for one, (name, (_, _, says)) in zip(told, HOSTILE.items()):
        # The memory is the most that this process had so far; what it had before it was this program does not count.
        code, took, most = one.rsplit("took ", 1)[1].split()
        assert says in one and "Traceback" not in one and int(code) == (4 if name in NOT_GIVEN else 3), one
        assert float(took) < MOST_S and int(most) < MOST_KB, (name, took, most)


def as_nobody(act: Callable[[], int]) -> int:
    """The exit code of something done in a process of its own without an administrator's rights: those may read everything."""
    child = os.fork()
    if not child:
        code = 99
        try:
            if os.geteuid() == 0:
                os.setgroups([])
                os.setgid(65534)
                os.setuid(65534)
            code = act()
        finally:
            os._exit(code)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


@pytest.mark.parametrize("kind", [*KINDS, "one", "equipment"])
def test_a_file_that_one_may_not_read_is_answered_by_its_name(jobs, kind: str, capfd) -> None:
    locked = jobs / KINDS.get(kind, kind)
    locked.chmod(0)
    try:
        code = as_nobody(lambda: main(["check", str(jobs / "one")]))
    finally:
        locked.chmod(0o755)
    err = capfd.readouterr().err
    assert code == 4 and "Traceback" not in err, err
    assert f"{locked}" in err and "you are not allowed to read this file." in err, err
