"""Does each rule speak where it must, with its numbers, and keep silent where all is well?"""
import inspect
from collections.abc import Mapping
from dataclasses import is_dataclass, fields, replace
from datetime import date

import pytest
from pydantic import BaseModel, ValidationError

from generator.calc.results import compute
from generator.intake.job_reader import read_job
from generator.model.read_only import read_only
from generator.rules.all_rules import FAMILIES, RETIRED, RULES, findings, judge, rules_for
from generator.rules.finding import Hit, Severity, Verdict
from generator.rules.registry import Rule, rule
from generator.terms.audience import Audience
from tests.rule_cases import (acceptances, agreed, before, cables, cells, confirming, doors, handed_over, hold_up, holders, life_signs, numbers, on_air, on_site, power,
                              radio, routes,
                              seen, serials, services, station, texts, times, users, ways, zones)
from tests.rule_cases.case import Cases, clean, put

CASES: dict[str, Cases] = {name: cases for family in (numbers, texts, doors, users, radio, times, zones, hold_up, station, holders, agreed, before,
                                          handed_over, serials, acceptances, power, cables, cells, ways, services, on_air, life_signs, routes, seen, confirming, on_site)
                           for name, cases in family.CASES.items()}
SPOKEN = [(name, index) for name, cases in CASES.items() for index in range(len(cases.speaks))]
SILENT = [(name, index) for name, cases in CASES.items() for index in range(len(cases.clear))]
UNSURE = [(name, index) for name, cases in CASES.items() for index in range(len(cases.unchecked))]


def verdicts(job_file, *changes) -> dict[str, Verdict]:
    papers = read_job(job_file(clean, *changes)).papers
    return {one.rule: one for one in judge(papers, compute(papers))}


def found(verdict: Verdict) -> list[Hit]:
    return [one.hit for one in verdict.findings if one.outcome == "found"]


def test_a_clean_job_is_quiet(job_file) -> None:
    assert {name: one.outcome for name, one in verdicts(job_file).items()} == {one.id: "clear" for one in RULES}


@pytest.mark.parametrize("name, index", SPOKEN)
def test_a_rule_speaks_with_its_numbers(job_file, name: str, index: int) -> None:
    case = CASES[name].speaks[index]
    verdict = verdicts(job_file, case.change)[name]
    hits = found(verdict)
    assert verdict.outcome == "found"
    assert tuple(one.at for one in hits) == case.at
    assert tuple(one.says for one in hits) == case.says
    assert tuple(one.compared for one in hits) == case.values
    assert all(one.do and case.do in one.do for one in hits)
    assert all(one.values and value.origin for one in hits for value in one.values)
    # An acceptance names rule, place and values.
    assert all(one.at and one.compared for one in hits)


@pytest.mark.parametrize("name, index", SILENT)
def test_a_rule_is_silent_where_all_is_well(job_file, name: str, index: int) -> None:
    verdict = verdicts(job_file, CASES[name].clear[index])[name]
    assert (verdict.outcome, verdict.findings) == ("clear", ())


@pytest.mark.parametrize("name, index", UNSURE)
def test_a_rule_that_lacks_what_it_needs_says_so(job_file, name: str, index: int) -> None:
    change, reason = CASES[name].unchecked[index]
    verdict = verdicts(job_file, change)[name]
    assert verdict.outcome == "not_checked"
    assert [one.hit.says for one in verdict.findings] == [f"Not checked, because {reason}."]


def lacking(rules: tuple[Rule, ...], cases: dict[str, Cases]) -> list[str]:
    """Which rule is not shown to speak, to be silent or, where it can be, to be unable to tell."""
    out = []
    for one in rules:
        own = cases.get(one.id, Cases((), ()))
        unsure = bool(one.needs) or "Unchecked(" in inspect.getsource(one.body) or "NotChecked(" in inspect.getsource(one.body)
        out += [f"{one.id}: {what}" for what, there in (("speaks", own.speaks), ("clear", own.clear),
                                                        ("unchecked", own.unchecked or not unsure)) if not there]
    return out


def test_every_rule_has_a_job_on_which_it_speaks_one_on_which_it_is_silent_and_one_on_which_it_cannot_tell() -> None:
    assert lacking(RULES, CASES) == []
    assert set(CASES) == {one.id for one in RULES}


@pytest.mark.parametrize("part", ["speaks", "clear", "unchecked"])
def test_a_rule_that_lacks_a_case_is_named(part: str) -> None:
    without = CASES | {"spare-short": replace(CASES["spare-short"], **{part: ()})}
    assert lacking(RULES, without) == [f"spare-short: {part}"]


def undeclared(one: Rule) -> list[str]:
    """What a rule does not say of itself."""
    parts = {"title": one.title.endswith("."), "why": len(one.why) > 20, "compares": one.compares and not one.compares.endswith("."),
             "mends": one.mends.endswith("."), "source": one.source or one.limits, "firm": not one.firm.endswith(".")}
    return [f"{one.id}: {part}" for part, there in parts.items() if not there]


@pytest.mark.parametrize("one", RULES, ids=lambda one: one.id)
def test_a_rule_says_title_reason_comparison_mend_and_source(one: Rule) -> None:
    assert undeclared(one) == []


def test_a_rule_that_says_too_little_is_seen() -> None:
    @rule("bare", Severity.NOTE)
    def bare(papers, results):
        """Title without a dot"""

    assert undeclared(bare) == ["bare: title", "bare: why", "bare: compares", "bare: mends", "bare: source"]


def test_no_id_is_used_twice_or_again() -> None:
    assert len({one.id for one in RULES}) == len(RULES) and not {one.id for one in RULES} & set(RETIRED)
    assert len({family.name for family in FAMILIES}) == len(FAMILIES)


def test_rules_hold_no_number_of_their_own() -> None:
    import ast

    from generator.publish.places import PACKAGE

    for path in (PACKAGE / "rules").glob("*.py"):
        numbers = [node.value for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
                   if isinstance(node, ast.Constant) and isinstance(node.value, (int, float)) and not isinstance(node.value, bool)]
        # One more than none, the last of a list: places, not limits.
        assert set(numbers) <= {0, 1}, path.name


def changeable(value) -> list[str]:
    """Everything below a value that could be changed in place."""
    if isinstance(value, (list, dict, set, bytearray)):
        return [type(value).__name__]
    if isinstance(value, BaseModel):
        assert value.model_config["frozen"]
        return [one for name in type(value).model_fields for one in changeable(getattr(value, name))]
    if is_dataclass(value):
        assert value.__dataclass_params__.frozen
        return [one for field in fields(value) for one in changeable(getattr(value, field.name))]
    if isinstance(value, Mapping):
        return [one for inner in value.values() for one in changeable(inner)]
    return [one for inner in value for one in changeable(inner)] if isinstance(value, (tuple, frozenset)) else []


def test_what_rules_are_handed_cannot_be_changed(job_file) -> None:
    papers = read_job(job_file(clean, acceptances.accepted())).papers
    assert changeable(papers) and changeable(compute(papers))
    assert changeable(read_only(papers)) == [] and changeable(read_only(compute(papers))) == []
    with pytest.raises(TypeError):
        read_only(papers).job.devices["D1"] = None
    with pytest.raises(ValidationError):
        read_only(papers).job.times.entry_s = 0


def test_a_rule_that_tries_to_change_the_job_fails_and_the_job_stays(job_file) -> None:
    @rule("meddler", Severity.NOTE)
    def meddler(papers, results):
        """Takes a unit out."""
        papers.job.devices.pop("D1")
        yield Hit("", "", "")

    papers = read_job(job_file(clean)).papers
    with pytest.raises(AttributeError):
        judge(papers, compute(papers), rules=(meddler,))
    assert "D1" in papers.job.devices


def test_the_gravest_findings_come_first(job_file) -> None:
    papers = read_job(job_file(clean, times.time("entry_s", "46"), put("job", "control_unit", "serial", value=None))).papers
    assert [one.severity.value for one in findings(judge(papers, compute(papers)))] == ["stop", "note"]


def test_a_rule_that_looks_at_what_a_reader_may_not_see_does_not_speak_to_that_reader() -> None:
    def hidden(audience: Audience) -> set[str]:
        return {one.id for one in RULES} - {one.id for one in rules_for(audience)}

    assert hidden(Audience.INSTALLER) == {"text-names-person", "keyholders-few", "keyholders-few-audible", "keyholders-late",
                                          "keyholders-late-audible", "keyholder-cannot-act", "licence-ended",
                                          "licence-ends-before-service", "site-differs", "site-swapped", "site-conflict", "site-signature"}
    assert hidden(Audience.RECORD) == set()


def test_judging_a_job_twice_says_the_same(job_file) -> None:
    papers = read_job(job_file(clean, times.time("entry_s", "46"))).papers
    assert judge(papers, compute(papers)) == judge(papers, compute(papers, date(2026, 9, 14)))


def test_a_rule_is_clear_where_it_is_about_something_else_whatever_is_lacking(job_file) -> None:
    def nothing(files) -> None:
        del files["job"]["monitoring"]
        files["people"] = None

    said = verdicts(job_file, nothing)
    assert all(said[one.id].outcome == "clear" for one in RULES if one.where and one.where.what == "the system reports to a station")
    assert said["keyholders-few-audible"].outcome == "not_checked"


def test_findings_that_hang_on_a_day_hang_on_that_of_the_results(job_file) -> None:
    papers = read_job(job_file(clean, station.line())).papers

    def says(day: date) -> str:
        verdict = next(one for one in judge(papers, compute(papers, day)) if one.rule == "phone-line-ends")
        return found(verdict)[0].says

    assert "such lines end by" in says(date(2027, 1, 31)) and "such lines ended by" in says(date(2027, 2, 1))


def test_the_languages_that_rules_know_are_those_that_come_along() -> None:
    from generator.publish.places import LOCALES
    from generator.tables.languages import ENGLISH, LANGUAGES

    assert set(LANGUAGES) == {ENGLISH, *(path.parent.parent.name for path in LOCALES.glob("*/LC_MESSAGES/homeowner.mo"))}
