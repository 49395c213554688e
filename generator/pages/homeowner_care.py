"""How do people of the house look after the alarm, and how do they keep it from sounding for nothing?"""
from collections.abc import Iterator

from generator.calc.dates import Month
from generator.calc.service import services
from generator.model.papers import Papers
from generator.pages.homeowner_words import FIRE_KINDS, Topic, Voice, entry_doors, kinds_of, place_at_hand, prove, steps
from generator.terms.show import capital

# What sets off each kind of sensor for nothing, and what people can do about it.
FALSE_ALARMS = {
    "contact": ("A loose door or window can set the alarm off, so tell us if one rattles or sticks.",),
    "movement": (
        "An animal can set off a movement sensor, so ask us before you get a pet.",
        "Even a small pet can set it off from new furniture onto which it climbs.",
        "Keep balloons, hanging signs and moving curtains where the movement sensor cannot see them.",
        "Turn off fans and heaters that blow warm air into the room.",
        "Wipe spiders and their webs off the sensor with a dry cloth.",
    ),
    "glass-break": ("Sharp sounds can set off a glass sensor, so turn off radio and television when you go out.",),
    "shock": ("Hard knocks can set off a shock sensor, so tell people who clean or mend the windows.",),
    "smoke": ("Steam and smoke from cooking can set off a smoke alarm, so shut the kitchen door and open a window.",),
    "hold-up": ("Press the threat button only when somebody is there and threatens you.",),
}


def care_topics(papers: Papers, say: Voice) -> Iterator[Topic]:
    """Tests, service, batteries, and what sets it off for nothing."""
    kinds = kinds_of(papers)
    yield Topic("week", say("Once a week: look"), (
        say("Look at the {place}, and call us if it shows a message or a light that you do not know.", place=place_at_hand(papers, say)),))
    yield _monthly(papers, say)
    if kinds & {*FIRE_KINDS, "carbon-monoxide"}:
        yield Topic("fire-test", say("Once a month: press the test buttons"), (
            *((say("Call {station} first, as you do for the test above."),) if papers.job.monitoring else ()),
            say("Press the test button of each smoke alarm, heat alarm and gas alarm that has one."),
            say("If your local firefighters give other advice, follow their advice."),
            say("These alarms get old, and the page of each one says until when it may be used.")))
    yield Topic("service", say("The service"), _service(papers, say))
    yield _batteries(papers, say)
    yield _false_alarms(papers, kinds, say)


def _monthly(papers: Papers, say: Voice) -> Topic:
    agreed, doors = papers.job.monitoring, entry_doors(papers, say)
    return Topic("month", say("Once a month: test it"), (
        say("It will be very loud. Keep children and animals away, and stay far from the sounders."),), steps=steps(
        " ".join((say("Call {station} first on {telephone}, and say that you want to test your alarm.", telephone=agreed.telephone), prove(say)))
        if agreed
        else say("Tell the people next door that you want to test your alarm."),
        say("{Set} the alarm, go out, and wait until it is {is_set}.", Set=capital(say("{set}"))),
        say("Come in by {doors}, and wait until the alarm sounds.", doors=doors),
        say("{Unset} the alarm.", Unset=capital(say("{unset}"))),
        say("Call {station} again, ask what reached them, and say that your test is over.") if agreed
        else say("Tell the people next door that your test is over.")),
        last=(say("If something did not work, call us on the same day."),))


def _service(papers: Papers, say: Voice) -> tuple[str, ...]:
    first = first_service(papers)
    every = papers.job.service.every_months if papers.job.service else None
    comes = (say("At a service we test the whole alarm, and change what is old or worn."),)
    if first and every:
        return (*comes, say("The first one is due in {month}, and after that there is one every {count} months.",
                            month=say.month(first), count=every),
                say("You can choose another day with us, but please do not leave a service out."))
    return (*comes, say("Once a year is usual, so please ask us for the month."))


def first_service(papers: Papers) -> Month | None:
    """The month of the first service; None where it is not known from when or how often to count, or no calendar reaches so far."""
    agreement, service = papers.job.agreement, papers.job.service
    if not (agreement and agreement.in_use_on and service and service.every_months):
        return None
    try:
        return services(agreement.in_use_on, every_months=service.every_months, window_months=0, count=1)[0].month
    except ValueError:
        return None


def _batteries(papers: Papers, say: Voice) -> Topic:
    return Topic("batteries", say("Batteries"), (
        say("Many parts of the alarm have batteries, and we are the ones who change them."),
        say("When the alarm says that one is weak, call us by day and do not leave it for later."),
        say("A child who swallows a battery can die, because it burns the throat within two hours."),
        say("Keep every battery, new or old, where no child can reach it."),
        say("If you think that a child swallowed one, go to hospital at once or call {number}.")))


def _false_alarms(papers: Papers, kinds: frozenset[str], say: Voice) -> Topic:
    doors = entry_doors(papers, say)
    causes = [say(text) for kind, texts in FALSE_ALARMS.items() if kind in kinds for text in texts]
    return Topic("false-alarms", say("So that it does not sound for nothing"), points=(
        say("Shut and lock doors and windows before you {set} the alarm."),
        say("Find out who is at home before you {set} the alarm."),
        say("Come home only by {doors}, and never by another way.", doors=doors),
        say("Whoever gets a key from you needs a code of their own, and needs to be shown how it works."),
        *causes,
        say("Tell us if the alarm sounds in a storm or in a power cut."),
        say("Call us before building work, before you decorate, and before anybody moves a sensor."),
        say("If it was you who set it off, call {station} at once, and say your name and your word.") if papers.job.monitoring
        else say("If it was you who set it off, tell the people next door at once.")))
