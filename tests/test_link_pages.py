"""Does the installer's page of radio tell every link, the least reserve first, and does nobody else get it?"""
import re

import pytest
from bs4 import BeautifulSoup

from generator.calc.results import compute
from generator.calc.unknown import Unknown
from generator.intake.job_reader import read_job
from generator.pages.installer_links import links_page
from generator.publish.render import environment, render, translations
from tests.conftest import DEMO, JOBS, packs_of, read_files, write_files


def shown(tmp_path, *changes, job: str = "curlew-house"):
    files = read_files(JOBS / job)
    for change in changes:
        change(files)
    papers = read_job(write_files(files, tmp_path / "job")).papers
    results = compute(papers)
    page = links_page(papers, results, ())
    return papers, results, page.view, BeautifulSoup(render(page, environment(translations())).html, "html5lib")


def test_links_stand_in_the_order_of_their_reserves_with_what_is_wanted(tmp_path) -> None:
    _, results, view, soup = shown(tmp_path)
    reserves = [results.links.units[row.unit.text].link.reserve_db for row in view.rows]
    assert reserves == sorted(reserves) and len(view.rows) == len(results.links.units) and not view.missing
    assert view.rows[0].answer == "M4: −9.4 dB, 10 wanted, 19.4 dB short"
    assert view.answer == "3 links of 35 would be short on a bad day: M4, S1 and G1."
    text = soup.get_text(" ")
    assert "An estimate: the on-site check decides." in text and not re.search(r"compliant|guarantee", text)


def test_a_short_link_names_what_takes_most_and_who_would_hear_it_better(tmp_path) -> None:
    _, _, view, _ = shown(tmp_path)
    facts = {fact.name: fact.value for fact in view.rows[0].facts}
    assert facts["Takes most"] == "metal fridge: 15 dB" and facts["Better through"].startswith("R1: 12.9 dB to spare")
    assert "by counting walls (COST 231)" in facts["Models that see no wall"]
    good = {fact.name for fact in view.rows[-1].facts}
    assert not good & {"Takes most", "Better through"}


def test_each_link_can_be_unfolded_and_a_two_way_unit_shows_both_directions(tmp_path) -> None:
    _, _, view, _ = shown(tmp_path)
    workings = {row.unit.text: [one.summary.partition(" dB")[0] for one in row.workings] for row in view.rows}
    assert [one.rpartition(":")[0] for one in workings["H1"]] == ["Margin from CU to H1 on a bad day", "Margin from CU to H1 on a typical day",
                                                                  "Margin from H1 to CU on a bad day"]
    assert len(workings["D1"]) == 2


def test_the_picture_has_a_bar_and_a_tick_for_each_link_and_says_it_in_words(tmp_path) -> None:
    _, _, view, soup = shown(tmp_path)
    svg = soup.select_one("svg.margins")
    assert len(svg.select("rect")) == len(svg.select("line.wanted")) == len(view.rows) and len(svg.select("rect.short")) == 3
    assert svg["aria-label"] == view.picture.says and view.picture.says.count(";") == len(view.rows) - 1
    ends = [float(one["x"]) + float(one["width"]) for one in svg.select("rect")]
    assert 0 <= min(float(one["x"]) for one in svg.select("rect")) and max(ends) <= 340


def test_what_could_not_be_worked_out_is_named_with_its_reason_and_drawn_nowhere() -> None:
    papers = read_job(DEMO / "job.yaml").papers
    results = compute(papers)
    view = links_page(papers, results, ()).view
    assert all(isinstance(one.link, Unknown) for one in results.links.units.values()) and view.picture is None and view.rows == ()
    assert view.answer == "No link could be worked out; the reasons stand below."
    assert "D1, D2, D3, K1 and S1: not checked, because there is no plan, and no path is written for it; write path for the unit." in view.missing


@pytest.mark.parametrize("lost, says", [("M1", "1 link could not be worked out")])
def test_a_link_that_is_missing_is_counted(tmp_path, lost, says) -> None:
    _, _, view, _ = shown(tmp_path, lambda f: f["job"]["devices"][lost].pop("height_m"))
    assert says in view.answer and len(view.missing) == 1


def test_only_the_installer_gets_the_page() -> None:
    packs = packs_of(JOBS / "curlew-house" / "job.yaml")
    assert [pack.audience.value for pack in packs if any(page.path == "radio.html" for page in pack.pages)] == ["installer"]
