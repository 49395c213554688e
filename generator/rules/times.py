"""Are the programmed times within the profile's limits?"""
from collections.abc import Iterator

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.rules.finding import Hit, Severity, Value
from generator.rules.registry import rule
from generator.terms.show import amount


def _over(papers: Papers, key: str, limit: str) -> Iterator[Hit]:
    entry = papers.profile.limits[limit]
    value = getattr(papers.job.times, key)
    if value > entry.value:
        yield Hit(f"job.times.{key}", f"{amount(value, entry.unit or '')} programmed, {amount(entry.value, entry.unit or '')} "
                  f"is the {entry.means}.", f"Set {key} to {entry.value:g} or less.",
                  (Value("programmed", f"{value}", entry.unit or "", f"job.times.{key}"),
                   Value("limit", f"{entry.value:g}", entry.unit or "", papers.profile.source_of(limit).cited())))


@rule("entry-time-long", Severity.STOP, limits=("entry_max_s",),
      compares="the programmed entry time with the profile's longest",
      mends="Set the time to the limit or less; if people cannot be that quick, move the keypad nearer to the door.")
def entry_time_long(papers: Papers, results: Results) -> Iterator[Hit]:
    """The entry time is longer than the profile allows.

    An intruder has that long before anybody is told.
    """
    yield from _over(papers, "entry_s", "entry_max_s")


@rule("sounder-time-long", Severity.STOP, limits=("sounder_max_min",),
      compares="the programmed run of the outside sounder with the profile's longest",
      mends="Set the time to the limit or less.")
def sounder_time_long(papers: Papers, results: Results) -> Iterator[Hit]:
    """The outside sounder runs longer than the profile allows.

    Neighbours and the council may have it silenced at the owner's cost.
    """
    yield from _over(papers, "sounder_min", "sounder_max_min")
