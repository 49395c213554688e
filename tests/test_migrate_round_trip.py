"""Whatever way a file of an earlier format is written: does it read back as the steps say, with every comment, once and for all?"""
import json
import random
import re
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.intake import migrations
from generator.intake.migrate import plan_migration
from generator.intake.migrations import Convert
from generator.intake.steps_on_text import current
from generator.intake.yaml_tree import tree_of
from tests.conftest import DEMO, ROOT
from tests.old_format import OLD, old_format  # noqa: F401

NAMES = st.sampled_from(["D1", "D2", "hall", "place", "times", "sounder", "run_min", "entry_min"])
TEXTS = st.one_of(st.sampled_from(["left, of [it]", "a: b", "# no comment", "it's", 'say "x"', "", "~", "no", "00412", "22:30", "two\nlines",
                                   "two\n\n  lines\n", " blanks ", "{x}", "- y", "format: 0", "é 😀"]), st.text("ab :#,'\"\n-[]{}", max_size=12))
NUMBERS = st.decimals(min_value=0, max_value=99999, places=3).map(lambda one: f"{one:f}".rstrip("0").rstrip("."))


@st.composite
def old_jobs(draw) -> dict:
    """A job of format 0 as data: keys that the steps name and others, in any order."""
    def some(keys: dict) -> dict:
        return {key: draw(value) for key, value in draw(st.permutations(list(keys.items()))) if draw(st.booleans())}

    device = {"place": TEXTS, "note": TEXTS, "at": st.lists(TEXTS, max_size=3), "inner": st.dictionaries(NAMES, TEXTS, max_size=3)}
    devices = {name: some(device) for name in draw(st.lists(NAMES, max_size=4, unique=True))}
    sounder = {"run_min": draw(st.one_of(TEXTS, st.dictionaries(NAMES, TEXTS, max_size=2)))} if draw(st.booleans()) else {}
    times = {**some({"exit_s": NUMBERS, "entry_min": NUMBERS}), "zone_s": "1"}
    parts = {"format": "0", "devices": devices, "sounder": sounder, "times": times, "note": draw(TEXTS)}
    return dict(draw(st.permutations(list(parts.items()))))


def as_it_should_be(job: dict) -> dict:
    """Format 1 of a job, said in plain words: the third way to the same result, for this test alone."""
    out = {}
    for key, value in job.items():
        if key == "devices":
            value = {name: {"position" if inner == "place" else inner: one for inner, one in device.items()} for name, device in value.items()}
        if key == "times":
            value = {"entry_s" if inner == "entry_min" else inner: in_seconds(one) if inner == "entry_min" else one
                     for inner, one in value.items()} | job["sounder"]
        if key != "sounder":
            out[key] = "1" if key == "format" else value
    return out


def in_seconds(minutes: str) -> str:
    text = f"{Decimal(minutes) * 60:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


class Writer:
    """Writes data as YAML in a style drawn anew at every place, with numbered comments; `comments` are those it wrote."""

    def __init__(self, draw):
        self.draw, self.comments = draw, []

    def chance(self, one_in: int) -> bool:
        return self.draw(st.integers(1, one_in)) == 1

    def comment(self) -> str:
        self.comments.append(f"# c{len(self.comments)}: 'x {{")
        return self.comments[-1]

    def group(self, data: dict, indent: int, braces: bool) -> str:
        return "".join(self.pair(key, value, indent, braces) for key, value in data.items())

    def pair(self, key: str, value, indent: int, braces: bool) -> str:
        blanks = " " * indent
        before = "\n" if self.chance(6) else ""
        before += f"{blanks}{self.comment()}\n" if self.chance(4) else ""
        written = self.draw(st.sampled_from([key, f'"{key}"', f"'{key}'"]))
        return f"{before}{blanks}{written}:{self.value(value, indent, braces)}"

    def end(self) -> str:
        return f"  {self.comment()}\n" if self.chance(4) else "\n"

    def value(self, value, indent: int, braces: bool) -> str:
        if isinstance(value, dict) and value and not (braces and self.chance(2)):
            inner = self.draw(st.integers(1, 4))
            return self.end() + self.group(value, indent + inner, True)
        if isinstance(value, list) and value and self.chance(2):
            return self.end() + "".join(f"{' ' * (indent + 2)}- {json.dumps(one, ensure_ascii=False)}{self.end()}" for one in value)
        if isinstance(value, str) and "\n" in value and value.strip("\n ") and self.chance(2) and value[0] not in " \n":
            sign = "-" if not value.endswith("\n") else "+" if value.endswith("\n\n") else ""
            lines = value.removesuffix("\n").split("\n")
            if all(line.strip() or not line for line in lines):
                return f" |{sign}{self.end()}" + "".join(f"{' ' * (indent + 3) if line else ''}{line}\n" for line in lines)
        return f" {self.inline(value)}{self.end()}"

    def inline(self, value) -> str:
        if isinstance(value, dict):
            return "{" + ", ".join(f"{key}: {self.inline(one)}" for key, one in value.items()) + "}"
        if isinstance(value, list):
            return "[" + ",".join(map(self.inline, value)) + "]"
        if value.isalnum() and value.isascii() and self.chance(2):
            return value
        return "'" + value.replace("'", "''") + "'" if "\n" not in value and self.chance(2) else json.dumps(value, ensure_ascii=False)


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    folder = tmp_path_factory.mktemp("old")
    (folder / "company.yaml").write_bytes((ROOT / "jobs" / "company.yaml").read_bytes())
    (folder / "people.yaml").write_bytes((DEMO / "people.yaml").read_bytes())
    return folder


@settings(max_examples=300, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.function_scoped_fixture])
@given(old_jobs(), st.data(), st.sampled_from(["\n", "\r\n"]), st.booleans())
def test_what_is_migrated_reads_back_as_the_steps_say_and_a_second_time_changes_nothing(folder, old_format, job, data, end, last) -> None:  # noqa: F811
    writer = Writer(data.draw)
    # `times` stands in lines: what is moved there with its comments finds room.
    text = "".join(writer.pair(key, value, 0, key != "times") for key, value in job.items())
    bare = text.removesuffix("\n")
    text = bare if not last and tree_of(bare, "").data == job else text
    assert tree_of(text, "").data == job, "the writer of this test must write what it was given"
    path = folder / "job.yaml"
    path.write_bytes(text.replace("\n", end).encode())
    plan = plan_migration(path)
    assert plan.problems == ()
    new = plan.changes[0].after.decode()
    got = tree_of(new.replace("\r\n", "\n"), "").data
    assert got == as_it_should_be(job) and list(got) == list(as_it_should_be(job))
    assert [list(one) for one in got["devices"].values()] == [list(one) for one in as_it_should_be(job)["devices"].values()]
    for comment in writer.comments:
        assert new.count(comment) == 1, comment
    assert ("\n" in new.replace("\r\n", "")) == (end == "\n" and "\n" in new)
    path.write_bytes(new.encode())
    assert plan_migration(path).changes == () and plan_migration(path).problems == ()


@settings(max_examples=200, deadline=None)
@given(st.decimals(min_value=Decimal("-999999"), max_value=Decimal("999999"), places=6), st.sampled_from([60, 1000, 100]))
def test_a_number_given_in_another_unit_and_back_is_the_same_number(value: Decimal, factor: int) -> None:
    text = f"format: 0\na: {value:f}\n"
    table = {("job", 0): (Convert("a", "b", Fraction(factor)), Convert("b", "c", Fraction(1, factor)))}
    before, migrations.MIGRATIONS = migrations.MIGRATIONS, table
    try:
        draft = current(tree_of(text, ""), "job", text)
    finally:
        migrations.MIGRATIONS = before
    assert draft.problems == [] and Decimal(draft.data["c"]) == value


MUTATED = """\
# top
format: 0  # old
sounder:
  # why
  "run_min": >-  # c
    a b
     c
  # tail

devices:
  D1: {place: "x # y", room: a} # q
  D2:
    # up
    place: |2
        it is
      so
    room: b
  D3: { room: x,
    # in
    place: 'z' }
times:
  # t
  entry_min: 1.5 # half
  exit_s: 3

note: 'a
  b'
"""


def mutants(seed: int, count: int):
    chance = random.Random(seed)
    for _ in range(count):
        lines = MUTATED.split("\n")
        one, other, kind = chance.randrange(len(lines)), chance.randrange(len(lines)), chance.randrange(5)
        if kind == 0:
            lines[one], lines[other] = lines[other], lines[one]
        elif kind == 1:
            lines.insert(one, lines[other])
        elif kind == 2:
            lines[one] = " " * chance.randrange(6) + lines[one].strip()
        text = "\n".join(lines)
        at = chance.randrange(len(text))
        put = chance.choice("{}[]#:'\"-|>?!&*%@\n\r\t ,~é\u2028\x85")
        yield text[:at] + put + text[at:] if kind == 3 else text[:at] + text[at + chance.randint(1, 6):] if kind == 4 else text


def test_a_damaged_file_is_migrated_with_nothing_lost_or_answered(folder, old_format) -> None:  # noqa: F811
    path, good = folder / "job.yaml", 0
    for text in mutants(2041, 600):
        path.write_bytes(text.encode())
        plan = plan_migration(path)
        if plan.problems:
            assert all(problem.line and problem.says and problem.do for problem in plan.problems), text
            continue
        good += 1
        old, new = (tree_of(re.sub("\r\n?", "\n", one), "").data for one in (text, plan.changes[0].after.decode()))
        assert leaves(new) == leaves(old), text
    assert good > 100, "some of them must be such as can be migrated"


def leaves(data) -> list:
    """Every value of a file but those that the steps change."""
    if data is None:
        return []
    if isinstance(data, dict):
        return sorted(leaf for key, value in data.items() if key not in ("format", "entry_min", "entry_s") for leaf in leaves(value))
    return sorted(leaf for value in data for leaf in leaves(value)) if isinstance(data, list) else [data or ""]


def test_the_steps_of_this_test_rename_move_and_convert() -> None:
    assert {type(step).__name__ for step in OLD["job", 0]} == {"Rename", "Move", "Convert", "Drop"}
