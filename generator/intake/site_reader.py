"""What was taken in before: the files under `site/` beside the job file. Each was written once; its name says what it holds."""
from collections.abc import Iterable, Mapping
from pathlib import Path

from generator.intake.find import stands
from generator.intake.found_reader import LARGEST, results_of
from generator.intake.text_file import read_raw
from generator.model.forms import LONG_PRINT
from generator.model.found import SIGNATURE, FoundFile
from generator.terms.problem import Problem
from generator.terms.signature import is_as_signed, names_of
from generator.terms.site_names import SIGNATURES, SITE, is_as_named, is_site_name

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


def lost_signatures(folder: Path, site: Iterable[FoundFile]) -> Mapping[str, str]:
    """The signatures that entries speak of and that do not lie under `signatures/` as they were taken in, by their SHA-256: what became of each."""
    prints = dict.fromkeys(entry.value for file in site for entry in file.entries if entry.what.startswith(SIGNATURE) and LONG_PRINT.fits(entry.value))
    found = {one: _became(folder / SIGNATURES, one) for one in prints}
    return {one: became for one, became in found.items() if became}


def _became(folder: Path, print_: str) -> str:
    """What became of a signature's file; "" where it is as it was."""
    there = [name for name in names_of(print_) if stands(folder / name)]
    if not there:
        return "is not there"
    for name in there:
        raw = read_raw(folder / name, name, LARGEST)
        if raw.problem or not is_as_signed(name, raw.raw):
            return "is not as it was taken in"
    return ""
