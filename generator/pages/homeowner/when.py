"""What does somebody in the house do when something happens? Danger first; then the alarm; then what can wait for the day."""
from collections.abc import Iterator

from generator.model.papers import Papers
from generator.pages.homeowner.calls import BLANK, after_false_alarm, known_as, phones_of_company, prove, sure_of_station, with_our_numbers
from generator.pages.homeowner.night import night_topic, threat_topic
from generator.pages.homeowner.words import FIRE_KINDS, Step, Topic, Voice, danger, kinds_of, let_it_sound, maybe_fire, place_at_hand, steps
from generator.terms.show import sentence_list


def when_topics(papers: Papers, say: Voice) -> Iterator[Topic]:
    """Everything that can happen, as far as this house has what it takes."""
    kinds = kinds_of(papers)
    yield danger(say)
    yield from _alarms(papers, say)
    yield from _deadly(kinds, say)
    yield from _buttons(papers, kinds, say)
    for topic in _by_day(papers, kinds, say):
        yield topic if topic.phones else with_our_numbers(topic, papers, say)


def _alarms(papers: Papers, say: Voice) -> Iterator[Topic]:
    agreed = papers.job.monitoring
    yield Topic("here", say("The alarm sounds and you are at home"), (say("Do not go to look."),), points=(
        say("A smoke, heat or carbon monoxide alarm, or you see or smell fire: everybody out at once. Call {number} from outside."),
        " ".join((say("A stranger may be in the house: shut yourself in the room where you are. Call {number} and stay on the line."),
                  say("Leave that room only if your way out is free."))),
        " ".join((say("You are not sure: think of fire first."), maybe_fire(say),
                  say("Only if nothing looks or smells like fire, do the same as for a stranger."))),
        " ".join((say("You know why it sounded: {unset} the alarm with your own code."), after_false_alarm(papers, say)))))
    yield Topic("away", say("The alarm sounds and you are away"), steps=steps(
        say("Answer your telephone, because somebody will try to reach you.") if agreed
        else say("Ask somebody who lives near to look at the house from outside."),
        say("When you come home, do not go in alone."),
        say("If a door is open, a window is broken, or you see or smell fire, stay outside and call {number}."),
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
    return Topic("mistake", say("You set it off by mistake"), (known_as(say), sure_of_station(papers, say)), steps=steps(
        stop,
        say("Call {station} at once on {telephone}.", telephone=agreed.telephone),
        prove(say), say("Tell them that it was a mistake.")))


def _deadly(kinds: frozenset[str], say: Voice) -> Iterator[Topic]:
    # Gas that people smell, not the gas that an alarm notices: no spark and no call before one is outside (common practice, no source).
    yield Topic("smell", say("You smell gas"), (say("This is the gas of a cooker or a heater, and it can explode."),), steps=steps(
        say("Touch no switch, no plug and no keypad, press no fob, and light nothing."),
        say("If the alarm sounds, let it sound. Do not turn it off."),
        say("Get everybody out at once, and leave doors open behind you if you can do it on your way."),
        say("Use a telephone only when you are outside and far from the house, and call {number} or your gas company's emergency number."),
        say("Go back in only when somebody who knows has told you that you can.")),
        last=(say("The emergency number for gas is: {blank}", blank=BLANK),))
    if kinds & FIRE_KINDS:
        yield Topic("fire", say("A smoke alarm or heat alarm sounds"), (let_it_sound(say),), steps=steps(
            say("Shout to wake everybody, and get everybody out of the house."),
            say("Shut the doors behind you if you can do it on your way."),
            say("Stay outside and call {number} from there."),
            say("Go back in only when the firefighters tell you that you can.")))
    if "carbon-monoxide" in kinds:
        yield Topic("gas", say("The carbon monoxide alarm sounds"), (
            say("This gas can kill, and you cannot see it or smell it."), let_it_sound(say)), steps=steps(
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
            *tell, say("Tell them that nobody is in danger."), say("It is all right. Only tell them quickly.")))
    if "medical" in kinds:
        yield Topic("call", say("You pressed the call button by mistake"), (*tell, say("Tell them that you are well and need no help.")))


def _by_day(papers: Papers, kinds: frozenset[str], say: Voice) -> Iterator[Topic]:
    place = place_at_hand(papers, say)
    yield night_topic(papers, say)
    yield Topic("power", say("There is a power cut"), steps=steps(
        say("Leave the alarm as it is, because it runs on its own battery for some hours."),
        say("Use the alarm as you always do. Your home telephone may be dead, so use a mobile."),
        say("Ask us how the alarm calls for help in a power cut, and for how long.") if papers.job.monitoring else "",
        say("If the power is still off after some hours, call us.")),
        last=(say("How many hours its battery lasts, as we told you: {blank}", blank=BLANK),
              say("When the power is back, the battery needs about a day to fill again."),
              say("Never open the box of the alarm, because the power in it can hurt you.")))
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
    yield _forgot(papers, kinds, say)
    if "water" in kinds:
        yield Topic("water", say("The alarm says that there is water"), steps=steps(
            say("Keep away from water that is near plugs or wires."),
            say("Turn off the water if you can do it safely, and call a plumber.")))
    if "temperature" in kinds:
        yield Topic("temperature", say("The alarm says that something is too warm or too cold"), (
            say("If you see or smell fire, get everybody out and call {number}."),
            say("If not, see whether the thing that the sensor watches still works, and call us by day.")))
    yield Topic("caller", say("Somebody at the door or on the telephone says that we sent them"), steps=steps(
        say("Let nobody in yet, and do not be hurried."),
        say("Call us on the number on this page, never on one that they give you, and ask who is to come and when."),
        say("If we know nothing of it, at the door: keep it shut and call {number}. On the telephone: hang up.")),
        last=(say("We never ask anybody for a code, at the door or on the telephone."),))
    yield Topic("us", say("You need us"), (say("Call {company} on one of these numbers."),), phones_of_company(papers, say))


def _forgot(papers: Papers, kinds: frozenset[str], say: Voice) -> Topic:
    """A code that somebody cannot think of, when it is quiet and when it beeps or sounds."""
    carried = [say(one) for one in ("fob", "tag") if one in kinds]
    return Topic("forgot", say("You forgot your code"), points=(
        " ".join(filter(None, (
            say("It beeps or sounds, and it was you:"),
            say("use your {things}. If you have none with you, let it sound.", things=sentence_list(carried, say("or"))) if carried
            else say("let it sound."),
            after_false_alarm(papers, say), say("After that, call us by day or by night, so that we can help you to a new code.")))),
        say("It is quiet: call us by day. We have to ask who you are before we can help.")))
