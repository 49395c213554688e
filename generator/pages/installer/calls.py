"""The calls with the station: each test of the day, what to say, and the exact message that the operator must read back."""
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import groupby

from generator.calc.results import Results
from generator.calc.station.event_rows import PlannedTest
from generator.model.papers import Papers
from generator.pages.installer.results import CALLS, ORDER, call_ids, lines_of_call
from generator.pages.installer.tests import line_links
from generator.pages.page import Link, Page
from generator.pages.parts import Fact, FindingView, Stopped, facts_view, unless_stopped
from generator.procedure import messages
from generator.procedure.confirming import WINDOW, confirming_in_words
from generator.procedure.message import Message
from generator.procedure.safety import met
from generator.procedure.sheet_test import test_words
from generator.procedure.units import of_kind
from generator.tables.events import CONTROL_TAMPER, ENTRY, IS_SET, MAINS, OMITTED, OPEN_CLOSE, PART_SET, SET_OFF, TAMPER, UNSET_FIRST
from generator.terms.show import amount, capital, count, lower, sentence_list

ZONES, USERS, LEFT_OUT, SYSTEM = "zones", "users", "left-out", "system"
TITLES = {ZONES: "Zones that act in any state, and every case", USERS: "Users", LEFT_OUT: "A zone that a user leaves out", SYSTEM: "The system"}
NO_MESSAGE = "no message can be written, see below"
FORMATS = {"dc-05": "", "dc-09": "What is carried by SIA DC-09 is the event below, inside a line of its own."}


@dataclass(frozen=True)
class ExpectedView:
    """One message that must come: what the operator reads, and what it means."""

    message: str
    means: str


@dataclass(frozen=True)
class CallView:
    """One test: the state of the system and the wait, what to say, what to beware of, what to do, and what must come.

    `results` are the lines of the checklist where its result is written; only where there is none it is written at the call.
    """

    id: str
    number: str
    title: str
    state: str
    beware: str
    do: str
    say: str
    expects: tuple[ExpectedView, ...]
    results: tuple[Link, ...]


@dataclass(frozen=True)
class CallGroup:
    """Tests that are made one after the other, in the order of the day; `says` is what holds for all of them."""

    id: str
    title: str
    says: tuple[str, ...]
    calls: tuple[CallView, ...]


@dataclass(frozen=True)
class CallsView:
    """What was found about the account, and all calls of the day."""

    found: tuple[FindingView, ...]
    facts: tuple[Fact, ...]
    total: str
    format: str
    groups: tuple[CallGroup, ...]
    untried: tuple[str, ...]
    unsaid: tuple[str, ...]
    sources: tuple[str, ...]
    safety: Link
    order: Link


def calls_page(papers: Papers, results: Results, found: tuple[FindingView, ...], stopped: Stopped) -> tuple[Page, ...]:
    """The page of calls; none for a system that only sounds."""
    if papers.job.monitoring is None:
        return ()
    return (Page(CALLS, "Calls with the station", "installer/calls.html.j2", _view(papers, results, found, stopped)),)


def _view(papers: Papers, results: Results, found: tuple[FindingView, ...], stopped: Stopped) -> CallsView:
    agreed, events = papers.job.monitoring, results.events
    fields = {row.zone: row.text_field for row in results.slots.rows if row.list == "zones"}
    calls, links = [], line_links(papers, results)
    for index, (id, one) in enumerate(zip(call_ids(events.tests), events.tests), 1):
        text = unless_stopped(one.text, fields.get(one.number, ""), stopped) if one.device else one.text
        calls.append((("" if one.setting else _about(one), one.setting), _call(papers, results, one, text, id, f"{index} of {len(events.tests)}", links)))
    last = max((one.setting for one in events.tests), default=0)
    groups = tuple(CallGroup(f"setting-{number}" if number else about, f"Setting {number} of {last}" if number else TITLES[about],
                             tuple(_of_group(papers, about, number)), tuple(call for _, call in members))
                   for (about, number), members in groupby(calls, key=lambda pair: pair[0]))
    facts = (Fact("Station", agreed.station), Fact("Telephone", agreed.telephone), Fact("Account", agreed.account, "job.monitoring.account"))
    sources = tuple(dict.fromkeys((*(one.source.cited() for one in events.rows), events.chosen.cited())))
    form = FORMATS[agreed.format] if agreed.format else "The format is not given: in another one than SIA DC-05 the messages are written otherwise."
    return CallsView(found, facts_view(facts, stopped), count(len(calls), "test"), form, groups,
                     (*_confirmed(papers, results), *events.untried), tuple(map(capital, events.unsaid)), sources,
                     Link("safety.html", "Before cases are opened and mains switched: every hazard of this job"), Link(ORDER, "the tests"))


def _of_group(papers: Papers, about: str, setting: int) -> Iterator[str]:
    """What holds for every test of a group."""
    if setting:
        yield from _of_setting(papers)
        yield from _silent(papers)
    if setting or about == ZONES:
        yield from filter(None, (_sounding(papers),))


def _silent(papers: Papers) -> Iterator[str]:
    """That nothing sounds at call after call; the sounders have tests of their own."""
    sounders = of_kind(papers, list(papers.job.devices), "sounder")
    if sounders:
        named = sentence_list(sounders)
        runs = max((one for one in (papers.job.times.sounder_min, papers.job.times.inside_sounder_min) if one is not None), default=None)
        long = f", up to {amount(runs, 'min')}" if runs else ""
        yield (f"Before the first of these calls switch the sound of {named} off in programming: else {'they sound' if len(sounders) > 1 else 'it sounds'} at each"
               f"{long}. At the end of the group on again, and write that down; {'they are' if len(sounders) > 1 else 'it is'} sounded in "
               f"{sentence_list([f'“Test {name}”' for name in sounders])}.")


def _of_setting(papers: Papers) -> Iterator[str]:
    """What holds while the system is set for the zones of one group."""
    words, times = papers.profile.words, papers.job.times
    yield (f"{capital(words.set)} once for this whole group; the exit time is {amount(times.exit_s, 's')}. {capital(words.unset)} only at its end. "
           "Whoever tries a zone that is reached through an entry door stands there before.")
    yield f"If the zone of an entry alarms at once because an alarm stands already, {words.unset}, {words.set} again and try it alone."
    if times.trips is not None:
        yield (f"After {count(times.trips, 'alarm')} of one zone in one setting it is left out (377): meet each detector on the way as seldom as you "
               f"can. If 377 comes, {words.unset}, {words.set} again and go on.")


def _confirmed(papers: Papers, results: Results) -> Iterator[str]:
    """How the station tells a confirmed alarm, for which no code stands in the list of events."""
    agreed, which = papers.job.monitoring, confirming_in_words(papers, results)
    if agreed.confirmation is None:
        yield "A confirmed alarm: not tried with a code, because how alarms are confirmed is not given. The office answers."
    elif which:
        yield (f"A confirmed alarm has no code of its own in this list: the station tells it by the second message. {capital(which)}. Time within "
               f"which the second zone must act: {WINDOW}. The step on confirmation tries a pair.")
    elif agreed.confirmation != "none":
        yield "A confirmed alarm has no code of its own in this list: the operator confirms it by listening or looking, and answers for it."


def _state(papers: Papers, one: PlannedTest) -> str:
    """The state of the system in which a test is made, and how long the message takes with the times of this job."""
    words, times = papers.profile.words, papers.job.times
    if one.code == MAINS:
        if times.mains_report_min is None:
            return f"{capital(words.is_unset)}. How long the loss lasts before it is reported is not given: read it from the unit before you switch off."
        return (f"{capital(words.is_unset)}. Nothing may come before {amount(times.mains_report_min, 'min')} after it was switched off: the loss is read back then, "
                "the restore after it is on again.")
    set_up = f"{capital(words.is_set)}, exit time of {amount(times.exit_s, 's')} over"
    if one.state == ENTRY:
        return f"{set_up}. It starts the entry time: let all {amount(times.entry_s, 's')} run out; {_held(papers)}."
    if one.state == UNSET_FIRST:
        ask = one.code in (OPEN_CLOSE, PART_SET) and papers.job.monitoring.open_close is None
        first = " Ask first whether it is reported: where it is not, do it and wait for no message." if ask else ""
        return f"{capital(words.is_unset)}, every zone at rest.{first}"
    if one.state == IS_SET and one.device:
        cancel = f" It can be cancelled for {amount(times.abort_s, 's')}: the message may come only after that." if times.abort_s else ""
        return f"{set_up}, no entry time running.{cancel}"
    if one.state == IS_SET:
        return f"{capital(words.is_set)}, after the alarm."
    return f"{capital(words.is_unset)}; it acts in any state."


def _held(papers: Papers) -> str:
    """How long the report of an alarm on entry is held, and the whole wait."""
    times = papers.job.times
    held = max((one for one in (times.report_delay_s, times.abort_s) if one is not None), default=None)
    if held is None:
        return "how long the report is held then is not given"
    return f"then the report is held for {amount(held, 's')}: {amount(times.entry_s + held, 's')} in all"


def _beware(papers: Papers, one: PlannedTest) -> str:
    """The hazards that the work of a test meets, in a line; "" for none."""
    if one.device:
        found = met(papers, [one.device], messages.LADDER, *((messages.TERMINALS, messages.WIRING) if one.code == TAMPER else ()))
    else:
        found = met(papers, [papers.job.control_unit.id], messages.WIRING) if one.code in (MAINS, CONTROL_TAMPER) else ()
    return _warned(found)


def _sounding(papers: Papers) -> str:
    """What holds for every test that can make a sounder sound, said once for a group."""
    return _warned(met(papers, list(papers.job.devices), messages.SOUNDER))


def _warned(found: tuple[Message, ...]) -> str:
    return " ".join(f"{one.word}: {one.hazard} {one.brief}" for one in found)


def _about(one: PlannedTest) -> str:
    if one.code == OMITTED:
        return LEFT_OUT
    return ZONES if one.device else USERS if one.number else SYSTEM


def _call(papers: Papers, results: Results, one: PlannedTest, text: str, id: str, number: str,
          links: Mapping[str, Link]) -> CallView:
    about = _about(one)
    zone = f"Zone {one.number}, {text}"
    title = {ZONES: zone, LEFT_OUT: zone, USERS: f"User {one.number}, {text}"}.get(about) or capital(one.expects[0].means.partition(":")[0])
    # The event is said too, so that a unit's case and its signal are told apart.
    event = "" if about == SYSTEM else f": {lower(one.expects[0].means.partition(':')[0])}"
    return CallView(id, number, title, _state(papers, one), _beware(papers, one), _do(papers, results, one),
                    f"“{title}{event}. {count(len(one.expects), 'message')} must come. Please read what you get.”",
                    tuple(ExpectedView(sent.message or NO_MESSAGE, capital(sent.means)) for sent in one.expects),
                    tuple(links[line] for line in lines_of_call(papers, one) if line in links))


def _do(papers: Papers, results: Results, one: PlannedTest) -> str:
    """What is done: where a unit is set off, what its sheet says of its test."""
    if one.do != SET_OFF:
        words = papers.profile.words
        done = capital(one.do.format(set=words.set, unset=words.unset, part_set=words.part_set))
        return f"{one.device}: {done}" if one.device else done
    return f"{one.device}: {test_words(papers, results, one.device)}"
