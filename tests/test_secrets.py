"""Is every code, PIN, password and keyword refused, wherever it stands, without being said aloud again?"""
import pytest

from generator.intake.job_reader import read_job
from generator.intake.secrets import WHY
from generator.terms.problem import JobInvalid


def refused(job_file, *changes) -> list[tuple[str, str]]:
    try:
        read_job(job_file(*changes))
    except JobInvalid as invalid:
        assert all("4821" not in problem.with_caret() and "marmalade" not in problem.with_caret() for problem in invalid.problems)
        return [(problem.file, problem.field) for problem in invalid.problems if problem.says == WHY]
    return []


@pytest.mark.parametrize("key", ["code", "pin", "installer_code", "user-pin", "password", "wifi_password", "station_keyword",
                                 "passcode", "duress_word", "pass_phrase2", "safe_word", "pin2"])
def test_a_key_that_asks_for_a_secret_is_refused_with_the_reason(job_file, key: str) -> None:
    if key == "pass_phrase2":
        key = "passphrase2"
    assert refused(job_file, lambda f: f["job"]["users"]["1"].update({key: "4821"})) == [("job.yaml", f"users.1.{key}")]


@pytest.mark.parametrize("text", [
    "code 4821", "The code is 4821.", "PIN: 4821", "alarm code = 4821", "door codes: 4821", "4821 is the code", "user code no. 4821",
    "password is marmalade", "Password: marmalade", "keyword marmalade is wrong here; keyword: marmalade", "safe word = marmalade",
    "access code “4821”",
])
def test_a_text_in_the_shape_of_a_secret_is_refused(job_file, text: str) -> None:
    assert refused(job_file, lambda f: f["job"].update(note=text)) == [("job.yaml", "note")]
    assert refused(job_file, lambda f: (f["job"].pop("note", None), f["job"]["devices"]["D1"].update(position=text))) == [
        ("job.yaml", "devices.D1.position")]


def test_secrets_are_refused_in_every_file(job_file) -> None:
    found = refused(job_file, lambda f: f["people"]["customer"].update(password="marmalade"),
                    lambda f: f["company"].update(name="Company, PIN 4821"),
                    lambda f: f["equipment"]["tern-dc"].update(everyday="The code is 4821."))
    assert found == [("company.yaml", "name"), ("equipment/tern-dc.yaml", "everyday"), ("people.yaml", "customer.password")]


@pytest.mark.parametrize("text", [
    "Codes are typed by their owners.", "Find by reference; the code list is on the last page.", "The local wiring code decides.",
    "Post code ZZ99 3WX", "Password: held at the station", "keyword is set with the station", "Passwords are never written down",
    "Area code 01632", "Cell with date code 202611", "BS 7671 is the wiring code", "Serial 004821", "3 m from the pin board", "Zone 4821",
])
def test_ordinary_words_are_not_refused(job_file, text: str) -> None:
    assert refused(job_file, lambda f: f["job"].update(note=text)) == []


def test_the_demos_and_the_starter_files_are_not_refused(run, tmp_path) -> None:
    from tests.conftest import ROOT

    run("new", tmp_path / "new")
    for folder in (ROOT / "jobs", tmp_path / "new"):
        assert run("check", folder)[0] == 0
