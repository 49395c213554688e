"""Is the fitter told in time: what sounds, who must come when, what is written where, what goes home before it is wiped, and why in this order?

Common practice, no source; that noise at work is told of and ears are covered: HSE, guidance on noise at work.
"""
import re

import pytest

from generator.calc.results import compute
from generator.intake.job_reader import read_job
from generator.pages.installer.calls import calls_page
from generator.pages.installer.hand import MOVED, REASONS
from generator.procedure import messages
from generator.procedure.asked import asked_of
from generator.procedure.signing import in_words
from generator.procedure.step import Step
from generator.terms.show import moved_by, tenths
from tests.conftest import JOBS
from tests.test_day_words import facts, of, steps, text
from tests.test_safety import drop
from tests.test_step_pages import html, words

LARGE = JOBS / "curlew-house" / "job.yaml"


@pytest.fixture(scope="module")
def papers():
    return read_job(LARGE).papers


@pytest.fixture(scope="module")
def large(papers) -> dict[str, Step]:
    return of(papers)


@pytest.fixture(scope="module")
def pages():
    return html(LARGE)


def test_before_the_first_test_that_sounds_it_is_said_once_that_ears_are_covered_and_neighbours_told(large, job_file) -> None:
    loud = [name for name, step in large.items() if "From here on the sounders sound" in text(step)]
    assert loud == ["entry-exit"] and {messages.SOUNDER, messages.NEIGHBOURS} <= set(large["entry-exit"].messages)
    assert "“Fully set, from outside”" in text(large["entry-exit"]) and large["full-set"].title == "Fully set, from outside"
    assert "hearing protection" in large["entry-exit"].tools

    def silent(files) -> None:
        files["job"]["devices"].pop("S1")
        files["job"].pop("cables", None)
    assert "sounders sound" not in text(steps(job_file, silent)["entry-exit"])


def test_the_sounders_are_off_for_calls_that_are_made_with_the_system_set(papers) -> None:
    (page,) = calls_page(papers, compute(papers), (), {})
    for group in page.view.groups:
        said = " ".join(group.says)
        assert ("switch the sound of S1 and S2 off" in said and "up to 15 min" in said and "At the end of the group on again" in said) == group.id.startswith("setting-")


def test_the_start_page_says_at_which_step_each_user_must_be_there_and_nobody_comes_twice_for_a_code(large, pages) -> None:
    names = list(large)
    said = next(words(one) for one in pages["index.html"].select(".needs") if "for the handover" in words(one))
    assert f"sister who holds a key (user 5), step {names.index('train-5') + 1}" in said and f"at step {names.index('set-users') + 1} types their own code" in said
    assert "need not come twice" in text(large["set-users"]) and "typed themselves, unseen" in large["train-5"].hold.until


def test_what_is_asked_of_the_office_or_set_without_a_plan_has_its_line_at_its_step(papers, large, job_file) -> None:
    asked = {one.title: one.step for one in asked_of(papers, compute(papers), tuple(large.values()))}
    assert asked["Space without a detector"] == "place" and asked["Time for the second zone"] == "set-completing"
    assert asked["Found otherwise: building work"] == "walk-round"
    assert not any("____" in line for step in large.values() for line in (*step.do, *(fact.value for fact in step.facts)))
    alone = read_job(job_file(drop("monitoring"))).papers
    assert "Time for the second zone" not in {one.title for one in asked_of(alone, compute(alone), tuple(of(alone).values()))}


def test_the_last_step_sends_home_before_it_wipes_and_leads_to_the_page_that_does(large, pages) -> None:
    said = text(large["sign"])
    assert said.index("“What was written down”") < said.index("send it home first") < said.index("has said that it came") < said.index("wipe it from this phone")
    step = pages["steps/leave.html"].find(id="sign").find_parent("section")
    assert [one["href"] for one in step.select(".show a") if words(one) == "What was written down"] == ["../results.html"]
    assert not pages["steps/leave.html"].find(id="refit").find_parent("section").select('a[href$="results.html"]')


def test_why_units_are_fixed_before_they_are_enrolled_is_said_and_what_a_trial_did_to_the_strips(large) -> None:
    assert "Fixed first, enrolled where it hangs" in text(large["cells"]) and "Pulled for the trial of a link: its cell out again" in text(large["cells"])


def test_a_control_unit_or_repeater_that_was_moved_has_every_earlier_link_checked_again(large) -> None:
    assert all("move the control unit (then check every link again)" in text(step) for name, step in large.items() if name.startswith("signal-"))
    assert [one for one in MOVED if one.startswith("Control unit moved")] == ["Control unit moved: check every earlier link again"]
    assert any("Repeater moved" in one and "again" in one for one in MOVED)


def test_the_reasons_why_not_know_asbestos_a_missing_second_person_the_weather_and_a_customer_who_is_away() -> None:
    assert {"Asbestos not cleared", "No second person", "Weather"} <= set(REASONS)


def test_many_lines_that_cannot_be_signed_are_counted_and_few_are_named(large) -> None:
    said = in_words(large["asbestos"].unsigned)
    assert "Asbestos cleared, 16 lines" in said and re.search(r"Fixing of \d\d units", said) and len(said) < 150
    assert in_words(large["isolate"].unsigned).startswith("Supply of CU and R1")


def test_a_place_to_try_is_told_to_the_tenth_and_never_nearer_than_was_worked_out() -> None:
    assert (moved_by(1.98), moved_by(0.51), moved_by(2.0), tenths(1.42)) == ("2 m", "0.6 m", "2 m", "1.4 m")


def test_words_that_nobody_in_the_trade_says_stand_on_no_step(large) -> None:
    said = " ".join([one for step in large.values() for one in (step.title, *step.do, *(fact.value for fact in step.facts))])
    assert not re.search(r"heeded|twelve signs|silence is noticed|leaf moving|made set|no stop for the night", said)
    assert large["supervision"].title.startswith("Supervision") and facts(large["set-times"])["Repeated-trip limit"].endswith("from one time that it is set to the next")


def test_a_unit_whose_name_says_another_number_than_its_list_says_so_where_it_is_enrolled(large) -> None:
    # In the demo the outside sounder S1 has number 2, the inside one S2 has 1.
    assert "S1 is sounder 2, not 1; S2 is sounder 1." in large["enrol-S1"].do[0] and "S2 is sounder 1, not 2; S1 is sounder 2." in large["enrol-S2"].do[0]
    assert not any("K1 is keypad" in line for line in large["enrol-K1"].do) and not any(", not " in line for line in large["enrol-D1"].do)


def test_a_rule_is_led_to_by_its_title_and_keeps_its_id(pages) -> None:
    shown = words(pages["findings.html"])
    assert "link-short" in shown and "A radio link would have too little margin on a bad day: why, and where the limit comes from" in shown
