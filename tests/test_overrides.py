"""Does a company that sets a limit otherwise say why, and does everybody who sees the limit see what it stands in place of?"""
import copy

import pytest

from generator.intake.job_reader import read_job
from generator.pipeline import compile_job, looked_for, pack_of
from generator.publish.places import own_wording
from generator.publish.render import translations
from generator.publish.site import write_site
from generator.terms.audience import Audience
from generator.terms.problem import JobInvalid

WHY = "Our insurer lets slow walkers have longer."
INSTEAD = ("in place of 45 s of EN 50131-1, intruder and hold-up systems: system requirements, text before 2006 "
           "(read second-hand in: an inspectorate author's trade article on the text before 2006)")


def sets(**limits):
    """A change: the company sets limits otherwise, each a value, or a value and a role."""
    def change(files) -> None:
        files["company"]["limits"] = {name: {"value": str(one), "because": WHY} if not isinstance(one, dict) else copy.deepcopy(one)
                                      for name, one in limits.items()}
    return change


def problems(job_file, *changes) -> list[str]:
    with pytest.raises(JobInvalid) as caught:
        read_job(job_file(*changes))
    return [f"{one.file}:{one.line} {one.field}: {one.says} {one.do}" for one in caught.value.problems]


def pages(path, audience, folder) -> dict[str, str]:
    compiled = compile_job(path)
    looked = looked_for(compiled, own_wording()) if audience is Audience.RECORD else {}
    write_site(pack_of(compiled, audience, translations().gettext, looked), folder)
    return {page.relative_to(folder).as_posix(): page.read_text(encoding="utf-8") for page in folder.rglob("*")
            if page.suffix in (".html", ".json", ".csv")}


def test_the_companys_value_counts_and_unit_and_meaning_stay(job_file) -> None:
    profile = read_job(job_file(sets(entry_max_s={"value": "60", "because": WHY, "by": "technical manager"}))).papers.profile
    limit = profile.limits["entry_max_s"]
    assert (limit.value, limit.unit, limit.means, limit.known) == (60, "s", "longest entry time", "own rule")
    assert profile.source_of("entry_max_s").cited() == (
        f"Saltmarsh Alarm Fitting (own rule: {INSTEAD}: {WHY[:-1]}; decided by: technical manager.)")
    assert profile.edition == "2026-11, with 1 limit of the company's own"


def test_a_rule_compares_with_the_companys_value_and_says_whose_it_is(job_file) -> None:
    late = lambda files: files["job"]["times"].update(entry_s="55")
    def found(*changes):
        return [finding for verdict in compile_job(job_file(*changes)).verdicts for finding in verdict.findings
                if verdict.rule == "entry-time-long"]
    assert found(sets(), late)[0].hit.values[1].value == "45"
    assert found(sets(entry_max_s=60), late) == []
    stricter = found(sets(entry_max_s=50), late)[0].hit
    assert stricter.values[1].value == "50" and f"own rule: {INSTEAD}: {WHY}" in stricter.values[1].origin


def test_the_page_of_sources_shows_what_the_company_sets_and_in_place_of_what(job_file, tmp_path) -> None:
    path = job_file(sets(entry_max_s=60, recharge_h=90))
    for audience in (Audience.INSTALLER, Audience.RECORD):
        page = pages(path, audience, tmp_path / audience.value)["sources.html"]
        own = page.partition('id="own"')[2].partition('id="limits"')[0]
        assert "60 s" in own and "90 h" in own and WHY in own and "<details" not in own
        assert "in place of 45 s of EN 50131-1" in own and "in place of 72 h of EN 50131-6" in own
        assert "90 h" not in page.partition('id="others"')[2]
        assert "with 2 limits of the company" in page


def test_without_a_limit_of_the_companys_own_nothing_says_so(job_file, tmp_path) -> None:
    page = pages(job_file(sets()), Audience.INSTALLER, tmp_path / "out")["sources.html"]
    assert 'id="own"' not in page and "of the company's own" not in page


@pytest.mark.parametrize("audience", [Audience.HOMEOWNER, Audience.STATION])
def test_householder_and_station_see_nothing_of_it(job_file, tmp_path, audience) -> None:
    with_it = pages(job_file(sets(entry_max_s=61)), audience, tmp_path / "a")
    without = pages(job_file(sets()), audience, tmp_path / "b")
    assert with_it == without and not any(WHY in page or "own rule" in page for page in with_it.values())


def test_the_fingerprint_changes_with_value_and_reason(job_file) -> None:
    prints = {compile_job(job_file(sets(**one))).fingerprint for one in (
        {}, {"entry_max_s": 60}, {"entry_max_s": 61}, {"entry_max_s": {"value": "60", "because": "Another reason."}})}
    assert len(prints) == 4


@pytest.mark.parametrize("limits, says", [
    ({"entry_max": 60}, 'limits.entry_max: the profile European grade 2 has no limit "entry_max". Did you mean "entry_max_s"?'),
    ({"cancellation_days": 7}, 'limits.cancellation_days: the profile European grade 2 has no limit "cancellation_days". Its limits'),
    ({"entry_max_s": -1}, "limits.entry_max_s.value: -1 s cannot be. Write a number from 0 up."),
    ({"link_margin_db": 18}, "limits.link_margin_db.value: 18 dB (link_margin_db) would lie above 15 dB (link_margin_main_db): no value fits."),
    ({"link_margin_main_db": 4}, "limits.link_margin_main_db.value: 10 dB (link_margin_db) would lie above 4 dB (link_margin_main_db): no"),
    ({"entry_max_s": {"value": "60"}}, "limits.entry_max_s.because: this key is missing. Write because: and its value here."),
    ({"entry_max_s": {"value": "60", "because": WHY, "unit": "min"}}, 'limits.entry_max_s.unit: the key "unit" is not known here.'),
    ({"entry_max_s": {"value": "one minute", "because": WHY}}, 'limits.entry_max_s.value: "one minute" is not a number.'),
])
def test_a_limit_that_the_company_cannot_set_so_is_answered_at_its_line(job_file, limits, says: str) -> None:
    found = problems(job_file, sets(**limits))
    assert len(found) == 1 and found[0].startswith("company.yaml:") and says in found[0], found


def test_every_wrong_limit_is_answered_in_one_run_with_what_is_wrong_in_the_job(job_file) -> None:
    found = problems(job_file, sets(entry_maxs=60, recharge_h=-1), lambda files: files["job"]["control_unit"].update(room="hal"))
    assert [line.split(":")[0] for line in found] == ["company.yaml", "company.yaml", "job.yaml"]
