"""Which format of each kind of file does this Doorpost read? The only place that says the numbers."""
from typing import Any

from generator.model.fields import choice

FORMATS = {"job": 1, "people": 1, "company": 1, "sheet": 1, "profile": 1}


def format_of(kind: str) -> Any:
    """The `format` field of a kind of file: the one number that is current."""
    return choice(str(FORMATS[kind]))
