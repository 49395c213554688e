"""Survey and risk assessment: what was found, what the plan rests on, and what nobody has asked yet."""
from collections.abc import Iterator

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.model.premises import OUTSIDE
from generator.pages.page import Page, Stamp
from generator.pages.paper import Entry, Section, Table, day_or_none, given, later, table, yes_no
from generator.pages.record.document import document, parties, signatures
from generator.pages.record.places import classes_table, watched
from generator.pages.station.parts import PATHS
from generator.procedure.handling import opening_name, room_name
from generator.terms.show import amount, capital, sentence_list

CUSTOMER, SURVEYOR, DESIGN = "the customer", "the surveyor", "whoever answers for the design"
INSURERS = {"none": "asks for no alarm", "stated": "asks for an alarm; its condition was seen in writing"}
ROUTER = "router"
OLD, YEAR = {True: "before", False: "in or after"}, "asbestos_before_year"
COMPETENT = ("Work on the fixed wiring is for a licensed electrician or another competent person; local codes decide. The installer's pack "
             "has the cautions, each before its step.")


def survey_page(papers: Papers, results: Results, stamp: Stamp) -> Page:
    """The survey."""
    sections = (_parties(papers), _contents(papers), _building(papers), _openings(papers), _occupancy(papers), _influences(papers), _radio(papers),
                _services(papers), _assumptions(papers), _risks(papers), _false_calls(papers), _result(papers), signatures("Surveyor", "Customer"))
    return document("survey.html", "Survey and risk assessment", "What was found in the house, and what the plan rests on.", papers, stamp, sections)


def _parties(papers: Papers) -> Section:
    order = papers.job.agreement
    tenure = order.tenure if order else ""
    return Section("parties", "Parties", "", (
        *parties(papers),
        given("Who decides", order.decided_by if order else "", CUSTOMER),
        given("What that person is to the house", tenure, CUSTOMER),
        given("Owner, where it is somebody else", "nobody else" if tenure == "owner" else "", CUSTOMER),
        given("Occupier", "", CUSTOMER),
        given("Insurer", INSURERS.get(order.insurer) if order else "", f"{CUSTOMER} or the insurer"),
        given("Its condition", "none" if order and order.insurer == "none" else order.insurer_condition if order else "",
              f"{CUSTOMER} or the insurer"),
    ))


def _contents(papers: Papers) -> Section:
    found = papers.job.survey.contents if papers.job.survey else []
    return Section("contents", "Contents", "Kinds of things only. Sums and hiding places are not written down: this page may come into other hands.",
                   (
        given("Things worth taking", sentence_list(found), CUSTOMER),
        given("Earlier losses, yes or no", "", CUSTOMER),
        given("Cash, firearms or medicines, yes or no", "", CUSTOMER),
    ))


def _building(papers: Papers) -> Section:
    house = papers.job.premises
    rooms = [f"{capital(one.name or key.replace('-', ' '))}: {sentence_list([room_name(papers, room) for room in one.rooms])}"
             for key, one in house.storeys.items()]
    walls = [f"{capital(one.name or key.replace('-', ' '))}: {_walls(papers, one.walls)}" for key, one in house.storeys.items() if one.walls]
    return Section("building", "Building", "", (
        Entry("Kind of house", house.place),
        given("Built", _built(papers), f"{CUSTOMER}, or the papers of the house"),
        Entry("Rooms", "; ".join(rooms)),
        given("Walls", "; ".join(walls), SURVEYOR),
        given("Roofs that somebody can stand on", sentence_list([key.replace("-", " ") for key in house.roofs]), SURVEYOR),
        given("Insulation and its facing, coating of the panes", "", f"{SURVEYOR}: metal in either keeps radio back"),
        given("Party walls, adjoining roofs, loft hatches, basement", "", SURVEYOR),
    ))


def _built(papers: Papers) -> str:
    """Before or after the year from which the profile rules out asbestos."""
    before, limit = papers.job.premises.built_before, papers.profile.limits.get(YEAR)
    if before is None:
        return ""
    year = f"{limit.shown()}, the year" if limit else "the year"
    return f"{OLD[before]} {year} from which asbestos is ruled out"


def _walls(papers: Papers, walls) -> str:
    known = papers.constructions()
    return sentence_list([f"{side} {known[key].means if key in known else key}" for side,
                          key in (("outside", walls.outside), ("inside", walls.inside)) if key])


def _openings(papers: Papers) -> Section:
    by = watched(papers)
    rows = [(capital(opening_name(papers, key)), one.kind.replace("-", " "), sentence_list([_place(papers, place) for place in one.wall]),
             yes_no(one.glazed),
             yes_no(one.letter_plate), sentence_list(by.get(key, [])) or "none", "", "")
            for key, (_, one) in papers.openings().items() if OUTSIDE in one.wall or key in by]
    made: Table | None = table("Doors, windows and hatches", "Opening", ("Kind", "Between", "Glazed", "Letter plate", "Watched by these units",
                                                                        "Frame and material", "Locks"), rows) if rows else None
    return Section("openings", "Openings, locks and physical security", "", () if made else (given("Openings", "", SURVEYOR),), made)


def _place(papers: Papers, place: str) -> str:
    return "outside" if place == OUTSIDE else room_name(papers, place)


def _occupancy(papers: Papers) -> Section:
    home = papers.job.household
    sleeping = [room_name(papers, key) for key, (_, room) in papers.rooms().items() if room.sleeping]
    return Section("occupancy", "Occupancy", "", (
        given("Rooms where somebody sleeps", sentence_list(sleeping), CUSTOMER),
        Entry("Children", "live here or visit often" if papers.job.premises.children else "none live here or visit often"),
        given("Language of the main user, short form", home and home.language, CUSTOMER),
        given("Hours when nobody is in", "", f"{CUSTOMER}; not to be kept longer than the plan needs it"),
        given("Users of the system, with carers and others who come in", sentence_list([one.who for one in papers.job.users.values()]), CUSTOMER),
        given("The slowest user: walking", home and home.slowest, f"{CUSTOMER}: entry and exit time hang on it"),
        given("The slowest user: sight, hearing, hands", "", f"{CUSTOMER}: keypad and sounders hang on it"),
    ))


def _influences(papers: Papers) -> Section:
    found = papers.job.survey.influences if papers.job.survey else []
    return Section("influences", "Influences", "", (
        given("What could disturb detectors or radio, inside and outside", "; ".join(found), SURVEYOR),
    ))


def _radio(papers: Papers) -> Section:
    bands = dict.fromkeys(amount(one.radio.frequency_mhz, "MHz", 3) for one in papers.sheet_of.values() if one.radio)
    return Section("radio", "Radio survey", "A prediction never beats the check on site.", (
        given("Frequencies of the units", sentence_list(list(bands)), "the company, which keeps the equipment sheets"),
        given("Background of the band, with places", "", SURVEYOR),
        given("Trial readings, with places", "", SURVEYOR),
    ))


def _services(papers: Papers) -> Section:
    agreed = papers.job.monitoring
    ways = [f"{PATHS[one.kind]}{' through a router' if one.router else ''}" for one in agreed.paths.values()] if agreed else []
    held = [f"{PATHS[one.kind]} {amount(one.standby_h, 'h')}" for one in agreed.paths.values() if one.standby_h is not None] if agreed else []
    sounds = "none: this system only sounds"
    return Section("services", "Services", "", (
        given("Fuse board, spare way, supply point agreed", "", f"{SURVEYOR}, with a competent person"),
        given("Ways to the monitoring station", sentence_list(ways) if agreed else sounds, SURVEYOR),
        given("How long router or modem carry on without house power", sentence_list(held) if agreed else sounds, SURVEYOR),
        given("Router", _router(papers), SURVEYOR),
        given("Strength of the mobile network", "", SURVEYOR),
    ))


def _router(papers: Papers) -> str:
    """What the survey says of the router, by that word; what was found later counts before what was assumed."""
    known = papers.job.survey.assumptions.values() if papers.job.survey else ()
    return "; ".join(said for said in (one.found or one.assumed for one in known) if ROUTER in said.lower())


def _assumptions(papers: Papers) -> Section:
    known = papers.job.survey.assumptions if papers.job.survey else {}
    rows = [(key.replace("-", " "), one.assumed, one.found or "", day_or_none(one.on)) for key, one in known.items()]
    made = table("What the plan rests on", "About", ("At the survey", "Found otherwise", "On"), rows, "as at the survey") if rows else None
    return Section("assumptions", "What the plan rests on", "To be asked again on the day of the work.",
                   () if made else (given("Pets, building work, broadband, who sleeps where", "", CUSTOMER),), made)


def _risks(papers: Papers) -> Section:
    rows = [(one, "", "", "") for one in (*papers.job.premises.hazards, *_untested(papers))]
    made = table("Hazards of this house", "Hazard", ("Who could be hurt", "What is done about it", "By"), rows) if rows else None
    return Section("risks", "Risks of the work", COMPETENT, () if made else (given("Hazards of this house", "", f"{SURVEYOR} and {CUSTOMER}"),), made)


def _untested(papers: Papers) -> Iterator[str]:
    """What nobody has tested for asbestos, room by room."""
    for key, (_, room) in papers.rooms().items():
        for what in filter(None, (room.untested_ceiling, room.untested_walls)):
            yield f"{capital(room_name(papers, key))}: {what}, never tested for asbestos"


def _false_calls(papers: Papers) -> Section:
    history = papers.job.history
    if history is None:
        return Section("false-calls", "False calls before", "", (given("False calls of the last years", "", f"{CUSTOMER} and the station"),))
    rows = [(day_or_none(one.on), one.kind, one.cause or "") for one in history.false_calls]
    if not rows:
        return Section("false-calls", "False calls before", "", (Entry("False calls of the last years", "none known"),))
    return Section("false-calls", "False calls before", "", table=table("False calls", "Day", ("Reported", "Cause"), rows))


def _result(papers: Papers) -> Section:
    survey, agreed = papers.job.survey, papers.job.monitoring
    replies = "; ".join(f"{one.to}: {one.plan}" for one in agreed.responses) if agreed else "none: this system only sounds"
    return Section("result", "Result", "What is left without detection stands in the proposal.", (
        Entry("Checked against", f"{papers.profile.name}, edition {papers.profile.edition}"),
        given("Grade, where the insurer or the law asks for one", "", f"{DESIGN}; the profile is {papers.profile.name}"),
        given("How alarms are told: sounders, paths, their number", "", DESIGN),
        given("Response expected", replies, "the station"),
        given("Surveyed by", survey.by if survey else "", "the company"),
        given("Surveyed on", day_or_none(survey.on) if survey else "", "the company"),
        later("Surveyor's name", "to be written by the surveyor"),
    ), classes_table(papers))

