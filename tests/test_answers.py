"""Do people see where a mistake is, with the line and a caret under the place?"""
from generator.terms.problem import Problem


def test_the_caret_stands_under_the_place() -> None:
    shown = Problem("job.yaml", 3, 12, "a.b", "says.", "do.", "  entry_s: half").with_caret().splitlines()
    assert shown[0] == "job.yaml:3:12 a.b: says. do." and shown[1][shown[2].index("^"):] == "half"


def test_a_long_line_is_cut_round_the_place() -> None:
    shown = Problem("job.yaml", 3, 301, "a", "says.", "do.", "x" * 300 + "HERE" + "y" * 300).with_caret().splitlines()
    assert max(map(len, shown)) <= 78 and shown[1][shown[2].index("^"):].startswith("HERE")


def test_a_file_as_a_whole_has_no_caret() -> None:
    assert "^" not in Problem("job.yaml", 0, 0, "", "says.", "do.").with_caret()
