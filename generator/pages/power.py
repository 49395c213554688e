"""The page of power: what the standby battery must carry and does, how soon it is filled again, repeaters, and runs of cable."""
from collections.abc import Callable
from dataclasses import dataclass

from generator.calc.power.cables_of_job import CableOfJob
from generator.calc.power.cells_of_job import CellInPlace
from generator.calc.power.need import currents_a
from generator.calc.power.power_of_job import Power
from generator.calc.power.standby import Standby
from generator.calc.results import Results
from generator.calc.unknown import Unknown
from generator.calc.working import Given, Working
from generator.model.papers import Papers
from generator.pages.page import Link, Page
from generator.pages.parts import Fact, FindingView, rule_path
from generator.pages.pictures import Bar, BarsPicture
from generator.pages.runs import RunView, run_view
from generator.pages.workings import WorkingView, not_checked, working_view
from generator.rules.cables import cable_drop
from generator.rules.power import fire_standby_short, standby_short
from generator.terms.show import capital, digits, figure, rough, sentence_list

PATH, CELLS_PATH = "power.html", "cells.html"
# The page that speaks of a unit, by its short reference.
Place = Callable[[str], str]
# Of the sizes in stock, how many above the largest that matters are drawn.
SIZES_ABOVE = 1


@dataclass(frozen=True)
class OwnView:
    """A unit with mains and a battery of its own."""

    anchor: str
    unit: Link
    workings: tuple[WorkingView, ...]
    missing: tuple[str, ...]


@dataclass(frozen=True)
class PowerView:
    """Standby, units with mains of their own, and cables. `picture` is None where the need is not known."""

    stops: tuple[FindingView, ...]
    unit: Link
    answer: str
    facts: tuple[Fact, ...]
    picture: BarsPicture | None
    workings: tuple[WorkingView, ...]
    missing: tuple[str, ...]
    notes: tuple[str, ...]
    own: tuple[OwnView, ...]
    runs: tuple[RunView, ...]
    without: tuple[str, ...]


def power_page(papers: Papers, results: Results, place: Place, stops: tuple[FindingView, ...] = ()) -> Page:
    """The page of power. `place` says where a unit's name leads, from its short reference; `stops` are the findings that keep
    the job from being signed, of which those on batteries and cables stand here."""
    here = {rule_path(one.id) for one in (standby_short, fire_standby_short, cable_drop)}
    return Page(PATH, "Power", "shared/power.html.j2",
                power_view(papers, results, place, tuple(one for one in stops if one.why.href in here)))


def power_view(papers: Papers, results: Results, place: Place, stops: tuple[FindingView, ...]) -> PowerView:
    """Everything that is worked out of batteries behind mains and of cables."""
    power, unit = results.power, papers.job.control_unit.id
    found = power.standby if isinstance(power.standby, Standby) else None
    return PowerView(
        stops, unit_link(results, unit, place), _answer(found) if found else "", _facts(power, found) if found else (),
        _picture(found) if found else None, tuple(map(working_view, _workings(power, found))),
        not_checked(power.standby, *power.unasked), power.notes,
        tuple(OwnView(anchor(results, one.unit), unit_link(results, one.unit, place),
                      () if isinstance(one.lasts, Unknown) else (working_view(one.lasts),), not_checked(one.lasts)) for one in power.own),
        tuple(map(run_view, results.cables.runs)), not_checked(*results.cables.without.values()))


def unit_link(results: Results, name: str, place: Place) -> Link:
    """The way to what this pack says of a unit."""
    return Link(place(results.references[name]), name)


def anchor(results: Results, name: str) -> str:
    """The place of a unit on the pages of power and of cells."""
    return f"unit-{results.references[name].lower()}"


def figure_links(papers: Papers, results: Results, name: str) -> tuple[Link, ...]:
    """The ways from a unit to what was worked out for it."""
    at = anchor(results, name)
    out = []
    if name == papers.job.control_unit.id:
        out.append(Link(f"{PATH}#standby", "Its standby battery, worked out"))
    if any(one.unit == name for one in results.power.own):
        out.append(Link(f"{PATH}#{at}", "Its own battery, worked out"))
    out += [Link(f"{PATH}#run-{run.name}", f"Voltage at its end of {run.name}") for run in results.cables.runs if feeds(papers, run, name)]
    if cells := results.cells.of(name):
        out.append(Link(f"{CELLS_PATH}#{at}", "Life of its cells in this place" if isinstance(cells, CellInPlace) else "How often it can be pressed"))
    return tuple(out)


def feeds(papers: Papers, run: CableOfJob, name: str) -> bool:
    """Whether a run feeds a unit."""
    return any(load.unit == name for load in papers.job.cables[run.name].loads)


def standby_in_words(results: Results) -> str:
    """The standby battery in a sentence, for a page that only states it; or why that cannot be said."""
    found = results.power.standby
    return _answer(found) if isinstance(found, Standby) else not_checked(found)[0]


def _answer(found: Standby) -> str:
    need = found.need.governs
    if found.enough:
        word = "enough" if found.enough.holds() else "not enough"
        return f"{found.enough.shown()} fitted, {found.enough.limit_shown()} needed: {word}."
    if found.next_size:
        return f"{need.shown()} needed; the next size in stock is {found.next_size.shown()}. Which one is fitted is not said."
    return f"{need.shown()} needed; no size in stock is as large."


def _facts(power: Power, found: Standby) -> tuple[Fact, ...]:
    rest, alarm = currents_a(found.loads)
    rows = [("Carries", sentence_list([one.name for one in found.loads])), ("At rest, all together", figure(rest, "A")),
            ("In alarm, all together", figure(alarm, "A")),
            ("Asked for", f"{power.hours.rest_h.shown()} at rest, then {power.hours.alarm_min.shown()} in alarm"),
            ("Fire duties", _fire(power)),
            ("Lasts at rest", found.runs.shown() if found.runs else ""),
            ("Sizes in stock that do", sentence_list([one.shown() for one in found.good_sizes], "or") or ("none" if found.sizes else "")),
            ("Would be mended by", "; ".join(f"taking {one.load} off: {one.battery.shown()} is enough then" for one in found.mends))]
    return tuple(Fact(name, value) for name, value in rows if value)


def _fire(power: Power) -> str:
    if not power.plain:
        return ""
    return f"{sentence_list(list(power.fire_units))}; without them {rough(power.plain.ah, 'Ah')} would be enough"


def _workings(power: Power, found: Standby | None) -> tuple[Working, ...]:
    at_rest = () if isinstance(power.at_rest, Unknown) else (power.at_rest,)
    if not found:
        return at_rest
    every = (found.enough, found.need.first, power.cold, found.need.second, power.plain and power.plain.governs, found.runs,
             found.recharge and found.recharge.working, found.fits)
    return tuple(one for one in (*at_rest, *every) if one)


def _picture(found: Standby) -> BarsPicture:
    need = found.need.ah
    most = max(need, found.fitted.value if found.fitted else 0.0)
    above = [one for one in found.sizes if one.value > most][:SIZES_ABOVE]
    drawn = [*(one for one in found.sizes if one.value <= most), *above]
    fitted = (Bar(f"fitted: {found.fitted.shown()}", found.fitted.value, "fitted"),) if found.fitted else ()
    stock = tuple(Bar(f"{one.shown()} in stock: {_word(found, one)}", one.value, "stock") for one in drawn)
    larger = f"; larger ones are in stock, up to {found.sizes[-1].shown()}" if len(drawn) < len(found.sizes) else ""
    says = f"{digits(need, 3)} Ah needed. {capital('; '.join(one.text for one in (*fitted, *stock)))}{larger}."
    return BarsPicture(says, (Bar(f"needed: {digits(need, 3)} Ah", need, "need"), *fitted, *stock), need)


def _word(found: Standby, size: Given) -> str:
    if size in found.good_sizes:
        return "does"
    return "too small" if size.value < found.need.ah else "too large here"
