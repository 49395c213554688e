"""A style sheet in fewer bytes: without comments and needless blanks, and without rules for what a file does not have."""
import re
from collections.abc import Iterator

COMMENT = re.compile(r"/\*.*?\*/", re.S)
NAMED = re.compile(r"[.#]([A-Za-z_][\w-]*)")
# What stands in brackets is one choice of several, or says what something is not.
BRACKETS = re.compile(r"\([^()]*\)")
WORD = re.compile(r"[A-Za-z_][\w-]*")
ROUND = re.compile(r"\s*([{};,>])\s*")


def lean_css(style: str, used_in: str) -> str:
    """The rules of a style sheet whose classes and ids all stand, as words, in what is styled; rules for other names are left out."""
    words = frozenset(WORD.findall(used_in))
    return "".join(_rules(ROUND.sub(r"\1", " ".join(COMMENT.sub("", style).split())), words))


def _rules(style: str, words: frozenset[str]) -> Iterator[str]:
    for head, body in _blocks(style):
        if head.startswith(("@media", "@supports")):
            inner = "".join(_rules(body, words))
            yield f"{head}{{{inner}}}" if inner else ""
        elif head.startswith("@"):
            yield f"{head}{{{body}}}" if body else f"{head};"
        else:
            kept = [one for one in _split(head) if _met(one, words)]
            yield f"{','.join(kept)}{{{body.replace(': ', ':').rstrip(';')}}}" if kept else ""


def _blocks(style: str) -> Iterator[tuple[str, str]]:
    """What stands before each pair of braces and within them, at the outermost level."""
    start = depth = 0
    head = ""
    for at, sign in enumerate(style):
        if sign == "{":
            if not depth:
                head, start = style[start:at].strip(), at + 1
            depth += 1
        elif sign == "}":
            depth -= 1
            if not depth:
                yield head, style[start:at].strip()
                start = at + 1
        elif sign == ";" and not depth:
            yield style[start:at].strip(), ""
            start = at + 1


def _split(selectors: str) -> list[str]:
    """A list of selectors, parted at the commas outside brackets."""
    out, depth = [""], 0
    for sign in selectors:
        depth += (sign == "(") - (sign == ")")
        if sign == "," and not depth:
            out.append("")
        else:
            out[-1] += sign
    return [one.strip() for one in out if one.strip()]


def _met(selector: str, words: frozenset[str]) -> bool:
    bare = selector
    while (fewer := BRACKETS.sub("", bare)) != bare:
        bare = fewer
    return all(name in words for name in NAMED.findall(bare))
