"""To issue a job: freeze its numbers in issued.yaml, and put its packs into one file for the archive.

issued.yaml decides which state holds: it is exchanged for the new one in a single step, after the archive was written beside
its place and before the archive gets its name. A run that ends between those two is finished by the next.
"""
import os
import shutil
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager, nullcontext
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from generator.disk.archive import held_in, moment_of, write_zip
from generator.disk.lock import alone
from generator.disk.traces import ISSUED, refuse_lost
from generator.pipeline import Compiled, compile_job, issued_on
from generator.record.issued_text import issued_text
from generator.terms.problem import CannotWrite
from generator.terms.show import day

NEW = ".doorpost-new-"

Fill = Callable[[Compiled, Path, dict[str, bytes]], None]


class NotIssued(Exception):
    """The job cannot be issued as it stands; the message says why and what to do. Nothing was written."""


class TooEarly(NotIssued):
    """The day lies before the last issue."""


@dataclass(frozen=True)
class Issue:
    """What was issued and where its archive is. `finished`: it was begun by an earlier run that was broken off."""

    job: Compiled
    archive: Path
    finished: bool = False


def issue(path: Path, on: date, out: Path, fill: Fill) -> Issue:
    """Issues a job on a day; `fill` builds its packs into a folder, with more files by name.

    Raises JobInvalid, NotIssued, CannotWrite or Leak; nothing of the job has changed then.
    """
    folder = Path(os.path.realpath(path)).parent
    if not folder.is_dir():
        compile_job(path, on)  # Raises JobInvalid, which says what is not there.
    try:
        with _alone(folder), _draft(folder) as draft:
            before = compile_job(path, on)
            out.mkdir(parents=True, exist_ok=True)
            with nullcontext() if out.samefile(folder) else _alone(out):
                refuse_lost(out, before.papers.job.reference, before.last.revision if before.last else 0)
                return _finished(before, folder, out, path) or _issue(before, on, out, fill, draft)
    except OSError as error:
        raise CannotWrite(f"{error.filename or out} could not be written ({error.strerror}).") from error


def _issue(before: Compiled, on: date, out: Path, fill: Fill, draft: Path) -> Issue:
    _refuse(before, on)
    job = issued_on(before, on)
    archive = out / f"{_name(job)}.zip"
    if archive.exists() or archive.is_symlink():
        raise CannotWrite(f"{archive} is there already, and an archive is never written over. Move it away, or name another --out.")
    text = issued_text(job).encode()
    fresh = out / f"{NEW}{archive.name}"
    committed = False
    try:
        _pack(job, fill, text, fresh)
        _write(draft, text)
        os.replace(draft, draft.parent / ISSUED)
        committed = True
        _settle(draft.parent)
        os.replace(fresh, archive)
        _settle(out)
    finally:
        if not committed:
            fresh.unlink(missing_ok=True)
    return Issue(job, archive)


def _name(job: Compiled) -> str:
    return f"{job.papers.job.reference}-r{job.last.revision}"


def _refuse(before: Compiled, on: date) -> None:
    """What keeps a job from being issued: nothing can be frozen that has no number."""
    if before.last and on < before.last.date:
        raise TooEarly(f"revision {before.last.revision} was issued on {day(before.last.date)}. Name that day or a later one.")
    if before.results.slots.no_room:
        lists = ", ".join(dict.fromkeys(one.list for one in before.results.slots.no_room))
        raise NotIssued(f"the numbers do not fit ({lists}), so there is nothing to freeze. Mend what `doorpost check` finds, then issue.")


def _pack(job: Compiled, fill: Fill, text: bytes, fresh: Path) -> None:
    """The archive, whole and on the disk, beside the place where it is to be."""
    folder = fresh.with_suffix("")
    shutil.rmtree(folder, ignore_errors=True)
    try:
        folder.mkdir()
        fill(job, folder, {ISSUED: text})
        write_zip(folder, fresh, _name(job), moment_of(job.last.date, job.last.revision))
        with open(fresh, "rb+") as handle:
            os.fsync(handle.fileno())
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def _finished(job: Compiled, folder: Path, out: Path, path: Path) -> Issue | None:
    """Ends what a run began that was broken off: names its archive if the job was issued by it, else clears it away."""
    found = None
    for left in sorted(out.glob(f"{NEW}{job.papers.job.reference}-r*")):
        if left.is_dir() and not left.is_symlink():
            shutil.rmtree(left)
        elif job.last and left.name == f"{NEW}{_name(job)}.zip" and _holds(left, _name(job), folder / ISSUED):
            archive = out / f"{_name(job)}.zip"
            os.replace(left, archive)
            _settle(out)
            found = Issue(compile_job(path), archive, finished=True)
        else:
            left.unlink()
    return found


def _holds(archive: Path, name: str, issued: Path) -> bool:
    """Whether an archive is that of what was issued last."""
    return held_in(archive, f"{name}/{ISSUED}") == issued.read_bytes()


@contextmanager
def _draft(folder: Path) -> Iterator[Path]:
    """A place for the new issued.yaml beside its own; a folder that cannot be written is told before anything is built."""
    draft = folder / f"{NEW}{ISSUED}"
    draft.unlink(missing_ok=True)
    draft.touch()
    try:
        yield draft
    finally:
        draft.unlink(missing_ok=True)


def _write(path: Path, content: bytes) -> None:
    with open(path, "wb") as handle:
        handle.write(content)
        handle.flush()
        os.fsync(handle.fileno())
    os.chmod(path, 0o644)


def _settle(folder: Path) -> None:
    """Waits until the names in a folder are on the disk."""
    if os.name == "posix":
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _alone(folder: Path) -> AbstractContextManager[None]:
    return alone(folder, "run", "issue")
