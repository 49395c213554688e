"""Do the commands answer as the manual says: one line for each thing, the right exit code, nothing written in vain?"""
import json
import os
import re
import socket
import subprocess
import sys
import time
import urllib.request
from pathlib import Path

import jsonschema
import pytest

from generator.publish.places import PACKAGE
from tests.conftest import DEMO, JOBS, ROOT, read_files


def schema(name: str) -> dict:
    return json.loads((PACKAGE / "schemas" / f"{name}.schema.json").read_text(encoding="utf-8"))


def stopped(files) -> None:
    files["job"]["times"]["entry_s"] = "46"


def broken(files) -> None:
    files["job"]["times"]["entry_s"] = "long"


@pytest.mark.parametrize("name", ["plan", "check"])
def test_a_schema_is_itself_valid(name: str) -> None:
    jsonschema.Draft202012Validator.check_schema(schema(name))


@pytest.mark.parametrize("change, code", [(lambda f: None, 0), (stopped, 1)])
def test_plan_prints_what_its_schema_says(run, job_file, change, code: int) -> None:
    got, out, err = run("plan", job_file(change))
    jsonschema.validate(json.loads(out), schema("plan"))
    assert (got, err) == (code, "")


@pytest.mark.parametrize("change, code", [(lambda f: None, 0), (stopped, 1), (broken, 3)])
def test_check_prints_what_its_schema_says(run, job_file, change, code: int) -> None:
    got, out, _ = run("check", job_file(change), "--format", "json")
    jsonschema.validate(json.loads(out), schema("check"))
    assert got == code and (len(json.loads(out)["problems"]) == 1) == (code == 3)


def test_pack_json_is_what_plan_prints(run, demo: Path) -> None:
    assert run("plan", DEMO)[1] == (demo / "pack.json").read_text(encoding="utf-8")


def test_the_plan_of_the_demo_names_every_number(run) -> None:
    rows = json.loads(run("plan", DEMO)[1])["slots"]
    assert [(row["list"], row["number"], row["device"], row["text"]) for row in rows] == [
        ("zones", 1, "D1", "HALL FRONT DR"), ("zones", 5, "D2", "HALL MOVE"), ("zones", 9, "D3", "KITCHEN BACK DR"),
        ("zones", 10, "D3", "KIT WINDOW"), ("keypads", 1, "K1", ""), ("sounders", 1, "S1", ""), ("fobs", 1, "F1", ""),
        ("users", 1, None, "householder"), ("users", 2, None, "neighbour who waters the plants"),
        ("partitions", 1, None, "Thrift Cottage")]


@pytest.mark.parametrize("change, line", [
    (broken, r"^.+job\.yaml:\d+:\d+ times\.entry_s: \"long\" is not a whole number\. Write digits only, for example 12\.$"),
    (lambda f: f["job"].update(colour="red"), r"^.+job\.yaml:\d+:\d+ colour: the key \"colour\" is not known here\. Known keys: .+\.$"),
])
def test_a_mistake_is_one_line_exit_3_and_nothing_written(run, job_file, tmp_path, change, line: str) -> None:
    code, out, err = run("build", job_file(change), "--out", tmp_path / "out")
    assert code == 3 and out == "" and re.fullmatch(line, err.strip()) and not (tmp_path / "out").exists()


def test_check_shows_the_line_with_a_caret_and_counts_at_the_end(run, job_file) -> None:
    code, out, err = run("check", job_file(broken), DEMO)
    heading, first, line, caret = err.splitlines()
    assert code == 3 and heading.endswith("job.yaml: 1 problem") and first.endswith('times.entry_s: "long" is not a whole number. Write digits only, for example 12.')
    assert line[caret.index("^"):].startswith('"long"') and out.splitlines()[-1] == "1 job read, 1 finding; 1 problem in 1 file."


def test_a_mistake_in_a_shared_file_is_named_where_that_file_stands(run, job_file, tmp_path, monkeypatch) -> None:
    path = job_file(lambda f: f["company"].update(telephone="call us"), lambda f: f["job"].update(kind="old"))
    (path.parent / "company.yaml").rename(tmp_path / "company.yaml")
    monkeypatch.chdir(tmp_path)
    lines = run("build", path, "--out", "packs")[2].splitlines()
    assert [line.partition(":")[0] for line in lines] == ["company.yaml", "job/job.yaml"]


def test_a_missing_file_is_one_line_exit_3_and_nothing_written(run, tmp_path) -> None:
    code, out, err = run("build", tmp_path / "nowhere" / "job.yaml", "--out", tmp_path / "out")
    assert code == 3 and out == "" and not (tmp_path / "out").exists()
    assert err.strip() == f"{tmp_path}/nowhere/job.yaml: there is no such file. Check the name, or start one with `doorpost new`."


def test_a_finding_that_stops_is_exit_1_and_the_pack_is_written(run, job_file, tmp_path) -> None:
    code, out, err = run("build", job_file(stopped), "--out", tmp_path / "out")
    assert code == 1 and err == "" and (tmp_path / "out" / "K-2041" / "installer" / "index.html").is_file()
    assert re.search(r"^K-2041 stop entry-time-long job\.yaml:\d+ times\.entry_s: 46 s programmed", out, re.M)


def test_one_bad_job_does_not_keep_a_good_one_from_being_built(run, job_file, tmp_path) -> None:
    bad = job_file(broken, name="bad")
    code, out, err = run("build", bad, DEMO, "--out", tmp_path / "out")
    assert code == 3 and (tmp_path / "out" / "K-2041").is_dir() and "times.entry_s" in err


def test_two_jobs_with_one_reference_are_a_problem_and_nothing_is_written(run, job_file, tmp_path) -> None:
    other = job_file(lambda f: f["job"].update(reference="k-2041"))
    code, _, err = run("build", DEMO, other, "--out", tmp_path / "out")
    assert code == 3 and not (tmp_path / "out").exists()
    assert 'reference: "k-2041" is the reference of' in err


def test_a_folder_of_job_folders_is_all_of_them(every_demo) -> None:
    references = sorted(read_files(job.parent)["job"]["reference"] for job in JOBS.glob("*/job.yaml"))
    assert sorted(path.name for path in every_demo.iterdir()) == references != []
    assert [json.loads((every_demo / one / "pack.json").read_text())["reference"] for one in references] == references


def test_wrong_usage_is_exit_2(run) -> None:
    assert run("build", DEMO)[0] == 2 and run("paint")[0] == 2 and run("check", DEMO, "--as-of", "tomorrow")[0] == 2


def test_new_writes_files_that_build_as_they_stand(run, tmp_path) -> None:
    code, out, _ = run("new", tmp_path / "mine")
    assert code == 0 and (tmp_path / "mine" / "job.yaml").is_file() and len(out.splitlines()) == 10
    code, _, err = run("build", tmp_path / "mine", "--out", tmp_path / "packs")
    assert (code, err) == (0, "")


def test_new_draws_other_path_names_each_time_and_touches_no_full_folder(run, tmp_path) -> None:
    for name in ("a", "b"):
        run("new", tmp_path / name)
    names = [re.findall(r"^  (?:installer|homeowner|station|record): ([a-z2-7]{26})$", (tmp_path / name / "job.yaml").read_text(), re.M)
             for name in ("a", "b")]
    assert len({*names[0], *names[1]}) == 8
    before = (tmp_path / "a" / "job.yaml").read_bytes()
    code, _, err = run("new", tmp_path / "a")
    assert code == 4 and "is there already" in err and (tmp_path / "a" / "job.yaml").read_bytes() == before


def test_a_relative_out_counts_from_where_the_command_is_given(run, tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    run("build", DEMO, "--out", "packs")
    assert (tmp_path / "packs" / "K-2041" / "installer" / "index.html").is_file()


def test_as_of_is_the_day_that_pages_name(run, tmp_path) -> None:
    run("build", DEMO, "--out", tmp_path, "--as-of", "2027-03-04")
    assert "as of 4 Mar 2027" in (tmp_path / "K-2041" / "record" / "index.html").read_text(encoding="utf-8")


def free_port() -> int:
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return one.getsockname()[1]


def fetched(port: int, wanted: str, until_s: float = 30) -> str:
    """The front page at a port once it holds the wanted text; its last state if that never comes."""
    end, text = time.monotonic() + until_s, ""
    while wanted not in text and time.monotonic() < end:
        try:
            with urllib.request.urlopen(f"http://127.0.0.1:{port}/", timeout=5) as answer:
                text = answer.read().decode()
        except OSError:
            pass
        time.sleep(0.2)
    return text


@pytest.mark.parametrize("audience", ["installer", "station"])
def test_preview_shows_a_pack_on_this_machine_only_and_follows_changes(job_file, audience: str) -> None:
    path, port = job_file(), free_port()
    server = subprocess.Popen([sys.executable, "-m", "generator", "preview", str(path), "--audience", audience, "--port", str(port)],
                              stdout=subprocess.PIPE, text=True, cwd=ROOT)
    try:
        assert "Thrift Cottage" in fetched(port, "Thrift Cottage")
        path.write_text(path.read_text(encoding="utf-8").replace("Thrift Cottage", "Curlew Cottage"), encoding="utf-8")
        assert "Curlew Cottage" in fetched(port, "Curlew Cottage")
        listening = [line.split() for line in Path("/proc/net/tcp").read_text().splitlines()[1:]]
        local = [entry[1] for entry in listening if entry[1].endswith(f":{port:04X}") and entry[3] == "0A"]
        assert local == [f"0100007F:{port:04X}"], "only the loopback address listens"
    finally:
        server.terminate()
        server.wait(10)


def test_mkdocs_serve_previews_the_top_level_configuration() -> None:
    port = free_port()
    server = subprocess.Popen([sys.executable, "-m", "mkdocs", "serve", "-q", "--dev-addr", f"127.0.0.1:{port}"], cwd=ROOT,
                              env={**os.environ, "DOORPOST_AUDIENCE": "homeowner", "NO_MKDOCS_2_WARNING": "1"})
    try:
        text = fetched(port, "Your alarm")
        assert "Your alarm" in text and "Thrift Cottage" in text
    finally:
        server.terminate()
        server.wait(10)


def test_mkdocs_build_answers_a_broken_job_in_its_own_words(job_file) -> None:
    done = subprocess.run([sys.executable, "-m", "mkdocs", "build", "-q", "--site-dir", str(job_file(broken).parent / "site")],
                          cwd=ROOT, capture_output=True, text=True,
                          env={**os.environ, "DOORPOST_JOB": str(job_file(broken).parent), "NO_MKDOCS_2_WARNING": "1"})
    assert done.returncode != 0 and '"long" is not a whole number' in done.stderr and "Traceback" not in done.stderr
