"""Are views, ways in and gaps drawn as they were worked out, and does each label stand by its own mark, in its own room where there is room?

All read back from the printed drawing by an XML parser; the measures are those of the job and of the results, by no part of the drawing.
"""
import copy
import math
import re
from dataclasses import replace
from functools import cache
from itertools import pairwise
from types import SimpleNamespace

import pytest
from bs4 import BeautifulSoup

from generator.calc.results import compute
from generator.calc.unknown import Unknown
from generator.intake.job_reader import read_job
from generator.pages.drawing.layers import lost_layers
from generator.pages.drawing.page import plan_page
from generator.pages.drawing.views import DrawnSheet, RoomArea, WayLine
from generator.publish.drawing.frame import frame_of
from generator.publish.drawing.labels import Box
from generator.publish.drawing.layers import around, holds
from generator.publish.drawing.names import placed, text_width
from generator.publish.drawing.parts import REACH
from generator.publish.render import environment, render, translations
from generator.terms.show import amount
from tests.conftest import JOBS, packs_of, read_files, write_files
from tests.test_plan_drawing import Drawing, drawings, invented, large, near
from tests.test_plan_labels import over

STEP = 2.0


@cache
def soup() -> BeautifulSoup:
    papers, results, _ = large()
    return BeautifulSoup(render(plan_page(papers, results), environment(translations())).html, "html5lib")


def rings(sheet: Drawing, path) -> list[list[tuple[float, float]]]:
    """The rings of a path in metres."""
    found = []
    for part in path.get("d").split("M")[1:]:
        numbers = list(map(float, re.findall(r"-?[\d.]+", part)))
        found.append([sheet.metres(place) for place in zip(numbers[::2], numbers[1::2])])
    return found


def twice_area(ring) -> float:
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise([*ring, ring[0]])))


def test_what_each_detector_sees_is_drawn_at_both_heights_corner_by_corner_as_it_was_worked_out() -> None:
    _, results, _ = large()
    drawn = {(one.get("data-unit"), kind): (sheet, one) for sheet in drawings() for kind in ("seen", "seen-low") for one in sheet.all(kind)}
    assert {name for name, _ in drawn} == set(results.coverage.views) and len(drawn) == 14
    for (name, kind), (sheet, path) in drawn.items():
        region = getattr(results.coverage.views[name], "high" if kind == "seen" else "low")
        shown, computed = rings(sheet, path), [ring for piece in region.parts() for ring in piece]
        assert [len(ring) for ring in shown] == [len(ring) for ring in computed]
        assert all(near(one, (corner.x, corner.y)) for ring, own in zip(shown, computed) for one, corner in zip(ring, own)), name
        outer = sum(twice_area(ring) for ring in shown) / 2
        assert path.get("fill-rule") == "evenodd" and (len(shown) > len(region.parts()) or outer == pytest.approx(region.area_m2, rel=0.02))
        assert amount(region.area_m2, "m²") in path.find("title").text


def test_each_way_in_is_drawn_from_its_door_to_its_keypad_and_bears_its_seconds() -> None:
    papers, results, _ = large()
    ground, upper = drawings()
    marks = {unit.get("data-unit"): ground.mark(unit) for unit in ground.all("units")[0]}
    drawn, ways = ground.all("way"), results.routes.ways
    assert len(drawn) == len(ways) == 3 and not upper.all("way")
    for path, way in zip(drawn, ways):
        places = ground.off(path)
        assert near(places[-1], marks[way.unit]) and math.dist(places[0], papers.openings()[way.door.key][1].at_m) < 0.3
        assert all(near(one, other) for one, other in zip(places, way.route.stretches[0].places)) and len(places) == len(way.route.stretches[0].places) + 1
        assert amount(way.entry.value, "s") in ground.texts() and amount(way.entry.value, "s") in path.find("title").text
    assert sum("s" == text.split()[-1] for text in ground.texts()) == 3


def test_the_label_of_a_way_is_held_where_no_other_way_runs() -> None:
    view = large()[2].sheets[0].drawing
    frame = frame_of(view)
    for index, at in enumerate(holds(frame, view.ways)):
        others = [[frame.at(place) for place in one.points] for other, one in enumerate(view.ways) if other != index]
        own = [frame.at(place) for place in view.ways[index].points]
        assert off(at, own) < 0.1 and min(off(at, line) for line in others) > 4
    alone = WayLine("K1", "9 s", ((0.0, 0.0), (4.0, 0.0)), False, "")
    assert holds(frame, [alone])[0][0] == pytest.approx((frame.at((0, 0))[0] + frame.at((4, 0))[0]) / 2, abs=4)


def off(at, line) -> float:
    """How far a place lies off a line through corners."""
    def one(start, end) -> float:
        dx, dy = end[0] - start[0], end[1] - start[1]
        share = max(0.0, min(1.0, ((at[0] - start[0]) * dx + (at[1] - start[1]) * dy) / (dx * dx + dy * dy)))
        return math.dist(at, (start[0] + dx * share, start[1] + dy * share))
    return min(one(*pair) for pair in pairwise(line))


def test_each_gap_is_framed_where_its_opening_is_and_bears_its_number() -> None:
    _, results, view = large()
    bare = [way for way in results.coverage.ways if way.bare]
    ground, upper = drawings()
    assert not ground.all("unseen") and len(upper.all("unseen")) == len(bare) == 3
    holes = {one.find("title").text.partition(":")[0]: upper.off(one.find("path[@class='gap']")) for one in upper.all("opening")}
    for number, (path, way) in enumerate(zip(upper.all("unseen"), bare), 1):
        one, other, third, fourth = upper.off(path)
        ends = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in ((one, fourth), (other, third))]
        name = way.opening.replace("-", " ")
        assert f"{number}: {name}" in path.find("title").text and f"gap {number}" in upper.texts()
        assert all(min(math.dist(end, hole) for hole in holes[name]) < 0.06 for end in ends) and math.dist(*ends) > 0.5
        assert ("high" in path.get("class")) == (not way.reach.reached)
    labels, _ = placed(view.sheets[1].drawing, frame_of(view.sheets[1].drawing))
    gaps, frame = view.sheets[1].drawing.gaps, frame_of(view.sheets[1].drawing)
    for label in (one for one in labels if one.kind == "gap-name"):
        nearest = min(gaps, key=lambda gap: min(math.dist(place, label.box.middle) for place in around(frame, gap)))
        assert label.rows[0][0][1] == f"gap {nearest.number}"


def foreign(box: Box, corners, slack: float = 4.0) -> bool:
    """Whether a box reaches into a room by more than the slack. Every room here is held by its corners in straight turns."""
    xs = [box.x + slack + share * (box.width - 2 * slack) / 12 for share in range(13)]
    ys = [box.y + slack + share * (box.height - 2 * slack) / 6 for share in range(7)]
    return any(holds_point(corners, x, y) for x in xs for y in ys)


def holds_point(corners, x: float, y: float) -> bool:
    met = 0
    for (ax, ay), (bx, by) in pairwise([*corners, corners[0]]):
        if (ay > y) != (by > y) and x < ax + (bx - ax) * (y - ay) / (by - ay):
            met += 1
    return bool(met % 2)


def length_to(box: Box, at) -> float:
    return math.dist(at, (min(max(at[0], box.x), box.x + box.width), min(max(at[1], box.y), box.y + box.height)))


def strangers(view: DrawnSheet) -> list[str]:
    """The labels on a drawing that are nearer to the mark of another unit than to their own."""
    frame = frame_of(view)
    labels = [one for one in placed(view, frame)[0] if one.unit and one.box.y + one.box.height <= frame.height]
    return [one.unit.name for one in labels for other in view.units
            if other.name != one.unit.name and length_to(one.box, frame.at(other.at)) < length_to(one.box, one.mark) - 1e-6]


def test_no_label_is_nearer_to_the_mark_of_another_unit_than_to_its_own() -> None:
    for sheet in large()[2].sheets:
        assert not strangers(sheet.drawing)


@pytest.mark.parametrize("seed", range(12))
def test_nor_on_an_invented_plan(seed: int) -> None:
    assert not strangers(invented(seed))


def test_a_label_lies_in_its_own_room_or_in_the_open_unless_neither_has_room() -> None:
    checked, away = 0, []
    for sheet in large()[2].sheets:
        view = sheet.drawing
        frame = frame_of(view)
        labels, _ = placed(view, frame)
        rooms = {room.key: [frame.at(place) for place in room.corners] for room in view.rooms}
        for one in (one for one in labels if one.unit):
            if any(foreign(one.box, corners) for key, corners in rooms.items() if key != one.unit.room):
                assert not room_left(view, frame, labels, one, rooms), one.unit.name
                away.append(one.unit.name)
            checked += 1
    # The store room is full with its name and two units.
    assert checked == 34 and away == ["CU"]


def room_left(view, frame, labels, own, rooms) -> bool:
    """Whether its own room has a free place for a label, tried step by step."""
    corners = rooms.get(own.unit.room)
    if not corners:
        return False
    taken = [one.box for one in labels if one is not own]
    taken += [Box(x - REACH[one.kind], y - REACH[one.kind], 2 * REACH[one.kind], 2 * REACH[one.kind]) for one in view.units for x, y in [frame.at(one.at)]]
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    y = min(ys)
    while y + own.box.height <= max(ys):
        x = min(xs)
        while x + own.box.width <= max(xs):
            box = own.box._replace(x=x, y=y)
            if not any(over(box, one) for one in taken) and all(holds_point(corners, *place) for place in
                                                               ((x + .1, y + .1), (x + box.width - .1, y + box.height - .1))):
                return True
            x += STEP
        y += STEP
    return False


def test_names_of_rooms_side_by_side_stand_apart() -> None:
    """Two rooms, each as broad as its name and no broader: in one row the names would touch at the wall."""
    name = "a" * 8 + " " + "b" * 9
    rooms = tuple(RoomArea(name, ((x, 0.0), (x + 5, 0.0), (x + 5, 4.0), (x, 4.0)), (x + 2.5, 2.0), f"r{x}") for x in (0.0, 5.0))
    view = replace(large()[2].sheets[0].drawing, rooms=rooms, walls=(), openings=(), things=(), stairs=(), units=(), links=(), ways=(), areas=())
    one, other = (label for label in placed(view, frame_of(view))[0] if label.kind == "room")
    width = max(text_width(text) for row in one.rows for _, text in row)
    assert len(one.rows) == 2 and other.box.middle[0] - one.box.middle[0] - width > 12


def test_links_are_shown_at_first_and_ways_and_views_where_there_are_any_without_a_script() -> None:
    sheets = [one for one in soup().select("fieldset.sheet") if not one.select("#plot-once")]
    boxes = [[(one["class"][0], one.has_attr("checked")) for one in sheet.select("input[type=checkbox]")] for sheet in sheets]
    assert boxes == [[("of-links", True), ("of-ways", False), ("of-views", False)], [("of-links", True), ("of-views", False)]]
    labels = [[one.get_text() for one in sheet.select("label.layer")] for sheet in sheets]
    assert labels == [["Links", "Ways in", "Views"], ["Links", "Views and gaps"]]
    for sheet in sheets:
        assert [one["id"] for one in sheet.select("input")] == [one["for"] for one in sheet.select("label")]
        # The style sheet hides what follows its box: the drawing must be a later sibling.
        assert all(box.find_next_sibling("div", class_="plan") for box in sheet.select("input[type=checkbox]"))


def test_the_same_stands_in_words_and_in_the_key() -> None:
    view = large()[2]
    ground, upper = view.sheets
    assert [(one.name, one.value) for one in ground.ways] == [
        (f"{name} to {way.unit}", f"{amount(way.route.flat_m, 'm')}, {amount(way.entry.value, 's')} needed")
        for name, way in zip(("Front door", "Back door", "Back door"), large()[1].routes.ways, strict=True)]
    assert [one.name for one in ground.seen] == ["M1", "M2", "M3", "M4", "M5", "M7"] and re.fullmatch(r"[\d.]+ m² at 0.3 m, [\d.]+ m² at 1.2 m", ground.seen[0].value)
    assert [(one.name, one.value) for one in upper.gaps] == [("Gap 1", "main bedroom window, no detection, out of reach"), ("Gap 2", "bathroom window, no detection, out of reach"),
                                                             ("Gap 3", "bedroom 3 window, no detection, out of reach")]
    key = {one.mark: one.text for one in view.marks}
    assert {"way", "seen", "seen-low", "gap-high"} < key.keys() and not {"way-slow", "gap"} & key.keys()
    assert "1.2 m above" in key["seen"] and "0.3 m above" in key["seen-low"]
    assert ground.drawing.says == ("Ground floor and outbuilding seen from above: 26 units, 2 short links, 7 links with little to spare, 16 links with enough, "
                                   "3 ways in, 6 views. The same in words below.")
    assert "16 links with enough" in soup().get_text(" ") and "enoughs" not in soup().get_text(" ")


@pytest.fixture(scope="module")
def worse(tmp_path_factory):
    """The large job with an entry time that is too short, a window that nothing watches, and a detector without a place."""
    files = copy.deepcopy(read_files(JOBS / "curlew-house"))
    del files["job"]["devices"]["D5"]
    files["job"]["devices"]["M4"].pop("at_m")
    files["job"]["times"]["entry_s"] = "20"
    papers = read_job(write_files(files, tmp_path_factory.mktemp("worse") / "job")).papers
    results = compute(papers)
    return papers, results, plan_page(papers, results).view


def test_a_way_that_takes_too_long_and_a_gap_within_reach_have_a_look_of_their_own(worse) -> None:
    _, _, view = worse
    ground = Drawing(view.sheets[0].drawing)
    slow = ground.all("slow")
    assert [one.get("data-unit") for one in slow] == ["K1"] and "24.8 s, too long" in ground.texts() and "17.5 s" in ground.texts()
    assert "longer than is programmed" in slow[0].find("title").text
    (gap,) = ground.all("unseen")
    assert gap.get("class").split() == ["unseen", "steady"] and "kitchen window" in gap.find("title").text
    assert {"way", "way-slow", "gap", "gap-high"} < {one.mark for one in view.marks}


def test_what_could_not_be_worked_out_is_named_with_the_reason(worse) -> None:
    papers, results, view = worse
    assert "The view of M4: not drawn, because" in view.lost[0] and not large()[2].lost
    lacking = SimpleNamespace(coverage=SimpleNamespace(views={}, ways=()), routes=SimpleNamespace(
        lacks="", doors=(SimpleNamespace(found=Unknown("K1 has no place"), door=SimpleNamespace(key="back-door")),)))
    assert lost_layers(papers, lacking) == ("The way in from back door: not drawn, because K1 has no place.",)


def test_a_way_over_two_storeys_bears_its_seconds_where_it_ends() -> None:
    view = large()[2].sheets[0].drawing
    onward = replace(view, ways=(replace(view.ways[0], label=""),))
    drawing = Drawing(onward)
    assert len(drawing.all("way")) == 1 and not [text for text in drawing.texts() if text.endswith(" s")]


def test_nobody_but_the_installer_gets_a_view_a_way_or_a_gap() -> None:
    env = environment(translations())
    for pack in packs_of(JOBS / "curlew-house" / "job.yaml"):
        there = [page.path for page in pack.pages if re.search(r'<(?!p |span )[a-z]+ [^>]*class="(seen|way|unseen)[ "]', render(page, env).html)]
        assert there == (["plan.html"] if pack.audience.value == "installer" else [])
