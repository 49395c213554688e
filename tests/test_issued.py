"""Is issued.yaml read only as it was written, and every other one answered at its line, with the mend, and left alone?"""
import re
from collections.abc import Callable
from dataclasses import replace

import pytest

from generator.intake.yaml_tree import read_tree
from generator.pipeline import compile_job
from generator.record.issue import ISSUED
from generator.record.issued_text import issued_text
from generator.terms.problem import JobInvalid, Problem
from generator.terms.seal import check_line
from tests.conftest import read_files, write_files
from tests.issues import changed
from tests.test_changes import FIRST, SECOND, device, put_issued, without

MEND = ("Take back the file as `doorpost issue` wrote it: it stands in the newest archive, K-2041-r2.zip. "
        "Numbers are changed in job.yaml, never here.")


@pytest.fixture(scope="module")
def text(tmp_path_factory) -> str:
    """What was written by two issues; D2 went with the second."""
    folder = tmp_path_factory.mktemp("written") / "job"
    put_issued(compile_job(write_files(read_files(), folder)), folder, FIRST)
    put_issued(compile_job(changed(read_files(), folder, without("D2"))), folder, SECOND)
    return (folder / ISSUED).read_text(encoding="utf-8")


@pytest.fixture
def problems(tmp_path) -> Callable[..., list[Problem]]:
    """The problems of the demo job, D2 gone from it, with this issued.yaml."""
    def answer(written: str | bytes, *changes) -> list[Problem]:
        path = changed(read_files(), tmp_path / "job", without("D2"), *changes)
        before = written.encode() if isinstance(written, str) else written
        (tmp_path / "job" / ISSUED).write_bytes(before)
        try:
            compile_job(path)
        except JobInvalid as invalid:
            assert (tmp_path / "job" / ISSUED).read_bytes() == before
            return list(invalid.problems)
        return []
    return answer


def sealed(text: str) -> str:
    """The text with the checksum that it should have: an edit that is not given away by it."""
    above = text.rpartition("check: ")[0]
    return above + check_line(above)


def line_of(text: str, wanted: str, nth: int = 0) -> int:
    return [number for number, line in enumerate(text.split("\n"), 1) if wanted in line][nth]


def only(found: list[Problem]) -> Problem:
    assert len(found) == 1, [one.one_line() for one in found]
    return found[0]


# --- as it was written --------------------------------------------------------------------------------------

def test_what_was_written_is_read_as_it_was_meant(text, tmp_path, problems) -> None:
    assert problems(text) == []
    job = compile_job(tmp_path / "job" / "job.yaml")
    assert issued_text(job) == text
    assert text.endswith(check_line(text.rpartition("check: ")[0])) and text.startswith("# Written by `doorpost issue`; do not edit.")


@pytest.mark.parametrize("change", [lambda text: text.replace("\n", "\r\n"), lambda text: "\ufeff" + text])
def test_other_line_ends_and_a_byte_order_mark_are_no_change(text, problems, change) -> None:
    assert problems(change(text).encode()) == []


ODD = ("null", "~", "0012", "yes", "1_000", "# no comment", "a: b", '"quoted"', "back\\slash", "next\u2028line", "a\x85b", "½ — 家 😀",
       "- {x}", "'", "*x", "&x", "!x", "%", "@", "`", " blank ", "\ufeff", "[*] & | >", "check: 0")


def test_texts_that_yaml_reads_as_something_else_come_back_as_they_were(tmp_path) -> None:
    folder = tmp_path / "job"
    job = put_issued(compile_job(write_files(read_files(), folder)), folder)
    (row, *_), last = job.last.map, job.last
    rows = [row.model_copy(update={"number": number, "text": odd}) for number, odd in enumerate(ODD)]
    odd = job.issued.model_copy(update={"revisions": [last.model_copy(update={"map": rows})]})
    (tmp_path / ISSUED).write_text(issued_text(replace(job, issued=odd)), encoding="utf-8")
    tree = read_tree(tmp_path / ISSUED, ISSUED)
    assert tree.problems == [] and [one["text"] for one in tree.data["revisions"][0]["map"]] == list(ODD)


# --- by hand ------------------------------------------------------------------------------------------------

@pytest.mark.parametrize("old, new", [
    ("number: 9, device: D3", "number: 8, device: D3"), ("HALL FRONT DR", "HALL FRONT DOOR"), ("until: 2027-10-01", "until: 2026-10-02"),
    ("# Written", "#  Written"), ("serial: 00A4F3", "serial: 00A4F4")])
def test_a_change_by_hand_is_seen_at_the_checksum(text, problems, old, new) -> None:
    edited = text.replace(old, new)
    one = only(problems(edited))
    assert edited != text and (one.file, one.line, one.field, one.do) == (ISSUED, line_of(text, "check: "), "check", MEND)
    assert one.says == "the checksum does not agree with what stands above; this file was changed since it was written."


@pytest.mark.parametrize("more", ["\n", "# by hand\n", "more: text\n"])
def test_a_line_more_below_the_checksum_is_seen_too(text, problems, more) -> None:
    assert {(one.file, one.do) for one in problems(text + more)} == {(ISSUED, MEND)}


def test_a_file_cut_short_is_answered_wherever_it_ends(text, problems) -> None:
    lines = text.split("\n")
    for keep in (*range(4, len(lines) - 2, 17), len(lines) - 2):
        found = problems("\n".join(lines[:keep]) + "\n")
        assert found and all(one.file == ISSUED and one.do.startswith("Take back the file") for one in found), keep
    found = problems(text[:-20])
    assert found and all(one.file == ISSUED for one in found)


def test_an_empty_file_and_one_that_is_no_yaml_are_answered(problems) -> None:
    for written in ("", "\n", "a: [", b"\xff\xfe", "- a list\n"):
        found = problems(written)
        assert found and all(one.file == ISSUED and one.do.startswith("Take back the file") for one in found), written


def test_every_problem_of_it_and_of_the_job_is_told_in_one_run(text, problems) -> None:
    found = problems(text.replace("number: 9, device: D3", "number: nine, device: D3"), device("D1", role="door"))
    assert {(one.file, one.field.rpartition(".")[2]) for one in found} == {(ISSUED, "number"), (ISSUED, "check"), ("job.yaml", "role")}


def test_a_file_that_the_machine_does_not_give_out_is_not_answered_with_an_archive(tmp_path) -> None:
    path = write_files(read_files(), tmp_path / "job")
    (tmp_path / "job" / ISSUED).mkdir()
    with pytest.raises(JobInvalid) as invalid:
        compile_job(path)
    one = only(list(invalid.value.problems))
    assert one.unreadable and one.says == "this is a folder." and "Take back" not in one.do


# --- of another job, another program, another order ---------------------------------------------------------

def test_a_file_of_another_job_is_answered_with_both_references(text, problems) -> None:
    one = only(problems(text, lambda files: files["job"].update(reference="K-9999")))
    assert (one.file, one.line, one.field) == (ISSUED, line_of(text, "reference: K-2041"), "reference")
    assert one.says == 'this was issued for "K-2041"; job.yaml says "K-9999".'
    assert one.do.startswith("If this folder was copied for a new job, take issued.yaml away")
    assert problems(text, lambda files: files["job"].update(reference="k-2041")) == []


def test_a_later_format_is_answered_with_what_to_install(text, problems) -> None:
    one = only(problems(sealed(text.replace("format: 1\n", "format: 2\nnews: here\n"))))
    assert (one.line, one.field) == (line_of(text, "format: 1"), "format") and one.says.startswith("format 2 stands here; Doorpost ")
    assert one.do == "Install the Doorpost that wrote it, or a newer one; leave the file as it is."


@pytest.mark.parametrize("old, new, nth, says", [
    ("  - revision: 2\n", "  - revision: 1\n", 1, "revision 1 stands where revision 2 belongs."),
    ("  - revision: 1\n", "  - revision: 3\n", 0, "revision 3 stands where revision 1 belongs."),
])
def test_revisions_that_stand_twice_or_out_of_order_are_answered(text, problems, old, new, nth, says) -> None:
    edited = sealed(text.replace(old, new))
    one = only(problems(edited))
    assert (one.line, one.says, one.do) == (line_of(edited, "- revision: ", nth), says, MEND)


def test_dates_that_run_backwards_are_answered(text, problems) -> None:
    edited = sealed(text.replace("    date: 2026-10-01", "    date: 2026-09-13"))
    one = only(problems(edited))
    assert (one.line, one.says) == (line_of(edited, "date: 2026-09-13"), "2026-09-13 lies before the date of the revision above, 2026-09-14.")


def test_a_number_that_stands_twice_is_answered_with_both_lines(text, problems) -> None:
    edited = sealed(text.replace("number: 10, device: D3", "number: 9, device: D3"))
    first, second = problems(edited)
    lines = [number for number, line in enumerate(edited.split("\n"), 1) if "number: 9, device: D3" in line]
    assert [one.line for one in (first, second)] == [lines[1], lines[3]]
    assert first.says == f"number 9 of the zones stands twice; first in line {lines[0]}." and first.do == MEND


def test_a_number_past_the_end_of_its_list_is_answered(text, problems) -> None:
    def short(files) -> None:
        files["equipment"]["tern-cu32"]["control_unit"]["lists"].update(zones="8", slots="8")

    found = problems(text, short)
    nine = [number for number, line in enumerate(text.split("\n"), 1) if "number: 9, device: D3" in line][-1]
    one = next(one for one in found if one.line == nine)
    assert one.says == "number 9 lies past the end of the zones, which has 8." and "job.yaml" in one.do and {one.file for one in found} == {ISSUED}


def test_no_revision_at_all_is_answered(text, problems) -> None:
    edited = sealed(re.sub(r"revisions:\n.*\n(?=check)", "revisions: []\n", text, flags=re.S))
    assert only(problems(edited)).says == "no revision stands here."


def test_a_link_to_nowhere_is_no_job_that_was_never_issued(tmp_path) -> None:
    path = write_files(read_files(), tmp_path / "job")
    (tmp_path / "job" / ISSUED).symlink_to(tmp_path / "nowhere")
    with pytest.raises(JobInvalid, match="issued.yaml"):
        compile_job(path)


# --- the job against it -------------------------------------------------------------------------------------

def place(text: str, row: str) -> str:
    """File and line of a row of the last revision."""
    return f"{ISSUED}:{[number for number, line in enumerate(text.split(chr(10)), 1) if row in line][-1]}"


def test_a_pin_against_the_units_own_frozen_number_is_answered_with_both_places(text, problems) -> None:
    one = only(problems(text, device("D3", number="20")))
    assert (one.file, one.field) == ("job.yaml", "devices.D3.number")
    assert one.says == f"D3 has number 9 of the zones already, by {place(text, 'number: 9, device: D3')}: that one is frozen."
    assert one.do == ("Write 9, or take number: out. To move a unit on purpose, give it a new name under devices: its old number then rests.")
    assert problems(text, device("D3", number="9")) == []


def test_a_pin_on_the_frozen_number_of_another_unit_is_answered_with_both_places(text, problems) -> None:
    new = device("D9", sheet="tern-dc", protects="back-door", role="immediate", text="KITCHEN CAT", number="10")
    one = only(problems(text, new))
    assert (one.file, one.field) == ("job.yaml", "devices.D9.number")
    assert one.says == f"number 10 of the zones is D3's already, by {place(text, 'number: 10, device: D3')}: that one is frozen."


def test_a_pin_on_a_resting_number_is_a_finding_with_its_reason(text, tmp_path, problems) -> None:
    new = device("D9", sheet="tern-dc", protects="back-door", role="immediate", text="KITCHEN CAT", number="5")
    assert problems(text, new) == []
    (found,) = [one for one in compile_job(tmp_path / "job" / "job.yaml").findings if one.rule == "numbers-do-not-fit"]
    assert "its unit D2 was removed in revision 2 until 1 Oct 2027" in found.hit.says and "Use number 5 again" in found.hit.do


def test_a_range_over_a_frozen_number_is_a_finding_and_the_number_is_not_moved(text, tmp_path, problems) -> None:
    keep = [{"list": "zones", "first": "9", "last": "9", "why": "kept for the greenhouse"}]
    assert problems(text, lambda files: files["job"].update(reserved=keep)) == []
    job = compile_job(tmp_path / "job" / "job.yaml")
    (found,) = [one for one in job.findings if one.rule == "numbers-do-not-fit"]
    assert "number 9, which D3 has had before (as issued)" in found.hit.says and job.stops


def test_the_fingerprint_does_not_hang_on_what_was_issued(text, tmp_path, problems) -> None:
    problems(text)
    with_it = compile_job(tmp_path / "job" / "job.yaml")
    (tmp_path / "job" / ISSUED).unlink()
    assert compile_job(tmp_path / "job" / "job.yaml").fingerprint == with_it.fingerprint
