"""Safety messages: which hazards this job has, and what to say before the step that meets them.

Signal words in their ANSI Z535.6 sense, derived afresh for each hazard: DANGER where death or serious injury will
follow if the message is ignored, WARNING where it could, CAUTION where minor or moderate injury could, NOTICE where
nobody is hurt. Source: `tables.sources.SIGNAL_WORDS`.
"""
from dataclasses import dataclass
from enum import StrEnum

from generator.model.equipment import Sheet
from generator.model.papers import Papers
from generator.model.premises import OUTSIDE


class Word(StrEnum):
    """The signal word of a message."""

    DANGER = "DANGER"
    WARNING = "WARNING"
    CAUTION = "CAUTION"
    NOTICE = "NOTICE"


@dataclass(frozen=True)
class Message:
    """One hazard: what it is, what it does, how to avoid it, and whose word counts above this pack's."""

    id: str
    word: Word
    hazard: str
    consequence: str
    avoid: str
    defers_to: str


LOCAL = "Local code and practice come before this pack. Where they differ, stop and ask."

WIRING = Message(
    "wiring", Word.DANGER, "Live mains and hidden conductors.",
    "Touching a live part kills.",
    "Isolate the supply and lock it off. Prove it dead at the point of work: prover, test, prover. Keep out of fixed "
    "wiring: leave it to a licensed electrician. Open no cover and join no wire before.",
    "The local wiring code and licensed electricians decide what may be joined, where and by whom. " + LOCAL)
TERMINALS = Message(
    "terminals", Word.WARNING, "Wires are joined at this unit.",
    "A wire taken for extra-low voltage can be live and kill; a wrong one can burn.",
    "Isolate both supplies of the unit, prove every wire dead before touching it. Keep low-voltage wires apart from mains "
    "cables. Keep out of fixed wiring: leave it to a licensed electrician.",
    "The local wiring code and licensed electricians decide. " + LOCAL)
DRILLING = Message(
    "drilling", Word.WARNING, "Cables and pipes in the wall.",
    "A drill in a live cable or gas pipe can kill.",
    "Scan before each hole, at two sensitivities. In walls, do not drill above, below or level with a switch or socket, nor "
    "near corners and ceilings; in ceilings, not in line with a lamp. Where unsure, do not drill. Eye protection on.",
    "Wiring zones are set by the local wiring code; gas by its own law. " + LOCAL)
ASBESTOS = Message(
    "asbestos", Word.DANGER, "Old coatings, boards and fuse boards can hold asbestos.",
    "Its dust causes deadly disease years later.",
    "Ask for the records. If it must be drilled and nobody has cleared it, stop, keep others out and report.",
    "The asbestos law and a licensed surveyor decide. " + LOCAL)
LADDER = Message(
    "ladder", Word.DANGER, "Work from a ladder.",
    "Falls kill.",
    "Short, light work only; firm level ground, about one out for four up, tied or footed, three points of contact. Not "
    "alone, not in wind, ice or the dark, never near overhead lines.",
    "The law on work at height decides; use a tower or another trade where a ladder will not do. " + LOCAL)
BATTERY = Message(
    "battery", Word.WARNING, "A standby battery can deliver a very large current.",
    "Shorted, it burns and can burst; charging, it gives off hydrogen.",
    "Rings and watch off, insulated tools, terminals covered, polarity checked, nothing laid on it.",
    "The battery's own plate and the safety authority's guidance decide. " + LOCAL)
BUTTON_CELL = Message(
    "button-cell", Word.DANGER, "Button cells where children live.",
    "Swallowed, a cell burns through within about two hours.",
    "Cell compartment closed with its screw; used cells taped and out of reach at once. If one may have been swallowed: "
    "hospital, immediately.",
    "Emergency services and doctors decide. " + LOCAL)
SOUNDER = Message(
    "sounder", Word.WARNING, "A sounder near the ear.",
    "It can harm hearing within minutes, and startle somebody off a ladder.",
    "Ear protection on, household and neighbours told, nobody on the ladder while it can sound.",
    "The law on noise at work decides. " + LOCAL)
LIFE_SAFETY = Message(
    "life-safety", Word.WARNING, "Smoke, heat and carbon monoxide devices save lives.",
    "Wrongly placed, they do not warn.",
    "Position, number, power and tests follow the fire code and the device's own listing, not the intruder plan. Remove no "
    "existing alarm.",
    "The fire and building code and the fire service decide. " + LOCAL)

EVERY = (WIRING, ASBESTOS, LADDER, TERMINALS, DRILLING, BATTERY, BUTTON_CELL, SOUNDER, LIFE_SAFETY)
ON_CEILINGS = ("smoke", "heat", "carbon-monoxide")


def messages_of_unit(papers: Papers, name: str) -> tuple[Message, ...]:
    """The messages that belong before work on one unit, the gravest first."""
    sheet = papers.sheet_of[name]
    place = papers.job.control_unit if name == papers.job.control_unit.id else papers.job.devices[name]
    fitted = sheet.kind not in ("fob", "tag")
    high = _height_m(papers, name) > papers.profile.limits["ladder_from_m"].value or place.room == OUTSIDE
    met = {
        WIRING: sheet.power.kind == "mains",
        TERMINALS: has_wiring(sheet) and sheet.power.kind != "mains",
        ASBESTOS: fitted and papers.job.premises.built_before is not False,
        LADDER: high,
        DRILLING: fitted,
        BATTERY: sheet.kind == "control-unit",
        BUTTON_CELL: papers.job.premises.children and "CR2032" in (sheet.power.cell or ""),
        SOUNDER: sheet.kind == "sounder",
        LIFE_SAFETY: sheet.kind in ("smoke", "heat", "carbon-monoxide"),
    }
    return tuple(one for one in EVERY if met[one])


def _height_m(papers: Papers, name: str) -> float:
    """The height of a unit in m; one that belongs on a ceiling is as high as its room, and high where that is not known."""
    sheet = papers.sheet_of[name]
    place = papers.job.control_unit if name == papers.job.control_unit.id else papers.job.devices[name]
    if place.height_m is not None or sheet.kind not in ON_CEILINGS:
        return place.height_m or 0
    storey = papers.storey_of(papers.room_of(place) or OUTSIDE)
    return storey.ceiling_m if storey and storey.ceiling_m else float("inf")


def has_wiring(sheet: Sheet) -> bool:
    """Whether a sheet lists terminals or a mains supply: its pages then carry the wiring caution."""
    return bool(sheet.terminals) or sheet.power.kind == "mains"


def messages_of_job(papers: Papers) -> tuple[Message, ...]:
    """Every message that some unit of the job brings, the gravest first."""
    met = {one for name in papers.sheet_of for one in messages_of_unit(papers, name)}
    return tuple(one for one in EVERY if one in met)


def messages_to_read(papers: Papers) -> tuple[Message, ...]:
    """The messages of the safety page: those of the job, and that on wiring whatever the job, for every house has some."""
    return tuple(one for one in EVERY if one is WIRING or one in messages_of_job(papers))
