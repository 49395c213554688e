"""What would MkDocs alone cost: the same finished pages as Markdown files, one folder and one mkdocs.yml a reader?"""
import shutil
import sys
from collections.abc import Iterable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import asdict
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import yaml
from mkdocs.utils.yaml import yaml_load

from generator.pages.page import Pack, Page
from generator.publish.places import MKDOCS_CONFIG, TEMPLATES
from generator.publish.plugin import SEARCHED, SHIM
from generator.publish.render import environment, render, translations
from generator.terms.audience import Audience
from process import run

# As many sites at a time as our build makes at a time.
WORKERS = 1


def write_sources(packs: Iterable[Pack], folder: Path) -> list[Path]:
    """Writes one plain site's source for each reader who gets a site. Gives the paths of their mkdocs.yml."""
    return [_write_source(pack, folder / pack.audience.value) for pack in packs
            if pack.audience is not Audience.STATION]


def build_sites(sources: Iterable[Path], out: Path) -> None:
    """Builds every plain site into out/<reader>, each in a fresh process."""
    commands = [[sys.executable, "-m", "mkdocs", "build", "-q", "-f", str(source), "-d", str(out / source.parent.name)]
                for source in sources]
    with ThreadPoolExecutor(WORKERS) as pool:
        list(pool.map(run, commands))


def _write_source(pack: Pack, folder: Path) -> Path:
    docs = folder / "docs"
    shutil.copytree(TEMPLATES / "assets", docs)
    env = environment(translations())
    for page in pack.pages:
        file = docs / _source_name(page)
        file.parent.mkdir(exist_ok=True)
        # One element around everything makes the page one raw block, blank lines or not.
        file.write_text(f"<div>\n{render(page, env).html}\n</div>\n", encoding="utf-8")
    config = folder / "mkdocs.yml"
    config.write_text(yaml.safe_dump(_settings(pack), allow_unicode=True, sort_keys=False), encoding="utf-8")
    return config


def _source_name(page: Page) -> str:
    return page.path.removesuffix(".html") + ".md"


def _settings(pack: Pack) -> dict[str, Any]:
    """Our own settings, with MkDocs' own search in place of our plugin and written out what the plugin sets."""
    searched = pack.audience in SEARCHED
    with open(MKDOCS_CONFIG, "rb") as handle:
        settings = yaml_load(handle)
    settings["theme"]["custom_dir"] = str(TEMPLATES / "theme")
    settings["extra"] |= {"stamp": asdict(pack.stamp), "searched": searched, "polyfills": [SHIM] if searched else []}
    return settings | {"site_name": pack.stamp.title, "docs_dir": "docs", "plugins": ["search"] if searched else [],
                       "nav": _navigation(pack)}


def _navigation(pack: Pack) -> list[dict[str, Any]]:
    groups: dict[str, list[dict[str, Any]]] = {}
    nav: list[dict[str, Any]] = []
    for page in pack.pages:
        entry = {page.title: _source_name(page)}
        if page.group and page.group not in groups:
            groups[page.group] = []
            nav.append({page.group: groups[page.group]})
        (groups[page.group] if page.group else nav).append(entry)
    return nav


class _Article(HTMLParser):
    """Keeps what stands in <article>: its text and what its attributes say."""

    def __init__(self) -> None:
        super().__init__()
        self.inside, self.words = False, []

    def handle_starttag(self, tag: str, attributes: list[tuple[str, str | None]]) -> None:
        self.inside = self.inside or tag == "article"
        if self.inside and tag != "article":
            self.words += [f"{name}={value}" for name, value in attributes]

    def handle_endtag(self, tag: str) -> None:
        self.inside = self.inside and tag != "article"

    def handle_data(self, data: str) -> None:
        self.words += data.split() if self.inside else []


def article(html: str) -> list[str]:
    """The words and attributes of a page's article, in order."""
    parser = _Article()
    parser.feed(html)
    parser.close()
    return parser.words


def differing(packs: Iterable[Pack], ours: Path, plain: Path) -> tuple[int, list[str]]:
    """How many pages were compared with the plain sites, and which are missing, empty or not the same in one."""
    names = [f"{pack.audience.value}/{page.path}" for pack in packs if pack.audience is not Audience.STATION
             for page in pack.pages]

    def words(folder: Path, name: str) -> list[str]:
        file = folder / name
        return article(file.read_text(encoding="utf-8")) if file.is_file() else []

    return len(names), [name for name in names if not words(ours, name) or words(ours, name) != words(plain, name)]
