"""Is every code, PIN, password and keyword refused, wherever it stands, without being said aloud again?"""
import shutil

import pytest

from generator.intake.job_reader import read_job
from generator.intake.secret_words import asks_for_secret
from generator.intake.secrets import WHY
from generator.model.visibility import ROOTS
from generator.pages.keys import key_rows
from generator.terms.problem import JobInvalid
from tests.conftest import DEMO


def refused(job_file, *changes) -> list[tuple[str, str]]:
    try:
        read_job(job_file(*changes))
    except JobInvalid as invalid:
        assert all("4821" not in problem.with_caret() and "marmalade" not in problem.with_caret() for problem in invalid.problems)
        return [(problem.file, problem.field) for problem in invalid.problems if problem.says == WHY]
    return []


@pytest.mark.parametrize("key", ["code", "pin", "installer_code", "user-pin", "password", "wifi_password", "station_keyword",
                                 "passcode", "duress_word", "pass_phrase2", "safe_word", "pin2",
                                 "installerCode", "InstallerPIN", "station keyword", "Station Key-Word", "userPin1", "codes", "pin number", "code_no",
                                 "code for the cleaner", "new_code", "default code", "WIFI_KEY", "wi-fi key", "key safe", "abortWord", "call_word", "password1_old"])
def test_a_key_that_asks_for_a_secret_is_refused_with_the_reason(job_file, key: str) -> None:
    if key == "pass_phrase2":
        key = "passphrase2"
    assert refused(job_file, lambda f: f["job"]["users"]["1"].update({key: "4821"})) == [("job.yaml", f"users.1.{key}")]


@pytest.mark.parametrize("text", [
    "The code of the back door is 4821", "Code for the back door: 4821", "the keypad code of the customer is 4821",
    "code 4821", "The code is 4821.", "PIN: 4821", "alarm code = 4821", "door codes: 4821", "4821 is the code", "user code no. 4821",
    "password is marmalade", "Password: marmalade", "keyword marmalade is wrong here; keyword: marmalade", "safe word = marmalade",
    "access code “4821”", "code 4 8 2 1", "code 48-21", "PIN is: four eight two one", "The code for the gate is 4821", "key safe 4821 by the back door",
    "keysafe: 4821", "lockbox no. 4821", "combination 4821", "Unset with 4821.", "disarm the alarm with 4821", "4821 is her new door code", "code *4821#",
    'station keyword "marmalade"', "Station word: marmalade", "wifi key = marmalade", "pass phrase was marmalade", "code:\n4821", "PINs are 4821 and 4822",
])
def test_a_text_in_the_shape_of_a_secret_is_refused(job_file, text: str) -> None:
    assert refused(job_file, lambda f: f["job"].update(note=text)) == [("job.yaml", "note")]
    assert refused(job_file, lambda f: (f["job"].pop("note", None), f["job"]["devices"]["D1"].update(position=" ".join(text.split())))) == [
        ("job.yaml", "devices.D1.position")]


def test_secrets_are_refused_in_every_file(job_file) -> None:
    found = refused(job_file, lambda f: f["people"]["customer"].update(password="marmalade"),
                    lambda f: f["company"].update(name="Company, PIN 4821"),
                    lambda f: f["equipment"]["tern-dc"].update(everyday="The code is 4821."))
    assert found == [("company.yaml", "name"), ("equipment/tern-dc.yaml", "everyday"), ("people.yaml", "customer.password")]


@pytest.mark.parametrize("text", [
    "Codes are typed by their owners.", "Find by reference; the code list is on the last page.", "The local wiring code decides.",
    "Post code ZZ99 3WX", "Password: held at the station", "keyword is set with the station", "Passwords are never written down",
    "Area code 01632", "The code of practice is kept by the office; serial 004821", "the code for wiring is local law", "Cell with date code 202611", "BS 7671 is the wiring code", "Serial 004821", "3 m from the pin board", "Zone 4821",
    "The fire code of 2022 asks for it", "National fire alarm and signaling code, 2022", "Dialling code 01632 960310", "Bar code 5012345678900 on the box",
    "Country code 44", "Lot code 20261", "Code lock at the gate, code held at the office", "Each user has a code of their own", "Codes have at least four digits",
    "The default code was changed on 2026-09-14", "Ask for the keyword; it is agreed with the station", "The keypad wants a code within 30 s", "Keyword: none",
    "Open it with a 3 mm screwdriver", "Set with 2 fobs", "Pin 3 of terminal 12", "4 pins, 12 V", "Safe 1.2 m from the door", "Key box in the meter cupboard",
    "Combination detector 2040", "Door opens with 90 degrees", "Keysafe left of the door, 1.5 m up", "Wi-Fi key is kept by the customer", "Error code E1204",
    "The post code is ZZ99 3WX", "Passcode changed, none of ours known", "A code of 4 to 6 digits", "Code of practice, 1982 edition", "Use part code 30412",
    "Unset at 07:30, set at 23:00", "Two codes or tags", "No pin 1 on this terminal block", "Model code 4821",
])
def test_ordinary_words_are_not_refused(job_file, text: str) -> None:
    assert refused(job_file, lambda f: f["job"].update(note=text)) == []


def test_the_demos_and_the_starter_files_are_not_refused(run, tmp_path) -> None:
    from tests.conftest import ROOT

    run("new", tmp_path / "new")
    for folder in (ROOT / "jobs", tmp_path / "new"):
        assert run("check", folder)[0] == 0


@pytest.mark.parametrize("key, value", [
    ("codes", {"installer": "4821"}), ("codes", {"installer": {"now": ["4821"]}}), ("codes", ["4821", "marmalade"]), ("codes", [{"user": "1", "is": "4821"}]),
    ("pins", {"4821": "installer"}), ("passwords", {"station": "marmalade", "marmalade": "x"}),
])
def test_what_stands_below_a_key_for_secrets_is_refused_as_a_whole(job_file, key: str, value) -> None:
    assert refused(job_file, lambda f: f["job"].update({key: value})) == [("job.yaml", key)]


def test_a_secret_as_a_key_is_refused_and_not_said_in_the_way_to_it(job_file) -> None:
    assert refused(job_file, lambda f: f["job"]["users"].update({"code 4821": {"who": "x"}})) == [("job.yaml", "users")]


@pytest.mark.parametrize("place, change", [
    ("room", lambda f: f["job"]["premises"]["storeys"]["ground"]["rooms"].update({"pin-code": {}})),
    ("opening", lambda f: f["job"]["premises"]["storeys"]["ground"]["openings"].update({"code": {"kind": "door", "wall": ["hall", "outside"]}})),
    ("fact", lambda f: f["job"].update(note="Default code changed: yes, by the office, on 2026-09-14")),
])
def test_names_one_may_choose_and_facts_are_not_refused(job_file, place: str, change) -> None:
    assert refused(job_file, change) == []


@pytest.mark.parametrize("old, new", [
    # Twice, in a comment behind a mistake, in a broken line, in the lines below a key, in a reference, and among the names that are known.
    ("title: Thrift Cottage", "title: Thrift Cottage\npin: 4821\npin: 4821"), ("title: Thrift Cottage", "title: Thrift Cottage\nnote: x\nnote: The code is 4821"),
    ("exit_s: 45, sounder_min: 15}", "exit_s: x, sounder_min: 15}  # code 4821"), ("title: Thrift Cottage", "title: Thrift Cottage\ncode: 4821: x"),
    ("title: Thrift Cottage", "codes:\n  - 4821\n  - 4821: a: b"), ("title: Thrift Cottage", "codes:\n  4821: a\n  4821: b"), ("room: store\n", "room: code 4821\n"),
    ("fob: F1", "fob: code 4821"), ("bedroom: {sleeping: true}", "bedroom: {sleeping: true}\n        code 4821: {}"), ("kind: new", "kind: code 4821"), ("kind: new", "kinds: password is marmalade"),
    ("profile: en-grade-2", "profile: pin 4821"), ("    sheet: tern-pir12", "    sheet: code 4821"), ("reference: K-2041", "reference: the code is 4821"),
    ("title: Thrift Cottage", "codes: {installer: 4821, user: [4821}"), ("title: Thrift Cottage", "'code 4821': 1\ntitle: x"),
    ("title: Thrift Cottage", 'title: "Thrift" the code is 4821'), ("title: Thrift Cottage", 'password: "marmalade" x'), ("title: Thrift Cottage", "pin:\n  4821: a: b"),
])
@pytest.mark.parametrize("form", ["text", "json", "github"])
def test_a_secret_is_said_in_no_answer(run, tmp_path, old: str, new: str, form: str) -> None:
    shutil.copytree(DEMO.parent, tmp_path / "jobs")
    path = tmp_path / "jobs" / DEMO.name / "job.yaml"
    text = path.read_text(encoding="utf-8")
    assert text.count(old) >= 1
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    code, out, err = run("check", path, "--format", form)
    assert code == 3 and "4821" not in out + err and "marmalade" not in out + err, out + err


def test_a_comment_is_no_data(job_file) -> None:
    path = job_file()
    path.write_text(path.read_text(encoding="utf-8").replace("{", "{  # the code is 4821", 1), encoding="utf-8")
    read_job(path)


def test_no_key_of_any_file_asks_for_a_secret() -> None:
    keys = {part for root in ROOTS for row in key_rows(root) for part in row.way.split(".")}
    assert len(keys) > 50 and [key for key in keys if asks_for_secret(key)] == []
