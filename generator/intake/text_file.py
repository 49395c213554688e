"""A file's text, or in one line why there is none."""
import os
import stat
from dataclasses import dataclass
from pathlib import Path

from generator.terms.problem import Problem

LARGEST_FILE = 1_000_000


@dataclass(frozen=True)
class TextFile:
    """The text of a file, and its bytes; None, and a problem, if it cannot be read as text."""

    text: str | None
    problem: Problem | None = None
    raw: bytes = b""


def read_text(path: Path, shown_as: str, largest: int = LARGEST_FILE) -> TextFile:
    """Reads a whole file as UTF-8, at most a megabyte or what `largest` says; line ends become \\n and a byte-order mark is dropped."""

    def no(says: str, do: str, line: int = 0) -> TextFile:
        return TextFile(None, Problem(shown_as, line, 1 if line else 0, "", says, do))

    try:
        # Not blocking: a fifo would wait for a writer that never comes.
        with open(os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0)), "rb") as handle:
            if not stat.S_ISREG(os.fstat(handle.fileno()).st_mode):
                return no("this is not a file.", "Name a text file.")
            raw = handle.read(largest + 1)
    except FileNotFoundError:
        return no("there is no such file.", "Check the name, or start one with `doorpost new`.")
    except OSError as error:
        return no(f"this file cannot be opened ({error.strerror}).", "Check its name and who may read it.")
    if len(raw) > largest:
        return no(f"this file is larger than {largest // 1_000_000} MB.", "A job file is a few hundred lines; split off what is not part of it.")
    if raw[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return no("this file is saved as UTF-16.", "Save it as UTF-8.")
    if (zero := raw.find(b"\0")) >= 0:
        return no("this file holds a zero byte.", "Save it as plain text in UTF-8.", raw.count(b"\n", 0, zero) + 1)
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        return no("there is a character here that is not UTF-8.", "Save the file as UTF-8.", raw.count(b"\n", 0, error.start) + 1)
    return TextFile(text.replace("\r\n", "\n").replace("\r", "\n"), raw=raw)
