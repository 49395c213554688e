"""Does a working show how its figure was got, with its source, and never so that a reader sees no difference where one is?"""
import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as some

from generator.calc.bounds import LARGEST, SMALLEST, not_negative, positive, reaches, within
from generator.calc.working import Given, Working, of_limit, of_source, worked_out
from generator.intake.job_reader import read_job
from generator.terms.show import digits, figure, told_apart
from generator.terms.source import Known, Source
from tests.conftest import read_files, write_files

DROP = Working("Drop", "current × resistance", "V = I × R", (Given("current", "I", 0.5, "A", "job.devices.S1"),), "V", 8.9996, "V",
               Given("least voltage", "V_min", 9.0, "V", "sheet"), "least")


def test_a_limit_that_is_just_missed_is_not_shown_as_kept() -> None:
    assert DROP.holds() is False
    assert (DROP.shown(), DROP.limit_shown()) == ("8.9996 V", "9 V")


def test_a_result_is_shown_in_the_digits_that_mean_something() -> None:
    assert replace(DROP, limit=None, limit_is="", value=3.402, digits=2).shown() == "3.4 V"


def test_a_limit_may_be_the_least_or_the_most_or_none() -> None:
    assert replace(DROP, value=9.0).holds() is True
    assert replace(DROP, limit_is="most").holds() is True
    assert replace(DROP, limit_is="most", value=9.1).holds() is False
    none = replace(DROP, limit=None, limit_is="")
    assert (none.holds(), none.limit_shown(), none.shown()) == (None, "", "9 V")
    for wrong in ({"limit_is": ""}, {"limit": None}):
        with pytest.raises(ValueError, match="Drop"):
            replace(DROP, **wrong)


def test_a_limit_of_the_profile_brings_its_source_and_its_mark(tmp_path) -> None:
    profile = read_job(write_files(read_files(), tmp_path / "job")).papers.profile
    found = of_limit(profile, "standby_h", "T")
    assert (found.value, found.unit, found.known) == (12, "h", "from memory")
    assert found.origin == profile.source_of("standby_h").cited() and "from memory" in found.origin
    assert of_limit(profile, "no_such_limit", "T") is None


def test_a_number_out_of_a_document_cites_it() -> None:
    found = of_source("copper", "ρ", 1.7e-8, "Ω", Source("A standard", "2011", Known.READ, ""))
    assert (found.origin, found.known, found.shown()) == ("A standard, 2011 (read)", "read", "0.000000017 Ω")


def test_the_result_of_one_working_goes_into_the_next() -> None:
    assert worked_out(DROP) == Given("Drop", "V", 8.9996, "V", "worked out")


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_no_working_holds_what_is_no_number(value) -> None:
    with pytest.raises(ValueError, match="current"):
        Given("current", "I", value, "A", "sheet")
    with pytest.raises(ValueError, match="Drop"):
        replace(DROP, value=value)


@pytest.mark.parametrize("value, shown", [(0.078368, "0.07837"), (14101.0, "14101"), (4.553125, "4.553"), (7.0, "7"), (0, "0"),
                                          (-1.3205, "-1.321"), (99999.6, "100000"), (1e-6, "0.000001"), (0.99996, "1")])
def test_a_worked_out_number_has_four_digits_that_count_and_all_its_whole_ones(value, shown) -> None:
    assert digits(value) == shown


@given(value=some.floats(1e-6, 1e8))
def test_a_shown_number_is_near_the_number(value) -> None:
    assert float(digits(value)) == pytest.approx(value, rel=0.0006)
    assert "e" not in digits(value)


def test_a_unit_stands_behind_a_blank_but_for_the_degree_of_an_angle() -> None:
    assert (figure(20.0, "°C"), figure(90.0, "°"), figure(3.0, "")) == ("20 °C", "90°", "3")


@given(one=some.floats(0.001, 1e6), other=some.floats(0.001, 1e6))
def test_two_numbers_that_differ_are_shown_so_that_they_do(one, other) -> None:
    shown = told_apart(one, other)
    if not math.isclose(one, other, rel_tol=1e-12):
        assert (float(shown[0]) < float(shown[1])) is (one < other)
    assert told_apart(one, one)[0] == told_apart(one, one)[1]


@given(value=some.floats(SMALLEST, LARGEST))
def test_what_a_house_can_hold_passes_unchanged(value) -> None:
    assert positive("x", value) == not_negative("x", value) == value == within("x", value, SMALLEST, LARGEST)
    assert not_negative("x", 0) == 0


@pytest.mark.parametrize("value", [True, "5", None, math.nan, math.inf, -1, 1e300, 1e-300])
def test_what_no_house_holds_is_refused_with_the_name_of_the_quantity(value) -> None:
    for check in (positive, not_negative, lambda name, one: within(name, one, 1, 10)):
        with pytest.raises(ValueError, match="drop along the run"):
            check("drop along the run", value)
    with pytest.raises(ValueError, match="drop"):
        positive("drop", 0)


def test_a_value_reaches_a_limit_that_it_misses_by_the_last_digit_only() -> None:
    assert reaches(0.1 * 3, 0.3) and reaches(0.3, 0.1 * 3)
    assert not reaches(0.2999, 0.3)
