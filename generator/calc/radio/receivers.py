"""Through which of its receivers should each unit of this job be heard?"""
from collections.abc import Mapping
from dataclasses import dataclass

from generator.calc.givens import lacking, of_sheet
from generator.calc.radio.assignment import Heard, assigned
from generator.calc.radio.link import Link
from generator.calc.radio.links import LinksOfJob
from generator.calc.unknown import Unknown
from generator.model.papers import Papers

HOPS = "repeater_hops"


def hops_of(papers: Papers) -> int | Unknown:
    """How many repeaters may stand in a row: the fewer of what profile and control unit allow; or that neither says it."""
    limit, own = papers.profile.limits.get(HOPS), papers.sheet_of[papers.job.control_unit.id].control_unit.hops
    said = [int(one) for one in (limit.value if limit else None, own) if one is not None]
    return min(said) if said else Unknown(f"the profile has no limit {HOPS}, and the sheet of the control unit gives no control_unit.hops")


@dataclass(frozen=True)
class Carriers:
    """Who can hear units: the control unit `root`, each repeater with the number of units that it can carry, and how many may stand in a row."""

    root: str
    carries: Mapping[str, int]
    hops: int


def carriers_of(papers: Papers, links: LinksOfJob) -> Carriers | Unknown:
    """Who can hear the units of a job."""
    root, *repeaters = links.receivers
    carries = {name: of_sheet(papers, name, "repeats", "n", "units that it carries") for name in repeaters}
    hops = hops_of(papers)
    return lacking(hops, *carries.values()) or Carriers(root, {name: int(one.value) for name, one in carries.items()}, hops)


def best_receivers(papers: Papers, links: LinksOfJob) -> Heard | Unknown:
    """The best receiver of each unit, by the reserves of links that are known."""
    carriers = carriers_of(papers, links)
    if isinstance(carriers, Unknown):
        return carriers
    reserves = {name: {to: link.reserve_db for to, link in one.to.items() if isinstance(link, Link)} for name, one in links.units.items()}
    return assigned(carriers.root, reserves, carriers.carries, carriers.hops)
