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
    """The job files that a name on the command line stands for: a job.yaml, its folder, or a folder of job folders.

    A folder that may not be looked into stands for itself: who tries to read it learns why.
    """
    if not os.path.isdir(given):
        return [given]
    if stands(given / JOB_FILE):
        return [given / JOB_FILE]
    try:
        return sorted(inner / JOB_FILE for inner in given.iterdir() if stands(inner / JOB_FILE))
    except OSError:
        return [given]


def stands(path: Path) -> bool:
    """Whether anything stands at a path, even what cannot be read: a link to nothing, a folder, a file that is locked away."""
    try:
        os.lstat(path)
    except (FileNotFoundError, NotADirectoryError):
        return False
    except OSError:
        pass
    return True


def jobs_named(names: list[Path]) -> tuple[list[Path], list[Problem]]:
    """The job files that a command line names, and a problem for each folder without one."""
    found = [(name, job_files(name)) for name in names]
    return ([file for _, files in found for file in files],
            [Problem(str(name), 0, 0, "", "there is no job in this folder.", "Start one with `doorpost new`.")
             for name, files in found if not files])


def from_here(problem: Problem, job: Path) -> Problem:
    """A problem of a job with its file named as seen from where the command was given."""
    own = job.parent / problem.file
    found = own if stands(own) else shared_file(job.parent, problem.file) or own
    named_from_here = not job.is_absolute() and not found.is_relative_to(PACKAGE)
    return replace(problem, file=os.path.relpath(found) if named_from_here else as_seen(found))


def as_seen(path: Path) -> str:
    """A path as seen from where the command was given; one that lies elsewhere and was not named from here, whole."""
    if path.is_absolute() and not path.is_relative_to(Path.cwd()):
        return str(path)
    return os.path.relpath(path)


def real(path: Path) -> Path:
    """A path without links; where links lead in a circle, as far as they lead. `Path.resolve` gives up there."""
    return Path(os.path.realpath(path))


def _upward(folder: Path) -> Iterator[Path]:
    here = real(folder)
    yield here
    yield from here.parents


def shared_file(folder: Path, name: str) -> Path | None:
    """The nearest file of that name, from the job folder upward; then the program's own; None if there is none."""
    for place in (*_upward(folder), PACKAGE):
        if stands(place / name):
            return place / name
    return None


def shared_names(folder: Path, kind: str) -> list[str]:
    """The names of all files of a kind ("equipment", "profiles") that a job can refer to."""
    names = set()
    for place in (*_upward(folder), PACKAGE):
        if os.path.isdir(place / kind):
            names |= {file.stem for file in (place / kind).glob("*.yaml")}
    return sorted(names)
