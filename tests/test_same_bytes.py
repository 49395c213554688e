"""Are the bytes of a pack decided by the job alone, and not by folder, day, machine or mood of the interpreter?"""
import codecs
import datetime
import os
import re
import shutil
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from generator.pipeline import compile_job
from generator.publish.pack import write_pack
from tests.conftest import DEMO, ROOT

# The day of the build that is pretended; no job of ours speaks of that year.
FAR_YEAR = 2093
# A run of the program with another clock and another umask, told by its arguments: seconds to add, umask, command.
# The clock is changed after the libraries are loaded, in every module that has taken a name from it.
CHILD = '''
import datetime, locale, os, sys, time
import generator.cli, generator.publish.pack, generator.publish.preview, generator.record.starter

shift = float(sys.argv[1])
real_time, real_now, Date, DateTime = time.time, datetime.datetime.now, datetime.date, datetime.datetime
real_local, real_utc, real_format = time.localtime, time.gmtime, time.strftime


class Like(type):
    def __instancecheck__(cls, one):
        return isinstance(one, cls.__mro__[1])


class FarDate(Date, metaclass=Like):
    @classmethod
    def today(cls):
        return cls.fromtimestamp(time.time())


class FarDateTime(DateTime, metaclass=Like):
    @classmethod
    def now(cls, tz=None):
        return cls.fromtimestamp(time.time(), tz)

    @classmethod
    def today(cls):
        return cls.now()

    @classmethod
    def utcnow(cls):
        return cls.fromtimestamp(time.time(), datetime.timezone.utc).replace(tzinfo=None)


far = {
    real_time: lambda: real_time() + shift,
    real_local: lambda seconds=None: real_local(time.time() if seconds is None else seconds),
    real_utc: lambda seconds=None: real_utc(time.time() if seconds is None else seconds),
    real_format: lambda form, when=None: real_format(form, when or time.localtime()),
    Date: FarDate,
    DateTime: FarDateTime,
}
for name, module in list(sys.modules.items()):
    if name.partition(".")[0] in "generator mkdocs material jinja2 markdown qrcode time datetime".split():
        for key, value in list(vars(module).items()):
            if callable(value) and type(value).__hash__ and value in far:
                setattr(module, key, far[value])
os.umask(int(sys.argv[2], 8))
years = datetime.datetime.now().year, time.gmtime().tm_year, time.strftime("%Y")
print("day", datetime.date.today(), *years, "umask", sys.argv[2], file=sys.stderr)
print("encoding", locale.getpreferredencoding(False), "zone", time.tzname, file=sys.stderr)
sys.exit(generator.cli.main(sys.argv[3:]))
'''


def far_shift() -> float:
    """Seconds from now to a day in the far year."""
    return datetime.datetime(FAR_YEAR, 3, 7, 23, 59, 30).timestamp() - datetime.datetime.now().timestamp()


def tree(folder: Path) -> dict[str, tuple[int, bytes]]:
    """Every file and folder below a folder: its mode, and a file's bytes."""
    return {path.relative_to(folder).as_posix(): (stat.S_IMODE(path.lstat().st_mode),
                                                  path.read_bytes() if path.is_file() else b"")
            for path in (folder, *folder.rglob("*"))}


def different(one: Path, other: Path) -> list[str]:
    first, second = tree(one), tree(other)
    return sorted(name for name in {*first, *second} if first.get(name) != second.get(name))


def run_child(folder: Path, out: Path, shift: float = 0, umask: str = "022", cwd: Path | None = None,
              **variables: str) -> tuple[Path, str]:
    """Builds a job in another process; gives the pack and what the process says about itself."""
    kept = {name: value for name, value in os.environ.items() if name not in ("SOURCE_DATE_EPOCH", "PYTHONHASHSEED")}
    done = subprocess.run([sys.executable, "-c", CHILD, str(shift), umask, "build", str(folder), "--out", str(out)],
                          env={**kept, "PYTHONPATH": str(ROOT), **variables}, cwd=cwd or out.parent, text=True,
                          capture_output=True, timeout=120)
    assert done.returncode == 0, done.stderr
    (pack,) = out.iterdir()
    return pack, done.stderr


@pytest.fixture(scope="module")
def moved(tmp_path_factory) -> Path:
    """The demo's files in another folder, whose name nobody would guess."""
    folder = tmp_path_factory.mktemp("quite elsewhere, ünder umlauts")
    shutil.copytree(DEMO.parent, folder / "work")
    return folder / "work" / DEMO.name


EVERYTHING_ELSE = {"PYTHONHASHSEED": "4242", "TZ": "Pacific/Kiritimati", "LANG": "de_DE.UTF-8", "LC_ALL": "C",
                   "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0", "SOURCE_DATE_EPOCH": "1000000000", "HOME": "/nowhere",
                   "USER": "somebody-else", "COLUMNS": "20", "NO_COLOR": "1"}


@pytest.fixture(scope="module")
def far_away(moved, tmp_path_factory) -> tuple[Path, str]:
    """A pack built with everything else changed at once: folder, day, hash seed, umask, zone, language, time stamp."""
    out = tmp_path_factory.mktemp("far") / "out"
    return run_child(moved, out, far_shift(), "077", cwd=moved, **EVERYTHING_ELSE)


def test_another_folder_day_seed_umask_zone_language_and_time_stamp_change_no_byte_and_no_mode(demo, far_away) -> None:
    pack, said = far_away
    assert f"day {FAR_YEAR}-03-0" in said and said.count(str(FAR_YEAR)) == 4, "the other clock was not in force"
    assert "umask 077" in said and "+14" in said
    assert codecs.lookup(re.search(r"encoding (\S+)", said)[1]).name == "ascii", "the other language was not in force"
    assert different(demo, pack) == []
    assert len(tree(demo)) > 60


def test_a_second_build_in_one_process_has_the_same_bytes(demo, tmp_path) -> None:
    first = write_pack(compile_job(DEMO / "job.yaml"), tmp_path / "first")
    second = write_pack(compile_job(DEMO / "job.yaml"), tmp_path / "second")
    again = write_pack(compile_job(DEMO / "job.yaml"), tmp_path / "second")
    assert again == second
    assert different(first, second) == different(first, demo) == []


def test_another_job_built_between_leaves_no_trace(demo, job_file, tmp_path) -> None:
    other = job_file(lambda files: files["job"].update(title="Quite Another House", reference="K-2042"))
    write_pack(compile_job(other), tmp_path / "out")
    assert different(demo, write_pack(compile_job(DEMO / "job.yaml"), tmp_path / "out")) == []


def test_a_time_stamp_set_outside_does_not_matter_and_stays_as_it_was(demo, tmp_path, monkeypatch) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1234567890")
    assert different(demo, write_pack(compile_job(DEMO / "job.yaml"), tmp_path / "out")) == []
    assert os.environ["SOURCE_DATE_EPOCH"] == "1234567890"
    monkeypatch.delenv("SOURCE_DATE_EPOCH")
    write_pack(compile_job(DEMO / "job.yaml"), tmp_path / "out")
    assert "SOURCE_DATE_EPOCH" not in os.environ


def test_no_path_of_the_machine_is_in_any_file(demo, far_away, moved) -> None:
    pack, _ = far_away
    for folder, paths in ((pack, (moved, moved.parent.parent, pack.parent)), (demo, (DEMO, demo.parent))):
        texts = [str(one) for one in (*paths, ROOT, sys.prefix, Path.home(), Path(sys.executable).parent)]
        # A home of one letter or "/" would be found anywhere and prove nothing.
        known = [text.encode() for text in texts if len(text) > 4]
        assert len(known) >= 4
        assert [(name, one) for name, (_, data) in tree(folder).items() for one in known if one in data] == []


def test_the_day_of_the_build_is_in_no_file(far_away) -> None:
    pack, _ = far_away
    assert [name for name, (_, data) in tree(pack).items() if str(FAR_YEAR).encode() in data] == []


def test_files_and_folders_can_be_read_by_everybody(far_away) -> None:
    modes = {(mode, bool(data)) for name, (mode, data) in tree(far_away[0]).items()}
    assert {(0o755, False), (0o644, True)} <= modes <= {(0o755, False), (0o644, True), (0o644, False)}


@pytest.mark.long
@pytest.mark.parametrize("variables", [{name: value} for name, value in EVERYTHING_ELSE.items()]
                         + [{"PYTHONHASHSEED": seed} for seed in ("0", "1", "2", "3")]
                         + [{"TZ": "America/Adak"}, {"LANG": "C.UTF-8", "LC_ALL": "C.UTF-8"}, {"LANG": "tr_TR.UTF-8"}],
                         ids=lambda one: "-".join(f"{name}={value}" for name, value in one.items()))
def test_each_variable_on_its_own_changes_no_byte(demo, tmp_path, variables) -> None:
    assert different(demo, run_child(DEMO, tmp_path / "out", **variables)[0]) == []


@pytest.mark.long
@pytest.mark.parametrize("umask", ["000", "002", "022", "027", "077"])
def test_each_umask_gives_the_same_bytes_and_modes(demo, tmp_path, umask) -> None:
    assert different(demo, run_child(DEMO, tmp_path / "out", umask=umask)[0]) == []


@pytest.mark.long
@pytest.mark.parametrize("days", [-20000, -1, 1, 200, 20000])
def test_each_day_gives_the_same_bytes(demo, tmp_path, days) -> None:
    assert different(demo, run_child(DEMO, tmp_path / "out", shift=days * 86400)[0]) == []


def test_the_comparison_sees_bytes_modes_and_names(tmp_path) -> None:
    one, other = tmp_path / "one", tmp_path / "other"
    for folder in (one, other):
        (folder / "inner").mkdir(parents=True)
        (folder / "inner" / "file").write_text("x")
    assert different(one, other) == []
    (other / "inner" / "file").chmod(0o600)
    assert different(one, other) == ["inner/file"]
    (one / "inner" / "file").chmod(0o600)
    (one / "inner" / "file").write_text("y")
    assert different(one, other) == ["inner/file"]
    (one / "new").mkdir()
    other.chmod(0o700)
    assert different(one, other) == [".", "inner/file", "new"]
