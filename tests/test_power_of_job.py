"""Is what hangs on the battery, on the cables and on the cells taken from the right papers, and is it said where it comes from?"""
from datetime import date

import pytest

from generator.calc.kit import kit
from generator.calc.power.cells_of_job import cells_of_job
from generator.calc.power.power_of_job import power_of_job
from generator.calc.power.visits import ServiceVisit, service_visits
from generator.calc.results import compute
from generator.calc.unknown import Unknown
from generator.intake.job_reader import read_job
from tests.conftest import JOBS, Files
from tests.rule_cases.case import both, put
from tests.rule_cases.power import fire, no_cold, repeater

ROOMS = ("job", "premises", "storeys", "ground", "rooms")


def papers(job_file, *changes):
    return read_job(job_file(*changes)).papers


@pytest.fixture(scope="module")
def large():
    """The large demo job and its results."""
    found = read_job(JOBS / "curlew-house" / "job.yaml").papers
    return found, compute(found)


def test_on_the_large_job_nothing_of_it_is_unknown(large) -> None:
    _, results = large
    power, cells = results.power, results.cells
    every = [power.standby, power.hours, power.at_rest, *power.unasked, *(one.lasts for one in power.own), *(one.run for one in results.cables.runs),
             *results.cables.without.values(), cells.fitted, cells.visits, *(one.presses for one in cells.carried),
             *(part for one in cells.in_place for part in (one.life, one.spent_on, one.visit))]
    assert [one for one in every if isinstance(one, Unknown)] == []
    assert len(cells.in_place) == 31 and len(cells.carried) == 2 and results.cables.runs and power.own


def test_the_large_jobs_battery_by_hand(large) -> None:
    """By one factor: 1.25 × (0.136 × 12 + 0.61 × 15 / 60) = 2.230625 Ah. At 12 °C the factor lies between 1.19 at 10 °C and 1.11 at
    15.56 °C: 1.19 − 0.08 × 2 / 5.556 = 1.1612."""
    standby = large[1].power.standby
    assert round(standby.need.first.value, 6) == 2.230625
    assert round(next(one.value for one in standby.need.second.inputs if one.symbol == "K"), 4) == 1.1612
    # (7 / 1.25 / 1.1612 − what the alarm takes) / 0.136 A is some 34 h; 0.8 × 7 / 0.4 = 14 h.
    assert 33 < standby.runs.value < 35 and standby.recharge.hours == pytest.approx(14)


def test_a_cell_of_the_large_job_by_hand(large) -> None:
    """M1 in the busy hall: (400 + 96) × 25 mA·s / 3600 / 24 = 0.14352 mA, with 14 µA 0.15752 mA; × 8766 = 1380.8 mAh, and 14.5 mAh
    lost: 0.85 × 1450 / 1395.3 = 0.8833 years = 322 days: 31 Aug 2027."""
    one = large[1].cells.of("M1")
    assert (round(one.life.years, 4), one.spent_on, one.visit) == (0.8833, date(2027, 8, 31), ServiceVisit(date(2027, 4, 20), True))


def test_every_number_of_a_working_says_where_it_is_from(large) -> None:
    _, results = large
    workings = [results.power.at_rest, results.power.standby.need.first, results.power.standby.need.second, results.power.standby.enough,
                *(one.lasts for one in results.power.own), *(point.working for run in results.cables.runs for point in run.run.points),
                *(one.life.working for one in results.cells.in_place), *(one.presses for one in results.cells.carried)]
    assert [one.name for working in workings for one in working.inputs if not one.origin] == []


def test_the_control_unit_and_every_wired_unit_are_loads_and_the_first_cannot_go(job_file) -> None:
    wired = put("equipment", "tern-kp", "power", value={"kind": "wired", "quiescent_ma": "30", "alarm_ma": "40"})
    loads = power_of_job(papers(job_file, wired)).standby.loads
    assert [(one.name, one.rest_ma, one.may_go, one.rest_from) for one in loads] == [
        ("CU", 95, False, "sheet tern-cu32: power.quiescent_ma"), ("K1", 30, True, "sheet tern-kp: power.quiescent_ma"),
        ("S1", 6, True, "sheet tern-sx: power.quiescent_ma")]


def test_what_hangs_on_the_battery_and_is_not_known_is_named_with_all_its_keys(job_file) -> None:
    def change(files: Files) -> None:
        del files["equipment"]["tern-sx"]["power"]["alarm_ma"]
        del files["equipment"]["tern-cu32"]["power"]["quiescent_ma"]

    assert power_of_job(papers(job_file, change)).standby == Unknown(
        "the sheet of CU gives no power.quiescent_ma; write power.quiescent_ma in the sheet tern-cu32; "
        "the sheet of S1 gives no power.alarm_ma; write power.alarm_ma in the sheet tern-sx")


def test_without_the_rooms_cold_there_is_one_line_and_the_reason_for_the_other(job_file) -> None:
    power = power_of_job(papers(job_file, no_cold))
    assert power.standby.need.second is None
    assert [one.reason for one in power.unasked] == [
        "age, cold and rate by themselves: it is not known how cold store gets; write coldest_c for that room"]


def test_fire_duties_lengthen_the_standby_only_where_a_fire_unit_is(job_file) -> None:
    without = power_of_job(papers(job_file, fire, lambda files: files["job"]["devices"].pop("SM1")))
    assert without.plain is None and without.hours.rest_h.value == 12
    duties = power_of_job(papers(job_file, fire))
    assert duties.hours.rest_h.value == 24 and duties.fire_units == ("SM1",) and duties.plain.ah < duties.standby.need.ah


def test_a_repeater_that_a_fire_alarm_is_heard_through_has_its_hours(job_file) -> None:
    def through(files: Files) -> None:
        files["job"]["devices"]["SM1"]["via"] = "R1"

    [alone] = power_of_job(papers(job_file, fire, repeater(standby_h="20"))).own
    [carries] = power_of_job(papers(job_file, through)).own
    assert (alone.lasts.holds(), carries.lasts.holds()) == (True, False)


def test_a_unit_that_waits_for_what_rarely_happens_sends_signs_of_life_alone(job_file) -> None:
    """Smoke alarms do not send when people pass; whoever knows better writes traffic at the unit."""
    def smoke(files: Files) -> None:
        fire(files)
        files["job"]["premises"]["storeys"]["ground"]["rooms"]["hall"]["traffic"] = "busy"

    def sends(found) -> float:
        return next(one.value for one in found.of("SM1").life.working.inputs if one.symbol == "N")

    assert sends(cells_of_job(papers(job_file, smoke))) == 96
    assert sends(cells_of_job(papers(job_file, put("job", "devices", "SM1", "traffic", value="quiet")))) == 156


def test_a_units_own_traffic_counts_before_its_rooms(job_file) -> None:
    quiet = cells_of_job(papers(job_file, put("job", "devices", "D1", "traffic", value="quiet"))).of("D1")
    [first, _] = [one for one in quiet.life.working.inputs if one.symbol == "n"]
    assert first.value == 60 and first.origin.startswith("job.devices.D1.traffic says quiet; ")


def test_a_unit_that_was_there_before_has_no_date_of_its_cells_and_stays_out_of_the_van(job_file) -> None:
    dunlin = read_job(JOBS / "dunlin-row" / "job.yaml").papers
    assert kit(dunlin).there == ("CU", "D1", "M1", "D2", "K1", "F1")
    assert [(one.count, one.what, one.uses) for one in kit(dunlin).units] == [
        (2, "Tern door and window contact", ("D3", "D4")), (1, "Tern fob", ("F2",)), (1, "Tern movement detector 12 m", ("M2",))]

    def was_there(files: Files) -> None:
        files["job"]["kind"] = "takeover"
        files["job"]["existing"] = [{"list": "zones", "number": "1", "device": "D1"}]

    assert "before this job" in cells_of_job(papers(job_file, was_there)).of("D1").spent_on.reason


def visits(job_file, *changes) -> list[tuple[str, bool]]:
    return [(one.on.isoformat(), one.agreed) for one in service_visits(papers(job_file, *changes))[:3]]


def test_a_due_month_counts_by_its_last_day_until_a_day_is_agreed(job_file) -> None:
    """In use on 14 Sep 2026, served every six months."""
    assert visits(job_file) == [("2027-03-31", False), ("2027-09-30", False), ("2028-03-31", False)]
    assert visits(job_file, put("job", "service", "visits", value=[{"on": "2027-03-08"}])) == [
        ("2027-03-08", True), ("2027-09-30", False), ("2028-03-31", False)]


def test_a_visit_from_afar_changes_no_cell_and_one_besides_the_services_does(job_file) -> None:
    assert visits(job_file, put("job", "service", "visits", value=[{"on": "2027-03-08", "remote": "true"}, {"on": "2027-01-20"}])) == [
        ("2027-01-20", True), ("2027-09-30", False), ("2028-03-31", False)]
    # A visit on the day of coming into use, or before, changes no new cell.
    assert visits(job_file, put("job", "service", "visits", value=[{"on": "2026-09-14"}]))[0] == ("2027-03-31", False)


def test_the_kit_counts_each_thing_with_what_it_is_for_and_cable_by_the_metre(job_file) -> None:
    def more(files: Files) -> None:
        files["job"]["cables"]["other"] = {"size_mm2": "0.5", "build": "stranded", "loads": [{"unit": "S1", "at_m": "7.3"}]}
        files["equipment"]["tern-sx"]["tools"] = ["core drill"]
        files["job"]["control_unit"]["battery_ah"] = "4"

    found = kit(papers(job_file, more), {"torch": ("cables",)})
    assert [(one.count, one.unit, one.what, one.uses) for one in found.cable] == [(20, "m", "cable, 0.5 mm² stranded", ("sounder-run", "other"))]
    assert found.waste == Unknown("the profile has no limit cable_waste_percent")
    assert [(one.count, one.what, one.uses) for one in found.cells] == [
        (3, "CR123A", ("D2", "K1")), (2, "CR2", ("D1", "D3")), (1, "CR2032", ("F1",)), (1, "lithium pack LP4", ("S1",)),
        (1, "standby battery, 4 Ah", ("CU",))]
    assert [(one.count, one.what, one.uses) for one in found.tools] == [(1, "core drill", ("S1",)), (1, "torch", ("cables",))]
    assert [(one.count, one.what) for one in found.labels] == [(7, "label for inside the lid")]
    for group in (found.units, found.cells, found.fixings, found.spares):
        assert [one.what for one in group] == sorted((one.what for one in group), key=str.casefold)


def test_a_share_for_waste_is_added_where_one_is_stated_and_never_made_up(job_file) -> None:
    def stated(files: Files) -> None:
        fire(files)
        files["profiles"]["own"]["limits"]["cable_waste_percent"] = {
            "value": "10", "unit": "%", "means": "share of cable that is lost in laying", "source": "practice", "known": "common practice"}

    # 12 m and a tenth are 13.2 m.
    assert [one.count for one in kit(papers(job_file, stated)).cable] == [14]


def test_no_unit_and_no_battery_is_a_result_too(job_file) -> None:
    found = power_of_job(papers(job_file, both(put("equipment", "tern-cu32", "power", value={"kind": "wired"}))))
    assert "power.kind: wired" in found.standby.reason and found.own == ()


def test_a_finding_at_a_place_in_a_list_is_shown_at_its_line(job_file) -> None:
    read = read_job(job_file())
    assert read.place("job.cables.sounder-run.loads.0.at_m").startswith("job.yaml:")
    assert read.place("job.cables.sounder-run.loads.1.at_m") == "job.cables.sounder-run.loads.1.at_m"
    # The name of a group stays a text.
    assert read.place("job.users.1.who").startswith("job.yaml:")
