"""The manual as a folder: built beside its place, then swapped in, so that it appears whole or not at all."""
import os
import shutil
from collections.abc import Callable
from pathlib import Path

from generator.disk.lock import alone
from generator.pages.page import Site
from generator.publish.manifest import write_manifest
from generator.publish.pack import same_modes
from generator.publish.site import write_with_mkdocs
from generator.publish.swap import beside, refuse_strangers, swap_in
from generator.terms.problem import CannotWrite


def write_manual(plan: Callable[[], Site], out: Path) -> Path:
    """Writes the manual into a folder that is new, empty, or an earlier manual. Raises CannotWrite; that one then stays as it was."""
    # A name of its own is needed to build beside: "." has none.
    target = out if out.name not in ("", "..") else Path(os.path.abspath(out))
    try:
        refuse_strangers(target)
        target.parent.mkdir(parents=True, exist_ok=True)
        with alone(target.parent, "build", "build"):
            fresh = beside(target)
            try:
                write_with_mkdocs(plan(), fresh)
                write_manifest(fresh)
                same_modes(fresh)
                swap_in(fresh, target)
            finally:
                shutil.rmtree(fresh, ignore_errors=True)
    except OSError as error:
        raise CannotWrite(f"{error.filename or target} could not be written ({error.strerror}).") from error
    return target
