"""The commands that read jobs: check, build, issue, plan, preview."""
import json
import shutil
import sys
from collections.abc import Iterable
from datetime import date

from generator.cli.codes import CLEAR, INVALID, NO_FILE, STOPPED, USAGE, of_problems, worse
from generator.intake.find import as_seen, from_here, jobs_named
from generator.pages.rule_text import how_to_accept as accepting_lines
from generator.pipeline import Compiled, compile_job
from generator.publish.answers import annotations, check_document, counted, finding_lines, problem_lines
from generator.rules.all_rules import RULE_OF
from generator.terms.audience import Audience
from generator.terms.problem import CannotWrite, JobInvalid, Problem


def _compile_all(given) -> tuple[list[Compiled], list[Problem], int]:
    """Every job that could be read, every problem of the others, and the worst exit code so far."""
    good: list[Compiled] = []
    files, problems = jobs_named(given.jobs)
    code = of_problems(problems)
    for file in files:
        try:
            good.append(compile_job(file, given.as_of))
        except JobInvalid as invalid:
            problems += [from_here(problem, file) for problem in invalid.problems]
            code = worse(code, of_problems(invalid.problems))
    same = _same_reference(good)
    return good, list(dict.fromkeys(problems + same)), worse(code, INVALID if same else CLEAR)


def _same_reference(good: list[Compiled]) -> list[Problem]:
    first: dict[str, Compiled] = {}
    out = []
    for one in good:
        reference = one.papers.job.reference
        other = first.setdefault(reference.lower(), one)
        if other is not one:
            line, column = one.read.tree.place(("reference",))
            out.append(Problem(as_seen(one.read.folder / one.read.tree.file), line, column, "reference",
                               f'"{reference}" is the reference of {other.read.folder / other.read.tree.file} too.',
                               "Give each job a reference of its own; large and small letters do not count as different."))
    return out


def print_problems(problems: list[Problem]) -> None:
    """Every problem, a line each."""
    for problem in problems:
        print(problem.one_line(), file=sys.stderr)


def check(given) -> int:
    """Tells what is wrong with jobs and what was found."""
    good, problems, code = _compile_all(given)
    if given.format == "json":
        print(json.dumps(check_document(problems, good), ensure_ascii=False, indent=1))
        return _stopped(good, code)
    if given.format == "github":
        _say(annotations(problems, good, as_seen))
    else:
        _print_answers(problems, good, given.how_to_accept)
    print(counted(problems, good))
    return _stopped(good, code)


def _print_answers(problems: list[Problem], good: list[Compiled], how_to_accept: bool) -> None:
    for line in problem_lines(problems, shutil.get_terminal_size().columns if sys.stderr.isatty() else 0):
        print(line, file=sys.stderr)
    for one in good:
        _say(finding_lines(one, _how_to_accept if how_to_accept else None))


def _how_to_accept(finding) -> list[str]:
    return list(accepting_lines(finding)) if finding.open and not RULE_OF[finding.rule].firm else []


def _say(lines: Iterable[str]) -> None:
    for line in lines:
        print(line)


def _stopped(good: list[Compiled], code: int) -> int:
    return worse(code, STOPPED) if any(one.stops for one in good) else code


def build(given) -> int:
    """Builds the packs of jobs."""
    from generator.publish.pack import write_pack
    from generator.publish.pocket_size import noted

    good, problems, code = _compile_all(given)
    print_problems(problems)
    if any(problem.field == "reference" and "is the reference of" in problem.says for problem in problems):
        return code
    for one in good:
        _say(finding_lines(one))
        try:
            target = write_pack(one, given.out)
        except CannotWrite as error:
            print(f"doorpost: {error}", file=sys.stderr)
            code = worse(code, NO_FILE)
            continue
        except JobInvalid as invalid:
            print_problems([from_here(problem, one.read.folder / one.read.tree.file) for problem in invalid.problems])
            code = worse(code, INVALID)
            continue
        if note := noted(target):
            print(f"{one.papers.job.reference} note {note}")
        print(target)
    return _stopped(good, code)


def issue(given) -> int:
    """Freezes a job's numbers and archives its packs."""
    from generator.publish.pack import fill
    from generator.record.issue import NotIssued, TooEarly, issue as freeze

    files, problems = jobs_named([given.job])
    print_problems(problems)
    if len(files) != 1:
        if files:
            print("doorpost: issue takes one job; name its folder.", file=sys.stderr)
        return USAGE if files else INVALID
    try:
        done = freeze(files[0], given.on or date.today(), given.out, fill)
    except JobInvalid as invalid:
        print_problems([from_here(problem, files[0]) for problem in invalid.problems])
        return of_problems(invalid.problems)
    except NotIssued as error:
        print(f"doorpost: {error}", file=sys.stderr)
        return USAGE if isinstance(error, TooEarly) else STOPPED
    _say(finding_lines(done.job))
    if done.finished:
        print(f"Revision {done.job.last.revision} was issued by a run that was broken off; its archive has its name now. "
              "Issue again if the job has changed since.", file=sys.stderr)
    print(done.archive)
    return _stopped([done.job], CLEAR)


def plan(given) -> int:
    """Prints the plan of a job as JSON."""
    from generator.publish.pack import plan_text

    good, problems, code = _compile_all(given)
    print_problems(problems)
    if len(good) > 1:
        print("doorpost: plan takes one job; name its folder.", file=sys.stderr)
        return USAGE
    for one in good:
        sys.stdout.write(plan_text(one))
    return _stopped(good, code)


def preview(given) -> int:
    """Shows one reader's pack in a browser."""
    from generator.publish.preview import preview as show

    good, problems, code = _compile_all(given)
    print_problems(problems)
    if len(good) != 1:
        if not problems:
            print("doorpost: preview takes one job; name its folder.", file=sys.stderr)
        return code or USAGE
    return show(good[0], Audience(given.audience), given.port, given.lan, given.as_of)
