"""Which findings does somebody answer for, and which acceptances hold no more?"""
from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date

from generator.model.accepted import Accepted
from generator.model.papers import Papers
from generator.rules.finding import Finding, Hit, Severity, Value, Verdict
from generator.rules.registry import Rule, rule
from generator.tables.sources import JOB_FILE
from generator.terms.show import day, sentence_list


def weighed(verdicts: tuple[Verdict, ...], rule_of: Mapping[str, Rule], entries: tuple[Accepted, ...],
            as_of: date) -> tuple[Verdict, ...]:
    """The verdicts with what the acceptances of the job file make of them on a day."""
    return tuple(replace(verdict, findings=tuple(_weighed(one, _meant(entries, one), as_of) for one in verdict.findings))
                 if not rule_of[verdict.rule].firm else verdict for verdict in verdicts)


def _meant(entries: tuple[Accepted, ...], finding: Finding) -> list[Accepted]:
    """The acceptances that speak of a finding's place, the latest last."""
    return sorted((one for one in entries if finding.outcome == "found" and (one.rule, one.at) == (finding.rule, finding.hit.place)),
                  key=lambda one: one.on)


def _weighed(finding: Finding, meant: list[Accepted], as_of: date) -> Finding:
    holding = [one for one in meant if one.on <= as_of and _same(one.values, finding.hit.compared)]
    if holding:
        last = holding[-1]
        return replace(finding, accepted=last, acceptance=f"Accepted on {day(last.on)} by {last.who}: {last.why}")
    return replace(finding, acceptance=_why_not(meant[-1], finding.hit, as_of)) if meant else finding


def _same(one: str, other: str) -> bool:
    return one.split() == other.split()


def _why_not(one: Accepted, hit: Hit, as_of: date) -> str:
    if one.on > as_of:
        return f"Accepted only from {day(one.on)} on; this is worked out for {day(as_of)}."
    return (f"The acceptance of {day(one.on)} by {one.who} lapsed: it was given for {' '.join(one.values.split())}; "
            f"now it is {hit.compared}.")


@rule("acceptance-unused", Severity.NOTE, source=JOB_FILE,
      compares="each acceptance of the job file with what its rule found",
      mends="Take the entry out, or write the place that `doorpost check` names.",
      firm="it speaks of the acceptance itself")
def acceptance_unused(papers: Papers, verdicts: tuple[Verdict, ...]) -> Iterator[Hit]:
    """A finding is accepted that is not there any more.

    Whoever reads the entry later takes it for something that still holds, and a new finding there would look agreed.
    """
    verdict_of = {verdict.rule: verdict for verdict in verdicts}
    for index, entry in enumerate(papers.job.accepted):
        verdict = verdict_of.get(entry.rule)
        if verdict is None or verdict.outcome == "not_checked":
            continue
        places = list(dict.fromkeys(one.hit.place for one in verdict.findings if one.outcome == "found"))
        if entry.at not in places:
            where = f"It speaks at {sentence_list(places)}." if places else "It finds nothing in this job."
            yield Hit(f"job.accepted.{index}", f"{entry.rule} was accepted at {entry.at} on {day(entry.on)} and does not speak there.",
                      f"{where} Take the entry out, or write the place at which it speaks.",
                      (Value("accepted at", entry.at, "", f"job.accepted.{index}.at"),
                       Value("found at", ", ".join(places) or "none", "", entry.rule)))
