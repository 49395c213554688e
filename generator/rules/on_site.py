"""Is what was found on site what was planned? Asked of what `doorpost results` took in; of a job of which nothing was taken in, nothing is said."""
from collections.abc import Iterator

from generator.calc.results import Results
from generator.model.found import FoundEntry
from generator.model.papers import Papers
from generator.procedure.asked import SERIAL
from generator.procedure.beside import Beside, Difference, beside_plan
from generator.procedure.steps import procedure
from generator.rules.finding import Hit, Severity, Value
from generator.rules.registry import Where, rule
from generator.tables.sources import PRACTICE
from generator.terms.show import capital, sentence_list
from generator.terms.signature import short
from generator.terms.terminal import safe

TAKEN_IN = Where("what was found on site was taken in", lambda papers: bool(papers.site))
OF_SITE = ("site-differs", "site-swapped", "site-conflict", "site-signature")
FOUND_ON_SITE, THE_PLAN = "what was found on site", "the plan"
READS = ("results.entries.*.value", "results.entries.*.result", "results.entries.*.note")
WRITE_WHY = ("On the phone write the reason at that entry, or read it again and write what it is; export and take it in again. Or accept it in the job file with "
             "who agreed, and why.")
SEND_SIGNED = "Take in once more the file of the phone on which was signed: doorpost results JOB FILE. Whatever lacks is written again from it."
MEND_SWAP = ("If the serials were swapped, correct them in the job file and issue again; if the units were, change them round. Then read and test both once "
             "more, and take that in.")


def _beside(papers: Papers, results: Results) -> tuple[Beside, ...]:
    return beside_plan(papers, results, procedure(papers, results))


def _field(papers: Papers, row: Beside) -> str:
    """The field of the job that an entry is about: a unit's serial, the unit, or the system."""
    device, _, what = row.same
    if not device:
        return "job.handover"
    unit = "job.control_unit" if device == papers.job.control_unit.id else f"job.devices.{device}"
    return f"{unit}.serial" if what == SERIAL else unit


def _held(entry: FoundEntry) -> str:
    """What an entry holds, on one line and with nothing in it that a terminal or a page would obey."""
    return safe(" ".join(filter(None, (entry.value.strip(), entry.unit, entry.result))) or "nothing")


def _values(row: Beside, one: Difference) -> tuple[Value, ...]:
    read = _held(one.entry)
    return (Value("in step", row.same[1], "", THE_PLAN), Value("found", read, "", FOUND_ON_SITE), Value("planned", one.planned, "", THE_PLAN))


@rule("site-differs", Severity.STOP, where=TAKEN_IN, reads=READS, source=PRACTICE,
      compares="every entry of the site, its serials, levels, measured values and results, with what the plan and its limits ask for", mends=WRITE_WHY)
def site_differs(papers: Papers, results: Results) -> Iterator[Hit]:
    """Something was found otherwise than planned, and nobody wrote why.

    Every difference needs a reason and somebody who agreed to it. Until it stands there the handover is not signed: the next one who comes
    would look for what is not there. What the phone notes by itself is no reason, and a value that cannot be compared with what is asked for is a
    difference too.
    """
    for row in _beside(papers, results):
        for one in row.differences:
            if not one.swapped and not one.reason:
                yield Hit(_field(papers, row), f"{safe(capital(one.says))}; planned: {one.planned.rstrip('.')}. No reason is written.", WRITE_WHY, _values(row, one))


@rule("site-swapped", Severity.STOP, where=TAKEN_IN, reads=READS, source=PRACTICE,
      compares="each serial read on site with those of all other units", mends=MEND_SWAP, firm="an alarm would name the wrong room")
def site_swapped(papers: Papers, results: Results) -> Iterator[Hit]:
    """A unit has the serial of another one.

    Two units were fitted in each other's place, or enrolled as each other: in an alarm the wrong room would be named.
    """
    for row in _beside(papers, results):
        for one in row.differences:
            if one.swapped:
                yield Hit(_field(papers, row), f"{safe(capital(one.says))}; planned: {one.planned}.", MEND_SWAP, _values(row, one))


@rule("site-conflict", Severity.ASK, where=TAKEN_IN, reads=READS, source=PRACTICE,
      compares="what one phone holds of a thing with what another phone holds of it",
      mends="Ask both who was there; whoever was wrong writes it once more on the same phone. Take that in.")
def site_conflict(papers: Papers, results: Results) -> Iterator[Hit]:
    """Two phones say different things of one and the same.

    Both are kept. Which of them is true only those who were there can say.
    """
    for row in _beside(papers, results):
        if row.thing and row.thing.others:
            held = [_held(entry) for entry in row.thing.counts]
            yield Hit(_field(papers, row), f"{row.title}: two phones hold {sentence_list(held)}.",
                      "Ask both who was there; whoever was wrong writes it once more on the same phone. Take that in.",
                      (Value("in step", row.same[1], "", THE_PLAN), *(Value("found", one, "", FOUND_ON_SITE) for one in held)))


@rule("site-signature", Severity.ASK, where=TAKEN_IN, reads=READS, source=PRACTICE,
      compares="each signature that was taken in with its file beside people.yaml, by the SHA-256 that its entry holds", mends=SEND_SIGNED)
def site_signature(papers: Papers, results: Results) -> Iterator[Hit]:
    """The file of a signature lacks, or is not as it was taken in.

    The entry holds that somebody signed, and the file what they wrote. Without it nobody can show the signature; with another one it is not theirs.
    """
    for row in _beside(papers, results):
        for entry in (*row.thing.last, *row.thing.earlier) if row.thing else ():
            if entry.value in papers.lost:
                file = f"signatures/{short(entry.value)}"
                yield Hit("job.handover", f"{row.title}: its file {file} {papers.lost[entry.value]}.", SEND_SIGNED,
                          (Value("in step", row.same[1], "", THE_PLAN), Value("signed as", entry.value, "", FOUND_ON_SITE)))
