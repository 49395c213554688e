"""Are the limits that ship those of the documents they name, each with the mark it earned?

The tables here were typed from the sources a second time, not taken out of the profiles. A line is one document with its edition and
a mark; under it stand the limits. A limit that is in a profile and not here, or here and not there, fails; so does a raised mark.
"common practice" and "from memory" under no document are habits of the trade without a source.
"""
import re

import pytest

from generator.intake.job_reader import read_job
from generator.intake.yaml_tree import read_tree
from generator.model.limits import RANGES, RISING, contradictions, units_of
from generator.model.profile import KNOWN
from generator.publish.places import PACKAGE
from tests.conftest import read_files, write_files

EUROPEAN = """
EN 50131-1 | text before 2006 | read second-hand
  entry_max_s 45 s, remote_hold_s 30 s, set_shown_max_s 180 s, unset_shown_max_s 30 s
EN 50131-1 | 1997 | read second-hand
  log_older_events 100, log_older_kept_days 30 days, clock_off_min 10 min
EN 50131-1 | 2006, before its amendments | read
  message_s 10 s, prevent_detector_yes yes, prevent_hold_up_yes yes, prevent_masked_yes no, prevent_range_yes no, prevent_fault_yes yes
  prevent_tamper_yes yes, prevent_link_yes yes, prevent_mains_yes yes, prevent_battery_yes yes, prevent_path_yes yes
  prevent_sounder_yes yes, prevent_silent_yes yes, substitution_yes no
EN 50131-1 | 2006, before its amendments | read second-hand
  option_a_remote_sounders 2, option_b_own_sounders 1
EN 50131-1 | 2006 with A1, A2 and A3:2020 | from memory
  supervision_min 120 min, last_heard_min 20 min, sounder_max_min 15 min, sounder_least_s 90 s, log_events 250, code_differs 10000
  class_1_low_c 5 °C, class_1_high_c 40 °C, class_2_low_c -10 °C, class_2_high_c 40 °C, class_3_low_c -25 °C, class_3_high_c 50 °C
  class_4_low_c -25 °C, class_4_high_c 60 °C
EN 50131 series | | from memory
  tamper_s 10 s
EN 50131-4 | | from memory
  sounder_outside_dba 100 dB(A), sounder_inside_dba 90 dB(A)
EN 50131-5-3 | 2017 | from memory
  attenuation_db 6 dB, interference_yes yes
EN 50131-6 | 2017 | from memory
  standby_h 12 h, standby_not_recharged_h 24 h, standby_cells_h 720 h, recharge_h 72 h, recharge_percent 80 %
CLC/TS 50131-7 | | from memory
  service_months 6 months
EN 50136-1 | 2012 with A1:2018 | from memory
  report_sp1_days 32 days, report_sp2_h 25 h, report_sp3_min 30 min, report_sp4_min 3 min, report_sp5_s 90 s, report_sp6_s 20 s
  report_dp1_h 25 h, report_dp2_min 30 min, report_dp3_min 3 min, report_dp4_s 90 s
  report_other_dp1_h 50 h, report_other_dp2_h 25 h, report_other_dp3_h 25 h, report_other_dp4_h 5 h
EN 300 220 | | from memory
  duty_period_h 1 h
ERC Recommendation 70-03, short-range devices, Annex 7 | | read
  band_a_from_mhz 868.6 MHz, band_a_to_mhz 868.7 MHz, band_a_duty_percent 1 %, band_a_power_mw 10 mW
  band_b_from_mhz 869.2 MHz, band_b_to_mhz 869.25 MHz, band_b_duty_percent 0.1 %, band_b_power_mw 10 mW
  band_c_from_mhz 869.25 MHz, band_c_to_mhz 869.3 MHz, band_c_duty_percent 0.1 %, band_c_power_mw 10 mW
  band_d_from_mhz 869.3 MHz, band_d_to_mhz 869.4 MHz, band_d_duty_percent 1 %, band_d_power_mw 10 mW
  band_e_from_mhz 869.65 MHz, band_e_to_mhz 869.7 MHz, band_e_duty_percent 10 %, band_e_power_mw 25 mW
ERC Recommendation 70-03, short-range devices, Annex 1 | | from memory
  band_general_from_mhz 868 MHz, band_general_to_mhz 868.6 MHz, band_general_duty_percent 1 %, band_general_power_mw 25 mW
  band_middle_from_mhz 868.7 MHz, band_middle_to_mhz 869.2 MHz, band_middle_duty_percent 0.1 %, band_middle_power_mw 25 mW
  band_strong_from_mhz 869.4 MHz, band_strong_to_mhz 869.65 MHz, band_strong_duty_percent 10 %, band_strong_power_mw 500 mW
  band_433_from_mhz 433.05 MHz, band_433_to_mhz 434.79 MHz, band_433_duty_percent 10 %, band_433_power_mw 10 mW
IEC 60364-4-41 | | from memory
  extra_low_ac_v 50 V, extra_low_dc_v 120 V
EN 50292 | | read second-hand
  co_near_m 1 m, co_far_m 3 m, co_wall_mm 300 mm, co_ceiling_mm 150 mm, co_low_c -5 °C, co_high_c 40 °C
NFPA 72 | | from memory
  smoke_cooking_m 3 m
Regulation (EU) 2016/679 | | from memory
  breach_h 72 h
| | common practice
  exit_usual_min_s 30 s, exit_usual_max_s 60 s, standby_alarm_min 15 min, battery_factor 1.25, fuse_a 3 A
  last_heard_percent 50 %, keyholders_least 2, holdup_actions 2
"""

# What stands in the European and the North American profile alike.
BOTH = """
Recommendation ITU-R P.1238 | P.1238-13 | read second-hand
  shadowing_db 5.01 dB
IEEE 485 | 2020 | from memory
  battery_ageing_factor 1.25, battery_margin_least_factor 1.1, battery_margin_most_factor 1.15
  battery_cold_4_factor 1.3, battery_cold_10_factor 1.19, battery_cold_16_factor 1.11
SIA DC-05 | 1999.09 | read second-hand
  account_dc05_characters 4
SIA DC-09 | | from memory
  account_dc09_least_characters 3, account_dc09_most_characters 16, dc09_clock_behind_s 40 s, dc09_clock_ahead_s 20 s
ISO/IEC 18004 | | read second-hand
  label_quiet_modules 4
UL 1641 | 2015 | read second-hand
  reach_height_m 3.7 m, reach_stand_m 1.2 m, window_opening_mm 150 mm, slow_walk_steps 4, walk_test_mps 0.6 m/s
BS 5839-6 | 2004 | read second-hand
  door_loss_db 20 dB
UL Fire Safety Research Institute | | read
  door_loss_measured_db 17 dB
Lee and Kim | 2018 | read second-hand
  door_loss_low_db 18 dB, door_loss_high_db 23 dB
Nober and others | | read second-hand
  wake_dba 55 dB(A)
Studies of the walking speed of older adults | | read second-hand
  walk_frail_mps 0.64 m/s
NFPA 72 | | read second-hand
  smoke_replace_months 120 months
| | from memory
  door_opening_mm 100 mm, keypad_reach_m 1.2 m, letter_reach_m 0.4 m, keep_disconnection_months 3 months
  peukert_least_exponent 1.05, peukert_most_exponent 1.15, battery_halving_low_c 8 °C, battery_halving_high_c 10 °C
  battery_life_at_low_c 20 °C, battery_life_at_high_c 25 °C, cell_loss_lithium_percent 1 %, cell_loss_alkaline_percent 3 %
| | common practice
  link_margin_db 10 dB, link_margin_main_db 15 dB, link_margin_floor_db 6 dB, link_margin_outbuilding_db 15 dB, repeater_margin_db 15 dB
  repeater_hops 1, link_messages 10, link_stable_s 30 s, link_drift_db 6 dB, link_move_m 0.3 m
  background_min 5 min, background_positions 2, metal_clear_m 1 m, device_metal_clear_m 0.3 m, body_loss_low_db 3 dB, body_loss_high_db 8 dB
  bad_day_percent 90 %, foil_loss_low_db 15 dB, foil_loss_high_db 30 dB, coated_glass_loss_low_db 15 dB, coated_glass_loss_high_db 35 dB
  metal_sheet_loss_low_db 15 dB, metal_sheet_loss_high_db 25 dB, metal_thing_loss_low_db 5 dB, metal_thing_loss_high_db 15 dB
  discharge_end_v 10.5 V, battery_age_months 12 months, battery_watch_months 36 months, battery_change_months 60 months
  battery_stock_1_2_ah 1.2 Ah, battery_stock_2_1_ah 2.1 Ah, battery_stock_3_2_ah 3.2 Ah, battery_stock_4_ah 4 Ah, battery_stock_7_ah 7 Ah
  battery_stock_12_ah 12 Ah, battery_stock_17_ah 17 Ah, battery_stock_26_ah 26 Ah, battery_stock_33_ah 33 Ah, battery_stock_40_ah 40 Ah
  battery_stock_55_ah 55 Ah, cell_usable_percent 85 %, cell_busy_months 24 months, cell_change_months 36 months
  traffic_quiet_messages 60, traffic_usual_messages 120, traffic_busy_messages 400, mains_off_min 30 min, current_off_percent 15 %
  test_interval_h 24 h, station_arrival_s 60 s, user_test_months 1 month
  keep_keyholders_days 30 days, keep_photos_months 12 months, keep_false_calls_months 24 months, keep_enquiry_months 12 months
  spare_percent 10 %, spare_good_percent 20 %, spare_zones 2, number_rest_months 12 months, text_unique_characters 8
  label_module_mm 0.4 mm, label_module_good_mm 0.5 mm, label_distance_factor 10, label_read_mm 150 mm
  walk_slow_mps 0.8 m/s, walk_fit_mps 1.2 m/s, stairs_mps 0.5 m/s, entry_door_s 5 s, code_entry_s 6 s, tag_entry_s 3 s
  time_reserve_factor 1.25, contact_opening_mm 50 mm, contact_gap_percent 50 %, stillness_min 2 min, animal_roam_min 10 min
  reach_side_m 1 m, view_low_m 0.3 m, view_high_m 1.2 m, step_inside_m 0.5 m, sun_from_deg 90 °, sun_to_deg 270 °
  noise_test_m 1 m, movement_low_m 2.1 m, movement_high_m 2.4 m, keypad_low_m 1.2 m, keypad_high_m 1.5 m, control_unit_height_m 1.5 m
  glass_break_low_m 6 m, glass_break_high_m 7.5 m, shock_low_m 1.5 m, shock_high_m 2 m, sounder_height_m 3 m, ladder_from_m 2.5 m, steps_from_m 2 m, report_reserve_min 5 min
"""

BRITISH = """
Code of practice on noise from audible intruder alarms | 1982 | read second-hand
  sounder_max_min 20 min
Clean Neighbourhoods and Environment Act | 2005 | read second-hand
  sounder_nuisance_min 20 min, sounder_nuisance_broken_min 60 min
RISCAuthority | | read second-hand
  sounder_insurer_height_m 4 m
PD 6662 | | read second-hand
  option_x_own_sounders 1
National police policy | 2013 | read second-hand
  false_calls_warned 2, false_calls_withdrawn 3, holdup_calls_withdrawn 2, false_call_window_months 12 months
  withdrawal_notice_days 14 days, response_restored_months 3 months
National police policy | 2015 | read second-hand
  keyholders_least 2, keyholder_attend_min 20 min
National police policy | | read second-hand
  police_notice_days 28 days, permit_wanted_yes yes
Consumer Contracts (Information, Cancellation and Additional Charges) Regulations | 2013 | read second-hand
  cancellation_days 14 days
Consumer Contracts (Information, Cancellation and Additional Charges) Regulations | 2013 | from memory
  cancellation_distance_yes yes
BS 8243 | | from memory
  confirming_least 2, confirmed_exit_time_yes no
BS 8473 | | read second-hand
  design_fault_days 1 business days
Limitation of claims from contracts | | read second-hand
  keep_contract_years 6 years
NSI bulletin 68 | | read
  service_window_months 1 month
NFCC | | read
  analogue_end_year 2027, analogue_end_month 1
BS 5839-1 | | read second-hand
  fire_sound_dba 65 dB(A), fire_sound_above_db 5 dB, bedhead_dba 75 dB(A), alarm_most_dba 120 dB(A)
BS 5446-1 | | read second-hand
  smoke_output_dba 85 dB(A)
BS 5839-6 | | read second-hand
  smoke_bedroom_door_m 3 m
BS 5839-6 | | from memory
  bedroom_door_dba 85 dB(A), smoke_room_m 7.5 m, heat_room_m 5.3 m, smoke_wall_mm 300 mm
  smoke_element_low_mm 25 mm, smoke_element_high_mm 600 mm
BS 7671 | | from memory
  wiring_zone_mm 150 mm, wiring_depth_mm 50 mm
HSE, guidance on asbestos | | from memory
  asbestos_before_year 2000
HSE INDG455 | | from memory
  ladder_ratio 4, ladder_time_min 30 min
HSE GS38 | | read second-hand
  probe_tip_mm 4 mm, probe_tip_good_mm 2 mm
HSE, guidance on noise at work | | read second-hand
  noise_lower_dba 80 dB(A), noise_upper_dba 85 dB(A), noise_peak_lower_dbc 135 dB(C), noise_peak_upper_dbc 137 dB(C)
| | from memory
  soak_least_days 7 days, soak_most_days 14 days, keep_service_months 24 months
| | common practice
  sounder_usual_min 15 min, service_audible_months 12 months
"""

AMERICAN = """
ANSI/SIA CP-01 | | from memory
  entry_min_s 30 s, entry_default_s 30 s, entry_max_s 240 s, exit_default_s 60 s, exit_max_s 255 s, recent_closing_min 2 min
  exit_restart_yes yes, exit_error_yes yes, part_set_self_yes yes, cross_zone_yes no, duress_apart_yes yes
ANSI/SIA CP-01 | | read second-hand
  exit_min_s 45 s, abort_min_s 15 s, abort_default_s 30 s, abort_max_s 45 s, entry_tone_yes yes, abort_fire_yes no
  timer_off_percent 10 %, power_up_ignore_s 60 s, resume_yes yes
ANSI/SIA CP-01 | 2010 | read second-hand
  trip_limit_least 1, trip_limit_default 2, trip_limit_most 6, abort_none_yes yes
UL 985 and UL 1023 | | from memory
  entry_abort_max_s 60 s, standby_alarm_min 4 min
EN 50131 series | | from memory
  tamper_s 10 s
47 CFR 15.231 | text as of 2021-09-01 | read
  supervision_air_s 2 s, release_off_s 5 s, automatic_off_s 5 s, setup_air_s 10 s
47 CFR 15.231 | text as of 2021-09-01 | from memory
  band_260_from_mhz 260 MHz, band_260_to_mhz 470 MHz, band_260_supervision_yes yes
  band_260_field_from_mvpm 3.75 mV/m, band_260_field_to_mvpm 12.5 mV/m
47 CFR 15.249 | | from memory
  band_902_from_mhz 902 MHz, band_902_to_mhz 928 MHz, band_902_field_mvpm 50 mV/m
Montgomery County (Maryland) police, installation | | read
  standby_h 4 h, holdup_actions 2
Montgomery County (Maryland) police, requests | | read second-hand
  permit_wanted_yes yes
Montgomery County (Maryland) police, fees | | read
  false_calls_inspected 3, false_calls_upgraded 6, false_call_window_months 12 months, inspection_days 21 days
Municipal alarm codes of Auburn and of Loudoun County | | read
  keyholders_least 2, keyholder_attend_min 30 min, keyholder_attend_latest_min 60 min, soak_least_days 7 days
Municipal alarm code of Fountain Hills | | read
  service_record_months 24 months
NFPA 72 | 2007 | read second-hand
  fire_standby_h 24 h, fire_alarm_min 4 min
NFPA 72 | 2022 | read second-hand
  battery_factor 1.25
NFPA 72 | 2019 and before | read second-hand
  battery_older_factor 1.2
NFPA 72 | 2010 | read second-hand
  smoke_bedroom_door_m 6.4 m
NFPA 72 | | read second-hand
  bedhead_dba 75 dB(A), bedhead_above_db 15 dB, bedhead_above_peak_db 5 dB, alarm_most_dba 110 dB(A), fire_tone_hz 520 Hz
  smoke_kitchen_door_m 0.91 m, smoke_vent_m 0.91 m, smoke_hush_m 6.1 m, smoke_low_f 40 °F, smoke_high_f 100 °F, smoke_ceiling_mm 300 mm
NFPA 72 | | from memory
  smoke_cooking_m 3.05 m, smoke_spacing_m 9.1 m
NFPA 70 | | from memory
  class_2_va 100 VA
Federal and state cooling-off rules | | from memory
  cancellation_days 3 business days, cancellation_distance_yes no
| | common practice
  sounder_max_min 15 min, sounder_strict_min 5 min, service_months 12 months, station_record_months 12 months
"""

TYPED = {"en-grade-2": EUROPEAN + BOTH, "uk-grade-2": BRITISH, "na-practice": AMERICAN + BOTH}


def typed(text: str) -> dict[str, tuple[str, str, str, str]]:
    """The limits of a table: by name the value as shown, the document's first words, its edition's, the mark."""
    found: dict[str, tuple[str, str, str, str]] = {}
    for line in filter(None, text.splitlines()):
        if not line.startswith("  "):
            document, edition, known = (part.strip() for part in line.split("|"))
            assert known in KNOWN
            continue
        for one in line.strip().split(", "):
            name, _, value = one.partition(" ")
            assert name not in found, f"{name} was typed twice"
            found[name] = (value, document or "Habit of the trade", edition, known)
    return found


def shipped(profile: str) -> dict[str, tuple[str, str, str, str]]:
    """The limits of a profile's own file, in the same form."""
    path = PACKAGE / "profiles" / f"{profile}.yaml"
    data = read_tree(path, path.name).data
    base = PACKAGE / "profiles" / f"{data['extends']}.yaml" if "extends" in data else path
    documents = read_tree(base, base.name).data["documents"] | data["documents"]
    out = {}
    for name, limit in data["limits"].items():
        unit, value = limit.get("unit", ""), f"{float(limit['value']):.6f}".rstrip("0").rstrip(".")
        value = {"1": "yes", "0": "no"}[value] if unit == "yes or no" else f"{value} {unit}".rstrip()
        document = documents[limit["source"]]
        out[name] = (value, document["title"], document.get("edition", ""), limit["known"])
    return out


@pytest.mark.parametrize("profile", TYPED)
def test_a_shipped_limit_is_the_one_its_document_gives(profile: str) -> None:
    wanted, there = typed(TYPED[profile]), shipped(profile)
    assert set(wanted) ^ set(there) == set()
    wrong = {}
    for name, (value, document, edition, known) in wanted.items():
        is_value, is_document, is_edition, is_known = there[name]
        if (value, known) != (is_value, is_known) or not is_document.startswith(document) or not is_edition.startswith(edition):
            wrong[name] = (wanted[name], there[name])
    assert wrong == {}


@pytest.mark.parametrize("profile", TYPED)
def test_where_no_edition_is_typed_the_profile_claims_none(profile: str) -> None:
    there = shipped(profile)
    assert {name for name, line in typed(TYPED[profile]).items() if not line[2] and there[name][2]} == set()


@pytest.mark.parametrize("profile", TYPED)
def test_every_document_of_a_profile_is_cited_by_one_of_its_limits(profile: str) -> None:
    data = read_tree(PACKAGE / "profiles" / f"{profile}.yaml", profile).data
    assert set(data["documents"]) - {limit["source"] for limit in data["limits"].values()} == set()


@pytest.mark.parametrize("profile", TYPED)
def test_a_habit_names_no_document_and_a_document_is_no_habit(profile: str) -> None:
    for name, (_, document, _, known) in shipped(profile).items():
        assert (known == "common practice") <= document.startswith("Habit of the trade"), name
        assert not (document.startswith("Habit of the trade") and known.startswith("read")), name


# --- what holds between limits --------------------------------------------------------------------------------

def whole(profile: str, folder) -> dict:
    """The limits of a profile with what it extends."""
    files = read_files()
    files["job"]["profile"] = profile
    return read_job(write_files(files, folder)).papers.profile.limits


@pytest.mark.parametrize("profile", TYPED)
def test_no_shipped_limits_contradict_each_other_and_units_are_those_of_their_names(profile: str, tmp_path) -> None:
    limits = whole(profile, tmp_path / "job")
    assert list(contradictions(limits)) == []
    assert {name for name, limit in limits.items() if limit.unit not in (units_of(name) or (None,))} == set()


# Typed by hand: every pair of a lower and an upper end that the shipped profiles hold.
ENDS = """exit_usual_min_s exit_usual_max_s, foil_loss_low_db foil_loss_high_db, coated_glass_loss_low_db coated_glass_loss_high_db
metal_sheet_loss_low_db metal_sheet_loss_high_db, metal_thing_loss_low_db metal_thing_loss_high_db
body_loss_low_db body_loss_high_db, battery_margin_least_factor battery_margin_most_factor
battery_halving_low_c battery_halving_high_c, battery_life_at_low_c battery_life_at_high_c, peukert_least_exponent peukert_most_exponent
account_dc09_least_characters account_dc09_most_characters, movement_low_m movement_high_m, keypad_low_m keypad_high_m
glass_break_low_m glass_break_high_m, shock_low_m shock_high_m, co_near_m co_far_m, co_low_c co_high_c, class_1_low_c class_1_high_c
class_2_low_c class_2_high_c, class_3_low_c class_3_high_c, class_4_low_c class_4_high_c, band_general_from_mhz band_general_to_mhz
band_a_from_mhz band_a_to_mhz, band_b_from_mhz band_b_to_mhz, band_c_from_mhz band_c_to_mhz, band_d_from_mhz band_d_to_mhz
band_e_from_mhz band_e_to_mhz, band_middle_from_mhz band_middle_to_mhz, band_strong_from_mhz band_strong_to_mhz
band_433_from_mhz band_433_to_mhz, soak_least_days soak_most_days, false_calls_warned false_calls_withdrawn
smoke_element_low_mm smoke_element_high_mm, noise_lower_dba noise_upper_dba, noise_peak_lower_dbc noise_peak_upper_dbc
entry_min_s entry_max_s, exit_min_s exit_max_s, abort_min_s abort_max_s, trip_limit_least trip_limit_most
band_260_from_mhz band_260_to_mhz, band_260_field_from_mvpm band_260_field_to_mvpm, band_902_from_mhz band_902_to_mhz
smoke_low_f smoke_high_f, sounder_least_s sounder_max_min, walk_slow_mps walk_fit_mps, last_heard_min supervision_min
link_margin_floor_db link_margin_db, link_margin_db link_margin_main_db, battery_watch_months battery_change_months
door_loss_low_db door_loss_high_db, view_low_m view_high_m, sun_from_deg sun_to_deg"""


@pytest.mark.parametrize("lower, upper", [pair.split() for pair in re.split(r", |\n", ENDS)])
def test_a_lower_end_above_its_upper_end_is_seen(lower: str, upper: str, tmp_path) -> None:
    limits = next(found for count, profile in enumerate(TYPED) if {lower, upper} <= set(found := whole(profile, tmp_path / str(count))))
    # Just above the upper end, which may be given in minutes where the lower is in seconds.
    above = limits[upper].value * (1 if limits[lower].unit == limits[upper].unit else 60) + 1
    turned = limits | {lower: limits[lower].model_copy(update={"value": above})}
    assert (lower, upper) in contradictions(turned)


def test_no_two_limits_are_taken_for_ends_of_one_thing_that_are_not(tmp_path) -> None:
    # Each limit in turn is as high as it can be: what is then answered for must be a pair typed above, or stand in a row.
    rows = {pair for chain in RISING for index, lower in enumerate(chain) for pair in ((lower, upper) for upper in chain[index + 1:])}
    known = {tuple(pair.split()) for pair in re.split(r", |\n", ENDS)} | rows
    for count, profile in enumerate(TYPED):
        limits = whole(profile, tmp_path / str(count))
        for name in limits:
            highest = RANGES.get(limits[name].unit or "", (0, 1e9))[1]
            high = limits | {name: limits[name].model_copy(update={"value": highest})}
            assert {pair for pair in contradictions(high)} <= known, name


@pytest.mark.parametrize("lower, upper, profile", [
    ("walk_frail_mps", "walk_slow_mps", "en-grade-2"), ("stairs_mps", "walk_frail_mps", "en-grade-2"),
    ("tag_entry_s", "code_entry_s", "en-grade-2"),
    ("holdup_calls_withdrawn", "false_calls_withdrawn", "uk-grade-2"),
    ("keyholder_attend_min", "keyholder_attend_latest_min", "na-practice"), ("entry_abort_max_s", "entry_max_s", "na-practice"),
    ("sounder_strict_min", "sounder_max_min", "na-practice"), ("false_calls_inspected", "false_calls_upgraded", "na-practice"),
    ("standby_h", "fire_standby_h", "na-practice"), ("battery_older_factor", "battery_factor", "na-practice"),
])
def test_limits_stand_in_the_order_that_their_sense_asks_for(lower: str, upper: str, profile: str, tmp_path) -> None:
    limits = whole(profile, tmp_path / "job")
    assert limits[lower].value <= limits[upper].value


def test_what_north_america_and_europe_share_is_the_same_number(tmp_path) -> None:
    one, other = whole("en-grade-2", tmp_path / "a"), whole("na-practice", tmp_path / "b")
    shared = {name for name in typed(BOTH)}
    assert {name for name in shared if (one[name].value, one[name].unit) != (other[name].value, other[name].unit)} == set()


def test_the_bands_of_the_recommendation_do_not_overlap(tmp_path) -> None:
    limits = whole("en-grade-2", tmp_path / "job")
    edges = sorted((limits[name].value, limits[name.replace("_from_", "_to_")].value) for name in limits if name.endswith("_from_mhz"))
    assert all(upper <= following for (_, upper), (following, _) in zip(edges, edges[1:]))
