"""One run at a time writes into a folder."""
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from generator.terms.problem import CannotWrite

try:
    import fcntl
except ImportError:  # A system without it (Windows) has no such lock; runs there must not write into one folder at once.
    fcntl = None


@contextmanager
def alone(folder: Path, run: str, verb: str) -> Iterator[None]:
    """Keeps every other run out of a folder. Raises CannotWrite if one is writing; a killed run lets go by itself.

    `run` and `verb` are how the answer speaks: another "build" is writing, then "build" again. The lock is the folder itself,
    opened for reading: nothing is left behind.
    """
    if fcntl is None:
        yield
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            raise CannotWrite(f"another {run} is writing into {folder}. Wait until it ends, then {verb} again.") from None
        yield
    finally:
        os.close(handle)
