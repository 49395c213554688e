"""Views as CSV and JSON, each with its one way of escaping."""
import csv
import io
import json
from collections.abc import Sequence
from dataclasses import asdict, fields
from typing import Any

# A spreadsheet takes a cell that begins with one of these as a formula; some take the wide letters of East Asian type for the narrow ones.
FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n", "\uff1d", "\uff0b", "\uff0d", "\uff20")
FORMAT = 2


def cell(value: Any) -> str:
    """A value as the text of a spreadsheet's cell, never as a formula: an apostrophe before it makes it text."""
    text = str(value)
    return f"'{text}" if text.startswith(FORMULA_STARTS) else text


def csv_text(rows: Sequence[Any]) -> str:
    """Rows of one kind as CSV (RFC 4180): a line of names, then a line each, lines ended by CR LF."""
    out = io.StringIO()
    writer = csv.writer(out)
    if rows:
        writer.writerow([field.name for field in fields(rows[0])])
    writer.writerows([cell(getattr(row, field.name)) for field in fields(row)] for row in rows)
    return out.getvalue()


def json_text(view: Any) -> str:
    """A view as JSON with the number of its format, without what only lays out its page."""
    data = {name: value for name, value in asdict(view).items() if name not in getattr(view, "only_printed", ())}
    # A reader who is not told what was checked gets no empty key for it.
    if not data.get("stamp", {}).get("checked_against", True):
        del data["stamp"]["checked_against"]
    return json.dumps({"format": FORMAT, **data}, ensure_ascii=False, indent=1) + "\n"
