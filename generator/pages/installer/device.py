"""A page for each unit: what it takes, where it goes, how it is fitted, enrolled and tested."""
from collections.abc import Mapping
from dataclasses import dataclass

from generator.calc.results import Results
from generator.model.job import Device
from generator.model.papers import Papers
from generator.pages.installer.tests import group_of
from generator.pages.open_findings import OpenFinding
from generator.pages.page import Link, Page, device_path, payload
from generator.pages.parts import (Fact, FindingView, SafetyView, Stopped, carriers, facts_view, place_of, safety_views, units_of,
                                   unless_stopped, unstopped)
from generator.pages.power import figure_links
from generator.pages.sheet_facts import path_words, plan_words, ratings
from generator.procedure.checks import Check, checks_of_unit
from generator.procedure.handling import filled
from generator.procedure.safety import messages_of_unit
from generator.terms.audience import Audience
from generator.terms.show import amount, capital, count, metres, sentence_list

POWER = {"cell": "its own cell", "mains": "mains, with a battery behind it", "wired": "a wired supply",
         "none": "the reader's field, without a cell"}


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
    ratings: tuple[Fact, ...]
    figures: tuple[Link, ...]
    terminals: tuple[Fact, ...]
    messages: tuple[SafetyView, ...]
    ticked: bool
    stops: tuple[FindingView, ...]
    found: tuple[OpenFinding, ...]
    actions: tuple[Action, ...]
    checks: tuple[Check, ...]
    results: Link
    note: str


def device_pages(papers: Papers, results: Results, stopped: Stopped, stops: tuple[FindingView, ...], on_plan: Mapping[str, Link],
                 found: Mapping[str, tuple[OpenFinding, ...]]) -> tuple[Page, ...]:
    """A page for each unit, the control unit first; `stops` are the findings that keep the job from being signed, `on_plan` the ways to
    the units that are drawn, `found` what is open about each unit."""
    return tuple(_page(papers, results, name, stopped, _of_unit(stops, name), on_plan.get(name), found[name]) for name in units_of(papers))


def _of_unit(stops: tuple[FindingView, ...], name: str) -> tuple[FindingView, ...]:
    """The findings that speak of a unit: at its own field, or with a value that stands there."""
    own = f"job.devices.{name}."
    return tuple(one for one in stops if any(own in field for field in one.fields))


def _page(papers: Papers, results: Results, name: str, stopped: Stopped, stops: tuple[FindingView, ...], drawn: Link | None,
          found: tuple[OpenFinding, ...]) -> Page:
    sheet = papers.sheet_of[name]
    short = results.references[name]
    own = name == papers.job.control_unit.id
    note = "" if own else papers.job.devices[name].note or ""
    messages = safety_views(messages_of_unit(papers, name))
    view = DeviceView(
        id=name, kind=sheet.name, short=short, payload=payload(papers, Audience.INSTALLER, short),
        numbers=_numbers(results, name, stopped), where=_where(papers, name),
        takes=facts_view(_takes(papers, results, name), stopped),
        ratings=ratings(sheet), figures=(*([drawn] if drawn else []), *figure_links(papers, results, name)),
        terminals=tuple(Fact(one.name, one.wire) for one in sheet.terminals),
        messages=messages, ticked=any(one.tick for one in messages), stops=stops, found=found,
        actions=tuple(_actions(papers, results, name)),
        checks=tuple(unstopped(one, stopped) for one in checks_of_unit(papers, results, name)),
        results=group_of(results, name), note=note)
    return Page(device_path(short), f"{name} · {sheet.name}", "installer/device.html.j2", view, "Units")


def _numbers(results: Results, name: str, stopped: Stopped) -> tuple[Fact, ...]:
    out = []
    for row in results.slots.of(name):
        kind = capital(row.list.removesuffix("s"))
        zone = f", zone {row.zone}" if row.zone not in (None, row.number) else ""
        out.append(Fact(f"{kind} {row.number}{zone}", " · ".join(filter(None, (unless_stopped(row.text, row.text_field, stopped), row.input, row.reason)))))
    return tuple(out)


def _where(papers: Papers, name: str) -> tuple[Fact, ...]:
    own = name == papers.job.control_unit.id
    place = papers.job.control_unit if own else papers.job.devices[name]
    sheet = papers.sheet_of[name]
    lines = [("Place", place_of(papers, name)), ("Position", place.position),
             ("Height", metres(place.height_m) if place.height_m is not None else None),
             ("Height that its sheet allows", f"{sheet.mounting_m[0]:g} to {sheet.mounting_m[1]:g} m" if sheet.mounting_m else None),
             ("In the plan", plan_words(place.at_m) if place.at_m else None)]
    lines += [] if own else _of_device(papers, name, place)
    return tuple(Fact(one, value) for one, value in lines if value)


def _of_device(papers: Papers, name: str, device: Device) -> list[tuple[str, str | None]]:
    """What only a unit besides the control unit has: who carries it, where it looks, and the way of its radio."""
    partition = papers.partition_of(device)
    return [("Partition", f"{partition}, {papers.partitions()[partition]}" if papers.job.partitions else None),
            ("Looks to", amount(device.faces_deg, "°") if device.faces_deg is not None else None),
            ("Handed to", capital(sentence_list(carriers(papers, name)))),
            ("Heard through", device.via),
            ("Its radio passes", path_words(device.path, papers.constructions()) if device.path else None)]


def _takes(papers: Papers, results: Results, name: str) -> tuple[Fact, ...]:
    sheet = papers.sheet_of[name]
    own = name == papers.job.control_unit.id
    place = papers.job.control_unit if own else papers.job.devices[name]
    rows = results.slots.of(name)
    taken = [count(sum(row.list == kind for row in rows), kind.removesuffix("s")) for kind in dict.fromkeys(row.list for row in rows)]
    lines = [Fact("Takes", ", ".join(taken)),
             Fact("Serial", place.serial or "not known yet", f"job.{'control_unit' if own else f'devices.{name}'}.serial"),
             Fact("Radio", "two-way" if sheet.two_way else "one-way"),
             Fact("Lives on", POWER[sheet.power.kind] + (f": {sheet.power.cells} × {sheet.power.cell}" if sheet.power.cell else "")),
             Fact("With it", ", ".join(f"{part.count} × {part.item}" for part in sheet.parts))]
    return tuple(one for one in lines if one.value)


def _actions(papers: Papers, results: Results, name: str):
    handling = papers.sheet_of[name].handling
    for key, title in (("fix", "Fit"), ("enrol", "Enrol"), ("test", "Trigger on purpose"), ("change_cell", "Change its cell")):
        text = getattr(handling, key)
        if text:
            yield Action(key.replace("_", "-"), title, filled(text, papers, results, name))
