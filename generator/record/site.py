"""To take in what was found on site: new entries become files of their own under `site/`, and nothing that stands there is ever written again.

Each file appears whole under its name or not at all. A run that is broken off between two leaves the first; the next run adds what lacks, since
what counts is the union of ids.
"""
import json
import os
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from generator.calc.found import TwoContents, by_phone, fresh, joined
from generator.disk.lock import alone
from generator.pipeline import Compiled, compile_job
from generator.terms.audience import Audience
from generator.terms.problem import CannotWrite, JobInvalid, Problem
from generator.terms.site_names import SIGNATURES, SITE, site_name

NEW = ".doorpost-new-"
# As many signs of a fingerprint as stand at the foot of pages.
SHOWN = 12
MARGIN = 5
COORDINATE = re.compile(r"-?[0-9]+(?:\.[0-9]+)?")


@dataclass(frozen=True)
class Taken:
    """What a file brought: how many entries it holds, how many of them were new."""

    shown_as: str
    entries: int
    new: int


@dataclass(frozen=True)
class TakenIn:
    """The job as it is now, what each file brought, and the files that were written."""

    job: Compiled
    brought: tuple[Taken, ...]
    written: tuple[Path, ...]


def take_in(path: Path, incoming: tuple[Any, ...], earlier: bool = False) -> TakenIn:
    """Takes in files that were read, all of them or none. `earlier`: those of an earlier revision too.

    Raises JobInvalid with every reason why one cannot be taken in, or CannotWrite.
    """
    folder = Path(os.path.realpath(path)).parent
    if not folder.is_dir():
        compile_job(path)  # Raises JobInvalid, which says what is not there.
    try:
        with alone(folder, "run", "take it in"):
            job = compile_job(path)
            problems = [problem for one in incoming for problem in _foreign(job, one, earlier)]
            if problems:
                raise JobInvalid(problems)
            brought, parts = _new(job, incoming)
            written = tuple(_write_all(folder, job.papers.job.reference, incoming, parts))
            return TakenIn(compile_job(path) if written else job, brought, written)
    except OSError as error:
        raise CannotWrite(f"{error.filename or folder / SITE} could not be written ({error.strerror}).") from error


def _foreign(job: Compiled, one: Any, earlier: bool) -> Iterator[Problem]:
    """Why a file does not belong to the job as it stands."""
    own, file = job.papers.job.reference, one.file
    if file.reference.lower() != own.lower():
        yield Problem(one.shown_as, 0, 0, "reference", f'this was found at job "{file.reference}"; this job is "{own}".', "Name the job that it belongs to.")
        return
    issued = {_short(revision.audience_fingerprints.installer): revision.revision for revision in (job.issued.revisions if job.issued else ())}
    now = _short(job.fingerprint_of[Audience.INSTALLER])
    last = job.last.revision if job.last else 0
    # A pack of which something was taken in before belongs to this job, whatever became of the job file since.
    known = {now, *(print_ for print_, revision in issued.items() if revision == last), *(before.fingerprint for before in job.papers.site)}
    if file.fingerprint in known or earlier and file.fingerprint in issued:
        return
    if file.fingerprint in issued:
        yield Problem(one.shown_as, 0, 0, "revision", f"this was written in the pack of revision {issued[file.fingerprint]}; revision {last} was issued since.",
                      "Ask which pack the day was worked from. If it was that one, take it in with --earlier.")
        return
    which = f"revision {file.revision}" if file.revision else "a draft"
    yield Problem(one.shown_as, 0, 0, "fingerprint", f"this was written in a pack with fingerprint {file.fingerprint} ({which}); the job file as it stands "
                  f"gives {now}.", "The job file was changed since that pack was built. Put it back as it was, take this in, then change it again.")


def _short(fingerprint: str) -> str:
    return fingerprint[:SHOWN]


def _new(job: Compiled, incoming: tuple[Any, ...]) -> tuple[tuple[Taken, ...], list[tuple[Any, ...]]]:
    """What each file brings that neither stands in `site/` nor in a file before it."""
    held = joined(*(one.entries for one in job.papers.site))
    brought, parts = [], []
    for one in incoming:
        try:
            new = fresh(held, one.file.entries)
        except TwoContents as two:
            raise JobInvalid([Problem(one.shown_as, 0, 0, "entries", f"the entry {two} was taken in before with other content: one of the two was changed by "
                                      "hand.", "Send the file anew from the phone that wrote the entry.")]) from None
        held = joined(held, new)
        brought.append(Taken(one.shown_as, len(one.file.entries), len(new)))
        parts.append(new)
    return tuple(brought), parts


def _write_all(folder: Path, reference: str, incoming: tuple[Any, ...], parts: list[tuple[Any, ...]]) -> Iterator[Path]:
    for one, new in zip(incoming, parts, strict=True):
        # Signatures first: an entry is never there without what it speaks of.
        for name, content in _signatures(one, new):
            if not (folder / SIGNATURES / name).exists():
                _write(folder / SIGNATURES / name, content)
        for phone, entries in by_phone(new).items():
            content = _text(reference, one.file, phone, entries).encode()
            first, last = (int(entry.id.rpartition("-")[2]) for entry in (entries[0], entries[-1]))
            path = folder / SITE / site_name(phone, first, last, content)
            _write(path, content)
            yield path


def _text(reference: str, file: Any, phone: str, entries: Iterable[Any]) -> str:
    """Entries of one phone as a file of results, always the same for the same entries."""
    return json.dumps({"format": int(file.format), "reference": reference, "revision": file.revision, "fingerprint": file.fingerprint, "phone": phone,
                       "entries": [entry.model_dump() for entry in entries]}, indent=1) + "\n"


def _signatures(one: Any, new: tuple[Any, ...]) -> Iterator[tuple[str, bytes]]:
    """What belongs to new entries of a signature: the drawing, or the name that was typed, under its SHA-256."""
    for entry in new:
        if entry.value in one.file.signatures:
            yield f"{entry.value}.svg", _picture(one.file.signatures[entry.value])
        if entry.value in one.names:
            yield f"{entry.value}.txt", f"{one.names[entry.value]}\n".encode()


def _picture(lines: str) -> bytes:
    """A drawing as a picture that any viewer shows, cut to what was drawn."""
    found = [float(one) for one in COORDINATE.findall(lines)] or [0.0]
    across, down = found[0::2], found[1::2] or [0.0]
    left, top = min(across) - MARGIN, min(down) - MARGIN
    box = f"{left:g} {top:g} {max(across) + MARGIN - left:g} {max(down) + MARGIN - top:g}"
    return (f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}"><path d="{lines}" fill="none" stroke="#000" stroke-width="2"/></svg>\n').encode()


def _write(path: Path, content: bytes) -> None:
    """A file, whole and on the disk, under its name; what a broken run left beside it is written over."""
    path.parent.mkdir(exist_ok=True)
    draft = path.parent / f"{NEW}{path.name}"
    with open(draft, "wb") as handle:
        handle.write(content)
        handle.flush()
        os.fsync(handle.fileno())
    os.chmod(draft, 0o644)
    os.replace(draft, path)
    if os.name == "posix":
        handle = os.open(path.parent, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
