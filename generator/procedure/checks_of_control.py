"""The tests of the control unit and its supply, and of repeaters, which carry others."""
from collections.abc import Iterator
from dataclasses import replace
from datetime import date

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.procedure.check import BY_STATION, LEAST, MAINS_FAIL, PLATE, PRACTICE, SHEET, UNWATCHED, Check, both, held, limit
from generator.procedure.handling import filled
from generator.procedure.units import unwatched
from generator.terms.show import amount, day, number, sentence_list


# Hours that nobody waits for on the day: who reads them, when, and what stands until then.
LATER = ("Not waited for on the day: the company reads it on a later visit, agreed with the customer. Until then its result is “could not test”, and "
         "the certificate says: worked out, not tested.")


def of_control_unit(papers: Papers, results: Results) -> Iterator[Check]:
    """Identity, lid, supply, clock, authority, log."""
    own, name = papers.job.control_unit, papers.job.control_unit.id
    sheet = papers.sheet_of[name]
    yield Check(name, "Identity", f"Serial {own.serial or 'written into the slot map today'}.", PRACTICE, "serial", ("job.control_unit.serial",))
    if unwatched(papers):
        yield Check(name, UNWATCHED, "Write what the office answered: whether it is meant that no detector of the plan is in the same space.", PRACTICE, "answer")
    yield held(papers, name, "Background", "Quieter than its own papers ask, watched for {limit}.", "background_min", "in its own scale")
    yield Check(name, "Lid tamper", filled(sheet.handling.test, papers, results, name), SHEET)
    yield Check(name, "Fixing", "Nothing moves by hand, tamper plate flat, every hole sealed, mains and extra-low voltage apart.", PRACTICE)
    if sheet.power.kind == "mains":
        yield from _supply(papers, results, name)
    elif sheet.power.cell:
        yield Check(name, "Cell", f"{sheet.power.cells or 1} × {sheet.power.cell}, dated inside; no weak cell shown.", PRACTICE, "date on it")
    wrong = limit(papers, "clock_off_min")
    yield Check(name, "Clock", "Right to the minute; its change in spring and autumn set." + (f" In a year it may go {wrong[0]} wrong." if wrong else ""),
                both(PRACTICE, *([wrong[1]] if wrong else [])), "min off")
    yield Check(name, "Installer's authority", "Changed from the state of delivery; it is asked for the user's leave where grade or code wants "
                                               "that.", PRACTICE)
    events, least = sheet.control_unit.event_log, limit(papers, "log_events")
    if events and least:
        yield Check(name, "Size of the log", f"It holds {events} events by its sheet; {least[0]} at least.", least[1])


def _supply(papers: Papers, results: Results, name: str) -> Iterator[Check]:
    sheet, power = papers.sheet_of[name], results.power
    own, charger = papers.job.control_unit, sheet.control_unit.charger
    yield _fixed_supply(papers, name)
    volts = f"{number(charger.least_v, 2)} to {number(charger.most_v, 2)} V at the battery's leads" if charger else "Within the plate's range"
    yield Check(name, "Charging voltage", f"{volts}, battery not joined.", SHEET if charger else PLATE, "V",
                least=float(charger.least_v) if charger else None, most=float(charger.most_v) if charger else None)
    allowed = papers.profile.limits.get("current_off_percent")
    percent = float(allowed.value) if allowed else None
    for what, worked_out, span, state in (
            ("Current at rest", power.rest_in_words(), power.rest_span_in_words, "nothing sounding"),
            ("Current in alarm", power.alarm_in_words(), power.alarm_span_in_words, "all sounders on, for the shortest time that lets you read")):
        between = f": {span(percent)}" if percent is not None and worked_out else ""
        yield held(papers, name, what, f"Within {{limit}} of {worked_out or 'what the office works out'}{between}; {state}. Write what you read.",
                   "current_off_percent", "A")
    yield Check(name, "Polarity", "Read at the battery's leads before they are joined: plus to plus, minus to minus.", PRACTICE)
    old = limit(papers, "battery_age_months")
    size = own.battery_ah or (sheet.power.capacity_mah / 1000 if sheet.power.capacity_mah else None)
    fitted = f"The battery fitted is the {amount(size, 'Ah')} of the plan" if size else "The battery fitted is the one of the plan"
    yield Check(name, "Battery", f"{fitted}{_dated(own.battery_on)}" + (f"; not older than {old[0]}." if old else "."), old[1] if old else PRACTICE,
                "Ah, date")
    yield held(papers, name, "Standby", f"The battery carries the system for {{limit}} without mains. {_worked_out(power.runs_in_words())} {LATER}", "standby_h", "h", end=LEAST)
    failed = held(papers, name, MAINS_FAIL, f"Mains off for {{limit}}{_longer(papers)}: shown and reported, no alarm, all units still heard.", "mains_off_min", "min", end=LEAST)
    yield replace(failed, least=mains_off_min(papers))
    yield Check(name, "Battery fail", "Battery off, mains on: a fault is shown.", PRACTICE)
    share, hours = limit(papers, "recharge_percent"), limit(papers, "recharge_h")
    if share and hours:
        yield Check(name, "Recharge", f"{share[0]} of the battery is back within {hours[0]}. {_worked_out(power.recharge_in_words())} {LATER}", both(share[1], hours[1]), "h", most=float(papers.profile.limits["recharge_h"].value))


def mains_off_min(papers: Papers) -> float:
    """How long the mains is off in its test, in min: as the profile asks, and until its failure is reported, with some time for the report to come."""
    limit, more = papers.profile.limits.get("mains_off_min"), papers.profile.limits.get("report_reserve_min")
    reported = papers.job.times.mains_report_min if papers.job.monitoring else None
    return max(float(limit.value) if limit else 0.0, reported + (float(more.value) if more else 0.0) if reported is not None else 0.0)


def _longer(papers: Papers) -> str:
    """That the mains stays off until its failure is reported, where somebody gets the report."""
    reported = papers.job.times.mains_report_min if papers.job.monitoring else None
    return f", and until the report has come, which it does {amount(reported, 'min')} after: {amount(mains_off_min(papers), 'min')} in all" if reported is not None else ""


def _fixed_supply(papers: Papers, name: str) -> Check:
    """The mains of a unit, as the competent person leaves it."""
    fuse = limit(papers, "fuse_a")
    return Check(name, "Supply", "Fixed and fused as the local code asks, labelled, not pulled or switched off by accident; polarity "
                "and earth (ground) continuity proved by the competent person, whose certificate's number is written down."
                + (f" Usual fuse: {fuse[0]}." if fuse else ""),
                both(PRACTICE, *([fuse[1]] if fuse else [])), "certificate")


def _worked_out(figure: str) -> str:
    return f"Worked out: {figure}." if figure else "It could not be worked out: the page on power says why."


def _dated(on: date | None) -> str:
    return f", dated {day(on)}" if on else "; its date is not in the plan, write it here"


def of_repeater(papers: Papers, results: Results, name: str) -> Iterator[Check]:
    """It carries on without mains, says so, and carries each unit that relies on it."""
    hours = papers.sheet_of[name].power.standby_h
    if papers.sheet_of[name].power.kind == "mains":
        yield _fixed_supply(papers, name)
    yield Check(name, "Mains off", f"It carries on for {amount(hours, 'h')} by its sheet; here: until the test is over." if hours else
                "It carries on; for how long is not on its sheet, read its papers.", SHEET if hours else PLATE, "min")
    if papers.job.monitoring:
        yield Check(name, "Loss reported", "The station reads that its supply is lost, and that it is back.", PRACTICE, BY_STATION)
    behind = [unit for unit, device in papers.job.devices.items() if device.via == name]
    for unit in behind:
        shown = sentence_list([f"zone {row.zone} {row.text}" for row in results.slots.of(unit) if row.list == "zones"])
        yield Check(name, f"Carries {unit}", f"With the direct way blocked, {unit} brings {shown or 'its signal'} through {name}.", PRACTICE)
    if not behind:
        yield Check(name, "Carries", "No unit relies on it in the plan: ask the office what it is for.", PRACTICE)
