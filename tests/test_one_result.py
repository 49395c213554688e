"""Has every test of the day one result, written at one step, and one line of the checklist, to which step, unit and call lead?

All of it: common practice, no source.
"""
import pytest

from generator.procedure.signing import in_words
from tests.conftest import JOBS
from tests.test_safety import drop
from tests.test_step_pages import html, phases, steps, words


@pytest.fixture(scope="module")
def large():
    return html(JOBS / "curlew-house" / "job.yaml")


def named(page, selector: str) -> dict[str, str]:
    """What the links of an element say, by where they lead."""
    return {one["href"].rpartition("/")[2]: words(one) for one in page.select(selector)}


def test_a_result_is_written_at_its_step_and_no_page_else_has_room_for_it(large) -> None:
    lines = [one["id"] for one in large["tests.html"].select("ul.checks > li")]
    assert len(lines) == len(set(lines)) > 500
    assert not [path for path, page in large.items() if path.startswith(("d/", "tests")) and page.select(".blanks, .blank")]
    for path, page in phases(large).items():
        assert not [step.h2["id"] for step in steps(page) if step.select(".result") and step.select(".blank")], path
    assert not [one for one in large["calls.html"].select("li") if one.select(".result") and one.select(".blank")]


def test_every_link_to_a_result_leads_to_a_line_or_to_a_unit_of_the_checklist(large) -> None:
    anchors = {one["id"] for one in large["tests.html"].select("[id]")}
    led = {href.partition("#")[2] for path, page in large.items() if path != "tests.html" for href in named(page, ".result a") if href.startswith("tests")}
    assert len(led) > 150 and led <= anchors


def test_step_unit_and_call_of_one_test_lead_to_one_line(large) -> None:
    step = next(one for one in steps(large["steps/test.html"]) if one.h2["id"] == "test-d1")
    call = next(one for one in large["calls.html"].select("li[id]") if "Zone 1, FRONT DOOR" in words(one) and "opened, then" not in words(one)
                and "Number and text" in words(one))
    of_step, of_call = named(step, ".result a"), named(call, ".result a")
    line = next(href for href, text in of_call.items() if text == "Number and text of D1")
    assert of_step[line] == "Number and text of D1" and of_step[f"calls.html#{call['id']}"] == "the call of zone 1"
    unit = next(page for path, page in large.items() if path.startswith("d/") and words(page.h1) == "D1")
    assert named(unit, ".result a") == {line.partition("-number")[0]: "every line of D1"}
    target = large["tests.html"].find(id=line.partition("#")[2])
    assert words(target).startswith("Number and text.")
    assert all("written at its step, on the phone or in the day on paper" in words(one.select_one(".result")) for one in (step, call, unit))


def test_a_step_made_unset_says_that_its_call_is_made_set_and_one_made_in_any_state_is_one_with_its_call(large) -> None:
    tests = {one.h2["id"]: words(one) for one in steps(large["steps/test.html"])}
    assert "read back in a call of its own, made set; here, unset, only what stands above: the call of zone 1" in tests["test-d1"]
    assert "this is the same test" not in tests["test-d1"]
    assert "this is the same test, made once, while the operator reads: the call of zone 48" in tests["test-sm2"] and "made set" not in tests["test-sm2"]
    assert "this is the same test, made once" in tests["tampers"] and "one unit of each kind, which has no call of its own" in tests["tampers"]
    states = {words(one.select_one(".what")): words(one) for one in large["calls.html"].select("li[id]") if "tamper" not in words(one)}
    assert "State: Set, exit time" in states["Zone 1, FRONT DOOR"] and "State: Unset; it acts in any state." in states["Zone 48, LAND SMOKE"]
    lines = [words(one) for one in large["tests.html"].select("ul.checks > li")]
    assert sum("shows zone 1 FRONT DOOR; in its call, with the system set, the monitoring station reads the same." in one for one in lines) == 1
    assert sum("shows zone 48 LAND SMOKE; in its call, with the system unset, the monitoring station reads the same." in one for one in lines) == 1


def test_the_order_of_the_tests_stands_once_at_the_head_of_their_phase(large, job_file) -> None:
    said = [words(one) for one in large["steps/test.html"].select("#order + ol > li")]
    assert [one.split()[0] for one in said] == ["First", "Then", "Last"]
    assert "First unset, from unit to unit" in said[0] and "made once" in said[0] and "Then set: the calls of each setting" in said[1]
    assert all("up to" not in one or "“Time the way in and out”" in one for one in said)
    assert not [path for path, page in phases(large).items() if page.select("#order") and path != "steps/test.html"]
    assert large["calls.html"].select('a[href$="steps/test.html#order"]')
    alone = html(job_file(drop("monitoring")))["steps/test.html"].select("#order + ol > li")
    assert len(alone) == 2 and not any("call" in words(one) for one in alone)


def test_a_call_that_no_line_asks_for_is_written_down_where_it_is_made(large) -> None:
    bare = [words(one.select_one(".what")) for one in large["calls.html"].select("li[id]") if one.select(".blank")]
    assert "Test sent by hand" in bare and not any(one.startswith("Zone") for one in bare)


def test_the_last_step_that_names_a_line_brings_its_result_and_those_before_only_make_ready(large) -> None:
    pages = {one.h2["id"]: one for page in phases(large).values() for one in steps(page)}
    assert "Fixing of S1" in named(pages["fix-s1"], ".result a").values()
    assert not pages["ladder"].select(".result") and "Asbestos cleared: Hall" in named(pages["asbestos"], ".result a").values() and pages["ladder"].select(".blank")
    assert "Battery fail of CU" in named(pages["battery-load"], ".result a").values()
    assert "Battery fail of CU" not in named(pages["power-battery"], ".result a").values()


def test_each_page_of_results_says_that_a_test_has_one_result(large) -> None:
    assert "Nothing is written here." in words(large["tests.html"]) and "one test with one result" in words(large["tests.html"])
    assert large["tests.html"].select_one('p a[href$="paper.html"]') and not [path for path, page in large.items() if "only in the checklist" in words(page)]
    assert "one test, one result" in words(large["calls.html"])


def test_a_system_that_only_sounds_speaks_of_no_calls(job_file) -> None:
    pages = html(job_file(drop("monitoring")))
    assert "calls" not in words(pages["tests.html"]).split("line")[0] and "With the station" not in words(pages["steps/test.html"])


def test_the_same_line_of_several_units_is_named_once() -> None:
    said = in_words(("Fixing of CU", "Fixing of D1", "Cell of D1", "the certificate of completion", "Supervision"))
    assert said == "Fixing of CU and D1; Cell of D1; the certificate of completion; Supervision"
