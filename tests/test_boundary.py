"""What arrives at the boundary of the plot from an outside sounder? By hand, against points tried one by one, and as the pages tell it.

Inverse square: 6.02 dB for each doubling, plain arithmetic. No published figure says how loud a sounder may be at a boundary, or must be.
"""
import math
import re
from functools import lru_cache
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from generator.calc.house.sound import AtBoundary, sounds_of_job
from generator.calc.results import compute
from generator.calc.unknown import Unknown
from generator.geometry.house import house_of
from generator.geometry.plot import nearest_on, walls_between
from generator.geometry.shapes import Place, Spot
from generator.intake.job_reader import read_job
from generator.pages.drawing.page import plan_page
from generator.pages.drawing.plot import side_of
from generator.pages.installer.seen import seen_page
from generator.publish.drawing.frame import frame_of
from generator.publish.drawing.names import placed
from generator.publish.drawing.storey import plan
from generator.publish.render import environment, render, translations
from tests.conftest import JOBS, packs_of, read_files, write_files

WIDE = [["-30", "-30"], ["40", "-30"], ["40", "60"], ["-30", "60"]]


def papers(folder, *changes):
    files = read_files(JOBS / "curlew-house")
    for change in changes:
        change(files)
    return read_job(write_files(files, folder / "job")).papers


def plot(points):
    return lambda files: files["job"]["premises"].update(boundary_m=points)


def without(files) -> None:
    del files["job"]["premises"]["boundary_m"]


def own_limits(**limits):
    """A profile of the company's that adds limits to that of the job."""

    def change(files) -> None:
        files["profiles"] = {"own": {
            "format": "1", "extends": files["job"]["profile"], "name": "own", "edition": "first", "documents": {"letter": {"title": "A letter of the town"}},
            "limits": {key: {"value": value, "unit": "dB(A)", "means": f"level at the boundary, {key}", "source": "letter", "known": "read"}
                       for key, value in limits.items()}}}
        files["job"]["profile"] = "own"

    return change


@lru_cache(maxsize=1)
def large():
    found = read_job(JOBS / "curlew-house" / "job.yaml").papers
    return found, compute(found)


# --- by hand --------------------------------------------------------------------------------------------------

def test_the_outside_sounder_of_the_large_demo_by_hand() -> None:
    # S1 at [0.5, -0.1], 103 dB(A) at 1 m; the side of the plot at -3.5 is 4 m away, the road 6.9 m: 103 less 20 log 4 is 90.96.
    found = large()[1].sound.boundary
    assert list(found) == ["S1"]
    one = found["S1"]
    assert one.at == pytest.approx((-3.5, -0.1)) and one.away_m == pytest.approx(4.0) and one.walls == 0
    level, = one.levels
    assert level.value == pytest.approx(103 - 20 * math.log10(4), abs=0.001) == pytest.approx(90.96, abs=0.005)
    assert level.limit is None and level.holds() is None and any(note.startswith("At most:") for note in level.notes)


def test_on_the_boundary_it_is_as_loud_as_its_sheet_says_and_never_louder(tmp_path) -> None:
    found = sounds_of_job(papers(tmp_path, plot([["-1", "-0.1"], ["20", "-0.1"], ["20", "30"], ["-1", "30"]]))).boundary["S1"]
    assert found.away_m == pytest.approx(0) and found.levels[0].value == pytest.approx(103)


def test_twice_as_far_is_six_decibels_less(tmp_path) -> None:
    near, far = (sounds_of_job(papers(tmp_path / x, plot([[x, "-30"], ["60", "-30"], ["60", "60"], [x, "60"]]))).boundary["S1"]
                 for x in ("-3.5", "-7.5"))
    assert far.away_m == pytest.approx(2 * near.away_m)
    assert near.levels[0].value - far.levels[0].value == pytest.approx(6.0206, abs=1e-3)


def test_a_house_between_sounder_and_boundary_is_told_and_no_figure_is_made_up_for_it(tmp_path) -> None:
    # Only the right side of the plot is near: from the left front corner of the house, 5 m up, the way there is along its front; moved behind the
    # house it would be free, moved to its left side the two outside walls of the upper floor stand in the way, and what divides it.
    def side(files) -> None:
        files["job"]["devices"]["S1"] |= {"at_m": ["-0.1", "3"]}

    given = papers(tmp_path, side, plot([["-60", "-60"], ["14", "-60"], ["14", "60"], ["-60", "60"]]))
    one = sounds_of_job(given).boundary["S1"]
    assert one.at == pytest.approx((14, 3)) and one.away_m == pytest.approx(14.1)
    # 4.8 m up, 3 m behind the front: outside left, main bedroom to landing, landing to guest room, outside right.
    assert one.walls == 4 == walls_between(house_of(given.job.premises), Spot(-0.1, 3, 4.8), one.at)
    assert one.levels[0].value == pytest.approx(103 - 20 * math.log10(14.1), abs=0.001)
    assert any("4 walls of the plan stand in between: less arrives" in note for note in one.levels[0].notes)
    # Above the roof nothing is known to stand.
    assert walls_between(house_of(given.job.premises), Spot(-0.1, 3, 9.0), one.at) == 0


@settings(max_examples=60, deadline=None)
@given(corners=some.lists(some.floats(2, 30), min_size=3, max_size=12), at=some.tuples(some.floats(-1.2, 1.2), some.floats(-1.2, 1.2)))
def test_no_point_of_any_boundary_is_nearer_than_the_nearest(corners, at) -> None:
    # A star of corners round the plan's own corner crosses nothing. Points every centimetre and a half at most along each edge.
    round_ = [Place(away * math.cos(turn), away * math.sin(turn)) for index, away in enumerate(corners) for turn in (2 * math.pi * index / len(corners),)]
    place = Place(*at)
    found = nearest_on(round_, place)
    steps = 4000
    tried = min(math.dist(place, (a.x + (b.x - a.x) * step / steps, a.y + (b.y - a.y) * step / steps))
                for a, b in zip(round_, round_[1:] + round_[:1]) for step in range(0, steps + 1))
    away = math.dist(place, found)
    assert away <= tried + 1e-9 and tried - away <= 0.02


# --- what is not known ----------------------------------------------------------------------------------------

def test_without_a_boundary_the_page_says_not_checked_and_what_to_write(tmp_path) -> None:
    given = papers(tmp_path, without)
    results = compute(given)
    found = results.sound.boundary["S1"]
    assert isinstance(found, Unknown) and found.reason == "the plan gives no boundary; write boundary_m in job.premises"
    part = next(one for one in seen_page(given, results, ()).view.parts if one.id == "outside")
    assert part.missing == ("S1: not checked, because the plan gives no boundary; write boundary_m in job.premises.",) and part.facts == ()
    # Then the level is told in the open, at two distances.
    assert [one.summary.partition(":")[0] for one in part.workings] == ["S1 at 10 m in the open", "S1 at 20 m in the open"]
    assert plan_page(given, results).view.plot is None


@pytest.mark.parametrize("change, reason", [
    (lambda files: files["job"]["devices"]["S1"].pop("at_m"), "S1 has no place in the plan; write at_m in job.devices.S1"),
    (lambda files: files["equipment"]["tern-sx"].pop("sound"), "the sheet of S1 gives no sound.level_db"),
])
def test_a_sounder_of_which_too_little_is_known_says_what_to_write(tmp_path, change, reason) -> None:
    found = sounds_of_job(papers(tmp_path, change)).boundary["S1"]
    assert isinstance(found, Unknown) and reason in found.reason


def test_no_profile_of_ours_has_a_figure_for_the_boundary(tmp_path) -> None:
    for job in JOBS.glob("*/job.yaml"):
        assert not [key for key in read_job(job).papers.profile.limits if key.startswith("boundary_")]


def test_a_companys_figures_for_the_boundary_are_held_against_it(tmp_path) -> None:
    given = papers(tmp_path, own_limits(boundary_most_dba="85", boundary_least_dba="75"))
    results = compute(given)
    most, least = results.sound.boundary["S1"].levels
    assert (most.limit.value, most.limit_is, most.holds()) == (85, "most", False) and (least.limit.value, least.limit_is, least.holds()) == (75, "least", True)
    part = next(one for one in seen_page(given, results, ()).view.parts if one.id == "outside")
    assert part.facts[0].value.endswith("85 dB(A) is the level at the boundary, boundary_most_dba: NOT KEPT; "
                                        "75 dB(A) is the level at the boundary, boundary_least_dba: kept")


# --- the pages ------------------------------------------------------------------------------------------------

def test_the_page_tells_the_level_that_it_is_at_most_that_and_that_no_figure_stands_against_it() -> None:
    part = next(one for one in seen_page(*large(), ()).view.parts if one.id == "outside")
    fact, = part.facts
    assert (fact.name, fact.value) == ("S1", "91 dB(A) at most, 4 m to the left; no figure in this profile to hold it against")
    assert "at most" in part.lead and len(part.workings) == 1 and part.missing == ()


@pytest.mark.parametrize("end, words", [((5, 1), "to the right"), ((-5, 1), "to the left"), ((1, 5), "behind it"), ((1, -5), "before it")])
def test_the_side_is_that_of_whoever_faces_the_front(end, words) -> None:
    assert side_of((0, 0), end) == words


def test_the_plot_is_drawn_to_scale_with_the_outside_walls_and_the_way_to_the_nearest_point() -> None:
    page = plan_page(*large())
    view = page.view.plot.drawing
    tree, frame = ElementTree.fromstring(re.sub(" id=", " data-id=", str(plan(view)))), frame_of(view)

    def corners(kind: str) -> list[list[tuple[float, float]]]:
        return [[tuple(map(float, pair)) for pair in re.findall(r"(-?[\d.]+)[ ,](-?[\d.]+)", one.attrib["d"])]
                for one in tree.iter("path") if kind in one.attrib.get("class", "").split()]

    boundary, = corners("boundary")
    back = [(frame.left_m + (x - frame.inset) / frame.scale, frame.back_m - (y - 30) / frame.scale) for x, y in boundary]
    written = large()[0].job.premises.boundary_m
    assert len(back) == len(written) and all(math.dist(one, other) < 0.02 for one, other in zip(back, written))
    reach, = corners("reach")
    assert math.dist(*reach) == pytest.approx(4.0 * frame.scale, abs=0.05)
    assert all(0 <= x <= 340 for x, _ in boundary) and len(view.walls) > 10 and {one.look for one in view.walls} != {None}
    labels, _ = placed(view, frame)
    assert {"".join(text for row in one.rows for _, text in row) for one in labels} >= {"S1", "4 m, 91 dB(A)"}
    assert [(one.name, one.value) for one in page.view.plot.facts] == [("Plot", "702 m²"), ("S1", "4 m to the left to the boundary, 91 dB(A) there at most")]


def test_the_plot_stands_on_the_page_after_the_storeys_with_its_own_anchors_and_its_marks_in_the_key() -> None:
    page = plan_page(*large())
    html = render(page, environment(translations())).html
    ids = re.findall(r' id="([^"]+)"', html)
    assert len(ids) == len(set(ids)) and html.index('id="storey-upper"') < html.index('id="plot"')
    assert {"boundary", "reach"} <= {one.mark for one in page.view.marks}
    # The storeys are drawn as large as without it.
    assert all(not sheet.drawing.boundary for sheet in page.view.sheets)


def test_nobody_but_the_installer_is_told_of_the_boundary() -> None:
    for pack in packs_of(JOBS / "curlew-house" / "job.yaml"):
        told = [page.path for page in pack.pages if "boundary of the plot" in str(page.view).lower() or "at the boundary" in str(page.view)]
        assert bool(told) == (pack.audience.value == "installer"), (pack.audience, told)
