"""Asbestos: which rooms are drilled, for which units, and the line of the checklist that says of each whether it is cleared.

Asked for before any hole, room by room: common practice, no source; the asbestos law and a licensed surveyor decide.
"""
from collections.abc import Iterable, Mapping

from generator.model.called import room_name
from generator.model.papers import Papers
from generator.procedure.units import fitted
from generator.terms.show import capital, sentence_list

LINE = "Asbestos cleared"
STEP = "Ask about asbestos before any drilling"


def asked_for(papers: Papers) -> bool:
    """Whether anything is asked: not in a house that is known to be new."""
    return papers.job.premises.built_before is not False


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
    lines = dict.fromkeys(f"“{line_of(_place(papers, name))}”" for name in names)
    return f" One without a cleared result for asbestos is not drilled: {sentence_list(list(lines))}, written on arrival."


def _place(papers: Papers, name: str) -> str:
    own = name == papers.job.control_unit.id
    room = papers.job.control_unit.room if own else papers.room_of(papers.job.devices[name])
    return capital(room_name(papers, room) or "place not in the plan")
