"""What the name printed on a cell tells: which chemistry, and whether it is a button.

Letters and sizes of IEC 60086-1, primary batteries, nomenclature; from memory. A name that is none of these tells nothing.
"""
import re

# The letter before R, for round.
LITHIUM = "BCEF"
# Four digits: diameter in mm, height in tenths of a mm. Less than as high as wide: a button.
SIZED = re.compile(r"\b([BCEFLSPZ])R(\d\d)(\d\d)\b")
ROUND = re.compile(r"\b([BCEFLSPZ])R(\d+)")
# Buttons named before sizes stood in names.
OLD_BUTTON = re.compile(r"\b[LSPZ]R4[1-9]\b")


def is_button(cell: str) -> bool:
    """Whether the name is that of a button cell, which a child can swallow."""
    name = cell.upper()
    sized = SIZED.search(name)
    if sized:
        return int(sized[3]) / 10 < int(sized[2])
    return bool(OLD_BUTTON.search(name)) or any(words in name for words in ("BUTTON", "COIN"))


def is_lead(cell: str) -> bool:
    """Whether the name says that it is a lead-acid battery."""
    return any(words in cell.lower() for words in ("lead", "sla", "vrla", "agm"))


def is_lithium(cell: str) -> bool | None:
    """Whether it is a lithium cell; None where the name does not tell."""
    name = cell.upper()
    if "LITHIUM" in name:
        return True
    found = ROUND.search(name)
    if found:
        return found[1] in LITHIUM
    return False if is_lead(cell) or any(words in name for words in ("ALKALINE", "NIMH", "NI-MH", "NICD")) else None
