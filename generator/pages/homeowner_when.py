"""What does somebody in the house do when something happens? Danger first; then the alarm; then what can wait for the day."""
from collections.abc import Iterator

from generator.model.papers import Papers
from generator.pages.homeowner_words import (FIRE_KINDS, Step, Topic, Voice, danger, kinds_of, phones_of_company, place_at_hand, steps)


def when_topics(papers: Papers, say: Voice) -> Iterator[Topic]:
    """Everything that can happen, as far as this house has what it takes."""
    kinds = kinds_of(papers)
    yield danger(say)
    yield from _alarms(papers, say)
    yield from _deadly(kinds, say)
    yield from _buttons(papers, kinds, say)
    yield from _by_day(papers, kinds, say)


def _alarms(papers: Papers, say: Voice) -> Iterator[Topic]:
    agreed = papers.job.monitoring
    yield Topic("here", say("The alarm sounds and you are at home"), steps=steps(
        say("Stay where you are for a moment, and do not go to look."),
        say("If you see or hear a stranger or a fire, get out if you can and call {number}."),
        say("If you know why it sounded, {unset} the alarm with your own code."),
        say("Then call {station} on {telephone}, or answer when they call you.", telephone=agreed.telephone) if agreed
        else say("Then tell your neighbours, so that nobody worries.")),
        last=(say("If you are not sure what it is, go to a neighbour and call {number} from there."),))
    yield Topic("away", say("The alarm sounds and you are away"), steps=steps(
        say("Answer your telephone, because somebody will try to reach you.") if agreed
        else say("Ask a neighbour to look at the house from outside."),
        say("When you come home, do not go in alone."),
        say("If a door is open or a window is broken, stay outside and call {number}."),
        say("If all is shut and quiet, go in with somebody and {unset} the alarm."),
        say("Call us if you cannot find out why it sounded.")))
    yield _mistake(papers, say)


def _mistake(papers: Papers, say: Voice) -> Topic:
    agreed, abort_s = papers.job.monitoring, papers.job.times.abort_s
    in_time = say("If you do it within {seconds} seconds, nobody is called.", seconds=abort_s) if agreed and abort_s else ""
    stop = Step(say("Stay calm and {unset} the alarm with your own code."), in_time)
    if not agreed:
        return Topic("mistake", say("You set it off by mistake"), steps=steps(
            stop, say("Tell your neighbours that it was a mistake and that all is well.")))
    return Topic("mistake", say("You set it off by mistake"), steps=steps(
        stop,
        say("Call {station} at once on {telephone}, or answer when they call you.", telephone=agreed.telephone),
        say("Say your name and the word that you agreed with them, and tell them that it was a mistake.")),
        last=(say("If you are not sure who is calling you, hang up and call {station} yourself."),))


def _deadly(kinds: frozenset[str], say: Voice) -> Iterator[Topic]:
    if kinds & FIRE_KINDS:
        yield Topic("fire", say("A smoke alarm or heat alarm sounds"), steps=steps(
            say("Shout to wake everybody, and get everybody out of the house."),
            say("Shut the doors behind you if you can do it on your way."),
            say("Stay outside and call {number} from there."),
            say("Go back in only when the fire service tells you that you can.")))
    if "carbon-monoxide" in kinds:
        yield Topic("gas", say("The carbon monoxide alarm sounds"), (say("This gas can kill, and you cannot see it or smell it."),), steps=steps(
            say("Get everybody out into the fresh air at once."),
            say("Call {number} from outside, and say so if anybody feels ill or sleepy."),
            say("Go back in only when somebody who knows has told you that you can.")))


def _buttons(papers: Papers, kinds: frozenset[str], say: Voice) -> Iterator[Topic]:
    agreed = papers.job.monitoring
    tell = (say("Call {station} at once on {telephone}, and say your name.", telephone=agreed.telephone) if agreed
            else say("Call us, so that we know about it."))
    if "hold-up" in kinds:
        yield Topic("threat", say("You pressed the button for threats by mistake"), (
            tell, say("Tell them that nobody is in danger. After false calls, help may come more slowly or not at all.")))
    if "medical" in kinds:
        yield Topic("call", say("You pressed the call button by mistake"), (tell, say("Tell them that you are well and need no help.")))


def _by_day(papers: Papers, kinds: frozenset[str], say: Voice) -> Iterator[Topic]:
    place = place_at_hand(papers, say)
    yield Topic("night", say("The alarm beeps at night"), steps=steps(
        say("If it is loud and does not stop, it is a real alarm, so look at the top of this page."),
        say("If it is one short beep now and then, it is not an emergency."),
        say("Look at the {place} and write down what it says.", place=place),
        say("Call us in the morning and read it to us.")),
        last=(say("If you cannot sleep because of it, call our number for the night."),))
    yield Topic("power", say("There is a power cut"), steps=steps(
        say("Leave the alarm as it is. It runs on its own battery for some hours."),
        say("Use the alarm as you always do."),
        say("Your internet box may stop, and then the alarm may not be able to call for help."),
        say("If the power is still off after some hours, call us.")),
        last=(say("When the power is back, the battery needs about a day to fill again."),
              say("Never open the alarm box, because there can be mains power in it.")))
    yield Topic("internet", say("You get a new internet box or telephone line"), steps=steps(
        say("Call us before that day, because the alarm may use this line to call for help."),
        say("Do not unplug anything that belongs to the alarm."),
        say("Call us again when the new box works, so that we can test the alarm together.")))
    yield Topic("weak", say("The alarm says that a battery is weak"), steps=steps(
        say("Call us by day. The alarm will go on for some time yet."),
        say("Tell us the name of the sensor that it shows."),
        say("Do not open anything and do not change the battery yourself, because we do that.")))
    yield Topic("moved", say("Somebody moved a door, a window or a large piece of furniture"), steps=steps(
        say("Do not stick or screw a sensor back in its place yourself."),
        say("Call us, because a sensor may not fit any more, or may not see the whole room."),
        say("Until we have been, look with special care whether all is shut.")))
    yield Topic("refused", say("You cannot {set} the alarm"), steps=steps(
        say("Read what the {place} says, because it may name what is open.", place=place),
        say("Shut every door and every window, and try again."),
        say("If it still does not work, call us before you go out.")))
    if kinds & {"fob", "tag"}:
        yield Topic("lost", say("You lost a fob or a tag"), (say("Call us at once, by day or by night, so that we can stop it from working."),))
    yield Topic("forgot", say("You forgot your code"), (say("Call us by day. We have to ask who you are before we can help."),))
    if "water" in kinds:
        yield Topic("water", say("The alarm says that there is water"), steps=steps(
            say("Keep away from water that is near plugs or wires."),
            say("Turn off the water if you can do it safely, and call a plumber.")))
    if "temperature" in kinds:
        yield Topic("temperature", say("The alarm says that something is too warm or too cold"), (
            say("Look at the thing that the sensor watches. If all is well there, call us by day."),))
    yield Topic("us", say("You need us"), (say("Call {company} on one of these numbers."),), phones_of_company(papers, say))
