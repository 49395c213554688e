"""A finished folder takes the place of an earlier one, whole or not at all."""
import ctypes
import os
import shutil
import sys
from pathlib import Path

from generator.publish.manifest import listed
from generator.terms.problem import CannotWrite

EXCHANGE = 2
AT_FDCWD = -100
BESIDE = ".doorpost-new-"
ASIDE = ".doorpost-old-"


def beside(target: Path) -> Path:
    """A fresh empty folder on the same disk as the target. What a broken run left there is cleared away first."""
    target.parent.mkdir(parents=True, exist_ok=True)
    repair(target)
    fresh = target.parent / f"{BESIDE}{target.name}"
    fresh.mkdir()
    return fresh


def repair(target: Path) -> None:
    """Ends what a broken run began: puts an earlier pack back if it was moved aside, and clears what is half done."""
    fresh, aside = target.parent / f"{BESIDE}{target.name}", target.parent / f"{ASIDE}{target.name}"
    if aside.exists() and not target.exists():
        aside.rename(target)
    for folder in (fresh, aside):
        if folder.exists():
            shutil.rmtree(folder)


def refuse_strangers(target: Path) -> None:
    """Raises CannotWrite if the target holds anything that no build of ours put there."""
    if target.is_symlink() or (target.exists() and not target.is_dir()):
        raise CannotWrite(f"{target} is not a folder. Move it away, or name another --out.")
    if not target.exists():
        return
    ours = listed(target)
    if not ours:
        if any(target.iterdir()):
            raise CannotWrite(f"{target} was not made by Doorpost and is not empty. Move it away, or name another --out.")
        return
    strange = sorted(path.relative_to(target).as_posix() for path in target.rglob("*")
                     if (path.is_symlink() or not path.is_dir()) and path.relative_to(target).as_posix() not in ours)
    if strange:
        raise CannotWrite(f"{target} holds {strange[0]}, which Doorpost did not write. Move it away, then build again.")


def swap_in(fresh: Path, target: Path) -> None:
    """Puts the fresh folder where the target is, in one exchange where the system has one."""
    if not target.exists():
        fresh.rename(target)
    elif _exchange(fresh, target):
        shutil.rmtree(fresh)
    else:
        aside = target.parent / f"{ASIDE}{target.name}"
        target.rename(aside)
        try:
            fresh.rename(target)
        except OSError:
            aside.rename(target)
            raise
        shutil.rmtree(aside)


def _exchange(one: Path, other: Path) -> bool:
    """Exchanges two names at once (Linux); False where the system or the disk cannot."""
    if not sys.platform.startswith("linux"):
        return False
    try:
        call = ctypes.CDLL(None, use_errno=True).renameat2
    except (OSError, AttributeError):
        return False
    return call(AT_FDCWD, os.fsencode(one), AT_FDCWD, os.fsencode(other), EXCHANGE) == 0
