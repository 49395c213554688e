"""How does a file of an earlier format become one of the current format, with its comments, order, quotes and line ends?

Only the places that a step names are edited in the text. After each edit the text is read again, and must say what the same step
gives as plain data and hold every comment that it held; else the edit is not made and its line is answered.
"""
import copy
from dataclasses import dataclass, field
from decimal import Context, Decimal
from fractions import Fraction
from typing import Any, Protocol

import yaml

from generator.intake import steps_on_data
from generator.intake.formats import chain, number_at, roots
from generator.intake.migrations import Convert, Drop, Move, Rename, Step, Way, filled, places
from generator.intake.moving import dropped, moved
from generator.intake.steps_on_data import at as value_at
from generator.intake.steps_on_data import same
from generator.intake.yaml_places import BREAK, Edit, Layout, Unsafe, comments, edited
from generator.intake.yaml_tree import Tree, tree_of
from generator.model import forms
from generator.model.fields import shown
from generator.terms.problem import Problem

# More digits than any number of a file has: what does not end within them has more than a file can give.
EXACT = Context(prec=60)


@dataclass
class Draft:
    """A file on its way to the current format: its text, what that says, and what could not be done."""

    tree: Tree
    text: str
    data: Any
    problems: list[Problem] = field(default_factory=list)
    # What was renamed or moved, from where to where: a problem is answered at the line of the file as it was written.
    ways: list[tuple[Way, Way]] = field(default_factory=list)
    failed: list[Way] = field(default_factory=list)

    def problem(self, way: Way, says: str, do: str, value: bool = False) -> None:
        """Notes what cannot be done with a key of the draft, or with its value."""
        self.failed.append(way)
        for old, new in reversed(self.ways):
            if way[:len(new)] == new:
                way = old + way[len(new):]
        self.problems.append(self.tree.problem(way, says, do, key=not value))

    def take(self, step: "_Step", ways: list[Way]) -> None:
        """Does a step at places of the draft. What would not read as it should is tried in halves, so that one place is answered."""
        layout, data = Layout(self.text), copy.deepcopy(self.data)
        edits: list[Edit] = []
        done: list[tuple[Way, Way]] = []
        for way in ways:
            try:
                edits += step.edits(layout, way)
            except Unsafe as unsafe:
                self.problem(unsafe.at or way, unsafe.says, unsafe.do, value=unsafe.at is not None)
                continue
            done.append((way, step.on_data(data, way)))
        text = edited(self.text, edits)
        if text is not None and _says(text, data) and comments(text) == comments(self.text):
            self.text, self.data = text, data
            self.ways += done
        elif len(done) > 1:
            middle = len(done) // 2
            for half in (done[:middle], done[middle:]):
                self.take(step, [way for way, _ in half])
        else:
            self.problem(done[0][0], "this cannot be changed without harm to what stands round it.",
                         "Put it on a line of its own, in plain style, then migrate again.")


def current(tree: Tree, kind: str, text: str) -> Draft:
    """The draft of a file that could be read, taken to the current format as far as that is possible."""
    draft = Draft(tree, text, tree.data)
    for one, at in roots(kind, tree.data):
        number = number_at(tree.data, at)
        steps = chain(one, number)
        for step in (step for group in steps for step in group):
            _do(draft, step, at)
        if steps:
            draft.take(_Format(str(number + len(steps))), [(*at, "format")])
    return draft


def _do(draft: Draft, step: Step, at: Way) -> None:
    ways = [(*at, *place) for place in places(value_at(draft.data, at), step.way)]
    # What is wrong inside a place is answered already; that this step cannot be taken there follows from it.
    ways = [way for way in ways if not any(one[:len(way)] == way for one in draft.failed)]
    if ways:
        draft.take(_DO[type(step)](step, at), ways)


def _says(text: str, data: Any) -> bool:
    tree = tree_of("\n".join(BREAK.split(text)), "")
    return not tree.problems and same(tree.data, data)


class _Step(Protocol):
    """How a declared step is done at one place: `edits` in the text, `on_data` in the data, which gives where it is then."""

    def edits(self, layout: Layout, way: Way) -> list[Edit]: ...

    def on_data(self, data: Any, way: Way) -> Way: ...


@dataclass(frozen=True)
class _Rename:
    step: Rename | Convert
    at: Way

    def edits(self, layout: Layout, way: Way) -> list[Edit]:
        if layout.node((*way[:-1], self.step.to)) is not None:
            raise Unsafe(f'this is called "{self.step.to}" now, and a key of that name stands in its group.',
                         "Keep one of the two, then migrate again.")
        return [_rewritten(layout, layout.spot(way).key, self.step.to)]

    def on_data(self, data: Any, way: Way) -> Way:
        steps_on_data.rename(data, way, self.step.to)
        return *way[:-1], self.step.to


@dataclass(frozen=True)
class _Convert(_Rename):
    def edits(self, layout: Layout, way: Way) -> list[Edit]:
        node = layout.node(way)
        each = [((*way, turn), one) for turn, one in enumerate(node.value)] if isinstance(node, yaml.SequenceNode) else [(way, node)]
        return super().edits(layout, way) + [_converted(layout, one, where, self.step.times) for where, one in each]

    def on_data(self, data: Any, way: Way) -> Way:
        steps_on_data.give(data, way, steps_on_data.times(value_at(data, way), self.step.times))
        return super().on_data(data, way)


@dataclass(frozen=True)
class _Move:
    step: Move
    at: Way

    def _group(self, way: Way) -> Way:
        return (*self.at, *filled(self.step.group, self.step.way, way[len(self.at):]))

    def edits(self, layout: Layout, way: Way) -> list[Edit]:
        return moved(layout, way, self._group(way))

    def on_data(self, data: Any, way: Way) -> Way:
        steps_on_data.move(data, way, self._group(way))
        return *self._group(way), way[-1]


@dataclass(frozen=True)
class _Drop:
    step: Drop
    at: Way

    def edits(self, layout: Layout, way: Way) -> list[Edit]:
        return dropped(layout, way)

    def on_data(self, data: Any, way: Way) -> Way:
        steps_on_data.take_out(data, way)
        return way


@dataclass(frozen=True)
class _Format:
    number: str

    def edits(self, layout: Layout, way: Way) -> list[Edit]:
        return [_rewritten(layout, layout.node(way), self.number)]

    def on_data(self, data: Any, way: Way) -> Way:
        steps_on_data.give(data, way, self.number)
        return way


_DO = {Rename: _Rename, Convert: _Convert, Move: _Move, Drop: _Drop}


def _converted(layout: Layout, node: yaml.Node, way: Way, factor: Fraction) -> Edit:
    if not isinstance(node, yaml.ScalarNode) or not forms.DECIMAL.fits(node.value):
        stands = shown(node.value) if isinstance(node, yaml.ScalarNode) else "a group or a list"
        raise Unsafe(f"{stands} stands here, which is not a plain number and cannot be given in another unit.",
                     "Write digits with a point for decimals, for example 2.4, then migrate again.", way)
    product = EXACT.divide(EXACT.multiply(Decimal(node.value), factor.numerator), factor.denominator)
    written = f"{product.normalize():f}" if product else "0"
    if not forms.DECIMAL.fits(written):
        raise Unsafe(f'"{node.value}" cannot be given in the new unit without rounding.', "Round it here, then migrate again.", way)
    return _rewritten(layout, node, written)


def _rewritten(layout: Layout, node: yaml.Node, new: str) -> Edit:
    """The edit that puts a word in place of another, in the same quotes."""
    start, end = node.start_mark.index, node.end_mark.index
    quote = node.style or ""
    if quote in ("|", ">") or not layout.text.startswith(quote or node.value, start):
        raise Unsafe("this is written in an unusual way.", "Write it on one line, in plain style, then migrate again.")
    return start, end, f"{quote}{new}{quote}"
