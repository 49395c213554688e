"""The commands: they read the command line, print, and choose the exit code. They decide nothing."""
import atexit
import gc
import os
import sys
from collections.abc import Sequence

from generator.cli.codes import CLEAR, INVALID, NO_FILE, STOPPED, USAGE
from generator.cli.options import parser
from generator.terms.problem import CannotWrite

__all__ = ["CLEAR", "INVALID", "NO_FILE", "STOPPED", "USAGE", "main", "parser"]

# What is loaded by now stays as long as the process does, and so does what is left at its end: a search for garbage that walks through it
# finds none. A build leaves little that only such a search frees, so that it need not come after each few hundred objects.
gc.freeze()
gc.set_threshold(20_000, 20, 50)
atexit.register(gc.freeze)


def main(arguments: Sequence[str] | None = None) -> int:
    """Runs one command; gives the exit code: 0 clear, 1 findings that stop, 2 usage, 3 job invalid, 4 read or write."""
    _speak_any_language()
    given = parser().parse_args(arguments)
    try:
        return given.run(given)
    except BrokenPipeError:
        # Whoever read our lines wants no more of them; without this the interpreter would complain at its end.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return NO_FILE
    except CannotWrite as error:
        print(f"doorpost: {error}", file=sys.stderr)
        return NO_FILE
    except KeyboardInterrupt:
        return NO_FILE


def _speak_any_language() -> None:
    """A terminal that cannot show a letter shows a mark in its place; it is no reason to fail."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
