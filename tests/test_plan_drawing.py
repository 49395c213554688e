"""Is the drawing the plan that links are worked out in: every wall once, every unit in its room, every opening in its wall, every link?"""
import copy
import math
import random
import re
from collections import Counter
from functools import cache
from types import SimpleNamespace
from xml.etree import ElementTree

import pytest

from generator.calc.results import compute
from generator.calc.unknown import Unknown
from generator.geometry.house import house_of
from generator.intake.job_reader import read_job
from generator.pages.drawing.links import level_of
from generator.pages.drawing.page import plan_page
from generator.pages.drawing.units import proposed_places
from generator.pages.drawing.views import DrawnSheet, Proposed, RoomArea, ThingArea, UnitMark, WallLine
from generator.publish.drawing.frame import frame_of
from generator.publish.drawing.names import placed
from generator.publish.drawing.storey import plan
from generator.publish.render import environment, render, translations
from tests.conftest import DEMO, JOBS, packs_of, read_files, write_files
from tests.test_plan_labels import clashes
from tests.test_way import in_room

NUMBERS = re.compile(r"-?\d+(?:\.\d+)?")
LARGE = read_files(JOBS / "curlew-house")
ROUNDED = 0.06


def shown(tmp_path, *changes, proposed=()):
    """Papers, results and the page's view of the large job, changed."""
    files = copy.deepcopy(LARGE)
    for change in changes:
        change(files["job"])
    papers = read_job(write_files(files, tmp_path / "job")).papers
    results = compute(papers)
    return papers, results, plan_page(papers, results, proposed).view


@cache
def large():
    papers = read_job(JOBS / "curlew-house" / "job.yaml").papers
    results = compute(papers)
    return papers, results, plan_page(papers, results).view


class Drawing:
    """A drawing as it was printed, read back by an XML parser; places in metres by its own scale bar and its first wall."""

    def __init__(self, sheet: DrawnSheet) -> None:
        self.tree = ElementTree.fromstring(str(plan(sheet)))
        bar = self.one("scale").get("d")
        metres = next(text for text in self.texts() if re.fullmatch(r"\d+ m", text))
        self.scale = float(re.search(r"h(-?[\d.]+)", bar)[1]) / float(metres.split()[0])
        (x, y), (right, back) = self.ends(self.all("body")[0])[0], sheet.walls[0].start
        self.left, self.top = x - right * self.scale, y + back * self.scale

    def all(self, kind: str):
        return [one for one in self.tree.iter() if kind in (one.get("class") or "").split()]

    def one(self, kind: str):
        (found,) = self.all(kind)
        return found

    def texts(self) -> list[str]:
        return [" ".join("".join(one.itertext()).split()) for one in self.tree.iter("text")]

    @staticmethod
    def ends(path) -> list[tuple[float, float]]:
        numbers = list(map(float, NUMBERS.findall(path.get("d"))))
        return list(zip(numbers[::2], numbers[1::2]))

    def metres(self, point) -> tuple[float, float]:
        return (point[0] - self.left) / self.scale, (self.top - point[1]) / self.scale

    def off(self, path) -> list[tuple[float, float]]:
        return [self.metres(one) for one in self.ends(path)]

    def mark(self, unit):
        found = next(one for one in unit if "mark" in (one.get("class") or ""))
        if found.tag == "circle":
            return self.metres((float(found.get("cx")), float(found.get("cy"))))
        if found.tag == "rect":
            return self.metres((float(found.get("x")) + float(found.get("width")) / 2, float(found.get("y")) + float(found.get("height")) / 2))
        points = self.ends(found)
        return self.metres((sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)))


@cache
def drawings() -> tuple[Drawing, ...]:
    return tuple(Drawing(sheet.drawing) for sheet in large()[2].sheets)


def near(one, other) -> bool:
    return math.dist(one, other) < ROUNDED


def test_each_wall_of_the_house_is_drawn_once_with_its_ends() -> None:
    house = house_of(large()[0].job.premises)
    drawn = [(one.find("title").text, *sheet.off(one)) for sheet in drawings() for one in sheet.all("body")]
    assert len(drawn) == len(house.walls) == 59
    left = list(house.walls)
    for _, start, end in drawn:
        match = [one for one in left if near(one.wall.start, start) and near(one.wall.end, end)]
        assert match, (start, end)
        left.remove(match[0])
    assert not left


def test_each_construction_has_a_look_of_its_own_and_stands_in_the_key_with_its_thickness() -> None:
    _, _, view = large()
    keys = {one.look: one.text for one in view.walls}
    assert len(keys) == len(view.walls) == 6 and keys[0] == "cavity-brick: cavity wall, brick outside and block inside, 290 mm"
    looks = {}
    for sheet in drawings():
        cells = {one.get("d"): one.get("stroke-dasharray", "whole") for one in sheet.all("cells")}
        for one in sheet.all("body"):
            built = one.find("title").text.partition(": ")[2].partition(",")[0]
            looks.setdefault(built, set()).add(cells.get(one.get("d"), "none"))
    assert {len(one) for one in looks.values()} == {1} and len(set(map(str, looks.values()))) == len(looks) == 6


def corners(room: dict) -> list[tuple[float, float]]:
    if "outline_m" in room:
        return [(float(x), float(y)) for x, y in room["outline_m"]]
    (x, y), (width, depth) = (map(float, room[key]) for key in ("corner_m", "size_m"))
    return [(x, y), (x + width, y), (x + width, y + depth), (x, y + depth)]


def test_every_unit_stands_in_its_room_and_those_in_the_open_in_none() -> None:
    """The rooms as the job file writes them, the places as the drawing shows them."""
    papers, results, view = large()
    storeys = LARGE["job"]["premises"]["storeys"]
    rooms = {name: corners(room) for storey in storeys.values() for name, room in storey["rooms"].items()}
    seen = {}
    for sheet in drawings():
        for unit in sheet.all("units")[0]:
            seen[unit.get("data-unit")] = sheet.mark(unit)
    assert seen.keys() | {"F1", "F2", "TG1", "TG2"} == {"CU", *papers.job.devices}
    assert {one.unit.text for one in view.elsewhere} == {"F1", "F2", "TG1", "TG2"}
    for name, place in seen.items():
        room = papers.job.control_unit.room if name == "CU" else papers.room_of(papers.job.devices[name])
        if room == "outside":
            assert not any(in_room(one, *place) for key, one in rooms.items() if key in storeys["upper"]["rooms"]), name
        else:
            assert in_room(rooms[room], *place), (name, room, place)


def test_every_opening_lies_in_its_wall_as_wide_as_it_is() -> None:
    papers, _, _ = large()
    drawn = [(one.find("title").text.partition(":")[0], sheet.off(one.find("path[@class='gap']"))) for sheet in drawings()
             for one in sheet.all("opening")]
    assert Counter(name for name, _ in drawn) == Counter(key.replace("-", " ") for key in papers.openings())
    walls = house_of(papers.job.premises).walls
    for name, (start, end) in drawn:
        opening = papers.openings()[name.replace(" ", "-")][1]
        assert math.dist(start, end) == pytest.approx(opening.width_m, abs=ROUNDED)
        assert near(((start[0] + end[0]) / 2, (start[1] + end[1]) / 2), opening.at_m)
        assert any(set(one.wall.places) == set(opening.wall) and abs(math.dist(one.wall.start, start) + math.dist(start, one.wall.end)
                                                                   - one.wall.length_m) < ROUNDED for one in walls)


def test_the_ways_in_are_marked_from_outside() -> None:
    ground = drawings()[0]
    wedges = [ground.off(one) for one in ground.all("entry")]
    tips = sorted((round(points[0][0], 1), round(points[0][1], 1)) for points in wedges)
    assert [x for x, _ in tips] == [5.0, 8.6] and tips[0][1] < 0 and tips[1][1] > 8
    assert all(abs(points[1][1] - 4) > abs(points[0][1] - 4) for points in wedges), "the point is nearest to the door"


def test_each_link_is_drawn_from_its_unit_to_who_hears_it_in_the_class_of_its_reserve() -> None:
    papers, results, view = large()
    marks = {unit.get("data-unit"): (index, sheet.mark(unit)) for index, sheet in enumerate(drawings()) for unit in sheet.all("units")[0]}
    links = {one.get("data-unit"): (index, one.get("class").split(), sheet.off(one)) for index, sheet in enumerate(drawings())
             for one in sheet.all("link")}
    assert set(links) == set(results.links.units) - {"F1", "F2"} and sum(len(sheet.all("link")) for sheet in drawings()) == len(links) == 33
    for name, (index, kinds, (start, end)) in links.items():
        one = results.links.units[name]
        margin, wanted = one.link.margin_db(one.link.worse), one.link.required.value
        assert kinds[1] == ("short" if margin < wanted else "little" if margin < 2 * wanted else "enough"), name
        assert marks[name][0] == index and near(start, marks[name][1])
        if marks[one.heard_by][0] == index:
            assert near(end, marks[one.heard_by][1]) and "stub" not in kinds
        else:
            assert "stub" in kinds and 0.3 < math.dist(start, end) < 2
            heading = [math.atan2(b[1] - start[1], b[0] - start[0]) for b in (end, marks[one.heard_by][1])]
            assert abs(math.remainder(heading[0] - heading[1], math.tau)) < 0.05
    assert Counter(kinds[1] for _, kinds, _ in links.values()) == {"enough": 22, "little": 8, "short": 3}


def test_a_unit_that_is_heard_on_another_storey_says_where_and_one_on_its_own_does_not() -> None:
    _, _, view = large()
    far = {one.name: one.far for sheet in view.sheets for one in sheet.drawing.units}
    assert far["D8"] == far["M6"] == far["S1"] == "↓CU" and far["D1"] == far["CU"] == far["D11"] == ""
    assert "D8 18 ↓CU" in drawings()[1].texts() and "D1 1" in drawings()[0].texts()


@pytest.mark.parametrize(("reserve", "level"), [(-0.01, "short"), (0.0, "little"), (14.99, "little"), (15.0, "enough")])
def test_a_link_is_sorted_by_its_reserve_and_the_margin_that_is_wanted_and_by_nothing_else(reserve: float, level: str) -> None:
    assert level_of(SimpleNamespace(reserve_db=reserve, required=SimpleNamespace(value=15.0))) == level


def test_the_outbuilding_stands_where_it_is_and_one_far_off_has_a_drawing_of_its_own(tmp_path) -> None:
    _, _, view = large()
    assert [one.drawing.title for one in view.sheets] == ["Ground floor and outbuilding", "Upper floor"]

    def away(job) -> None:
        del job["premises"]["boundary_m"]
        shed = job["premises"]["storeys"]["outbuilding"]
        for one in (*shed["rooms"].values(), *shed["furniture"].values()):
            one["corner_m"] = [one["corner_m"][0], str(float(one["corner_m"][1]) + 60)]
        for one in (*shed["openings"].values(), *(job["devices"][name] for name in ("D11", "D12", "M7"))):
            one["at_m"] = [one["at_m"][0], str(float(one["at_m"][1]) + 60)]
    _, _, view = shown(tmp_path, away)
    assert [one.drawing.title for one in view.sheets] == ["Ground floor", "Upper floor", "Outbuilding"]
    assert {one.far for one in view.sheets[2].drawing.units} == {"↑R1"} and all(not one.whole for one in view.sheets[2].drawing.links)


def test_roofs_lie_on_the_storey_that_is_nearest_in_height_and_stairs_on_both() -> None:
    ground, upper = (one.drawing for one in large()[2].sheets)
    assert [one.name for one in upper.things if "roof" in one.marks] == ["porch", "garage roof", "log store roof"]
    assert not any("roof" in one.marks for one in ground.things)
    assert [one.up for one in ground.stairs] == [True] and [one.up for one in upper.stairs] == [False]
    assert {mark for one in ground.things for mark in one.marks} == {"metal", "heat"}


def test_a_roof_too_narrow_to_stand_on_is_not_said_to_be_one(tmp_path) -> None:
    """UL 1641, read second-hand: a surface counts from 1.2 m of width."""
    def said(view) -> str:
        return next(one.says for one in view.sheets[1].drawing.things if one.name == "log store roof")
    assert "2 m above the ground, one can stand on it; can be reached" in said(large()[2])
    _, _, view = shown(tmp_path, lambda job: job["premises"]["roofs"]["log-store-roof"].update(size_m=["1.9", "1.0"]))
    assert "narrower than 1.2 m, not counted as something to stand on" in said(view) and "one can stand" not in said(view)


def test_links_are_counted_in_the_plural() -> None:
    words = " ".join(one.drawing.says for one in large()[2].sheets)
    assert re.search(r"\d\d links with enough", words) and not re.search(r"link with enoughs|spares\b|shorts\b|outs\b", words)


def test_front_and_north_are_marked_where_the_job_says_it(tmp_path) -> None:
    ground = drawings()[0]
    assert "Front, faces south" in ground.texts() and "N" in ground.texts()
    (x, foot), (tip_x, tip) = ground.ends(ground.one("north"))[:2]
    assert x == tip_x and tip < foot, "the front faces south, so north is away from it"

    _, _, east = shown(tmp_path, lambda job: job["premises"].update(front_deg="90"))
    turned = Drawing(east.sheets[0].drawing)
    (x, y), (tip_x, tip_y) = turned.ends(turned.one("north"))[:2]
    assert "Front, faces east" in turned.texts() and y == tip_y and tip_x > x, "who faces the front from the east has north on the right"

    _, _, unknown = shown(tmp_path, lambda job: job["premises"].pop("front_deg"))
    assert Drawing(unknown.sheets[0].drawing).all("north") == [] and "Front" in Drawing(unknown.sheets[0].drawing).texts()


def test_what_has_no_measures_is_not_drawn_but_named_with_what_to_write(tmp_path) -> None:
    def less(job) -> None:
        ground = job["premises"]["storeys"]["ground"]
        ground["openings"]["study-window"].pop("width_m")
        ground["openings"]["back-door"].pop("at_m")
        ground["rooms"]["larder"] = {}
        job["premises"]["stairs"]["main"]["head"].pop("at_m")
        job["premises"]["storeys"]["ground"]["walls"].pop("inside")
        job["devices"]["M4"].pop("at_m")
        job["devices"]["M5"].pop("height_m")
    _, _, view = shown(tmp_path, less)
    assert view.missing == (
        "Larder: not drawn, because no measures are given; write corner_m and size_m, or outline_m, in premises.storeys.ground.rooms.",
        "Back door: not drawn, because not all measures are given; write at_m in premises.storeys.ground.openings.",
        "Study window: not drawn, because not all measures are given; write width_m in premises.storeys.ground.openings.",
        "Stairs main: not drawn, because not both ends have a place; write head.at_m in premises.stairs.main.",
        "M4: not drawn, because M4 has no place in the plan; write at_m in job.devices.M4.",
        "M5: not drawn, because the height of M5 is not known; write height_m in job.devices.M5.")
    assert {"M4 · zone 25", "M5 · zone 26"} < {one.unit.text for one in view.elsewhere}
    assert view.walls[-1].look is None and "stairs" not in {one.mark for one in view.marks}
    assert re.match(r"32 units and 31 links drawn. 6 units are carried or without a place: below. .* \d+ links could not be worked out.$", view.answer)
    levels = {one.unit: one.level for sheet in view.sheets for one in sheet.drawing.links}
    assert levels["D1"] == "unknown", "its way crosses a wall of which nobody says how it is built"


def test_a_job_without_a_plan_says_in_one_sentence_what_to_write() -> None:
    papers = read_job(DEMO / "job.yaml").papers
    page = plan_page(papers, compute(papers))
    assert page.view.sheets == page.view.missing == page.view.elsewhere == ()
    html = render(page, environment(translations())).html
    assert "<svg" not in html and "write corner_m and size_m, or outline_m, for each room" in html


def test_a_proposed_place_is_drawn_where_it_is_and_told_in_the_key(tmp_path) -> None:
    papers, results, plain = large()
    found = plan_page(papers, results, (Proposed("upper", 5.0, 3.0, "Repeater here"), Proposed("outbuilding", 3.5, 23.0, "or here"))).view
    for index, place, words in ((1, (5.0, 3.0), "Repeater here"), (0, (3.5, 23.0), "or here")):
        drawing = Drawing(found.sheets[index].drawing)
        points = drawing.off(drawing.one("proposed"))
        assert near((sum(x for x, _ in points) / 4, sum(y for _, y in points) / 4), place) and words in drawing.texts()
    assert found.sheets[1].things[-1].value == "5 m to the right, 3 m away from the front, as one faces the front from outside"
    assert "proposed" in {one.mark for one in found.marks} and "proposed" not in {one.mark for one in plain.marks}


def test_the_places_that_were_worked_out_for_repeaters_are_those_that_are_drawn() -> None:
    place = SimpleNamespace(storey="upper", x=5.0, y=3.0)
    assert proposed_places(SimpleNamespace(mends=SimpleNamespace(repeaters=Unknown("nothing is short"), left=("M4",)))) == ()
    assert proposed_places(SimpleNamespace(mends=SimpleNamespace(repeaters=(SimpleNamespace(label="R2", place=place),), left=("M4",)))) == (
        Proposed("upper", 5.0, 3.0, "R2"),)
    # What a receiver that is there or a near move mends asks for no repeater.
    assert proposed_places(SimpleNamespace(mends=SimpleNamespace(repeaters=(SimpleNamespace(label="R2", place=place),), left=()))) == ()


def test_the_same_stands_in_words_below(tmp_path) -> None:
    _, _, view = large()
    ground = view.sheets[0]
    rooms = {one.name: one.value for one in ground.rooms}
    assert rooms["Hall"] == ("10 m²; to outside: cavity-brick, 2 m; to study: block, 3 m; to cloakroom: block, 2 m; to kitchen: block, 2 m; "
                             "to sitting room: block, 5 m")
    units = {one.unit.text: one for one in ground.units}
    assert units["M4 · zone 25"].answer == "Short: heard by CU with −9.4 dB on the worse day, 10 wanted, 19.4 dB short."
    assert units["M4 · zone 25"].place == "Dining room, 2.2 m high"
    assert next(one for one in ground.openings if one.name == "Front door").value.startswith("way in, door, hall to outside; 0.9 m wide, 2 m high")


def test_every_label_has_its_place_on_the_demo() -> None:
    for sheet in large()[2].sheets:
        frame = frame_of(sheet.drawing)
        labels, height = placed(sheet.drawing, frame)
        assert not clashes([one.box for one in labels])
        assert {one.unit.name for one in labels if one.unit} == {one.name for one in sheet.drawing.units}
        words = [text for one in labels for row in one.rows for _, text in row]
        assert all(room.name in " ".join(words) for room in sheet.drawing.rooms)


def invented(seed: int) -> DrawnSheet:
    """A storey of rooms in rows, with units anywhere in it."""
    chance = random.Random(seed)
    rooms, things, y = [], [], 0.0
    for row in range(chance.randint(1, 4)):
        depth, x = chance.uniform(1.0, 5.0), 0.0
        for column in range(chance.randint(1, 5)):
            width = chance.uniform(0.8, 6.0)
            corners = ((x, y), (x + width, y), (x + width, y + depth), (x, y + depth))
            name = " ".join(chance.choice(("hall", "room", "WWWW", "store", "a" * 60, "upper bathroom")) for _ in range(chance.randint(1, 3)))
            rooms.append(RoomArea(name, corners, (x + width / 2, y + depth / 2)))
            if chance.random() < 0.3:
                things.append(ThingArea("garage roof", "a roof", corners, (x + width / 2, y + depth / 2), ("roof",)))
            x += width
        y += depth
    units = tuple(UnitMark(f"U{at}", f"u{at}", f"U{at}", ", ".join(str(at + more) for more in range(chance.randint(0, 3))), "d/x.html",
                           chance.choice(("unit", "repeater", "control")), (chance.uniform(0, 12), chance.uniform(0, y)), None,
                           chance.choice(("", "↓CU")), "a unit") for at in range(chance.randint(0, 60)))
    walls = tuple(WallLine("a wall", one.corners[0], one.corners[1], 0, 0.1) for one in rooms)
    return DrawnSheet("storey-x", "Storey", "A storey.", tuple(rooms), walls, (), tuple(things), (), units, (), (), "Front", None)


@pytest.mark.parametrize("seed", range(25))
def test_every_label_has_its_place_on_an_invented_plan(seed: int) -> None:
    view = invented(seed)
    labels, height = placed(view, frame_of(view))
    assert not clashes([one.box for one in labels])
    assert len([one for one in labels if one.unit]) == len(view.units)
    assert all(0 <= one.box.x and one.box.x + one.box.width <= 340 and one.box.y + one.box.height <= height for one in labels)
    ElementTree.fromstring(str(plan(view)))


def test_a_long_name_stands_on_the_drawing_as_its_short_reference(tmp_path) -> None:
    def long(job) -> None:
        job["devices"] = {("W1" + "W" * 30 if name == "W1" else name): one for name, one in job["devices"].items()}
    _, results, view = shown(tmp_path, long)
    (mark,) = [one for sheet in view.sheets for one in sheet.drawing.units if one.name.startswith("W1")]
    assert mark.label == results.references[mark.name] and len(mark.label) == 4


def test_every_text_passes_the_escape(tmp_path) -> None:
    name = 'Hall "<b>" & more'
    _, _, view = shown(tmp_path, lambda job: job["premises"]["storeys"]["ground"]["rooms"]["hall"].update(name=name))
    assert any(name in "".join(one.itertext()) for one in Drawing(view.sheets[0].drawing).tree.iter())


def test_the_page_leads_to_each_unit_and_back_and_holds_each_id_once() -> None:
    packs = packs_of(JOBS / "curlew-house" / "job.yaml")
    assert [pack.audience.value for pack in packs if any(page.template == "installer/plan.html.j2" for page in pack.pages)] == ["installer"]
    (pack,) = [pack for pack in packs if pack.audience.value == "installer"]
    pages = {page.path: page for page in pack.pages}
    env = environment(translations())
    html = render(pages["plan.html"], env).html
    ids = re.findall(r' id="([^"]+)"', html)
    assert len(ids) == len(set(ids)) and "plan.html" in render(pages["radio.html"], env).html
    hrefs = {one.get("href") for sheet in drawings() for one in sheet.tree.iter("a")}
    assert len(hrefs) == 34 and hrefs <= pages.keys()
    ways = {link.href for page in pages.values() for link in getattr(page.view, "figures", ()) if link.text == "On the plan"}
    assert {one.partition("#")[2] for one in ways} <= set(ids) and len(ways) == 34
    assert render(pages["plan.html"], env).html == html
    others = [render(page, env).html for pack in packs if pack.audience.value != "installer" for page in pack.pages]
    assert len(others) > 20 and not any("data-unit" in one or "stub" in one for one in others)
