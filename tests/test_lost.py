"""Is an issued.yaml that was lost noticed wherever an archive or a pack tells, and nowhere else?"""
import json
import zipfile
from pathlib import Path

import pytest

from generator.disk.traces import refuse_lost
from generator.record.issue import ISSUED
from generator.terms.problem import JobInvalid
from tests.conftest import read_files, write_files
from tests.test_issue import FIRST, REFERENCE, SECOND, names, quick


@pytest.fixture
def job(tmp_path) -> Path:
    return write_files(read_files(), tmp_path / "job")


def state(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


def mend(revision: int) -> str:
    return (f"Put issued.yaml back: it stands in the archive, {REFERENCE}-r{revision}.zip. If this is another job, give it a reference of "
            "its own.")


def archive(out: Path, name: str, inside: str, text: str = "what was issued") -> Path:
    out.mkdir(exist_ok=True)
    with zipfile.ZipFile(out / name, "w") as file:
        file.writestr(inside, text)
    return out / name


# --- issue --------------------------------------------------------------------------------------------------

def test_an_issue_notices_that_its_issued_yaml_is_lost_and_writes_nothing(job, tmp_path, run) -> None:
    quick(job), quick(job, SECOND)
    (job.parent / ISSUED).unlink()
    before = state(tmp_path)
    code, out, error = run("issue", job, "--on", "2026-10-02", "--out", tmp_path / "out")
    assert (code, out) == (3, "") and state(tmp_path) == before and names(tmp_path / "out") == {f"{REFERENCE}-r1.zip", f"{REFERENCE}-r2.zip"}
    assert error == (f"{job.parent / ISSUED}: this file is missing, and revision 2 was issued: {tmp_path / 'out' / f'{REFERENCE}-r2.zip'} "
                     f"says so. {mend(2)}\n")


def test_an_older_issued_yaml_that_was_put_back_is_noticed_too(job, tmp_path, run) -> None:
    quick(job)
    first = (job.parent / ISSUED).read_bytes()
    quick(job, SECOND)
    (job.parent / ISSUED).write_bytes(first)
    code, _, error = run("issue", job, "--on", "2026-10-02", "--out", tmp_path / "out")
    assert code == 3 and "issued.yaml: this file ends at revision 1, and revision 2 was issued: " in error


def test_what_the_answer_says_to_do_mends_it(job, tmp_path) -> None:
    quick(job)
    issued = (job.parent / ISSUED).read_bytes()
    (job.parent / ISSUED).unlink()
    with pytest.raises(JobInvalid):
        quick(job, SECOND)
    with zipfile.ZipFile(tmp_path / "out" / f"{REFERENCE}-r1.zip") as file:
        (job.parent / ISSUED).write_bytes(file.read(f"{REFERENCE}-r1/{ISSUED}"))
    assert (job.parent / ISSUED).read_bytes() == issued
    assert quick(job, SECOND).job.last.revision == 2


@pytest.mark.parametrize("name, inside", [
    ("X-9-r3.zip", "X-9-r3/issued.yaml"),  # another job's
    (f"{REFERENCE}-2-r3.zip", f"{REFERENCE}-2-r3/issued.yaml"),  # a job whose reference begins like this one
    (f"{REFERENCE}-r3.zip", f"{REFERENCE}-r3/notes.txt"),  # a name alone tells nothing
    (f"{REFERENCE}-r3.zip", f"{REFERENCE}-r2/issued.yaml"),  # renamed
    (f"{REFERENCE}-rest.zip", f"{REFERENCE}-rest/issued.yaml"),
    (f"old {REFERENCE}-r3.zip", f"{REFERENCE}-r3/issued.yaml"),
])
def test_what_is_no_archive_of_this_job_tells_nothing(job, tmp_path, name, inside) -> None:
    archive(tmp_path / "out", name, inside)
    assert quick(job).job.last.revision == 1


def test_a_broken_archive_tells_nothing(job, tmp_path) -> None:
    path = archive(tmp_path / "out", f"{REFERENCE}-r3.zip", f"{REFERENCE}-r3/issued.yaml", "what was issued" * 100)
    path.write_bytes(path.read_bytes().replace(b"issuedwhat", b"issuedWHAT", 1))
    assert quick(job).job.last.revision == 1


def test_in_another_folder_nothing_is_known(job) -> None:
    quick(job)
    (job.parent / ISSUED).unlink()
    assert quick(job, SECOND, "elsewhere").job.last.revision == 1


# --- build --------------------------------------------------------------------------------------------------

def test_a_build_over_the_pack_of_an_issued_job_notices_that_its_issued_yaml_is_lost(job, tmp_path, run) -> None:
    quick(job)
    assert run("build", job, "--out", tmp_path / "packs")[0] == 0
    assert "Issued: revision 1" in (tmp_path / "packs" / REFERENCE / "installer" / "index.html").read_text()
    issued = (job.parent / ISSUED).read_bytes()
    (job.parent / ISSUED).unlink()
    before = state(tmp_path)
    code, _, error = run("build", job, "--out", tmp_path / "packs")
    assert code == 3 and state(tmp_path) == before
    assert error == (f"{job.parent / ISSUED}: this file is missing, and revision 1 was issued: {tmp_path / 'packs' / REFERENCE / 'pack.json'} "
                     f"says so. {mend(1)}\n")
    (job.parent / ISSUED).write_bytes(issued)
    assert run("build", job, "--out", tmp_path / "packs")[0] == 0


def test_a_build_beside_the_archives_and_an_issue_beside_the_packs_notice_it_too(job, tmp_path, run) -> None:
    quick(job)
    assert run("build", job, "--out", tmp_path / "packs")[0] == 0
    (job.parent / ISSUED).unlink()
    assert run("build", job, "--out", tmp_path / "out")[0] == 3 and names(tmp_path / "out") == {f"{REFERENCE}-r1.zip"}
    with pytest.raises(JobInvalid):
        quick(job, FIRST, "packs")


def test_one_job_whose_issued_yaml_is_lost_keeps_no_other_from_being_built(job, tmp_path, run) -> None:
    quick(job)
    assert run("build", job, "--out", tmp_path / "packs")[0] == 0
    (job.parent / ISSUED).unlink()
    files = read_files()
    files["job"]["reference"] = "Z-1"
    other = write_files(files, tmp_path / "other")
    code, out, _ = run("build", job, other, "--out", tmp_path / "packs")
    assert code == 3 and (tmp_path / "packs" / "Z-1" / "pack.json").exists()


def test_the_pack_of_a_job_that_was_never_issued_is_built_over(job, tmp_path, run) -> None:
    assert [run("build", job, "--out", tmp_path / "packs")[0] for _ in range(2)] == [0, 0]


@pytest.mark.parametrize("text", ["", "[]", "no json", "[" * 100_000, '{"reference": "X", "revision": 9}', json.dumps({"reference": REFERENCE}),
                                  *(json.dumps({"reference": REFERENCE, "revision": one}) for one in (None, "9", True, 2.5, 0, -1))])
def test_a_plan_that_names_no_revision_of_this_job_tells_nothing(tmp_path, text) -> None:
    (tmp_path / REFERENCE).mkdir()
    (tmp_path / REFERENCE / "pack.json").write_text(text)
    refuse_lost(tmp_path, REFERENCE, 0)


def test_of_several_traces_the_latest_is_named(tmp_path) -> None:
    for revision in (2, 10, 9):
        archive(tmp_path, f"{REFERENCE}-r{revision}.zip", f"{REFERENCE}-r{revision}/issued.yaml")
    with pytest.raises(JobInvalid, match=f"revision 10 was issued: .*{REFERENCE}-r10.zip says so"):
        refuse_lost(tmp_path, REFERENCE, 8)
    refuse_lost(tmp_path, REFERENCE, 10)
