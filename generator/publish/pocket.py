"""The installer's pack in one file, to be carried where a folder cannot be opened: every page a part of it, its style and scripts inside,
nothing loaded, every link within the file.

It is printed from the same views by the same templates as the folder of pages. `SHORT` tells these to say once what a folder says on each
page; `LEFT_OUT` are pages that nobody needs in a hand. What is left out is said at the file's head.
"""
import re
from collections import Counter
from dataclasses import dataclass

from markupsafe import Markup

from generator.pages.labels import LabelsView
from generator.pages.page import Link, Pack, Page
from generator.pages.sources import SourcesView
from generator.publish.hand import data_script, script
from generator.publish.lean_css import lean_css
from generator.publish.lean_html import lean_html
from generator.publish.places import TEMPLATES
from generator.publish.qr import qr_image
from generator.publish.render import environment, render
from generator.terms.audience import Audience

NAME = "pocket.html"
FRAME = "installer/pocket.html.j2"
# The look of the pages, then what is different in one file.
STYLES = ("assets/doorpost.css", "assets/hand.css", "installer/pocket.css")
LEFT_OUT = (LabelsView, SourcesView)
# Most bytes of the file: what a chat or a mail carries at once, and a cheap phone opens while one waits.
MOST_BYTES = 1_000_000
LIST, WHOLE = "pages", "whole"
STEPS = "steps/"
ID = re.compile(r'(?<= )id="([^"]+)"')
REFERS = re.compile(r'(?<= )(for|aria-labelledby|aria-describedby)="([^"]+)"')
LINK = re.compile(r'(?<= )href="([^"]*)"')


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
    """The whole file. `start` is the first page's anchor, `list` that of the list of all, `whole` what shows everything."""

    title: str
    start: str
    list: str
    whole: str
    left_out: tuple[str, ...]
    groups: tuple[Group, ...]
    parts: tuple[Part, ...]
    foot: tuple[str, ...]
    style: Markup
    scripts: tuple[Markup, ...]


def pocket(pack: Pack, words) -> str:
    """The installer's pack as one HTML file. ValueError for the pack of another reader."""
    if pack.audience is not Audience.INSTALLER:
        raise ValueError(f"{pack.audience.value}: only the installer's pack is made into one file of this kind")
    env = environment(words).overlay()
    env.globals = {**env.globals, "qr": qr_image, "short": True}
    pages = tuple(page for page in pack.pages if not isinstance(page.view, LEFT_OUT))
    printed = {page.path: render(page, env).html for page in pages}
    anchors = _anchors(printed)
    parts = tuple(Part(part_id(path), Markup(lean_html(_within(path, html, anchors)))) for path, html in printed.items())
    scripts = (data_script(pack.hand), script()) if pack.hand else ()
    style = "".join((TEMPLATES / name).read_text(encoding="utf-8") for name in STYLES if (TEMPLATES / name).is_file())
    frame = env.get_template(FRAME)
    view = Pocket(pack.stamp.title, part_id(pages[0].path), LIST, WHOLE, left_out(pack), _groups(pages), parts, pack.foot, Markup(""),
                  tuple(map(Markup, scripts)))
    bare = frame.render(view=view)
    return frame.render(view=Pocket(**{**view.__dict__, "style": Markup(lean_css(style, bare))}))


def part_id(path: str) -> str:
    """The anchor of a page: its path without ending, with a dash for what is no letter or digit.

    >>> part_id("d/3nrw.html")
    'd-3nrw'
    """
    return re.sub(r"\W+", "-", path.removesuffix(".html"))


def left_out(pack: Pack) -> tuple[str, ...]:
    """What the file does not hold, in words; what it does not hold because the pack has none is not named."""
    titles = [page.title for page in pack.pages if isinstance(page.view, LEFT_OUT)]
    return (*titles, "How each figure was worked out: figure and limit stand here, formula and inputs do not",
            "On the page of a unit, what its papers say and the lines of its tests: those stand once, in the test checklist",
            "On the page of a unit, the full words of a safety message: its line leads to them, one tap away",
            "The search in all pages")


def _anchors(printed: dict[str, str]) -> dict[tuple[str, str], str]:
    """The file's anchor for each of a page's. Those of steps stay as they are, since all that is written down is named by them; of others, those
    that more than one page has get their page's name before them."""
    own = {path: ID.findall(html) for path, html in printed.items()}
    count = Counter([one for ids in own.values() for one in ids] + [LIST, WHOLE, *map(part_id, printed)])
    steps = {one for path, ids in own.items() if path.startswith(STEPS) for one in re.findall(r' data-step="([^"]+)"', printed[path]) if one in ids}
    out = {}
    for path, ids in own.items():
        for one in ids:
            kept = one in steps and path.startswith(STEPS) or count[one] == 1
            out[path, one] = one if kept else f"{part_id(path)}-{one}"
    twice = [one for one, times in Counter([*out.values(), LIST, WHOLE, *map(part_id, printed)]).items() if times > 1]
    if twice:
        raise ValueError(f"two places of {NAME} would be called {', '.join(twice)}")
    return out


def _within(path: str, html: str, anchors: dict[tuple[str, str], str]) -> str:
    """A page's content with anchors of its own, and links that stay within the file."""
    html = ID.sub(lambda match: f'id="{anchors[path, match[1]]}"', html)
    html = REFERS.sub(lambda match: f'{match[1]}="{" ".join(anchors.get((path, one), one) for one in match[2].split())}"', html)
    return LINK.sub(lambda match: f'href="{_href(path, match[1], anchors)}"', html)


def _href(path: str, href: str, anchors: dict[tuple[str, str], str]) -> str:
    """A link to a page as one to its part; one to a page that is left out leads to the words that say so. A telephone number stays one."""
    if href.startswith("tel:"):
        return href
    page, _, anchor = href.removeprefix("../" * path.count("/")).partition("#")
    page = page or path
    if anchor:
        return f"#{anchors.get((page, anchor), LIST)}"
    return f"#{part_id(page)}" if any(known == page for known, _ in anchors) else f"#{LIST}"


def _groups(pages: tuple[Page, ...]) -> tuple[Group, ...]:
    out: list[Group] = []
    for page in pages:
        link = Link(f"#{part_id(page.path)}", page.title)
        if out and out[-1].name == page.group:
            out[-1] = Group(page.group, (*out[-1].pages, link))
        else:
            out.append(Group(page.group, (link,)))
    return tuple(out)
