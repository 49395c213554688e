"""The tests of the system as a whole: times, settings, paths, events, the log."""
from collections.abc import Iterator

from generator.calc.results import Results
from generator.model.agreement import Assumption
from generator.model.papers import Papers
from generator.procedure.check import BY_STATION, LEAST, MOST, PRACTICE, Check, both, held, limit
from generator.procedure.cleared import asked_for, drilled, line_of
from generator.procedure.confirming import SECOND_ZONE, confirming_in_words
from generator.procedure.handling import test_in_words
from generator.procedure.safety import CARRIED
from generator.procedure.settings import COMPLETES
from generator.procedure.units import fitted, of_kind
from generator.terms.show import amount, capital, sentence_list

# The kinds of unit that bring each kind of event, besides those of every system.
EVENTS = (("hold-up", ("hold-up",)), ("call for help", ("medical",)), ("fire", ("smoke", "heat")), ("carbon monoxide", ("carbon-monoxide",)),
          ("technical", ("water", "temperature")))
# The kinds of unit whose zones bring an intruder alarm.
DETECTS = {"contact", "movement", "glass-break", "shock"}
# Lines that a call with the station is the test of, by their names or by how they begin.
OMITTING, CANCELLING, AUTOMATIC, EVENT, LOSS = "Omitting", "Cancelling", "Automatic test", "Event: ", "Loss of "
OFF_TEST = "Account off test"
OTHERWISE = "Found otherwise: "
# Limits on how soon the station must know that a path failed, by category.
UNITS_OF_REPORT = ("days", "h", "min", "s")


def system_checks(papers: Papers, results: Results) -> tuple[Check, ...]:
    """The tests of the system as a whole."""
    return tuple([*_cleared(papers), *_found_otherwise(papers), *_times(papers), *_settings(papers), *_second_zone(papers, results), *_radio(papers), *_station(papers), *_last(papers)])


def _cleared(papers: Papers) -> Iterator[Check]:
    """A line for each room that is drilled in a house that may be old; it stands before any hole."""
    for place, units in drilled(papers).items() if asked_for(papers) else ():
        yield Check("", line_of(place), f"Pass: cleared, by which record or whom, for {sentence_list(list(units))}. Fail: not cleared, and nothing is drilled there.",
                    "the asbestos law and a licensed surveyor decide", "record, or whose word")


def _found_otherwise(papers: Papers) -> Iterator[Check]:
    """A line for each thing that the plan was not made on; it stands on the walk round."""
    for key, one in found_otherwise(papers):
        yield Check("", f"{OTHERWISE}{key}", f"Found: {one.found}; planned on: {one.assumed}. Write which units it touches, and what the office said.", PRACTICE,
                    "answer")


def found_otherwise(papers: Papers) -> Iterator[tuple[str, Assumption]]:
    """What the survey took for granted and somebody found otherwise since, by what it is about."""
    for key, one in (papers.job.survey.assumptions.items() if papers.job.survey else ()):
        if one.found:
            yield key.replace("-", " ").replace("_", " "), one


def _second_zone(papers: Papers, results: Results) -> Iterator[Check]:
    if confirming_in_words(papers, results):
        yield Check("", SECOND_ZONE, "Write the time that is set, within which a second zone confirms an alarm: it is not in the plan.", PRACTICE, "min")


def _times(papers: Papers) -> Iterator[Check]:
    times, factor = papers.job.times, limit(papers, "time_reserve_factor")
    by = f", times {factor[0]}," if factor else ""
    longest = limit(papers, "entry_max_s")
    least = f"; {longest[0]} is the longest allowed" if longest else ""
    known = [one[1] for one in (factor, longest) if one]
    yield Check("", "Entry", f"What the slowest user needs from the moving door until the end{by} is {amount(times.entry_s, 's')} at most{least}.",
                both(*known) if known else PRACTICE, "s", ("job.times.entry_s",), most=_before_reserve(papers, times.entry_s))
    yield Check("", "Exit", f"What the slowest user needs from the keypad until the door is shut{by} is {amount(times.exit_s, 's')} at most.",
                factor[1] if factor else PRACTICE, "s", ("job.times.exit_s",), most=_before_reserve(papers, times.exit_s))
    if times.report_delay_s is not None and papers.job.monitoring:
        yield held(papers, "", "Report held", f"An alarm on entry reaches the station {amount(times.report_delay_s, 's')} after the sounders, "
                                              f"{{limit}} at least.",
                   "remote_hold_s", "s", f"An alarm on entry reaches the station {amount(times.report_delay_s, 's')} after the sounders.",
                   ("job.times.report_delay_s",), LEAST)
    if times.abort_s is not None:
        yield held(papers, "", CANCELLING, f"Cancelled within {amount(times.abort_s, 's')}, nothing is reported; {{limit}} is the "
                                             "longest.", "abort_max_s", "s",
                   f"Cancelled within {amount(times.abort_s, 's')}, nothing is reported.", ("job.times.abort_s",), MOST)
    if times.trips is not None:
        yield Check("", "Repeated trips", f"After {times.trips} alarms of one zone while it is {papers.profile.words.is_set} that zone is left "
                                          "out, and the log says so.", PRACTICE)


def _before_reserve(papers: Papers, programmed_s: int) -> float:
    """The longest measured time, in s, that the reserve still brings within the programmed one."""
    factor = papers.profile.limits.get("time_reserve_factor")
    return programmed_s / float(factor.value) if factor else float(programmed_s)


def _settings(papers: Papers) -> Iterator[Check]:
    job, words = papers.job, papers.profile.words
    for key, one in job.part_sets.items():
        out = [name for name, device in job.devices.items() if key in device.left_out_in]
        quiet = f"{sentence_list(out)} keep silent" if out else "nothing is left out"
        yield Check("", f"{capital(words.part_set)}: {one.name}", f"{capital(one.when)}: the way to the bathroom brings no alarm ({quiet}); each "
                                                                 "door and window "
                    "that counts still does; the entry door starts its time.", PRACTICE)
    if any(device.omit for device in job.devices.values()):
        yield Check("", OMITTING, "A zone that may be left out is silent for once, then counts again; the log names it.", PRACTICE)
    for number, one in sorted(job.partitions.items()):
        yield Check("", f"Partition {number}", f"{capital(words.set)} alone, {one.name} alarms for its own zones and no other.", PRACTICE)
    refused = limit(papers, "prevent_detector_yes")
    yield Check("", "Refused", f"With a window open it cannot be {words.is_set}, or it says which one is open.", refused[1] if refused else PRACTICE)
    yield Check("", f"Fully {words.is_set}", f"{capital(words.is_set)} from outside, exit time over: one unit is triggered by reaching in; alarm; "
                                             f"{words.unset}.", PRACTICE)
    if job.times.completes_by:
        yield Check("", "Completing", f"What is to complete it does: {COMPLETES[job.times.completes_by]}. Nothing else does.", PRACTICE)
    if of_kind(papers, list(job.devices), *CARRIED):
        yield Check("", "Deleted fob or tag", "One that was deleted for the test does nothing; it is enrolled again, or given back.", PRACTICE)


def _radio(papers: Papers) -> Iterator[Check]:
    heard = {device.via or papers.job.control_unit.id for name, device in papers.job.devices.items() if name in fitted(papers)}
    yield held(papers, "", "Supervision", f"One unit silenced for each that listens ({sentence_list(sorted(heard))}): a fault is shown within "
                                          f"{{limit}}.",
               "supervision_min", "min", end=MOST)
    yield Check("", "Interference", "The control unit's own diagnosis shows none; no jammer was used.", PRACTICE)


def _station(papers: Papers) -> Iterator[Check]:
    agreed = papers.job.monitoring
    if agreed is None:
        return
    for key, path in agreed.paths.items():
        alone = "the others off" if len(agreed.paths) > 1 else "the only one"
        yield held(papers, "", f"Path {key}", f"{capital(key)}, {alone}: alarm and restore arrive within {{limit}}.", "station_arrival_s", "s", end=MOST)
        yield _failure(papers, key)
        if path.router:
            stands = (f"for {amount(path.standby_h, 'h')} as agreed" if path.standby_h is not None else
                      "as long as the system; how long is not in the plan, so that no limit stands here")
            yield Check("", f"Router of {key}", f"Its mains off, router and modem carry on {stands}. Write how long they did, in hours; mains on again before they "
                        "ran out: “could not test”.", PRACTICE, "h", (f"job.monitoring.paths.{key}.standby_h",),
                        least=float(path.standby_h) if path.standby_h is not None else None)
    for event in _events(papers):
        yield Check("", f"{EVENT}{event}", f"{agreed.station} reads back {event}, with the right text, and its restore.", PRACTICE, BY_STATION)
    yield Check("", "Every event at the station", f"{agreed.station} reads back number and text of each zone, "
                "and its restore.", PRACTICE, BY_STATION)
    if agreed.confirmation not in (None, "none"):
        pair = [name for name, device in papers.job.devices.items() if device.confirms]
        yield Check("", "Confirmation", f"Two zones that do not look at one place ({sentence_list(pair) or 'none is named in the plan'}): first "
                                        "the alarm, then "
                    "confirmed. One zone twice confirms nothing.", PRACTICE, BY_STATION)
    yield held(papers, "", AUTOMATIC, f"The station sees the next test; due: {test_in_words(agreed)}; {{limit}} at most between two.",
               "test_interval_h", "time",
               f"The station sees the next test; due: {test_in_words(agreed)}.", ("job.monitoring.test_interval_h", "job.monitoring.test_at"))
    yield Check("", OFF_TEST, "Operator's name and time written down.", PRACTICE, BY_STATION)


def _failure(papers: Papers, key: str) -> Check:
    """How soon the station must know that a path is lost: by the category, the first path before the others."""
    agreed = papers.job.monitoring
    category = agreed.category_given or agreed.category_asked
    other = "other_" if list(agreed.paths).index(key) else ""
    names = [f"report_{other}{(category or '').lower()}_{unit}" for unit in UNITS_OF_REPORT]
    found = next((name for name in names if name in papers.profile.limits), None)
    if found:
        return held(papers, "", f"{LOSS}{key}", f"Pulled, its loss is shown here, and the station knows within {{limit}} (category "
                                                  f"{category}).", found, papers.profile.limits[found].unit or "min", end=MOST)
    return Check("", f"{LOSS}{key}", "Pulled, its loss is shown here and reported; how soon the station must know is not in the plan, so that no limit stands "
                 "here: write how soon it knew.", PRACTICE, "min")


def _events(papers: Papers) -> list[str]:
    """Each kind of event that this system can send."""
    kinds = {sheet.kind for sheet in papers.sheet_of.values()}
    roles = {device.role for device in papers.job.devices.values()}
    special = [event for event, of in EVENTS if kinds & set(of) or event in roles]
    intruder = bool(kinds & DETECTS)
    mains = papers.sheet_of[papers.job.control_unit.id].power.kind == "mains"
    cells = any(sheet.power.kind == "cell" for sheet in papers.sheet_of.values())
    agreed = papers.job.monitoring
    words = papers.profile.words
    return [event for event, there in (
        ("intruder", intruder), ("confirmed alarm", agreed.confirmation not in (None, "none")), ("tamper", True), *((one, True) for one in special),
        ("mains failure", mains), ("battery fault", mains), ("weak cell", cells), ("a unit not heard", True),
        ("a zone left out", any(device.omit for device in papers.job.devices.values())),
        (f"{words.set} and {words.unset}", bool(agreed.open_close))) if there]


def _last(papers: Papers) -> Iterator[Check]:
    yield Check("", "Log", "All of today's tests stand in the log with the right zone, user and time.", PRACTICE)
