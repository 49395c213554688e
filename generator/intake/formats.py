"""In which format is a file written, and what is answered if it is not the current one?"""
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from pydantic import BaseModel

from generator import __version__
from generator.intake import migrations
from generator.intake.migrations import Step, Way
from generator.intake.secrets import secrets
from generator.intake.yaml_tree import Tree
from generator.model import forms
from generator.model.company import Company
from generator.model.equipment import Sheet
from generator.model.formats import FORMATS
from generator.model.job import Job
from generator.model.people import People
from generator.model.profile import ProfilePart
from generator.terms.problem import Problem

KIND_OF: dict[type[BaseModel], str] = {Job: "job", People: "people", Company: "company", Sheet: "sheet", ProfilePart: "profile"}
INLINE = "equipment"


def roots(kind: str, data: Any) -> Iterator[tuple[str, Way]]:
    """Where in a file a format number belongs, and of which kind: sheets inside a job have one of their own, and come first."""
    sheets = data.get(INLINE) if kind == "job" and isinstance(data, dict) else None
    if isinstance(sheets, dict):
        yield from (("sheet", (INLINE, name)) for name, sheet in sheets.items() if isinstance(sheet, dict))
    yield kind, ()


def number_at(data: Any, at: Way) -> int | None:
    """The format number that stands in a file, or in a sheet inside it; None if none does."""
    for name in at:
        data = data[name]
    written = data.get("format") if isinstance(data, dict) else None
    return int(written) if isinstance(written, str) and forms.WHOLE.fits(written) else None


def chain(kind: str, number: int) -> list[tuple[Step, ...]] | None:
    """The steps from a format to the current one, one group a format; None if there is no way from it."""
    table = migrations.MIGRATIONS
    every = [table.get((kind, one)) for one in range(number, FORMATS[kind])] if number < FORMATS[kind] else []
    return None if None in every or number > FORMATS[kind] else every


def other_formats(tree: Tree, model: type[BaseModel]) -> dict[Way, Problem]:
    """The answer for a file of another format than the current one, and for each such sheet inside it, by its place."""
    kind = KIND_OF.get(model)
    found = {at: later(tree, one, at) or _earlier(tree, one, at) for one, at in roots(kind, tree.data)} if kind else {}
    return {at: problem for at, problem in found.items() if problem}


def later(tree: Tree, kind: str, at: Way) -> Problem | None:
    """The answer for a file that a newer Doorpost reads."""
    number = number_at(tree.data, at)
    if number is None or number <= FORMATS[kind]:
        return None
    return _problem(tree, at, f"format {number} stands here; Doorpost {__version__} reads format {FORMATS[kind]} of a {kind} file.",
                    f"Install a newer Doorpost, one that reads format {number}; leave the number as it is.")


def _earlier(tree: Tree, kind: str, at: Way) -> Problem | None:
    number = number_at(tree.data, at)
    if not (number is not None and chain(kind, number)):
        return None
    return _problem(tree, at, f"format {number} stands here; Doorpost {__version__} reads format {FORMATS[kind]} of a {kind} file.",
                    "Run `doorpost migrate`: it shows what it would change, and changes it with --write.")


def _problem(tree: Tree, at: Way, says: str, do: str) -> Problem:
    problem = tree.problem((*at, "format"), says, do)
    # The line is shown with the answer; a secret may stand in the same line.
    hidden = any(one.line == problem.line for one in secrets(tree))
    return replace(problem, written="") if hidden else problem
