"""Did the customer agree in a way that holds: may work begin, and does the insurer know?"""
from collections.abc import Iterator

from generator.calc.days.calendar import CANCELLATION, Given, calendar
from generator.calc.results import Results
from generator.model.papers import Papers
from generator.rules.asked import AGREEMENT, MONITORED
from generator.rules.finding import Hit, Severity, Unchecked, Value
from generator.rules.registry import rule
from generator.tables.sources import PRACTICE
from generator.terms.show import day, sentence_list

DISTANCE, DISTANCE_COUNTS = "distance", "cancellation_distance_yes"
# Who signs at the company's has had time to think.
NO_PERIOD = "premises-of-the-company"
SIGNED, PLACE, WORK, EARLY = (f"job.agreement.{key}" for key in ("signed_on", "signed_at", "work_on", "early_start_on"))
ASK = "Have the customer ask in writing to begin early, with what they then owe, or begin after that day."


@rule("work-before-cancellation-end", Severity.FIX, needs=(AGREEMENT,), limits=(CANCELLATION, DISTANCE_COUNTS),
      compares="the first day of work with the last day on which the contract can be cancelled, counted from its signature",
      mends=ASK)
def work_before_cancellation_end(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """Work begins while the customer can still cancel, and they did not ask for that.

    A customer who cancels then need not pay for what was done; to work without the paper can be an offence. The law of the
    place decides what the paper must say.
    """
    agreement = papers.job.agreement
    if agreement.signed_at == NO_PERIOD or (agreement.signed_at == DISTANCE and not papers.profile.limits[DISTANCE_COUNTS].value):
        return
    missing = [key for key, given in (("signed_on", agreement.signed_on), ("signed_at", agreement.signed_at), ("work_on", agreement.work_on))
               if given is None]
    if missing:
        yield Unchecked(f"the agreement does not give {sentence_list(missing)}")
        return
    # Nothing but the contract is given: its last day is the one entry, or the reason why there is none the one that is missing.
    counted = calendar(papers.profile, Given(monitored=False, contract=agreement.signed_on))
    for lacking in counted.missing:
        yield Unchecked(lacking.reason)
        return
    end = counted.entries[0]
    if agreement.work_on <= end.last and not (agreement.early_start_on and agreement.early_start_on <= agreement.work_on):
        asked = agreement.early_start_on
        early = f"; the early start was asked for on {day(asked)} only" if asked else ""
        yield Hit(WORK, f"Signed on {day(agreement.signed_on)}, the contract can be cancelled up to {day(end.last)}; work begins on "
                  f"{day(agreement.work_on)}{early}.", ASK,
                  (Value("signed", day(agreement.signed_on), "", SIGNED), Value("cancelled up to", day(end.last), "", end.source),
                   Value("work begins", day(agreement.work_on), "", WORK),
                   Value("early start asked", day(asked) if asked else "none", "", EARLY)))


@rule("insurer-not-known", Severity.ASK, where=MONITORED, needs=(AGREEMENT,), source=PRACTICE,
      compares="what the agreement says of the insurer with what is seen in writing",
      mends="Ask the customer for the insurer's condition in writing, and write it under agreement:.")
def insurer_not_known(papers: Papers, results: Results) -> Iterator[Hit]:
    """Nobody has seen what the insurer asks of the system.

    A grade, a kind of transmission or a service that the insurer wants and nobody knew of can cost the customer the cover.
    """
    agreement = papers.job.agreement
    if agreement.insurer == "not-known":
        yield Hit("job.agreement.insurer", "Nobody has asked yet whether the insurer wants an alarm, and which.",
                  "Ask the customer for the insurer's condition in writing; write stated with it, or none.",
                  (Value("insurer", agreement.insurer, "", "job.agreement.insurer"),
                   Value("condition", agreement.insurer_condition or "none", "", "job.agreement.insurer_condition")))
    elif agreement.insurer == "stated" and agreement.insurer_condition is None:
        yield Hit("job.agreement.insurer_condition", "The insurer's condition was stated, and the job file does not say what it is.",
                  "Write it in a line as insurer_condition:.",
                  (Value("insurer", agreement.insurer, "", "job.agreement.insurer"),
                   Value("condition", "none", "", "job.agreement.insurer_condition")))
