"""Does each hold point stop the installer on the side of its step that the trade says, on the phone's screens without a script and on paper?

Which work each hold point holds: common practice, no source. Before a hole one scans (BS 7671, 522.6, the zones of wiring, from memory); mains is
proved dead before a cover is opened.
"""
import re
from collections.abc import Iterator

import pytest
from bs4 import BeautifulSoup, Tag

from generator.intake.job_reader import read_job
from generator.calc.results import compute
from generator.pipeline import compile_job
from generator.procedure import messages
from generator.procedure.step import Step
from generator.procedure.steps import procedure
from generator.terms.audience import Audience
from tests.conftest import JOBS
from tests.test_hand import told
from tests.test_step_pages import html, words

LARGE = JOBS / "curlew-house" / "job.yaml"
# After what it asks for has been done, or before the work that it holds; the steps by how their names begin.
AFTER = {"H1": ["read-pack"], "H2": ["walk-round"], "H3": ["asbestos"], "H4": ["climb-listen-s1", "climb-fix-s1"], "H5": ["background"], "H6": ["signal-"], "H7": ["isolate", "off-s1"], "H9": ["on-s1"],
         "H10": ["enrol-"], "H11": ["read-back"], "H12": ["on-test"], "H13": ["train-"], "H14": ["off-test"]}
BEFORE = {"H7": ["power-mains", "power-R1", "test-CU", "test-s1"], "H8": ["cable-entry", "fix-"], "H9": ["power-battery"], "H4": ["lid-s1"]}
SIDES = [*((id, "after", names) for id, names in AFTER.items()), *((id, "before", names) for id, names in BEFORE.items())]


@pytest.fixture(scope="module")
def large() -> dict[str, BeautifulSoup]:
    return html(LARGE)


@pytest.fixture(scope="module")
def day() -> tuple[Step, ...]:
    papers = read_job(LARGE).papers
    return procedure(papers, compute(papers))


def screens(pages: dict[str, BeautifulSoup]) -> Iterator[Tag]:
    """The screens in the order in which a thumb comes to them, from the first page of steps on, by what their bars say is next."""
    path, anchor = "steps/arrive.html", ""
    while path.startswith("steps/"):
        page = pages[path]
        anchor = anchor or page.select_one(".show a")["href"][1:]
        screen = page.find(id=anchor).find_parent("section")
        yield screen
        target, _, anchor = screen.select(".thumb .act")[-1]["href"].partition("#")
        path = target.removeprefix("../") or path


def named(pages: dict[str, BeautifulSoup]) -> list[str]:
    """Those screens by name: "fix-m1", and "H8 fix-m1" for its hold point."""
    return [" ".join(filter(None, (one.get("data-hold"), one["data-step"]))) for one in screens(pages)]


@pytest.mark.parametrize("id, side, begins", SIDES, ids=[f"{id} {side}" for id, side, _ in SIDES])
def test_each_hold_point_is_met_on_its_own_side_of_its_steps_and_links_pass_none_by(large, id: str, side: str, begins: list[str]) -> None:
    order = named(large)
    found = [one for one in order if one.startswith(f"{id} ")]
    here = [one for one in found if (order.index(one.split()[1]) > order.index(one)) == (side == "before")]
    assert here and all(any(one.split()[1].startswith(name.lower()) for name in begins) for one in here)
    for name in begins:
        wanted = [one for one in order if " " not in one and one.startswith(name.lower())]
        assert wanted and all(f"{id} {one}" in here for one in wanted), name
    for one in here:
        assert order.index(one.split()[1]) - order.index(one) == (1 if side == "before" else -1)


def test_the_bars_lead_through_every_screen_of_the_day_once_in_the_order_in_which_they_are_printed(large) -> None:
    printed = [" ".join(filter(None, (one.get("data-hold"), one["data-step"]))) for path, page in large.items() if path.startswith("steps/")
               for one in page.select("section.step")]
    assert named(large) == printed and len(set(printed)) == len(printed)


# What each holds, by names of screens: all of these come later than every screen of it.
HELD = {"H1": ("walk-round", "signal-"), "H2": ("place", "fix-"), "H9": ("lid-s1", "enrol-r1"), "H5": ("signal-",), "H11": ("test-",),
        "H12": ("enrol-", "test-", "signal-h1"), "H13": ("off-test",), "H14": ("sign",)}


@pytest.mark.parametrize("id", HELD)
def test_what_a_hold_point_holds_comes_after_it(large, id: str) -> None:
    order = named(large)
    last = max(index for index, one in enumerate(order) if one.startswith(f"{id} "))
    for name in HELD[id]:
        later = [index for index, one in enumerate(order) if one.startswith(name) and (name != "sign" or one == name)]
        assert later and min(later) > last, name


def test_two_people_are_asked_for_right_before_each_visit_up_and_the_day_goes_on_without_them(large, day) -> None:
    order, found = named(large), {step.id: step for step in day}
    assert order.index("signal-s1") - order.index("H4 climb-listen-s1") == 1 and order.index("H4 climb-listen-s1") < order.index("signal-s1")
    assert order.index("H4 climb-fix-s1") + 1 == order.index("off-s1") < order.index("H8 fix-s1")
    # The ladder stood alone while the control unit came on again: who goes up once more is asked once more.
    assert order.index("on-s1") < order.index("H4 lid-s1") == order.index("lid-s1") - 1
    assert found["ladder"].hold is None and "All else goes on" in " ".join(found["ladder"].do)
    screen = large["steps/fix.html"].find(id="hold-climb-fix-s1").find_parent("section")
    assert words(screen.select_one(".else")) == "If not, leave S1 with its ladder steps for another day, the ladder away; what needs no ladder goes on."
    assert words(large["steps/fix.html"].find(id="hold-fix-d1").find_parent("section").select_one(".else")) == "If not, stop here and ask the office."


def test_the_screen_of_the_first_hold_point_shows_the_twelve_signs_that_stand_at_the_foot(large) -> None:
    mark = compile_job(LARGE)
    signs = mark.fingerprint_of[Audience.INSTALLER][:12]
    screen = words(large["steps/arrive.html"].find(id="hold-read-pack").find_parent("section"))
    assert f"This pack: {signs}, " in screen and signs in words(large["paper.html"])


def test_no_hole_is_made_before_asbestos_is_cleared_and_its_place_scanned(large, day) -> None:
    order = named(large)
    drilled = [step.anchor for step in day if messages.DRILLING in step.messages and step.id != "services"]
    assert len(drilled) > 30 and all(order.index("H3 asbestos") < order.index(f"H8 {one}") == order.index(one) - 1 for one in drilled)


def test_no_mains_wire_is_touched_before_it_is_proved_dead_where_the_wire_is(large, day) -> None:
    order = named(large)
    for one in ("power-mains", "power-r1"):
        assert order.index("isolate") < order.index("H7 isolate") < order.index(f"H7 {one}") == order.index(one) - 1
    touched = [step.id for step in day if any("joins its wires" in line or "fixed and fused" in line for line in step.do)]
    assert sorted(touched) == ["power-R1", "power-mains"]


def test_each_link_is_heard_before_its_unit_is_fixed_and_each_number_proved_before_it_is_tested(large) -> None:
    order = named(large)
    for first, later in (("H6 signal-", "fix-"), ("H10 enrol-", "test-")):
        held = [one for one in order if one.startswith(first)]
        assert len(held) > 30
        assert all(order.index(one) < order.index(f"{later}{one.removeprefix(first)}") for one in held if f"{later}{one.removeprefix(first)}" in order)


def test_a_hold_point_before_a_step_says_before_which_work_and_where_and_the_step_names_it(large) -> None:
    screen = large["steps/fix.html"].find(id="hold-fix-d1").find_parent("section")
    assert "Before: Fix D1. Room: hall. Place: lock side, top third. Height: 1.85 m" in words(screen)
    step = screen.find_next_sibling("section")
    order = [one.get("class", [""])[0] for one in step.find_all(class_=["then", "do"])]
    assert words(step.select_one(".then")) == "Hold point H8 before this" and order == ["then", "do"]


def test_on_paper_a_hold_point_has_its_row_on_the_same_side(large) -> None:
    seen = {"before": 0, "after": 0}
    for body in large["paper.html"].select(".day tbody"):
        rows = [one["class"][0] for one in body.select("tr[class]") if one["class"][0] in ("held", "head")]
        if "held" in rows:
            said = re.search(r"HOLD POINT H\d+, (before|after) the step\. Do not go on until:", words(body.select_one(".held")))[1]
            assert rows == (["held", "head"] if said == "before" else ["head", "held"])
            seen[said] += 1
    assert seen["before"] == len(large["steps/fix.html"].select("[data-hold=H8]")) + 8 and seen["after"] > 80


def test_the_script_is_told_the_side_and_led_to_a_hold_point_that_stands_before(day) -> None:
    hand = {one.id: one for one in told(compile_job(LARGE)).steps}
    for step in day:
        own = hand[step.anchor]
        assert own.page.partition("#")[2] == (f"hold-{step.anchor}" if step.hold and step.hold.before else step.anchor)
        assert own.hold == (f"{step.hold.id}, {step.hold.side} its step: {step.hold.until}" if step.hold else "")
    assert hand["fix-m1"].hold.startswith("H8, before its step: ")
