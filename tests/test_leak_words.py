"""Is a hidden value looked for as surely as by trying everything: every way to piece words together, every line of every file?"""
from itertools import combinations
from pathlib import Path

import jinja2
import pytest
from hypothesis import given, settings, strategies as st

from generator.calc.hidden import MOST_PIECES, Hidden, Wording, pieces
from generator.publish.leaks import Found, file_text, search
from generator.publish.render import environment, translations
from generator.terms.audience import Audience

WORDS = st.sampled_from(("front", "door", "hall", "key"))
TEXTS = st.lists(st.lists(WORDS, max_size=6).map(" ".join), max_size=4)
HOMEOWNER, FIELD = Audience.HOMEOWNER, "job.note"


def tried(words: tuple[str, ...], texts: list[list[str]]) -> int:
    """The fewest pieces, found by cutting the words in every way."""
    said = [f" {text} ".replace("_", " ") for wording in texts for text in wording]
    for cuts in range(MOST_PIECES):
        for places in combinations(range(1, len(words)), cuts):
            ends = (0, *places, len(words))
            if all(any(f" {' '.join(words[start:end])} " in text for text in said) for start, end in zip(ends, ends[1:])):
                return cuts + 1
    return MOST_PIECES + 1


@settings(max_examples=400, deadline=None)
@given(st.lists(WORDS, min_size=1, max_size=7).map(tuple), TEXTS, TEXTS)
def test_no_way_of_cutting_words_needs_fewer_pieces(words: tuple[str, ...], one: list[str], other: list[str]) -> None:
    assert pieces(words, (Wording.of(one), Wording.of(other))) == tried(words, [one, other])


def test_a_wording_answers_the_same_when_it_is_asked_again() -> None:
    wording = Wording.of(["The front_door", "hall key"])
    for _ in range(2):
        assert wording.says(("front", "door")) and not wording.says(("door", "hall")) and not wording.says(("cellar",))


@pytest.mark.parametrize(("value", "page"), [
    ("gain > 3 db", "<p>gain &gt; 3 dB</p>"), ("gain > 3 db", '<p title="gain > 3 dB">x</p>'), ("front door", '<p title="front\n  door">x</p>'),
    ("front door", "<!-- a > front door -->"), ("front door", "<script>if (1 < 2) say('front door')</script>"), ("front door", "<p>front&#10;door</p>"),
    ("li>", "<ul><li> x</ul>"), ("front door", "<p>the <b>front</b> <i>door</i>.</p>"),
])
def test_a_value_is_found_beside_marks_and_across_the_ends_of_lines(tmp_path: Path, value: str, page: str) -> None:
    (tmp_path / "index.html").write_text(page, encoding="utf-8")
    assert list(search(HOMEOWNER, tmp_path, (), (), (Hidden(value, FIELD),))) == [Found(HOMEOWNER, "index.html", value, FIELD)]


def test_what_is_found_in_a_pack_is_what_stands_in_the_text_of_each_file(demo: Path) -> None:
    folder = demo / HOMEOWNER.value
    # Each holds a digit, so that it is looked for anywhere, and not as words of its own.
    values = ("4", "2026", "k-2041", "h2>", "</h2> <p", 'h2 id="', "no such 9")
    found = {(one.file, one.text) for one in search(HOMEOWNER, folder, (), (), tuple(Hidden(value, FIELD) for value in values))}
    texts = {path.relative_to(folder).as_posix(): file_text(path.read_text(encoding="utf-8"), ".html") for path in folder.rglob("*.html")}
    assert {one for one in found if one[0] in texts} == {(name, value) for name, text in texts.items() for value in values if value in text}
    assert {value for _, value in found} == {*values} - {"no such 9"}


def test_a_template_is_compiled_once_for_a_page_and_for_the_file_in_one_piece(monkeypatch: pytest.MonkeyPatch) -> None:
    first = environment(translations())
    first.get_template("installer/device.html.j2")
    compiled: list[str] = []
    monkeypatch.setattr(jinja2.Environment, "compile", lambda self, source, name=None, *rest, **named: compiled.append(name))
    assert first.overlay().get_template("installer/device.html.j2").name == "installer/device.html.j2"
    assert compiled == []
