"""A signature as a file of its own, under the SHA-256 of what it holds: lines that were drawn as a picture, or a name that was typed as text."""
import hashlib
import re

MARGIN = 5
SIGNS = 16
COORDINATE = re.compile(r"-?[0-9]+(?:\.[0-9]+)?")
LINES = re.compile(r'<path d="([^"]*)"')


def print_of(text: str) -> str:
    """The SHA-256 by which entries speak of lines or of a name."""
    return hashlib.sha256(text.encode()).hexdigest()


def short(print_: str) -> str:
    """As many signs of a print as somebody compares by eye."""
    return f"{print_[:SIGNS]}…"


def drawn(lines: str) -> tuple[str, bytes]:
    """The file of lines that were drawn: its name, and a picture that any viewer shows, cut to what was drawn."""
    found = [float(one) for one in COORDINATE.findall(lines)] or [0.0]
    across, down = found[0::2], found[1::2] or [0.0]
    left, top = min(across) - MARGIN, min(down) - MARGIN
    box = f"{left:g} {top:g} {max(across) + MARGIN - left:g} {max(down) + MARGIN - top:g}"
    return f"{print_of(lines)}.svg", (f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}"><path d="{lines}" fill="none" stroke="#000" '
                                      'stroke-width="2"/></svg>\n').encode()


def typed(name: str) -> tuple[str, bytes]:
    """The file of a name that was typed: its own name, and what it holds."""
    return f"{print_of(name)}.txt", f"{name}\n".encode()


def names_of(print_: str) -> tuple[str, str]:
    """Under which names the file of a signature can stand.

    >>> names_of("9f86")
    ('9f86.svg', '9f86.txt')
    """
    return f"{print_}.svg", f"{print_}.txt"


def is_as_signed(name: str, content: bytes) -> bool:
    """Whether a file still holds what its name says, and nothing besides."""
    text = content.decode("utf-8", "replace")
    if name.endswith(".txt"):
        return typed(text.removesuffix("\n")) == (name, content)
    found = LINES.search(text)
    return found is not None and drawn(found[1]) == (name, content)
