"""Whom do people of the house call, and whom does the alarm call?"""
from collections.abc import Iterator

from generator.model.papers import Papers
from generator.pages.homeowner_night import break_in_sound, deadly_sounds, small_beep
from generator.pages.homeowner_papers import kept_topic
from generator.pages.homeowner_setting import set_topic, unset_topic
from generator.pages.homeowner_words import (FIRE_KINDS, Topic, TopicsView, Voice, danger, kinds_of, phone, phones_of_company, place_at_hand,
                                             say_reference, steps)


def help_topics(papers: Papers, say: Voice) -> Iterator[Topic]:
    """Everybody to call, the emergency service first."""
    agreed = papers.job.monitoring
    yield danger(say)
    if agreed:
        yield Topic("station", say("It was a false alarm, or you want to test"), (
            say("Call {station} first."), say("They are the monitoring station, the people who watch your alarm by day and by night.")),
            (phone(agreed.telephone),), last=(say_reference(say),))
    yield Topic("company", say("Something is wrong with the alarm, or something changes"), (
        say("Call {company}."), say("Please tell us before you get a pet, a new internet box or new people in the house, and before building work.")),
        phones_of_company(papers, say), last=(say_reference(say),))
    yield Topic("order", say("Who is called after a break-in alarm"), steps=steps(
        say("The alarm tells the monitoring station.") if agreed else say("People near the house may hear it, but nobody is called."),
        *((say("The monitoring station calls you."),
           say("If you do not answer, your first keyholder is called, and then the next.")) if agreed else ())),
        last=(*_other_alarms(papers, say),
              say("A keyholder is somebody with a key, who can come when you cannot."),
              say("Tell us at once when a keyholder or a telephone number changes.")))
    yield kept_topic(papers, say)


def _other_alarms(papers: Papers, say: Voice) -> Iterator[str]:
    """What is agreed with the station on fire and threats stands on none of these pages, so nothing is promised."""
    if papers.job.monitoring and kinds_of(papers) & {*FIRE_KINDS, "carbon-monoxide", "hold-up", "medical"}:
        yield say("After another alarm, they may call others first, and may not call you at all. Ask us.")
        yield say("Do not wait for them, and call {number} yourself if you can.")


def sheet_view(papers: Papers, say: Voice) -> TopicsView:
    """Two sides in large print, to keep in a cupboard: nothing on them tells how long somebody has to turn the alarm off."""
    agreed = papers.job.monitoring
    sounds = Topic("sounds", say("The alarm sounds or beeps"), points=(
        say("Do not go to look."),
        *deadly_sounds(papers, say),
        say("A stranger, or you are not sure: shut yourself in, call {number} and stay on the line."),
        break_in_sound(papers, say),
        say("{sound}: call us in the morning.", sound=small_beep(papers, say)),
        say("If it was your mistake, {unset} it, and call {station} on {telephone}.", telephone=agreed.telephone) if agreed
        else say("If it was your mistake, {unset} it and tell the people next door.")))
    power = Topic("power", say("There is a power cut"), (
        say("Leave the alarm as it is, and call us if the power is still off after some hours."),))
    us = Topic("us", say("Call {company}"), (), phones_of_company(papers, say), last=(
        say("Your reference: {reference}"), say("Keep this inside a cupboard, never by the door, and write no code on it.")))
    parts = tuple(say("{name}, when {when}: choose it at the {place} with your own code.", name=one.name, when=one.when,
                      place=place_at_hand(papers, say)) for one in papers.job.part_sets.values())
    stay = (Topic("part", say("When you stay in"), (*parts, say("Do not open a window or a door that leads outside."),
                                                    say("Walk only where we showed you. If you are not sure, {unset} it first."))),) if parts else ()
    return TopicsView((danger(say), set_topic(papers, say), unset_topic(papers, say, times=False), *stay, sounds, power, us), large=True)
