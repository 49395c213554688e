"""Documents that begin with the day of the work: plan, completion, log book, maintenance, corrective work."""
from collections.abc import Iterator

from generator.calc.days.calendar import Given, calendar
from generator.calc.days.dates import Month
from generator.calc.results import Results
from generator.model.papers import Papers
from generator.pages.origins import keys_in_words
from generator.pages.page import Page, Stamp
from generator.pages.paper import ON_THE_DAY, Entry, Section, day_or_none, given, later, numbered, table, to_write, yes_no
from generator.pages.parts import place_of, units_of
from generator.pages.record.document import document, parties, signatures
from generator.pages.record.site import PATH as SITE, site_tally
from generator.pages.station.parts import LIVE
from generator.procedure.checks import checks_of_unit, system_checks
from generator.procedure.step import Step
from generator.procedure.steps import procedure
from generator.rules.all_rules import findings
from generator.rules.finding import Verdict
from generator.rules.on_site import OF_SITE
from generator.terms.show import amount, count, day, sentence_list

COMPANY, CUSTOMER = "the company", "the customer"
CARRIED = "carried"
AT_A_VISIT = "to be written at the visit"
LOG_LINES, PART_LINES, ACTION_LINES = 24, 6, 6
CAUSES = ("user", "equipment", "installation", "environment", "communications", "unknown", "genuine")
LOG_COLUMNS = ("Day and time", "What happened", "Cause", "What was done", "Who", "In order again at")
VISIT_COLUMNS = ("Tested, or could not because", "Radio reading", "Reading at fitting", "Cell changed, date on it")
VISIT_CHECKS = ("Changes of the house or its use since", "The as-fitted schedule agrees with the house", "Fixings and flexible connections",
                "House power, standby battery: its date, its load test", "Signals at the station, each path on its own",
                "Keyholders and permit still right",
                "Sounders heard", "Events of the log since the last visit, false alarms by cause", "Advice given", "In service again, off test, at")


def plan_page(papers: Papers, results: Results, stamp: Stamp) -> Page:
    """The installation plan, which is the installer's pack: this page leads to it and takes the releases of its hold points."""
    steps = procedure(papers, results)
    holds = [_hold(papers, one) for one in steps if one.hold]
    sections = (
        Section("pack", "The installer's pack",
                "The plan of the day is the installer's pack: hazards, tools, steps with hold points, numbers, tests, labels.", (
            Entry("Folder", "installer/ of this job's pack"),
            Entry("Revision", stamp.issued),
            Entry("Steps", str(len(steps))), Entry("Units", str(len(papers.job.devices) + 1)),
            given("First day of work", day_or_none(papers.job.agreement.work_on) if papers.job.agreement else "", COMPANY),
            # It follows from a path name that only the installer may know.
            later("Fingerprint of the installer's pack", "copy it from the foot of its pages; pack.json has it under audience_fingerprints"),
        )),
        Section("holds", "Hold points", "Nobody goes on before a hold point is released.",
                table=to_write("Hold points", "Do not go on until", ("Released by", "Day and time"), holds)),
        Section("secrets", "Codes", "Codes are written in no file. They are held where the company keeps its secrets.", (
            given("The installer's authority was changed from the state in which the unit was delivered", _changed(papers), COMPANY),)),
    )
    return document("plan.html", "Installation plan", "What the installer works from, and who released each hold point.", papers, stamp, sections)


def _hold(papers: Papers, step: Step) -> str:
    """A hold point with the unit that it holds for: many units have the same one."""
    unit = f" · {step.unit} {place_of(papers, step.unit) or CARRIED}" if step.unit else ""
    return f"{step.hold.id}{unit}: {step.hold.until}"


def _changed(papers: Papers) -> str:
    told = papers.job.handover
    if told is None or told.authority_changed is None:
        return ""
    details = [f"on {day(told.changed_on)}" if told.changed_on else "", f"by {told.changed_by}" if told.changed_by else ""]
    return ", ".join(filter(None, (yes_no(told.authority_changed), *details)))


def completion_page(papers: Papers, results: Results, verdicts: tuple[Verdict, ...], stamp: Stamp) -> Page:
    """The completion certificate, which nobody can sign yet; while the site differs from the plan without a reason, what to write first."""
    held = _held_back(papers, verdicts, stamp)
    if held:
        return held
    order, service = papers.job.agreement, papers.job.service
    tests = sum(len(checks_of_unit(papers, results, name)) for name in units_of(papers)) + len(system_checks(papers, results))
    sections = (
        Section("system", "System", "", (*parties(papers), Entry("Checked against", f"{papers.profile.name}, edition {papers.profile.edition}"),
                                          later("Standard, edition and grade that are declared", "to be written by whoever signs"),
                                          later("Certificate number", "to be written where an inspectorate gives one"))),
        Section("dates", "Dates", "", (
            given("In use from", day_or_none(order.in_use_on) if order else "", COMPANY), *_soak(papers),
            given("Maintenance every", amount(service.every_months, "months") if service else "", f"{COMPANY} and {CUSTOMER}"))),
        Section("tests", "Tests", "The list stands in the installer's pack.",
                (Entry("Tests to be done", str(tests)), _came_to(papers, results))),
        _deviations(papers, verdicts),
        Section("handed-over", "Handed over", "", table=to_write("Handed over", "What", ("Yes, no, does not apply", "To whom"),
                ("As-fitted schedule", "Homeowner's pages", "Log book", "Keys, fobs and tags, by number",
                 "Electrical certificate, by the competent person"))),
        Section("training", "Training", "", table=to_write("Shown and tried out", "What", ("By whom, as a role", "Day"), _shown(papers))),
        Section("authority", "Installer's authority", "", (given("Changed from the state in which the unit was delivered", _changed(papers),
                                                                 COMPANY),)),
        signatures("Installer", "Customer"),
    )
    return document("completion.html", "Completion certificate", "What is declared when the work is done. Until it is signed nothing is declared.",
                    papers, stamp, sections)


def _came_to(papers: Papers, results: Results) -> Entry:
    name, found = "Passed, failed, could not be done", site_tally(papers, results)
    return Entry(name, f"{found}: {SITE} has each line") if found else later(name)


def _held_back(papers: Papers, verdicts: tuple[Verdict, ...], stamp: Stamp) -> Page | None:
    """The certificate while something was found otherwise than planned and nobody wrote why: what it is, and what to write; nothing to sign."""
    stops = [one for one in findings(verdicts) if one.stops and one.rule in OF_SITE]
    if not stops:
        return None
    lines = tuple(f"{one.hit.says} {keys_in_words(one.hit.do)}" for one in stops)
    sections = (Section("held-back", "Held back", f"STOP: {count(len(stops), 'thing')} found on site {'is' if len(stops) == 1 else 'are'} not as planned. "
                        "When each has its reason, this page is the certificate again.", lines=lines),)
    return document("completion.html", "Completion certificate", "Nothing can be declared yet.", papers, stamp, sections)


def _shown(papers: Papers) -> Iterator[str]:
    """What the people of this house are shown, and try themselves."""
    words, kinds = papers.profile.words, {one.kind for one in papers.sheet_of.values()}
    yield f"To {words.set} and to {words.unset}"
    if papers.job.part_sets:
        yield f"To {words.part_set}: {sentence_list([one.name for one in papers.job.part_sets.values()])}"
    yield "What to do after a false alarm"
    yield from (f"What to do: {kind.replace('-', ' ')}" for kind in ("smoke", "heat", "carbon-monoxide", "hold-up", "medical",
                                                                     "water") if kind in kinds)
    yield "Testing, and whom to call"


def _soak(papers: Papers) -> Iterator[Entry]:
    agreed, order = papers.job.monitoring, papers.job.agreement
    if agreed is None:
        return
    known = calendar(papers.profile, Given(monitored=True, soak_from=order.in_use_on if order else None, soak_days=agreed.soak_days))
    on = {one.kind: one.first for one in known.entries}
    for name, kind in (("Soak period ends with", "soak"), (LIVE, "go-live")):
        yield given(name, day_or_none(on.get(kind)), f"{COMPANY}: day of coming into use and days of soak are needed")


def _deviations(papers: Papers, verdicts: tuple[Verdict, ...]) -> Section:
    accepted = [(one.hit.says, one.acceptance) for one in findings(verdicts) if one.accepted]
    left = [(one.what,
             f"Left out, agreed by {one.by} on {day(one.on)}: {one.why}") for one in (papers.job.agreement.left_out if papers.job.agreement else ())]
    still = sum(one.stops for one in findings(verdicts))
    stops = f"{count(still, 'finding')} stops it: see what was checked" if still else "none"
    loose = [one for one in findings(verdicts) if not one.stops and not one.accepted]
    found = "; ".join(f"{one.severity.value}, {one.rule}: {one.hit.says}" for one in loose if one.outcome == "found") or "none"
    unchecked = sum(one.outcome != "found" for one in loose)
    entries = (Entry("Findings that keep it from being signed", stops), Entry("Open findings that do not keep it from being signed", found),
               Entry("Could not be checked", f"{count(unchecked, 'finding')}: see what was checked" if unchecked else "none"),
               later("Deviations found on the day"))
    rows = [*accepted, *left]
    return Section("deviations", "Deviations", "", entries, table("Known and answered for", "What", ("Who answers for it",), rows) if rows else None)


def log_page(papers: Papers, stamp: Stamp) -> Page:
    """The log book that stays in the house."""
    company, agreed = papers.company, papers.job.monitoring
    sections = (
        Section("whose", "Whom to call", "", (
            Entry("Company", company.telephone), Entry("Company, out of hours", company.out_of_hours),
            Entry("Monitoring station", f"{agreed.station}, {agreed.telephone}" if agreed else "none: this system only sounds"))),
        Section("entries", "Entries",
                "Every fault, alarm, test, visit and change. Whoever takes a unit or the whole system out of service, even for an hour, "
                "writes it here and signs.", table=to_write("Log", "No.", LOG_COLUMNS, numbered(LOG_LINES))),
    )
    return document("log-book.html", "Log book", "Stays in the house, beside the control unit, with no code in it.", papers, stamp, sections)


def maintenance_page(papers: Papers, results: Results, stamp: Stamp) -> Page:
    """The record of a service."""
    heads = [f"{name}, {place_of(papers, name) or 'carried'}" for name in units_of(papers)]
    sections = (
        _due(papers),
        Section("visit", "Visit", "", tuple(later(one, AT_A_VISIT) for one in (
            "Day, arrival, leaving", "Due month that it counts for", "On site or from afar; what was done from afar", "By whom"))),
        Section("checks", "System", "", table=to_write("System", "What", ("Found", "Done"), VISIT_CHECKS)),
        Section("units", "Units", "", table=to_write("Units", "Unit", VISIT_COLUMNS, heads)),
        Section("actions", "What is still to be done", "", table=to_write("Still to be done", "No.", ("What", "By whom", "Until"),
                                                                          numbered(ACTION_LINES))),
        signatures("Service", "Customer"),
    )
    return document("maintenance.html", "Maintenance record", "One for each service.", papers, stamp, sections)


def _due(papers: Papers) -> Section:
    service, order = papers.job.service, papers.job.agreement
    in_use = order.in_use_on if order else None
    known = calendar(papers.profile, Given(monitored=papers.job.monitoring is not None, in_use=in_use, services=2))
    months = [one.on for one in known.entries if one.kind == "service" and isinstance(one.on, Month)]
    due = sentence_list([f"{day(one.first)} to {day(one.last)}" for one in months])
    visits = [f"{day(one.on)}{' from afar' if one.remote else ''}" for one in service.visits] if service else []
    return Section("due", "When", "The month in which a service is due stays the base of the next, whenever the visit was.", (
        given("Agreed: every", amount(service.every_months, "months") if service else "", f"{COMPANY} and {CUSTOMER}"),
        given("First services due by the profile's interval", due, f"{COMPANY}: the day of coming into use is needed"),
        given("Visits with a day", sentence_list(visits), COMPANY)))


def corrective_page(papers: Papers, stamp: Stamp) -> Page:
    """The report of a visit that was called for."""
    history = papers.job.history
    known = "" if history is None else sentence_list([f"{day(one.on)} {one.kind}" for one in history.false_calls]) or "none known"
    sections = (
        Section("call", "Call", "", tuple(later(one, AT_A_VISIT) for one in (
            "Called at", "By whom, as a role", "What was told", "Arrived at", "Alarm: time and zone from the log", "Evidence"))),
        Section("cause", "Cause", "One of these, with what shows it. A fault of the design goes to whoever answers for false alarms.", (
            given("Who answers for false alarms", papers.company.false_alarms, COMPANY),
            given("False calls known before this system", known, f"{CUSTOMER} and the station"),
            later("False calls in the last 12 months, this one counted", AT_A_VISIT)),
                table=to_write("Cause", "Cause", ("Yes", "What shows it"), CAUSES)),
        Section("parts", "Parts", "What was replaced is tested as if it were new.",
                table=to_write("Parts", "No.", ("Unit", "Serial taken out", "Serial put in", "Tested, with reading"), numbered(PART_LINES))),
        Section("end", "End", "", tuple(later(one, AT_A_VISIT) for one in ("User shown again", "Next step, by whom",
                                                                           "In service again, off test, at"))),
        signatures("Service", "Customer"),
    )
    return document("corrective.html", "Corrective report", "One for each visit that was called for.", papers, stamp, sections)
