"""The installer's pack in one file, to be carried where a folder cannot be opened: every page a part of it, its style and scripts inside,
nothing loaded, every link within the file.

It is printed from the same views by the same templates as the folder of pages. `SHORT` tells these to say once what a folder says on each
page; `LEFT_OUT` are pages that nobody needs in a hand. What is left out is said at the file's head.
"""
import re
from dataclasses import dataclass

from jinja2 import Template
from markupsafe import Markup

from generator.pages.cells import CellsView
from generator.pages.dates import DatesView
from generator.pages.installer.air import AirView
from generator.pages.installer.find import FIND
from generator.pages.installer.users import UsersView
from generator.pages.page import ON_PAPER, Link, Pack, Page
from generator.pages.rule_pages import RuleView
from generator.pages.sources import SourcesView
from generator.publish.drawing.thin_paths import thin_paths
from generator.publish.hand import script
from generator.publish.lean.page import lean_html
from generator.publish.lean.short_names import short_names
from generator.publish.lean.shorter import STRONG_STYLE, shorter
from generator.publish.lean.style import lean_css
from generator.publish.parts_of_file import as_parts, part_id, steps_of
from generator.publish.places import TEMPLATES
from generator.publish.pocket_data import LINES, pocket_data
from generator.publish.render import environment, render
from generator.terms.audience import Audience

NAME = "pocket.html"
FRAME = "installer/pocket.html.j2"
# The look of the pages, then what is different in one file.
STYLES = ("assets/doorpost.css", "assets/hand.css", "installer/pocket.css")
# Pages for the printer and for the office.
LEFT_OUT = (AirView, UsersView, CellsView, DatesView, RuleView, SourcesView)
# Most bytes of the file: what a chat or a mail carries at once, and a cheap phone opens while one waits.
MOST_BYTES = 1_000_000
LIST, WHOLE = "pages", "whole"
NAMED = re.compile(r' (?:class|id)=("[^"]*"|[^\s>]+)')
CHECKLIST, SOURCES = "tests.html", "sources.html"


@dataclass(frozen=True)
class Part:
    """One page as a part of the file; `html` is finished."""

    id: str
    html: Markup


@dataclass(frozen=True)
class Group:
    """Pages that stand together in the list of all; a group without a name holds pages of their own."""

    name: str
    pages: tuple[Link, ...]


@dataclass(frozen=True)
class Pocket:
    """The whole file. `start` is the first page's anchor, `list` that of the list of all, `whole` what shows everything, `finder` the finder's page, "" for none; `cited` are the sources
    that lines name by number, in their order, and `cited_at` is where they stand."""

    title: str
    start: str
    list: str
    whole: str
    finder: str
    cited_at: str
    cited: tuple[str, ...]
    left_out: tuple[str, ...]
    groups: tuple[Group, ...]
    parts: tuple[Part, ...]
    foot: tuple[str, ...]
    scripts: tuple[Markup, ...]


def pocket(pack: Pack, words) -> str:
    """The installer's pack as one HTML file. ValueError for the pack of another reader."""
    if pack.audience is not Audience.INSTALLER:
        raise ValueError(f"{pack.audience.value}: only the installer's pack is made into one file of this kind")
    env = environment(words).overlay()
    sources: dict[str, int] = {}
    said: set[str] = set()
    env.globals = {**env.globals, "short": True, "cited": lambda source: sources.setdefault(source, len(sources) + 1),
                   "new": lambda one: not (one in said or said.add(one))}
    pages = tuple(page for page in pack.pages if not is_left_out(page))
    printed = {page.path: render(page, env).html for page in pages}
    elsewhere = {page.path: part_id(page.path) if page.path == SOURCES else LIST for page in pack.pages if page.path not in printed}
    parts = tuple(Part(part_id(path), Markup(lean_html(shorter(thin_paths(html))))) for path, html in as_parts(printed, elsewhere).items())
    scripts = (pocket_data(pack.hand, printed[CHECKLIST], steps_of(printed)), script()) if pack.hand else ()
    style = "".join((TEMPLATES / name).read_text(encoding="utf-8") for name in STYLES if (TEMPLATES / name).is_file())
    view = Pocket(pack.stamp.title, part_id(pages[0].path), LIST, WHOLE, part_id(FIND) if FIND in printed else "", part_id(SOURCES), tuple(sources), left_out(pack), _groups(pages), parts,
                  pack.foot, tuple(map(Markup, scripts)))
    return _whole(view, env.get_template(FRAME), STRONG_STYLE.sub("b", style))


def _whole(view: Pocket, frame: Template, style: str) -> str:
    """The file with what of the style it needs."""
    page, script_tag, rest = frame.render(view=view).partition("<script>")
    page, own = short_names(page, lean_css(style, f"{' '.join(NAMED.findall(page))} {rest}"), ";".join((LINES, *view.scripts[1:])))
    return page.replace("<style></style>", f"<style>{own}</style>", 1) + script_tag + rest


def is_left_out(page: Page) -> bool:
    """Whether a page is for the printer or for the office."""
    return page.group == ON_PAPER or isinstance(page.view, LEFT_OUT)


def left_out(pack: Pack) -> tuple[str, ...]:
    """What the file does not hold, in words; what it does not hold because the pack has none is not named."""
    titles = [page.title for page in pack.pages if is_left_out(page)]
    return (*titles, "Blanks and boxes to write on: print the steps and the checklist from the folder", "How each figure was worked out: figure and limit stand here, formula and inputs do not",
            "On the page of a unit, what its papers say and the lines of its tests: those stand once, in the test checklist",
            "On the page of a unit, the full words of a safety message: its line leads to them, one tap away",
            "Links from a step or a call to its lines of the checklist, whose list stands here", "The code for inside each lid: print the sheets of labels from the folder", "The search in all pages")


def _groups(pages: tuple[Page, ...]) -> tuple[Group, ...]:
    out: list[Group] = []
    for page in pages:
        link = Link(f"#{part_id(page.path)}", page.title)
        if out and out[-1].name == page.group:
            out[-1] = Group(page.group, (*out[-1].pages, link))
        else:
            out.append(Group(page.group, (link,)))
    return tuple(out)
