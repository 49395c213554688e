"""Does the installer find a unit by a word, offline and from wherever the pack lies, and has nobody else a search?"""
import csv
from itertools import cycle
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from playwright.sync_api import Page, expect

from tests.browser.pages import (AUDIENCES, RESULT, STARTS, Contexts, notice, only_from, outside, pages_of, rooted,
                                 search, search_again)


def zones(pack: Path) -> list[tuple[str, str]]:
    """Text and short reference of each zone, from the station's table."""
    with open(pack / "station" / "zones.csv", encoding="utf-8", newline="") as handle:
        return [(row["text"], row["reference"]) for row in csv.DictReader(handle)]


@pytest.mark.parametrize("way", ["file", "loopback"])
def test_typing_a_units_text_finds_its_page_which_opens(demo: Path, context: Contexts, way: str) -> None:
    wanted = zones(demo)
    assert len(wanted) > len(STARTS)
    with rooted(demo / "installer", way) as root:
        window = context(offline=way == "file")
        if way == "loopback":
            only_from(window, root)
        seen, page = notice(window), window.new_page()
        for (text, reference), start in zip(wanted, cycle(STARTS)):
            own_page = f"{root}d/{reference.lower()}.html"
            page.goto(root + start)
            search(page, text)
            page.locator(f"{RESULT}[href^='{own_page}']").first.click()
            page.wait_for_url(lambda url: url.startswith(own_page))
            expect(page.locator("article")).to_contain_text(text)
        assert outside(seen.requests, root) == []
        assert seen.faults == []


def test_a_reference_read_aloud_finds_its_unit_and_nonsense_finds_nothing(demo: Path, phone: Page) -> None:
    for text, reference in zones(demo):
        phone.goto((demo / "installer" / "index.html").as_uri())
        search(phone, reference.lower())
        assert phone.locator(RESULT).first.inner_text()
        assert phone.locator(f"{RESULT}[href*='/d/{reference.lower()}.html']").count()
    search_again(phone, "qqxqq")
    expect(phone.locator(".md-search-result__meta")).to_have_text("No matching documents")
    assert phone.locator(RESULT).count() == 0


@pytest.mark.parametrize("audience", [one for one in AUDIENCES if one != "installer"])
def test_no_other_pack_holds_a_search_index_or_a_script(demo: Path, audience: str) -> None:
    pack = demo / audience
    names = [path.name for path in pack.rglob("*")]
    assert [name for name in names if name.endswith((".js", ".mjs", ".wasm")) or "search_index" in name] == []
    for file in pages_of(pack):
        page = BeautifulSoup(file.read_text(encoding="utf-8"), "html5lib")
        name = file.relative_to(pack)
        assert [str(one)[:60] for one in page.find_all("script")] == [], name
        assert [str(one)[:60] for one in page.find_all(_runs_a_script)] == [], name


def _runs_a_script(tag) -> bool:
    return any(name.startswith("on") or str(value).strip().lower().startswith("javascript:")
               for name, value in tag.attrs.items())
