"""How are problems and findings printed: for people, for programs, and for what checks a repository on each change?"""
import textwrap
from collections.abc import Callable, Iterator
from itertools import groupby
from pathlib import Path
from typing import Any

from generator.pages.plan import finding_document
from generator.pipeline import Compiled
from generator.terms.problem import Problem
from generator.terms.show import count, sentence_list
from generator.terms.terminal import safe

FORMAT = 1
LEVEL = {"stop": "error", "fix": "warning", "ask": "warning", "note": "notice"}


def problem_lines(problems: list[Problem], columns: int = 0) -> Iterator[str]:
    """Problems for people: a heading for each file, under it each problem in order of line, with that line and a caret.

    With `columns`, the width of a terminal, long answers are broken into lines of that width.
    """
    for number, (file, group) in enumerate(groupby(sorted(problems), key=lambda one: one.file)):
        together = list(group)
        if number:
            yield ""
        yield f"{file}: {count(len(together), 'problem')}"
        for one in together:
            yield from _broken(_without_file(one), columns)
            yield from (f"      {line}" for line in one.caret())


def _without_file(problem: Problem) -> str:
    place = f"{problem.line}:{problem.column}" if problem.line else ""
    start = " ".join(filter(None, (place, problem.field)))
    return f"  {start + ': ' if start else ''}{problem.says} {problem.do}"


def _broken(line: str, columns: int) -> list[str]:
    if not columns:
        return [line]
    return textwrap.wrap(line, max(columns - 1, 40), subsequent_indent="    ", break_long_words=False, break_on_hyphens=False)


def finding_lines(compiled: Compiled, below: Callable[[Any], list[str]] | None = None) -> Iterator[str]:
    """A job's findings for people, one line each, and what `below` adds to a finding; last, what was not checked.

    Rules that ask for a limit which the profile does not have stand in one line: nobody can mend that at the job.
    """
    reference = compiled.papers.job.reference
    for one in compiled.findings:
        if one.outcome == "found":
            what = f"accepted {one.severity.value}" if one.accepted else one.severity.value
            start = " ".join(filter(None, (reference, what, one.rule, compiled.read.place(one.hit.at) if one.hit.at else "")))
            yield safe(f"{start}: {' '.join(filter(None, (one.hit.says, one.acceptance, one.hit.do)))}")
            yield from map(safe, below(one) if below else ())
    yield from map(safe, _not_checked(reference, [one for one in compiled.findings if one.outcome != "found"]))


def _not_checked(reference: str, left: list[Any]) -> Iterator[str]:
    of_market = [one for one in left if one.of_market]
    yield from (f"{reference} not checked {one.rule}: {one.hit.says}" for one in left if not one.of_market)
    if of_market:
        names = sentence_list(list(dict.fromkeys(one.rule for one in of_market)))
        yield f"{reference} not checked, because the profile sets no limit for it: {names}"


def counted(problems: list[Problem], jobs: list[Compiled]) -> str:
    """The last line of a check: how much was read and found."""
    found = sum(one.open for job in jobs for one in job.findings)
    return (f"{count(len(jobs), 'job')} read, {count(found, 'finding')}; {count(len(problems), 'problem')} "
            f"in {count(len({problem.file for problem in problems}), 'file')}.")


def check_document(problems: list[Problem], jobs: list[Compiled]) -> dict[str, Any]:
    """Problems and findings as data. Its form is schemas/check.schema.json."""
    return {
        "format": FORMAT,
        "problems": [{"file": one.file, "line": one.line, "column": one.column, "field": one.field, "says": one.says,
                      "do": one.do} for one in problems],
        "findings": [{"reference": one.papers.job.reference, **finding_document(finding, one.read.place)}
                     for one in jobs for finding in one.findings],
    }


def annotations(problems: list[Problem], jobs: list[Compiled], from_here: Callable[[Path], str]) -> Iterator[str]:
    """Problems and what was found as GitHub's workflow commands: the runner shows each at its line.

    Source: GitHub documentation, "Workflow commands", and the escaping of its toolkit, package `core` (from memory).
    """
    for one in problems:
        yield _annotation("error", one.file, one.line, one.column, one.field, f"{one.says} {one.do}")
    for job in jobs:
        # What was not checked has no line to stand at.
        yield from (_of_finding(job, finding, from_here) for finding in job.findings if finding.outcome == "found")


def _of_finding(job: Compiled, finding: Any, from_here: Callable[[Path], str]) -> str:
    line, column = job.read.spot(finding.hit.at) or (0, 0)
    level = LEVEL[finding.severity.value] if finding.open else "notice"
    file = from_here(job.read.folder / job.read.tree.file)
    return _annotation(level, file, line, column, f"{job.papers.job.reference} {finding.rule}",
                       " ".join(filter(None, (finding.hit.says, finding.acceptance, finding.hit.do))))


def _annotation(level: str, file: str, line: int, column: int, title: str, message: str) -> str:
    given = {"file": file, "line": str(line or ""), "col": str(column or ""), "title": title}
    properties = ",".join(f"{name}={_property(value)}" for name, value in given.items() if value)
    return f"::{level} {properties}::{_data(message)}"


def _data(text: str) -> str:
    return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    return _data(text).replace(":", "%3A").replace(",", "%2C")
