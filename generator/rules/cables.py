"""Has every wired load the voltage that it needs?"""
import math
from collections.abc import Iterator

from generator.calc.power.cable import Point, Run
from generator.calc.power.cables_of_job import SUPPLY, CableOfJob
from generator.calc.power.conductor import Conductor
from generator.calc.results import Results
from generator.calc.unknown import Unknown
from generator.model.papers import Papers
from generator.rules.finding import Hit, Severity, Unchecked, Value
from generator.rules.registry import rule
from generator.tables.sources import SHEET
from generator.terms.show import capital, digits, figure, rough, told_apart


@rule("cable-drop", Severity.STOP, limits=(SUPPLY,), source=SHEET,
      compares="the voltage at each wired load, all in alarm and the battery at its end, with the lowest at which the load works",
      mends="Take a thicker cable, a shorter run, or a unit with a battery of its own that draws less over the cable.")
def cable_drop(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """A wired unit gets too little voltage over its cable.

    It works on the day of the test, with the mains on, and fails when it is needed: in an alarm, on a battery near its end.
    """
    for one in results.cables.without.values():
        yield Unchecked(one.reason)
    for cable in results.cables.runs:
        if isinstance(cable.run, Unknown):
            yield Unchecked(cable.run.reason)
            continue
        for point in cable.run.points:
            if point.tap.least_v is None:
                yield Unchecked(f"the sheet of {point.tap.name} gives no power.least_v; write power.least_v there")
            elif not point.working.holds():
                yield _hit(cable, point)


def _hit(cable: CableOfJob, point: Point) -> Hit:
    at = point.tap.at_m.origin.rpartition(".")[0] + ".at_m"
    volt, least = told_apart(point.voltage_v, point.tap.least_v.value)
    size = size_in_words(cable.conductor)
    return Hit(at, f"{point.tap.name} has {volt} V at the end of {point.tap.at_m.shown()} of {size} when all sound; it needs {least} V. "
               f"Of {cable.run.supply_v.shown()} the cable takes {rough(point.drop_v, 'V')}.",
               f"{capital('. Or: '.join(mends(cable)))}.",
               (Value("voltage", volt, "V", "worked out on the page of power"), Value("needed", least, "V", point.tap.least_v.origin),
                Value("length", digits(point.tap.at_m.value), "m", at),
                Value("conductor", digits(cable.conductor.size), cable.conductor.unit, cable.conductor.size_from),
                Value("current", digits(point.tap.current_ma.value), "mA", point.tap.current_ma.origin),
                Value("supply", digits(cable.run.supply_v.value), "V", cable.run.supply_v.origin)))


def mends(cable: CableOfJob) -> tuple[str, ...]:
    """What would give every load enough, each with its numbers; the thicker cable first. Nothing for a run that has enough."""
    if not isinstance(cable.run, Run) or cable.run.holds is not False:
        return ()
    out = []
    if cable.smallest:
        out.append(f"{size_in_words(cable.smallest.resistance.conductor)}: {_lowest(cable.smallest)}")
    if cable.halved and cable.halved.holds:
        out.append(f"half the length, {figure(cable.halved.points[-1].tap.at_m.value, 'm')}: {_lowest(cable.halved)}")
    elif cable.share:
        out.append(f"a run of {figure(math.floor(cable.length_m * cable.share), 'm')} at most")
    if cable.share:
        amps = sum(point.tap.current_ma.value for point in cable.run.points) * cable.share
        out.append(f"units with a battery of their own that draw no more than {figure(math.floor(amps), 'mA')} together over this cable")
    return tuple(out)


def size_in_words(conductor: Conductor) -> str:
    """A cable by its size and make."""
    return f"{conductor.shown()} {conductor.make}"


def _lowest(run: Run) -> str:
    """The voltage at the load that has least to spare."""
    point = min((one for one in run.points if one.spare_v is not None), key=lambda one: one.spare_v)
    volt, least = told_apart(point.voltage_v, point.tap.least_v.value)
    return f"{volt} V at {point.tap.name}, which needs {least} V"
