"""Whatever happens to a job's files: is it read, or answered at its line, and never with a traceback or a hang?"""
import random
import shutil
import signal
from collections import Counter
from functools import partial
from pathlib import Path

import pytest

from generator.cli import main
from generator.intake.find import shared_file
from generator.intake.yaml_tree import read_tree
from generator.pipeline import compile_job
from generator.terms.problem import JobInvalid, Problem
from tests.conftest import DEMO, ROOT
from tests.mutants import Form, Mutant, entries, mutant
from tests.own_time import own_seconds

SEED = 4021
A_ROUND = 500
# How long one mutant may take: a hang is found, a busy machine is none.
MOST_S = 10
WHOLE_COMMAND_EACH = 25


@pytest.fixture
def jobs(tmp_path) -> Path:
    shutil.copytree(ROOT / "jobs", tmp_path / "jobs")
    return tmp_path / "jobs"


def files_of(job: Path) -> dict[Path, str]:
    """The files that a job is read from and that stand below jobs/, each with its root in the model."""
    data = read_tree(job, "job.yaml").data
    sheets = {data["control_unit"]["sheet"], *(device["sheet"] for device in data["devices"].values())}
    files = {job: "job", job.parent / "people.yaml": "people", shared_file(job.parent, "company.yaml"): "company"}
    files |= {shared_file(job.parent, f"equipment/{name}.yaml"): "sheet" for name in sorted(sheets)}
    return {path: root for path, root in files.items() if path.exists()}


def problems_of(job: Path) -> list[Problem]:
    """The problems of a job; whatever is read is judged too, so that no rule stumbles over it."""
    def too_long(*_) -> None:
        raise TimeoutError(f"more than {MOST_S} s")
    before = signal.signal(signal.SIGALRM, too_long)
    signal.setitimer(signal.ITIMER_REAL, MOST_S)
    try:
        compile_job(job)
    except JobInvalid as invalid:
        return list(invalid.problems)
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)
    return []


def faults(problem: Problem, one: Mutant) -> list[str]:
    """What is wrong with an answer itself."""
    if not problem.says or not problem.do or "Traceback" in problem.says or "pydantic" in problem.says:
        return ["says nothing that helps"]
    if problem.line == 0:
        return [] if "saved as UTF" in problem.says or "there is no such file" in problem.says else ["no line"]
    if not str(one.file).endswith(problem.file):
        return []
    lines = one.content.decode("utf-8", "replace").replace("\r\n", "\n").replace("\r", "\n").split("\n")
    if not 1 <= problem.line <= len(lines):
        return [f"line {problem.line} of {len(lines)}"]
    return [] if 1 <= problem.column <= len(lines[problem.line - 1]) + 1 else [f"column {problem.column}"]


def at_own_line(problems: list[Problem], one: Mutant) -> bool:
    return any(str(one.file).endswith(problem.file) and problem.line in one.lines for problem in problems)


def one_round(number: int, jobs: Path, run) -> tuple[list[str], Counter, Counter]:
    """What went wrong, how many mutants of each class must be refused, and how many of those were answered at their line."""
    wrong: list[str] = []
    must, own = Counter(), Counter()
    every = sorted(jobs.glob("*/job.yaml"))
    for index in range(A_ROUND):
        draw = random.Random(f"{SEED}-{number}-{index}")
        job = draw.choice(every)
        one = mutant(files_of(job), draw)
        before = one.file.read_bytes()
        one.file.write_bytes(one.content)
        name = f"mutant {number}-{index}, {one.kind}: {one.change}, {one.file.name}"
        try:
            problems = problems_of(job)
            wrong += [f"{name}: {fault}: {problem.one_line()}" for problem in problems for fault in faults(problem, one)]
            if index % WHOLE_COMMAND_EACH == 0:
                wrong += _whole_command(job, problems, run, name, draw.choice(("text", "json", "github")))
        except Exception as error:
            wrong.append(f"{name}: {type(error).__name__}: {error}")
            problems = []
        finally:
            one.file.write_bytes(before)
        if one.must:
            must[f"{one.kind}: {one.change}"] += 1
            own[f"{one.kind}: {one.change}"] += at_own_line(problems, one)
            if not problems:
                wrong.append(f"{name}: not refused")
        else:
            must[f"{one.kind}: free"] += 0
    return wrong, must, own


def _whole_command(job: Path, problems: list[Problem], run, name: str, form: str) -> list[str]:
    code, out, err = run("check", job, "--format", form)
    if "Traceback" in out + err or code not in ((3,) if problems else (0, 1)):
        return [f"{name}: check --format {form}: exit {code}"]
    return []


def report(must: Counter, own: Counter) -> str:
    lines = [f"{kind:32} {count:5} {own[kind]:5} at their line" for kind, count in sorted(must.items()) if count]
    return "\n".join(["", *lines, f"{'together':32} {must.total():5} {own.total():5}, {own.total() / must.total():.1%}"])


def check_round(number: int, jobs: Path, run, capsys) -> None:
    wrong, must, own = one_round(number, jobs, run)
    with capsys.disabled():
        print(report(must, own))
    assert wrong == []
    assert must.total() >= A_ROUND / 5 and len(must) >= 12, "the mutator draws what must be refused often enough, and of many kinds"
    assert own.total() >= 0.95 * must.total()


def test_500_mutants_are_read_or_answered_at_their_line(jobs, run, capsys) -> None:
    check_round(0, jobs, run, capsys)


@pytest.mark.long
@pytest.mark.parametrize("number", range(1, 21))
def test_10_000_mutants_are_read_or_answered_at_their_line(number: int, jobs, run, capsys) -> None:
    check_round(number, jobs, run, capsys)


def test_mutants_are_the_same_on_every_run(jobs) -> None:
    files = files_of(sorted(jobs.glob("*/job.yaml"))[0])
    assert [mutant(files, random.Random(index)) for index in range(50)] == [mutant(files, random.Random(index)) for index in range(50)]


def test_mutants_build_whole_packs_or_write_nothing(jobs, tmp_path, capsys) -> None:
    """Until two of each kind were seen: a mutant that can be read, and one that is refused."""
    job = jobs / DEMO.name / "job.yaml"
    seen = Counter()
    for index in range(100):
        one = mutant(files_of(job), random.Random(f"build {index}"))
        before = one.file.read_bytes()
        one.file.write_bytes(one.content)
        refused = bool(problems_of(job))
        if seen[refused] < 2:
            out = tmp_path / f"out{index}"
            assert main(["build", str(job), "--out", str(out)]) in ((3,) if refused else (0, 1)), one
            assert "Traceback" not in capsys.readouterr().err and out.exists() is not refused
            seen[refused] += 1
        one.file.write_bytes(before)
    assert seen == {True: 2, False: 2}


def numbers_of(path: Path, root: str) -> list[tuple[str, int, int]]:
    """Every number of a file: its field, and where it begins and ends."""
    text = path.read_text(encoding="utf-8")
    return [(".".join(map(str, one.path)), one.value.start_mark.index, one.value.end_mark.index) for one in entries(text)
            if (form := Form.at(root, one.path)) and form.kind in ("Whole", "Decimal") and not form.chosen]


@pytest.mark.alone
@pytest.mark.parametrize("number", ["9999", "999999999", *(pytest.param(one, marks=pytest.mark.long) for one in "01")])
def test_every_number_at_its_ends_is_taken_or_refused_at_once(jobs, number: str) -> None:
    job = jobs / "curlew-house" / "job.yaml"
    tried: set[tuple[str, str]] = set()
    for path, root in files_of(job).items():
        text = path.read_text(encoding="utf-8")
        for field, start, end in numbers_of(path, root):
            # One of each key is enough: a large house has a thousand measures of a dozen kinds.
            key = (root, [part for part in field.split(".") if not part.isdigit()][-1])
            if key in tried:
                continue
            tried.add(key)
            path.write_text(text[:start] + number + text[end:], encoding="utf-8")
            took, problems = own_seconds(partial(problems_of, job))
            assert took < 2, (path.name, field)
            assert all(not faults(one, Mutant(path, "value", field, path.read_bytes())) for one in problems), (path.name, field)
        path.write_text(text, encoding="utf-8")
    assert len(tried) > 40
