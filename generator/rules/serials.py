"""Is every unit known by its serial?"""
from collections.abc import Iterator

from generator.calc.results import Results
from generator.calc.serials import characters, doubtful, misread, strange
from generator.model.papers import Papers
from generator.rules.finding import Hit, Severity, Unchecked, Value
from generator.rules.registry import rule
from generator.tables.sources import JOB_FILE, PRACTICE, SHEET
from generator.terms.show import count, sentence_list


def _serials(papers: Papers) -> dict[str, str | None]:
    job = papers.job
    return {job.control_unit.id: job.control_unit.serial} | {name: device.serial for name, device in job.devices.items()}


def _field(papers: Papers, name: str) -> str:
    return "job.control_unit.serial" if name == papers.job.control_unit.id else f"job.devices.{name}.serial"


def _sheet(papers: Papers, name: str) -> str:
    job = papers.job
    return job.control_unit.sheet if name == job.control_unit.id else job.devices[name].sheet


def _again(serial: str) -> str:
    doubts = doubtful(serial)
    return f" Easily mistaken: {sentence_list(list(doubts), last='or')}." if doubts else ""


@rule("serial-twice", Severity.STOP, source=JOB_FILE,
      compares="the serial of each unit with those of all others",
      mends="Read both plates again, and correct the one that was mistyped.",
      firm="two units never have one serial")
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
            yield Hit(_field(papers, name), f"Serial {serial} stands at {other} and at {name}.",
                      f"Read both plates again.{_again(serial)}",
                      (Value("serial", serial, "", _field(papers, other)),
                       Value("serial", serial, "", _field(papers, name))))


@rule("serial-form", Severity.STOP, source=SHEET,
      compares="length and characters of each serial with the form that its sheet gives",
      mends="Read the plate again, or correct the form in the sheet.",
      firm="a serial that cannot be was read wrongly, or the sheet is wrong")
def serial_form(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """A serial cannot be one of its kind of unit.

    It was misread or mistyped, and the unit will not be found by it at enrolment, in a recall or three years on.
    """
    without = []
    for name, serial in _serials(papers).items():
        form = papers.sheet_of[name].serial
        if serial and form is None:
            without.append(_sheet(papers, name))
        elif serial:
            yield from _misformed(papers, name, serial)
    if without:
        sheets = sorted(set(without))
        yield Unchecked(f"{'the sheets' if len(sheets) > 1 else 'the sheet'} {sentence_list(sheets)} "
                        f"{'give' if len(sheets) > 1 else 'gives'} no form of serial")


def _misformed(papers: Papers, name: str, serial: str) -> Iterator[Hit]:
    form, at = papers.sheet_of[name].serial, _field(papers, name)
    sheet = f"sheet {_sheet(papers, name)}: serial"
    length = len(characters(serial))
    if not form.least <= length <= form.most:
        wanted = str(form.most) if form.least == form.most else f"{form.least} to {form.most}"
        yield Hit(at, f"Serial {serial} has {count(length, 'character')}; its sheet says {wanted}.",
                  f"Read the plate again.{_again(serial)}",
                  (Value("serial", serial, "", at), Value("characters", str(length), "", at), Value("in the sheet", wanted, "", sheet)))
    odd = strange(serial, form.alphabet)
    if odd:
        meant = misread(serial, form.alphabet)
        hint = f" Perhaps it says {meant}." if meant else _again(serial)
        yield Hit(at, f"Serial {serial} holds {sentence_list([f'“{one}”' for one in odd])}, which no such unit has in its serial.",
                  f"Read the plate again.{hint}",
                  (Value("serial", serial, "", at), Value("characters in the sheet", form.alphabet, "", f"{sheet}.alphabet")))


@rule("serial-not-captured", Severity.NOTE, source=PRACTICE,
      compares="the units of the job with those that have a serial",
      mends="Read the serials from the plates and write them down.")
def serial_not_captured(papers: Papers, results: Results) -> Iterator[Hit]:
    """Serials are still missing.

    They may be read on the day, but then nobody can prepare the labels or spot a swapped pair beforehand.
    """
    missing = [name for name, serial in _serials(papers).items() if not serial]
    if missing:
        yield Hit("job.devices", f"No serial yet: {sentence_list(missing)}.", "Read them from the plates and write them down.",
                  (Value("without a serial", str(len(missing)), "", "job.devices"),))
