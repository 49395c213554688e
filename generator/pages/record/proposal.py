"""The design proposal: what is offered, what it was checked against, what is not covered, and what the customer takes on."""
import re
from collections import Counter
from collections.abc import Iterator

from generator.calc.days.calendar import Given, calendar
from generator.calc.results import Results
from generator.model.papers import Papers
from generator.pages.page import Page, Stamp
from generator.pages.paper import Cell, Entry, Line, Section, Table, day_or_none, given, table, yes_no
from generator.pages.parts import place_of
from generator.pages.power import standby_in_words
from generator.pages.record.document import document, has_categories, parties, signatures
from generator.pages.record.places import classes_table, positions_table, sounders_run, unwatched
from generator.pages.station.parts import CONFIRMS, FORMATS, category, paths
from generator.pages.station.zones import confirming
from generator.procedure.handling import opening_name, room_name, test_in_words
from generator.terms.show import amount, capital, count, day, number, sentence_list

CUSTOMER, COMPANY, DESIGN = "the customer", "the company", "whoever answers for the design"
ORIENTATION = "Left, right, front and rear are meant as seen by somebody who stands outside and faces the front of the house."
MOVES = ("Positions are as planned. A unit is moved on the day where the signal check, the building or safety asks for it. Each move is "
         "written into the as-fitted schedule with its reason; one that changes what is covered is agreed with the customer before it is made.")
CLAIM = ("The plan was checked against the limits of this profile. That is no claim: which standard is claimed, and whether it is met, "
         "is for whoever signs.")
COMPLETES = {"exit-time": "the end of the exit time", "final-door": "the final door", "button": "a button outside", "tag": "a tag", "lock": "a lock"}
SIGNED_AT = {"home": "the customer's home", "premises-of-the-company": "the company's premises", "distance": "a distance: post, telephone or web"}
UNWATCHED = ("Seen by", "Left out, agreed by, on")
SOUNDS_ONLY = "none: this system only sounds"


def proposal_page(papers: Papers, results: Results, stamp: Stamp) -> Page:
    """The proposal."""
    sections = (_claim(papers), _premises(papers), _schedule(papers, results), _setting(papers, results), _partitions(papers),
                _confirmation(papers), _sounders(papers), _standby(papers, results), _transmission(papers), *_paths(papers),
                _interconnections(papers),
                _left_out(papers), _unwatched(papers), _duties(papers), _money(papers),
                Section("moves", "Positions can change on the day", MOVES), _documents(papers),
                _order(papers), signatures("Company", "Customer"))
    return document("proposal.html", "System design proposal", "What is offered, and what is not. Nothing here was fitted yet.", papers, stamp,
                    sections)


def _claim(papers: Papers) -> Section:
    profile, survey = papers.profile, papers.job.survey
    return Section("claim", "Checked against", CLAIM, (
        Entry("Checked against", f"{profile.name}, edition {profile.edition}"),
        given("Standard and edition that the company claims", "", DESIGN),
        given("Grade that the company claims", "", f"{DESIGN}; the profile is {profile.name}"),
        given("Way of telling an alarm (notification)", "", DESIGN),
        given("Who answers an alarm", _answers(papers), "the station"),
        given("Survey in this record, made on", day_or_none(survey.on) if survey else "", "the surveyor"),
        Entry("Insurer", "Ask the insurer before you accept this: only the insurer says whether it is enough."),
    ))


def _answers(papers: Papers) -> str:
    agreed = papers.job.monitoring
    if agreed is None:
        return SOUNDS_ONLY
    return "; ".join((f"monitoring station {agreed.station}", *dict.fromkeys(one.by for one in agreed.permits.values())))


def _documents(papers: Papers) -> Section:
    limits = Counter(one.source for one in papers.profile.limits.values())
    rows = [(one.title, one.edition or "", str(limits[key])) for key, one in papers.profile.documents.items() if limits[key]]
    return Section("documents", "Documents that its limits are from", "Each limit, and how it is known, stands on the page of sources.",
                   table=table("Documents", "Document", ("Edition", "Limits from it"), rows, "not named"))


def _premises(papers: Papers) -> Section:
    house = papers.job.premises
    rooms = [len(one.rooms) for one in house.storeys.values()]
    front = house.front_deg
    return Section("premises", "Premises", ORIENTATION, (
        *parties(papers), Entry("Kind of house", house.place),
        Entry("Floors and buildings", f"{len(rooms)}, with {count(sum(rooms), 'room')}"),
        given("The front faces", f"{number(front)}° from north" if front is not None else "", "the surveyor"),
    ), classes_table(papers))


def _schedule(papers: Papers, results: Results) -> Section:
    return Section("positions", "Units and positions",
                   "What a unit takes in is what its papers say; the walk test on the day shows what it takes in here.",
                   table=positions_table(papers, results))


def _setting(papers: Papers, results: Results) -> Section:
    times, words, job = papers.job.times, papers.profile.words, papers.job
    by = Counter(one.kind for one in papers.sheet_of.values())
    means = [count(by[kind], kind) for kind in ("keypad", "reader", "fob", "tag") if by[kind]]
    sets = [f"{one.name}: {one.when}" for one in job.part_sets.values()]
    users = sum(row.list == "users" for row in results.slots.rows)
    return Section("setting", f"{capital(words.set)} and {words.unset}", "", (
        given("By", sentence_list(means), DESIGN),
        given("What completes it", COMPLETES.get(times.completes_by or ""), DESIGN),
        Entry("Entry time", amount(times.entry_s, "s")),
        Entry("Exit time", amount(times.exit_s, "s")),
        given("Time to cancel before it is reported", _amount(times.abort_s, "s"), f"{DESIGN}, where the market has such a time"),
        given("Report held back after an alarm on entry", _amount(times.report_delay_s, "s"), DESIGN),
        given("Repeated-trip limit", _amount(times.trips, "alarms of one zone"), DESIGN),
        given("Power failure is reported after", _amount(times.mains_report_min, "min"), DESIGN),
        Entry("Users", count(users, "authority", "authorities")),
        Entry(f"Ways to {words.part_set}", "; ".join(sets) or "none"),
    ))


def _amount(value: float | None, unit: str) -> str:
    return "" if value is None else amount(value, unit)


def _partitions(papers: Papers) -> Section:
    return Section("partitions", "Partitions", "", tuple(Entry(f"Partition {key}", name) for key, name in papers.partitions().items()))


def _confirmation(papers: Papers) -> Section:
    agreed = papers.job.monitoring
    if agreed is None:
        return Section("confirmation", "Confirmation of alarms", "", (Entry("Confirmation", SOUNDS_ONLY),))
    return Section("confirmation", "Confirmation of alarms", "", (
        given("Confirmation", CONFIRMS.get(agreed.confirmation or ""), DESIGN),
        *((Entry("Places without it", sentence_list(_unconfirmed(papers)) or "none"),) if confirming(papers) else ()),
    ))


def _unconfirmed(papers: Papers) -> list[str]:
    """Rooms with units that report, none of which may confirm another zone's alarm."""
    may: dict[str, bool] = {}
    for name, device in papers.job.devices.items():
        room = papers.room_of(device)
        if room and device.role in ("timed-entry", "entry-route", "immediate"):
            may[room] = may.get(room, False) or device.confirms
    return [room_name(papers, room) for room, confirms in may.items() if not confirms]


def _sounders(papers: Papers) -> Section:
    times = papers.job.times
    rows = [(name, place_of(papers, name), device.position or "", _level(papers, name))
            for name, device in papers.job.devices.items() if papers.sheet_of[name].kind == "sounder"]
    return Section("sounders", "Sounders", "", (
        Entry("Outside sounders run", sounders_run(papers)),
        given("Sounders inside run", _amount(times.inside_sounder_min, "min"), DESIGN),
    ), table("Sounders", "Unit", ("Place", "Position", "Level in front of it"), rows) if rows else None)


def _level(papers: Papers, name: str) -> str:
    sound = papers.sheet_of[name].sound
    return f"{amount(sound.level_db, 'dB(A)')} at {amount(sound.at_m, 'm')}" if sound else ""


def _standby(papers: Papers, results: Results) -> Section:
    own, limits = papers.job.control_unit, papers.profile.limits
    asked = limits.get("standby_h")
    return Section("standby", "Standby", "", (
        given("Standby battery", _amount(own.battery_ah, "Ah"), DESIGN),
        Entry("Least standby time", f"{asked.shown()}: {papers.profile.source_of('standby_h').cited()}") if asked else
        given("Least standby time", "", "whoever keeps the profile: it has no limit standby_h"),
        Entry("Worked out", f"{standby_in_words(results)} The page on power has the working."),
    ))


def _transmission(papers: Papers) -> Section:
    agreed = papers.job.monitoring
    if agreed is None:
        return Section("transmission", "Transmission", "", (Entry("Transmission", SOUNDS_ONLY),))
    return Section("transmission", "Transmission", "", (
        *_categories(papers),
        given("Format", FORMATS.get(agreed.format or ""), "the station"),
        given("Automatic test", test_in_words(agreed) if agreed.test_interval_h else "", COMPANY),
        given("Openings and closings watched", yes_no(agreed.open_close), CUSTOMER),
    ))


def _categories(papers: Papers) -> Iterator[Entry]:
    """The categories asked for and offered, in a market that has them."""
    agreed = papers.job.monitoring
    if has_categories(papers):
        yield category("Category asked for", agreed.category_asked, "the insurer and the police")
        yield category("Category offered", agreed.category_given, COMPANY)


def _paths(papers: Papers) -> tuple[Section, ...]:
    return (paths(papers.job.monitoring),) if papers.job.monitoring else ()


def _interconnections(papers: Papers) -> Section:
    radio = {name: one.radio for name, one in papers.sheet_of.items() if name in papers.job.devices and one.radio}
    wired = [name for name in papers.job.devices if not papers.sheet_of[name].radio and papers.sheet_of[name].power.kind != "none"]
    bands = dict.fromkeys(amount(one.frequency_mhz, "MHz", 3) for one in radio.values())
    cables = [f"{load.unit} on {key.replace('-', ' ')}" for key, one in papers.job.cables.items() for load in one.loads]
    circuits = [f"{name}: {opening_name(papers, device.protects_2) if device.protects_2 else device.text_2 or 'not named'}"
                for name, device in papers.job.devices.items() if device.use_input_2]
    through = [f"{name} through {device.via}" for name, device in papers.job.devices.items() if device.via]
    return Section("interconnections", "Interconnections", "", (
        Entry("By radio", f"{count(len(radio), 'unit')} besides the control unit, {sentence_list(list(bands))}" if radio else "none"),
        Entry("By wire", sentence_list(wired) or "none"),
        Entry("On a cable", sentence_list(cables) or "none"),
        Entry("Wired circuits on the second input of a unit", sentence_list(circuits) or "none"),
        Entry("Through a repeater", sentence_list(through) or "none"),
    ))


def _left_out(papers: Papers) -> Section:
    rows = [(one.what, one.why, one.by, day(one.on)) for one in (papers.job.agreement.left_out if papers.job.agreement else ())]
    fire = (Entry("Fire and gas", _fire(papers)),)
    if not rows:
        return Section("left-out", "Not covered", "", (given("Left without detection", "", f"{CUSTOMER}, and have it agreed in writing"), *fire))
    return Section("left-out", "Not covered", "", fire, table("Left without detection", "What", ("Why", "Agreed by", "On"), rows))


def _fire(papers: Papers) -> str:
    """Nobody is to believe that a fire alarm is part of an intruder alarm."""
    units = [name for name in papers.job.devices if papers.sheet_of[name].kind in ("smoke", "heat", "carbon-monoxide")]
    if not units:
        return "No unit of this system tells of smoke, heat or gas."
    return f"Reported by this system: {sentence_list(units)}. Whether the house needs more is for the local fire code and who is competent in it."


def _unwatched(papers: Papers) -> Section:
    keys = unwatched(papers)
    if not keys:
        return Section("unwatched", "Openings that no unit watches itself", "",
                       (Entry("Openings", "each opening to the open air has a unit, or none is listed"),))
    return Section("unwatched", "Openings that no unit watches itself", "Each needs another unit that sees whoever comes in, or a line above.",
                   table=Table("Openings that no unit watches itself", "Opening", UNWATCHED,
                               tuple(Line(capital(opening_name(papers, key)), (Cell(UNWATCHED[0], ""), _agreed(papers, key))) for key in keys), True))


def _agreed(papers: Papers, key: str) -> Cell:
    """Who agreed that an opening is left out: from the entry whose words name it. Without one it is not known, which is no "no"."""
    name = opening_name(papers, key).lower()
    named = [one for one in (papers.job.agreement.left_out if papers.job.agreement else ()) if re.search(rf"\b{re.escape(name)}\b", one.what.lower())]
    said = "; ".join(f"“{one.what}”, agreed by {one.by}, on {day(one.on)}" for one in named)
    return Cell(UNWATCHED[1], said, "" if said else "no entry of what is left out bears this name: see Not covered")


def _duties(papers: Papers) -> Section:
    service = papers.job.service
    own = (given("Maintenance by the company every", _amount(service.every_months, "months") if service else "", f"{COMPANY} and {CUSTOMER}"),)
    return Section("duties", "What the customer takes on", "", own, lines=tuple(_duty_lines(papers)))


def _duty_lines(papers: Papers) -> Iterator[str]:
    yield "Let the company in for maintenance, and tell it before rooms, doors, windows or furniture are changed."
    yield "Keep the power on; nobody switches off the circuit that feeds the system."
    yield "Test the system as the homeowner's pages say, and tell of faults at once."
    agreed = papers.job.monitoring
    if agreed:
        yield _keyholder_duty(papers)
        if any(one.router for one in agreed.paths.values()):
            yield "Keep broadband and router running, and tell the company before either is changed."
        yield f"Ask for the {papers.profile.words.permit} where one is needed, and keep it valid."


def _keyholder_duty(papers: Papers) -> str:
    least = papers.profile.limits.get("keyholders_least")
    if least is None:
        return "Keep keyholders who can come, and tell of every change."
    source = papers.profile.source_of("keyholders_least").cited()
    return f"Keep {count(int(least.value), 'keyholder')} or more who can come, and tell of every change ({source})."


def _order(papers: Papers) -> Section:
    order = papers.job.agreement
    known = calendar(papers.profile, Given(monitored=False, contract=order.signed_on if order else None))
    ends = next((one for one in known.entries if one.kind == "cancellation"), None)
    start = order.early_start_on if order else None
    return Section("order", "Order", "What the company noted of the order. It is no signature.", (
        given("Ordered on", day_or_none(order.signed_on) if order else "", CUSTOMER),
        given("Signed at", SIGNED_AT.get(order.signed_at or "") if order else "", COMPANY),
        Entry("Last day on which the contract can be cancelled", f"{day(ends.last)}: {ends.source}") if ends else
        given("Last day on which the contract can be cancelled", "", f"{COMPANY}: {sentence_list([one.reason for one in known.missing])}"),
        Entry("Asked in writing to begin before that day", day_or_none(start) or "no such wish is noted"),
        given("First day of work", day_or_none(order.work_on) if order else "", COMPANY),
    ))


def _money(papers: Papers) -> Section:
    term = papers.job.agreement.term_months if papers.job.agreement else None
    return Section("contract", "Cost and contract", "", (
        given("Cost of the work", "", COMPANY),
        given("Charge for maintenance and monitoring", "", COMPANY),
        given("The contract binds the customer for", "no time: it can be ended at any time" if term == 0 else _amount(term, "months"), COMPANY),
        given("If the company gives up its business", "", f"{COMPANY}: who has the papers, and the installer's authority, then"),
        given("This proposal is open until", "", COMPANY),
    ))
