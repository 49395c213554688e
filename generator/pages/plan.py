"""The plan as data: what `doorpost plan` prints and pack.json holds. Its form is schemas/plan.schema.json."""
from collections.abc import Callable, Mapping
from typing import Any

from generator.calc.changes import Changes, Sent
from generator.calc.results import Results
from generator.model.issued import Revision
from generator.rules.all_rules import RULE_OF
from generator.rules.finding import Finding

FORMAT = 1


def plan_document(reference: str, fingerprint: str, fingerprints: Mapping[str, str], results: Results,
                  findings: tuple[Finding, ...], place: Callable[[str], str], issue: Mapping[str, Any]) -> dict[str, Any]:
    """The plan. `place` turns a field of the job into file and line; `issue` is what `issue_document` says."""
    return {
        "format": FORMAT,
        "reference": reference,
        "fingerprint": fingerprint,
        "audience_fingerprints": dict(fingerprints),
        **issue,
        "slots": [{"list": row.list, "number": row.number, "zone": row.zone, "device": row.device or None,
                   "input": row.input or None, "text": row.text, "why": row.reason} for row in results.slots.rows],
        "findings": [finding_document(one, place) for one in findings],
    }


def issue_document(last: Revision | None, same: bool, before: Revision | None, made: Changes | None) -> dict[str, Any]:
    """Which revision this is, and what changed since the one that it is compared with."""
    state = "never issued" if last is None else "issued" if same else "changed since"
    return {
        "revision": last.revision if last else None,
        "issued": last.date.isoformat() if last else None,
        "state": state,
        "changes": {"since": before.revision, **_changes(made)} if made else None,
    }


def _changes(made: Changes) -> dict[str, Any]:
    return {
        "numbers": [{"state": one.state, "list": one.list, "number": one.number, "device": one.device or None, "text": one.text,
                     "differences": [{"name": it.name, "was": it.before, "is": it.now} for it in one.differences]}
                    for one in made.numbers],
        "pages": {one.value: _sent(sent) for one, sent in made.pages.items()},
        "labels": {one.value: {**_sent(sent), "all": one in made.links} for one, sent in made.labels.items()},
        "station_lines": {"zones": _sent(made.zones), "partitions": _sent(made.partitions), "users": _sent(made.users)},
    }


def _sent(sent: Sent) -> dict[str, list[str]]:
    return {"added": list(sent.added), "changed": list(sent.changed), "removed": list(sent.removed)}


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
