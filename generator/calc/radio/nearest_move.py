"""Where is the nearest place at which a short unit would be heard well enough by the one that hears it?

Looked for where such a unit can hang: a contact on the frame of its opening, what hangs under the ceiling across its room, all else along the
walls of its room at its own height, outside along the outside walls of the storey. What is carried stays with its bearer, a unit that is
given by a path has no place. distance = √((x₂ − x₁)² + (y₂ − y₁)² + (z₂ − z₁)²). Plain arithmetic on the links of `links.py`.
"""
import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from generator.calc.radio.ground import Ground
from generator.calc.radio.least_loss import most_db
from generator.calc.radio.link import Link
from generator.calc.radio.links import Reach, link_over, reach_of
from generator.calc.unknown import Unknown
from generator.geometry.nodes import Nodes, nodes_of
from generator.geometry.shapes import Spot
from generator.geometry.stretches import Stretch, across, along_walls, blocked_by, outside_walls, round_frame
from generator.model.premises import OUTSIDE

ON_FRAME, UNDER_CEILING, CARRIED = ("contact", "shock"), ("smoke", "heat", "carbon-monoxide"), ("fob", "tag")
CLEAR = "device_metal_clear_m"
MOST_SPOTS = 20_000


@dataclass(frozen=True)
class Reached:
    """The nearest spot, the line it lies on, how far it is, and the link from there."""

    spot: Spot
    stretch: Stretch
    distance_m: float
    link: Link


def nearest_move(ground: Ground, name: str) -> Reached | Unknown:
    """The nearest spot at which a unit's link is no longer short; or why there is none."""
    papers, house = ground.papers, ground.house
    device, here = papers.job.devices[name], ground.spots[name]
    if papers.sheet_of[name].kind in CARRIED:
        return Unknown("it is carried")
    if device.path is not None:
        return Unknown("its path says how far it is, and not where")
    heard_by = ground.links.units[name].heard_by
    reach, there = reach_of(papers, name, heard_by), ground.spots[heard_by]
    if isinstance(here, Unknown) or isinstance(there, Unknown) or isinstance(reach, Unknown):
        return Unknown("its place is not known")
    carried = [other for other, one in ground.links.units.items() if one.heard_by == name]
    if carried:
        return Unknown("it carries other units, which would have to be heard from there too")
    nodes = nodes_of(tuple(_stretches(ground, name, here)), MOST_SPOTS)
    if not len(nodes.at):
        return Unknown("the plan shows no wall or frame along which it could be moved")
    return _Nearest(ground, reach, here, there, nodes).found() or Unknown(f"no place {_where(ground, name)} is heard well enough by {heard_by}")


def _where(ground: Ground, name: str) -> str:
    kind, device = ground.papers.sheet_of[name].kind, ground.papers.job.devices[name]
    if kind in ON_FRAME and device.protects:
        return "on the frame"
    return "on the outside walls of the storey at its height" if device.room == OUTSIDE else "in its room at its height"


def _stretches(ground: Ground, name: str, here: Spot) -> Iterator[Stretch]:
    papers, house, device = ground.papers, ground.house, ground.papers.job.devices[name]
    kind, room = papers.sheet_of[name].kind, papers.room_of(device)
    if kind in ON_FRAME and device.protects:
        yield from round_frame(house, device.protects, room or OUTSIDE)
        return
    if room == OUTSIDE:
        yield from outside_walls(house, papers.job.premises.storeys, here.z)
        return
    limit, storey = papers.profile.limits.get(CLEAR), house.storey_of(room)
    blocked = blocked_by(papers.job.premises, house, limit.value if limit else 0.0)
    if kind in UNDER_CEILING:
        yield from across(house, storey, room, here, blocked)
    yield from along_walls(house, storey, room, here.z - house.floor_m[storey], blocked)


@dataclass(frozen=True)
class _Nearest:
    ground: Ground
    reach: Reach
    here: Spot
    there: Spot
    nodes: Nodes

    def found(self) -> Reached | None:
        """Groups of spots in the order of their distance, those passed over in which no spot can do."""
        nodes, groups = self.nodes, self.nodes.groups
        first, last = nodes.at[groups[:, 0]], nodes.at[groups[:, 1]]
        away = np.array([np.linalg.norm(nodes.at[one:other + 1] - self.here, axis=1).min() for one, other in groups])
        most = self._most(first, last)
        best: tuple[float, int] | None = None
        for group in np.lexsort((np.arange(len(groups)), away)):
            if best and away[group] >= best[0]:
                break
            if most[group] >= 0:
                best = min(filter(None, (best, self._in_group(np.arange(groups[group, 0], groups[group, 1] + 1), best))), default=None)
        return self._closer(best[1]) if best else None

    def _most(self, first: np.ndarray, last: np.ndarray | None = None) -> np.ndarray:
        return most_db(self.reach, self.ground.rates) + self.ground.losses(self.reach.frequency.value).gain_db(self.there, first, last)

    def _in_group(self, spots: np.ndarray, best: tuple[float, int] | None) -> tuple[float, int] | None:
        """The nearest spot of a group that does, if it is nearer than the best."""
        away, most = np.linalg.norm(self.nodes.at[spots] - self.here, axis=1), self._most(self.nodes.at[spots])
        for place in np.lexsort((spots, away)):
            if best and away[place] >= best[0]:
                return None
            if most[place] >= 0 and self._does(self.nodes.spot(int(spots[place]))):
                return float(away[place]), int(spots[place])
        return None

    def _does(self, spot: Spot) -> Link | None:
        link = link_over(self.ground.house, self.ground.rates, self.reach, spot, self.there)
        return link if isinstance(link, Link) and link.reserve_db >= 0 else None

    def _closer(self, index: int) -> Reached:
        """The nearest of the centimetres round a spot that does."""
        line, best = int(self.nodes.stretch[index]), self.nodes.spot(index)
        for within, every in self.nodes.finer():
            around = sorted((math.dist(spot, self.here), spot) for spot in (best, *self.nodes.round_about(line, best, within, every)))
            best, link = next((spot, link) for _, spot in around if (link := self._does(spot)))
        return Reached(best, self.nodes.stretches[line], math.dist(best, self.here), link)
