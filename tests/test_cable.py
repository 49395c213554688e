"""Is a cable's resistance that of the published tables, and does every load on it get the voltage that is said?"""
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from generator.calc.power.cable import Tap, run, smallest
from generator.calc.power.conductor import Conductor, diameter_mm, ladder, resistance
from generator.calc.working import Given
from generator.tables.cable import LAY

NONSENSE = [0.0, -1.0, math.nan, math.inf, -math.inf, 1e300, 1e-300]


def number(name: str, value: float, unit: str = "") -> Given:
    return Given(name, "x", value, unit, "typed in the test")


def core(size: float, unit: str = "mm²", make: str = "solid", at_c: float = 20.0):
    return resistance(Conductor(size, unit, make), at_c, "typed in the test")


def tap(at_m: float, current_ma: float, least_v: float | None = None, name: str = "sounder") -> Tap:
    return Tap(name, number("distance", at_m, "m"), number("current", current_ma, "mA"),
               None if least_v is None else number("least voltage", least_v, "V"))


SUPPLY = number("voltage at the end of discharge", 10.5, "V")
OHM_PER_KFT = 304.8


# --- resistance against published tables ----------------------------------------------------------------------

@pytest.mark.parametrize("gauge, circular_mils", [(14, 4107), (16, 2583), (18, 1624), (20, 1022), (22, 642.5), (24, 404)])
def test_a_gauge_has_the_section_of_the_published_table(gauge, circular_mils) -> None:
    # "Lessons in Electric Circuits", vol. 5, table of solid copper wire (read). A circular mil is the square of the diameter
    # in thousandths of an inch.
    assert (diameter_mm(gauge) / 0.0254) ** 2 == pytest.approx(circular_mils, rel=0.0005)


@pytest.mark.parametrize("gauge, ohm", [(14, 2.573), (16, 4.091), (18, 6.505), (20, 10.34), (22, 16.45), (24, 26.15)])
def test_a_gauge_has_the_resistance_of_the_published_table_at_25_degrees(gauge, ohm) -> None:
    # A teaching page on conductors, annealed copper, ohm for 1000 ft (read); its values are those at 25 °C.
    assert core(gauge, "AWG", at_c=25).ohm_per_m * OHM_PER_KFT == pytest.approx(ohm, rel=0.0015)


def test_400_feet_of_gauge_18_are_2_602_ohm() -> None:
    # The same page's worked example (read): 6.505 x 400 / 1000.
    assert core(18, "AWG", at_c=25).ohm_per_m * 400 * 0.3048 == pytest.approx(2.602, rel=0.001)


@pytest.mark.parametrize("gauge, ohm", [(18, 7.95), (16, 4.99), (14, 3.14)])
def test_a_stranded_gauge_is_never_better_than_the_codes_table_and_hardly_worse(gauge, ohm) -> None:
    # NFPA 70 (2011), chapter 9, table 8, stranded uncoated copper at 75 °C, ohm for 1000 ft (read second-hand: a design
    # tutor's page).
    found = core(gauge, "AWG", "stranded", at_c=75).ohm_per_m * OHM_PER_KFT
    assert ohm * 0.9995 <= found <= ohm * 1.005
    assert LAY == pytest.approx(1.026, abs=0.0005)


IEC_60228 = {0.5: (36.0, 39.0), 0.75: (24.5, 26.0), 1.0: (18.1, 19.5), 1.5: (12.1, 13.3), 2.5: (7.41, 7.98)}


@pytest.mark.parametrize("section", IEC_60228)
def test_a_listed_section_has_the_largest_resistance_that_the_standard_allows(section) -> None:
    # IEC 60228, plain copper at 20 °C, ohm for a km, classes 1 and 2, and 5 (read second-hand: a cable engineering page).
    solid, flexible = IEC_60228[section]
    assert core(section).ohm_per_m * 1000 == pytest.approx(solid, rel=1e-12)
    assert core(section, make="stranded").ohm_per_m * 1000 == pytest.approx(solid, rel=1e-12)
    assert core(section, make="flexible").ohm_per_m * 1000 == pytest.approx(flexible, rel=1e-12)


def test_a_warm_cable_has_more_as_the_standard_corrects_it() -> None:
    # IEC 60228 (from memory): kt = 1 / (1 + 0.004 x (t - 20)) is 0.962 at 30 °C and 0.893 at 50 °C.
    cold = core(0.5).ohm_per_m
    assert cold / core(0.5, at_c=30).ohm_per_m == pytest.approx(0.962, abs=0.0005)
    assert cold / core(0.5, at_c=50).ohm_per_m == pytest.approx(0.893, abs=0.0005)


def test_a_section_that_is_not_listed_is_worked_out_from_copper_and_says_so() -> None:
    # By hand: 0.017241 / 0.22 = 0.07837 ohm for a metre.
    thin = core(0.22)
    assert thin.ohm_per_m == pytest.approx(0.017241 / 0.22, rel=1e-9)
    assert "does not hold this size" in thin.working.notes[0]
    assert core(0.5).working.notes == ()


def test_a_section_just_below_a_listed_one_has_no_less_resistance_than_it() -> None:
    # Bare copper of 0.49 mm² would have 35.2 ohm for a km, less than the 36.0 that the standard allows for 0.5 mm².
    assert core(0.49).ohm_per_m == pytest.approx(0.036)
    assert "next larger size" in core(0.49).working.words
    assert core(0.4).ohm_per_m == pytest.approx(0.017241 / 0.4)


@settings(max_examples=200)
@given(one=some.floats(0.05, 10), other=some.floats(0.05, 10), make=some.sampled_from(["solid", "stranded", "flexible"]),
       at_c=some.floats(-30, 80))
def test_a_thicker_core_never_has_the_greater_resistance(one, other, make, at_c) -> None:
    thin, thick = sorted((one, other))
    # 2.5 mm² has the standard's largest, which is above that of bare copper: whatever is a little thicker has no more.
    assert core(thin, "mm²", make, at_c).ohm_per_m >= core(thick, "mm²", make, at_c).ohm_per_m * (1 - 1e-12)


@given(gauge=some.integers(1, 40), make=some.sampled_from(["solid", "stranded"]), at_c=some.floats(-30, 80))
def test_a_higher_gauge_is_thinner_and_a_warmer_wire_has_more(gauge, make, at_c) -> None:
    here = core(gauge, "AWG", make, at_c).ohm_per_m
    assert here > core(gauge - 1, "AWG", make, at_c).ohm_per_m
    assert core(gauge, "AWG", make, at_c + 10).ohm_per_m > here


# --- voltage along a run --------------------------------------------------------------------------------------

def test_a_sounder_at_forty_metres_of_thin_cable_gets_too_little() -> None:
    # By hand: 2 x 40 m x 0.017241 / 0.22 ohm are 6.27 ohm; at 0.45 A 2.82 V; 10.5 V less that are 7.68 V, and 9.0 are needed.
    found = run(core(0.22), [tap(40, 450, 9.0)], SUPPLY)
    point = found.points[0]
    loop = 2 * 40 * 0.017241 / 0.22
    assert point.drop_v == pytest.approx(0.45 * loop) == pytest.approx(2.821, abs=0.001)
    assert point.voltage_v == pytest.approx(7.679, abs=0.001)
    assert (point.working.shown(), point.working.limit_shown()) == ("7.68 V", "9 V")
    assert found.holds is False
    assert point.spare_v == pytest.approx(7.679 - 9, abs=0.001)
    # 1.5 V may be lost; at 0.45 A and 0.15674 ohm for a metre there and back those are 21.3 m.
    assert point.longest_m == pytest.approx(1.5 / (0.45 * 0.017241 / 0.22 * 2)) == pytest.approx(21.27, abs=0.01)


def test_half_a_square_millimetre_is_enough_for_it_and_is_the_smallest() -> None:
    # By hand with IEC 60228's largest resistance: 80 m x 0.036 ohm x 0.45 A are 1.296 V, which leaves 9.204 V; with
    # 0.75 mm² 80 x 0.0245 x 0.45 are 0.882 V, which leaves 9.618 V.
    taps = [tap(40, 450, 9.0)]
    assert run(core(0.5), taps, SUPPLY).points[0].voltage_v == pytest.approx(9.204)
    assert run(core(0.75), taps, SUPPLY).points[0].voltage_v == pytest.approx(9.618)
    best = smallest(Conductor(0.22, "mm²", "solid"), 20, "test", taps, SUPPLY)
    assert best.resistance.conductor.size == 0.5
    # Flexible cores have more: 80 x 0.039 x 0.45 are 1.404 V, which leaves 9.096 V.
    assert smallest(Conductor(0.22, "mm²", "flexible"), 20, "test", taps, SUPPLY).points[0].voltage_v == pytest.approx(9.096)


def test_the_loads_of_a_run_share_its_first_sections() -> None:
    # By hand, 0.5 mm² and 0.072 ohm for a metre there and back: 10 m carry 0.6 A (0.432 V), the next 20 m 0.4 A (0.576 V),
    # the last 5 m 0.1 A (0.036 V).
    found = run(core(0.5), [tap(35, 100, 9, "keypad"), tap(10, 200, 9, "reader"), tap(30, 300, 9, "sounder")], SUPPLY)
    assert [one.tap.name for one in found.points] == ["reader", "sounder", "keypad"]
    assert [one.voltage_v for one in found.points] == pytest.approx([10.068, 9.492, 9.456])
    assert found.holds is True


def test_two_loads_at_one_place_have_one_voltage() -> None:
    found = run(core(0.5), [tap(10, 100, 9, "a"), tap(10, 200, 9, "b")], SUPPLY)
    assert found.points[0].voltage_v == found.points[1].voltage_v == pytest.approx(10.5 - 10 * 0.072 * 0.3)


def test_a_load_that_says_no_least_voltage_is_not_judged() -> None:
    found = run(core(0.22), [tap(100, 450)], SUPPLY)
    assert (found.holds, found.points[0].longest_m, found.points[0].working.limit) == (None, None, None)
    assert "Not held against" in found.points[0].working.notes[-1]
    assert smallest(Conductor(0.22, "mm²", "solid"), 20, "test", [tap(100, 450)], SUPPLY) is None


def test_a_cable_that_cannot_carry_the_current_leaves_nothing_and_never_less() -> None:
    point = run(core(0.22), [tap(900, 5000, 9)], SUPPLY).points[0]
    assert (point.voltage_v, point.drop_v) == (0, 10.5)
    assert any("cannot carry" in note for note in point.working.notes)


def test_a_load_that_asks_for_more_than_the_supply_has_can_stand_nowhere() -> None:
    point = run(core(2.5), [tap(1, 10, 12)], SUPPLY).points[0]
    assert point.longest_m == 0
    assert smallest(Conductor(0.22, "mm²", "solid"), 20, "test", [tap(1, 10, 12)], SUPPLY) is None


loads = some.lists(some.tuples(some.floats(0.1, 300), some.floats(0.1, 1000), some.floats(5, 10.4)), min_size=1, max_size=5)
sizes = some.sampled_from([0.22, 0.5, 0.75, 1.0, 1.5, 2.5])


@given(loads=loads, size=sizes, factor=some.floats(1, 3))
def test_a_longer_cable_never_drops_less(loads, size, factor) -> None:
    short = run(core(size), [tap(*one) for one in loads], SUPPLY)
    long = run(core(size), [tap(at * factor, *rest) for at, *rest in loads], SUPPLY)
    for one, other in zip(short.points, long.points):
        assert other.drop_v >= one.drop_v * (1 - 1e-9)


@given(loads=loads, size=sizes, more=some.floats(0.1, 1000), which=some.integers(0, 4))
def test_a_load_that_draws_more_lifts_no_voltage(loads, size, more, which) -> None:
    taps = [tap(*one, name=str(index)) for index, one in enumerate(loads)]
    at, current, least = loads[which % len(loads)]
    heavier = [*taps]
    heavier[which % len(loads)] = tap(at, current + more, least, str(which % len(loads)))
    for one, other in zip(run(core(size), taps, SUPPLY).points, run(core(size), heavier, SUPPLY).points):
        assert other.voltage_v <= one.voltage_v + 1e-9


@given(loads=loads, size=sizes)
def test_voltage_falls_along_a_run(loads, size) -> None:
    volts = [10.5, *(one.voltage_v for one in run(core(size), [tap(*one) for one in loads], SUPPLY).points)]
    assert all(before >= after for before, after in zip(volts, volts[1:]))


@settings(max_examples=150)
@given(loads=loads, unit=some.sampled_from(["mm²", "AWG"]), make=some.sampled_from(["solid", "stranded", "flexible"]))
def test_the_smallest_size_that_is_enough_is_and_the_next_thinner_is_not(loads, unit, make) -> None:
    taps = [tap(*one) for one in loads]
    kind = Conductor(0.5 if unit == "mm²" else 22, unit, make)
    rungs = ladder(kind)
    best = smallest(kind, 20, "test", taps, SUPPLY)

    def enough(conductor: Conductor) -> bool:
        # Said again from the law: each section's current is that of the loads beyond its end.
        ohm = core(conductor.size, unit, make).ohm_per_m
        for at, _, least in loads:
            drop = sum(2 * ohm * current / 1000 * min(at, other) for other, current, _ in loads)
            if 10.5 - drop < least - 1e-9:
                return False
        return True

    if best is None:
        assert not enough(rungs[-1])
    else:
        place = [one.size for one in rungs].index(best.resistance.conductor.size)
        assert enough(rungs[place])
        assert place == 0 or not enough(rungs[place - 1])


@given(loads=loads, size=sizes)
def test_the_longest_run_is_just_long_enough(loads, size) -> None:
    found = run(core(size), [tap(*one) for one in loads], SUPPLY)
    for point in found.points:
        stretch = point.longest_m / point.tap.at_m.value
        if 1e-6 < stretch and max(at for at, *_ in loads) * stretch < 999 and point.longest_m < 999:
            again = run(core(size), [tap(at * stretch, *rest) for at, *rest in loads], SUPPLY)
            assert again.points[found.points.index(point)].voltage_v == pytest.approx(point.tap.least_v.value, abs=1e-6)


# --- what cannot be -------------------------------------------------------------------------------------------

@pytest.mark.parametrize("value", NONSENSE)
def test_a_length_current_or_voltage_that_cannot_be_is_refused_by_its_name(value) -> None:
    for bad, name in (((value, 450, 9.0), "distance"), ((40, value, 9.0), "current"), ((40, 450, value), "least voltage")):
        with pytest.raises(ValueError, match=f"{name}.*"):
            tap(*bad)
    with pytest.raises(ValueError, match="end of discharge"):
        run(core(0.5), [tap(40, 450, 9.0)], number("voltage at the end of discharge", value))
    with pytest.raises(ValueError, match="section of the conductor"):
        core(value)


@pytest.mark.parametrize("value", [-1, 41, 18.5, math.nan, math.inf, 1e300])
def test_a_gauge_that_cannot_be_is_refused(value) -> None:
    with pytest.raises(ValueError, match="gauge of the conductor"):
        core(value, "AWG")


@pytest.mark.parametrize("value", [-100, 1e300, math.nan, math.inf, -math.inf])
def test_a_temperature_that_no_cable_has_is_refused(value) -> None:
    with pytest.raises(ValueError, match="temperature of the cable"):
        core(0.5, at_c=value)


def test_what_is_no_conductor_and_no_run_is_refused() -> None:
    with pytest.raises(ValueError, match="inch"):
        Conductor(1, "inch", "solid")
    with pytest.raises(ValueError, match="woven"):
        Conductor(1, "mm²", "woven")
    with pytest.raises(ValueError, match="without a load"):
        run(core(0.5), [], SUPPLY)
