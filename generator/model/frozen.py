"""Which numbers were given before this job file was read, and must not move?

An issued map, or the map of a system that is taken over or extended. `list` is a name of `model.lists.LISTS`, or
"slots" where slot and zone are not one number.
"""
from collections.abc import Mapping
from dataclasses import dataclass, field


AS_ISSUED, AS_FOUND = "as issued", "as found"


@dataclass(frozen=True)
class Resting:
    """The number of a unit that was removed: nobody gets it while it rests.

    `why` completes "number 9 rests, ...", for example "its unit was removed in revision 3, until 14 Sep 2027".
    """

    list: str
    number: int
    why: str


@dataclass(frozen=True)
class Frozen:
    """The frozen numbers, and the short references that units have had before, by unit.

    `numbers` gives by list and unit the first number that the unit has; a unit that the job no longer holds is passed
    over: its number stays free only if it is among `resting`. `since` completes "number 5, ...", for example
    "frozen since revision 2".
    """

    numbers: Mapping[str, Mapping[str, int]] = field(default_factory=dict)
    resting: tuple[Resting, ...] = ()
    since: str = "frozen"
    references: Mapping[str, str] = field(default_factory=dict)

    @property
    def issued(self) -> bool:
        """Whether the job was issued: its numbers hold from then on."""
        return self.since == AS_ISSUED
