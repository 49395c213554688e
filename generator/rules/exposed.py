"""Can a stranger see the keypad, or reach it, or the sounder?"""
from collections.abc import Iterator

from generator.calc.house.exposed import ABOVE, INSURER, LETTER, KeypadPlace
from generator.calc.house.reach import GROUND, SIDE, STAND
from generator.calc.results import Results
from generator.calc.unknown import Unknown
from generator.calc.working import Given
from generator.model.papers import Papers
from generator.rules.coverage import PLAN
from generator.rules.finding import Hit, Severity, Unchecked, Value
from generator.rules.registry import rule
from generator.tables.sources import PRACTICE
from generator.terms.show import amount, digits, number, rough, sentence_list


@rule("keypad-exposed", Severity.FIX, also=(LETTER,), source=PRACTICE, where=PLAN,
      compares="the panes to the open air through which each keypad or reader is seen, with none, and its distance from a letter plate with an arm's "
               "reach",
      mends="Move it to the return wall, or have the glass made so that nobody sees through.")
def keypad_exposed(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """A keypad is seen through glass from outside, or reached through a letter plate.

    A stranger at the door sees whether the alarm is set and which keys are pressed.
    """
    for name, one in results.coverage.keypads.items():
        if isinstance(one, Unknown):
            yield Unchecked(f"what is seen of {name} from outside is not known: {one.reason}")
            continue
        near = [plate for plate in one.plates if isinstance(one.reach, Given) and plate.away_m <= one.reach.value]
        if one.through or near:
            yield _exposed(papers, one, near)


def _exposed(papers: Papers, one: KeypadPlace, near: list) -> Hit:
    seen = [f"{pane.opening}, {amount(pane.away_m, 'm')} away" for pane in one.through]
    says = [f"is seen from outside through {sentence_list(seen)}"] if seen else []
    says += [f"is {rough(plate.away_m, 'm')} from the letter plate of {plate.opening}, within an arm's reach of {one.reach.shown()}" for plate in near]
    film = f"film the glass of {sentence_list([pane.opening for pane in one.through])}" if seen else "close the letter plate and fit a box"
    move = f"Move it to the return wall: at_m: [{digits(one.to.x)}, {digits(one.to.y)}], {amount(one.to_m, 'm')} away, is not seen; or {film}." \
        if one.to else f"No place on the walls of this room is out of sight: choose another room, or {film}." if seen else f"Move it farther away, or {film}."
    plates = tuple(Value(f"letter plate of {plate.opening}", digits(plate.away_m), "m away", "the plan") for plate in near or one.plates)
    reach = (Value("arm's reach", digits(one.reach.value), "m", one.reach.origin),) if plates and isinstance(one.reach, Given) else ()
    return Hit(f"job.devices.{one.unit}.at_m" if papers.job.devices[one.unit].at_m else f"job.devices.{one.unit}",
               f"{one.unit} {' and '.join(says)}.", move,
               (*(Value(pane.opening, number(pane.away_m), "m away", "the plan") for pane in one.through),
                *((Value("wanted in sight", "none", "", PRACTICE),) if one.through else ()), *plates, *reach))


@rule("sounder-in-reach", Severity.FIX, limits=(ABOVE, STAND, SIDE), also=(INSURER,), source=PRACTICE,
      compares="the height of each outside sounder, above the ground and above roofs beside it, with the height that the profile wants",
      mends="Hang it higher, or away from what one can stand on.")
def sounder_in_reach(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """An outside sounder can be reached from the ground or from a roof.

    It is the first thing that is torn off or filled with foam.
    """
    for name, places in results.coverage.sounders.items():
        if isinstance(places, Unknown):
            yield Unchecked(f"whether {name} can be reached is not known: {places.reason}")
            continue
        for one in places:
            if one.reached:
                where = one.origin if one.origin == GROUND else f"the roof {one.origin}"
                missing = one.limit.value - one.above_m
                height = papers.job.devices[name].height_m
                yield Hit(f"job.devices.{name}.height_m", f"{name} hangs {rough(one.above_m, 'm')} above {where}; {one.limit.shown()} are wanted.",
                          f"Hang it {rough(missing, 'm')} higher, at height_m: {digits(height + missing)}"
                          f"{'' if one.origin == GROUND else ', or farther along the wall than an arm and a step from the roof'}.",
                          (Value(f"above {where}", digits(one.above_m), "m", f"job.devices.{name}.height_m" if one.origin == GROUND else
                                 f"job.devices.{name}.height_m and job.premises.roofs.{one.origin}.height_m"),
                           Value("wanted", digits(one.limit.value), "m", one.limit.origin)))
