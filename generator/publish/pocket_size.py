"""How large the pack in one file is, where it is larger than what goes easily to a phone, and which of its parts weigh most. A note, never a stop."""
import re
from collections import Counter
from pathlib import Path

from generator.publish.pocket import MOST_BYTES, NAME

# Where each page begins in the file, named by its path with dashes; the script stands behind the last.
BEGINS = re.compile(r'<div class=[^>]*? id="?((?:[\w-]+?-)?)([\w]+-html)"?>')
SCRIPT = "<script"
FOLDERS = {"d-": "the pages of units", "steps-": "the steps", "rules-": "the pages of rules"}
HEAVIEST = 3


def size_note(text: str) -> str:
    """What is to be said of a file of this text, "" where it is not too large."""
    size = len(text.encode())
    if size <= MOST_BYTES:
        return ""
    most = ", ".join(f"{name} {_shown(weight)}" for name, weight in weights(text).most_common(HEAVIEST))
    return (f"{NAME} has {_shown(size)}; up to {_shown(MOST_BYTES)} are tried. It still holds everything, but mail or chat may refuse it, and an older phone opens it slowly: "
            f"try it on the phone that goes along, or carry the pack by its address. Most of it: {most}.")


def weights(text: str) -> Counter[str]:
    """How many bytes each part has: the pages of a folder together, other pages by their file, what is told to the script with it."""
    begins = list(BEGINS.finditer(text))
    end = text.find(SCRIPT, begins[-1].end()) if begins else -1
    ends = [*(one.start() for one in begins[1:]), end if end >= 0 else len(text)]
    out: Counter[str] = Counter()
    for one, until in zip(begins, ends):
        folder, name = one.groups()
        out[FOLDERS.get(folder, f"{folder}{name.removesuffix('-html')}.html")] += len(text[one.start():until].encode())
    if end >= 0:
        out["the script and what it is told"] += len(text[end:].encode())
    return out


def noted(folder: Path) -> str:
    """What is to be said of the file in a folder of packs."""
    return size_note((folder / NAME).read_text(encoding="utf-8"))


def _shown(size: int) -> str:
    return f"{size / 1e6:.2f} MB" if size >= 1e6 else f"{size / 1e3:.0f} kB"
