"""Does each rule speak where it must, with its numbers, and keep silent where all is well?"""
import pytest

from generator.calc.results import compute
from generator.intake.job_reader import read_job
from generator.rules.all_rules import RULES, findings, judge


def spoken(job_file, *changes) -> dict[str, list[str]]:
    papers = read_job(job_file(*changes)).papers
    verdicts = judge(papers, compute(papers))
    return {one.rule: [f"{finding.outcome}: {finding.hit.says}" for finding in one.findings] for one in verdicts if one.findings}


def serial_for_all(files) -> None:
    files["job"]["control_unit"]["serial"] = "00F1"


def test_a_clean_job_is_quiet(job_file) -> None:
    assert spoken(job_file, serial_for_all) == {}


def set_to(*way, value):
    def change(files) -> None:
        here = files
        for part in way[:-1]:
            here = here[part]
        here[way[-1]] = value
    return change


@pytest.mark.parametrize("rule, change, says", [
    ("entry-not-timed", set_to("job", "devices", "D1", "role", value="immediate"),
     "found: People come in by front-door, and no unit there has the role timed-entry."),
    ("entry-time-long", set_to("job", "times", "entry_s", value="46"), "found: 46 s programmed, 45 s is the longest entry time."),
    ("sounder-time-long", set_to("job", "times", "sounder_min", value="16"),
     "found: 16 min programmed, 15 min is the longest run of the outside sounder."),
    ("text-too-long", set_to("job", "devices", "D1", "text", value="GROUND FLOOR DINING ROOM PATIO DOOR"),
     'found: "GROUND FLOOR DINING ROOM PATIO DOOR" has 35 characters, 16 are shown.'),
    ("text-not-in-alphabet", set_to("job", "devices", "D1", "text", value="Café"),
     'found: "Café" holds “a”, “f” and “é”, which cannot be shown.'),
    ("serial-twice", set_to("job", "devices", "D2", "serial", value="00A4F3"), "found: Serial 00A4F3 stands at D1 and at D2."),
    ("numbers-do-not-fit", set_to("equipment", "tern-cu32", "control_unit", "lists", "zones", value="3"),
     "found: 4 numbers of the zones needed, 3 available. D3 take two each."),
    ("spare-short", set_to("equipment", "tern-cu32", "control_unit", "lists", "zones", value="5"),
     "found: Block entry: 0 free behind number 1, 2 wanted."),
    ("serial-not-captured", set_to("job", "devices", "D1", "serial", value=None), None),
])
def test_a_rule_speaks_with_its_numbers(job_file, rule: str, change, says) -> None:
    if says is None:
        found = spoken(job_file, serial_for_all, lambda f: f["job"]["devices"]["D1"].pop("serial"))
        assert found == {rule: ["found: No serial yet: D1."]}
    else:
        assert says in spoken(job_file, serial_for_all, change)[rule]


def test_what_lacks_its_limit_is_not_checked_and_says_why(job_file) -> None:
    def without(files) -> None:
        files["profiles"]["own"] = _profile_without("entry_max_s")
        files["job"]["profile"] = "own"
    assert spoken(job_file, serial_for_all, without) == {
        "entry-time-long": ["not_checked: Not checked, because the profile has no limit entry_max_s."]}


def _profile_without(limit: str):
    from generator.intake.yaml_tree import read_tree
    from generator.publish.places import PACKAGE

    data = read_tree(PACKAGE / "profiles" / "en-grade-2.yaml", "x").data
    del data["limits"][limit]
    return data


def test_zones_that_do_not_fit_leave_the_spare_unchecked(job_file) -> None:
    found = spoken(job_file, serial_for_all, set_to("equipment", "tern-cu32", "control_unit", "lists", "zones", value="3"))
    assert found["spare-short"] == ["not_checked: Not checked, because the zones do not fit."]


def test_every_rule_has_a_title_a_reason_and_a_name_of_its_own() -> None:
    assert all(rule.title.endswith(".") and len(rule.why) > 20 for rule in RULES)
    assert len({rule.id for rule in RULES}) == len(RULES)


def test_the_gravest_findings_come_first(job_file) -> None:
    papers = read_job(job_file(set_to("job", "times", "entry_s", value="46"))).papers
    assert [one.severity.value for one in findings(judge(papers, compute(papers)))] == ["stop", "note"]
