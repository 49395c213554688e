"""By which sheet is a repeater planned that is not there yet?"""
from collections.abc import Iterator

from generator.calc.givens import sheet_key
from generator.calc.radio.links import SAME_BAND
from generator.calc.unknown import Unknown
from generator.model.equipment import Sheet
from generator.model.papers import Papers

FIGURES = ("frequency_mhz", "tx_power_dbm", "sensitivity_dbm")


def repeater_sheet(papers: Papers) -> tuple[str, Sheet] | Unknown:
    """The first sheet of a repeater that has all figures and the band of the control unit, with its key; or what is missing."""
    known, reasons = papers.sheet_of[papers.job.control_unit.id].radio, []
    for key, sheet in _repeaters(papers):
        missing = [f"radio.{name}" for name in FIGURES if sheet.radio is None or getattr(sheet.radio, name) is None]
        missing += [] if sheet.repeats is not None else ["repeats"]
        if not missing and known and abs(sheet.radio.frequency_mhz - known.frequency_mhz) <= SAME_BAND * known.frequency_mhz:
            return key, sheet
        reasons.append(f"the sheet {key} gives no {missing[0]}" if missing else f"the repeater of the sheet {key} has another band than the control unit")
    return Unknown(reasons[0] if reasons else "the figures of a repeater are missing; write a sheet of kind repeater in the folder equipment, with "
                                              "radio, repeats and mounting_m")


def _repeaters(papers: Papers) -> Iterator[tuple[str, Sheet]]:
    """Sheets of repeaters: those that the job uses, those in its file, those of the company."""
    seen = {}
    for name in papers.job.devices:
        seen.setdefault(sheet_key(papers, name), papers.sheet_of[name])
    yield from ((key, one) for key, one in {**seen, **papers.job.equipment, **papers.spare}.items() if one.kind == "repeater")
