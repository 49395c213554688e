"""The page of cells: how long each lasts in its place, when it is spent, which visit changes it, and what is changed together."""
from dataclasses import dataclass
from datetime import date

from generator.calc.days.campaigns import Campaign
from generator.calc.days.dates import month_of
from generator.calc.days.job_dates import last_change
from generator.calc.power.cells_of_job import CarriedCell, CellInPlace, CellsOfJob
from generator.calc.power.visits import ServiceVisit
from generator.calc.results import Results
from generator.calc.unknown import Unknown
from generator.model.papers import Papers
from generator.pages.page import Link, Page
from generator.pages.parts import Fact, place_of
from generator.pages.pictures import LifeBar, LifePicture, Year
from generator.pages.power import CELLS_PATH, Place, anchor, unit_link
from generator.pages.workings import WorkingView, not_checked, working_view
from generator.terms.show import MONTHS, count, day, sentence_list


# What makes cells last longer; common practice, no source.
LENGTHEN = ("Where cells are changed on every visit: they last longer in a unit that sends less. Look first whether the traffic of its room, or "
            "its own, is written as it is; then whether the unit can rest between two messages; then for another place, or another unit with more capacity or less "
            "charge for a message.")


@dataclass(frozen=True)
class CellRow:
    """One unit's cells."""

    anchor: str
    unit: Link
    kind: str
    place: str
    facts: tuple[Fact, ...]
    workings: tuple[WorkingView, ...]
    missing: tuple[str, ...]
    note: str = ""


@dataclass(frozen=True)
class CampaignRow:
    """Cells that are changed on one visit."""

    when: str
    what: str
    units: str


@dataclass(frozen=True)
class CellsView:
    """Every cell. `picture` is None where no date is known; `answer` says how many are changed in time, `lengthen` what
    makes cells last longer, where some are spent soon."""

    answer: str
    picture: LifePicture | None
    until: str
    campaigns: tuple[CampaignRow, ...]
    rows: tuple[CellRow, ...]
    lengthen: str
    carried: tuple[CellRow, ...]
    missing: tuple[str, ...]


def cells_page(papers: Papers, results: Results, place: Place) -> Page:
    """The page of cells; `place` says where a unit's name leads, from its short reference."""
    return Page(CELLS_PATH, "Cells", "shared/cells.html.j2", cells_view(papers, results, place))


def cells_view(papers: Papers, results: Results, place: Place) -> CellsView:
    """Everything that is worked out of primary cells."""
    cells = results.cells
    missing = not_checked(cells.fitted, cells.visits)
    rows = tuple(_row(papers, results, one, place) for one in cells.in_place)
    return CellsView(_answer(cells), _picture(cells), last_change(cells.campaigns), tuple(map(_campaign, cells.campaigns)),
                     rows, LENGTHEN if any(one.note for one in rows) else "",
                     tuple(_carried(papers, results, one, place) for one in cells.carried), missing)


def visit_in_words(visit: ServiceVisit) -> str:
    """A visit by its day, or by its month where no day is agreed: "20 Apr 2027", "service of Apr 2028"."""
    return day(visit.on) if visit.agreed else f"service of {_month(visit.on)}"


def _month(on: date) -> str:
    month = month_of(on)
    return f"{MONTHS[month.month - 1]} {month.year}"


def _answer(cells: CellsOfJob) -> str:
    changed = sum(isinstance(one.visit, ServiceVisit) for one in cells.in_place)
    late = [one.unit for one in cells.in_place if one.visit is None]
    unknown = sum(isinstance(one.visit, Unknown) for one in cells.in_place)
    parts = [f"{count(len(cells.in_place), 'fitted unit')} on cells", f"{changed} with a visit before they are spent",
             f"{sentence_list(late)} spent before the first visit" if late else "", f"{unknown} not checked" if unknown else ""]
    return f"{'; '.join(one for one in parts if one)}."


def _campaign(one: Campaign) -> CampaignRow:
    return CampaignRow(f"{MONTHS[one.month - 1]} {one.year}", f"{one.cells} × {one.cell}", sentence_list(list(one.units)))


def _row(papers: Papers, results: Results, one: CellInPlace, place: Place) -> CellRow:
    facts = [Fact("Life", one.life.working.shown())] if not isinstance(one.life, Unknown) else []
    facts += [Fact("Spent", f"about {day(one.spent_on)}")] if not isinstance(one.spent_on, Unknown) else []
    if not isinstance(one.visit, Unknown):
        facts.append(Fact("Changed", visit_in_words(one.visit) if one.visit else "no visit comes before"))
    workings = () if isinstance(one.life, Unknown) else (working_view(one.life.working),)
    # What all units lack is said once, at the head of the page.
    missing = not_checked(one.life) or not_checked(None if isinstance(results.cells.fitted, Unknown) else one.spent_on)
    return CellRow(anchor(results, one.unit), unit_link(results, one.unit, place), f"{one.cells} × {one.cell}", place_of(papers, one.unit),
                   tuple(facts), workings, missing, _short_lived(results, one))


def _short_lived(results: Results, one: CellInPlace) -> str:
    """A word on cells that no visit can wait for: those that are changed on the first one, and so on each."""
    visits = results.cells.visits
    first = isinstance(visits, tuple) and one.visit == visits[0]
    return "Spent before the second visit: its cells are changed on every one." if first else ""


def _carried(papers: Papers, results: Results, one: CarriedCell, place: Place) -> CellRow:
    known = not isinstance(one.presses, Unknown)
    facts = (Fact("Lasts until then if pressed, at most", f"{one.presses.shown()} times a day"),) if known else ()
    return CellRow(anchor(results, one.unit), unit_link(results, one.unit, place), one.cell, "Carried", facts,
                   (working_view(one.presses),) if known else (), not_checked(one.presses))


def _picture(cells: CellsOfJob) -> LifePicture | None:
    if isinstance(cells.fitted, Unknown):
        return None
    first = cells.fitted
    dated = sorted((one for one in cells.in_place if not isinstance(one.spent_on, Unknown)), key=lambda one: one.spent_on)
    if not dated:
        return None
    bars = tuple(LifeBar(one.unit, (one.spent_on - first).days, _days(first, one.visit), _life_in_words(one)) for one in dated)
    last = max(one.days for one in bars)
    visits = () if isinstance(cells.visits, Unknown) else tuple(days for one in cells.visits if (days := (one.on - first).days) <= last)
    years = tuple(Year((date(year, 1, 1) - first).days, str(year)) for year in range(first.year + 1, dated[-1].spent_on.year + 1))
    return LifePicture(f"From {day(first)}: {'; '.join(one.text for one in bars)}.", max(last, 1), years, visits, bars)


def _days(first: date, visit: ServiceVisit | Unknown | None) -> int | None:
    return (visit.on - first).days if isinstance(visit, ServiceVisit) else None


def _life_in_words(one: CellInPlace) -> str:
    change = f", changed {visit_in_words(one.visit)}" if isinstance(one.visit, ServiceVisit) else ""
    return f"{one.unit} until {day(one.spent_on)}{change}"
