"""The script of the installer's pack and what it is told: parts joined, comments left out, data as a script that needs no fetching.

A page opened from a file may neither fetch its neighbour nor load a module: so both are plain scripts, one after the other.
"""
import json
import re
from collections.abc import Iterator
from dataclasses import asdict, fields
from functools import lru_cache
from pathlib import Path
from typing import Any

from generator.pages.hand import HandData
from generator.publish.places import TEMPLATES

SCRIPT, DATA = "hand.js", "hand-data.js"
PARTS = TEMPLATES / "assets" / "hand"
# Lists of many rows say the names of their values once.
TABLES = ("steps", "asked", "units")
# Where a value stands in the job is of no use on the phone.
NOT_TOLD = "fields"
ROWS = "const rows = (names, all) => all.map(one => Object.fromEntries(names.map((name, at) => [name, one[at]])));"


# A script in pieces: comments, texts, what is matched by a pattern after what cannot be divided, blanks, line ends, words, single signs.
PIECE = re.compile(r"""(?P<comment>/\*.*?\*/|//[^\n]*)|(?P<text>"(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])*')|(?P<blank>[ \t]+)|(?P<end>\n)|(?P<word>[\w$]+)|(?P<sign>.)""",
                   re.S)
PATTERN = re.compile(r"/(?:\\.|\[(?:\\.|[^\]\\\n])*\]|[^/\\\[\n])+/\w*")
DIVIDED = re.compile(r"[\w$)\]]\Z")
BEFORE_PATTERN = ("return", "typeof", "case")
QUOTE = "\"'`"


class OpenText(ValueError):
    """A part of the script holds a text that does not end."""


@lru_cache(maxsize=1)
def script() -> str:
    """The whole script: its parts in the order of their names."""
    return "".join(lean(path.read_text(encoding="utf-8"), path.name) for path in sorted(Path(PARTS).glob("*.js")))


def lean(source: str, name: str = "") -> str:
    """A part of the script without comments, empty lines and blanks that mean nothing; every line end that means something stays.

    Names and texts stay as they were written. Raises OpenText where a text has no end.
    """
    out: list[str] = []
    at = 0
    while at < len(source):
        piece, at = _piece(source, at, out, name)
        if piece == "\n":
            while out and out[-1] == " ":
                out.pop()
        if piece in ("\n", " ") and (not out or out[-1] in ("\n", " ")):
            continue
        out.append(piece)
    return "".join(_without_blanks(out))


def _piece(source: str, at: int, before: list[str], name: str) -> tuple[str, int]:
    """The next piece as it is printed, and where it ends."""
    if source[at] == "`":
        return _template(source, at, name)
    found = PIECE.match(source, at)
    assert found
    kind, text = found.lastgroup, found[0]
    if kind == "comment":
        return " ", found.end()
    if kind == "blank":
        return " ", found.end()
    if text == "/":
        last = next((one for one in reversed(before) if one not in (" ", "\n")), "")
        if not DIVIDED.search(last) or last in BEFORE_PATTERN:
            pattern = PATTERN.match(source, at)
            if pattern:
                return pattern[0], pattern.end()
    if text in QUOTE:
        raise OpenText(f"{name}: a text that begins with {source[at:at + 30]!r} has no end")
    return text, found.end()


def _template(source: str, at: int, name: str) -> tuple[str, int]:
    """A text between backticks as it stands, with what is worked out inside it."""
    start, depth = at, 0
    at += 1
    while at < len(source):
        if source[at] == "\\":
            at += 2
        elif source[at] == "`" and not depth:
            return source[start:at + 1], at + 1
        elif source[at] == "`":
            at = _template(source, at, name)[1]
        elif depth and source[at] in "\"'":
            found = PIECE.match(source, at)
            if not found or found.lastgroup != "text":
                raise OpenText(f"{name}: a text that begins with {source[at:at + 30]!r} has no end")
            at = found.end()
        else:
            if source.startswith("${", at):
                depth, at = depth + 1, at + 1
            elif depth:
                depth += {"{": 1, "}": -1}.get(source[at], 0)
            at += 1
    raise OpenText(f"{name}: a text that begins with {source[start:start + 30]!r} has no end")


def _without_blanks(pieces: list[str]) -> Iterator[str]:
    """Pieces without the blanks between which nothing runs together: words, and signs that would be another sign side by side."""
    for before, one, after in zip(["", *pieces], pieces, [*pieces[1:], ""]):
        if one != " " or (_is_word(before[-1:]) and _is_word(after[:1])) or (before[-1:] == after[:1] and after[:1] in "+-"):
            yield one


def _is_word(sign: str) -> bool:
    return sign.isalnum() or sign in ("_", "$")


def data_script(data: HandData) -> str:
    """What the script is told, as a script: the same for the same pack; fit to stand inside a page, since no tag can end it."""
    whole = {one.name: getattr(data, one.name) for one in fields(data)}
    said = ", ".join(f"{script_text(name)}: {_table(value) if name in TABLES else script_text(_plain(value))}" for name, value in whole.items())
    return f"self.DOORPOST = (() => {{ {ROWS} return {{{said}}}; }})();\n"


def _table(rows: tuple[Any, ...]) -> str:
    names = [one.name for one in fields(rows[0]) if one.name != NOT_TOLD] if rows else []
    return f"rows({script_text(names)}, {script_text([[getattr(row, name) for name in names] for row in rows])})"


def _plain(value: Any) -> Any:
    return asdict(value) if hasattr(value, "__dataclass_fields__") else value


def script_text(value: Any) -> str:
    """JSON that is a script too, and in which no sign of a tag stands."""
    text = json.dumps(value, ensure_ascii=False, separators=(",", ":"), allow_nan=False)
    return text.replace("<", "\\u003c").replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")


def hand_files(data: HandData) -> dict[str, str]:
    """The two scripts by their names in the pack."""
    return {DATA: data_script(data), SCRIPT: script()}
