"""What short reference does each unit have, which a person can read aloud and type?

It follows from the job's reference and the unit's name alone, so it stays the same over revisions and when the unit is
replaced. No vowels, so that no word comes out; none of 0 O 1 I 2 Z 5 S 8 B, which are mistaken for each other.
"""
import hashlib
from collections.abc import Iterable, Mapping
from types import MappingProxyType

NONE_BEFORE: Mapping[str, str] = MappingProxyType({})
ALPHABET = "34679CDFGHJKLMNPQRTVWXY"
LENGTH = 4


def short_references(reference: str, devices: Iterable[str], before: Mapping[str, str] = NONE_BEFORE) -> dict[str, str]:
    """The short reference of each unit, by its name. Two that come out the same: the later name draws again.

    `before` are the references of units that were issued, gone ones among them: those stay, and nobody else gets them.
    """
    taken = set(before.values())
    out: dict[str, str] = {}
    for device in sorted(devices):
        if device not in before:
            draw = 0
            while (code := _code(f"{reference.lower()}/{device}/{draw}")) in taken:
                draw += 1
            taken.add(code)
        out[device] = before.get(device) or code
    return out


def _code(text: str) -> str:
    number = int.from_bytes(hashlib.sha256(text.encode()).digest()[:8], "big")
    letters = []
    for _ in range(LENGTH):
        number, place = divmod(number, len(ALPHABET))
        letters.append(ALPHABET[place])
    return "".join(letters)
