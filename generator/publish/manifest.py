"""The list of a pack's files with their checksums."""
import hashlib
import re
from pathlib import Path

MANIFEST = "manifest-sha256.txt"
LINE = re.compile(r"[0-9a-f]{64}  .+")


def write_manifest(folder: Path) -> None:
    """Writes the list: SHA-256 in hex, two blanks, the name; sorted by name. The list itself is not in it."""
    lines = [f"{hashlib.sha256(path.read_bytes()).hexdigest()}  {path.relative_to(folder).as_posix()}\n"
             for path in sorted(folder.rglob("*"), key=lambda one: one.relative_to(folder).as_posix()) if path.is_file()]
    (folder / MANIFEST).write_text("".join(lines), encoding="utf-8", newline="\n")


def listed(folder: Path) -> set[str]:
    """The names in a folder's list, the list's own among them; none if there is no list, or it is not one of ours."""
    try:
        lines = (folder / MANIFEST).read_text(encoding="utf-8").splitlines()
    except (OSError, UnicodeDecodeError):
        return set()
    if not lines or not all(LINE.fullmatch(line) for line in lines):
        return set()
    return {line.partition("  ")[2] for line in lines} | {MANIFEST}
