"""Can every unit hear what it must, and is every unit heard over few enough repeaters?"""
from collections.abc import Iterator

from generator.calc.results import Results
from generator.calc.repeaters import ways
from generator.model.papers import Papers
from generator.rules.finding import Hit, Severity, Value
from generator.rules.registry import rule
from generator.tables.receivers import MUST_RECEIVE
from generator.tables.sources import PRACTICE, SHEET
from generator.terms.show import amount, count

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
                      "Let it be heard through another repeater or directly, or move a repeater.",
                      (Value("way", f"{name} {' '.join(way)}", "", f"job.devices.{name}.via"),
                       Value("repeaters", str(len(way)), "", f"job.devices.{name}.via"), Value("at most", amount(most, ""), "", origin)))
