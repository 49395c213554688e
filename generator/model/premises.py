"""The house: storeys, rooms and the openings between them."""
from generator.model.entry import Entry
from generator.model.fields import Decimal, Flag, Key, Text, choice, within
from typing import Annotated

OUTSIDE = "outside"


class Room(Entry):
    """One room. The order in which rooms are written is the walking order."""

    name: Text | None = None
    """What people of the house call it; without it, the key's own words."""
    cooking: Flag = False
    """true where food is cooked."""
    sleeping: Flag = False
    """true where somebody sleeps: sounders must be heard here."""


class Opening(Entry):
    """A door, window or hatch."""

    kind: choice("door", "window", "roof-window", "hatch", "garage-door")
    """What kind of opening it is."""
    wall: Annotated[list[Key], ...]
    """The two places it stands between: two rooms, or a room and `outside`."""
    name: Text | None = None
    """What people of the house call it; without it, the key's own words."""
    entry: Flag = False
    """true for a door by which people come in and go out while the alarm is set."""


class Storey(Entry):
    """One floor of the house, or an outbuilding."""

    name: Text | None = None
    """What people of the house call it; without it, the key's own words."""
    outbuilding: Flag = False
    """true for a building of its own: shed, garage, annexe."""
    ceiling_m: Annotated[Decimal, within(1.5, 12)] | None = None
    """Height of the ceiling above its floor."""
    rooms: dict[Key, Room]
    """The rooms of this storey, in walking order."""
    openings: dict[Key, Opening] = {}
    """Doors, windows and hatches of this storey."""


class Premises(Entry):
    """Where the job is, without anything personal."""

    place: Text
    """The kind of house and where it lies, in words that name nobody."""
    built_before: Flag | None = None
    """true if built before the year from which the profile rules out asbestos; false if not; leave out if not known."""
    children: Flag = False
    """true if children live here or visit often."""
    hazards: list[Text] = []
    """What the installer must know before the first step, one line each."""
    storeys: dict[Key, Storey]
    """The floors of the house, from the main entrance's floor upwards, then outbuildings."""
