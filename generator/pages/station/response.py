"""Is the station ready to answer: which kinds of event have no plan, and which blanks an answer cannot do without?

The words of a plan are free. That one covers a kind of event is read from the words in it: common practice, no source.
"""
import re
from collections.abc import Collection, Iterable, Iterator

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.pages.paper import Entry, Section, given, table
from generator.pages.station.zones import events_of
from generator.tables.events import CANCEL, EXIT_ERROR, LOW_CELL, OMITTED, TAMPER, TRIPS, UNHEARD

SET_AND_UNSET = ("401", "441")
PLAN, STEPS, FAULT = "Response by kind of event", "Steps before anybody is sent", "fault"
# Each kind of event: what it is called, its codes, the words of a plan that speak of it, and whether somebody's life or the
# house may hang on it. The gravest first.
KINDS = (
    ("hold-up", ("120", "122", "123"), ("hold-up", "hold up"), True),
    ("fire", ("110", "111", "114"), ("fire", "smoke"), True),
    ("carbon monoxide", ("162",), ("carbon monoxide",), True),
    ("medical call", ("100",), ("medical",), True),
    ("intruder", ("130", "131", "132", "133", "134", "136"), ("intruder", "burglar", "burglary"), True),
    ("tamper", ("137", TAMPER), ("tamper",), False),
    ("water", ("154",), ("water", "leak"), False),
    ("temperature", ("158", "159"), ("temperature", "freezer", "frost"), False),
    ("technical", ("150",), ("technical",), False),
    ("path failure", ("350",), ("path", FAULT), False),
    ("missed test", ("602",), ("test",), False),
    ("radio interference", ("344",), ("interference", FAULT), False),
    ("radio supervision", (UNHEARD,), ("supervision", FAULT), False),
    ("power failure", ("301",), ("power", "mains", FAULT), False),
    ("low standby battery", ("302",), ("battery", FAULT), False),
    ("low cell of a unit", (LOW_CELL,), ("cell", FAULT), False),
    ("zone left out by a user", (OMITTED,), ("omit", "left out"), False),
    ("alarm cancelled by a user", (CANCEL,), ("cancel", "cancelled"), False),
    ("exit error", (EXIT_ERROR,), ("exit error",), False),
    ("repeated-trip limit", (TRIPS,), ("trip", "repeated-trip"), False),
    ("opening and closing", SET_AND_UNSET, ("setting", "unsetting", "opening", "closing"), False),
)
READY = ("Account", "Address", "Keyholders in the order of calling", PLAN, STEPS, "Confirmation of alarms", "Proof of identity",
         "Soak period", "In use from")
# Of permits the name says for which alarms, or what the market calls one.
NUMBERS = ("Number for ", ": number")


def codes_of(papers: Papers, results: Results) -> frozenset[str]:
    """The codes of all events that the system sends; setting and unsetting only where they are watched."""
    watched = bool(papers.job.monitoring and papers.job.monitoring.open_close)
    return frozenset(one.code for one in events_of(papers, results).rows if watched or one.code not in SET_AND_UNSET)


def responses(papers: Papers, codes: Collection[str]) -> Section:
    """What is done when an event comes, and for which of the events that are sent no plan is given."""
    rows = [(one.to, one.plan) for one in papers.job.monitoring.responses]
    lacks = unplanned(papers, codes)
    blank = (Entry("No plan given for", "", f"{', '.join(lacks)}: ask the station and the customer"),) if lacks else ()
    none = () if rows else (given(PLAN, "", "the station and the customer"),)
    return Section("responses", "Response", "", (*none, *blank), table(PLAN, "Event", ("What is done, in order",), rows) if rows else None)


def unplanned(papers: Papers, codes: Collection[str], grave: bool = False) -> list[str]:
    """The kinds of event that are sent and have no plan, the gravest first; only those if `grave`."""
    plans = [one.to for one in papers.job.monitoring.responses]
    return [name for name, of, words, weighs in KINDS
            if (weighs or not grave) and any(one in codes for one in of) and not any(_speaks(plan, words) for plan in plans)]


def _speaks(plan: str, words: Iterable[str]) -> bool:
    return any(re.search(rf"\b{re.escape(word)}s?\b", plan, re.IGNORECASE) for word in words)


def ready(papers: Papers, codes: Collection[str], sections: Iterable[Section]) -> tuple[Section, ...]:
    """The warning that stands first while something is missing that an answer needs; none if nothing is."""
    missing = [*_missing(sections), *(f"a plan for {name}" for name in unplanned(papers, codes, grave=True) if papers.job.monitoring.responses)]
    return (Section("ready", "Not ready to answer", "Still missing:", lines=tuple(missing)),) if missing else ()


def _missing(sections: Iterable[Section]) -> Iterator[str]:
    yield from (one.name for section in sections for one in section.entries
                if one.blank.startswith("not given yet") and (one.name in READY or any(words in one.name for words in NUMBERS)))
