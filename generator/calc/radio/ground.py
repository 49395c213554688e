"""What every search for a place in a house stands on."""
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from generator.calc.house.spots import spot_of
from generator.calc.radio.least_loss import LeastLosses, least_losses
from generator.calc.radio.link_terms import Rates, rates_of
from generator.calc.radio.links import LinksOfJob
from generator.calc.unknown import Unknown
from generator.geometry.house import House
from generator.geometry.shapes import Spot
from generator.geometry.sheaf import Barriers, barriers_of
from generator.model.papers import Papers


@dataclass
class Ground:
    """The papers and the house, what walls take, and where each unit hangs. What is asked again and again is worked out once."""

    papers: Papers
    house: House
    links: LinksOfJob
    _losses: dict[float, LeastLosses] = field(default_factory=dict)

    @cached_property
    def rates(self) -> Rates:
        """What metal and a bad day take."""
        return rates_of(self.papers)

    @cached_property
    def barriers(self) -> Barriers:
        """The walls and floors as numbers."""
        return barriers_of(self.house)

    @cached_property
    def spots(self) -> Mapping[str, Spot | Unknown]:
        """Where each unit with a radio hangs, and the control unit."""
        return {name: spot_of(self.papers, self.house, name) for name in dict.fromkeys((self.links.receivers[0], *self.links.units))}

    def losses(self, frequency_mhz: float) -> LeastLosses:
        """The least that walls and floors take from a frequency."""
        if frequency_mhz not in self._losses:
            self._losses[frequency_mhz] = least_losses(self.barriers, frequency_mhz, self.rates)
        return self._losses[frequency_mhz]
