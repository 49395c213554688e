"""Does the installer's page of ways in and out tell each way part by part, and does nobody else get it?"""
import pytest
from bs4 import BeautifulSoup

from generator.calc.results import compute
from generator.intake.job_reader import read_job
from generator.pages.installer.routes import route_lines, routes_page
from generator.publish.render import environment, render, translations
from tests.conftest import DEMO, JOBS, packs_of, read_files, write_files
from tests.rule_cases.case import clean
from tests.rule_cases.routes import DRESSER, plan, time, unit


def shown(tmp_path, *changes, job: str = "curlew-house"):
    files = read_files(JOBS / job)
    for change in changes:
        change(files)
    papers = read_job(write_files(files, tmp_path / "job")).papers
    results = compute(papers)
    page = routes_page(papers, results, ())[0]
    return results, page.view, BeautifulSoup(render(page, environment(translations())).html, "html5lib")


@pytest.fixture(scope="module")
def curlew(tmp_path_factory):
    return shown(tmp_path_factory.mktemp("curlew"))


def test_each_door_and_each_way_stands_there_with_its_parts_and_they_add_up(curlew) -> None:
    _, view, soup = curlew
    assert [one.title for one in view.doors] == ["Front door", "Back door"] and [len(one.ways) for one in view.doors] == [1, 2]
    first = view.doors[0].ways[0]
    assert first.answer == "In: 17.5 s needed, 30 s programmed, 12.5 s to spare. Out: 10 s needed, 45 s programmed."
    facts = {one.name: one.value for one in first.facts}
    assert facts == {"Door": "5 s", "On the flat": "2.4 m at 0.8 m/s: 3 s", "Unsetting by code": "6 s", "All of it": "14 s, times 1.25 in reserve: 17.5 s",
                     "Leads through": "hall", "A keypad may be as far off": "10.4 m along the way, for the programmed time"}
    assert view.doors[1].ways[1].whom == "For who has neither fob nor tag: user 5: sister who holds a key and user 6: guard of the harbour office."
    assert "walk it on the day" in soup.get_text(" ") and len(soup.select("details.working")) == 6


def test_the_page_says_first_whether_all_are_in_time(curlew, tmp_path) -> None:
    assert curlew[1].answer == "3 ways in, each within the programmed entry time of 30 s. The least is left from back-door to K1: 5.2 s."
    _, view, _ = shown(tmp_path, clean, plan(14.28), time("entry_s", 20), job="thrift-cottage")
    assert view.answer == "Too slow for the programmed entry time: from front-door to K1." and view.doors[0].ways[0].level == "unkept"
    assert "15.6 s short" in view.doors[0].ways[0].answer


def test_a_door_without_a_way_and_what_alarms_at_once_are_named(tmp_path) -> None:
    _, view, soup = shown(tmp_path, clean, plan(3, dresser=DRESSER), job="thrift-cottage")
    assert view.doors[0].ways == () and "dresser stands in it" in view.doors[0].missing and view.answer == "No way could be worked out. For 1 door there is none."
    _, view, _ = shown(tmp_path, clean, plan(3), unit("D2", role="immediate"), job="thrift-cottage")
    assert view.doors[0].met == "Alarms at once on this way: D2 in hall."
    _, view, _ = shown(tmp_path, clean, plan(3), unit("K1", at_m=None), job="thrift-cottage")
    assert view.doors[0].missing.startswith("Not worked out, because K1 has no place in the plan")


def test_the_lines_to_be_drawn_run_from_the_door_to_the_unit_and_say_their_seconds(curlew) -> None:
    lines = route_lines(curlew[0])
    assert [(one.door, one.unit, one.storey, one.ends, one.short) for one in lines] == [
        ("front-door", "K1", "ground", True, False), ("back-door", "K2", "ground", True, False), ("back-door", "K1", "ground", True, False)]
    assert lines[0].points[0] == pytest.approx((5.0, -0.25)) and lines[0].label == "2.4 m, 17.5 s needed"
    assert lines == curlew[1].lines


def test_a_job_without_a_plan_has_no_such_page() -> None:
    papers = read_job(DEMO / "job.yaml").papers
    assert routes_page(papers, compute(papers), ()) == ()


def test_only_the_installer_gets_the_page_and_no_other_page_tells_the_seconds() -> None:
    packs = packs_of(JOBS / "curlew-house" / "job.yaml")
    assert [pack.audience.value for pack in packs if any(page.path == "routes.html" for page in pack.pages)] == ["installer"]
    others = [repr(page.view) for pack in packs if pack.audience.value in ("homeowner", "station") for page in pack.pages]
    assert not [view for view in others if "17.5 s" in view or "24.8 s" in view or "neither fob nor tag" in view]
