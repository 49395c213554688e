"""What the drawing of a storey shows, in metres of the plan. Where a line is drawn, and how thick, is for who draws it.

A place is (to the right, away from the front), as the job file writes it. `says` are the words of a part, for whoever cannot see it.
"""
from dataclasses import dataclass

from generator.pages.installer.seen_areas import GapLine, SeenArea
from generator.pages.page import Link
from generator.pages.parts import Fact

At = tuple[float, float]

# How a link stands, the best first: what is left is twice what must be left or more, at least that, less, or not known.
LEVELS = ("enough", "little", "short", "unknown")


@dataclass(frozen=True)
class RoomArea:
    """A room: its name, its corners in turn, a place within it, and its key in the job."""

    name: str
    corners: tuple[At, ...]
    middle: At
    key: str = ""


@dataclass(frozen=True)
class WallLine:
    """One straight piece of wall. `look` is its construction's place in the key, None where the plan gives no construction."""

    says: str
    start: At
    end: At
    look: int | None
    thickness_m: float | None


@dataclass(frozen=True)
class OpeningLine:
    """A door, window or hatch, from where to where in its wall; for a way in `inward` is the direction in which one comes in, else None."""

    says: str
    kind: str
    start: At
    end: At
    inward: At | None


@dataclass(frozen=True)
class ThingArea:
    """Something that stands in a room, or a roof. `marks` are of metal, heat and roof."""

    name: str
    says: str
    corners: tuple[At, ...]
    middle: At
    marks: tuple[str, ...]


@dataclass(frozen=True)
class StairsLine:
    """A flight of stairs from its foot to its head; `width_m` is None where it is not given. `up` where it begins on this storey."""

    says: str
    foot: At
    head: At
    width_m: float | None
    up: bool


@dataclass(frozen=True)
class UnitMark:
    """A unit: its label, its zone numbers, its page, and the way in which it looks (None for what looks nowhere).

    `kind` is control, repeater or unit. `far` says who hears it on another drawing, "" if whoever hears it stands on this one.
    `room` is the key of the room that it stands in.
    """

    name: str
    anchor: str
    label: str
    numbers: str
    href: str
    kind: str
    at: At
    looks: At | None
    far: str
    says: str
    room: str = ""


@dataclass(frozen=True)
class LinkLine:
    """From a unit to who hears it. `whole` is false where that one stands on another drawing: then only its direction is shown."""

    unit: str
    receiver: str
    level: str
    start: At
    end: At
    whole: bool
    says: str


@dataclass(frozen=True)
class WayLine:
    """A way in over one drawing, corner by corner. `label` stands by it, "" where it goes on elsewhere; `slow` if it takes longer than is
    programmed."""

    unit: str
    label: str
    points: tuple[At, ...]
    slow: bool
    says: str


@dataclass(frozen=True)
class ReachLine:
    """From an outside sounder to the nearest point of the boundary, with the words that stand by it."""

    unit: str
    label: str
    start: At
    end: At
    says: str


@dataclass(frozen=True)
class Layer:
    """Something that is shown on a drawing or not: its kind, its name, and whether it is shown at first."""

    kind: str
    name: str
    shown: bool


@dataclass(frozen=True)
class Proposed:
    """A place for a repeater that was found: storey, place in the plan, and its words."""

    storey: str
    x: float
    y: float
    label: str


@dataclass(frozen=True)
class DrawnSheet:
    """Everything on one drawing. `front` and `bearing_deg` tell where the front lies: in words, and its compass bearing, if known."""

    anchor: str
    title: str
    says: str
    rooms: tuple[RoomArea, ...]
    walls: tuple[WallLine, ...]
    openings: tuple[OpeningLine, ...]
    things: tuple[ThingArea, ...]
    stairs: tuple[StairsLine, ...]
    units: tuple[UnitMark, ...]
    links: tuple[LinkLine, ...]
    proposed: tuple[Proposed, ...]
    front: str
    bearing_deg: float | None
    ways: tuple[WayLine, ...] = ()
    areas: tuple[SeenArea, ...] = ()
    gaps: tuple[GapLine, ...] = ()
    boundary: tuple[At, ...] = ()
    reaches: tuple[ReachLine, ...] = ()


@dataclass(frozen=True)
class UnitRow:
    """A unit in words, with the way to its page."""

    unit: Link
    kind: str
    place: str
    answer: str


@dataclass(frozen=True)
class SheetView:
    """A drawing with the same in words."""

    drawing: DrawnSheet
    units: tuple[UnitRow, ...]
    rooms: tuple[Fact, ...]
    openings: tuple[Fact, ...]
    things: tuple[Fact, ...]
    layers: tuple[Layer, ...]
    ways: tuple[Fact, ...]
    seen: tuple[Fact, ...]
    gaps: tuple[Fact, ...]


@dataclass(frozen=True)
class PlotView:
    """The drawing of the plot with the same in words: how large it is, and what arrives at its boundary from each outside sounder."""

    drawing: DrawnSheet
    facts: tuple[Fact, ...]


@dataclass(frozen=True)
class WallKey:
    """One construction in the key; `look` is None for walls of which the plan gives none."""

    look: int | None
    thickness_m: float | None
    text: str


@dataclass(frozen=True)
class MarkKey:
    """One mark in the key, by its name, and what it means."""

    mark: str
    text: str


@dataclass(frozen=True)
class PlanView:
    """The page: an answer, ways to where it is worked out, the key, each drawing, units that are carried or have no place, and what is not
    drawn with the reason; `lost` are ways in and views of which there is none. `plot` is None where the plan gives no boundary."""

    answer: str
    worked: tuple[Link, ...]
    walls: tuple[WallKey, ...]
    marks: tuple[MarkKey, ...]
    sheets: tuple[SheetView, ...]
    elsewhere: tuple[UnitRow, ...]
    missing: tuple[str, ...]
    lost: tuple[str, ...] = ()
    plot: PlotView | None = None
