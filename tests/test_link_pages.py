"""Does the installer's page of radio tell every link, the least reserve first, and does nobody else get it?"""
import re
from dataclasses import replace

import pytest
from bs4 import BeautifulSoup

from generator.calc.radio.beside import outside_both
from generator.calc.results import compute
from generator.calc.unknown import Unknown
from generator.intake.job_reader import read_job
from generator.pages.installer.links import links_page
from generator.pages.installer.mends import mend_facts, repeaters_view
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
    # By hand: -9.38 dB of margin and 15 dB of the fridge.
    assert facts["Takes most"] == "metal fridge: 15 dB; without it 5.6 dB would be left"
    assert facts["Better through"] == "R1, with 22.9 dB, as far as it can carry more"
    good = {fact.name for fact in view.rows[-1].facts}
    assert not good & {"Takes most", "Better through", "Nearest move", "A new repeater"}


def test_a_short_link_names_the_nearest_place_that_mends_it_and_the_margin_there(tmp_path) -> None:
    _, results, view, _ = shown(tmp_path)
    facts = {fact.name: fact.value for fact in view.rows[0].facts}
    assert facts["Nearest move"] == ("by 1.4 m: in the dining room, on the outside wall at the back, 1.4 m from its corner with the outside wall on the left, "
                                     "2.2 m above the floor; 32.1 dB there. What it watches from there is not looked at here")
    # Written into the job, the place has that margin.
    move = results.mends.units["M4"].move

    def written(files) -> None:
        files["job"]["devices"]["M4"] |= {"at_m": [str(move.place.x), str(move.place.y)], "height_m": str(move.place.height_m)}

    _, after, _, _ = shown(tmp_path, written)
    assert after.links.units["M4"].link.margin_db("bad") == pytest.approx(move.link.margin_db("bad")) and "M4" not in after.mends.units


def test_a_repeater_is_proposed_with_its_place_its_own_link_and_what_it_would_carry(tmp_path) -> None:
    _, results, view, soup = shown(tmp_path)
    (row,) = view.repeaters.rows
    facts = {fact.name: fact.value for fact in row.facts}
    assert facts["Where"].startswith("In the guest room, on the outside wall on the right, 0.8 m from its corner with the outside wall at the front")
    assert facts["Its own link"] == "to CU, 40.4 dB, 15 dB wanted" and facts["Would carry"].count(" with ") == 3
    # Each of the three is mended by the repeater that is there: one more is no first choice.
    assert view.repeaters.title.startswith("Second choice") and "each short link can be mended without one" in soup.find(id="repeaters").find_next("p").get_text()
    assert all("A new repeater" not in {fact.name for fact in one.facts} for one in view.rows)
    assert sum(fact.name == "Second choice, a new repeater" for one in view.rows for fact in one.facts) == 3
    assert "as seen by somebody who faces its front" in view.repeaters.notes[-1]
    assert soup.find(id="repeater-N1") and soup.find(id="repeaters")
    proposed = results.mends.repeaters[0]

    def fitted(files) -> None:
        place = proposed.place
        files["job"]["devices"]["R2"] = {"sheet": "tern-rp", "room": place.room, "at_m": [str(place.x), str(place.y)], "height_m": str(place.height_m),
                                         "serial": "50E777"}
        for name in proposed.takes:
            files["job"]["devices"][name]["via"] = "R2"

    _, after, _, _ = shown(tmp_path, fitted)
    assert after.mends.units == {} and after.links.units["R2"].link.reserve_db == pytest.approx(proposed.own.reserve_db)
    for name, link in proposed.takes.items():
        assert after.links.units[name].link.reserve_db == pytest.approx(link.reserve_db)


def test_a_job_without_short_links_says_nothing_of_repeaters(tmp_path) -> None:
    _, results, view, soup = shown(tmp_path, job="heron-bungalow")
    assert view.repeaters is None and results.mends.units == {} and results.mends.repeaters == () and not soup.find(id="repeaters")


@pytest.mark.parametrize("change, why", [
    (lambda sheet: sheet["radio"].pop("sensitivity_dbm"), "the sheet tern-rp gives no radio.sensitivity_dbm"),
    (lambda sheet: sheet["radio"].update(frequency_mhz="433.92"), "the repeater of the sheet tern-rp has another band than the control unit")])
def test_a_repeater_without_figures_is_not_placed_and_the_page_says_what_is_missing(tmp_path, change, why) -> None:
    _, _, view, _ = shown(tmp_path, lambda files: change(files["equipment"]["tern-rp"]))
    assert view.repeaters.rows == () and view.repeaters.none == f"None is proposed, because {why}."


def without_repeater(files) -> None:
    devices = files["job"]["devices"]
    del devices["R1"]
    for name in ("D11", "D12", "M7"):
        del devices[name]
    files["job"].pop("cables", None)


def test_a_job_without_a_repeater_takes_the_companys_sheet_and_without_one_says_which_to_write(tmp_path) -> None:
    def bare(files) -> None:
        without_repeater(files)
        del files["equipment"]["tern-rp"]

    papers, results, view, _ = shown(tmp_path, without_repeater)
    assert list(papers.spare) == ["tern-rp"] and results.mends.repeaters[0].sheet == "tern-rp" and len(view.repeaters.rows) == 1
    assert (view.repeaters.title == "A place for a repeater") == bool(results.mends.left)
    papers, _, view, _ = shown(tmp_path, bare)
    assert not papers.spare and view.repeaters.none == ("None is proposed, because the figures of a repeater are missing; write a sheet of kind repeater in the "
                                                        "folder equipment, with radio, repeats and mounting_m.")


def test_where_the_control_unit_has_no_room_for_one_more_none_is_proposed(tmp_path) -> None:
    _, _, view, _ = shown(tmp_path, lambda files: files["equipment"]["tern-cu48"]["control_unit"]["lists"].update(repeaters="1"))
    assert view.repeaters.none == "None is proposed, because the control unit can hold no repeater beside the 1 of the job."


def test_models_that_see_no_wall_are_a_line_of_the_working_and_one_note_for_the_house(tmp_path) -> None:
    papers, results, view, _ = shown(tmp_path)
    lines = [note for row in view.rows for one in row.workings for note in one.notes if "by counting walls (COST 231)" in note]
    assert len(lines) == len(view.rows)
    notes = [note for note in view.notes if "COST 231" in note]
    outside = [name for name, one in results.links.units.items() if outside_both(papers, one.link)]
    assert len(notes) == 1 and notes[0].startswith(f"For {len(outside)} links of 35 this estimate takes more than two models") and "leave timber floors out" in notes[0]
    assert not any("COST 231" in note for note in shown(tmp_path, job="heron-bungalow")[2].notes)


def test_that_figures_are_extrapolated_is_said_once_for_the_house(tmp_path) -> None:
    _, _, view, _ = shown(tmp_path)
    assert [note for note in view.notes if "Extrapolated" in note] == [
        "Extrapolated: at 868.3 MHz the table of ITU-R P.2040 has no figures for brick, concrete, floorboard and plasterboard; those nearest in frequency "
        "are taken."]


def test_the_picture_of_losses_adds_up_and_says_the_same_in_words(tmp_path) -> None:
    _, results, view, soup = shown(tmp_path)
    svg = soup.select_one("svg.losses")
    assert svg["aria-label"] == view.losses.says and len(svg.select("line.wanted")) == len(view.losses.bars) == len(view.rows)
    for row, bar in zip(view.rows, view.losses.bars):
        link = results.links.units[row.unit.text].link
        assert sum(part.loss for part in bar.parts) == pytest.approx(link.loss_db(link.worse))
        assert (sum(part.loss for part in bar.parts) > bar.most) == (link.reserve_db < 0)
    # By hand: a letter in each part that has room, and no part runs out of the picture.
    ends = [float(one["x"]) + float(one["width"]) for one in svg.select("rect")]
    assert max(ends) <= 340 and {one.get_text() for one in svg.select("text[class]")} >= {"F", "W", "M", "P"}
    assert "M4: 124.4 dB lost, 105 may be: free space 51.4, walls and doors" in view.losses.says and "F free space, W walls and doors" in soup.get_text(" ")


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


def test_a_repeater_is_the_first_choice_only_for_what_nothing_else_mends() -> None:
    results = compute(read_job(JOBS / "curlew-house" / "job.yaml").papers)
    mends = results.mends
    assert mends.left == ()
    alone = replace(mends, units={**mends.units, "M4": replace(mends.units["M4"], other=None, move=Unknown("nowhere near"))})
    assert alone.left == ("M4",)
    papers = read_job(JOBS / "curlew-house" / "job.yaml").papers
    assert repeaters_view(papers, alone).title == "A place for a repeater" and repeaters_view(papers, alone).first == "Without one M4 would stay short."
    assert [dict(mend_facts(alone, alone.units[name])).keys() & {"A new repeater", "Second choice, a new repeater"} for name in ("M4", "S1")] == [
        {"A new repeater"}, {"Second choice, a new repeater"}]
