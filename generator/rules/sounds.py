"""Does everybody wake: is an inside sounder loud enough in every bedroom with the doors shut?"""
from collections.abc import Iterator

from generator.calc.house.sound import SHUT, SHUT_MILD, WAKE, Heard
from generator.calc.results import Results
from generator.calc.unknown import Unknown
from generator.model.papers import Papers
from generator.rules.coverage import PLAN
from generator.rules.finding import Hit, Severity, Unchecked, Value
from generator.rules.registry import rule
from generator.terms.show import amount, count, number

SOURCE = "levels of the units' sheets, inverse square, and doors as they were measured; the local fire code decides for fire"


@rule("bedroom-too-quiet", Severity.FIX, limits=(WAKE, SHUT), also=(SHUT_MILD,), source=SOURCE, where=PLAN,
      compares="the level of the loudest inside sounder in each bedroom, every door shut, with the level that wakes sleepers",
      mends="Add a sounder nearer to the bedroom or in it, or take a louder one.")
def bedroom_too_quiet(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """In a bedroom no sounder inside the house is loud enough to wake.

    Whoever sleeps on does not know that somebody is in the house. What must be heard in a fire the local fire code decides, not this.
    """
    reasons: dict[str, list[str]] = {}
    for room, found in results.sound.bedrooms.items():
        if isinstance(found, Unknown):
            reasons.setdefault(found.reason, []).append(room)
        elif not found[0].level.holds():
            yield _quiet(papers, found[0])
    for reason, rooms in reasons.items():
        yield Unchecked(f"what is heard in {', '.join(rooms)} is not known: {reason}")


def _quiet(papers: Papers, one: Heard) -> Hit:
    storey, _ = papers.rooms()[one.room]
    limit, level = one.level.limit, one.level.value
    missing = limit.value - level
    return Hit(f"job.premises.storeys.{storey}.rooms.{one.room}.sleeping",
               f"In {one.room} {one.sounder} comes to {amount(level, 'dB(A)', 0)} at least behind {count(len(one.way.doors), 'shut door')} and "
               f"{amount(one.way.length_m, 'm')} away; {limit.shown()} wake.",
               f"Add a sounder on the near side of the doors, at most {amount(one.within_m, 'm', 0)} from the bed with none in between; or one that is "
               f"{amount(missing, 'dB', 0)} louder. Listen at the bed with the doors shut before you leave.",
               (Value("level", number(level, 0), "dB(A)", "worked out on the page Seen and heard"),
                Value("wakes from", number(limit.value), "dB(A)", limit.origin)))
