"""How does a text look on a terminal: what cannot be seen made visible, and how many columns each character takes?

East Asian wide characters take two columns and marks that combine with the letter before them take none (Unicode Standard
Annex 11 and the general categories of chapter 4; from memory, the data is that of Python's `unicodedata`).
"""
import unicodedata

UNSEEN = "\N{REPLACEMENT CHARACTER}"
# Control marks, marks that steer the text round them, halves of characters, line and paragraph ends. A blank of another
# kind looks like a blank and is none.
_UNSEEN_KINDS = ("Cc", "Cf", "Cs", "Zl", "Zp", "Zs")


def safe(text: str) -> str:
    """The text on one line, safe for a terminal: line ends and tabs are blanks, whatever else cannot be seen is a mark."""
    if text.isascii() and text.isprintable():
        return text
    return "".join(_safe(letter) for letter in text)


def _safe(letter: str) -> str:
    if letter in " \t\n":
        return " "
    return UNSEEN if unicodedata.category(letter) in _UNSEEN_KINDS else letter


def columns(letter: str) -> int:
    """How many columns of a terminal one character takes: 0, 1 or 2."""
    if unicodedata.category(letter) in ("Mn", "Me"):
        return 0
    return 2 if unicodedata.east_asian_width(letter) in "WF" else 1


def width(text: str) -> int:
    """How many columns of a terminal a text takes."""
    return len(text) if text.isascii() else sum(map(columns, text))
