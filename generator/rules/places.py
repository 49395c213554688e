"""May each unit stand where it is planned: is it too cold, too warm, or too wet there for it?"""
from collections.abc import Iterator

from generator.calc.climate import CLASSES, Climate, climates, limits_of_class
from generator.calc.results import Results
from generator.calc.unknown import Unknown
from generator.model.papers import Papers
from generator.rules.finding import Hit, Severity, Unchecked, Value
from generator.rules.registry import Where, rule
from generator.tables.sources import SHEET
from generator.terms.show import amount, number

GIVEN = Where("the job gives both temperatures of a room",
              lambda papers: any(room.coldest_c is not None and room.warmest_c is not None for _, room in papers.rooms().values()))


@rule("place-outside-plate", Severity.STOP, also=CLASSES, source=SHEET, where=GIVEN,
      compares="the coldest and warmest of each unit's place with what its plate, or else its environmental class, allows",
      mends="Take a unit of a class that fits, or put it where it is milder.")
def place_outside_plate(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """A unit stands where it gets colder or warmer than it is made for.

    Its cell gives out in frost and its parts drift in heat; then it is missed, or it acts by itself.
    """
    lacking: dict[str, None] = {}
    for name, one in climates(papers).items():
        if isinstance(one, Unknown):
            lacking[one.reason] = None
        elif one.too_cold or one.too_warm or one.indoor_class_outside:
            yield _outside(papers, one)
    if lacking:
        yield Unchecked("; ".join(lacking))


def _outside(papers: Papers, one: Climate) -> Hit:
    unit = papers.job.control_unit if one.unit == papers.job.control_unit.id else papers.job.devices[one.unit]
    at = "job.control_unit.sheet" if unit is papers.job.control_unit else f"job.devices.{one.unit}.sheet"
    values = [*((Value("coldest", number(one.coldest.value), "°C", one.coldest.origin),
                 Value("allowed down to", number(one.least.value), "°C", one.least.origin))
                if one.too_cold else ()),
              *((Value("warmest", number(one.warmest.value), "°C", one.warmest.origin),
                 Value("allowed up to", number(one.most.value), "°C", one.most.origin))
                if one.too_warm else ())]
    if one.indoor_class_outside:
        return Hit(at, f"{one.unit} hangs outside and is made for environmental class {one.of_class}, which is indoors.",
                   "Take one of class IV, or of class III under a roof.",
                   (Value("place", one.room, "", at.replace(".sheet", ".room")),
                    Value("class", one.of_class or "", "", f"sheet {unit.sheet}: environment.environmental_class"),
                    Value("wanted", "III or IV", "", SHEET)))
    parts = [f"as cold as {amount(one.coldest.value, '°C')}, and it is made for {amount(one.least.value, '°C')} and more"] if one.too_cold else []
    parts += [f"as warm as {amount(one.warmest.value, '°C')}, and it is made for {amount(one.most.value, '°C')} at most"] if one.too_warm else []
    return Hit(at, f"{one.unit} stands in {one.room}, which gets {', and '.join(parts)}.", _mend(papers, one), tuple(values))


def _mend(papers: Papers, one: Climate) -> str:
    if not one.fits:
        return "Put it where it is milder; no environmental class of the profile holds these temperatures."
    low, high = limits_of_class(papers, one.fits[0])
    return f"Take one of class {one.fits[0]} ({number(low.value)} to {amount(high.value, '°C')}), or put it where it is milder."
