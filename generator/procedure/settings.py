"""What is set at the control unit, by topics of the job, never by the order of some unit's menu. No code stands anywhere.

One source for the steps of programming and for the page that is read back: each value once, with the field that it is from.
"""
from collections.abc import Iterator
from dataclasses import dataclass

from generator.calc.results import Results
from generator.calc.slots.slots import Row
from generator.model.agreement import Handover
from generator.model.papers import Papers
from generator.procedure.confirming import WINDOW, confirming_in_words
from generator.procedure.handling import test_in_words
from generator.procedure.safety import is_outside
from generator.procedure.step import Fact
from generator.procedure.units import attributes
from generator.terms.show import amount, capital, day, sentence_list

COMPLETES = {"exit-time": "the end of the exit time", "final-door": "shutting the final door", "button": "a button outside", "tag": "a tag",
             "lock": "a lock"}
PATHS = {"broadband": "broadband", "mobile": "mobile network", "phone-line": "analogue telephone line", "radio": "radio"}
CONFIRMED = {"none": "not confirmed", "sequential": "by a second zone", "audible": "by listening", "visual": "by a picture"}
EVENTS = {"dc-05": "SIA DC-05", "dc-09": "SIA DC-09"}


@dataclass(frozen=True)
class Topic:
    """One topic of programming: its values, or none if the job has none of it."""

    id: str
    title: str
    rows: tuple[Fact, ...]


def settings(papers: Papers, results: Results) -> tuple[Topic, ...]:
    """Every topic that this job has something to set in."""
    every = (
        Topic("authority", "Installer's own authority", tuple(_authority(papers))),
        Topic("clock", "Date and time", tuple(_clock())),
        Topic("attributes", "Zones", tuple(_zones(papers, results))),
        Topic("times", "Times", tuple(_times(papers))),
        Topic("part-sets", f"Ways to {papers.profile.words.part_set}", tuple(_part_sets(papers, results))),
        Topic("partitions", "Partitions", tuple(Fact(f"Partition {number}", one.name) for number, one in sorted(papers.job.partitions.items()))),
        Topic("users", "Users, by number and role", tuple(_users(papers, results))),
        Topic("sounders", "Sounders", tuple(_sounders(papers, results))),
        Topic("completing", f"To {papers.profile.words.set}: what completes it, what confirms an alarm", tuple(_completing(papers, results))),
        Topic("reporting", "Reports to the station", tuple(_reporting(papers))),
        Topic("tests", "Automatic tests", tuple(_tests(papers))),
    )
    return tuple(one for one in every if one.rows)


def _authority(papers: Papers) -> Iterator[Fact]:
    done = papers.job.handover
    yield Fact("Changed from the state of delivery", _changed(done) if done and done.authority_changed is not None else
               "not known yet: change it first, write down who and when, never the code itself", "job.handover.authority_changed")


def _changed(done: Handover) -> str:
    if not done.authority_changed:
        return "no: change it first"
    return " ".join(filter(None,
                           ("yes", f"by {done.changed_by}" if done.changed_by else "", f"on {day(done.changed_on)}" if done.changed_on else "")))


def _clock() -> Iterator[Fact]:
    yield Fact("Date and time", "right to the minute")
    yield Fact("Change of the clock in spring and autumn", "as the country has it")


def _zones(papers: Papers, results: Results) -> Iterator[Fact]:
    for row in sorted((row for row in results.slots.rows if row.list == "zones" and row.device), key=lambda row: row.zone or row.number):
        yield Fact(f"Zone {row.zone or row.number}", _zone(papers, row), row.text_field)


def _zone(papers: Papers, row: Row) -> str:
    return "; ".join(filter(None, (row.text, *(f"{one.name.lower()}: {one.value}" for one in attributes(papers, row.device)))))


def _times(papers: Papers) -> Iterator[Fact]:
    times = papers.job.times
    for name, key, unit in (("Entry time", "entry_s", "s"), ("Exit time", "exit_s", "s"),
                            ("Report held after an alarm on entry", "report_delay_s", "s"),
                            ("Time to cancel an alarm", "abort_s", "s"), ("Mains failure reported after", "mains_report_min", "min")):
        value = getattr(times, key)
        if value is not None:
            yield Fact(name, amount(value, unit), f"job.times.{key}")
    if times.trips is not None:
        yield Fact("Repeated-trip limit", f"{times.trips} alarms of one zone, from one time that it is {papers.profile.words.set} to the next", "job.times.trips")


def _part_sets(papers: Papers, results: Results) -> Iterator[Fact]:
    for key, one in papers.job.part_sets.items():
        out = [f"zone {row.zone or row.number} {row.text}" for row in results.slots.rows
               if row.list == "zones" and row.device and key in papers.job.devices[row.device].left_out_in]
        yield Fact(one.name, f"without {sentence_list(out)}" if out else "nothing is left out", f"job.part_sets.{key}")


def _users(papers: Papers, results: Results) -> Iterator[Fact]:
    for number, user in sorted(papers.job.users.items()):
        carried = [f"{row.list.removesuffix('s')} {row.number}, {name}" for name in (user.fob, user.tag) if name
                   for row in results.slots.of(name) if row.list in ("fobs", "tags")]
        yield Fact(f"User {number}", "; ".join([user.who, *carried, "code typed by its owner"]))


def _sounders(papers: Papers, results: Results) -> Iterator[Fact]:
    times = papers.job.times
    yield Fact("Outside sounder runs", amount(times.sounder_min, "min"), "job.times.sounder_min")
    if times.inside_sounder_min is not None:
        yield Fact("Inside sounders run", amount(times.inside_sounder_min, "min"), "job.times.inside_sounder_min")
    for row in results.slots.rows:
        if row.list == "sounders" and row.device:
            yield Fact(f"Sounder {row.number}", f"{row.device}, {'outside' if is_outside(papers, row.device) else 'inside'}")


def _completing(papers: Papers, results: Results) -> Iterator[Fact]:
    if papers.job.times.completes_by:
        yield Fact("Completed by", COMPLETES[papers.job.times.completes_by], "job.times.completes_by")
    agreed = papers.job.monitoring
    if agreed and agreed.confirmation:
        yield Fact("Alarms are confirmed", CONFIRMED[agreed.confirmation], "job.monitoring.confirmation")
    which = confirming_in_words(papers, results)
    if which:
        yield Fact("Which zones confirm which", capital(which))
        yield Fact("Time within which the second zone must act", capital(WINDOW))


def _reporting(papers: Papers) -> Iterator[Fact]:
    agreed = papers.job.monitoring
    if agreed is None:
        return
    yield Fact("Account", agreed.account, "job.monitoring.account")
    if agreed.format:
        yield Fact("Events are sent as", EVENTS[agreed.format], "job.monitoring.format")
    for number, (key, path) in enumerate(agreed.paths.items(), 1):
        yield Fact(f"Path {number}", f"{key}: {PATHS[path.kind]}{', through a router of the house' if path.router else ''}",
                   f"job.monitoring.paths.{key}")
    if agreed.open_close is not None:
        words = papers.profile.words
        yield Fact(f"{capital(words.set)} and {words.unset}", "reported" if agreed.open_close else "not reported", "job.monitoring.open_close")


def _tests(papers: Papers) -> Iterator[Fact]:
    if papers.job.monitoring:
        yield Fact("Automatic test", test_in_words(papers.job.monitoring), "job.monitoring.test_interval_h")
