"""Which cells are changed together?"""
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True)
class Due:
    """One unit's cells: their type, how many, and the day by which they must be new."""

    unit: str
    cell: str
    cells: int
    on: date


@dataclass(frozen=True)
class Campaign:
    """Cells of one type that are due in one month. `first_on` is the earliest of their days."""

    year: int
    month: int
    cell: str
    cells: int
    units: tuple[str, ...]
    first_on: date


def campaigns(due: Iterable[Due]) -> tuple[Campaign, ...]:
    """The units by type of cell and month, the earliest month first; within one the units keep their order."""
    groups: dict[tuple[int, int, str], list[Due]] = {}
    for one in due:
        if one.cells < 1:
            raise ValueError(f"cells of {one.unit}: {one.cells}; a unit that has a cell has at least one.")
        groups.setdefault((one.on.year, one.on.month, one.cell), []).append(one)
    return tuple(Campaign(*key, sum(one.cells for one in group), tuple(one.unit for one in group), min(one.on for one in group))
                 for key, group in sorted(groups.items()))


def last_visit(visits: Sequence[date], spent_on: date) -> date | None:
    """The last visit on which cells can still be changed before they are spent; None if each comes too late."""
    return max((one for one in visits if one < spent_on), default=None)
