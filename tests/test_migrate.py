"""Does a file of an earlier format become one of the current format with every comment, quote and line end as it was?"""
import re
from fractions import Fraction

import pytest

from generator.intake import formats, migrations, steps_on_text
from generator.intake.migrations import Convert, Drop, Move, Rename, filled, places
from generator.intake.steps_on_data import same
from generator.intake.steps_on_text import current
from generator.intake.yaml_tree import tree_of
from tests.old_format import OLD, asked, drafted

BEFORE = """\
# A job of long ago.
# It has a second line.

format: 0   # the old one
reference: "K-1"

sounder:
  # The neighbour asked for
  # as short as may be.
  "run_min": '15'  # not more

devices:
  # the first
  D1:
    place: 'corner, left'   # here
    note: |
      # not a comment
      place: 1

      two
  D2: {sheet: x, "place": "left: of", height_m: 1.0}  # in braces
  D3:

    place: >-
      on the
      wall
  # nothing to do here
  D4: {sheet: x}

times: # from the agreement
  entry_min: 0.75    # three quarters
  # the last of the times

last: [a, b]
# end
"""
AFTER = """\
# A job of long ago.
# It has a second line.

format: 1   # the old one
reference: "K-1"


devices:
  # the first
  D1:
    position: 'corner, left'   # here
    note: |
      # not a comment
      place: 1

      two
  D2: {sheet: x, "position": "left: of", height_m: 1.0}  # in braces
  D3:

    position: >-
      on the
      wall
  # nothing to do here
  D4: {sheet: x}

times: # from the agreement
  entry_s: 45    # three quarters
  # The neighbour asked for
  # as short as may be.
  "run_min": '15'  # not more
  # the last of the times

last: [a, b]
# end
"""


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_a_file_with_comments_everywhere_is_edited_where_the_steps_say_and_nowhere_else(monkeypatch, end: str) -> None:
    draft = drafted(monkeypatch, BEFORE.replace("\n", end), *OLD["job", 0])
    assert (draft.problems, draft.text) == ([], AFTER.replace("\n", end))


@pytest.mark.parametrize("before, after", [
    ("a: {k: 1, l: 2}\nb: {m: 3}\n", "a: {l: 2}\nb: {m: 3, k: 1}\n"),
    ("a: {l: 2, k: 1}\nb: {}\n", "a: {l: 2}\nb: {k: 1}\n"),
    ("a: {k: 1}\nb: {m: 3,}\n", "a: {}\nb: {m: 3, k: 1,}\n"),
    ("a: {l: 2, k: 1}\nb:\n  m: 3\n", "a: {l: 2}\nb:\n  m: 3\n  k: 1\n"),
    ("a:\n  k: 1, 2\n  l: 2\nb: {m: 3}\n", "a:\n  l: 2\nb: {m: 3, k: '1, 2'}\n"),
    ("a:\n  k: 1  # c\nb: {}  # d\n", "a: {}\nb:  # d\n  k: 1  # c\n"),
    ("a: # d\n  # e\n\n  k: 1  # c\nb:\n      m: 1\n", "a: {} # d\n  # e\n\nb:\n      m: 1\n      k: 1  # c\n"),
    ("a:\n    k:\n        - x   # c\n        # under\n    # above l\n    l: 1\nb:\n    m: 1\n",
     "a:\n    # above l\n    l: 1\nb:\n    m: 1\n    k:\n        - x   # c\n        # under\n"),
    ("a:\n  k: |+\n    x\n\n  l: 1\nb:\n  m: 1\n", "a:\n  l: 1\nb:\n  m: 1\n  k: |+\n    x\n\n"),
    ("a:\n      k: |2-\n         x\n        y\n      l: 1\nb:\n  m: 1\n", "a:\n      l: 1\nb:\n  m: 1\n  k: |2-\n     x\n    y\n"),
    ("a:\n  k: \"one\n    two\"\n  l: 1\nb:\n  m: 1", "a:\n  l: 1\nb:\n  m: 1\n  k: \"one\n    two\""),
    ("b:\n  m: 1\na:\n  l: 1\n  k: 2", "b:\n  m: 1\n  k: 2\na:\n  l: 1\n"),
    ("a: {\n  # up\n  k: 1, # c\n  l: 2\n}\nb:\n  m: 1\n", "a: {\n  l: 2\n}\nb:\n  m: 1\n  # up\n  k: 1  # c\n"),
    ("a: {k: , l: 2}\nb: {m: }\n", "a: {l: 2}\nb: {m: , k: }\n"),
    ("a: {'k': {x: [1,\n  2]}, l: 2}\nb:\n  m: 1\n", "a: {l: 2}\nb:\n  m: 1\n  'k': {x: [1,\n    2]}\n"),
])
def test_a_key_is_moved_with_what_belongs_to_it(monkeypatch, before: str, after: str) -> None:
    draft = drafted(monkeypatch, f"format: 0\n{before}", Move("a.k", "b"))
    assert (asked(draft), draft.text) == ([], f"format: 1\n{after}")


@pytest.mark.parametrize("before, after", [
    ("a:\n  k: 1  # c\n", "a:\n  b:\n    c:\n      k: 1  # c\n"),
    ("a: {k: 1}\n", "a: {b: {c: {k: 1}}}\n"),
    ("a: {k: 1, l: 2} # d\n", "a: {l: 2, b: {c: {k: 1}}} # d\n"),
    ("a:\n    l: 1\n    b: {}\n    k: 2\n", "a:\n    l: 1\n    b: {c: {k: 2}}\n"),
    ("a:\n    l: 1\n    k: 2 # c\n    b: # d\n        e: 1\n", "a:\n    l: 1\n    b: # d\n        e: 1\n        c:\n            k: 2 # c\n"),
])
def test_a_group_that_is_not_there_is_made(monkeypatch, before: str, after: str) -> None:
    draft = drafted(monkeypatch, f"format: 0\n{before}", Move("a.k", "a.b.c"))
    assert (asked(draft), draft.text) == ([], f"format: 1\n{after}")


@pytest.mark.parametrize("before, after", [
    ("- k: 1 # c\n  l: 2\n", "- l: 2\n  g:\n    k: 1 # c\n"),
    ("- k: 1\n\n  # d\n  l: 2\n", "\n  # d\n- l: 2\n  g:\n    k: 1\n"),
    ("- k: 1 # c\n- k: 2\n", "- g:\n    k: 1 # c\n- g:\n    k: 2\n"),
    ("- l: 2\n  # c\n  k: 1\n", "- l: 2\n  g:\n    # c\n    k: 1\n"),
    ("- {k: 1}\n- {l: 1}\n", "- {g: {k: 1}}\n- {l: 1}\n"),
])
def test_a_key_of_a_list_line_is_moved(monkeypatch, before: str, after: str) -> None:
    lines = "".join(f"  {line}" if line.strip() else line for line in before.splitlines(True))
    wanted = "".join(f"  {line}" if line.strip() else line for line in after.splitlines(True))
    draft = drafted(monkeypatch, f"format: 0\na:\n{lines}", Move("a.*.k", "a.*.g"))
    assert (asked(draft), draft.text) == ([], f"format: 1\na:\n{wanted}")


def test_the_names_of_the_writer_are_carried_into_the_group(monkeypatch) -> None:
    draft = drafted(monkeypatch, "format: 0\na:\n  x: {k: 1, l: 2}\n  y: {k: 3}\n", Move("a.*.k", "b.*"), Drop("a.y"))
    assert draft.text == "format: 1\na:\n  x: {l: 2}\nb:\n  x:\n    k: 1\n  y:\n    k: 3\n" and draft.problems == []


@pytest.mark.parametrize("before, after", [
    ("a: 15\n", "s: 900\n"), ('"a": "0.5"  # c\n', '"s": "30"  # c\n'), ("a: '-1.25'\n", "s: '-75'\n"), ("a: 0\n", "s: 0\n"),
    ("a: [1, '2.5'] # c\n", "s: [60, '150'] # c\n"), ("a:\n  - 1 # c\n  - 0.1\n", "s:\n  - 60 # c\n  - 6\n"), ("a: -0.0\n", "s: 0\n"),
    ("a: 0.000001\n", "s: 0.00006\n"), ("a: 999999.5\n", "s: 59999970\n"),
])
def test_a_number_is_given_in_another_unit(monkeypatch, before: str, after: str) -> None:
    draft = drafted(monkeypatch, f"format: 0\n{before}", Convert("a", "s", Fraction(60)))
    assert (asked(draft), draft.text) == ([], f"format: 1\n{after}")


@pytest.mark.parametrize("before, after", [
    ("a: {}  # c\nb: 1\n", "# c\nb: 1\n"), ("a:\nb: 1\n", "b: 1\n"), ("# up\na: {}\n# down\n", "# up\n# down\n"),
])
def test_an_empty_group_goes_and_its_comments_stay(monkeypatch, before: str, after: str) -> None:
    draft = drafted(monkeypatch, f"format: 0\n{before}", Drop("a"))
    assert (asked(draft), draft.text) == ([], f"format: 1\n{after}")


@pytest.mark.parametrize("text, step, says", [
    ("a: soon\n", Convert("a", "s", Fraction(60)), '2:4 a: "soon" stands here, which is not a plain number'),
    ("a:\n", Convert("a", "s", Fraction(60)), '2:3 a: "" stands here'),
    ("a: {b: 1}\n", Convert("a", "s", Fraction(60)), "2:4 a: a group or a list stands here"),
    ("a: >-\n  15\n", Convert("a", "s", Fraction(60)), "2:1 a: this is written in an unusual way."),
    ("a:\n  - 1\n  - x\n", Convert("a", "s", Fraction(60)), '4:5 a.1: "x" stands here'),
    ("a: 0.1\n", Convert("a", "s", Fraction(1, 3)), '2:4 a: "0.1" cannot be given in the new unit without rounding.'),
    ("a: 999999999\n", Convert("a", "s", Fraction(60)), '2:4 a: "999999999" cannot be given'),
    ("a: 1\ns: 2\n", Rename("a", "s"), '2:1 a: this is called "s" now, and a key of that name stands in its group.'),
    ("a: {k: 1}\nb: {k: 2}\n", Move("a.k", "b"), "2:5 a.k: b.k is where this now belongs, and something stands there."),
    ("a: {k: 1}\nb: x\n", Move("a.k", "b"), "2:5 a.k: b.k is where this now belongs, but b is no group of keys."),
    ("a: {k: 1}\nb:\n", Move("a.k", "b.c"), "2:5 a.k: b.c.k is where this now belongs, but b is no group of keys."),
    ("a: {k: 1}\nb: [x]\n", Move("a.k", "b.c"), "2:5 a.k: b.c.k is where this now belongs, but b is no group of keys."),
    ("a:\n  k: 1 # c\n  l: 1\nb: {m: 1}\n", Move("a.k", "b"), "3:3 a.k: this goes into a group that is written in braces"),
    ("a:\n  k: |\n    x\n  l: 1\nb: {m: 1}\n", Move("a.k", "b"), "3:3 a.k: this goes into a group that is written in braces"),
    ("a: {l: 1, # c\n  k: 1}\n", Move("a.k", "b"), "3:3 a.k: a comment stands between the braces here"),
    ("a:\n  ? k\n  : 1\n  l: 1\n", Move("a.k", "b"), "3:5 a.k: more than this key stands in its line."),
    ("a: {k: 1}\n", Drop("a"), "2:1 a: this group is no longer known, and k stands in it."),
    ("a: loud\n", Drop("a"), "2:1 a: this group is no longer known, and a value stands in it."),
    ("a: ''\n", Drop("a"), "2:1 a: this group is no longer known, and a value stands in it."),
    ("a: []\n", Drop("a"), "2:1 a: this group is no longer known, and a value stands in it."),
])
def test_what_cannot_be_changed_safely_is_answered_at_its_line_and_stays(monkeypatch, text: str, step, says: str) -> None:
    draft = drafted(monkeypatch, f"format: 0\n{text}", step)
    assert len(draft.problems) == 1 and asked(draft)[0].startswith(says), asked(draft)
    assert draft.text == f"format: 1\n{text}" and draft.problems[0].written == f"format: 0\n{text}".split("\n")[draft.problems[0].line - 1]


def test_a_problem_is_answered_at_the_line_of_the_file_as_it_was_written(monkeypatch) -> None:
    text = "format: 0\na:\n  # c\n  k:\n    m: x\n  l: 1\nz: 1\n"
    draft = drafted(monkeypatch, text, Rename("a", "b"), Move("b.k", "c"), Convert("c.k.m", "s", Fraction(60)))
    assert asked(draft) == ['5:8 a.k.m: "x" stands here, which is not a plain number and cannot be given in another unit.']


def test_one_bad_place_of_many_is_answered_and_the_others_are_not(monkeypatch) -> None:
    text = "format: 0\n" + "".join(f"d{n}:\n  k: {'x' if n == 3 else n}\n" for n in range(9))
    draft = drafted(monkeypatch, text, Convert("*.k", "s", Fraction(2)))
    assert asked(draft) == ['9:6 d3.k: "x" stands here, which is not a plain number and cannot be given in another unit.']


def test_two_keys_of_one_group_that_each_work_alone_are_both_moved(monkeypatch) -> None:
    draft = drafted(monkeypatch, "format: 0\na: {k: {v: 1}, l: {v: 2}}\n", Move("a.*.v", "b.*"))
    assert (asked(draft), draft.text) == ([], "format: 1\na: {k: {}, l: {}}\nb:\n  k:\n    v: 1\n  l:\n    v: 2\n")


def test_what_follows_from_a_problem_is_not_answered_too(monkeypatch) -> None:
    draft = drafted(monkeypatch, "format: 0\na: {k: 1, l: 2}\nb: x\n", Move("a.*", "b"), Drop("a"), Rename("a", "c"))
    assert [one.field for one in draft.problems] == ["a.k", "a.l"]


def test_data_in_another_order_are_not_the_same() -> None:
    assert same({"a": ["1", {"b": "2", "c": None}]}, {"a": ["1", {"b": "2", "c": None}]})
    for other in ({"a": ["1", {"c": None, "b": "2"}]}, {"a": [{"b": "2", "c": None}, "1"]}, {"a": ["1"]}, {"a": "1"}):
        assert not same({"a": ["1", {"b": "2", "c": None}]}, other)


def test_steps_of_several_formats_follow_each_other(monkeypatch) -> None:
    monkeypatch.setitem(formats.FORMATS, "job", 2)
    monkeypatch.setattr(migrations, "MIGRATIONS", {("job", 0): (Rename("a", "b"),), ("job", 1): (Rename("b", "c"),)})
    for text in ("format: 0\na: 1\n", "format: 1\nb: 1\n"):
        assert current(tree_of(text, "job.yaml"), "job", text).text == "format: 2\nc: 1\n"


def test_a_key_cannot_be_moved_into_itself() -> None:
    with pytest.raises(ValueError):
        Move("a.b", "a.b.c")
    Move("a.b", "a.bc")


def test_a_way_names_every_place_it_means() -> None:
    data = {"a": {"x": {"k": 1}, "y": {"l": 1}, "z": "k"}, "b": [{"k": 1}, "k"]}
    assert list(places(data, "a.*.k")) == [("a", "x", "k")] and list(places(data, "b.*.k")) == [("b", 0, "k")]
    assert filled("c.*.d", "a.*.k", ("a", "x", "k")) == ("c", "x", "d")


def test_an_edit_that_would_lose_a_comment_or_change_a_value_is_not_made(monkeypatch) -> None:
    real = steps_on_text.moved
    text = "format: 0\na:\n  k: 1  # c\n  l: 2\nb:\n  m: 1\n"
    for spoil in (lambda new: re.sub("# c", "", new), lambda new: new.replace("k: 1", "k: 2"), lambda new: new.replace("k: 1", "k: [")):
        monkeypatch.setattr(steps_on_text, "moved", lambda *given: [(one, other, spoil(new)) for one, other, new in real(*given)])
        draft = drafted(monkeypatch, text, Move("a.k", "b"))
        assert asked(draft) == ["3:3 a.k: this cannot be changed without harm to what stands round it."]
        assert draft.text == text.replace("0", "1", 1)
