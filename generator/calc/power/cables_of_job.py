"""Do the wired loads of this job have the voltage that they need, at the end of the battery and all in alarm?"""
from collections.abc import Mapping
from dataclasses import dataclass

from generator.calc.givens import lacking, of_profile, of_sheet, tried
from generator.calc.power.cable import Run, Tap, run, smallest
from generator.calc.power.conductor import TABLE_C, Conductor, resistance
from generator.calc.power.power_of_job import wired_units
from generator.calc.unknown import Unknown
from generator.calc.working import Given
from generator.model.cable import Cable
from generator.model.papers import Papers

SUPPLY = "discharge_end_v"
LIMITS = (SUPPLY,)


@dataclass(frozen=True)
class CableOfJob:
    """One run: its conductor, its length to the last load, and the voltages along it.

    For a run on which a load has too little: `smallest` is the same run in the thinnest size at which all have enough, None
    if none is; `halved` the same cable at half its length; `share` the part of the current that it can carry as it is.
    """

    name: str
    conductor: Conductor | Unknown
    length_m: float
    run: Run | Unknown
    smallest: Run | None = None
    halved: Run | None = None
    share: float | None = None


@dataclass(frozen=True)
class CablesOfJob:
    """Every run, and each wired unit of which no run says how it is fed."""

    runs: tuple[CableOfJob, ...]
    without: Mapping[str, Unknown]


def cables_of_job(papers: Papers) -> CablesOfJob:
    """Every run of a job."""
    fed = {load.unit for one in papers.job.cables.values() for load in one.loads}
    without = {name: Unknown(f"no run under cables feeds {name}, which is wired; write its cable with its length")
               for name in wired_units(papers) if name not in fed}
    return CablesOfJob(tuple(_cable(papers, name, one) for name, one in papers.job.cables.items()), without)


def _cable(papers: Papers, name: str, cable: Cable) -> CableOfJob:
    at = f"job.cables.{name}"
    conductor, length = tried(lambda: _conductor(at, cable)), max(one.at_m for one in cable.loads)
    supply = of_profile(papers, SUPPLY, "V₀")
    taps = [_tap(papers, f"{at}.loads.{index}", one.unit, one.at_m) for index, one in enumerate(cable.loads)]
    if reason := lacking(conductor, supply, *taps):
        return CableOfJob(name, conductor, length, reason)
    warmest = TABLE_C if cable.warmest_c is None else cable.warmest_c
    from_ = f"{at}.warmest_c" if cable.warmest_c is not None else "no warmest_c is given for the cable: that of the table"
    found = tried(lambda: run(resistance(conductor, warmest, from_), taps, supply))
    if isinstance(found, Unknown) or found.holds is not False:
        return CableOfJob(name, conductor, length, found)
    half = [Tap(one.name, Given(one.at_m.name, one.at_m.symbol, one.at_m.value / 2, "m", "half of the run"), one.current_ma, one.least_v)
            for one in taps]
    share = min(one.longest_m / one.tap.at_m.value for one in found.points if one.longest_m is not None)
    return CableOfJob(name, conductor, length, found, smallest(conductor, warmest, from_, taps, supply),
                      run(found.resistance, half, supply), share)


def _conductor(at: str, cable: Cable) -> Conductor:
    if cable.size_mm2 is not None:
        return Conductor(cable.size_mm2, "mm²", cable.build, f"{at}.size_mm2")
    return Conductor(cable.awg, "AWG", cable.build, f"{at}.awg")


def _tap(papers: Papers, at: str, name: str, at_m: float) -> Tap | Unknown:
    """A load, with the larger of its currents. Its least voltage may be unknown: then the drop is shown, and held against nothing."""
    sheet = papers.sheet_of[name]
    if sheet.power.kind != "wired":
        return Unknown(f"the sheet of {name} says power.kind: {sheet.power.kind}, and a run feeds it; write wired there, or take it out of the run")
    current = of_sheet(papers, name, "power.alarm_ma", "I", "current in alarm")
    rest = of_sheet(papers, name, "power.quiescent_ma", "I", "current at rest")
    least = of_sheet(papers, name, "power.least_v", "V_least", "lowest voltage at which it works")
    if isinstance(current, Unknown):
        return current
    if isinstance(rest, Given) and rest.value > current.value:
        current = rest
    where = Given("length of cable", "L", at_m, "m", f"{at}.at_m")
    return tried(lambda: Tap(name, where, current, least if isinstance(least, Given) else None))
