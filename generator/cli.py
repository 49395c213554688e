"""The commands: they read the command line, print, and choose the exit code. They decide nothing."""
import argparse
import json
import os
import sys
from collections.abc import Sequence
from datetime import date
from pathlib import Path

from generator import __version__
from generator.intake.find import from_here, jobs_named
from generator.intake.migrate import plan_migration
from generator.intake.profile_reader import profiles_known
from generator.model.fields import nearest
from generator.model.schema import WRITTEN, schema_of
from generator.pages.plan import finding_document
from generator.pages.rule_text import explained, explained_document, how_to_accept as accepting_lines, rule_list, rule_list_document
from generator.pipeline import Compiled, compile_job
from generator.record.starter import HOUSES, write_starter
from generator.rules.all_rules import RULE_OF
from generator.terms.audience import Audience
from generator.terms.problem import CannotWrite, JobInvalid, Problem
from generator.terms.show import count

CLEAR, STOPPED, USAGE, INVALID, NO_FILE = 0, 1, 2, 3, 4
WORST = (CLEAR, STOPPED, INVALID, NO_FILE)
FORMAT = 1


def main(arguments: Sequence[str] | None = None) -> int:
    """Runs one command; gives the exit code: 0 clear, 1 findings that stop, 2 usage, 3 job invalid, 4 read or write."""
    given = parser().parse_args(arguments)
    try:
        return given.run(given)
    except CannotWrite as error:
        print(f"doorpost: {error}", file=sys.stderr)
        return NO_FILE
    except KeyboardInterrupt:
        return NO_FILE


def parser() -> argparse.ArgumentParser:
    """The command line."""
    top = argparse.ArgumentParser(prog="doorpost", description="One job file in, one offline pack for each reader out.",
                                  epilog="Exit codes: 0 clear, 1 findings that stop (the pack is written), 2 wrong usage, "
                                  "3 the job file is invalid, 4 could not read or write.")
    top.add_argument("--version", action="version", version=f"doorpost {__version__}")
    commands = top.add_subparsers(required=True, metavar="COMMAND")
    new = commands.add_parser("new", help="write starter files for a job into a new folder")
    new.add_argument("folder", type=Path, metavar="DIR", help="the folder to make")
    new.add_argument("--house", choices=HOUSES, default=HOUSES[0],
                     help="how the house is given: by a plan with measures, or by a radio path for each unit (plan)")
    new.set_defaults(run=_new)
    check = _job_command(commands, "check", "read jobs and tell what is wrong and what was found", _check)
    check.add_argument("--format", choices=("text", "json"), default="text", help="how to print (text)")
    check.add_argument("--how-to-accept", action="store_true", help="say for each finding what to write to accept it")
    build = _job_command(commands, "build", "build the packs of jobs", _build)
    build.add_argument("--out", type=Path, required=True, metavar="DIR", help="where the packs go: DIR/<reference>/")
    issue = commands.add_parser("issue", help="freeze a job's numbers and put its packs into one file for the archive")
    issue.add_argument("job", type=Path, metavar="JOB", help="a job.yaml or its folder")
    issue.add_argument("--on", type=_day, metavar="DATE", help="the day of issue (today)")
    issue.add_argument("--out", type=Path, required=True, metavar="DIR", help="where the archive goes: DIR/<reference>-r<revision>.zip")
    issue.set_defaults(run=_issue)
    _job_command(commands, "plan", "print slots, findings and fingerprints of a job as JSON", _plan)
    schema = commands.add_parser("schema", help="print what may stand in a kind of file, as a JSON Schema for editors")
    schema.add_argument("kind", choices=(*WRITTEN, "all"), metavar="KIND", help=f"{', '.join(WRITTEN)}, or all with --out")
    schema.add_argument("--out", type=Path, metavar="DIR", help="write DIR/KIND.schema.json instead of printing")
    schema.set_defaults(run=_schema)
    migrate = commands.add_parser("migrate", help="show what an earlier format's files would be in the current one, and change them")
    migrate.add_argument("jobs", nargs="+", type=Path, metavar="JOB", help="a job.yaml, its folder, or a folder of job folders")
    migrate.add_argument("--write", action="store_true", help="change the files")
    migrate.set_defaults(run=_migrate)
    preview = _job_command(commands, "preview", "build a job's packs and show one reader's in a browser", _preview)
    preview.add_argument("--audience", choices=[one.value for one in Audience], default="installer", help="whose (installer)")
    preview.add_argument("--port", type=int, default=8000, help="port to serve at (8000)")
    preview.add_argument("--lan", action="store_true", help="let other machines of this network look too")
    rules = commands.add_parser("rules", help="list every rule")
    rules.set_defaults(run=_rules)
    explain = commands.add_parser("explain", help="tell why a rule speaks, what it compares and what mends it")
    explain.add_argument("rule", metavar="ID", help="the rule, as `doorpost check` names it")
    explain.add_argument("--profile", metavar="NAME", help="the profile whose limits to show (every one that is found)")
    explain.set_defaults(run=_explain)
    for one in (rules, explain):
        one.add_argument("--format", choices=("text", "json"), default="text", help="how to print (text)")
    return top


def _job_command(commands, name: str, help: str, run) -> argparse.ArgumentParser:
    one = commands.add_parser(name, help=help)
    one.add_argument("jobs", nargs="+" if name in ("check", "build") else 1, type=Path, metavar="JOB",
                     help="a job.yaml, its folder, or a folder of job folders")
    one.add_argument("--as-of", type=_day, metavar="DATE", help="the day for which dates are worked out (the job's `dated`)")
    one.set_defaults(run=run)
    return one


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f'"{text}" is not a date; write year-month-day, for example 2026-09-14')


def _compile_all(given) -> tuple[list[Compiled], list[Problem], int]:
    """Every job that could be read, every problem of the others, and the worst exit code so far."""
    good: list[Compiled] = []
    files, problems = jobs_named(given.jobs)
    code = INVALID if problems else CLEAR
    for file in files:
        try:
            good.append(compile_job(file, given.as_of))
        except JobInvalid as invalid:
            problems += [from_here(problem, file) for problem in invalid.problems]
            code = _worse(code, INVALID)
    same = _same_reference(good)
    return good, problems + same, _worse(code, INVALID if same else CLEAR)


def _same_reference(good: list[Compiled]) -> list[Problem]:
    first: dict[str, Compiled] = {}
    out = []
    for one in good:
        reference = one.papers.job.reference
        other = first.setdefault(reference.lower(), one)
        if other is not one:
            line, column = one.read.tree.place(("reference",))
            out.append(Problem(str(one.read.folder / one.read.tree.file), line, column, "reference",
                               f'"{reference}" is the reference of {other.read.folder / other.read.tree.file} too.',
                               "Give each job a reference of its own; large and small letters do not count as different."))
    return out


def _worse(one: int, other: int) -> int:
    return max(one, other, key=WORST.index)


def _print_problems(problems: list[Problem]) -> None:
    for problem in problems:
        print(problem.one_line(), file=sys.stderr)


def _print_findings(compiled: Compiled, how_to_accept: bool = False) -> None:
    for one in compiled.findings:
        hit = one.hit
        at = compiled.read.place(hit.at) if hit.at else ""
        what = one.severity.value if one.outcome == "found" else "not checked"
        what = f"accepted {what}" if one.accepted else what
        print(" ".join(filter(None, (f"{compiled.papers.job.reference} {what} {one.rule}", f"{at}:", hit.says, one.acceptance, hit.do))))
        if how_to_accept and one.open and not RULE_OF[one.rule].firm:
            print("\n".join(accepting_lines(one)))


def _new(given) -> int:
    from generator.publish.places import TEMPLATES

    for path in write_starter(given.folder, TEMPLATES / "starter", given.house):
        print(path)
    return CLEAR


def _check(given) -> int:
    good, problems, code = _compile_all(given)
    if given.format == "json":
        print(json.dumps({
            "format": FORMAT,
            "problems": [{"file": one.file, "line": one.line, "column": one.column, "field": one.field, "says": one.says,
                          "do": one.do} for one in problems],
            "findings": [{"reference": one.papers.job.reference, **finding_document(finding, one.read.place)}
                         for one in good for finding in one.findings],
        }, ensure_ascii=False, indent=1))
    else:
        for problem in problems:
            print(problem.with_caret(), file=sys.stderr)
        for one in good:
            _print_findings(one, given.how_to_accept)
        found = sum(one.open for job in good for one in job.findings)
        print(f"{count(len(good), 'job')} read, {count(found, 'finding')}; {count(len(problems), 'problem')} "
              f"in {count(len({problem.file for problem in problems}), 'file')}.")
    return _stopped(good, code)


def _stopped(good: list[Compiled], code: int) -> int:
    return _worse(code, STOPPED) if any(one.stops for one in good) else code


def _build(given) -> int:
    from generator.publish.pack import write_pack

    good, problems, code = _compile_all(given)
    _print_problems(problems)
    if any(problem.field == "reference" and "is the reference of" in problem.says for problem in problems):
        return code
    for one in good:
        _print_findings(one)
        try:
            target = write_pack(one, given.out)
        except CannotWrite as error:
            print(f"doorpost: {error}", file=sys.stderr)
            code = _worse(code, NO_FILE)
            continue
        print(target)
    return _stopped(good, code)


def _issue(given) -> int:
    from generator.publish.pack import fill
    from generator.record.issue import NotIssued, TooEarly, issue

    files = job_files(given.job)
    if len(files) != 1:
        print("doorpost: issue takes one job; name its folder.", file=sys.stderr)
        return USAGE if files else INVALID
    try:
        done = issue(files[0], given.on or date.today(), given.out, fill)
    except JobInvalid as invalid:
        _print_problems([_from_here(problem, files[0]) for problem in invalid.problems])
        return INVALID
    except NotIssued as error:
        print(f"doorpost: {error}", file=sys.stderr)
        return USAGE if isinstance(error, TooEarly) else STOPPED
    _print_findings(done.job)
    if done.finished:
        print(f"Revision {done.job.last.revision} was issued by a run that was broken off; its archive has its name now. "
              "Issue again if the job has changed since.", file=sys.stderr)
    print(done.archive)
    return _stopped([done.job], CLEAR)


def _plan(given) -> int:
    from generator.publish.pack import plan_text

    good, problems, code = _compile_all(given)
    _print_problems(problems)
    if len(good) > 1:
        print("doorpost: plan takes one job; name its folder.", file=sys.stderr)
        return USAGE
    for one in good:
        sys.stdout.write(plan_text(one))
    return _stopped(good, code)


def _schema(given) -> int:
    from generator.record.schemas import schema_text, write_schemas

    kinds = tuple(WRITTEN) if given.kind == "all" else (given.kind,)
    if given.out:
        for path in write_schemas(given.out, {kind: schema_of(kind) for kind in kinds}):
            print(path)
        return CLEAR
    if given.kind == "all":
        print("doorpost: all is more than one schema; name a folder with --out.", file=sys.stderr)
        return USAGE
    sys.stdout.write(schema_text(schema_of(given.kind)))
    return CLEAR


def _migrate(given) -> int:
    files, problems = jobs_named(given.jobs)
    changed: set[Path] = set()
    code = CLEAR
    for file in files:
        plan = plan_migration(file)
        problems += [from_here(problem, file) for problem in plan.problems]
        own = [] if plan.problems else [one for one in plan.changes if one.path.resolve() not in changed]
        try:
            _show_and_write(own, given.write)
            changed |= {one.path.resolve() for one in own}
        except CannotWrite as error:
            print(f"doorpost: {error}", file=sys.stderr)
            code = NO_FILE
    _print_problems(problems)
    if changed:
        print(f"{count(len(changed), 'file')} changed." if given.write else
              f"{count(len(changed), 'file')} would change. Change them with --write.")
    elif code == CLEAR and not problems:
        print("Nothing to migrate.")
    return _worse(code, INVALID if problems else CLEAR)


def _show_and_write(changes, write: bool) -> None:
    from generator.record.rewrite import difference, rewrite

    sys.stdout.writelines(difference(one, os.path.relpath(one.path)) for one in changes)
    if write:
        rewrite(changes)


def _preview(given) -> int:
    from generator.publish.preview import preview

    good, problems, code = _compile_all(given)
    _print_problems(problems)
    if len(good) != 1:
        if not problems:
            print("doorpost: preview takes one job; name its folder.", file=sys.stderr)
        return code or USAGE
    return preview(good[0], Audience(given.audience), given.port, given.lan, given.as_of)


def _rules(given) -> int:
    print(_json(rule_list_document()) if given.format == "json" else rule_list())
    return CLEAR


def _explain(given) -> int:
    profiles = profiles_known(Path.cwd())
    for name, known in ((given.rule, RULE_OF), (given.profile, profiles)):
        if name is not None and name not in known:
            what = "rule" if known is RULE_OF else "profile"
            print(f'doorpost: there is no {what} "{name}". {nearest(name, list(known))}Known: {", ".join(known)}.', file=sys.stderr)
            return USAGE
    shown = {given.profile: profiles[given.profile]} if given.profile else profiles
    print(_json(explained_document(RULE_OF[given.rule], shown)) if given.format == "json" else explained(RULE_OF[given.rule], shown))
    return CLEAR


def _json(document: dict) -> str:
    return json.dumps(document, ensure_ascii=False, indent=1)
