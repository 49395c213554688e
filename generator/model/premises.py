"""The house: storeys, rooms and the openings between them; with measures where a plan is given.

All measures of a plan are metres from one corner that the writer chose, the same for every storey: first to the right, then away
from the front, as seen by somebody who stands outside and faces the front of the house.
"""
from typing import Annotated

from generator.model.construction import Construction
from generator.model.entry import Entry
from generator.model.fields import Decimal, Flag, Key, Metres, Point, Text, choice, of_length, within

OUTSIDE = "outside"
# How often a detector there acts, for the life of its cell.
TRAFFIC = ("quiet", "usual", "busy")


class Shape(Entry):
    """A floor area: a rectangle by its corner and size, or any other shape by its corners in turn."""

    corner_m: Point | None = None
    """The corner of a rectangle that is nearest to the plan's own corner."""
    size_m: Point | None = None
    """Width and depth of that rectangle."""
    outline_m: Annotated[list[Point], of_length(3, 200, "three corners or more, in turn round the shape")] | None = None
    """The corners in turn, for a shape that is no rectangle."""


class Room(Shape):
    """One room. The order in which rooms are written is the walking order."""

    name: Text | None = None
    """What people of the house call it; without it, the key's own words."""
    cooking: Flag = False
    """true where food is cooked."""
    sleeping: Flag = False
    """true where somebody sleeps: sounders must be heard here."""
    bathroom: Flag = False
    """true for a room with a toilet: whoever sleeps in the house goes there at night."""
    traffic: choice(*TRAFFIC) | None = None
    """How much people move here: what its detectors send hangs on it."""
    coldest_c: Annotated[Decimal, within(-60, 60)] | None = None
    """Lowest temperature in a usual year."""
    warmest_c: Annotated[Decimal, within(-60, 100)] | None = None
    """Highest temperature in a usual year."""
    untested_ceiling: Text | None = None
    """What covers its ceiling, if nobody has tested that for asbestos; leave out where it was tested, or where there is nothing to test."""
    untested_walls: Text | None = None
    """What covers its walls, if nobody has tested that for asbestos."""


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
    at_m: Point | None = None
    """Its middle, on the line of the wall."""
    width_m: Annotated[Decimal, within(0.1, 20)] | None = None
    """Clear width."""
    height_m: Annotated[Decimal, within(0.1, 12)] | None = None
    """Clear height."""
    sill_m: Annotated[Decimal, within(0, 12)] | None = None
    """Height of its lower edge above the floor; for a door leave it out."""
    glazed: Flag = False
    """true if one can see through it."""
    letter_plate: Flag = False
    """true for a door with a letter plate."""
    leaf: Key | None = None
    """Construction of its leaf or pane."""


class WallBetween(Entry):
    """The wall between two places, where it differs from the storey's others."""

    places: Annotated[list[Key], of_length(2, 2, "two places: two rooms, or a room and `outside`")]
    """The two places on its sides."""
    construction: Key
    """How it is built."""


class OwnWall(Entry):
    """A wall that stands by itself: a chimney breast, a screen, a wall within a room."""

    from_m: Point
    """Where it begins."""
    to_m: Point
    """Where it ends."""
    construction: Key
    """How it is built."""
    height_m: Annotated[Decimal, within(0.1, 12)] | None = None
    """Its height; without it, up to the ceiling."""


class Walls(Entry):
    """How the walls of a storey are built."""

    outside: Key | None = None
    """Construction of walls with the open air behind them."""
    inside: Key | None = None
    """Construction of walls between rooms."""
    between: list[WallBetween] = []
    """Walls between two places that are built otherwise."""
    own: dict[Key, OwnWall] = {}
    """Walls that stand by themselves."""


class Furniture(Shape):
    """A large thing that stands in a room: one walks round it, and it hides what is behind it."""

    room: Key
    """The room it stands in."""
    base_m: Annotated[Decimal, within(0, 12)] | None = None
    """Height of its lower edge above the floor, if it hangs."""
    height_m: Annotated[Decimal, within(0.05, 12)]
    """Height of its upper edge above the floor."""
    metal: Flag = False
    """true if it is metal or has a mirror: radio does not pass."""
    heat: Flag = False
    """true if it gets warm: radiator, stove, boiler."""
    transmits: Flag = False
    """true if it sends radio of its own: a router, the base of a cordless telephone."""
    climbed: Flag = False
    """true if an animal can get onto it."""


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
    level_m: Annotated[Decimal, within(-20, 100)] | None = None
    """Height of its floor above the floor of the main entrance."""
    floor: Key | None = None
    """Construction of the floor under it."""
    walls: Walls | None = None
    """How its walls are built."""
    furniture: dict[Key, Furniture] = {}
    """Large things that stand in its rooms."""


class StairEnd(Entry):
    """One end of a flight of stairs."""

    room: Key
    """The room where it begins or ends."""
    at_m: Point | None = None
    """The middle of its first or last step."""


class Stairs(Entry):
    """A flight of stairs from one storey to the next."""

    foot: StairEnd
    """Its lower end."""
    head: StairEnd
    """Its upper end."""
    width_m: Annotated[Decimal, within(0.3, 5)] | None = None
    """Clear width."""


class Roof(Shape):
    """A flat or gently sloping roof that somebody can stand on: a porch, a garage, an extension."""

    height_m: Annotated[Decimal, within(0.5, 40)]
    """Height above the ground."""
    reached: Flag = True
    """false if nobody gets onto it without a ladder."""


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
    storeys: Annotated[dict[Key, Storey], of_length(1, 50, "one storey or more, each with its rooms")]
    """The floors of the house, from the main entrance's floor upwards, then outbuildings."""
    front_deg: Annotated[Decimal, within(0, 360)] | None = None
    """Compass bearing that the front of the house faces: 0 north, 90 east."""
    stairs: dict[Key, Stairs] = {}
    """Flights of stairs."""
    roofs: dict[Key, Roof] = {}
    """Roofs that somebody can stand on."""
    boundary_m: Annotated[list[Point], of_length(3, 200, "three points or more, in turn round the plot")] | None = None
    """The boundary of the plot: its points in turn, measured like the rooms. It goes round every building."""
    constructions: dict[Key, Construction] = {}
    """Walls, floors and doors that only this house has; the usual ones stand in the profile and in company.yaml."""
