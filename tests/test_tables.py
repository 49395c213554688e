"""Is what goes into CSV and JSON the same for every program that reads it, and a formula for none?"""
import csv
import io
import json
from dataclasses import dataclass
from typing import ClassVar

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.publish.tables import FORMULA_STARTS, cell, csv_text, json_text


@dataclass(frozen=True)
class Row:
    """A row of a table."""

    zone: int
    text: str


@dataclass(frozen=True)
class View:
    """A view of which a part only lays out the page."""

    rows: tuple[Row, ...]
    contents: tuple[str, ...]
    only_printed: ClassVar[tuple[str, ...]] = ("contents",)


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t", "\r", "\n", "\uff1d", "\uff0b", "\uff0d", "\uff20"])
def test_a_cell_that_a_spreadsheet_would_work_out_is_text(start: str) -> None:
    # The marks: OWASP, CSV injection (from memory): = + - @, tab, carriage return, line feed, and their full-width forms.
    assert cell(f"{start}1+1") == f"'{start}1+1" and start in FORMULA_STARTS


@given(st.lists(st.text(st.characters(exclude_categories=("Cs",), exclude_characters="\0")), min_size=1, max_size=4))
def test_a_table_is_read_back_by_another_reader_as_it_was_but_for_the_apostrophe(texts: list[str]) -> None:
    made = csv_text([Row(index, text) for index, text in enumerate(texts)])
    read = list(csv.reader(io.StringIO(made, newline=""), strict=True))
    assert read == [["zone", "text"], *([str(index), cell(text)] for index, text in enumerate(texts))]
    assert not any(one.startswith(FORMULA_STARTS) for row in read for one in row)


def test_lines_of_a_table_end_as_rfc_4180_asks() -> None:
    # RFC 4180, 2: records are ended by CR LF; a field with a quote, a comma or a line break stands in quotes (from memory).
    assert csv_text([Row(1, 'HALL, "BACK"')]) == 'zone,text\r\n1,"HALL, ""BACK"""\r\n'


def test_data_holds_its_format_and_not_what_only_lays_out_the_page() -> None:
    data = json.loads(json_text(View((Row(1, "DÖR </script>"),), ("Zones",))))
    assert data == {"format": 2, "rows": [{"zone": 1, "text": "DÖR </script>"}]}
