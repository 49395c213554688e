"""What is left of the way to the station when something fails, and is the category asked for reached?

Ten categories, SP with one path and DP with two: EN 50136-1, table 1 (read). Reporting times: from memory.
"""
from dataclasses import replace

import pytest

from generator.calc.power.need import Duty
from generator.calc.power.power_of_job import power_of_job
from generator.calc.station.categories import is_reporting_limit, reaches, reporting_limit, reporting_s
from generator.calc.station.transmission import LINE, MAINS, ROUTER, Outlook, Transmission, transmission
from generator.calc.unknown import Unknown
from generator.intake.job_reader import read_job
from generator.model.monitoring import CATEGORIES, TransmissionPath
from generator.model.papers import Papers
from generator.tables.transmission import CARRIED_BY, DUAL, PATHS_OF, SINGLE
from tests.conftest import JOBS


def papers_of(name: str = "curlew-house") -> Papers:
    return read_job(JOBS / name / "job.yaml").papers


PAPERS = papers_of()
BROADBAND, MOBILE, LINE_PATH = {"kind": "broadband", "router": "true"}, {"kind": "mobile"}, {"kind": "phone-line"}


def over(**paths) -> Papers:
    given = {key: TransmissionPath(**one) for key, one in paths.items()}
    return replace(PAPERS, job=PAPERS.job.model_copy(update={"monitoring": PAPERS.job.monitoring.model_copy(update={"paths": given})}))


def of(papers: Papers, hours: Duty | Unknown | None = None) -> Transmission:
    return transmission(papers, hours or power_of_job(papers).hours)


def left(found: Transmission, what: str) -> dict[str, object]:
    return {one.path: one.hours for one in found.failure(what).paths}


@pytest.mark.parametrize("path, hours", [
    # The control unit carries on for 12 h (EN 50131-6; from memory); no path lasts longer than that.
    (BROADBAND | {"standby_h": "0"}, 0), (BROADBAND | {"standby_h": "5"}, 5), (BROADBAND | {"standby_h": "12"}, 12), (BROADBAND | {"standby_h": "99"}, 12),
    (MOBILE, 12), (LINE_PATH, 12), ({"kind": "radio"}, 12), ({"kind": "broadband"}, 12), (LINE_PATH | {"router": "true", "standby_h": "0"}, 0)])
def test_a_path_without_mains_lasts_as_long_as_what_it_needs(path: dict, hours: float) -> None:
    assert left(of(over(first=path)), MAINS) == {"first": hours}


def test_how_long_a_router_lasts_is_not_guessed() -> None:
    found = of(over(first=BROADBAND, second=MOBILE))
    assert left(found, MAINS) == {"first": Unknown("the job file does not say how long the router of path first carries on without mains"), "second": 12}
    assert found.failure(MAINS).silent is False
    assert of(over(first=BROADBAND)).failure(MAINS).silent is None


def test_without_known_hours_nothing_is_said_but_what_dies_at_once() -> None:
    found = of(over(first=BROADBAND | {"standby_h": "0"}, second=MOBILE), Unknown("the profile has no limit standby_h"))
    assert left(found, MAINS) == {"first": 0, "second": Unknown(
        "how long the control unit must carry on without mains is not known: the profile has no limit standby_h")}


def test_when_the_router_fails_only_what_passes_none_is_left() -> None:
    assert left(of(over(first=BROADBAND, second=MOBILE)), ROUTER) == {"first": 0, "second": None}
    both = of(over(first=BROADBAND, second=MOBILE | {"router": "true"}))
    assert both.failure(ROUTER).silent and [one.what for one in both.single_points] == [ROUTER]
    assert of(over(first=MOBILE)).failure(ROUTER) is None


def test_a_single_path_is_a_single_point() -> None:
    found = of(over(first=MOBILE))
    assert [(one.what, one.of) for one in found.single_points] == [(LINE, "first")]
    assert of(over(first=BROADBAND | {"standby_h": "12"}, second=MOBILE)).single_points == ()


@pytest.mark.parametrize("first, second, shared", [(MOBILE, MOBILE, "network"), (BROADBAND, LINE_PATH, "cable"), (LINE_PATH, LINE_PATH, "cable")])
def test_two_lines_that_may_be_one_are_not_taken_for_two(first: dict, second: dict, shared: str) -> None:
    failure = next(one for one in of(over(a=first, b=second)).failures if (one.what, one.of) == (LINE, "a"))
    assert failure.paths == (Outlook("a", 0, "its line has failed"),
                             Outlook("b", Unknown(f"the job file does not say whether paths a and b share one {shared}"), ""))
    assert failure.silent is None


def test_a_job_without_paths_or_without_a_station_has_no_failures() -> None:
    assert of(over()).failures == () and of(over()).single_points == ()
    assert transmission(papers_of("dunlin-row"), Unknown("x")) is None


def test_fire_duties_lengthen_what_a_path_must_last() -> None:
    papers = papers_of("heron-bungalow")
    # A smoke alarm: 24 h (NFPA 72; read second-hand) in place of 4 h.
    assert left(of(papers), MAINS) == {"first": 24}


def test_every_category_of_the_job_file_is_known_and_every_kind_of_path_has_words() -> None:
    assert set(CATEGORIES) == {*SINGLE, *DUAL, "custom"} and set(PATHS_OF.values()) == {1, 2}
    assert {one for one in CARRIED_BY} == {"broadband", "mobile", "phone-line", "radio"}


def test_within_one_kind_the_order_of_the_standard_decides() -> None:
    for kind in (SINGLE, DUAL):
        assert [[reaches(PAPERS.profile, given, asked) for asked in kind] for given in kind] == [
            [low <= high for low in range(len(kind))] for high in range(len(kind))]


def test_no_single_path_reaches_a_category_with_two() -> None:
    assert not any(reaches(PAPERS.profile, given, asked) for given in SINGLE for asked in DUAL)


# 25 h, 30 min, 3 min and 90 s against 32 d, 25 h, 30 min, 3 min, 90 s and 20 s.
@pytest.mark.parametrize("given, strictest", [("DP1", "SP2"), ("DP2", "SP3"), ("DP3", "SP4"), ("DP4", "SP5")])
def test_two_paths_reach_a_single_one_that_is_reported_as_soon(given: str, strictest: str) -> None:
    assert [one for one in SINGLE if reaches(PAPERS.profile, given, one) is True] == list(SINGLE[:SINGLE.index(strictest) + 1])


def test_what_cannot_be_compared_is_not() -> None:
    custom = Unknown("what a custom category demands stands in its own papers")
    assert reaches(PAPERS.profile, "custom", "SP1") == reaches(PAPERS.profile, "DP1", "custom") == reaches(PAPERS.profile, "custom", "custom") == custom
    american = papers_of("heron-bungalow").profile
    assert reaches(american, "DP1", "SP1") == Unknown("the profile has no limit for the reporting time of DP1")
    assert reaches(american, "SP2", "SP1") is True
    with pytest.raises(KeyError):
        reporting_s(american, "DP1")


def test_reporting_times_are_those_of_the_profile_in_seconds() -> None:
    assert {one: reporting_s(PAPERS.profile, one) for one in PATHS_OF} == {
        "SP1": 32 * 86400, "SP2": 90000, "SP3": 1800, "SP4": 180, "SP5": 90, "SP6": 20, "DP1": 90000, "DP2": 1800, "DP3": 180, "DP4": 90}
    assert all(is_reporting_limit(reporting_limit(PAPERS.profile, one)) for one in PATHS_OF)
    assert not is_reporting_limit("report_other_dp1_h")
