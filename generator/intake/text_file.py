"""A file's text, or in one line why there is none."""
import codecs
import errno
import os
import re
import stat
from dataclasses import dataclass
from pathlib import Path

from generator.terms.problem import Problem

LARGEST_FILE = 1_000_000
MARKS = {b"\xff\xfe\x00\x00": "UTF-32", b"\x00\x00\xfe\xff": "UTF-32", b"\xff\xfe": "UTF-16", b"\xfe\xff": "UTF-16"}
# What YAML allows in a file, section 5.1 of its specification (from memory), less three kinds of line end that no editor
# counts as one: lines would be numbered otherwise than on the reader's screen.
FORBIDDEN = re.compile("[^\t\n\x20-\x7e\xa0-\u2027\u202a-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]")
SAVE = "Save it as plain text in UTF-8."


@dataclass(frozen=True)
class TextFile:
    """The text of a file, and its bytes; None, and a problem, if it cannot be read as text."""

    text: str | None
    problem: Problem | None = None
    raw: bytes = b""


class _No(Exception):
    """Why the machine does not give the file out, and what to do."""


def read_text(path: Path, shown_as: str, largest: int = LARGEST_FILE) -> TextFile:
    """Reads a whole file as UTF-8, at most a megabyte or what `largest` says; line ends become \\n and a byte-order mark is dropped."""
    found = read_raw(path, shown_as, largest)
    return found if found.problem else _decoded(found.raw, shown_as)


def read_raw(path: Path, shown_as: str, largest: int, too_large: str = "A file of a job is a few hundred lines; split off what is not part of it.",
             missing: str = "Check the name, or start one with `doorpost new`.") -> TextFile:
    """The bytes of a whole file, not yet as text. `too_large` and `missing` say what to do."""
    try:
        raw = _bytes(path, largest)
    except FileNotFoundError:
        return _not_read(shown_as, "there is no such file.", missing, unreadable=False)
    except _No as reason:
        return _not_read(shown_as, *reason.args)
    except OSError as error:
        return _not_read(shown_as, *_why(error))
    if len(raw) > largest:
        return _not_read(shown_as, f"this file is larger than {largest // 1_000_000} MB.", too_large, unreadable=False)
    return TextFile(None, raw=raw)


def _not_read(shown_as: str, says: str, do: str, unreadable: bool = True) -> TextFile:
    return TextFile(None, Problem(shown_as, 0, 0, "", says, do, unreadable=unreadable))


def _bytes(path: Path, largest: int) -> bytes:
    """The bytes of a file that stood still while it was read. Raises _No if it did not, or is no file at all."""
    # Not blocking: a fifo would wait for a writer that never comes.
    handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
    try:
        before = os.fstat(handle)
        if stat.S_ISDIR(before.st_mode):
            raise _No("this is a folder.", "Put a text file in its place.")
        if not stat.S_ISREG(before.st_mode):
            raise _No("this is not a file that can be read to its end.", "Put a text file in its place.")
        raw = _read(handle, largest + 1)
        if _state(os.fstat(handle)) != _state(before) or _state(os.stat(path)) != _state(before) \
                or len(raw) != min(before.st_size, largest + 1):
            raise _No("this file was changed while it was read.", "Wait until it is saved, then give the command again.")
        return raw
    finally:
        os.close(handle)


def _read(handle: int, most: int) -> bytes:
    parts, left = [], most
    while left and (part := os.read(handle, left)):
        parts.append(part)
        left -= len(part)
    return b"".join(parts)


def _state(of: os.stat_result) -> tuple[int, ...]:
    return of.st_dev, of.st_ino, of.st_size, of.st_mtime_ns


def _why(error: OSError) -> tuple[str, str]:
    """Why a file cannot be opened, and what to do."""
    if error.errno in (errno.EACCES, errno.EPERM):
        return "you are not allowed to read this file.", "Ask the one whose file it is, or read it as that user."
    if error.errno == errno.ELOOP:
        return "this is a link that leads back to itself.", "Put the file itself in its place."
    if error.errno == errno.ENXIO:
        return "this is not a file that can be read to its end.", "Put a text file in its place."
    if error.errno == errno.ENAMETOOLONG:
        return "this name is too long for a file.", "Check the name."
    if error.errno == errno.ENOTDIR:
        return "this name leads through a file as if it were a folder.", "Check the name."
    return f"this file cannot be opened ({error.strerror}).", "Check the disk it is on, or copy the file anew."


def _decoded(raw: bytes, shown_as: str) -> TextFile:
    """The bytes as text, with whatever keeps them from being one answered at its line."""
    coding = next((name for mark, name in MARKS.items() if raw.startswith(mark)), "") or _two_bytes_a_letter(raw)
    if coding:
        return _not_read(shown_as, f"this file is saved as {coding}.", "Save it as UTF-8.", unreadable=False)
    plain = raw.removeprefix(codecs.BOM_UTF8)
    try:
        text = _lines(plain.decode())
    except UnicodeDecodeError as error:
        before = _lines(plain[:error.start].decode())
        return TextFile(None, _at(shown_as, _lines(plain.decode(errors="replace")), len(before),
                                  "there is a character here that is not UTF-8.", "Save the file as UTF-8."))
    if found := FORBIDDEN.search(text):
        what = ("there is a zero byte here.", SAVE) if found[0] == "\0" else (
            "there is a mark here that cannot be seen.", "Take it out and type what belongs there; copying may have brought it along.")
        return TextFile(None, _at(shown_as, text, found.start(), *what))
    return TextFile(text, raw=raw)


def _two_bytes_a_letter(raw: bytes) -> str:
    """UTF-16 without its mark: of the first bytes every second is zero, as Latin letters have it."""
    start = raw[:200]
    return "UTF-16" if len(start) > 3 and max(start[0::2].count(0), start[1::2].count(0)) > len(start) * 0.4 else ""


def _lines(text: str) -> str:
    return text.replace("\r\n", "\n").replace("\r", "\n")


def _at(shown_as: str, text: str, index: int, says: str, do: str) -> Problem:
    """A problem at a character of a text, with its line as it is written."""
    start = text.rfind("\n", 0, index) + 1
    end = text.find("\n", index)
    return Problem(shown_as, text.count("\n", 0, index) + 1, index - start + 1, "", says, do, text[start:None if end < 0 else end])
