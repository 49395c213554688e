"""What was taken in before: the files under `site/` beside the job file. Each was written once; its name says what it holds."""
from pathlib import Path

from generator.intake.find import stands
from generator.intake.found_reader import LARGEST, results_of
from generator.intake.text_file import read_raw
from generator.model.found import FoundFile
from generator.terms.problem import Problem
from generator.terms.site_names import SITE, is_as_named, is_site_name

PUT_BACK = "Put it back as it was, from the archive or a copy; if there is none, take it away and take in the phone's file again."


def read_site(folder: Path, problems: list[Problem]) -> tuple[FoundFile, ...]:
    """Everything that was taken in for the job in a folder, in the order of the files' names; with a problem for each that is not as it was written."""
    place = folder / SITE
    if not stands(place):
        return ()
    try:
        names = sorted(path.name for path in place.iterdir() if not path.name.startswith("."))
    except OSError as error:
        problems.append(Problem(SITE, 0, 0, "", f"this folder cannot be looked into ({error.strerror}).", "Ask the one whose folder it is.", unreadable=True))
        return ()
    found = [_file(place / name, f"{SITE}/{name}", problems) for name in names if name.endswith(".txt")]
    return tuple(one for one in found if one is not None)


def _file(path: Path, shown_as: str, problems: list[Problem]) -> FoundFile | None:
    if not is_site_name(path.name):
        problems.append(Problem(shown_as, 0, 0, "", "this was not written by `doorpost results`.", "Move it away, and take it in: doorpost results JOB FILE."))
        return None
    raw = read_raw(path, shown_as, LARGEST * 2)
    if raw.problem:
        problems.append(raw.problem)
        return None
    if not is_as_named(path.name, raw.raw):
        problems.append(Problem(shown_as, 0, 0, "", "this was changed since it was taken in; what was found is never rewritten.", PUT_BACK))
        return None
    incoming, wrong = results_of(raw.raw, shown_as)
    problems.extend(wrong)
    return incoming.file if incoming else None
