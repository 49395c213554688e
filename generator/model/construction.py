"""What walls, floors and doors are made of: layers from one side to the other, or a loss that was measured."""
from typing import Annotated

from generator.model.entry import Entry
from generator.model.fields import Day, Decimal, Text, choice, of_length, within

# The building materials whose electrical properties ITU-R P.2040 lists, and air for a cavity.
MATERIALS = ("air", "brick", "ceiling-board", "chipboard", "concrete", "floorboard", "glass", "marble", "metal",
             "plasterboard", "plywood", "wood")


class Layer(Entry):
    """One layer."""

    material: choice(*MATERIALS)
    """What it is made of; foil is metal, a cavity is air."""
    thickness_mm: Annotated[Decimal, within(0.001, 2000)]
    """How thick it is."""


class MeasuredLoss(Entry):
    """A loss that the company measured itself: it counts before one that is worked out."""

    loss_db: Annotated[Decimal, within(0, 120)]
    """What it takes from a signal that meets it squarely."""
    frequency_mhz: Annotated[Decimal, within(25, 6000)]
    """Frequency at which that was measured."""
    on: Day
    """Day of the measurement."""
    how: Text
    """How it was measured, in a few words."""


class Construction(Entry):
    """How a wall, a floor or a door leaf is built."""

    means: Text
    """What it is, in words."""
    layers: Annotated[list[Layer], of_length(1, 12, "one to twelve layers, from one side to the other")]
    """Its layers, from one side to the other."""
    measured: MeasuredLoss | None = None
    """What was measured on it."""
