"""Which files of a job are of an earlier format, and what would they be in the current one?"""
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from generator.intake import find
from generator.intake.formats import INLINE, chain, later, number_at, roots
from generator.intake.secrets import secrets
from generator.intake.steps_on_text import current
from generator.intake.text_file import read_text
from generator.intake.yaml_tree import Tree, tree_of
from generator.model import forms
from generator.model.formats import FORMATS
from generator.terms.problem import Problem

MARK = b"\xef\xbb\xbf"


@dataclass(frozen=True)
class Change:
    """One file as it is and as it is to be."""

    path: Path
    before: bytes
    after: bytes


@dataclass(frozen=True)
class Plan:
    """What a job's files would become, or why that cannot be told; with a problem nothing of the job is to be written."""

    changes: tuple[Change, ...]
    problems: tuple[Problem, ...]


def plan_migration(job: Path) -> Plan:
    """The files of a job, and the shared files that it refers to, in the current format. The program's own are left alone."""
    files = _Files(job.parent)
    data = files.read(job, job.name, "job")
    if find.stands(people := job.parent / find.PEOPLE_FILE):
        files.read(people, find.PEOPLE_FILE, "people")
    files.shared(find.COMPANY_FILE, "company")
    for key in _sheets(data):
        files.named("equipment", key, "sheet")
    profile, seen = _inside(data, "profile"), set()
    while isinstance(profile, str) and profile not in seen:
        seen.add(profile)
        profile = _inside(files.named("profiles", profile, "profile"), "extends")
    return Plan(tuple(files.changes), tuple(sorted(set(files.problems))))


def _inside(data: Any, *way: str) -> Any:
    for name in way:
        data = data.get(name) if isinstance(data, dict) else None
    return data


def _sheets(data: Any) -> list[str]:
    """The sheets in files of their own that a job in the current format refers to."""
    devices = _inside(data, "devices")
    asked = [_inside(data, "control_unit", "sheet")]
    asked += [_inside(device, "sheet") for device in devices.values()] if isinstance(devices, dict) else []
    inline = _inside(data, INLINE)
    inline = inline if isinstance(inline, dict) else {}
    return [key for key in dict.fromkeys(one for one in asked if isinstance(one, str)) if key not in inline]


class _Files:
    """The files of one job, each read once; what they would become, and what keeps them from it."""

    def __init__(self, folder: Path):
        self.folder = folder
        self.changes: list[Change] = []
        self.problems: list[Problem] = []

    def named(self, folder: str, key: str, kind: str) -> Any:
        """A file of a folder of shared files, by its name in the job; None if it has none that can be a name."""
        return self.shared(f"{folder}/{key}.yaml", kind) if forms.KEY.fits(key) else None

    def shared(self, name: str, kind: str) -> Any:
        """A shared file's data in the current format; None if it is not the user's own or cannot be read."""
        file = find.shared_file(self.folder, name)
        return None if file is None else self.read(file, name, kind)

    def read(self, path: Path, shown_as: str, kind: str) -> Any:
        """A file's data in the current format; None, and a problem, if it cannot be read or taken there."""
        if find.real(path).is_relative_to(find.PACKAGE):
            return None
        file = read_text(path, shown_as)
        if file.text is None:
            self.problems.append(file.problem)
            return None
        tree = tree_of(file.text, shown_as)
        if unfit := tree.problems or _unfit(tree, kind):
            self.problems += unfit
            return None
        if not any(chain(one, number_at(tree.data, at)) for one, at in roots(kind, tree.data)):
            return tree.data
        return self._changed(path, tree, kind, file.raw)

    def _changed(self, path: Path, tree: Tree, kind: str, raw: bytes) -> Any:
        found = list(secrets(tree))
        if found:
            self.problems += found
            return None
        draft = current(tree, kind, raw.decode("utf-8-sig"))
        self.problems += draft.problems
        self.changes.append(Change(path, raw, (MARK if raw.startswith(MARK) else b"") + draft.text.encode()))
        return draft.data


def _unfit(tree: Tree, kind: str) -> list[Problem]:
    """Why a file, or a sheet inside it, cannot be taken to the current format."""
    found = []
    for one, at in roots(kind, tree.data):
        number = number_at(tree.data, at)
        if number is None or chain(one, number) is None:
            found.append(later(tree, one, at) or tree.problem(
                (*at, "format"), "no format number that is known stands here.",
                f"Write format: and the number of the format that this is written in; {FORMATS[one]} is the current one of a {one} file."))
    return found
