"""What a document is made of: fields that are given, blanks that are named, tables, and room to write.

A field is either given or blank, and a blank says why and whom to ask. Whoever counts what is filled and what is not reads
these, so that there is no second list of it.
"""
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from generator.terms.show import count, day

ON_THE_DAY = "to be written on the day"
UNSIGNED = "not accepted: nobody has signed"


@dataclass(frozen=True)
class Entry:
    """One field: `value`, or where there is none `blank`, which says why and whom to ask."""

    name: str
    value: str
    blank: str = ""


@dataclass(frozen=True)
class Cell:
    """One cell of a table under the column `name`: `value`, or `blank` in words, or neither, which is room to write."""

    name: str
    value: str
    blank: str = ""


@dataclass(frozen=True)
class Line:
    """One row of a table: what it is about, and its cells."""

    head: str
    cells: tuple[Cell, ...]


@dataclass(frozen=True)
class Table:
    """A table. `first` is the column of the rows' heads; `to_write` says that it is there to be written on."""

    caption: str
    first: str
    columns: tuple[str, ...]
    rows: tuple[Line, ...]
    to_write: bool = False


@dataclass(frozen=True)
class Section:
    """A part of a document: a sentence, fields, a table, sentences in a row; each may be missing."""

    id: str
    title: str
    note: str = ""
    entries: tuple[Entry, ...] = ()
    table: Table | None = None
    lines: tuple[str, ...] = ()


@dataclass(frozen=True)
class Filled:
    """How far a document is: what is given and what is blank, each named as its page names it."""

    given: tuple[str, ...]
    blank: tuple[str, ...]


def given(name: str, value: str | None, ask: str) -> Entry:
    """A field that somebody can be asked for: `ask` is whom, for example "the customer"."""
    return Entry(name, value) if value else Entry(name, "", f"not given yet: ask {ask}")


def later(name: str, why: str = ON_THE_DAY) -> Entry:
    """A field that nobody can fill before its time."""
    return Entry(name, "", why)


def yes_no(value: bool | None) -> str:
    """Yes, no, or "" for what is not known."""
    return "" if value is None else "yes" if value else "no"


def day_or_none(value) -> str:
    """A date as people read it, "" for none."""
    return day(value) if value else ""


def table(caption: str, first: str, columns: Sequence[str], rows: Iterable[Sequence[str]], blank: str = "not given yet") -> Table:
    """A table of what is known. Each row begins with its head; an empty cell is a blank and says so."""
    return Table(caption, first, tuple(columns), tuple(
        Line(row[0], tuple(Cell(name, value, "" if value else blank) for name, value in zip(columns, row[1:], strict=True)))
        for row in rows))


def to_write(caption: str, first: str, columns: Sequence[str], heads: Iterable[str]) -> Table:
    """A table to be written on: its rows have heads and nothing else."""
    return Table(caption, first, tuple(columns), tuple(Line(head, tuple(Cell(name, "") for name in columns)) for head in heads), True)


def numbered(count_: int) -> Iterator[str]:
    """Heads of rows that are only counted."""
    return map(str, range(1, count_ + 1))


def filled(sections: Iterable[Section]) -> Filled:
    """What is given in sections and what is blank. Of a column it is said how many of its cells are."""
    has: list[str] = []
    lacks: list[str] = []
    for section in sections:
        for one in section.entries:
            (lacks if one.blank else has).append(f"{section.title}: {one.name}")
        for name, there, every in _columns(section.table):
            where = f"{section.title}: {name}"
            if there:
                has.append(where if there == every else f"{where} ({there} of {every})")
            if there < every:
                lacks.append(f"{where} ({every - there} of {every})" if there else where)
    return Filled(tuple(has), tuple(lacks))


def _columns(made: Table | None) -> Iterator[tuple[str, int, int]]:
    """Each column of a table, with the number of its cells that are given and the number of all."""
    if made is None or not made.rows:
        return
    for index, name in enumerate(made.columns):
        yield name, sum(bool(row.cells[index].value) for row in made.rows), len(made.rows)


def filled_in_words(one: Filled) -> str:
    """How far a document is, in a line."""
    return f"{count(len(one.given), 'field')} given, {len(one.blank)} blank"
