"""Reads one job with all the files it refers to; every problem in one run."""
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from generator.intake import find
from generator.intake.acceptances import acceptance_problems
from generator.intake.cross_checks import cross_checks
from generator.intake.frozen_checks import frozen_checks
from generator.intake.house_checks import construction_checks, house_checks
from generator.intake.issued_reader import IssuedFile, read_issued
from generator.intake.number_checks import number_checks
from generator.intake.overrides import overridden
from generator.intake.personal import personal
from generator.intake.profile_reader import read_profile
from generator.intake.sheet_checks import sheet_problems
from generator.intake.typed import typed
from generator.intake.yaml_tree import Tree, read_tree
from generator.model.company import Company
from generator.model.equipment import Sheet
from generator.model.fields import nearest
from generator.model.job import Job
from generator.model.papers import Papers
from generator.model.people import People
from generator.terms.problem import JobInvalid, Problem


@dataclass(frozen=True)
class Read:
    """A job as read: the papers, for every field of the job file where it stands, and what was issued, if anything was."""

    papers: Papers
    tree: Tree
    folder: Path
    issued: IssuedFile | None = None

    def place(self, field: str) -> str:
        """File and line of a field of the job, for example "job.yaml:14"; the field itself if it is not in that file."""
        path = tuple(field.removeprefix("job.").split("."))
        if not field.startswith("job.") or path not in self.tree.values:
            return field
        return f"{self.tree.file}:{self.tree.place(path)[0]} {field.removeprefix('job.')}"


def read_job(path: Path, acceptable: Mapping[str, str] | None = None) -> Read:
    """The job that stands in a job file. Raises JobInvalid with every problem of it and of the files it needs.

    `acceptable` gives every rule by its id with the reason why its findings cannot be accepted, "" where they can.
    """
    folder = path.parent
    tree = read_tree(path, path.name)
    problems = tree.problems
    if tree.data is None and problems:
        raise JobInvalid(problems)
    job = typed(tree, Job)
    company_tree, company = _shared(folder, find.COMPANY_FILE, Company, problems)
    people = _people(folder, problems)
    if people is not None and tree.data is not None:
        problems.extend(personal(tree, people))
    issued = read_issued(folder, job.reference if job else None, problems)
    if job is None:
        raise JobInvalid(problems)
    profile = read_profile(folder, tree, job.profile, problems)
    if profile and company:
        profile = overridden(profile, company, company_tree, problems)
    sheets = _Sheets(folder, tree, job, problems)
    sheet_of = {job.control_unit.id: sheets.get(("control_unit", "sheet"), job.control_unit.sheet)}
    sheet_of |= {name: sheets.get(("devices", name, "sheet"), device.sheet) for name, device in job.devices.items()}
    found = {name: sheet for name, sheet in sheet_of.items() if sheet is not None}
    problems.extend(cross_checks(tree, job, found))
    problems.extend(house_checks(tree, job, found))
    problems.extend(number_checks(tree, job, found))
    problems.extend(frozen_checks(tree, job, found, issued))
    if company is not None and profile is not None:
        problems.extend(construction_checks(tree, job, {*job.premises.constructions, *company.constructions, *profile.constructions}))
    problems.extend(acceptance_problems(tree, job, acceptable or {}))
    for key, sheet in job.equipment.items():
        problems.extend(sheet_problems(tree, ("equipment", key), sheet))
    if problems or company is None or profile is None:
        raise JobInvalid(problems)
    return Read(Papers(job, found, company, profile, people), tree, folder, issued)


class _Sheets:
    """The sheets of a job, each read once: those in the job file first, then those in equipment folders."""

    def __init__(self, folder: Path, tree: Tree, job: Job, problems: list[Problem]):
        self.folder, self.tree, self.job, self.problems = folder, tree, job, problems
        self.read: dict[str, Sheet | None] = dict(job.equipment)

    def get(self, path: tuple[str, ...], key: str) -> Sheet | None:
        if key not in self.read:
            inline = list(self.job.equipment)
            self.read[key] = _named(self.folder, self.tree, path, key, "equipment", "equipment sheet", Sheet, self.problems,
                                    inline)
        return self.read[key]


def _named(folder, tree, path, key, kind, what, model, problems, also=()):
    file = find.shared_file(folder, f"{kind}/{key}.yaml")
    if file is None:
        known = sorted({*find.shared_names(folder, kind), *also})
        problems.append(tree.problem(path, f'there is no {what} "{key}".',
                                     f"{nearest(key, known)}Known here: {', '.join(known) or 'none'}."))
        return None
    own = read_tree(file, f"{kind}/{key}.yaml")
    entry = typed(own, model)
    if entry is not None and model is Sheet:
        own.problems.extend(sheet_problems(own, (), entry))
    problems.extend(own.problems)
    return entry


def _shared(folder: Path, name: str, model: type, problems: list[Problem]):
    file = find.shared_file(folder, name)
    if file is None:
        problems.append(Problem(name, 0, 0, "", "there is no such file in the job folder or above it.",
                                "Write one; `doorpost new` shows how."))
        return None, None
    own = read_tree(file, name)
    entry = typed(own, model)
    problems.extend(own.problems)
    return own, entry


def _people(folder: Path, problems: list[Problem]) -> People | None:
    file = folder / find.PEOPLE_FILE
    if not file.exists() and not file.is_symlink():
        return None
    own = read_tree(file, find.PEOPLE_FILE)
    entry = typed(own, People)
    problems.extend(own.problems)
    return entry
