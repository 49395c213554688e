"""Asbestos: which rooms are drilled, for which units, what nobody has tested there, and the line of the checklist that says of each room whether
it is cleared.

Asked for before any hole, room by room: common practice, no source; the asbestos law and a licensed surveyor decide.
"""
from collections.abc import Iterable, Iterator, Mapping

from generator.model.called import room_name
from generator.model.papers import Papers
from generator.procedure.messages import HEIGHTS
from generator.procedure.safety import height_m, met
from generator.procedure.step import Fact
from generator.procedure.units import fitted
from generator.terms.show import capital, sentence_list

LINE = "Asbestos cleared"
STEP = "Ask about asbestos before any drilling"
BESIDE = "Beside it"
ASBESTOS = "asbestos"


def asked_for(papers: Papers) -> bool:
    """Whether anything is asked: not in a house that is known to be new, unless the survey names there what nobody has tested."""
    return papers.job.premises.built_before is not False or _named(papers)


def _named(papers: Papers) -> bool:
    """Whether the survey says of some room what nobody has tested there."""
    return any(room.untested_ceiling or room.untested_walls for _, room in papers.rooms().values())


def drilled(papers: Papers) -> Mapping[str, tuple[str, ...]]:
    """The rooms in which something is fixed, in words, each with the units that go there."""
    places: dict[str, list[str]] = {}
    for name in (papers.job.control_unit.id, *fitted(papers)):
        places.setdefault(_place(papers, name), []).append(name)
    return {place: tuple(names) for place, names in places.items()}


def line_of(place: str) -> str:
    """The line of the checklist about one room."""
    return f"{LINE}: {place}"


def told(papers: Papers, names: Iterable[str]) -> str:
    """What must stand written before a hole is made for these units; "" in a house that is known to be new."""
    if not asked_for(papers):
        return ""
    each = list(names)
    lines = dict.fromkeys(f"“{line_of(_place(papers, name))}”" for name in each)
    here = [f"{name}: {says}" for name in each for says, on in _of_unit(papers, name) if on is not False]
    survey = [f"The survey says: {line}" for line in papers.job.premises.hazards if ASBESTOS in line.lower()] if not _named(papers) else []
    says = "; ".join([*here, *survey])
    return (f" One without a cleared result for asbestos is not drilled: {sentence_list(list(lines))}, written on arrival."
            + (f" {says}." if says else ""))


def untested(papers: Papers, name: str) -> tuple[Fact, ...]:
    """What nobody has tested beside the place of a unit that is reached from steps, for the step that drills there."""
    if not met(papers, [name], *HEIGHTS):
        return ()
    return tuple(Fact(BESIDE, says) for says, on in _of_unit(papers, name) if on is False)


def stopped_by(papers: Papers, name: str) -> tuple[str, ...]:
    """What nobody has tested where a unit goes, or may go, as the first thing that the step says."""
    return tuple(f"STOP: {says}. Not cleared in writing: no hole, “could not”." for says, on in _of_unit(papers, name) if on is not False)


def surfaces_of(papers: Papers, names: Iterable[str]) -> str:
    """The untested surfaces that some of these units go on, for the step that asks; "" for none."""
    found: dict[str, list[str]] = {}
    for name in names:
        for what, on in _surfaces(papers, name):
            if on is not False:
                found.setdefault(what, []).append(name)
    return "; ".join(f"{what}, never tested for asbestos: {sentence_list(units)}" for what, units in found.items())


def _of_unit(papers: Papers, name: str) -> Iterator[tuple[str, bool | None]]:
    """What is said of each untested surface in a unit's room, with whether the unit goes on it."""
    for what, on in _surfaces(papers, name):
        place = _room(papers, name)
        if on:
            yield f"this is the {what} never tested for asbestos ({place})", on
        elif on is None:
            yield f"the {what} here was never tested for asbestos ({place})", on
        else:
            yield f"{what} never tested for asbestos: keep off it", on


def _surfaces(papers: Papers, name: str) -> Iterator[tuple[str, bool | None]]:
    """What nobody has tested in the room of a unit, each with whether it is what the unit goes on; None where the plan does not tell."""
    own = papers.job.control_unit
    room = own.room if name == own.id else papers.room_of(papers.job.devices[name])
    storey = papers.storey_of(room) if room else None
    if storey is None:
        return
    place = papers.rooms()[room][1]
    # Without a height, or where nobody says how high the ceiling is, the unit may hang on either.
    known = height_m(papers, name) and storey.ceiling_m
    above = height_m(papers, name) >= storey.ceiling_m if known else None
    if place.untested_ceiling:
        yield place.untested_ceiling, above
    if place.untested_walls:
        yield place.untested_walls, None if above is None else not above


def _place(papers: Papers, name: str) -> str:
    return capital(_room(papers, name))


def _room(papers: Papers, name: str) -> str:
    """What people call a unit's room, its letters as written."""
    own = name == papers.job.control_unit.id
    room = papers.job.control_unit.room if own else papers.room_of(papers.job.devices[name])
    return room_name(papers, room) or "place not in the plan"
