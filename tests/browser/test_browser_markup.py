"""Are all pages, and the style sheets that are ours, valid by the Nu HTML Checker?"""
from pathlib import Path

import pytest

from tests.browser.checker import faults
from tests.browser.pages import AUDIENCES, pages_of
from tests.conftest import ROOT


def test_every_page_of_every_reader_is_valid_with_and_without_a_web_address(demo: Path, published: Path) -> None:
    pages = [page for packs in (demo, published) for audience in AUDIENCES for page in pages_of(packs / audience)]
    assert not (out := faults(pages)), "\n".join(out)


def test_our_style_sheets_are_valid() -> None:
    assert not (out := faults(sorted((ROOT / "templates").rglob("*.css")), "--css")), "\n".join(out)


@pytest.mark.parametrize(("name", "text"), [("a.html", "<!doctype html><title>x</title><p id=a><p id=a>"),
                                            ("a.css", "p { colour: red }")])
def test_a_fault_is_found(tmp_path: Path, name: str, text: str) -> None:
    (tmp_path / name).write_text(text, encoding="utf-8")
    assert faults([tmp_path / name], *(["--css"] if name == "a.css" else []))
