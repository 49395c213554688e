"""The parts of the monitoring sheet besides zones and events: what was agreed, who is called, what is still blank."""
from collections.abc import Iterator

from generator.calc.days.calendar import Given, calendar
from generator.calc.days.dates import Month
from generator.calc.results import Results
from generator.model.monitoring import Monitoring, Permit
from generator.model.papers import Papers
from generator.model.people import Keyholder
from generator.pages.paper import Entry, Section, day_or_none, given, table, yes_no
from generator.pages.station.response import STEPS, codes_of, ready, responses
from generator.procedure.handling import test_in_words
from generator.tables.events import BY_ROLE, HOLD_UP
from generator.terms.show import amount, capital, count, day

FORMATS = {"dc-05": "event format of SIA DC-05", "dc-09": "SIA DC-09 over internet protocol, holding the same events"}
PATHS = {"broadband": "broadband", "mobile": "mobile network", "phone-line": "analogue telephone line", "radio": "radio"}
COVERS = {"intruder": "intruder alarms", "hold-up": "hold-up alarms", "all": "all alarms"}
CONFIRMS = {"none": "not confirmed", "sequential": "sequential: by a second zone", "audible": "audible: by listening",
            "visual": "visual: by pictures"}
CUSTOMER, COMPANY = "the customer", "the company"
APART = "the company sends it apart from this sheet"
VERIFICATION = "Verification, intruder only"
ONLY_INTRUDER = "Unconfirmed intruder alarms only, in this order. Never for hold-up or fire, carbon monoxide or a medical call: see Response."
SOAK = ("The soak period holds back the police, and nothing else: to intruder alarms the customer and the keyholders are called. "
        "Fire, carbon monoxide and medical calls are answered as under Response from the first day.")
# Nobody may take silence for leave to wait.
HOLD_UP_IN_SOAK = "not given yet: ask the station; until it has said, a hold-up is answered as under Response"
LIVE = "Police response goes live on"
TELEPHONE = "Telephone of the customer"
ONE_NUMBER = "No number of the house itself is given. The customer may answer elsewhere: ask where they are."
HELD = "Held at the station, in no file: passwords, keywords and codes."
HOLD_UP_CODES = frozenset((BY_ROLE["hold-up"], *HOLD_UP.values()))
KEYHOLDER_COLUMNS = ("Name", "Telephone", "Second telephone", "Relation", "Lives in the house", "There in", "Has a key", "Can turn it off",
                     "Cannot come")


def account(papers: Papers) -> Section:
    """Whose system it is, in the station's words."""
    agreed = papers.job.monitoring
    return Section("account", "Account", "", (
        Entry("Reference that the customer will say", papers.job.reference),
        given("Station", agreed.station, COMPANY),
        given("Telephone of the station", agreed.telephone, COMPANY),
        given("Account", agreed.account, "the station"),
    ))


def reports(agreed: Monitoring) -> Section:
    """How messages come and are watched: nobody needs it to answer one."""
    return Section("reports", "Reports and tests", "", (
        given("Format", FORMATS.get(agreed.format or ""), "the station"),
        given("Automatic test", test_in_words(agreed) if agreed.test_interval_h else "", COMPANY),
        given("Automatic test as agreed", f"every {amount(agreed.agreed_test_interval_h, 'h')}" if agreed.agreed_test_interval_h else "",
              "the station"),
        given("Openings and closings watched", yes_no(agreed.open_close), CUSTOMER),
        category("Category asked for", agreed.category_asked, "the insurer and the police"),
        category("Category installed", agreed.category_given, COMPANY),
        given("Who may change these data", agreed.may_change, CUSTOMER),
    ))


def category(name: str, value: str | None, whom: str) -> Entry:
    """A category of the ways to the station. Only some markets have such categories, so the standard is named where one is given."""
    return given(name, f"{value} by EN 50136-1" if value else "", f"{whom}, where the market has categories")


def premises(papers: Papers) -> Section:
    """Where it is. Without people's data it says that they come apart from the sheet."""
    people, home = papers.people, papers.job.household
    own = (
        given("Address", ", ".join(people.customer.address), COMPANY),
        given("Reference on the map", people.customer.grid_reference, f"{COMPANY}; needed where a house is hard to find"),
        given("Customer", people.customer.name, COMPANY),
        given(TELEPHONE, people.customer.telephone, CUSTOMER),
    ) if people else tuple(Entry(name, "", APART) for name in ("Address", "Reference on the map", "Customer", TELEPHONE))
    return Section("premises", "Premises", ONE_NUMBER, (Entry("Premises", papers.job.title), *own,
                                                         given("Language, short form", home and home.language, CUSTOMER)))


def permits(papers: Papers) -> Section:
    """Permits or police references, in the word of the market."""
    word, agreed = capital(papers.profile.words.permit), papers.job.monitoring
    if not agreed.permits:
        return Section("permits", word, "", (given(f"{word}: number", "", "police, council or guard; the company adds it when it is given"),))
    return Section("permits", word, "", tuple(entry for one in agreed.permits.values() for entry in _permit(one)))


def _permit(one: Permit) -> Iterator[Entry]:
    covers = COVERS[one.covers]
    yield given(f"Number for {covers}", one.number, one.by)
    yield given(f"For {covers}: given by", one.by, COMPANY)
    yield given(f"For {covers}: given on", day_or_none(one.since), one.by)
    if one.valid_to:
        yield Entry(f"For {covers}: last day", day(one.valid_to))


def dates(papers: Papers, holds_up: bool) -> Section:
    """From when the station answers how; the days are those of the job's calendar. `holds_up` says whether hold-ups are reported."""
    agreed, order = papers.job.monitoring, papers.job.agreement
    in_use = order.in_use_on if order else None
    counted = calendar(papers.profile, Given(monitored=True, soak_from=in_use, soak_days=agreed.soak_days))
    on = {one.kind: one.on.last if isinstance(one.on, Month) else one.on for one in counted.entries}
    why = f"{COMPANY}: day of coming into use and days of soak are needed"
    return Section("dates", "Dates", SOAK if agreed.soak_days != 0 else "", (
        given("In use from", day_or_none(in_use), COMPANY),
        given("Soak period", count(agreed.soak_days, "day") if agreed.soak_days is not None else "", "the station"),
        given("Soak period ends with", day_or_none(on.get("soak")), why),
        given(LIVE, day_or_none(on.get("go-live")), f"{why}; station and company agree it"),
        *((Entry("Police to a hold-up in the soak period", "", HOLD_UP_IN_SOAK),) if holds_up and agreed.soak_days != 0 else ()),
    ))


def paths(agreed: Monitoring) -> Section:
    """The ways by which messages come."""
    if not agreed.paths:
        return Section("paths", "Paths", "", (given("Paths", "", COMPANY),))
    rows = [(name, PATHS[one.kind], "through a router of the house" if one.router else "without a router of the house")
            for name, one in agreed.paths.items()]
    return Section("paths", "Paths", "The first one first.", table=table("Paths to the station", "Path", ("Kind", "Way"), rows))


def verification(agreed: Monitoring) -> Section:
    """The steps by which an alarm is verified."""
    steps = tuple(Entry(f"Step {index}", step) for index, step in enumerate(agreed.verify, 1)) or (given(STEPS, "", "the station"),)
    return Section("verification", VERIFICATION, ONLY_INTRUDER,
                   (*steps, given("Confirmation of alarms", CONFIRMS.get(agreed.confirmation or ""), COMPANY)))


def keyholders(papers: Papers) -> Section:
    """Who is called, in their order."""
    if papers.people is None:
        return Section("keyholders", "Keyholders", "", (Entry("Keyholders in the order of calling", "", APART),))
    if not papers.people.keyholders:
        return Section("keyholders", "Keyholders", "", (given("Keyholders in the order of calling", "", CUSTOMER),))
    rows = [(str(index), *keyholder(one)) for index, one in enumerate(papers.people.keyholders.values(), 1)]
    return Section("keyholders", "Keyholders", "Called in this order.",
                   table=table("Keyholders in the order of calling", "Call", KEYHOLDER_COLUMNS, rows, f"not given yet: ask {CUSTOMER}"))


def keyholder(one: Keyholder) -> tuple[str, ...]:
    """What may be known of somebody who is called, under KEYHOLDER_COLUMNS."""
    return (one.name, one.telephone, one.other_telephone or "", one.relation or "", yes_no(one.lives_here),
            amount(one.arrives_min, "min") if one.arrives_min is not None else "", yes_no(one.has_key), yes_no(one.can_unset), one.away or "")


def proof(agreed: Monitoring) -> Section:
    """That it is agreed how a caller proves who they are; never how."""
    said = f"agreed on {day(agreed.proof_agreed_on)}" if agreed.proof_agreed_on else ""
    said = f"{said} by {agreed.proof_agreed_by}" if said and agreed.proof_agreed_by else said
    return Section("proof", "How a caller proves who they are", HELD, (
        given("Proof of identity", f"{said}; held at the station" if said else "", "the customer, who agrees it with the station"),))


def shared(agreed: Monitoring) -> Section:
    """What the customer agreed to share."""
    if not agreed.shared:
        return Section("shared", "What the customer shares", "", (
            given("For whoever comes: animals, health, the way in", "", "the customer, who need not share anything"),))
    return Section("shared", "What the customer shares", "Agreed by the customer. No codes.", lines=tuple(agreed.shared))


def company(papers: Papers) -> Section:
    """Whom the station calls about the system."""
    own = papers.company
    return Section("company", "Company", "", (Entry("Company", own.name), Entry("Telephone", own.telephone), Entry("Out of hours", own.out_of_hours)))


def before_zones(papers: Papers, results: Results) -> tuple[Section, ...]:
    """What stands above the zones: what an operator needs to answer, in the order in which it is needed."""
    agreed = papers.job.monitoring
    if agreed is None:
        return Section("account", "Account", "", (Entry("Account", "none: this system only sounds"),)), premises(papers), keyholders(papers)
    codes = codes_of(papers, results)
    # A call to the house, and who may end it; whether the police come yet, and their number; whom else to call; what they must know.
    parts = (account(papers), premises(papers), responses(papers, codes), verification(agreed), proof(agreed),
             dates(papers, not HOLD_UP_CODES.isdisjoint(codes)), permits(papers), keyholders(papers), shared(agreed))
    return *ready(papers, codes, parts), *parts


def after_zones(papers: Papers) -> tuple[Section, ...]:
    """What stands below the zones."""
    agreed = papers.job.monitoring
    return (company(papers), paths(agreed), reports(agreed)) if agreed else (company(papers),)
