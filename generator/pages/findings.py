"""What every rule answered."""
from dataclasses import dataclass

from generator.pages.parts import Fact, FindingView, finding_view
from generator.rules.all_rules import findings
from generator.rules.finding import Verdict
from generator.terms.show import count, lower


@dataclass(frozen=True)
class FindingsView:
    """What every rule answered."""

    found: tuple[FindingView, ...]
    accepted: tuple[FindingView, ...]
    not_checked: tuple[FindingView, ...]
    clear: tuple[Fact, ...]
    clear_count: str


def findings_view(verdicts: tuple[Verdict, ...]) -> FindingsView:
    """What every rule answered: found, accepted, not checked and clear, each named."""
    every = findings(verdicts)
    clear = tuple(Fact(one.rule, f"Not found: {lower(one.title)}") for one in verdicts if one.outcome == "clear")
    return FindingsView(
        tuple(finding_view(one) for one in every if one.open),
        tuple(finding_view(one) for one in every if one.accepted),
        tuple(finding_view(one) for one in every if one.outcome == "not_checked"),
        clear, count(len(clear), "rule"))
