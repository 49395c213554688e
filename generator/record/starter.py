"""Starter files for a job: they build as they stand, and their comments say what to change."""
import secrets
from pathlib import Path

from generator.terms.audience import Audience
from generator.terms.problem import CannotWrite

LETTERS = "abcdefghijklmnopqrstuvwxyz234567"
# The two ways of giving a house. A line of a starter file that begins with the name of one and a colon is for that way alone.
HOUSES = ("plan", "paths")
# 26 letters out of 32 are 130 random bits: no link can be guessed.
PATH_LETTERS = 26


def path_name() -> str:
    """A random path name for a published pack."""
    return "".join(secrets.choice(LETTERS) for _ in range(PATH_LETTERS))


def write_starter(folder: Path, starter: Path, house: str = HOUSES[0]) -> list[Path]:
    """Writes the files of `starter` into a new or empty folder; gives their paths. Raises CannotWrite, writes nothing, otherwise.

    `house` is one of HOUSES: by a plan with measures, or by a radio path for each unit.
    """
    try:
        if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
            raise CannotWrite(f"{folder} is there already and not an empty folder. Name another.")
        return [_write(file, folder / file.relative_to(starter), house) for file in sorted(starter.rglob("*.yaml"))]
    except OSError as error:
        raise CannotWrite(f"{error.filename or folder} could not be written ({error.strerror}).") from error


def _write(file: Path, target: Path, house: str) -> Path:
    text = _of_house(file.read_text(encoding="utf-8"), house)
    for mark in (f"@{audience.value}@" for audience in Audience):
        if mark in text:
            text = text.replace(mark, path_name())
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_text(text, encoding="utf-8", newline="\n")
    return target


def _of_house(text: str, house: str) -> str:
    """The lines for every house and those for this way of giving one."""
    marks = tuple(f"{one}:" for one in HOUSES)
    lines = (line.removeprefix(f"{house}:") for line in text.splitlines(keepends=True))
    return "".join(line for line in lines if not line.startswith(marks))
