"""Does a pack take the place of the earlier one whole or not at all, and is nothing of somebody else's ever lost?"""
import hashlib
import os
import shutil
import stat
import subprocess
import sys
import tempfile
import threading
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from generator.disk.lock import alone
from generator.pipeline import compile_job
from generator.publish import pack as pack_module
from generator.publish import swap
from generator.publish.manifest import MANIFEST, listed, write_manifest
from generator.publish.pack import write_pack
from generator.publish.swap import ASIDE, BESIDE, beside, swap_in
from generator.terms.problem import CannotWrite
from tests.conftest import DEMO, ROOT, read_files, write_files

REFERENCE = read_files()["job"]["reference"]


def tree(folder: Path) -> dict[str, bytes | str | None]:
    """Everything below a folder: a file's bytes, a link's goal, None for a folder."""
    return {path.relative_to(folder).as_posix(): os.readlink(path) if path.is_symlink() else path.read_bytes()
            if path.is_file() else None for path in sorted(folder.rglob("*"))}


@pytest.fixture
def earlier(demo, tmp_path) -> Path:
    """A folder with an earlier pack in it, of another plan."""
    target = tmp_path / "out" / REFERENCE
    shutil.copytree(demo, target)
    (target / "station" / "index.html").write_text("an earlier plan", encoding="utf-8")
    write_manifest(target)
    # The list was made while an earlier list stood there; it does not name itself.
    lines = [line for line in (target / MANIFEST).read_text().splitlines(keepends=True) if MANIFEST not in line]
    (target / MANIFEST).write_text("".join(lines))
    return tmp_path / "out"


def build(run, out: Path) -> tuple[int, str]:
    code, _, error = run("build", DEMO, "--out", out)
    return code, error


def is_new(demo: Path, out: Path) -> bool:
    """Whether the demo's pack stands there whole, and nothing beside it."""
    return [path.name for path in out.iterdir()] == [REFERENCE] and tree(out / REFERENCE) == tree(demo)


def test_a_new_pack_takes_the_place_of_the_earlier_one(demo, earlier, run) -> None:
    assert not is_new(demo, earlier)
    assert build(run, earlier) == (0, "")
    assert is_new(demo, earlier)


def test_a_pack_is_built_where_there_was_none(demo, tmp_path, run) -> None:
    assert build(run, tmp_path / "not" / "there" / "yet") == (0, "")
    assert is_new(demo, tmp_path / "not" / "there" / "yet")


# --- a build that fails -------------------------------------------------------------------------------------

def fails(error: BaseException, calls: int = 1) -> Callable:
    """Something that raises when it is called for the n-th time, having done its work the times before."""

    def patch(real: Callable) -> Callable:
        left = [calls]

        def call(*given, **named):
            left[0] -= 1
            if left[0] == 0:
                raise error
            return real(*given, **named)

        return call

    return patch


BREAKS = {
    "the first site": ("write_site", 1),
    "the third site": ("write_site", 3),
    "the search": ("search", 2),
    "the plan": ("plan_text", 1),
    "the list of files": ("write_manifest", 1),
    "the modes": ("same_modes", 1),
    "the exchange": ("swap_in", 1),
}


@pytest.mark.parametrize("name, call", BREAKS.values(), ids=BREAKS.keys())
def test_an_error_in_the_middle_leaves_the_earlier_pack_and_nothing_beside_it(monkeypatch, earlier, name, call) -> None:
    before = tree(earlier)
    monkeypatch.setattr(pack_module, name, fails(RuntimeError("broken on purpose"), call)(getattr(pack_module, name)))
    with pytest.raises(RuntimeError, match="on purpose"):
        write_pack(compile_job(DEMO / "job.yaml"), earlier)
    assert tree(earlier) == before


@pytest.mark.parametrize("error, code, says", [
    (OSError(28, "No space left on device", "page.html"), 4,
     "doorpost: page.html could not be written (No space left on device).\n"),
    (KeyboardInterrupt(), 4, ""),
], ids=["full disk", "interrupted"])
@pytest.mark.parametrize("name", ["write_site", "write_manifest"])
def test_a_full_disk_and_an_interruption_leave_the_earlier_pack(
        monkeypatch, earlier, run, name, error, code, says) -> None:
    before = tree(earlier)
    monkeypatch.setattr(pack_module, name, fails(error)(getattr(pack_module, name)))
    assert build(run, earlier) == (code, says)
    assert tree(earlier) == before


def test_an_error_of_the_first_build_leaves_no_pack_at_all(monkeypatch, tmp_path, run) -> None:
    monkeypatch.setattr(pack_module, "write_manifest", fails(OSError(28, "No space left on device"))(write_manifest))
    assert build(run, tmp_path / "out")[0] == 4
    assert list((tmp_path / "out").iterdir()) == []


# --- somebody else's folders and files ----------------------------------------------------------------------

def refused(run, out: Path) -> str:
    """The one line that a build is refused with; nothing in the folder has changed."""
    before = tree(out)
    code, error = build(run, out)
    assert code == 4
    assert tree(out) == before
    assert error.startswith("doorpost: ") and error.count("\n") == 1 and "Traceback" not in error
    return error


def test_a_folder_that_we_did_not_make_is_never_emptied(tmp_path, run) -> None:
    (tmp_path / REFERENCE / "letters").mkdir(parents=True)
    (tmp_path / REFERENCE / "letters" / "only-copy.txt").write_text("dear all")
    assert f"{REFERENCE} was not made by Doorpost and is not empty. Move it away" in refused(run, tmp_path)


def test_a_folder_with_empty_folders_of_somebody_else_is_not_emptied(tmp_path, run) -> None:
    (tmp_path / REFERENCE / "prepared").mkdir(parents=True)
    assert "was not made by Doorpost" in refused(run, tmp_path)


def test_an_empty_folder_may_be_filled(demo, tmp_path, run) -> None:
    (tmp_path / "out" / REFERENCE).mkdir(parents=True)
    assert build(run, tmp_path / "out") == (0, "")
    assert is_new(demo, tmp_path / "out")


@pytest.mark.parametrize("name", ["notes.txt", "installer/notes.txt", "installer/d/photo.jpg", ".hidden",
                                  "new folder/photo.jpg"])
def test_a_foreign_file_inside_our_own_pack_is_refused_by_name(earlier, run, name) -> None:
    path = earlier / REFERENCE / name
    path.parent.mkdir(exist_ok=True)
    path.write_text("mine")
    assert f"holds {name}, which Doorpost did not write." in refused(run, earlier)


@pytest.mark.parametrize("goal", ["somewhere", "nowhere"])
def test_a_link_inside_our_own_pack_is_refused_by_name(earlier, tmp_path, run, goal) -> None:
    (tmp_path / "somewhere").mkdir()
    (tmp_path / "somewhere" / "only-copy.txt").write_text("dear all")
    (earlier / REFERENCE / "installer" / "more").symlink_to(tmp_path / goal)
    assert "holds installer/more, which Doorpost did not write." in refused(run, earlier)


def test_a_list_of_files_that_is_no_text_is_refused(tmp_path, run) -> None:
    (tmp_path / REFERENCE).mkdir()
    (tmp_path / REFERENCE / MANIFEST).write_bytes(b"\xff\xfe\x00 not ours")
    refused(run, tmp_path)


def test_a_target_that_is_a_file_is_refused(tmp_path, run) -> None:
    (tmp_path / REFERENCE).write_text("mine")
    assert "is not a folder. Move it away" in refused(run, tmp_path)


@pytest.mark.parametrize("kind", ["to our own pack", "to an empty folder", "to a file", "to nothing"])
def test_a_target_that_is_a_link_is_refused(demo, tmp_path, run, kind) -> None:
    goal, out = tmp_path / "goal", tmp_path / "out"
    out.mkdir()
    if kind == "to our own pack":
        shutil.copytree(demo, goal)
    elif kind == "to an empty folder":
        goal.mkdir()
    elif kind == "to a file":
        goal.write_text("mine")
    before = tree(tmp_path)
    (out / REFERENCE).symlink_to(goal)
    assert "is not a folder. Move it away" in refused(run, out)
    (out / REFERENCE).unlink()
    assert tree(tmp_path) == before


def test_an_out_that_is_a_file_is_refused_in_one_line(tmp_path, run) -> None:
    (tmp_path / "out").write_text("mine")
    code, error = build(run, tmp_path / "out")
    assert code == 4 and error.startswith("doorpost: ") and error.count("\n") == 1
    assert (tmp_path / "out").read_text() == "mine"


@pytest.fixture
def open_to_all() -> Iterator[Path]:
    """A folder that another user can reach, with the demo's files in it; pytest's own folders are closed to others."""
    folder = Path(tempfile.mkdtemp())
    folder.chmod(0o755)
    (folder / "job").mkdir()
    write_files(read_files(), folder / "job")
    yield folder
    for path in folder.rglob("*"):
        if path.is_dir():
            path.chmod(0o755)
    shutil.rmtree(folder)


@pytest.mark.parametrize("out", ["closed", "closed/below"])
def test_a_folder_that_may_not_be_written_is_refused_in_one_line(monkeypatch, open_to_all, run, out) -> None:
    closed = open_to_all / "closed"
    closed.mkdir()
    closed.chmod(0o555)
    # The system lets its administrator write anywhere, so another user must try; whether that user may read the program's
    # own files is no question here, so the job is read before.
    ready = compile_job(open_to_all / "job" / "job.yaml")
    monkeypatch.setattr("generator.cli.jobs.compile_job", lambda file, as_of: ready)
    administrator = os.geteuid() == 0
    if administrator:
        os.seteuid(65534)
    try:
        assert not os.access(closed, os.W_OK, effective_ids=True)
        code, _, error = run("build", open_to_all / "job", "--out", open_to_all / out)
    finally:
        if administrator:
            os.seteuid(0)
    assert code == 4
    assert error.startswith(f"doorpost: {closed}") and error.endswith(" could not be written (Permission denied).\n")
    assert error.count("\n") == 1 and list(closed.iterdir()) == []


# --- systems without an exchange, and runs that were killed -------------------------------------------------

@pytest.fixture
def without_exchange(monkeypatch) -> None:
    monkeypatch.setattr(swap, "_exchange", lambda one, other: False)


def test_this_system_exchanges_two_folders_at_once(tmp_path) -> None:
    for name in ("one", "other"):
        (tmp_path / name).mkdir()
        (tmp_path / name / name).touch()
    exchanged = swap._exchange(tmp_path / "one", tmp_path / "other")
    assert exchanged == sys.platform.startswith("linux")
    assert [path.name for path in (tmp_path / "one").iterdir()] == (["other"] if exchanged else ["one"])


@pytest.mark.parametrize("missing", ["another system", "an older library", "a disk that cannot"])
def test_where_there_is_no_exchange_the_pack_is_swapped_all_the_same(monkeypatch, demo, earlier, run, missing) -> None:
    if missing == "another system":
        monkeypatch.setattr(swap.sys, "platform", "darwin")
    elif missing == "an older library":
        monkeypatch.setattr(swap.ctypes, "CDLL", lambda *given, **named: object())
    else:
        monkeypatch.setattr(swap, "EXCHANGE", 1 << 30)
    assert build(run, earlier) == (0, "")
    assert is_new(demo, earlier)


def test_without_an_exchange_a_second_name_that_cannot_be_given_brings_the_earlier_pack_back(
        monkeypatch, without_exchange, earlier, run) -> None:
    before, real = tree(earlier), Path.rename

    def rename(self: Path, to: Path) -> Path:
        if self.name.startswith(BESIDE):
            raise OSError(13, "Permission denied", str(self))
        return real(self, to)

    monkeypatch.setattr(Path, "rename", rename)
    assert build(run, earlier)[0] == 4
    monkeypatch.undo()
    assert tree(earlier) == before


KILLED = '''
import os, sys
from pathlib import Path
from generator import cli
from generator.publish import pack, swap

moment = sys.argv[1]
real = Path.rename


def rename(self, to):
    if moment == "between the names" and self.name.startswith(swap.BESIDE):
        os._exit(137)
    done = real(self, to)
    if moment == "after the names" and self.name.startswith(swap.BESIDE):
        os._exit(137)
    return done


swap._exchange = lambda one, other: False
Path.rename = rename
if moment == "in the middle":
    pack.write_manifest = lambda folder: os._exit(137)
sys.exit(cli.main(sys.argv[2:]))
'''


def kill(moment: str, out: Path) -> None:
    """A run without an exchange that ends at once, as a killed one does."""
    done = subprocess.run([sys.executable, "-c", KILLED, moment, "build", str(DEMO), "--out", str(out)],
                          env={**os.environ, "PYTHONPATH": str(ROOT)}, capture_output=True, timeout=120)
    assert done.returncode == 137, done.stderr.decode()


def names(out: Path) -> set[str]:
    return {path.name for path in out.iterdir()}


def test_a_run_killed_in_the_middle_leaves_the_earlier_pack_and_the_next_run_clears_up(demo, earlier, run) -> None:
    before = tree(earlier / REFERENCE)
    kill("in the middle", earlier)
    assert names(earlier) == {REFERENCE, f"{BESIDE}{REFERENCE}"}
    assert tree(earlier / REFERENCE) == before
    assert build(run, earlier) == (0, "")
    assert is_new(demo, earlier)


def test_a_run_killed_between_the_two_names_is_repaired_at_the_next_start(monkeypatch, earlier) -> None:
    before = tree(earlier / REFERENCE)
    kill("between the names", earlier)
    assert names(earlier) == {f"{ASIDE}{REFERENCE}", f"{BESIDE}{REFERENCE}"}
    # Repaired at the start: this run gets no further, and the earlier pack stands in its place again.
    monkeypatch.setattr(pack_module, "write_site", fails(RuntimeError("on purpose"))(pack_module.write_site))
    with pytest.raises(RuntimeError, match="on purpose"):
        write_pack(compile_job(DEMO / "job.yaml"), earlier)
    assert names(earlier) == {REFERENCE} and tree(earlier / REFERENCE) == before


def test_a_run_killed_after_the_two_names_leaves_the_new_pack_and_the_next_run_clears_up(demo, earlier, run) -> None:
    kill("after the names", earlier)
    assert names(earlier) == {REFERENCE, f"{ASIDE}{REFERENCE}"}
    assert tree(earlier / REFERENCE) == tree(demo)
    assert build(run, earlier) == (0, "")
    assert is_new(demo, earlier)


# --- a reader that looks all the time -----------------------------------------------------------------------

def small_pack(folder: Path, version: int) -> None:
    for index in range(12):
        (folder / f"{index}.txt").write_text(f"version {version}\n" * 50)
    write_manifest(folder)


def looked_at(target: Path) -> str:
    """What a reader sees who opens the pack at this moment and reads all of it: its version, "replaced" if another pack
    took the place while reading, else what is wrong."""
    try:
        handle = os.open(target, os.O_RDONLY)
    except FileNotFoundError:
        return "there is no pack"
    try:
        return _whole(handle) if _same(handle, target) else "replaced"
    except (FileNotFoundError, ValueError) as error:
        # A reader who came before the exchange holds the earlier folder, which is then cleared away.
        return "replaced" if not _same(handle, target) else f"broken: {error}"
    finally:
        os.close(handle)


def _same(handle: int, target: Path) -> bool:
    try:
        now = os.stat(target)
    except FileNotFoundError:
        return True
    return os.fstat(handle).st_ino == now.st_ino


def _whole(handle: int) -> str:
    lines = _read(handle, MANIFEST).decode().splitlines()
    sums = {name: checksum for checksum, _, name in (line.partition("  ") for line in lines)}
    texts = {name: _read(handle, name) for name in sums}
    if len(sums) != 12 or sums != {name: hashlib.sha256(text).hexdigest() for name, text in texts.items()}:
        raise ValueError("checksums do not agree")
    return texts["0.txt"].decode().partition("\n")[0]


def _read(handle: int, name: str) -> bytes:
    opened = os.open(name, os.O_RDONLY, dir_fd=handle)
    with open(opened, "rb") as file:
        return file.read()


def test_a_reader_who_looks_at_any_time_sees_a_whole_pack(tmp_path) -> None:
    target = tmp_path / REFERENCE
    target.mkdir()
    small_pack(target, 0)
    seen: list[str] = []
    stop = threading.Event()

    def look() -> None:
        while not stop.is_set():
            seen.append(looked_at(target))

    reader = threading.Thread(target=look)
    reader.start()
    version = 0
    while (len({one for one in seen if one.startswith("version")}) < 20 or version < 100) and version < 5000:
        version += 1
        fresh = beside(target)
        small_pack(fresh, version)
        swap_in(fresh, target)
    stop.set()
    reader.join()
    assert [one for one in seen if not one.startswith(("version", "replaced"))] == []
    assert len({one for one in seen if one.startswith("version")}) >= 20
    assert looked_at(target) == f"version {version}"


def test_this_reader_would_see_the_gap_between_two_names(monkeypatch, without_exchange, tmp_path) -> None:
    target, real = tmp_path / REFERENCE, Path.rename
    target.mkdir()
    small_pack(target, 0)
    fresh = beside(target)
    small_pack(fresh, 1)
    seen = []

    def rename(self: Path, to: Path) -> Path:
        seen.append(looked_at(target))
        return real(self, to)

    monkeypatch.setattr(Path, "rename", rename)
    swap_in(fresh, target)
    assert seen == ["version 0", "there is no pack"] and looked_at(target) == "version 1"


def test_this_reader_would_see_a_pack_that_is_filled_in_place(tmp_path) -> None:
    small_pack(tmp_path, 1)
    assert looked_at(tmp_path) == "version 1"
    (tmp_path / "3.txt").write_text("half a ve")
    assert looked_at(tmp_path) == "broken: checksums do not agree"
    (tmp_path / "3.txt").unlink()
    assert looked_at(tmp_path).startswith("broken: ")


# --- the list of files --------------------------------------------------------------------------------------

def test_the_list_names_every_file_with_its_checksum(demo) -> None:
    lines = (demo / MANIFEST).read_text(encoding="utf-8").splitlines()
    files = sorted(path.relative_to(demo).as_posix() for path in demo.rglob("*")
                   if path.is_file() and path.name != MANIFEST)
    assert lines == [f"{hashlib.sha256((demo / name).read_bytes()).hexdigest()}  {name}" for name in files]
    assert listed(demo) == {*files, MANIFEST}


def test_what_was_built_beside_is_a_neighbour_of_the_target_and_hidden(tmp_path) -> None:
    fresh = beside(tmp_path / "packs" / REFERENCE)
    assert fresh.parent == tmp_path / "packs" and fresh.name.startswith(".") and list(fresh.iterdir()) == []
    assert stat.S_ISDIR(fresh.lstat().st_mode)


def test_a_refused_folder_is_told_as_something_that_could_not_be_written(tmp_path) -> None:
    (tmp_path / REFERENCE).write_text("mine")
    with pytest.raises(CannotWrite, match="not a folder"):
        write_pack(compile_job(DEMO / "job.yaml"), tmp_path)


# --- two builds at once -------------------------------------------------------------------------------------

def test_a_second_build_into_the_same_folder_is_refused_while_the_first_runs(earlier, run) -> None:
    before = tree(earlier)
    with alone(earlier, "build", "build"):
        code, error = build(run, earlier)
    assert code == 4 and error == (f"doorpost: another build is writing into {earlier}. Wait until it ends, then build again.\n")
    assert tree(earlier) == before
    assert build(run, earlier) == (0, "")
