"""The ladder's jobs, read and worked out for the manual."""
import re
from pathlib import Path

from generator.pages.manual.ladder import Rung, look_at
from generator.pages.page import Page
from generator.pipeline import Compiled, compile_job, pack_of
from generator.publish.answers import finding_lines
from generator.publish.page_text import page_text
from generator.publish.places import LADDER
from generator.publish.render import environment, render, translations
from generator.terms.audience import Audience

# Files of a rung that are shown beside its job file. What was issued is written by the program and too long to read.
SHOWN = ("people.yaml",)
CLEAR = "Nothing found."
AT_LINE = re.compile(r"(?<=\.yaml):\d+")

Lines = tuple[tuple[str, str], ...]


def rungs() -> tuple[tuple[Rung, ...], tuple[Lines, ...]]:
    """The rungs in their order, and for each the page that it shows as the rung before has it."""
    jobs = [(folder, compile_job(folder / "job.yaml")) for folder in sorted(LADDER.iterdir()) if (folder / "job.yaml").is_file()]
    found, pages_before = [], []
    for index, (folder, job) in enumerate(jobs):
        text = (folder / "job.yaml").read_text(encoding="utf-8")
        path = look_at(text)
        name, lines = _page(job, path)
        found.append(Rung(folder.name, text, tuple((one, (folder / one).read_text(encoding="utf-8")) for one in SHOWN if (folder / one).is_file()),
                          _numbers(job), _answer(job), name, lines))
        pages_before.append(_page(jobs[index - 1][1], path)[1] if index else ())
    return tuple(found), tuple(pages_before)


def _numbers(job: Compiled) -> tuple[str, ...]:
    """A line for each number that is taken: list, number, unit, text."""
    return tuple(f"{row.list.removesuffix('s'):<9}{row.zone or row.number:>3}  {row.device:<4}{row.text}".rstrip()
                 for row in job.results.slots.rows)


def _answer(job: Compiled) -> Lines:
    """What `doorpost check` says; compared without the job's reference and the number of a line, which every line added moves."""
    return tuple((line, AT_LINE.sub("", line.partition(" ")[2])) for line in finding_lines(job)) or ((CLEAR, CLEAR),)


def _page(job: Compiled, path: str) -> tuple[str, Lines]:
    """A page of a job's pack by its path, reader first: what it is called, and its lines.

    What a line is compared by leaves out the job's reference and what follows from it, short references and fingerprints: they are
    others in every job. "" and no line if there is no such page. Of what is looked for in packs the pages here say nothing.
    """
    reader, _, inner = path.partition("/")
    pack = pack_of(job, Audience(reader), translations().gettext, {})
    page = next((one for one in pack.pages if one.path == inner), None)
    if page is None:
        return "", ()
    lines = page_text(render(page, environment(translations())).html)
    marks = (one[:len(pack.stamp.fingerprint)] for one in (job.fingerprint, *job.fingerprint_of.values()))
    own = re.compile("|".join(map(re.escape, (job.papers.job.reference, *job.results.references.values(), *marks))))
    return _called(reader, page), tuple((line, own.sub("", line)) for line in lines)


def _called(reader: str, page: Page) -> str:
    return f"{page.title} ({reader}/{page.path})"
