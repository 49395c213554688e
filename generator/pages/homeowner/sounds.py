"""What does each sound and each light mean, as the sheets of this house's units say it, in rhythm and in light?"""
from collections.abc import Iterator
from dataclasses import dataclass

from generator.model.papers import Papers
from generator.model.premises import OUTSIDE
from generator.pages.homeowner.calls import BLANK, with_our_numbers
from generator.pages.homeowner.words import FIRE_KINDS, Topic, Voice, called, in_person, kinds_of, maybe_fire
from generator.terms.show import sentence_list


@dataclass(frozen=True)
class Meaning:
    """One thing that units tell: its name, what people do then, and what is usual where no sheet says it. `needs` are kinds of
    units without which a house never hears it; `calls_us` is true where people are told to call the company."""

    when: str
    title: str
    does: tuple[str, ...]
    usual: str
    needs: frozenset[str] = frozenset()
    calls_us: bool = False


MEANINGS = (
    Meaning("leaving", "It is time to go out",
            ("Go out now and shut the door behind you.",),
            "Most alarms beep, and the beeps may grow quick near the end."),
    Meaning("set", "The alarm is {is_set}",
            ("Now nobody should be in the house, and you can go.",),
            "Most alarms give one tone, or show a light for a while."),
    Meaning("part-set", "The alarm is {is_part_set}",
            ("Part of the house is on while you stay in the other part.",),
            "Most alarms give one tone, or show a light for a while."),
    Meaning("refused", "It will not {set}",
            ("A door or a window may be open, so shut it and try again.", "If it still does not work, call us before you go out."),
            "Most alarms give some low tones, and show what is open.", calls_us=True),
    Meaning("entering", "Turn the alarm off now",
            ("Go straight to the place where you turn it off.",),
            "Most alarms beep until you have turned them off."),
    Meaning("unset", "The alarm is {is_unset}",
            ("You are at home and need do nothing more.",),
            "Most alarms give two short tones, or a light goes out."),
    Meaning("alarm", "Alarm: somebody may be in the house",
            ("Do not go to look. If you do not know why it sounds and nothing is like fire, shut yourself in the room where you are. "
             "Then call {number}.",),
            "It is very loud, and a lamp may flash."),
    Meaning("fire", "Alarm: fire",
            ("Get everybody out, stay out, and call {number}. Let it sound.",),
            "Smoke and heat alarms make long and loud tones again and again.", FIRE_KINDS),
    Meaning("carbon-monoxide", "Alarm: carbon monoxide, a deadly gas",
            ("Get everybody out into fresh air, and call {number} from there. Let it sound.",),
            "The carbon monoxide alarm makes short and loud tones again and again.", frozenset({"carbon-monoxide"})),
    Meaning("fault", "Something needs care",
            ("This is no emergency. Write down what it shows, and call us by day.",),
            "Most alarms give one short beep now and then.", calls_us=True),
    Meaning("weak-cell", "A battery is weak",
            ("Call us by day, and we come and change it.",),
            "Most alarms give one short beep now and then.", calls_us=True),
    Meaning("mains-off", "The power is off",
            ("The alarm runs on its own battery for some hours.",),
            "A light may go out or start to blink."),
)
WITH_PARTS = "part-set"


def sound_topics(papers: Papers, say: Voice) -> Iterator[Topic]:
    """What each sound and light means, in the order of a day and then of what can go wrong."""
    kinds = kinds_of(papers)
    for one in MEANINGS:
        if one.needs and not one.needs & kinds or one.when == WITH_PARTS and not papers.job.part_sets:
            continue
        told = tuple(_told(papers, one.when, say)) or (say(one.usual),)
        does = tuple(map(say, one.does))
        lines = (maybe_fire(say), *does, *_ends(papers, say)) if one.when == "alarm" else does
        topic = Topic(one.when, say(one.title), lines, points=told)
        yield with_our_numbers(topic, papers, say) if one.calls_us else topic
    yield _lights(papers, say)


def _lights(papers: Papers, say: Voice) -> Topic:
    """Where each light is and which colour it has: no sheet says it, so it was shown, and there is a line to write it down."""
    lit = any(signal.light for name in papers.job.devices for signal in papers.sheet_of[name].signals)
    return Topic("lights", say("To write down"), points=(
        *((say("Which light is which, as we showed you: {blank}", blank=BLANK),) if lit else ()),
        say("How you see whether it is {is_set} now: {blank}", blank=BLANK),
        say("How it shows that it sounded while you were out: {blank}", blank=BLANK)),
        last=(say("If you hear badly, ask us for a light or something that shakes for the fire sound."),))


def _ends(papers: Papers, say: Voice) -> tuple[str, ...]:
    """How long it is loud: of a sounder only where the house has it, and of the inside only where it is known."""
    times = papers.job.times
    rooms = {papers.room_of(device) for name, device in papers.job.devices.items() if papers.sheet_of[name].kind == "sounder"}
    outside, inside = OUTSIDE in rooms, times.inside_sounder_min if rooms - {OUTSIDE} else None
    return (*((say("The sounder outside stops by itself after {minutes} minutes.", minutes=times.sounder_min),) if outside else ()),
            *((say("The sounder inside stops by itself after {minutes} minutes.", minutes=inside),) if inside else ()))


def _told(papers: Papers, when: str, say: Voice) -> Iterator[str]:
    """What is heard and seen at each unit that tells it; units that do the same are named together."""
    units: dict[tuple[str, str], list[str]] = {}
    for name in (one for one in papers.job.devices if not in_person(papers, one)):
        for signal in papers.sheet_of[name].signals:
            if signal.when == when:
                names = units.setdefault((signal.sound or "", signal.light or ""), [])
                if (own := called(papers, name, say)) not in names:
                    names.append(own)
    for (sound, light), names in units.items():
        heard = say("You hear {sound}.", sound=sound.rstrip(".")) if sound else say("You hear nothing.")
        seen = say("You see this: {light}.", light=light.rstrip(".")) if light else say("No light shows.")
        yield say("{units}: {heard} {seen}", units=sentence_list(names, say("and")), heard=heard, seen=seen)
