"""Where should a repeater hang so that short units are heard? Searched along every wall of every room that it may stand in.

rating = how many short units are then heard well enough, then the smallest reserve among those and its own link. Only short units may go
over it. Through which receiver each goes, within what repeaters carry and may stand in a row, is what `assignment.py` finds.
Heights: the lowest and the highest at which its sheet lets it be fitted. Common practice, no source.
"""
import math
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from generator.calc.radio.assignment import assigned
from generator.calc.radio.ground import Ground
from generator.calc.radio.least_loss import most_db
from generator.calc.radio.link import Link
from generator.calc.radio.links import Reach, link_over, reach_of
from generator.calc.radio.mend import NewRepeater
from generator.calc.radio.place_search import Found, Rating, best_spot
from generator.calc.radio.place_words import place_of
from generator.calc.radio.receivers import Carriers
from generator.calc.unknown import Unknown
from generator.geometry.house import House
from generator.geometry.nodes import GROUP, Nodes, nodes_of
from generator.geometry.shapes import Spot, middle_of
from generator.geometry.stretches import Stretch, along_walls, blocked_by
from generator.model.equipment import Sheet
from generator.model.job import Device
from generator.model.papers import Papers
from generator.tables.repeater_places import HEIGHTS_M, UNDER_CEILING_M

# So many spots at most, and so many units with the least reserves, in one search.
MOST_SPOTS, MOST_UNITS = 40_000, 12
# Groups of spots times walls times links at most: a search takes some seconds in the largest house. Of a room about
# ten lines are looked at: four walls at two heights, some of them in two pieces.
MOST_CELLS, FEWEST_SPOTS, LINES_A_ROOM = 30_000_000, 2_000, 10
CLEAR = "metal_clear_m"


def repeater_stretches(papers: Papers, house: House, sheet: Sheet, within: Collection[str] | None = None) -> tuple[Stretch, ...]:
    """The walls along which a repeater of a sheet may hang, in walking order, each at every height; of some rooms if they are named."""
    limit = papers.profile.limits.get(CLEAR)
    blocked = blocked_by(papers.job.premises, house, limit.value if limit else 0.0)
    heights = sorted({sheet.mounting_m[0], sheet.mounting_m[-1]}) if sheet.mounting_m else HEIGHTS_M
    found: list[Stretch] = []
    for name, (storey, room) in papers.rooms().items():
        if name in house.rooms and (within is None or name in within) and _bears(sheet, room.coldest_c, room.warmest_c):
            most = house.ceiling_m.get(storey, math.inf) - UNDER_CEILING_M
            for height in dict.fromkeys(min(one, most) for one in heights):
                found += along_walls(house, storey, name, height, blocked)
    return tuple(found)


def _bears(sheet: Sheet, coldest: float | None, warmest: float | None) -> bool:
    """Whether its papers let it hang there, by what is written of the room."""
    climate = sheet.environment
    too_cold = climate and None not in (climate.least_c, coldest) and coldest < climate.least_c
    too_warm = climate and None not in (climate.most_c, warmest) and warmest > climate.most_c
    return not too_cold and not too_warm


@dataclass
class Search:
    """One search: for the units `short`, by a sheet and its key, under a label that no unit bears.

    `reserves` are those of the job as it is, healthy units at their own receivers.
    """

    ground: Ground
    carriers: Carriers
    reserves: Mapping[str, Mapping[str, float]]
    short: Sequence[str]
    label: str
    key: str
    sheet: Sheet
    _reaches: dict[str, dict[str, Reach | Unknown]] = field(default_factory=dict)

    def found(self, nodes: Nodes) -> Found | None:
        """The best place, if one helps."""
        if len(nodes.at) == 0:
            return None
        return best_spot(nodes, lambda *given: self._bounds(nodes, *given), lambda spot, line, best: self.rating(nodes.stretches[line].room, spot, best),
                         self._rated(self._assigned(self.reserves), self.reserves, math.inf))

    def proposal(self, nodes: Nodes, best: Found) -> NewRepeater:
        """What is found, with the links of the repeater and of all that would go over it."""
        stretch, ground = nodes.stretches[best.stretch], self.ground
        heard = self._heard(stretch.room, best.spot)
        own = self.link(stretch.room, heard[self.label], best.spot)
        takes = {name: self.link(stretch.room, name, best.spot) for name in self.short if heard[name] == self.label}
        return NewRepeater(self.label, place_of(ground.papers, ground.house, stretch.storey, stretch.room, best.spot), self.key, own, takes, nodes.step_m,
                           len({one.room for one in nodes.stretches}), best.proved)

    def parents(self) -> list[str]:
        """Who could hear the new repeater: the control unit; another repeater only where two may stand in a row."""
        return [self.carriers.root, *(self.carriers.carries if self.carriers.hops > 1 else [])]

    def reaches(self, room: str) -> Mapping[str, Reach | Unknown]:
        """Its own reach by who hears it, and those of the short units to it, in a room."""
        if room not in self._reaches:
            unit = Device(sheet=self.key, room=room)
            known = self.ground.papers
            papers = replace(known, job=known.job.model_copy(update={"devices": {**known.job.devices, self.label: unit}}),
                             sheet_of={**known.sheet_of, self.label: self.sheet})
            self._reaches[room] = {**{to: reach_of(papers, self.label, to) for to in self.parents()},
                                   **{name: reach_of(papers, name, self.label) for name in self.short}}
        return self._reaches[room]

    def link(self, room: str, other: str, spot: Spot) -> Link | Unknown:
        """The link from a spot to one that hears it, or from a short unit to it."""
        reach, there = self.reaches(room)[other], self.ground.spots[other]
        if isinstance(reach, Unknown) or isinstance(there, Unknown):
            return reach if isinstance(reach, Unknown) else there
        here, to = (spot, there) if reach.unit == self.label else (there, spot)
        return link_over(self.ground.house, self.ground.rates, reach, here, to)

    def rating(self, room: str, spot: Spot, best: Rating) -> Rating | None:
        """The exact rating of a spot; None as soon as it is surely no better than another."""
        own = {to: _reserve(self.link(room, to, spot)) for to in self.parents()}
        to_it = dict.fromkeys(self.short, math.inf)
        if max(own.values()) < 0 or self._loose(max(own.values()), to_it) < best:
            return None
        for name in self.short:
            to_it[name] = _reserve(self.link(room, name, spot))
            if self._loose(max(own.values()), to_it) < best:
                return None
        reserves = self._with(own, to_it)
        heard = self._assigned(reserves)
        to = heard[self.label]
        return self._rated(heard, reserves, reserves[self.label][to] if to else -math.inf)

    def _heard(self, room: str, spot: Spot) -> Mapping[str, str | None]:
        own = {to: _reserve(self.link(room, to, spot)) for to in self.parents()}
        return self._assigned(self._with(own, {name: _reserve(self.link(room, name, spot)) for name in self.short}))

    def _with(self, own: Mapping[str, float], to_it: Mapping[str, float]) -> dict[str, dict[str, float]]:
        reserves = {**self.reserves, self.label: {to: one for to, one in own.items() if one > -math.inf}}
        return reserves | {name: {**self.reserves[name], self.label: one} for name, one in to_it.items() if one > -math.inf}

    def _assigned(self, reserves: Mapping[str, Mapping[str, float]]) -> Mapping[str, str | None]:
        carries = {**self.carriers.carries, self.label: self.sheet.repeats} if self.label in reserves else self.carriers.carries
        return assigned(self.carriers.root, reserves, carries, self.carriers.hops).through

    def _loose(self, own: float, to_it: Mapping[str, float]) -> Rating:
        """The rating if every repeater could carry any number: no worse than the exact one."""
        heard = [max([one, *self.reserves[name].values()]) for name, one in to_it.items()]
        well = [one for one in heard if one >= 0]
        return len(well), min([own, *well])

    def _rated(self, through: Mapping[str, str | None], reserves: Mapping[str, Mapping[str, float]], own: float) -> Rating:
        heard = [reserves[name][through[name]] for name in self.short if through[name] is not None]
        well = [one for one in heard if one >= 0]
        return (len(well), min([own, *well])) if own >= 0 else (0, own)

    def _bounds(self, nodes: Nodes, first: np.ndarray, last: np.ndarray | None, lines: np.ndarray) -> np.ndarray:
        rooms = [nodes.stretches[line].room for line in range(len(nodes.stretches))]
        own = np.max([self._most(rooms, lines, to, first, last) for to in self.parents()], axis=0)
        heard = np.stack([np.maximum(self._most(rooms, lines, name, first, last), max(self.reserves[name].values(), default=-math.inf))
                          for name in self.short])
        well = heard >= 0
        smallest = np.minimum(own, np.where(well, heard, math.inf).min(axis=0))
        return np.stack([np.where(own >= 0, well.sum(axis=0), 0), np.where(own >= 0, smallest, own)], axis=1)

    def _most(self, rooms: Sequence[str], lines: np.ndarray, other: str, first: np.ndarray, last: np.ndarray | None) -> np.ndarray:
        there = self.ground.spots[other]
        if isinstance(there, Unknown):
            return np.full(len(first), -math.inf)
        reaches = {room: self.reaches(room)[other] for room in dict.fromkeys(rooms)}
        start = {room: -math.inf if isinstance(one, Unknown) else most_db(one, self.ground.rates) for room, one in reaches.items()}
        bands = {one.frequency.value for one in reaches.values() if isinstance(one, Reach)}
        gains = [self.ground.losses(band).gain_db(there, first, last) for band in sorted(bands)]
        return np.array([start[room] for room in rooms])[lines] + (gains[0] if gains else 0.0)


def _reserve(link: Link | Unknown) -> float:
    return link.reserve_db if isinstance(link, Link) else -math.inf


def spots_of_repeater(papers: Papers, house: House, sheet: Sheet, near: Sequence[Spot] = ()) -> Nodes:
    """Every spot at which a repeater of a sheet may hang for units and the control unit that hang `near`.

    The more walls and units there are, the farther apart; in the largest houses in the rooms that are nearest to them alone.
    """
    cells = GROUP * MOST_CELLS // (max(1, len(house.walls)) * (len(near) + 1))
    most = max(FEWEST_SPOTS, min(MOST_SPOTS, cells))
    rooms = sorted(house.rooms, key=lambda name: _away(house, name, near))[:max(1, cells // (GROUP * LINES_A_ROOM))]
    return nodes_of(repeater_stretches(papers, house, sheet, None if len(rooms) == len(house.rooms) else set(rooms)), most)


def _away(house: House, room: str, near: Sequence[Spot]) -> float:
    """How far a room lies from several spots, all together."""
    x, y = middle_of(house.rooms[room])
    middle = (x, y, house.floor_m[house.storey_of(room)] + HEIGHTS_M[0])
    return sum(math.dist(middle, one) for one in near)
