"""The list of all rules. A rule that is not named here is not asked."""
from generator.calc.results import Results
from generator.model.papers import Papers
from generator.rules import entries, serials, slots, texts, times
from generator.rules.finding import Finding, Severity, Verdict
from generator.rules.registry import Rule, ask

RULES: tuple[Rule, ...] = (
    slots.numbers_do_not_fit,
    slots.spare_short,
    texts.text_too_long,
    texts.text_not_in_alphabet,
    entries.entry_not_timed,
    times.entry_time_long,
    times.sounder_time_long,
    serials.serial_twice,
    serials.serial_not_captured,
)
ORDER = tuple(Severity)


def judge(papers: Papers, results: Results) -> tuple[Verdict, ...]:
    """Every rule's verdict, in the order of the list."""
    return tuple(ask(one, papers, results) for one in RULES)


def findings(verdicts: tuple[Verdict, ...]) -> tuple[Finding, ...]:
    """All findings, the gravest first, else in the order of the rules."""
    every = [finding for verdict in verdicts for finding in verdict.findings]
    return tuple(sorted(every, key=lambda finding: ORDER.index(finding.severity)))
