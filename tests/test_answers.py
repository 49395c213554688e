"""Do people see where a mistake is, with the line and a caret under the place, file by file, and never anything a terminal obeys?"""
import json
import os
import re
import subprocess
import sys
import unicodedata
from pathlib import Path

import jsonschema
import pytest

from generator.publish.answers import annotations, problem_lines
from generator.publish.places import PACKAGE
from generator.terms.problem import Problem
from generator.terms.terminal import UNSEEN, safe, width
from tests.conftest import DEMO, ROOT


def caret(written: str, column: int) -> list[str]:
    return Problem("job.yaml", 3, column, "a", "says.", "do.", written).with_caret().splitlines()


def test_the_caret_stands_under_the_place() -> None:
    shown = Problem("job.yaml", 3, 12, "a.b", "says.", "do.", "  entry_s: half").with_caret().splitlines()
    assert shown[0] == "job.yaml:3:12 a.b: says. do." and shown[1][shown[2].index("^"):] == "half"


def test_a_long_line_is_cut_round_the_place() -> None:
    shown = caret("x" * 300 + "HERE" + "y" * 300, 301)
    assert max(map(len, shown)) <= 78 and shown[1][shown[2].index("^"):].startswith("HERE")


def test_a_file_as_a_whole_has_no_caret() -> None:
    assert "^" not in Problem("job.yaml", 0, 0, "", "says.", "do.").with_caret()


def columns_by_hand(text: str) -> int:
    """How far a terminal moves for a text: two for wide and full-width letters, none for marks on the letter before."""
    return sum(0 if unicodedata.combining(one) else 2 if unicodedata.east_asian_width(one) in "WF" else 1 for one in text)


@pytest.mark.parametrize("before", ["\t\t", "  名前: ", "e\u0301e\u0301n: ", "ｆｕｌｌ: ", "한국어 ", "a\t名\u0301: ", "x" * 80 + "名" * 40 + " "])
def test_the_caret_is_right_behind_tabs_wide_letters_and_marks(before: str) -> None:
    _, line, mark = caret(f"{before}HERE and more", len(before) + 1)
    at = line.index("HERE")
    assert columns_by_hand(line[:at]) == len(mark) - 1 and mark.endswith("^") and "\t" not in line
    assert columns_by_hand(line) <= 78


def test_widths_of_what_the_standard_names() -> None:
    # Unicode Standard Annex 11 (from memory): A narrow, U+FF21 full-width, U+30A2 wide, U+FF71 half-width, U+0301 on its letter.
    assert [width(one) for one in ("A", "\uff21", "\u30a2", "\uff71", "e\u0301")] == [1, 2, 2, 1, 1]


NEVER_RAW = re.compile("[\x00-\x09\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069\ud800-\udfff]")


@pytest.mark.parametrize("nasty", ["\x1b[2J", "\x9b2J", "\x07", "\x7f", "\u202e", "\u2066", "\ud800", "\r", "\u2028", "a\nb"])
def test_nothing_a_terminal_obeys_is_in_a_problem(nasty: str) -> None:
    shown = Problem(f"f{nasty}", 1, 1, f"k{nasty}", f"s{nasty}", f"d{nasty}", f"w{nasty}").with_caret()
    assert not NEVER_RAW.search(shown) and len(shown.splitlines()) == 3
    assert UNSEEN in shown or nasty == "a\nb"


@pytest.mark.parametrize("value", [r'"\e[2Jx"', r'"\x9b2J"', r'"\u202ex"', r'"\a"', r'"a\Nb"', r'"a\Lb"'])
@pytest.mark.parametrize("key", ["entry_s", "unknown\u200bkey"])
def test_marks_written_in_a_file_do_not_reach_the_terminal(run, job_file, value: str, key: str) -> None:
    path = job_file()
    path.write_text(path.read_text(encoding="utf-8").replace('"entry_s": "30"', f'"{key}": {value}'), encoding="utf-8")
    for form in ("text", "json", "github"):
        code, out, err = run("check", path, "--format", form)
        assert code == 3 and not NEVER_RAW.search(out + err), (form, out + err)


def test_a_name_of_a_file_that_is_no_text_is_shown(tmp_path) -> None:
    name = os.fsencode(tmp_path) + b"/a\xff\x1b[2J"
    done = subprocess.run([sys.executable, "-m", "generator", "check", name], cwd=ROOT, capture_output=True)
    assert done.returncode == 3 and b"\x1b" not in done.stderr and b"Traceback" not in done.stderr and b"there is no such file" in done.stderr


def test_a_terminal_of_few_letters_gets_marks_and_no_traceback(job_file) -> None:
    path = job_file(lambda f: f["job"].update(title="名前 \u2192", kind="old"))
    done = subprocess.run([sys.executable, "-m", "generator", "check", str(path)], cwd=ROOT, capture_output=True,
                          env={**os.environ, "PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0"})
    assert done.returncode == 3 and b"Traceback" not in done.stderr and done.stdout.endswith(b"1 problem in 1 file.\n")


def test_who_reads_only_the_start_is_not_told_of_a_broken_pipe() -> None:
    done = subprocess.run(["sh", "-c", f'"{sys.executable}" -c "import time; time.sleep(.5)" | :; "{sys.executable}" -m generator plan "{DEMO}" | head -1'],
                          cwd=ROOT, capture_output=True, text=True)
    assert done.stdout == "{\n" and "Traceback" not in done.stderr and "BrokenPipe" not in done.stderr


def several(job_file, tmp_path: Path, monkeypatch) -> Path:
    path = job_file(lambda f: f["job"].update(kind="old", colour="red"), lambda f: f["job"]["times"].update(entry_s="half"),
                    lambda f: f["company"].update(telephone="call us"))
    monkeypatch.chdir(tmp_path)
    return path


def test_problems_stand_under_their_file_in_order_of_line_and_are_counted(run, job_file, tmp_path, monkeypatch) -> None:
    several(job_file, tmp_path, monkeypatch)
    code, out, err = run("check", "job")
    headings = [line for line in err.splitlines() if line and not line.startswith(" ")]
    assert code == 3 and headings == ["job/company.yaml: 1 problem", "job/job.yaml: 3 problems"]
    places = [tuple(map(int, one)) for one in re.findall(r"^  (\d+):(\d+) ", err.partition("job/job.yaml")[2], re.M)]
    assert places == sorted(places) and len(places) == 3 and err.count("^") == 4
    assert out == "0 jobs read, 0 findings; 4 problems in 2 files.\n"


def test_a_mistake_in_a_file_of_several_jobs_is_told_once(run, job_file, tmp_path) -> None:
    one = job_file(lambda f: f["company"].update(telephone="call us"))
    other = job_file(lambda f: f["job"].update(reference="K-1"), name="job2")
    for name in ("company.yaml",):
        (one.parent / name).rename(tmp_path / name)
        (other.parent / name).unlink()
    assert run("check", tmp_path)[2].count("is not a telephone number") == 1


@pytest.mark.parametrize("given, shown", [("job", "job/job.yaml"), ("job/job.yaml", "job/job.yaml"), (".", "job/job.yaml")])
def test_files_are_named_as_seen_from_where_the_command_was_given(run, job_file, tmp_path, monkeypatch, given: str, shown: str) -> None:
    several(job_file, tmp_path, monkeypatch)
    assert f"\n{shown}: 3 problems\n" in run("check", given)[2]
    (tmp_path / "elsewhere").mkdir()
    monkeypatch.chdir(tmp_path / "elsewhere")
    assert f"\n../{shown}: 3 problems\n" in run("check", f"../{given}")[2]
    monkeypatch.chdir("/")
    assert f"{tmp_path}/job/job.yaml: 3 problems\n".lstrip("/") in run("check", tmp_path / given)[2]


def test_long_answers_are_broken_for_a_terminal_and_not_for_a_pipe() -> None:
    long = [Problem("job.yaml", 1, 1, "a", "says.", "Known keys: " + ", ".join(["word"] * 60) + ".", "a: b")]
    assert max(map(len, problem_lines(long, 80))) < 80 and len(list(problem_lines(long))) == 4
    assert " ".join("".join(problem_lines(long, 80)).split()).replace(" ", "") == "".join(problem_lines(long)).replace(" ", "")


def test_a_file_of_nonsense_is_answered_a_hundred_times_at_most(run, job_file) -> None:
    path = job_file(lambda f: f["job"].update({f"key{index}": "x" for index in range(500)}))
    code, _, err = run("check", path)
    assert code == 3 and err.count("is not known here") == 100 and "400 more problems stand in this file. Mend those above first" in err
    assert "400 more" in err.rstrip().splitlines()[-3], "it stands last"


def unescaped(text: str) -> str:
    for code, letter in (("%2C", ","), ("%3A", ":"), ("%0A", "\n"), ("%0D", "\r"), ("%25", "%")):
        text = text.replace(code, letter)
    return text


def test_annotations_name_file_line_column_title_and_message(run, job_file, tmp_path, monkeypatch) -> None:
    several(job_file, tmp_path, monkeypatch)
    code, out, err = run("check", "job", "--format", "github")
    lines = out.splitlines()
    assert (code, err) == (3, "") and lines[0] == ("::error file=job/company.yaml,line=4,col=15,title=telephone::\"call us\" is not a telephone number. "
                                                   "Write digits and spaces, for example 01632 960001.")
    found = [re.fullmatch(r"::(error|warning|notice) file=([^:,]+)(?:,line=(\d+),col=(\d+))?(?:,title=([^:,]+))?::(.+)", line) for line in lines[:-1]]
    assert len(found) == 4 and all(found) and lines[-1] == "0 jobs read, 0 findings; 4 problems in 2 files."
    data = json.loads(run("check", "job", "--format", "json")[1])
    jsonschema.validate(data, json.loads((PACKAGE / "schemas/check.schema.json").read_text(encoding="utf-8")))
    assert [(one[2], int(one[3]), int(one[4]), unescaped(one[5]), unescaped(one[6])) for one in found] == [
        (one["file"], one["line"], one["column"], one["field"], f"{one['says']} {one['do']}") for one in data["problems"]]


def test_what_an_annotation_would_take_for_its_own_marks_is_escaped() -> None:
    # GitHub's toolkit, package core, escapeData and escapeProperty (from memory): % CR LF in messages, : and , too in properties.
    one = Problem("a,b:c%.yaml", 1, 2, "x:y", "100 % ::error::", "a, b.")
    assert list(annotations([one], [], str)) == ["::error file=a%2Cb%3Ac%25.yaml,line=1,col=2,title=x%3Ay::100 %25 ::error:: a, b."]


@pytest.mark.parametrize("entry_s, level", [("46", "error"), ("30", "notice")])
def test_a_finding_is_an_annotation_of_its_weight(run, job_file, entry_s: str, level: str) -> None:
    path = job_file(lambda f: f["job"]["times"].update(entry_s=entry_s))
    code, out, _ = run("check", path, "--format", "github")
    first = out.splitlines()[0]
    assert code == (1 if level == "error" else 0) and first.startswith(f"::{level} file=") and ",line=" in first and ",title=K-2041 " in first


def test_what_is_plain_stays_as_it_is() -> None:
    assert safe("Küche 名前 — ½") == "Küche 名前 — ½"


def test_rules_whose_limit_the_profile_does_not_have_stand_in_one_line(run) -> None:
    lines = run("check", DEMO)[1].splitlines()
    of_market = [line for line in lines if "the profile sets no limit" in line]
    assert len(of_market) == 1 and "entry-time-short" in of_market[0] and not any("has no limit" in line for line in lines)
    assert "K-2041 not checked language-not-there: Not checked, because the job file does not say which language the main user reads." in lines


def test_what_was_not_checked_is_no_annotation(run) -> None:
    assert "not checked" not in run("check", DEMO, "--format", "github")[1].lower()
