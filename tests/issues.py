"""To issue jobs in tests: on paper, where only the numbers count, and for real, where the files count too."""
from collections.abc import Callable
from dataclasses import fields, replace
from datetime import date
from pathlib import Path

from generator.calc.results import Results, compute
from generator.calc.slots.freeze import frozen
from generator.model.issued import Issued
from generator.model.papers import Papers
from generator.pages.page import Page, Stamp
from generator.pages.prints import revision
from generator.pages.station.sheet import StationView
from generator.terms.audience import Audience
from tests.conftest import Files, write_files

NO_STAMP = Stamp("", "", "", "", "", "")
NO_LINES = StationView(**{one.name: () for one in fields(StationView)} | {"stamp": NO_STAMP})
NO_PAGES = {one: (Page("index.html", "", "", NO_LINES),) if one is Audience.STATION else () for one in Audience}
NO_PRINTS = {one: "0" * 64 for one in ("whole", *Audience)}


def numbered(papers: Papers, issued: Issued | None, on: date) -> tuple[Papers, Results]:
    """A job with its frozen numbers on a day, and what is worked out for it."""
    papers = replace(papers, frozen=frozen(papers, issued, on))
    return papers, compute(papers)


def issue_on_paper(papers: Papers, issued: Issued | None, on: date) -> Issued:
    """What is kept of an issue, without pages. The numbers of the job must fit."""
    papers, results = numbered(papers, issued, on)
    assert not results.slots.no_room
    before = issued.revisions if issued else []
    own = dict.fromkeys(Audience, papers)
    one = revision(len(before) + 1, on, papers, results, NO_PAGES, own, NO_PRINTS, before[-1] if before else None)
    return Issued.model_construct(format="1", reference=papers.job.reference, revisions=[*before, one], check="")


def held(issued: Issued, kind: str = "zones") -> dict[int, str]:
    """The unit of each number of a list in the last revision."""
    return {row.number: row.device for row in issued.last.map if row.list == kind}


def with_devices(papers: Papers, devices: dict, sheets: dict | None = None) -> Papers:
    """The papers with other units; `sheets` gives those of units that are new."""
    # A cable ends where its unit went.
    cables = {name: one for name, one in papers.job.cables.items() if all(load.unit in devices for load in one.loads)}
    return replace(papers, job=papers.job.model_copy(update={"devices": devices, "cables": cables}),
                   sheet_of={**papers.sheet_of, **(sheets or {})})


def changed(files: Files, folder: Path, *changes: Callable[[Files], object]) -> Path:
    """Writes files with changes into a folder without losing what was issued there."""
    issued = folder / "issued.yaml"
    kept = issued.read_bytes() if issued.exists() else None
    for change in changes:
        change(files)
    path = write_files(files, folder)
    if kept is not None:
        issued.write_bytes(kept)
    return path
