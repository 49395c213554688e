"""Does the installer's page tell what is seen and heard, the gaps first, and does nobody else get it?"""
import re

import pytest
from bs4 import BeautifulSoup

from generator.calc.results import compute
from generator.intake.job_reader import read_job
from generator.pages.installer.papers import SEEN
from generator.pages.installer.seen import PATH, seen_page
from generator.publish.render import environment, render, translations
from generator.rules.all_rules import findings, judge
from generator.rules.finding import Severity
from tests.conftest import DEMO, JOBS, packs_of, read_files, write_files


def shown(tmp_path, *changes, job: str = "curlew-house"):
    files = read_files(JOBS / job)
    for change in changes:
        change(files)
    papers = read_job(write_files(files, tmp_path / "job")).papers
    results = compute(papers)
    page = seen_page(papers, results, ())
    return results, {part.id: part for part in page.view.parts}, page.view, BeautifulSoup(render(page, environment(translations())).html, "html5lib")


def facts(part) -> dict[str, str]:
    return {fact.name: fact.value for fact in part.facts}


def test_ways_in_without_detection_stand_first_and_those_in_reach_before_the_others(tmp_path) -> None:
    def no_contact(files) -> None:
        del files["job"]["devices"]["D5"]

    _, parts, view, soup = shown(tmp_path, no_contact)
    assert view.answer == ("1 opening of 18 within reach without any detection: kitchen window. 3 openings out of reach and without detection.")
    rows = list(facts(parts["ways-in"]).items())
    assert rows[0] == ("Kitchen window", "1.05 m above the ground; NO DETECTION")
    assert rows[1] == ("Main bedroom window", "3.75 m above the ground, out of reach; nothing detects there")
    assert ("Shower room window", "1.3 m above porch; watched by D10") in rows
    assert not re.search(r"compliant|protected|secure", soup.get_text(" "))


def test_each_detector_tells_what_it_sees_and_what_is_in_its_view(tmp_path) -> None:
    results, parts, _, _ = shown(tmp_path)
    rows = facts(parts["detectors"])
    assert len(rows) == 7 and rows["M3, sitting room"].endswith("in view: sofa (can be climbed, 3.9 m)")
    # 1.9 m and 1.0 m below it over tan 75 and, at its upper edge, tan 3: 36.3 m and 19.1 m out, beyond its range of 12 m.
    assert "; dead zone 0.5 m at 0.3 m and 0.3 m at 1.2 m; " in rows["M3, sitting room"]
    # The foot of the stairs is in view of the hall's detector, their head of the landing's; neither sees the other end.
    assert "; stairs: foot of main; " in rows["M1, hall"] and "; stairs: head of main; " in rows["M6, landing"]
    assert not any("stairs:" in told for name, told in rows.items() if name not in ("M1, hall", "M6, landing"))
    # From its corner M5 sees the study, 4 m by 3 m, less what lies outside its right angle and behind the cabinet.
    assert "m² of floor at 0.3 m" in rows["M5, study"] and results.coverage.views["M5"].high.area_m2 < 12


@pytest.mark.parametrize("edges, told", [
    ({}, "height of the view not given"),
    ({"down_to_deg": "90"}, "no dead zone, upper edge not given"),
    # 2.2 m up: 1.9 / tan 45 and 1.0 / tan 45.
    ({"down_to_deg": "45"}, "dead zone 1.9 m at 0.3 m and 1 m at 1.2 m, upper edge not given"),
    # 1.9 / tan 10 is 10.8, 1.0 / tan 10 is 5.7.
    ({"down_from_deg": "10"}, "lower edge not given, no farther than 10.8 m at 0.3 m and 5.7 m at 1.2 m"),
])
def test_where_the_edges_of_a_view_cut_the_floor_off_is_told_or_that_they_are_not_given(tmp_path, edges, told) -> None:
    def edge(files) -> None:
        coverage = files["equipment"]["tern-pir12"]["coverage"]
        for key in ("down_from_deg", "down_to_deg"):
            coverage.pop(key)
        coverage.update(edges)

    _, parts, _, _ = shown(tmp_path, edge)
    assert f"; {told}; in view:" in facts(parts["detectors"])["M3, sitting room"]


def test_that_no_view_goes_from_storey_to_storey_is_told(tmp_path) -> None:
    _, parts, _, _ = shown(tmp_path)
    assert "Each looks at its own floor only: through a stairwell or over a gallery it is not counted" in parts["detectors"].lead


def test_bedrooms_are_told_with_their_levels_the_quietest_first_and_fire_is_left_to_the_code(tmp_path) -> None:
    _, parts, _, soup = shown(tmp_path)
    part = parts["heard"]
    assert [fact.value.partition(" dB")[0] for fact in part.facts] == ["61", "62", "62", "63"]
    assert len(part.workings) == 4 and "local fire code decides" in part.lead
    assert "local fire code" in parts["fire"].lead and "1.9 m along the floor from boiler" in facts(parts["fire"])["CO1, kitchen"]


def test_without_a_plan_each_thing_that_is_not_known_is_said_with_its_reason(tmp_path) -> None:
    _, parts, _, soup = shown(tmp_path, job="heron-bungalow")
    assert any("no room has a shape in the plan" in line for line in parts["detectors"].missing)
    assert any("bedroom-1 has no shape in the plan" in line for line in parts["heard"].missing)


def test_only_the_installer_gets_the_page(tmp_path) -> None:
    packs = packs_of(DEMO / "job.yaml")
    assert [pack.audience.value for pack in packs if any(page.path == PATH for page in pack.pages)] == ["installer"]


def test_the_page_leads_to_the_plan_where_views_and_gaps_are_drawn_if_there_is_one(tmp_path) -> None:
    _, _, view, soup = shown(tmp_path)
    assert [one.href for one in view.plan] == ["plan.html"] and soup.select_one("a[href='plan.html']") and not soup.select("svg")
    assert shown(tmp_path, job="heron-bungalow")[2].plan == ()


def test_the_large_demo_has_no_wall_of_findings_and_those_here_are_the_ones_that_its_house_deserves(tmp_path) -> None:
    papers = read_job(JOBS / "curlew-house" / "job.yaml").papers
    every = findings(judge(papers, compute(papers)))
    assert len([one for one in every if one.open and one.severity is not Severity.NOTE]) <= 12
    # Two units that whoever breaks in meets metres before the first that may confirm: by the garage, and upstairs.
    assert [(one.rule, one.hit.at) for one in every if one.rule in SEEN] == [("confirmed-farther-on", "job.devices.D6.confirms"),
                                                                            ("confirmed-farther-on", "job.devices.M6.confirms")]


def test_what_can_confirm_is_told_with_the_metres_to_each(tmp_path) -> None:
    _, parts, _, _ = shown(tmp_path)
    rows = facts(parts["confirm"])
    assert rows["French doors"].startswith("D4 first; M4 at once")
    assert rows["Bedroom 2 window"] == ("D8 first; M3 9.3 m on, M5 10.2 m on or M4 14.3 m on may confirm; met sooner, and may not: M6 3.5 m on and M1 8.7 m on")


def test_a_dog_in_the_large_demo_is_seen_on_the_sofa_and_each_detector_asks_for_its_mass(tmp_path) -> None:
    files = read_files(JOBS / "curlew-house")
    files["job"]["household"]["animals"] = {"dog": {"mass_kg": "14"}}
    files["equipment"]["tern-pir12"]["coverage"]["animal_kg"] = "10"
    papers = read_job(write_files(files, tmp_path / "job")).papers
    found = [one for one in findings(judge(papers, compute(papers))) if one.rule in SEEN]
    assert [one.hit.at for one in found if one.rule == "animal-heavy"] == [f"job.devices.M{index}.sheet" for index in (1, 2, 3, 4, 5, 6, 7)]
    climbed, = (one.hit for one in found if one.rule == "animal-climbs")
    assert climbed.says == "M3 sees what an animal can get onto: sofa (0.85 m high, 3.9 m away)."
