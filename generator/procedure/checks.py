"""The tests of exactly this job's units and functions: what is expected, up to which limit, and whose limit it is."""
from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.procedure.check import CARRIED, RESULTS, SHEET, Check
from generator.procedure.checks_of_control import of_control_unit, of_repeater
from generator.procedure.checks_of_detectors import of_contact, of_glass, of_movement, of_shock, of_technical
from generator.procedure.checks_of_fire import of_fire
from generator.procedure.checks_of_people import of_carried, of_hold_up, of_keypad, of_medical, of_sounder
from generator.procedure.checks_of_radio import identity, radio
from generator.procedure.checks_of_system import system_checks
from generator.procedure.sheet_test import test_words

__all__ = ["RESULTS", "Check", "checks_of_unit", "system_checks"]

ByKind = Callable[[Papers, Results, str], Iterator[Check]]
BY_KIND: Mapping[str, ByKind] = MappingProxyType({
    "contact": of_contact, "movement": of_movement, "glass-break": of_glass, "shock": of_shock, "water": of_technical,
    "temperature": of_technical, "smoke": of_fire, "heat": of_fire, "carbon-monoxide": of_fire, "hold-up": of_hold_up,
    "medical": of_medical, "keypad": of_keypad, "reader": of_keypad, "sounder": of_sounder, "fob": of_carried, "tag": of_carried,
    "repeater": of_repeater,
})


def checks_of_unit(papers: Papers, results: Results, name: str) -> tuple[Check, ...]:
    """The tests of one unit, in the order in which they are done."""
    if name == papers.job.control_unit.id:
        return tuple(of_control_unit(papers, results))
    sheet = papers.sheet_of[name]
    return tuple([*identity(papers, results, name), *([] if sheet.kind in CARRIED else radio(papers, name)),
                  Check(name, "Function", test_words(papers, results, name), SHEET),
                  *BY_KIND[sheet.kind](papers, results, name)])
