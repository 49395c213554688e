"""The plan as data: what `doorpost plan` prints and pack.json holds. Its form is schemas/plan.schema.json."""
from collections.abc import Callable, Mapping
from typing import Any

from generator.calc.results import Results
from generator.rules.all_rules import RULE_OF
from generator.rules.finding import Finding

FORMAT = 1


def plan_document(reference: str, fingerprint: str, fingerprints: Mapping[str, str], results: Results,
                  findings: tuple[Finding, ...], place: Callable[[str], str]) -> dict[str, Any]:
    """The plan. `place` turns a field of the job into file and line."""
    return {
        "format": FORMAT,
        "reference": reference,
        "fingerprint": fingerprint,
        "audience_fingerprints": dict(fingerprints),
        "slots": [{"list": row.list, "number": row.number, "zone": row.zone, "device": row.device or None,
                   "input": row.input or None, "text": row.text, "why": row.why} for row in results.slots.rows],
        "findings": [finding_document(one, place) for one in findings],
    }


def finding_document(finding: Finding, place: Callable[[str], str]) -> dict[str, Any]:
    """One finding as data."""
    hit, entry = finding.hit, finding.accepted
    can_be = finding.outcome == "found" and not RULE_OF[finding.rule].firm
    return {
        "rule": finding.rule,
        "severity": finding.severity.value,
        "outcome": finding.outcome,
        "at": place(hit.at),
        "says": hit.says,
        "do": hit.do,
        "values": [{"name": one.name, "value": one.value, "unit": one.unit, "from": place(one.origin)} for one in hit.values],
        "accepted": {"who": entry.who, "on": entry.on.isoformat(), "why": entry.why} if entry else None,
        "acceptance": finding.acceptance,
        "to_accept": {"rule": finding.rule, "at": hit.place, "values": hit.compared} if can_be else None,
    }
