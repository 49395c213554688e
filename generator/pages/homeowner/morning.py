"""How does somebody who slept while part of the alarm was on get up, in the morning or at night, and turn it off?"""
from collections.abc import Iterator

from generator.model.papers import Papers
from generator.pages.homeowner.words import Topic, Voice, kinds_of, place_at_hand, steps


def morning_topics(papers: Papers, say: Voice) -> Iterator[Topic]:
    """Getting up, in a house that can be set in part; no page says which rooms are on."""
    if papers.job.part_sets:
        yield Topic("morning", say("When you get up, in the morning or at night"), steps=steps(
            say("For the toilet only: leave the alarm on, and walk only where we showed you."),
            " ".join(filter(None, (
                say("To go farther, {unset} the alarm first."),
                say("With a fob by your bed, press it before you leave the room.") if _has_fob(papers) else "",
                _to_keypad(papers, say)))),
            say("When you go back to bed, turn that part of the alarm on again."),
            own_steps(say)),
            last=(say("Ask us before the first night if you are not sure of the way."),))


def own_steps(say: Voice) -> str:
    """What the beeps mean to somebody who walks in the house that is on in part."""
    return say("If beeps start as you walk or open an outside door, it was probably you, so {unset} the alarm at once.")


def in_short(papers: Papers, say: Voice) -> str:
    """Getting up in one sentence, for the large print."""
    return (say("When you get up, press your fob in bed or go the way that we showed you, and {unset} it.") if _has_fob(papers)
            else say("When you get up, go the way that we showed you and {unset} it."))


def _has_fob(papers: Papers) -> bool:
    return "fob" in kinds_of(papers)


def _to_keypad(papers: Papers, say: Voice) -> str:
    """The way to where it is turned off. It leads through what is left out, which no homeowner's page tells: it was shown."""
    way = say("go to the {place} by the way that we showed you, and {unset} the alarm there.", place=place_at_hand(papers, say))
    return say("Without a fob, {way}", way=way) if _has_fob(papers) else say("For that, {way}", way=way)
