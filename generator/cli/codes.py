"""Exit codes, and which of several counts."""

CLEAR, STOPPED, USAGE, INVALID, NO_FILE = 0, 1, 2, 3, 4
WORST = (CLEAR, STOPPED, INVALID, NO_FILE)


def worse(one: int, other: int) -> int:
    """Of two exit codes the one that counts."""
    return max(one, other, key=WORST.index)
