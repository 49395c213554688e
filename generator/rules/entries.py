"""Is every door by which people come in one that gives them time?"""
from collections.abc import Iterator

from generator.calc.results import Results
from generator.model.job import watched
from generator.model.papers import Papers
from generator.rules.finding import Hit, Severity, Value
from generator.rules.registry import rule
from generator.tables.sources import JOB_FILE


@rule("entry-not-timed", Severity.STOP, source=JOB_FILE,
      compares="each door with entry: true with the roles of the units that watch it",
      mends="Give its contact the role timed-entry, or take entry: true away.")
def entry_not_timed(papers: Papers, results: Results) -> Iterator[Hit]:
    """A door by which people come in has no timed entry.

    Whoever comes home by it sets off the alarm at once, while the homeowner's page promises time.
    """
    timed = {key for device in papers.job.devices.values() if device.role == "timed-entry" for key in watched(device)}
    for key, (storey, opening) in papers.openings().items():
        if opening.entry and key not in timed:
            field = f"job.premises.storeys.{storey}.openings.{key}.entry"
            roles = sorted({device.role for device in papers.job.devices.values() if key in watched(device) and device.role})
            yield Hit(field, f"People come in by {key}, and no unit there has the role timed-entry.",
                      "Give its contact role: timed-entry, or take entry: true away.",
                      (Value("roles there", ", ".join(roles) or "none", "", "job.devices"),
                       Value("entry", "true", "", field)))
