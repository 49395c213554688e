"""Can every unit hear what it must, and is every unit heard over few enough repeaters, none of them full?"""
from collections.abc import Iterator

from generator.calc.radio.assignment import Heard
from generator.calc.radio.link import Link
from generator.calc.radio.repeaters import ways
from generator.calc.results import Results
from generator.model.papers import Papers
from generator.rules.finding import Hit, Severity, Unchecked, Value
from generator.rules.registry import rule
from generator.tables.receivers import MUST_RECEIVE
from generator.tables.sources import PRACTICE, SHEET
from generator.terms.show import amount, count, sentence_list

HOPS = "repeater_hops"


@rule("one-way-must-receive", Severity.STOP, source=PRACTICE,
      compares="two_way of the sheets of sounders, keypads, readers and repeaters",
      mends="Choose a unit that also receives, or correct two_way in its sheet.")
def one_way_must_receive(papers: Papers, results: Results) -> Iterator[Hit]:
    """A unit that has to receive can only send.

    A sounder that cannot be told stays silent; a keypad that cannot be told shows a state that is not so.
    """
    for name, device in papers.job.devices.items():
        sheet = papers.sheet_of[name]
        if sheet.kind in MUST_RECEIVE and not sheet.two_way:
            yield Hit(f"job.devices.{name}.sheet", f"{name} is a one-way {sheet.kind}, but {MUST_RECEIVE[sheet.kind]}.",
                      "Choose one that also receives, or correct two_way in its sheet. One that is joined by wires alone may be accepted.",
                      (Value("kind", sheet.kind, "", f"sheet {device.sheet}: kind"),
                       Value("two_way", "false", "", f"sheet {device.sheet}: two_way")))


@rule("repeater-hops", Severity.STOP, limits=(HOPS,), source=SHEET,
      compares="the repeaters between each unit and the control unit with the fewer of what profile and control unit allow",
      mends="Let it be heard through another repeater or directly, or move a repeater.")
def repeater_hops(papers: Papers, results: Results) -> Iterator[Hit]:
    """A unit is heard over more repeaters than may stand one after the other.

    Each one on the way can fail on its own, and then everything behind it is lost; many units do not pass such a message on.
    """
    unit = papers.job.control_unit
    limit = papers.profile.limits[HOPS]
    own = papers.sheet_of[unit.id].control_unit.hops
    most, origin = limit.value, papers.profile.source_of(HOPS).cited()
    if own is not None and own < most:
        most, origin = own, f"sheet {unit.sheet}: control_unit.hops"
    for name, way in ways(papers.job.devices).items():
        if len(way) > most:
            yield Hit(f"job.devices.{name}.via", f"{name} is heard over {count(len(way), 'repeater')} ({', then '.join(way)}); "
                      f"{amount(most, '')} may stand one after the other.",
                      f"Let it be heard through another repeater or directly, or move a repeater.{_better(papers, results, [name])}",
                      (Value("way", f"{name} {' '.join(way)}", "", f"job.devices.{name}.via"),
                       Value("repeaters", str(len(way)), "", f"job.devices.{name}.via"), Value("at most", amount(most, ""), "", origin)))


@rule("repeater-full", Severity.STOP, source=SHEET,
      compares="the units that are heard through each repeater, those behind other repeaters counted, with how many its sheet says that it carries",
      mends="Let some of them be heard directly or through another repeater, or add one.")
def repeater_full(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """More units are heard through a repeater than it can carry.

    It does not take those beyond its number, or drops the oldest: they are fitted, shown as planned, and not heard.
    """
    behind: dict[str, list[str]] = {}
    for name, way in ways(papers.job.devices).items():
        for repeater in way:
            behind.setdefault(repeater, []).append(name)
    for repeater, units in behind.items():
        most = papers.sheet_of[repeater].repeats
        sheet = papers.job.devices[repeater].sheet
        if most is None:
            yield Unchecked(f"the sheet of {repeater} gives no repeats; write how many units it can carry in the sheet {sheet}")
        elif len(units) > most:
            yield Hit(f"job.devices.{repeater}.sheet",
                      f"{count(len(units), 'unit')} are heard through {repeater} ({sentence_list(units)}); it carries {most}.",
                      f"Let {len(units) - most} of them be heard directly or through another repeater, or add one.{_better(papers, results, units)}",
                      (Value("units", f"{len(units)} ({' '.join(units)})", "", "job.devices: via"),
                       Value("at most", str(most), "", f"sheet {sheet}: repeats")))


def _better(papers: Papers, results: Results, units: list[str]) -> str:
    """Which of these units the best way of hearing all would let be heard by another, with the margins that they would have there; "" if none."""
    if not isinstance(results.receivers, Heard):
        return ""
    own, found = papers.job.control_unit.id, []
    for name in units:
        to = results.receivers.through.get(name)
        link = results.links.units[name].to.get(to) if to and name in results.links.units else None
        if isinstance(link, Link) and to != (papers.job.devices[name].via or own):
            found.append(f"{name} by {to} ({amount(link.margin_db(link.worse), 'dB')})")
    return f" By the links worked out best heard: {sentence_list(found)}." if found else ""
