"""How long does the cell of each wireless unit last in its place, when is it spent, and which visit changes it before?"""
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date

from generator.calc.bounds import positive
from generator.calc.days.calendar import CELLS
from generator.calc.days.campaigns import Campaign, Due, campaigns, last_visit
from generator.calc.givens import lacking, of_profile, of_sheet, tried
from generator.calc.power.cells import DAYS_A_YEAR, HOURS_A_YEAR, SECONDS_AN_HOUR, Cell, CellLife, cell_life, supervision_messages
from generator.calc.power.visits import MONTHS_A_YEAR, ServiceVisit, fitted_on, service_visits
from generator.calc.unknown import Unknown
from generator.calc.working import WORKED_OUT, Given, Working
from generator.model.papers import Papers
from generator.tables.cells import CARRIED, SEND_BY_TRAFFIC

USABLE, CARRIED_MONTHS = "cell_usable_percent", CELLS
TRAFFIC_LIMITS = ("traffic_quiet_messages", "traffic_usual_messages", "traffic_busy_messages")
LIMITS = (USABLE, *TRAFFIC_LIMITS)


@dataclass(frozen=True)
class CellInPlace:
    """The cells of one fitted unit.

    `spent_on` is the day on which they are spent, by the years counted on; `visit` the last visit before it, None if the
    first comes too late. Then `bearable` is how many messages a day they could send and last until the first visit, None
    if not even one.
    """

    unit: str
    cell: str
    cells: int
    life: CellLife | Unknown
    spent_on: date | Unknown
    visit: ServiceVisit | Unknown | None
    bearable: float | None = None


@dataclass(frozen=True)
class CarriedCell:
    """The cell of a carried unit: how often a day it can be pressed and still last until cells are changed together."""

    unit: str
    cell: str
    presses: Working | Unknown


@dataclass(frozen=True)
class CellsOfJob:
    """Every cell, the visits that can change them, and which are changed together: every change until the last unit's first."""

    fitted: date | Unknown
    visits: tuple[ServiceVisit, ...] | Unknown
    in_place: tuple[CellInPlace, ...]
    carried: tuple[CarriedCell, ...]
    campaigns: tuple[Campaign, ...]

    def of(self, unit: str) -> CellInPlace | CarriedCell | None:
        """The cells of a unit; None if it has none of its own."""
        return next((one for one in (*self.in_place, *self.carried) if one.unit == unit), None)


def cells_of_job(papers: Papers) -> CellsOfJob:
    """All cells of a job."""
    fitted, visits = fitted_on(papers), service_visits(papers)
    mine = {name: papers.sheet_of[name] for name in papers.job.devices if papers.sheet_of[name].power.kind == "cell"}
    in_place = tuple(_in_place(papers, name, visits) for name, sheet in mine.items() if sheet.kind not in CARRIED)
    carried = tuple(CarriedCell(name, sheet.power.cell or "", _presses(papers, name)) for name, sheet in mine.items() if sheet.kind in CARRIED)
    until = max((one.visit.on for one in in_place if isinstance(one.visit, ServiceVisit)), default=date.min)
    due = [Due(one.unit, one.cell, one.cells, on) for one in in_place if one.cells and one.cell
           for on in _changes(one, visits, until, papers.job.devices[one.unit].replace_by)]
    return CellsOfJob(fitted, visits, in_place, carried, campaigns(due))


def _changes(one: CellInPlace, visits: tuple[ServiceVisit, ...] | Unknown, until: date, replaced: date | None) -> Iterator[date]:
    """The days on which a unit's cells are changed: new ones last as long again as the first, and a unit that is replaced as a
    whole brings its own."""
    change = one.visit
    while isinstance(change, ServiceVisit) and change.on <= until and (replaced is None or change.on < replaced):
        yield change.on
        spent, last = tried(lambda: one.life.dies_on(change.on)), change.on
        change = None if isinstance(spent, Unknown) else _change(visits, spent)
        if change and change.on <= last:
            return


def found_there(papers: Papers) -> frozenset[str]:
    """The units that were there before this job."""
    return frozenset(one.device for one in papers.job.existing if one.device)


def _in_place(papers: Papers, name: str, visits: tuple[ServiceVisit, ...] | Unknown) -> CellInPlace:
    power, life = papers.sheet_of[name].power, _life(papers, name)
    spent = _spent(papers, name, life)
    change = lacking(visits, spent) or _change(visits, spent)
    bearable = _bearable(papers, name, visits) if change is None and visits else None
    return CellInPlace(name, power.cell or "", power.cells, life, spent, change, bearable)


def _bearable(papers: Papers, name: str, visits: tuple[ServiceVisit, ...]) -> float | None:
    """Messages a day with which new cells last beyond the first visit."""
    years = ((visits[0].on - fitted_on(papers)).days + 1) / DAYS_A_YEAR
    found = tried(lambda: _messages_for(_cell(papers, name), years))
    return None if isinstance(found, Unknown) or found < 1 else found


def _spent(papers: Papers, name: str, life: CellLife | Unknown) -> date | Unknown:
    fitted = fitted_on(papers)
    if name in found_there(papers):
        return Unknown(f"{name} was there before this job: when its cells were fitted is not known")
    return lacking(life, fitted) or tried(lambda: life.dies_on(fitted))


def _change(visits: tuple[ServiceVisit, ...], spent: date) -> ServiceVisit | None:
    by_day = {one.on: one for one in visits}
    day = last_visit(tuple(by_day), spent)
    return by_day[day] if day else None


def _life(papers: Papers, name: str) -> CellLife | Unknown:
    cell, messages = _cell(papers, name), _messages(papers, name)
    supply = _named(papers, name)
    return lacking(supply, cell, *messages) or tried(lambda: cell_life(cell, messages))


def _named(papers: Papers, name: str) -> Unknown | None:
    power = papers.sheet_of[name].power
    missing = [key for key in ("cell", "cells") if not getattr(power, key)]
    return Unknown(f"the sheet of {name} gives no power.{missing[0]}; write it in the sheet {papers.job.devices[name].sheet}") if missing else None


def _cell(papers: Papers, name: str) -> Cell | Unknown:
    found = (of_sheet(papers, name, "power.capacity_mah", "C", "capacity of its cells together"), of_profile(papers, USABLE, "u"),
             of_sheet(papers, name, "power.self_discharge_percent", "s", "lost in a year without use"),
             of_sheet(papers, name, "power.sleep_ua", "I_s", "current between messages"),
             of_sheet(papers, name, "power.message_mas", "q", "charge for a message"))
    return lacking(*found) or Cell(*found)


def _messages(papers: Papers, name: str) -> tuple[Given | Unknown, ...]:
    """Messages in a day: those that people bring about, and supervision messages."""
    every = of_sheet(papers, name, "radio.supervision_min", "", "time between two supervision messages")
    signs = every if isinstance(every, Unknown) else tried(lambda: supervision_messages(every))
    device = papers.job.devices[name]
    by_people = papers.sheet_of[name].kind in SEND_BY_TRAFFIC or device.traffic
    return (_by_traffic(papers, name), signs) if by_people else (signs,)


def _by_traffic(papers: Papers, name: str) -> Given | Unknown:
    device, key = papers.job.devices[name], papers.room_of(papers.job.devices[name])
    room = papers.rooms().get(key or "")
    if device.traffic:
        traffic, origin = device.traffic, f"job.devices.{name}.traffic"
    elif room and room[1].traffic:
        traffic, origin = room[1].traffic, f"job.premises.storeys.{room[0]}.rooms.{key}.traffic"
    elif room:
        return Unknown(f"nothing says how much people move in {key}; write traffic for that room")
    else:
        return Unknown(f"nothing says how often {name} acts; write traffic for it")
    found = of_profile(papers, f"traffic_{traffic}_messages", "n")
    return found if isinstance(found, Unknown) else replace(found, origin=f"{origin} says {traffic}; {found.origin}")


def _presses(papers: Papers, name: str) -> Working | Unknown:
    """How often a day a carried unit can be pressed: what its cell can give until the change, less rest and loss."""
    cell, months = _cell(papers, name), of_profile(papers, CARRIED_MONTHS, "m")
    return lacking(cell, months, _named(papers, name)) or tried(lambda: _pressed(cell, months, name))


def _pressed(cell: Cell, months: Given, name: str) -> Working:
    years = months.value / MONTHS_A_YEAR
    rest = Given("taken at rest and lost in a year", "Q", _at_rest(cell), "mAh", WORKED_OUT)
    return Working(f"Presses of {name} in a day", "(capacity counted on / years − taken at rest and lost in a year) / days of a year / charge of a press",
                   f"N = (u / 100 × C / (m / {MONTHS_A_YEAR}) − Q) / {DAYS_A_YEAR} / (q / {SECONDS_AN_HOUR})",
                   (cell.capacity_mah, cell.usable_percent, months, rest, cell.sleep_ua, cell.loss_percent, cell.message_mas),
                   "N", _messages_for(cell, years), "", digits=2,
                   notes=("A carried unit: how often it is pressed nobody knows. If it is pressed more often, its cell does not last until then.",))


def _messages_for(cell: Cell, years: float) -> float:
    """How many messages a day a cell can give and last so many years; 0 if it does not last them at rest."""
    usable = cell.capacity_mah.value * cell.usable_percent.value / 100
    each = positive(cell.message_mas.name, cell.message_mas.value) / SECONDS_AN_HOUR
    return max(0.0, (usable / positive("years", years) - _at_rest(cell)) / DAYS_A_YEAR / each)


def _at_rest(cell: Cell) -> float:
    """What a cell gives at rest and loses in a year, in mAh."""
    return cell.sleep_ua.value / 1000 * HOURS_A_YEAR + cell.loss_percent.value / 100 * cell.capacity_mah.value
