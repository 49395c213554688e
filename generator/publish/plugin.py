"""The seam to MkDocs: pages in as ready HTML with their table of contents, navigation set, what no pack needs left out.

`mkdocs serve` makes the plugin from mkdocs.yml and lets it read the job itself; `doorpost build` and `manual` hand it the site.
"""
import json
import os
from pathlib import Path
from typing import Any

from markupsafe import escape
from mkdocs.config import config_options
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin, event_priority
from mkdocs.structure.files import File, Files
from mkdocs.structure.pages import Page as SitePage
from mkdocs.structure.toc import AnchorLink, TableOfContents

from generator.pages.installer.find import FIND
from generator.pages.installer.steps import STYLE as HAND
from generator.pages.manual.whole import STYLE as MANUAL
from generator.pages.page import ON_PAPER, Pack, Page, Site, is_device_path
from generator.pipeline import compile_job, looked_for, pack_of
from generator.publish.hand import DATA, SCRIPT, hand_files
from generator.publish.phone import ICONS, MANIFEST
from generator.publish.places import own_wording
from generator.publish.render import Heading, environment, render, translations
from generator.publish.theme import lean_env
from generator.terms.audience import Audience
from generator.terms.problem import JobInvalid

# Readers whose pack has a search; the others' packs hold no index of their words.
SEARCHED = (Audience.INSTALLER,)
SHIM = "iframe-worker.js"
THEME_SCRIPT = "<script>__md_scope="
# Two check boxes of the theme carry an attribute that HTML allows on text fields only.
THEME_FAULT = ' type="checkbox" id="__{}" autocomplete="off"'


# How many times as much a word counts on the page of a unit; tried on the demo jobs.
UNIT_BOOST = 4


class PackConfig(Config):
    """Which job and which reader."""

    job = config_options.Type(str, default="")
    audience = config_options.Choice([one.value for one in Audience if one is not Audience.STATION], default="installer")


class ReadyPage(SitePage):
    """A page whose content is finished before MkDocs sees it.

    The theme prints titles as they are, without an escape of its own: they are handed to it escaped, here and for the site.
    """

    def __init__(self, page: Page, file: File, config: MkDocsConfig, html: str, headings: tuple[Heading, ...]):
        super().__init__(escape(page.title), file, config)
        self._told = _told(page)
        self._html, self._headings = html, headings

    def read_source(self, config: MkDocsConfig) -> None:
        self.markdown, self.meta = "", self._told

    def render(self, config: MkDocsConfig, files: Files) -> None:
        self.content = self._html
        self.toc = TableOfContents(_nested(self._headings))
        self.present_anchor_ids = {heading.id for heading in self._headings}


def _told(page: Page) -> dict[str, dict[str, bool | int]]:
    """What the search is told of a page. What is there to be printed says again what other pages say; whoever types a unit's text wants its page
    before those of steps that name it among others."""
    if page.group == ON_PAPER:
        return {"search": {"exclude": True}}
    return {"search": {"boost": UNIT_BOOST}} if is_device_path(page.path) else {}


def _nested(headings: tuple[Heading, ...]) -> list[AnchorLink]:
    top: list[AnchorLink] = []
    for heading in headings:
        link = AnchorLink(heading.title, heading.id, heading.level)
        (top[-1].children if heading.level > 2 and top else top).append(link)
    return top


def site_of(pack: Pack) -> Site:
    """A reader's pack as MkDocs prints it."""
    return Site(pack.stamp.title, pack.foot, pack.audience in SEARCHED, pack.pages, HAND if pack.hand else "", pack.hand)


class PackPlugin(BasePlugin[PackConfig]):
    """One reader's pack, or the manual, as a MkDocs site."""

    site: Site | None = None
    say = None

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        self.say = self.say or translations()
        self.shown = self.site or site_of(self._read(config))
        searched = self.shown.searched
        config.plugins["material/search"].config.enabled = searched
        config.site_name = escape(self.shown.title)
        config.extra["polyfills"] = [SHIM] if searched else []
        config.extra["foot"] = self.shown.foot
        config.extra["searched"] = searched
        config.extra["switched"] = self.shown.style == HAND
        # What it is told stands before the script that reads it.
        config.extra["hand"] = [DATA, SCRIPT] if self.shown.hand else []
        config.extra["kept"] = {"manifest": MANIFEST, "icon": next(iter(ICONS))} if self.shown.kept else {}
        config.extra["finder"] = FIND if self.shown.hand else ""
        config.extra_css += [self.shown.style] if self.shown.style else []
        config.nav = _navigation(self.shown.pages)
        config.theme.static_templates.clear()
        lean_env(config.theme)
        return config

    def _read(self, config: MkDocsConfig) -> Pack:
        """The pack for `mkdocs serve`, read afresh on each rebuild."""
        folder = Path(config.config_file_path).parent / self.config.job
        try:
            compiled = compile_job(folder if folder.suffix == ".yaml" else folder / "job.yaml")
        except JobInvalid as invalid:
            raise PluginError("\n" + "\n".join(problem.one_line() for problem in invalid.problems))
        return pack_of(compiled, Audience(self.config.audience), self.say.gettext, looked_for(compiled, own_wording()))

    def on_files(self, files: Files, config: MkDocsConfig) -> Files:
        env = environment(self.say)
        for file in list(files):
            if _not_needed(file.src_uri, self.shown):
                files.remove(file)
        for page in self.shown.pages:
            done = render(page, env)
            file = File.generated(config, page.path.removesuffix(".html") + ".md", content="")
            files.append(file)
            ReadyPage(page, file, config, done.html, done.headings)
        return files

    # Beside the job stand the company's file and the equipment sheets: a change there is a change of the pages too.
    def on_serve(self, server: Any, config: MkDocsConfig, builder: Any) -> Any:
        server.watch(str((Path(config.config_file_path).parent / self.config.job).parent))
        return server

    def on_post_page(self, output: str, page: SitePage, config: MkDocsConfig) -> str:
        for name in ("drawer", "search"):
            fault = THEME_FAULT.format(name)
            if fault not in output:
                raise PluginError(f"the theme changed: {fault!r} is not in its page any more; look at THEME_FAULT")
            output = output.replace(fault, f' type="checkbox" id="__{name}"')
        return output if self.shown.searched else _without_script(output)

    # After the search has written its index.
    @event_priority(-100)
    def on_post_build(self, config: MkDocsConfig) -> None:
        index = os.path.join(config.site_dir, "search", "search_index.json")
        if os.path.exists(index):
            _for_files_too(index)
        for name, text in hand_files(self.shown.hand).items() if self.shown.hand else ():
            with open(os.path.join(config.site_dir, name), "w", encoding="utf-8", newline="\n") as handle:
                handle.write(text)


def _without_script(output: str) -> str:
    """The page without the theme's one inline script, which only its search needs."""
    before, script, rest = output.partition(THEME_SCRIPT)
    if not script:
        raise PluginError(f"the theme changed: {THEME_SCRIPT!r} is not in its page any more; look at THEME_SCRIPT")
    return before + rest.partition("</script>")[2]


def _for_files_too(index: str) -> None:
    """The search index a second time as a script: a page opened from a file may not fetch its neighbour."""
    with open(index, encoding="utf-8") as handle:
        data = json.load(handle)
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"), sort_keys=True)
    for name, content in ((index, text), (index[:-2], f"var __index = {text}")):
        with open(name, "w", encoding="utf-8") as handle:
            handle.write(content)


def _navigation(pages: tuple[Page, ...]) -> list[dict[str, Any]]:
    """The navigation in the order of the pages, those of a group together under its name."""
    out: list[dict[str, Any]] = []
    for page in pages:
        path = page.path.removesuffix(".html") + ".md"
        if not page.group:
            out.append({page.title: path})
        elif out and page.group in out[-1]:
            out[-1][page.group].append({page.title: path})
        else:
            out.append({page.group: [{page.title: path}]})
    return out


def _not_needed(uri: str, site: Site) -> bool:
    """Files that a site does not use: maps, splitters for other languages, palettes; other sites' styles; scripts where nothing searches, and
    the parts of our own, which is printed whole."""
    if uri in (HAND, MANUAL):
        return uri != site.style
    # The parts of the script; a pack gets them joined.
    if uri.startswith("hand/"):
        return True
    if uri.endswith(".map") or "/lunr/" in uri or "/palette." in uri or uri.endswith(("favicon.png", "sitemap.xml")):
        return True
    return not site.searched and (uri.startswith("assets/javascripts/") or uri == SHIM)
