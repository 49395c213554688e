"""The units of a drawing, and the links from each to who hears it."""
import math
from collections.abc import Mapping

from generator.calc.results import Results
from generator.calc.unknown import Unknown
from generator.geometry.shapes import Spot
from generator.model.papers import Papers
from generator.pages.drawing.links import level_of, link_words
from generator.pages.drawing.sheets import Drawn, storey_of_unit
from generator.pages.drawing.views import At, LinkLine, Proposed, UnitMark, UnitRow
from generator.pages.page import Link, device_path
from generator.pages.parts import carriers, place_of
from generator.pages.power import anchor
from generator.terms.show import capital, metres, sentence_list

# A unit's name that is longer stands on the drawing as its short reference.
LONGEST_NAME = 6
CARRIED = ("fob", "tag")


def placed_units(papers: Papers, drawn: Drawn) -> dict[str, str]:
    """The storey of each unit that has a place."""
    return {name: storey_of_unit(papers, drawn, name) for name, spot in drawn.spots.items() if isinstance(spot, Spot)}


def label_of(results: Results, name: str) -> str:
    """What stands on the drawing for a unit."""
    return name if len(name) <= LONGEST_NAME else results.references[name]


def unit_marks(papers: Papers, results: Results, drawn: Drawn, storey_of: Mapping[str, str], sheet: str) -> tuple[UnitMark, ...]:
    """The units on a drawing, in the order of the job, the control unit first."""
    return tuple(_mark(papers, results, drawn, storey_of, name) for name, storey in storey_of.items() if drawn.sheet_of(storey) == sheet)


def _mark(papers: Papers, results: Results, drawn: Drawn, storey_of: Mapping[str, str], name: str) -> UnitMark:
    own = name == papers.job.control_unit.id
    kind = "control" if own else "repeater" if papers.sheet_of[name].kind == "repeater" else "unit"
    spot, faces = drawn.spots[name], None if own else papers.job.devices[name].faces_deg
    looks = None if faces is None else (math.sin(math.radians(faces)), math.cos(math.radians(faces)))
    row = unit_row(papers, results, name)
    numbers = zones_of(results, name)
    says = ". ".join(filter(None, (f"{name}, {row.kind}", f"zone {numbers}" if numbers else "", row.place, row.answer)))
    return UnitMark(name, anchor(results, name), label_of(results, name), numbers, device_path(results.references[name]), kind,
                    (spot.x, spot.y), looks, _far(papers, results, drawn, storey_of, name), says,
                    (papers.job.control_unit.room if own else papers.room_of(papers.job.devices[name])) or "")


def zones_of(results: Results, name: str) -> str:
    """The zone numbers of a unit."""
    return ", ".join(str(row.zone) for row in results.slots.of(name) if row.zone is not None)


def _far(papers: Papers, results: Results, drawn: Drawn, storey_of: Mapping[str, str], name: str) -> str:
    """Who hears a unit on another drawing, and whether that lies above it or below."""
    one = results.links.units.get(name)
    if one is None:
        return ""
    here, there = storey_of[name], storey_of.get(one.heard_by)
    if there and drawn.sheet_of(here) == drawn.sheet_of(there):
        return ""
    arrow = "?"
    if there:
        rise = drawn.house.floor_m[there] - drawn.house.floor_m[here]
        arrow = "↑" if rise > 0 else "↓" if rise < 0 else "→"
    return f"{arrow}{label_of(results, one.heard_by)}"


def link_lines(results: Results, drawn: Drawn, storey_of: Mapping[str, str], sheet: str) -> tuple[LinkLine, ...]:
    """From each unit on a drawing to who hears it, as the job says; to one without a place no line can be drawn."""
    return tuple(LinkLine(name, one.heard_by, level_of(one.link), _at(drawn, name), _at(drawn, one.heard_by),
                          drawn.sheet_of(storey_of[one.heard_by]) == sheet, f"{name}: {link_words(one.link, one.heard_by)}")
                 for name, one in results.links.units.items()
                 if name in storey_of and one.heard_by in storey_of and drawn.sheet_of(storey_of[name]) == sheet)


def _at(drawn: Drawn, name: str) -> At:
    spot = drawn.spots[name]
    return spot.x, spot.y


def unit_row(papers: Papers, results: Results, name: str) -> UnitRow:
    """A unit in words: what it is, where, and how it is heard."""
    own = name == papers.job.control_unit.id
    height = (papers.job.control_unit if own else papers.job.devices[name]).height_m
    held = carriers(papers, name)
    carried = "carried" if papers.sheet_of[name].kind in CARRIED else ""
    place = place_of(papers, name) or (f"carried by {sentence_list(held)}" if held else carried)
    one = results.links.units.get(name)
    numbers = zones_of(results, name)
    title = f"{name} · zone {numbers}" if numbers else name
    return UnitRow(Link(device_path(results.references[name]), title), papers.sheet_of[name].name,
                   capital(", ".join(filter(None, (place, f"{metres(height)} high" if height is not None else "")))),
                   link_words(one.link, one.heard_by) if one else "" if own else "It has no radio link of its own.")


def proposed_places(results: Results) -> tuple[Proposed, ...]:
    """The places for repeaters that were found for short links; none where none was looked for or found, or each link is mended without one."""
    found = results.mends.repeaters
    return () if isinstance(found, Unknown) or not results.mends.left else tuple(Proposed(one.place.storey, one.place.x, one.place.y, one.label) for one in found)


def unplaced(papers: Papers, drawn: Drawn) -> dict[str, str]:
    """Each unit without a place that is not carried, with the reason and what to write."""
    return {name: spot.reason for name, spot in drawn.spots.items()
            if isinstance(spot, Unknown) and papers.sheet_of[name].kind not in CARRIED}
