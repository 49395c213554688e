"""The tests of exactly this job's units and functions: what is expected, up to which limit, and whose limit it is."""
from collections.abc import Iterator
from dataclasses import dataclass

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.procedure.handling import filled, test_in_words
from generator.terms.show import amount, number, sentence_list

MAIN_KINDS = ("hold-up", "smoke", "heat", "carbon-monoxide", "repeater")
CARRIED = ("fob", "tag")


@dataclass(frozen=True)
class Check:
    """One line of the checklist. `unit` is "" for the system; `measured` is the unit of a value to write, "" for none."""

    unit: str
    what: str
    accept: str
    source: str
    measured: str = ""


PRACTICE = "common practice"


def _limit(papers: Papers, name: str) -> tuple[str, str]:
    """A limit as text with its unit, and its source."""
    entry = papers.profile.limits[name]
    return amount(entry.value, entry.unit or ""), papers.profile.source_of(name).cited()


def link_limit(papers: Papers, name: str) -> str:
    """The name of the limit that a unit's link margin is held against: the larger one for what matters most."""
    kind, device = papers.sheet_of[name].kind, papers.job.devices[name]
    main = kind in MAIN_KINDS or device.role == "timed-entry" or (kind == "sounder" and device.room == "outside")
    return "link_margin_main_db" if main else "link_margin_db"


def checks_of_unit(papers: Papers, results: Results, name: str) -> tuple[Check, ...]:
    """The tests of one unit, in the order in which they are done."""
    sheet = papers.sheet_of[name]
    if name == papers.job.control_unit.id:
        return tuple(_of_control_unit(papers, results))
    return tuple([*_identity(papers, results, name), *([] if sheet.kind in CARRIED else _radio(papers, name)),
                  *_by_kind(papers, results, name)])


def _identity(papers: Papers, results: Results, name: str) -> Iterator[Check]:
    device = papers.job.devices[name]
    zones = [row for row in results.slots.of(name) if row.list == "zones"]
    wanted = f"serial {device.serial}" if device.serial else "the serial written into the slot map today"
    yield Check(name, "Identity", f"The plate, the slot map and the control unit's read-back agree: {wanted}.", PRACTICE, "serial")
    if zones:
        shown = sentence_list([f"zone {row.zone} {row.text}" for row in zones])
        too = ", and the monitoring station reads the same" if papers.job.monitoring else ""
        yield Check(name, "Number and text", f"When it acts, the keypad shows {shown}{too}.", PRACTICE)


def _radio(papers: Papers, name: str) -> Iterator[Check]:
    margin, source = _limit(papers, link_limit(papers, name))
    sent, sent_source = _limit(papers, "link_messages")
    drift, drift_source = _limit(papers, "link_drift_db")
    lid, lid_source = _limit(papers, "tamper_s")
    both = ", in both directions" if papers.sheet_of[name].two_way else ""
    yield Check(name, "Link margin", f"At the final place, lid on, doors in their worst state: {margin} or more{both}.", source, "dB")
    yield Check(name, "Messages", f"{sent} of {sent} test messages arrive.", sent_source, f"of {sent}")
    yield Check(name, "Drift", f"Within {drift} of the reading before drilling.", drift_source, "dB")
    yield Check(name, "Lid tamper", f"Opened, it is shown within {lid}, set and unset.", lid_source, "s")
    yield Check(name, "Fixing", "Nothing moves by hand, no gap behind, cable hole sealed.", PRACTICE)


def _by_kind(papers: Papers, results: Results, name: str) -> Iterator[Check]:
    sheet = papers.sheet_of[name]
    yield Check(name, "Function", filled(sheet.handling.test, papers, results, name), "the company's equipment sheet")
    if sheet.kind == "movement":
        steps, source = _limit(papers, "slow_walk_steps")
        yield Check(name, "Walk test", f"Walking across at one step a second, it answers within {steps} steps.", source, "steps")
        yield Check(name, "Stillness", "Nobody in the room, heating and fans running: no signal in two minutes.", PRACTICE)
    if sheet.kind == "contact":
        yield Check(name, "Rattle", "The closed leaf is rattled: no signal.", PRACTICE)
    if sheet.kind == "sounder":
        limit = amount(papers.job.times.sounder_min, "min")
        yield Check(name, "Running time", f"It stops by itself after {limit}.", PRACTICE, "min")
    if sheet.kind in ("smoke", "heat", "carbon-monoxide"):
        yield Check(name, "By the fire code", "Tested as the local fire code and the device's own listing ask; heard in every "
                    "bedroom with the doors shut.", "the local fire code decides")


def _of_control_unit(papers: Papers, results: Results) -> Iterator[Check]:
    name = papers.job.control_unit.id
    sheet = papers.sheet_of[name]
    wanted = papers.job.control_unit.serial or "written into the slot map today"
    off, off_source = _limit(papers, "current_off_percent")
    without, without_source = _limit(papers, "mains_off_min")
    yield Check(name, "Identity", f"Serial {wanted}.", PRACTICE, "serial")
    yield Check(name, "Lid tamper", filled(sheet.handling.test, papers, results, name), "the company's equipment sheet")
    if sheet.power.kind == "mains":
        yield Check(name, "Supply", "Fixed, fused, labelled, cannot be switched off by accident; certificate number of the "
                    "competent person written down.", PRACTICE, "certificate")
        yield Check(name, "Charging voltage", "Within the plate's range, battery not joined.", "the unit's own plate", "V")
        yield Check(name, "Current at rest", f"Within {off} of what was calculated.", off_source, "A")
        yield Check(name, "Mains fail", f"Mains off for {without}: shown and reported, no alarm, all units still heard.",
                    without_source, "min")
        yield Check(name, "Battery fail", "Battery off, mains on: a fault is shown.", PRACTICE)
    yield Check(name, "Clock", "Right to the minute.", PRACTICE)


def system_checks(papers: Papers, results: Results) -> tuple[Check, ...]:
    """The tests of the system as a whole."""
    times = papers.job.times
    out = [
        Check("", "Entry", f"The slowest user unsets from the door in less than {number(times.entry_s)} s.", PRACTICE, "s"),
        Check("", "Exit", f"The slowest user is out with the door shut in less than {number(times.exit_s)} s.", PRACTICE, "s"),
        Check("", "Full set", "Set from outside, exit time over: one unit is triggered by reaching in; alarm; unset.", PRACTICE),
    ]
    if papers.job.monitoring:
        out += [
            Check("", "Every event at the station", f"{papers.job.monitoring.station} reads back number and text of each zone, "
                  "and its restore.", PRACTICE, "operator, time"),
            Check("", "Automatic test", f"The station sees the next test; due: {test_in_words(papers.job.monitoring)}.",
                  PRACTICE, "time"),
            Check("", "Account off test", "Operator's name and time written down.", PRACTICE, "operator, time"),
        ]
    out.append(Check("", "Log", "All of today's tests stand in the log with the right zone, user and time.", PRACTICE))
    return tuple(out)
