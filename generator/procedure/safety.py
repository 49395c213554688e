"""Which hazards a job has: each message with the fact that brings it, of a unit or of the job as a whole.

A hazard that the papers do not name is not guessed; where they leave open whether it is there, it is taken to be there.
"""
from collections.abc import Callable, Mapping
from types import MappingProxyType

from generator.model.equipment import Sheet
from generator.model.papers import Papers
from generator.model.premises import OUTSIDE
from generator.procedure.message import Message, Word
from generator.procedure.messages import (ALONE, ASBESTOS, BATTERY, BUTTON_CELL, CAMERAS, DRILLING, DUST, ESCAPE, EVERY, GAS, IMPLANTS,
                                          LADDER, LIFE_SAFETY, LITHIUM, LIVE, NEIGHBOURS, NO_LESS, PERSONAL, RADIO, SOUNDER, STATIC, STEPS, TERMINALS,
                                          WIRING)
from generator.tables.cell_names import is_button, is_lead, is_lithium

__all__ = ["EVERY", "Message", "Word", "fed_by_wire", "has_wiring", "messages_of_job", "messages_of_unit", "messages_to_read", "met",
           "own_mains"]

CARRIED = ("fob", "tag")
FIRE_KINDS = ("smoke", "heat", "carbon-monoxide")
PERSONAL_KINDS = ("hold-up", "medical")

OfUnit = Callable[[Papers, str], bool]
OfJob = Callable[[Papers], bool]


def has_wiring(sheet: Sheet) -> bool:
    """Whether a sheet lists terminals or a mains supply: its pages then carry the wiring caution."""
    return bool(sheet.terminals) or sheet.power.kind == "mains"


def own_mains(papers: Papers) -> list[str]:
    """The units, besides the control unit, that are joined to the mains themselves."""
    return [name for name in papers.job.devices if papers.sheet_of[name].power.kind == "mains"]


def fed_by_wire(papers: Papers, names: list[str]) -> list[str]:
    """Those of the named units to which a supply is joined; on a cell of its own, the terminals of a unit carry a contact only."""
    return [name for name in names if papers.sheet_of[name].power.kind != "cell"]


def _fitted(papers: Papers, name: str) -> bool:
    return papers.sheet_of[name].kind not in CARRIED


def _old_house(papers: Papers, name: str) -> bool:
    return _fitted(papers, name) and (papers.job.premises.built_before is not False or _untested(papers, name))


def _untested(papers: Papers, name: str) -> bool:
    """Whether the survey names something in its room that nobody has tested for asbestos, however new the house is."""
    place = papers.job.control_unit if name == papers.job.control_unit.id else papers.job.devices[name]
    room = papers.rooms().get((place.room if place is papers.job.control_unit else papers.room_of(place)) or "")
    return room is not None and bool(room[1].untested_ceiling or room[1].untested_walls)


def _high(papers: Papers, name: str) -> bool:
    return height_m(papers, name) > papers.profile.limits["ladder_from_m"].value or is_outside(papers, name)


def _overhead(papers: Papers, name: str) -> bool:
    """Whether a unit inside hangs higher than one reaches from the floor, and not so high that a ladder is asked for."""
    limit = papers.profile.limits.get("steps_from_m")
    return limit is not None and not _high(papers, name) and height_m(papers, name) > limit.value


def is_outside(papers: Papers, name: str) -> bool:
    """Whether a unit hangs in the open air."""
    own = name == papers.job.control_unit.id
    return (papers.job.control_unit.room if own else papers.room_of(papers.job.devices[name])) == OUTSIDE


def height_m(papers: Papers, name: str) -> float:
    """The height of a unit in m; one that belongs on a ceiling is as high as its room, and high where that is not known."""
    sheet = papers.sheet_of[name]
    place = papers.job.control_unit if name == papers.job.control_unit.id else papers.job.devices[name]
    if place.height_m is not None or sheet.kind not in FIRE_KINDS:
        return place.height_m or 0
    storey = papers.storey_of(papers.room_of(place) or OUTSIDE)
    return storey.ceiling_m if storey and storey.ceiling_m else float("inf")


def _lead(papers: Papers, name: str) -> bool:
    power = papers.sheet_of[name].power
    # A battery behind the mains that is not named is taken for what it usually is.
    return is_lead(power.cell or "") or (papers.sheet_of[name].kind == "control-unit" and power.kind == "mains" and not power.cell)


def _lithium(papers: Papers, name: str) -> bool:
    cell = papers.sheet_of[name].power.cell
    return bool(cell) and is_lithium(cell) is not False


def _button(papers: Papers, name: str) -> bool:
    return papers.job.premises.children and is_button(papers.sheet_of[name].power.cell or "")


def _open_board(papers: Papers, name: str) -> bool:
    return has_wiring(papers.sheet_of[name])


def _personal(papers: Papers, name: str) -> bool:
    device = papers.job.devices.get(name)
    kinds = (papers.sheet_of[name].kind, device.role if device else None)
    return any(one in PERSONAL_KINDS for one in kinds)


def _kind(*kinds: str) -> OfUnit:
    return lambda papers, name: papers.sheet_of[name].kind in kinds


# Each message of a unit, and whether the papers say or leave open that the unit brings it.
OF_UNIT: Mapping[Message, OfUnit] = MappingProxyType({
    WIRING: lambda papers, name: papers.sheet_of[name].power.kind == "mains",
    LIVE: lambda papers, name: papers.sheet_of[name].power.kind == "mains",
    TERMINALS: lambda papers, name: has_wiring(papers.sheet_of[name]) and papers.sheet_of[name].power.kind != "mains",
    ASBESTOS: _old_house,
    LADDER: _high,
    STEPS: _overhead,
    DRILLING: _fitted,
    DUST: _fitted,
    BATTERY: _lead,
    LITHIUM: _lithium,
    BUTTON_CELL: _button,
    STATIC: _open_board,
    SOUNDER: _kind("sounder"),
    LIFE_SAFETY: _kind(*FIRE_KINDS),
    GAS: _kind("carbon-monoxide"),
    PERSONAL: _personal,
    IMPLANTS: _kind("fob", "medical"),
})

# Each message of the job as a whole, and the fact that brings it.
OF_JOB: Mapping[Message, OfJob] = MappingProxyType({
    ESCAPE: lambda papers: bool(papers.job.part_sets) or papers.job.times.completes_by == "lock",
    CAMERAS: lambda papers: papers.job.monitoring is not None and papers.job.monitoring.confirmation in ("audible", "visual"),
    NEIGHBOURS: lambda papers: any(papers.sheet_of[name].kind == "sounder" and is_outside(papers, name) for name in papers.job.devices),
    RADIO: lambda papers: any(sheet.radio is not None for sheet in papers.sheet_of.values()),
    ALONE: lambda papers: bool(papers.job.premises.hazards),
    NO_LESS: lambda papers: papers.job.kind != "new",
})


def messages_of_unit(papers: Papers, name: str) -> tuple[Message, ...]:
    """The messages that some work on one unit meets, the gravest first."""
    return tuple(one for one in EVERY if one in OF_UNIT and OF_UNIT[one](papers, name))


def messages_of_job(papers: Papers) -> tuple[Message, ...]:
    """Every message that the job or some unit of it brings, the gravest first."""
    of_units = {one for name in papers.sheet_of for one in messages_of_unit(papers, name)}
    return tuple(one for one in EVERY if one in of_units or (one in OF_JOB and OF_JOB[one](papers)))


def messages_to_read(papers: Papers) -> tuple[Message, ...]:
    """The messages of the safety page: those of the job, and that on wiring whatever the job, for every house has some."""
    return tuple(one for one in EVERY if one is WIRING or one in messages_of_job(papers))


def met(papers: Papers, names: tuple[str, ...] | list[str], *wanted: Message) -> tuple[Message, ...]:
    """Those of the wanted messages that the job, or one of these units, brings: what stands before a step, the gravest first."""
    return tuple(one for one in EVERY if one in wanted and (
        OF_JOB[one](papers) if one in OF_JOB else any(OF_UNIT[one](papers, name) for name in names)))
