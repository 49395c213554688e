"""The script of the installer's pack and what it is told: parts joined, comments left out, data as a script that needs no fetching.

A page opened from a file may neither fetch its neighbour nor load a module: so both are plain scripts, one after the other.
"""
import json
from dataclasses import asdict, fields
from functools import lru_cache
from pathlib import Path
from typing import Any

from generator.pages.installer.hand import HandData
from generator.publish.lean.script import lean
from generator.publish.places import TEMPLATES

SCRIPT, DATA = "hand.js", "hand-data.js"
PARTS = TEMPLATES / "assets" / "hand"
# Lists of many rows say the names of their values once.
TABLES = ("steps", "asked", "units")
ROWS = "const rows = (names, all) => all.map(one => Object.fromEntries(names.map((name, at) => [name, one[at]])));"


@lru_cache(maxsize=1)
def script() -> str:
    """The whole script: its parts in the order of their names."""
    return "".join(lean(path.read_text(encoding="utf-8"), path.name) for path in sorted(Path(PARTS).glob("*.js")))


def data_script(data: HandData) -> str:
    """What the script is told, as a script: the same for the same pack; fit to stand inside a page, since no tag can end it."""
    whole = {one.name: getattr(data, one.name) for one in fields(data)}
    said = ", ".join(f"{script_text(name)}: {_table(value) if name in TABLES else script_text(_plain(value))}" for name, value in whole.items())
    return f"self.DOORPOST = (() => {{ {ROWS} return {{{said}}}; }})();\n"


def _table(rows: tuple[Any, ...]) -> str:
    names = [one.name for one in fields(rows[0])] if rows else []
    return f"rows({script_text(names)}, {script_text([[getattr(row, name) for name in names] for row in rows])})"


def _plain(value: Any) -> Any:
    return asdict(value) if hasattr(value, "__dataclass_fields__") else value


def script_text(value: Any) -> str:
    """JSON that is a script too, and in which no sign of a tag stands."""
    text = json.dumps(value, ensure_ascii=False, separators=(",", ":"), allow_nan=False)
    return text.replace("<", "\\u003c").replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")


def hand_files(data: HandData) -> dict[str, str]:
    """The two scripts by their names in the pack."""
    return {DATA: data_script(data), SCRIPT: script()}
