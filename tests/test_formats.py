"""Is a file of another format answered once, at its number, with what to install or to run?"""
import re

import pytest

from generator import __version__
from generator.cli import parser
from generator.intake import migrations
from generator.intake.formats import KIND_OF, chain
from generator.intake.job_reader import read_job
from generator.model.formats import FORMATS
from generator.model.visibility import ROOTS
from generator.terms.problem import JobInvalid
from tests.conftest import DEMO, ROOT
from tests.old_format import old_format  # noqa: F401
from tests.old_jobs import content

JOB = (DEMO / "job.yaml").read_text(encoding="utf-8")


def answers(path) -> list[str]:
    try:
        read_job(path)
    except JobInvalid as invalid:
        return [one.with_caret() for one in invalid.problems]
    return []


def later(number: str, kind: str, name: str, line: int = 2) -> str:
    return (f"{name}:{line}:12 format: format {number} stands here; Doorpost {__version__} reads format 1 of a {kind} file. "
            f"Install a newer Doorpost, one that reads format {number}; leave the number as it is.")


def strange(data) -> None:
    """Gives a file a number that is yet to come, and keys that nobody knows."""
    data.update({"format": "7", "later_key": {"more": "4"}, "another": "x"})


@pytest.mark.parametrize("change, kind, name", [
    (lambda f: strange(f["job"]), "job", "job.yaml"), (lambda f: strange(f["people"]), "people", "people.yaml"),
    (lambda f: strange(f["company"]), "company", "company.yaml"),
    (lambda f: strange(f["equipment"]["tern-dc"]), "sheet", "equipment/tern-dc.yaml"),
])
def test_a_later_format_is_one_answer_at_its_line(job_file, change, kind: str, name: str) -> None:
    found = answers(job_file(change))
    assert [one.split("\n")[0] for one in found] == [later("7", kind, name)] and found[0].split("\n")[1].strip() == '"format": "7",'


def test_a_later_format_of_a_profile_is_one_answer_at_its_line(job_file) -> None:
    def change(files) -> None:
        files["job"]["profile"] = "own"
        files["profiles"]["own"] = {"format": "7", "extends": "en-grade-2", "new": "x"}
    assert [one.split("\n")[0] for one in answers(job_file(change))] == [later("7", "profile", "profiles/own.yaml")]


def test_a_sheet_inside_a_job_has_a_format_of_its_own(job_file) -> None:
    def change(files) -> None:
        inline = dict(files["equipment"]["tern-dc"])
        strange(inline)
        files["job"]["equipment"] = {"mine": inline, "other": {**files["equipment"]["tern-dc"], "colour": "red"}}
        files["job"]["kind"] = "old"
    found = [one.split("\n")[0] for one in answers(job_file(change))]
    assert [re.sub(r":\d+:\d+ ", " ", one)[:47] for one in found] == [
        "job.yaml kind: \"old\" is not known here. Write on"[:47], "job.yaml equipment.mine.format: format 7 stands h"[:47],
        "job.yaml equipment.other.colour: the key \"colour"[:47]]


def test_what_people_yaml_says_is_not_looked_for_in_a_job_of_a_later_format(job_file) -> None:
    found = answers(job_file(lambda f: strange(f["job"]), lambda f: f["job"].update(title="Wilhelmina Thornquist")))
    assert len(found) == 1 and "format 7 stands here" in found[0]


def test_a_secret_in_the_line_of_the_number_is_not_shown(tmp_path) -> None:
    (tmp_path / "job.yaml").write_text("{format: 7, pin: 4711}\n")
    (tmp_path / "company.yaml").write_bytes((ROOT / "jobs" / "company.yaml").read_bytes())
    found = answers(tmp_path / "job.yaml")
    assert len(found) == 1 and "format 7 stands here" in found[0] and "4711" not in found[0]


@pytest.mark.parametrize("written", ["one", "-3", "01", "1.0", "0", "9" * 10, "~"])
def test_what_is_no_number_of_a_known_format_has_the_ordinary_answer(job_file, written: str) -> None:
    path = job_file()
    text = path.read_text(encoding="utf-8").replace('"format": "1"', f'"format": {written}', 1)
    path.write_text(text, encoding="utf-8")
    found = answers(path)
    assert len(found) == 1 and found[0].startswith("job.yaml:2:12 format: ") and "1" in found[0].split("\n")[0].partition("Write")[2]
    assert "newer" not in found[0] and "migrate" not in found[0]


def test_a_missing_number_has_the_ordinary_answer(job_file) -> None:
    assert answers(job_file(lambda f: f["job"].pop("format"))) == [
        "job.yaml:1:1 format: this key is missing. Write format: and its value here.\n    {\n    ^"]


def test_an_earlier_format_is_one_answer_that_names_the_command(job_file, old_format) -> None:  # noqa: F811
    found = answers(job_file(lambda f: f["job"].update(format="0", old_key="x"), lambda f: f["job"]["devices"].clear()))
    assert [one.split("\n")[0] for one in found] == [
        f"job.yaml:2:12 format: format 0 stands here; Doorpost {__version__} reads format 1 of a job file. "
        "Run `doorpost migrate`: it shows what it would change, and changes it with --write."]
    command = re.search(r"`doorpost (\w+)`", found[0])[1]
    assert parser().parse_args([command, "x", "--write"]).write


def test_check_tells_of_a_later_format_with_exit_3_and_touches_nothing(run, job_file) -> None:
    path = job_file(lambda f: strange(f["job"]))
    before = content(path.parent)
    code, _, err = run("check", path)
    assert code == 3 and "Install a newer Doorpost" in err and content(path.parent) == before


def test_every_kind_of_file_has_its_number_and_its_models_take_no_other() -> None:
    assert set(FORMATS) == set(ROOTS) == set(KIND_OF.values())
    for model, kind in KIND_OF.items():
        for one in (model, ROOTS[kind]):
            assert one.model_fields["format"].annotation.__args__ == (str(FORMATS[kind]),)


def test_no_format_came_before_the_first_and_no_steps_are_shipped_for_one() -> None:
    assert migrations.MIGRATIONS == {} or min(number for _, number in migrations.MIGRATIONS) >= 1
    for kind, number in migrations.MIGRATIONS:
        assert chain(kind, number), f"there is no way from format {number} of {kind} to {FORMATS[kind]}"
    assert [chain(kind, number) for kind, number in FORMATS.items()] == [[]] * len(FORMATS)
