"""What does each movement detector see, and what do two of them see in common?"""
import itertools
from collections.abc import Mapping
from dataclasses import dataclass

from generator.calc.givens import lacking, of_profile
from generator.calc.house.spots import spot_of
from generator.calc.unknown import Unknown
from generator.geometry.house import House
from generator.geometry.sight import ALL_ROUND, Region, View, reach_m, seen
from generator.model.papers import Papers

LOW, HIGH = "view_low_m", "view_high_m"


@dataclass(frozen=True)
class Seen:
    """What one detector sees at the two heights of the profile with every door shut, and at the upper one with inside doors open.

    `low_m` and `high_m` say from how far to how far from the spot below it that is, by range and edges of its view. `stairs` are the ends of
    flights that it sees on its own storey, as (flight, "foot" or "head"); of another storey it sees nothing.
    """

    view: View
    low: Region
    high: Region
    opened: Region
    low_m: tuple[float, float]
    high_m: tuple[float, float]
    stairs: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Overlap:
    """What two detectors both see at the upper height, in m²."""

    one: str
    other: str
    shared_m2: float


def views(papers: Papers, house: House) -> dict[str, Seen | Unknown]:
    """The views of all movement detectors."""
    return {name: seen_by(papers, house, name) for name in papers.job.devices if papers.sheet_of[name].kind == "movement"}


def seen_by(papers: Papers, house: House, name: str, view: View | Unknown | None = None) -> Seen | Unknown:
    """What a detector sees from its place, or from another one."""
    view = view or view_of(papers, house, name)
    low, high = of_profile(papers, LOW, "h"), of_profile(papers, HIGH, "h")
    reason = lacking(view, low, high)
    if reason:
        return reason
    regions = [seen(house, papers.job.premises, view, one.value) for one in (low, high)]
    bands = [reach_m(view, house.floor_m[view.storey] + one.value) for one in (low, high)]
    return Seen(view, *regions, seen(house, papers.job.premises, view, high.value, doors_open=True), *bands, _stairs(papers, view, regions))


def _stairs(papers: Papers, view: View, regions: list[Region]) -> tuple[tuple[str, str], ...]:
    """The ends of flights on a detector's storey that it sees at either height. Who is on the flight between them stands on no floor."""
    ends = [(key, end, getattr(one, end)) for key, one in papers.job.premises.stairs.items() for end in ("foot", "head")]
    return tuple((key, end) for key, end, one in ends if one.at_m is not None and papers.rooms()[one.room][0] == view.storey
                 and any(region.holds(*one.at_m) for region in regions))


def view_of(papers: Papers, house: House, name: str) -> View | Unknown:
    """Place, range, angle and direction of a detector, or what is missing to know them."""
    device, coverage, spot = papers.job.devices[name], papers.sheet_of[name].coverage, spot_of(papers, house, name)
    room = papers.room_of(device)
    if isinstance(spot, Unknown):
        return spot
    if room not in house.rooms:
        return Unknown(f"{name} looks at the open air, of which the plan knows no walls")
    if coverage is None:
        return Unknown(f"the sheet of {name} gives no coverage; write range_m and angle_deg under coverage in the sheet {device.sheet}")
    if device.faces_deg is None and coverage.angle_deg not in (None, ALL_ROUND):
        return Unknown(f"it is not known where {name} looks; write faces_deg in job.devices.{name}")
    return View(papers.rooms()[room][0], spot, coverage.range_m, coverage.angle_deg or ALL_ROUND, device.faces_deg or 0.0,
                coverage.down_from_deg, coverage.down_to_deg)


def overlaps(found: Mapping[str, Seen | Unknown]) -> tuple[Overlap, ...]:
    """Pairs of detectors that see the same floor: shared = what both areas hold, in m².

    Source: geometry, plain arithmetic.
    """
    known = {name: one for name, one in found.items() if isinstance(one, Seen)}
    return tuple(Overlap(one, other, shared) for one, other in itertools.combinations(known, 2)
                 if known[one].view.storey == known[other].view.storey and (shared := known[one].high.shared_m2(known[other].high)) > 0.01)
