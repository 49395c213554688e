"""Can somebody from outside the house come when the alarm sounds, and soon enough?"""
from collections.abc import Iterator

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.rules.asked import AUDIBLE, MONITORED, PEOPLE, limit_text, limited
from generator.rules.finding import Hit, Severity, Unchecked, Value
from generator.rules.registry import rule
from generator.tables.sources import PRACTICE
from generator.terms.show import capital, count, number, sentence_list

LEAST, ATTEND = "keyholders_least", "keyholder_attend_min"
AT = "people.keyholders"
# Rows that the installer may not see.
READ = ("people.keyholders.*", "people.keyholders.*.lives_here")
READ_TIMES = (*READ, "people.keyholders.*.arrives_min")
READ_HANDS = (*READ, "people.keyholders.*.has_key", "people.keyholders.*.can_unset")
ANOTHER = "Ask the customer for another who lives elsewhere, and have them agree to be listed and shown the system."


def _few(papers: Papers) -> Iterator[Hit | Unchecked]:
    """Fewer keyholders outside the house than the profile wants; those of whom nobody knows it are no answer."""
    holders, least = papers.people.keyholders, papers.profile.limits[LEAST].value
    inside = [key for key, one in holders.items() if one.lives_here]
    unknown = [key for key, one in holders.items() if one.lives_here is None]
    outside = len(holders) - len(inside) - len(unknown)
    if outside + len(unknown) < least:
        live = f", of whom {len(inside)} {'lives' if len(inside) == 1 else 'live'} in the house" if inside else ""
        yield Hit(AT, f"{count(len(holders), 'keyholder')}{live}; {limit_text(papers, LEAST)} from outside are wanted.", ANOTHER,
                  (Value("keyholders", str(len(holders)), "", AT), Value("live here", str(len(inside)), "", f"{AT}.-.lives_here"),
                   Value("from outside", str(outside + len(unknown)), "", AT), limited(papers, LEAST, "at least")))
    elif outside < least:
        yield Unchecked(f"people.yaml does not say whether {sentence_list(unknown, 'or')} {'live' if len(unknown) > 1 else 'lives'} in the house")


@rule("keyholders-few", Severity.STOP, where=MONITORED, needs=(PEOPLE,), limits=(LEAST,), reads=READ,
      compares="the keyholders who do not live in the house with the fewest that the profile asks for",
      mends=ANOTHER)
def keyholders_few(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """A monitored system has too few keyholders from outside the house.

    Police and station send nobody where nobody can let them in, and whoever lives there is away when it matters.
    """
    yield from _few(papers)


@rule("keyholders-few-audible", Severity.ASK, where=AUDIBLE, needs=(PEOPLE,), limits=(LEAST,), reads=READ,
      compares="the keyholders who do not live in the house with the fewest that a monitored system would need",
      mends=ANOTHER)
def keyholders_few_audible(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """A system that only sounds has few keyholders from outside the house.

    It sounds until somebody comes; the council may enter to silence it where no keyholder is found.
    """
    yield from _few(papers)


def _late(papers: Papers) -> Iterator[Hit | Unchecked]:
    """Fewer keyholders outside the house than wanted who are there in time."""
    least, longest = papers.profile.limits[LEAST].value, papers.profile.limits[ATTEND].value
    outside = {key: one.arrives_min for key, one in papers.people.keyholders.items() if not one.lives_here}
    late = {key: minutes for key, minutes in outside.items() if minutes is not None and minutes > longest}
    unknown = [key for key, minutes in outside.items() if minutes is None]
    soon = len(outside) - len(late) - len(unknown)
    if late and soon + len(unknown) < least:
        need = sentence_list([f"{key} needs {minutes} min" for key, minutes in late.items()])
        yield Hit(AT, f"{capital(need)}; {limit_text(papers, ATTEND)} is the {papers.profile.limits[ATTEND].means}, and "
                  f"{count(soon + len(unknown), 'other keyholder')} can be there by then where {number(least)} are wanted.",
                  "Ask for a keyholder who lives nearer, or a service that comes in time.",
                  (*(Value(f"{key} needs", str(minutes), "min", f"{AT}.{key}.arrives_min") for key, minutes in late.items()),
                   limited(papers, ATTEND, "at most"), Value("in time", str(soon + len(unknown)), "", AT), limited(papers, LEAST, "at least")))
    elif unknown and soon < least:
        yield Unchecked(f"people.yaml does not say how long {sentence_list(unknown, 'or')} {'need' if len(unknown) > 1 else 'needs'} to get there")


@rule("keyholders-late", Severity.STOP, where=MONITORED, needs=(PEOPLE,), limits=(LEAST, ATTEND), reads=READ_TIMES,
      compares="how long keyholders need with the longest that the profile allows",
      mends="Ask for a keyholder who lives nearer, or a service that comes in time.")
def keyholders_late(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """Too few keyholders of a monitored system are there in time.

    The police do not wait longer, and a system whose keyholders are not there can lose its response.
    """
    yield from _late(papers)


@rule("keyholders-late-audible", Severity.ASK, where=AUDIBLE, needs=(PEOPLE,), limits=(LEAST, ATTEND), reads=READ_TIMES,
      compares="how long keyholders need with the longest that the profile asks of a monitored system",
      mends="Ask for a keyholder who lives nearer.")
def keyholders_late_audible(papers: Papers, results: Results) -> Iterator[Hit | Unchecked]:
    """Few keyholders of a system that only sounds are there soon.

    As long as they need the house stands open and the sounder annoys the neighbours.
    """
    yield from _late(papers)


@rule("keyholder-cannot-act", Severity.ASK, where=MONITORED, needs=(PEOPLE,), source=PRACTICE, reads=READ_HANDS,
      compares="has_key and can_unset of each keyholder from outside with what they must be able to do",
      mends="Give them a key and show them the system, or list somebody else.")
def keyholder_cannot_act(papers: Papers, results: Results) -> Iterator[Hit]:
    """A keyholder has no key, or cannot turn the alarm off.

    They come, stand before the door, and the police drive on; the call counts all the same.
    """
    for key, one in papers.people.keyholders.items():
        lacks = [words for given, words in ((one.has_key, "has no key"), (one.can_unset, "cannot unset the system")) if given is False]
        if lacks and not one.lives_here:
            yield Hit(f"{AT}.{key}", f"Keyholder {key} {sentence_list(lacks)}.", "Give them a key and show them the system, or list somebody else.",
                      tuple(Value(name, "false", "", f"{AT}.{key}.{name}") for name in ("has_key", "can_unset") if getattr(one, name) is False))
