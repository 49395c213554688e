"""What does the alarm not do, from when does help come, and what is on paper about it?"""
from collections.abc import Iterator
from datetime import date

from generator.calc.days.dates import last_day
from generator.model.monitoring import Permit
from generator.model.papers import Papers
from generator.pages.homeowner.words import FIRE_KINDS, Topic, Voice, kinds_of
from generator.terms.show import capital, sentence_list

# In the order in which they are named, in the plural.
WARNING = {"smoke": "smoke alarms", "heat": "heat alarms", "carbon-monoxide": "carbon monoxide alarms"}
COVERS = {"intruder": "For break-ins", "hold-up": "For the threat button", "all": "For every alarm"}


def papers_topics(papers: Papers, say: Voice) -> Iterator[Topic]:
    """Limits, the first weeks, permits, insurance, and what is kept."""
    yield Topic("limits", say("What the alarm does not do"), tuple(_limits(papers, say)),
                last=(say("Please ask us if something here is not clear."),))
    if papers.job.monitoring:
        yield Topic("first-weeks", say("The first weeks"), tuple(_first_weeks(papers, say)))
    yield Topic("permit", say("Your {permit}"), tuple(_permits(papers, say)))
    yield Topic("insurance", say("Your insurance"), (
        say("If your insurer asks for an alarm, {set} it whenever you go out, and have it serviced on time."),
        say("Tell your insurer when the alarm, the locks, or the people who live here change."),
        say("Ask your insurer which papers about the alarm it wants to see.")))
    yield kept_topic(papers, say)


def _limits(papers: Papers, say: Voice) -> Iterator[str]:
    yield say("It tells you and others that something is happening, but it does not stop anybody.")
    yield say("It does not watch every part of the house. Ask us which parts are left out.")
    yield say("It notices somebody only when they come to a sensor.")
    yield say("It does not take the place of good locks on doors and windows.")
    if kinds_of(papers) & FIRE_KINDS:
        yield say("Its smoke and heat alarms do not take the place of what your local firefighters advise.")
    else:
        yield say("It does not notice a fire, so you need smoke alarms too.")
    yield from always_on(papers, say)
    if "carbon-monoxide" in kinds_of(papers):
        yield say("Its carbon monoxide alarm does not notice the gas of a cooker or a heater.")
    if papers.job.monitoring:
        yield say("It calls for help by lines and networks that can fail, so ask us what happens then.")
    else:
        yield say("It makes a noise but calls nobody, so others must hear it and call for help.")


def _first_weeks(papers: Papers, say: Voice) -> Iterator[str]:
    agreement = papers.job.agreement
    if agreement and agreement.in_use_on:
        yield say("The alarm comes into use on {day}.", day=say.day(agreement.in_use_on))
    days = first_weeks(papers)
    if days:
        yield from who_in_first_weeks(papers, say)
        yield say("In the time before, we find out together what could set it off for nothing.")
    elif papers.job.monitoring.soak_days == 0:
        yield say("The police may be called from the first day.")
    else:
        yield say("Ask us from which day the police may be called too.")


def who_in_first_weeks(papers: Papers, say: Voice) -> Iterator[str]:
    """Who is called after a break-in alarm until the settling-in period is over, and then; nothing where there is none or a day is not known."""
    if days := first_weeks(papers):
        until, since = map(say.day, days)
        yield say("Until {day}, only you and your keyholders are called when it sounds.", day=until)
        yield say("From {day}, the police may be called too.", day=since)


def always_on(papers: Papers, say: Voice) -> Iterator[str]:
    """What warns of fire and carbon monoxide is never turned off with the rest."""
    kinds = [kind for kind in WARNING if kind in kinds_of(papers)]
    if kinds:
        yield say("Its {alarms} watch all the time, also while the alarm is {is_unset}.", alarms=sentence_list([say(WARNING[one]) for one in kinds], say("and")))
        if papers.job.monitoring:
            yield say("They tell {station} too. Still call {number} yourself.")


def first_weeks(papers: Papers) -> tuple[date, date] | None:
    """The last day of the settling-in period and the day after it; None where there is none or a day is not known."""
    agreement, agreed = papers.job.agreement, papers.job.monitoring
    if not (agreement and agreement.in_use_on and agreed and agreed.soak_days):
        return None
    try:
        return last_day(agreement.in_use_on, agreed.soak_days), last_day(agreement.in_use_on, agreed.soak_days + 1)
    except ValueError:
        return None


def _permits(papers: Papers, say: Voice) -> Iterator[str]:
    """What was given, by whom and from when to when; never its number, with which somebody could pose as the customer."""
    permits = papers.job.monitoring.permits if papers.job.monitoring else {}
    for one in permits.values():
        yield _permit(one, say)
    if permits:
        yield say("We keep its number, and nobody who calls you needs to know it.")
    else:
        yield say("We have none on paper for this house, so ask us if your police or your town want one.")
    yield say("Please send us a copy when you get a letter about it.")


def _permit(one: Permit, say: Voice) -> str:
    covers = say(COVERS[one.covers])
    given = (say("{covers}, given by {by} on {day}.", covers=covers, by=one.by, day=say.day(one.since)) if one.since
             else say("{covers}, by {by}. We do not have its first day yet, so please ask us.", covers=covers, by=one.by))
    ends = say("Its last day is {day}.", day=say.day(one.valid_to)) if one.valid_to else say("We have no last day for it on paper.")
    return f"{given} {ends}"


def kept_topic(papers: Papers, say: Voice) -> Topic:
    """What the company keeps about the people of the house, and for how long."""
    return Topic("privacy", say("What we keep about you"), (
        say("Here is what we keep, and for how long:") if papers.company.keeps
        else say("We have not written down here what we keep, so please ask us."),),
        points=tuple(say("{what}: {how_long}.", what=capital(one.what.rstrip(".")), how_long=one.how_long.rstrip(".")) for one in papers.company.keeps),
        last=(say("To ask what we keep and for how long, ask for {data_contact}. You can have mistakes put right, or ask us to delete something."),))


def said_days(papers: Papers) -> Iterator[date]:
    """Days that this pack works out and says: a hidden date that is the same one by chance is no leak."""
    yield from first_weeks(papers) or ()
