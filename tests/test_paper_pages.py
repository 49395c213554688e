"""Do the pages of dates, calls, transmission and time on air say what was worked out, with its marks, and nothing that is stopped?"""
import re
from dataclasses import replace
from datetime import date

import pytest

from generator.calc.radio.air_time import band_uses
from generator.calc.radio.air_workings import air_working, power_working
from generator.calc.station.event_message import is_whole
from generator.intake.job_reader import read_job
from generator.pages.installer.calls import NO_MESSAGE
from generator.pages.pictures import Bar, BarsPicture
from generator.pipeline import compile_job, pack_of
from generator.publish.drawing.charts import bars
from generator.terms.audience import Audience
from tests.conftest import JOBS

LARGE = JOBS / "curlew-house" / "job.yaml"


def views(path, audience: Audience = Audience.INSTALLER, as_of: date | None = None) -> dict:
    pack = pack_of(compile_job(path, as_of), audience, str, {})
    return {page.path: page.view for page in pack.pages}


@pytest.fixture(scope="module")
def large() -> dict:
    return views(LARGE)


def test_every_day_of_the_calendar_stands_on_its_page_with_reason_and_source(large) -> None:
    rows = large["dates.html"].rows
    assert [(one.when, one.over, one.what) for one in rows][:3] == [
        ("21 Sep 2026", "over", "Last day on which the contract can be cancelled"), ("27 Oct 2026", "", "Last day of the soak period"),
        ("28 Oct 2026", "", "Response goes live, if the station and the company agree")]
    assert all(one.when and one.why and one.source for one in rows)
    assert [one.partition(":")[0] for one in large["dates.html"].missing] == ["Batteries of their own, R1 and S1"]
    assert large["dates.html"].until and large["dates.html"].until == large["cells.html"].until
    # The company's licences are the record's.
    assert not any("licence" in one.what for one in rows)
    assert any("licence" in one.what for one in views(LARGE, Audience.RECORD)["dates.html"].rows)


def test_what_could_not_be_counted_is_a_sentence_with_its_reason() -> None:
    missing = views(JOBS / "dunlin-row" / "job.yaml")["dates.html"].missing
    assert "End of the right to cancel: not checked, because no day of the contract is given." in missing
    assert all(re.search("[Nn]ot checked, because .+\\.$", one) for one in missing)


def test_a_later_day_moves_what_is_over() -> None:
    rows = views(LARGE, as_of=date(2027, 6, 1))["dates.html"].rows
    assert {one.what for one in rows if one.over} >= {"Last day of the soak period", "Visit for a service"}


def test_every_call_has_its_exact_messages_and_each_is_whole(large) -> None:
    calls = [one for group in large["calls.html"].groups for one in group.calls]
    messages = [sent.message for one in calls for sent in one.expects]
    assert len(messages) > 100 and all(is_whole(one.replace(" ", "")) and one.startswith("4D52 18 ") for one in messages)
    assert [one.number for one in calls] == [f"{index} of {len(calls)}" for index in range(1, len(calls) + 1)]
    assert len({one.id for one in calls}) == len(calls)


def test_a_call_says_the_zone_and_the_sheet_how_it_is_set_off(large) -> None:
    groups = {one.id: one for one in large["calls.html"].groups}
    first = groups["setting-1"].calls[0]
    assert (first.title, first.say) == ("Zone 5, HALL MOVE",
                                        "“Zone 5, HALL MOVE: intruder, interior. 2 messages must come. Please read what you get.”")
    entry = next(one for one in groups["setting-1"].calls if one.title == "Zone 1, FRONT DOOR")
    # 4 + 13 + 5 + 2, 1 + 8, 1 + 1 + 3 + 4, 10 + 1 and 10 + 10 + 1, a 0 counting 10, are 74; 1 makes 75, a multiple of 15.
    assert [(one.message, one.means) for one in entry.expects] == [
        ("4D52 18 1134 01 001 1", "Intruder, entry or exit: alarm"), ("4D52 18 3134 01 001 E", "Intruder, entry or exit: restored")]
    assert groups["zones"].calls[0].say.startswith("“Zone 1, FRONT DOOR: tamper of a detector.")
    assert first.do.startswith("M1: ") and "as its test says" not in first.do
    assert list(groups) == ["zones", "setting-1", "setting-2", "left-out", "system"]


def calls_of(view) -> list:
    return [one for group in view.groups for one in group.calls]


def test_every_call_says_the_state_of_the_system_and_the_wait_with_the_times_of_the_job(large) -> None:
    calls = calls_of(large["calls.html"])
    assert all(one.state for one in calls)
    states = {one.title: one.state for one in calls if "case" not in one.do}
    # 30 s to enter and 30 s held: 60 s.
    assert states["Zone 1, FRONT DOOR"] == ("Set, exit time of 45 s over. It starts the entry time: let all 30 s run out; then the report is held "
                                            "for 30 s: 60 s in all.")
    assert states["Zone 5, HALL MOVE"] == "Set, exit time of 45 s over, no entry time running."
    assert states["Zone 48, LAND SMOKE"] == "Unset; it acts in any state."
    assert "before 30 min" in states["House power"] and "note the time" in next(one.do for one in calls if one.title == "House power")
    american = calls_of(views(JOBS / "heron-bungalow" / "job.yaml")["calls.html"])
    assert any(one.state.startswith("Armed, exit time of 60 s over") and "60 s in all" in one.state for one in american)
    assert {"Arm, then disarm.", "Disarm."} <= {one.do for one in american}


def test_where_it_is_not_given_whether_sets_are_reported_the_call_says_to_ask(large, job_file) -> None:
    asked = [one for one in calls_of(views(JOBS / "heron-bungalow" / "job.yaml")["calls.html"]) if "Ask first" in one.state]
    assert {one.expects[0].message[8:12] for one in asked} == {"3401", "3441"}
    told = views(job_file(lambda f: f["job"]["monitoring"].update(open_close="true")))["calls.html"]
    assert not any("Ask first" in one.state for one in (*calls_of(large["calls.html"]), *calls_of(told)))


def test_times_that_are_not_given_are_said_to_be_missing_and_never_taken_for_none(job_file) -> None:
    def change(files) -> None:
        files["job"]["times"] = {"entry_s": "30", "exit_s": "45", "sounder_min": "15"}
    states = [one.state for one in calls_of(views(job_file(change))["calls.html"])]
    assert any("how long the report is held then is not given" in one for one in states)
    assert any("before it is reported is not given" in one for one in states)


def test_a_group_of_one_setting_warns_of_the_repeated_trip_limit(large) -> None:
    says = {one.id: " ".join(one.says) for one in large["calls.html"].groups}
    assert "After 3 alarms of one zone in one setting it is left out (377)" in says["setting-1"]
    assert "A sounder near the ear" in says["zones"] and "A sounder near the ear" in says["setting-1"] and says["system"] == ""


def test_the_hazard_of_the_work_stands_before_what_is_done(large, job_file) -> None:
    calls = {one.title: one for one in calls_of(large["calls.html"])}
    assert calls["House power"].beware.startswith("DANGER: Live mains") and calls["Tamper of the control unit"].beware.startswith("DANGER: Live mains")
    assert calls["Test sent by hand"].beware == "" == calls["Zone 5, HALL MOVE"].beware
    high = views(job_file(lambda f: (f["job"]["devices"]["D1"].update(height_m="4"),
                                     f["job"]["premises"]["storeys"]["ground"].update(ceiling_m="4.5"))))["calls.html"]
    assert [one.beware.startswith("DANGER: Work from a ladder.") for one in calls_of(high) if one.do.startswith("D1:")] == [True] * 2


def test_what_is_not_tried_is_listed_with_its_reason_and_who_answers(large) -> None:
    untried = " ".join(large["calls.html"].untried)
    assert all(f"{code} (" in untried for code in ("302", "381", "384", "158", "159"))
    assert "confirmed by another one among zones 24 SIT RM MOVE, 25 DINING MOVE, 26 STUDY MOVE and 32 WKSHOP MOVE" in untried
    assert "not in the plan: what is set is written at the line “Time for the second zone”" in untried
    assert any(one.startswith("A confirmed alarm: not tried") for one in views(JOBS / "thrift-cottage" / "job.yaml")["calls.html"].untried)


def test_what_is_set_says_which_zones_confirm_which_and_where_the_time_is_written(large) -> None:
    rows = {one.name: one.value for topic in large["settings.html"].topics for one in topic.rows}
    assert rows["Which zones confirm which"].startswith("An alarm of any intruder zone is confirmed by another one among zones 24 SIT RM MOVE")
    assert rows["Time within which the second zone must act"] == "Not in the plan: what is set is written at the line “Time for the second zone”"
    other = views(JOBS / "thrift-cottage" / "job.yaml")["settings.html"]
    assert not any(one.name.startswith("Which zones confirm") for topic in other.topics for one in topic.rows)


def test_an_account_that_the_format_cannot_hold_is_stopped_on_the_page_of_calls(job_file) -> None:
    view = views(job_file(lambda f: f["job"]["monitoring"].update(account="12X4")))["calls.html"]
    assert [one.word for one in view.found] == ["stop: account-form"]
    assert {one.name: one.value for one in view.facts}["Account"].startswith("STOP: ")
    assert {sent.message for group in view.groups for one in group.calls for sent in one.expects} == {NO_MESSAGE}
    assert any(one.startswith("No message is written out: the account 12X4") for one in view.unsaid)


def test_a_stopped_text_is_not_said_to_the_station(job_file) -> None:
    long = "GROUND FLOOR DINING ROOM PATIO DOOR"
    view = views(job_file(lambda f: f["job"]["devices"]["D1"].update(text=long)))["calls.html"]
    assert any(one.title.startswith("Zone 1, STOP: ") for one in calls_of(view))


def test_a_system_that_only_sounds_has_neither_calls_nor_transmission() -> None:
    own = views(JOBS / "dunlin-row" / "job.yaml")
    assert "dates.html" in own and "on-air.html" in own and not {"calls.html", "transmission.html"} & set(own)


def test_reporting_times_never_stand_without_their_mark(large) -> None:
    view = large["transmission.html"]
    assert [one.value for one in view.times] == ["30 min: EN 50136-1, alarm transmission systems: general requirements, 2012 with A1:2018 (from memory)"]
    assert view.decides and {one.name: one.value for one in view.category}["Reached"].startswith("yes, by the order")
    assert view.single == ()
    texts = [(one.title, one.says) for one in view.failures]
    assert ("When the router fails", "The station hears the system over path “second”.") in texts


def test_findings_stand_on_the_page_that_they_are_about(job_file) -> None:
    def change(files) -> None:
        files["job"]["monitoring"]["paths"] = {"first": {"kind": "broadband", "router": "true", "standby_h": "0"}}
        files["job"]["service"] = {"every_months": "12"}
        files["equipment"]["tern-sx"]["radio"]["tx_power_dbm"] = "30"

    own = views(job_file(change))
    assert [one.word for one in own["transmission.html"].found] == ["fix: path-dies-with-mains"]
    assert [one.word for one in own["dates.html"].found] == ["fix: service-interval-long"]
    assert [one.word for one in own["on-air.html"].found] == ["stop: power-over-band"]
    assert [one.says for one in own["transmission.html"].failures][0] == "The station hears nothing any more."
    assert own["transmission.html"].single == ("The mains", "The router", "The line of path “first”")


def test_units_alike_are_worked_out_once_and_all_are_named(large) -> None:
    kinds = large["on-air.html"].kinds
    assert [one.title for one in kinds][:2] == ["Tern control unit 48: CU", "Tern door and window contact: 8 units"]
    assert kinds[1].band == "Sends at 868.3 MHz, in the band 868 to 868.6 MHz. D1, D2, D3, D5, D6, D8, D10 and D12: alike, worked out for D1."
    assert [one.summary for one in kinds[1].workings] == [
        "Time on air of D1 in the worst 1 h: 0.16 s, at most 36 s: kept", "Radiated power of D1: 8 dBm, at most 16.1 dBm: kept"]
    fobs = next(one for one in kinds if one.title.startswith("Tern fob"))
    assert fobs.unsaid == ("Sends only when somebody uses it: there is no supervision to count.",)
    assert not any("Not checked" in line for one in kinds for line in one.unsaid)


def test_a_working_on_air_ends_with_what_was_worked_out() -> None:
    papers = read_job(LARGE).papers
    for use in band_uses(papers):
        power = power_working(papers, use)
        assert (power.value, power.limit.value) == (use.power.power_dbm, use.power.most_dbm) and power.holds() == use.power.within
        if air := air_working(papers, use):
            given = {one.symbol: one.value for one in air.inputs}
            assert air.value == pytest.approx(given["n"] * given["m"] / 1000) and air.holds() == use.air.within
    repeater = next(one for one in band_uses(papers) if one.unit == "R1")
    working = air_working(papers, repeater)
    # Four supervision messages an hour of each of four units, 40 ms each.
    assert working.value == pytest.approx(0.64) and [one.origin for one in working.inputs if one.symbol == "n"] == [
        "worked out: R1 4, D11 4, D12 4 and M7 4"]
    assert working.limit.known == "from memory"
    assert next(one.origin for one in working.inputs if one.symbol == "H").startswith("period over which time on air is counted, 1 h: EN 300 220")


def test_a_band_that_limits_a_field_says_how_it_became_a_power() -> None:
    papers = read_job(JOBS / "heron-bungalow" / "job.yaml").papers
    use = band_uses(papers)[0]
    assert power_working(papers, use).notes == ("The band allows a field of 50 mV/m at 3 m: P = (E d)² / 30 in free space.",)
    assert air_working(papers, use) is None
    assert power_working(papers, replace(use, power=use.air)) is None


def test_cells_that_are_changed_on_every_visit_have_a_note_and_the_page_says_what_lengthens_their_life(large) -> None:
    # The detectors of the busy hall and landing last less than a year, with two visits in it.
    assert {one.unit.text for one in large["cells.html"].rows if one.note} == {"M1", "M6"}
    assert "rest between two messages" in large["cells.html"].lengthen




def test_the_factor_for_cold_is_unfolded_with_its_temperature_and_the_two_points_beside_it(large) -> None:
    cold = next(one for one in large["power.html"].workings if one.summary.startswith("Factor for cold"))
    names = {one.name: one.value for one in cold.inputs}
    assert names["lowest temperature at the battery (θ)"] == "12 °C" and cold.summary == "Factor for cold: 1.161"
    assert {"next colder temperature with a factor (θ₁)", "next warmer temperature with a factor (θ₂)"} <= set(names)


def test_a_path_that_the_control_unit_feeds_is_told_with_what_is_asked_and_what_was_worked_out(large) -> None:
    says = {path.path: path.says for one in large["transmission.html"].failures if one.id == "mains" for path in one.left}
    assert says["second"].startswith("Carries on for at least the 12 h asked:") and "about 34.2 h were worked out" in says["second"]
    assert says["first"].startswith("Carries on for 12 h:")


def test_the_words_above_a_bar_end_before_its_picture_does() -> None:
    long = "12 Ah in stock: large enough, but not for this box and not for this charger"
    drawn = bars(BarsPicture("x", (Bar(long, 12.0, "stock"),), 3.0))
    assert "…" in drawn and long not in drawn
    assert "12 Ah in stock: too large here" in bars(BarsPicture("x", (Bar("12 Ah in stock: too large here", 12.0, "stock"),), 3.0))
