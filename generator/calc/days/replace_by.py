"""After how many months is a whole unit replaced, counted from its making?"""
from dataclasses import dataclass

from generator.model.papers import Papers

SMOKE = "smoke_replace_months"
SMOKE_KINDS = ("smoke",)


@dataclass(frozen=True)
class Life:
    """The months from a unit's making to its replacement, and who says so."""

    months: int
    source: str


def life_of(papers: Papers, name: str) -> Life | None:
    """What its sheet says, and for a smoke alarm the profile too: the shorter counts. None where neither says anything."""
    sheet, limits = papers.sheet_of[name], papers.profile.limits
    said = []
    if sheet.life_years is not None:
        said.append(Life(sheet.life_years * 12, f"sheet {_sheet_name(papers, name)}: life_years"))
    if sheet.kind in SMOKE_KINDS and SMOKE in limits:
        said.append(Life(int(limits[SMOKE].value), papers.profile.source_of(SMOKE).cited()))
    return min(said, key=lambda one: one.months, default=None)


def _sheet_name(papers: Papers, name: str) -> str:
    unit = papers.job.control_unit
    return unit.sheet if name == unit.id else papers.job.devices[name].sheet
