"""What is seen and what is not: views, ways in, rooms, what disturbs, who gets up at night, what confirms, what is exposed."""
from collections.abc import Mapping
from dataclasses import dataclass

from generator.calc.house.confirming import Confirmed, Pairs, confirmed, pairs
from generator.calc.house.disturbed import InView, disturbances
from generator.calc.house.exposed import KeypadPlace, SounderPlace, keypads, sounders
from generator.calc.house.fire_places import FirePlace, FromBedroom, fire_places, from_bedrooms
from generator.calc.house.gaps import RoomSeen, Way, rooms_seen, ways_in
from generator.calc.house.sleepers import Sleeper, sleepers
from generator.calc.house.views import Overlap, Seen, overlaps, views
from generator.calc.unknown import Unknown
from generator.geometry.house import House, house_of
from generator.model.papers import Papers


@dataclass(frozen=True)
class Coverage:
    """All of it for one job."""

    views: Mapping[str, Seen | Unknown]
    ways: tuple[Way, ...]
    rooms: tuple[RoomSeen, ...]
    overlaps: tuple[Overlap, ...]
    disturbed: Mapping[str, tuple[InView, ...]]
    sleepers: tuple[Sleeper, ...]
    pairs: tuple[Pairs, ...]
    confirmed: tuple[Confirmed, ...]
    keypads: Mapping[str, KeypadPlace | Unknown]
    sounders: Mapping[str, tuple[SounderPlace, ...] | Unknown]
    fire: tuple[FirePlace, ...]
    bedrooms: tuple[FromBedroom, ...]


def coverage_of_job(papers: Papers, house: House | None = None) -> Coverage:
    """What the detectors of a job take in, and what they do not."""
    house = house or house_of(papers.job.premises)
    seen = views(papers, house)
    ways, parts = ways_in(papers, house, seen), pairs(papers)
    return Coverage(seen, ways, rooms_seen(papers, house, seen), overlaps(seen), disturbances(papers, house, seen), sleepers(papers, house, seen),
                    parts, confirmed(papers, house, seen, ways, parts), keypads(papers, house), sounders(papers, house), fire_places(papers, house),
                    from_bedrooms(papers, house))
