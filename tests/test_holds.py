"""Does each hold point stand in a job that has what it holds, and in no other, and are steps timed, equipped and answered for?

The hold points, the order of tests, what each step waits for: common practice, no source.
"""
import pytest

from generator.calc.radio.link_limit import link_limit
from generator.calc.results import compute
from generator.intake.job_reader import read_job
from generator.procedure import messages
from generator.procedure.checks import checks_of_unit, system_checks
from generator.procedure.signing import CERTIFICATE
from generator.procedure.step import Step
from generator.procedure.steps import PHASES, procedure
from generator.tables import minutes
from tests.conftest import JOBS
from tests.test_safety import TAKEOVER, drop, job, kind, nothing, premises

TRADE_ORDER = ("test-CU", "tampers", "test-K1", "test-D1", "entry-exit", "part-set-night", "omit", "test-S1", "mains-fail", "battery-load",
               "test-R1", "supervision", "interference", "path-first", "path-second", "test-H1", "test-SM1", "heard-again", "test-F1", "confirmation", "full-set",
               "log")


def steps(job_file, *changes) -> dict[str, Step]:
    papers = read_job(job_file(*changes)).papers
    return {step.id: step for step in procedure(papers, compute(papers))}


def holds(found: dict[str, Step]) -> set[str]:
    return {step.hold.id for step in found.values() if step.hold}


def bare(files) -> None:
    """A job without mains, station, users, outside work or old walls, one carried unit: what is left holds in every job."""
    files["equipment"]["tern-cu32"]["power"].update(kind="cell")
    files["equipment"]["tern-cu32"]["control_unit"]["power_order"] = ["battery", "loads"]
    premises(built_before="false")(files)
    files["job"].pop("monitoring")
    files["job"].pop("cables")
    files["job"]["users"] = {}
    files["job"]["devices"] = {"F1": files["job"]["devices"]["F1"]}


CASES = [("H3", nothing, premises(built_before="false")), ("H4", nothing, lambda f: f["job"]["devices"]["S1"].update(room="hall", height_m="2.0")),
         ("H6", nothing, bare), ("H7", nothing, bare), ("H9", nothing, bare), ("H12", nothing, drop("monitoring")),
         ("H14", nothing, drop("monitoring")), ("H15", nothing, bare),
         ("H13", nothing, lambda f: (f["job"]["devices"].pop("F1"), f["job"].update(users={})))]
ALWAYS = ("H1", "H2", "H5", "H8", "H10", "H11")


@pytest.mark.parametrize("hold, with_it, without_it", CASES, ids=[one[0] for one in CASES])
def test_a_hold_point_stands_where_the_job_has_what_it_holds(job_file, hold, with_it, without_it) -> None:
    assert hold in holds(steps(job_file, with_it))
    assert hold not in holds(steps(job_file, without_it))


def test_every_hold_point_of_the_trades_list_is_asked_for(job_file) -> None:
    assert {one[0] for one in CASES} | set(ALWAYS) == {f"H{number}" for number in range(1, 16)}
    assert set(ALWAYS) <= holds(steps(job_file, bare))


def test_every_hold_point_says_what_must_hold_and_why(job_file) -> None:
    for step in steps(job_file).values():
        assert step.hold is None or (step.hold.until.endswith(".") and step.hold.why.endswith(".")), step.id


def large() -> dict[str, Step]:
    papers = read_job(JOBS / "curlew-house" / "job.yaml").papers
    return {step.id: step for step in procedure(papers, compute(papers))}


def test_the_tests_come_in_the_trades_order() -> None:
    names = list(large())
    assert [names.index(one) for one in TRADE_ORDER] == sorted(names.index(one) for one in TRADE_ORDER)
    tested = [step for step in large().values() if step.phase == "test" and not step.id.startswith("night-")]
    assert all(later.after == (earlier.id,) for earlier, later in zip(tested, tested[1:]))


def test_a_repeater_is_checked_and_enrolled_before_what_is_heard_through_it() -> None:
    names = list(large())
    for what in ("signal", "enrol"):
        assert all(names.index(f"{what}-R1") < names.index(f"{what}-{unit}") for unit in ("D11", "D12", "M7"))
    assert "signal-R1" in large()["signal-D11"].after
    assert next(name for name in names if name.startswith("signal-")) == "signal-R1"


def test_the_margin_of_a_repeater_and_of_an_outbuilding_are_limits_of_their_own() -> None:
    papers = read_job(JOBS / "curlew-house" / "job.yaml").papers
    assert {unit: link_limit(papers, unit) for unit in ("R1", "M7", "M3", "H1", "S1")} == {
        "R1": "repeater_margin_db", "M7": "link_margin_outbuilding_db", "M3": "link_margin_db", "H1": "link_margin_main_db",
        "S1": "link_margin_main_db"}


def test_phases_stand_together_whatever_a_step_waits_for() -> None:
    ranks = [list(PHASES).index(step.phase) for step in large().values()]
    assert ranks == sorted(ranks)


def test_no_step_is_empty_and_each_says_how_long_it_takes_and_what_stays_unsigned(job_file) -> None:
    for step in (*steps(job_file).values(), *large().values()):
        assert step.title and step.do and all(line.strip() for line in step.do), step.id
        assert step.minutes > 0 and step.unsigned, step.id


def test_what_cannot_be_signed_are_lines_of_the_checklist_or_of_the_certificate() -> None:
    papers = read_job(JOBS / "curlew-house" / "job.yaml").papers
    results = compute(papers)
    of_units = {f"{one.what} of {unit}" for unit in papers.sheet_of for one in checks_of_unit(papers, results, unit)}
    of_system = {one.what for one in system_checks(papers, results)}
    for step in procedure(papers, results):
        for line in step.unsigned:
            assert line in CERTIFICATE or line in of_system or line in of_units, (step.id, line)


def test_a_sheets_own_minutes_come_before_the_usual_ones(job_file) -> None:
    def own(files) -> None:
        files["equipment"]["tern-dc"]["minutes"] = {"fix_min": "7", "test_min": "0"}
    found = steps(job_file, own)
    assert (found["fix-D1"].minutes, found["test-D1"].minutes) == (7, 0)
    assert found["enrol-D1"].minutes == minutes.ENROL["other"] and found["fix-D3"].minutes == minutes.FIX["contact"]
    assert found["fix-S1"].minutes == minutes.FIX["sounder outside"] > minutes.FIX["sounder"]


def test_a_sheets_own_tools_are_fetched_for_its_units(job_file) -> None:
    def own(files) -> None:
        files["equipment"]["tern-dc"]["tools"] = ["thin file"]
    found = steps(job_file, own)
    assert "thin file" in found["fix-D1"].tools and "thin file" not in found["fix-D2"].tools


def test_a_takeover_looks_at_what_is_here_before_anything_is_touched(job_file) -> None:
    step = steps(job_file, job(**TAKEOVER), kind("hold-up", "hold-up"))["existing"]
    assert step.title == "Take over the system that is here" and step.facts[0].value == "OLD SHED"
    assert "account on test before anything is opened" in step.do[0] and "out of service first" in step.do[1]
    assert "existing" not in steps(job_file, lambda f: f["job"].update(kind="new", existing=[]))


def test_values_the_survey_stands_on_are_asked_again_on_the_way_round(job_file) -> None:
    def surveyed(files) -> None:
        files["job"]["survey"] = {"on": "2026-08-01", "by": "surveyor", "assumptions": {"pets": {"assumed": "one old dog"}}}
    facts = {fact.name: fact.value for fact in steps(job_file, surveyed)["walk-round"].facts}
    assert facts["Planned on: pets"] == "one old dog"


def test_an_outside_sounder_is_fixed_with_its_height_and_tested_before_the_ladder_moves(job_file) -> None:
    step = steps(job_file)["fix-S1"]
    assert "before the ladder goes" in steps(job_file)["lid-S1"].title and any("One visit up" in line for line in step.do)
    assert {fact.name: fact.value for fact in step.facts}["Height at least"] == "3 m (common practice)"


def test_the_run_to_a_unit_outside_is_named_and_laid_without_a_ladder(job_file) -> None:
    step = steps(job_file)["cable-entry"]
    assert messages.LADDER not in step.messages and "0.5 mm², stranded, to S1 after 12 m" in [fact.value for fact in step.facts]


def test_each_user_is_trained_apart_with_what_is_handed_over(job_file) -> None:
    found = steps(job_file)
    assert found["train-2"].after == ("train-1",) and found["train-1"].facts[0].value == "F1: fob 1, serial 00E5A1"
    assert found["off-test"].after == ("train-2",)


def test_a_jamming_transmitter_is_never_asked_for() -> None:
    assert "Never use a jamming transmitter" in " ".join(large()["interference"].do)
