"""The commands that write or describe a job's files: new, schema, migrate."""
import os
import sys
from pathlib import Path

from generator.cli.codes import CLEAR, NO_FILE, USAGE, of_problems, worse
from generator.cli.jobs import print_problems
from generator.intake.find import from_here, jobs_named, real
from generator.intake.migrate import plan_migration
from generator.model.schema import WRITTEN, schema_of
from generator.record.starter import write_starter
from generator.terms.problem import CannotWrite
from generator.terms.show import count


def new(given) -> int:
    """Writes starter files."""
    from generator.publish.places import TEMPLATES

    for path in write_starter(given.folder, TEMPLATES / "starter", given.house):
        print(path)
    return CLEAR


def schema(given) -> int:
    """Prints or writes what may stand in a kind of file."""
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


def migrate(given) -> int:
    """Shows, and writes if asked to, what files of an earlier format are in the current one."""
    files, problems = jobs_named(given.jobs)
    changed: set[Path] = set()
    code = CLEAR
    for file in files:
        plan = plan_migration(file)
        problems += [from_here(problem, file) for problem in plan.problems]
        own = [] if plan.problems else [one for one in plan.changes if real(one.path) not in changed]
        try:
            _show_and_write(own, given.write)
            changed |= {real(one.path) for one in own}
        except CannotWrite as error:
            print(f"doorpost: {error}", file=sys.stderr)
            code = NO_FILE
    print_problems(problems)
    if changed:
        print(f"{count(len(changed), 'file')} changed." if given.write else
              f"{count(len(changed), 'file')} would change. Change them with --write.")
    elif code == CLEAR and not problems:
        print("Nothing to migrate.")
    return worse(code, of_problems(problems))


def _show_and_write(changes, write: bool) -> None:
    from generator.record.rewrite import difference, rewrite

    sys.stdout.writelines(difference(one, os.path.relpath(one.path)) for one in changes)
    if write:
        rewrite(changes)
