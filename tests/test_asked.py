"""Is everything that is to be written down asked once, where it is found, and held against the profile's own number?"""
from collections import Counter

import pytest

from generator.calc.radio.link_limit import link_limit
from generator.calc.results import Results, compute
from generator.intake.job_reader import read_job
from generator.model.papers import Papers
from generator.procedure.asked import AT, CALLED, CHECK, KINDS, OPERATOR, PHOTO, SERIAL, SIGNAL, SIGNATURE, STEP, UNTIL, Asked, asked_of
from generator.procedure.check import BY_STATION
from generator.procedure.checks import checks_of_unit, system_checks
from generator.procedure.signing import results_of
from generator.procedure.step import Step
from generator.procedure.steps import procedure
from generator.procedure.units import fitted
from tests.conftest import JOBS

Day = tuple[Papers, Results, tuple[Step, ...], tuple[Asked, ...]]


def day_of(papers: Papers) -> Day:
    results = compute(papers)
    steps = procedure(papers, results)
    return papers, results, steps, asked_of(papers, results, steps)


@pytest.fixture(scope="module", params=["curlew-house", "thrift-cottage", "plover-cabin"])
def any_day(request) -> Day:
    return day_of(read_job(JOBS / request.param / "job.yaml").papers)


@pytest.fixture(scope="module")
def large() -> Day:
    return day_of(read_job(JOBS / "curlew-house" / "job.yaml").papers)


def of(kind: str, asked: tuple[Asked, ...]) -> list[Asked]:
    return [one for one in asked if one.kind == kind]


def test_nothing_is_asked_twice_and_each_thing_is_of_one_kind(any_day: Day) -> None:
    asked = any_day[3]
    assert len({(one.device, one.step, one.what) for one in asked}) == len(asked) > 100
    assert {one.kind for one in asked} <= set(KINDS) and all(one.what.partition("/")[0] == one.kind for one in asked)


def test_it_is_asked_in_the_order_of_the_day(any_day: Day) -> None:
    _, _, steps, asked = any_day
    place = {step.anchor: index for index, step in enumerate(steps)}
    assert len(place) == len(steps)
    places = [place[one.step] for one in asked]
    assert places == sorted(places)


def test_every_step_is_asked_once(any_day: Day) -> None:
    _, _, steps, asked = any_day
    assert [(one.step, one.device, one.title) for one in of(STEP, asked)] == [(step.anchor, step.unit, step.title) for step in steps]


def test_every_line_of_the_checklist_is_asked_once_whatever_step_names_it(any_day: Day) -> None:
    papers, results, _, asked = any_day
    lines = [one for unit in papers.sheet_of for one in checks_of_unit(papers, results, unit)] + list(system_checks(papers, results))
    assert Counter((one.device, one.title, one.accept) for one in of(CHECK, asked)) == Counter((one.unit, one.what, one.accept) for one in lines)


def test_a_line_is_asked_in_the_step_that_brings_its_result(any_day: Day) -> None:
    _, _, steps, asked = any_day
    anchors = {step.id: step.anchor for step in steps}
    where = {(f"{one.title} of {one.device}" if one.device else one.title): one.step for one in of(CHECK, asked)}
    named = {line: anchors[id] for id, lines in results_of(steps).items() for line in lines if line in where}
    assert len(named) > 15 and all(where[line] == step for line, step in named.items())


def test_a_line_that_no_step_names_is_asked_in_the_test_of_its_unit(large: Day) -> None:
    where = {(one.device, one.title): one.step for one in of(CHECK, large[3])}
    assert where["D1", "Rattle"] == "test-d1" and where["CU", "Size of the log"] == "test-cu" and where["", "Repeated trips"] == "log"
    assert where["", "Refused"] == "full-set" and where["", "Account off test"] == "off-test"


def test_every_unit_is_asked_once_for_its_serial_where_it_is_read(any_day: Day) -> None:
    papers, _, _, asked = any_day
    serials = {one.device: one for one in of(SERIAL, asked)}
    assert list(serials) and len(of(SERIAL, asked)) == len(serials) == len(papers.sheet_of)
    assert all(serials[name].planned == (device.serial or "") for name, device in papers.job.devices.items())
    assert all(one.step == f"enrol-{name}".lower() for name, one in serials.items() if name != papers.job.control_unit.id)


def test_every_fitted_unit_is_asked_for_its_signal_with_the_limit_that_is_about_it(any_day: Day) -> None:
    papers, _, _, asked = any_day
    signals = {one.device: one for one in of(SIGNAL, asked)}
    assert sorted(signals) == sorted(fitted(papers)) and all(one.step == f"signal-{name}".lower() for name, one in signals.items())
    assert all(one.least == float(papers.profile.limits[link_limit(papers, name)].value) and one.unit == "dB" for name, one in signals.items())


def test_more_than_the_limit_is_wanted_only_of_a_link_that_is_short_on_a_bad_day_and_is_what_its_step_says(large: Day) -> None:
    _, results, steps, asked = large
    says = {step.unit: fact.value for step in steps for fact in step.facts if fact.name == "Read here, to allow for a bad day"}
    assert says["M4"].startswith("at least 45.9 dB with doors shut")
    wanted = {(one.device, one.what): one.wanted for one in asked if one.wanted is not None}
    assert {device for device, _ in wanted} == says.keys() and {what for _, what in wanted} == {"signal", "check/link-margin"}
    assert all(says[device].startswith(f"at least {value:.1f}".removesuffix(".0")) for (device, _), value in wanted.items())


# Limits of the European profile, each cited in its own file; times divided by its reserve factor of 1.25 (30 s and 45 s are programmed).
@pytest.mark.parametrize("device, what, unit, least, most", [
    ("D1", "check/opening", "mm", None, 100), ("D1", "check/link-margin", "dB", 15, None), ("M1", "check/link-margin", "dB", 10, None),
    ("M1", "check/messages", "of 10", 10, None), ("M1", "check/stillness", "min", 2, None), ("M1", "check/walk-test", "steps", None, 4),
    ("S1", "check/running-time", "min", None, 20), ("S1", "check/height", "m", 3, None), ("K1", "check/height", "m", 1.2, 1.5),
    ("D1", "check/last-heard", "min ago", None, 60), ("CU", "check/mains-fail", "min", 35, None), ("CU", "check/recharge", "h", None, 72),
    ("", "check/entry", "s", None, 24), ("", "check/exit", "s", None, 36), ("", "check/supervision", "min", None, 120),
    ("", "check/report-held", "s", 30, None), ("M1", "check/drift", "dB now", None, None),
])
def test_a_measured_value_is_held_against_the_number_of_the_profile(large: Day, device, what, unit, least, most) -> None:
    one = next(one for one in large[3] if (one.device, one.what) == (device, what))
    assert (one.unit, one.least, one.most) == (unit, least, most)


def test_a_limit_that_the_company_sets_otherwise_is_the_one_compared(job_file) -> None:
    def stricter(files) -> None:
        files["company"]["limits"] = {"tamper_s": {"value": "7", "because": "the owner asks for it"}}
    asked = day_of(read_job(job_file(stricter)).papers)[3]
    assert {one.most for one in asked if one.what == "check/lid-tamper" and one.device != "CU"} == {7}


def test_two_lines_that_would_be_called_the_same_are_told_apart(job_file) -> None:
    def twice(files) -> None:
        files["job"]["part_sets"] = {key: {"name": "Night", "when": "everybody sleeps"} for key in ("night", "late")}
    asked = day_of(read_job(job_file(twice)).papers)[3]
    named = [one.what for one in asked if one.what.startswith("check/part-set:")]
    assert len(named) == len(set(named)) == 2 and named[1] == f"{named[0]}-2"


def test_a_unit_that_is_not_tested_is_asked_in_the_last_step_about_it(job_file) -> None:
    papers, results, steps, _ = day_of(read_job(job_file()).papers)
    kept = tuple(step for step in steps if step.id != "test-D3")
    assert {one.step for one in asked_of(papers, results, kept) if one.title == "Rattle" and one.device == "D3"} == {"enrol-d3"}


def test_drift_is_asked_after_fixing_and_what_the_battery_waits_for_before_it(large: Day) -> None:
    papers, _, steps, asked = large
    order = [one.anchor for one in steps]
    drift = {one.device: one.step for one in of(CHECK, asked) if one.title == "Drift"}
    assert sorted(drift) == sorted(fitted(papers)) and all(order.index(step) > order.index(f"fix-{name}".lower()) for name, step in drift.items())
    where = {one.title: one.step for one in of(CHECK, asked) if one.device == "CU"}
    assert where["Supply"] == where["Charging voltage"] == where["Polarity"] == "power-mains"


def test_who_spoke_at_the_station_and_when_is_asked_at_each_step_with_a_call_and_nowhere_else(large: Day) -> None:
    papers, results, _, asked = large
    called = {(one.device, one.step): set() for one in of(CALLED, asked)}
    for one in of(CALLED, asked):
        called[one.device, one.step].add(one.what)
    assert called.pop(("", "on-test")) == {OPERATOR, AT, UNTIL}
    assert all(whats == {OPERATOR, AT} for whats in called.values())
    read_there = [one for unit in papers.sheet_of for one in checks_of_unit(papers, results, unit)] + list(system_checks(papers, results))
    named = {(one.unit, one.what) for one in read_there if one.measured == BY_STATION}
    steps = {one.step for one in of(CHECK, asked) if (one.device, one.title) in named}
    assert {step for _, step in called} == steps | {"off-test"} and {"test-h1", "log", "off-test"} <= steps
    assert not [one for one in of(CHECK, asked) if one.unit == BY_STATION]
    silent = day_of(read_job(JOBS / "plover-cabin" / "job.yaml").papers)[3]
    assert of(CALLED, silent) == []


def test_photographs_and_names_are_asked_where_they_are_due(large: Day) -> None:
    papers, _, _, asked = large
    assert Counter(one.step for one in of(PHOTO, asked))["refit"] == len(fitted(papers)) + 1
    assert [(one.step, one.what) for one in of(SIGNATURE, asked)] == [
        ("walk-round", "signature/customer"), ("sign", "signature/installer"), ("sign", "signature/customer")]
