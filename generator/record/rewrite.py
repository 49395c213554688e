"""Files of people's own that change: shown first, then written, all of them or none."""
import difflib
import os
import re
import stat
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Protocol

from generator.terms.problem import CannotWrite

LINE = re.compile(r"[^\n]*\n|[^\n]+")


class Change(Protocol):
    """One file as it was read and as it is to be."""

    path: Path
    before: bytes
    after: bytes


def difference(change: Change, name: str) -> str:
    """A change as a unified diff."""
    before, after = (LINE.findall(text.decode("utf-8")) for text in (change.before, change.after))
    return "".join(_whole_lines(difflib.unified_diff(before, after, name, name)))


def _whole_lines(lines: Iterator[str]) -> Iterator[str]:
    for line in lines:
        yield line if line.endswith("\n") else f"{line}\n\\ No newline at end of file\n"


def rewrite(changes: Sequence[Change]) -> None:
    """Writes changed files, each whole or not at all. Raises CannotWrite, with every file as it was, if one cannot be written."""
    fresh: list[Path] = []
    done: list[Change] = []
    try:
        for change in changes:
            _refuse(change)
            fresh.append(_beside(change.path, change.after))
        for change, file in zip(changes, fresh):
            _refuse(change)
            os.replace(file, change.path)
            done.append(change)
            _settle(change.path.parent)
    except BaseException as error:
        _put_back(done)
        if isinstance(error, OSError):
            raise CannotWrite(f"{change.path} could not be written ({error.strerror}). Nothing was changed.") from error
        raise
    finally:
        for file in fresh:
            file.unlink(missing_ok=True)


def _refuse(change: Change) -> None:
    """Raises CannotWrite if a file is not the one that was read, or may not be written."""
    path = change.path
    if path.is_symlink():
        raise CannotWrite(f"{path} is a link. Name the file that it leads to, or put a copy in its place. Nothing was changed.")
    try:
        now = path.read_bytes() if path.is_file() else None
    except OSError:
        now = None
    if now != change.before:
        raise CannotWrite(f"{path} has changed since it was read. Migrate again. Nothing was changed.")
    if not os.access(path, os.W_OK, effective_ids=os.access in os.supports_effective_ids):
        raise CannotWrite(f"{path} may not be written. Ask for the right to write it. Nothing was changed.")


def _beside(path: Path, content: bytes) -> Path:
    """A new file in the same folder, on the disk for certain, with the mode of the one whose place it is to take."""
    status = path.stat()
    handle, name = tempfile.mkstemp(prefix=f".{path.name}-", dir=path.parent)
    try:
        with open(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        _same_owner(name, status)
        os.chmod(name, stat.S_IMODE(status.st_mode))
    except BaseException:
        os.unlink(name)
        raise
    return Path(name)


def _same_owner(name: str, status: os.stat_result) -> None:
    """Gives a file its owner and group, as far as the system lets this person."""
    if hasattr(os, "chown"):
        with suppress(PermissionError):
            os.chown(name, -1, status.st_gid)
            os.chown(name, status.st_uid, -1)


def _settle(folder: Path) -> None:
    """Makes the new name in a folder last, where the system has a way to."""
    if hasattr(os, "O_DIRECTORY"):
        handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _put_back(done: list[Change]) -> None:
    stuck = []
    for change in done:
        file = None
        try:
            file = _beside(change.path, change.before)
            os.replace(file, change.path)
        except OSError:
            stuck.append(str(change.path))
            if file is not None:
                file.unlink(missing_ok=True)
    if stuck:
        raise CannotWrite(f"{', '.join(stuck)}: written, and could not be put back as it was when another file of the job could not be "
                          "written. Migrate again.")
