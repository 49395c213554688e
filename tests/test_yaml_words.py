"""Is whatever keeps a file from being YAML said in our own words, at the place of the mend, never in the library's?"""
import ast
import re
from pathlib import Path

import pytest
import yaml

from generator.intake import yaml_tree
from generator.intake.yaml_tree import read_tree
from generator.intake.yaml_words import KNOWN

LIBRARY = Path(yaml.__file__).parent
LOADERS = {"c": yaml.CSafeLoader, "python": yaml.SafeLoader}
# A broken text, the line that must be answered, and what the answer says; every text makes the parser stop.
BROKEN = [
    ("a: b: c", 1, "a second colon"), ("x: 1\na: Thrift\n  b: c", 3, "further in"), ("a: @home", 1, 'may not start with "@"'),
    ("a: `x", 1, 'may not start with "`"'), ("a: %x", 1, 'may not start with "%"'), ("\ta: x", 1, "a tab"), ("a:\n\tb: c", 2, "a tab"),
    ("a: 1\ntitle\nb: c", 2, "no colon"), ("a: 1\n[x,\ny]: 2", 2, "no colon"), ('a: "HALL" DR', 1, "the value ends before"),
    ("a:\n  b: 1\n c: 2", 3, "does not fit the lines above"), ("a:\n  - x\n  b: c", 3, "without a hyphen"), ("- a\nb: c", 2, "without a hyphen"),
    ("a: - x", 1, "a list may not start here"), ("a: ? x", 1, 'may not start with "? "'), ("a: 1\nb: [1, 2\nc: d", 2, "not closed before line 3"),
    ("a: {x: 1, y: 2", 1, "not closed before the file ends"), ("a: {x: 1, y: 2 z: 3}", 1, "a comma or a closing bracket"),
    ("a: {x: 1]", 1, "a comma or a closing bracket"), ("a: [1]]", 1, "closes a bracket that was not opened"), ("a: }", 1, "was not opened"),
    ("a: [1, , 2]", 1, "a value is missing"), ("a: [", 1, "the file ends here, within a bracket"), ('b: 1\na: "x\nc: 2', 2, "the quote that opens here"),
    ("a: 'x", 1, "the quote that opens here"), ('a: "x\n---\nb"', 1, "the quote that opens here"), (r'a: "\q"', 1, "a backslash"),
    (r'a: "\x4"', 1, "a backslash"), ("a: |0\n  x", 1, "only a line end may follow"), ("a: |x\n  x", 1, "only a line end may follow"),
    ("a: |+x\n  x", 1, "only a line end may follow"), ("a: |10\n  x", 1, "only a line end may follow"), ("a: >+0\n  x", 1, "only a line end may follow"),
    ("a: > text\n  x", 1, "only a line end may follow"), ("%YAML 1.1", 1, 'a line may not start with "%"'), ("%YAML 2.0\n---\na: 1", 1, '"%"'),
    ("%YAML 1.1\n%YAML 1.1\n---\na: 1", 2, '"%"'), ("%YAML x\n---\na: 1", 1, '"%"'), ("%YAML 1x\n---\na: 1", 1, '"%"'),
    ("%YAML 1.x\n---\na: 1", 1, '"%"'), ("%YAML 1.1x\n---\na: 1", 1, '"%"'), ("%YAML 1.1 x\n---\na: 1", 1, '"%"'),
    ("%TAG ! x\n%TAG ! y\n---\na: b", 2, '"%"'), ("%TAG\n---\na: b", 1, '"%"'), ("%TAG !a\n---\na: b", 1, '"%"'), ("%TAG !a!x\n---\na: b", 1, '"%"'),
    ("%TAG !a! \n---\na: b", 1, '"%"'), ("%TAG !a! x,y z\n---\na: b", 1, '"%"'), ("%-\n---\na: 1", 1, '"%"'), ("%a,\n---\na: 1", 1, '"%"'),
    ("%YAML 1234567890.1\n---\na: 1", 1, '"%"'), ("%TAG !a! %zz\n---\na: b", 1, '"%"'), ("a: 1\nb: !<x", 2, '"!"'), ("a: !<> x", 1, '"!"'),
    ("a: !x!y z", 1, '"!"'), ("a: !a%zz b", 1, '"!"'), ("a: !<%zz> b", 1, '"!"'), ("a: !<%ff> b", 1, '"!"'), ("a: !x,y z", 1, '"!"'), ("a: !x{ b", 1, '"!"'),
    ("a: &", 1, '"&"'), ("a: & x", 1, '"&"'), ("a: &a! x", 1, '"&"'), ("a: *", 1, '"*"'), ("a: *! x", 1, '"*"'),
    ("a:\n  b: x\n\ty", 3, "a tab"), ("a: |\n\tx", 2, "a tab"), (r'a: "\ud800"', 1, "a backslash"),
    ("%\n---\na: 1", 1, '"%"'), ("title\nb: c", 1, "no colon"), ("x: 1\n\nb:c\nd: e", 3, "no colon"), ("[a] b", 1, "the value ends before"), ("a: b\n...\n]", 3, "was not opened"), ("a: {b: 'c'd}", 1, "a comma"),
    ("a: it's\nb: 'it's", 2, "the value ends before"), ("entry_s:\u00a030\nb: c", 1, "another character"), ("a: 1\nentry_s：30\nb: c", 2, "another character"),
    ("a: 1\n\u00a0 b: c: d", 2, "another character"), ("%YAML 1.1\na: 1", 1, '"%"'), ("[a: b: c]", 1, "a comma"), ("a: {b:{c: d}}", 1, ""),
]
# Words of the library's trade that an installer does not know.
JARGON = re.compile(r"token|node|scalar|mapping|sequence|stream|directive|anchor|alias|flow|block|escape|indicator|hexd|pydantic|yaml\.|<|None|"
                    r"Traceback|Error|octet|expected|while (scanning|parsing)", re.I)
# What nothing that a person can write brings about through our reader, and why.
NOT_MET = {
    "c": {"control characters are not allowed": "looked for before",
          "exceeded maximum nesting depth": "we stop at a smaller depth", "did not find expected <stream-start>": "the library writes the start itself"},
    "python": {"special characters are not allowed": "looked for before"},
}


def told(text: str, loader: str, folder: Path, monkeypatch) -> list:
    monkeypatch.setattr(yaml_tree, "LOADER", LOADERS[loader])
    path = folder / "one.yaml"
    path.write_text(f"{text}\n", encoding="utf-8")
    return read_tree(path, "one.yaml").problems


def complaint(text: str, loader: str) -> yaml.YAMLError | None:
    try:
        list(yaml.parse(f"{text}\n", Loader=LOADERS[loader]))
    except yaml.YAMLError as error:
        return error
    return None


@pytest.mark.parametrize("loader", LOADERS)
@pytest.mark.parametrize("text, line, says", BROKEN, ids=lambda one: repr(one) if isinstance(one, str) else str(one))
def test_a_broken_text_is_answered_once_at_its_line_in_our_words(text: str, line: int, says: str, loader: str, tmp_path, monkeypatch) -> None:
    found = told(text, loader, tmp_path, monkeypatch)
    if complaint(text, loader) is None:
        assert loader == "python", "the Python parser takes a little more than the C parser"
        return
    assert len(found) == 1 and found[0].line == line and says in found[0].says, found
    assert found[0].says and found[0].do and not JARGON.search(f"{found[0].says} {found[0].do}".replace('"%"', "")), found


def phrases_of_python() -> set[str]:
    """The complaints in the library's Python source, formats as they stand there."""
    out = set()
    for name in ("scanner", "parser", "reader"):
        for node in ast.walk(ast.parse((LIBRARY / f"{name}.py").read_text(encoding="utf-8"))):
            if isinstance(node, ast.Raise) and isinstance(node.exc, ast.Call) and len(node.exc.args) > 2:
                problem = node.exc.args[4 if name == "reader" else 2]
                texts = [one.value for one in ast.walk(problem) if isinstance(one, ast.Constant) and isinstance(one.value, str)]
                out |= {max(texts, key=len)} if texts else set()
    return out


def phrases_of_c() -> set[str]:
    """The complaints in the library's C part: what looks like one among its printable strings."""
    found = set(re.findall(rb"[ -~]{8,}", next(LIBRARY.glob("_yaml*.so")).read_bytes()))
    wanted = re.compile(r"(did not find|could not find|found (an? |un|invalid|char|dupl|incomp|extrem)|mapping (keys|values) |block sequence|exceeded max|control char)")
    # What speaks of octets and UTF-16 is the library's decoder: it never sees a file's bytes here.
    return {text for one in found if wanted.match(text := one.decode()) and "UTF" not in text and not text.startswith("found an incorrect")}


def met(loader: str) -> list[str]:
    return [str(getattr(error, "problem", error)) for text, _, _ in BROKEN if (error := complaint(text, loader))]


def like(phrase: str) -> re.Pattern:
    """The pattern of what a phrase becomes once its %r, %d and %s are filled."""
    return re.compile(re.sub(r"%[rds]", ".*", re.escape(phrase).replace(r"\%", "%")), re.S)


@pytest.mark.parametrize("loader, phrases", [("c", phrases_of_c()), ("python", phrases_of_python())], ids=LOADERS)
def test_every_complaint_of_the_library_is_brought_about_or_named(loader: str, phrases: set[str]) -> None:
    assert len(phrases) > 20
    seen = met(loader)
    assert {one for one in phrases if not any(like(one).match(text) for text in seen)} == set(NOT_MET[loader])


def test_no_text_that_the_parser_takes_is_in_the_list() -> None:
    assert [text for text, _, _ in BROKEN if complaint(text, "c") is None] == []


@pytest.mark.parametrize("index", range(len(KNOWN)), ids=lambda index: KNOWN[index][0][:30])
def test_every_answer_is_needed(index: int, monkeypatch, tmp_path) -> None:
    """Without it some text of the list is answered otherwise; but for the one the parser cannot be brought to."""
    if "nesting" in KNOWN[index][0]:
        assert "depth" in next(iter(NOT_MET["c"].keys() & {"exceeded maximum nesting depth"}))
        return

    def all_told() -> list:
        return [told(text, loader, tmp_path, monkeypatch) for loader in LOADERS for text, _, _ in BROKEN]
    before = all_told()
    monkeypatch.setattr("generator.intake.yaml_words.KNOWN", KNOWN[:index] + KNOWN[index + 1:])
    assert all_told() != before
