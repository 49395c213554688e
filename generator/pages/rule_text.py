"""A rule as `doorpost rules` and `doorpost explain` print it: as lines for a person, as data for a program."""
from collections.abc import Mapping
from typing import Any

from generator.model.profile import Profile
from generator.pages.rule_pages import accepting, comes_from
from generator.rules.all_rules import FAMILIES
from generator.rules.finding import Finding
from generator.rules.registry import Rule
from generator.terms.show import capital

FORMAT = 1
WIDEST_ID = max(len(one.id) for family in FAMILIES for one in family.rules)


def rule_list() -> str:
    """Every rule in its family, a line each."""
    return "\n".join(line for family in FAMILIES for line in (
        capital(family.name), *(f"  {one.id:<{WIDEST_ID}}  {one.severity.value:<4}  {one.title}" for one in family.rules)))


def rule_list_document() -> dict[str, Any]:
    """Every rule as data."""
    return {"format": FORMAT, "rules": [{"id": one.id, "family": family.name, "severity": one.severity.value, "title": one.title}
                                        for family in FAMILIES for one in family.rules]}


def explained(rule: Rule, profiles: Mapping[str, Profile]) -> str:
    """One rule, whole."""
    lines = [f"{rule.id} ({rule.severity.value})", rule.title, "", f"Why it matters: {rule.why}",
             f"What is compared: {capital(rule.compares)}.", f"What mends it: {rule.mends}"]
    for key, sources in _sources(rule, profiles).items():
        lines += [f"Where the limit comes from{f', under profile {key}' if key else ''}: {' '.join(sources)}"]
    if rule.where:
        lines.append(f"Asked only where: {rule.where.what}.")
    if rule.needs:
        lines.append(f"Not checked without: {', '.join(need.what for need in rule.needs)}.")
    lines.append(f"Accepting it: {accepting(rule)}")
    if not rule.firm:
        lines += ["", "In the job file, with what `doorpost check --how-to-accept` prints for it:",
                  "accepted:", *entry(rule.id, "(where it speaks)", "(the values compared)")]
    return "\n".join(lines)


def explained_document(rule: Rule, profiles: Mapping[str, Profile]) -> dict[str, Any]:
    """One rule, whole, as data."""
    return {"format": FORMAT, "id": rule.id, "severity": rule.severity.value, "title": rule.title, "why": rule.why,
            "compares": rule.compares, "mends": rule.mends,
            "sources": [{"profile": key or None, "says": list(says)} for key, says in _sources(rule, profiles).items()],
            "where": rule.where.what if rule.where else None, "needs": [need.what for need in rule.needs], "acceptable": not rule.firm, "accepting": accepting(rule)}


def how_to_accept(finding: Finding) -> list[str]:
    """The entry under `accepted:` that means a finding, a line each, and where it goes."""
    return ["  To accept it, write under accepted: in the job file:", *entry(finding.rule, finding.hit.place, finding.hit.compared)]


def entry(rule: str, at: str, values: str) -> list[str]:
    """An entry of the list `accepted:`; what only a person can say is left to fill in."""
    return [f"  - rule: {rule}", f"    at: {_quoted(at)}", f"    values: {_quoted(values)}", "    who:   # your role",
            "    on:    # the day, year-month-day", "    why:   # the reason"]


def _quoted(text: str) -> str:
    """A text as YAML reads it back: between single quotes, which are doubled inside."""
    return "'" + text.replace("'", "''") + "'"


def _sources(rule: Rule, profiles: Mapping[str, Profile]) -> dict[str, tuple[str, ...]]:
    """Where its limit comes from, by profile; under "" where no profile has a say in it."""
    if not rule.limits:
        return {"": (f"{capital(rule.source)}.",)}
    return {key: comes_from(rule, profile) for key, profile in profiles.items()}
