"""Everything that is worked out for a job, in one place."""
from collections.abc import Mapping
from dataclasses import dataclass

from generator.calc.cables_of_job import CablesOfJob, cables_of_job
from generator.calc.cells_of_job import CellsOfJob, cells_of_job
from generator.calc.power_of_job import Power, power_of_job
from generator.calc.references import short_references
from generator.calc.slots import SlotMap, slot_map
from generator.calc.texts import ZoneText, zone_texts
from generator.model.papers import Papers


@dataclass(frozen=True)
class Results:
    """One field for each calculation."""

    slots: SlotMap
    references: Mapping[str, str]
    texts: tuple[ZoneText, ...]
    power: Power
    cables: CablesOfJob
    cells: CellsOfJob


def compute(papers: Papers) -> Results:
    """All results of a job."""
    job = papers.job
    return Results(slot_map(papers), short_references(job.reference, [job.control_unit.id, *job.devices], papers.frozen.references),
                   zone_texts(papers), power_of_job(papers), cables_of_job(papers), cells_of_job(papers))
