"""A script taken to pieces: words, texts, patterns, signs; so that what only its readers need can be left out and nothing else."""
import re
from collections.abc import Iterator
from dataclasses import dataclass

WORD, TEXT, BLANK, END, SIGN = "word", "text", "blank", "end", "sign"
PIECE = re.compile(r"""(?P<blank>[ \t]+|/\*.*?\*/|//[^\n]*)|(?P<end>\n)|(?P<text>"(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])*')|(?P<word>[A-Za-z_$][\w$]*)|(?P<number>\.?\d[\w.]*)"""
                   r"""|(?P<sign>\.\.\.|\?\.(?!\d)|=>|.)""", re.S)
# What is matched by a pattern; it stands where nothing can be divided.
PATTERN = re.compile(r"/(?:\\.|\[(?:\\.|[^\]\\\n])*\]|[^/\\\[\n])+/\w*")
BEFORE_PATTERN = ("return", "typeof", "case", "of", "in")
# A stretch of a text between backticks, up to its end or to what is worked out inside it.
STRETCH = re.compile(r"(?:\\.|\$(?!\{)|[^`\\$])*(?:`|\$\{)", re.S)
INSIDE = "${"
CLOSES = {")": "(", "]": "[", "}": "{"}


class OpenText(ValueError):
    """A script holds a text or a bracket that does not end."""


@dataclass(frozen=True)
class Piece:
    """One piece; `inside` is the innermost bracket round it, "${" for what is worked out inside a text, "" for none."""

    kind: str
    text: str
    inside: str = ""


def pieces(source: str, name: str = "") -> Iterator[Piece]:
    """The pieces of a script in their order; a comment is a blank. Raises OpenText."""
    at, brackets, last = 0, [], Piece(END, "\n")
    while at < len(source):
        found = _next(source, at, last, brackets, name)
        at += len(found.text)
        if found.kind == SIGN and found.text in CLOSES:
            if not brackets or brackets.pop() != CLOSES[found.text]:
                raise OpenText(f"{name}: a bracket is closed that was not opened, before {source[at:at + 30]!r}")
        yield Piece(found.kind, " " if found.kind == BLANK else found.text, brackets[-1] if brackets else "")
        if found.kind == TEXT and found.text.startswith("}"):
            brackets.pop()
        if found.kind == TEXT and found.text.endswith(INSIDE):
            brackets.append(INSIDE)
        elif found.kind == SIGN and found.text in CLOSES.values():
            brackets.append(found.text)
        if found.kind not in (BLANK, END):
            last = found
    if brackets:
        raise OpenText(f"{name}: a {brackets[-1]} has no end")


def _next(source: str, at: int, last: Piece, brackets: list[str], name: str) -> Piece:
    if source[at] == "`" or (source[at] == "}" and brackets and brackets[-1] == INSIDE):
        stretch = STRETCH.match(source, at + 1)
        if not stretch:
            raise OpenText(f"{name}: a text that begins with {source[at:at + 30]!r} has no end")
        return Piece(TEXT, source[at] + stretch[0])
    found = PIECE.match(source, at)
    assert found
    if found[0] == "/" and (last.text in BEFORE_PATTERN or (last.kind in (SIGN, END) and last.text not in (")", "]", "}"))):
        pattern = PATTERN.match(source, at)
        if pattern:
            return Piece(TEXT, pattern[0])
    if found[0] in ("'", '"'):
        raise OpenText(f"{name}: a text that begins with {source[at:at + 30]!r} has no end")
    return Piece(str(found.lastgroup), found[0])
