"""Whom do people of the house call, and whom does the alarm call?"""
from collections.abc import Iterator
from dataclasses import replace

from generator.model.papers import Papers
from generator.pages.homeowner.calls import BLANK, known_as, our_hours, phone, phones_of_company, prove, say_reference, sure_of_station
from generator.pages.homeowner.morning import in_short
from generator.pages.homeowner.night import coming_in, deadly_in_short, loud_sound, nobody, small_beep
from generator.pages.homeowner.papers import kept_topic, who_in_first_weeks
from generator.pages.homeowner.setting import set_topic, unset_topic
from generator.pages.homeowner.words import FIRE_KINDS, WARNING_KINDS, Topic, TopicsView, Voice, danger, kinds_of, steps


def help_topics(papers: Papers, say: Voice) -> Iterator[Topic]:
    """Everybody to call, the emergency service first."""
    agreed = papers.job.monitoring
    yield danger(say)
    if agreed:
        yield Topic("station", say("It was a false alarm, or you want to test"), (
            say("Call {station} first."), known_as(say)),
            (phone(agreed.telephone),), last=(
                sure_of_station(papers, say), prove(say), say("Tell them this reference too: {reference}.")))
    yield Topic("company", say("Something is wrong with the alarm, or something changes"), (
        say("Call {company}."), say("Please tell us before you get a pet, new internet or new people in the house, and before building work.")),
        phones_of_company(papers, say), last=(say_reference(say), our_hours(say)))
    yield Topic("order", say("Who is called after a break-in alarm"), steps=steps(
        say("The alarm tells the monitoring station.") if agreed else say("People near the house may hear it, but nobody is called."),
        *((say("The monitoring station calls you."),
           say("If you do not answer, your first keyholder is called, and then the next.")) if agreed else ())),
        last=(*who_in_first_weeks(papers, say),
              *_other_alarms(papers, say),
              say("A keyholder is somebody with a key, who can come when you cannot."),
              say("Tell us at once when a keyholder or a telephone number changes.")))
    yield kept_topic(papers, say)


def _other_alarms(papers: Papers, say: Voice) -> Iterator[str]:
    """What is agreed with the station on fire and threats stands on none of these pages, so nothing is promised."""
    if papers.job.monitoring and kinds_of(papers) & {*WARNING_KINDS, "hold-up", "medical"}:
        yield say("After another alarm, they may call others first, and may not call you at all. Ask us.")
        yield say("Do not wait for them, and call {number} yourself if you can.")
        if kinds_of(papers) & FIRE_KINDS:
            yield say("After a fire alarm they call, as they told you: {blank}", blank=BLANK)


def sheet_view(papers: Papers, say: Voice) -> TopicsView:
    """Two sides in large print, to keep in a drawer: nothing on them tells how long somebody has to turn the alarm off.
    What to do in danger, whom to call and what the sounds mean stand on the first."""
    agreed = papers.job.monitoring
    sounds = Topic("sounds", say("The alarm sounds or beeps"), points=(
        *deadly_in_short(papers, say),
        " ".join((say("{sound}, or you are not sure: if it might be a fire, get everybody out.", sound=loud_sound(papers, say)),
                  say("If not, do as for a stranger."))),
        " ".join((say("A stranger, or {sound} when {nobody}: do not go to look.", sound=coming_in(papers, say), nobody=nobody(papers, say)),
                  say("Shut yourself in and call {number}."))),
        say("{sound}: call us by day.", sound=small_beep(papers, say)),
        say("A power cut: leave the alarm as it is, and call us after some hours."),
        say("Your mistake: {unset} it, call {station} on {telephone}, and say your name and your word.", telephone=agreed.telephone) if agreed
        else say("Your mistake: {unset} it and tell the people next door.")))
    us = Topic("us", say("Call {company}"), (), phones_of_company(papers, say), last=(
        say("Your reference: {reference}. Sheet of {day}.", day=say.day(papers.job.dated)),))
    parts = tuple(say("{name}, when {when}: choose it with your own code.", name=one.name, when=one.when) for one in papers.job.part_sets.values())
    stay = (Topic("part", say("When you stay in"), (
        *parts, say("Walk only where we showed you. Open no window and no outside door."), in_short(papers, say))),) if parts else ()
    urgent = Topic("danger", say("You are in danger"), (
        say("Fire or gas: get out. A stranger: stay away. Then call {number} and tell them your address."),), urgent=True)
    home = replace(unset_topic(papers, say, short=True), last=(say("Keep this in a drawer and write no code on it."),))
    return TopicsView((urgent, us, sounds, set_topic(papers, say, short=True), home, *stay), large=True)
