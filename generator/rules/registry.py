"""What a rule is, and how all of them are asked."""
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.rules.finding import Finding, Hit, Severity, Verdict


class NotChecked(Exception):
    """Raised by a rule that lacks what it needs; its text is the reason that pages show."""


@dataclass(frozen=True)
class Rule:
    """A title, a reason, a comparison.

    The title is the first line of the body's docstring, the reason is the rest. Ids are never used again.
    """

    id: str
    severity: Severity
    title: str
    why: str
    body: Callable[[Papers, Results], Iterator[Hit]]


def rule(id: str, severity: Severity) -> Callable[[Callable[[Papers, Results], Iterator[Hit]]], Rule]:
    """Declares a rule."""

    def declare(body: Callable[[Papers, Results], Iterator[Hit]]) -> Rule:
        title, _, why = (body.__doc__ or "").partition("\n")
        return Rule(id, severity, title.strip(), " ".join(why.split()), body)

    return declare


def ask(one: Rule, papers: Papers, results: Results) -> Verdict:
    """One rule's verdict on a job."""
    try:
        hits = tuple(one.body(papers, results))
    except NotChecked as reason:
        unchecked = Finding(one.id, Severity.NOTE, "not_checked", Hit("", f"Not checked, because {reason}.", ""))
        return Verdict(one.id, one.title, "not_checked", (unchecked,))
    found = tuple(Finding(one.id, one.severity, "found", hit) for hit in hits)
    return Verdict(one.id, one.title, "found" if found else "clear", found)
