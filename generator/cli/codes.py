"""Exit codes, and which of several counts."""
from collections.abc import Sequence

from generator.terms.problem import Problem

CLEAR, STOPPED, USAGE, INVALID, NO_FILE = 0, 1, 2, 3, 4
MEANS = {
    CLEAR: "clear",
    STOPPED: "findings that stop something; the pack is written",
    USAGE: "wrong usage",
    INVALID: "a job file is invalid; nothing was written for it",
    NO_FILE: "something could not be read (no permission, a folder or a pipe in a file's place, changed while it was read) or written, "
             "or a leak was found; the earlier pack stays",
}
WORST = (CLEAR, STOPPED, INVALID, NO_FILE)


def worse(one: int, other: int) -> int:
    """Of two exit codes the one that counts."""
    return max(one, other, key=WORST.index)


def of_problems(problems: Sequence[Problem]) -> int:
    """The exit code that problems call for: what the machine did not give out is another thing than what is wrong in it."""
    if any(one.unreadable for one in problems):
        return NO_FILE
    return INVALID if problems else CLEAR
