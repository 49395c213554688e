"""The installer's pack: what to carry, what to beware of, what to do next, what must come out."""
from dataclasses import dataclass

from generator.calc.results import Results
from generator.model.papers import Papers
from generator.pages.cells import cells_page
from generator.pages.changes import Compared, installer_changes
from generator.pages.codes import codes_view
from generator.pages.drawing.page import on_plan, plan_page
from generator.pages.drawing.units import proposed_places
from generator.pages.findings import findings_view
from generator.pages.installer.carry import CARRY, TITLE as CARRYING, carry_page
from generator.pages.installer.device import device_pages
from generator.pages.installer.find import find_page
from generator.pages.installer.kit import kit_page, tools_of
from generator.pages.installer.links import PATH as RADIO_PAGE
from generator.pages.installer.paper_day import paper_day
from generator.pages.installer.papers import RADIO, paper_pages
from generator.pages.installer.results import order_of_tests, results_places
from generator.pages.installer.settings import settings_page
from generator.pages.installer.slots import slots_page
from generator.pages.installer.steps import first_step, phase_links, step_pages, time_of
from generator.pages.installer.tests import tests_page
from generator.pages.installer.users import users_page
from generator.pages.installer.written import written_page
from generator.pages.labels import label_pages
from generator.pages.open_findings import field_of, open_about
from generator.pages.open_list import unanswered
from generator.pages.page import Link, Page, Stamp, device_path
from generator.pages.parts import FindingView, SafetyView, finding_view, safety_views, stopped_fields, units_of
from generator.pages.power import power_page
from generator.pages.rule_pages import FINDINGS, rule_pages
from generator.pages.sources import sources_page
from generator.procedure import safety
from generator.procedure.asked import asked_of
from generator.procedure.step import Fact, Step
from generator.rules.all_rules import findings
from generator.rules.finding import Finding, Severity, Verdict
from generator.tables import tools
from generator.terms.show import count, number, sentence_list

FIRST_HAZARDS = 3
# The steps by which the account goes on test and off it.
ON_TEST, OFF_TEST = "on-test", "off-test"


@dataclass(frozen=True)
class Told:
    """What a step tells of the account once it is done; `step` is its anchor, "" where the job has none."""

    step: str
    says: str


@dataclass(frozen=True)
class StartView:
    """First sight: which job, where, what is dangerous, what is next. `draft` says what an unissued pack is good for, "" for an issued one.

    `state` is how things stand before anything is done, `begun` once something is, `on_test` and `off_test` once the account went there; `minutes`
    is how long each step usually takes, one after the other: what is left is worked out from them and from what a phone keeps.
    """

    title: str
    place: str
    contact: tuple[str, ...]
    hazards: tuple[str, ...]
    dangers: tuple[SafetyView, ...]
    safety: Link
    next_step: Link
    next_hold: Link
    state: str
    begun: str
    on_test: Told
    off_test: Told
    left: str
    minutes: str
    time: str
    needs: tuple[str, ...]
    phases: tuple[Link, ...]
    of_radio: tuple[Link, ...]
    findings: tuple[FindingView, ...]
    unknown: tuple[Fact, ...]
    all_findings: Link
    note: str
    draft: str
    carry: Link


@dataclass(frozen=True)
class SafetyPage:
    """Every hazard of this job."""

    messages: tuple[SafetyView, ...]


def installer_pages(papers: Papers, results: Results, verdicts: tuple[Verdict, ...], steps: tuple[Step, ...],
                    compared: Compared, mark: Stamp) -> tuple[Page, ...]:
    """Every page of the installer's pack, in the order of the navigation."""
    pages = _pages(papers, results, verdicts, steps, compared.draft, mark)
    return (*pages, installer_changes(papers, results, compared, pages))


def _pages(papers: Papers, results: Results, verdicts: tuple[Verdict, ...], steps: tuple[Step, ...], draft: str, mark: Stamp) -> tuple[Page, ...]:
    every = findings(verdicts)
    stopped = stopped_fields(every)
    stops = tuple(finding_view(one) for one in every if one.stops)
    plan = plan_page(papers, results, proposed_places(results))
    about = {name: open_about(every, field_of(name, papers.job.control_unit.id)) for name in units_of(papers)}
    asked = asked_of(papers, results, steps)
    phases = step_pages(steps, results_places(papers, results, steps), stopped, stops, tuple(papers.job.premises.hazards), about,
                        order_of_tests(papers, results), asked, f"{mark.fingerprint}, {mark.issued}")
    return (
        _start(papers, steps, verdicts, draft),
        Page("safety.html", "Safety", "installer/safety.html.j2",
             SafetyPage(safety_views(safety.messages_to_read(papers)))),
        find_page(),
        slots_page(papers, results, stopped, stops),
        plan,
        *phases,
        settings_page(papers, results, stopped),
        *device_pages(papers, results, stopped, stops, on_plan(plan), about),
        tests_page(papers, results, stopped),
        written_page(papers.company),
        *users_page(papers),
        *paper_pages(papers, results, every, stopped),
        power_page(papers, results, device_path, stops),
        cells_page(papers, results, device_path),
        kit_page(papers, tools_of(papers, steps)),
        paper_day(papers, [page.view for page in phases], asked, results.references[papers.job.control_unit.id],
                  stopped, mark, draft),
        *label_pages(papers, results),
        Page("codes.html", "Find by reference", "shared/codes.html.j2", codes_view(papers, results, device_path)),
        Page("findings.html", "Findings", "shared/findings.html.j2", findings_view(verdicts), FINDINGS),
        *rule_pages(papers, verdicts, Link("findings.html", "What every rule answered")),
        sources_page(papers),
        carry_page(papers),
    )


def _start(papers: Papers, steps: tuple[Step, ...], verdicts: tuple[Verdict, ...], draft: str) -> Page:
    job, people = papers.job, papers.people
    contact = (people.customer.name, people.customer.telephone, *people.customer.address) if people else ()
    dangers = [one for one in safety.messages_of_job(papers) if one.word is safety.Word.DANGER]
    found = [one for one in findings(verdicts) if one.open and one.severity is not Severity.NOTE]
    following, hold = first_step(steps)
    begun = "Nothing kept on this phone says that the account is on test." if job.monitoring else "This system only sounds; no station listens."
    state = f"Nothing was done yet{': the account is not on test.' if job.monitoring else f'. {begun}'}"
    on_test, off_test = (Told(next((one.anchor for one in steps if one.id == id), ""), f"The account was {says} test")
                         for id, says in ((ON_TEST, "put on"), (OFF_TEST, "taken off")))
    return Page("index.html", "Start", "installer/start.html.j2", StartView(
        title=job.title, place=job.premises.place, contact=contact, hazards=tuple(job.premises.hazards),
        dangers=safety_views(dangers[:FIRST_HAZARDS]), safety=Link("safety.html", "Every hazard of this job"),
        next_step=following, next_hold=hold, state=state,
        begun=begun, on_test=on_test, off_test=off_test, minutes=" ".join(number(one.minutes) for one in steps),
        left=f"{count(len(steps), 'step')} left, {time_of(steps)} by usual times.",
        time=f"{count(len(steps), 'step')}, {time_of(steps)} of work for one person, by usual times.", needs=_needs(papers, steps),
        phases=phase_links(steps), of_radio=tuple(_in_a_line(one) for one in found if _told_on_radio(one)),
        findings=tuple(finding_view(one) for one in found if not _told_on_radio(one)), unknown=tuple(unanswered(papers, findings(verdicts))),
        all_findings=Link("findings.html", "What every rule answered"), note=job.note or "", draft=draft,
        carry=Link(CARRY, CARRYING)))


def _told_on_radio(one: Finding) -> bool:
    """Whether a finding stands in full at the head of the page of radio, so that a line leads there; one that stops a value never does."""
    return one.rule in RADIO and not one.stops


def _in_a_line(one: Finding) -> Link:
    view = finding_view(one)
    return Link(RADIO_PAGE, f"{view.word}: {view.says.partition('. ')[0].rstrip('.')}.")


def _needs(papers: Papers, steps: tuple[Step, ...]) -> tuple[str, ...]:
    """What must be arranged before the day: how many days, how many people, who attends."""
    agreed = papers.job.monitoring
    nights = sum(step.id.startswith("night-") for step in steps)
    at = {step.id: number for number, step in enumerate(steps, 1)}
    out = []
    if nights:
        again = ", and the account goes on test again each day" if agreed else ""
        out.append(f"More than one day's work for one person: about {nights + 1} days. Before you leave, say in writing what works{again}.")
    if any(step.id == "ladder" for step in steps):
        out.append("Two people: there is work outside from a ladder, and nobody goes up alone.")
    mains = [number for number, step in enumerate(steps, 1) if set(tools.ELECTRICIAN) & set(step.tools)]
    if mains:
        named = sentence_list([f"step {one}" for one in mains])
        out.append(f"Must be there for the mains: a licensed electrician, or whom else the law allows, in {named} of {len(steps)}. "
                   "Arrange it before the day.")
    who = [f"{user.who} (user {number}), step {at[f'train-{number}']}" for number, user in sorted(papers.job.users.items()) if f"train-{number}" in at]
    if who:
        typed = f" Whoever is there at step {at['set-users']} types their own code then, the others at their handover." if "set-users" in at else ""
        out.append(f"Must be there for the handover: {sentence_list(who)} of {len(steps)}.{typed} Arrange it before the day.")
    return tuple(out)
