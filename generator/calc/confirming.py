"""Where can one alarm confirm another? For each way in: the unit that acts first, and others in the same part of the premises that may confirm it.

One unit never confirms itself, whatever its number of circuits. Parts are what doors and stairs join inside: whoever comes into an outbuilding
meets no detector of the house.
"""
from dataclasses import dataclass

from generator.calc.gaps import Way
from generator.calc.indoors import parts
from generator.model.papers import Papers


@dataclass(frozen=True)
class Pairs:
    """A part of the premises, by its rooms: the units that detect somebody in it, and those of them that may confirm."""

    rooms: tuple[str, ...]
    units: tuple[str, ...]
    confirming: tuple[str, ...]

    @property
    def alone(self) -> bool:
        """Whether no alarm there can be confirmed by a second unit."""
        return bool(self.units) and not any(set(self.units) - {one} for one in self.confirming)


@dataclass(frozen=True)
class Confirmed:
    """A way in, the units that act first on it, and those that may confirm them in the same part."""

    opening: str
    first: tuple[str, ...]
    by: tuple[str, ...]


DETECTS = ("contact", "movement", "glass-break", "shock")


def pairs(papers: Papers) -> tuple[Pairs, ...]:
    """Every part of the premises that holds a detector."""
    part_of, found = parts(papers), {}
    for room, part in part_of.items():
        found.setdefault(part, []).append(room)
    units = [(name, part_of.get(papers.room_of(one) or "")) for name, one in papers.job.devices.items() if papers.sheet_of[name].kind in DETECTS]
    return tuple(Pairs(tuple(rooms), here, tuple(name for name in here if papers.job.devices[name].confirms))
                 for part, rooms in found.items() if (here := tuple(name for name, place in units if place == part)))


def confirmed(ways: tuple[Way, ...], found: tuple[Pairs, ...]) -> tuple[Confirmed, ...]:
    """Every way in that something detects, with what may confirm it."""
    out = []
    for way in ways:
        first = way.watched_by or way.seen_by or way.by_room
        part = next((one for one in found if way.room in one.rooms), None)
        if first and part:
            out.append(Confirmed(way.opening, first, tuple(name for name in part.confirming if name not in first)))
    return tuple(out)
