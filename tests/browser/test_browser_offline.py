"""Does every pack work with the network cut, from the disk and from a server, and stay inside its own folder?"""
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from urllib.parse import unquote, urlsplit

import pytest
from playwright.sync_api import Browser

from tests.browser.pages import AUDIENCES, Noticed, below, new_context, notice, only_from, outside, pages_of, rooted


@dataclass
class Tour:
    """One visit to every page of a pack."""

    root: str
    files: set[str]
    pages: list[str]
    seen: Noticed
    links: dict[str, list[str]] = field(default_factory=dict)
    ids: dict[str, set[str]] = field(default_factory=dict)


@pytest.fixture(scope="module", params=[(audience, way) for audience in AUDIENCES for way in ("file", "loopback")],
                ids=lambda pair: "-".join(pair))
def tour(request: pytest.FixtureRequest, chromium: Browser, demo: Path) -> Iterator[Tour]:
    """Every page of one reader's pack, opened in turn with the network cut."""
    audience, way = request.param
    with rooted(demo / audience, way) as root:
        yield visit_all(chromium, demo / audience, root)


def visit_all(browser: Browser, pack: Path, root: str) -> Tour:
    """Opens every page of a pack; from the disk the browser is offline, from a server all else is cut off."""
    on_disk = root.startswith("file:")
    context = new_context(browser, offline=on_disk)
    if not on_disk:
        only_from(context, root)
    seen = notice(context)
    page = context.new_page()
    done = Tour(root, files_of(pack), [one.relative_to(pack).as_posix() for one in pages_of(pack)], seen)
    for name in done.pages:
        page.goto(root + name)
        done.links[name] = page.evaluate("seen.links()")
        done.ids[name] = set(page.evaluate("seen.ids()"))
    # A page left behind may still ask for something.
    page.goto("about:blank")
    context.close()
    return done


def broken_links(tour: Tour) -> list[str]:
    """Every link that leads out of the pack, to no file, or to no anchor."""
    out = []
    for page, links in tour.links.items():
        for link in (one for one in links if not one.startswith("tel:")):
            target, anchor = below(link, tour.root), unquote(urlsplit(link).fragment)
            if outside([link], tour.root) or target not in tour.files:
                out.append(f"{page}: {link}")
            elif anchor and anchor not in tour.ids[target]:
                out.append(f"{page}: {link} has no such anchor")
    return out


def files_of(pack: Path) -> set[str]:
    """The names of all files of a pack."""
    return {path.relative_to(pack).as_posix() for path in pack.rglob("*") if path.is_file()}


def test_no_page_asks_for_anything_outside_its_own_pack(tour: Tour) -> None:
    assert {below(one, tour.root) for one in tour.seen.requests} >= set(tour.pages)
    assert outside([one for one in tour.seen.requests if one != "about:blank"], tour.root) == []


def test_no_page_reports_an_error(tour: Tour) -> None:
    assert not tour.seen.faults, "\n".join(tour.seen.faults)
    assert tour.seen.dialogs == []


def test_every_link_leads_to_a_file_and_an_anchor_that_exist(tour: Tour) -> None:
    assert sum(map(len, tour.links.values())) > 0 or tour.pages == ["index.html"]
    assert broken_links(tour) == []


@pytest.mark.parametrize("way", ["file", "loopback"])
def test_a_page_that_asks_elsewhere_or_links_nowhere_is_found(chromium: Browser, tmp_path: Path, way: str) -> None:
    pack = tmp_path / "homeowner"
    pack.mkdir()
    (tmp_path / "beside.css").write_text("p{color:red}", encoding="utf-8")
    (pack / "index.html").write_text(
        '<!doctype html><title>x</title><link rel="stylesheet" href="../beside.css">'
        '<img src="https://elsewhere.example/a.png">'
        '<a href="gone.html">a</a><a href="#gone">b</a><script>throw new Error("bad")</script>', encoding="utf-8")
    with rooted(pack, way) as root:
        tour = visit_all(chromium, pack, root)
    asked = outside(tour.seen.requests, root)
    assert "https://elsewhere.example/a.png" in asked
    assert any("bad" in fault for fault in tour.seen.faults)
    broken = {line.split()[1].rpartition("/")[2] for line in broken_links(tour)}
    assert broken == {"beside.css", "a.png", "gone.html", "index.html#gone"}
    if way == "file":
        assert (tmp_path / "beside.css").as_uri() in asked
