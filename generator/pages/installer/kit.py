"""The picking list as a page."""
from collections.abc import Mapping
from dataclasses import dataclass

from generator.calc.kit import NO_TOOLS, Item, Kit, kit
from generator.calc.unknown import Unknown
from generator.model.papers import Papers
from generator.pages.page import Page
from generator.procedure.step import Step
from generator.procedure.steps import PHASES
from generator.terms.show import count, sentence_list

# More names than these tell nobody anything: the number is said instead.
MOST_NAMES = 12


@dataclass(frozen=True)
class ItemRow:
    """One line: how many, what, for what."""

    number: str
    what: str
    uses: str


@dataclass(frozen=True)
class KitGroup:
    """Lines of one kind, with what must be known of them."""

    id: str
    title: str
    total: str
    rows: tuple[ItemRow, ...]
    note: str


@dataclass(frozen=True)
class KitView:
    """What goes into the van; `there` says what is in the house already."""

    groups: tuple[KitGroup, ...]
    there: str


def kit_page(papers: Papers, tools: Mapping[str, tuple[str, ...]] = NO_TOOLS) -> Page:
    """The page. `tools` are those of the day's steps, each with what it is for."""
    return Page("kit.html", "Kit", "installer/kit.html.j2", kit_view(kit(papers, tools)))


def tools_of(papers: Papers, steps: tuple[Step, ...]) -> Mapping[str, tuple[str, ...]]:
    """The tools of the day's steps, each with the phases it is for; those of a sheet are listed with their unit."""
    of_sheets = {tool for sheet in papers.sheet_of.values() for tool in sheet.tools}
    phases: dict[str, dict[str, None]] = {}
    for step in steps:
        for tool in step.tools:
            if tool not in of_sheets:
                phases.setdefault(tool, {})[f"“{PHASES[step.phase]}”"] = None
    return {tool: tuple(found) for tool, found in phases.items()}


def kit_view(found: Kit) -> KitView:
    """The list as the page shows it; kinds of which nothing is taken are left out."""
    groups = (("units", "Units", found.units, ""), ("cells", "Cells and batteries", found.cells, ""),
              ("parts", "Fixings and parts", found.fixings, ""), ("cable", "Cable", found.cable, _waste(found)),
              ("labels", "Labels", found.labels, "They stand on the page of labels, ready to print."),
              ("tools", "Tools", found.tools, "Each once; what each is for stands beside it."),
              ("spares", "Spares of the company", found.spares, ""))
    there = f"In the house already, and not carried: {sentence_list(list(found.there))}." if found.there else ""
    return KitView(tuple(_group(*one) for one in groups if one[2]), there)


def _group(id: str, title: str, items: tuple[Item, ...], note: str) -> KitGroup:
    measured = any(one.unit for one in items)
    total = "" if measured or id == "tools" else count(sum(one.count for one in items), "piece")
    return KitGroup(id, title, total, tuple(map(_row, items)), note)


def _row(one: Item) -> ItemRow:
    uses = sentence_list(list(one.uses)) if len(one.uses) <= MOST_NAMES else count(len(one.uses), "unit")
    return ItemRow(f"{one.count} {one.unit}".rstrip(), one.what, uses)


def _waste(found: Kit) -> str:
    if isinstance(found.waste, Unknown):
        return f"Length of the runs, without a share for waste, because {found.waste.reason}; add what you lose."
    return f"With {found.waste.shown()} for waste: {found.waste.origin}."
