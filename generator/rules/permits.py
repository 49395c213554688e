"""Will anybody come: do police or council know the system, and is the company allowed to fit it?"""
from collections.abc import Iterator
from datetime import date

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.rules.asked import AS_OF, MONITORED, limited
from generator.rules.finding import Hit, Severity, Value
from generator.rules.holdup import HOLD_UP, hold_up_units
from generator.rules.registry import Where, rule
from generator.tables.sources import JOB_FILE, PRACTICE
from generator.terms.show import capital, day

WANTED, INTRUDER, EVERY = "permit_wanted_yes", "intruder", "all"
AT = "job.monitoring.permits"
LICENSED = Where("company.yaml lists licences", lambda papers: bool(papers.company.licences))


def _kinds(papers: Papers) -> Iterator[tuple[str, str]]:
    """The kinds of alarm that somebody would have to answer, each with what sends it."""
    yield INTRUDER, "the system reports intruders"
    units = list(hold_up_units(papers))
    if units:
        yield HOLD_UP, f"{units[0]} calls for help" if len(units) <= 1 else f"{len(units)} units call for help"


@rule("permit-missing", Severity.ASK, where=MONITORED, limits=(WANTED,),
      compares="the kinds of alarm that the system sends with those that a permit was given for",
      mends="Apply for it, and write it under permits:; until it is given tell the customer that nobody is sent.")
def permit_missing(papers: Papers, results: Results) -> Iterator[Hit]:
    """A kind of alarm has no permit, or it was not given yet.

    The station must not ask for help without it, while the customer believes that help comes.
    """
    if not papers.profile.limits[WANTED].value:
        return
    word = papers.profile.words.permit
    for kind, sends in _kinds(papers):
        covering = {key: one for key, one in papers.job.monitoring.permits.items() if one.covers in (kind, EVERY)}
        if any(one.since for one in covering.values()):
            continue
        key = next(iter(covering), None)
        says = f"of the {word} that covers {kind} alarms no day is given on which it was given" if key else f"no {word} covers {kind} alarms"
        yield Hit(f"{AT}.{key}.since" if key else AT, f"{capital(sends)}, and {says}.",
                  f"Apply for the {word}, and write it under permits:; until it is given tell the customer that nobody is sent.",
                  (Value("alarms", kind, "", "job.devices"), Value("given", "not yet" if key else "none", "", AT), limited(papers, WANTED, "wanted")))


def day_wanted(papers: Papers, results: Results) -> date:
    """The day on which it must hold: that for which the job is worked out, or the later one on which the system comes into use."""
    agreement = papers.job.agreement
    return max(results.as_of, agreement.in_use_on if agreement and agreement.in_use_on else results.as_of)


@rule("permit-ended", Severity.ASK, where=MONITORED, source=JOB_FILE,
      compares="the last day of each permit with the day for which the job is worked out, or that of coming into use",
      mends="Have it renewed, and write the new last day.")
def permit_ended(papers: Papers, results: Results) -> Iterator[Hit]:
    """A permit has ended, or ends before the system comes into use.

    From then on nobody is sent, and in some towns each call is fined.
    """
    wanted = day_wanted(papers, results)
    for key, one in papers.job.monitoring.permits.items():
        if one.valid_to and one.valid_to < wanted:
            at = f"{AT}.{key}.valid_to"
            yield Hit(at, f"Permit {key} by {one.by} ends on {day(one.valid_to)}; it is wanted on {day(wanted)}.",
                      "Have it renewed, and write the new last day.",
                      (Value("last day", day(one.valid_to), "", at), Value("then", "over", "", AS_OF)))


@rule("licence-ended", Severity.STOP, where=LICENSED, source=PRACTICE,
      reads=("company.licences.*.name", "company.licences.*.number", "company.licences.*.valid_to"),
      compares="the last day of each licence of the company with the day for which the job is worked out, or that of coming into use",
      mends="Have it renewed before the certificate is printed, and write the new last day into company.yaml.")
def licence_ended(papers: Papers, results: Results) -> Iterator[Hit]:
    """A licence of the company has ended, or ends before the system comes into use.

    A certificate with its number is worth nothing, police and insurer can refuse the system, and where the trade is licensed the
    work is unlawful.
    """
    wanted = day_wanted(papers, results)
    for index, one in enumerate(papers.company.licences):
        if one.valid_to < wanted:
            at = f"company.licences.{index}.valid_to"
            yield Hit(at, f"{one.name}, {one.number}, ends on {day(one.valid_to)}; it is wanted on {day(wanted)}.",
                      "Have it renewed before the certificate is printed, and write the new last day into company.yaml.",
                      (Value("last day", day(one.valid_to), "", at), Value("then", "over", "", AS_OF)))
