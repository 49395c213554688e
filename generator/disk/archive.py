"""A folder as one file for the company's archive: the same files give the same bytes, on any day and any machine."""
import os
import stat
import zipfile
from datetime import date, datetime, timedelta
from pathlib import Path

# What a zip can hold: whole days of these years, and every second second of a day (APPNOTE.TXT of the zip format, 4.4.6; from memory).
EARLIEST, LATEST = date(1980, 1, 1), date(2107, 12, 31)
STEP = timedelta(seconds=2)
STEPS_A_DAY = timedelta(days=1) // STEP
UNIX = 3
Moment = tuple[int, int, int, int, int, int]


def moment_of(day: date, revision: int) -> Moment:
    """The time that the files of an issue bear: its day, and its revision as the time of day, so that of two issues of a day the later is the newer.

    It is no time of anybody's clock. Hosts and browsers ask by it whether a file is another one; with one time for all packs, nobody would ever be
    handed a newer one of the same size.

    >>> moment_of(date(2026, 9, 14), 2)
    (2026, 9, 14, 0, 0, 4)
    """
    held = min(max(day, EARLIEST), LATEST)
    return (datetime(held.year, held.month, held.day) + STEP * min(revision, STEPS_A_DAY - 1)).timetuple()[:6]


def write_zip(folder: Path, file: Path, name: str, moment: Moment) -> None:
    """Writes every file of a folder into a zip, below a folder called `name`, sorted, each of that moment.

    Nothing is packed tight: how it is done differs from machine to machine.
    """
    with zipfile.ZipFile(file, "w", zipfile.ZIP_STORED) as archive:
        for path in sorted(folder.rglob("*"), key=lambda path: path.relative_to(folder).as_posix()):
            if path.is_file():
                entry = zipfile.ZipInfo(f"{name}/{path.relative_to(folder).as_posix()}", moment)
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
