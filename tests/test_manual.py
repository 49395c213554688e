"""Does the manual appear whole or not at all, the same every time, complete in itself and readable without a network or a script?"""
import os
import re
import shutil
import subprocess
import sys
from dataclasses import replace
from pathlib import Path
from urllib.parse import unquote, urldefrag

import pytest
from bs4 import BeautifulSoup

from generator.cli import parser
from generator.cli.manual import manual_site
from generator.pages.manual.ladder import compared
from generator.publish import manual as writing
from generator.publish.manual import write_manual
from generator.publish.page_text import page_text
from generator.publish.places import own_wording
from generator.publish.swap import ASIDE, BESIDE
from generator.terms.problem import CannotWrite
from tests.conftest import ROOT

MANIFEST = "manifest-sha256.txt"


@pytest.fixture(scope="module")
def pages(manual: Path) -> dict[str, BeautifulSoup]:
    """Every page by its path."""
    return {path.relative_to(manual).as_posix(): BeautifulSoup(path.read_text(encoding="utf-8"), "html5lib")
            for path in sorted(manual.rglob("*.html"))}


def tree(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_the_same_program_gives_the_same_bytes_in_another_folder_another_zone_and_another_order_of_hashes(manual: Path, tmp_path: Path) -> None:
    env = os.environ | {"PYTHONPATH": str(ROOT), "TZ": "Pacific/Auckland", "PYTHONHASHSEED": "7", "COLUMNS": "40", "LC_ALL": "C", "HOME": str(tmp_path)}
    done = subprocess.run([sys.executable, "-m", "generator", "manual", "--out", "there/manual"], cwd=tmp_path, env=env, capture_output=True, text=True)
    assert (done.returncode, done.stdout, done.stderr) == (0, "there/manual\n", "")
    assert tree(tmp_path / "there" / "manual") == tree(manual)


def test_a_page_names_no_place_on_this_machine(manual: Path) -> None:
    assert [name for name, content in tree(manual).items() if str(ROOT).encode() in content or b"/tmp/" in content] == []


def test_every_file_but_the_list_is_in_the_list(manual: Path) -> None:
    listed = {line.partition("  ")[2] for line in (manual / MANIFEST).read_text().splitlines()}
    assert listed == set(tree(manual)) - {MANIFEST} and "index.html" in listed


def faults(pages: dict[str, BeautifulSoup], files: set[str]) -> list[str]:
    """Links, pictures, styles and scripts that lead out of the folder, to no file, or to no place on a page; ids that stand twice."""
    out = []
    ids = {path: [one["id"] for one in soup.find_all(id=True)] for path, soup in pages.items()}
    out += [f"{path}: {one} twice" for path, found in ids.items() for one in sorted({one for one in found if found.count(one) > 1})]
    for path, soup in pages.items():
        for one in soup.find_all(["a", "link", "script", "img"]):
            target = one.get("href") or one.get("src")
            if target is None or target.startswith("javascript:void"):
                continue
            way, place = urldefrag(unquote(target))
            to = os.path.normpath(os.path.join(os.path.dirname(path), way)) if way else path
            if ":" in way or to not in files and to != ".":
                out.append(f"{path}: {target}")
            elif place and to in ids and place not in ids[to]:
                out.append(f"{path}: {target} has no such place")
    return out


def test_every_link_leads_to_a_place_in_the_folder(pages, manual: Path) -> None:
    assert faults(pages, set(tree(manual))) == []


@pytest.mark.parametrize("html, fault", [
    ('<a href="https://other.example/">', "https"), ('<a href="gone.html">', "gone.html"), ('<a href="index.html#nowhere">', "no such place"),
    ('<i id="x"></i><i id="x"></i>', "twice"),
])
def test_a_link_that_leads_nowhere_is_seen(html: str, fault: str) -> None:
    assert fault in faults({"index.html": BeautifulSoup(html, "html5lib")}, {"index.html"})[0]


def test_a_page_can_be_read_without_a_script(pages) -> None:
    for path, soup in pages.items():
        article = soup.select_one("article")
        assert article.find("h1") and len(article.get_text(" ", strip=True)) > 100, path
        assert not article.find(["script", "iframe", "object"]) and not article.find(hidden=True), path


def test_the_search_knows_every_key_and_rule_at_its_own_place(manual: Path) -> None:
    index = (manual / "search" / "search_index.json").read_text(encoding="utf-8")
    assert '"keys/job.html#times.entry_s"' in index and '"rules/times.html#entry-time-long"' in index


@pytest.fixture(scope="module")
def short():
    """A manual of two pages, quickly written."""
    whole = manual_site(parser())
    return lambda: replace(whole, pages=(whole.pages[0], next(one for one in whole.pages if one.path == "files.html")))


def test_a_second_manual_takes_the_place_of_the_first(tmp_path: Path, short) -> None:
    out = tmp_path / "manual"
    assert write_manual(short, out) == out
    before = tree(out)
    (out / "files.html").write_text("old", encoding="utf-8")
    assert write_manual(short, out) == out and tree(out) == before
    assert [path.name for path in tmp_path.iterdir()] == ["manual"]


def test_the_folder_one_stands_in_is_filled_if_it_is_empty(tmp_path: Path, run, monkeypatch) -> None:
    (tmp_path / "here").mkdir()
    monkeypatch.chdir(tmp_path / "here")
    assert run("manual", "--out", ".")[0] == 0 and (tmp_path / "here" / "index.html").is_file()


@pytest.mark.parametrize("put", ["a stranger's file", "a file", "a link", "a file in a manual"])
def test_a_folder_that_holds_something_else_is_not_touched(tmp_path: Path, run, manual: Path, put: str) -> None:
    out = tmp_path / "manual"
    if put == "a file":
        out.write_text("mine", encoding="utf-8")
    elif put == "a link":
        (tmp_path / "elsewhere").mkdir()
        out.symlink_to(tmp_path / "elsewhere")
    else:
        if put == "a file in a manual":
            shutil.copytree(manual, out)
        else:
            out.mkdir()
        (out / "mine.txt").write_text("mine", encoding="utf-8")
    before = tree(tmp_path)
    code, said, err = run("manual", "--out", out)
    assert (code, said) == (4, "") and re.fullmatch(r"doorpost: .*Move it away.*\n", err)
    assert tree(tmp_path) == before and not any(path.name.startswith((BESIDE, ASIDE)) for path in tmp_path.iterdir())


def test_a_pack_is_not_overwritten_by_a_manual_into_the_folder_round_it(tmp_path: Path, run, demo: Path) -> None:
    shutil.copytree(demo, tmp_path / "packs" / demo.name)
    assert run("manual", "--out", tmp_path / "packs")[0] == 4
    assert tree(tmp_path / "packs" / demo.name) == tree(demo)


@pytest.mark.parametrize("step", ["write_with_mkdocs", "write_manifest", "same_modes", "swap_in"])
def test_an_error_in_the_middle_leaves_the_earlier_manual_and_nothing_beside_it(
        tmp_path: Path, monkeypatch, manual: Path, short, step: str) -> None:
    out = tmp_path / "manual"
    shutil.copytree(manual, out)

    def full(*_) -> None:
        raise OSError(28, "No space left on device")
    monkeypatch.setattr(writing, step, full)
    with pytest.raises(CannotWrite, match="No space left"):
        write_manual(short, out)
    assert tree(out) == tree(manual) and [path.name for path in tmp_path.iterdir()] == ["manual"]


def test_the_manuals_own_words_are_none_of_a_packs() -> None:
    """Else the search for leaks would pass over a value that only the glossary or the prose of the manual holds."""
    glossary = (ROOT / "generator" / "tables" / "glossary.py").read_text(encoding="utf-8")
    assert "arming station" in glossary and "arming" not in own_wording().words and "checklist" in own_wording().words


def test_packs_hold_nothing_of_the_manual(demo: Path, manual: Path) -> None:
    assert (manual / "manual.css").is_file() and not list(demo.rglob("manual.css"))


@pytest.mark.parametrize("before, now, marks", [
    ("", "ab", "a b"), ("ab", "ab", "a b"), ("ab", "axb", "a +x b"), ("axb", "ab", "a −x b"), ("ab", "ac", "a −b +c"),
])
def test_lines_are_new_gone_or_as_they_were(before: str, now: str, marks: str) -> None:
    lines = compared([(one, one) for one in before], [(one, one) for one in now])
    assert [one.mark + one.text for one in lines] == marks.split()
    assert all(one.tag == {"+": "ins", "−": "del", "": "span"}[one.mark] for one in lines)


def test_lines_that_differ_only_in_what_is_left_out_of_the_comparison_are_the_same() -> None:
    assert [one.mark for one in compared([("L-01 x", " x")], [("L-02 x", " x")])] == [""]


def test_a_page_is_read_as_lines_without_its_markup() -> None:
    html = ('<h1>A &amp; B</h1><div><p>one<br>two <b>three</b></p><svg><text>unsaid</text></svg><table><tr><th>1</th><td>x</td><td></td></tr></table>'
            '<dl><dt>name</dt><dd>value</dd></dl></div>')
    assert page_text(html) == ("A & B", "one two three", "1 · x", "name: value")
