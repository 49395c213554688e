"""How do people of the house look after the alarm, and how do they keep it from sounding for nothing?"""
from collections.abc import Iterator

from generator.calc.days.dates import Month
from generator.calc.days.service import services
from generator.model.papers import Papers
from generator.pages.homeowner.calls import after_test, before_test, known_as, tests_of_warning, with_our_numbers
from generator.pages.homeowner.words import ANY_CARE, CARE, WARNING_KINDS, Topic, Voice, entry_doors, kinds_of, place_at_hand, steps
from generator.terms.show import capital

# What sets off each kind of sensor for nothing, and what people can do about it.
FALSE_ALARMS = {
    "contact": ("A loose door or window can set the alarm off, so tell us if one rattles or sticks.",),
    "movement": (
        "An animal can set off a movement sensor, so ask us before you get a pet.",
        "If an animal lives with you already and we do not know of it, tell us now.",
        "While the alarm is {is_set}, keep animals where we agreed.",
        "Even a small pet can set it off from new furniture onto which it climbs.",
        "Keep balloons, hanging signs and moving curtains where the movement sensor cannot see them.",
        "Turn off fans and heaters that blow warm air into the room.",
        "Spiders and their webs can set it off, so ask us to wipe them off and do not climb.",
    ),
    "glass-break": ("Sharp sounds can set off a glass sensor, so turn off radio and television when you go out.",),
    "shock": ("Hard knocks can set off a shock sensor, so tell people who clean or mend the windows.",),
    "smoke": ("Steam and smoke from cooking can set off a smoke alarm, so shut the kitchen door and open a window.",),
    "hold-up": ("Press the threat button only when somebody is there and threatens you.",),
}


def care_topics(papers: Papers, say: Voice) -> Iterator[Topic]:
    """Tests, service, batteries, and what sets it off for nothing."""
    kinds = kinds_of(papers)
    week = Topic("week", say("Once a week: look"), (
        say("Look at the {place}, and call us if it shows a message or a light that you do not know.", place=place_at_hand(papers, say)),))
    yield with_our_numbers(week, papers, say)
    yield with_our_numbers(_monthly(papers, say), papers, say)
    if kinds & WARNING_KINDS:
        yield with_our_numbers(_buttons(papers, say), papers, say)
    yield Topic("service", say("The service"), _service(papers, say))
    yield with_our_numbers(_batteries(papers, say), papers, say)
    yield _false_alarms(papers, kinds, say)


def care_of(kind: str, papers: Papers, say: Voice) -> str:
    """What people do for a kind of thing; of what warns of fire and carbon monoxide also whom they call before they test it."""
    care = say(CARE.get(kind, ANY_CARE))
    return " ".join((care, tests_of_warning(papers, say))) if kind in WARNING_KINDS else care


def _buttons(papers: Papers, say: Voice) -> Topic:
    real = (say("If there is a real fire during the test, get out and call {number} yourself. {station} may think that it is your test.")
            if papers.job.monitoring else say("If there is a real fire during the test, get out and call {number}."))
    return Topic("fire-test", say("Once a month: press the test buttons"), (real,), steps=steps(
        before_test(papers, say),
        say("Cover your ears. Press the test button of each smoke alarm, heat alarm and carbon monoxide alarm that has one."),
        say("Do not climb for it. Use a stick from the floor, or ask us."),
        after_test(papers, say)),
        last=(say("If one of them stays silent, call us the same day."),
              say("If your local firefighters want tests more often, do them in the same way."),
              say("These alarms get old, and the page of each one says until when it may be used.")))


def _monthly(papers: Papers, say: Voice) -> Topic:
    doors = entry_doors(papers, say)
    known = (known_as(say),) if papers.job.monitoring else ()
    return Topic("month", say("Once a month: test it"), (
        *known, say("It will be very loud. Keep children and animals away, and cover your ears."),), steps=steps(
        before_test(papers, say),
        say("{Set} the alarm, go out, and wait until it is {is_set}.", Set=capital(say("{set}"))),
        say("Come in by {doors}, and wait until the alarm sounds.", doors=doors),
        say("{Unset} the alarm.", Unset=capital(say("{unset}"))),
        after_test(papers, say)),
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
