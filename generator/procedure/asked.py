"""What is written down at each step of the day: the step itself, serials, signal checks, lines of the checklist, calls with the
station, photographs, names, hold points.

The same thing is everywhere (`device`, `step`, `what`): so it is called on the phone, in a file of results and in the record.
"""
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from generator.calc.radio.link import Link
from generator.calc.radio.wanted_reading import wanted_reading
from generator.calc.results import Results
from generator.model.papers import Papers
from generator.procedure.check import BY_STATION, Check
from generator.procedure.checks import checks_of_unit, system_checks
from generator.procedure.signing import OF, results_of
from generator.procedure.step import Hold, Step
from generator.procedure.units import fitted

STEP, SERIAL, SIGNAL, CHECK, CALLED, PHOTO, SIGNATURE, NOTE, HOLD = KINDS = ("step", "serial", "signal", "check", "called", "photo", "signature", "note", "hold")
# Steps by the names that they are declared under.
WALK_ROUND, REFIT, SIGN, LOG, ON_TEST, OFF_TEST = "walk-round", "refit", "sign", "log", "on-test", "off-test"
LINK_CHECK, FIXED, TESTED = "signal-", "fix-", "test-"
IDENTITY = "Identity"
LINK_MARGIN = "Link margin"
# What of a call with the station: who spoke there, when, and when a test ends that was agreed.
OPERATOR, AT, UNTIL = f"{CALLED}/operator", f"{CALLED}/at", f"{CALLED}/until"
TIME = "time"
# How the note of a step begins that somebody went on from: what stands after it is no reason for anything.
WITHOUT_REASON, NOT_READ = "Gone on without a reason: ", "Gone on, not tested: "


@dataclass(frozen=True)
class Asked:
    """One thing to write down. `device` is "" for the system, `step` the step's anchor, `kind` one of KINDS.

    `accept` is what is expected in words; a value in `unit` passes from `least` to `most` (None: no such end). `planned` is what the plan
    says, `fields` are those of the job whose values `accept` and `planned` quote. `wanted` is what should be read besides, so that a bad day
    is allowed for: more than `least`, and no limit; None where nothing more is wanted.
    """

    device: str
    step: str
    what: str
    kind: str
    title: str
    accept: str = ""
    unit: str = ""
    least: float | None = None
    most: float | None = None
    planned: str = ""
    fields: tuple[str, ...] = ()
    wanted: float | None = None

    @property
    def rests_on_value(self) -> bool:
        """Whether a pass says nothing without the value that was measured; a serial is written as a thing of its own."""
        return self.kind == CHECK and self.unit not in ("", SERIAL)


def asked_of(papers: Papers, results: Results, steps: tuple[Step, ...]) -> tuple[Asked, ...]:
    """Everything that is written down, in the order of the day; each thing once, at the step that brings its result."""
    lines = _lines_by_step(papers, results, steps)
    return tuple(one for step in steps for one in _of_step(papers, results, step, lines.get(step.id, ())))


def _of_step(papers: Papers, results: Results, step: Step, lines: tuple[tuple[str, Check], ...]) -> Iterator[Asked]:
    if step.hold and step.hold.before:
        yield _held(step, step.hold)
    for slug, check in lines:
        if slug == _slug(IDENTITY):
            yield _serial(papers, step, check)
    if step.id.startswith(LINK_CHECK):
        yield _signal(step, next(check for _, check in lines if check.what == LINK_MARGIN), _wanted(results, step.unit))
    for slug, check in lines:
        # Who read it at the station, and when, is asked once a step, and no value of the line's own.
        yield Asked(check.unit, step.anchor, f"{CHECK}/{slug}", CHECK, check.what, check.accept, "" if check.measured == BY_STATION else check.measured,
                    check.least, check.most, fields=check.fields, wanted=_wanted(results, check.unit) if check.what == LINK_MARGIN else None)
    if step.id in (ON_TEST, OFF_TEST) or any(check.measured == BY_STATION for _, check in lines):
        yield from _call(papers, step)
    yield from _photos(papers, step)
    yield from _names(step)
    yield Asked(step.unit, step.anchor, STEP, STEP, step.title)
    yield Asked(step.unit, step.anchor, NOTE, NOTE, "Note")
    if step.hold and not step.hold.before:
        yield _held(step, step.hold)


def _held(step: Step, hold: Hold) -> Asked:
    """Whether a hold point holds: done, or could not; the phone calls it by the same name."""
    return Asked(step.unit, step.anchor, f"{HOLD}/{hold.id}", HOLD, f"Hold point {hold.id}, {hold.side}: {step.title}", hold.until)


def _serial(papers: Papers, step: Step, identity: Check) -> Asked:
    """The serial that is read from the unit itself, with that of the plan to compare."""
    own = papers.job.control_unit
    planned = (own if identity.unit == own.id else papers.job.devices[identity.unit]).serial or ""
    return Asked(identity.unit, step.anchor, SERIAL, SERIAL, f"Serial of {identity.unit}", "As on its own plate.", planned=planned, fields=identity.fields)


def _signal(step: Step, margin: Check, wanted: float | None) -> Asked:
    """Three tries of a link, each with its messages, its level and what was moved; held against what its line of the checklist asks."""
    return Asked(margin.unit, step.anchor, SIGNAL, SIGNAL, f"Link of {margin.unit}", margin.accept, margin.measured, margin.least, margin.most,
                 fields=margin.fields, wanted=wanted)


def _call(papers: Papers, step: Step) -> Iterator[Asked]:
    """Who spoke at the station and when, as the station's own log has it too; of a test also when it ends."""
    station = papers.job.monitoring.station if papers.job.monitoring else "the station"
    yield Asked(step.unit, step.anchor, OPERATOR, CALLED, "Operator's name", f"As given by {station}.")
    yield Asked(step.unit, step.anchor, AT, CALLED, "Time of the call", "", TIME)
    if step.id == ON_TEST:
        yield Asked(step.unit, step.anchor, UNTIL, CALLED, "On test until", "", TIME)


def _wanted(results: Results, unit: str) -> float | None:
    """The margin to be read with doors shut and people about, as the step asks it to be read; only where the plan is short on a bad day."""
    link = results.links.units[unit].link if unit in results.links.units else None
    return wanted_reading(link, shut=True).value if isinstance(link, Link) and link.reserve_db < 0 else None


def _photos(papers: Papers, step: Step) -> Iterator[Asked]:
    """Photographs that the company keeps: the walls before, each unit in its place; none of them ever holds anybody up."""
    if step.id == WALK_ROUND:
        yield _photo("", step, "before", "The walls before the work", "Marks and damage that are there already.")
    if step.id.startswith(FIXED):
        yield _photo(step.unit, step, "inside", f"{step.unit} open", "The label inside and the date on its cell or battery.")
    if step.id == REFIT:
        for name in (papers.job.control_unit.id, *fitted(papers)):
            yield _photo(name, step, "in-place", f"{name} in its place", "Lid shut. No codes, no keys, nobody in it.")


def _photo(device: str, step: Step, slug: str, title: str, accept: str) -> Asked:
    return Asked(device, step.anchor, f"{PHOTO}/{slug}", PHOTO, title, accept)


def _names(step: Step) -> Iterator[Asked]:
    """Who puts their name to what: the customer to changes of the plan, both to the work."""
    roles = {WALK_ROUND: ("customer",), SIGN: ("installer", "customer")}.get(step.id, ())
    for role in roles:
        yield Asked("", step.anchor, f"{SIGNATURE}/{role}", SIGNATURE, f"Name of the {role}")


def _lines_by_step(papers: Papers, results: Results, steps: tuple[Step, ...]) -> Mapping[str, tuple[tuple[str, Check], ...]]:
    """The lines of the checklist with their slugs, by the step that brings their result."""
    brings = {line: id for id, lines in results_of(steps).items() for line in lines}
    out: dict[str, list[tuple[str, Check]]] = {}
    for group in _groups(papers, results):
        for slug, check in _slugs(group):
            name = f"{check.what}{OF}{check.unit}" if check.unit else check.what
            out.setdefault(brings.get(name) or _else(steps, check), []).append((slug, check))
    return {id: tuple(lines) for id, lines in out.items()}


def _groups(papers: Papers, results: Results) -> Iterator[tuple[Check, ...]]:
    for name in (papers.job.control_unit.id, *papers.job.devices):
        yield checks_of_unit(papers, results, name)
    yield system_checks(papers, results)


def _slug(what: str) -> str:
    return Check("", what, "", "").id.partition("/")[2]


def _slugs(checks: tuple[Check, ...]) -> Iterator[tuple[str, Check]]:
    """Each line with what follows the slash in its id; of two that would be called the same the later bears a number."""
    taken: dict[str, int] = {}
    for one in checks:
        slug = one.id.partition("/")[2]
        taken[slug] = taken.get(slug, 0) + 1
        yield (f"{slug}-{taken[slug]}" if taken[slug] > 1 else slug), one


def _else(steps: tuple[Step, ...], check: Check) -> str:
    """Where a line is written that no step names: of a unit in its test, else in the last step about it; of the system when the log is
    read, which shows what was tried between the steps, in calls with the station."""
    if not check.unit:
        return LOG
    about = [step.id for step in steps if step.unit == check.unit]
    return f"{TESTED}{check.unit}" if f"{TESTED}{check.unit}" in about else about[-1]
