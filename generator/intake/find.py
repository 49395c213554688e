"""Where the files of a job stand: the job folder, then upward, then what the program brings along."""
import os
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from generator.terms.problem import Problem

JOB_FILE = "job.yaml"
PEOPLE_FILE = "people.yaml"
COMPANY_FILE = "company.yaml"
ISSUED_FILE = "issued.yaml"
PACKAGE = Path(__file__).resolve().parent.parent


def job_files(given: Path) -> list[Path]:
    """The job files that a name on the command line stands for: a job.yaml, its folder, or a folder of job folders."""
    if given.is_dir():
        own = given / JOB_FILE
        if own.exists():
            return [own]
        return sorted(given.glob(f"*/{JOB_FILE}"))
    return [given]


def jobs_named(names: list[Path]) -> tuple[list[Path], list[Problem]]:
    """The job files that a command line names, and a problem for each folder without one."""
    found = [(name, job_files(name)) for name in names]
    return ([file for _, files in found for file in files],
            [Problem(str(name), 0, 0, "", "there is no job in this folder.", "Start one with `doorpost new`.")
             for name, files in found if not files])


def from_here(problem: Problem, job: Path) -> Problem:
    """A problem of a job with its file named as seen from where the command was given."""
    found = shared_file(job.parent, problem.file) or job.parent / problem.file
    return replace(problem, file=os.path.relpath(found) if found.is_relative_to(Path.cwd()) else str(found))


def _upward(folder: Path) -> Iterator[Path]:
    here = folder.resolve()
    yield here
    yield from here.parents


def shared_file(folder: Path, name: str) -> Path | None:
    """The nearest file of that name, from the job folder upward; then the program's own; None if there is none."""
    for place in (*_upward(folder), PACKAGE):
        if (place / name).is_file():
            return place / name
    return None


def shared_names(folder: Path, kind: str) -> list[str]:
    """The names of all files of a kind ("equipment", "profiles") that a job can refer to."""
    names = set()
    for place in (*_upward(folder), PACKAGE):
        if (place / kind).is_dir():
            names |= {file.stem for file in (place / kind).glob("*.yaml")}
    return sorted(names)
