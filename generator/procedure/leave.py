"""Handing over and leaving: lids, photographs, people, the account, the signature."""
from collections.abc import Iterator

from generator.calc.results import Results
from generator.model.job import User
from generator.model.papers import Papers
from generator.procedure import messages
from generator.procedure.checks_of_system import OFF_TEST
from generator.procedure.climb import to_climb
from generator.procedure.safety import is_outside, met
from generator.procedure.signing import AS_FITTED, CERTIFICATE, HANDOVER, MONITORING
from generator.procedure.step import Fact, Hold, Step
from generator.procedure.units import fitted, of_kind
from generator.tables import tools
from generator.tables.minutes import OF_STEP
from generator.terms.show import capital, count, sentence_list


def leave(papers: Papers, results: Results) -> Iterator[Step]:
    """From the last test to the door."""
    outside = [name for name in fitted(papers) if is_outside(papers, name)]
    reached = [name for name in papers.job.devices if name not in outside]
    yield Step("refit", "leave", "Refit, clean, photograph",
               ("Every lid on, marks cleaned, packaging and used cells taken along, strips counted.",
                "A photograph of each unit in its place with its lid on; its label inside was photographed when it was fixed. No codes, no keys, no people in it.",
                *((f"{sentence_list(outside)}: photographed from the ground, or when it went up. Nobody climbs for it.",) if outside else ())),
               after=("log",), messages=tuple(one for one in messages.EVERY if one in {
                   *met(papers, reached, *messages.HEIGHTS), *met(papers, list(papers.job.devices), messages.BUTTON_CELL, messages.LITHIUM)}),
               minutes=OF_STEP["refit"], tools=(*tools.CLEAN, *to_climb(papers, reached)), unsigned=(AS_FITTED,))
    yield from _train(papers, results)
    last = [f"train-{number}" for number in sorted(papers.job.users)][-1:] or ["refit"]
    if papers.job.monitoring:
        yield _off_test(papers, tuple(last))
    yield Step("sign", "leave", "Clear up and sign",
               ("Write every difference from the plan, with its reason and who agreed.",
                "What could not be done or tested stands on the certificate in words; nothing is signed for it.",
                "If the job stops before its end, say in writing what works.",
                f"Then the page “{WRITTEN}”: save the file and send it home first. Only when the office has said that it came, wipe it from this phone on that "
                "page: what was typed and photographed for this job.",
                "Photographs in the phone's own store are wiped there too."),
               after=("off-test", *last), messages=met(papers, (), messages.NO_LESS), minutes=OF_STEP["sign"], tools=tools.PAPERS,
               unsigned=CERTIFICATE)


# The page on which the phone keeps what was written.
WRITTEN = "What was written down"
HANDED = {True: "Hand over the homeowner's pages.",
          False: "Hand over the short sheet for this user (page “Sheets for other users”), not the homeowner's pages.",
          None: "Does this user answer for the house? Then hand over the homeowner's pages; else the short sheet of “Sheets for other users”."}


def gets_homeowners_pages(papers: Papers, user: User) -> bool | None:
    """Whether a user gets the homeowner's pages: who decided on the system does, others do not; None where nobody says who decided."""
    agreed = papers.job.agreement
    return user.who == agreed.decided_by if agreed and agreed.decided_by else None


def _train(papers: Papers, results: Results) -> Iterator[Step]:
    words, earlier = papers.profile.words, "refit"
    held = of_kind(papers, list(papers.job.devices), "hold-up", "medical")
    for number, user in sorted(papers.job.users.items()):
        carried = [name for name in (user.fob, user.tag) if name]
        # Who does not answer for the house leaves no zone out: the short sheet does not tell how.
        omits = gets_homeowners_pages(papers, user) is not False and any(one.omit for one in papers.job.devices.values())
        omitted = ", leaving one zone out for once" if omits else ""
        part = f", {words.part_set}" if papers.job.part_sets else ""
        yield Step(f"train-{number}", "leave", f"Train user {number}: {user.who}",
                   (f"{capital(words.set)}{part}, {words.unset}, a wrong code{omitted}.",
                    "A false alarm: what to do and say. Mains fail, low cell, whom to call.",
                    *(("Hold-up: the user says back when, and when not.",) if held else ()),
                    HANDED[gets_homeowners_pages(papers, user)]),
                   after=(earlier,), facts=tuple(_handed(papers, results, carried)),
                   messages=met(papers, [*carried, *held], messages.ESCAPE, messages.PERSONAL, messages.IMPLANTS, messages.BUTTON_CELL),
                   hold=Hold("H13", "The user has a code that they typed themselves, unseen, and has left and come back on their own once.", "Most false alarms are mistakes of users."),
                   minutes=OF_STEP["train"], unsigned=(HANDOVER,))
        earlier = f"train-{number}"


def _handed(papers: Papers, results: Results, carried: list[str]) -> Iterator[Fact]:
    if not carried:
        yield Fact("Gets", "no fob or tag: the code that the user typed unseen is all")
    for name in carried:
        number = ", ".join(f"{row.list.removesuffix('s')} {row.number}" for row in results.slots.of(name)) or "no number"
        serial = papers.job.devices[name].serial
        yield Fact("Gets", f"{name}: {number}{f', serial {serial}' if serial else ''}", f"job.devices.{name}.serial")


def _off_test(papers: Papers, after: tuple[str, ...]) -> Step:
    agreed = papers.job.monitoring
    soak = f"Soak period: {count(agreed.soak_days, 'day')}, in which only keyholders are called. Say so." if agreed.soak_days else ""
    held = of_kind(papers, fitted(papers), "hold-up", "medical")
    return Step("off-test", "leave", "Take the account off test",
                tuple(filter(None, (f"Call {agreed.station}, {agreed.telephone}.", "Every restore received, no fault left open at the station.",
                                    "Hold-up devices back in service, last and with a witness." if held else "", soak))),
                after=after, facts=(Fact("Account", agreed.account, "job.monitoring.account"),),
                hold=Hold("H14", "The operator has said “off test”, with name and time.", "Left on test, nobody comes."),
                minutes=OF_STEP["off-test"], unsigned=(OFF_TEST, MONITORING))
