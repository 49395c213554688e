"""Can those that hear, hear? What stands beside the control unit and the repeaters."""
from collections.abc import Iterator

from generator.calc.radio.near_receivers import Near
from generator.calc.results import Results
from generator.calc.unknown import Unknown
from generator.model.papers import Papers
from generator.rules.asked import limit_text, limited
from generator.rules.finding import Hit, Severity, Unchecked, Value
from generator.rules.registry import Where, rule
from generator.tables.sources import PRACTICE
from generator.terms.show import sentence_list, told_apart

CLEAR = "metal_clear_m"
PLANNED = Where("the job gives a plan", lambda papers: any(room.corner_m or room.outline_m for storey in papers.job.premises.storeys.values()
                                                           for room in storey.rooms.values()))


@rule("receiver-near-metal", Severity.FIX, limits=(CLEAR,), source=PRACTICE, where=PLANNED,
      compares="the distance of the control unit and of each repeater from large metal, walls with metal in them and what sends by itself with "
               "the least that the profile wants",
      mends="Move the unit or the thing, or watch the background of the band there before anything else.")
def receiver_near_metal(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """The control unit or a repeater has metal or a transmitter beside it.

    Metal beside its antenna makes it deaf to one side, and what sends beside it drowns weak units: every link of the house suffers.
    """
    least = papers.profile.limits[CLEAR].value
    for one in results.near:
        if isinstance(one.things, Unknown):
            yield Unchecked(f"what stands near {one.receiver} is not known: {one.things.reason}")
            continue
        close = [thing for thing in one.things if thing.nearer(least)]
        if close:
            own = one.receiver == papers.job.control_unit.id
            wanted = limit_text(papers, CLEAR)
            yield Hit(f"job.{'control_unit' if own else f'devices.{one.receiver}'}.at_m",
                      f"{one.receiver} would hang {sentence_list([_said(thing, least) for thing in close])}; {wanted} is wanted.",
                      f"Move {one.receiver} or what is beside it until {wanted} or more lies between; else watch the background of the band there "
                      "before anything else.",
                      (*(Value(thing.name, _metres(thing, least), "m", thing.field) for thing in close), limited(papers, CLEAR, "at least")))


def _metres(thing: Near, least_m: float) -> str:
    return told_apart(thing.distance_m, least_m)[0]


def _said(thing: Near, least_m: float) -> str:
    what = ", ".join(word for word, holds in (("metal", thing.metal), ("sends by itself", thing.sends)) if holds)
    return f"{_metres(thing, least_m)} m from {thing.name} ({what})"
