"""Does whoever checks a link on site learn what must be read so that a bad day is allowed for, and what is open about the unit's place?"""
from dataclasses import replace

import pytest
from bs4 import BeautifulSoup

from generator.calc.radio.wanted_reading import wanted_reading
from generator.calc.results import compute
from generator.intake.job_reader import read_job
from generator.model.accepted import Accepted
from generator.pages.open_findings import decides_place, open_about
from generator.rules.all_rules import findings, judge
from tests.conftest import JOBS
from tests.test_step_pages import html, words


@pytest.fixture(scope="module")
def large() -> dict[str, BeautifulSoup]:
    return html(JOBS / "curlew-house" / "job.yaml")


@pytest.fixture(scope="module")
def links():
    return compute(read_job(JOBS / "curlew-house" / "job.yaml").papers).links.units


def step(pages: dict[str, BeautifulSoup], path: str, name: str):
    return next(one for one in pages[path].select("section.step") if one.h2["id"] == name)


def test_a_reading_that_just_suffices_leaves_what_is_wanted_on_the_bad_day(links) -> None:
    for name, one in links.items():
        link = one.link
        left = wanted_reading(link).value - (link.margin_db("typical") - link.margin_db("bad"))
        assert left == pytest.approx(link.required.value), name
        # Whoever is worked out to have enough is worked out to read enough.
        assert (link.margin_db("typical") >= wanted_reading(link).value - 1e-9) == (link.reserve_db >= -1e-9), name


def test_doors_and_people_that_are_in_the_reading_are_not_allowed_for_twice(links) -> None:
    link = links["M4"].link
    taken = sum(one.bad_db - one.typical_db for one in link.terms if one.name == "people in the way" or "door" in one.name)
    assert taken >= 8 and wanted_reading(link).value - wanted_reading(link, shut=True).value == pytest.approx(taken)
    assert wanted_reading(link, shut=True).value >= link.required.value


@pytest.mark.parametrize("name", ["signal-m4", "signal-g1", "signal-s1"])
def test_a_short_link_is_told_with_its_mend_and_its_reading_where_it_is_checked(large, name: str) -> None:
    said = words(step(large, "steps/listen.html", name))
    assert said.index("fix: link-short") < said.index("Hold ")
    assert all(one in said for one in ("on a bad day", "What to do: Let it be heard through R1", "what it watches from there is not looked at here",
                                       "If it falls short: first as the findings say", "Read here, to allow for a bad day at least"))


def test_it_is_told_once_more_where_it_is_drilled_and_on_its_own_page(large) -> None:
    for one in (step(large, "steps/fix.html", "fix-m4"), *(page for path, page in large.items() if path.startswith("d/") and page.h1.get_text() == "M4")):
        assert "M4 would not be heard by CU on a bad day, by 9.4 dB; 10 dB are wanted." in words(one) and "What to do: Let it be heard through R1" in words(one)
    own = [page for path, page in large.items() if path.startswith("d/") and page.h1.get_text() == "M4"]
    assert len(own) == 1


def test_the_reading_is_what_the_radio_page_works_out(large, links) -> None:
    # By hand: 10 dB wanted, 38.9 dB typical and 9.4 dB below on the bad day: 58.3 dB.
    said = words(step(large, "steps/listen.html", "signal-m4"))
    assert "Margin worked out 38.9 dB on a typical day, −9.4 dB on a bad one; an estimate" in said and "58.3 dB with doors open and nobody there" in said
    assert words(large["radio.html"]).count("Margin to be read on the day, with doors open and nobody in the way") == 3


def test_a_unit_with_nothing_open_has_no_finding_in_its_steps_and_no_reading_but_the_limit(large) -> None:
    for path, name in (("steps/listen.html", "signal-m3"), ("steps/fix.html", "fix-m3")):
        one = step(large, path, name)
        assert not one.select(".finding") and "to allow for a bad day" not in words(one) and "first what the findings say" not in words(one)
    assert "on a typical day" in words(step(large, "steps/listen.html", "signal-m3"))


def test_what_is_accepted_or_about_another_unit_is_not_told() -> None:
    papers = read_job(JOBS / "curlew-house" / "job.yaml").papers
    found = findings(judge(papers, compute(papers)))
    assert [one.word for one in open_about(found, "job.devices.M4")] == ["fix: link-short"]
    assert open_about([replace(one, accepted=Accepted(rule=one.rule, at="times", values="none", who="manager", on="2026-10-05", why="tried"))
                       for one in found], "job.devices.M4") == ()
    # A name that another begins with is not that other: D1 is not D11.
    assert open_about(found, "job.devices.M") == () and open_about(found, "job.control_unit") == ()
    assert decides_place("signal-M4") and decides_place("fix-M4") and decides_place("place") and not decides_place("test-M4")


def test_a_finding_in_a_step_is_set_as_text_and_not_as_a_code(large) -> None:
    """The style's class for what is typed in by hand, large and with wide letters, is not for sentences."""
    panels = large["steps/listen.html"].select("section.step .finding")
    assert len(panels) == 3 and not any("short" in one["class"] for one in panels)
