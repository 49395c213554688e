"""YAML read as text: every value stays the characters that were written, and remembers where it stands.

Plain loading turns 00412 into an octal, 22:30 into 1350 and no into false; those are serials, clock times and answers.
So nothing is guessed here: what a value means is decided by the field that owns it.
"""
import os
import stat
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import yaml

from generator.terms.problem import Problem

LARGEST_FILE = 1_000_000
DEEPEST = 40
LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
# A plain `~` or `null` is what YAML writers put for "nothing"; in quotes it is text.
NOTHING = ("", "~", "null", "Null", "NULL")

Place = tuple[int, int]
Path_ = tuple[str | int, ...]


@dataclass
class Tree:
    """A file's content as dicts, lists, texts and None, with the line and column of every value and every key."""

    file: str
    data: Any = None
    values: dict[Path_, Place] = field(default_factory=dict)
    keys: dict[Path_, Place] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)

    def place(self, path: Path_, key: bool = False) -> Place:
        """Line and column of a value, or of its key; of the nearest group round it if it is not there."""
        marks = self.keys if key else self.values
        for length in range(len(path), -1, -1):
            found = marks.get(path[:length]) or self.values.get(path[:length])
            if found:
                return found
        return (1, 1)

    def problem(self, path: Path_, says: str, do: str, key: bool = False) -> Problem:
        """A problem at a place of this file."""
        line, column = self.place(path, key)
        return Problem(self.file, line, column, ".".join(str(part) for part in path), says, do)


def read_tree(path: Path, shown_as: str) -> Tree:
    """Reads a file. What is wrong with it as YAML is among the tree's problems; `data` is None if nothing could be read."""
    tree = Tree(shown_as)
    text = _text_of(path, tree)
    if text is None:
        return tree
    try:
        _Builder(tree).build(yaml.parse(text, Loader=LOADER))
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        line, column = (mark.line + 1, mark.column + 1) if mark else (1, 1)
        tree.problems.append(Problem(shown_as, line, column, "", f"this line cannot be read: {error.problem}.",
                                     "Look at indents, colons and quotes here and on the line above."))
    except yaml.YAMLError as error:
        tree.problems.append(Problem(shown_as, 1, 1, "", f"this file cannot be read: {' '.join(str(error).split())[:120]}.",
                                     "Save it as plain text in UTF-8."))
    except _Stop:
        pass
    return tree


def _text_of(path: Path, tree: Tree) -> str | None:
    def no(says: str, do: str, line: int = 0) -> None:
        tree.problems.append(Problem(tree.file, line, 1 if line else 0, "", says, do))

    try:
        # Not blocking: a fifo would wait for a writer that never comes.
        with open(os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0)), "rb") as handle:
            if not stat.S_ISREG(os.fstat(handle.fileno()).st_mode):
                return no("this is not a file.", "Name a text file.")
            raw = handle.read(LARGEST_FILE + 1)
    except FileNotFoundError:
        return no("there is no such file.", "Check the name, or start one with `doorpost new`.")
    except OSError as error:
        return no(f"this file cannot be opened ({error.strerror}).", "Check its name and who may read it.")
    if len(raw) > LARGEST_FILE:
        return no("this file is larger than 1 MB.", "A job file is a few hundred lines; split off what is not part of it.")
    if raw[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return no("this file is saved as UTF-16.", "Save it as UTF-8.")
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        return no("there is a character here that is not UTF-8.", "Save the file as UTF-8.", line)
    if "\x00" in text:
        return no("this file holds a zero byte.", "Save it as plain text in UTF-8.", text.count("\n", 0, text.index("\x00")) + 1)
    return text


class _Stop(Exception):
    """Reading ends here; the reason is among the problems."""


class _Builder:
    """Turns the parser's events into a tree, once, without following aliases."""

    def __init__(self, tree: Tree):
        self.tree = tree

    def build(self, events: Any) -> None:
        self.events = iter(events)
        documents = 0
        for event in self.events:
            if isinstance(event, yaml.DocumentStartEvent):
                documents += 1
                if documents > 1:
                    self._stop(event, "a second document starts here.", "Write one job a file; take out the line ---.")
            elif isinstance(event, (yaml.ScalarEvent, yaml.MappingStartEvent, yaml.SequenceStartEvent, yaml.AliasEvent)):
                self.tree.data = self._value(event, ())

    def _stop(self, event: Any, says: str, do: str) -> None:
        mark = event.start_mark
        self.tree.problems.append(Problem(self.tree.file, mark.line + 1, mark.column + 1, "", says, do))
        raise _Stop

    def _value(self, event: Any, path: Path_) -> Any:
        self.tree.values[path] = (event.start_mark.line + 1, event.start_mark.column + 1)
        if isinstance(event, yaml.AliasEvent):
            self._stop(event, f'"*{event.anchor}" refers to another place of the file.', "Write the value out here.")
        if event.anchor:
            self._stop(event, f'"&{event.anchor}" gives this place a name.', "Take the mark out; nothing can refer to it.")
        if event.tag and event.tag != "!":
            self._stop(event, f'"{event.tag}" asks for a special kind of value.', "Take the mark out; write the value alone.")
        if len(path) > DEEPEST:
            self._stop(event, f"this is more than {DEEPEST} levels deep.", "Look at the indents and brackets.")
        if isinstance(event, yaml.ScalarEvent):
            return None if event.implicit[0] and event.value in NOTHING else event.value
        if isinstance(event, yaml.SequenceStartEvent):
            return self._sequence(path)
        return self._mapping(path)

    def _sequence(self, path: Path_) -> list[Any]:
        out: list[Any] = []
        while not isinstance(event := next(self.events), yaml.SequenceEndEvent):
            out.append(self._value(event, (*path, len(out))))
        return out

    def _mapping(self, path: Path_) -> dict[str, Any]:
        out: dict[str, Any] = {}
        while not isinstance(event := next(self.events), yaml.MappingEndEvent):
            if not isinstance(event, yaml.ScalarEvent) or event.anchor or (event.tag and event.tag != "!"):
                self._stop(event, "a key must be a plain word.", "Write a key, a colon and its value.")
            here = (*path, event.value)
            place = (event.start_mark.line + 1, event.start_mark.column + 1)
            if event.value in out:
                self.tree.problems.append(Problem(
                    self.tree.file, *place, ".".join(map(str, here)),
                    f'"{event.value}" stands twice; first in line {self.tree.keys[here][0]}.', "Keep one of the two."))
                kept = {marks: dict(marks_of) for marks, marks_of in (("v", self.tree.values), ("k", self.tree.keys))}
                self._value(next(self.events), here)
                self.tree.values, self.tree.keys = kept["v"], kept["k"]
                continue
            self.tree.keys[here] = place
            out[event.value] = self._value(next(self.events), here)
        return out
