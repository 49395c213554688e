"""Does each zone act when it must: in part sets, when a user omits it, in its partition, and to confirm another?"""
from collections.abc import Iterator

from generator.calc.results import Results
from generator.model.job import Device
from generator.model.papers import Papers
from generator.rules.asked import CONFIRMED, SEQUENTIAL, limit_text, limited
from generator.rules.confirming import next_met
from generator.rules.finding import Hit, Severity, Unchecked, Value
from generator.rules.registry import rule
from generator.tables.always_on import ALWAYS_ON
from generator.tables.sources import PRACTICE
from generator.terms.show import capital, count, sentence_list

ENTRY, ROUTE = "timed-entry", ("timed-entry", "entry-route")
KEYPADS = ("keypad", "reader")
CONFIRMING, EXIT_TIME = "confirming_least", "confirmed_exit_time_yes"
COMPLETES = "job.times.completes_by"


def _always_on(papers: Papers) -> Iterator[tuple[str, Device, str]]:
    """The units that must act at all times: name, unit, and the word of the trade that says why."""
    for name, device in papers.job.devices.items():
        word = next((one for one in (device.role, papers.sheet_of[name].kind) if one in ALWAYS_ON), None)
        if word:
            yield name, device, word


def _role(device: Device, word: str, name: str) -> Value:
    return Value("role" if device.role == word else "kind", word, "", f"job.devices.{name}.role")


@rule("always-on-left-out", Severity.STOP, source=PRACTICE,
      compares="the units that must act at all times with the part sets in which they are left out",
      mends="Take left_out_in: away from it.",
      firm="whoever needs it is in the house when part of the system is set")
def always_on_left_out(papers: Papers, results: Results) -> Iterator[Hit]:
    """A unit that must act at all times is left out of a part set.

    Hold-up, fire, carbon monoxide and all-hours zones matter most while people are at home.
    """
    for name, device, word in _always_on(papers):
        if device.left_out_in:
            at = f"job.devices.{name}.left_out_in"
            yield Hit(at, f"{name} is left out in {sentence_list(list(device.left_out_in))}, and {ALWAYS_ON[word]}.",
                      "Take left_out_in: away from it.", (_role(device, word, name), Value("left out in", ", ".join(device.left_out_in), "", at)))


@rule("always-on-omitted", Severity.STOP, source=PRACTICE,
      compares="the units that must act at all times with those that a user may omit",
      mends="Take omit: away from it; or accept this with who agreed it, so that it is on record.")
def always_on_omitted(papers: Papers, results: Results) -> Iterator[Hit]:
    """A user may omit a unit that must act at all times.

    Omitted once for a burnt toast it stays silent in a fire, and nobody is told.
    """
    for name, device, word in _always_on(papers):
        if device.omit:
            at = f"job.devices.{name}.omit"
            yield Hit(at, f"A user may omit {name}, and {ALWAYS_ON[word]}.", "Take omit: away from it, or accept this with who agreed it.",
                      (_role(device, word, name), Value("omit", "true", "", at)))


@rule("entry-left-out", Severity.FIX, source=PRACTICE,
      compares="the units with timed entry with the part sets in which they are left out",
      mends="Leave the door in the part set; people who come in by it have the entry time to unset.")
def entry_left_out(papers: Papers, results: Results) -> Iterator[Hit]:
    """A door with timed entry is left out of a part set.

    While people sleep, whoever comes in by that door meets no alarm.
    """
    for name, device in papers.job.devices.items():
        if device.role == ENTRY and device.left_out_in:
            at = f"job.devices.{name}.left_out_in"
            yield Hit(at, f"{name} watches a door by which people come in, and is left out in {sentence_list(list(device.left_out_in))}.",
                      "Leave the door in the part set, or accept this and say what watches it then.",
                      (Value("role", ENTRY, "", f"job.devices.{name}.role"), Value("left out in", ", ".join(device.left_out_in), "", at)))


def _without(papers: Papers, has: set[int]) -> Iterator[tuple[str, str, int]]:
    """The partitions that are not among those: where they stand, how a sentence names them, and their number."""
    for number, name in papers.partitions().items():
        if number not in has:
            own = number in papers.job.partitions
            yield f"job.partitions.{number}" if own else "job.devices", f"partition {number}, {name}," if own else "the system", number


@rule("partition-without-entry", Severity.STOP, source=PRACTICE,
      compares="the partitions with the units that have timed entry",
      mends="Give the contact of its way in the role timed-entry, or put it into this partition.")
def partition_without_entry(papers: Papers, results: Results) -> Iterator[Hit]:
    """A partition has no zone with timed entry.

    Nobody can come in to unset it without an alarm.
    """
    has = {papers.partition_of(device): name for name, device in papers.job.devices.items() if device.role == ENTRY}
    for at, named, number in _without(papers, set(has)):
        yield Hit(at, f"{capital(named)} has no zone with timed entry.", "Give the contact of its way in role: timed-entry, or partition: "
                  f"{number}.", (Value("partition", str(number), "", at), Value("timed entry", "none", "", "job.devices")))


@rule("partition-without-keypad", Severity.FIX, source=PRACTICE,
      compares="the partitions with the keypads and readers of the job",
      mends="Plan a keypad or reader on its entry route, or accept this and say what it is unset with.")
def partition_without_keypad(papers: Papers, results: Results) -> Iterator[Hit]:
    """A partition has no keypad and no reader.

    Whoever comes in has nothing to unset it at before the entry time is over.
    """
    has = {papers.partition_of(device) for name, device in papers.job.devices.items() if papers.sheet_of[name].kind in KEYPADS}
    for at, named, number in _without(papers, has):
        yield Hit(at, f"{capital(named)} has no keypad and no reader.", "Plan one on the entry route, or accept this and say what it is unset with.",
                  (Value("partition", str(number), "", at), Value("keypads and readers", "none", "", "job.devices")))


@rule("cannot-confirm", Severity.STOP, where=SEQUENTIAL, limits=(CONFIRMING,),
      compares="the units that may confirm an alarm, and their roles, with how many it takes",
      mends="Write confirms: true at units of their own that see an intruder after the first one did, one of them off the entry route.")
def cannot_confirm(papers: Papers, results: Results) -> Iterator[Hit]:
    """Alarms are to be confirmed by a second zone, and nothing can confirm.

    The station sends the police only after a second, independent unit; without one they never come.
    """
    units = {name: device.role for name, device in papers.job.devices.items() if device.confirms}
    off = [name for name, role in units.items() if role not in ROUTE]
    few = len(units) < papers.profile.limits[CONFIRMING].value
    if few or not off:
        which = f"{count(len(units), 'unit')} may confirm{f' ({sentence_list(list(units))})' if units else ''}"
        wrong = f"{limit_text(papers, CONFIRMING)} are wanted" if few else "all of them stand on the entry route"
        near = next_met(results)
        yield Hit("job.monitoring.confirmation", f"{which}; {wrong}.",
                  f"Write confirms: true at units of their own, one of them off the entry route{f' ({near})' if near else ''}, or agree another way "
                  "of confirming.",
                  (Value("confirmation", "sequential", "", "job.monitoring.confirmation"),
                   Value("may confirm", ", ".join(units) or "none", "", "job.devices"),
                   Value("off the entry route", str(len(off)), "", "job.devices"), limited(papers, CONFIRMING, "at least")))


@rule("setting-by-exit-time", Severity.FIX, where=CONFIRMED, limits=(EXIT_TIME,),
      compares="what completes setting with what the profile allows where alarms are confirmed",
      mends="Let setting be completed by the final door, a button outside, a tag or a lock.")
def setting_by_exit_time(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """Alarms are confirmed, and setting is completed by the end of the exit time alone.

    Whoever comes back for the keys as the time ends makes an alarm, and a second zone confirms it: a false call with police.
    """
    by = papers.job.times.completes_by
    if by is None:
        yield Unchecked("the job file does not say what completes setting")
    elif by == "exit-time" and not papers.profile.limits[EXIT_TIME].value:
        yield Hit(COMPLETES, "Setting is completed by the end of the exit time, and alarms are confirmed "
                  f"({papers.job.monitoring.confirmation}).", "Let it be completed by the final door, a button outside, a tag or a lock.",
                  (Value("completed by", by, "", COMPLETES),
                   Value("confirmation", papers.job.monitoring.confirmation, "", "job.monitoring.confirmation"),
                   limited(papers, EXIT_TIME, "exit time allowed")))
