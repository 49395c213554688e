"""Reads one job with all the files it refers to; every problem in one run."""
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from generator.intake import find
from generator.intake.acceptances import acceptance_problems
from generator.intake.company_checks import company_checks
from generator.intake.cross_checks import cross_checks
from generator.intake.detail_checks import detail_checks
from generator.intake.frozen_checks import frozen_checks
from generator.intake.house_checks import house_checks
from generator.intake.issued_reader import IssuedFile, read_issued
from generator.intake.number_checks import number_checks
from generator.intake.overrides import overridden
from generator.intake.personal import personal
from generator.intake.plan_checks import plan_checks
from generator.intake.profile_reader import read_profile
from generator.intake.references import constructions, references, sheet_names
from generator.intake.secrets import WHY, without_secrets
from generator.intake.sheet_checks import sheet_problems
from generator.intake.sight_checks import sight_checks
from generator.intake.site_reader import lost_signatures, read_site
from generator.intake.text_file import read_text
from generator.intake.typed import typed
from generator.intake.what_is_left import plan_of_what_is_left
from generator.intake.yaml_tree import Path_, Tree, read_tree
from generator.model.company import Company
from generator.model.equipment import Sheet
from generator.model.fields import is_key, listed, nearest
from generator.model.job import Job
from generator.model.papers import Papers
from generator.model.people import People
from generator.terms.problem import JobInvalid, Problem


REPEATER = "repeater"


@dataclass(frozen=True)
class Read:
    """A job as read: the papers, for every field of the job file where it stands, and what was issued, if anything was."""

    papers: Papers
    tree: Tree
    folder: Path
    issued: IssuedFile | None = None

    def place(self, field: str) -> str:
        """File and line of a field of the job, for example "job.yaml:14"; the field itself if it is not in that file."""
        found = self.spot(field)
        return f"{self.tree.file}:{found[0]} {field.removeprefix('job.')}" if found else field

    def spot(self, field: str) -> tuple[int, int] | None:
        """Line and column of a field of the job; None if it is not in that file."""
        path = tuple(field.removeprefix("job.").split("."))
        # A place in a list is counted, the name of a group is a text even if it is a number.
        ways = (path, tuple(int(one) if one.isdecimal() else one for one in path))
        return next((self.tree.place(way) for way in ways if field.startswith("job.") and way in self.tree.values), None)


def read_job(path: Path, acceptable: Mapping[str, str] | None = None) -> Read:
    """The job that stands in a job file. Raises JobInvalid with every problem of it and of the files it needs.

    `acceptable` gives every rule by its id with the reason why its findings cannot be accepted, "" where they can.
    """
    folder = path.parent
    tree = read_tree(path, path.name)
    problems = tree.problems
    if any(not problem.line for problem in problems):
        raise JobInvalid(problems)
    job = typed(tree, Job)
    company_tree, company = _shared(folder, find.COMPANY_FILE, Company, problems)
    people = _people(folder, problems)
    if people is not None and tree.data is not None:
        problems.extend(personal(tree, people))
    issued = read_issued(folder, job.reference if job else None, problems)
    site = read_site(folder, problems)
    named = tree.data.get("profile") if isinstance(tree.data, dict) else None
    profile = read_profile(folder, tree, named, problems) if is_key(named) else None
    if profile and company:
        profile = overridden(profile, company, company_tree, problems)
    sheets = _Sheets(folder, tree, problems)
    sheet_of = {unit: sheets.get(path, name) for unit, (path, name) in sheet_names(tree).items()}
    problems.extend(references(tree, sheet_of))
    if company is not None:
        problems.extend(company_checks(company_tree, company))
    if company is not None and profile is not None:
        problems.extend(constructions(tree, {*company.constructions, *profile.constructions}))
    if job is None and tree.data is not None:
        problems.extend(plan_of_what_is_left(tree))
    # Again: what was asked since may have quoted a text in which a secret stands.
    problems[:] = without_secrets(problems, [one for one in problems if one.says == WHY])
    found = {name: sheet for name, sheet in sheet_of.items() if sheet is not None}
    if job is not None:
        found |= {name: job.equipment[key] for name, (_, key) in sheet_names(tree).items() if key in job.equipment}
        problems.extend(_of_whole(tree, job, found, issued, acceptable or {}))
    if problems or job is None or company is None or profile is None:
        raise JobInvalid(problems)
    return Read(Papers(job, found, company, profile, people, spare=_spare(folder, job, found), site=site,
                       lost=lost_signatures(folder, site)), tree, folder, issued)


def _spare(folder: Path, job: Job, found: Mapping[str, Sheet]) -> dict[str, Sheet]:
    """The company's first sheet of a repeater, for a job that has a plan and none of its own. One that cannot be read is no fault of the job."""
    drawn = any(room.corner_m or room.outline_m for storey in job.premises.storeys.values() for room in storey.rooms.values())
    if not drawn or any(one.kind == REPEATER for one in (*found.values(), *job.equipment.values())):
        return {}
    for key in find.shared_names(folder, "equipment"):
        file = find.shared_file(folder, f"equipment/{key}.yaml")
        # Most sheets are of something else, and to read one as YAML takes a hundred times as long as to look for a word.
        if file is not None and REPEATER in (read_text(file, key).text or ""):
            own = read_tree(file, f"equipment/{key}.yaml")
            sheet = typed(own, Sheet)
            if sheet is not None and sheet.kind == REPEATER and not own.problems and not list(sheet_problems(own, (), sheet)):
                return {key: sheet}
    return {}


def _of_whole(tree: Tree, job: Job, sheet_of: dict[str, Sheet], issued: IssuedFile | None,
              acceptable: Mapping[str, str]) -> Iterator[Problem]:
    """What is wrong with a job of which every key can be read on its own."""
    yield from cross_checks(tree, job, sheet_of)
    yield from house_checks(tree, job, sheet_of)
    yield from plan_checks(tree, job)
    yield from sight_checks(tree, job)
    yield from detail_checks(tree, job, sheet_of)
    yield from number_checks(tree, job, sheet_of)
    yield from frozen_checks(tree, job, sheet_of, issued)
    yield from acceptance_problems(tree, job, acceptable)
    for key, sheet in job.equipment.items():
        yield from sheet_problems(tree, ("equipment", key), sheet)


class _Sheets:
    """The sheets in equipment folders, each read once; those in the job file are read with it."""

    def __init__(self, folder: Path, tree: Tree, problems: list[Problem]):
        self.folder, self.tree, self.problems = folder, tree, problems
        inline = tree.data.get("equipment") if isinstance(tree.data, dict) else None
        self.inline = list(inline) if isinstance(inline, dict) else []
        self.read: dict[str, Sheet | None] = dict.fromkeys(self.inline)

    def get(self, path: Path_, key: str) -> Sheet | None:
        if key not in self.read and is_key(key):
            self.read[key] = _named(self.folder, self.tree, path, key, "equipment", "equipment sheet", Sheet, self.problems,
                                    self.inline)
        return self.read.get(key)


def _named(folder, tree, path, key, kind, what, model, problems, also=()):
    file = find.shared_file(folder, f"{kind}/{key}.yaml")
    if file is None:
        known = sorted({*find.shared_names(folder, kind), *also})
        problems.append(tree.problem(path, f'there is no {what} "{key}".',
                                     f"{nearest(key, known)}Known here: {listed(known)}."))
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
    if not find.stands(file):
        return None
    own = read_tree(file, find.PEOPLE_FILE)
    entry = typed(own, People)
    problems.extend(own.problems)
    return entry
