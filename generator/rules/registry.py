"""What a rule is, and how one is asked."""
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.rules.finding import NO_LIMIT, Finding, Hit, Severity, Unchecked, Verdict

Body = Callable[[Papers, Any], Iterator[Hit | Unchecked]]


class NotChecked(Exception):
    """Raised by a rule that lacks what it needs; its text is the reason that pages show."""


@dataclass(frozen=True)
class Need:
    """What a rule cannot do without: `what` names it, `lacks` gives the reason where a job has none of it, else ""."""

    what: str
    lacks: Callable[[Papers, Any], str]


@dataclass(frozen=True)
class Where:
    """The jobs that a rule is about: `what` completes "asked only where". Of any other job it has nothing to say."""

    what: str
    holds: Callable[[Papers], bool]


@dataclass(frozen=True)
class Rule:
    """A title, a reason, a comparison, a source. Ids are never used again.

    `compares` says what is held against what, `mends` what puts it right. `limits` are the profile's limits that it cannot do
    without, `also` those that it uses where a profile has them, by name; `source` is where it comes from besides. `where` are
    the jobs that it is about, None if it is about every job; of others it is clear, whatever they lack. `needs` is what must
    be there for it to be asked. `reads` are the rows of the visibility table it looks at that the installer may not see: such
    a rule speaks to those who may see them all. `firm` says why its findings cannot be accepted, "" where they can.
    """

    id: str
    severity: Severity
    title: str
    why: str
    compares: str
    mends: str
    limits: tuple[str, ...]
    also: tuple[str, ...]
    source: str
    where: Where | None
    needs: tuple[Need, ...]
    reads: tuple[str, ...]
    firm: str
    body: Body

    @property
    def of_people(self) -> bool:
        """Whether it looks at what stands in people.yaml."""
        return any(row.startswith("people.") for row in self.reads)


def limit(name: str) -> Need:
    """The need of a limit of the profile."""
    return Need(f"the profile's limit {name}",
                lambda papers, results: "" if name in papers.profile.limits else f"{NO_LIMIT} {name}")


def rule(id: str, severity: Severity, *, compares: str = "", mends: str = "", limits: tuple[str, ...] = (),
         also: tuple[str, ...] = (), source: str = "", where: Where | None = None, needs: tuple[Need, ...] = (),
         reads: tuple[str, ...] = (), firm: str = "") -> Callable[[Body], Rule]:
    """Declares a rule. The title is the first line of the body's docstring, the reason is the rest."""

    def declare(body: Body) -> Rule:
        title, _, why = (body.__doc__ or "").partition("\n")
        return Rule(id, severity, title.strip(), " ".join(why.split()), compares, mends, limits, also, source,
                    where, (*map(limit, limits), *needs), reads, firm, body)

    return declare


def ask(one: Rule, papers: Papers, results: Results | tuple[Verdict, ...]) -> Verdict:
    """One rule's verdict on a job. The rule about acceptances is given the verdicts of the others for results."""
    if one.where and not one.where.holds(papers):
        return Verdict(one.id, one.title, "clear", ())
    lacking = [reason for need in one.needs if (reason := need.lacks(papers, results))]
    if lacking:
        return Verdict(one.id, one.title, "not_checked", (_unchecked(one, lacking[0]),))
    try:
        said = tuple(one.body(papers, results))
    except NotChecked as reason:
        said = (Unchecked(str(reason)),)
    found = tuple(Finding(one.id, one.severity, "found", hit) for hit in said if isinstance(hit, Hit))
    left = tuple(_unchecked(one, part.reason) for part in said if isinstance(part, Unchecked))
    return Verdict(one.id, one.title, "found" if found else "not_checked" if left else "clear", found + left)


def _unchecked(one: Rule, reason: str) -> Finding:
    return Finding(one.id, Severity.NOTE, "not_checked", Hit("", f"Not checked, because {reason}.", ""))
