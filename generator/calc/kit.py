"""What goes into the van: counted, sorted, each thing with what it is for.

What was there before this job stays where it is and is not carried: units listed under existing, and with them the control
unit whose numbers they have.
"""
import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from generator.calc.givens import of_profile
from generator.calc.power.cells_of_job import found_there
from generator.calc.power.need import MA_IN_A
from generator.calc.unknown import Unknown
from generator.calc.working import Given
from generator.model.cable import Cable
from generator.model.equipment import Sheet
from generator.model.papers import Papers
from generator.terms.show import digits

# A share for waste that a market or a company may state; no profile of ours has one.
WASTE = "cable_waste_percent"
LABEL = "label for inside the lid"
NO_TOOLS: Mapping[str, tuple[str, ...]] = MappingProxyType({})


@dataclass(frozen=True)
class Item:
    """One line of the list: how many, of what, for what. `unit` is m for what is measured, empty for what is counted."""

    what: str
    count: int
    unit: str
    uses: tuple[str, ...]


@dataclass(frozen=True)
class Kit:
    """The list by kind of thing. `waste` is the share added to the cable, or why none is; `there` what stays in the house."""

    units: tuple[Item, ...]
    cells: tuple[Item, ...]
    fixings: tuple[Item, ...]
    cable: tuple[Item, ...]
    labels: tuple[Item, ...]
    tools: tuple[Item, ...]
    spares: tuple[Item, ...]
    waste: Given | Unknown
    there: tuple[str, ...]


def kit(papers: Papers, tools: Mapping[str, tuple[str, ...]] = NO_TOOLS) -> Kit:
    """Everything to pick. `tools` are those of the day's steps, each with what it is for."""
    own = papers.job.control_unit.id
    there = found_there(papers)
    stays = {*there, own} if there else set()
    every = [own, *papers.job.devices]
    carried = [name for name in every if name not in stays]
    sheets = {name: papers.sheet_of[name] for name in carried}
    waste = of_profile(papers, WASTE, "w")
    return Kit(
        _items((sheet.name, 1, name) for name, sheet in sheets.items()),
        _items((_cell(papers, name, sheet), sheet.power.cells, name) for name, sheet in sheets.items() if sheet.power.cell),
        _items((part.item, part.count, name) for name, sheet in sheets.items() for part in sheet.parts),
        _cable(papers.job.cables, waste),
        _items((LABEL, 1, name) for name in every),
        _items([*((tool, 0, name) for name, sheet in sheets.items() for tool in sheet.tools),
                *((tool, 0, use) for tool, uses in tools.items() for use in uses)], once=True),
        _items((part.item, part.count, "every van") for part in papers.company.spares),
        waste, tuple(name for name in every if name in stays))


def _items(found: Iterable[tuple[str, int, str]], once: bool = False) -> tuple[Item, ...]:
    """Lines of one kind, the same thing counted together; what is used again and again is taken once."""
    counts: dict[str, int] = {}
    uses: dict[str, list[str]] = {}
    for what, count, use in found:
        counts[what] = 1 if once else counts.get(what, 0) + count
        uses.setdefault(what, []).append(use)
    return tuple(Item(what, counts[what], "", tuple(dict.fromkeys(uses[what])))
                 for what in sorted(counts, key=lambda one: (one.casefold(), one)) if counts[what])


def _cell(papers: Papers, name: str, sheet: Sheet) -> str:
    """The cell of a unit; the control unit's battery as the job gives it, where that is another than its sheet's."""
    given = papers.job.control_unit.battery_ah if name == papers.job.control_unit.id else None
    if given is None or given * MA_IN_A == sheet.power.capacity_mah:
        return sheet.power.cell
    return f"standby battery, {digits(given)} Ah"


def _cable(cables: Mapping[str, Cable], waste: Given | Unknown) -> tuple[Item, ...]:
    """The cable of each size, in whole metres: what the runs take and the stated share for waste."""
    metres: dict[str, float] = {}
    runs: dict[str, list[str]] = {}
    for name, one in cables.items():
        size = f"{digits(one.size_mm2)} mm²" if one.size_mm2 is not None else f"{one.awg} AWG"
        what = f"cable, {size} {one.build}"
        metres[what] = metres.get(what, 0.0) + max(load.at_m for load in one.loads)
        runs.setdefault(what, []).append(name)
    more = 1 + (0 if isinstance(waste, Unknown) else waste.value / 100)
    return tuple(Item(what, math.ceil(round(metres[what] * more, 6)), "m", tuple(runs[what])) for what in sorted(metres))
