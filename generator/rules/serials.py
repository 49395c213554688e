"""Is every unit known by its serial?"""
from collections.abc import Iterator

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.rules.finding import Hit, Severity, Value
from generator.rules.registry import rule
from generator.terms.show import sentence_list


def _serials(papers: Papers) -> dict[str, str | None]:
    job = papers.job
    return {job.control_unit.id: job.control_unit.serial} | {name: device.serial for name, device in job.devices.items()}


def _field(papers: Papers, name: str) -> str:
    return "job.control_unit.serial" if name == papers.job.control_unit.id else f"job.devices.{name}.serial"


@rule("serial-twice", Severity.STOP)
def serial_twice(papers: Papers, results: Results) -> Iterator[Hit]:
    """Two units have the same serial.

    One of the two was mistyped, or one unit was counted twice; the wrong zone would be reported.
    """
    first: dict[str, str] = {}
    for name, serial in _serials(papers).items():
        if not serial:
            continue
        other = first.setdefault(serial, name)
        if other != name:
            yield Hit(_field(papers, name), f"Serial {serial} stands at {other} and at {name}.", "Read both plates again.",
                      (Value("serial", serial, "", _field(papers, other)),
                       Value("serial", serial, "", _field(papers, name))))


@rule("serial-not-captured", Severity.NOTE)
def serial_not_captured(papers: Papers, results: Results) -> Iterator[Hit]:
    """Serials are still missing.

    They may be read on the day, but then nobody can prepare the labels or spot a swapped pair beforehand.
    """
    missing = [name for name, serial in _serials(papers).items() if not serial]
    if missing:
        yield Hit("job.devices", f"No serial yet: {sentence_list(missing)}.", "Read them from the plates and write them down.",
                  (Value("without a serial", str(len(missing)), "", "job.devices"),))
