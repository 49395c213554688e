"""The folders of what was found on site and of signatures, and how a file of the first is named: its phone, its first and last counter, the start
of its SHA-256. So a name says what is in the file, and whether it still is."""
import hashlib
import re

SITE, SIGNATURES = "site", "signatures"
_PRINT = 16
_NAME = re.compile(rf"[a-z2-9]{{8}}-[0-9]{{6,9}}-[0-9]{{6,9}}-(?P<print>[0-9a-f]{{{_PRINT}}})\.txt")


def site_name(phone: str, first: int, last: int, content: bytes) -> str:
    """The name of a file of entries.

    >>> site_name("k3v9q2x7", 1, 57, b"{}")
    'k3v9q2x7-000001-000057-44136fa355b3678a.txt'
    """
    return f"{phone}-{first:06}-{last:06}-{hashlib.sha256(content).hexdigest()[:_PRINT]}.txt"


def is_site_name(name: str) -> bool:
    """Whether a file is named as one of these."""
    return _NAME.fullmatch(name) is not None


def is_as_named(name: str, content: bytes) -> bool:
    """Whether a file of this name still holds what it was written with."""
    found = _NAME.fullmatch(name)
    return found is not None and hashlib.sha256(content).hexdigest().startswith(found["print"])
