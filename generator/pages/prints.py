"""What does each number, page, label and station line say, in a hash? So that what did not change is known by its hash.

A page's hash is that of its view: what it says, not how it is printed, nor how its steps are counted. It is made from pages
that were planned without people's data and without the path names of packs, so that nothing personal or secret can be worked
out from it.
"""
import hashlib
import json
from collections.abc import Iterator, Mapping
from dataclasses import asdict, replace
from datetime import date
from typing import Any

from generator.calc.results import Results
from generator.calc.slots.freeze import REST_LIMIT, numbers_after, size_of
from generator.model.issued import (Fingerprints, HeldNumber, LabelPrints, LinkPrints, PagePrints, Revision, StationPrints)
from generator.model.lists import LISTS
from generator.model.papers import Papers
from generator.pages.installer.steps import PhaseView
from generator.pages.labels import LabelSheetsView, LabelsView
from generator.pages.page import Page, payload
from generator.pages.station.sheet import StationView
from generator.terms.audience import Audience

LENGTH = 16
# Pages that speak of the build itself: they are other pages each time.
OF_THE_BUILD = ("changes.html", "search.html")

Pages = Mapping[Audience, tuple[Page, ...]]


def printed(value: Any) -> str:
    """A short hash of a value made of dataclasses, texts, numbers, dates, groups and lists."""
    text = json.dumps(value, sort_keys=True, ensure_ascii=False, separators=(",", ":"), allow_nan=False, default=_day)
    return hashlib.sha256(text.encode()).hexdigest()[:LENGTH]


def _day(value: Any) -> str:
    if isinstance(value, date):
        return value.isoformat()
    raise TypeError(f"{type(value)} has no place in a view")


def revision(number: int, on: date, papers: Papers, results: Results, pages: Pages, own: Mapping[Audience, Papers],
             prints: Mapping[str, str], last: Revision | None) -> Revision:
    """Everything that is kept of an issue. `own` are the papers as each reader may see them; `prints` the fingerprints, by
    reader, that of everything under "whole"; `last` the revision before."""
    held = tuple(_held(papers, results, number, last))
    limit = papers.profile.limits.get(REST_LIMIT)
    labels = {one: dict(_labels(pages[one])) for one in (Audience.INSTALLER, Audience.HOMEOWNER)}
    return Revision.model_construct(
        revision=number, date=on, dated=papers.job.dated, fingerprint=prints["whole"],
        audience_fingerprints=Fingerprints.model_construct(**{one.value: prints[one] for one in Audience}),
        map=list(held), resting=numbers_after(last, held, number, on, limit.value if limit else None),
        other_references=_other_references(papers, results, held),
        pages=PagePrints.model_construct(**{one.value: dict(page_prints(pages[one])) for one in Audience}),
        labels=LabelPrints.model_construct(**{one.value: rows for one, rows in labels.items()}),
        links=LinkPrints.model_construct(**{one.value: printed(payload(own[one], one, "")) for one in labels}),
        station_lines=_station_lines(pages[Audience.STATION][0].view))


def page_prints(pages: tuple[Page, ...]) -> Iterator[tuple[str, str]]:
    """The hash of each page, by its path."""
    for page in pages:
        if page.path not in OF_THE_BUILD:
            yield page.path, printed([page.title, page.group, asdict(_said(page.view))])


def _said(view: Any) -> Any:
    """A view without how its steps are counted through the whole day: a step more elsewhere makes them say nothing else."""
    return replace(view, steps=tuple(replace(one, number="") for one in view.steps)) if isinstance(view, PhaseView) else view


def _labels(pages: tuple[Page, ...]) -> Iterator[tuple[str, str]]:
    for page in pages:
        if isinstance(page.view, LabelsView | LabelSheetsView):
            yield from ((label.short, printed(label.lines)) for label in page.view.labels)


def _station_lines(view: StationView) -> StationPrints:
    return StationPrints.model_construct(zones={row.zone: printed(asdict(row)) for row in view.zones},
                                         partitions={int(one.name): printed(one.value) for one in view.partitions},
                                         users={int(one.name): printed(one.value) for one in view.users})


def _other_references(papers: Papers, results: Results, held: tuple[HeldNumber, ...]) -> dict[str, str]:
    """Of units without a number; and of those that are gone, whose references nobody else gets."""
    numbered = {row.device for row in held}
    return {name: short for name, short in sorted({**papers.frozen.references, **results.references}.items()) if name not in numbered}


def _held(papers: Papers, results: Results, number: int, last: Revision | None) -> Iterator[HeldNumber]:
    """Every number that is taken, by list: a row for each, also where a unit takes more numbers than it has zones."""
    before = {(row.list, row.number, row.device): row for row in last.map} if last else {}
    rows = {(one["list"], one["number"]): one for one in _numbers(papers, results)}
    order = {name: index for index, name in enumerate((*LISTS, "slots"))}
    for _, row in sorted(rows.items(), key=lambda pair: (order[pair[0][0]], pair[0][1])):
        why = row.pop("why")
        earlier = before.get((row["list"], row["number"], row.get("device")))
        yield HeldNumber.model_construct(**row, since=earlier.since if earlier else number,
                                         why=earlier.why if earlier else why, hash=printed(row))


def _numbers(papers: Papers, results: Results) -> Iterator[dict[str, Any]]:
    # The rest of a unit's numbers first: rows of their own take their place.
    for name, first in _first(results).items():
        for kind, start in first.items():
            for more in range(start, start + size_of(papers, name, kind)):
                yield _row(papers, results, kind, more, name, why=f"one of the numbers of {name} from {start} on")
    for row in results.slots.rows:
        yield _row(papers, results, row.list, row.zone or row.number, row.device, row.input, row.text, row.why)


def _first(results: Results) -> dict[str, dict[str, int]]:
    """The first number of each unit by list, slots among them."""
    first: dict[str, dict[str, int]] = {}
    for row in results.slots.rows:
        if row.device:
            of_unit = first.setdefault(row.device, {})
            of_unit.setdefault(row.list, row.zone or row.number)
            if row.zone:
                of_unit.setdefault("slots", row.number)
    return first


def _row(papers: Papers, results: Results, kind: str, number: int, name: str, input: str = "", text: str = "",
         why: str = "") -> dict[str, Any]:
    unit = {"device": name, "reference": results.references[name], "sheet": papers.job.devices[name].sheet,
            "serial": papers.job.devices[name].serial} if name else {}
    every = {"list": kind, "number": number, "input": input, "text": text, **unit}
    return {**{key: value for key, value in every.items() if value}, "why": why}
