"""What did earlier issues of a job leave in a folder? So that an issued.yaml that was lost is noticed where anything can tell.

Only what was written by an issue or a build of ours tells: an archive that holds the issued.yaml of its revision, and a pack's
plan that names the revision it was built at. In a folder with neither nothing is known.
"""
import json
import re
from collections.abc import Iterator
from pathlib import Path

from generator.disk.archive import held_in
from generator.terms.problem import JobInvalid, Problem

ISSUED = "issued.yaml"
PLAN = "pack.json"


def refuse_lost(out: Path, reference: str, last: int) -> None:
    """Raises JobInvalid if a folder knows of a later revision of a job than `last`, the last in its issued.yaml; 0 if it has none."""
    later = max(_later(out, reference, last), default=None)
    if later is None:
        return
    revision, told_by = later
    stands = f"this file ends at revision {last}" if last else "this file is missing"
    raise JobInvalid([Problem(
        ISSUED, 0, 0, "", f"{stands}, and revision {revision} was issued: {told_by} says so.",
        f"Put {ISSUED} back: it stands in the archive, {reference}-r{revision}.zip. If this is another job, give it a reference of its own.")])


def _later(out: Path, reference: str, last: int) -> Iterator[tuple[int, str]]:
    name = re.compile(rf"({re.escape(reference)}-r([1-9][0-9]*))\.zip")
    for path in out.iterdir() if out.is_dir() else ():
        found = name.fullmatch(path.name)
        if found and int(found[2]) > last and held_in(path, f"{found[1]}/{ISSUED}") is not None:
            yield int(found[2]), str(path)
    revision = _built(out / reference / PLAN, reference)
    if revision > last:
        yield revision, str(out / reference / PLAN)


def _built(plan: Path, reference: str) -> int:
    """The revision that a pack's plan names; 0 if it names none, or is no plan of this job."""
    try:
        data = json.loads(plan.read_text(encoding="utf-8"))
    except (OSError, ValueError, RecursionError):
        return 0
    if not isinstance(data, dict) or data.get("reference") != reference:
        return 0
    revision = data.get("revision")
    return revision if isinstance(revision, int) and not isinstance(revision, bool) else 0
