"""Can this be the serial of such a unit, and which character was perhaps misread?"""
from generator.tables.lookalikes import LOOKALIKES


def characters(serial: str) -> str:
    """What counts of a serial: its characters without blanks and hyphens."""
    return serial.replace(" ", "").replace("-", "")


def strange(serial: str, alphabet: str | None) -> tuple[str, ...]:
    """The characters that cannot stand in such a serial, in their order."""
    return () if alphabet is None else tuple(dict.fromkeys(one for one in characters(serial) if one not in alphabet))


def misread(serial: str, alphabet: str | None) -> str:
    """The serial with each character that cannot stand there as the one it is mistaken for; "" if none would do.

    Which characters those are is common practice, no source.

    >>> misread("O0A3FI7C", "0123456789ABCDEF")
    '00A3F17C'
    """
    known = set(alphabet or "")
    meant = {one: next((other for other in _instead(one) if other in known), "") for one in strange(serial, alphabet)}
    return "".join(meant.get(one, one) for one in serial) if meant and all(meant.values()) else ""


def doubtful(serial: str) -> tuple[str, ...]:
    """The characters of a serial that are easily mistaken, each with what it is mistaken for: "B or 8"."""
    return tuple(f"{one} or {other}" for one, other in LOOKALIKES.items() if {one, other} & set(serial.upper()))


def _instead(letter: str) -> tuple[str, ...]:
    """What may have been meant by a character: the same, large or small, else what it looks like."""
    large = letter.upper()
    return (large, letter.lower(), *(other for pair in LOOKALIKES.items() if large in pair for other in pair if other != large))
