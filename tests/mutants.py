"""Broken copies of a job's files, drawn from a seed: by bytes, by lines, by keys and by values.

Of a mutant by key or value it is known whether it must be refused, and at which lines the answer may stand. What the
form of a file is comes from the model; where a key and its value stand comes from the YAML library's own tree of nodes.
"""
import random
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any, Literal, get_args, get_origin

import yaml
from pydantic import BaseModel, BeforeValidator

from generator.model import fields
from generator.model.visibility import ROOTS, plain

PARSERS = {one.func: name for name in ("Text", "Note", "Whole", "Decimal", "Flag", "Day", "Clock", "Name", "Key", "Serial", "Account", "Phone",
                                       "Address", "PathName")
           for one in getattr(fields, name).__metadata__ if isinstance(one, BeforeValidator)}
# What a field of a kind can never take.
NEVER = {
    "Text": ["x" * 201, '" "', '"a\\ab"'], "Note": ["x" * 4001, '"a\\ab"'], "Whole": ["half", "-1", "3.5", "0x1F", "1E5", "022"],
    "Decimal": ["half", "1E5", '"2,4"', "0x1F"], "Flag": ["maybe", "1"], "Day": ["2026-02-30", "soon", "14.9.2026", "2026-9-14"],
    "Clock": ["25:00", "2230", "noon"], "Phone": ["call us", "12"], "Name": ["a!b", '"#12"'], "Key": ["a!b", '"#12"'], "Serial": ["a!b"],
    "Account": ["a-b"], "Address": ["http://x.example/", "packs"], "PathName": ["short"],
}
REFERENCES = (("control_unit", "room"), ("control_unit", "sheet"), ("devices", "*", "room"), ("devices", "*", "protects"),
              ("devices", "*", "sheet"), ("users", "*", "fob"), ("profile",), ("premises", "storeys", "*", "openings", "*", "wall", "*"))
NASTY_BYTES = [b"\0", b"\xff", b"\x1b[2J", b"\xe9", "\u2028".encode(), b"\t", b"{", b"[", b'"', b"'", b": ", b" #", b"&a ", b"*a", b"!", b"%", b"@",
               "\u00a0".encode(), b"\xef\xbb\xbf", b"\r", b"\n", b"- ", b"? ", b"|", b">", b"\\", b"]", b"}", b",", b"\x85", b"---\n", b"...\n"]
NASTY_VALUES = ["00412", "1E5", "22:30", "0x1F", "no", "~", "null", "+441632960001", '"#12"', "9" * 5000, "999999999", "-999999999", "!!int 3", "&a x",
                "*a", "[]", "{}", "[[[[x]]]]", '"\\e[31mred"', '"\\u202eabc"', "é" * 300, "名前", "<<: x", "{{7*7}}", "<b>", "=1+1", '"\\ud800"', "|", ".", "..",
                "../../etc/passwd", "CON", "__proto__", "0", "-0", "1e999", "nan", '"\\x9b2J"', "a\u200bb", "pin 4821", "password: x"]


@dataclass(frozen=True)
class Entry:
    """A key, or an entry of a list, with its value: where both stand and whether they stand in braces or brackets."""

    path: tuple[str | int, ...]
    key: yaml.Node | None
    value: yaml.Node
    flow: bool


@dataclass(frozen=True)
class Mutant:
    """A changed file: of which class, whether it must be refused, and at which lines the answer may then stand."""

    file: Path
    kind: str
    change: str
    content: bytes
    must: bool = False
    lines: frozenset[int] = frozenset()


def mutant(files: dict[Path, str], draw: random.Random) -> Mutant:
    """A mutant of one of a job's files, each given with its root in the model; job.yaml more often than the others."""
    file = draw.choice([*files, *[one for one in files if one.name == "job.yaml"] * len(files)])
    text = file.read_text(encoding="utf-8")
    while True:
        kind, make = draw.choice([("byte", _by_bytes), ("line", _by_lines), ("key", _by_keys), ("value", _by_values)])
        made = make(text, files[file], draw)
        if made is not None and made[1] != text.encode():
            return Mutant(file, kind, *made)


Made = tuple[str, bytes] | tuple[str, bytes, bool, frozenset[int]] | None


def _by_bytes(text: str, root: str, draw: random.Random) -> Made:
    raw = bytearray(text.encode())
    for _ in range(draw.randint(1, 3)):
        at = draw.randrange(len(raw))
        change = draw.choice(("flip", "put", "insert", "cut", "end"))
        if change == "flip":
            raw[at] ^= 1 << draw.randrange(8)
        elif change == "put":
            raw[at] = draw.randrange(256)
        elif change == "insert":
            raw[at:at] = draw.choice(NASTY_BYTES) * draw.choice((1, 1, 1, 2, 60))
        elif change == "cut":
            del raw[at:at + draw.randint(1, 20)]
        elif draw.random() < 0.1:
            del raw[at:]
        if not raw:
            break
    return "bytes", bytes(raw)


def _by_lines(text: str, root: str, draw: random.Random) -> Made:
    lines = text.split("\n")
    at, other = draw.randrange(len(lines)), draw.randrange(len(lines))
    change = draw.choice(("delete", "twice", "swap", "in", "out", "join", "comment", "many", "tab"))
    line = lines[at]
    if change == "swap":
        lines[at], lines[other] = lines[other], line
    else:
        lines[at:at + 1] = {"delete": [], "twice": [line, line], "in": [" " * draw.randint(1, 3) + line], "out": [line[draw.randint(1, 3):]],
                            "join": [line + " " + "".join(lines[at + 1:at + 2])], "comment": ["# " + line], "many": [line] * 200,
                            "tab": ["\t" + line.lstrip()]}[change]
    return change, "\n".join(lines).encode()


def _by_keys(text: str, root: str, draw: random.Random) -> Made:
    entry = draw.choice([one for one in entries(text) if one.key is not None])
    form = Form.at(root, entry.path)
    change = draw.choice(("misspelt", "removed", "twice", "renamed"))
    if change == "misspelt" and form and not form.chosen:
        return change, _replaced(text, entry.key, _misspelt(str(entry.path[-1]), form.siblings, draw)), True, _lines_of(entry.key)
    if change == "renamed" and form and form.chosen:
        referring = frozenset(one.value.start_mark.line + 1 for one in entries(text) if one.path[-1] != entry.path[-1]
                              and _is_reference(one.path) and getattr(one.value, "value", None) == entry.path[-1])
        return change, _replaced(text, entry.key, f"{entry.path[-1]}x9"), bool(referring), referring
    if change == "removed" and form and form.needed:
        return _removed(text, entry)
    if change == "twice":
        return _twice(text, entry)
    return None


def _by_values(text: str, root: str, draw: random.Random) -> Made:
    entry = draw.choice(entries(text))
    form = Form.at(root, entry.path)
    if form is None or form.chosen:
        return None
    here = _lines_of(entry.value)
    if not isinstance(entry.value, yaml.ScalarNode):
        return "group made a word", _replaced(text, entry.value, " word"), True, here
    if draw.random() < 0.3:
        return "any", _replaced(text, entry.value, draw.choice(NASTY_VALUES))
    if root == "job" and _is_reference(entry.path) and draw.random() < 0.7:
        return "refers to nothing", _replaced(text, entry.value, _misspelt(entry.value.value, [], draw) + "-9"), True, here
    if form.options:
        return "choice misspelt", _replaced(text, entry.value, _misspelt(entry.value.value, form.options, draw)), True, here
    if draw.random() < 0.15:
        return "word made a group", _replaced(text, entry.value, "{x: y}"), True, here
    if form.needed and draw.random() < 0.15:
        return "taken away", _replaced(text, entry.value, '""'), form.kind != "Note", here
    return (f"{form.kind} made impossible", _replaced(text, entry.value, draw.choice(NEVER[form.kind])), True, here) if form.kind else None


def _is_reference(path: tuple[str | int, ...]) -> bool:
    return any(len(path) == len(way) and all(want in ("*", got) for want, got in zip(way, path)) for way in REFERENCES)


def _lines_of(node: yaml.Node) -> frozenset[int]:
    return frozenset({node.start_mark.line + 1})


def _replaced(text: str, node: yaml.Node, new: str) -> bytes:
    return (text[:node.start_mark.index] + new + text[_end(text, node):]).encode("utf-8", "surrogatepass")


def _end(text: str, node: yaml.Node) -> int:
    """Where a node ends; a block ends where its last line ends, not where the next token begins."""
    return len(text[:node.end_mark.index].rstrip()) if not _in_brackets(text, node) else node.end_mark.index


def _in_brackets(text: str, node: yaml.Node) -> bool:
    return text[node.end_mark.index - 1] in "\"'}]"


def _misspelt(word: str, known: list[str], draw: random.Random) -> str:
    while True:
        at = draw.randrange(len(word))
        new = draw.choice((word[:at] + word[at + 1:], word[:at] + word[at] + word[at:], word + "s", word[:at] + draw.choice("aeiou") + word[at + 1:]))
        if new not in (word, "") and new not in known and new.strip("-_ ") == new and new.lower() not in ("no", "null", "y", "n"):
            return new


def _removed(text: str, entry: Entry) -> Made:
    start, end = entry.key.start_mark.index, _end(text, entry.value)
    if entry.flow:
        rest = text[end:].lstrip()
        end = len(text) - len(rest.removeprefix(",").lstrip()) if rest.startswith(",") else end
        start = start if rest.startswith(",") else len(text[:start].rstrip().removesuffix(","))
    else:
        start = text.rfind("\n", 0, start) + 1
        end = text.find("\n", end) + 1
        if text[start:entry.key.start_mark.index].strip():
            return None
    new = text[:start] + text[end:]
    parent = {one.path: one for one in entries(new)}.get(entry.path[:-1])
    around = parent and {parent.value.start_mark.line + 1, *(_lines_of(parent.key) if parent.key else ())}
    return "removed", new.encode(), True, frozenset(around or {_first_line(new)})


def _first_line(text: str) -> int:
    return yaml.compose(text, Loader=yaml.SafeLoader).start_mark.line + 1


def _twice(text: str, entry: Entry) -> Made:
    start, end = entry.key.start_mark.index, _end(text, entry.value)
    if entry.flow:
        return "twice", (text[:start] + text[start:end] + ", " + text[start:]).encode(), True, _lines_of(entry.key)
    start = text.rfind("\n", 0, start) + 1
    end = text.find("\n", end) + 1
    if text[start:entry.key.start_mark.index].strip() or not end:
        return None
    return "twice", (text[:end] + text[start:end] + text[end:]).encode(), True, frozenset({text.count("\n", 0, end) + 1})


@cache
def entries(text: str) -> tuple[Entry, ...]:
    """Every key and every entry of a list of a text, with its path."""
    return tuple(_walk(yaml.compose(text, Loader=yaml.SafeLoader), ()))


def _walk(node: yaml.Node, path: tuple[str | int, ...]) -> Iterator[Entry]:
    if isinstance(node, yaml.MappingNode):
        for key, value in node.value:
            yield Entry((*path, key.value), key, value, bool(node.flow_style))
            yield from _walk(value, (*path, key.value))
    elif isinstance(node, yaml.SequenceNode):
        for index, value in enumerate(node.value):
            yield Entry((*path, index), None, value, bool(node.flow_style))
            yield from _walk(value, (*path, index))


@dataclass(frozen=True)
class Form:
    """What the model says of a place: the kind of value, the words it is one of, whether it must be there, or is a name of one's own."""

    kind: str
    options: list[str]
    needed: bool
    chosen: bool
    siblings: list[str]

    @classmethod
    def at(cls, root: str, path: tuple[str | int, ...]) -> "Form | None":
        """The form of a path; None if the model knows no such place."""
        annotation, metadata, needed, chosen, siblings = ROOTS[root], (), False, False, []
        for part in path:
            inner = plain(annotation)
            chosen = get_origin(inner) is dict
            if get_origin(inner) in (dict, list):
                annotation, metadata, needed, siblings = get_args(inner)[-1], (), False, []
            elif isinstance(inner, type) and issubclass(inner, BaseModel) and part in inner.model_fields:
                field = inner.model_fields[part]
                annotation, metadata, needed, siblings = field.annotation, field.metadata, field.is_required(), list(inner.model_fields)
            else:
                return None
        options = [str(one) for one in get_args(plain(annotation))] if get_origin(plain(annotation)) is Literal else []
        return cls(next(_kinds(annotation, metadata), ""), options, needed, chosen, siblings)


def _kinds(annotation: Any, metadata: Any) -> Iterator[str]:
    for one in (*metadata, *getattr(annotation, "__metadata__", ())):
        if isinstance(one, BeforeValidator) and one.func in PARSERS:
            yield PARSERS[one.func]
    for inner in get_args(annotation) if get_origin(annotation) not in (dict, list, Literal) else ():
        yield from _kinds(inner, ())


