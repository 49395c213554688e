"""To take in what was found on site: new entries become files of their own under `site/`, and nothing that stands there is ever written again.

Each file appears whole under its name or not at all. A run that is broken off between two leaves the first; the next run adds what lacks, since
what counts is the union of ids.
"""
import json
import os
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from generator.calc.found import by_phone, contradicted, fresh, joined
from generator.disk.lock import alone
from generator.pipeline import Compiled, compile_job
from generator.terms.audience import Audience
from generator.terms.problem import CannotWrite, JobInvalid, Problem
from generator.terms.show import sentence_list
from generator.terms.signature import drawn, typed
from generator.terms.site_names import SIGNATURES, SITE, site_name

NEW = ".doorpost-new-"
# As many signs of a fingerprint as stand at the foot of pages.
SHOWN = 12
# How many entries of a file are named that were taken in with other content: whoever changed one did not stop at it.
MOST_TOLD = 10


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


def take_in(path: Path, incoming: tuple[Any, ...], earlier: bool = False, wrong: Sequence[Problem] = ()) -> TakenIn:
    """Takes in files that were read, all of them or none. `earlier`: those of an earlier revision too; `wrong`: what is wrong with files that could not
    be read, which is told with what is wrong with the others.

    Raises JobInvalid with every reason why one cannot be taken in, or CannotWrite.
    """
    folder = Path(os.path.realpath(path)).parent
    if not folder.is_dir():
        compile_job(path)  # Raises JobInvalid, which says what is not there.
    try:
        with alone(folder, "run", "take it in"):
            job = _compiled(path, wrong)
            problems = [*wrong, *(problem for one in incoming for problem in _foreign(job, one, earlier))]
            foreign = {problem.file for problem in problems}
            problems += _changed(job, [one for one in incoming if one.shown_as not in foreign])
            if problems:
                raise JobInvalid(problems)
            brought, parts = _new(job, incoming)
            written = tuple(_write_all(folder, job.papers.job.reference, incoming, parts))
            return TakenIn(compile_job(path) if written else job, brought, written)
    except OSError as error:
        raise CannotWrite(f"{error.filename or folder / SITE} could not be written ({error.strerror}).") from error


def _compiled(path: Path, wrong: Sequence[Problem]) -> Compiled:
    try:
        return compile_job(path)
    except JobInvalid as invalid:
        raise JobInvalid([*wrong, *invalid.problems]) from None


def _foreign(job: Compiled, one: Any, earlier: bool) -> Iterator[Problem]:
    """Why a file does not belong to the job as it stands."""
    own, file = job.papers.job.reference, one.file
    if file.reference.lower() != own.lower():
        yield Problem(one.shown_as, 0, 0, "reference", f'this was found at job "{file.reference}"; this job is "{own}".', "Name the job that it belongs to.")
        return
    issued = _issued(job)
    now = _short(job.fingerprint_of[Audience.INSTALLER])
    last = job.last.revision if job.last else 0
    before = {one.fingerprint: one.revision for one in job.papers.site}
    revisions = issued.get(file.fingerprint, set())
    # A pack of which something was taken in before belongs to this job, whatever became of the job file since.
    if file.fingerprint in (now, *before) or last in revisions or earlier and revisions:
        # A draft is handed out as revision 0, and may be issued as it stands.
        if file.revision not in {0, *revisions, before.get(file.fingerprint, 0)}:
            yield Problem(one.shown_as, 0, 0, "revision", f"revision {file.revision} stands here; the pack with fingerprint {file.fingerprint} is "
                          f"{_of_revisions(revisions)}.", "One of the two was changed by hand. Send the file anew from the phone.")
    elif revisions:
        yield Problem(one.shown_as, 0, 0, "revision", f"this was written in the pack of revision {max(revisions)}; revision {last} was issued since.",
                      "Ask which pack the day was worked from. If it was that one, take it in with --earlier.")
    else:
        which = f"revision {file.revision}" if file.revision else "a draft"
        yield Problem(one.shown_as, 0, 0, "fingerprint", f"this was written in a pack with fingerprint {file.fingerprint} ({which}); the job file as it "
                      f"stands gives {now}.", "The job file was changed since that pack was built. Put it back as it was, take this in, then change it again.")


def _issued(job: Compiled) -> Mapping[str, set[int]]:
    """The revisions of the installer's pack by its fingerprint: it may stay the same from one to the next."""
    found: dict[str, set[int]] = {}
    for one in job.issued.revisions if job.issued else ():
        found.setdefault(_short(one.audience_fingerprints.installer), set()).add(one.revision)
    return found


def _of_revisions(revisions: set[int]) -> str:
    """What a pack is by its revisions, in words."""
    return f"of revision {sentence_list([str(one) for one in sorted(revisions)])}" if revisions else "a draft, revision 0"


def _short(fingerprint: str) -> str:
    return fingerprint[:SHOWN]


def _changed(job: Compiled, incoming: Sequence[Any]) -> Iterator[Problem]:
    """Every entry that was taken in before with other content, or stands so in a file before it."""
    held = {entry.id: entry for file in job.papers.site for entry in file.entries}
    for one in incoming:
        ids = contradicted(held.values(), one.file.entries)
        for id in ids[:MOST_TOLD]:
            yield Problem(one.shown_as, 0, 0, "entries", f"the entry {id} was taken in before with other content: one of the two was changed by hand.",
                          "Send the file anew from the phone that wrote the entry.")
        if len(ids) > MOST_TOLD:
            yield Problem(one.shown_as, 0, 0, "entries", f"{len(ids) - MOST_TOLD} more entries were taken in before with other content.", "Send it anew.")
        held = {entry.id: entry for entry in one.file.entries} | held


def _new(job: Compiled, incoming: tuple[Any, ...]) -> tuple[tuple[Taken, ...], list[tuple[Any, ...]]]:
    """What each file brings that neither stands in `site/` nor in a file before it."""
    held = joined(*(one.entries for one in job.papers.site))
    brought, parts = [], []
    for one in incoming:
        new = fresh(held, one.file.entries)
        held = joined(held, new)
        brought.append(Taken(one.shown_as, len(one.file.entries), len(new)))
        parts.append(new)
    return tuple(brought), parts


def _write_all(folder: Path, reference: str, incoming: tuple[Any, ...], parts: list[tuple[Any, ...]]) -> Iterator[Path]:
    for one, new in zip(incoming, parts, strict=True):
        # Signatures first: an entry is never there without what it speaks of. One that was taken away or changed since comes back.
        for name, content in _signatures(one):
            path = folder / SIGNATURES / name
            if not path.is_file() or path.read_bytes() != content:
                _write(path, content)
                yield path
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


def _signatures(one: Any) -> Iterator[tuple[str, bytes]]:
    """What belongs to entries of a signature: the drawing, or the name that was typed, under its SHA-256."""
    for entry in one.file.entries:
        if entry.value in one.file.signatures:
            yield drawn(one.file.signatures[entry.value])
        elif entry.value in one.names:
            yield typed(one.names[entry.value])


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
