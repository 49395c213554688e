"""A page for each unit: what it takes, where it goes, how it is fitted, enrolled and tested."""
from dataclasses import dataclass

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.pages.page import Page, device_path, payload
from generator.pages.parts import Fact, SafetyView, place_of, safety_view, units_of
from generator.procedure.checks import Check, checks_of_unit
from generator.procedure.handling import filled
from generator.procedure.safety import messages_of_unit
from generator.terms.audience import Audience
from generator.terms.show import amount, capital, count

POWER = {"cell": "its own cell", "mains": "mains, with a battery behind it", "wired": "a wired supply"}


@dataclass(frozen=True)
class Action:
    """One thing done to a unit, in the words of its sheet."""

    id: str
    title: str
    text: str


@dataclass(frozen=True)
class DeviceView:
    """Everything about one unit."""

    id: str
    kind: str
    short: str
    payload: str
    numbers: tuple[Fact, ...]
    where: tuple[Fact, ...]
    takes: tuple[Fact, ...]
    terminals: tuple[Fact, ...]
    messages: tuple[SafetyView, ...]
    actions: tuple[Action, ...]
    checks: tuple[Check, ...]
    note: str


def device_pages(papers: Papers, results: Results) -> tuple[Page, ...]:
    """A page for each unit, the control unit first."""
    return tuple(_page(papers, results, name) for name in units_of(papers))


def _page(papers: Papers, results: Results, name: str) -> Page:
    sheet = papers.sheet_of[name]
    short = results.references[name]
    own = name == papers.job.control_unit.id
    note = "" if own else papers.job.devices[name].note or ""
    view = DeviceView(
        id=name, kind=sheet.name, short=short, payload=payload(papers, Audience.INSTALLER, short),
        numbers=_numbers(results, name), where=_where(papers, name), takes=_takes(papers, results, name),
        terminals=tuple(Fact(one.name, one.wire) for one in sheet.terminals),
        messages=tuple(map(safety_view, messages_of_unit(papers, name))), actions=tuple(_actions(papers, results, name)),
        checks=checks_of_unit(papers, results, name), note=note)
    return Page(device_path(short), f"{name} · {sheet.name}", "installer/device.html.j2", view, "Units")


def _numbers(results: Results, name: str) -> tuple[Fact, ...]:
    out = []
    for row in results.slots.of(name):
        kind = capital(row.list.removesuffix("s"))
        zone = f", zone {row.zone}" if row.zone not in (None, row.number) else ""
        out.append(Fact(f"{kind} {row.number}{zone}", " · ".join(filter(None, (row.text, row.input, row.why)))))
    return tuple(out)


def _where(papers: Papers, name: str) -> tuple[Fact, ...]:
    own = name == papers.job.control_unit.id
    place = papers.job.control_unit if own else papers.job.devices[name]
    sheet = papers.sheet_of[name]
    lines = [("Place", place_of(papers, name)), ("Position", place.position),
             ("Height", amount(place.height_m, "m") if place.height_m is not None else None),
             ("Height that its sheet allows", f"{sheet.mounting_m[0]:g} to {sheet.mounting_m[1]:g} m" if sheet.mounting_m else None)]
    return tuple(Fact(one, value) for one, value in lines if value)


def _takes(papers: Papers, results: Results, name: str) -> tuple[Fact, ...]:
    sheet = papers.sheet_of[name]
    own = name == papers.job.control_unit.id
    place = papers.job.control_unit if own else papers.job.devices[name]
    rows = results.slots.of(name)
    taken = [count(sum(row.list == kind for row in rows), kind.removesuffix("s")) for kind in dict.fromkeys(row.list for row in rows)]
    lines = [("Takes", ", ".join(taken)), ("Serial", place.serial or "not known yet"),
             ("Radio", "two-way" if sheet.two_way else "one-way"),
             ("Lives on", POWER[sheet.power.kind] + (f": {sheet.power.cells} × {sheet.power.cell}" if sheet.power.cell else "")),
             *[("With it", f"{part.count} × {part.item}") for part in sheet.parts]]
    return tuple(Fact(one, value) for one, value in lines if value)


def _actions(papers: Papers, results: Results, name: str):
    handling = papers.sheet_of[name].handling
    for key, title in (("fix", "Fit"), ("enrol", "Enrol"), ("test", "Trigger on purpose"), ("change_cell", "Change its cell")):
        text = getattr(handling, key)
        if text:
            yield Action(key.replace("_", "-"), title, filled(text, papers, results, name))
