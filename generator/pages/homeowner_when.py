"""What does somebody in the house do when something happens? Danger first; then the alarm; then what can wait for the day."""
from collections.abc import Iterator

from generator.model.papers import Papers
from generator.pages.homeowner_night import night_topic, threat_topic
from generator.pages.homeowner_words import (FIRE_KINDS, Step, Topic, Voice, after_false_alarm, danger, kinds_of, maybe_fire,
                                             phones_of_company, place_at_hand, prove, steps)


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
    yield Topic("here", say("The alarm sounds and you are at home"), (say("Do not go to look."),), points=(
        say("A smoke alarm or a gas alarm, or you see or smell fire: everybody out at once. Call {number} from outside."),
        " ".join((say("A stranger may be in the house: shut yourself in the room where you are. Call {number} and stay on the line."),
                  say("Leave that room only if your way out is free."))),
        " ".join((say("You are not sure: think of fire first."), maybe_fire(say),
                  say("Only if nothing looks or smells like fire, do the same as for a stranger."))),
        " ".join((say("You know why it sounded: {unset} the alarm with your own code."), after_false_alarm(papers, say)))))
    yield Topic("away", say("The alarm sounds and you are away"), steps=steps(
        say("Answer your telephone, because somebody will try to reach you.") if agreed
        else say("Ask somebody who lives near to look at the house from outside."),
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
            stop, say("Tell the people next door that it was a mistake and that all is well.")))
    return Topic("mistake", say("You set it off by mistake"), steps=steps(
        stop,
        say("Call {station} at once on {telephone}, or answer when they call you.", telephone=agreed.telephone),
        prove(say), say("Tell them that it was a mistake.")),
        last=(say("If you are not sure who is calling you, hang up and call {station} yourself."),))


def _deadly(kinds: frozenset[str], say: Voice) -> Iterator[Topic]:
    if kinds & FIRE_KINDS:
        yield Topic("fire", say("A smoke alarm or heat alarm sounds"), steps=steps(
            say("Shout to wake everybody, and get everybody out of the house."),
            say("Shut the doors behind you if you can do it on your way."),
            say("Stay outside and call {number} from there."),
            say("Go back in only when the firefighters tell you that you can.")))
    if "carbon-monoxide" in kinds:
        yield Topic("gas", say("The carbon monoxide alarm sounds"), (say("This gas can kill, and you cannot see it or smell it."),), steps=steps(
            say("Get everybody out into the fresh air at once."),
            say("Call {number} from outside, and say so if anybody feels ill or sleepy."),
            say("Go back in only when somebody who knows has told you that you can.")))


def _buttons(papers: Papers, kinds: frozenset[str], say: Voice) -> Iterator[Topic]:
    agreed = papers.job.monitoring
    tell = ((say("Call {station} at once on {telephone}.", telephone=agreed.telephone), prove(say)) if agreed
            else (say("Call us, so that we know about it."),))
    if "hold-up" in kinds:
        yield threat_topic(papers, say)
        yield Topic("no-threat", say("You pressed the threat button by mistake"), (
            *tell, say("Tell them that nobody is in danger. After false calls, help may come more slowly or not at all.")))
    if "medical" in kinds:
        yield Topic("call", say("You pressed the call button by mistake"), (*tell, say("Tell them that you are well and need no help.")))


def _by_day(papers: Papers, kinds: frozenset[str], say: Voice) -> Iterator[Topic]:
    place = place_at_hand(papers, say)
    yield night_topic(papers, say)
    yield Topic("power", say("There is a power cut"), steps=steps(
        say("Leave the alarm as it is, because it runs on its own battery for some hours."),
        say("Use the alarm as you always do."),
        say("Ask us how the alarm calls for help in a power cut, and for how long.") if papers.job.monitoring else "",
        say("If the power is still off after some hours, call us.")),
        last=(say("When the power is back, the battery needs about a day to fill again."),
              say("Never open the alarm box, because the power in it can hurt you.")))
    yield Topic("internet", say("You get new internet or a new telephone line"), steps=steps(
        say("Call us before that day, because the alarm may use this line to call for help."),
        say("Do not unplug anything that belongs to the alarm."),
        say("Call us again when the new line works, so that we can test the alarm together.")))
    yield Topic("weak", say("The alarm says that a battery is weak"), steps=steps(
        say("Call us by day, because the alarm will go on for some time yet."),
        say("Tell us the name of the sensor that it shows."),
        say("Do not open anything and do not change the battery yourself, because we do that.")))
    yield Topic("moved", say("Somebody moved a door, a window or a large piece of furniture"), steps=steps(
        say("Do not stick or screw a sensor back in its place yourself."),
        say("Call us, because a sensor may not fit any more, or may not see the whole room."),
        say("Until we come, check twice that every door and every window is shut.")))
    yield Topic("refused", say("You cannot {set} the alarm"), steps=steps(
        say("Read what the {place} says, because it may name what is open.", place=place),
        say("Shut every door and every window, and try again."),
        say("If it still does not work, call us before you go out.")))
    if kinds & {"fob", "tag"}:
        yield Topic("lost", say("You lost a fob or a tag"), (say("Call us at once, by day or by night, so that we can stop it from working."),))
    yield Topic("forgot", say("You forgot your code"), (say("Call us by day, because we have to ask who you are before we can help."),))
    if "water" in kinds:
        yield Topic("water", say("The alarm says that there is water"), steps=steps(
            say("Keep away from water that is near plugs or wires."),
            say("Turn off the water if you can do it safely, and call a plumber.")))
    if "temperature" in kinds:
        yield Topic("temperature", say("The alarm says that something is too warm or too cold"), (
            say("Look at the thing that the sensor watches. If all is well there, call us by day."),))
    yield Topic("us", say("You need us"), (say("Call {company} on one of these numbers."),), phones_of_company(papers, say))
