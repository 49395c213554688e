"""A page for each rule that spoke: what it says here, why it matters, what mends it, where its limit comes from."""
from dataclasses import dataclass

from generator.model.papers import Papers
from generator.model.profile import Profile
from generator.pages.page import Link, Page
from generator.pages.parts import FindingView, finding_view, rule_path
from generator.rules.all_rules import RULE_OF
from generator.rules.finding import Verdict
from generator.rules.registry import Rule
from generator.terms.show import capital
from generator.terms.source import Known

# Where these pages and the one that names them all stand in the navigation.
FINDINGS = "Findings and rules"


@dataclass(frozen=True)
class RuleView:
    """One rule and what it says of this job."""

    title: str
    says: tuple[FindingView, ...]
    why: str
    compares: str
    mends: str
    comes_from: tuple[str, ...]
    accepting: str
    back: Link


def rule_pages(papers: Papers, verdicts: tuple[Verdict, ...], back: Link) -> tuple[Page, ...]:
    """The pages, in the order of the rules; `back` leads to the page where all of them are named."""
    return tuple(Page(rule_path(one.rule), one.rule, "shared/rule.html.j2", _view(papers, RULE_OF[one.rule], one, back), FINDINGS)
                 for one in verdicts if one.outcome != "clear")


def _view(papers: Papers, rule: Rule, verdict: Verdict, back: Link) -> RuleView:
    return RuleView(rule.title, tuple(finding_view(one, office=True) for one in verdict.findings), rule.why, f"{capital(rule.compares)}.", rule.mends,
                    comes_from(rule, papers.profile), accepting(rule), back)


def comes_from(rule: Rule, profile: Profile) -> tuple[str, ...]:
    """Where what a rule compares with comes from: each limit of the profile with its source and mark, then what is no limit."""
    lines = tuple(_limit(profile, name) if name in profile.limits else f"Profile {profile.name} has no limit {name}: not checked."
                  for name in (*rule.limits, *(name for name in rule.also if name in profile.limits)))
    return (*lines, *((f"{capital(rule.source)}.",) if rule.source else ()))


def _limit(profile: Profile, name: str) -> str:
    """A limit, its source and, where it stands in place of another, why; a company's own rule says that in its source."""
    entry, source = profile.limits[name], profile.source_of(name)
    because = f" {entry.because}" if entry.because and source.known is not Known.OWN else ""
    return f"{capital(entry.means)}: {entry.shown()}. {source.cited()}.{because}"


def accepting(rule: Rule) -> str:
    """Whether its findings can be accepted, and how."""
    if rule.firm:
        return f"It cannot be accepted: {rule.firm}."
    return ("The company can accept it in the job file, with role, date and reason. That lapses as soon as one of the values compared "
            "changes.")
