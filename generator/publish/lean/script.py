"""A script without what only its readers need: comments, empty lines, blanks between signs, long names of its own, words
that mean the same as shorter ones.

It is printed into every pack of an installer and read by old phones; its sources are for people. What cannot be told from a property or a
key keeps its name: one word that is a key and a value is written as both.
"""
from collections import Counter
from collections.abc import Iterator
from itertools import count, product
from string import ascii_letters, ascii_uppercase

from generator.publish.lean.pieces import BLANK, END, INSIDE, SIGN, TEXT, WORD, OpenText, Piece, pieces

__all__ = ["OWN", "OpenText", "lean"]

# Before a brace of an object, or of names taken out of one; after anything else it begins a block.
BEFORE_OBJECT = ("(", ",", "=", ":", "[", "?", "|", "&", "return", "const", "let", "...")
OBJECT = "object"
# After these a line end says nothing that they do not.
ENOUGH = (";", "{", ",")
STRICT = ("true", "false", "null", "typeof")
HEADS = ("if", "for", "while", "await")
NAMES = ("const", "let")
DECLARES = (*NAMES, "function")
# What means the same in fewer letters, in a script that runs: that a name is given once is for those who read the source.
SAME = {"const": "let", "true": "!0", "false": "!1"}
# Properties that our parts give one another and nobody else has: no browser, no data of a pack, no page's forms,
# no store of the browser either, which the script of a newer pack may read. Each is printed as one letter.
OWN = dict(zip(("watch", "show", "serials", "counter", "make", "written", "oneFile", "mixed", "fill", "link", "plain", "shown", "lacks", "form", "cannot",
                "word", "past", "halts", "later", "signs", "look", "low"), ascii_uppercase))
KEYWORDS = frozenset("as async await break case catch class const continue default delete do else export extends false finally for from function get if import "
                     "in instanceof let new null of return set static super switch this throw true try typeof undefined var void while with yield".split())
# What every page has anyway; a part that calls something of its own so keeps that name.
OF_THE_PAGE = frozenset("caches close confirm crypto document event find focus frames history indexedDB length localStorage location name navigator open origin "
                        "parent print scroll self status stop top window".split())


def lean(source: str, name: str = "") -> str:
    """A part of the script as it is printed: every line end that means something stays, every text and every property. Raises OpenText."""
    found = list(pieces(source, name))
    words = [one for one in found if one.kind not in (BLANK, END)]
    roles = _roles(words)
    short = _short(words, roles)
    joined = _joined(words)
    out: list[str] = []
    at = 0
    for one in found:
        if one.kind in (BLANK, END):
            _rest(out, one)
            continue
        if one.kind == SIGN and one.text == "}":
            _shut(out)
        if at in joined:
            out.append(",")
        if at in joined or at - 1 in joined or _is_third(words, at):
            at += 1
            continue
        own = one.kind == WORD and roles[at] != "key" and not _is_property(words, at)
        known = OWN.get(one.text, one.text) if one.kind == WORD else one.text
        said = short.get(one.text, SAME.get(one.text, one.text)) if own else known
        out.append(f"{known}:{said}" if roles[at] == "both" and said != known else said)
        at += 1
    return "".join(_without_blanks(out))


def _rest(out: list[str], one: Piece) -> None:
    """A blank after nothing is nothing; a line end takes the blank before it away, and means nothing after a sign that says as much."""
    if one.kind == END and out and out[-1] == " ":
        out.pop()
    if one.kind == END and out and out[-1] in ENOUGH:
        return
    if out and out[-1] not in (" ", "\n"):
        out.append(" " if one.kind == BLANK else "\n")


def _shut(out: list[str]) -> None:
    """Before a brace that closes neither blank nor line end means anything; a stop does after the head of a loop or a condition, whose whole
    statement it is."""
    while out and out[-1] in (" ", "\n"):
        out.pop()
    if out[-1:] == [";"] and not _ends_head(out[:-1]):
        out.pop()


def _ends_head(out: list[str]) -> bool:
    """Whether the last piece is the bracket that closes the head of a loop or a condition."""
    depth = 0
    for at in range(len(out) - 1, -1, -1):
        depth += {")": 1, "(": -1}.get(out[at], 0)
        if depth == 0:
            return out[at] == "(" and any(word in HEADS for word in out[max(at - 2, 0):at])
    return False


def _text(words: list[Piece], at: int) -> str:
    """A piece's text; of a text none, so that it is taken for no sign."""
    return words[at].text if 0 <= at < len(words) and words[at].kind != TEXT else ""


def _is_third(words: list[Piece], at: int) -> bool:
    """Whether a sign is the third of a comparison that two make as well: of two texts, or two things. Beside a number, a truth or nothing the third means
    something: a text may look like a number."""
    signs = [_text(words, place) for place in (at - 2, at - 1, at)]
    after = words[at + 1] if at + 1 < len(words) else None
    return signs in (["=", "=", "="], ["!", "=", "="]) and after is not None and after.kind in (WORD, TEXT) and after.text not in STRICT


def _is_property(words: list[Piece], at: int) -> bool:
    return _text(words, at - 1) in (".", "?.")


def _roles(words: list[Piece]) -> list[str]:
    """What each word is: "key" where it names a property, "both" where one word names a property and a value alike, else ""."""
    roles, braces = [], [""]
    for at, one in enumerate(words):
        if one.kind == TEXT and one.text.startswith("}"):
            braces.pop()
        before, after = _text(words, at - 1), _text(words, at + 1)
        begins = braces[-1] == OBJECT and (before in ("{", ",") or (before in ("async", "get", "set") and after == "("))
        roles.append("" if one.kind != WORD or not begins else "key" if after in (":", "(") else "both" if after in (",", "}", "=") else "")
        if one.kind == TEXT and one.text.endswith(INSIDE):
            braces.append("")
        elif one.kind == SIGN and one.text in ("(", "[", "{"):
            braces.append(OBJECT if one.text == "{" and _text(words, at - 1) in BEFORE_OBJECT else "")
        elif one.kind == SIGN and one.text in (")", "]", "}"):
            braces.pop()
    return roles


def _joined(words: list[Piece]) -> set[int]:
    """Places of the stops between two declarations of one block, which can be made in one breath. Each statement of ours ends with its stop."""
    joined, begun = set(), [""]
    for at, one in enumerate(words):
        opens, text = one.kind == TEXT and one.text.endswith(INSIDE), _text(words, at)
        if text in (")", "]", "}") or (one.kind == TEXT and one.text.startswith("}")):
            begun.pop()
        if text in ("(", "[", "{") or opens:
            begun.append("")
        elif text in NAMES:
            begun[-1] = NAMES[0]
        elif text == ";":
            if begun[-1] == NAMES[0] and _text(words, at + 1) in NAMES:
                joined.add(at)
            begun[-1] = _text(words, at + 1)
    return joined


def _short(words: list[Piece], roles: list[str]) -> dict[str, str]:
    """A short name for each name that the part gives, the most frequent first, where that is shorter: a key's own word stands beside it."""
    free = [at for at, one in enumerate(words) if one.kind == WORD and roles[at] != "key" and not _is_property(words, at)]
    given = set(_given(words, roles)) - KEYWORDS - OF_THE_PAGE
    often = Counter(words[at].text for at in free)
    taken = set(often) | KEYWORDS
    names = (text for text in _names() if text not in taken)
    long = sorted((one for one in given if len(one) > 1), key=lambda one: (-often[one], one))
    pairs = dict(zip(long, names))
    twice = Counter(one.text for one, role in zip(words, roles) if role == "both")
    return {one: text for one, text in pairs.items() if (often[one] - twice[one]) * (len(one) - len(text)) > twice[one] * (1 + len(text))}


def _names() -> Iterator[str]:
    for length in count(1):
        yield from map("".join, product(ascii_letters, repeat=length))


def _given(words: list[Piece], roles: list[str]) -> Iterator[str]:
    """The names that a part gives: declared, taken out of an object, or what a function takes."""
    for at, one in enumerate(words):
        if roles[at] == "both":
            yield one.text
        if one.kind == WORD and _text(words, at + 1) == "=>":
            yield one.text
        elif one.kind == WORD and one.text in DECLARES:
            yield from _declared(words, at + 1)
        elif one.kind == SIGN and one.text == "=>" and _text(words, at - 1) == ")":
            yield from _taken(words, at - 1)


def _declared(words: list[Piece], at: int) -> Iterator[str]:
    """The names after a word that declares, by themselves or in lists of names; what they begin as is passed over."""
    depth, begins = 0, True
    while at < len(words):
        text = _text(words, at)
        if begins and text == "[":
            while words[at].text != "]":
                at += 1
                if words[at].kind == WORD and _text(words, at - 1) in ("[", ","):
                    yield words[at].text
        elif begins and text == "{":
            inner = 1
            while inner:
                at += 1
                inner += {"(": 1, "[": 1, "{": 1, ")": -1, "]": -1, "}": -1}.get(_text(words, at), 0)
                # What a property is called here, where that is another name; one that keeps its own is found by its role.
                if words[at].kind == WORD and _text(words, at - 1) == ":":
                    yield words[at].text
        elif begins and words[at].kind == WORD:
            yield words[at].text
        else:
            depth += {"(": 1, "[": 1, "{": 1, ")": -1, "]": -1, "}": -1}.get(text, 0)
        if depth < 0 or (depth == 0 and text in (";", "of", "in")):
            return
        begins = depth == 0 and text == ","
        at += 1


def _taken(words: list[Piece], at: int) -> Iterator[str]:
    """The names between the brackets that close at a place."""
    depth = 0
    while at >= 0:
        text = _text(words, at)
        depth += {")": 1, "]": 1, "}": 1, "(": -1, "[": -1, "{": -1}.get(text, 0)
        if not depth:
            return
        if words[at].kind == WORD and _text(words, at - 1) in ("(", ",", "[", "...") and words[at].inside in ("(", "["):
            yield words[at].text
        at -= 1


def _without_blanks(out: list[str]) -> Iterator[str]:
    """Pieces without the blanks between which nothing runs together: words, and signs that would be another sign side by side."""
    for before, one, after in zip(["", *out], out, [*out[1:], ""]):
        if one != " " or (_is_word(before[-1:]) and _is_word(after[:1])) or (before[-1:] == after[:1] and after[:1] in "+-/"):
            yield one


def _is_word(sign: str) -> bool:
    return sign.isalnum() or sign in ("_", "$")
