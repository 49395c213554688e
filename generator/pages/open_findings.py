"""Findings that are open about one unit, where somebody works on it: what is wrong, and what would mend it, in two lines."""
from collections.abc import Iterable
from dataclasses import dataclass

from generator.pages.origins import on_site
from generator.pages.page import Link
from generator.pages.parts import rule_path
from generator.rules.finding import Finding, Severity

# Steps that decide where a unit goes: nobody drills before its finding was read.
STEPS = ("signal-", "fix-")
TRIAL = "place"


@dataclass(frozen=True)
class OpenFinding:
    """A finding in short: what is wrong, what to do, and the page that says more."""

    word: str
    says: str
    do: str
    why: Link


def open_about(found: Iterable[Finding], field: str) -> tuple[OpenFinding, ...]:
    """The open findings to be answered on site that stand at a unit's field ("job.devices.M4") or below it."""
    return tuple(OpenFinding(f"{one.severity.value}: {one.rule}", one.hit.says, on_site(one.hit.do), Link(rule_path(one.rule), "Why"))
                 for one in found if one.open and one.severity is Severity.FIX and (one.hit.at == field or one.hit.at.startswith(f"{field}.")))


def field_of(unit: str, control_unit: str) -> str:
    """Where a unit stands in the job."""
    return "job.control_unit" if unit == control_unit else f"job.devices.{unit}"


def decides_place(step: str) -> bool:
    """Whether a step, by its name, decides where its unit goes."""
    return step == TRIAL or step.startswith(STEPS)
