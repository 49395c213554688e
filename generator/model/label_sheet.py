"""Paper, sheets of labels, and the room of the code on a label: sizes in mm.

Paper: ISO 216 (A4) and the North American sizes of ANSI/ASME Y14.1 (Letter, 8 1/2 by 11 inches); from memory.
"""
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Annotated

from generator.model.entry import Entry
from generator.model.fields import Decimal, Whole, choice, within
from generator.terms.label_code import MODULES, QUIET

PAPERS: Mapping[str, tuple[float, float]] = MappingProxyType({"A4": (210.0, 297.0), "Letter": (215.9, 279.4)})

# The smallest module that a worn printer and an old phone still make out; common practice, no source.
LEAST_MODULE_MM = 0.4
LEAST_CODE_MM = LEAST_MODULE_MM * (MODULES + 2 * QUIET)
# A larger code takes the room of the words and is read no better from a hand's breadth; common practice, no source.
MOST_CODE_MM = 30.0
# White between the label's edge and its code, above and below, for a sheet that the printer takes in askew; common practice, no source.
EDGE_MM = 0.6
# What a short reference, a name and a number need beside the code.
WORDS_MM = 32.0


@dataclass(frozen=True)
class Stock:
    """How labels stand on a sheet, in mm: `left` and `top` from the paper's edge to the first label, `across` and `down` between two."""

    paper: str
    columns: int
    rows: int
    width: float
    height: float
    left: float
    top: float
    across: float
    down: float

    @property
    def code(self) -> float:
        """The side of the code with its quiet zone: as large as leaves room for the words beside it."""
        return min(MOST_CODE_MM, self.height - 2 * EDGE_MM, max(LEAST_CODE_MM, self.width - WORDS_MM))

    @property
    def module(self) -> float:
        """The side of one module of the code."""
        return self.code / (MODULES + 2 * QUIET)

    @property
    def used(self) -> tuple[float, float]:
        """From the paper's left and upper edge to the far edge of the last label."""
        return (self.left + self.columns * self.width + (self.columns - 1) * self.across,
                self.top + self.rows * self.height + (self.rows - 1) * self.down)


# Three columns of eight, edge to edge; three columns of ten, 2 5/8 by 1 inch. Common practice, no source.
A4_24 = Stock("A4", 3, 8, 70.0, 37.0, 0.0, 0.5, 0.0, 0.0)
LETTER_30 = Stock("Letter", 3, 10, 66.675, 25.4, 4.7625, 12.7, 3.175, 0.0)


class LabelSheet(Entry):
    """A sheet of labels as the company buys it, measured with a rule."""

    paper: choice("A4", "Letter")
    """The paper it is cut from."""
    columns: Annotated[Whole, within(1, 6)]
    """Labels side by side."""
    rows: Annotated[Whole, within(1, 20)]
    """Labels one below the other."""
    width_mm: Annotated[Decimal, within(55, 215)]
    """Width of one label."""
    height_mm: Annotated[Decimal, within(24, 297)]
    """Height of one label; from 24 mm its code can be read."""
    left_mm: Annotated[Decimal, within(0, 100)] = 0.0
    """From the paper's left edge to the first label."""
    top_mm: Annotated[Decimal, within(0, 100)] = 0.0
    """From the paper's upper edge to the first label."""
    across_mm: Annotated[Decimal, within(0, 50)] = 0.0
    """Between two labels side by side."""
    down_mm: Annotated[Decimal, within(0, 50)] = 0.0
    """Between two labels one below the other."""

    def stock(self) -> Stock:
        """The sheet in mm, as pages lay it out."""
        return Stock(self.paper, self.columns, self.rows, self.width_mm, self.height_mm, self.left_mm, self.top_mm, self.across_mm, self.down_mm)
