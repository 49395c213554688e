"""Will every unit be heard, on a bad day too?"""
from collections.abc import Iterator

from generator.calc.radio.link import Link
from generator.calc.radio.link_limit import MAIN, OUTBUILDING, REPEATER, USUAL
from generator.calc.radio.link_terms import LIMITS as DAY
from generator.calc.radio.mend import Move, NewRepeater
from generator.calc.radio.obstacles import LIMITS as METAL
from generator.calc.radio.place_words import NOT_LOOKED_AT
from generator.calc.radio.repeaters import ways
from generator.calc.results import Results
from generator.calc.unknown import Unknown
from generator.model.papers import Papers
from generator.rules.finding import Hit, Severity, Unchecked, Value
from generator.rules.registry import Where, rule
from generator.terms.show import amount, capital, moved_by, number, sentence_list

GIVEN = Where("the job gives a plan or a radio path", lambda papers: any(one.path for one in papers.job.devices.values()) or any(
    room.corner_m or room.outline_m for storey in papers.job.premises.storeys.values() for room in storey.rooms.values()))
ESTIMATE = "the job's plan and paths, ITU-R P.525 and P.2040, and walls that were measured: an estimate, the on-site check decides"
CHECK = "Do not drill before the check on site."


@rule("link-short", Severity.FIX, limits=(USUAL, MAIN), also=(OUTBUILDING, REPEATER, *DAY, *METAL), source=ESTIMATE, where=GIVEN,
      compares="the margin of each unit's link, in its weaker direction and on a bad day, with the margin that the profile wants for it",
      mends="Move the unit out of what takes most, let it be heard through a repeater, or plan one; then check on site.")
def link_short(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """A radio link would have too little margin on a bad day.

    What is heard on the day of fitting is not heard in the rain, with doors shut and people in the way. Then the unit is missed, or
    its alarm is.
    """
    for name, one in results.links.units.items():
        if isinstance(one.link, Unknown):
            yield Unchecked(f"the link of {name} is not known: {one.link.reason}")
        elif one.link.reserve_db < 0 and not one.link.hopeless:
            yield _short(papers, results, one.link)


@rule("no-link", Severity.FIX, also=(USUAL, MAIN, OUTBUILDING, REPEATER, *DAY, *METAL), source=ESTIMATE, where=GIVEN,
      compares="what arrives of each unit's signal, on a typical day too, with the weakest that the other end understands",
      mends="Plan another place or a repeater before the day; if it is tried all the same, what was measured on site decides.")
def no_link(papers: Papers, results: Results) -> Iterator[Hit]:
    """No radio link is to be expected, not even on a typical day.

    Whoever drives out with this plan stands there with a unit that is not heard, doors open and nobody in the way.
    """
    # Units whose link is not known are named once, by the rule of short links.
    for one in results.links.units.values():
        if isinstance(one.link, Link) and one.link.hopeless:
            yield _none(papers, results, one.link)


def _none(papers: Papers, results: Results, link: Link) -> Hit:
    at, days = _at(papers, link.unit), ("typical", "bad")
    below = {day: number(-link.margin_db(day)) for day in days}
    return Hit(at, f"No link is expected between {link.unit} and {link.receiver}: {below['typical']} dB are missing on a typical day, "
                   f"{below['bad']} dB on a bad one.{_taken(link)}{_behind(papers, link.unit)}", f"{_mend(results, link)} {CHECK}",
               (*(Value(f"margin on a {day} day", number(link.margin_db(day)), "dB", _origin(papers, link.unit)) for day in days),
                Value("wanted", number(link.required.value), "dB", link.required.origin)))


def _at(papers: Papers, name: str) -> str:
    device = papers.job.devices[name]
    return f"job.devices.{name}" + (".path" if device.path else ".at_m" if device.at_m else "")


def _origin(papers: Papers, name: str) -> str:
    return f"{_at(papers, name)}, the written path" if papers.job.devices[name].path else "the plan"


def _taken(link: Link) -> str:
    """What takes most, and the margin on the worse day without it."""
    killer = link.killer
    if killer is None:
        return ""
    built = f" ({killer.construction})" if killer.construction else ""
    loss = killer.loss_db(link.worse)
    without = amount(link.margin_db(link.worse) + loss, "dB")
    return f" What takes most: {killer.kind} {killer.name}{built}, {amount(loss, 'dB')}; without it the margin is {without}."


def _behind(papers: Papers, name: str) -> str:
    """The units that are heard through this one: their way is no better than its own."""
    units = [unit for unit, way in ways(papers.job.devices).items() if name in way]
    if not units:
        return ""
    return f" {sentence_list(units)} {'is' if len(units) == 1 else 'are'} heard through it, and no better than it."


def _short(papers: Papers, results: Results, link: Link) -> Hit:
    margin, at = link.margin_db(link.worse), _at(papers, link.unit)
    heard = f"{link.unit} would be heard by {link.receiver} with a margin of {amount(margin, 'dB')} on a bad day" if margin >= 0 else \
        f"{link.unit} would not be heard by {link.receiver} on a bad day, by {amount(-margin, 'dB')}"
    return Hit(at, f"{heard}; {amount(link.required.value, 'dB')} are wanted.{_taken(link)}{_behind(papers, link.unit)}",
               f"{_mend(results, link)} {CHECK}",
               (Value("margin", number(margin), "dB", _origin(papers, link.unit)),
                Value("wanted", number(link.required.value), "dB", link.required.origin)))


def _mend(results: Results, link: Link) -> str:
    """What costs least first: another receiver that is there, a place near by; where neither does, a repeater; else what to look for."""
    mend = results.mends.units[link.unit]
    said = []
    if mend.other:
        said.append(f"let it be heard through {mend.other.receiver}, with {_margin(mend.other)}: write via: {mend.other.receiver}")
    if isinstance(mend.move, Move):
        said.append(f"move it by {moved_by(mend.move.distance_m)}: {mend.move.place.says}, with {_margin(mend.move.link)} ({NOT_LOOKED_AT})")
    if not said:
        said += [f"plan a repeater: {one.place.says}, with {_margin(one.takes[link.unit])}" for one in _proposed(results) if link.unit in one.takes]
    return capital(f"{'; or '.join(said)}.") if said else "Try another side of the wall or door that takes most, or plan a repeater; carry one."


def _proposed(results: Results) -> tuple[NewRepeater, ...]:
    return results.mends.repeaters if isinstance(results.mends.repeaters, tuple) else ()


def _margin(link: Link) -> str:
    return amount(link.margin_db(link.worse), "dB")
