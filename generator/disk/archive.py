"""A folder as one file for the company's archive: the same files give the same bytes, on any day and any machine."""
import os
import stat
import zipfile
from pathlib import Path

# The earliest day that a zip can hold. Nothing in it tells the time.
NO_DAY = (1980, 1, 1, 0, 0, 0)
UNIX = 3


def write_zip(folder: Path, file: Path, name: str) -> None:
    """Writes every file of a folder into a zip, below a folder called `name`, sorted.

    Nothing is packed tight: how it is done differs from machine to machine.
    """
    with zipfile.ZipFile(file, "w", zipfile.ZIP_STORED) as archive:
        for path in sorted(folder.rglob("*"), key=lambda path: path.relative_to(folder).as_posix()):
            if path.is_file():
                entry = zipfile.ZipInfo(f"{name}/{path.relative_to(folder).as_posix()}", NO_DAY)
                entry.create_system, entry.external_attr = UNIX, (stat.S_IFREG | 0o644) << 16
                archive.writestr(entry, path.read_bytes())
    os.chmod(file, 0o644)


def held_in(file: Path, name: str) -> bytes | None:
    """A file of a zip by its whole name; None if the zip is broken or does not hold it."""
    try:
        with zipfile.ZipFile(file) as archive:
            return archive.read(name) if archive.testzip() is None else None
    except (OSError, KeyError, zipfile.BadZipFile):
        return None
