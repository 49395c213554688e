"""Are the programmed times within the profile's limits?"""
from collections.abc import Iterator

from generator.calc.results import Results
from generator.model.limits import SECONDS
from generator.model.papers import Papers
from generator.rules.asked import MONITORED, limit_text, limited
from generator.rules.finding import Hit, Severity, Unchecked, Value
from generator.rules.registry import Where, rule
from generator.terms.show import amount, number

SOUNDERS = Where("the job has a sounder", lambda papers: any(sheet.kind == "sounder" for sheet in papers.sheet_of.values()))
INSIDE = Where("times.inside_sounder_min is given", lambda papers: papers.job.times.inside_sounder_min is not None)
# No time at all is no window.
ABORT = Where("the job has an abort window", lambda papers: bool(papers.job.times.abort_s))
TRIPS = Where("times.trips is given", lambda papers: papers.job.times.trips is not None)
ENTRY_MIN, ENTRY_MAX = "entry_min_s", "entry_max_s"
EXIT_MIN, EXIT_MAX, USUAL_MIN, USUAL_MAX = "exit_min_s", "exit_max_s", "exit_usual_min_s", "exit_usual_max_s"
ABORT_MIN, ABORT_MAX, TOGETHER = "abort_min_s", "abort_max_s", "entry_abort_max_s"
TRIPS_LEAST, TRIPS_MOST = "trip_limit_least", "trip_limit_most"
SOUNDER_MAX, SOUNDER_LEAST, HOLD = "sounder_max_min", "sounder_least_s", "remote_hold_s"


def _programmed(papers: Papers, key: str, limit: str) -> tuple[int, Value]:
    """A programmed time, and how it stands among the values compared."""
    value = getattr(papers.job.times, key)
    return value, Value("programmed", f"{value}", papers.profile.limits[limit].unit or "", f"job.times.{key}")


def _said(papers: Papers, key: str, limit: str) -> str:
    entry = papers.profile.limits[limit]
    return f"{amount(getattr(papers.job.times, key), entry.unit or '')} programmed, {limit_text(papers, limit)} is the {entry.means}."


def _over(papers: Papers, key: str, limit: str) -> Iterator[Hit]:
    """The time is longer, or the number larger, than a limit."""
    value, programmed = _programmed(papers, key, limit)
    most = papers.profile.limits[limit].value
    if value > most:
        yield Hit(f"job.times.{key}", _said(papers, key, limit), f"Set {key} to {number(most)} or less.", (programmed, limited(papers, limit)))


def _under(papers: Papers, key: str, limit: str) -> Iterator[Hit]:
    """The time is shorter, or the number smaller, than a limit."""
    value, programmed = _programmed(papers, key, limit)
    least = papers.profile.limits[limit].value
    if value < least:
        yield Hit(f"job.times.{key}", _said(papers, key, limit), f"Set {key} to {number(least)} or more.", (programmed, limited(papers, limit)))


@rule("entry-time-long", Severity.STOP, limits=(ENTRY_MAX,),
      compares="the programmed entry time with the profile's longest",
      mends="Set the time to the limit or less; if people cannot be that quick, move the keypad nearer to the door.")
def entry_time_long(papers: Papers, results: Results) -> Iterator[Hit]:
    """The entry time is longer than the profile allows.

    An intruder has that long before anybody is told.
    """
    yield from _over(papers, "entry_s", ENTRY_MAX)


@rule("entry-time-short", Severity.FIX, limits=(ENTRY_MIN,),
      compares="the programmed entry time with the profile's shortest",
      mends="Set the time to the limit or more.")
def entry_time_short(papers: Papers, results: Results) -> Iterator[Hit]:
    """The entry time is shorter than the profile allows.

    People with full hands do not get to the keypad; most false calls are made by users on their way in or out.
    """
    yield from _under(papers, "entry_s", ENTRY_MIN)


@rule("exit-time-outside", Severity.FIX, limits=(EXIT_MIN, EXIT_MAX),
      compares="the programmed exit time with the profile's shortest and longest",
      mends="Set the time to one between the two.")
def exit_time_outside(papers: Papers, results: Results) -> Iterator[Hit]:
    """The exit time is shorter or longer than the profile allows.

    Too short, people set it off as they leave; too long, the house stands open behind them.
    """
    yield from _under(papers, "exit_s", EXIT_MIN)
    yield from _over(papers, "exit_s", EXIT_MAX)


@rule("exit-time-unusual", Severity.NOTE, limits=(USUAL_MIN, USUAL_MAX),
      compares="the programmed exit time with the shortest and the longest that are usual",
      mends="Nothing to mend if somebody here needs that long; else set a usual time.")
def exit_time_unusual(papers: Papers, results: Results) -> Iterator[Hit]:
    """The exit time is not a usual one.

    It may be right for a wheelchair or a long drive; it may be a slip of the pen.
    """
    yield from _under(papers, "exit_s", USUAL_MIN)
    yield from _over(papers, "exit_s", USUAL_MAX)


@rule("abort-time-outside", Severity.FIX, where=ABORT, limits=(ABORT_MIN, ABORT_MAX),
      compares="the programmed abort window with the profile's shortest and longest",
      mends="Set the window to a time between the two, or leave it out where the profile lets you.")
def abort_time_outside(papers: Papers, results: Results) -> Iterator[Hit]:
    """The abort window is shorter or longer than the profile allows.

    Too short, nobody can cancel a mistake; too long, help is late.
    """
    yield from _under(papers, "abort_s", ABORT_MIN)
    yield from _over(papers, "abort_s", ABORT_MAX)


@rule("entry-and-abort-long", Severity.FIX, where=ABORT, limits=(TOGETHER,),
      compares="the programmed entry time and abort window together with the profile's longest for both",
      mends="Shorten one of the two.")
def entry_and_abort_long(papers: Papers, results: Results) -> Iterator[Hit]:
    """Entry time and abort window together are longer than the profile allows.

    So long nobody is told of an intruder who came in by the door.
    """
    times, entry = papers.job.times, papers.profile.limits[TOGETHER]
    both, unit = times.entry_s + times.abort_s, entry.unit or ""
    if both > entry.value:
        yield Hit("job.times.abort_s", f"{amount(times.entry_s, unit)} and {amount(times.abort_s, unit)} are {amount(both, unit)}, "
                  f"{limit_text(papers, TOGETHER)} is the {entry.means}.",
                  f"Set abort_s to {number(entry.value - times.entry_s)} or less, or shorten entry_s.",
                  (Value("entry", str(times.entry_s), unit, "job.times.entry_s"), Value("abort", str(times.abort_s), unit, "job.times.abort_s"),
                   Value("together", str(both), unit, "job.times"), limited(papers, TOGETHER)))


@rule("report-too-soon", Severity.FIX, where=MONITORED, limits=(HOLD,),
      compares="how long the report of an alarm on entry is held with the profile's least time of local warning",
      mends="Set report_delay_s to the limit or more; what is no alarm on entry is reported at once all the same.")
def report_too_soon(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """An alarm on entry is reported before people could stop it.

    The sounders tell somebody who was slow that the time is over; a report in the same moment is a false call.
    """
    if papers.job.times.report_delay_s is None:
        yield Unchecked("the job file does not say how long the report of an alarm on entry is held")
    else:
        yield from _under(papers, "report_delay_s", HOLD)


@rule("trips-outside", Severity.FIX, where=TRIPS, limits=(TRIPS_LEAST, TRIPS_MOST),
      compares="the programmed repeated-trip limit with the profile's smallest and largest",
      mends="Set the limit to a number between the two.")
def trips_outside(papers: Papers, results: Results) -> Iterator[Hit]:
    """The repeated-trip limit is smaller or larger than the profile allows.

    A unit that goes off all night wakes the street, and each time is a call.
    """
    yield from _under(papers, "trips", TRIPS_LEAST)
    yield from _over(papers, "trips", TRIPS_MOST)


@rule("sounder-time-long", Severity.STOP, limits=(SOUNDER_MAX,),
      compares="the programmed run of the outside sounder with the profile's longest",
      mends="Set the time to the limit or less.")
def sounder_time_long(papers: Papers, results: Results) -> Iterator[Hit]:
    """The outside sounder runs longer than the profile allows.

    Neighbours and the council may have it silenced at the owner's cost.
    """
    yield from _over(papers, "sounder_min", SOUNDER_MAX)


@rule("inside-sounder-time-long", Severity.ASK, where=INSIDE, limits=(SOUNDER_MAX,),
      compares="the programmed run of the sounders inside with the longest that the profile allows outside",
      mends="Set the time to the limit or less, or accept this and say why nobody next door hears it.")
def inside_sounder_time_long(papers: Papers, results: Results) -> Iterator[Hit]:
    """The sounders inside run longer than one outside may.

    Through a party wall or an open window they are as much noise.
    """
    yield from _over(papers, "inside_sounder_min", SOUNDER_MAX)


@rule("sounder-time-short", Severity.FIX, where=SOUNDERS, limits=(SOUNDER_LEAST,),
      compares="the programmed runs of the sounders with the profile's shortest",
      mends="Set the time to the limit or more.")
def sounder_time_short(papers: Papers, results: Results) -> Iterator[Hit]:
    """A sounder runs shorter than the profile allows.

    It is over before a neighbour has looked out, and an intruder has only to wait.
    """
    entry = papers.profile.limits[SOUNDER_LEAST]
    for key in ("sounder_min", "inside_sounder_min"):
        minutes = getattr(papers.job.times, key)
        if minutes is not None and minutes * SECONDS["min"] < entry.value:
            yield Hit(f"job.times.{key}", f"{amount(minutes, 'min')} programmed, {limit_text(papers, SOUNDER_LEAST)} is the {entry.means}.",
                      f"Set {key} to {number(-(-entry.value // SECONDS['min']))} or more.",
                      (Value("programmed", str(minutes), "min", f"job.times.{key}"), limited(papers, SOUNDER_LEAST)))
