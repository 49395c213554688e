"""What could not be worked out, and why: a reason in place of a number, never a guess."""
from dataclasses import dataclass


@dataclass(frozen=True)
class Unknown:
    """`reason` completes "not checked, because ...", for example "the sheet of D4 gives no message_ms"."""

    reason: str
