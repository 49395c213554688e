"""What that troubles radio stands near those that hear: the control unit and the repeaters?

Metal bends their antenna's pattern and shades it, and a transmitter beside it drowns weak units. Large things of metal, what sends by
itself, and walls with metal in them; how far, measured straight to the nearest point of each.
"""
import math
from collections.abc import Iterator
from dataclasses import dataclass

from generator.calc.house.spots import spot_of
from generator.calc.unknown import Unknown
from generator.geometry.house import HAIR_M, House
from generator.geometry.near import things_near, walls_near
from generator.geometry.shapes import Spot
from generator.model.papers import Papers

METAL = "metal"


@dataclass(frozen=True)
class Near:
    """One thing: its name, the field that says it, whether it is metal and whether it sends, and how far it is in m."""

    name: str
    field: str
    metal: bool
    sends: bool
    distance_m: float

    def nearer(self, than_m: float) -> bool:
        """Whether it is nearer than so many metres, by more than a hair."""
        return self.distance_m < than_m - HAIR_M


@dataclass(frozen=True)
class AroundReceiver:
    """All such things round one that hears, the nearest first; or why its place is not known."""

    receiver: str
    things: tuple[Near, ...] | Unknown


def near_receivers(papers: Papers, house: House) -> tuple[AroundReceiver, ...]:
    """The control unit, then the repeaters in the order of the job; nothing where there is no plan."""
    if not house.rooms:
        return ()
    receivers = (papers.job.control_unit.id, *(name for name in papers.job.devices if papers.sheet_of[name].kind == "repeater"))
    return tuple(AroundReceiver(name, spot if isinstance(spot := spot_of(papers, house, name), Unknown) else _around(papers, house, spot))
                 for name in receivers)


def _around(papers: Papers, house: House, spot: Spot) -> tuple[Near, ...]:
    # Of two that are as far off to a hair, the one that comes first by name.
    return tuple(sorted((*_things(papers, house, spot), *_walls(papers, house, spot)), key=lambda one: (math.floor(one.distance_m / HAIR_M + 0.5), one.name)))


def _things(papers: Papers, house: House, spot: Spot) -> Iterator[Near]:
    for storey, name, thing, distance in things_near(papers.job.premises, house, spot):
        if thing.metal or thing.transmits:
            yield Near(name, f"job.premises.storeys.{storey}.furniture.{name}", thing.metal, thing.transmits, distance)


def _walls(papers: Papers, house: House, spot: Spot) -> Iterator[Near]:
    """Walls with metal in them, the nearest piece of each: a long wall may stand in the plan as several."""
    built, found = papers.constructions(), {}
    for standing, distance in walls_near(house, spot):
        wall = standing.wall
        if wall.construction in built and any(layer.material == METAL for layer in built[wall.construction].layers):
            where = f"the {wall.construction} wall {'' if wall.own else 'between '}{' and '.join(wall.places)}"
            found[wall.storey, where] = min(distance, found.get((wall.storey, where), distance))
    for (storey, name), distance in found.items():
        yield Near(name, f"job.premises.storeys.{storey}.walls", True, False, distance)
