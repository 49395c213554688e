"""What does somebody do who wakes up from beeps at night, or whom somebody threatens?"""
from generator.model.papers import Papers
from generator.pages.homeowner.morning import own_steps
from generator.pages.homeowner.words import FIRE_KINDS, Topic, Voice, kinds_of, maybe_fire, place_at_hand, sounds_of
from generator.terms.show import capital, sentence_list

# The sounds at which people get out, and what a house needs to make them. Groups of three tones for fire: ISO 8201; of four for the gas:
# UL 2034 (both from memory). No law makes every alarm sound like that, so words for any alarm stand in where no sheet says it.
DEADLY = {
    "fire": (FIRE_KINDS, "{sound}: fire. Get everybody out.", "A smoke alarm or heat alarm: {sound}.",
             "A smoke alarm or heat alarm, often three tones and a pause again and again."),
    "carbon-monoxide": (frozenset({"carbon-monoxide"}), "{sound}: carbon monoxide. Get everybody out.", "A carbon monoxide alarm: {sound}.",
                        "A carbon monoxide alarm, often four tones and a pause again and again."),
}


def night_topic(papers: Papers, say: Voice) -> Topic:
    """Beeps at night, the deadly ones first: what they sound like and what to do."""
    return Topic("night", say("The alarm beeps at night"), (), points=(
        *deadly_sounds(papers, say), *((own_steps(say),) if papers.job.part_sets else ()), break_in_sound(papers, say),
        " ".join((say("{sound}: it is a real alarm.", sound=loud_sound(papers, say)), maybe_fire(say),
                  say("If not, do not go to look. Shut yourself in the room where you are, and call {number}."))),
        say("You cannot tell the sounds apart: think of fire first, and get everybody out."),
        say("{sound}: no emergency. In the morning, write down what the {place} shows, call us and read it to us.",
            sound=small_beep(papers, say), place=place_at_hand(papers, say))),
        last=(say("If you cannot sleep because of it, call our number for the night."),))


def deadly_in_short(papers: Papers, say: Voice) -> tuple[str, ...]:
    """Each sound at which everybody gets out, in a sentence of its own."""
    told = tuple(say(in_short, sound=capital(sound)) for when, (needs, in_short, *_) in DEADLY.items() if needs & kinds_of(papers)
                 for sound in sounds_of(papers, when))
    return told or (say("A smoke alarm or a carbon monoxide alarm: get everybody out."),)


def deadly_sounds(papers: Papers, say: Voice) -> tuple[str, ...]:
    """The sounds at which everybody gets out. Every house hears of smoke alarms, as they may hang there without the alarm."""
    kinds, out = kinds_of(papers), say("Get everybody out, then call {number}.")
    told = []
    for when, (needs, _, as_here, usual) in DEADLY.items():
        sounds = sounds_of(papers, when)
        if needs & kinds:
            told.append(say(as_here, sound=sentence_list(list(sounds), say("or"))) if sounds else say(usual))
    return tuple(f"{one} {out}" for one in told) or (f"{say('A smoke alarm sounds.')} {out}",)


def break_in_sound(papers: Papers, say: Voice) -> str:
    """The beeps of somebody who comes in, while nobody should."""
    return " ".join((
        say("You hear {sound} when {nobody}: somebody may be in the house.", sound=coming_in(papers, say), nobody=nobody(papers, say)),
        say("Shut yourself in the room where you are, and call {number}.")))


def coming_in(papers: Papers, say: Voice) -> str:
    """What is heard while the time to turn it off is running."""
    return sentence_list(list(sounds_of(papers, "entering")), say("or")) or say("the beeps of coming in")


def nobody(papers: Papers, say: Voice) -> str:
    """When beeps that people of the house make themselves are none of theirs: the beeps of going out may be quick too."""
    return (say("nobody of yours comes in, gets up or goes out") if papers.job.part_sets else say("nobody of yours comes in or goes out"))


def loud_sound(papers: Papers, say: Voice) -> str:
    """What is heard when somebody may have broken in, as a sentence begins with it."""
    return capital(sentence_list(list(sounds_of(papers, "alarm")), say("or"))) or say("Loud and without a pause")


def small_beep(papers: Papers, say: Voice) -> str:
    """The sound that can wait for the day, as a sentence begins with it."""
    sounds = list(dict.fromkeys((*sounds_of(papers, "weak-cell"), *sounds_of(papers, "fault"))))
    return capital(sentence_list(sounds, say("or"))) or say("One short beep now and then")


def threat_topic(papers: Papers, say: Voice) -> Topic:
    """The button for when somebody is threatened. Where it is, how it is pressed and whether it makes a sound is shown in person."""
    agreed = papers.job.monitoring
    return Topic("threat", say("Somebody threatens you"), (
        say("Press the threat button as we showed you, if you can do it without danger."),
        *_who_comes(papers, say),
        say("Call {number} too, as soon as you can do it without danger."),
    ), last=(
        say("It is only for threats, and never for illness or fire."),
        say("Never try it out yourself. We test it together, because {station} has to know first.") if agreed
        else say("Never try it out yourself. We test it together."),
        say("Ask us in person where it is, how you press it and whether it makes a sound. We never write that down.")))


def _who_comes(papers: Papers, say: Voice) -> tuple[str, ...]:
    if not papers.job.monitoring:
        return (say("It calls nobody, so others must hear it or you must call."),)
    return (say("It tells {station}, and they call others for you. Ask us whom."),)
