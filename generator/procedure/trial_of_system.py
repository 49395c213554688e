"""The tests that no single unit has: times, settings, supply, supervision, paths, the full set."""
from collections.abc import Iterator
from dataclasses import replace

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.procedure import messages
from generator.procedure.check import MAINS_FAIL
from generator.procedure.checks_of_control import LATER, mains_off_min
from generator.procedure.checks_of_system import LOSS, OMITTING
from generator.procedure.safety import FIRE_KINDS, PERSONAL_KINDS, met
from generator.procedure.settings import PATHS, settings
from generator.procedure.signing import MONITORING, lines_of
from generator.procedure.step import Fact, Open, Step, Wait
from generator.procedure.units import fitted, limit_fact, of_kind, row_fact
from generator.procedure.waits import COME_BACK
from generator.tables import tools
from generator.tables.minutes import OF_STEP
from generator.terms.show import amount, capital, sentence_list

LOAD, TIMED, SILENCE = "Load the battery", "Time the way in and out", "Supervision: lose a unit on purpose"
TIMED_LAST = "Fully {0}, from outside"
HEARD_AGAIN = "heard-again"
# What is tested while a unit is lost.
MEANWHILE = (*PERSONAL_KINDS, *FIRE_KINDS)


def entry_exit(papers: Papers) -> Step:
    """Entry and exit, timed."""
    times = papers.job.times
    return Step("entry-exit", "test", TIMED,
                (f"{capital(papers.profile.words.set)} and {papers.profile.words.unset} by the slowest regular user, coat on and bags in hand: from the door moving until the keypad says that it is done.",
                 "The same way out, from the keypad until the door is shut and locked. Take the times down.",
                 *_loud(papers),
                 "Let the entry time run out once: warning first, then alarm."),
                facts=(Fact("Entry time", amount(times.entry_s, "s"), "job.times.entry_s"),
                       Fact("Exit time", amount(times.exit_s, "s"), "job.times.exit_s"),
                       *limit_fact(papers, "time_reserve_factor", "Raise what is measured by the factor")),
                messages=met(papers, list(papers.job.devices), messages.SOUNDER, messages.NEIGHBOURS), minutes=OF_STEP["entry-exit"],
                tools=(*tools.WATCH, *(tools.EARS if met(papers, list(papers.job.devices), messages.SOUNDER) else ())), unsigned=("Entry", "Exit"))


def _loud(papers: Papers) -> Iterator[str]:
    """What is said once before the first test in which the sounders sound; the tests after it run on."""
    if of_kind(papers, list(papers.job.devices), "sounder"):
        yield (f"From here on the sounders sound, again and again, up to “{TIMED_LAST.format(papers.profile.words.is_set)}”: ears covered, everybody in the house "
               f"and next door told from when to when, children and animals away, nobody on steps or a ladder. {capital(papers.profile.words.unset)} as soon as "
               "you have heard the alarm; only the test of a sounder lets it run to its end.")


def part_sets(papers: Papers, results: Results) -> Iterator[Step]:
    """Each part set, walked as it will be used."""
    rows = {fact.field: fact for topic in settings(papers, results) if topic.id == "part-sets" for fact in topic.rows}
    words = papers.profile.words
    for key, one in papers.job.part_sets.items():
        yield Step(f"part-set-{key}", "test", f"{capital(words.part_set)}: {one.name}",
                   (f"As it will be used: {one.when}. {capital(words.part_set)}; walk from the beds to bathroom and kitchen by night light: no "
                    "alarm.",
                    "Every door and window that still counts brings an alarm; the entry door starts its time."),
                   facts=(rows[f"job.part_sets.{key}"],), messages=met(papers, (), messages.ESCAPE),
                   minutes=OF_STEP["part-set"], unsigned=(f"{capital(words.part_set)}: {one.name}",))


def omitting(papers: Papers, results: Results) -> Iterator[Step]:
    """What a user may leave out for once."""
    words = papers.profile.words
    names = [name for name, device in papers.job.devices.items() if device.omit]
    if names:
        yield Step("omit", "test", "Leave a zone out for once",
                   (f"Omit one of these, {words.set}, open it: no alarm. {capital(words.unset)} and {words.set} again: it counts again. The log "
                    "names it.",
                    "Try to omit fire, hold-up and tamper: refused."),
                   facts=tuple(row_fact(papers, results, name) for name in names), minutes=OF_STEP["omit"], unsigned=(OMITTING,))


def supply(papers: Papers) -> Iterator[Step]:
    """Mains fail and battery load, where there is mains."""
    unit = papers.job.control_unit.id
    if papers.sheet_of[unit].power.kind != "mains":
        return
    reported = papers.job.times.mains_report_min if papers.job.monitoring else None
    silent = "not known: the job file does not say (mains_report_min); read it from the unit before you switch off"
    after = amount(reported, "min") if reported is not None else silent
    told = (Fact("Reported after", after, "job.times.mains_report_min"),) if papers.job.monitoring else ()
    back = ("Nothing is switched back before the station has read the report, which comes only after the time above." if reported is not None
            else "Nothing is switched back before the time above is over.")
    recharge = all(name in papers.profile.limits for name in ("recharge_percent", "recharge_h"))
    long = ("Standby", "Recharge") if recharge else ("Standby",)
    yield Step("mains-fail", "test", "Let the mains fail",
               ("Start now, read later: mains off at its own switch, not at a terminal; write down the time. Shown, no alarm, every unit still heard.",
                f"{back} Go on with “{LOAD}”, which needs the mains off and at whose end it is switched on."), unit=unit,
               messages=met(papers, [unit], messages.LIVE),
               facts=(Fact("Mains stays off for, at least", amount(mains_off_min(papers), "min")), *told, Fact(COME_BACK, f"{amount(mains_off_min(papers), 'min')} after the mains went off, in the step “{LOAD}”.")),
               minutes=OF_STEP["mains-fail"], unsigned=lines_of(unit, MAINS_FAIL), leaves=(Open(f"The mains of {unit} is off", "battery-load"),))
    yield Step("battery-load", "test", LOAD,
               ("With the mains off: read the current at rest, then with all sounders on, no longer than you need to read.",
                f"Wait until the mains was off for {amount(mains_off_min(papers), 'min')} in all, counted from the time that you wrote down; read the report of "
                "the step before. Mains on again.",
                "Battery off: a fault is shown. Battery back, polarity checked.",
                f"{sentence_list(list(long))}: {LATER[0].lower()}{LATER[1:]}"), unit=unit,
               messages=met(papers, [unit, *fitted(papers)], messages.LIVE, messages.BATTERY, messages.SOUNDER),
               facts=limit_fact(papers, "current_off_percent", "From what was worked out, at most"),
               minutes=max(OF_STEP["battery-load"], mains_off_min(papers)), tools=(*tools.METER, *tools.EARS),
               unsigned=lines_of(unit, "Current at rest", "Current in alarm", "Battery fail", *long))


def supervision(papers: Papers, results: Results) -> Step:
    """One unit for each that listens loses its voice, until the step `heard_again`."""
    one_each, words = _lost(papers), papers.profile.words
    facts = tuple(_silenced(papers, results, heard, name) for heard, name in one_each.items())
    limit = papers.profile.limits.get("supervision_min")
    unknown = "" if limit else ("the profile has no limit (supervision_min). Read in the control unit's papers how long it waits for a unit before it shows "
                                "the fault.")
    silent = f"{sentence_list(list(one_each.values()))} cannot be heard"
    return Step("supervision", "test", SILENCE,
                ("Read for each unit when it was last heard.",
                 "Start now, read later: take the cell out of one unit for each that listens, or put it into a shielded bag, and write down the time. What comes "
                 f"next needs neither these units nor a system that is {words.is_set}."),
                facts=(*limit_fact(papers, "supervision_min", "Shown within"), *facts),
                messages=met(papers, list(one_each.values()), *messages.HEIGHTS, messages.LITHIUM),
                minutes=OF_STEP["supervision"], tools=tools.BAG, unsigned=("Supervision",),
                wait=Wait(float(limit.value) if limit else None, unknown, silent, until=HEARD_AGAIN))


def heard_again(papers: Papers) -> Step:
    """Where the silence is read and ended: before the first step that needs every unit, or sets the system."""
    names = list(_lost(papers).values())
    lost, words = sentence_list(names), papers.profile.words
    return Step(HEARD_AGAIN, "test", "Read the lost unit, and put it back",
                (f"Shown by now? Write how long it took. Not yet: wait here. While it is shown the system cannot be {words.is_set}, or asks first.",
                 f"{lost}: cell back in, or out of the bag; the fault is gone. Not shown within the time asked: “fail”. Not waited for: “could not test”, with the "
                 "time that you did wait.",
                 f"Nothing that follows is begun before {lost} can be heard again."),
                facts=limit_fact(papers, "supervision_min", "Shown within"), messages=met(papers, names, *messages.HEIGHTS, messages.LITHIUM),
                minutes=OF_STEP[HEARD_AGAIN], unsigned=("Supervision",))


def _lost(papers: Papers) -> dict[str, str]:
    """The unit that is lost for each that listens: one on cells that no test meanwhile needs and that nobody climbs to, where there is such a one."""
    through = {name: device.via or papers.job.control_unit.id for name, device in papers.job.devices.items() if name in fitted(papers)}

    def easy(name: str) -> tuple[bool, bool, bool]:
        sheet = papers.sheet_of[name]
        return sheet.kind not in MEANWHILE, sheet.power.kind == "cell", not met(papers, [name], *messages.HEIGHTS)
    # The last of each is the one that stays: the easiest, and of equals the first of the job.
    return {through[name]: name for name in sorted(reversed(through), key=easy)}


def _silenced(papers: Papers, results: Results, heard: str, name: str) -> Fact:
    """The unit that is silenced for one that listens, with how often it sends."""
    fact, radio = row_fact(papers, results, name), papers.sheet_of[name].radio
    minutes = radio.supervision_min if radio else None
    every = f"sends every {amount(minutes, 'min')} by its sheet" if minutes else "how often it sends is not on its sheet"
    return replace(fact, name=f"Heard by {heard}", value=f"{fact.value}; {every}")


def interference(papers: Papers) -> Step:
    """Interference, without making any."""
    return Step("interference", "test", "See what the control unit says of interference",
                ("Open its own diagnosis of the band; write down what it shows, and when.",
                 "Never use a jamming transmitter, not even for a second: use its own diagnosis or the test that its papers describe."),
                messages=met(papers, (), messages.RADIO), unit=papers.job.control_unit.id, minutes=OF_STEP["interference"],
                unsigned=("Interference",))


def paths(papers: Papers) -> Iterator[Step]:
    """Each transmission path by itself."""
    agreed = papers.job.monitoring
    if agreed is None:
        return
    listed = list(agreed.paths.items())
    for key, path in listed:
        others = [other for other, _ in listed if other != key]
        block = f"Take {sentence_list(others)} off. " if others else ""
        yield Step(f"path-{key}", "test", f"Path {key}, by itself",
                   (f"{block}Bring an alarm and its restore ({papers.profile.words.is_unset}, a lid will do): {agreed.station} reads both back, with number and text.",
                    f"Then take {key} off{' and the others on' if others else ''}: the loss is shown here and reported by the others." if others else
                    f"Then take {key} off: the loss is shown here, and {agreed.station} misses the system in time.",
                    *((f"Start now, read later: switch the router's mains off and write down the time; the path holds {_router(path.standby_h)}. Not waited for "
                      "to the end: mains on again, write “could not test”, and how long it held.",) if path.router else ())),
                   facts=(Fact("Carried by", PATHS[path.kind]), Fact("Account", agreed.account, "job.monitoring.account"),
                          *((Fact("Router carries on for", amount(path.standby_h, "h")),) if path.standby_h is not None else ()),
                          *limit_fact(papers, "station_arrival_s", "Arrives within")),
                   minutes=OF_STEP["path"], tools=tools.WATCH, unsigned=(f"Path {key}", f"{LOSS}{key}", *((f"Router of {key}",) if path.router else ()), MONITORING),
                   wait=_held_by_router(key, path.standby_h) if path.router else None)
    if not listed:
        yield Step("path", "test", "Each path to the station",
                   (f"Its paths are not in the plan: ask the office. Bring an alarm and its restore over each alone; {agreed.station} reads both "
                    "back.",),
                   facts=limit_fact(papers, "station_arrival_s", "Arrives within"), minutes=OF_STEP["path"], unsigned=(MONITORING,))


def _held_by_router(key: str, hours: float | None) -> Wait:
    what = f"The router of path {key} runs without mains"
    back = f"Router of path {key}: mains on again. It held for less than agreed by then: write “could not test”, and how long it did hold."
    if hours is not None:
        return Wait(hours * 60, "", what, back)
    return Wait(None, "how long router and modem must carry on is not in the plan; ask the office.", what, back)


def _router(hours: float | None) -> str:
    return f"for {amount(hours, 'h')}" if hours is not None else "as long as agreed"


def confirmation(papers: Papers, results: Results) -> Iterator[Step]:
    """A pair of zones that confirm each other."""
    agreed = papers.job.monitoring
    names = [name for name, device in papers.job.devices.items() if device.confirms]
    if agreed and agreed.confirmation not in (None, "none"):
        yield Step("confirmation", "test", "Confirm an alarm",
                   (f"{capital(papers.profile.words.is_set)}, exit time over: trigger one of these, then another that does not look at the same place: the station reads first the alarm, then that it is "
                    "confirmed.",
                    "One zone twice must confirm nothing."),
                   facts=tuple(row_fact(papers, results, name) for name in names), messages=met(papers, (), messages.CAMERAS),
                   minutes=OF_STEP["confirmation"], unsigned=("Confirmation", MONITORING))


def at_the_end(papers: Papers, results: Results) -> Iterator[Step]:
    """Partitions, the full set from outside, the log."""
    words = papers.profile.words
    for number, one in sorted(papers.job.partitions.items()):
        yield Step(f"partition-{number}", "test", f"Partition {number}: {one.name}",
                   (f"{capital(words.set)} this part alone: its own zones alarm, those of the others do not. What serves two counts only when "
                    "both are "
                    f"{words.is_set}.",), minutes=OF_STEP["partition"], unsigned=(f"Partition {number}",))
    doors = [name for name, device in papers.job.devices.items() if device.role == "timed-entry"]
    yield Step("full-set", "test", TIMED_LAST.format(words.is_set),
               (f"Everybody out; {words.set} from outside; wait until the exit time is over. Trigger one unit by reaching in: alarm. "
                f"{capital(words.unset)}.",
                f"With a window open, try to {words.set}: it is refused, or it says which one is open."),
               facts=tuple(row_fact(papers, results, name) for name in doors),
               messages=met(papers, list(papers.job.devices), messages.SOUNDER, messages.NEIGHBOURS), minutes=OF_STEP["full-set"],
               unsigned=(f"Fully {words.is_set}", "Refused"))
    yield Step("log", "test", "Read the log",
               ("Every test of today stands there with the right zone, user and time. What is missing was not tested.",),
               minutes=OF_STEP["log"], unsigned=("Log",))
