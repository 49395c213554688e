"""Is a number that no battery, cable or cell can have answered at its line, and never turned into a figure?"""
import pytest

from generator.calc.results import compute
from generator.calc.unknown import Unknown
from generator.intake.job_reader import read_job
from generator.rules.all_rules import judge
from generator.terms.problem import JobInvalid
from tests.conftest import Files
from tests.rule_cases.case import both, put

BATTERY, RUN = ("job", "control_unit", "battery_ah"), ("job", "cables", "sounder-run")
CU, S1, D1 = (("equipment", name) for name in ("tern-cu32", "tern-sx", "tern-dc"))
PLACES = {
    "battery": BATTERY, "coldest": ("job", "premises", "storeys", "ground", "rooms", "store", "coldest_c"),
    "size": (*RUN, "size_mm2"), "warmest": (*RUN, "warmest_c"), "interval": ("job", "service", "every_months"),
    "rest": (*CU, "power", "quiescent_ma"), "alarm": (*S1, "power", "alarm_ma"), "least": (*S1, "power", "least_v"),
    "standby": (*S1, "power", "standby_h"), "box": (*CU, "control_unit", "battery_box", "most_ah"),
    "charger": (*CU, "control_unit", "charger", "current_ma"), "capacity": (*D1, "power", "capacity_mah"),
    "loss": (*D1, "power", "self_discharge_percent"), "sleep": (*D1, "power", "sleep_ua"), "message": (*D1, "power", "message_mas"),
    "supervision": (*D1, "radio", "supervision_min"),
}
# Zero is a number of amperes, of hours or of degrees; of these it is none.
NO_ZERO = ("battery", "size", "interval", "least", "box", "charger", "capacity", "sleep", "message", "supervision")
NO_NEGATIVE = tuple(name for name in PLACES if name not in ("coldest", "warmest"))


def problems(path) -> list:
    with pytest.raises(JobInvalid) as found:
        read_job(path)
    return list(found.value.problems)


@pytest.mark.parametrize("value", [".nan", "NaN", ".inf", "-.inf", "1e300", "1e-300", "Infinity", "0x10", "1_000", "999999999"])
@pytest.mark.parametrize("name", PLACES)
def test_what_is_no_number_of_a_house_is_answered_at_its_line(job_file, name: str, value: str) -> None:
    way = PLACES[name]
    [one] = problems(job_file(put(*way, value=value)))
    assert one.line and one.field.endswith(way[-1]) and one.do


@pytest.mark.parametrize("name, value", [*((name, "0") for name in NO_ZERO), *((name, "-1") for name in NO_NEGATIVE),
                                         ("coldest", "-61"), ("warmest", "91")])
def test_zero_and_less_are_answered_where_they_cannot_be(job_file, name: str, value: str) -> None:
    way = PLACES[name]
    [one] = problems(job_file(put(*way, value=value)))
    assert one.line and one.field.endswith(way[-1]) and one.do


def test_a_cable_of_no_length_is_answered_at_its_line(job_file) -> None:
    def change(files: Files) -> None:
        files["job"]["cables"]["sounder-run"]["loads"][0]["at_m"] = "0"

    [one] = problems(job_file(change))
    assert one.line and one.field.endswith("loads.0.at_m")


def test_a_unit_that_lives_only_while_it_is_pressed_may_take_nothing_at_rest(job_file) -> None:
    papers = read_job(job_file(put("equipment", "tern-fob", "power", "sleep_ua", value="0"))).papers
    [fob] = compute(papers).cells.carried
    # 0.85 × 220 mAh in three years, less 2.2 mAh a year, in presses of 20 mA·s: (62.33 − 2.2) × 3600 / 20 / 365.25 = 29.6.
    assert round(fob.presses.value, 1) == 29.6


@pytest.mark.parametrize("limit, value", [("battery_factor", "0.5"), ("battery_factor", "11"), ("battery_ageing_factor", "0"),
                                          ("peukert_most_exponent", "3"), ("standby_h", "0")])
def test_a_limit_of_the_company_that_no_calculation_takes_is_a_reason_and_no_figure(job_file, limit: str, value: str) -> None:
    change = put("company", "limits", value={limit: {"value": value, "because": "a slip"}})
    try:
        papers = read_job(job_file(change)).papers
    except JobInvalid as found:
        assert all(one.line for one in found.problems)
        return
    results = compute(papers)
    verdict = next(one for one in judge(papers, results) if one.rule == "standby-short")
    assert isinstance(results.power.standby, Unknown) and verdict.outcome == "not_checked"
    assert value in verdict.findings[0].hit.says


@pytest.mark.parametrize("change, says", [
    (put(*CU, "power", "quiescent_ma", value="0"), ""),
    (both(put(*CU, "power", "quiescent_ma", value="0"), put(*CU, "power", "alarm_ma", value="0"), put(*S1, "power", "quiescent_ma", value="0"),
          put(*S1, "power", "alarm_ma", value="0")), "charge that all loads take together is 0"),
])
def test_nothing_that_takes_nothing_is_given_a_battery(job_file, change, says: str) -> None:
    found = compute(read_job(job_file(change)).papers).power.standby
    assert says in found.reason if says else found.need.ah > 0


def test_a_wired_load_without_current_is_a_reason(job_file) -> None:
    cables = compute(read_job(job_file(put(*S1, "power", "alarm_ma", value="0"), put(*S1, "power", "quiescent_ma", value="0"))).papers).cables
    assert "current in alarm of S1 is 0" in cables.runs[0].run.reason


@pytest.mark.parametrize("day", ["0001-01-01", "9999-12-31", "9999-06-01"])
def test_a_day_at_the_end_of_the_calendar_is_a_reason_and_no_traceback(job_file, day: str) -> None:
    def change(files: Files) -> None:
        files["job"]["agreement"] = {"decided_by": "householder", "tenure": "owner", "insurer": "none", "in_use_on": day}

    papers = read_job(job_file(change)).papers
    cells = compute(papers).cells
    assert (day < "1000") != isinstance(cells.visits, Unknown)
    judge(papers, compute(papers))
