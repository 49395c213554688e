"""A run of cable as a page shows it: the voltage at each load, what each needs, and what would mend a run that has too little."""
from dataclasses import dataclass

from generator.calc.power.cable import Point, Run
from generator.calc.power.cables_of_job import CableOfJob
from generator.calc.unknown import Unknown
from generator.pages.parts import Fact
from generator.pages.pictures import RunPicture, Spot
from generator.pages.workings import WorkingView, not_checked, working_view
from generator.rules.cables import mends
from generator.tables.cable import LONGEST_RUN_M
from generator.terms.show import capital, figure, rough


@dataclass(frozen=True)
class RunView:
    """One run. `picture` is None where its voltages are not known."""

    anchor: str
    title: str
    facts: tuple[Fact, ...]
    picture: RunPicture | None
    workings: tuple[WorkingView, ...]
    missing: tuple[str, ...]


def run_view(cable: CableOfJob) -> RunView:
    """A run with its loads."""
    size = "" if isinstance(cable.conductor, Unknown) else f", {cable.conductor.shown()} {cable.conductor.make}"
    title = f"{cable.name}: {figure(cable.length_m, 'm')}{size}"
    if isinstance(cable.run, Unknown):
        return RunView(f"run-{cable.name}", title, (), None, (), not_checked(cable.run))
    facts = (*(Fact(point.tap.name, point_in_words(point)) for point in cable.run.points),
             *(Fact("Would be mended by", one) for one in mends(cable)))
    workings = (working_view(cable.run.resistance.working), *(working_view(point.working) for point in cable.run.points))
    missing = tuple(f"Not checked, because the sheet of {one.tap.name} gives no power.least_v; write power.least_v there."
                    for one in cable.run.points if one.tap.least_v is None)
    return RunView(f"run-{cable.name}", title, facts, _picture(cable.run), workings, missing)


def point_in_words(point: Point) -> str:
    """The voltage at a load, against what it needs: "at 12 m: 10.2 V, at least 9 V: kept; it could stand at 65.1 m"."""
    at = f"at {point.tap.at_m.shown()}"
    if point.tap.least_v is None:
        return f"{at}: {rough(point.voltage_v, 'V')}; what it needs is not known"
    word = "kept" if point.working.holds() else "not kept"
    far = f"; on this cable it could stand at {rough(point.longest_m, 'm')}" if point.longest_m < LONGEST_RUN_M else ""
    return f"{at}: {point.working.shown()}, at least {point.working.limit_shown()}: {word}{far}"


def _picture(run: Run) -> RunPicture:
    spots = tuple(Spot(one.tap.name, f"{rough(one.voltage_v, 'V')} at {one.tap.at_m.shown()}", one.tap.at_m.value, one.voltage_v,
                       one.tap.least_v.value if one.tap.least_v else None, f"least {one.tap.least_v.shown()}" if one.tap.least_v else "")
                  for one in run.points)
    levels = [one for spot in spots for one in (spot.voltage, spot.least) if one is not None]
    says = f"{run.supply_v.shown()} at the control unit; " + "; ".join(
        f"{one.unit}: {one.text}{f', {one.least_text}' if one.least_text else ''}" for one in spots)
    return RunPicture(f"{capital(says)}.", run.supply_v.value, f"{run.supply_v.shown()} at the start", min(levels), spots)
