"""Does an accepted finding stop nothing, stay visible, and come back when what was accepted changes?"""
import json
import re

import pytest
from bs4 import BeautifulSoup

from generator.calc.results import compute
from generator.intake.job_reader import read_job
from generator.intake.yaml_tree import read_tree
from generator.publish.render import environment, render, translations
from generator.rules.all_rules import findings, judge
from generator.terms.audience import Audience
from tests.conftest import packs_of
from tests.rule_cases.acceptances import SIXTY, accepted
from tests.rule_cases.case import both, clean, put, text


def line(out: str, rule: str) -> str:
    return next(one for one in out.splitlines() if f" {rule} " in one)


def pages(path, audience: Audience) -> dict[str, str]:
    pack = next(one for one in packs_of(path) if one.audience is audience)
    return {page.path: " ".join(BeautifulSoup(render(page, environment(translations())).html, "html5lib").get_text(" ").split())
            for page in pack.pages}


def test_an_accepted_finding_stops_nothing_and_is_told_with_who_when_and_why(run, job_file) -> None:
    assert run("check", job_file(clean, SIXTY))[0] == 1
    code, out, _ = run("check", job_file(clean, accepted()))
    assert code == 0 and out.splitlines()[-1] == "1 job read, 0 findings; 0 problems in 0 files."
    told = line(out, "entry-time-long")
    assert told.startswith("K-2041 accepted stop entry-time-long job.yaml:")
    assert "60 s programmed, 45 s is the longest entry time. Accepted on 1 Sep 2026 by surveyor: A wheelchair takes that long." in told


def test_it_stays_visible_in_the_installers_pack_and_the_record_and_is_gone_from_the_start(job_file) -> None:
    path = job_file(clean, SIXTY, accepted())
    words = "Accepted on 1 Sep 2026 by surveyor: A wheelchair takes that long."
    installer, record = pages(path, Audience.INSTALLER), pages(path, Audience.RECORD)
    assert words in installer["findings.html"] and words in record["checked.html"]
    assert words in installer["rules/entry-time-long.html"] and words in record["rules/entry-time-long.html"]
    assert "60 s programmed" not in installer["index.html"] and "Cannot be signed" not in " ".join(installer.values())


def test_a_changed_value_brings_it_back_with_the_words_that_it_lapsed(run, job_file) -> None:
    code, out, _ = run("check", job_file(clean, both(put("job", "times", "entry_s", value="75"), accepted())))
    assert code == 1
    assert ("The acceptance of 1 Sep 2026 by surveyor lapsed: it was given for programmed 60 s, limit 45 s; "
            "now it is programmed 75 s, limit 45 s.") in line(out, "entry-time-long")


def test_a_changed_limit_lapses_it_too(run, job_file) -> None:
    def house_limit(files) -> None:
        files["profiles"]["own"] = {
            "format": "1", "extends": "en-grade-2", "name": "Own", "edition": "1",
            "limits": {"entry_max_s": {"value": "50", "unit": "s", "means": "longest entry time", "source": "practice",
                                       "known": "common practice", "because": "the insurer asks"}}}
        files["job"]["profile"] = "own"
    code, out, _ = run("check", job_file(clean, SIXTY, accepted(), house_limit))
    assert code == 1 and "now it is programmed 60 s, limit 50 s." in out


def test_accepted_later_than_the_day_it_does_not_count_yet(run, job_file) -> None:
    path = job_file(clean, SIXTY, accepted(on="2026-09-20"))
    code, out, _ = run("check", path)
    assert code == 1
    assert "Accepted only from 20 Sep 2026 on; this is worked out for 14 Sep 2026." in line(out, "entry-time-long")
    assert run("check", path, "--as-of", "2026-09-20")[0] == 0
    assert run("check", path, "--as-of", "2026-09-19")[0] == 1


def test_of_two_acceptances_the_one_that_fits_counts(run, job_file) -> None:
    old = accepted(values="programmed 50 s, limit 45 s", on="2026-09-05")
    assert run("check", job_file(clean, SIXTY, accepted(), old))[0] == 0


@pytest.mark.parametrize("rule, says, do", [
    ("entry-time-lnog", 'there is no rule "entry-time-lnog".', 'Did you mean "entry-time-long"? `doorpost rules` lists them all.'),
    ("serial-twice", "serial-twice cannot be accepted: two units never have one serial.", "Take this entry out and mend what is found"),
])
def test_what_cannot_be_accepted_is_a_problem_at_its_line(run, job_file, rule: str, says: str, do: str) -> None:
    code, out, _ = run("check", job_file(clean, accepted(rule=rule)), "--format", "json")
    problem, = json.loads(out)["problems"]
    assert code == 3 and problem["field"] == "accepted.0.rule" and problem["line"] > 1
    assert problem["says"] == says and problem["do"].startswith(do)


@pytest.mark.parametrize("change, rule", [
    (SIXTY, "entry-time-long"),
    (text("D2", "hall front: move"), "text-not-unique"),
    (both(text("D2", "EMMA'S BED"), put("people", "customer", "name", value="Emma Thornquist"),
          put("equipment", "tern-cu32", "control_unit", "zone_text", "alphabet", value=None)), "text-names-person"),
])
def test_what_check_prints_to_accept_a_finding_accepts_it(run, job_file, tmp_path, files, change, rule: str) -> None:
    put("equipment", "tern-cu32", "control_unit", "zone_text", "alphabet", value=None)(files)
    _, out, _ = run("check", job_file(clean, change), "--how-to-accept")
    block = out[out.index("  To accept it"):].split("\nK-2041")[0].split("\n1 job")[0]
    block = "accepted:" + block.partition("in the job file:")[2]
    filled = re.sub(r"on: .*", "on: 2026-09-02", re.sub(r"(who|why): .*", r"\1: surveyor", block))
    (tmp_path / "entry.yaml").write_text(filled, encoding="utf-8")
    files["job"]["accepted"] = read_tree(tmp_path / "entry.yaml", "entry.yaml").data["accepted"]
    assert files["job"]["accepted"][0]["rule"] == rule
    code, out, _ = run("check", job_file())
    assert code == 0 and f" {rule} " in line(out, rule) and " accepted " in line(out, rule)


def test_the_data_says_what_an_entry_must_say_and_who_answers(run, job_file) -> None:
    path = job_file(clean, SIXTY, accepted())
    finding, = json.loads(run("check", path, "--format", "json")[1])["findings"]
    assert finding["accepted"] == {"who": "surveyor", "on": "2026-09-01", "why": "A wheelchair takes that long."}
    assert finding["to_accept"] == {"rule": "entry-time-long", "at": "times.entry_s", "values": "programmed 60 s, limit 45 s"}
    twice = job_file(put("job", "times", "entry_s", value="30"), put("job", "devices", "D2", "serial", value="00A4F3"),
                     put("job", "accepted", value=[]))
    finding, = json.loads(run("check", twice, "--format", "json")[1])["findings"]
    assert finding["accepted"] is None and finding["to_accept"] is None


def test_repeaters_that_hear_each_other_are_a_problem_at_their_line(run, job_file) -> None:
    from tests.rule_cases.radio import chain

    code, out, _ = run("check", job_file(chain, put("job", "devices", "R2", "via", value="R1")), "--format", "json")
    problem, = json.loads(out)["problems"]
    assert code == 3 and problem["field"] == "devices.R1.via"
    assert problem["says"] == "R1 is heard through R2 is heard through R1: a circle."


def test_what_cannot_be_accepted_stays_open_whatever_the_file_says(job_file) -> None:
    papers = read_job(job_file(put("job", "devices", "D2", "serial", value="00A4F3"), accepted(
        "devices.D2.serial", "serial-twice", values="serial 00A4F3, serial 00A4F3"))).papers
    twice = next(one for one in findings(judge(papers, compute(papers))) if one.rule == "serial-twice")
    assert twice.stops and twice.acceptance == ""
