"""Everything that is worked out for a job, in one place."""
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from generator.calc.days.calendar import Calendar
from generator.calc.days.job_dates import job_dates
from generator.calc.house.coverage import Coverage, coverage_of_job
from generator.calc.house.routes import RoutesOfJob, routes_of_job
from generator.calc.house.sound import Sounds, sounds_of_job
from generator.calc.power.cables_of_job import CablesOfJob, cables_of_job
from generator.calc.power.cells_of_job import CellsOfJob, cells_of_job
from generator.calc.power.power_of_job import Power, power_of_job
from generator.calc.radio.air_time import BandUse, band_uses
from generator.calc.radio.assignment import Heard
from generator.calc.radio.links import LinksOfJob, links_of_job
from generator.calc.radio.mend import Mends
from generator.calc.radio.mends import mends_of
from generator.calc.radio.near_receivers import AroundReceiver, near_receivers
from generator.calc.radio.receivers import best_receivers
from generator.calc.slots.references import short_references
from generator.calc.slots.slots import SlotMap, slot_map
from generator.calc.slots.texts import ZoneText, zone_texts
from generator.calc.station.events import SentEvents, sent_events
from generator.calc.station.transmission import Transmission, transmission
from generator.calc.unknown import Unknown
from generator.geometry.house import house_of
from generator.model.papers import Papers


@dataclass(frozen=True)
class Results:
    """One field for each calculation, and `as_of`, the day for which all of it is worked out."""

    slots: SlotMap
    references: Mapping[str, str]
    texts: tuple[ZoneText, ...]
    as_of: date
    power: Power
    cables: CablesOfJob
    cells: CellsOfJob
    events: SentEvents
    dates: Calendar
    transmission: Transmission | None
    air: tuple[BandUse, ...]
    links: LinksOfJob
    receivers: Heard | Unknown
    near: tuple[AroundReceiver, ...]
    mends: Mends
    routes: RoutesOfJob
    sound: Sounds
    coverage: Coverage


def compute(papers: Papers, as_of: date | None = None) -> Results:
    """All results of a job, worked out for a day; without one, for the day the job is dated."""
    job, on = papers.job, as_of or papers.job.dated
    house = house_of(job.premises)
    slots, power, cells, links = slot_map(papers), power_of_job(papers), cells_of_job(papers), links_of_job(papers, house)
    coverage = coverage_of_job(papers, house)
    return Results(
        slots=slots,
        references=short_references(job.reference, [job.control_unit.id, *job.devices], papers.frozen.references),
        texts=zone_texts(papers),
        as_of=on,
        power=power,
        cables=cables_of_job(papers),
        cells=cells,
        events=sent_events(papers, slots, {name: one.signal for name, one in job.devices.items() if one.signal}),
        dates=job_dates(papers, on, cells.campaigns),
        transmission=transmission(papers, power.hours),
        air=band_uses(papers),
        links=links,
        receivers=best_receivers(papers, links),
        near=near_receivers(papers, house),
        mends=mends_of(papers, links, house),
        routes=routes_of_job(papers, house, coverage.views),
        sound=sounds_of_job(papers, house),
        coverage=coverage,
    )
