"""The homeowner's pages in one file, to be sent: its style inside, no script, nothing loaded, every link within the file.

It is printed from the same views by the same templates as the folder of pages. Left out are, for want of a phone's camera, QR codes,
the page of cards that hold them and the list of their references; and the pages of sensors, as a file that is sent on must not show
where all of them are.
"""
import re
from dataclasses import dataclass

from markupsafe import Markup

from generator.pages.codes import CodesView
from generator.pages.homeowner.pack import ThingView
from generator.pages.labels import LabelsView
from generator.pages.page import Pack, Page
from generator.publish.render import environment, render
from generator.terms.audience import Audience

NAME = "homeowner.html"
FRAME = "homeowner/one_file.html.j2"
TOP = "top"
# A page for each thing is opened from a list or from its card: on paper there is neither.
ON_SCREEN = (ThingView,)
ID = re.compile(r'(?<= )id="([^"]+)"')
LINK = re.compile(r'(?<= )href="([^"]*)"')
HEADING = re.compile(r"(</?h)([1-5])\b")


@dataclass(frozen=True)
class Section:
    """One page as a part of the file; `html` is finished. `on_screen` is true for what nobody needs on paper."""

    id: str
    html: Markup
    on_screen: bool


@dataclass(frozen=True)
class OneFile:
    """The whole file."""

    title: str
    top: str
    sections: tuple[Section, ...]
    foot: tuple[str, ...]


def one_file(pack: Pack, words) -> str:
    """The homeowner's pack as one HTML file. ValueError for the pack of another reader."""
    if pack.audience is not Audience.HOMEOWNER:
        raise ValueError(f"{pack.audience.value}: only the homeowner's pack is made into one file")
    env = environment(words).overlay()
    env.globals = {**env.globals, "qr": lambda payload: ""}
    pages = [page for page in pack.pages if _sent(page.view)]
    sections = tuple(Section(section_id(page.path), _section(page, render(page, env).html), isinstance(page.view, ON_SCREEN)) for page in pages)
    return env.get_template(FRAME).render(view=OneFile(pack.stamp.title, TOP, sections, pack.foot))


def _sent(view: object) -> bool:
    return not isinstance(view, LabelsView | CodesView) and not (isinstance(view, ThingView) and view.sensor)


def section_id(path: str) -> str:
    """The anchor of a page: its path without folder marks and ending.

    >>> section_id("d/3nrw.html")
    'd-3nrw'
    """
    return path.removesuffix(".html").replace("/", "-")


def _section(page: Page, html: str) -> Markup:
    """A page's content with headings one level lower, anchors of its own, and links that stay within the file."""
    own = section_id(page.path)
    html = HEADING.sub(lambda match: f"{match[1]}{int(match[2]) + 1}", html)
    html = ID.sub(lambda match: f'id="{own}-{match[1]}"', html)
    return Markup(LINK.sub(lambda match: f'href="{_within(page, match[1])}"', html))


def _within(page: Page, href: str) -> str:
    """A link to another page as a link to its section; a telephone number stays one."""
    if href.startswith("tel:"):
        return href
    path, _, anchor = href.removeprefix(page.root).partition("#")
    return "#" + "-".join(filter(None, (section_id(path or page.path), anchor)))
