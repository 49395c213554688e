"""issued.yaml as text: the same revisions give the same characters, readable, and closed by its checksum."""
import json
import re
from collections.abc import Iterator
from datetime import date
from typing import Any

from generator.pipeline import Compiled
from generator.terms.seal import check_line

HEAD = """\
# Written by `doorpost issue`; do not edit. It holds every revision that was issued: the numbers that are frozen, the numbers
# that rest, and hashes of what each page, label and line of the monitoring sheet says. Keep it with job.yaml. A change by
# hand is refused; numbers are changed in job.yaml.
"""
PLAIN = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]*")
# Read as "nothing" where it stands without quotes.
NOTHING = ("null", "Null", "NULL")
# Line breaks for a reader of YAML that JSON leaves as they are.
BREAKS = {ord(letter): f"\\u{ord(letter):04x}" for letter in "\x85\u2028\u2029\ufeff"}


def issued_text(job: Compiled) -> str:
    """The file of a job with all its revisions."""
    data = job.issued.model_dump(exclude={"check"}, exclude_none=True)
    above = HEAD + "".join(f"{line}\n" for line in _lines(data, ""))
    return above + check_line(above)


def _lines(data: dict[Any, Any], indent: str) -> Iterator[str]:
    for key, value in data.items():
        if isinstance(value, dict) and value:
            yield f"{indent}{_scalar(key)}:"
            yield from _lines(value, f"{indent}  ")
        elif isinstance(value, list) and value:
            yield f"{indent}{_scalar(key)}:"
            yield from _entries(value, f"{indent}  ")
        else:
            yield f"{indent}{_scalar(key)}: {_scalar(value)}"


def _entries(values: list[dict[str, Any]], indent: str) -> Iterator[str]:
    """One line for an entry that holds single values only; else one line for each of its keys."""
    for one in values:
        if any(isinstance(value, (dict, list)) for value in one.values()):
            first, *rest = _lines(one, "")
            yield f"{indent}- {first}"
            yield from (f"{indent}  {line}" for line in rest)
        else:
            yield f"{indent}- {{{', '.join(f'{_scalar(key)}: {_scalar(value)}' for key, value in one.items())}}}"


def _scalar(value: Any) -> str:
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, (int, dict, list)):
        return str(value)
    if PLAIN.fullmatch(value) and value not in NOTHING:
        return value
    return json.dumps(value, ensure_ascii=False).translate(BREAKS)
