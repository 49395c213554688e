"""Is what was found on site taken in whole, never rewritten, and shown to the company beside the plan, and to nobody else?"""
import fcntl
import hashlib
import json
import os
import re
import shutil
import stat
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from bs4 import BeautifulSoup

from generator.pages.record.site import site_page
from generator.pipeline import compile_job
from generator.procedure.asked import NOT_READ, WITHOUT_REASON
from generator.publish.pack import write_pack
from generator.record import site as record_site
from generator.record.issue import issue
from generator.terms.audience import Audience
from tests.conftest import DEMO
from tests.site_files import ADA, BEN, Phone, asked_in, phone_of_job, play
from tests.test_found import HOSTILE

UNSEEN = "\N{REPLACEMENT CHARACTER}"


@pytest.fixture
def job(job_file) -> Path:
    return job_file()


@pytest.fixture
def ada(job) -> Phone:
    return phone_of_job(compile_job(job))


def files_in(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


def taken(folder: Path) -> list[str]:
    """The ids that stand under site/."""
    return sorted(entry["id"] for path in (folder / "site").glob("*.txt") for entry in json.loads(path.read_text("utf-8"))["entries"])


def soup(pack: Path, page: str) -> BeautifulSoup:
    return BeautifulSoup((pack / "record" / page).read_text("utf-8"), "html.parser")


def row(page: BeautifulSoup, group: str, title: str) -> str:
    part = page.find(id=group).find_parent("section")
    found = next(line for line in part.select("tbody tr") if line.th.get_text() == title)
    return " ".join(found.get_text(" ").split())


def test_a_file_is_taken_in_and_a_second_time_it_adds_nothing_and_says_so(run, job, ada, tmp_path) -> None:
    ada.add("D1", "enrol-d1", "serial", value="00A4F3")
    path = ada.write(tmp_path)
    code, out, _ = run("results", job, path)
    assert code == 0 and f"{path}: 1 entry, 1 new." in out
    before = files_in(job.parent)
    assert list(before)[-1].startswith(f"site/{ADA}-000001-000001-") and taken(job.parent) == [ada.entries[0]["id"]]
    code, out, _ = run("results", job, path)
    assert code == 0 and "1 entry, nothing new, all of it was taken in before." in out and files_in(job.parent) == before


def test_what_stands_there_is_never_written_again(run, job, ada, tmp_path) -> None:
    ada.add("D1", "enrol-d1", "serial", value="00A4F9")
    run("results", job, ada.write(tmp_path))
    before = {path: (path.stat().st_ino, path.stat().st_mtime_ns, path.read_bytes()) for path in (job.parent / "site").iterdir()}
    ada.add("D1", "enrol-d1", "serial", value="00A4F3")
    run("results", job, ada.write(tmp_path))
    assert {path: (path.stat().st_ino, path.stat().st_mtime_ns, path.read_bytes()) for path in before} == before
    assert len(list((job.parent / "site").iterdir())) == 2 and len(taken(job.parent)) == 2


def test_two_phones_and_what_one_holds_of_the_other_give_the_same_files_in_any_order(run, job, tmp_path) -> None:
    first, second = phone_of_job(compile_job(job)), phone_of_job(compile_job(job), BEN)
    first.add("D1", "fix-d1", "step", result="done")
    second.add("D2", "fix-d2", "step", result="done")
    # Ben's phone was handed Ada's file: it keeps her ids.
    second.entries += first.entries
    paths = [first.write(tmp_path / "a"), second.write(tmp_path / "b")]
    other = shutil.copytree(job.parent, tmp_path / "other") / "job.yaml"
    for file in paths:
        assert run("results", job, file)[0] == 0
    assert run("results", other, paths[1])[0] == 0 and "nothing new" in run("results", other, paths[0])[1]
    assert taken(job.parent) == taken(other.parent) == sorted(one["id"] for one in second.entries)
    assert {name: content for name, content in files_in(job.parent).items() if ADA in name} == {
        name: content for name, content in files_in(other.parent).items() if ADA in name}


def other_job(phone: Phone) -> None:
    phone.reference = "K-1"


def other_print(phone: Phone) -> None:
    phone.fingerprint = "0" * 12


@pytest.mark.parametrize("change, says", [
    (other_job, 'this was found at job "K-1"; this job is "K-2041". Name the job that it belongs to.'),
    (other_print, "this was written in a pack with fingerprint 000000000000 (a draft); the job file as it stands gives"),
    (lambda phone: phone.entries.append({"id": "x"}), "is no name of an entry."),
])
def test_a_file_of_something_else_is_refused_with_what_to_do_and_nothing_is_written(run, job, ada, tmp_path, change: Callable[[Phone], Any], says: str) -> None:
    ada.add("D1", "fix-d1", "step", result="done")
    good = ada.write(tmp_path / "good")
    change(ada)
    before = files_in(job.parent)
    # All or none: the good one is not taken in beside it.
    code, out, err = run("results", job, good, ada.write(tmp_path / "bad"))
    assert (code, out) == (3, "") and says in err and files_in(job.parent) == before


def test_an_entry_that_was_changed_since_it_was_taken_in_is_named(run, job, ada, tmp_path) -> None:
    told = ada.add("D1", "fix-d1", "step", result="done")
    run("results", job, ada.write(tmp_path))
    before = files_in(job.parent)
    told["result"] = "could not"
    code, _, err = run("results", job, ada.write(tmp_path))
    assert code == 3 and f"the entry {told['id']} was taken in before with other content" in err and files_in(job.parent) == before


def test_a_file_that_is_not_there_and_a_command_without_one_are_answered(run, job, tmp_path) -> None:
    assert run("results", job, tmp_path / "none.txt")[0] == 3
    assert run("results", job)[0] == 2
    assert run("results", tmp_path, tmp_path / "none.txt")[0] == 3


def test_what_was_found_in_the_issued_pack_is_taken_in_and_of_an_earlier_one_if_told_to(run, job, tmp_path) -> None:
    def fill(_, folder: Path, more: dict[str, bytes]) -> None:
        for name, content in more.items():
            (folder / name).write_bytes(content)

    issue(job, date(2026, 9, 14), tmp_path / "archive", fill)
    first = phone_of_job(compile_job(job))
    first.add("D1", "fix-d1", "step", result="done")
    text = job.read_text("utf-8")
    job.write_text(text.replace("HALL MOVE", "HALL MOVING"), "utf-8")
    # The job file was changed and not issued: the pack of the last revision still belongs to it.
    assert run("results", job, first.write(tmp_path / "one"))[0] == 0
    shutil.rmtree(job.parent / "site")
    issue(job, date(2026, 9, 15), tmp_path / "archive", fill)
    first.add("D2", "fix-d2", "step", result="done")
    code, _, err = run("results", job, first.write(tmp_path / "one"))
    assert code == 3 and "this was written in the pack of revision 1; revision 2 was issued since." in err and "--earlier" in err
    assert run("results", job, first.write(tmp_path / "one"), "--earlier")[0] == 0
    # From now on that pack is known.
    first.add("D3", "fix-d3", "step", result="done")
    assert run("results", job, first.write(tmp_path / "one"))[0] == 0 and len(taken(job.parent)) == 3


def test_a_run_that_is_broken_off_loses_nothing_and_the_next_one_ends_it(run, job, ada, tmp_path, monkeypatch) -> None:
    ada.add("D1", "fix-d1", "step", result="done")
    ada.signatures[hashlib.sha256(b"M0 0 L9 9").hexdigest()] = "M0 0 L9 9"
    ada.add("", "sign", "signature/customer", value=next(iter(ada.signatures)))
    ada.entries.append(ada.entries[0] | {"id": f"{BEN}-m2c8r4-000001"})
    path = ada.write(tmp_path)
    steps, replaced = 0, os.replace
    while True:
        left = steps

        def breaks(source, target):
            nonlocal left
            if not left:
                raise KeyboardInterrupt
            left -= 1
            replaced(source, target)

        monkeypatch.setattr(record_site.os, "replace", breaks)
        here = shutil.copytree(job.parent, tmp_path / f"at-{steps}") / "job.yaml"
        code, _, _ = run("results", here, path)
        monkeypatch.undo()
        whole = [json.loads(one.read_text("utf-8")) for one in (here.parent / "site").glob("[!.]*")] if (here.parent / "site").exists() else []
        assert all(one["format"] == 1 for one in whole) and compile_job(here)
        if code == 0:
            break
        assert run("results", here, path)[0] == 0 and len(taken(here.parent)) == 3
        assert not list(here.parent.rglob(".doorpost-new-*"))
        steps += 1
    assert steps == 3


def test_two_runs_side_by_side_do_not_write_into_one_folder(run, job, ada, tmp_path) -> None:
    ada.add("D1", "fix-d1", "step", result="done")
    handle = os.open(job.parent, os.O_RDONLY)
    try:
        fcntl.flock(handle, fcntl.LOCK_EX)
        code, _, err = run("results", job, ada.write(tmp_path))
    finally:
        os.close(handle)
    assert code == 4 and "Wait until it ends, then take it in again." in err and not (job.parent / "site").exists()


@pytest.mark.parametrize("spoil, says", [
    (lambda path: path.write_bytes(path.read_bytes().replace(b"done", b"fail")), "this was changed since it was taken in; what was found is never rewritten."),
    (lambda path: path.rename(path.with_name("mine.txt")), "this was not written by `doorpost results`."),
    (lambda path: path.write_bytes(path.read_bytes()[:40]), "this was changed since it was taken in"),
])
def test_what_was_taken_in_and_is_not_as_it_was_written_is_answered(run, job, ada, tmp_path, spoil, says: str) -> None:
    ada.add("D1", "fix-d1", "step", result="done")
    run("results", job, ada.write(tmp_path))
    spoil(next((job.parent / "site").iterdir()))
    code, _, err = run("check", job)
    assert code == 3 and says in err


def test_a_signature_lies_beside_the_people_and_the_entry_holds_its_hash(run, job, ada, tmp_path) -> None:
    print_ = hashlib.sha256(b"M10 10 L24 18").hexdigest()
    ada.signatures[print_] = "M10 10 L24 18"
    ada.add("", "sign", "signature/installer", value=print_)
    ada.add("", "sign", "signature/customer", value="Pat Example", result="done")
    run("results", job, ada.write(tmp_path))
    drawn = (job.parent / "signatures" / f"{print_}.svg").read_text("utf-8")
    assert '<path d="M10 10 L24 18"' in drawn and 'viewBox="5 5 24 18"' in drawn
    named = job.parent / "signatures" / f"{hashlib.sha256(b'Pat Example').hexdigest()}.txt"
    assert named.read_text("utf-8") == "Pat Example\n" and stat.S_IMODE(named.stat().st_mode) == 0o644
    assert not any(b"Pat Example" in content or b"M10 10" in content for name, content in files_in(job.parent).items() if name.startswith("site/"))


def test_a_signature_that_is_lost_or_changed_is_told_until_the_same_file_is_taken_in_again(run, job, ada, tmp_path) -> None:
    print_ = hashlib.sha256(b"M10 10 L24 18").hexdigest()
    ada.add("", "sign", "signature/installer", value=print_)
    ada.add("", "sign", "signature/customer", value="Pat Example", result="done")
    without = ada.write(tmp_path / "without")
    ada.signatures[print_] = "M10 10 L24 18"
    with_, drawn = ada.write(tmp_path / "with"), job.parent / "signatures" / f"{print_}.svg"
    lacks = f"its file signatures/{print_[:16]}… is not there"
    # A file without the drawing is taken in, and it is told; a later one brings it.
    code, out, _ = run("results", job, without)
    assert code == 0 and lacks in out and lacks in run("check", job)[1]
    code, out, _ = run("results", job, with_)
    assert code == 0 and "nothing new" in out and drawn.name in out and lacks not in out and drawn.read_bytes().startswith(b"<svg")
    whole = files_in(job.parent)
    named = job.parent / "signatures" / f"{hashlib.sha256(b'Pat Example').hexdigest()}.txt"
    for file in (drawn, named):
        for spoil, says in ((file.unlink, "is not there"), (lambda: file.write_bytes(b"<svg/>"), "is not as it was taken in"),
                            (lambda: file.write_bytes(file.read_bytes() + b"<script/>"), "is not as it was taken in")):
            spoil()
            says = f"its file signatures/{file.stem[:16]}… {says}"
            assert says in run("check", job)[1] and says in soup(write_pack(compile_job(job), tmp_path / "out"), "site.html").get_text()
            code, out, _ = run("results", job, with_)
            assert code == 0 and file.name in out and says not in out and files_in(job.parent) == whole


def test_every_problem_of_every_file_is_told_in_one_run(run, job, ada, tmp_path) -> None:
    first, second = ada.add("D1", "fix-d1", "step", result="done"), ada.add("D2", "fix-d2", "step", result="done")
    good = ada.write(tmp_path / "good")
    run("results", job, good)
    before = files_in(job.parent)
    first["result"] = second["result"] = "could not"
    changed = ada.write(tmp_path / "changed")
    ada.add("D3", "fix-d3", "step", result="maybe")
    wrong = ada.write(tmp_path / "wrong")
    del ada.entries[-1]
    other_job(ada)
    foreign = ada.write(tmp_path / "foreign")
    cut = tmp_path / "cut.txt"
    cut.write_bytes(good.read_bytes()[:50])
    code, out, err = run("results", job, cut, tmp_path / "none.txt", wrong, foreign, changed, good)
    assert (code, out) == (3, "") and files_in(job.parent) == before
    for says in (f"{cut}: this is no file of results", f"{tmp_path / 'none.txt'}: there is no such file", '"maybe" is not known here', 'this was found at job "K-1"',
                 f"the entry {first['id']} was taken in before", f"the entry {second['id']} was taken in before"):
        assert says in err, says


@pytest.mark.parametrize("revision, code", [(0, 0), (1, 0), (7, 3)])
def test_the_revision_of_a_file_is_held_against_its_fingerprint(run, job, tmp_path, revision: int, code: int) -> None:
    issue(job, date(2026, 9, 14), tmp_path / "archive", lambda _, folder, more: None)
    phone = phone_of_job(compile_job(job))
    phone.add("D1", "fix-d1", "step", result="done")
    # A draft of the same content was handed out before it was issued.
    phone.revision = revision
    done = run("results", job, phone.write(tmp_path))
    assert done[0] == code
    assert code == 0 or f"revision 7 stands here; the pack with fingerprint {phone.fingerprint} is of revision 1." in done[2]


def test_a_draft_has_no_revision(run, job, ada, tmp_path) -> None:
    ada.add("D1", "fix-d1", "step", result="done")
    ada.revision = 1
    code, _, err = run("results", job, ada.write(tmp_path))
    assert code == 3 and "revision 1 stands here" in err and "is a draft, revision 0." in err


def test_names_of_files_reach_no_terminal_as_they_are_and_a_file_without_entries_says_so(run, job, ada, tmp_path) -> None:
    path = ada.write(tmp_path).rename(tmp_path / "\x1b[31mev\nil.txt")
    code, out, err = run("results", job, path)
    assert code == 0 and "\x1b" not in out + err and f"{UNSEEN}[31mev il.txt: it holds no entry" in out
    path.write_text("{", "utf-8")
    code, out, err = run("results", job, path)
    assert code == 3 and "\x1b" not in out + err and f"{UNSEEN}[31mev il.txt: this is no file of results" in err


def test_a_plan_has_the_same_fingerprints_with_what_was_found_and_without(run, job, ada, tmp_path) -> None:
    before = compile_job(job)
    play(ada, asked_in(before))
    run("results", job, ada.write(tmp_path))
    after = compile_job(job)
    assert after.papers.site and (after.fingerprint, after.fingerprint_of) == (before.fingerprint, before.fingerprint_of)


@pytest.fixture(scope="module")
def played(tmp_path_factory) -> Path:
    """The demo with a whole day taken in, on which this and that went otherwise; gives the folder with job and pack."""
    folder = tmp_path_factory.mktemp("played")
    shutil.copytree(DEMO.parent, folder / "jobs")
    path = folder / "jobs" / DEMO.name / "job.yaml"
    write_pack(compile_job(path), folder / "before")
    ada, ben = phone_of_job(compile_job(path)), phone_of_job(compile_job(path), BEN)
    play(ada, [one for one in asked_in(compile_job(path)) if (one.device, one.what) != ("D3", "check/rattle")])
    ada.add("D1", "enrol-d1", "serial", value="00B7C1-found")
    ada.add("D1", "signal-d1", "signal/1/from-unit/level", value="6", unit="dB", note="foil behind the plaster, agreed with the office")
    ada.add("D2", "test-d2", "note", note=HOSTILE)
    ada.add("D2", "fix-d2", "note", note="only the company reads this sentence of the site")
    ada.add("D9", "fix-d9", "step", result="done")
    ben.add("D2", "test-d2", "check/function", result="fail")
    ben.add("D1", "test-d1", "check/function", result="pass", note="Ben tried it with the lights off")
    from generator.cli import main

    assert main(["results", str(path), str(ada.write(folder / "a")), str(ben.write(folder / "b"))]) == 1
    write_pack(compile_job(path), folder / "after")
    return folder


def pack(played: Path, when: str = "after") -> Path:
    return next((played / when).iterdir())


def test_the_record_shows_each_line_beside_the_plan_with_what_was_before_and_what_another_phone_holds(played) -> None:
    page = soup(pack(played), "site.html")
    units = {one.get_text().partition(" ")[0]: one["id"] for one in page.select("h2[id^=unit-]")}
    assert list(units)[:2] == ["CU", "D1"]
    serial = row(page, units["D1"], "Serial of D1")
    assert "00A4F3 00B7C1-found" in serial and "Before: 00A4F3" in serial and "no reason is written" in serial and "24 Nov 2026, 10:05 by ADA" in serial
    level = row(page, units["D1"], "Attempt 1, heard from the unit: level")
    assert "6 dB" in level and "reason: foil behind the plaster" in level and "Before: 31 dB" in level
    assert row(page, units["D2"], "Function").count("fail") >= 1 and "Another phone: fail" in row(page, units["D2"], "Function")
    assert "Another phone says the same: pass Note: Ben tried it with the lights off" in row(page, units["D1"], "Function") and "by BEN" in row(page, units["D1"], "Function")
    assert "D9 fix-d9: step done" in row(page, "not-asked", "D9 fix-d9: step")


def test_what_was_not_tested_is_shown_as_not_tested_and_counted_so(played) -> None:
    page = soup(pack(played), "site.html")
    unit = next(one["id"] for one in page.select("h2[id^=unit-]") if one.get_text().startswith("D3 "))
    assert row(page, unit, "Rattle").endswith("not tested") and "pass" not in row(page, unit, "Rattle")
    told = {one.dt.get_text(): one.dd.get_text() for one in page.find(id="tally").find_parent("section").select("dl")}
    every = sum(one.kind == "check" for one in asked_in(compile_job(played / "jobs" / DEMO.name / "job.yaml")))
    assert told == {"Pass": str(every - 2), "Two phones differ": "1", "Not tested": "1"}


def test_before_anything_is_taken_in_the_page_says_so_and_calls_nothing_a_pass(played) -> None:
    page = soup(pack(played, "before"), "site.html")
    assert "Nothing was taken in yet" in page.get_text() and not page.select("table") and "Pass" not in page.main.get_text()


def test_text_of_a_phone_is_never_run_and_holds_its_direction_in_itself(played) -> None:
    raw = (pack(played) / "record" / "site.html").read_text("utf-8")
    assert "<script>alert" not in raw and "&lt;script&gt;alert(1)&lt;/script&gt;" in raw and "{{ 7*7 }}" in raw
    assert not re.search("[\x00\x1b]", raw)
    turned = [one for one in soup(pack(played), "site.html").find_all(string=re.compile("\u202e")) if one.find_parent("bdi") is None]
    assert turned == [] and "\u202e" in raw


def test_the_certificate_is_held_back_while_a_difference_has_no_reason(played) -> None:
    held = soup(pack(played), "completion.html")
    text = " ".join(held.get_text(" ").split())
    assert "STOP: 2 things found on site are not as planned." in text and "Serial of D1: 00B7C1-found read; planned: 00A4F3." in text
    assert "write the reason at that entry" in text and not held.select("table.write") and "foil" not in text
    assert soup(pack(played, "before"), "completion.html").select("table.write")


def test_with_every_reason_the_certificate_is_there_and_says_what_the_tests_came_to(run, job, ada, tmp_path) -> None:
    play(ada, asked_in(compile_job(job)))
    ada.add("D1", "enrol-d1", "serial", value="00B7C1", note="the first one was dead on arrival")
    assert run("results", job, ada.write(tmp_path))[0] == 0
    page = soup(write_pack(compile_job(job), tmp_path / "out"), "completion.html")
    assert page.select("table.write") and re.search(r"[0-9]+ pass, 0 not tested: site.html has each line", page.get_text())


def test_a_pass_without_the_value_that_it_rests_on_is_not_tested(run, job, ada, tmp_path) -> None:
    asked = asked_in(compile_job(job))
    play(ada, asked)
    one = next(one for one in asked if one.what == "check/charging-voltage")
    ada.add(one.device, one.step, one.what, result="pass")
    assert run("results", job, ada.write(tmp_path))[0] == 0
    compiled = compile_job(job)
    view = site_page(compiled.papers_of[Audience.RECORD], compiled.results).view
    told = {one.name: one.value for one in view.tally}
    assert told["Not tested"] == "1" and told["Pass"] == str(sum(one.kind == "check" for one in asked) - 1)
    (row,) = [row for group in view.groups for row in group.rows if row.title == "Charging voltage"]
    assert row.state == "not-tested" and row.now.result.startswith("not tested") and row.earlier[0].result == "pass"


@pytest.mark.parametrize("value, tested", [("", "1"), ("\u200b \u3164", "1"), ("-", "1"), ("14:05", "0")])
def test_a_value_that_nobody_can_read_was_not_read(run, job, ada, tmp_path, value: str, tested: str) -> None:
    asked = asked_in(compile_job(job))
    play(ada, asked)
    one = next(one for one in asked if one.rests_on_value and one.least is None and one.most is None)
    ada.add(one.device, one.step, one.what, value=value, unit=one.unit, result="pass")
    assert run("results", job, ada.write(tmp_path))[0] == 0
    compiled = compile_job(job)
    assert {one.name: one.value for one in site_page(compiled.papers_of[Audience.RECORD], compiled.results).view.tally}["Not tested"] == tested


@pytest.mark.parametrize(("result", "note", "stops"), [
    ("done", f"{NOT_READ}D1: Link margin", True), ("done", f"{WITHOUT_REASON}D1: Link margin", True), ("done", "foil, agreed with the office", True),
    ("could not", f"{WITHOUT_REASON}D1: Link margin", True), ("could not", "foil, agreed with the office", False)])
def test_that_somebody_went_on_is_no_reason_for_a_link_that_failed(run, job, ada, tmp_path, result: str, note: str, stops: bool) -> None:
    ada.add("D1", "signal-d1", "signal/1/from-unit/level", value="6", unit="dB")
    ada.add("D1", "signal-d1", "step", result=result, note=note)
    assert (run("results", job, ada.write(tmp_path))[0] == 1) is stops


def test_who_spoke_at_the_station_is_in_the_record_and_in_no_other_pack(played) -> None:
    page = soup(pack(played), "site.html")
    assert "A. Listener" in row(page, "system", "Operator's name") and "14:05" in row(page, "system", "Time of the call")
    for audience in (Audience.INSTALLER, Audience.HOMEOWNER, Audience.STATION):
        assert not [name for name, content in files_in(pack(played) / audience.value).items() if b"A. Listener" in content]
    assert b"A. Listener" not in (pack(played) / "homeowner.html").read_bytes()


def test_an_acceptance_of_the_office_is_a_reason_too(run, job, ada, tmp_path) -> None:
    ada.add("D1", "enrol-d1", "serial", value="00B7C1")
    assert run("results", job, ada.write(tmp_path))[0] == 1
    data = json.loads(job.read_text("utf-8"))
    data["accepted"] = [{"rule": "site-differs", "at": "devices.D1.serial", "values": "in step enrol-d1, found 00B7C1, planned 00A4F3", "who": "technical manager",
                         "on": "2026-09-14", "why": "The first one was dead on arrival; the customer agreed."}]
    job.write_text(json.dumps(data), "utf-8")
    assert not compile_job(job).stops


@pytest.mark.parametrize("audience", [Audience.INSTALLER, Audience.HOMEOWNER, Audience.STATION])
def test_no_other_reader_sees_a_byte_of_it(played, audience: Audience) -> None:
    assert files_in(pack(played) / audience.value) == files_in(pack(played, "before") / audience.value)
    assert (pack(played) / "homeowner.html").read_bytes() == (pack(played, "before") / "homeowner.html").read_bytes()
    seen = b"".join(files_in(pack(played) / audience.value).values())
    assert b"00B7C1" not in seen and b"foil behind" not in seen and b"only the company reads" not in seen


def test_what_was_found_is_in_the_papers_of_the_record_alone(played) -> None:
    papers_of = compile_job(played / "jobs" / DEMO.name / "job.yaml").papers_of
    assert {audience: bool(papers.site) for audience, papers in papers_of.items()} == {one: one is Audience.RECORD for one in Audience}


def test_what_was_typed_on_site_is_among_what_is_looked_for_in_other_packs(played) -> None:
    from generator.pipeline import looked_for
    from generator.publish.places import own_wording

    looked = looked_for(compile_job(played / "jobs" / DEMO.name / "job.yaml"), own_wording())
    for audience in (Audience.INSTALLER, Audience.HOMEOWNER, Audience.STATION):
        texts = {one.text for one in looked[audience].hidden}
        # A time of day may stand in any pack by chance, and would stop the build.
        assert {"00b7c1-found", "only the company reads this sentence of the site", "a. listener"} <= texts and "14:05" not in texts


def test_the_same_job_with_the_same_site_gives_the_same_bytes(played, tmp_path) -> None:
    again = write_pack(compile_job(played / "jobs" / DEMO.name / "job.yaml"), tmp_path)
    assert files_in(again) == files_in(pack(played))
