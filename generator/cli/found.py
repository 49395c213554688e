"""The command that takes in what was found on site."""
import sys
from dataclasses import replace

from generator.cli.codes import CLEAR, INVALID, STOPPED, USAGE, of_problems
from generator.cli.jobs import print_problems
from generator.intake.find import as_seen, from_here, jobs_named
from generator.intake.found_reader import read_results
from generator.model.found import TAKEN_OUT
from generator.publish.answers import finding_lines
from generator.rules.on_site import OF_SITE
from generator.terms.problem import JobInvalid
from generator.terms.show import count
from generator.terms.terminal import safe


def results(given) -> int:
    """Takes in files of results."""
    from generator.record.site import take_in

    files, problems = jobs_named([given.job])
    print_problems(problems)
    if len(files) != 1:
        if files:
            print("doorpost: results takes one job; name its folder.", file=sys.stderr)
        return USAGE if files else INVALID
    # A name can hold what a terminal would obey.
    read = [read_results(path, safe(as_seen(path))) for path in given.files]
    incoming = tuple(one for one, _ in read if one is not None)
    try:
        done = take_in(files[0], incoming, given.earlier, [problem for _, wrong in read for problem in wrong])
    except JobInvalid as invalid:
        own = {safe(as_seen(path)) for path in given.files}
        print_problems([problem if problem.file in own else from_here(problem, files[0]) for problem in invalid.problems])
        return of_problems(invalid.problems)
    _tell(incoming, done)
    return STOPPED if any(one.stops and one.rule in OF_SITE for one in done.job.findings) else CLEAR


def _tell(incoming, done) -> None:
    for one in incoming:
        for id in one.emptied:
            print(f"{one.shown_as}: {id}: {TAKEN_OUT}", file=sys.stderr)
    for one in done.brought:
        print(f"{one.shown_as}: {_brought(one)}.")
    for path in done.written:
        print(safe(as_seen(path)))
    for line in finding_lines(replace(done.job, verdicts=tuple(one for one in done.job.verdicts if one.rule in OF_SITE))):
        print(line)


def _brought(one) -> str:
    """What a file brought, in words."""
    if not one.entries:
        return "it holds no entry: nothing was written down on that phone, or not in this pack"
    new = f"{one.new} new" if one.new else "nothing new, all of it was taken in before"
    return f"{count(one.entries, 'entry', 'entries')}, {new}"
