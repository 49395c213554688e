"""What happened before: is response near its end, and is the house still as it was surveyed?"""
from collections.abc import Iterator
from datetime import date

from generator.calc.days.dates import months_later
from generator.calc.results import Results
from generator.model.papers import Papers
from generator.rules.asked import MONITORED, limit_text, limited
from generator.rules.finding import Hit, Severity, Value
from generator.rules.registry import Need, rule
from generator.tables.sources import PRACTICE
from generator.terms.show import capital, count, day, sentence_list

WITHDRAWN, WITHDRAWN_HOLD_UP, WARNED = "false_calls_withdrawn", "holdup_calls_withdrawn", "false_calls_warned"
WINDOW = "false_call_window_months"
LIMIT_OF = {"intruder": WITHDRAWN, "hold-up": WITHDRAWN_HOLD_UP}
AT = "job.history.false_calls"
# A new system has no calls behind it; of one that was there somebody knows.
HISTORY = Need("the history of false calls", lambda papers, results: "" if papers.job.history or papers.job.kind == "new" else
               "the job file holds no history")
SURVEY = Need("the survey", lambda papers, results: "" if papers.job.survey else "the job file holds no survey")


def counted(papers: Papers, results: Results, kind: str) -> list[int]:
    """The false calls of a kind that still count on the day for which the job is worked out, by their places in the list."""
    calls = papers.job.history.false_calls if papers.job.history else ()
    return [index for index, one in enumerate(calls) if one.kind == kind and one.on <= results.as_of < _until(papers, index)]


def _until(papers: Papers, index: int) -> date:
    """The first day on which a false call does not count any more."""
    return months_later(papers.job.history.false_calls[index].on, int(papers.profile.limits[WINDOW].value))


def _said(papers: Papers, kind: str, places: list[int]) -> str:
    days = sentence_list([day(papers.job.history.false_calls[index].on) for index in places])
    return f"{capital(count(len(places), f'false {kind} call'))} within {limit_text(papers, WINDOW)} ({days})"


def _compared(papers: Papers, kind: str, places: list[int]) -> tuple[Value, ...]:
    return (Value("alarms", kind, "", AT), Value("false calls", str(len(places)), "", AT), limited(papers, LIMIT_OF[kind], "withdrawn at"),
            limited(papers, WINDOW, "counted over"))


@rule("false-calls-reached", Severity.STOP, where=MONITORED, needs=(HISTORY,), limits=(WITHDRAWN, WITHDRAWN_HOLD_UP, WINDOW),
      compares="the false calls that still count with the number at which response is withdrawn, hold-up calls apart",
      mends="Find and mend the cause, tell the customer and the station that nobody is sent, and apply for response again.")
def false_calls_reached(papers: Papers, results: Results) -> Iterator[Hit]:
    """So many false calls were made that response is lost.

    Nobody comes, whatever is agreed with the station, until the cause is mended or enough quiet months have passed.
    """
    for kind, limit in LIMIT_OF.items():
        places = counted(papers, results, kind)
        if len(places) >= papers.profile.limits[limit].value:
            yield Hit(AT, f"{_said(papers, kind, places)}; at {limit_text(papers, limit)} response is withdrawn.",
                      "Find and mend the cause, tell the customer that nobody is sent, and apply for response again.",
                      _compared(papers, kind, places))


@rule("false-calls-near", Severity.FIX, where=MONITORED, needs=(HISTORY,), limits=(WITHDRAWN, WITHDRAWN_HOLD_UP, WINDOW), also=(WARNED,),
      compares="the false calls that still count with the number one below that at which response is withdrawn, hold-up calls apart",
      mends="Find and mend the cause of each before the system is set again, and show the users what set it off.")
def false_calls_near(papers: Papers, results: Results) -> Iterator[Hit]:
    """One more false call, and response is lost.

    A warning has been written by then; the next mistake of a user or a detector ends police response for months.
    """
    for kind, limit in LIMIT_OF.items():
        places = counted(papers, results, kind)
        if places and len(places) + 1 == papers.profile.limits[limit].value:
            warned = kind == "intruder" and WARNED in papers.profile.limits and len(places) >= papers.profile.limits[WARNED].value
            letter = f", and a warning is written at {limit_text(papers, WARNED)}" if warned else ""
            first = min(_until(papers, index) for index in places)
            yield Hit(AT, f"{_said(papers, kind, places)}; at {limit_text(papers, limit)} response is withdrawn{letter}. From {day(first)} on one "
                      "less counts.", "Find and mend the cause of each before the system is set again.", _compared(papers, kind, places))


@rule("assumption-changed", Severity.ASK, needs=(SURVEY,), source=PRACTICE,
      compares="what the survey took for granted with what was found",
      mends="Go through the plan with what was found: units, places, times; then write it as assumed:, or accept this and say what was agreed.")
def assumption_changed(papers: Papers, results: Results) -> Iterator[Hit]:
    """The plan was made on something that is not so.

    An animal, a wall or a router that nobody planned with makes false calls or gaps; whoever pays should hear of it first.
    """
    for key, one in papers.job.survey.assumptions.items():
        at = f"job.survey.assumptions.{key}"
        if one.found and one.found.split() != one.assumed.split():
            when = f" on {day(one.on)}" if one.on else ""
            yield Hit(f"{at}.found", f"{capital(key)}: the plan was made on “{one.assumed}”; “{one.found}” was found{when}.",
                      "Go through the plan with it, and tell the customer what follows.",
                      (Value("assumed", one.assumed, "", f"{at}.assumed"), Value("found", one.found, "", f"{at}.found")))
