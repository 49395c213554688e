"""Everything that is worked out for a job, in one place."""
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from generator.calc.references import short_references
from generator.calc.slots import SlotMap, slot_map
from generator.calc.texts import ZoneText, zone_texts
from generator.model.papers import Papers


@dataclass(frozen=True)
class Results:
    """One field for each calculation, and `as_of`, the day for which all of it is worked out."""

    slots: SlotMap
    references: Mapping[str, str]
    texts: tuple[ZoneText, ...]
    as_of: date


def compute(papers: Papers, as_of: date | None = None) -> Results:
    """All results of a job, worked out for a day; without one, for the day the job is dated."""
    job = papers.job
    return Results(slot_map(papers), short_references(job.reference, [job.control_unit.id, *job.devices], papers.frozen.references),
                   zone_texts(papers), as_of or job.dated)
