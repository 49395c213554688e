"""Starter files for a job: they build as they stand, and their comments say what to change."""
import secrets
from pathlib import Path

from generator.terms.audience import Audience
from generator.terms.problem import CannotWrite

LETTERS = "abcdefghijklmnopqrstuvwxyz234567"
# 26 letters out of 32 are 130 random bits: no link can be guessed.
PATH_LETTERS = 26


def path_name() -> str:
    """A random path name for a published pack."""
    return "".join(secrets.choice(LETTERS) for _ in range(PATH_LETTERS))


def write_starter(folder: Path, starter: Path) -> list[Path]:
    """Writes the files of `starter` into a new or empty folder; gives their paths. Raises CannotWrite, writes nothing, otherwise."""
    try:
        if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
            raise CannotWrite(f"{folder} is there already and not an empty folder. Name another.")
        return [_write(file, folder / file.relative_to(starter)) for file in sorted(starter.rglob("*.yaml"))]
    except OSError as error:
        raise CannotWrite(f"{error.filename or folder} could not be written ({error.strerror}).") from error


def _write(file: Path, target: Path) -> Path:
    text = file.read_text(encoding="utf-8")
    for audience in Audience:
        text = text.replace(f"@{audience.value}@", path_name())
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_text(text, encoding="utf-8", newline="\n")
    return target
