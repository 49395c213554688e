"""Where in a file's text does each key begin, and where does what stands under it end, with the comments that belong to it?"""
import re
from collections.abc import Iterator
from dataclasses import dataclass

import yaml

from generator.intake.migrations import Way
from generator.intake.yaml_tree import LOADER

BREAK = re.compile(r"\r\n|\r|\n")
COMMENT_LINE = re.compile(r"[ \t]*#")
AFTER_VALUE = re.compile(r"[ \t]*(#.*)?")
AFTER_IN_BRACES = re.compile(r"[ \t]*,?[ \t]*(#.*)?")


# From where to where in a text, and what stands there then.
Edit = tuple[int, int, str]


class Unsafe(Exception):
    """A place cannot be edited without harm; says why and what to write instead. `at` is
    the place of a value, where that and not the step's key is meant."""

    def __init__(self, says: str, do: str, at: Way | None = None):
        self.says, self.do, self.at = says, do, at
        super().__init__(says)


@dataclass(frozen=True)
class Spot:
    """A key, its value, and the group and turn in which they stand."""

    key: yaml.Node
    value: yaml.Node
    group: yaml.MappingNode
    turn: int

    @property
    def start(self) -> int:
        """Where the key begins."""
        return self.key.start_mark.index

    @property
    def following(self) -> yaml.Node | None:
        """The next key of the group."""
        return self.group.value[self.turn + 1][0] if self.turn + 1 < len(self.group.value) else None

    @property
    def alone(self) -> bool:
        """Whether the group holds nothing else."""
        return len(self.group.value) == 1


class Layout:
    """A file's text with the places of what stands in it. Raises Unsafe if an edit has made it unreadable."""

    def __init__(self, text: str):
        self.text = text
        try:
            self.root = yaml.compose(text, Loader=LOADER)
        except yaml.MarkedYAMLError as error:
            raise Unsafe("this cannot be changed without harm to what stands round it.",
                         "Put it on a line of its own, in plain style, then migrate again.") from error

    def node(self, way: Way) -> yaml.Node | None:
        """What stands at a way; None if nothing does."""
        node = self.root
        for name in way:
            if isinstance(node, yaml.SequenceNode):
                node = node.value[name]
            elif isinstance(node, yaml.MappingNode):
                node = next((value for key, value in node.value if key.value == name), None)
            else:
                return None
        return node

    def spot(self, way: Way) -> Spot:
        """The key at a way that is there."""
        group = self.node(way[:-1])
        turn, (key, value) = next((turn, pair) for turn, pair in enumerate(group.value) if pair[0].value == way[-1])
        return Spot(key, value, group, turn)

    def end_of(self, node: yaml.Node) -> int:
        """Where the last character of a value stands, the line break after it not counted."""
        if isinstance(node, yaml.CollectionNode) and not node.flow_style and node.value:
            last = node.value[-1]
            return self.end_of(last[1] if isinstance(last, tuple) else last)
        start, end = node.start_mark.index, node.end_mark.index
        if isinstance(node, yaml.ScalarNode) and node.style in ("|", ">"):
            written = self.text[start:end]
            keeps = "+" in BREAK.split(written, maxsplit=1)[0].partition("#")[0]
            return start + len(re.sub(r"(\r\n|\r|\n)\Z", "", written) if keeps else written.rstrip("\r\n"))
        return end

    def line_start(self, at: int) -> int:
        """Where the line begins in which a character stands."""
        feed = self.text.rfind("\n", 0, at)
        return max(feed, self.text.rfind("\r", feed + 1, at)) + 1

    def line_end(self, at: int) -> int:
        """Where the next line begins."""
        found = BREAK.search(self.text, at)
        return found.end() if found else len(self.text)

    def line(self, at: int) -> str:
        """The line in which a character stands, from there to its end, without its break."""
        return BREAK.split(self.text[at:self.line_end(at)])[0]

    def before(self, spot: Spot) -> str:
        """What stands in the key's line before it."""
        return self.text[self.line_start(spot.start):spot.start]

    def column(self, spot: Spot) -> int:
        """How far the key is indented."""
        return len(self.before(spot))

    def above(self, spot: Spot, same_column: bool = True) -> int:
        """Where the comments begin that stand right above a key and as far in; the start of its own line if there are none."""
        start = self.line_start(spot.start)
        # Nothing above the value before is a comment of this key; above a group's first key stands only what opens the group.
        floor = self.line_end(self.end_of(spot.group.value[spot.turn - 1][1])) if spot.turn else 0
        while start > floor:
            before = self.line_start(start - (2 if self.text.startswith("\r\n", start - 2) else 1))
            line = self.line(before)
            if not COMMENT_LINE.match(line) or same_column and line.index("#") != self.column(spot):
                break
            start = before
        return start

    def below(self, spot: Spot) -> int:
        """Where the last line ends that belongs to a key: of its value, or of the comments under it that are further in."""
        end = self.line_end(self.end_of(spot.value))
        at = end
        while at < len(self.text):
            line = self.line(at)
            if COMMENT_LINE.match(line) and line.index("#") > self.column(spot):
                end = self.line_end(at)
            elif line.strip():
                break
            at = self.line_end(at)
        return end


def edited(text: str, edits: list[Edit]) -> str | None:
    """The text with all edits made at once; None if two of them concern the same place."""
    out, at = [], 0
    for start, end, new in sorted(edits, key=lambda one: one[:2]):
        if start < at:
            return None
        out += [text[at:start], new]
        at = end
    return "".join([*out, text[at:]])


def comments(text: str) -> list[str]:
    """Every comment between the tokens of a text, in the order of the alphabet."""
    return sorted(_comments(text))


def _comments(text: str) -> Iterator[str]:
    at = 0
    for token in yaml.scan(text, Loader=LOADER):
        yield from (line[line.index("#"):].strip() for line in BREAK.split(text[at:token.start_mark.index]) if "#" in line)
        at = max(at, token.end_mark.index)
    yield from (line[line.index("#"):].strip() for line in BREAK.split(text[at:]) if "#" in line)
