"""Whom do people of the house call, and whom does the alarm call?"""
from collections.abc import Iterator

from generator.model.papers import Papers
from generator.pages.homeowner_papers import kept_topic
from generator.pages.homeowner_setting import set_topic, unset_topic
from generator.pages.homeowner_words import Topic, TopicsView, Voice, danger, phone, phones_of_company, place_at_hand, say_reference, steps


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
    yield Topic("order", say("Who is called when the alarm sounds"), steps=steps(
        say("The alarm tells the monitoring station.") if agreed else say("Neighbours and people in the street hear it, but nobody is called."),
        *((say("The monitoring station calls you."),
           say("If you do not answer, your first keyholder is called, and then the next.")) if agreed else ())),
        last=(say("A keyholder is somebody with a key, who can come when you cannot."),
              say("Tell us at once when a keyholder or a telephone number changes.")))
    yield kept_topic(papers, say)


def sheet_view(papers: Papers, say: Voice) -> TopicsView:
    """Two sides in large print, to keep in a cupboard: nothing on them tells how long somebody has to turn the alarm off."""
    agreed = papers.job.monitoring
    sounds = Topic("sounds", say("The alarm sounds"), steps=steps(
        say("Do not go to look."),
        say("If you see or hear a stranger or a fire, get out and call {number}."),
        say("If it was your mistake, {unset} it, and call {station} on {telephone}.", telephone=agreed.telephone) if agreed
        else say("If it was your mistake, {unset} it and tell your neighbours.")))
    us = Topic("us", say("Call {company}"), (), phones_of_company(papers, say), last=(
        say("Your reference: {reference}"), say("Keep this inside a cupboard, never by the door, and write no code on it.")))
    parts = tuple(say("{name}, when {when}: choose it at the {place} with your own code.", name=one.name, when=one.when,
                      place=place_at_hand(papers, say)) for one in papers.job.part_sets.values())
    stay = (Topic("part", say("When you stay in"), parts),) if parts else ()
    urgent = Topic("danger", say("You are in danger"), (say("Get out. Call {number}."),), urgent=True)
    return TopicsView((urgent, set_topic(papers, say), unset_topic(papers, say, times=False), *stay, sounds, us), large=True)
