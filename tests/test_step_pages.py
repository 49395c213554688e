"""Do the pages of the day say each caution before its step, everything a step needs on the spot, and what is to be set?

Cautions before the step: ANSI Z535.6, from memory. The colours of panels: WCAG 2.2, 1.4.6, through wcag-contrast-ratio.
"""
import colorsys
import re

import pytest
import wcag_contrast_ratio
from bs4 import BeautifulSoup, Tag

from generator.intake.job_reader import read_job
from generator.procedure.messages import LOCAL
from generator.publish.places import TEMPLATES
from generator.publish.render import environment, render, translations
from generator.terms.problem import JobInvalid
from generator.terms.show import duration
from tests.conftest import JOBS, packs_of

SIGNAL_WORDS = ("danger", "warning", "caution", "notice")


def html(job) -> dict[str, BeautifulSoup]:
    """The installer's pages of a job, by path."""
    return {page.path: BeautifulSoup(render(page, environment(translations())).html, "html5lib") for page in packs_of(job)[0].pages}


@pytest.fixture(scope="module")
def large() -> dict[str, BeautifulSoup]:
    return html(JOBS / "curlew-house" / "job.yaml")


def phases(pages: dict[str, BeautifulSoup]) -> dict[str, BeautifulSoup]:
    return {path: page for path, page in pages.items() if path.startswith("steps/")}


def steps(page: BeautifulSoup) -> list[Tag]:
    """The steps of a page; their hold points are screens of their own beside them."""
    return page.select("section.step:not(.holdpoint)")


def words(tag: Tag) -> str:
    return " ".join(tag.get_text(" ").split())


def test_every_caution_stands_before_what_is_done(large) -> None:
    for path, page in phases(large).items():
        for step in steps(page):
            order = [one["class"][0] for one in step.find_all(class_=["safety", "do"])]
            assert order == sorted(order, key=lambda one: one == "do"), path
            assert order[-1] == "do"


def test_a_caution_stands_in_full_once_on_a_page_and_then_in_a_line_that_leads_there(large) -> None:
    again = 0
    for path, page in phases(large).items():
        full = [one["id"] for one in page.select("[id^=full-]")]
        assert len(full) == len(set(full))
        seen: set[str] = set()
        for panel in page.select(".safety"):
            if "again" in panel["class"]:
                target = panel.a["href"].removeprefix("#")
                assert target in seen, f"{path}: {target} is named before it stands in full"
                again += 1
            else:
                seen.add(panel.select_one("[id^=full-]")["id"])
                assert panel.select_one(".defers")
    assert again > 100


def test_that_local_code_comes_first_stands_once_in_full_on_a_page_and_each_message_keeps_who_decides(large) -> None:
    some = 0
    for path, page in large.items():
        full = [words(one) for one in page.select(".safety:not(.again) .defers")]
        assert [LOCAL in one for one in full] == [True, *[False] * (len(full) - 1)][:len(full)], path
        assert all(re.search("decide|law|code", one.removesuffix(LOCAL)) for one in full), path
        some += len(full) > 1
    assert some > 10


def test_a_link_that_is_short_stands_in_a_line_on_the_start_page_and_in_full_on_the_page_of_radio(large) -> None:
    lines = [one for one in large["index.html"].select("#findings ~ .ways a[href$='radio.html']") if "link-short" in words(one)]
    assert len(lines) == 3 and all(words(one).endswith("are wanted.") for one in lines)
    assert "What takes most" not in words(large["index.html"])
    assert words(large["radio.html"]).count("What takes most: ") >= 3 and words(large["findings.html"]).count("What takes most: ") >= 3


def test_the_short_line_still_carries_signal_word_hazard_and_avoidance(large) -> None:
    page = large["steps/fix.html"]
    line = next(one for one in page.select(".safety.again") if "ladder" not in one.a["href"] and "asbestos" in one.a["href"])
    assert words(line.p) == ("DANGER Old coatings, boards and fuse panels can hold asbestos. Not cleared: do not drill. "
                             "Keep others out, report.")


def test_every_danger_has_its_tick_each_time_and_nothing_else_has_one(large) -> None:
    found = 0
    for path, page in large.items():
        if not path.startswith(("steps/", "d/")):
            continue
        for panel in page.select(".safety"):
            ticks = panel.select("label.tick > input[type=checkbox]")
            assert len(ticks) == ("danger" in panel["class"]), path
            found += len(ticks)
        assert ("keeps no tick" in words(page) or "That tick is for you, now, and is not kept" in words(page)) == bool(page.select(".tick input[type=checkbox]")), path
    assert found > 40


def test_each_step_leads_to_its_neighbours_and_to_all_of_them(large) -> None:
    for path, page in phases(large).items():
        anchors = [step.h2["id"] for step in steps(page)]
        assert page.select_one(".show a")["href"] == f"#{page.select_one('section.step h2')['id']}"
        for index, step in enumerate(steps(page)):
            links = [one["href"] for one in step.select(".more .show a")]
            onward = step.select_one("[data-act=done]")["href"]
            wanted = ([f"#{anchors[index - 1]}"] if index else []) + ["#all"] + ([onward] if index + 1 < len(anchors) else [])
            assert links[:len(wanted)] == wanted, f"{path} {anchors[index]}"
            assert len(links) == len(wanted) + (index + 1 == len(anchors))
        assert page.select_one("#all").name == "h1" and not page.find("script")


def test_a_step_about_a_unit_has_its_number_serial_text_and_limit_in_it(large) -> None:
    step = next(one for one in steps(large["steps/listen.html"]) if one.h2["id"] == "signal-m3")
    assert all(part in words(step) for part in ("Zone 24 SIT RM MOVE", "Serial 20B454", "Room sitting room",
                                                "Margin at least 10 dB (common practice)", "Hold point H6"))
    assert "10 of 10 arrive" in words(step.find_next_sibling("section"))
    assert re.search(r"Step \d+ of \d+ · about 4 min", words(step))


def test_a_hold_point_is_a_screen_of_its_own_beside_its_step_and_says_until_when_and_why(large) -> None:
    found = 0
    for page in phases(large).values():
        for screen in page.select("section.holdpoint"):
            step, one = page.find(id=screen["data-step"]).find_parent("section"), screen.select_one(".hold")
            side = "after" if step is screen.find_previous_sibling("section") else "before"
            assert side == "after" or step is screen.find_next_sibling("section")
            assert step.h2["id"] == step["data-step"] == screen["data-step"] and screen.h2["id"] == f"hold-{step['data-step']}"
            assert words(one.select_one(".word")) == f"Hold point {screen['data-hold']}"
            assert re.search(r"Do not go on until: \w.* Why: \w.* If not, (stop here and ask the office|leave \w+ with its|CU stays off and locked)", words(one))
            assert f"Hold point {screen['data-hold']} {side} this" in words(step.select_one(".then"))
            found += 1
    assert found == 132


def test_the_first_step_of_a_page_with_a_hold_point_says_what_it_asks_and_those_after_it_name_it(large) -> None:
    told = [words(one) for one in large["steps/listen.html"].select("#signal-d1 ~ .then, #signal-d2 ~ .then")]
    assert [one.count("arrive; the margin holds") for one in told] == [1, 0]


def test_the_bar_of_a_step_leads_to_its_hold_point_and_that_onward_and_the_last_to_the_next_page(large) -> None:
    bars = {one["data-step"] + "!" * ("data-hold" in one.attrs): [(link.get("data-act"), link["href"]) for link in one.select(".thumb a")]
            for page in phases(large).values() for one in page.select("section.step")}
    assert bars["fix-m1!"] == [(None, "#fix-d2"), ("holds", "#fix-m1")]
    assert bars["fix-m1"] == [(None, "#hold-fix-m1"), ("cannot", "#hold-fix-m2"), ("done", "#hold-fix-m2"), (None, "#hold-fix-m2")]
    assert bars["enrol-m1"] == [(None, "#enrol-d2"), ("cannot", "#hold-enrol-m1"), ("done", "#hold-enrol-m1"), (None, "#hold-enrol-m1")]
    assert bars["enrol-m1!"] == [(None, "#enrol-m1"), ("holds", "#enrol-m2")]


def test_one_step_stays_one_step_from_page_to_page_and_what_stands_at_a_head_is_named_in_its_first_step(large) -> None:
    last = {path: page.select("section.step")[-1].select(".act")[-1]["href"] for path, page in phases(large).items()}
    heads = 0
    for path, href in last.items():
        target, _, past = href.removeprefix("../").partition("#")
        assert bool(past) == (target in phases(large)), path
        assert not past or large[target].find(id=past).find_parent("section") == large[target].select_one("section.step")
    for path, page in phases(large).items():
        head = [f"#{one['id']}" for one in page.select("#hazards, #unsigned, #order")]
        first, *others = steps(page)
        assert [one["href"] for one in first.select(".show a") if one["href"] in ("#hazards", "#unsigned", "#order")] == head, path
        assert not [one for other in others for one in other.select("a[href='#hazards'], a[href='#order']")]
        heads += bool(head)
    assert heads >= 5 and "#" in large["index.html"].select_one(".next a")["href"]


def test_only_what_is_no_value_of_the_unit_lies_behind_where_it_was_said_before(large) -> None:
    behind = [one for page in phases(large).values() for one in page.select(".facts .again")]
    assert len(behind) > 20 and {words(one.dt) for one in behind} == {"On its own scale", "Why", "A day holds"}


def test_the_start_page_says_what_is_next_and_left_with_nothing_kept(large) -> None:
    start = large["index.html"]
    count = sum(len(steps(page)) for page in phases(large).values())
    minutes = [float(one) for one in start.select_one("[data-left]")["data-minutes"].split()]
    assert words(start.select_one("[data-left]")) == f"{count} steps left, about {duration(sum(minutes))} by usual times." and len(minutes) == count
    assert words(start.select_one("[data-next]")) == "Next step Read the pack once, before anything else"
    assert words(start.select_one("[data-next-hold]")).startswith("Next hold point H1, after its step: ")
    state = start.select_one("[data-state]")
    assert (state["data-on"], state["data-off"]) == ("on-test", "off-test")
    assert words(state) == "Nothing was done yet: the account is not on test."


def test_what_the_office_wrote_about_a_unit_stands_in_the_steps_at_its_place(large) -> None:
    for path, id in (("steps/listen.html", "signal-d7"), ("steps/fix.html", "fix-d7")):
        step = next(one for one in steps(large[path]) if one.h2["id"] == id)
        assert words(step.select_one(".office")).startswith("The door is steel. Use the spacers")


def test_a_step_says_what_is_not_signed_without_it(large) -> None:
    step = next(one for one in steps(large["steps/listen.html"]) if one.h2["id"] == "signal-m3")
    assert "If it cannot be done, this cannot be signed: Link margin of M3; Messages of M3." in words(step)


def test_a_tool_is_fetched_where_a_page_first_needs_it_and_the_kit_lists_all(large) -> None:
    kit = [words(one) for one in large["kit.html"].select_one("#tools ~ ul").select(".thing")]
    for page in phases(large).values():
        fetched = [words(one) for one in page.select(".source") if words(one).startswith("Fetch:")]
        assert not [tool for tool in kit if sum(tool in line for line in fetched) > 1 and not any(tool != other and tool in other for other in kit)]
    assert {"two-pole voltage indicator", "ladder with tie and stabiliser", "hearing protection", "shielded bag"} <= set(kit)


def test_the_start_page_adds_up_the_day_from_its_phases(large) -> None:
    start = large["index.html"]
    lines = [words(one) for one in start.select("#day ~ ul")[0].select("li")]
    assert len(lines) == len(phases(large)) == 8

    def minutes(text: str) -> int:
        hours, rest = re.search(r"about (?:(\d+) h)? ?(?:(\d+) min)?", text).groups()
        return 60 * int(hours or 0) + int(rest or 0)
    assert minutes(words(start.select_one("#day + p"))) == sum(map(minutes, lines)) > 600


@pytest.mark.parametrize("minutes, said", [(0, "0 min"), (5, "5 min"), (59.6, "1 h"), (60, "1 h"), (125, "2 h 5 min")])
def test_time_is_said_as_people_say_it(minutes, said) -> None:
    assert duration(minutes) == said


def test_what_is_set_stands_by_topics_with_its_value_and_room_to_tick(large) -> None:
    page = large["settings.html"]
    assert [words(one) for one in page.find_all("h2")] == [
        "Installer's own authority", "Date and time", "Zones", "Times", "Ways to part-set", "Users, by number and role", "Sounders",
        "To set: what completes it, what confirms an alarm", "Reports to the station", "Automatic tests"]
    rows = {words(row.th): words(row.select_one("[data-name=Planned]")) for row in page.select("tbody tr")}
    assert rows["Entry time"] == "30 s" and rows["Repeated-trip limit"] == "3 alarms of one zone, from one time that it is set to the next"
    assert rows["Zone 18"] == "BED 2 WINDOW; zone acts as: immediate; also: a user may omit it"
    assert rows["Night"] == "without zone 5 HALL MOVE and zone 27 LANDING MOVE"
    assert rows["User 1"] == "householder; fob 1, F1; code typed by its owner"
    assert rows["Path 1"] == "first: broadband, through a router of the house" and rows["Account"] == "4D52"
    assert rows["Completed by"] == "shutting the final door" and rows["Alarms are confirmed"] == "by a second zone"
    assert all(row.select_one("[data-name='Read back'] .box") for row in page.select("tbody tr"))


def test_the_steps_of_programming_set_what_the_page_says_and_no_more(large) -> None:
    planned = {(words(row.th), words(row.select_one("[data-name=Planned]"))) for row in large["settings.html"].select("tbody tr")}
    set_here = [*large["steps/programme.html"].select(".facts dl"), *large["steps/listen.html"].select("#set-authority ~ .facts dl, #set-authority .facts dl")]
    facts = {(words(one.dt), words(one.dd)) for one in set_here}
    limits = {one for one in facts if one[0].endswith(("at most", "at least"))}
    assert planned == facts - limits and len(limits) >= 3


def test_a_job_that_only_sounds_sets_nothing_for_a_station(job_file) -> None:
    page = words(html(job_file(lambda f: f["job"].pop("monitoring")))["settings.html"])
    assert "Account" not in page and "Automatic test" not in page and "Reports to the station" not in page


def test_no_page_of_the_installer_asks_for_a_code_to_be_written(large) -> None:
    assert "No code stands here, and none is written here: codes are typed by their owners." in words(large["settings.html"])


def test_a_stopped_value_is_not_shown_in_the_checklist_nor_used_in_a_step(job_file) -> None:
    pages = html(job_file(lambda f: f["job"]["times"].update(entry_s="46")))
    stop = "STOP: 46 s programmed, 45 s is the longest entry time."
    assert f"Entry. {stop}" in words(pages["tests.html"])
    step = next(one for one in steps(pages["steps/programme.html"]) if one.h2["id"] == "set-times")
    assert words(step.select_one(".do li")).startswith(stop)


def problems(job_file, *changes) -> list[str]:
    with pytest.raises(JobInvalid) as caught:
        read_job(job_file(*changes))
    assert all(one.line > 0 for one in caught.value.problems)
    return [f"{one.file} {one.field}: {one.says} {one.do}" for one in caught.value.problems]


@pytest.mark.parametrize("key", ["enrol", "fix", "test"])
@pytest.mark.parametrize("text", ["", "   "])
def test_a_sheet_without_words_for_a_step_is_answered_at_its_line(job_file, key, text) -> None:
    assert problems(job_file, lambda f: f["equipment"]["tern-dc"]["handling"].update({key: text})) == [
        f"equipment/tern-dc.yaml handling.{key}: an empty text stands here; a step of the day would have nothing to do. "
        "Write what is done, from the unit's own papers."]


@pytest.mark.parametrize("change", [lambda handling: handling.pop("change_cell"), lambda handling: handling.update(change_cell=" ")])
def test_a_unit_on_a_cell_says_how_the_cell_is_changed(job_file, change) -> None:
    assert problems(job_file, lambda f: change(f["equipment"]["tern-dc"]["handling"])) == [
        "equipment/tern-dc.yaml handling: a contact that lives on its own cell does not say how the cell is changed. "
        "Write change_cell: with what is done, from the unit's own papers."]


def test_a_placeholder_that_does_not_exist_is_answered_with_the_nearest(job_file) -> None:
    (one,) = problems(job_file, lambda f: f["equipment"]["tern-dc"]["handling"].update(fix="Fix {id} in {rooom}."))
    assert '"{rooom}" is filled with nothing.' in one and "room" in one


def colours() -> dict[str, tuple[str, str]]:
    """Ground and ink of each signal word, from the style."""
    css = (TEMPLATES / "assets" / "doorpost.css").read_text(encoding="utf-8")
    return {word: re.search(rf"\.{word} {{ --word: (#\w+); --on-word: (#\w+); }}", css).groups() for word in SIGNAL_WORDS}


def rgb(written: str) -> tuple[float, ...]:
    digits = written.removeprefix("#")
    digits = "".join(2 * one for one in digits) if len(digits) == 3 else digits
    return tuple(int(digits[place:place + 2], 16) / 255 for place in (0, 2, 4))


@pytest.mark.parametrize("word", SIGNAL_WORDS)
def test_a_signal_word_can_be_read_on_its_ground(word) -> None:
    ground, ink = colours()[word]
    assert wcag_contrast_ratio.passes_AAA(wcag_contrast_ratio.rgb(rgb(ground), rgb(ink)))


# Red, orange, yellow and blue: ANSI Z535 colours, read second-hand (http://www.electromark.com/askexpert/index/index/id/10/).
@pytest.mark.parametrize("word, low, high", [("danger", 345, 15), ("warning", 20, 40), ("caution", 45, 65), ("notice", 195, 255)])
def test_a_signal_word_has_the_hue_that_the_standard_gives_it(word, low, high) -> None:

    hue = colorsys.rgb_to_hsv(*rgb(colours()[word][0]))[0] * 360
    assert low <= hue <= high if low < high else hue >= low or hue <= high
