"""One job's folder: every reader's pack, the plan as data and the checksums; built beside the target, then swapped in."""
import json
import os
import shutil
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from types import MappingProxyType
from typing import Any

from generator.disk.lock import alone
from generator.disk.traces import refuse_lost
from generator.pages.installer.carry import CARRY, with_note
from generator.pages.page import Pack
from generator.pages.plan import issue_document, plan_document
from generator.pipeline import Compiled, Looked, looked_for, pack_of
from generator.publish.leaks import Found, refuse, search, search_file
from generator.publish.manifest import write_manifest
from generator.publish.one_file import NAME as ONE_FILE, one_file
from generator.publish.places import own_wording
from generator.publish.pocket import NAME as POCKET, pocket
from generator.publish.pocket_size import size_note
from generator.publish.render import translations
from generator.publish.site import write_site
from generator.publish.swap import beside, refuse_strangers, swap_in
from generator.terms.audience import Audience
from generator.terms.problem import CannotWrite

NOTHING_MORE: Mapping[str, bytes] = MappingProxyType({})


def plan(compiled: Compiled) -> dict[str, Any]:
    """The plan of a job as data."""
    prints = {audience.value: text for audience, text in compiled.fingerprint_of.items()}
    return plan_document(compiled.papers.job.reference, compiled.fingerprint, prints, compiled.results, compiled.findings,
                         compiled.read.place, issue_document(compiled.last, compiled.same(None), compiled.before(None),
                                                             compiled.changes(None)))


def plan_text(compiled: Compiled) -> str:
    """The plan as JSON text."""
    return json.dumps(plan(compiled), ensure_ascii=False, indent=1) + "\n"


def write_pack(compiled: Compiled, out: Path) -> Path:
    """Builds the pack of a job into out/<reference>. Raises CannotWrite, Leak, or JobInvalid where its issued.yaml is lost; the
    earlier pack then stays as it was."""
    target = out / compiled.papers.job.reference
    try:
        refuse_strangers(target)
        out.mkdir(parents=True, exist_ok=True)
        with alone(out, "build", "build"):
            refuse_lost(out, compiled.papers.job.reference, compiled.last.revision if compiled.last else 0)
            fresh = beside(target)
            try:
                fill(compiled, fresh)
                swap_in(fresh, target)
            finally:
                shutil.rmtree(fresh, ignore_errors=True)
    except OSError as error:
        raise CannotWrite(f"{error.filename or target} could not be written ({error.strerror}).") from error
    return target


def fill(compiled: Compiled, fresh: Path, more: Mapping[str, bytes] = NOTHING_MORE) -> None:
    """Builds every reader's pack into an empty folder, with the plan, more files by name, and the list of all. Raises Leak."""
    looked = looked_for(compiled, own_wording())
    found: list[Found] = []
    for audience in Audience:
        pack = pack_of(compiled, audience, translations().gettext, looked)
        folder = fresh / audience.value
        if audience is Audience.INSTALLER:
            pack, text = in_the_hand(pack)
        write_site(pack, folder)
        found += _search(pack, folder, looked[audience])
        if audience is Audience.HOMEOWNER:
            (fresh / ONE_FILE).write_text(one_file(pack, translations()), encoding="utf-8", newline="\n")
            found += search_file(audience, fresh / ONE_FILE, looked[audience].hidden)
        if audience is Audience.INSTALLER:
            (fresh / POCKET).write_text(text, encoding="utf-8", newline="\n")
            found += search_file(audience, fresh / POCKET, looked[audience].hidden)
    refuse(found)
    (fresh / "pack.json").write_text(plan_text(compiled), encoding="utf-8", newline="\n")
    for name, content in more.items():
        (fresh / name).write_bytes(content)
    write_manifest(fresh)
    same_modes(fresh)


def in_the_hand(pack: Pack) -> tuple[Pack, str]:
    """The installer's pack and the one file of it. Where that is too large the page of ways to carry it says so, in both."""
    text = pocket(pack, translations())
    if not (note := size_note(text)):
        return pack, text
    told = replace(pack, pages=tuple(replace(page, view=with_note(page.view, note)) if page.path == CARRY else page for page in pack.pages))
    return told, pocket(told, translations())


def _search(pack: Pack, folder: Path, looked: Looked) -> list[Found]:
    theme = [path.relative_to(folder).as_posix() for path in (folder / "assets").rglob("*")]
    return list(search(pack.audience, folder, theme, pack.payloads, looked.hidden))


def same_modes(folder: Path) -> None:
    """Files and folders that everybody may read, whatever the umask: the packs are made to be carried."""
    for path in folder.rglob("*"):
        os.chmod(path, 0o755 if path.is_dir() else 0o644)
    os.chmod(folder, 0o755)
