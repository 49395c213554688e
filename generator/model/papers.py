"""Everything that was read for one job, in one place."""
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from types import MappingProxyType

from generator.model.company import Company
from generator.model.construction import Construction
from generator.model.equipment import Sheet
from generator.model.found import FoundFile
from generator.model.frozen import Frozen
from generator.model.job import Device, Job
from generator.model.people import People
from generator.model.premises import OUTSIDE, Opening, Room, Storey
from generator.model.profile import Profile


@dataclass(frozen=True)
class Papers:
    """The job and all that it refers to.

    `sheet_of` gives the equipment sheet by the name of the device, the control unit among them. `people` is None where
    the job folder has no people.yaml. `frozen` are the numbers that were given before; no reader's papers hold them, for
    readers see numbers only in the results. `spare` are the company's sheets of repeaters where the job has none: one may be proposed.
    `site` is what was found on site, a file for each time that it was taken in; it is no part of the plan, and of no fingerprint. `lost` says what
    became of signatures that do not lie beside people.yaml as they were taken in, by their SHA-256.
    """

    job: Job
    sheet_of: Mapping[str, Sheet]
    company: Company
    profile: Profile
    people: People | None
    frozen: Frozen = Frozen()
    spare: Mapping[str, Sheet] = field(default_factory=dict)
    site: tuple[FoundFile, ...] = ()
    lost: Mapping[str, str] = field(default_factory=dict)

    def rooms(self) -> Mapping[str, tuple[str, Room]]:
        """Every room by its key, with the key of its storey, in walking order."""
        return self._rooms

    def openings(self) -> Mapping[str, tuple[str, Opening]]:
        """Every opening by its key, with the key of its storey."""
        return self._openings

    def constructions(self) -> dict[str, Construction]:
        """Every construction by its key: the job's own count before the company's, and those before the profile's."""
        return {**self.profile.constructions, **self.company.constructions, **self.job.premises.constructions}

    def partitions(self) -> dict[int, str]:
        """The name of each partition by its number; without any in the job, the whole house is number 1."""
        return {number: one.name for number, one in sorted(self.job.partitions.items())} or {1: self.job.title}

    def partition_of(self, device: Device) -> int:
        """The number of the partition that a unit belongs to."""
        return device.partition or next(iter(self.partitions()))

    def room_of(self, device: Device) -> str | None:
        """The room a device stands in: its own, else the inner room of the opening that it watches; `outside` is a place."""
        if device.room or not device.protects:
            return device.room
        opening = self.openings()[device.protects][1]
        return next((place for place in opening.wall if place != OUTSIDE), None)

    def storey_of(self, room: str) -> Storey | None:
        """The storey of a room; None for `outside`."""
        found = self.rooms().get(room)
        return self.job.premises.storeys[found[0]] if found else None

    # Asked for each unit, so made once: a house of a thousand rooms would be gone through a thousand times.
    @cached_property
    def _rooms(self) -> Mapping[str, tuple[str, Room]]:
        return MappingProxyType({key: (storey_key, room) for storey_key, storey in self.job.premises.storeys.items()
                                 for key, room in storey.rooms.items()})

    @cached_property
    def _openings(self) -> Mapping[str, tuple[str, Opening]]:
        return MappingProxyType({key: (storey_key, opening) for storey_key, storey in self.job.premises.storeys.items()
                                 for key, opening in storey.openings.items()})
