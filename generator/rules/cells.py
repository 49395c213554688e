"""Is every cell changed before it is spent?"""
import math
from collections.abc import Iterator

from generator.calc.power.cells_of_job import USABLE, CellInPlace, CellsOfJob
from generator.calc.results import Results
from generator.calc.unknown import Unknown
from generator.model.papers import Papers
from generator.rules.finding import Hit, Severity, Unchecked, Value
from generator.rules.registry import NotChecked, rule
from generator.tables.sources import SHEET
from generator.terms.show import day, figure

PAGE = "worked out on the page of cells"


@rule("cell-spent-early", Severity.FIX, limits=(USABLE,), source=SHEET,
      compares="the day on which a unit's cells are spent in their place with the first visit that could change them",
      mends="Visit earlier, choose a unit or a place with less traffic, or one with a larger cell.")
def cell_spent_early(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """A cell is spent before the visit that would change it.

    The unit goes silent between two visits, and at home somebody climbs a chair and opens a lid that is watched.
    """
    cells = results.cells
    for missing in (cells.fitted, cells.visits):
        if isinstance(missing, Unknown) and cells.in_place:
            raise NotChecked(missing.reason)
    for reason in dict.fromkeys(one.visit.reason for one in cells.in_place if isinstance(one.visit, Unknown)):
        yield Unchecked(reason)
    for one in cells.in_place:
        if one.visit is None:
            yield _hit(cells, one)


def _hit(cells: CellsOfJob, one: CellInPlace) -> Hit:
    """The first visit may be as late as the last day of its month."""
    first = next((visit.on for visit in cells.visits), None)
    sends = next(each for each in one.life.working.inputs if each.symbol == "N")
    fewer = (f" Or: let it send {math.floor(one.bearable)} times a day at most: move it, choose one that rests between two messages, or write "
             "traffic for it if it acts less than its room.") if one.bearable else ""
    late = f"the first visit that could change them may be as late as {day(first)}" if first else "no visit is agreed"
    visit = (Value("first visit", day(first), "", "job.service"),) if first else ()
    return Hit(f"job.devices.{one.unit}.sheet", f"The cells of {one.unit} are spent about {day(one.spent_on)}, {one.life.working.shown()} after they were "
               f"fitted, with {figure(sends.value, '')} messages a day; {late}.",
               f"Agree a visit before {day(one.spent_on)}, under service.visits.{fewer} Or: choose a unit with larger cells.",
               (Value("spent", day(one.spent_on), "", PAGE), *visit, Value("messages a day", figure(sends.value, ""), "", PAGE)))
