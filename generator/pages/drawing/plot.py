"""The plot as it is drawn: its boundary, the outside walls of all that stands on it, and each outside sounder with the nearest point."""
from dataclasses import replace

from generator.calc.house.sound import AtBoundary
from generator.calc.results import Results
from generator.geometry.plot import area_m2
from generator.geometry.walls import Wall
from generator.model.papers import Papers
from generator.pages.drawing.sheets import Drawn, wall_lines
from generator.pages.drawing.views import At, DrawnSheet, PlotView, ReachLine, SheetView
from generator.pages.parts import Fact
from generator.terms.show import amount, count, figure

TITLE = "The plot"


def side_of(start: At, end: At) -> str:
    """On which side one place lies of another, as one faces the front from outside."""
    right, away = end[0] - start[0], end[1] - start[1]
    if abs(right) >= abs(away):
        return "to the right" if right > 0 else "to the left"
    return "behind it" if away > 0 else "before it"


def plot_of(papers: Papers, results: Results, drawn: Drawn, sheets: tuple[SheetView, ...]) -> PlotView | None:
    """The plot; None where the plan gives no boundary. Units are those of the other drawings."""
    boundary = papers.job.premises.boundary_m
    if not boundary:
        return None
    known = {name: one for name, one in results.sound.boundary.items() if isinstance(one, AtBoundary)}
    units = tuple(replace(one, anchor=f"plot-{one.anchor}", numbers="", far="") for sheet in sheets for one in sheet.drawing.units if one.name in known)
    reaches = tuple(ReachLine(name, f"{amount(one.away_m, 'm')}, {amount(one.levels[0].value, 'dB(A)', 0)}", tuple(one.stands), tuple(one.at),
                              f"{name}: {amount(one.away_m, 'm')} {side_of(one.stands, one.at)} to the boundary, "
                              f"{amount(one.levels[0].value, 'dB(A)', 0)} there at most") for name, one in known.items())
    front = sheets[0].drawing
    says = f"{TITLE} seen from above: its boundary, the outside walls, {count(len(units), 'outside sounder')}. The same in words below."
    drawing = DrawnSheet("plot", TITLE, says, (), wall_lines(papers, drawn, _outer(drawn)), (), (), (), units, (), (), front.front, front.bearing_deg,
                         boundary=tuple((x, y) for x, y in boundary), reaches=reaches)
    plot = Fact("Plot", figure(area_m2(drawing.boundary), "m²", 3))
    return PlotView(drawing, (plot, *(Fact(one.unit, one.says.partition(": ")[2]) for one in reaches)))


def _outer(drawn: Drawn) -> list[Wall]:
    """The walls with the open air behind them, those of an upper storey only where none stands below."""
    found: dict[tuple, Wall] = {}
    for one in drawn.house.walls:
        if one.wall.outer:
            found.setdefault(tuple(sorted((one.wall.start, one.wall.end))), one.wall)
    return list(found.values())
