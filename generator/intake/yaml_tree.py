"""YAML read as text: every value stays the characters that were written, and remembers where it stands.

Plain loading turns 00412 into an octal, 22:30 into 1350 and no into false; those are serials, clock times and answers.
So nothing is guessed here: what a value means is decided by the field that owns it.
"""
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import yaml

from generator.intake.secret_words import secret_lines
from generator.intake.text_file import LARGEST_FILE, read_text
from generator.intake.yaml_words import DEEPEST, TOO_DEEP, Complaint, Place, answer
from generator.model.fields import shown
from generator.terms.problem import Problem

# A job of a large house has some thousands of values, a block of forty flats with a plan 30,000; past 40,000 in a megabyte a file is no
# job, and would take minutes and gigabytes to answer.
BYTES_A_VALUE = 25
# Past this many, more answers help nobody, and a file of nonsense would take minutes to answer.
MOST_PROBLEMS = 100
LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
# A plain `~` or `null` is what YAML writers put for "nothing"; in quotes it is text.
NOTHING = ("", "~", "null", "Null", "NULL")

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
    # What stands under a key that was there already: passed over, and still searched for secrets.
    second: list[tuple[Path_, Place, Any]] = field(default_factory=list)
    _secret_lines: frozenset[int] | None = None

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
        """A problem at a line and column of this file, with that line as it is written unless a secret seems to stand in it."""
        line, column = place
        if self._secret_lines is None:
            self._secret_lines = secret_lines(self.lines)
        written = self.lines[line - 1] if 0 < line <= len(self.lines) and line not in self._secret_lines else ""
        return Problem(self.file, line, column, dotted(path), says, do, written)


def dotted(path: Path_) -> str:
    """A path as messages show it: parts of a sane length, joined with points."""
    return ".".join(shown(str(part)).strip('"') for part in path)


def read_tree(path: Path, shown_as: str, largest: int = LARGEST_FILE) -> Tree:
    """Reads a file. What is wrong with it as YAML is among the tree's problems; `data` is None if nothing could be read."""
    file = read_text(path, shown_as, largest)
    return Tree(shown_as, problems=[file.problem]) if file.text is None else tree_of(file.text, shown_as, largest // BYTES_A_VALUE)


def tree_of(text: str, shown_as: str, most: int = LARGEST_FILE // BYTES_A_VALUE) -> Tree:
    """The tree of a file's text, whose lines end in \\n; past `most` values reading ends."""
    tree = Tree(shown_as, lines=text.split("\n"))
    try:
        _Builder(tree, most).build(yaml.parse(text, Loader=LOADER))
    except yaml.MarkedYAMLError as error:
        _complain(tree, error)
    except yaml.YAMLError:
        tree.problems.append(tree.problem_at((1, 1), (), "this file cannot be read as YAML.", "Save it as plain text in UTF-8."))
    except _Stop:
        pass
    return tree


def _complain(tree: Tree, error: yaml.MarkedYAMLError) -> None:
    """Answers what the parser stopped at; what was read before it counts for nothing."""
    began, place = _marked(error.context_mark), _marked(error.problem_mark) or _marked(error.context_mark) or (1, 1)
    where, says, do = answer(Complaint(error.context or "", began, error.problem or "", place, tree.lines))
    tree.data = None
    tree.problems.append(tree.problem_at(where, (), says, do))


def _marked(mark: Any) -> Place | None:
    return (mark.line + 1, mark.column + 1) if mark else None


class _Stop(Exception):
    """Reading ends here; the reason is among the problems."""


class _Builder:
    """Turns the parser's events into a tree, once, without following aliases."""

    def __init__(self, tree: Tree, most: int):
        self.tree, self.most = tree, most
        self.muted = 0
        self.values = 0

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
        self.values += 1
        if self.values > self.most:
            self._stop(event, f"more than {self.most} values stand in this file.", "Split off what is not part of it.")
        if not self.muted:
            self.tree.values[path] = _place(event)
        if isinstance(event, yaml.AliasEvent):
            self._stop(event, f'{shown("*" + event.anchor)} refers to another place of the file.', "Write the value out here.")
        if event.anchor:
            self._stop(event, f'{shown("&" + event.anchor)} gives this place a name.', "Take the mark out; nothing can refer to it.")
        if event.tag and event.tag != "!":
            self._stop(event, f'{shown(event.tag)} asks for a special kind of value.', "Take the mark out; write the value alone.")
        if len(path) > DEEPEST:
            self._stop(event, *TOO_DEEP)
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
        if len(self.tree.problems) >= MOST_PROBLEMS:
            self._stop(event, f"more than {MOST_PROBLEMS} keys stand twice in this file.", "Mend those above first, then check again.")
        if not self.muted:
            self.tree.problems.append(self.tree.problem_at(
                _place(event), here, f"{shown(event.value)} stands twice; first in line {self.tree.keys[here][0]}.",
                "Keep one of the two."))
        self.muted += 1
        self.tree.second.append((here, _place(event), self._value(next(self.events), here)))
        self.muted -= 1


def _place(event: Any) -> Place:
    return (event.start_mark.line + 1, event.start_mark.column + 1)
