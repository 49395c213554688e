"""Findings that are open about one unit, where somebody works on it: what is wrong, and what would mend it, in two lines."""
import re
from collections.abc import Iterable
from dataclasses import dataclass

from generator.pages.origins import on_site
from generator.pages.page import Link
from generator.pages.parts import rule_path
from generator.rules.finding import Finding, Severity

# Steps that decide where a unit goes: nobody drills before its finding was read.
STEPS = ("signal-", "fix-")
TRIAL = "place"
# Where a sentence ends and another begins.
SENTENCE = re.compile(r"(?<=\.) (?=[A-Z])")
NEVER = "Do not "


@dataclass(frozen=True)
class OpenFinding:
    """A finding in short: what is wrong, what more was found, what mends it, what is not done before, and the page that says more."""

    word: str
    says: str
    measured: str
    do: str
    never: str
    why: Link


def open_about(found: Iterable[Finding], field: str) -> tuple[OpenFinding, ...]:
    """The open findings to be answered on site that stand at a unit's field ("job.devices.M4") or below it."""
    return tuple(_told(one) for one in found
                 if one.open and one.severity is Severity.FIX and (one.hit.at == field or one.hit.at.startswith(f"{field}.")))


def _told(one: Finding) -> OpenFinding:
    says, *measured = SENTENCE.split(one.hit.says)
    do = SENTENCE.split(on_site(one.hit.do))
    # What must not be done stands last, if at all; a finding that says nothing else has no more to unfold.
    never = do.pop() if len(do) > 1 and do[-1].startswith(NEVER) else ""
    return OpenFinding(f"{one.severity.value}: {one.rule}", says, " ".join(measured), " ".join(do), never, Link(rule_path(one.rule), "Why"))


def field_of(unit: str, control_unit: str) -> str:
    """Where a unit stands in the job."""
    return "job.control_unit" if unit == control_unit else f"job.devices.{unit}"


def decides_place(step: str) -> bool:
    """Whether a step, by its name, decides where its unit goes."""
    return step == TRIAL or step.startswith(STEPS)
