"""Where alarms are confirmed by a second zone: is there a second one on each way in, and is it the next that is met?"""
from collections.abc import Iterator

from generator.calc.house.confirming import Ahead, Confirmed, Pairs
from generator.calc.house.gaps import STEP
from generator.calc.house.reach import HEIGHT, SIDE, STAND
from generator.calc.house.views import HIGH, LOW
from generator.calc.results import Results
from generator.calc.unknown import Unknown
from generator.model.papers import Papers
from generator.rules.asked import SEQUENTIAL
from generator.rules.coverage import PLAN
from generator.rules.finding import Hit, Severity, Unchecked, Value
from generator.rules.registry import Where, rule
from generator.tables.sources import PRACTICE
from generator.terms.show import amount, count, number, sentence_list

ALSO = (STEP, LOW, HIGH, HEIGHT, STAND, SIDE)
WALKS = Where("the job gives a plan, and alarms are confirmed by a second zone", lambda papers: PLAN.holds(papers) and SEQUENTIAL.holds(papers))
WALKED = "the plan, as one walks from one step inside"
SAY = "say in the proposal that no alarm there can be confirmed"


@rule("part-cannot-confirm", Severity.FIX, also=ALSO, where=SEQUENTIAL, source=PRACTICE,
      compares="the units in each part of the premises that is joined inside with those of them that may confirm another's alarm",
      mends="Write confirms: true at a second unit there, or add one; or say in the proposal that no alarm there can be confirmed.")
def part_cannot_confirm(papers: Papers, results: Results) -> Iterator[Hit]:
    """In a part of the premises no alarm can be confirmed.

    Whoever breaks in there meets no second, independent unit, so that nobody is sent. The customer must know that, or it must be mended.
    """
    if not any(one.confirms for one in papers.job.devices.values()):
        # That nothing confirms anywhere is another rule's finding.
        return
    for part in results.coverage.pairs:
        if part.alone:
            yield _alone(part, [one for one in results.coverage.confirmed if one.room in part.rooms and one.reached])


def _alone(part: Pairs, ways: list[Confirmed]) -> Hit:
    units = sentence_list(list(part.units))
    near = [(way, one) for way in ways for one in _met(way)]
    way, met = min(near, key=lambda one: one[1].metres, default=(None, None))
    if met:
        do = f"Write confirms: true at {met.unit}, the nearest that is met behind {way.opening}, {_on(met)}, or add a movement detector there."
    elif len(part.units) > 1:
        free = [name for name in part.units if name not in part.confirming]
        do = f"Write confirms: true at {free[-1]} if it sees an intruder after another did, or add a movement detector there."
    else:
        do = f"Add a second unit there with confirms: true{_where(ways[0]) if ways else ''}."
    by = [f"{one.opening} ({sentence_list(list(one.first))} first{_next(one)})" for one in ways]
    return Hit(f"job.devices.{part.units[0]}.confirms", f"In {sentence_list(list(part.rooms))} no alarm can be confirmed: {units} "
               f"{'is' if len(part.units) == 1 else 'are'} there, and {sentence_list(list(part.confirming)) or 'none of them'} may confirm."
               f"{f' Ways in: {sentence_list(by)}.' if by else ''}", f"{do} Or {SAY}.",
               (Value("units there", str(len(part.units)), "", "job.devices"),
                Value("may confirm", ", ".join(part.confirming) or "none", "", "job.devices"),
                Value("wanted", "1 besides the first", "", PRACTICE)))


@rule("opening-unconfirmed", Severity.FIX, also=ALSO, where=WALKS, source=PRACTICE,
      compares="the units that may confirm and are met by whoever walks on from each opening within reach with one besides the first",
      mends="Write confirms: true at a unit that is met on the way, or add one behind the opening.")
def opening_unconfirmed(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """An alarm on a way in meets no second unit that may confirm it.

    Others in the house may confirm, but none that whoever comes in here walks into. So one alarm comes, nobody confirms it, and nobody is sent.
    """
    alone = {room for part in results.coverage.pairs if part.alone for room in part.rooms}
    lost: dict[str, list[str]] = {}
    for way in results.coverage.confirmed:
        if not way.reached or way.room in alone:
            continue
        if isinstance(way.ahead, Unknown):
            lost.setdefault(way.ahead.reason, []).append(way.opening)
        elif not way.by:
            yield _unconfirmed(papers, way)
    for reason, openings in lost.items():
        yield Unchecked(f"what may confirm an alarm of whoever comes in by {sentence_list(openings)} is not known: {reason}")


def _unconfirmed(papers: Papers, way: Confirmed) -> Hit:
    storey, _ = papers.openings()[way.opening]
    met = next(iter(_met(way)), None)
    do = f"Write confirms: true at {met.unit} if the station may take its alarm as a second one" if met else \
        f"Add a second unit with confirms: true{_where(way)}"
    return Hit(f"job.premises.storeys.{storey}.openings.{way.opening}",
               f"Whoever comes in by {way.opening} sets off {sentence_list(list(way.first))} first, and meets no unit that may confirm it{_next(way)}.",
               f"{do}; or say in the proposal that an alarm there is not confirmed.",
               (Value("met that may confirm", "0", "", WALKED), Value("wanted", "1 besides the first", "", PRACTICE),
                *((Value(f"{met.unit}, which may not", number(met.metres), "m on", WALKED),) if met else ())))


@rule("confirmed-farther-on", Severity.ASK, also=ALSO, where=WALKS, source=PRACTICE,
      compares="the way to the next unit off the entry route that whoever comes in meets, and that may not confirm, with the way to the first that may",
      mends="Write confirms: true at the unit that is met sooner, or leave it so and say why.")
def confirmed_farther_on(papers: Papers, results: Results) -> Iterator[Hit]:
    """A unit that is met sooner may not confirm.

    Whoever needs not go farther than that is never confirmed: what is upstairs is taken by the way that they came.
    """
    found: dict[str, list[tuple[Confirmed, Ahead, Ahead]]] = {}
    for way in results.coverage.confirmed:
        last = way.confirming
        for one in way.ahead if last and way.reached else ():
            if one.unit in last.past and last.room not in (one.room, way.room) and one.off_route:
                found.setdefault(one.unit, []).append((way, one, last))
                break
    for name, ways in found.items():
        way, one, last = max(ways, key=_gap_m)
        said = [f"by {each.opening} {_on(sooner)}, with {later.unit} {_on(later)}" for each, sooner, later in ways]
        yield Hit(f"job.devices.{name}.confirms",
                  f"{name} may not confirm an alarm, and whoever comes in meets it before any unit that may: {'; '.join(said)}.",
                  f"Write confirms: true at {name}, or leave it so and {SAY} until {last.unit} is met.",
                  (Value(f"{name} from {way.opening}", number(one.metres), "m on", WALKED),
                   Value(f"{last.unit}, which may confirm", number(last.metres), "m on", WALKED)))


def _gap_m(found: tuple[Confirmed, Ahead, Ahead]) -> float:
    _, sooner, later = found
    return later.metres - sooner.metres


def next_met(results: Results) -> str:
    """The unit off the entry route that is met next behind most ways in, with how far on; "" where no way is known."""
    behind: dict[str, list[Ahead]] = {}
    for way in results.coverage.confirmed:
        if way.reached and (one := next((one for one in _met(way) if one.off_route), None)):
            behind.setdefault(one.unit, []).append(one)
    if not behind:
        return ""
    name, met = max(behind.items(), key=lambda one: len(one[1]))
    farthest = max(met, key=lambda one: one.metres)
    return f"{name} is the next that is met behind {count(len(met), 'way')} in, {_on(farthest)} at the farthest"


def _met(way: Confirmed) -> tuple[Ahead, ...]:
    return () if isinstance(way.ahead, Unknown) else way.ahead


def _on(one: Ahead) -> str:
    return "at once" if one.at_once else f"{amount(one.metres, 'm')} on"


def _next(way: Confirmed) -> str:
    met = next(iter(_met(way)), None)
    return f"; the next that is met, {met.unit}, {_on(met)}, may {'' if met.confirms else 'not'}".rstrip() if met else ""


def _where(way: Confirmed) -> str:
    """Where one would be met: in the room of the opening, or behind its nearest door."""
    on = f", or in {way.on[0][0]}, whose door is {amount(way.on[0][1], 'm')} on" if way.on else ""
    return f" in {way.room}, behind {way.opening}{on}"
