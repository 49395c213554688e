"""Keyholders, what was agreed with the station, and what personal data of a job is held where, for how long."""
from collections.abc import Iterator
from datetime import date

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.model.people import Keyholder
from generator.model.readers import TABLE
from generator.model.visibility import LETTERS, leaves
from generator.pages.keys import key_rows
from generator.pages.page import Page, Stamp
from generator.pages.paper import Entry, Section, day_or_none, given, later, table, yes_no
from generator.pages.record.document import NO_PEOPLE, document, parties, signatures
from generator.pages.station.parts import KEYHOLDER_COLUMNS, after_zones, before_zones, keyholder
from generator.terms.show import capital, sentence_list

CUSTOMER, COMPANY = "the customer", "the company"
# Of each keyholder besides what the station is told.
OWN_COLUMNS = ("Was shown the system on", "Agreed to be listed on")
KEEP, HEALTH, SHARED = "keep_", "Health, animals, the way in", "job.monitoring.shared.*"


def keyholders_page(papers: Papers, stamp: Stamp) -> Page:
    """The list of keyholders, in the order in which they are called."""
    sections = (Section("parties", "Premises", "", parties(papers)), _list(papers),
                Section("asked", "What is asked of them", "", tuple(_asked(papers))),
                signatures("Customer"))
    return document("keyholders.html", "Keyholder list", "Who comes when the alarm sounds. No code stands here.", papers, stamp, sections)


def monitoring_page(papers: Papers, results: Results, stamp: Stamp) -> Page:
    """What was agreed with the monitoring station: the parts of its own sheet."""
    sections = (*before_zones(papers, results), Section("lines", "Zones and events",
                                               "Their lines stand on the station's page and in its tables, zones.csv and events.csv."),
                *after_zones(papers), signatures("Customer", "Company"))
    return document("monitoring.html", "Monitoring agreement data", "What the station was told besides zones and events.", papers, stamp, sections)


def _list(papers: Papers) -> Section:
    people = papers.people
    if people is None or not people.keyholders:
        blank = Entry("Keyholders in the order of calling", "", NO_PEOPLE) if people is None else given("Keyholders in the order of calling", "",
                                                                                                        CUSTOMER)
        return Section("list", "Keyholders", "", (blank,))
    rows = [(str(index), *keyholder(one), *_own(one, papers.job.dated)) for index, one in enumerate(people.keyholders.values(), 1)]
    return Section("list", "Keyholders", "Called in this order.",
                   table=table("Keyholders in the order of calling", "Call", (*KEYHOLDER_COLUMNS, *OWN_COLUMNS), rows,
                               f"not given yet: ask {CUSTOMER}"))


def _own(one: Keyholder, dated: date) -> tuple[str, str]:
    """A day of training behind the day of the job file is a plan, whatever the clock says when the record is built."""
    trained = day_or_none(one.trained_on)
    return f"planned for {trained}" if one.trained_on and one.trained_on > dated else trained, day_or_none(one.agreed_on)


def _asked(papers: Papers) -> Iterator[Entry]:
    """What the profile asks of keyholders, each with its source, beside what this list has."""
    people, profile = papers.people, papers.profile
    for name in ("keyholders_least", "keyholder_attend_min", "keyholder_attend_latest_min"):
        if name in profile.limits:
            yield Entry(capital(profile.limits[name].means), f"{profile.limits[name].shown()}: {profile.source_of(name).cited()}")
    yield Entry("On this list", str(len(people.keyholders))) if people else Entry("On this list", "", NO_PEOPLE)
    yield Entry("Not all away at once", "", f"ask {CUSTOMER}: two who share a holiday count as one (common practice, no source)")
    yield Entry("Reached by telephone at all hours, with a way to get there, shown how the system works", "", "ask each of them")


def data_page(papers: Papers, stamp: Stamp) -> Page:
    """What personal data is held, where it stands, who sees it, and how long it is kept."""
    sections = (
        Section("where", "Where it stands",
                "Names, telephone numbers and addresses stand in people.yaml and in no other file of the job. All other files hold "
                "roles and aliases; every page builds without people.yaml.", (
                    Entry("people.yaml", "there" if papers.people else "not in this build"),
                    given("Whom to ask about these data", papers.company.data_contact, COMPANY))),
        Section("held", "What is held, and whose pack shows it", "", table=table(
            "Personal data", "What", ("Values in this job", "Shown to"), _held(papers), "none")),
        _health(papers),
        Section("together", "What must not come together",
                "Address, absences and what is not covered are harmless apart and dangerous together. The monitoring "
                "sheet and this record hold them together: give them to nobody who does not need them. A phone with the installer's pack shows "
                "the customer's name, telephone number and address, and the plan."),
        _kept_by_profile(papers), _kept_by_company(papers),
        Section("end", "At the end", "", (later("Looked through on, by whom", "to be written at each review"),
                                           later("Erased on, by whom, what was left and why", "to be written at the end"))),
    )
    return document("data.html", "Data protection", "What this job knows about people, and when it is erased.", papers, stamp, sections)


def _health(papers: Papers) -> Section:
    """What the customer lets the station know may tell of somebody's health, and stands outside people.yaml."""
    agreed = papers.job.monitoring
    if agreed is None:
        return Section("health", HEALTH, "", (Entry("Shared with a station", "none: this system only sounds"),))
    receives = sentence_list([audience.value for audience, letter in LETTERS.items() if letter in TABLE[SHARED]])
    return Section("health", HEALTH, "What the customer shares may be data on health, which the law of many places guards more strictly than a name. "
                   "It stands in job.yaml under monitoring, and names nobody.", (
                       Entry("Received by", f"monitoring station {agreed.station}; the packs that show it are those of {receives}"),
                       Entry("Agreed to by the customer, in writing", "", f"ask {CUSTOMER}") if agreed.shared else
                       Entry("Shared with a station", "nothing")), lines=tuple(agreed.shared))


def _held(papers: Papers) -> Iterator[tuple[str, str, str]]:
    """Every key of people.yaml with how many values it has here, and the readers whose pack may show it."""
    values: dict[str, int] = {}
    for pattern, _, _ in leaves(papers.people, "people", "people") if papers.people else ():
        values[pattern] = values.get(pattern, 0) + 1
    for row in key_rows("people"):
        pattern = f"people.{row.way}".replace("NAME", "*").replace("-.", "*.")
        pattern = pattern if pattern in TABLE else f"{pattern}.*"
        if pattern in TABLE and row.way != "format":
            shown = [audience.value for audience, letter in LETTERS.items() if letter in TABLE[pattern]]
            whose = "Keyholder" if row.way.startswith("keyholders") else "Customer"
            yield f"{whose}: {row.means.rstrip('.').replace('true if', 'whether', 1)}", str(values.get(pattern, 0)), sentence_list(shown)


def _kept_by_profile(papers: Papers) -> Section:
    profile = papers.profile
    rows = [(capital(one.means), one.shown(), profile.source_of(name).cited()) for name, one in profile.limits.items() if name.startswith(KEEP)]
    if not rows:
        return Section("kept", "How long, by the profile", "", (given("How long data are kept", "",
                                                                      "whoever keeps the profile: it has no limit of that kind"),))
    return Section("kept", "How long, by the profile", "Starting values: the company says how long, and why, and local law decides.",
                   table=table("How long data are kept", "What", ("How long", "Source"), rows))


def _kept_by_company(papers: Papers) -> Section:
    rows = [(capital(one.what), one.how_long) for one in papers.company.keeps]
    if not rows:
        return Section("company-keeps", "How long, by the company", "", (
            Entry("What the company keeps, and how long", "", f"the company's file lists nothing that it keeps: ask {COMPANY}"),))
    return Section("company-keeps", "How long, by the company", "The homeowner reads the same.",
                   table=table("What the company keeps", "What", ("How long",), rows))
