"""How is the alarm turned on, in part or whole, and off, with what this house has to do it?"""
from collections.abc import Iterator

from generator.model.papers import Papers
from generator.model.premises import OUTSIDE
from generator.pages.homeowner_morning import morning_topics
from generator.pages.homeowner_words import AT_HAND, Step, Topic, TopicsView, Voice, at_hand, entry_doors, kinds_of, place_at_hand, steps
from generator.procedure.handling import opening_name
from generator.terms.show import lower, sentence_list

# What completes setting, said after "Shut the door." or "Shut the door by which you left."
COMPLETES = {
    "exit-time": "Shut the door behind you. When the time is over, the alarm is {is_set}.",
    "final-door": "Shut the door firmly behind you. The alarm is {is_set} soon after the door is closed.",
    "button": "Shut the door behind you and press the button outside, and the alarm is {is_set}.",
    "tag": "Shut the door behind you and hold your tag to the reader, and the alarm is {is_set}.",
    "lock": "Shut the door behind you and lock it with the key, and the alarm is {is_set}.",
}
# What people carry for each way.
CARRIED_TO = {"fob": "fob", "reader": "tag"}
ANY_COMPLETES = "Shut the door behind you, and wait until you know that the alarm is {is_set}."


def setting_view(papers: Papers, say: Voice) -> TopicsView:
    """The page on turning the alarm on and off."""
    words = Topic("words", say("Two words that you will meet"), (
        say("To {set} the alarm means to turn it on, and to {unset} it means to turn it off."),
        say("If there is a fire, get out at once and do not stop to turn the alarm off.")))
    return TopicsView((words, set_topic(papers, say), unset_topic(papers, say), *part_set_topics(papers, say), *morning_topics(papers, say),
                       _forgot(papers, say)))


def set_topic(papers: Papers, say: Voice, short: bool = False) -> Topic:
    """Five steps to turn it on and go out; in short, of its ways only the first in full."""
    completes = COMPLETES.get(papers.job.times.completes_by or "", ANY_COMPLETES)
    return Topic("on", say("When you go out: {set} the alarm"), steps=steps(
        say("Shut and lock everything, and see that nobody stays behind.") if short
        else say("Shut and lock every door and every window."),
        "" if short else say("Make sure that nobody stays behind in the house."),
        _ways(papers, say, short, keypad=say("Go to the {place} and {set} the alarm with your own code.", place=place_at_hand(papers, say)),
              reader=say("Hold your tag to the {reader} to {set} it.", reader=place_at_hand(papers, say, ("reader",))),
              fob=say("Press your fob to {set} it.")),
        say("Leave the house by {doors}. You have {seconds} seconds to get out.", doors=entry_doors(papers, say), seconds=papers.job.times.exit_s),
        say(completes)))


def unset_topic(papers: Papers, say: Voice, short: bool = False) -> Topic:
    """Five steps to come home and turn it off. The time that there is stands on no paper; in short, not even on the screen."""
    seconds = say("You have {seconds} seconds to turn the alarm off.", seconds=papers.job.times.entry_s)
    return Topic("off", say("When you come home: {unset} the alarm"), steps=steps(
        say("Come in by {doors}, and by no other way.", doors=entry_doors(papers, say)),
        "" if short else Step(say("The alarm starts to beep as soon as the door is open."), seconds),
        _straight(papers, say, short),
        _ways(papers, say, short, keypad=say("Type your own code on the keypad to {unset} the alarm."),
              reader=say("Hold your tag to the reader to {unset} it."),
              fob=say("Press your fob as we showed you, inside or before you open the door.")),
        say("The beeps stop, and you know that the alarm is {is_unset}.")))


def _straight(papers: Papers, say: Voice, short: bool) -> str:
    """Where to go from each door: to what stands in the room behind it, as far as rooms tell, else to the usual place."""
    usual = place_at_hand(papers, say)
    first = say("Go straight to the {place}.", place=usual) if short else say("Go straight to the {place}, and do nothing else first.", place=usual)
    return " ".join((first, *(_from_door(papers, key, name, say) for key, name in _behind(papers).items() if at_hand(papers, name, say) != usual)))


def _behind(papers: Papers) -> dict[str, str]:
    """By each door by which people come: the first keypad or reader in the room behind it; no entry where there is none."""
    stands = {key: [name for name, device in papers.job.devices.items() if papers.sheet_of[name].kind in AT_HAND
                    and papers.room_of(device) in set(opening.wall) - {OUTSIDE}]
              for key, (_, opening) in papers.openings().items() if opening.entry}
    return {key: names[0] for key, names in stands.items() if names}


def _from_door(papers: Papers, key: str, name: str, say: Voice) -> str:
    """What to do behind one door. A reader takes a tag and no code: without one, people come in where there is a keypad."""
    door, place = opening_name(papers, key), at_hand(papers, name, say)
    if papers.sheet_of[name].kind == "keypad":
        return say("From the {door}, go to the {place}.", door=door, place=place)
    behind = _behind(papers)
    others = [opening_name(papers, one) for one, (_, opening) in papers.openings().items()
              if opening.entry and (one not in behind or papers.sheet_of[behind[one]].kind == "keypad")]
    without = (say("It takes no code, so without a tag come in by the {door}.", door=sentence_list(others, say("or the"))) if others
               else say("It takes no code, so never leave the house without your tag."))
    return " ".join((say("From the {door}, go to the {place} and hold your tag to it.", door=door, place=place), without))


def part_set_topics(papers: Papers, say: Voice) -> Iterator[Topic]:
    """Four steps for each way of turning part of it on. Which rooms stay on is shown in person and stands on no page."""
    for index, one in enumerate(papers.job.part_sets.values(), 1):
        yield Topic(f"part-{index}", say("When you stay in: {name}", name=one.name), (say("Use it when {when}.", when=one.when),), steps=steps(
            say("Shut every door and window that leads outside."),
            say("Go to the {place}.", place=place_at_hand(papers, say)),
            say("Choose {name} with your own code, and the alarm is {is_part_set}.", name=one.name),
            say("Always {unset} the alarm before you open a door or a window.")),
            last=(say("Part of the house is now on, so walk only where we showed you."),
                  say("If you are not sure where, {unset} the alarm first and ask us by day."),
                  say("If you write down where you may walk, keep the paper in a drawer.")))


def _forgot(papers: Papers, say: Voice) -> Topic:
    return Topic("forgot", say("You forgot something"), steps=steps(
        say("Do not run back into the house."), say("Wait outside until you know that the alarm is {is_set}."),
        say("Then come in by {doors} and {unset} it as you always do.", doors=entry_doors(papers, say))))


def _ways(papers: Papers, say: Voice, short: bool, **ways: str) -> str:
    """What to do with what this house has: the first way as it stands, each other begun with "or", or in short all others in one."""
    kinds = kinds_of(papers)
    had = [way for kind, way in ways.items() if kind in kinds]
    if not had:
        return say("Do it the way that we showed you.")
    others = [say(thing) for kind, thing in CARRIED_TO.items() if kind in kinds and ways[kind] != had[0]]
    if short and others:
        return " ".join((had[0], say("Or use your {things} as we showed you.", things=sentence_list(others, say("or")))))
    return " ".join((had[0], *(say("Or {way}", way=lower(way)) for way in had[1:])))
