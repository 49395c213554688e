"""How is a key with its comments taken out of one group of a file's text and put into another?"""
import os
import re
from dataclasses import dataclass

import yaml

from generator.intake.migrations import Way
from generator.intake.yaml_places import AFTER_IN_BRACES, AFTER_VALUE, BREAK, Edit, Layout, Spot, Unsafe, edited
from generator.intake.yaml_tree import NOTHING

BY_HAND = "Put each key of this group on a line of its own, then migrate again."
IN_BRACES = re.compile(r"[,\[\]{}]")
INDENT = 2


@dataclass(frozen=True)
class Piece:
    """What is moved: its lines from column 0 on without their breaks; and on one line, None if it cannot be written so."""

    lines: tuple[str, ...]
    inline: str | None


def moved(layout: Layout, way: Way, group: Way) -> list[Edit]:
    """The edits that put a key at the end of another group. Raises Unsafe if that would do harm."""
    _refuse_taken(layout, way, group)
    spot = layout.spot(way)
    piece = _piece(layout, spot)
    if spot.alone and layout.node(group) is None and layout.node(_there(layout, group)) is spot.group:
        return _deeper(layout, way, group, piece)
    return [*_with(layout, group, piece), *_without(layout, way)]


def _deeper(layout: Layout, way: Way, group: Way, piece: Piece) -> list[Edit]:
    """The one edit that moves a group's only key into a group inside it: put there first, so that the group is never empty."""
    old = layout.text
    between = Layout(edited(old, _with(layout, group, piece)))
    new = edited(between.text, _without(between, way))
    start = len(os.path.commonprefix([old, new]))
    same = len(os.path.commonprefix([old[start:][::-1], new[start:][::-1]]))
    return [(start, len(old) - same, new[start:len(new) - same])]


def _there(layout: Layout, group: Way) -> Way:
    """As much of a way as is there already."""
    return next(group[:length] for length in range(len(group), -1, -1) if layout.node(group[:length]) is not None)


def _refuse_taken(layout: Layout, way: Way, group: Way) -> None:
    aim = ".".join(map(str, (*group, way[-1])))
    for length in range(len(group) + 1):
        node = layout.node(group[:length])
        line_follows = length < len(group) and isinstance(group[length], int)
        if node is not None and not isinstance(node, yaml.SequenceNode if line_follows else yaml.MappingNode):
            raise Unsafe(f"{aim} is where this now belongs, but {'.'.join(map(str, group[:length]))} is no group of keys.",
                         "Make it one, or take it out, then migrate again.")
    if layout.node((*group, way[-1])) is not None:
        raise Unsafe(f"{aim} is where this now belongs, and something stands there.", "Keep one of the two, then migrate again.")


def _own_lines(layout: Layout, spot: Spot) -> bool:
    """Whether a key in braces has lines to itself."""
    after = layout.line(layout.end_of(spot.value))
    return not layout.before(spot).strip() and AFTER_IN_BRACES.fullmatch(after) is not None


def _piece(layout: Layout, spot: Spot) -> Piece:
    if spot.group.flow_style:
        return _piece_in_braces(layout, spot)
    before, end = layout.before(spot), layout.end_of(spot.value)
    if before.strip(" -") or not AFTER_VALUE.fullmatch(layout.line(end)):
        raise Unsafe("more than this key stands in its line.", BY_HAND)
    start = layout.line_start(spot.start) if before.strip() else layout.above(spot)
    written = BREAK.split(layout.text[start:layout.below(spot)])
    if not written[-1]:
        written.pop()
    if before.strip():
        written[0] = " " * len(before) + layout.line(spot.start)
    lines = tuple(_further_out(line, len(before)) for line in written)
    bare = len(lines) == 1 and "#" not in layout.line(end) and (spot.value.flow_style if isinstance(
        spot.value, yaml.CollectionNode) else spot.value.style not in ("|", ">"))
    return Piece(lines, _in_braces(layout, spot) if bare else None)


def _piece_in_braces(layout: Layout, spot: Spot) -> Piece:
    inline = _pair(layout, spot, _text(layout, spot.value))
    first, *others = BREAK.split(inline)
    lines = (first.rstrip(), *(" " * INDENT + line.lstrip() for line in others))
    if not _own_lines(layout, spot):
        return Piece(lines, inline)
    end = layout.end_of(spot.value)
    above = BREAK.split(layout.text[layout.above(spot, False):layout.line_start(spot.start)])[:-1]
    comment = layout.line(end).strip(" \t,")
    if comment:
        lines = (*lines[:-1], f"{lines[-1]}  {comment}")
    return Piece((*(line.strip() for line in above), *lines), None if above or comment else inline)


def _pair(layout: Layout, spot: Spot, value: str) -> str:
    return f"{_text(layout, spot.key)}: {value}"


def _text(layout: Layout, node: yaml.Node) -> str:
    return layout.text[node.start_mark.index:layout.end_of(node)]


def _in_braces(layout: Layout, spot: Spot) -> str:
    """A key of one line as it must be written between braces: there, commas and brackets need quotes."""
    value = _text(layout, spot.value)
    plain = isinstance(spot.value, yaml.ScalarNode) and not spot.value.style
    return _pair(layout, spot, "'" + value.replace("'", "''") + "'" if plain and IN_BRACES.search(value) else value)


def _further_out(line: str, columns: int) -> str:
    """A line moved to the left, as far as blanks stand there."""
    return line[min(columns, len(line) - len(line.lstrip(" "))):]


def _with(layout: Layout, group: Way, piece: Piece) -> list[Edit]:
    """The edits that put a piece at the end of a group, which is made if it is not there."""
    there = _there(layout, group)
    node, missing = layout.node(there), [str(name) for name in group[len(there):]]
    if not node.flow_style:
        last = Spot(*node.value[-1], node, len(node.value) - 1)
        return [_lines_at(layout, layout.below(last), layout.column(Spot(*node.value[0], node, 0)), missing, piece)]
    if piece.inline is not None:
        return [_with_in_braces(layout, node, missing, piece.inline)]
    opened = _opened(layout, there, node)
    if opened is None:
        raise Unsafe("this goes into a group that is written in braces, which has no room for its lines or comments.",
                     "Write that group with each key on a line of its own, then migrate again.")
    cut, column = opened
    return [cut, _lines_at(layout, layout.line_end(cut[1]), column, missing, piece)]


def _lines_at(layout: Layout, at: int, indent: int, missing: list[str], piece: Piece) -> Edit:
    step, line_break = _indent_of(layout), _line_break(layout.text)
    lines = [" " * (indent + turn * step) + f"{name}:" for turn, name in enumerate(missing)]
    lines += [" " * (indent + len(missing) * step) + line if line else line for line in piece.lines]
    whole = layout.text[at - 1:at] in ("\n", "\r")
    return at, at, "".join(line + line_break for line in lines) if whole else "".join(line_break + line for line in lines)


def _opened(layout: Layout, way: Way, node: yaml.MappingNode) -> tuple[Edit, int] | None:
    """For an empty group `{}` that ends its key's line: the edit that takes the braces out, and how far in its keys are to stand."""
    start, end = node.start_mark.index, node.end_mark.index
    round_it = layout.node(way[:-1])
    if node.value or not way or not isinstance(round_it, yaml.MappingNode) or round_it.flow_style:
        return None
    spot = layout.spot(way)
    if layout.before(spot).strip(" -") or not AFTER_VALUE.fullmatch(layout.line(end)) or layout.line(start)[:2] != "{}":
        return None
    return (spot.key.end_mark.index + 1 if layout.text[spot.key.end_mark.index] == ":" else start, end, ""), \
        layout.column(spot) + _indent_of(layout)


def _with_in_braces(layout: Layout, node: yaml.MappingNode, missing: list[str], inline: str) -> Edit:
    new = "".join(f"{name}: {{" for name in missing) + inline + "}" * len(missing)
    at = layout.end_of(node.value[-1][1]) if node.value else node.start_mark.index + 1
    return at, at, (", " if node.value else "") + new


def _indent_of(layout: Layout) -> int:
    """How far the file itself indents the keys of a group."""
    for _, value in layout.root.value:
        if isinstance(value, yaml.MappingNode) and not value.flow_style:
            return layout.column(Spot(*value.value[0], value, 0))
    return INDENT


def _line_break(text: str) -> str:
    found = BREAK.findall(text)
    return max(("\n", "\r\n", "\r"), key=found.count)


def dropped(layout: Layout, way: Way) -> list[Edit]:
    """The edits that take an empty group out; the comments round it stay where they are. Raises Unsafe if something stands in it."""
    spot = layout.spot(way)
    value = spot.value
    nothing = value.value in NOTHING and not value.style if isinstance(value, yaml.ScalarNode) else not value.value
    if isinstance(value, yaml.SequenceNode) or not nothing:
        left = ", ".join(key.value for key, _ in value.value) if isinstance(value, yaml.MappingNode) else "a value"
        raise Unsafe(f"this group is no longer known, and {left} stands in it.", "Take out what has no place any more, then migrate again.")
    end = layout.end_of(spot.value)
    comment = layout.line(end).strip()
    if spot.group.flow_style or layout.before(spot).strip() or not comment:
        return _without(layout, way, comments=False)
    return _without(layout, way, comments=False, instead=layout.before(spot) + comment + _line_break(layout.text))


def _without(layout: Layout, way: Way, comments: bool = True, instead: str = "") -> list[Edit]:
    """The edits that take a key out and, if so wished, the comments that belong to it."""
    spot = layout.spot(way)
    if spot.group.flow_style:
        return [_without_in_braces(layout, spot)]
    before = layout.before(spot)
    end = layout.below(spot) if comments else layout.line_end(layout.end_of(spot.value))
    if before.strip():
        return _without_first_of_item(layout, spot, before, end)
    cut = (layout.above(spot) if comments else layout.line_start(spot.start), end, instead)
    if not spot.alone:
        return [cut]
    colon = re.compile(r"[ \t]*:").match(layout.text, layout.spot(way[:-1]).key.end_mark.index)
    if colon is None:
        raise Unsafe("the group round this key is written in an unusual way.", BY_HAND)
    return [(colon.end(), colon.end(), " {}"), cut]


def _without_first_of_item(layout: Layout, spot: Spot, before: str, end: int) -> list[Edit]:
    """The edits that take out the key right behind the hyphen of a list's line: the next key takes its place there."""
    start = layout.line_start(spot.start)
    if spot.alone:
        return [(start, end, before + "{}" + _line_break(layout.text))]
    following = spot.following.start_mark.index
    return [(start, end, ""), (layout.line_start(following), following, before)]


def _without_in_braces(layout: Layout, spot: Spot) -> Edit:
    start, end = spot.start, layout.end_of(spot.value)
    if _own_lines(layout, spot):
        return layout.above(spot, False), layout.line_end(end), ""
    if spot.following is not None:
        gap, cut = (end, spot.following.start_mark.index), (start, spot.following.start_mark.index)
    elif spot.turn:
        last = layout.end_of(spot.group.value[spot.turn - 1][1])
        gap, cut = (last, start), (last, end)
    else:
        gap, cut = (end, spot.group.end_mark.index - 1), (start, spot.group.end_mark.index - 1)
    if "#" in layout.text[slice(*gap)]:
        raise Unsafe("a comment stands between the braces here, and whose it is cannot be told.", BY_HAND)
    return *cut, ""
