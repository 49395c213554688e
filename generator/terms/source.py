"""Where a number comes from, and how it is known."""
from dataclasses import dataclass
from enum import StrEnum


class Known(StrEnum):
    """How a value is known. A mark is never raised without reading the source."""

    READ = "read"
    SECOND_HAND = "read second-hand"
    MEMORY = "from memory"
    PRACTICE = "common practice"
    OWN = "own rule"


@dataclass(frozen=True)
class Source:
    """A document, its edition, and how one of its values came to us.

    `through` names the text in which a value `read second-hand` was seen; of an `own rule` of the company it says what
    the rule stands in place of, and why.
    """

    document: str
    edition: str
    known: Known
    through: str

    def cited(self) -> str:
        """The source in one line, the mark always with it."""
        edition = f", {self.edition}" if self.edition else ""
        through = f"{':' if self.known is Known.OWN else ' in:'} {self.through}" if self.through else ""
        return f"{self.document}{edition} ({self.known.value}{through})"
