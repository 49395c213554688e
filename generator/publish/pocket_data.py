"""What the script is told, for the one file: texts once, and those that the file's own checklist says are read from there.

The folder's own data (`publish/hand.py`) say the same at three times the length.
"""
import html
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import asdict, fields, is_dataclass
from typing import Any

from generator.pages.installer.hand_told import HandData
from generator.publish.hand import TABLES, script_text

# A line of the checklist in the file: its title, then what is accepted, then its unit and its source.
LINE = re.compile(r'<p><strong class="what">(.*?)\.</strong> (.*?) <i>', re.S)
TITLE = re.compile(r'<section class="step" [^>]*>.*?<h2 id="[^"]+">(.*?)</h2>', re.S)
LINES = ('[...document.querySelectorAll("#tests-html .checks > li > p:first-child")].map(one => one.childNodes[1].data.trim())'
         '.concat([...document.querySelectorAll(".step:not([data-hold]) > h2")].map(one => one.textContent))')
# An empty place is the text of the row before, or no number.
ROWS = ("const rows = (names, pooled, all) => all.map((one, row) => Object.fromEntries(names.map((name, at) => {"
        "if (pooled[at]) one[at] ??= all[row - 1][at];"
        "return [name, pooled[at] ? texts[one[at]] : one[at] ?? null];})));")


def pocket_data(data: HandData, checklist: str, steps: str) -> str:
    """The data as a script that stands at the end of the file. `checklist` is the page whose lines the file shows, as it is printed, and `steps` are
    the pages of steps in their order."""
    shown = {text: at for at, text in reversed(list(enumerate([*_accepted(checklist), *_titles(steps)])))}
    whole = {one.name: getattr(data, one.name) for one in fields(data)}
    # The commonest first, since their places are the shortest to write.
    texts = {text: at for at, (text, _) in enumerate(Counter(_texts(whole)).most_common())}
    said = ",".join(f"{name}:{_table(value, texts) if name in TABLES else script_text(_plain(value))}" for name, value in whole.items())
    told = ",".join(str(shown[text]) if text in shown else script_text(text) for text in texts)
    pool = f'const lines = {LINES}, texts = [{told}].map(one => typeof one == "number" ? lines[one] : one);'
    return f"self.DOORPOST = (() => {{ {pool} {ROWS} return {{{said}}}; }})();\n"


def _accepted(checklist: str) -> Iterator[str]:
    """What each line accepts, in the order of the page, as a script reads it there."""
    return (html.unescape(" ".join(match[2].split())) for match in LINE.finditer(checklist))


def _titles(steps: str) -> Iterator[str]:
    return (html.unescape(" ".join(match[1].split())) for match in TITLE.finditer(steps))


def _columns(rows: tuple[Any, ...]) -> dict[str, bool]:
    """The names of a table's values; true for those that are texts in every row."""
    names = [one.name for one in fields(rows[0])] if rows else []
    return {name: all(isinstance(getattr(row, name), str) for row in rows) for name in names}


def _texts(whole: dict[str, Any]) -> Iterator[str]:
    for rows in (whole[name] for name in TABLES):
        for name, pooled in _columns(rows).items():
            yield from (_short(name, getattr(row, name)) for row in rows if pooled)


def _short(name: str, value: str) -> str:
    """The way to a step is its anchor alone, since all stands in one file."""
    return f"#{value.partition('#')[2]}" if name == "page" and "#" in value else value


def _table(rows: tuple[Any, ...], texts: dict[str, int]) -> str:
    columns = _columns(rows)
    lines = ",".join(f"[{','.join(_cells(row, before, columns, texts))}]" for row, before in zip(rows, (None, *rows)))
    return f"rows({script_text(list(columns))},{script_text([int(one) for one in columns.values()])},[{lines}])"


def _cells(row: Any, before: Any, columns: dict[str, bool], texts: dict[str, int]) -> Iterator[str]:
    for name, pooled in columns.items():
        value = getattr(row, name)
        if pooled:
            yield "" if before and value == getattr(before, name) else str(texts[_short(name, value)])
        else:
            yield "" if value is None else script_text(value)


def _plain(value: Any) -> Any:
    return asdict(value) if is_dataclass(value) else value
