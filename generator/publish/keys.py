"""The keys of every file as tables of the README: `python -m generator.publish.keys README.md` renews them."""
import sys
from pathlib import Path

from generator.pages.keys import FILES, key_rows

BEGIN, END = "<!-- keys: begin -->", "<!-- keys: end -->"


def tables() -> str:
    """The tables as Markdown."""
    return "\n".join(_table(root, name) for root, name in FILES.items())


def _table(root: str, name: str) -> str:
    lines = [f"### {name}", "", "| key | takes | |", "|---|---|---|"]
    for row in key_rows(root):
        needed = "" if row.needed else " May be left out."
        lines.append(f"| `{row.way}` | {row.takes} | {row.means}{needed} |")
    return "\n".join(lines) + "\n"


def renewed(text: str) -> str:
    """A README with its tables as they should be."""
    before, _, rest = text.partition(BEGIN)
    return f"{before}{BEGIN}\n{tables()}{END}{rest.partition(END)[2]}"


if __name__ == "__main__":
    path = Path(sys.argv[1])
    path.write_text(renewed(path.read_text(encoding="utf-8")), encoding="utf-8")
