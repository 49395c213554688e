"""What a rule answers."""
from dataclasses import dataclass
from enum import StrEnum

from generator.model.accepted import Accepted


# The reason of a rule whose market has no such limit, before the limit's name.
NO_LIMIT = "the profile has no limit"


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
    """What a rule found at one place: `at` is a field, `says` what is wrong, `do` what would mend it."""

    at: str
    says: str
    do: str
    values: tuple[Value, ...] = ()

    @property
    def place(self) -> str:
        """The field as an acceptance names it: "times.entry_s"."""
        return self.at.removeprefix("job.")

    @property
    def compared(self) -> str:
        """The values compared, in one line, as an acceptance repeats them: "programmed 60 s, limit 45 s"."""
        return ", ".join(" ".join(filter(None, (one.name, one.value, one.unit))) for one in self.values)


@dataclass(frozen=True)
class Unchecked:
    """A part of the job that a rule could not look at, and why: "the sheet of D4 gives no form of serial"."""

    reason: str


@dataclass(frozen=True)
class Finding:
    """A rule's answer about one place. `outcome` is found or not_checked; for the latter the hit says the reason.

    `accepted` is the acceptance that holds for it, None if there is none; `acceptance` says what became of one that the
    job file gives: that it holds, that it lapsed, or that it is not yet made on the day for which the job is worked out.
    """

    rule: str
    severity: Severity
    outcome: str
    hit: Hit
    accepted: Accepted | None = None
    acceptance: str = ""

    @property
    def of_market(self) -> bool:
        """Whether it was not checked for want of a limit of the profile: nobody can mend that at the job."""
        return self.outcome == "not_checked" and NO_LIMIT in self.hit.says

    @property
    def open(self) -> bool:
        """Whether it was found and nobody answers for it."""
        return self.outcome == "found" and self.accepted is None

    @property
    def stops(self) -> bool:
        """Whether what depends on it cannot be signed."""
        return self.open and self.severity is Severity.STOP


@dataclass(frozen=True)
class Verdict:
    """A rule's answer as a whole: clear, found (with findings) or not_checked (with the reason)."""

    rule: str
    title: str
    outcome: str
    findings: tuple[Finding, ...]
