"""Are time on air and power held against the limit of the band a unit is in, and is what is missing said?

Outside values: ERC/REC 70-03 annex 7 (read in the CEPT's database): 10 mW is 10.00 dBm, 25 mW 13.98 dBm; a duty of 1, 0.1 and 10 %
of an hour is 36, 3.6 and 360 s. 47 CFR 15.231(a) (read): 2 s in an hour for supervision. The field limits of 15.231(b) and 15.249
are from memory, and what follows from them is worked out beside the check.
"""
from dataclasses import replace
from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.calc.radio.air_time import (BandUse, OnAir, Radiated, band_uses, least_interval_min, longest_message_ms, most_messages,
                                     seconds_on_air)
from generator.calc.radio.bands import bands_at
from generator.calc.radio.power_levels import dbm, eirp_of_erp_dbm, eirp_of_field_dbm
from generator.calc.unknown import Unknown
from generator.intake.job_reader import read_job
from generator.model.papers import Papers
from generator.model.profile import Profile
from tests.conftest import JOBS

EN, US, UK = "thrift-cottage", "heron-bungalow", "curlew-house"


def papers_of(name: str) -> Papers:
    return read_job(JOBS / name / "job.yaml").papers


def with_radio(papers: Papers, unit: str, **fields) -> Papers:
    sheet = papers.sheet_of[unit]
    return replace(papers, sheet_of=dict(papers.sheet_of) | {unit: sheet.model_copy(update={"radio": sheet.radio.model_copy(update=fields)})})


def with_limit(papers: Papers, name: str, value: float | None) -> Papers:
    limits = dict(papers.profile.limits)
    if value is None:
        del limits[name]
    else:
        limits[name] = limits[name].model_copy(update={"value": value})
    return replace(papers, profile=papers.profile.model_copy(update={"limits": limits}))


def use_of(papers: Papers, unit: str) -> BandUse:
    return next(one for one in band_uses(papers) if one.unit == unit)


@pytest.mark.parametrize("power_mw, level", [(10, 10.0), (25, 13.98)])
def test_published_powers_in_dbm(power_mw: float, level: float) -> None:
    assert dbm(power_mw) == pytest.approx(level, abs=0.005)
    # E.i.r.p. is e.r.p. and the 2.15 dB of a half-wave dipole.
    assert eirp_of_erp_dbm(power_mw) == pytest.approx(level + 2.15, abs=0.005)


# ERC/REC 70-03 annex 7, sub-bands a to e: middle, seconds in an hour, mW e.r.p.
@pytest.mark.parametrize("frequency_mhz, most_s, power_mw", [
    (868.65, 36, 10), (869.225, 3.6, 10), (869.275, 3.6, 10), (869.35, 36, 10), (869.675, 360, 25)])
def test_the_alarm_bands_of_europe(frequency_mhz: float, most_s: float, power_mw: float) -> None:
    [band] = bands_at(papers_of(EN).profile, frequency_mhz)
    assert (band.air.value, band.air.period_h) == (pytest.approx(most_s), 1)
    assert band.power.value == pytest.approx(10 * {10: 1, 25: 1.39794}[power_mw] + 2.15, abs=1e-4)


def test_the_american_band_for_supervision_has_two_seconds_in_an_hour() -> None:
    [band] = bands_at(papers_of(US).profile, 433.92)
    assert (band.air.value, band.air.period_h) == (2, 1)
    # 15.231(b), from memory: 41.6667 f - 7083.33 microvolts a metre, 10 997 at 433.92 MHz. The power that makes it, by the power
    # density in free space: E² / (120 pi) over the sphere of 3 m.
    field_vpm = (41.6667 * 433.92 - 7083.33) * 1e-6
    power_mw = field_vpm ** 2 / (120 * pi) * 4 * pi * 3 ** 2 * 1e3
    assert band.power.value == pytest.approx(dbm(power_mw), abs=0.001)
    assert band.power.value == pytest.approx(-14.4, abs=0.05)


def test_902_mhz_has_a_field_and_no_time_on_air() -> None:
    [band] = bands_at(papers_of(US).profile, 915)
    assert band.air is None
    # 15.249, from memory: 50 mV/m at 3 m.
    assert band.power.value == pytest.approx(-1.25, abs=0.01)


def test_where_two_bands_touch_the_stricter_numbers_count() -> None:
    papers = with_radio(papers_of(EN), "D1", frequency_mhz=868.7)
    use = use_of(papers, "D1")
    assert use.bands == ("a", "middle")
    # 1 % and 10 mW below, 0.1 % and 25 mW above.
    assert (use.air.most_s, use.power.most_dbm) == (pytest.approx(3.6), pytest.approx(12.15))


def test_the_demo_s_contact_in_its_band() -> None:
    # By hand: a message of 40 ms every 15 min is four in an hour, 0.16 s of the 36 s; 25 mW e.r.p. is 16.13 dBm e.i.r.p.
    use = use_of(papers_of(EN), "D1")
    assert use.air == OnAir(0.16, 36.0, 1.0, 4, ("band_general_duty_percent", "duty_period_h"))
    assert (use.power.power_dbm, use.power.most_dbm) == (8, pytest.approx(16.13, abs=0.005))
    assert use.air.within and use.power.within


@pytest.mark.parametrize("message_ms, within", [(9000, True), (9000.1, False)])
def test_the_limit_itself_is_kept_and_a_little_more_is_not(message_ms: float, within: bool) -> None:
    assert use_of(with_radio(papers_of(EN), "D1", message_ms=message_ms), "D1").air.within is within


@pytest.mark.parametrize("message_ms, within", [(500, True), (500.1, False)])
def test_two_seconds_in_an_hour_over_four_messages(message_ms: float, within: bool) -> None:
    papers = with_radio(papers_of(US), "D1", frequency_mhz=433.92, message_ms=message_ms, supervision_min=15, tx_power_dbm=-14)
    use = use_of(papers, "D1")
    assert use.air.within is within
    assert not use.power.within


def test_a_repeater_sends_what_it_passes_on() -> None:
    # By hand: itself and the three units heard over it, four messages an hour each.
    use = use_of(papers_of(UK), "R1")
    assert (use.air.messages, use.air.seconds) == (16, pytest.approx(0.64))
    # A fob reports nothing regularly, so nothing of it is passed on.
    job = papers_of(UK).job
    fob = job.model_copy(update={"devices": job.devices | {"F1": job.devices["F1"].model_copy(update={"via": "R1"})}})
    assert use_of(replace(papers_of(UK), job=fob), "R1").air == use.air
    papers = with_radio(papers_of(UK), "M7", supervision_min=None)
    assert use_of(papers, "R1").air == Unknown("the sheet of M7 gives no supervision_min")


@pytest.mark.parametrize("interval_min, period_h, count", [(15, 1, 4), (7, 1, 9), (120, 1, 1), (60, 1, 1), (0.1, 1, 600), (59.9, 1, 2)])
def test_the_worst_period_holds_as_many_messages_as_can_fall_into_it(interval_min: float, period_h: float, count: int) -> None:
    assert most_messages(interval_min, period_h) == count


@given(st.integers(1, 1440), st.integers(1, 24), st.integers(0, 1439))
def test_no_window_holds_more_messages_and_one_holds_as_many(interval: int, period_h: int, begins: int) -> None:
    # Counted out: messages at 0, interval, ... of which so many fall into a window that begins anywhere.
    window = range(begins, begins + 60 * period_h)
    assert sum(one % interval == 0 for one in window) <= most_messages(interval, period_h)
    assert sum(one % interval == 0 for one in range(0, 60 * period_h)) == most_messages(interval, period_h)


@pytest.mark.parametrize("key", ["message_ms", "supervision_min"])
def test_a_number_that_the_sheet_lacks_is_said(key: str) -> None:
    use = use_of(with_radio(papers_of(EN), "D1", **{key: None}), "D1")
    assert use.air == Unknown(f"the sheet of D1 gives no {key}")
    assert isinstance(use.power, Radiated)


def test_a_power_that_the_sheet_lacks_is_said() -> None:
    assert use_of(with_radio(papers_of(EN), "D1", tx_power_dbm=None), "D1").power == Unknown("the sheet of D1 gives no tx_power_dbm")


def test_a_frequency_in_no_band_of_the_profile_is_said() -> None:
    use = use_of(with_radio(papers_of(EN), "D1", frequency_mhz=915), "D1")
    assert use.bands == ()
    assert use.air == use.power == Unknown(f"915 MHz lies in no band of the profile {papers_of(EN).profile.name}")


@pytest.mark.parametrize("limit, part, says", [
    ("band_general_duty_percent", "air", "limits no time on air"), ("duty_period_h", "air", "limits no time on air"),
    ("band_general_power_mw", "power", "gives no power")])
def test_a_limit_that_the_profile_lacks_is_said(limit: str, part: str, says: str) -> None:
    assert says in getattr(use_of(with_limit(papers_of(EN), limit, None), "D1"), part).reason


def test_a_company_s_own_limit_counts_in_the_same_band() -> None:
    papers = with_radio(with_limit(papers_of(US), "supervision_air_s", 1), "D1", frequency_mhz=433.92)
    assert use_of(papers, "D1").air.most_s == 1


def test_a_band_whose_supervision_is_said_to_be_free_has_no_limit() -> None:
    papers = with_radio(with_limit(papers_of(US), "band_260_supervision_yes", 0), "D1", frequency_mhz=433.92)
    assert "limits no time on air" in use_of(papers, "D1").air.reason


def test_a_power_of_nothing_is_no_number() -> None:
    assert isinstance(use_of(with_limit(papers_of(EN), "band_general_power_mw", 0), "D1").power, Unknown)


@pytest.mark.parametrize("profile", [EN, UK, US])
def test_every_band_s_edges_hold_it(profile: str) -> None:
    own: Profile = papers_of(profile).profile
    edges = [limit.value for name, limit in own.limits.items() if name.startswith("band_") and name.endswith(("_from_mhz", "_to_mhz"))]
    assert edges and all(bands_at(own, one) for one in edges)


@pytest.mark.parametrize("call, says", [
    (lambda: most_messages(0, 1), "interval 0"), (lambda: most_messages(15, -1), "period -1"), (lambda: seconds_on_air(-1, 4), "message_ms -1"),
    (lambda: seconds_on_air(40, -4), "messages -4"), (lambda: dbm(0), "power 0"), (lambda: dbm(float("nan")), "power nan"),
    (lambda: eirp_of_field_dbm(0), "field 0"), (lambda: eirp_of_field_dbm(1, 0), "distance 0"),
    (lambda: bands_at(papers_of(EN).profile, -868), "frequency -868")])
def test_an_absurd_number_is_named(call, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        call()


def test_the_nearest_changes_of_a_unit_that_is_on_air_too_long() -> None:
    """By hand: 36 s in an hour; eight messages leave 4.5 s each; of 9.1 s three fit, one every 20 min."""
    air = OnAir(72, 36, 1, 8, ())
    assert longest_message_ms(air) == 4500 and least_interval_min(air, 9100) == 20
    # 36 s / 0.7 s: 51 fit, 60 min / 51 is 1.1765, never rounded to one that is too short.
    assert least_interval_min(air, 700) == 1.2 and most_messages(1.2, 1) * 0.7 <= 36
    assert least_interval_min(air, 36001) is None and longest_message_ms(OnAir(1, 0, 1, 4, ())) == 0
