"""Do the pages of power, cells and kit say what was worked out, how, and to whom; and do the pictures say no more and no less?"""
import re

import pytest
from bs4 import BeautifulSoup

from generator.calc.results import compute
from generator.calc.working import Given, Working
from generator.intake.job_reader import read_job
from generator.pages.pictures import Bar, BarsPicture, LifeBar, LifePicture, RunPicture, Spot, Year
from generator.pages.power import standby_in_words
from generator.pages.workings import working_view
from generator.publish.drawing.charts import bars, lives, voltage
from generator.publish.drawing.svg import cut
from generator.publish.render import environment, render, translations
from generator.terms.audience import Audience
from tests.conftest import HOSTILE, JOBS, packs_of
from tests.rule_cases.case import both, put
from tests.rule_cases.power import no_cold, row_8

LIMIT = Given("longest", "t", 72, "h", "a document (from memory)", "from memory")


@pytest.fixture(scope="module")
def large() -> dict[Audience, dict[str, BeautifulSoup]]:
    """Every page of the large demo job."""
    return soups(JOBS / "curlew-house" / "job.yaml")


def soups(path) -> dict[Audience, dict[str, BeautifulSoup]]:
    env = environment(translations())
    return {pack.audience: {page.path: BeautifulSoup(render(page, env).html, "html5lib") for page in pack.pages} for pack in packs_of(path)}


def said(soup) -> str:
    return " ".join(soup.get_text(" ").split())


def test_a_working_shows_formula_inputs_result_limit_and_notes() -> None:
    view = working_view(Working("Time to recharge", "share × capacity / current", "t = p × C / I", (Given("capacity", "C", 7, "Ah", "job.x"),), "t",
                                80, "h", LIMIT, "most", ("A note.",)))
    assert (view.level, view.summary) == ("unkept", "Time to recharge: 80 h, at most 72 h: not kept")
    assert (view.inputs[0].name, view.inputs[0].value, view.inputs[0].origin) == ("capacity (C)", "7 Ah", "job file, x")
    assert (view.result, view.limit, view.limit_from, view.notes) == (
        "t = 80 h", "At most 72 h, longest: not kept", "a document (from memory)", ("A note.",))


def test_every_figure_of_a_page_unfolds_to_its_formula_and_its_origins(large) -> None:
    for reader in (Audience.INSTALLER, Audience.RECORD):
        for path, least in (("power.html", 9), ("cells.html", 33)):
            found = large[reader][path].select("details.working")
            assert len(found) >= least
            for one in found:
                assert one.summary and one.select_one(".symbols").get_text(strip=True)
                assert all(row.get_text(strip=True) for row in one.select(".inputs .origin")) and one.select(".inputs .origin")


def test_homeowner_and_station_read_nothing_of_it(large) -> None:
    for reader in (Audience.HOMEOWNER, Audience.STATION):
        pages = large[reader]
        assert not {"power.html", "cells.html"} & set(pages)
        assert [path for path, soup in pages.items() if re.search(r"\bAh\b|mAh|Ω|spent about|messages? in a day", said(soup))] == []


def test_the_page_of_power_says_what_is_fitted_needed_and_carried(large) -> None:
    page = said(large[Audience.INSTALLER]["power.html"])
    assert "7 Ah fitted, 2.79 Ah needed: enough." in page and "CU and S1" in page and "12 h at rest, then 15 min in alarm" in page
    assert "Time to recharge: 14 h, at most 72 h: kept" in page and "How long the battery of R1 lasts: 30 h, at least 12 h: kept" in page
    assert "at 24 m: 9.89 V, at least 9 V: kept; on this cable it could stand at 59.2 m" in page
    assert "Not checked" not in page


def test_a_battery_that_is_too_small_says_so_with_what_would_mend_it(job_file) -> None:
    packs = soups(job_file(row_8))
    page = said(packs[Audience.INSTALLER]["power.html"])
    assert "stop: standby-short" in page and "Fit 7 Ah" in page and "stop:" not in said(packs[Audience.RECORD]["power.html"])
    assert "2.1 Ah fitted, 4.55 Ah needed: not enough." in page and "Sizes in stock that do 7 Ah" in page
    assert "7 Ah in stock: does" in page and "4 Ah in stock: too small" in page


def test_what_is_missing_is_said_in_a_sentence_and_no_figure_stands_in_its_place(job_file) -> None:
    change = both(no_cold, put("equipment", "tern-cu32", "power", "quiescent_ma", value=None), put("job", "service", value=None))
    pages = soups(job_file(change))[Audience.INSTALLER]
    power, cells = said(pages["power.html"]), said(pages["cells.html"])
    assert "Not checked, because the sheet of CU gives no power.quiescent_ma; write power.quiescent_ma in the sheet tern-cu32." in power
    assert "needed" not in power and "Not checked, because no services are agreed; write service with every_months." in cells
    assert cells.count("no services are agreed") == 1


def test_the_page_of_cells_says_life_day_and_visit_and_what_is_changed_together(large) -> None:
    soup = large[Audience.INSTALLER]["cells.html"]
    row = next(one for one in soup.select(".celled") if said(one).startswith("M1 "))
    assert said(row).startswith("M1 1 × CR123A Hall Life 0.88 years Spent about 31 Aug 2027 Changed 20 Apr 2027")
    assert "Apr 2027 2 × CR123A M1 and M6" in said(soup) and "31 fitted units on cells; 31 with a visit before they are spent." in said(soup)
    assert "Lasts until then if pressed, at most 25 times a day" in said(soup)


def test_every_unit_leads_to_its_figures_and_every_way_ends_at_one(large) -> None:
    pages = large[Audience.INSTALLER]
    ways = {said(soup.h1): [a["href"] for a in soup.select(".ways a") if "power.html" in a["href"] or "cells.html" in a["href"]]
            for path, soup in pages.items() if path.startswith("d/")}
    assert len(ways["CU"]) == 1 and len(ways["R1"]) == 1 and len(ways["M1"]) == 1 and len(ways["S1"]) == 1 and ways["TG1"] == []
    for href in (one for way in ways.values() for one in way):
        path, _, place = href.removeprefix("../").partition("#")
        assert pages[path].find(id=place), href


def test_the_picking_list_has_each_thing_once_with_what_it_is_for(large) -> None:
    soup = large[Audience.INSTALLER]["kit.html"]
    rows = [said(one) for one in soup.select(".pick li")]
    assert len(rows) == len(set(rows)) and all(" for " in one for one in rows)
    assert "1 Tern repeater for R1" in rows and "24 m cable, 0.5 mm² stranded for sounder-run" in rows and "25 CR123A for 16 units" in rows


def numbers(text: str) -> set[str]:
    return set(re.findall(r"\d+(?:\.\d+)?", text))


def test_a_picture_bears_words_and_tells_the_same_beside_it(large) -> None:
    """Nothing by colour alone: each bar and spot has its own words, and the sentence beside holds their numbers."""
    for figure in large[Audience.INSTALLER]["power.html"].select("figure.chart"):
        inside = {number for one in figure.select("svg text") for number in numbers(one.get_text()) if len(one.get_text().split()) > 3}
        assert inside and inside - {"1"} <= numbers(figure.figcaption.get_text())
        assert figure.svg["role"] == "img" and figure.svg["aria-label"] == figure.figcaption.get_text()


def test_bars_are_as_long_as_their_numbers() -> None:
    soup = BeautifulSoup(str(bars(BarsPicture("says", (Bar("a", 2, "need"), Bar("b", 4, "fitted")), 2))), "html5lib")
    short, long = (float(one["width"]) for one in soup.select("rect"))
    assert long == pytest.approx(2 * short) and [float(one["x1"]) for one in soup.select("line.mark")] == [pytest.approx(2 + short)] * 2


def test_a_voltage_falls_from_left_to_right_and_the_least_lies_where_its_number_is() -> None:
    view = RunPicture("says", 10.5, "10.5 V", 9, (Spot("S1", "9.5 V at 10 m", 10, 9.5, 9, "least 9 V"), Spot("S2", "9.2 V at 20 m", 20, 9.2, None, "")))
    soup = BeautifulSoup(str(voltage(view)), "html5lib")
    points = [tuple(map(float, one.split(","))) for one in soup.polyline["points"].split()]
    assert points == sorted(points) and len(points) == 3 and len(soup.select(".least")) == 1 and len(soup.select(".spot")) == 2


def test_a_life_ends_after_the_visit_that_changes_it_and_one_without_says_so() -> None:
    view = LifePicture("says", 400, (Year(100, "2027"), Year(365, "2028")), (180, 360), (LifeBar("D1", 400, 360, ""), LifeBar("D2", 90, None, "")))
    soup = BeautifulSoup(str(lives(view)), "html5lib")
    assert len(soup.select(".visit")) == 2 and len(soup.select(".change")) == 1 and "no visit" in soup.get_text()
    first, second = (float(one["width"]) for one in soup.select("rect.life"))
    assert first / second == pytest.approx(400 / 90, rel=0.01)


@pytest.mark.parametrize("drawn", [
    bars(BarsPicture(HOSTILE, (Bar(HOSTILE, 1, "need"),), 1)),
    voltage(RunPicture(HOSTILE, 10.5, HOSTILE, 9, (Spot(HOSTILE, HOSTILE, 1, 10, 9, HOSTILE),))),
    lives(LifePicture(HOSTILE, 10, (Year(1, HOSTILE),), (2,), (LifeBar(HOSTILE, 5, 2, HOSTILE),))),
])
def test_words_of_a_picture_are_escaped(drawn) -> None:
    assert "<script>" not in str(drawn) and "&lt;script&gt;" in str(drawn)


@pytest.mark.parametrize("view", [
    (bars, BarsPicture("says", (Bar("none", 0, "need"),), 0)),
    (voltage, RunPicture("says", 10.5, "10.5 V", 10.5, (Spot("S1", "10.5 V", 0.1, 10.5, None, ""),))),
    (lives, LifePicture("says", 1, (), (), (LifeBar("D1", 0, None, ""),))),
])
def test_a_picture_of_next_to_nothing_is_drawn(view) -> None:
    draw, what = view
    assert "nan" not in str(draw(what)) and "inf" not in str(draw(what))


def test_current_and_standby_are_at_hand_for_pages_that_only_state_them(job_file) -> None:
    whole = compute(read_job(JOBS / "curlew-house" / "job.yaml").papers)
    assert whole.power.rest_in_words() == "0.136 A" and standby_in_words(whole) == "7 Ah fitted, 2.79 Ah needed: enough."
    lacking = compute(read_job(job_file(put("equipment", "tern-cu32", "power", "quiescent_ma", value=None))).papers)
    assert lacking.power.rest_in_words() == "" and standby_in_words(lacking).startswith("Not checked, because the sheet of CU gives no power.")


def test_a_name_that_has_no_room_in_a_picture_is_cut_and_its_numbers_stay() -> None:
    view = RunPicture("says", 10.5, "10.5 V", 9, (Spot("W" * 40, "9.5 V at 10 m", 10, 9.5, 9, "least 9 V"),))
    line = BeautifulSoup(str(voltage(view)), "html5lib").select("text")[-1].get_text()
    assert line.startswith("1  9.5 V at 10 m, least 9 V: W") and line.endswith("W…") and len(line) < 45
    assert cut("SM1", 54) == "SM1" and cut("W" * 40, 54) == "WW…"
