"""Every radio link of a job: from each unit to the control unit and to each repeater.

margin = power − free space − all that stands in the way − weakest signal, as `link.py` says; source: ITU-R P.525 and P.2040.
"""
from collections.abc import Mapping
from dataclasses import dataclass

from generator.calc.givens import lacking, of_profile, of_sheet
from generator.calc.house.spots import spot_of
from generator.calc.radio.link import Direction, Link, Term
from generator.calc.radio.link_limit import link_limit
from generator.calc.radio.link_terms import Rates, rates_of, terms_of, terms_of_path
from generator.calc.unknown import Unknown
from generator.calc.working import Given
from generator.geometry.house import House, house_of
from generator.geometry.shapes import Spot
from generator.geometry.way import way
from generator.model.papers import Papers
from generator.tables.radio_materials import NEAREST_M
from generator.terms.show import figure

# Two units whose bands lie farther apart than this share of their frequency are not made for one another.
SAME_BAND = 0.01


@dataclass(frozen=True)
class UnitLinks:
    """The links of one unit: `heard_by` is the one that hears it as the job says, `to` every one that could, by its name."""

    heard_by: str
    to: Mapping[str, Link | Unknown]

    @property
    def link(self) -> Link | Unknown:
        """The link that the job counts on."""
        return self.to[self.heard_by]


@dataclass(frozen=True)
class LinksOfJob:
    """The links of every unit with a radio, in the order of the job, and who can hear them: control unit, then repeaters."""

    receivers: tuple[str, ...]
    units: Mapping[str, UnitLinks]


def links_of_job(papers: Papers, house: House | None = None) -> LinksOfJob:
    """All links of a job."""
    house, rates, own = house or house_of(papers.job.premises), rates_of(papers), papers.job.control_unit.id
    names = [name for name in papers.job.devices if papers.sheet_of[name].radio]
    receivers = (own, *(name for name in names if papers.sheet_of[name].kind == "repeater"))
    spots = {name: spot_of(papers, house, name) for name in dict.fromkeys((own, *names))}
    return LinksOfJob(receivers, {name: UnitLinks(papers.job.devices[name].via or own, _links(papers, house, rates, spots, name, receivers))
                                  for name in names})


def _links(papers: Papers, house: House, rates: Rates, spots: Mapping[str, Spot | Unknown], name: str,
           receivers: tuple[str, ...]) -> dict[str, Link | Unknown]:
    heard_by = papers.job.devices[name].via or papers.job.control_unit.id
    others = dict.fromkeys((*receivers, heard_by))
    return {other: _link(papers, house, rates, spots, name, other, heard_by) for other in others if other != name}


@dataclass(frozen=True)
class Reach:
    """All of a link but the way between its ends: who hears whom, in which band, and the margin that is wanted."""

    unit: str
    receiver: str
    frequency: Given
    directions: tuple[Direction, ...]
    required: Given

    def over(self, distance: Given, terms: tuple[Term, ...]) -> Link:
        """The link over a distance, with what stands in its way."""
        return Link(self.unit, self.receiver, distance, self.frequency, terms, self.directions, self.required)


def reach_of(papers: Papers, name: str, other: str) -> Reach | Unknown:
    """What a link of two units is wherever they hang; or what is missing to know it."""
    frequency = of_sheet(papers, name, "radio.frequency_mhz", "f", "frequency")
    theirs = of_sheet(papers, other, "radio.frequency_mhz", "f", "frequency")
    directions = _directions(papers, name, other)
    required = of_profile(papers, link_limit(papers, name), "M_least")
    reason = lacking(frequency, theirs, required, *directions)
    if reason:
        return reason
    if abs(frequency.value - theirs.value) > SAME_BAND * frequency.value:
        return Unknown(f"{name} uses {figure(frequency.value, 'MHz')} and {other} {figure(theirs.value, 'MHz')}: they are not made for one another")
    return Reach(name, other, frequency, tuple(directions), required)


def link_over(house: House, rates: Rates, reach: Reach, here: Spot, there: Spot) -> Link | Unknown:
    """The link of two units that hang at two spots of the plan."""
    found = way(house, here, there)
    terms = terms_of(found.crossings, reach.frequency.value, rates)
    if isinstance(terms, Unknown):
        return terms
    return reach.over(Given("distance", "d", max(found.distance_m, NEAREST_M), "m", "the plan, from one to the other"), terms)


def _link(papers: Papers, house: House, rates: Rates, spots: Mapping[str, Spot | Unknown], name: str, other: str, heard_by: str) -> Link | Unknown:
    device, reach = papers.job.devices[name], reach_of(papers, name, other)
    if isinstance(reach, Unknown):
        return reach
    if device.path is None:
        here, there = spots[name], spots[other]
        reason = lacking(here, there)
        return _nowhere(papers, name, reason) if reason else link_over(house, rates, reach, here, there)
    if other != heard_by:
        return Unknown(f"the path of {name} leads to {heard_by}, and nothing says what lies between it and {other}")
    terms = terms_of_path(device.path, reach.frequency.value, rates)
    if isinstance(terms, Unknown):
        return terms
    return reach.over(Given("distance", "d", device.path.distance_m, "m", f"job.devices.{name}.path.distance_m"), terms)


def _nowhere(papers: Papers, name: str, reason: Unknown) -> Unknown:
    """Why no way is known; what is carried has no place and needs a path."""
    if papers.sheet_of[name].kind == "fob":
        return Unknown(f"{name} is carried; write path in job.devices.{name} for the farthest place from which it must be heard")
    if not any(room.corner_m or room.outline_m for storey in papers.job.premises.storeys.values() for room in storey.rooms.values()):
        return Unknown("there is no plan, and no path is written for it; write path for the unit")
    return reason


def _directions(papers: Papers, name: str, other: str) -> list[Direction | Unknown]:
    """From the unit to the one that hears it, and back where the unit receives."""
    ways = [(name, other), *([(other, name)] if papers.sheet_of[name].two_way else [])]
    return [_direction(papers, sender, hearer) for sender, hearer in ways]


def _direction(papers: Papers, sender: str, hearer: str) -> Direction | Unknown:
    power = of_sheet(papers, sender, "radio.tx_power_dbm", "P", f"radiated power of {sender}")
    sensitivity = of_sheet(papers, hearer, "radio.sensitivity_dbm", "S", f"weakest signal that {hearer} understands")
    return lacking(power, sensitivity) or Direction(sender, hearer, power, sensitivity)
