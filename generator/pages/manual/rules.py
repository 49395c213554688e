"""The manual's pages of rules: all of them in one list, and a page for each family."""
from collections.abc import Mapping
from dataclasses import dataclass

from generator.model.profile import Profile
from generator.pages.page import Link, Page
from generator.pages.rule_text import explained_document
from generator.procedure.step import Fact
from generator.rules.all_rules import FAMILIES, RULES, Family
from generator.rules.registry import Rule
from generator.terms.show import capital, count, sentence_list

GROUP = "Rules"


@dataclass(frozen=True)
class RuleLine:
    """One rule in the list of all."""

    link: Link
    severity: str
    title: str


@dataclass(frozen=True)
class RulesView:
    """The list of all rules by family."""

    counted: str
    families: tuple[tuple[str, tuple[RuleLine, ...]], ...]


@dataclass(frozen=True)
class SourceView:
    """Where a rule's limits come from under one profile; `profile` is "" where no profile has a say in it."""

    profile: str
    says: tuple[str, ...]


@dataclass(frozen=True)
class OneRule:
    """One rule, whole. `facts` are what is compared, what mends it, and what it cannot be asked without."""

    id: str
    severity: str
    title: str
    why: str
    facts: tuple[Fact, ...]
    sources: tuple[SourceView, ...]
    accepting: str


@dataclass(frozen=True)
class FamilyView:
    """The rules of one family."""

    rules: tuple[OneRule, ...]


def rules_pages(profiles: Mapping[str, Profile]) -> tuple[Page, ...]:
    """The pages."""
    families = tuple((capital(one.name), tuple(RuleLine(Link(_path(one, rule), rule.id), rule.severity.value, rule.title) for rule in one.rules))
                     for one in FAMILIES)
    return (Page("rules/index.html", "All rules", "manual/rules.html.j2", RulesView(count(len(RULES), "rule"), families), GROUP),
            *(Page(f"rules/{_name(one)}.html", f"Rules about {one.name}", "manual/family.html.j2",
                   FamilyView(tuple(_rule(rule, profiles) for rule in one.rules)), GROUP) for one in FAMILIES))


def _name(family: Family) -> str:
    return family.name.replace(" ", "-")


def _path(family: Family, rule: Rule) -> str:
    return f"rules/{_name(family)}.html#{rule.id}"


def _rule(rule: Rule, profiles: Mapping[str, Profile]) -> OneRule:
    told = explained_document(rule, profiles)
    facts = (Fact("What is compared", f"{capital(told['compares'])}."), Fact("What mends it", told["mends"]),
             Fact("Not checked without", f"{capital(sentence_list(told['needs']))}." if told["needs"] else "Nothing: it can always be asked."))
    sources = tuple(SourceView(profiles[one["profile"]].name if one["profile"] else "", tuple(one["says"])) for one in told["sources"])
    return OneRule(told["id"], told["severity"], told["title"], told["why"], facts, sources, told["accepting"])
