"""Is a pack in one file that is too large built all the same, and is it said where it is read?"""
import re

import pytest
from bs4 import BeautifulSoup

from generator.cli import main
from generator.publish import pocket_size
from generator.publish.pack import in_the_hand
from generator.publish.pocket import MOST_BYTES, pocket
from generator.publish.pocket_size import size_note, weights
from generator.publish.render import translations
from generator.terms.audience import Audience
from tests.conftest import DEMO, packs_of


@pytest.fixture(scope="module")
def pack():
    return next(one for one in packs_of(DEMO / "job.yaml") if one.audience is Audience.INSTALLER)


@pytest.fixture(scope="module")
def text(pack) -> str:
    return pocket(pack, translations())


def test_a_file_of_up_to_a_million_bytes_is_no_matter_and_a_larger_one_says_how_large_it_is_and_what_to_do(text: str) -> None:
    small = text.encode()
    assert len(small) < MOST_BYTES and size_note(text) == ""
    assert size_note(text.ljust(len(text) + MOST_BYTES - len(small))) == ""
    note = size_note(text.ljust(len(text) + 2 * MOST_BYTES - len(small)))
    assert note.startswith("pocket.html has 2.00 MB; up to 1.00 MB are tried.") and "try it on the phone" in note
    assert note.count("MB") + note.count("kB") == 5


def test_the_parts_weigh_together_what_stands_from_the_first_page_on(text: str) -> None:
    """Counted once more by a parser of HTML: how many pages there are of each kind."""
    found, parts = weights(text), BeautifulSoup(text, "html5lib").select("main > div[id]")
    assert sum(found.values()) == len(text[text.index("<div", text.index("<main")):].encode())
    assert len(parts) > 20 and {"the steps", "the pages of units", "plan.html", "the script and what it is told"} <= set(found)
    heavy = max(parts, key=lambda one: len(str(one)) if re.match("plan-html", one["id"]) else 0)
    assert found["plan.html"] == pytest.approx(len(str(heavy).encode()), rel=0.2)


def test_the_page_of_ways_to_carry_says_it_in_the_folder_and_in_the_file(pack, monkeypatch: pytest.MonkeyPatch) -> None:
    quiet, _ = in_the_hand(pack)
    assert quiet is pack
    monkeypatch.setattr(pocket_size, "MOST_BYTES", 100_000)
    told, text = in_the_hand(pack)
    note = next(way.note for page in told.pages if page.path == "carry.html" for way in page.view.ways if way.id == "one-file")
    assert note.startswith("pocket.html has ") and note in " ".join(BeautifulSoup(text, "html5lib").find(id="carry-html").get_text(" ").split())


def test_the_build_says_it_in_a_line_and_does_not_stop(tmp_path, monkeypatch: pytest.MonkeyPatch, capsys) -> None:
    monkeypatch.setattr(pocket_size, "MOST_BYTES", 100_000)
    assert main(["build", str(DEMO), "--out", str(tmp_path)]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert [one for one in lines if one.startswith("K-2041 note pocket.html has ")] and (tmp_path / "K-2041" / "pocket.html").is_file()
