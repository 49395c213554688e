"""Whom do people of the house call, on which number, and what do they say so that a stranger cannot say it for them?"""
import re
from dataclasses import replace

from generator.model.papers import Papers
from generator.pages.homeowner.words import Phone, Topic, TopicsView, Voice

# What is written by hand where neither the job nor a sheet knows it.
BLANK = "__________"


def phone(number: str, text: str = "", unprinted: bool = False) -> Phone:
    """A number that can be touched; `text` is what is read instead of the number alone."""
    return Phone(text or number, "tel:" + "".join(one for one in number if one.isdigit() or one == "+"), unprinted)


def phones_of_company(papers: Papers, say: Voice) -> tuple[Phone, ...]:
    """The company's two numbers, each with its time."""
    day, night = papers.company.telephone, papers.company.out_of_hours
    return phone(day, say("By day: {telephone}", telephone=day)), phone(night, say("At night and at weekends: {telephone}", telephone=night))


def our_hours(say: Voice) -> str:
    """When it is day for the company: no file of the job says it."""
    return say("By day means, on working days, from {blank} to {blank}.", blank=BLANK)


def with_our_numbers(topic: Topic, papers: Papers, say: Voice) -> Topic:
    """A topic that says to call us, with the numbers beside it: nobody looks for them on another page at night."""
    return replace(topic, us=phones_of_company(papers, say))


def with_calls(view: TopicsView, papers: Papers, say: Voice) -> TopicsView:
    """A page on which each topic has beside it, to be touched, the numbers of those whom it says to call."""
    return replace(view, first=tuple(_with_calls(one, papers, say) for one in view.first),
                   topics=tuple(_with_calls(one, papers, say) for one in view.topics))


def _with_calls(topic: Topic, papers: Papers, say: Voice) -> Topic:
    there = {one.href for one in (*topic.phones, *topic.us)}
    return replace(topic, calls=tuple(one for one in calls_in(" ".join(topic.sentences()), papers, say) if one.href not in there))


def calls_in(text: str, papers: Papers, say: Voice) -> tuple[Phone, ...]:
    """The numbers of the emergency service and of the station, where a text names them."""
    number, agreed = papers.profile.words.emergency_number, papers.job.monitoring
    # The same digits may stand at the end of a longer number.
    named = re.search(rf"(?<!\d)(?<!\d ){re.escape(number)}(?! ?\d)", text)
    emergency = (phone(number, say("Call {number}"), unprinted=True),) if number and named else ()
    station = (phone(agreed.telephone, say("{station}: {telephone}", telephone=agreed.telephone), unprinted=agreed.telephone in text),) \
        if agreed and agreed.station in text else ()
    return (*emergency, *station)


def say_reference(say: Voice) -> str:
    """What a caller says to the company instead of an address; others need the address, the emergency service first of all."""
    return say("Tell us this reference: {reference}. We do not need your address.")


def known_as(say: Voice) -> str:
    """Who the station is, wherever a page first names it."""
    return say("{station} is your monitoring station: the people who watch your alarm by day and by night.")


def prove(say: Voice) -> str:
    """How a caller shows the station who calls, before a test and before help is called off: whoever knows the house alone knows no word."""
    return say("Say your name and the word that you agreed with them. Give that word to nobody else.")


def sure_of_station(papers: Papers, say: Voice) -> str:
    """Before anything else that is said of the word: whoever telephones may only say that he is the station."""
    return say("Say your word only when you are sure that it is {station}. If you are not sure who is calling, hang up and call {telephone}.",
               telephone=papers.job.monitoring.telephone)


def after_false_alarm(papers: Papers, say: Voice) -> str:
    """Whom people tell that nothing has happened: the station where there is one, else those who heard it."""
    agreed = papers.job.monitoring
    return (say("Then call {station} on {telephone}, and say your name and the word that you agreed with them.", telephone=agreed.telephone) if agreed
            else say("Then tell the people next door, so that nobody worries."))


def before_test(papers: Papers, say: Voice) -> str:
    """Whom people tell before anything is tested that sounds."""
    agreed = papers.job.monitoring
    return (" ".join((say("Call {station} first on {telephone}, and say that you want to test your alarm.", telephone=agreed.telephone), prove(say)))
            if agreed else say("Tell the people next door that you want to test your alarm."))


def after_test(papers: Papers, say: Voice) -> str:
    """Whom people tell when the test is over: until then the station takes a true alarm for a part of it."""
    return (say("Call {station} again, ask what reached them, and say that your test is over.") if papers.job.monitoring
            else say("Tell the people next door that your test is over."))


def tests_of_warning(papers: Papers, say: Voice) -> str:
    """The same in short, for the page of each smoke, heat and carbon monoxide alarm."""
    agreed = papers.job.monitoring
    return (say("Call {station} on {telephone} before and after each test.", telephone=agreed.telephone) if agreed
            else say("Tell the people next door before and after each test."))
