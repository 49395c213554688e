"""YAML read as text: every value stays the characters that were written, and remembers where it stands.

Plain loading turns 00412 into an octal, 22:30 into 1350 and no into false; those are serials, clock times and answers.
So nothing is guessed here: what a value means is decided by the field that owns it.
"""
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import yaml

from generator.intake.text_file import LARGEST_FILE, read_text
from generator.terms.problem import Problem

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
    lines: list[str] = field(default_factory=list)
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
        return self.problem_at(self.place(path, key), path, says, do)

    def problem_at(self, place: Place, path: Path_, says: str, do: str) -> Problem:
        """A problem at a line and column of this file, with that line as it is written."""
        line, column = place
        written = self.lines[line - 1] if 0 < line <= len(self.lines) else ""
        return Problem(self.file, line, column, ".".join(str(part) for part in path), says, do, written)


def read_tree(path: Path, shown_as: str, largest: int = LARGEST_FILE) -> Tree:
    """Reads a file. What is wrong with it as YAML is among the tree's problems; `data` is None if nothing could be read."""
    file = read_text(path, shown_as, largest)
    return Tree(shown_as, problems=[file.problem]) if file.text is None else tree_of(file.text, shown_as)


def tree_of(text: str, shown_as: str) -> Tree:
    """The tree of a file's text, whose lines end in \\n."""
    tree = Tree(shown_as, lines=text.split("\n"))
    try:
        _Builder(tree).build(yaml.parse(text, Loader=LOADER))
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        place = (mark.line + 1, mark.column + 1) if mark else (1, 1)
        tree.problems.append(tree.problem_at(place, (), *_in_words(str(error.problem))))
    except yaml.reader.ReaderError as error:
        line = text.count("\n", 0, error.position) + 1
        tree.problems.append(tree.problem_at((line, 1), (), "there is a character here that cannot be shown.", "Take it out."))
    except _Stop:
        pass
    return tree


def _in_words(problem: str) -> tuple[str, str]:
    """What the parser found, as an office would say it, and what to write instead."""
    if "mapping values are not allowed" in problem:
        return "a second colon stands in this line.", 'Put the whole text in quotes, for example "Keypad: left of the door".'
    if "cannot start any token" in problem:
        return "a value starts with a character that it may not start with, or a tab stands here.", "Use blanks for indents, and quotes."
    return f"this line cannot be read: {problem}.", "Look at indents, colons and quotes here and on the line above."


class _Stop(Exception):
    """Reading ends here; the reason is among the problems."""


class _Builder:
    """Turns the parser's events into a tree, once, without following aliases."""

    def __init__(self, tree: Tree):
        self.tree = tree
        self.muted = 0

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
        self.tree.problems.append(self.tree.problem_at(_place(event), (), says, do))
        raise _Stop

    def _value(self, event: Any, path: Path_) -> Any:
        if not self.muted:
            self.tree.values[path] = _place(event)
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
            if event.value in out:
                self._twice(event, here)
                continue
            if not self.muted:
                self.tree.keys[here] = _place(event)
            out[event.value] = self._value(next(self.events), here)
        return out

    def _twice(self, event: Any, here: Path_) -> None:
        """A key that is there already: answered with both places; what stands under it is passed over."""
        if not self.muted:
            self.tree.problems.append(self.tree.problem_at(
                _place(event), here, f'"{event.value}" stands twice; first in line {self.tree.keys[here][0]}.',
                "Keep one of the two."))
        self.muted += 1
        self._value(next(self.events), here)
        self.muted -= 1


def _place(event: Any) -> Place:
    return (event.start_mark.line + 1, event.start_mark.column + 1)
