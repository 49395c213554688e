"""Which result does each step bring, and which calls with the station are the same test? A test has one result, at one line."""
from collections.abc import Iterator, Mapping

from generator.calc.results import Results
from generator.calc.station.event_rows import PlannedTest
from generator.model.papers import Papers
from generator.pages.installer.steps import ResultsView
from generator.pages.installer.tests import group_of, line_links
from generator.pages.page import Link
from generator.procedure.check import MAINS_FAIL
from generator.procedure.checks_of_system import AUTOMATIC, CANCELLING, EVENT, LOSS, OMITTING
from generator.procedure.made_set import made_set
from generator.procedure.signing import lines_of, results_of
from generator.procedure.step import Step
from generator.procedure.trial_of_system import TIMED
from generator.tables.events import CANCEL, CONTROL_TAMPER, MAINS, OMITTED, OPEN_CLOSE, PART_SET, PATH_LOST, SET_OFF, TAMPER, TEST_BY_ITSELF
from generator.terms.show import capital

CALLS = "calls.html"
ORDER = "steps/test.html#order"
# Of more calls than this one link leads to their page.
NAMED_CALLS = 2


def results_places(papers: Papers, results: Results, steps: tuple[Step, ...]) -> Mapping[str, ResultsView]:
    """Where the result of each step that is a test is written, by the step's name."""
    links = line_links(papers, results)
    here, apart = (_calls_of_lines(papers, results, apart=one) for one in (False, True))
    words = papers.profile.words
    out = {}
    for id, names in results_of(steps).items():
        lines = [links[name] for name in names if name in links]
        unit = id.removeprefix("test-")
        if lines and id != unit:
            lines.append(group_of(results, unit))
        if lines:
            out[id] = ResultsView(tuple(lines), _named(here, names), _named(apart, names), words.is_unset, words.is_set)
    return out


def _named(calls: Mapping[str, list[Link]], names: tuple[str, ...]) -> tuple[Link, ...]:
    """The calls of a step's lines; of more than a few their page."""
    own = tuple(dict.fromkeys(call for name in names for call in calls.get(name, ())))
    return own if len(own) <= NAMED_CALLS else (Link(CALLS, "Calls with the station"),)


def _calls_of_lines(papers: Papers, results: Results, apart: bool) -> dict[str, list[Link]]:
    """The calls by the line whose test they are: those made with their step, or those made apart from it, with the system set."""
    if papers.job.monitoring is None:
        return {}
    out: dict[str, list[Link]] = {}
    for id, one in zip(call_ids(results.events.tests), results.events.tests):
        if made_set(one) is not apart:
            continue
        about = f"zone {one.number}" if one.device else f"user {one.number}" if one.number else one.expects[0].means.partition(":")[0]
        for line in lines_of_call(papers, one):
            out.setdefault(line, []).append(Link(f"{CALLS}#{id}", f"the call of {about}"))
    return out


def lines_of_call(papers: Papers, one: PlannedTest) -> tuple[str, ...]:
    """The lines of the checklist that a call with the station is the test of, by their names; none where no line asks for it."""
    unit, words = papers.job.control_unit.id, papers.profile.words
    if one.do == SET_OFF:
        return lines_of(one.device, "Number and text")
    return {
        TAMPER: lines_of(one.device, "Lid tamper"), CONTROL_TAMPER: lines_of(unit, "Lid tamper"), MAINS: lines_of(unit, MAINS_FAIL),
        OMITTED: (OMITTING,), CANCEL: (CANCELLING,), TEST_BY_ITSELF: (AUTOMATIC,), OPEN_CLOSE: (f"{EVENT}{words.set} and {words.unset}",),
        PART_SET: tuple(f"{capital(words.part_set)}: {part.name}" for part in papers.job.part_sets.values()),
        PATH_LOST: tuple(f"{LOSS}{key}" for key in (papers.job.monitoring.paths if papers.job.monitoring else ())),
    }.get(one.code, ())


def call_ids(tests: tuple[PlannedTest, ...]) -> Iterator[str]:
    """An anchor for each call that does not count through the day, so that one call more changes no other's."""
    taken: dict[str, int] = {}
    for one in tests:
        id = f"call-{one.code}-{one.number}"
        taken[id] = taken.get(id, 0) + 1
        yield f"{id}-{taken[id]}" if taken[id] > 1 else id


def order_of_tests(papers: Papers, results: Results) -> tuple[str, ...]:
    """How one person goes through the tests: everything unset from unit to unit, then the calls that need the system set, then the rest."""
    words = papers.profile.words
    walk = f"First {words.is_unset}, from unit to unit: the steps below, in their order, up to “{TIMED}”."
    rest = f"{'Then' if papers.job.monitoring is None else 'Last'} the steps from “{TIMED}” on. Each says where it is made {words.is_set}; else {words.is_unset}."
    if papers.job.monitoring is None:
        return (walk, rest)
    with_step = " Where a step names a call as the same test, the operator reads meanwhile: it is made once."
    apart = (f"Then {words.is_set}: the calls of each setting, in the order of the calls' page. They read back numbers and texts that the walk could not.",
             ) if any(map(made_set, results.events.tests)) else ()
    return (walk + with_step, *apart, rest)
