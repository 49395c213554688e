"""What a rule answers."""
from dataclasses import dataclass
from enum import StrEnum


class Severity(StrEnum):
    """How much a finding matters."""

    STOP = "stop"
    """The page it concerns is replaced by the finding; what depends on it cannot be signed."""
    FIX = "fix"
    """To be answered on site before going on."""
    ASK = "ask"
    """A question to the customer or the office."""
    NOTE = "note"
    """Shown, no more."""


@dataclass(frozen=True)
class Value:
    """One of the numbers or words that were compared. `origin` is a field ("job.times.entry_s") or a document."""

    name: str
    value: str
    unit: str
    origin: str


@dataclass(frozen=True)
class Hit:
    """What a rule found at one place: `at` is a unit or a field, `says` what is wrong, `do` what would mend it."""

    at: str
    says: str
    do: str
    values: tuple[Value, ...] = ()


@dataclass(frozen=True)
class Finding:
    """A rule's answer about one place. `outcome` is found or not_checked; for the latter `says` is the reason."""

    rule: str
    severity: Severity
    outcome: str
    hit: Hit


@dataclass(frozen=True)
class Verdict:
    """A rule's answer as a whole: clear, found (with findings) or not_checked (with the reason)."""

    rule: str
    title: str
    outcome: str
    findings: tuple[Finding, ...]
