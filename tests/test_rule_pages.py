"""Does whoever reads of a finding learn why, what mends it and where the limit comes from: on pages and on the command line?"""
import json
import re

import pytest
from bs4 import BeautifulSoup

from generator.publish.render import environment, render, translations
from generator.rules.all_rules import FAMILIES, RULES
from generator.terms.audience import Audience
from tests.conftest import packs_of
from tests.rule_cases.acceptances import accepted
from tests.rule_cases.case import both, clean, put, text, without_limit

HEADINGS = ["What it says here", "Why it matters", "What is compared", "What mends it", "Where the limit comes from", "Accepting it"]
TROUBLE = both(put("job", "times", "entry_s", value="46"), text("D2", "EMMA BED"), put("people", "customer", "name", value="Emma Thornquist"))


def rendered(path) -> dict[Audience, dict[str, BeautifulSoup]]:
    env = environment(translations())
    return {pack.audience: {page.path: BeautifulSoup(render(page, env).html, "html5lib") for page in pack.pages}
            for pack in packs_of(path)}


def rules_of(pages: dict[str, BeautifulSoup]) -> set[str]:
    return {path.removeprefix("rules/").removesuffix(".html") for path in pages if path.startswith("rules/")}


def test_a_rule_that_spoke_has_a_page_for_installer_and_record_and_for_nobody_else(job_file) -> None:
    packs = rendered(job_file(clean, TROUBLE))
    assert rules_of(packs[Audience.INSTALLER]) == {"entry-time-long"}
    assert rules_of(packs[Audience.RECORD]) == {"entry-time-long", "text-names-person"}
    assert rules_of(packs[Audience.HOMEOWNER]) == rules_of(packs[Audience.STATION]) == set()
    assert "part of a name" not in " ".join(page.get_text() for page in packs[Audience.INSTALLER].values())


def test_a_rule_that_could_not_be_asked_has_a_page_too(job_file) -> None:
    pages = rendered(job_file(clean, without_limit("entry_max_s")))[Audience.INSTALLER]
    assert rules_of(pages) == {"entry-time-long"}
    shown = pages["rules/entry-time-long.html"].get_text(" ")
    assert "Not checked, because the profile sets no limit for that." in shown
    assert "has no limit entry_max_s: not checked." in shown


def test_every_page_of_a_rule_has_the_same_headings_and_its_numbers(job_file) -> None:
    pages = rendered(job_file(clean, TROUBLE, put("job", "devices", "D2", "serial", value="00A4F3"),
                              put("job", "control_unit", "serial", value=None)))[Audience.RECORD]
    found = {path: page for path, page in pages.items() if path.startswith("rules/")}
    assert len(found) == 4
    assert all([one.get_text() for one in page.find_all("h2")] == HEADINGS for page in found.values())
    shown = " ".join(found["rules/entry-time-long.html"].get_text(" ").split())
    assert "46 s programmed, 45 s is the longest entry time." in shown
    assert "Longest entry time: 45 s. EN 50131-1" in shown and "read second-hand" in shown


def test_every_finding_leads_to_the_page_of_its_rule_from_wherever_it_stands(job_file) -> None:
    packs = rendered(job_file(TROUBLE))
    for audience in (Audience.INSTALLER, Audience.RECORD):
        seen = 0
        for path, page in packs[audience].items():
            for finding in page.select(".finding"):
                rule = finding.select_one(".word").get_text().split(": ")[1]
                if path.startswith("rules/"):
                    continue
                link = finding.select_one("a")["href"]
                seen += 1
                assert link == "../" * path.count("/") + f"rules/{rule}.html"
                assert f"rules/{rule}.html" in packs[audience]
        assert seen >= 2


def test_rules_lists_every_rule_in_its_family(run) -> None:
    code, out, _ = run("rules")
    assert code == 0
    for family in FAMILIES:
        assert family.name.capitalize() in out.splitlines()
        assert all(re.search(rf"^  {one.id} +{one.severity.value} +{re.escape(one.title)}$", out, re.M) for one in family.rules)
    listed = json.loads(run("rules", "--format", "json")[1])
    assert listed["format"] == 1 and [one["id"] for one in listed["rules"]] == [one.id for one in RULES]


@pytest.mark.parametrize("one", RULES, ids=lambda one: one.id)
def test_explain_tells_everything_that_a_rule_says_of_itself(run, one) -> None:
    code, out, _ = run("explain", one.id)
    assert code == 0
    assert all(words in out for words in (one.title, one.why, one.mends, one.compares[1:], one.firm, one.source[1:]))
    assert ("accepted:\n  - rule: " + one.id in out) == (not one.firm)
    data = json.loads(run("explain", one.id, "--format", "json")[1])
    assert (data["id"], data["severity"], data["acceptable"]) == (one.id, one.severity.value, not one.firm)
    assert data["sources"] and all(source["says"] for source in data["sources"])


def test_explain_shows_the_limit_and_how_it_is_known_under_a_profile(run) -> None:
    out = run("explain", "entry-time-long", "--profile", "na-practice")[1]
    assert "under profile na-practice: Longest entry time: 240 s. ANSI/SIA CP-01" in out and "(from memory)" in out
    assert "en-grade-2" not in out
    assert {one["profile"] for one in json.loads(run("explain", "entry-time-long", "--format", "json")[1])["sources"]} >= {
        "en-grade-2", "uk-grade-2", "na-practice"}


def test_a_limit_that_stands_in_place_of_another_says_why(run) -> None:
    out = run("explain", "sounder-time-long", "--profile", "uk-grade-2")[1]
    assert "20 min." in out and "The British code and the police ask for a stop within 20 minutes" in out


@pytest.mark.parametrize("arguments, says", [
    (("entry-time-lnog",), 'there is no rule "entry-time-lnog". Did you mean "entry-time-long"?'),
    (("entry-time-long", "--profile", "uk-grade"), 'there is no profile "uk-grade". Did you mean "uk-grade-2"?'),
])
def test_what_is_not_known_is_answered_with_what_was_meant(run, arguments, says: str) -> None:
    code, out, err = run("explain", *arguments)
    assert (code, out) == (2, "") and says in err


@pytest.mark.parametrize("accepting", [False, True])
def test_a_name_that_the_installer_may_not_see_changes_nothing_in_their_pack(job_file, accepting: bool) -> None:
    entry = accepted("devices.D2.text", "text-names-person", values="text OBADIAH BED") if accepting else both()
    named = rendered(job_file(clean, text("D2", "OBADIAH BED"), entry))
    other = rendered(job_file(put("people", "keyholders", "first", "name", value="Amos Reed")))
    spoke = "rules/text-names-person.html"
    assert spoke in named[Audience.RECORD] and spoke not in other[Audience.RECORD]
    assert ("rules/acceptance-unused.html" in other[Audience.RECORD]) == accepting
    assert {path: str(page) for path, page in named[Audience.INSTALLER].items()} == {
        path: str(page) for path, page in other[Audience.INSTALLER].items()}
