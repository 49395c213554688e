"""Who may use the alarm, and what has to be done when people come and go or the house changes?"""
from collections.abc import Iterator

from generator.model.papers import Papers
from generator.pages.homeowner.words import Topic, Voice, kinds_of, steps


def people_topics(papers: Papers, say: Voice) -> Iterator[Topic]:
    """Codes, children, carers, and people who leave."""
    kinds = kinds_of(papers)
    yield Topic("codes", say("Your code"), points=(
        say("Each person has a code of their own, and nobody should share one."),
        say("Do not choose a birth year, your house number, or the end of your telephone number."),
        say("Do not choose 1234, or the same digit again and again."),
        say("Cover the keys with your other hand while you type."),
        say("Do not write it down, and do not tell it to anybody who calls you. We never ask for it.")))
    yield Topic("helpers", say("Cleaners, carers, guests, and people next door who look after the house"), points=(
        say("Give each of them a code of their own, and ask us if it can end by itself."),
        say("Before the first day, ask us to make that code or to show you how, and let them try it together with you."),
        say("If they set it off by mistake, they {unset} it and telephone you immediately. Then you call {station}.") if papers.job.monitoring
        else say("If they set it off by mistake, they {unset} it and telephone you immediately."),
        say("In a fire, or if they see a stranger, they do what you would do. Show them the large print."),
        say("Have that code removed on the day on which they stop coming."),
        say("Change your own code too if one of them may have seen it."),
        say("Ask them to give back their keys, fobs and tags.") if kinds & {"fob", "tag"} else say("Ask them to give back their keys.")))
    yield Topic("guest", say("A guest for a night or two"), points=(
        say("Give them no code, because you {set} and {unset} the alarm yourself while they are with you."),
        *((say("While they sleep here, turn part of the alarm on only if we showed you how with guests."),) if papers.job.part_sets else ()),
        say("Tell them which sound means fire, and show them how to get out of the house quickly."),
        say("Do not tell them your code or your word.") if papers.job.monitoring else say("Do not tell them your code.")))
    yield Topic("keyholders", say("Keyholders"), points=(
        say("A keyholder is somebody with a key, who comes when the alarm sounds and you cannot."),
        say("You need two who live near and who know how to {unset} the alarm."),
        say("Tell us at once when a keyholder or a telephone number changes.")))
    yield Topic("children", say("Children"), points=(
        say("Give a child a code when the child is old enough to come home alone."),
        say("Learn together how to {set} and {unset} the alarm."),
        say("Teach them that a fire sound means to get out at once, without stopping for anything."),
        say("Tell them that the alarm is not a toy, because a false call can slow down real help.")))
    yield Topic("partner", say("Somebody moves out, or you part"), (
        say("If you are afraid of this person, talk to a helpline or to the police before you change anything."),
        say("A change to the alarm can make the danger greater, so plan it with people who know about this."),
        say("Then call us, and we change the codes and close every account that can reach the alarm.")))
    yield Topic("forced", say("If somebody forces you"), (
        say("Do as they say, because your life comes before everything in the house."),
        say("Call {number} as soon as you can do it without danger."),
        say("There may be a way to call for help without being noticed."),
        say("Ask us about it in person, because we do not write about it. You can choose not to have it.")))


def moving_topics(papers: Papers, say: Voice) -> Iterator[Topic]:
    """Changes in the house, and leaving it."""
    agreed, kinds = papers.job.monitoring, kinds_of(papers)
    yield Topic("before", say("Call us before"), points=(
        say("building work, decorating or new curtains"),
        say("a new pet"),
        say("new furniture, a new door or a new window"),
        say("new internet or a new telephone line"),
        say("somebody new moves in"),
        say("you are away for more than a month")))
    yield Topic("sell", say("You move out"), steps=steps(
        say("Call us some weeks before, so that we can test the alarm and remove your codes and accounts."),
        say("Give our number to the new people, because they need papers and codes of their own."),
        say("Thank your keyholders, and ask them to give back the keys."),
        say("Call {station}, and ask them to end the agreement or to move it with you.") if agreed else "",
        say("Tear up the cards and the large print, and delete the file with these pages, also where you sent it."),
        say("Ask us about the {permit}, because it may end when you move."),
        say("Leave the log book, the fobs and the tags in the house.") if kinds & {"fob", "tag"} else say("Leave the log book in the house.")),
        last=(say("The log book is where we and you write down what happened with the alarm."),))
    yield Topic("buy", say("You moved in and the alarm was here"), steps=steps(
        say("Do not trust the old codes, because you do not know who has them."),
        say("Call us, and we test the alarm, make new codes and close the old accounts."),
        say("We also stop the fobs and tags that the people before you may still have.") if kinds & {"fob", "tag"} else "",
        say("Choose your own keyholders and give us their names.")))
