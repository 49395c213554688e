"""What was issued for a job, as issued.yaml says it: read only as it was written, for frozen numbers are never guessed."""
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from pathlib import Path

from generator import __version__
from generator.intake import find
from generator.intake.typed import typed
from generator.intake.yaml_tree import Tree, read_tree
from generator.model import forms
from generator.model.issued import Issued
from generator.terms.problem import Problem
from generator.terms.seal import CHECK, check_line

FORMATS = ("1",)
# Each revision adds to it; a large house for many years.
LARGEST = 20_000_000


@dataclass(frozen=True)
class IssuedFile:
    """An issued.yaml that can be relied on, and where everything stands in it."""

    issued: Issued
    tree: Tree

    def place(self, kind: str, number: int) -> str:
        """File and line of a number of the last revision."""
        rows = self.issued.last.map
        index = next((index for index, row in enumerate(rows) if (row.list, row.number) == (kind, number)), 0)
        return f"{self.tree.file}:{self.tree.place(('revisions', len(self.issued.revisions) - 1, 'map', index))[0]}"


def read_issued(folder: Path, reference: str | None, problems: list[Problem]) -> IssuedFile | None:
    """The file of a job folder; None if there is none, or if it cannot be relied on: then with problems.

    `reference` is that of the job, None if it is not known.
    """
    path = folder / find.ISSUED_FILE
    if not find.stands(path):
        return None
    tree = read_tree(path, find.ISSUED_FILE, LARGEST)
    if later := _later(tree):
        problems.append(later)
        return None
    issued = typed(tree, Issued)
    found = tree.problems + list(_sealed(tree)) + (list(_whole(tree, issued, reference)) if issued else [])
    problems.extend(one if one.unreadable or one.do == OTHER_JOB else replace(one, do=_mend(tree)) for one in found)
    return IssuedFile(issued, tree) if issued and not found else None


def _mend(tree: Tree) -> str:
    """Nobody writes this file by hand, so nobody mends it by hand."""
    data = tree.data if isinstance(tree.data, dict) else {}
    every = data.get("revisions")
    name, count = data.get("reference"), len(every) if isinstance(every, list) else 0
    newest = f"{name}-r{count}.zip" if isinstance(name, str) and count else "<reference>-r<revision>.zip"
    return (f"Take back the file as `doorpost issue` wrote it: it stands in the newest archive, {newest}. "
            "Numbers are changed in job.yaml, never here.")


def _later(tree: Tree) -> Problem | None:
    number = tree.data.get("format") if isinstance(tree.data, dict) else None
    if not isinstance(number, str) or not forms.WHOLE.fits(number) or number in FORMATS:
        return None
    return tree.problem(("format",), f"format {number} stands here; Doorpost {__version__} reads format {FORMATS[-1]} of this file.",
                        "Install the Doorpost that wrote it, or a newer one; leave the file as it is.")


def _sealed(tree: Tree) -> Iterator[Problem]:
    """Whether the file is as it was written: its last line agrees with everything above it."""
    if not tree.lines:
        return
    above = "\n".join(tree.lines[:-2]) + "\n"
    if tree.lines[-1] == "" and "\n".join(tree.lines[-2:]) == check_line(above):
        return
    last = next((index for index in range(len(tree.lines), 0, -1) if tree.lines[index - 1].startswith(CHECK)), None)
    if last is None:
        says = "this file ends before its last line, which begins with check:; it was cut short."
        yield tree.problem_at((len(tree.lines), 1), (), says, "")
    else:
        says = "the checksum does not agree with what stands above; this file was changed since it was written."
        yield tree.problem_at((last, 1), ("check",), says, "")


OTHER_JOB = ("If this folder was copied for a new job, take issued.yaml away: nothing was issued for the new one yet. "
             "If the job's reference was changed, write it back.")


def _whole(tree: Tree, issued: Issued, reference: str | None) -> Iterator[Problem]:
    if reference is not None and issued.reference.lower() != reference.lower():
        yield tree.problem(("reference",), f'this was issued for "{issued.reference}"; job.yaml says "{reference}".', OTHER_JOB)
    if not issued.revisions:
        yield tree.problem(("revisions",), "no revision stands here.", "")
    for index, one in enumerate(issued.revisions):
        if one.revision != index + 1:
            yield tree.problem(("revisions", index, "revision"), f"revision {one.revision} stands where revision {index + 1} belongs.", "")
        yield from _twice(tree, issued, index)
    for index, (one, other) in enumerate(pairwise(issued.revisions)):
        if other.date < one.date:
            yield tree.problem(("revisions", index + 1, "date"), f"{other.date} lies before the date of the revision above, {one.date}.", "")


def _twice(tree: Tree, issued: Issued, index: int) -> Iterator[Problem]:
    first: dict[tuple[str, int], int] = {}
    for row, one in enumerate(issued.revisions[index].map):
        before = first.setdefault((one.list, one.number), row)
        if before != row:
            line = tree.place(("revisions", index, "map", before))[0]
            yield tree.problem(("revisions", index, "map", row, "number"), f"number {one.number} of the {one.list} stands twice; "
                               f"first in line {line}.", "")
