"""How is the alarm turned on, in part or whole, and off, with what this house has to do it?"""
from collections.abc import Iterator

from generator.model.papers import Papers
from generator.model.premises import OUTSIDE
from generator.pages.homeowner.calls import BLANK, after_false_alarm, with_our_numbers
from generator.pages.homeowner.morning import morning_topics
from generator.pages.homeowner.words import AT_HAND, Step, Topic, TopicsView, Voice, at_hand, entry_doors, kinds_of, place_at_hand, steps
from generator.procedure.handling import opening_name
from generator.terms.show import capital, lower, sentence_list

# What completes setting, said after "Shut the door." or "Shut the door by which you left."
COMPLETES = {
    "exit-time": "Shut the door behind you. When the time is over, the alarm is {is_set}.",
    "final-door": "Shut the door firmly behind you. The alarm is {is_set} soon after the door is closed.",
    "button": "Shut the door behind you and press the button outside, and the alarm is {is_set}.",
    "tag": "Shut the door behind you and hold your tag to the reader, and the alarm is {is_set}.",
    "lock": "Shut the door behind you and lock it with the key, and the alarm is {is_set}.",
}
# What people use, said to somebody who sees it for the first time.
WORDS = {
    "keypad": "A keypad hangs on a wall and has the buttons on which you type your code.",
    "reader": "A tag reader hangs on a wall too, but you hold your tag to it and type no code.",
    "tag": "A tag is a small thing without buttons that you carry with your keys.",
    "fob": "A fob is a small remote control with buttons that you carry with you.",
    "sounder": "A sounder is the part of the alarm that makes the loud noise.",
}
# What people carry for each way.
CARRIED_TO = {"fob": "fob", "reader": "tag"}
ANY_COMPLETES = "Shut the door behind you, and wait until you know that the alarm is {is_set}."


def setting_view(papers: Papers, say: Voice) -> TopicsView:
    """The page on turning the alarm on and off."""
    return TopicsView((_words(papers, say), set_topic(papers, say), unset_topic(papers, say), *part_set_topics(papers, say),
                       *morning_topics(papers, say), _forgot(papers, say), _if_not(papers, say)))


def _words(papers: Papers, say: Voice) -> Topic:
    """What the words of these pages mean, of things only what this house has."""
    kinds = kinds_of(papers)
    return Topic("words", say("Words that you will meet"), (
        say("If there is a fire, get out at once and do not stop to turn the alarm off."),), points=(
        say("To {set} the alarm means to turn it on, and to {unset} it means to turn it off."),
        *((say("{Part_set} means that it is on in part of the house, while you are at home.", Part_set=capital(say("{is_part_set}"))),)
          if papers.job.part_sets else ()),
        *(say(text) for kind, text in WORDS.items() if kind in kinds)))


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
        say("Leave the house by {doors}.", doors=entry_doors(papers, say)) if short
        else say("Leave the house by {doors}. You have {seconds} seconds to get out.", doors=entry_doors(papers, say),
                 seconds=papers.job.times.exit_s),
        say(completes)), last=() if short else (
        say("If you are still inside near the end of that time, {unset} it and begin again."),
        say("If this time is too short for somebody in your family, tell us and we change it."),
        say("How you see later whether it is {is_set}, as we showed you: {blank}", blank=BLANK)))


def unset_topic(papers: Papers, say: Voice, short: bool = False) -> Topic:
    """Five steps to come home and turn it off, the easiest way first; in short fewer. The time that there is stands on no paper;
    in short, not even on the screen."""
    seconds = say("You have {seconds} seconds to turn the alarm off.", seconds=papers.job.times.entry_s)
    beeps = say("The alarm starts to beep as soon as the door is open.")
    come_in = _come_in(papers, say, short)
    fob = "fob" in kinds_of(papers)
    first = (say("With a fob: press it outside, as we showed you.") if short
             else say("With a fob: press it before you open the door, as we showed you."),) if fob else ()
    in_steps = (come_in,) if short else (Step(f"{come_in} {beeps}", seconds),) if fob else (come_in, Step(beeps, seconds))
    return Topic("off", say("When you come home: {unset} the alarm"), steps=steps(
        *first, *in_steps,
        _straight(papers, say, short),
        _ways(papers, say, short, keypad=say("Type your own code on the keypad to {unset} the alarm."),
              reader=say("Hold your tag to the reader to {unset} it."),
              **({"fob": say("Press your fob as we showed you.")} if not kinds_of(papers) & set(AT_HAND) else {})),
        "" if short else say("The beeps stop, and you know that the alarm is {is_unset}.")))


def _come_in(papers: Papers, say: Voice, short: bool) -> str:
    """By which doors, those behind which a code helps first: behind the others a tag or a fob is all that turns it off."""
    coded, tagged = _doors(papers)
    if not (coded and tagged):
        return (say("Come in by {doors} only.", doors=entry_doors(papers, say)) if short
                else say("Come in by {doors}, and by no other way.", doors=entry_doors(papers, say)))
    code_doors = say("the {door}", door=sentence_list(coded, say("or the")))
    if short:
        return say("Come in by {doors}, or another way that we showed you.", doors=code_doors)
    things = [say(thing) for kind, thing in CARRIED_TO.items() if kind in kinds_of(papers)]
    return " ".join((say("Come in by {doors}.", doors=code_doors),
                     say("Come in by the {door} only with a {things}, and by no other way.", door=sentence_list(tagged, say("or the")),
                         things=sentence_list(things or [say("tag")], say("or")))))


def _doors(papers: Papers) -> tuple[list[str], list[str]]:
    """The doors by which people come: those behind which a code can be typed, and those behind which there is a reader alone."""
    behind = _behind(papers)
    own = {key: opening_name(papers, key) for key, (_, opening) in papers.openings().items() if opening.entry}
    tagged = [key for key in own if key in behind and papers.sheet_of[behind[key]].kind != "keypad"]
    return [name for key, name in own.items() if key not in tagged], [own[key] for key in tagged]


def _straight(papers: Papers, say: Voice, short: bool) -> str:
    """Where to go from each door: to what stands in the room behind it, as far as rooms tell, else to the usual place. In short, what
    is behind which door stands nowhere."""
    usual = place_at_hand(papers, say)
    coded, tagged = _doors(papers)
    others = {key: name for key, name in _behind(papers).items() if at_hand(papers, name, say) != usual}
    told = {opening_name(papers, key) for key in others}
    if short:
        return say("Go straight to the {place}.", place=usual) if coded and told <= set(tagged) else say("Go straight to the place that we showed you.")
    usually = [one for one in coded if one not in told]
    first = (say("From the {door}, go straight to the {place}, and do nothing else first.", door=sentence_list(usually, say("or the")), place=usual)
             if others and usually else say("Go straight to the {place}, and do nothing else first.", place=usual) if not others else "")
    return " ".join(filter(None, (first, *(_from_door(papers, key, name, say) for key, name in others.items()))))


def _behind(papers: Papers) -> dict[str, str]:
    """By each door by which people come: the first keypad or reader in the room behind it; no entry where there is none."""
    stands = {key: [name for name, device in papers.job.devices.items() if papers.sheet_of[name].kind in AT_HAND
                    and papers.room_of(device) in set(opening.wall) - {OUTSIDE}]
              for key, (_, opening) in papers.openings().items() if opening.entry}
    return {key: names[0] for key, names in stands.items() if names}


def _from_door(papers: Papers, key: str, name: str, say: Voice) -> str:
    """What to do behind one door. A reader takes a tag and no code."""
    door, place = opening_name(papers, key), at_hand(papers, name, say)
    if papers.sheet_of[name].kind == "keypad":
        return say("From the {door}, go to the {place}.", door=door, place=place)
    tag = say("From the {door}, go to the {place} and hold your tag to it.", door=door, place=place)
    return tag if _doors(papers)[0] else " ".join((tag, say("The reader takes no code, so never leave the house without your tag.")))


def part_set_topics(papers: Papers, say: Voice) -> Iterator[Topic]:
    """Four steps for each way of turning part of it on. Which rooms stay on is shown in person and stands on no page."""
    for index, one in enumerate(papers.job.part_sets.values(), 1):
        yield Topic(f"part-{index}", say("When you stay in: {name}", name=one.name), (say("Use it when {when}.", when=one.when),), steps=steps(
            say("Shut every door and window that leads outside."),
            say("Go to the {place}.", place=place_at_hand(papers, say)),
            say("Choose {name} with your own code, as we showed you. Then the alarm is {is_part_set}.", name=one.name),
            say("Always {unset} the alarm before you open an outside door or a window.")),
            last=(say("Part of the house is now on, so walk only where we showed you."),
                  say("Keep a telephone and the key of the door with you, also by your bed."),
                  say("If you are not sure where, {unset} the alarm first and ask us by day."),
                  say("If you write down where you may walk, keep the paper in a drawer.")))


def _forgot(papers: Papers, say: Voice) -> Topic:
    return Topic("forgot", say("You forgot something"), steps=steps(
        say("Do not run back into the house."), _set_outside(papers, say),
        say("Then come in by {doors} and {unset} it as you always do.", doors=entry_doors(papers, say))))


def _if_not(papers: Papers, say: Voice) -> Topic:
    """What to do where a code or what is carried does nothing."""
    kinds = kinds_of(papers)
    return with_our_numbers(Topic("nothing", say("You type or press, and nothing happens"), points=tuple(filter(None, (
        say("You typed a wrong code: wait a moment, and type it again slowly.") if "keypad" in kinds else "",
        say("Your fob does nothing: use your code at the {place}.", place=place_at_hand(papers, say)) if kinds >= {"fob", "keypad"} else "",
        " ".join((say("It sounds meanwhile: let it sound."), after_false_alarm(papers, say))),
        say("It still does not work: call us, by day or by night."))))), papers, say)


def _set_outside(papers: Papers, say: Voice) -> str:
    """How somebody outside knows that it is set: what tells it may be heard and seen inside alone, so by the time that it takes."""
    if papers.job.times.completes_by in ("button", "tag", "lock"):
        return say("Finish turning it on from outside, as you always do.")
    return say("Stay outside, and wait until the {seconds} seconds to get out are over.", seconds=papers.job.times.exit_s)


def _ways(papers: Papers, say: Voice, short: bool, **ways: str) -> str:
    """What to do with what this house has: the first way as it stands, each other begun with "or", or in short all others in one."""
    kinds = kinds_of(papers)
    had = [way for kind, way in ways.items() if kind in kinds]
    if not had:
        return say("Do it the way that we showed you.")
    others = [say(thing) for kind, thing in CARRIED_TO.items() if kind in kinds and ways.get(kind, had[0]) != had[0]]
    if short and others:
        return " ".join((had[0], say("Or use your {things} as we showed you.", things=sentence_list(others, say("or")))))
    return " ".join((had[0], *(say("Or {way}", way=lower(way)) for way in had[1:])))
