"""A script without what only its readers need: comments, empty lines, blanks between signs."""
import re
from collections.abc import Iterator

# A script in pieces: comments, texts, what is matched by a pattern after what cannot be divided, blanks, line ends, words, single signs.
PIECE = re.compile(r"""(?P<comment>/\*.*?\*/|//[^\n]*)|(?P<text>"(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])*')|(?P<blank>[ \t]+)|(?P<end>\n)|(?P<word>[\w$]+)|(?P<sign>.)""",
                   re.S)
PATTERN = re.compile(r"/(?:\\.|\[(?:\\.|[^\]\\\n])*\]|[^/\\\[\n])+/\w*")
DIVIDED = re.compile(r"[\w$)\]]\Z")
BEFORE_PATTERN = ("return", "typeof", "case")
QUOTE = "\"'`"


class OpenText(ValueError):
    """A part of the script holds a text that does not end."""


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
        if one != " " or (_is_word(before[-1:]) and _is_word(after[:1])) or (before[-1:] == after[:1] and after[:1] in "+-/"):
            yield one


def _is_word(sign: str) -> bool:
    return sign.isalnum() or sign in ("_", "$")
